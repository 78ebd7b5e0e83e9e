"""How a body cools through its stages: the profile is carried over from each to the next, never started anew."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np

from ladleworth.errors import BadField
from ladleworth.keep.bodies import Body, Shape, Stage
from ladleworth.keep.layers import cells_of, layered
from ladleworth.keep.legs import Base, Leg, Readings, outer
from ladleworth.keep.modes import (
    LEAST_TERMS,
    MOST_TERMS,
    SHARP,
    Array,
    Direction,
    carried_over,
    places_of,
    terms_for,
    wall,
)
from ladleworth.keep.rounds import ball, round_rod

POINTS = 65
"""Points through the depth of a slab, or outwards in a ball, at which the hottest is looked for."""

POINTS_WITH_SIDES, POINTS_ASIDE = 33, 3
"""The same for a body with sides: through its depth, and from its middle to each side."""

WITH_SIDES, ASIDE = (120, SHARP, 32, 96), (300, 3.0, 12, 40)
"""Seconds, sharpness, least and most terms of a body with sides: through its depth or radius, and from middle to side."""


def run(body: Body, stages: Sequence[Stage], start_c: float) -> tuple[Leg, ...]:
    """Let a body go through its stages.

    Parameters
    ----------
    body
        The body.
    stages
        One or more; only the last may be endless, and no endless one is stirred.
    start_c
        Its temperature at the start, °C; a layer with a temperature of its own begins at that.

    Returns
    -------
    tuple of Leg
        In order of time; a stage that is stirred is parted at each stirring.

    Raises
    ------
    BadField
        If a stage does not fit the shape, or an endless one is stirred or is not the last.
    """
    _check(body, stages)
    legs: list[Leg] = []
    is_mixed = False
    for stage in stages:
        for seconds, is_stirred in _stretches(stage):
            legs.append(_next_leg(body, stage, seconds, legs, start_c, mixed=is_mixed))
            is_mixed = is_stirred
    return tuple(legs)


def _check(body: Body, stages: Sequence[Stage]) -> None:
    if not stages:
        raise BadField("there is no stage; write at least one")
    for number, stage in enumerate(stages, 1):
        wanted = len(body.shape.faces)
        if len(stage.faces) != wanted:
            raise BadField(
                f"stage {number} has {len(stage.faces)} faces; a {body.shape.value} has {wanted}: "
                f"{', '.join(body.shape.faces)}"
            )
        if math.isinf(stage.seconds) and number < len(stages):
            raise BadField(f"stage {number} has no end; only the last stage may have none")
        if math.isinf(stage.seconds) and stage.stir_every_s is not None:
            raise BadField(f"stage {number} is stirred for ever; say how long it lasts")


def _stretches(stage: Stage) -> Iterable[tuple[float, bool]]:
    """Part a stage at its stirrings: lengths, and whether the food is mixed after each."""
    if stage.stir_every_s is None or stage.stir_every_s > stage.seconds:
        yield stage.seconds, False
        return
    number = math.floor(stage.seconds / stage.stir_every_s + 1e-9)
    for _ in range(number):
        yield stage.stir_every_s, True
    rest = stage.seconds - number * stage.stir_every_s
    if rest > 1e-6 * stage.seconds:
        yield rest, False


def _next_leg(
    body: Body, stage: Stage, seconds: float, legs: Sequence[Leg], start_c: float, *, mixed: bool
) -> Leg:
    directions = _directions(body, stage)
    around = np.array([face.surroundings_c for face in stage.faces])
    base, settled = _settled(body, stage, directions)
    at_base = outer([directions[0].taken_apart(base.nodes), *(one.means for one in directions[1:])])
    start_s = legs[-1].start_s + legs[-1].seconds if legs else 0.0
    exchanging = around[[face.exchange_w_m2k > 0 for face in stage.faces]]
    profile, held, first = _opening(body, directions, legs, start_c, mixed=mixed)
    bounds = (min([held[0], *exchanging]), max([held[1], *exchanging]))
    return Leg(
        body.shape, start_s, seconds, directions, base, settled, profile - at_base, bounds, around, first
    )


def _opening(
    body: Body, directions: tuple[Direction, ...], legs: Sequence[Leg], start_c: float, *, mixed: bool
) -> tuple[Array, tuple[float, float], Readings | None]:
    """Give the profile that a leg begins with, what it lies between, and its readings where they are known."""
    whole = outer([one.means for one in directions])
    if not legs:
        own = [start_c if layer.start_c is None else layer.start_c for layer in body.layers]
        if len(own) == 1:
            return whole * own[0], (own[0], own[0]), Readings.uniform(body.shape, own[0])
        profile = np.repeat(np.array(own), cells_of(body.layers))
        return directions[0].taken_apart(profile), (min(own), max(own)), None
    last = legs[-1]
    amounts, mean = last.at_end()
    if mixed:
        return whole * mean, (mean, mean), Readings.uniform(body.shape, mean)
    return _carried(last, directions, amounts), last.bounds, last.readings(np.array([last.seconds]))


def _directions(body: Body, stage: Stage) -> tuple[Direction, ...]:
    """Take a body apart, as its faces are in a stage."""
    matter, depth = body.matter, body.depth_m
    exchange = [face.exchange_w_m2k for face in stage.faces]
    if body.shape is Shape.SLAB:
        if len(body.layers) > 1:
            return (layered(body.layers, *exchange),)
        many = terms_for(matter, depth, 60, SHARP, LEAST_TERMS, MOST_TERMS)
        return (wall(matter, depth, exchange[0], exchange[1], POINTS, many),)
    if body.shape in (Shape.LONG_CYLINDER, Shape.SPHERE):
        many = terms_for(matter, depth / 2, 60, SHARP, LEAST_TERMS, MOST_TERMS)
        outwards = round_rod if body.shape is Shape.LONG_CYLINDER else ball
        return (outwards(matter, depth / 2, exchange[0], POINTS, many),)
    many = terms_for(matter, depth, *WITH_SIDES)
    upright = wall(matter, depth, exchange[0], exchange[1], POINTS_WITH_SIDES, many)
    if body.shape is Shape.CYLINDER:
        assert body.diameter_m is not None
        radius = body.diameter_m / 2
        many = terms_for(matter, radius, *WITH_SIDES)
        return upright, round_rod(matter, radius, exchange[2], POINTS_ASIDE, many)
    assert body.length_m is not None
    assert body.width_m is not None
    halves = (body.length_m / 2, body.width_m / 2)
    aside = (
        wall(matter, half, 0.0, side, POINTS_ASIDE, terms_for(matter, half, *ASIDE))
        for half, side in zip(halves, exchange[2:], strict=True)
    )
    return upright, *aside


def _settled(body: Body, stage: Stage, directions: tuple[Direction, ...]) -> tuple[Base, Array]:
    """Give what a body tends to in a stage: a straight line from top to bottom, and amounts of the terms beside it."""
    around = [face.surroundings_c for face in stage.faces]
    first = directions[0]
    is_upright = body.shape in (Shape.SLAB, Shape.BRICK, Shape.CYLINDER) and len(body.layers) == 1
    top, bottom = _straight(body, stage) if is_upright else (around[-1], around[-1])
    nodes = top + (bottom - top) * places_of(len(first.nodes), 0)[0]
    base = Base(np.linspace(top, bottom, len(first.at_points)), nodes, (top + bottom) / 2)
    forced = np.zeros([len(one.rates) for one in directions])
    if len(body.layers) > 1:
        forced += (first.forces * (np.array(around)[:, None] - top)).sum(axis=0)
    for at, level in enumerate(around[2:], 1):
        if len(directions) > 1 and (top != level or bottom != level):
            parts = [first.taken_apart(level - nodes), *(one.means for one in directions[1:])]
            parts[at] = directions[at].forces[-1]
            forced += outer(parts)
    rates = directions[0].rates
    for one in directions[1:]:
        rates = np.add.outer(rates, one.rates)
    settled: Array = np.divide(forced, rates, out=np.zeros_like(forced), where=rates > 1e-15)
    return base, settled


def _straight(body: Body, stage: Stage) -> tuple[float, float]:
    """Give top and bottom of the straight line that a body without sides tends to, °C."""
    top, bottom = stage.faces[:2]
    if top.surroundings_c == bottom.surroundings_c:
        return top.surroundings_c, top.surroundings_c
    passes = body.matter.conductivity_w_mk / body.depth_m
    if top.exchange_w_m2k + bottom.exchange_w_m2k == 0:
        return stage.faces[-1].surroundings_c, stage.faces[-1].surroundings_c
    matrix = np.array([[passes + top.exchange_w_m2k, -passes], [-passes, passes + bottom.exchange_w_m2k]])
    gains = [face.exchange_w_m2k * face.surroundings_c for face in (top, bottom)]
    first, last = np.linalg.solve(matrix, gains)
    return float(first), float(last)


def _carried(last: Leg, directions: tuple[Direction, ...], amounts: Array) -> Array:
    """Carry a profile over to the terms of the next stage."""
    carried = amounts
    for at, (one, before) in enumerate(zip(directions, last.directions, strict=True)):
        carried = np.moveaxis(np.tensordot(carried_over(before, one), carried, axes=(1, at)), 0, at)
    base = [directions[0].taken_apart(last.base.nodes), *(one.means for one in directions[1:])]
    found: Array = carried + outer(base)
    return found
