"""From counts to seats: which slot gets which portion, in a fixed order, so that equal counts give equal plans."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from ladleworth.decide.answer import Helping
from ladleworth.decide.question import MealSlot, Question

Served = Mapping[tuple[str, str, str, int], int]
"""(dish, version, eater, day) -> portions."""

Eaten = Mapping[tuple[str, str, int, int, bool], int]
"""(dish, version, session day, eating day, frozen) -> portions."""


def seat(question: Question, eaten: Eaten, served: Served) -> tuple[Helping, ...] | None:
    """Put counted portions into slots.

    Parameters
    ----------
    question
        Its slots are filled.
    eaten, served
        How many portions of which batch are eaten on each day, and who has how many of which dish that day.

    Returns
    -------
    tuple of Helping or None
        One helping a slot, sorted; None if the portions of some eater's day do not fit into its slots.
    """
    waiting: dict[tuple[str, str, int], list[tuple[int, bool]]] = defaultdict(list)
    for (dish, version, session, day, frozen), portions in sorted(eaten.items()):
        waiting[dish, version, day] += [(session, frozen)] * portions
    slots: dict[tuple[str, int], list[MealSlot]] = defaultdict(list)
    for slot in question.slots:
        slots[slot.eater, slot.day].append(slot)
    dishes: dict[tuple[str, int], list[tuple[str, str]]] = defaultdict(list)
    for (dish, version, eater, day), portions in sorted(served.items()):
        dishes[eater, day] += [(dish, version)] * portions
    helpings: list[Helping] = []
    for seat_key, here in slots.items():
        placed = _match(question, here, dishes[seat_key])
        if placed is None:
            return None
        for slot, portion in zip(here, placed, strict=True):
            if portion is None:
                helpings.append(Helping(slot.day, slot.eater, slot.meal))
                continue
            dish, version = portion
            batches = waiting[dish, version, slot.day]
            if not batches:
                return None
            session, frozen = batches.pop(0)
            helpings.append(Helping(slot.day, slot.eater, slot.meal, dish, session, frozen))
    return tuple(sorted(helpings, key=lambda h: (h.day, h.eater, h.meal)))


def _match(
    question: Question, slots: Sequence[MealSlot], portions: Sequence[tuple[str, str]]
) -> list[tuple[str, str] | None] | None:
    """Give each portion a slot that it suits (augmenting paths); None if one finds no slot."""
    holder: dict[int, int] = {}

    def place(portion: int, tried: set[int]) -> bool:
        for number, slot in enumerate(slots):
            if number in tried or not question.dish(portions[portion][0]).suits(slot.meal):
                continue
            tried.add(number)
            if number not in holder or place(holder[number], tried):
                holder[number] = portion
                return True
        return False

    if not all(place(portion, set()) for portion in range(len(portions))):
        return None
    return [portions[holder[number]] if number in holder else None for number in range(len(slots))]
