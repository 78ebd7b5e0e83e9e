"""Packages that a plan opens: those left begun after cooking, and those used again too long afterwards. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from ladleworth.decide import Plan
from ladleworth.errors import MissingFact
from ladleworth.facts import FoodTable
from ladleworth.household import Kitchen
from ladleworth.ledger import Entered, Kind, Ledger, fresh_lot_id, open_package
from ladleworth.week.sources import bought_lot, offers_by_id


def opened_lots(
    kitchen: Kitchen, plan: Plan, day: int, cooked: Iterable[Entered], before: Collection[str]
) -> tuple[str, ...]:
    """List the lots of which a closed package was begun today and of which the plan draws no more on a later day.

    What the plan draws from later stays as it is: `opened_too_long` says where that is too long.
    """
    household, ledger = kitchen.household, kitchen.ledger
    later = set()
    for drawing in plan.drawings:
        if drawing.day > day:
            source: str | None = drawing.source
            if drawing.bought_day is not None:
                source = bought_lot(ledger, drawing.source, household.date_of(drawing.bought_day), before)
            later.add(source)
    drawn = dict.fromkeys(m.lot for act in cooked for m in act.movements if m.kind is Kind.DRAWN)
    return tuple(
        lot_id
        for lot_id in drawn
        if lot_id not in later
        and (held := ledger.holding(lot_id)).quantity
        and held.standing.opened_on is None
        and held.quantity % (held.lot.quantity // held.lot.packages)
        and _opened_days(kitchen.foods, held.lot.item) is not None
    )


def _opened_days(foods: FoodTable, food: str) -> int | None:
    """How many days a food keeps in the fridge once opened, the day of opening as day 1; None: not known."""
    try:
        return foods.keeping(food, "fridge", "opened").most_days
    except MissingFact:
        return None


def open_begun(kitchen: Kitchen, ledger: Ledger, day: int, lot_id: str) -> Entered:
    """Enter the package that was begun as opened, split off from the closed ones beside it."""
    when, held = kitchen.household.date_of(day), ledger.holding(lot_id)
    days = _opened_days(kitchen.foods, held.lot.item)
    use_by = None if days is None else kitchen.household.date_of(day + days - 1)
    begun = held.quantity % (held.lot.quantity // held.lot.packages)
    if begun == held.quantity:
        return open_package(ledger, when, lot_id, use_by=use_by)
    new = fresh_lot_id(ledger, f"{lot_id} opened")
    return open_package(ledger, when, lot_id, use_by=use_by, quantity=begun, new_lot_id=new)


@dataclass(frozen=True, slots=True)
class OpenedTooLong:
    """A tin, jar or packet that the plan draws from again later than its published life once opened."""

    food: str
    opened_day: int
    drawn_day: int
    keeps_days: int
    source: str


def opened_too_long(kitchen: Kitchen, plan: Plan) -> tuple[OpenedTooLong, ...]:
    """List what the plan opens in one session and uses again after its published opened life.

    The plain question counts days from buying, not from opening; this says where that is too kind.
    """
    offers = offers_by_id(kitchen)
    items = {lot.id: lot.item for lot in kitchen.ledger.lots} | {o.id: o.food for o in offers.values()}
    sizes = {o.id: o.quantity for o in offers.values()}
    days: dict[tuple[str, int | None], Counter[int]] = {}
    for drawing in plan.drawings:
        days.setdefault((drawing.source, drawing.bought_day), Counter())[drawing.day] += drawing.quantity
    found = []
    for (source, bought), by_day in days.items():
        try:
            keeping = kitchen.foods.keeping(items[source], "fridge", "opened")
        except MissingFact:
            continue
        found += [
            OpenedTooLong(items[source], opened, day, keeping.most_days, keeping.source)
            for opened, day in _begun_before(by_day, sizes.get(source) if bought is not None else None)
            if keeping.most_days is not None and day - opened + 1 > keeping.most_days
        ]
    return tuple(found)


def _begun_before(by_day: Mapping[int, int], package: int | None) -> Iterator[tuple[int, int]]:
    """Yield (day of opening, day of drawing) where a package opened on an earlier day is drawn from.

    Parameters
    ----------
    by_day
        What is drawn on which day, from packages that are used up one after the other.
    package
        What one package holds; None: all of it is one package.
    """
    size = package or sum(by_day.values()) + 1
    opened = rest = 0
    for day, quantity in sorted(by_day.items()):
        if rest:
            yield opened, day
        opened = day if quantity > rest else opened
        rest = (rest - quantity) % size
