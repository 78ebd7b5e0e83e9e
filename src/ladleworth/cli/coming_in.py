"""`ladleworth bring` and `price`: what comes in beside the plan, and a price that was seen."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from ladleworth.cli import options
from ladleworth.cli.acts import SPOTS, tell


@click.command(context_settings={"ignore_unknown_options": True})
@options.file_argument
@click.argument("food")
@click.argument("amount")
@click.argument("price", required=False, default="")
@click.option("--shop", default="", metavar="NAME", help="Where it was bought.")
@click.option("--use-by", type=options.DAY, help="Its last day; by the keeping rule when left out.")
@click.option("--place", type=click.Choice(SPOTS), help="Where it goes; by its aisle when left out.")
@click.option("--gift", is_flag=True, help="It was given; PRICE, if any, is what it would have cost.")
@click.option("--day", type=options.DAY, help="The day it came; today when left out.")
@options.today
@options.as_json
def bring(
    file: Path,
    food: str,
    amount: str,
    price: str,
    shop: str,
    use_by: date | None,
    place: str | None,
    day: date | None,
    today: date,
    *,
    gift: bool,
    as_json: bool,
) -> None:
    """Enter an unplanned purchase or a gift.

    AMOUNT is all of it and PRICE what all of it cost. It becomes a lot of its own. A gift costs nothing.
    """
    from ladleworth.ledger import Spot
    from ladleworth.week.coming_in import bring_in

    entered = bring_in(
        file,
        food,
        amount,
        price,
        day=day or today,
        shop=shop,
        use_by=use_by,
        spot=None if place is None else Spot(place),
        gift=gift,
    )
    tell(file, entered, as_json=as_json)


@click.command(context_settings={"ignore_unknown_options": True})
@options.file_argument
@click.argument("shop")
@click.argument("food")
@click.argument("package")
@click.argument("price")
@click.option("--seen", type=options.DAY, help="The day it was seen; today when left out.")
@options.today
@options.as_json
def price(
    file: Path,
    shop: str,
    food: str,
    package: str,
    price: str,
    seen: date | None,
    today: date,
    *,
    as_json: bool,
) -> None:
    """Put a price that was seen into the price book.

    PACKAGE is what one package holds, PRICE what one costs. Plans go by the newest price of each package.
    """
    from ladleworth.week.coming_in import note_price

    kitchen, offer = note_price(file, shop, food, package, price, seen=seen or today)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"file": file, "offer": offer, "unit_price_cents": offer.unit_price})
        return
    from ladleworth.cli import say
    from ladleworth.ledger import shelf_price

    say.sentence(
        f"{say.food_name(kitchen, offer.food)} at {offer.shop}, {say.amount_text(offer.quantity, offer.unit)} for "
        f"{say.cents_text(offer.price_cents, kitchen)}, seen {offer.seen}: "
        f"{shelf_price(offer, kitchen.household.currency)} (offer {offer.id})"
    )
