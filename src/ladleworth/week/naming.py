"""Days, offers and servings of a plan as the cook names them. Pure."""

from __future__ import annotations

from datetime import date, timedelta

from ladleworth.decide import PackageOffer, Question
from ladleworth.errors import BadField
from ladleworth.household import Kitchen
from ladleworth.store.fields import WEEKDAYS, parse_date
from ladleworth.week.finding import MOST_NAMED, find_priced

SHORTEST_WEEKDAY = 3
"""So many letters of a weekday are enough."""


def read_day(kitchen: Kitchen, text: str) -> int:
    """Read a day of the plan: its number, a weekday, or a date.

    Raises
    ------
    BadField
        If it is none, or a weekday that the plan has twice.
    """
    household, wanted = kitchen.household, text.strip().casefold()
    last = household.date_of(household.days)
    if wanted.isascii() and wanted.isdigit():
        if 1 <= int(wanted[:6]) <= household.days:
            return int(wanted[:6])
        raise BadField(f"the plan has no day {wanted[:6]}; write one from 1 to {household.days}")
    weekday = _weekday(wanted)
    if weekday is not None:
        found = [d for d in range(1, household.days + 1) if household.date_of(d).weekday() == weekday]
        if len(found) == 1:
            return found[0]
        if found:
            raise BadField(
                f"{text!r} is day {' and day '.join(map(str, found))}; write the number or the date"
            )
        raise BadField(f"the plan has no {WEEKDAYS[weekday]}; write a day from {household.start} to {last}")
    try:
        day = parse_date(wanted)
    except BadField as bad:
        raise BadField(
            f"{text!r} names no day; write a number (1), a weekday (sunday) or a date (2026-12-06)"
        ) from bad
    if not household.start <= day <= last:
        raise BadField(f"{day} is no day of the plan; write one from {household.start} to {last}")
    return household.day_of(day)


def _weekday(text: str) -> int | None:
    fits = [at for at, name in enumerate(WEEKDAYS) if len(text) >= SHORTEST_WEEKDAY and name.startswith(text)]
    return fits[0] if len(fits) == 1 else None


def read_earlier(kitchen: Kitchen, text: str) -> date:
    """Read a day before the plan: a date, or a weekday (the last one before the plan begins)."""
    start, weekday = kitchen.household.start, _weekday(text.strip().casefold())
    if weekday is not None:
        return start - timedelta(days=(start.weekday() - weekday - 1) % 7 + 1)
    try:
        return parse_date(text)
    except BadField as bad:
        raise BadField(
            f"{text!r} names no earlier day; write a date (2026-12-01) or a weekday (tuesday)"
        ) from bad


def find_offer(kitchen: Kitchen, question: Question, name: str) -> PackageOffer:
    """Find an offer of the question by its id, or by its food where only one package of it can be had.

    Raises
    ------
    BadField, UnknownFood
        If none is called so, or several are.
    """
    for offer in question.offers:
        if offer.name == name:
            return offer
    foods = find_priced(kitchen, name)
    found = [offer for offer in question.offers if offer.food in foods]
    if len(found) == 1:
        return found[0]
    if found:
        told = ", ".join(repr(offer.name) for offer in found[:MOST_NAMED])
        raise BadField(f"several packages are of {name}; name one of {told}")
    raise BadField(f"no shop has {name} for any dish of this week; name an offer of a food that a dish takes")


def why_not_served(question: Question, dish: str, eater: str, meal: str) -> str:
    """Say why an eater cannot have a dish at a meal, neither cooked nor from the portions on hand; '' if they can."""
    sources: list[tuple[bool, bool]] = [
        (lot.suits(meal), eater in lot.barred) for lot in question.portions if lot.dish == dish
    ]
    for choice in question.dishes:
        if choice.name == dish:
            sources += [(choice.suits(meal), eater in version.barred) for version in choice.versions]
    if not sources:
        return f"{dish} can neither be cooked nor is it on hand"
    if not any(suits for suits, _ in sources):
        return f"{dish} is no dish for {meal}"
    if all(barred for suits, barred in sources if suits):
        return f"{eater} may not have {dish}"
    return ""
