"""Bodies and stages: what fits together, what is carried over, and what is refused."""

from __future__ import annotations

import math

import pytest

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts import food_table
from ladleworth.facts.heat import components, estimate, heat_limit
from ladleworth.keep.bodies import FOREVER, Body, Face, Layer, Matter, Shape, Stage, through
from ladleworth.keep.conduction import run
from ladleworth.keep.course import follow
from ladleworth.keep.modes import wall
from ladleworth.keep.rounds import ball, round_rod

MATTER = Matter(0.5, 1040, 3700)
SLAB = Body(Shape.SLAB, (Layer(MATTER, 0.04),))
BODIES = {
    Shape.SLAB: SLAB,
    Shape.BRICK: Body(Shape.BRICK, (Layer(MATTER, 0.04),), 0.18, 0.13),
    Shape.CYLINDER: Body(Shape.CYLINDER, (Layer(MATTER, 0.09),), diameter_m=0.08),
    Shape.LONG_CYLINDER: Body(Shape.LONG_CYLINDER, (Layer(MATTER, 0.06),)),
    Shape.SPHERE: Body(Shape.SPHERE, (Layer(MATTER, 0.06),)),
}


def faces(shape: Shape, exchange: float, around: float) -> tuple[Face, ...]:
    return (Face(exchange, around),) * len(shape.faces)


@pytest.mark.parametrize("shape", list(Shape))
def test_an_insulated_body_keeps_its_temperature(shape: Shape) -> None:
    course = follow(BODIES[shape], [Stage(36_000, faces(shape, 0, 4))], 60)
    seen = course.at([0, 60, 36_000])
    for column in (seen.hottest, seen.coldest, seen.mean):
        assert column == pytest.approx(60, abs=1e-9)
    assert course.when("hottest", 50) is None


@pytest.mark.parametrize("shape", list(Shape))
def test_a_stage_cut_in_two_changes_nothing(shape: Shape) -> None:
    whole = follow(BODIES[shape], [Stage(7200, faces(shape, 12, 4))], 60)
    parts = [Stage(1800, faces(shape, 12, 4)), Stage(5400, faces(shape, 12, 4))]
    cut = follow(BODIES[shape], parts, 60)
    for seconds in (900.0, 2700.0, 7200.0):
        one, other = whole.at([seconds]), cut.at([seconds])
        assert one.hottest[0] == pytest.approx(other.hottest[0], abs=1e-6)
        assert one.mean[0] == pytest.approx(other.mean[0], abs=1e-6)


@pytest.mark.parametrize("shape", list(Shape))
def test_heat_that_leaves_is_heat_that_is_lost(shape: Shape) -> None:
    """The mean falls as fast as the faces give off: by a small step of time."""
    body, face = BODIES[shape], faces(shape, 10, 4)
    course = follow(body, [Stage(20_000, face)], 60)
    before, after = course.at([6000.0]), course.at([6001.0])
    fall = float(before.mean[0] - after.mean[0])
    stores = MATTER.density_kg_m3 * MATTER.heat_capacity_j_kgk
    if shape in (Shape.LONG_CYLINDER, Shape.SPHERE):
        size = {Shape.LONG_CYLINDER: 4, Shape.SPHERE: 6}[shape] / body.depth_m
        given = 10 * (float(course.at([6000.5]).faces[0, 0]) - 4) * size / stores
        assert fall == pytest.approx(given, rel=1e-3)
    else:
        assert 0 < fall < 10 * 56 * (2 / body.depth_m + 4 / 0.08) / stores


def test_stirring_brings_all_to_the_mean_and_loses_nothing() -> None:
    bath = (Face(8, 20), Face(200, 0.5))
    still = follow(SLAB, [Stage(300, bath), Stage(60, faces(Shape.SLAB, 0, 0))], 60)
    stirred = follow(SLAB, [Stage(300, bath, 300), Stage(60, faces(Shape.SLAB, 0, 0))], 60)
    mean = float(still.at([330]).mean[0])
    seen = stirred.at([330])
    assert [float(c[0]) for c in (seen.hottest, seen.coldest, seen.mean)] == pytest.approx(
        [mean] * 3, abs=1e-3
    )
    assert float(still.at([330]).hottest[0]) > mean + 1


def test_the_hottest_point_may_be_a_face() -> None:
    course = follow(SLAB, [Stage(40_000, (Face(50, 60), Face(5, 4)))], 20)
    seen = course.at([30_000])
    assert seen.hottest[0] == pytest.approx(seen.faces[0, 0])
    assert seen.coldest[0] == pytest.approx(seen.faces[0, 1])


def test_a_limit_is_found_at_a_stirring_too() -> None:
    bath = (Face(8, 20), Face(200, 0.5))
    course = follow(SLAB, [Stage(1200, bath, 600), Stage(FOREVER, faces(Shape.SLAB, 5, 2))], 60)
    before, after = course.at([599.0]).hottest[0], course.at([601.0]).hottest[0]
    level = float(before + after) / 2
    assert course.when("hottest", level) == pytest.approx(600, abs=1)


@pytest.mark.parametrize(
    "build",
    [
        lambda u: wall(MATTER, 0.04, u, u, 5),
        lambda u: round_rod(MATTER, 0.04, u, 5),
        lambda u: ball(MATTER, 0.04, u, 5),
    ],
)
def test_a_hard_held_face_is_the_limit_of_a_great_exchange(build: object) -> None:
    one, other = (build(exchange) for exchange in (1e6, 1e7))  # type: ignore[operator]
    assert one.rates[0] == pytest.approx(other.rates[0], rel=1e-4)
    assert math.isfinite(one.means.sum())


@pytest.mark.parametrize(
    ("stages", "message"),
    [
        ([], "there is no stage"),
        ([Stage(60, (Face(8, 4),))], "stage 1 has 1 faces; a slab has 2: top, bottom"),
        ([Stage(FOREVER, (Face(8, 4),) * 2), Stage(60, (Face(8, 4),) * 2)], "only the last stage"),
        ([Stage(FOREVER, (Face(8, 4),) * 2, 60)], "stirred for ever"),
    ],
)
def test_stages_that_do_not_fit_are_refused(stages: list[Stage], message: str) -> None:
    with pytest.raises(BadField, match=message):
        run(SLAB, stages, 60)


def test_records_refuse_what_cannot_be() -> None:
    for build, message in (
        (lambda: Matter(0, 1, 1), "conductivity_w_mk is 0"),
        (lambda: Matter(1, math.nan, 1), "density_kg_m3 is nan"),
        (lambda: Layer(MATTER, 0), "thickness_m is 0"),
        (lambda: Body(Shape.BRICK, (Layer(MATTER, 1),), 1), "width_m is missing"),
        (lambda: Body(Shape.SLAB, (Layer(MATTER, 1),), 1), "length_m does not belong there"),
        (lambda: Body(Shape.SPHERE, (Layer(MATTER, 1),) * 2), "has 2 layers"),
        (lambda: Face(-1, 4), "exchange_w_m2k is -1"),
        (lambda: Face(1, math.inf), "surroundings_c is inf"),
        (lambda: Stage(0, ()), "seconds is 0"),
    ):
        with pytest.raises(BadField, match=message):
            build()  # type: ignore[no-untyped-call]


def test_times_outside_the_stages_are_refused() -> None:
    course = follow(SLAB, [Stage(60, faces(Shape.SLAB, 8, 4))], 60)
    with pytest.raises(BadField, match="ask for 0 to 60 s"):
        course.at([61])


def test_resistances_stand_before_the_exchange() -> None:
    # 1/(1/8 + 0.12) = 4.0816 by arithmetic
    assert through(8, 0.12) == pytest.approx(4.0816, abs=1e-4)
    assert through(0, 0.12) == 0


def test_every_component_names_its_source_and_keeps_within_its_range() -> None:
    assert len(components()) == 21
    for (name, component), figure in components().items():
        assert food_table().source(figure.source).title, (name, component)
        assert figure.basis == "read"
    with pytest.raises(BadField, match="ask for -40 to 0 °C"):
        components()["density", "ice"].at(5)
    for look_up in (estimate, heat_limit):
        with pytest.raises(MissingFact, match="nobody has"):
            look_up("luck")
