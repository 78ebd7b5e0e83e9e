"""The money of a plan that was carried out: one table that adds up, and what each batch cost. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction

from ladleworth.decide import Plan, Question, judge
from ladleworth.household import Kitchen
from ladleworth.ledger import Kind, Ledger, Lot, LotUnit
from ladleworth.reckon import (
    BatchCost,
    HonestCosts,
    Reckoning,
    Row,
    charge_losses,
    honest_costs,
    reckon_batch,
)
from ladleworth.units import split
from ladleworth.week.packing import planned_id


@dataclass(frozen=True, slots=True)
class BatchMoney:
    """A batch of the plan: what it cost in all, and the three honest costs."""

    dish: str
    day: int
    version: str
    cost: BatchCost
    honest: HonestCosts


@dataclass(frozen=True, slots=True)
class WeekMoney:
    """The money of the week.

    Parameters
    ----------
    till
        Till = used + carried + lost (+ given away), for what was bought in these days.
    stock
        The same for what was on hand before: worth = used + carried + lost (+ given away).
    batches
        Every batch that was cooked.
    portions
        How many portions came out of them.
    used_cents
        What all batches drew, from both.
    meals_out_cents
        What the meals out of the plan cost, which no till of a shop sees.
    trips_cents
        What the visits cost beside the tills.
    """

    till: Reckoning
    stock: Reckoning
    batches: tuple[BatchMoney, ...]
    portions: int
    used_cents: int
    meals_out_cents: Fraction
    trips_cents: Fraction

    @property
    def per_portion_cents(self) -> Fraction | None:
        """Used cents per portion, exact; None if nothing was cooked."""
        return Fraction(self.used_cents, self.portions) if self.portions else None


def reckon_week(kitchen: Kitchen, question: Question, plan: Plan) -> WeekMoney:
    """Reckon a plan from the ledger in which it was carried out, as far as it was.

    What is past its last day when the days end, and still on the shelf, counts as lost: nobody may use it.

    Parameters
    ----------
    kitchen
        The kitchen with the ledger to read.
    question, plan
        The question and the plan.

    Raises
    ------
    JudgeRefused
        If a table does not add up, which the reckoning's own records check.
    """
    ledger = kitchen.ledger
    batches = []
    losses = charge_losses(ledger)
    for batch in plan.batches:
        name = planned_id(kitchen, plan, (batch.day, batch.dish, batch.version))
        if name in ledger.batches and ledger.batch(name).is_cooked:
            cost = reckon_batch(ledger, name, losses)
            batches.append(BatchMoney(batch.dish, batch.day, batch.version, cost, honest_costs(ledger, name)))
    costs = judge(question, plan).costs
    till, stock = _fates(kitchen)
    return WeekMoney(
        till=till,
        stock=stock,
        batches=tuple(batches),
        portions=sum(len(b.cost.portion_cents) for b in batches),
        used_cents=sum(sum(line.cents for line in b.cost.lines) for b in batches),
        meals_out_cents=costs.meals_out,
        trips_cents=costs.trips,
    )


def _fates(kitchen: Kitchen) -> tuple[Reckoning, Reckoning]:
    """Follow the food bought in these days, and that on hand before them, to where it stands when they end.

    What had lapsed before the days began was lost then and is left out. A portion thrown out or given away
    takes its share of its batch's draws out of 'used'.
    """
    household = kitchen.household
    start, end = household.start, household.date_of(household.days)
    ledger = kitchen.ledger.as_of(end)
    opening = {h.lot.id: h for h in kitchen.ledger.as_of(start - timedelta(days=1)).holdings()}
    group: dict[str, int] = {}
    for lot in ledger.lots:
        root = _root(ledger, lot)
        if lot.unit is not LotUnit.PORTION and not (lot.id in opening and opening[lot.id].is_past(start)):
            group[lot.id] = 0 if start <= root.got_on <= end and root.shop else 1
    totals = [0, 0]
    fates = [dict.fromkeys(("used", "carried over", "lost", "given away"), 0) for _ in totals]
    for lot_id, held in opening.items():
        if lot_id in group:
            totals[group[lot_id]] += held.cents
    for entry in ledger.movements:
        fate = _FATE.get(entry.kind)
        if entry.day < start:
            continue
        if entry.lot in group:
            origin = entry if entry.reverses is None else ledger.movement(entry.reverses)
            if entry.kind is Kind.BOUGHT or (entry.kind is Kind.COUNTED and origin.cents > 0):
                totals[group[entry.lot]] += entry.cents
            elif fate is not None:
                fates[group[entry.lot]][fate] -= entry.cents
        elif fate in ("lost", "given away") and ledger.holding(entry.lot).lot.unit is LotUnit.PORTION:
            shares = _shares_of_batch(ledger, ledger.holding(entry.lot).lot.item, group, -entry.cents)
            for table, share in zip(fates, shares, strict=True):
                table["used"] -= share
                table[fate] += share
    for holding in ledger.holdings():
        if holding.lot.id in group:
            lapsed = holding.use_by is not None and holding.use_by <= end
            fates[group[holding.lot.id]]["lost" if lapsed else "carried over"] += holding.cents
    titles = ("What was paid at the tills", "What was on hand before")
    bought, before = (
        Reckoning(title, tuple(Row(label, cents) for label, cents in table.items()), total)
        for title, table, total in zip(titles, fates, totals, strict=True)
    )
    return bought, before


def _shares_of_batch(ledger: Ledger, batch: str, group: Mapping[str, int], cents: int) -> tuple[int, int]:
    """Split a portion's cents by what its batch drew from each group; what came from neither is left out."""
    drawn = [0, 0, 0]
    for entry in ledger.movements:
        if entry.kind is Kind.DRAWN and entry.batch == batch:
            drawn[group.get(entry.lot, 2)] -= entry.cents
    if not sum(drawn):
        return 0, 0
    sign = 1 if cents >= 0 else -1
    bought, before, _ = split(abs(cents), drawn)
    return sign * bought, sign * before


def _root(ledger: Ledger, lot: Lot) -> Lot:
    """The lot that this one was split off, or itself."""
    while lot.split_from:
        lot = ledger.holding(lot.split_from).lot
    return lot


_FATE = {
    Kind.DRAWN: "used",
    Kind.EATEN: "used",
    Kind.THROWN_OUT: "lost",
    Kind.COUNTED: "lost",
    Kind.GIVEN_AWAY: "given away",
}
"""Where a lot's cents go by the kind of entry; a count that lets something in is no fate."""
