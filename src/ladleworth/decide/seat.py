"""From counts to seats: which slot gets which portion, in a fixed order, so that equal counts give equal plans."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from ladleworth.decide.answer import Helping
from ladleworth.decide.columns import Dinner
from ladleworth.decide.question import DishChoice, MealSlot, PortionLot, Question
from ladleworth.decide.rules import MustServe

Served = Mapping[tuple[str, str, str, int], int]
"""(dish, version, eater, day) -> portions."""

Eaten = Mapping[Dinner, int]
"""Portions of a batch that eaters of one appetite have on a day."""

Taken = Mapping[tuple[str, str, int], int]
"""(lot of portions, eater, day) -> containers."""


class _Portion(NamedTuple):
    """A portion that an eater has on a day: of a dish's version, or of a lot of portions."""

    dish: str
    version: str | None
    lot: PortionLot | None


def seat(
    question: Question, eaten: Eaten, served: Served, taken: Taken | None = None
) -> tuple[Helping, ...] | None:
    """Put counted portions into slots.

    Parameters
    ----------
    question
        Its slots are filled.
    eaten, served, taken
        How many portions of which batch are eaten on each day; who has how many of which dish that day, and how
        many of the portions on hand.

    Returns
    -------
    tuple of Helping or None
        One helping a slot, sorted; None if the portions of some eater's day do not fit into its slots.
    """
    waiting: dict[tuple[str, str, Fraction, int], list[tuple[int, bool]]] = defaultdict(list)
    for dinner, portions in sorted(eaten.items()):
        key = (dinner.dish, dinner.version, dinner.appetite, dinner.day)
        waiting[key] += [(dinner.session, dinner.frozen)] * portions
    slots: dict[tuple[str, int], list[MealSlot]] = defaultdict(list)
    for slot in question.slots:
        slots[slot.eater, slot.day].append(slot)
    lots = {lot.name: lot for lot in question.portions}
    portions_of: dict[tuple[str, int], list[_Portion]] = defaultdict(list)
    for (dish, version, eater, day), portions in sorted(served.items()):
        portions_of[eater, day] += [_Portion(dish, version, None)] * portions
    for (name, eater, day), portions in sorted((taken or {}).items()):
        portions_of[eater, day] += [_Portion(lots[name].dish, None, lots[name])] * portions
    helpings: list[Helping] = []
    for seat_key, here in slots.items():
        placed = _match(question, here, portions_of[seat_key])
        if placed is None:
            return None
        for slot, portion in zip(here, placed, strict=True):
            helping = _helping(question, slot, portion, waiting)
            if helping is None:
                return None
            helpings.append(helping)
    return tuple(sorted(helpings, key=lambda h: (h.day, h.eater, h.meal)))


def _helping(
    question: Question,
    slot: MealSlot,
    portion: _Portion | None,
    waiting: Mapping[tuple[str, str, Fraction, int], list[tuple[int, bool]]],
) -> Helping | None:
    """Take the first portion that waits for this slot; None if there is none."""
    if portion is None:
        return Helping(slot.day, slot.eater, slot.meal)
    if portion.lot is not None:
        lot = portion.lot
        return Helping(slot.day, slot.eater, slot.meal, lot.dish, None, lot.frozen, None, lot.name)
    assert portion.version is not None
    key = (portion.dish, portion.version, question.appetite(slot.eater), slot.day)
    batches = waiting.get(key)
    if not batches:
        return None
    session, frozen = batches.pop(0)
    return Helping(slot.day, slot.eater, slot.meal, portion.dish, session, frozen, portion.version)


def _match(
    question: Question, slots: Sequence[MealSlot], portions: Sequence[_Portion]
) -> list[_Portion | None] | None:
    """Give each portion a slot that it suits, promised slots first; None if one finds no slot.

    A promised slot takes nothing but what is promised, so once those are filled the others are matched by
    augmenting paths.
    """
    promised = {(w.eater, w.day, w.meal): w.dish for w in question.wishes if isinstance(w, MustServe)}
    holder: dict[int, int] = {}

    def suits(portion: _Portion, slot: MealSlot) -> bool:
        source: DishChoice | PortionLot = portion.lot or question.dish(portion.dish)
        wanted = promised.get((slot.eater, slot.day, slot.meal), portion.dish)
        return wanted == portion.dish and source.suits(slot.meal)

    def take(number: int, tried: set[int]) -> bool:
        """Find a portion for a promised slot."""
        for portion, one in enumerate(portions):
            if portion in tried or not suits(one, slots[number]):
                continue
            tried.add(portion)
            held = next((n for n, p in holder.items() if p == portion), None)
            if held is None or take(held, tried):
                if held is not None and holder.get(held) == portion:
                    del holder[held]
                holder[number] = portion
                return True
        return False

    def place(portion: int, tried: set[int]) -> bool:
        """Find a slot for a portion; what is seated already may move on, but keeps a seat."""
        for number, slot in enumerate(slots):
            if number in tried or not suits(portions[portion], slot):
                continue
            tried.add(number)
            if number not in holder or place(holder[number], tried):
                holder[number] = portion
                return True
        return False

    for number, slot in enumerate(slots):
        if promised.get((slot.eater, slot.day, slot.meal)) is not None and not take(number, set()):
            return None
    if not all(place(portion, set()) for portion in range(len(portions)) if portion not in holder.values()):
        return None
    return [portions[holder[number]] if number in holder else None for number in range(len(slots))]
