"""`ladleworth reckon`: what the week cost, batch by batch and portion by portion."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from pathlib import Path

import click

from ladleworth.cli import options


@click.command()
@options.kitchen_argument
@options.deciding
@click.option(
    "--spice", metavar="5%", help="An allowance for what nobody measures, as a share of the food used."
)
@click.option(
    "--period",
    nargs=2,
    type=options.DAY,
    metavar="FROM TO",
    help="Reckon the ledger's entries of these days.",
)
@options.today
@options.as_json
def reckon(
    kitchen: Path,
    seconds: float,
    seed: int,
    work: int | None,
    start: date | None,
    days: int | None,
    without: tuple[str, ...],
    spice: str | None,
    period: tuple[date, date] | None,
    today: date,
    *,
    as_json: bool,
) -> int:
    """Say what the week, and each portion, cost.

    For a file: the accepted plan, as far as it has been carried out. For a folder: a plan is decided first (the
    options are those of `decide`) and reckoned as if it had been carried out. Every table adds up to the cent.
    """
    from ladleworth.cli.stopping import stops_at_once
    from ladleworth.store import is_kitchen_file
    from ladleworth.week import decide_week, preview_money, week_money

    share = None if spice is None else _share(spice)
    if period is not None:
        _period(kitchen, period, as_json=as_json)
        return 0
    if is_kitchen_file(kitchen):
        week, money = week_money(kitchen)
    else:
        with stops_at_once(as_json=as_json):
            week = decide_week(
                kitchen,
                today=today,
                seconds=seconds,
                seed=seed,
                work=work,
                start=start,
                days=days,
                without_dishes=without,
            )
        if week.answer.plan is None:
            return _no_plan(
                kitchen, week.answer.status.value, has_clash=week.clash is not None, as_json=as_json
            )
        money = preview_money(week)
    if as_json:
        from ladleworth.cli.json_out import write_json
        from ladleworth.reckon import allowance_cents

        write_json(
            {
                "kitchen": week.kitchen.household.name,
                "currency": week.kitchen.household.currency.code,
                "plan_number": week.number,
                "carried_out": week.number is not None,
                "money": money,
                "per_portion_cents": money.per_portion_cents,
                "allowance_cents": None if share is None else allowance_cents(money.used_cents, share),
            }
        )
        return 0
    from ladleworth.cli import say, show_money

    household = week.kitchen.household
    how = "as far as it was carried out" if week.number is not None else "as if it had been carried out"
    say.heading(f"{household.name}, the plan from {say.long_day(household.start)}, {how}")
    show_money.week(week, money, share)
    return 0


def _no_plan(kitchen: Path, status: str, *, has_clash: bool, as_json: bool) -> int:
    """Say that there is nothing to reckon; `decide` says why."""
    from ladleworth.cli.decide import NO_PLAN, OUT_OF_TIME

    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"kitchen": kitchen, "status": status, "money": None})
    else:
        click.echo(f"There is nothing to reckon: {status}. `ladleworth decide {kitchen}` says why.")
    return NO_PLAN if has_clash else OUT_OF_TIME


def _period(kitchen: Path, days: tuple[date, date], *, as_json: bool) -> None:
    from ladleworth.reckon import reckon_period
    from ladleworth.week import open_kitchen

    found = open_kitchen(kitchen)
    money = reckon_period(found.ledger, *days)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "kitchen": found.household.name,
                "currency": found.household.currency.code,
                "period": money,
                "came_from": money.came_from(),
                "went_to": money.went_to(),
            }
        )
        return
    from ladleworth.cli import show_money

    show_money.period(money, found)


def _share(text: str) -> Fraction:
    """Read a share such as 5%."""
    found = re.fullmatch(r"\s*([0-9]{1,3}(?:[.,][0-9]{1,4})?)\s*%\s*", text)
    if found is None:
        raise click.BadParameter(f"{text!r} is no share; write per cent, such as 5%", param_hint="--spice")
    return Fraction(found[1].replace(",", ".")) / 100
