"""How long freezing and thawing take, and how much a freezer takes in a day.

Freezing goes by Pham's method, which agrees with the cells of `frozen.py` within a tenth and on the slow side; Plank's
rule, the usual one, counts ice alone and is 17 to 31 % short, so that it is not here. Thawing goes by the cells.
"""

from __future__ import annotations

from dataclasses import dataclass

from ladleworth.errors import BadField
from ladleworth.facts.heat import heat_limit, limit_c
from ladleworth.facts.records import Figure
from ladleworth.keep.bodies import FOREVER, Face, Matter
from ladleworth.keep.containers import FilledContainer
from ladleworth.keep.frozen import FreezingMatter, follow_freezing, plain_latent_j_kg
from ladleworth.keep.materials import (
    Makeup,
    freezable_share,
    freezing_point_c,
    ice_share,
    matter_of,
)
from ladleworth.keep.surroundings import Case, Spot, Surroundings, air_c, lower_face, upper_face

LB_G = 453.59237
FT3_ML = 28_316.846592
"""The pound in grams and the cubic foot in millilitres: by definition."""

COLD_C = -18.0
"""The temperature at which the frozen food's properties are taken, and from which thawing starts."""

CELLS = 60


@dataclass(frozen=True, slots=True)
class FreezingForecast:
    """Hours until the middle is frozen hard (-10 °C), or thawed (0 °C), in both cases; None: never."""

    slow_h: float | None
    middle_h: float | None


@dataclass(frozen=True, slots=True)
class FreezerLoad:
    """What a freezer of some room takes in a day, grams, by the lower and the upper end of the advice."""

    least_g: int
    most_g: int
    source: Figure


def freezer_load(room_ml: int) -> FreezerLoad:
    """Say how much unfrozen food to add to a freezer in a day: 2 to 3 lb for each cubic foot.

    Parameters
    ----------
    room_ml
        All the room of the freezer, not what is free.

    Returns
    -------
    FreezerLoad
        Whole grams, rounded down.

    Raises
    ------
    BadField
        If there is no room.

    Source
    ------
    Clemson Extension HGIC 3065, Freezing Prepared Foods (`clemson-hgic-3065`).
    """
    if room_ml <= 0:
        raise BadField(f"the freezer's room is {room_ml} ml; write more than 0")
    least, most = heat_limit("freezer load, least"), heat_limit("freezer load, most")
    grams = [int(float(each.value) * LB_G * room_ml / FT3_ML) for each in (least, most)]
    return FreezerLoad(grams[0], grams[1], least)


def staging_days(hot_g: int, room_ml: int) -> int:
    """Say over how many days to spread a batch, by the upper end of the advice."""
    most = freezer_load(room_ml).most_g
    if most == 0:
        raise BadField(f"a freezer of {room_ml} ml takes nothing in a day; write all of its room")
    return max(1, -(-hot_g // most))


def freezing_matter(makeup: Makeup, case: Case) -> FreezingMatter:
    """Give a food's properties for freezing and thawing.

    Unfrozen at 0 °C; frozen at -18 °C with its ice by volume. In the slow corner both conductivities are less by the
    usual share. Source: components by Choi and Okos (`choi-okos-1986`); bound water and latent heat `ashrae-foods`.
    """
    point, freezable = freezing_point_c(makeup), freezable_share(makeup)
    share = case.of("conductivity, share")
    unfrozen = matter_of(makeup, 0.0)
    conductivity, capacity = _frozen(makeup, ice_share(freezable, point, COLD_C))
    return FreezingMatter(
        Matter(unfrozen.conductivity_w_mk * share, unfrozen.density_kg_m3, unfrozen.heat_capacity_j_kgk),
        conductivity * share,
        capacity,
        point,
        freezable,
        plain_latent_j_kg(),
    )


def _frozen(makeup: Makeup, ice: float) -> tuple[float, float]:
    """Give conductivity and heat capacity of the frozen food: its dry matter, what is still water, and its ice."""
    from ladleworth.facts.heat import components

    table = components()

    def at(name: str, component: str) -> float:
        where = max(COLD_C, table[name, component].from_c)
        return table[name, component].at(where)

    shares = makeup.shares() | {"water": makeup.shares()["water"] - ice, "ice": ice}
    volumes = {name: share / at("density", name) for name, share in shares.items() if share > 0}
    whole = sum(volumes.values())
    conductivity = sum(volume / whole * at("conductivity", name) for name, volume in volumes.items())
    capacity = sum(share * at("heat capacity", name) for name, share in shares.items())
    return (1 - makeup.air) * conductivity, capacity


def pham_seconds(
    food: FreezingMatter,
    half_m: float,
    exchange_w_m2k: float,
    air_c: float,
    start_c: float,
    target_c: float,
    dimensions: float = 1.0,
) -> float:
    """Work out a freezing time by Pham's method of 1986.

    Parameters
    ----------
    food
        The food.
    half_m
        Half its depth, or its radius, m.
    exchange_w_m2k
        At its faces, all alike, W/(m²·K).
    air_c, start_c, target_c
        The air, the food at the start, and its middle at the end, °C.
    dimensions
        1 for a slab (the slow bound of every shape), 2 for a long cylinder, 3 for a sphere.

    Returns
    -------
    float
        Seconds.

    Raises
    ------
    BadField
        If the food does not start unfrozen, or the air is not colder than the target.

    Source
    ------
    Pham, 1986, from memory, for food rich in water, Biot numbers up to 11 and air of -45 to -15 °C; it is checked here
    against cells that hold heat and ice.
    """
    if not air_c < target_c < food.freezing_c < start_c:
        raise BadField(
            f"freezing from {start_c:g} to {target_c:g} °C in air of {air_c:g} °C cannot be; the air has to be "
            f"colder than the target, that colder than {food.freezing_c:g} °C, and the start warmer"
        )
    density, unfrozen = food.unfrozen.density_kg_m3, food.unfrozen.heat_capacity_j_kgk
    mean_c = 1.8 + 0.263 * target_c + 0.105 * air_c
    cooled = density * unfrozen * max(0.0, start_c - mean_c) / ((start_c + mean_c) / 2 - air_c)
    frozen = density * (food.latent_of_food_j_kg + food.frozen_heat_capacity_j_kgk * (mean_c - target_c))
    biot = exchange_w_m2k * half_m / food.frozen_conductivity_w_mk
    return half_m / (dimensions * exchange_w_m2k) * (cooled + frozen / (mean_c - air_c)) * (1 + biot / 2)


def freezing_forecast(
    filled: FilledContainer, makeup: Makeup, around: Surroundings, start_c: float
) -> FreezingForecast:
    """Forecast how long a container takes to freeze hard: -10 °C in the middle.

    Parameters
    ----------
    filled, makeup, around
        The container, the food, the kitchen; heat by the sides is left out.
    start_c
        The food at the start, °C.

    Returns
    -------
    FreezingForecast
        By Pham's method, with the mean exchange of the two faces.
    """
    target = limit_c("frozen hard")
    return FreezingForecast(*(_freezing_h(filled, makeup, around, case, start_c, target) for case in _CASES))


_CASES = (Case.SLOW, Case.MIDDLE)


def _freezing_h(
    filled: FilledContainer,
    makeup: Makeup,
    around: Surroundings,
    case: Case,
    start_c: float,
    target_c: float,
) -> float | None:
    air = air_c(Spot.FREEZER, around, case)
    if air >= target_c:
        return None
    food = freezing_matter(makeup, case)
    top = upper_face(Spot.FREEZER, filled.lid, around, case).exchange_w_m2k
    bottom = lower_face(Spot.FREEZER, filled.wall, around, case).exchange_w_m2k
    half = filled.body(food.unfrozen, case).depth_m / 2
    return pham_seconds(food, half, (top + bottom) / 2, air, start_c, target_c) / 3600


def thawing_forecast(
    filled: FilledContainer, makeup: Makeup, around: Surroundings, start_c: float = COLD_C
) -> FreezingForecast:
    """Forecast how long a frozen container takes to thaw in the fridge: its coldest cell past 0 °C.

    Parameters
    ----------
    filled, makeup, around
        The container, the food, the kitchen; heat by the sides is left out.
    start_c
        The frozen food at the start, °C.

    Returns
    -------
    FreezingForecast
        Slow is a fridge as its thermometer shows; the middle case has the same air and quicker faces. Published times
        are longer than either for big pieces: 24 hours for each 5 lb at least (facts/data/limits.csv).
    """
    return FreezingForecast(*(_thawing_h(filled, makeup, around, case, start_c) for case in _CASES))


def _thawing_h(
    filled: FilledContainer, makeup: Makeup, around: Surroundings, case: Case, start_c: float
) -> float | None:
    # for thawing a warm fridge is quick: the slow corner takes it as measured, or as cold as it is asked to be
    air = air_c(Spot.FRIDGE, around, Case.MIDDLE)
    food = freezing_matter(makeup, case)
    above = upper_face(Spot.FRIDGE, filled.lid, around, case)
    below = lower_face(Spot.FRIDGE, filled.wall, around, case)
    faces = tuple(Face(face.exchange_w_m2k, air) for face in (above, below))
    depth = filled.body(food.unfrozen, case).depth_m
    course = follow_freezing(food, depth, [(FOREVER, faces)], start_c, CELLS)
    seconds = course.when("coldest", 0.0)
    return None if seconds is None else seconds / 3600
