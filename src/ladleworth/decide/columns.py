"""The columns of the week's programme: what can be chosen, and within which bounds.

Scaling happens here, once: food in units of its largest package, needs rounded up to whole milligrams or
pieces per batch (`judge.need`), stock and packages in whole ones as recorded.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from ladleworth.decide.judge import hands_on_min, need
from ladleworth.decide.question import DishChoice, Foodstuff, Question, Version
from ladleworth.decide.sheet import Sheet

THAW_AGE = 3
"""Age in days (cooking day as day 1) from which a frozen portion can be eaten: a night frozen, a day thawing."""


@dataclass(slots=True)
class WeekModel:
    """The sheet of a question, and where its columns stand."""

    question: Question
    sheet: Sheet = field(default_factory=Sheet)
    size: dict[tuple[str, str, int, int], int] = field(default_factory=dict)
    """(dish, version, session day, portions) -> 1 if that batch is cooked"""
    chilled: dict[tuple[str, str, int, int], int] = field(default_factory=dict)
    """(dish, version, session day, eating day) -> portions eaten from the fridge"""
    thawed: dict[tuple[str, str, int, int], int] = field(default_factory=dict)
    """(dish, version, session day, eating day) -> portions eaten from the freezer"""
    kept: dict[tuple[str, str, int], int] = field(default_factory=dict)
    """(dish, version, session day) -> frozen portions left when the days end"""
    served: dict[tuple[str, str, str, int], int] = field(default_factory=dict)
    """(dish, version, eater, day) -> portions this eater has"""
    out: dict[tuple[str, int], int] = field(default_factory=dict)
    """(eater, day) -> meals out"""
    buy: dict[tuple[str, int], int] = field(default_factory=dict)
    """(offer, session day) -> packages"""
    trip: dict[tuple[str, int], int] = field(default_factory=dict)
    """(shop, session day) -> 1 if visited"""
    use: dict[tuple[str, int | None, int], int] = field(default_factory=dict)
    """(source, day bought or None, session day) -> food used, in units of the food's largest package"""

    def eaten_of(self, dish: str, version: str, session: int) -> Iterator[tuple[int, int, bool]]:
        """Yield (eating day, column, frozen) for a batch."""
        for columns, frozen in ((self.chilled, False), (self.thawed, True)):
            for day in range(session, self.question.days + 1):
                if (dish, version, session, day) in columns:
                    yield day, columns[dish, version, session, day], frozen


def versions_of(question: Question) -> Iterator[tuple[DishChoice, Version]]:
    """Yield every version with its dish."""
    for dish in question.dishes:
        for version in dish.versions:
            yield dish, version


def _eating_days(question: Question, dish: DishChoice, session: int) -> tuple[range, range]:
    chilled = range(session, min(session + dish.keep_days - 1, question.days) + 1)
    if dish.freezer_days is None:
        return chilled, range(0)
    return chilled, range(session + THAW_AGE - 1, min(session + dish.freezer_days - 1, question.days) + 1)


def _slots_for(question: Question, dish: DishChoice, version: Version) -> dict[tuple[str, int], int]:
    """Slots by (eater, day) that could take this dish."""
    slots: dict[tuple[str, int], int] = defaultdict(int)
    for slot in question.slots:
        if slot.eater not in version.barred and dish.suits(slot.meal):
            slots[slot.eater, slot.day] += 1
    return slots


def columns_for_batches(model: WeekModel) -> None:
    """Which batch, in which version and size; how many of its portions are eaten when, or kept."""
    question, sheet, extra = model.question, model.sheet, model.question.additions
    for dish, version in versions_of(question):
        slots = _slots_for(question, dish, version)
        for session in question.sessions:
            fridge, freezer = _eating_days(question, dish, session.day)
            days = {*fridge, *freezer}
            ending = dish.freezer_days is not None and session.day + dish.freezer_days - 1 > question.days
            reserve = extra.reserve_portions if ending else 0
            eatable = _most_eatable(question, slots, days)
            key = (dish.name, version.name, session.day)
            for portions in range(dish.least, min(dish.greatest, eatable + reserve) + 1):
                minutes = float(hands_on_min(version, portions))
                if minutes > session.minutes:
                    break
                price = float(extra.minute_cents) * minutes + float(version.liking_cents) * portions
                model.size[*key, portions] = sheet.column(f"batch {key} {portions}", 1, price)
            if not any(k[:3] == key for k in model.size):
                continue
            for day in fridge:
                if any(d == day for _, d in slots):
                    model.chilled[*key, day] = sheet.column(f"chilled {key} {day}", dish.greatest)
            for day in freezer:
                if any(d == day for _, d in slots):
                    model.thawed[*key, day] = sheet.column(f"thawed {key} {day}", dish.greatest)
            if reserve:
                model.kept[key] = sheet.column(f"kept {key}", reserve, -extra.reserve_cents)


def _most_eatable(question: Question, slots: dict[tuple[str, int], int], days: set[int]) -> int:
    by_eater: dict[str, int] = defaultdict(int)
    for (eater, day), number in slots.items():
        if day in days:
            by_eater[eater] += number
    most = question.rules.most_times
    return sum(number if most is None else min(number, most) for number in by_eater.values())


def columns_for_slots(model: WeekModel) -> None:
    """Who has how many portions of what on which day, and how many meals out."""
    question, sheet = model.question, model.sheet
    reachable = {(d, v, day) for (d, v, _, day) in (*model.chilled, *model.thawed)}
    for dish, version in versions_of(question):
        for (eater, day), number in _slots_for(question, dish, version).items():
            if (dish.name, version.name, day) in reachable:
                key = (dish.name, version.name, eater, day)
                model.served[key] = sheet.column(f"served {key}", number)
    price = question.rules.meal_out_cents
    per_day: dict[tuple[str, int], int] = defaultdict(int)
    for slot in question.slots:
        per_day[slot.eater, slot.day] += 1
    for (eater, day), number in per_day.items():
        upper = 0 if price is None else number
        model.out[eater, day] = sheet.column(f"out {eater} {day}", upper, price or 0)


def _useful_days(question: Question, food: Foodstuff, bought: int) -> list[int]:
    return [
        s.day
        for s in question.sessions
        if s.day >= bought and (food.keep_days is None or s.day <= bought + food.keep_days - 1)
    ]


def _most_needed(model: WeekModel) -> dict[tuple[str, int], int]:
    """The most of a food (mg or pieces) that a session can take, by (food, session day)."""
    most: dict[tuple[str, int], int] = defaultdict(int)
    per_dish: dict[tuple[str, str, int], int] = defaultdict(int)
    versions = {(d.name, v.name): v for d, v in versions_of(model.question)}
    for dish, name, session, portions in model.size:
        version = versions[dish, name]
        for food in version.needs:
            key = (food, dish, session)
            per_dish[key] = max(per_dish[key], need(version, food, portions))
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
    most = _most_needed(model)
    days = [s.day for s in question.sessions]
    for offer in question.offers:
        food = question.food(offer.food)
        for bought in days:
            useful = [d for d in _useful_days(question, food, bought) if most[food.name, d]]
            # Buying more than all later needs never lowers the objective: what is left of it is worth at
            # most what it cost. So the packages that cover those needs are a valid upper bound.
            upper = math.ceil(sum(most[food.name, d] for d in useful) / offer.quantity)
            upper = upper if offer.most is None else min(upper, offer.most)
            if not upper:
                continue
            model.buy[offer.name, bought] = sheet.column(f"buy {offer.name} {bought}", upper, offer.cents)
            for day in useful:
                key = (offer.name, bought, day)
                model.use[key] = sheet.column(f"use {key}", whole=False)
    for shop in question.shops:
        for bought in days:
            model.trip[shop.name, bought] = sheet.column(f"trip {shop.name} {bought}", 1, shop.trip_cents)
    for lot in question.lots:
        for day in days:
            if (lot.last_day is None or day <= lot.last_day) and most[lot.food, day]:
                model.use[lot.name, None, day] = sheet.column(f"use {lot.name} {day}", whole=False)


Item = TypeVar("Item", bound=Hashable)


def unions(sets: Iterable[frozenset[Item]], most: int | None = None) -> list[frozenset[Item]]:
    """All unions of some of these sets: the cases of Hall's condition that matter.

    Parameters
    ----------
    sets
        Sets of slots or of meals.
    most
        With more sets than this only the sets themselves are given: fewer rows than needed, each of them still
        true, so that a bound holds but seats may not work out.

    Returns
    -------
    list of frozenset
        Each once, in an order that does not depend on the process (a set's own order does).
    """
    ordered = sorted(set(sets), key=lambda some: sorted(map(repr, some)))
    if most is not None and len(ordered) > most:
        return ordered
    found: dict[frozenset[Item], None] = {}
    for some in ordered:
        found.update(dict.fromkeys([some, *(some | other for other in found)]))
    return list(found)
