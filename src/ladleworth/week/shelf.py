"""Acts on one lot of what is on hand: count, move, open, throw out, give away, take back."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from ladleworth.errors import BadField, MissingFact
from ladleworth.household import Kitchen
from ladleworth.ledger import (
    Cause,
    Entered,
    Ledger,
    Lot,
    LotUnit,
    Spot,
    count,
    fresh_lot_id,
    give_away,
    move,
    open_package,
    reverse,
    throw_out,
)
from ladleworth.store import Store
from ladleworth.store.amounts import read_as_bought
from ladleworth.store.keeping_rule import days_in_freezer
from ladleworth.units import read_number
from ladleworth.week.acting import change_stock
from ladleworth.week.finding import find_lot
from ladleworth.week.packing import dish_of


def read_amount(kitchen: Kitchen, lot: Lot, text: str) -> int:
    """Read an amount of a lot as it is written: '500 g', '3', in mg, pieces or portions.

    Raises
    ------
    BadUnit, BadField
        If it is none, or not of the lot's kind.
    """
    if lot.unit is not LotUnit.PORTION:
        return read_as_bought(text, kitchen.foods.get(lot.item), kitchen.foods)
    number = read_number(text.strip().removesuffix("portions").removesuffix("portion").strip())
    if number.denominator != 1 or number < 0:
        raise BadField(f"{text!r} of {lot.item} are no whole portions; write a number such as 2")
    return number.numerator


def count_lot(file: str | Path, lot: str, amount: str, *, today: date, why: str) -> Entered:
    """Enter a count of a lot."""
    kitchen = _kitchen(file)
    lot = find_lot(kitchen, lot)
    found = read_amount(kitchen, kitchen.ledger.holding(lot).lot, amount)
    return change_stock(file, lambda ledger: count(ledger, today, lot, found, why))


def move_lot(
    file: str | Path,
    lot: str,
    spot: Spot,
    *,
    today: date,
    use_by: date | None = None,
    part: str | None = None,
) -> Entered:
    """Put a lot, or a part of it, somewhere else, with the last day that it has there (see `last_day_in`)."""
    kitchen = _kitchen(file)
    lot = find_lot(kitchen, lot)
    held = kitchen.ledger.holding(lot)
    if use_by is not None and use_by < today:
        raise BadField(f"the last day {use_by} is before {today}; write {today} or a later day")
    last = use_by or last_day_in(kitchen, lot, spot, today)
    quantity = None if part is None else read_amount(kitchen, held.lot, part)

    def act(ledger: Ledger) -> Entered:
        new = fresh_lot_id(ledger, lot)
        return move(ledger, today, lot, spot, use_by=last, quantity=quantity, new_lot_id=new)

    return change_stock(file, act)


def last_day_in(kitchen: Kitchen, lot: str, spot: Spot, today: date) -> date | None:
    """Work out a lot's last day in another spot; days that it spent in the fridge stay spent.

    Parameters
    ----------
    kitchen
        The kitchen.
    lot
        The lot's id.
    spot
        Where it goes.
    today
        The day of moving.

    Returns
    -------
    date or None
        In the freezer: for portions the dish's own freezer days from cooking, for a food the published
        greatest time from today. From the freezer to the fridge: the days that were left when it was frozen.
        Otherwise the day that it has. None: no limit.

    Raises
    ------
    MissingFact
        If nobody knows it; the cook has to say.
    """
    held = kitchen.ledger.holding(lot)
    here = held.standing
    if spot is here.spot or (here.spot is Spot.CUPBOARD and spot is Spot.FRIDGE):
        return here.use_by
    if spot is Spot.FREEZER:
        return _frozen_until(kitchen, held.lot, today)
    if here.spot is Spot.FREEZER and spot is Spot.FRIDGE:
        left = days_left_when_frozen(kitchen.ledger, lot)
        if left is not None:
            return today + timedelta(days=left - 1)
    raise MissingFact(
        f"nobody knows how long {held} keeps in the {spot.value} after the {here.spot.value}; give --use-by"
    )


def _frozen_until(kitchen: Kitchen, lot: Lot, today: date) -> date:
    if lot.unit is LotUnit.PORTION:
        dishes = {dish.id: dish for dish in kitchen.dishes}
        dish = dishes.get(dish_of(lot.item))
        if dish is None or dish.freezer_days is None:
            raise MissingFact(f"nobody says how long {lot.item} keeps frozen; give --use-by")
        return max(today, lot.got_on + timedelta(days=dish.freezer_days - 1))
    try:
        return today + timedelta(days=days_in_freezer(kitchen.foods, lot.item) - 1)
    except MissingFact as missing:
        raise MissingFact(f"{missing}; give --use-by") from missing


def days_left_when_frozen(ledger: Ledger, lot: str) -> int | None:
    """Count the days that a lot had left in the fridge on the day it was frozen, that day included."""
    held = ledger.holding(lot)
    standings = [(None, held.lot.standing), *held.moves]
    for (_, before), (number, after) in zip(reversed(standings[:-1]), reversed(standings[1:]), strict=True):
        if after.spot is Spot.FREEZER and before.spot is Spot.FRIDGE and number is not None:
            if before.use_by is None:
                return None
            return max(1, (before.use_by - ledger.movement(number).day).days + 1)
    return None


def open_lot(file: str | Path, lot: str, *, today: date, part: str | None = None) -> Entered:
    """Open a lot's package: the published life once opened may bring its last day forward."""
    kitchen = _kitchen(file)
    lot = find_lot(kitchen, lot)
    held = kitchen.ledger.holding(lot)
    quantity = None if part is None else read_amount(kitchen, held.lot, part)
    last = opened_until(kitchen, lot, today)

    def act(ledger: Ledger) -> Entered:
        new = fresh_lot_id(ledger, lot)
        return open_package(ledger, today, lot, use_by=last, quantity=quantity, new_lot_id=new)

    return change_stock(file, act)


def opened_until(kitchen: Kitchen, lot: str, today: date) -> date | None:
    """Tell the last day of a lot opened today by the published life once opened; None if there is none."""
    held = kitchen.ledger.holding(lot)
    if held.lot.unit is LotUnit.PORTION:
        return None
    try:
        days = kitchen.foods.keeping(held.lot.item, held.standing.spot.value, "opened").most_days
    except MissingFact:
        return None
    return today + timedelta(days=max(days, 1) - 1)


def throw_lot(
    file: str | Path, lot: str, cause: Cause, *, today: date, part: str | None = None, note: str = ""
) -> Entered:
    """Enter that a lot, or a part of it, was thrown out, and why."""
    kitchen = _kitchen(file)
    lot = find_lot(kitchen, lot)
    quantity = None if part is None else read_amount(kitchen, kitchen.ledger.holding(lot).lot, part)
    return change_stock(
        file, lambda ledger: throw_out(ledger, today, lot, cause, quantity=quantity, note=note)
    )


def give_lot(file: str | Path, lot: str, *, today: date, part: str | None = None, who: str = "") -> Entered:
    """Enter that a lot, or a part of it, went to somebody outside the household."""
    kitchen = _kitchen(file)
    lot = find_lot(kitchen, lot)
    held = kitchen.ledger.holding(lot)
    quantity = held.quantity if part is None else read_amount(kitchen, held.lot, part)
    return change_stock(file, lambda ledger: give_away(ledger, today, lot, quantity, who=who))


def undo_entry(file: str | Path, number: int, *, today: date, note: str = "") -> Entered:
    """Take an entry of the ledger back, with those that only make sense together with it."""
    return change_stock(file, lambda ledger: reverse(ledger, today, number, note=note))


def _kitchen(file: str | Path) -> Kitchen:
    with Store.open(file) as store:
        return store.load_kitchen()
