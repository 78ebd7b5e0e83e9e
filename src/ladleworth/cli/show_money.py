"""The money of a week for the eye: tables that add up, and what each portion cost."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.cli import say
from ladleworth.household import Kitchen
from ladleworth.reckon import PeriodMoney, allowance_cents
from ladleworth.week import PlannedWeek, WeekMoney


def week(planned: PlannedWeek, money: WeekMoney, spice: Fraction | None = None) -> None:
    """Show the money of a week: both tables that add up, the batches, and what a portion cost."""
    kitchen = planned.kitchen
    till, stock = money.till, money.stock
    say.heading(f"Where the money went ({kitchen.household.currency.code})")
    rows = [
        (row.label, *(say.cents_text(cents, kitchen) for cents in _both(row.cents, stock.cents(row.label))))
        for row in till.rows
    ]
    total = ("together", *(say.cents_text(c, kitchen) for c in _both(till.total_cents, stock.total_cents)))
    say.table(("", "paid at the tills", "on hand before", "both"), rows, right=(1, 2, 3), total=total)
    say.sentence("Lost: thrown out, counted short, or still there past its last day when the days end.")
    if not money.batches:
        say.sentence("Nothing has been cooked yet.")
        return
    _batches(planned, money)
    _portions(planned, money, spice)


def _both(left: int, right: int) -> tuple[int, int, int]:
    return left, right, left + right


def _batches(planned: PlannedWeek, money: WeekMoney) -> None:
    kitchen = planned.kitchen
    say.heading("What each batch cost")
    rows = []
    for batch in money.batches:
        cost, honest = batch.cost, batch.honest
        rows.append(
            (
                f"{say.batch_name(kitchen, cost.batch)} (day {batch.day})",
                str(cost.portions),
                say.cents_text(cost.used_cents, kitchen),
                say.cents_text(cost.per_portion, kitchen),
                say.cents_text(honest.empty_kitchen.total_cents, kitchen) + ("+" if honest.uncounted else ""),
                say.cents_text(honest.cart_cents, kitchen) if honest.cart_cents else "–",
            )
        )
    say.table(
        ("batch", "por-\ntions", "share\nused", "a\nportion", "empty\nkitchen", "whole\ncart"),
        rows,
        right=(1, 2, 3, 4, 5),
        total=("together", str(money.portions), say.cents_text(money.used_cents, kitchen), "", "", ""),
    )
    say.sentence(
        "Share used: what was drawn of each lot. Empty kitchen: whole packages of all that is in it. Whole cart: "
        "everything bought on the same visits (–: nothing was bought for it). Each is right for another question."
    )
    if any(batch.honest.uncounted for batch in money.batches):
        say.sentence("+: something in it has no price on record, and is in no sum of the empty kitchen.")


def _portions(planned: PlannedWeek, money: WeekMoney, spice: Fraction | None) -> None:
    kitchen, portions = planned.kitchen, money.portions
    each = money.per_portion_cents
    if each is None:
        return
    say.heading("A portion")
    lost = sum(table.cents("lost") for table in (money.till, money.stock))
    rows: list[tuple[str, Fraction]] = [
        ("food used", Fraction(money.used_cents)),
        ("food lost", Fraction(lost)),
        ("trips", money.trips_cents),
    ]
    if spice is not None:
        allowance = allowance_cents(money.used_cents, spice)
        percent = f"{float(spice * 100):g} %"
        rows.insert(1, (f"allowance for what is not measured ({percent})", Fraction(allowance)))
    cells = [
        (label, say.cents_text(cents, kitchen), say.cents_text(cents / portions, kitchen))
        for label, cents in rows
    ]
    say.table(("", f"{say.plural(portions, 'portion')}", "one"), cells, right=(1, 2))
    if money.meals_out_cents:
        say.sentence(f"Beside it, meals eaten out: {say.cents_text(money.meals_out_cents, kitchen)}.")


def period(money: PeriodMoney, kitchen: Kitchen) -> None:
    """Show a period: what was there and came in, and where it went."""
    say.heading(f"{kitchen.household.name}, {say.long_day(money.first)} to {say.long_day(money.last)}")
    say.reckoning(money.came_from(), kitchen, title="There before, and come in")
    say.reckoning(money.went_to(), kitchen, title="Where it went")
