"""The columns of the week's programme: what can be chosen, and within which bounds.

Scaling happens here, once: food in units of its largest package, needs rounded up to whole milligrams or
pieces per batch (`need`), stock and packages in whole ones as recorded. Eaters of one appetite are alike for a
batch, so portions are counted by appetite; who has them is decided by day.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple, TypeVar

from ladleworth.decide.goods import Foodstuff, PackageOffer, PortionLot
from ladleworth.decide.question import DishChoice, Question, Version
from ladleworth.decide.rules import MustBuy, MustCook, MustNotCook, MustServe
from ladleworth.decide.sheet import Sheet
from ladleworth.decide.verdict import hands_on_min, need

THAW_AGE = 3
"""Age in days (cooking day as day 1) from which a frozen portion can be eaten: a night frozen, a day thawing."""


class Dinner(NamedTuple):
    """Portions of a batch that eaters of one appetite have on one day, chilled or frozen before."""

    dish: str
    version: str
    session: int
    appetite: Fraction
    day: int
    frozen: bool


@dataclass(slots=True)
class WeekModel:
    """The sheet of a question, and where its columns stand."""

    question: Question
    visits: frozenset[tuple[str, int]] | None = None
    """(shop, session day) of all the visits that are made, if they are settled; None: any may be made"""
    sheet: Sheet = field(default_factory=Sheet)
    size: dict[tuple[str, str, int, int], int] = field(default_factory=dict)
    """(dish, version, session day, portions) -> 1 if that batch is cooked"""
    cooked: dict[tuple[str, int], int] = field(default_factory=dict)
    """(dish, session day) -> 1 if any version of it is cooked; only for dishes that may be split"""
    held: dict[int, int] = field(default_factory=dict)
    """session day -> 1 if anything is cooked; only for sessions that have a price"""
    eaten: dict[Dinner, int] = field(default_factory=dict)
    """portions eaten, by batch, appetite and day"""
    kept: dict[tuple[str, str, int], int] = field(default_factory=dict)
    """(dish, version, session day) -> frozen portions left when the days end"""
    served: dict[tuple[str, str, str, int], int] = field(default_factory=dict)
    """(dish, version, eater, day) -> portions this eater has"""
    taken: dict[tuple[str, str, int], int] = field(default_factory=dict)
    """(lot of portions, eater, day) -> containers this eater empties"""
    has: dict[tuple[str, str, int], int] = field(default_factory=dict)
    """(dish, eater, first day of a span) -> 1 if the eater has the dish then; only where a repeat has a price"""
    nutrient_rows: list[int] = field(default_factory=list)
    """Numbers of the rows that keep nutrients within their bounds"""
    ever: dict[str, int] = field(default_factory=dict)
    """dish -> 1 if it is cooked at all"""
    again: dict[str, int] = field(default_factory=dict)
    """dish -> how often it is cooked after the first time"""
    out: dict[tuple[str, int], int] = field(default_factory=dict)
    """(eater, day) -> meals out"""
    buy: dict[tuple[str, int], int] = field(default_factory=dict)
    """(offer, session day) -> packages"""
    trip: dict[tuple[str, int], int] = field(default_factory=dict)
    """(shop, session day) -> 1 if visited"""
    use: dict[tuple[str, int | None, int], int] = field(default_factory=dict)
    """(source, day bought or None, session day) -> food used, in units of the food's largest package"""


def versions_of(question: Question) -> Iterator[tuple[DishChoice, Version]]:
    """Yield every version with its dish."""
    for dish in question.dishes:
        for version in dish.versions:
            yield dish, version


def fitting_slots(
    question: Question, name: str, source: DishChoice | PortionLot, barred: frozenset[str]
) -> dict[tuple[str, int], frozenset[str]]:
    """The meals, by (eater, day), that could be a portion of this dish: none that is promised to something else."""
    promised: dict[tuple[str, int, str], set[str | None]] = defaultdict(set)
    for wish in question.wishes:
        if isinstance(wish, MustServe):
            promised[wish.eater, wish.day, wish.meal].add(wish.dish)
    fits: dict[tuple[str, int], set[str]] = defaultdict(set)
    for slot in question.slots:
        if (
            slot.eater not in barred
            and source.suits(slot.meal)
            and promised.get((slot.eater, slot.day, slot.meal), {name}) == {name}
        ):
            fits[slot.eater, slot.day].add(slot.meal)
    return {seat: frozenset(meals) for seat, meals in fits.items()}


def has_figures(question: Question, eater: str, nutrients: Iterable[str]) -> bool:
    """Say whether every nutrient that this eater's bounds speak of has a figure."""
    known = set(nutrients)
    return all(b.nutrient in known for b in question.rules.nutrient_bounds if b.eater == eater)


def version_slots(
    question: Question, dish: DishChoice, version: Version
) -> dict[tuple[str, int], frozenset[str]]:
    """The meals, by (eater, day), that could be a portion of this version."""
    fits = fitting_slots(question, dish.name, dish, version.barred)
    return {seat: meals for seat, meals in fits.items() if has_figures(question, seat[0], version.nutrients)}


def lot_slots(question: Question, lot: PortionLot) -> dict[tuple[str, int], frozenset[str]]:
    """The meals, by (eater, day), that could be a container of this lot."""
    last = question.days if lot.last_day is None else lot.last_day
    fits = fitting_slots(question, lot.dish, lot, lot.barred)
    return {
        seat: meals
        for seat, meals in fits.items()
        if lot.first_day <= seat[1] <= last and has_figures(question, seat[0], lot.nutrients)
    }


def eating_days(question: Question, dish: DishChoice, session: int) -> tuple[range, range]:
    """The days on which a batch can be eaten chilled, and frozen before.

    Where the fridge's room is no matter, nothing is gained by freezing what could be eaten chilled: it would
    take a container all the same, and a place in the freezer besides.
    """
    chilled = range(session, min(session + dish.keep_days - 1, question.days) + 1)
    if dish.freezer_days is None:
        return chilled, range(0)
    first = session + THAW_AGE - 1
    if question.rules.fridge_ml is None:
        first = max(first, chilled.stop)
    return chilled, range(first, min(session + dish.freezer_days - 1, question.days) + 1)


def columns_for_batches(model: WeekModel) -> None:
    """Which batch, in which version and size; how many of its portions are eaten when, or kept."""
    question, sheet, extra = model.question, model.sheet, model.question.additions
    for session in question.sessions:
        if session.cents:
            model.held[session.day] = sheet.column(f"held {session.day}", 1, session.cents)
    for dish in question.dishes:
        for session in question.sessions:
            if dish.most_versions > 1 or dish.shared_min:
                price = float(extra.minute_cents * dish.shared_min)
                column = sheet.column(f"cooked {dish.name} {session.day}", 1, price)
                model.cooked[dish.name, session.day] = column
            for version in dish.versions:
                _columns_for_batch(model, dish, version, session.day)


def _columns_for_batch(model: WeekModel, dish: DishChoice, version: Version, day: int) -> None:
    question, sheet, extra = model.question, model.sheet, model.question.additions
    if any(_forbids(wish, dish, version, day) for wish in question.wishes):
        return
    session = next(s for s in question.sessions if s.day == day)
    fits = version_slots(question, dish, version)
    fridge, freezer = eating_days(question, dish, day)
    ending = dish.freezer_days is not None and day + dish.freezer_days - 1 > question.days
    reserve = extra.reserve_portions if ending else 0
    eatable = most_eatable(question, fits, {*fridge, *freezer})
    key = (dish.name, version.name, day)
    least = dish.least if dish.most_versions == 1 else 1
    there = False
    for portions in range(least, min(dish.greatest, eatable + reserve) + 1):
        minutes = hands_on_min(version, portions)
        if minutes + dish.shared_min > session.minutes or any(
            station in session.stations and load.minutes(portions) > session.stations[station]
            for station, load in version.loads.items()
        ):
            break
        price = extra.minute_cents * minutes + version.liking_cents * portions
        model.size[*key, portions] = sheet.column(f"batch {key} {portions}", 1, float(price))
        there = True
    if not there:
        return
    seats: dict[tuple[Fraction, int], int] = defaultdict(int)
    for (eater, when), meals in fits.items():
        seats[question.appetite(eater), when] += len(meals)
    for days, frozen in ((fridge, False), (freezer, True)):
        for when in days:
            for appetite in dict.fromkeys(appetite for appetite, at in seats if at == when):
                most = min(seats[appetite, when], math.floor(dish.greatest / appetite))
                dinner = Dinner(*key, appetite, when, frozen)
                model.eaten[dinner] = sheet.column(f"eaten {dinner}", most)
    if reserve:
        model.kept[key] = sheet.column(f"kept {key}", reserve, -extra.reserve_cents)


def _forbids(wish: object, dish: DishChoice, version: Version, day: int) -> bool:
    return (
        isinstance(wish, MustNotCook)
        and wish.dish == dish.name
        and wish.day in (None, day)
        and wish.version in (None, version.name)
    )


def most_eatable(question: Question, fits: dict[tuple[str, int], frozenset[str]], days: set[int]) -> int:
    """The most standard portions that could be eaten on these days, rounded up to whole ones."""
    by_eater: dict[str, dict[int, int]] = defaultdict(dict)
    for (eater, day), meals in fits.items():
        if day in days:
            by_eater[eater][day] = len(meals)
    most = question.rules.most_times
    total = Fraction(0)
    for eater, here in by_eater.items():
        numbers = [sum(here.get(day, 0) for day in span) for span in question.spans()]
        total += question.appetite(eater) * sum(n if most is None else min(n, most) for n in numbers)
    return math.ceil(total)


def columns_for_slots(model: WeekModel) -> None:
    """Who has how many portions of what on which day, and how many meals out."""
    question, sheet = model.question, model.sheet
    reachable = {(d.dish, d.version, d.appetite, d.day) for d in model.eaten}
    for dish, version in versions_of(question):
        for (eater, day), meals in version_slots(question, dish, version).items():
            if (dish.name, version.name, question.appetite(eater), day) in reachable:
                key = (dish.name, version.name, eater, day)
                model.served[key] = sheet.column(f"served {key}", len(meals))
    for lot in question.portions:
        for (eater, day), meals in lot_slots(question, lot).items():
            most = min(len(meals), lot.portions)
            model.taken[lot.name, eater, day] = sheet.column(f"taken {lot.name} {eater} {day}", most)
    price = question.rules.meal_out_cents
    per_day: dict[tuple[str, int], int] = defaultdict(int)
    for slot in question.slots:
        per_day[slot.eater, slot.day] += 1
    for (eater, day), number in per_day.items():
        upper = 0 if price is None else number
        model.out[eater, day] = sheet.column(f"out {eater} {day}", upper, price or 0)


def useful_days(question: Question, food: Foodstuff, bought: int) -> list[int]:
    """Session days on which food bought on a day can be used."""
    return [
        s.day
        for s in question.sessions
        if s.day >= bought and (food.keep_days is None or s.day <= bought + food.keep_days - 1)
    ]


def most_needed(model: WeekModel) -> dict[tuple[str, int], int]:
    """The most of a food (mg or pieces) that a session can take, by (food, session day)."""
    most: dict[tuple[str, int], int] = defaultdict(int)
    per_dish: dict[tuple[str, str, int], int] = defaultdict(int)
    largest: dict[tuple[str, str, int], int] = defaultdict(int)
    for dish, name, session, portions in model.size:
        key = (dish, name, session)
        largest[key] = max(largest[key], portions)
    for (dish, name, session), portions in largest.items():
        version = model.question.version(dish, name)
        split = model.question.dish(dish).most_versions > 1
        for food in version.needs:
            key = (food, dish, session)
            amount = need(version, food, portions)
            per_dish[key] = per_dish[key] + amount if split else max(per_dish[key], amount)
    for (food, _, session), quantity in per_dish.items():
        most[food, session] += quantity
    return most


def unit(question: Question, food: str) -> float:
    """The food's unit in the sheet: its largest package, else its largest lot, in mg or pieces."""
    packages = [o.quantity for o in question.offers if o.food == food]
    return float(max(packages or [lot.quantity for lot in question.lots if lot.food == food] or [1]))


def columns_for_shopping(model: WeekModel) -> None:
    """How many packages are bought where and when, which visits are made, and where food is used."""
    question, sheet = model.question, model.sheet
    most = most_needed(model)
    days = [s.day for s in question.sessions]
    for shop in question.shops:
        for bought in days:
            made = model.visits is None or (shop.name, bought) in model.visits
            column = sheet.column(f"trip {shop.name} {bought}", int(made), shop.trip_cents)
            model.trip[shop.name, bought] = column
    for offer in question.offers:
        food = question.food(offer.food)
        for bought in days:
            if model.visits is not None and (offer.shop, bought) not in model.visits:
                continue
            useful = [d for d in useful_days(question, food, bought) if most[food.name, d]]
            upper, lower = _packages(question, offer, bought, sum(most[food.name, d] for d in useful))
            if not upper:
                continue
            column = sheet.column(f"buy {offer.name} {bought}", upper, offer.cents, lower=lower)
            model.buy[offer.name, bought] = column
            for day in useful:
                key = (offer.name, bought, day)
                model.use[key] = sheet.column(f"use {key}", whole=False)
    for lot in question.lots:
        for day in days:
            if (lot.last_day is None or day <= lot.last_day) and most[lot.food, day]:
                model.use[lot.name, None, day] = sheet.column(f"use {lot.name} {day}", whole=False)


def _packages(question: Question, offer: PackageOffer, bought: int, needed: int) -> tuple[int, int]:
    """The most and the fewest packages worth a thought.

    Buying more than all later needs never lowers the objective, since what is left is worth at most what it
    cost; so the packages that cover those needs are a valid upper bound, but for those that are wished for.
    """
    wished = [
        w.packages
        for w in question.wishes
        if isinstance(w, MustBuy) and (w.offer, w.day) == (offer.name, bought)
    ]
    fewest = max(wished, default=0)
    upper = max(math.ceil(needed / offer.quantity), fewest)
    return (upper if offer.most is None else min(upper, offer.most)), fewest


def wished_portions(model: WeekModel, wish: MustCook) -> list[tuple[int, float]]:
    """The portions cooked of what a wish names, as terms."""
    return [
        (column, float(portions))
        for (dish, version, day, portions), column in model.size.items()
        if dish == wish.dish and wish.day in (None, day) and wish.version in (None, version)
    ]


Item = TypeVar("Item", bound=Hashable)


def unions(sets: Iterable[frozenset[Item]]) -> list[frozenset[Item]]:
    """All unions of some of these sets: the cases of Hall's condition that matter.

    Each stands there once, in an order that does not depend on the process (a set's own order does).
    """
    found: dict[frozenset[Item], None] = {}
    for some in sorted(set(sets), key=lambda some: sorted(map(repr, some))):
        found.update(dict.fromkeys([some, *(some | other for other in found)]))
    return list(found)
