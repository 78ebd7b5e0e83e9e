"""`ladleworth prices`: what the shops ask by the unit, and which bigger package is the dearer one."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.household import Kitchen
    from ladleworth.ledger import Offer, StockUp


@click.command()
@options.kitchen_argument
@click.argument("food", required=False)
@click.option("--lb", is_flag=True, help="Unit prices by the pound in place of 100 g.")
@options.today
@options.as_json
def prices(kitchen: Path, food: str | None, *, lb: bool, today: date, as_json: bool) -> None:
    """Compare packages by the unit.

    With FOOD: every package of it (of each food that the name fits), the cheapest by the unit first; which bigger package is the dearer one; what
    share of a bigger one must be used for it to pay; its price over time; and where it is as cheap as it ever was, how
    many packages to stock until it is so again, by what was used lately. Without: the cheapest package of
    each food.
    """
    from ladleworth.week import open_kitchen

    found = open_kitchen(kitchen)
    if food is None:
        _all(found, lb=lb, as_json=as_json)
    else:
        _some(found, food, today, lb=lb, as_json=as_json)


def _some(kitchen: Kitchen, name: str, today: date, *, lb: bool, as_json: bool) -> None:
    """Show every food that a name fits, one after another."""
    from ladleworth.errors import MissingFact
    from ladleworth.week import see_prices, see_stocking
    from ladleworth.week.finding import find_priced

    foods = find_priced(kitchen, name)
    seen = [(food, *see_prices(kitchen, food)) for food in foods]
    if not seen[0][1]:
        called = kitchen.foods.get(foods[0]).name
        if len(seen) == 1:
            raise MissingFact(f"the price book has no price of {called}; write one in prices.csv")
        seen = seen[1:]
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "currency": kitchen.household.currency.code,
                "foods": [_document(kitchen, today, *one) for one in seen],
            }
        )
        return
    for food, offers, dearer in seen:
        _one(kitchen, food, offers, dearer, lb=lb)
        _stocking(kitchen, see_stocking(kitchen, offers, today))


def _document(
    kitchen: Kitchen,
    today: date,
    food: str,
    offers: tuple[Offer, ...],
    dearer: tuple[tuple[Offer, Offer], ...],
) -> dict[str, object]:
    """Gather what --json prints of one food."""
    from ladleworth.week import see_stocking

    return {
        "food": food,
        "offers": [
            {"offer": offer, "unit_price_cents": offer.unit_price, "history": kitchen.prices.history(offer)}
            for offer in offers
        ],
        "dearer_bigger_packages": [{"big": big.id, "small": small.id} for big, small in dearer],
        "break_even": [
            {"small": small.id, "large": large.id, "share": share}
            for small, large, share in _break_even(offers)
        ],
        "stock_up": see_stocking(kitchen, offers, today),
    }


def _one(
    kitchen: Kitchen,
    food: str,
    offers: tuple[Offer, ...],
    dearer: tuple[tuple[Offer, Offer], ...],
    *,
    lb: bool,
) -> None:
    """Show the packages of one food."""
    from ladleworth.cli import say
    from ladleworth.ledger import shelf_price

    cur = kitchen.household.currency
    say.heading(f"{kitchen.foods.get(food).name} ({cur.code})")
    flagged = {big.id for big, _ in dearer}
    rows = [
        (
            f"{offer.shop}{f', {offer.name}' if offer.name else ''}"
            + ("\n  dearer by the unit than a smaller one here" if offer.id in flagged else ""),
            say.amount_text(offer.quantity, offer.unit),
            say.cents_text(offer.price_cents, kitchen),
            shelf_price(offer, cur, per_lb=lb),
            offer.seen.isoformat(),
        )
        for offer in offers
    ]
    say.table(("where", "package", "price", "by the unit", "seen"), rows, right=(1, 2, 3))
    shares = _break_even(offers)
    if shares:
        click.echo()
    for small, large, share in shares:
        say.sentence(
            f"{_pack(large)} pays against {_pack(small)} when more than {float(share * 100):.0f} % of it gets used."
        )
    histories = [(offer, kitchen.prices.history(offer)) for offer in offers]
    told = [(offer, history) for offer, history in histories if history.seen > 1]
    if told:
        say.heading("Over time")
        past = [
            (
                _pack(offer),
                *(say.cents_text(c, kitchen) for c in (h.low_cents, h.usual_cents, h.last_cents)),
                str(h.seen),
            )
            for offer, h in told
        ]
        say.table(("package", "lowest", "usual", "last", "days seen"), past, right=(1, 2, 3, 4))


def _stocking(kitchen: Kitchen, advice: tuple[StockUp, ...]) -> None:
    """Say how many packages to stock of what is as cheap as ever."""
    from ladleworth.cli import say

    for one in advice:
        unit = one.offer.unit
        days = f"{say.plural(one.days, 'day')} ({one.until.value})"
        used = f"{say.amount_text(one.wanted, unit)} is what {days} take, at the pace of the last weeks"
        there = f"{say.amount_text(one.on_hand, unit)} is on hand"
        if one.packages:
            spared = say.cents_text(one.spared_cents, kitchen)
            advised = f"stock {one.packages} now, {spared} below the usual price; whether they fit in is for you to see"
        else:
            advised = "no whole package more would be used by then"
        say.sentence(f"{_pack(one.offer)} is as cheap as it ever was. {used}, and {there}: {advised}.")


def _pack(offer: Offer) -> str:
    from ladleworth.cli import say

    return f"{say.amount_text(offer.quantity, offer.unit)} at {offer.shop}"


def _break_even(offers: tuple[Offer, ...]) -> list[tuple[Offer, Offer, Fraction]]:
    """Compare each package with the next smaller one: what share of it must be used for it to pay."""
    from ladleworth.ledger import break_even_share

    shares = []
    for unit in dict.fromkeys(offer.unit for offer in offers):
        sized = sorted(
            (o for o in offers if o.unit is unit), key=lambda o: (o.quantity, o.price_cents, o.shop)
        )
        for small, large in pairwise(sized):
            if small.quantity < large.quantity and small.price_cents and large.unit_price < small.unit_price:
                shares.append((small, large, break_even_share(small, large)))
    return shares


def _all(kitchen: Kitchen, *, lb: bool, as_json: bool) -> None:
    from ladleworth.cli import say
    from ladleworth.ledger import shelf_price
    from ladleworth.week import see_prices

    foods = sorted({offer.food for offer in kitchen.prices.offers})
    seen = [(food, *see_prices(kitchen, food)) for food in foods]
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "currency": kitchen.household.currency.code,
                "foods": [
                    {
                        "food": food,
                        "cheapest": offers[0],
                        "unit_price_cents": offers[0].unit_price,
                        "packages": len(offers),
                        "dearer_bigger_packages": [{"big": b.id, "small": s.id} for b, s in dearer],
                    }
                    for food, offers, dearer in seen
                ],
            }
        )
        return
    if not seen:
        click.echo("The price book is empty; write what the shops ask in prices.csv.")
        return
    say.heading(f"The cheapest of each food by the unit ({kitchen.household.currency.code})")
    rows = [
        (
            say.food_name(kitchen, food) + ("\n  a bigger package is dearer by the unit" if dearer else ""),
            offers[0].shop,
            say.amount_text(offers[0].quantity, offers[0].unit),
            say.cents_text(offers[0].price_cents, kitchen),
            shelf_price(offers[0], kitchen.household.currency, per_lb=lb),
        )
        for food, offers, dearer in seen
    ]
    say.table(("food", "shop", "package", "price", "by the unit"), rows, right=(2, 3, 4))
