"""stock.csv: what is on hand when the days begin, entered in a fresh ledger as counted."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from ladleworth.dish.tree import nearest, shorten
from ladleworth.errors import BadField, BadUnit, MissingFact, UnknownFood
from ladleworth.facts import Food, FoodTable
from ladleworth.ledger import Kind, Ledger, Lot, Movement, Spot
from ladleworth.store.amounts import read_as_bought, unit_of
from ladleworth.store.csv_rows import Columns, Row
from ladleworth.store.fields import parse_date, reads_two_ways, two_ways
from ladleworth.store.keeping_rule import days_in_freezer
from ladleworth.units import Currency, read_money

STOCK_COLUMNS = Columns(("food", "amount"), ("cost", "place", "use_by", "got", "opened", "note"))
FIRST_COUNT = "first count"


@dataclass(frozen=True, slots=True)
class Shelf:
    """What reading stock and prices needs to know: foods, money, the days, and what dishes call for."""

    foods: FoodTable
    currency: Currency | None
    start: date | None
    days: int | None
    keep_days: Mapping[str, int | None]
    needed: frozenset[str]


class FoodFinder:
    """Finds foods by name for many rows, each name once."""

    def __init__(self, foods: FoodTable) -> None:
        self._foods = foods
        self._known: dict[str, Food | UnknownFood] = {}

    def find(self, row: Row) -> Food | None:
        """Find the food of a row; None after a fault that names the nearest three."""
        name = row["food"]
        if not name:
            row.fault("food", "the food is missing", "write its name, such as rice")
            return None
        if name not in self._known:
            try:
                self._known[name] = self._foods.find(name)
            except UnknownFood as unknown:
                self._known[name] = unknown
        found = self._known[name]
        if isinstance(found, Food):
            return found
        near = " or ".join(map(repr, found.nearest))
        remedy = f"did you mean {near}?" if near else "write a food of the table"
        row.fault(
            "food", f"no food is called {shorten(name)}", f"{remedy} A food of your own goes into foods.yaml"
        )
        return None


def read_money_field(row: Row, column: str, cur: Currency | None, *, empty: int | None) -> int | None:
    """Read a row's money in cents: `empty` when nothing is written, None after a fault and without a currency."""
    text = row[column]
    if not text:
        if empty is None:
            row.fault(column, f"the {column} is missing", "write it like 12.40")
        return empty
    if cur is None:
        return None
    try:
        cents = read_money(text, cur)
        if reads_two_ways(text):
            row.doubt(column, *two_ways(text, cents, cur))
        return cents
    except BadUnit as bad:
        reason, _, remedy = str(bad).partition("; ")
        row.fault(column, reason, remedy or "write it like 12.40")
        return None


def read_amount_field(row: Row, column: str, food: Food, foods: FoodTable) -> int | None:
    """Read a row's amount in what the food is bought by; None after a fault."""
    if not row[column]:
        row.fault(column, f"the {column} is missing", "write an amount such as 500 g, 2 lb or 12")
        return None
    try:
        return read_as_bought(row[column], food, foods)
    except (BadUnit, BadField) as bad:
        reason, _, remedy = str(bad).partition("; ")
        row.fault(
            column, f"the {column} of {food.name}: {reason}", remedy or "write it like 500 g, 2 lb or 12"
        )
        return None


def read_date_field(row: Row, column: str) -> date | None:
    """Read a row's date; None when it is empty and after a fault."""
    if not row[column]:
        return None
    try:
        return parse_date(row[column])
    except BadField as bad:
        reason, _, remedy = str(bad).partition("; ")
        row.fault(column, reason, remedy)
        return None


def read_stock(rows: Iterable[Row], shelf: Shelf) -> Ledger:
    """Read stock.csv into a ledger of first counts, dated on the plan's first day.

    Parameters
    ----------
    rows
        The paper's rows; each takes its own findings.
    shelf
        What the kitchen says beside it.

    Returns
    -------
    Ledger
        One lot a row, called after its food and numbered from the second on: the same paper always gives
        the same ids. Empty when the plan's first day could not be read.
    """
    finder = FoodFinder(shelf.foods)
    numbers: dict[str, int] = {}
    taken: set[str] = set()
    lots: list[Lot] = []
    movements: list[Movement] = []
    for row in rows:
        food = finder.find(row)
        lot = _lot(row, food, shelf, numbers, taken) if food is not None else None
        if lot is None:
            continue
        note = row["note"] or FIRST_COUNT
        day = shelf.start or lot.got_on
        lots.append(lot)
        movements.append(Movement(len(lots), day, Kind.COUNTED, lot.id, lot.quantity, lot.cents, note=note))
    return Ledger(tuple(lots), tuple(movements))


def _lot(row: Row, food: Food, shelf: Shelf, numbers: dict[str, int], taken: set[str]) -> Lot | None:
    """Read one row; None after a fault, and when there is nothing of it."""
    quantity = read_amount_field(row, "amount", food, shelf.foods)
    cents = read_money_field(row, "cost", shelf.currency, empty=0)
    spot = _spot(row)
    got = _past(row, "got", shelf.start)
    opened = _past(row, "opened", shelf.start)
    use_by, told = _use_by(row, shelf.start)
    if quantity == 0:
        row.doubt("amount", f"there is nothing of this {food.name}", "it is passed over; take the line out")
        return None
    if quantity is None or cents is None or row.is_faulty():
        return None
    got_on = got or shelf.start or opened or date(2000, 1, 1)
    if opened is not None and opened < got_on and got is not None:
        row.fault("opened", f"it was opened on {opened}, before it came on {got}", "correct one of the two")
        return None
    if not told:
        use_by = _reckoned(row, food, spot, got_on, shelf)
    if use_by is not None and shelf.start is not None and use_by < shelf.start:
        what = f"the last day of {food.name} was {use_by}, before the first day of the plan"
        row.doubt("use_by", what, "it is counted as spoilt; correct the date, or take the line out", use_by)
    if row.is_faulty():
        return None
    return Lot(
        free_id(food.id, numbers, taken),
        food.id,
        unit_of(food),
        spot,
        got_on,
        quantity,
        cents,
        use_by,
        opened,
    )


def free_id(stem: str, numbers: dict[str, int], taken: set[str]) -> str:
    """Give 'rice', then 'rice-2', 'rice-3' and so on, passing over what is taken."""
    number = numbers.get(stem, 0) + 1
    while (name := stem if number == 1 else f"{stem}-{number}") in taken:
        number += 1
    numbers[stem] = number
    taken.add(name)
    return name


def _spot(row: Row) -> Spot:
    text = row["place"].casefold()
    spots = {spot.value: spot for spot in Spot}
    if text and text not in spots:
        near = nearest(text, spots)
        hint = f"did you mean {near!r}?" if near else f"write {', '.join(spots)}, or leave it empty"
        row.fault("place", f"no place is called {shorten(text)}", hint)
    return spots.get(text, Spot.CUPBOARD)


def _past(row: Row, column: str, start: date | None) -> date | None:
    """Read a day that lies behind us; one after the plan's first day is doubted and taken as that day."""
    day = read_date_field(row, column)
    if day is None or start is None or day <= start:
        return day
    row.doubt(
        column,
        f"{day} is after the first day of the plan, {start}",
        f"it is taken as {start}; correct the date",
        day,
    )
    return start


def _use_by(row: Row, start: date | None) -> tuple[date | None, bool]:
    """Read the last day (None: no limit), and whether one is written at all."""
    text = row["use_by"].casefold()
    if text in ("", "none"):
        return None, text == "none"
    if text.startswith("day"):
        number = text.removeprefix("day").strip()
        if not (number.isascii() and number.isdigit() and 1 <= int(number[:10]) <= 10_000):
            row.fault(
                "use_by", f"{shorten(text)} is no day of the plan", "write one such as day 3, or a date"
            )
            return None, True
        return (None if start is None else start + timedelta(days=int(number) - 1)), True
    return read_date_field(row, "use_by"), True


def _reckoned(row: Row, food: Food, spot: Spot, got_on: date, shelf: Shelf) -> date | None:
    """Work the last day out from the day got; a food of which nobody knows how long it keeps needs it written."""
    try:
        if spot is Spot.FREEZER:
            days: int | None = days_in_freezer(shelf.foods, food.id)
        elif food.id in shelf.keep_days:
            days = shelf.keep_days[food.id]
        else:
            raise MissingFact(f"nobody has the keeping time of {food.name}")
    except MissingFact as missing:
        remedy = f"write the last day (or none), or keep_days of {food.name} in foods.yaml"
        if food.id in shelf.needed:
            row.fault("use_by", f"there is no use_by, and {missing}", remedy)
        else:
            row.doubt(
                "use_by",
                f"there is no use_by, and {missing}",
                f"no dish needs it; it is taken as without a limit; {remedy}",
            )
        return None
    return None if days is None else got_on + timedelta(days=days - 1)
