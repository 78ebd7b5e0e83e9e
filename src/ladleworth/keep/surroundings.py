"""Where food stands while it cools, and how fast each place takes its heat: a slow corner and a middle case.

Every figure comes from a table with its basis (facts/data/surroundings.csv); most are from memory or chosen on the slow
side. The slow corner takes the slow end of all of them at once: since each works in one direction only, nothing within
the ranges is slower. It bounds no door left open, no power cut and no hidden air pocket.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ladleworth.errors import BadField
from ladleworth.facts.heat import estimate
from ladleworth.keep.bodies import Face, through

WARMED_MIN = 120
"""How long a fridge is warmer for much hot food, in the slow corner: chosen."""


class Case(Enum):
    """Which end of the estimates is taken."""

    SLOW = "slow corner"
    MIDDLE = "middle case"

    def of(self, name: str) -> float:
        """Take this case's end of an estimate."""
        figure = estimate(name)
        return float(figure.slow if self is Case.SLOW else figure.middle)


class Spot(Enum):
    """Where a container stands."""

    COUNTER = "counter"
    ICE_BATH = "ice bath"
    FRIDGE = "fridge"
    FREEZER = "freezer"


class Lid(Enum):
    """What is over the food: nothing, a lid with a gap of air under it, or something that lies on the food."""

    OFF = "off"
    ON = "on"
    TOUCHING = "touching"


class Wall(Enum):
    """What a container is made of. Bright metal radiates little in still air."""

    PLASTIC = "plastic"
    GLASS = "glass"
    METAL = "metal"


@dataclass(frozen=True, slots=True)
class Surroundings:
    """The kitchen as a container meets it.

    Parameters
    ----------
    room_c, fridge_c, freezer_c
        What a thermometer shows there, °C; None: not measured, so that a cautious figure is taken.
    fan_fridge, fan_freezer
        Whether a fan drives its air.
    factor
        What one's own probe found of the exchange, as a share of the table's middle (None: no probe yet).
    """

    room_c: float | None = None
    fridge_c: float | None = None
    freezer_c: float | None = None
    fan_fridge: bool = False
    fan_freezer: bool = False
    factor: float | None = None

    def __post_init__(self) -> None:
        for name, low, high in (("room_c", -10, 50), ("fridge_c", -5, 15), ("freezer_c", -45, 0)):
            value = getattr(self, name)
            if value is not None and not low <= value <= high:
                raise BadField(f"{name} is {value:g} °C; write {low} to {high} °C")
        if self.factor is not None and not self.factor > 0:
            raise BadField(f"factor is {self.factor}; write a number above 0")


def air_c(spot: Spot, around: Surroundings, case: Case, *, much_food: bool = False) -> float:
    """Say how warm it is around a container.

    Parameters
    ----------
    spot, around, case
        Where, in which kitchen, at which end.
    much_food
        Whether more hot food than the fridge takes lightly went in not long ago.

    Returns
    -------
    float
        °C. In the slow corner 2 K above the fridge's thermometer, 3 K above that of room and freezer; unmeasured
        places have figures of their own.
    """
    if spot is Spot.ICE_BATH:
        return case.of("ice bath, temperature")
    if spot is Spot.COUNTER:
        told = case.of("room not measured") if around.room_c is None else around.room_c
        return told + case.of("counter above the room")
    if spot is Spot.FREEZER:
        if around.freezer_c is None:
            return case.of("freezer not measured")
        return around.freezer_c + case.of("freezer above its thermometer")
    if around.fridge_c is None:
        told = case.of("fridge not measured")
    else:
        told = around.fridge_c + case.of("fridge above its thermometer")
    return told + (case.of("fridge warmed by much food") if much_food else 0.0)


def upper_face(spot: Spot, lid: Lid, around: Surroundings, case: Case, *, much_food: bool = False) -> Face:
    """Give the face above; over an ice bath there is the air of the room."""
    place = Spot.COUNTER if spot is Spot.ICE_BATH else spot
    cover = {Lid.OFF: "", Lid.ON: "lid above a gap", Lid.TOUCHING: "plastic wall"}[lid]
    exchange = _exchange(_free(place, around), [cover] if cover else [], around, case)
    return Face(exchange, air_c(place, around, case, much_food=much_food))


def lower_face(spot: Spot, wall: Wall, around: Surroundings, case: Case, *, much_food: bool = False) -> Face:
    """Give the face below, through the wall of the container."""
    names = {
        Spot.COUNTER: "counter, on the worktop",
        Spot.ICE_BATH: "ice bath",
        Spot.FRIDGE: "fan fridge" if around.fan_fridge else "fridge, on a shelf",
        Spot.FREEZER: "fan freezer" if around.fan_freezer else "freezer, on a shelf",
    }
    exchange = _exchange(_bright(names[spot], wall, case), [f"{wall.value} wall"], around, case)
    return Face(exchange, air_c(spot, around, case, much_food=much_food))


def side_face(spot: Spot, wall: Wall, around: Surroundings, case: Case, *, much_food: bool = False) -> Face:
    """Give the faces at the sides, where they stand free."""
    name = "ice bath" if spot is Spot.ICE_BATH else _free(spot, around)
    exchange = _exchange(_bright(name, wall, case), [f"{wall.value} wall"], around, case)
    return Face(exchange, air_c(spot, around, case, much_food=much_food))


def _free(spot: Spot, around: Surroundings) -> str:
    if spot is Spot.COUNTER:
        return "counter, free air"
    if spot is Spot.FRIDGE:
        return "fan fridge" if around.fan_fridge else "fridge, free air"
    return "fan freezer" if around.fan_freezer else "freezer, still air"


def _bright(name: str, wall: Wall, case: Case) -> str:
    """Take bare bright metal's exchange in still air where it is less; driven air and water do not radiate."""
    metal = "bright bare metal"
    is_still = name not in ("fan fridge", "fan freezer", "ice bath")
    return metal if wall is Wall.METAL and is_still and case.of(metal) < case.of(name) else name


def _exchange(name: str, resistances: list[str], around: Surroundings, case: Case) -> float:
    """Put lid and wall before the air; a probe's factor replaces the range by its own, less 20 % when slow."""
    if around.factor is None:
        return through(case.of(name), *(case.of(each) for each in resistances))
    middle = through(Case.MIDDLE.of(name), *(Case.MIDDLE.of(each) for each in resistances))
    return middle * around.factor * case.of("calibrated exchange, share")
