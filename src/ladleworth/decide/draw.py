"""Which lots each batch draws from: the cheapest honest choice, found exactly and without a solver.

Once batches and purchases stand, only the drawing is open, food by food. Every unit of food that leaves a
lot changes the objective by that lot's own amount per unit: an opening lot that would spoil saves its share
of cents, a lot that is carried over loses its share of credit, a bought remnant past use costs nothing. The
sets of units that can serve the sessions in time form a transversal matroid, so taking lots in the order of
that amount, each as far as the rest of the demand stays servable, is exact; amounts are integers throughout.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.decide.answer import Batch, Drawing, Plan, Purchase
from ladleworth.decide.judge import Source, Supply, need, supplies
from ladleworth.decide.question import Question


@dataclass(frozen=True, slots=True)
class _Stand:
    """A source of one food: the first and last day it serves, what it holds, what a unit drawn costs."""

    source: Source
    first_day: int
    last_day: int
    quantity: int
    unit_cost: Fraction


def draw(
    question: Question, batches: Iterable[Batch], purchases: Iterable[Purchase]
) -> tuple[Drawing, ...] | None:
    """Choose the drawings for batches and purchases that cost least.

    Parameters
    ----------
    question, batches, purchases
        The question; what is cooked; what is bought.

    Returns
    -------
    tuple of Drawing or None
        Sorted drawings, mg or pieces; None if the sources cannot serve the batches in time.
    """
    cooked = tuple(sorted(batches))
    plan = Plan(cooked, (), tuple(purchases), ())
    stands = _stands(question, supplies(question, plan))
    demand: dict[str, dict[tuple[int, str], int]] = defaultdict(dict)
    for batch in cooked:
        version = next(v for v in question.dish(batch.dish).versions if v.name == batch.version)
        for food in version.needs:
            demand[food][batch.day, batch.dish] = need(version, food, batch.portions)
    drawings: list[Drawing] = []
    for food, wanted in demand.items():
        drawn = _draw_food(stands[food], wanted)
        if drawn is None:
            return None
        drawings += drawn
    return tuple(sorted(drawings, key=lambda d: (d.day, d.dish, d.source, d.bought_day or 0)))


def _stands(question: Question, held: Mapping[Source, Supply]) -> dict[str, list[_Stand]]:
    stands: dict[str, list[_Stand]] = defaultdict(list)
    for source, supply in held.items():
        share = Fraction(supply.cents, supply.quantity)
        carried = supply.last_day is None or supply.last_day > question.days
        opening = source[1] is None
        unit_cost = (
            share * question.additions.carried_share if carried else -share if opening else Fraction(0)
        )
        last = question.days if supply.last_day is None else min(supply.last_day, question.days)
        stands[supply.food].append(_Stand(source, source[1] or 1, last, supply.quantity, unit_cost))
    return stands


def _draw_food(stands: Sequence[_Stand], wanted: Mapping[tuple[int, str], int]) -> list[Drawing] | None:
    by_day: dict[int, int] = defaultdict(int)
    for (day, _), quantity in wanted.items():
        by_day[day] += quantity
    total = sum(by_day.values())
    cheapest = sorted(stands, key=lambda s: (s.unit_cost, s.last_day, s.source[0], s.source[1] or 0))
    useful = [s for s in cheapest if any(s.first_day <= day <= s.last_day for day in by_day)]
    taken: list[tuple[_Stand, int]] = []
    served = 0
    for stand in useful:
        more = _servable([*taken, (stand, min(stand.quantity, total - served))], by_day) - served
        if more:
            taken.append((stand, more))
            served += more
        if served == total:
            return _deal(taken, wanted)
    return None


def _servable(taken: Sequence[tuple[_Stand, int]], by_day: Mapping[int, int]) -> int:
    """How much of the demand these amounts can serve in time (earliest last day first is best)."""
    left = [[stand.last_day, stand.first_day, amount] for stand, amount in taken]
    left.sort()
    served = 0
    for day in sorted(by_day):
        open_demand = by_day[day]
        for entry in left:
            if open_demand and entry[1] <= day <= entry[0]:
                part = min(open_demand, entry[2])
                entry[2] -= part
                open_demand -= part
                served += part
    return served


def _deal(taken: Sequence[tuple[_Stand, int]], wanted: Mapping[tuple[int, str], int]) -> list[Drawing]:
    """Deal the chosen amounts to the batches, day by day, what runs out first going first."""
    order = sorted(taken, key=lambda entry: (entry[0].last_day, entry[0].first_day, entry[0].source[0]))
    left = [amount for _, amount in order]
    drawings: list[Drawing] = []
    for (day, dish), quantity in sorted(wanted.items()):
        open_demand = quantity
        for number, (stand, _) in enumerate(order):
            part = min(open_demand, left[number])
            if part and stand.first_day <= day <= stand.last_day:
                left[number] -= part
                open_demand -= part
                drawings.append(Drawing(day, dish, stand.source[0], stand.source[1], part))
    return drawings
