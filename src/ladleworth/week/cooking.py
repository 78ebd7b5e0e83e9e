"""What a plan cooks, session by session: batches, containers, stations, and what is made differently. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING

from ladleworth.decide.judge import hands_on_min
from ladleworth.decide.judge_kitchen import station_min
from ladleworth.decide.verdict import session_min
from ladleworth.dish.allergens import DishAllergens, allergens_of
from ladleworth.dish.batch_version import Difference, differences
from ladleworth.dish.dish import Dish, Variant
from ladleworth.week.packing import Packed, packed

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


@dataclass(frozen=True, slots=True)
class ToCook:
    """A batch of a cooking day: which dish, how made, how many portions, and into which containers they go.

    `swaps` pairs each part that has some with the one chosen. `portions` are standard ones; `chilled` and `frozen`
    count the `containers`. `hands_on_min` leaves out what a session spends once on a dish that it splits.
    `differences` are what is made otherwise, since the batch is kept chilled, frozen or microwaved.
    """

    dish: str
    name: str
    version: str
    swaps: tuple[tuple[str, str], ...]
    portions: int
    chilled: int
    frozen: int
    hands_on_min: Fraction
    allergens: DishAllergens
    containers: tuple[Packed, ...]
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class StationUse:
    """Minutes of the oven or the burners that a session takes, of those that it has."""

    station: str
    used_min: Fraction
    most_min: int


@dataclass(frozen=True, slots=True)
class CookingDay:
    """A session with its batches; hands-on and station minutes as used and at the most."""

    day: int
    when: date
    used_min: Fraction
    most_min: int
    batches: tuple[ToCook, ...]
    stations: tuple[StationUse, ...] = ()


def cooking_of(week: PlannedWeek) -> tuple[CookingDay, ...]:
    """List what a plan cooks, session by session; a session without a batch is listed empty."""
    household, plan, question = week.kitchen.household, week.plan, week.question
    dishes = {dish.id: dish for dish in week.kitchen.dishes}
    days = []
    for session in question.sessions:
        batches = []
        for batch in plan.batches:
            if batch.day != session.day:
                continue
            dish = dishes[batch.dish]
            variant = variant_of(dish, batch.version)
            containers = packed(week.kitchen, plan, batch)
            version = question.version(batch.dish, batch.version)
            batches.append(
                ToCook(
                    batch.dish,
                    dish.name,
                    batch.version,
                    variant.swaps,
                    batch.portions,
                    sum(kind.count for kind in containers if not kind.frozen),
                    sum(kind.count for kind in containers if kind.frozen),
                    hands_on_min(version, batch.portions),
                    allergens_of(variant.ingredients, week.kitchen.foods),
                    containers,
                    _differences(week, dish, variant, containers),
                )
            )
        stations = (
            StationUse(station, station_min(question, plan, session.day, station), most)
            for station, most in session.stations.items()
        )
        used = session_min(question, plan, session.day)
        when = household.date_of(session.day)
        days.append(CookingDay(session.day, when, used, session.minutes, tuple(batches), tuple(stations)))
    return tuple(days)


def _differences(
    week: PlannedWeek, dish: Dish, variant: Variant, containers: tuple[Packed, ...]
) -> tuple[Difference, ...]:
    """List what comes out otherwise than fresh by the ways in which the batch is kept, each once."""
    microwaved = week.kitchen.household.equipment.microwave_w is not None
    found = (
        one
        for frozen in dict.fromkeys(kind.frozen for kind in containers)
        for one in differences(dish, variant, frozen=frozen, microwaved=microwaved)
    )
    return tuple(dict.fromkeys(found))


def variant_of(dish: Dish, version: str) -> Variant:
    """Find a dish's variant by its version's name in the plan."""
    return next(variant for variant in dish.variants() if variant.name == version)
