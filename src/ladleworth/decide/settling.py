"""From a solution's counts to a judged plan: seats, drawings, no package too many, and the judge's word."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ladleworth.decide.answer import Batch, Costs, Plan, Purchase
from ladleworth.decide.draw import draw
from ladleworth.decide.judge import judge, supplies
from ladleworth.decide.programme import Counts
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustBuy
from ladleworth.decide.seat import seat
from ladleworth.decide.verdict import need
from ladleworth.errors import JudgeRefused


def settle(question: Question, counts: Counts) -> Plan:
    """Seat portions, draw food and leave out what is not needed; exact where the solver was not.

    Parameters
    ----------
    question, counts
        The question, and what a solution of its programme cooks, serves and buys.

    Returns
    -------
    Plan
        A plan that the judge has yet to pass on.

    Raises
    ------
    JudgeRefused
        If the counts cannot be put into slots or drawn from lots and packages.
    """
    helpings = seat(question, counts.eaten, counts.served, counts.taken)
    purchases = counts.purchases
    drawings = draw(question, counts.batches, purchases)
    if drawings is None:
        # the solver works within a tolerance: it may lack a milligram where a package just does not suffice
        purchases = with_what_lacks(question, counts.batches, purchases)
        drawings = draw(question, counts.batches, purchases)
    if helpings is None or drawings is None:
        raise JudgeRefused(["the programme's counts cannot be put into slots or drawn from the lots"])
    return trim(question, Plan(counts.batches, helpings, purchases, drawings))


def with_what_lacks(
    question: Question, batches: Sequence[Batch], purchases: Sequence[Purchase]
) -> tuple[Purchase, ...]:
    """Buy one package more of each food of which too little is there, as of one bought already."""
    held: Counter[str] = Counter()
    for supply in supplies(question, Plan(tuple(batches), (), tuple(purchases), ())).values():
        held[supply.food] += supply.quantity
    wanted: Counter[str] = Counter()
    for batch in batches:
        version = question.version(batch.dish, batch.version)
        for food in version.needs:
            wanted[food] += need(version, food, batch.portions)
    food_of = {o.name: o.food for o in question.offers}
    more: dict[str, Purchase] = {}
    for purchase in purchases:
        food = food_of[purchase.offer]
        if wanted[food] > held[food]:
            more.setdefault(food, purchase)
    raised = set(more.values())
    return tuple(replace(p, packages=p.packages + 1) if p in raised else p for p in purchases)


def judged(question: Question, plan: Plan) -> Costs:
    """Return the plan's costs if the judge lets it stand.

    Raises
    ------
    JudgeRefused
        With every breach, if it does not.
    """
    verdict = judge(question, plan)
    if not verdict.stands:
        raise JudgeRefused(map(str, verdict.breaches))
    return verdict.costs


def trim(question: Question, plan: Plan) -> Plan:
    """Leave out packages that the plan does as well without.

    A durable package that nobody draws from changes nothing in the objective, since it is carried at what it
    cost; but it takes money on the day. Packages are tried in a fixed order, so that the result is one and
    the same for one plan.
    """
    best = judge(question, plan).costs.total
    holds = {offer.name: offer.quantity for offer in question.offers}
    wished = Counter({(w.day, w.offer): w.packages for w in question.wishes if isinstance(w, MustBuy)})
    for purchase in plan.purchases:
        kept = purchase
        while kept.packages > wished[kept.day, kept.offer]:
            drawn = sum(
                d.quantity for d in plan.drawings if (d.bought_day, d.source) == (kept.day, kept.offer)
            )
            begun = math.ceil(Fraction(drawn, holds[kept.offer]))
            fewest = max(begun, wished[kept.day, kept.offer])
            fewer = replace(kept, packages=min(fewest, kept.packages - 1))
            purchases = tuple(
                fewer if p == kept else p for p in plan.purchases if p != kept or fewer.packages
            )
            drawings = draw(question, plan.batches, purchases)
            if drawings is None:
                break
            smaller = replace(plan, purchases=purchases, drawings=drawings)
            total = judge(question, smaller).costs.total
            if total > best:
                break
            plan, best, kept = smaller, total, fewer
    return plan
