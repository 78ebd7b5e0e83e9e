"""What comes into the house beside the plan: a purchase or a gift, and a price that was seen."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts import Food
from ladleworth.household import Kitchen
from ladleworth.ledger import Entered, Ledger, Lot, Offer, Spot, buy, fresh_lot_id
from ladleworth.store import Store
from ladleworth.store.amounts import read_as_bought, unit_of
from ladleworth.store.keeping_rule import days_in_freezer
from ladleworth.units import read_money
from ladleworth.week.acting import change_stock
from ladleworth.week.carry_out import spot_of

ELSEWHERE = "elsewhere"
"""The shop of a purchase of which nobody says where it was made."""


def bring_in(
    file: str | Path,
    name: str,
    amount: str,
    price: str,
    *,
    day: date,
    shop: str = "",
    use_by: date | None = None,
    spot: Spot | None = None,
    gift: bool = False,
) -> Entered:
    """Enter an unplanned purchase or a gift as a new lot.

    Parameters
    ----------
    file
        The kitchen's file.
    name, amount
        The food and how much of it, as written: 'tomatoes', '500 g'.
    price
        What all of it cost, as written; for a gift what it would have cost ('' for not known).
    day
        The day it came.
    shop
        Where it was bought; left out 'elsewhere', for a gift nowhere.
    use_by
        Its last day; left out, by the rule of how long the food keeps.
    spot
        Where it goes; left out, where its aisle goes.
    gift
        Whether it was given: it then costs nothing, and the price is kept as what it would have cost.

    Raises
    ------
    UnknownFood
        If no food is called so.
    BadField, BadUnit
        If the amount or the price cannot be read, or the last day is before the day.
    MissingFact
        If nobody knows how long the food keeps, and no last day is given.
    """
    with Store.open(file) as store:
        kitchen = store.load_kitchen()
    food = kitchen.foods.find(name)
    quantity = read_as_bought(amount, food, kitchen.foods)
    if quantity == 0:
        raise BadField(f"{amount!r} of {food.name} is nothing; write an amount above zero")
    if not price and not gift:
        raise BadField(f"{food.name} has no price; write what all of it cost, or --gift")
    cents = read_money(price, kitchen.household.currency) if price else None
    place = spot or spot_of(kitchen.foods, food.id)
    last = use_by or _last_day(kitchen, food, place, day)
    if last is not None and last < day:
        raise BadField(f"the last day {last} is before {day}, when it came; write {day} or a later day")

    def act(ledger: Ledger) -> Entered:
        lot = Lot(
            id=fresh_lot_id(ledger, f"{food.id}-{day:%m%d}"),
            item=food.id,
            unit=unit_of(food),
            spot=place,
            got_on=day,
            quantity=quantity,
            cents=0 if gift else cents or 0,
            use_by=last,
            shop=shop.strip() or ("" if gift else ELSEWHERE),
            gift=gift,
            shelf_cents=cents if gift else None,
        )
        return buy(ledger, day, [lot], note="a gift" if gift else "not planned")

    return change_stock(file, act)


def _last_day(kitchen: Kitchen, food: Food, spot: Spot, day: date) -> date | None:
    """Work a last day out by the keeping rule, the day it came as day 1."""
    if spot is Spot.FREEZER:
        try:
            return day + timedelta(days=days_in_freezer(kitchen.foods, food.id) - 1)
        except MissingFact as missing:
            raise MissingFact(f"{missing}; give --use-by") from missing
    if food.id not in kitchen.keep_days:
        raise MissingFact(f"nobody knows how long {food.name} keeps once bought; give --use-by")
    keep = kitchen.keep_days[food.id]
    return None if keep is None else day + timedelta(days=keep - 1)


def note_price(
    file: str | Path, shop: str, name: str, package: str, price: str, *, seen: date
) -> tuple[Kitchen, Offer]:
    """Put a price that was seen into the price book; the same package on the same day takes the new price.

    Raises
    ------
    UnknownFood
        If no food is called so.
    BadField, BadUnit
        If the shop is empty, or the package or the price cannot be read.
    MissingFact
        If nobody knows how long the food keeps once bought: a plan that buys it would not know its last day.
    """
    with Store.open(file) as store, store.transaction():
        kitchen = store.load_kitchen()
        food = kitchen.foods.find(name)
        quantity = read_as_bought(package, food, kitchen.foods)
        if not shop.strip():
            raise BadField("the shop is empty; write where the price was seen")
        if quantity == 0:
            raise BadField(f"the package {package!r} holds nothing; write its content, such as 500 g or 12")
        if food.id not in kitchen.keep_days:
            raise MissingFact(
                f"nobody knows how long {food.name} keeps once bought; write keep_days for it in foods.yaml, "
                "and take the papers anew with load --papers"
            )
        cents = read_money(price, kitchen.household.currency)
        offer = Offer(food.id, shop.strip(), quantity, unit_of(food), cents, seen)
        return kitchen, store.add_offers([offer])[0]
