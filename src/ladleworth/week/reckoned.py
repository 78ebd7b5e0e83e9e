"""The money of a plan that was carried out: one table that adds up, and what each batch cost. Pure."""

from __future__ import annotations

from dataclasses import dataclass
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
from ladleworth.week.carry_out import batch_id


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
    household, ledger = kitchen.household, kitchen.ledger
    batches = []
    losses = charge_losses(ledger)
    for batch in plan.batches:
        name = batch_id(batch.dish, household.date_of(batch.day))
        if name in ledger.batches and ledger.batch(name).is_cooked:
            cost = reckon_batch(ledger, name, losses)
            batches.append(BatchMoney(batch.dish, batch.day, batch.version, cost, honest_costs(ledger, name)))
    costs = judge(question, plan).costs
    return WeekMoney(
        till=_fates(kitchen, "What was paid at the tills", bought_here=True),
        stock=_fates(kitchen, "What was on hand before", bought_here=False),
        batches=tuple(batches),
        portions=sum(len(b.cost.portion_cents) for b in batches),
        used_cents=sum(sum(line.cents for line in b.cost.lines) for b in batches),
        meals_out_cents=costs.meals_out,
        trips_cents=costs.trips,
    )


def _fates(kitchen: Kitchen, title: str, *, bought_here: bool) -> Reckoning:
    household, ledger = kitchen.household, kitchen.ledger
    end = household.date_of(household.days)
    ours = {
        lot.id
        for lot in ledger.lots
        if lot.unit is not LotUnit.PORTION
        and (household.start <= _root(ledger, lot).got_on <= end and bool(lot.shop)) is bought_here
    }
    fates = dict.fromkeys(("used", "carried over", "lost", "given away"), 0)
    total = 0
    for entry in ledger.movements:
        if entry.lot not in ours:
            continue
        origin = entry if entry.reverses is None else ledger.movement(entry.reverses)
        if entry.kind is Kind.BOUGHT or (entry.kind is Kind.COUNTED and origin.cents > 0):
            total += entry.cents
        elif entry.kind in _FATE:
            fates[_FATE[entry.kind]] -= entry.cents
    for holding in ledger.holdings():
        if holding.lot.id in ours:
            lapsed = holding.use_by is not None and holding.use_by <= end
            fates["lost" if lapsed else "carried over"] += holding.cents
    return Reckoning(title, tuple(Row(label, cents) for label, cents in fates.items()), total)


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
