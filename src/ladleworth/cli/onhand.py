"""`ladleworth onhand`: what is there, first things first, and what has to be used up."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.household import Kitchen
    from ladleworth.ledger import Holding


@click.command()
@options.kitchen_argument
@click.option(
    "--use-up",
    metavar="DAY|DATE",
    help="List only what ends before this day of the plan (3), or before this date.",
)
@options.today
@options.as_json
def onhand(kitchen: Path, use_up: str | None, today: date, *, as_json: bool) -> None:
    """List what is on hand, in the order of use.

    By shelf, the earliest last day first. Lots are named as `count`, `move`, `open`, `throw` and `give` take them.
    """
    from ladleworth.cli import say
    from ladleworth.ledger import eat_first
    from ladleworth.week import open_kitchen

    found = open_kitchen(kitchen)
    day = _reading_day(found, today)
    if day != today and not as_json:
        say.warn(f"the latest entry is of {day}, after today ({today}); this is what is there then")
    if use_up is not None:
        _use_up(found, day, _day(found, use_up), as_json=as_json)
        return
    held = eat_first(found.ledger.on_hand(day))
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "kitchen": found.household.name,
                "currency": found.household.currency.code,
                "day": day,
                "cents": sum(one.cents for one in held),
                "lots": [as_record(one) for one in held],
            }
        )
        return
    say.heading(f"On hand at {found.household.name}, {say.long_day(day)}")
    _tables(found, held, day)
    say.sentence(
        f"\n{say.plural(len(held), 'lot')}, worth {say.cents_text(sum(h.cents for h in held), found)} in all."
    )


def as_record(held: Holding) -> dict[str, object]:
    """Give a lot as JSON shows it."""
    standing = held.standing
    return {
        "lot": held.lot.id,
        "item": held.lot.item,
        "unit": held.lot.unit,
        "quantity": held.quantity,
        "cents": held.cents,
        "place": standing.spot,
        "use_by": standing.use_by,
        "opened_on": standing.opened_on,
        "got_on": held.lot.got_on,
        "shop": held.lot.shop,
        "gift": held.lot.gift,
    }


def lot_name(kitchen: Kitchen, held: Holding) -> str:
    """Name a lot, with its id beneath where that is not the name itself."""
    from ladleworth.cli import say

    name = say.food_name(kitchen, held.lot.item)
    return name if name == held.lot.id else f"{name}\n  {held.lot.id}"


def _tables(kitchen: Kitchen, held: tuple[Holding, ...], day: date) -> None:
    from ladleworth.cli import say
    from ladleworth.ledger import Spot

    for spot in (Spot.FRIDGE, Spot.FREEZER, Spot.CUPBOARD):
        mine = [one for one in held if one.standing.spot is spot]
        if not mine:
            continue
        worth = say.cents_text(sum(one.cents for one in mine), kitchen)
        write = say.day_style(
            [dated for one in mine for dated in (one.use_by, one.standing.opened_on)], kitchen
        )
        say.heading(spot.value.capitalize())
        rows = [
            (
                lot_name(kitchen, one),
                say.amount_text(one.quantity, one.lot.unit),
                _last_day(one, day, write),
                "" if one.standing.opened_on is None else write(one.standing.opened_on),
                say.cents_text(one.cents, kitchen),
            )
            for one in mine
        ]
        say.table(
            ("lot", "there", "last day", "opened", "worth"),
            rows,
            right=(1, 4),
            total=("together", "", "", "", worth),
        )


def _last_day(held: Holding, day: date, write: Callable[[date | None], str]) -> str:
    """Write a lot's last day, and how far off it is when that is near."""
    if held.use_by is None:
        return write(None)
    left = (held.use_by - day).days
    near = "past" if left < 0 else "today" if left == 0 else f"{left} d" if left < 10 else ""
    return f"{write(held.use_by)}  {near}".rstrip()


def _reading_day(kitchen: Kitchen, today: date) -> date:
    """Give today, or the day of the latest entry where that is later."""
    return max([today, *(entry.day for entry in kitchen.ledger.movements[-1:])])


def _day(kitchen: Kitchen, text: str) -> date:
    """Read a day of the plan, or a date."""
    from ladleworth.errors import BadField
    from ladleworth.store.fields import parse_date

    number = text.strip().removeprefix("day").strip()
    if number.isascii() and number.isdigit():
        if not 1 <= int(number[:6]) <= 10_000:
            raise BadField(f"{text!r} is no day of the plan; write one from 1, or a date")
        return kitchen.household.date_of(int(number[:6]))
    return parse_date(text)


def _use_up(kitchen: Kitchen, day: date, before: date, *, as_json: bool) -> None:
    from ladleworth.cli import say
    from ladleworth.errors import BadField
    from ladleworth.ledger import use_up

    if before < day:
        raise BadField(f"{before} is before {day}, the day it is; write a later one")
    ending = use_up(kitchen.ledger, day, before)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "day": day,
                "before": before,
                "at_risk_cents": ending.at_risk_cents,
                "past_cents": ending.past_cents,
                "lots": [as_record(one) for one in ending.holdings],
            }
        )
        return
    say.heading(f"To use up before {say.long_day(before)}")
    if not ending.holdings:
        say.sentence("Nothing ends before then.")
        return
    _tables(kitchen, ending.holdings, day)
    past = f"; past already: {say.cents_text(ending.past_cents, kitchen)}" if ending.past_cents else ""
    say.sentence(f"\nAt risk: {say.cents_text(ending.at_risk_cents, kitchen)}{past}.")
