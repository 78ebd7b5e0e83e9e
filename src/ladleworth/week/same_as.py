"""The same as on an earlier day: what each eater had, and whether they can have it again. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from ladleworth.decide import MealSlot, Question
from ladleworth.errors import BadField
from ladleworth.household import Kitchen
from ladleworth.ledger import Kind, LotUnit
from ladleworth.week.naming import why_not_served
from ladleworth.week.packing import dish_of


def eaten_on(kitchen: Kitchen, day: date) -> Mapping[tuple[str, str], str]:
    """Tell what each eater had at each meal of a day, by the ledger.

    Returns
    -------
    Mapping
        (eater, meal) to a dish's id; for food eaten as it is, to '' (it is no dish). What was taken back is left out.

    Raises
    ------
    BadField
        If nothing is entered as eaten on that day.
    """
    ledger = kitchen.ledger
    had: dict[tuple[str, str], str] = {}
    for entry in ledger.movements:
        stands = entry.reverses is None and ledger.reversal_of(entry.id) is None
        if entry.kind is Kind.EATEN and entry.day == day and stands and entry.who:
            lot = ledger.holding(entry.lot).lot
            had[entry.who, entry.note] = dish_of(lot.item) if lot.unit is LotUnit.PORTION else ""
    if not had:
        raise BadField(f"nothing is entered as eaten on {day}; name a day on which something is")
    return had


def same_again(
    kitchen: Kitchen, question: Question, had: Mapping[tuple[str, str], str], before: date, day: int
) -> list[tuple[MealSlot, str]]:
    """Pair the slots of a day with what their eaters had before; a slot of which nothing is entered stays open.

    Raises
    ------
    BadField
        If any of it cannot be planned again: one message that names all of it.
    """
    names = {dish.id: dish.name for dish in kitchen.dishes}
    found, faults = [], []
    for slot in question.slots:
        dish = had.get((slot.eater, slot.meal)) if slot.day == day else None
        if dish is None:
            continue
        why = why_not_served(question, dish, slot.eater, slot.meal) if dish else "it was no dish"
        if why:
            faults.append(f"{slot.eater}'s {slot.meal} ({names.get(dish, dish) or 'food as it is'}: {why})")
        found.append((slot, dish))
    if faults:
        raise BadField(
            f"day {day} cannot be the same as {before}: {', '.join(faults)}; write --serve for the meals that can"
        )
    if not found:
        raise BadField(f"nobody has on day {day} a meal that was eaten on {before}; name other days")
    return found
