"""`ladleworth buy`, `cook` and `eat`: carry out a day of the accepted plan."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.decide import Helping
    from ladleworth.household import Kitchen
    from ladleworth.week import Done

day_option = click.option(
    "--day", type=click.IntRange(min=1), required=True, metavar="N", help="The plan's day; 1 is the first."
)


@click.command()
@options.file_argument
@day_option
@click.option(
    "--paid", multiple=True, metavar="OFFER=12.40", help="What was really paid for all packages of an offer."
)
@options.as_json
def buy(file: Path, day: int, paid: tuple[str, ...], *, as_json: bool) -> None:
    """Enter the plan's shopping of a day.

    Prices are taken from the price book unless --paid says otherwise. Offers are named as in the price book's
    `id`, which `ladleworth decide --json` and the list of what was entered show.
    """
    from ladleworth.week import accepted_week, buy_day

    week = accepted_week(file)
    cents = _paid(week.kitchen, paid)
    done = buy_day(file, day, cents, week)
    if as_json:
        _write(file, day, done)
        return
    from ladleworth.cli import say

    if not done.entered:
        _nothing("shopping", day, {purchase.day for purchase in week.plan.purchases})
        return
    rows = []
    write = say.day_style((lot.use_by for _, entered in done.entered for lot in entered.lots), week.kitchen)
    for offer, entered in done.entered:
        lot = entered.lots[0]
        rows.append(
            (
                offer,
                lot.id,
                say.amount_text(lot.quantity, lot.unit),
                lot.spot.value,
                write(lot.use_by),
                say.cents_text(lot.cents, week.kitchen),
            )
        )
    total = sum(entered.lots[0].cents for _, entered in done.entered)
    say.heading(f"Bought on {say.short_day(week.kitchen.household.date_of(day))}")
    say.table(
        ("offer", "lot", "amount", "place", "last day", "paid"),
        rows,
        right=(2, 5),
        total=("together", "", "", "", "", say.cents_text(total, week.kitchen)),
    )


@click.command()
@options.file_argument
@day_option
@options.as_json
def cook(file: Path, day: int, *, as_json: bool) -> None:
    """Enter the plan's cooking of a day.

    What the plan takes is drawn from the lots; the portions become lots of their own, with the cents drawn.
    """
    from ladleworth.week import accepted_week, cook_day
    from ladleworth.week.packing import size_of

    week = accepted_week(file)
    done = cook_day(file, day, week)
    if as_json:
        _write(file, day, done)
        return
    from ladleworth.cli import say

    if not done.entered:
        _nothing("cooking", day, {batch.day for batch in week.plan.batches})
        return
    write = say.day_style((lot.use_by for _, entered in done.entered for lot in entered.lots), week.kitchen)
    rows = [
        (
            say.batch_name(week.kitchen, lot.item),
            say.containers_text(lot.quantity, size_of(lot.id)),
            lot.spot.value,
            write(lot.use_by),
            say.cents_text(lot.cents, week.kitchen),
        )
        for _, entered in done.entered
        for lot in entered.lots
    ]
    say.heading(f"Cooked on {say.short_day(week.kitchen.household.date_of(day))}")
    say.table(("dish", "portions", "place", "last day", "worth"), rows, right=(1, 4))


@click.command()
@options.file_argument
@day_option
@click.option("--skip", multiple=True, metavar="'EATER MEAL'", help="Leave a meal out; may be given again.")
@click.option(
    "--instead",
    multiple=True,
    metavar="'EATER MEAL=LOT'",
    help="Eat a portion of another lot; may be given again.",
)
@options.as_json
def eat(file: Path, day: int, skip: tuple[str, ...], instead: tuple[str, ...], *, as_json: bool) -> None:
    """Enter the plan's meals of a day.

    Meals out are no food of the house, and no entry. Where a meal was not eaten, or another portion was, --skip
    or --instead says so; if a meal cannot be entered, none is.
    """
    from ladleworth.week import accepted_week, eat_day
    from ladleworth.week.acting import helpings_in_order

    others = _others(instead, skip)
    week = accepted_week(file)
    done = eat_day(file, day, week, skip=skip, instead=others)
    if as_json:
        _write(file, day, done)
        return
    from ladleworth.cli import say

    if not done.entered and not skip:
        _nothing("meal", day, {helping.day for helping in week.plan.helpings if helping.dish})
        return
    say.heading(f"Eaten on {say.short_day(week.kitchen.household.date_of(day))}")
    rows = [
        (
            helping.meal,
            helping.eater,
            _served(week.kitchen, helping, skip, others),
        )
        for helping in helpings_in_order(week.kitchen, week.plan, day)
    ]
    say.table(("meal", "eater", "dish"), rows)


def _others(instead: tuple[str, ...], skip: tuple[str, ...]) -> dict[str, str]:
    """Read which lots were eaten in place of planned portions; a meal may be named once."""
    others: dict[str, str] = {}
    for text in instead:
        meal, equals, lot = text.partition("=")
        if not equals or not meal or not lot:
            raise click.BadParameter(f"{text!r} names no lot; write 'EATER MEAL=LOT'", param_hint="--instead")
        if meal in others or meal in skip:
            raise click.BadParameter(f"{meal!r} is named twice; name each meal once", param_hint="--instead")
        others[meal] = lot
    return others


def _served(kitchen: Kitchen, helping: Helping, skip: tuple[str, ...], others: dict[str, str]) -> str:
    """Say what an eater had at a meal: as planned, out, left out, or another lot."""
    from ladleworth.cli import say

    name = f"{helping.eater} {helping.meal}"
    if name in skip:
        return "left out"
    if name in others:
        return f"{others[name]} instead"
    return "out" if helping.dish is None else say.dish_name(kitchen, helping.dish)


def _paid(kitchen: Kitchen, paid: tuple[str, ...]) -> dict[str, int]:
    """Read what was paid, offer by offer."""
    from ladleworth.units import read_money

    cents = {}
    for text in paid:
        offer, equals, amount = text.rpartition("=")
        if not equals or not offer:
            raise click.BadParameter(f"{text!r} is no payment; write OFFER=12.40", param_hint="--paid")
        if offer in cents:
            raise click.BadParameter(
                f"{offer!r} is paid twice; give one amount for all its packages", param_hint="--paid"
            )
        cents[offer] = read_money(amount, kitchen.household.currency)
    return cents


def _nothing(what: str, day: int, days: set[int]) -> None:
    """Say that a day has nothing of the kind, and which days have."""
    there = ", ".join(map(str, sorted(days))) or "none"
    click.echo(f"The plan has no {what} on day {day}, so nothing was entered; days with {what}: {there}.")


def _write(file: Path, day: int, done: Done) -> None:
    from ladleworth.cli.json_out import write_json

    write_json(
        {
            "file": file,
            "day": day,
            "entered": [
                {"what": what, "movements": entered.movements, "lots": entered.lots}
                for what, entered in done.entered
            ],
        }
    )
