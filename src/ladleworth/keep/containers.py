"""A filled container as a body of food, and the plan of where it stands as stages of its cooling."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ladleworth.errors import BadField
from ladleworth.facts.heat import limit_c
from ladleworth.keep.bodies import FOREVER, Body, Layer, Matter, Shape, Stage
from ladleworth.keep.materials import Makeup, density_kg_m3, matter_between, slow_matter
from ladleworth.keep.surroundings import (
    WARMED_MIN,
    Case,
    Lid,
    Spot,
    Surroundings,
    Wall,
    lower_face,
    side_face,
    upper_face,
)


@dataclass(frozen=True, slots=True)
class FilledContainer:
    """A container with food in it.

    Parameters
    ----------
    depth_mm
        How deep the food stands.
    length_mm, width_mm
        The footprint of a box; both or neither.
    diameter_mm
        The footprint of a round one. Without any footprint no heat is reckoned to leave by the sides.
    lid, wall
        What is over it, and what it is made of.
    apart
        Whether it stands with free air all round. None: not said, so that its sides count in the middle case only.
    stacked
        How many stand on each other without a gap: together one deep slab.
    """

    depth_mm: float
    length_mm: float | None = None
    width_mm: float | None = None
    diameter_mm: float | None = None
    lid: Lid = Lid.OFF
    wall: Wall = Wall.PLASTIC
    apart: bool | None = None
    stacked: int = 1

    def __post_init__(self) -> None:
        for name in ("depth_mm", "length_mm", "width_mm", "diameter_mm"):
            value = getattr(self, name)
            if value is not None and not 1 <= value <= 2000:
                raise BadField(f"{name} is {value:g} mm; write 1 to 2000 mm")
        if (self.length_mm is None) != (self.width_mm is None):
            raise BadField("a box has a length and a width; write both, or neither")
        if self.diameter_mm is not None and self.length_mm is not None:
            raise BadField("a container is round or has sides; write diameter_mm, or length_mm and width_mm")
        if self.stacked < 1:
            raise BadField(f"stacked is {self.stacked}; write 1 or more")

    @property
    def area_mm2(self) -> float | None:
        """The footprint; None where it is not known."""
        if self.diameter_mm is not None:
            return math.pi * self.diameter_mm**2 / 4
        if self.length_mm is None or self.width_mm is None:
            return None
        return self.length_mm * self.width_mm

    def mass_kg(self, makeup: Makeup) -> float | None:
        """Give the mass of the food in one of them; None without a footprint."""
        if self.area_mm2 is None:
            return None
        return self.area_mm2 * self.depth_mm / 1e9 * density_kg_m3(makeup, limit_c("cooling starts"))

    def counts_sides(self, case: Case) -> bool:
        """Tell whether heat leaves by the sides in this case."""
        return self.area_mm2 is not None and (
            self.apart is True or (self.apart is None and case is Case.MIDDLE)
        )

    def body(self, matter: Matter, case: Case) -> Body:
        """Give the body that cools: in the slow corner 5 mm or a tenth deeper, whichever is more."""
        more = max(case.of("deeper than told, at least"), case.of("deeper than told, share") * self.depth_mm)
        layers = (Layer(matter, (self.depth_mm + more) * self.stacked / 1000),)
        if not self.counts_sides(case):
            return Body(Shape.SLAB, layers)
        if self.diameter_mm is not None:
            return Body(Shape.CYLINDER, layers, diameter_m=self.diameter_mm / 1000)
        assert self.length_mm is not None
        assert self.width_mm is not None
        return Body(Shape.BRICK, layers, self.length_mm / 1000, self.width_mm / 1000)


@dataclass(frozen=True, slots=True)
class Step:
    """So many minutes in one spot; None: from then on. Stirring mixes the food each time so many minutes passed."""

    spot: Spot
    minutes: int | None = None
    stir_every_min: int | None = None

    def __post_init__(self) -> None:
        if self.minutes is not None and not 1 <= self.minutes <= 2880:
            raise BadField(f"{self.minutes} min in the {self.spot.value}; write 1 to 2880 minutes")
        if self.stir_every_min is not None and not 1 <= self.stir_every_min <= 2880:
            raise BadField(f"stirred every {self.stir_every_min} min; write 1 or more minutes")
        if self.minutes is None and self.stir_every_min is not None:
            raise BadField(
                f"stirring in the {self.spot.value} has no end; say for how many minutes it goes on"
            )


def check_steps(steps: Sequence[Step]) -> None:
    """Make sure that a plan ends in a fridge or freezer, and only there; raise BadField if it does not."""
    if not steps or steps[-1].minutes is not None or steps[-1].spot not in (Spot.FRIDGE, Spot.FREEZER):
        raise BadField(
            "a plan of cooling ends in the fridge or the freezer; make that the last step, without minutes"
        )
    if any(step.minutes is None for step in steps[:-1]):
        raise BadField("only the last step has no minutes; say how long each other one lasts")


def cooling_matter(makeup: Makeup, case: Case) -> Matter:
    """Give the food's properties between 135 °F and 41 °F, of this case."""
    bounds = limit_c("cooling starts"), limit_c("cooling, last limit")
    return slow_matter(makeup, *bounds) if case is Case.SLOW else matter_between(makeup, *bounds)


def stages_of(
    filled: FilledContainer,
    steps: Sequence[Step],
    around: Surroundings,
    case: Case,
    hot_kg: float | None,
) -> tuple[Stage, ...]:
    """Turn a plan into stages.

    Parameters
    ----------
    filled, steps, around, case
        The container, the plan, the kitchen, and which end of the estimates.
    hot_kg
        How much hot food goes into the fridge at once, kg; None: not known, taken as little.

    Returns
    -------
    tuple of Stage
        In the slow corner ten minutes longer on the counter, and the first two hours in a fridge with much hot food
        two degrees warmer.
    """
    check_steps(steps)
    much = hot_kg is not None and hot_kg > case.of("much food")
    stages: list[Stage] = []
    for step in _delayed(steps, case):
        for seconds, is_warmed in _parted(step, much=much):
            stages.append(_stage(filled, step, around, case, seconds, much_food=is_warmed))
    return tuple(stages)


def _delayed(steps: Sequence[Step], case: Case) -> tuple[Step, ...]:
    delay = round(case.of("longer on the counter"))
    if not delay:
        return tuple(steps)
    first = steps[0]
    if first.spot is Spot.COUNTER and first.minutes is not None:
        return (Step(first.spot, first.minutes + delay, first.stir_every_min), *steps[1:])
    return (Step(Spot.COUNTER, delay), *steps)


def _parted(step: Step, *, much: bool) -> list[tuple[float, bool]]:
    """Part a step in a fridge that much food warms; each part with whether it is warmed."""
    whole = FOREVER if step.minutes is None else step.minutes * 60.0
    warmed = WARMED_MIN * 60.0
    if step.spot is not Spot.FRIDGE or not much:
        return [(whole, False)]
    return [(whole, True)] if whole <= warmed else [(warmed, True), (whole - warmed, False)]


def _stage(
    filled: FilledContainer,
    step: Step,
    around: Surroundings,
    case: Case,
    seconds: float,
    *,
    much_food: bool,
) -> Stage:
    lid = Lid.OFF if step.spot is Spot.ICE_BATH else filled.lid
    top = upper_face(step.spot, lid, around, case, much_food=much_food)
    bottom = lower_face(step.spot, filled.wall, around, case, much_food=much_food)
    stir = None if step.stir_every_min is None else step.stir_every_min * 60.0
    if not filled.counts_sides(case):
        return Stage(seconds, (top, bottom), stir)
    side = side_face(step.spot, filled.wall, around, case, much_food=much_food)
    sides = (side,) if filled.diameter_mm is not None else (side, side)
    return Stage(seconds, (top, bottom, *sides), stir)
