"""The series against finite volumes that are written for these tests alone (finite_volume.py): random cases in stages."""

from __future__ import annotations

import random

import numpy as np
import pytest
from tests.published.finite_volume import Food, Spell, box, round_box, slab, stepped

from ladleworth.keep.bodies import Body, Face, Layer, Matter, Shape, Stage
from ladleworth.keep.course import follow
from ladleworth.keep.frozen import FreezingMatter, follow_freezing
from ladleworth.keep.skin import follow_with_skin

WITHIN = 0.005
"""Of the widest span of temperatures of the case, and of a time to a limit."""


def food(draw: random.Random) -> tuple[Food, Matter]:
    values = draw.uniform(0.3, 0.6), draw.uniform(850, 1150), draw.uniform(3000, 4000)
    return Food(*values), Matter(*values)


def spells(draw: random.Random, faces: int, *, stirred: bool) -> list[Spell]:
    """Draw two to four spells; with sides, warm surroundings only behind a weak exchange: no corner is looked at."""
    found = []
    for _ in range(draw.randint(2, 4)):
        told = []
        for _ in range(faces):
            exchange = draw.choice([0.0, 3.0, 5.0, 8.0, 20.0, 200.0])
            warm = [20.0] if faces == 2 or exchange <= 8 else []
            told.append((exchange, draw.choice([-5.0, 0.5, 3.0, *warm])))
        found.append(Spell(60.0 * draw.randint(10, 150), tuple(told), stirred and draw.random() < 0.4))
    return found


def stages(told: list[Spell]) -> list[Stage]:
    return [
        Stage(
            spell.seconds,
            tuple(Face(*face) for face in spell.faces),
            spell.seconds if spell.mixed_at_end else None,
        )
        for spell in told
    ]


def differ(body: Body, told: list[Spell], start: float, reference: tuple[np.ndarray, ...]) -> float:
    """Give the greatest difference, as a share of the span of temperatures."""
    times, hottest, means = reference
    course = follow(body, stages(told), start)
    ends = np.cumsum([spell.seconds for spell in told])
    # at a stirring the two look at either side of it: leave these moments out
    looked = np.array(
        [time for time in times if time >= 60 and np.abs(ends[:-1] - time).min(initial=9e9) > 1]
    )
    seen = course.at(np.minimum(looked, ends[-1] - 2))
    span = start - min(around for spell in told for _, around in spell.faces)
    off = np.abs(seen.hottest - np.interp(looked, times, hottest)).max()
    return float(max(off, np.abs(seen.mean - np.interp(looked, times, means)).max()) / span)


@pytest.mark.parametrize("seed", range(100))
def test_a_slab_in_stages_agrees(seed: int) -> None:
    draw = random.Random(seed)
    plain, matter = food(draw)
    depth, start = draw.uniform(0.01, 0.10), draw.uniform(57, 90)
    told = spells(draw, 2, stirred=seed % 3 == 0)
    reference = stepped(slab(plain, depth, 90), plain, told, start, 12.0)
    assert differ(Body(Shape.SLAB, (Layer(matter, depth),)), told, start, reference) < WITHIN
    course = follow(Body(Shape.SLAB, (Layer(matter, depth),)), stages(told), start)
    times, hottest, _ = reference
    for level in (40.0, 21.1111):
        below = np.flatnonzero(hottest <= level)
        found = course.when("hottest", level)
        if len(below) and times[below[0]] < times[-1] - 120:
            assert found == pytest.approx(times[below[0]], rel=WITHIN, abs=25)


@pytest.mark.parametrize("seed", range(12))
def test_a_slab_in_layers_agrees_with_the_same_food_in_one(seed: int) -> None:
    draw = random.Random(1000 + seed)
    plain, matter = food(draw)
    depth, start = draw.uniform(0.02, 0.08), 70.0
    told = spells(draw, 2, stirred=seed % 2 == 0)
    cut = draw.uniform(0.2, 0.8) * depth
    layers = (Layer(matter, cut), Layer(matter, depth - cut))
    reference = stepped(slab(plain, depth, 90), plain, told, start, 12.0)
    assert differ(Body(Shape.SLAB, layers), told, start, reference) < WITHIN


@pytest.mark.parametrize("seed", range(8))
def test_a_round_one_agrees_with_surroundings_that_differ_by_face(seed: int) -> None:
    draw = random.Random(2000 + seed)
    plain, matter = food(draw)
    height, diameter = draw.uniform(0.03, 0.10), draw.uniform(0.06, 0.16)
    told = spells(draw, 3, stirred=seed % 2 == 0)
    reference = stepped(round_box(plain, height, diameter, 36, 24), plain, told, 75.0, 30.0)
    body = Body(Shape.CYLINDER, (Layer(matter, height),), diameter_m=diameter)
    assert differ(body, told, 75.0, reference) < 2 * WITHIN


@pytest.mark.parametrize("seed", range(3))
def test_a_box_agrees_with_surroundings_that_differ_by_face(seed: int) -> None:
    draw = random.Random(3000 + seed)
    plain, matter = food(draw)
    sizes = draw.uniform(0.03, 0.06), draw.uniform(0.10, 0.2), draw.uniform(0.08, 0.15)
    told = spells(draw, 4, stirred=seed % 2 == 0)[:2]
    reference = stepped(box(plain, sizes, (18, 11, 11)), plain, told, 75.0, 60.0)
    body = Body(Shape.BRICK, (Layer(matter, sizes[0]),), sizes[1], sizes[2])
    assert differ(body, told, 75.0, reference) < 3 * WITHIN


def test_a_product_of_single_directions_is_what_a_box_does_in_even_surroundings() -> None:
    # The rule of every textbook: theta of a box is the product of its walls'. And in stages with one temperature around
    # at a time, by superposition: T = Tn + (Ti - T1) u(0, t) + sum (Tj - Tj+1) u(tj+1, t).
    matter = Matter(0.5, 1040, 3700)
    sizes, start, around, change = (0.05, 0.10, 0.15), 57.2222, (20.0, 4.0), 1800.0
    body = Body(Shape.BRICK, (Layer(matter, sizes[0]),), sizes[1], sizes[2])
    course = follow(
        body, [Stage(change, (Face(8, around[0]),) * 4), Stage(20_000, (Face(6, around[1]),) * 4)], start
    )

    def unit(first_s: float, last_s: float) -> float:
        """Give the product of the walls' own courses from 1 in surroundings of 0, through both exchanges."""
        product = 1.0
        for size in sizes:
            one = Body(Shape.SLAB, (Layer(matter, size),))
            told = [Stage(first_s, (Face(8, 0),) * 2)] if first_s else []
            walls = follow(one, [*told, Stage(30_000, (Face(6, 0),) * 2)], 1.0)
            product *= float(walls.at([first_s + last_s]).hottest[0])
        return product

    for later in (1200.0, 5400.0, 15_000.0):
        by_rule = (
            around[1] + (start - around[0]) * unit(change, later) + (around[0] - around[1]) * unit(0, later)
        )
        assert float(course.at([change + later]).hottest[0]) == pytest.approx(by_rule, abs=0.002)


@pytest.mark.parametrize(
    ("depth", "exchange", "air"), [(0.03, 20, -20), (0.051, 20, -20), (0.076, 20, -20), (0.05, 8, -18)]
)
def test_a_skin_held_at_freezing_is_slower_than_ice_and_close_to_it(
    depth: float, exchange: float, air: float
) -> None:
    # Against the enthalpy method, which reckons the ice that forms while the middle is still warm.
    matter = Matter(0.5, 1040, 3600)
    ice = FreezingMatter(matter, 1.5, 2000, -1.0, 0.71, 333_600)
    faces = (Face(exchange, air),) * 2
    truth = follow_freezing(ice, depth, [(200_000.0, faces)], 57.2222)
    held, froze = follow_with_skin(
        Body(Shape.SLAB, (Layer(matter, depth),)), [Stage(200_000.0, faces)], 57.2222, -1.0
    )
    for level, furthest in ((21.1111, 1.03), (5.0, 1.15)):
        ours, theirs = held.when("hottest", level), truth.when("hottest", level)
        assert ours is not None
        assert theirs is not None
        assert 0.998 <= ours / theirs <= furthest
    assert froze


def test_the_cells_that_hold_ice_agree_with_the_series_where_none_forms() -> None:
    matter = Matter(0.5, 1040, 3700)
    ice = FreezingMatter(matter, 1.5, 2000, -1.0, 0.71, 333_600)
    faces = (Face(7, 4), Face(5, 4))
    series = follow(Body(Shape.SLAB, (Layer(matter, 0.05),)), [Stage(90_000.0, faces)], 57.2222)
    cells = follow_freezing(ice, 0.05, [(90_000.0, faces)], 57.2222)
    for level in (40.0, 21.1111, 5.0):
        assert cells.when("hottest", level) == pytest.approx(series.when("hottest", level), rel=5e-4)


def test_a_very_deep_body_is_right_from_the_first_minutes_on() -> None:
    # A metre of food: for an hour each face cools as a half space does. Textbook solution for convection at its surface
    # (Incropera, from memory): T = Ti + (Ta - Ti) (1 - exp(h² a t/k²) erfc(h sqrt(a t)/k)).
    from scipy.special import erfcx

    matter = Matter(0.5, 1040, 3700)
    for shape, sizes, first_s in ((Shape.SLAB, (), 300.0), (Shape.BRICK, (1.0, 1.0), 900.0)):
        face = Face(200, 0)
        body = Body(shape, (Layer(matter, 1.0),), *sizes)
        course = follow(body, [Stage(3600.0, (face,) * len(shape.faces))], 60.0)
        for seconds in (first_s, 3600.0):
            along = 200 * np.sqrt(matter.diffusivity_m2_s * seconds) / 0.5
            seen = course.at([seconds])
            assert float(seen.faces[0, 0]) == pytest.approx(60 * float(erfcx(along)), abs=0.05), (
                shape,
                seconds,
            )
            assert float(seen.hottest[0]) == pytest.approx(60.0, abs=0.01)
