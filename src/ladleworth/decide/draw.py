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
from ladleworth.decide.judge_food import Source, Supply, supplies
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustUse
from ladleworth.decide.verdict import need

_Pot = tuple[int, str, str]
"""(session day, dish, version)"""


@dataclass(frozen=True, slots=True)
class _Stand:
    """A source of one food: the first and last day it serves, what it holds, what a unit drawn costs."""

    source: Source
    first_day: int
    last_day: int
    quantity: int
    unit_cost: Fraction
    wished: int = 0
    """As much of it must be drawn."""


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
    demand: dict[str, dict[_Pot, int]] = defaultdict(dict)
    for batch in cooked:
        version = question.version(batch.dish, batch.version)
        for food in version.needs:
            demand[food][batch.day, batch.dish, batch.version] = need(version, food, batch.portions)
    drawings: list[Drawing] = []
    for food, there in stands.items():
        if food not in demand and any(stand.wished for stand in there):
            return None
    for food, wanted in demand.items():
        drawn = _draw_food(stands[food], wanted)
        if drawn is None:
            return None
        drawings += drawn
    return tuple(sorted(drawings, key=lambda d: (d.day, d.dish, d.version, d.source, d.bought_day or 0)))


def _stands(question: Question, held: Mapping[Source, Supply]) -> dict[str, list[_Stand]]:
    wishes = {w.lot: w.quantity for w in question.wishes if isinstance(w, MustUse)}
    for wish in question.wishes:
        if isinstance(wish, MustUse):
            wishes[wish.lot] = max(wishes[wish.lot], wish.quantity)
    stands: dict[str, list[_Stand]] = defaultdict(list)
    for source, supply in held.items():
        share = Fraction(supply.cents, supply.quantity)
        carried = supply.last_day is None or supply.last_day > question.days
        opening = source[1] is None
        unit_cost = (
            share * question.additions.carried_share if carried else -share if opening else Fraction(0)
        )
        last = question.days if supply.last_day is None else min(supply.last_day, question.days)
        wished = wishes.get(source[0], 0) if opening else 0
        stands[supply.food].append(_Stand(source, source[1] or 1, last, supply.quantity, unit_cost, wished))
    return stands


def _draw_food(stands: Sequence[_Stand], wanted: Mapping[_Pot, int]) -> list[Drawing] | None:
    by_day: dict[int, int] = defaultdict(int)
    for (day, _, _), quantity in wanted.items():
        by_day[day] += quantity
    total = sum(by_day.values())
    cheapest = sorted(stands, key=lambda s: (s.unit_cost, s.last_day, s.source[0], s.source[1] or 0))
    taken: list[tuple[_Stand, int]] = []
    served = 0
    for stand in cheapest:  # what is wished for stands in every basis that counts, so it is taken first
        more = _servable([*taken, (stand, min(stand.wished, stand.quantity))], by_day) - served
        if more < stand.wished:
            return None
        if more:
            taken.append((stand, more))
            served += more
    for stand in cheapest:
        if served < total and any(stand.first_day <= day <= stand.last_day for day in by_day):
            room = min(stand.quantity - stand.wished, total - served)
            more = _servable([*taken, (stand, room)], by_day) - served
            if more:
                taken.append((stand, more))
                served += more
    return _deal(taken, wanted) if served == total else None


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


def _deal(taken: Sequence[tuple[_Stand, int]], wanted: Mapping[_Pot, int]) -> list[Drawing]:
    """Deal the chosen amounts to the batches, day by day, what runs out first going first."""
    amounts: dict[Source, int] = defaultdict(int)
    for stand, amount in taken:
        amounts[stand.source] += amount
    stands = {stand.source: stand for stand, _ in taken}
    order = sorted(stands.values(), key=lambda s: (s.last_day, s.first_day, s.source[0]))
    drawings: list[Drawing] = []
    for (day, dish, version), quantity in sorted(wanted.items()):
        open_demand = quantity
        for stand in order:
            part = min(open_demand, amounts[stand.source])
            if part and stand.first_day <= day <= stand.last_day:
                amounts[stand.source] -= part
                open_demand -= part
                drawings.append(Drawing(day, dish, stand.source[0], stand.source[1], part, version))
    return drawings
