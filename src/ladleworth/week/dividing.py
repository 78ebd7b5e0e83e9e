"""Divide a batch of the accepted plan, and keep what the scale said of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path

from ladleworth.decide import Batch
from ladleworth.dish.dish import Dish, Variant
from ladleworth.dish.scale import scale
from ladleworth.divide import Divided, DivideQuestion, Filling, Portion, Reading, divide, parts_made
from ladleworth.errors import BadField, NotYet
from ladleworth.household import Kitchen
from ladleworth.store import SavedPlan, Store, is_kitchen_file
from ladleworth.store.kept_reading import KeptReading
from ladleworth.week.acting import open_kitchen
from ladleworth.week.finding import find_dish
from ladleworth.week.planning import PlannedWeek, accepted_week
from ladleworth.week.portions import clean_containers, portions_of
from ladleworth.week.weighing import DivideWish, read_wish
from ladleworth.week.yields import plans_of, weighed_batches


@dataclass(frozen=True, slots=True)
class DividedBatch:
    """A batch divided, with where it stands.

    Parameters
    ----------
    kitchen
        The kitchen.
    plan_number, day
        The plan's number in the kitchen's file and its day; None for a dish that no plan cooks.
    when, portions
        The day it is cooked, and how many standard portions it makes.
    divided
        How it was divided, judged.
    readings
        What the scale has said of it, the earliest first.
    kept
        Whether new readings were kept in the file.
    filling
        How full the containers may be.
    """

    kitchen: Kitchen
    plan_number: int | None
    day: int | None
    when: date
    portions: int
    divided: Divided
    readings: tuple[Reading, ...]
    kept: bool
    filling: Filling


@dataclass(frozen=True, slots=True)
class _Found:
    """A batch to be divided, before anything is read of it."""

    kitchen: Kitchen
    dish: Dish
    variant: Variant
    portions: int
    into: tuple[Portion, ...]
    when: date
    letter: int
    week: PlannedWeek | None = None
    batch: Batch | None = None


def divide_batch(
    place: str | Path,
    name: str,
    *,
    today: date,
    now: datetime,
    day: int | None = None,
    wish: DivideWish | None = None,
) -> tuple[DividedBatch, ...]:
    """Divide a dish's batch of the accepted plan; what was weighed is kept in the file.

    Parameters
    ----------
    place
        A kitchen's file; or a folder, which has no plan: then `wish` says how many portions of the dish are made.
    name
        The dish.
    today, now
        The day that it is, and when what is weighed is entered.
    day
        The plan's day; left out, the plan's batch of today, else the next one, else the latest.
    wish
        What was weighed, and how it is to be divided.

    Returns
    -------
    tuple of DividedBatch
        One for each version of the batch.

    Raises
    ------
    BadField
        If there is no such dish, day or version, or something is weighed of a batch in several versions.
    FaultyKitchen
        With every fault of what was said.
    NotYet
        If no plan cooks the dish and no number of portions is given.
    """
    wish = wish or DivideWish()
    batches = _find(place, name, today, day, wish)
    if len(batches) > 1 and wish.weighed:
        names = " or ".join(f"--swap {one.variant.swaps[-1][1]!r}" for one in batches)
        raise BadField(
            f"{batches[0].dish.name} is cooked in several versions; say which was weighed with {names}"
        )
    plans = plans_of(place) if batches[0].batch is not None else ()
    return tuple(_divided(place, one, plans, now, wish) for one in batches)


def _divided(
    place: str | Path, found: _Found, plans: Sequence[SavedPlan], now: datetime, wish: DivideWish
) -> DividedBatch:
    made = parts_made(found.dish, found.variant, found.kitchen.foods)
    said = read_wish(wish, found.dish, found.variant, found.kitchen.foods, made)
    rules = found.kitchen.household.rules
    filling = Filling(rules.headspace, said.depth_mm)
    before = () if found.batch is None else _earlier(plans, found)
    question = DivideQuestion(
        found.dish,
        found.variant,
        found.kitchen.foods,
        found.into,
        found.when,
        found.letter,
        (*before, *said.readings),
        said.methods,
        said.scoops,
        clean_containers(found.kitchen, found.week, found.batch),
        filling,
    )
    divided = divide(question)
    kept = _keep(place, found, said.readings, now)
    number = None if found.week is None else found.week.number
    return DividedBatch(
        found.kitchen,
        number,
        None if found.batch is None else found.batch.day,
        found.when,
        found.portions,
        divided,
        question.readings,
        kept,
        filling,
    )


def _keep(place: str | Path, found: _Found, readings: Sequence[Reading], now: datetime) -> bool:
    """Keep new readings of a plan's batch in the file."""
    batch, number = found.batch, None if found.week is None else found.week.number
    if not readings or batch is None or number is None:
        return False
    with Store.open(place) as store, store.transaction():
        first = store.next_reading()
        store.keep_readings(
            number,
            [
                KeptReading(at, batch.day, batch.dish, batch.version, batch.portions, reading, now)
                for at, reading in enumerate(readings, first)
            ],
        )
    return True


# --- which batch -----------------------------------------------------------------------------------------------


def _find(place: str | Path, name: str, today: date, day: int | None, wish: DivideWish) -> tuple[_Found, ...]:
    if not is_kitchen_file(place):
        return (_by_itself(open_kitchen(place), name, today, day, wish),)
    try:
        week = accepted_week(place)
    except NotYet:
        if wish.portions is None or day is not None:
            raise
        return (_by_itself(open_kitchen(place), name, today, day, wish),)
    dish = find_dish(week.kitchen, name)
    mine = [batch for batch in week.plan.batches if batch.dish == dish.id]
    if not mine and day is None and wish.portions is not None:
        return (_by_itself(week.kitchen, name, today, day, wish),)
    chosen = _of_day(week, dish, mine, today, day)
    found = [_planned(week, dish, batch, wish.portions) for batch in chosen]
    fitting = [one for one in found if _has(one.variant, wish.swaps)]
    if not fitting:
        there = ", ".join(one.variant.name for one in found)
        raise BadField(
            f"the plan does not make {dish.name} with {', '.join(wish.swaps)}; it makes it with {there}"
        )
    return tuple(fitting)


def _by_itself(kitchen: Kitchen, name: str, today: date, day: int | None, wish: DivideWish) -> _Found:
    """A dish that no plan cooks: so many portions of it, cooked today."""
    dish = find_dish(kitchen, name)
    if wish.portions is None or day is not None:
        raise NotYet(
            f"no accepted plan cooks {dish.name}; say how many portions of it are made with --portions, or decide with --accept first"
        )
    scaled = scale(dish, Fraction(wish.portions, dish.portions), wish.portions)
    for variant in scaled.variants():
        if _has(variant, wish.swaps):
            into = (Portion(),) * wish.portions
            return _Found(kitchen, scaled, variant, wish.portions, into, today, 0)
    there = ", ".join(swap.name for part in dish.parts for swap in part.swaps) or "none"
    raise BadField(f"{dish.name} cannot be made with {', '.join(wish.swaps)}; its swaps are {there}")


def _has(variant: Variant, swaps: Iterable[str]) -> bool:
    names = {swap.casefold() for _, swap in variant.swaps}
    return all(swap.casefold() in names for swap in swaps)


def _of_day(
    week: PlannedWeek, dish: Dish, mine: Sequence[Batch], today: date, day: int | None
) -> list[Batch]:
    """Choose the batches of one day: the one asked for, else today's, else the next, else the latest."""
    days = sorted({batch.day for batch in mine})
    if not days:
        cooked = sorted({batch.dish for batch in week.plan.batches})
        names = ", ".join(one.name for one in week.kitchen.dishes if one.id in cooked) or "nothing"
        raise NotYet(
            f"the accepted plan does not cook {dish.name}; it cooks {names}; --portions N divides a dish of no plan"
        )
    if day is not None and day not in days:
        raise BadField(
            f"the plan does not cook {dish.name} on day {day}; it does on day {', '.join(map(str, days))}"
        )
    coming = [one for one in days if week.kitchen.household.date_of(one) >= today]
    chosen = day or (coming[0] if coming else days[-1])
    return [batch for batch in mine if batch.day == chosen]


def _planned(week: PlannedWeek, dish: Dish, batch: Batch, portions: int | None) -> _Found:
    scaled = scale(dish, Fraction(batch.portions, dish.portions), batch.portions)
    variant = next(one for one in scaled.variants() if one.name == batch.version)
    into = (Portion(),) * portions if portions else portions_of(week.kitchen, week.plan, batch)
    when = week.kitchen.household.date_of(batch.day)
    of_the_day = [one for one in week.plan.batches if one.day == batch.day]
    return _Found(
        week.kitchen, scaled, variant, batch.portions, into, when, of_the_day.index(batch), week, batch
    )


def _earlier(plans: Iterable[SavedPlan], found: _Found) -> tuple[Reading, ...]:
    """Give the readings of a batch that were kept before, the earliest first, under whichever plan."""
    assert found.batch is not None
    mine = (found.when, found.batch.version)
    return next(
        (one.readings for one in weighed_batches(plans, found.dish.id) if (one.when, one.version) == mine),
        (),
    )
