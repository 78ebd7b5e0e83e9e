"""A solver's figures for the plain programme, turned into a plan that the judge can pass on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from fractions import Fraction

from bench.plain_week import PlainWeek, Source

from ladleworth.decide import Batch, Drawing, Helping, Plan, Purchase, Question


def plan_of(week: PlainWeek, values: Sequence[float]) -> Plan:
    """Read the whole figures, and settle anew who draws what, to the milligram.

    Parameters
    ----------
    week, values
        The programme, and a figure for each of its columns.

    Returns
    -------
    Plan
        Not judged yet.
    """
    whole = [round(value) for value in values]
    batches = tuple(
        Batch(pot.day, pot.dish, pot.version, whole[at]) for pot, at in week.portions.items() if whole[at] > 0
    )
    helpings = [
        Helping(slot.day, slot.eater, slot.meal, pot.dish, pot.day, frozen)
        for (pot, slot, frozen), at in week.helping.items()
        if whole[at]
    ]
    helpings += [Helping(slot.day, slot.eater, slot.meal) for slot, at in week.out.items() if whole[at]]
    purchases = tuple(
        Purchase(day, offer, whole[at]) for (offer, day), at in week.buy.items() if whole[at] > 0
    )
    return Plan(batches, tuple(helpings), purchases, draw_cheapest(week.question, batches, purchases))


def draw_cheapest(
    question: Question, batches: Sequence[Batch], purchases: Sequence[Purchase]
) -> tuple[Drawing, ...]:
    """Settle which batch draws what from where, at the least cost.

    Sources are taken in the order of what a unit of them costs, each for as much as can still be placed, moving
    what was placed before to other sessions where that makes room. Since a source costs the same whichever
    session draws it, nothing cheaper exists. What no source can give stays undrawn: the judge will say so.
    """
    drawings: list[Drawing] = []
    for food in question.foods:
        asked: dict[int, list[tuple[Batch, int]]] = defaultdict(list)
        for batch in batches:
            amount = question.version(batch.dish, batch.version).needs.get(food.name)
            if amount is not None:
                asked[batch.day].append((batch, -int(-amount * batch.portions // 1)))
        if asked:
            wanted = {day: sum(amount for _, amount in asks) for day, asks in asked.items()}
            flows = _place(wanted, _sources(question, food.name, purchases))
            drawings += _share_out(asked, flows)
    return tuple(drawings)


_Held = tuple[Fraction, Source, int, int, int | None]
"""What a unit drawn adds to the cost, the source, how much it holds, its first and its last day."""


def _sources(question: Question, food: str, purchases: Sequence[Purchase]) -> list[_Held]:
    held: list[_Held] = []

    def add(source: Source, quantity: int, cents: int, first: int, last: int | None) -> None:
        each = Fraction(cents, quantity)
        if last is None or last > question.days:
            each *= question.additions.carried_share
        else:
            each *= 0 if source.bought else -1
        held.append((each, source, quantity, first, last))

    for lot in question.lots:
        if lot.food == food:
            add(Source(lot.name, None), lot.quantity, lot.cents, 1, lot.last_day)
    offers = {o.name: o for o in question.offers if o.food == food}
    keep = question.food(food).keep_days
    for bought in purchases:
        if bought.offer in offers:
            offer = offers[bought.offer]
            last = None if keep is None else bought.day + keep - 1
            quantity, cents = offer.quantity * bought.packages, offer.cents * bought.packages
            add(Source(offer.name, bought.day), quantity, cents, bought.day, last)
    return sorted(held, key=lambda one: (one[0], one[1].name, one[1].bought or 0))


def _place(wanted: dict[int, int], held: list[_Held]) -> dict[tuple[Source, int], int]:
    """Place each source in turn: for as much as paths through what is placed already can take."""
    missing = dict(wanted)
    flows: dict[tuple[Source, int], int] = defaultdict(int)
    days = {
        source: [d for d in wanted if d >= first and (last is None or d <= last)]
        for _, source, _, first, last in held
    }
    for _, source, quantity, _, _ in held:
        there = quantity
        while there > 0:
            path = _path(source, missing, days, flows)
            if path is None:
                break
            moved = min([there, missing[path[-1][1]], *(flows[back] for back in path[1::2])])
            for step, edge in enumerate(path):
                flows[edge] += moved if step % 2 == 0 else -moved
            missing[path[-1][1]] -= moved
            there -= moved
    return {edge: amount for edge, amount in flows.items() if amount}


def _path(
    start: Source,
    missing: dict[int, int],
    days: dict[Source, list[int]],
    flows: dict[tuple[Source, int], int],
) -> list[tuple[Source, int]] | None:
    """Find a way from a source to a session that misses some: drawn, given back by another, drawn elsewhere."""
    before: dict[Source, list[tuple[Source, int]]] = {start: []}
    queue, seen = [start], set[int]()
    for source in queue:
        for day in days[source]:
            if day in seen:
                continue
            seen.add(day)
            here = [*before[source], (source, day)]
            if missing[day]:
                return here
            for (other, drawn_day), amount in flows.items():
                if drawn_day == day and amount and other not in before:
                    before[other] = [*here, (other, day)]
                    queue.append(other)
    return None


def _share_out(
    asked: dict[int, list[tuple[Batch, int]]], flows: dict[tuple[Source, int], int]
) -> list[Drawing]:
    """Hand what a session draws to its batches, one after the other."""
    drawings = []
    for day, asks in asked.items():
        given = [(source, amount) for (source, drawn_day), amount in flows.items() if drawn_day == day]
        for batch, amount in asks:
            missing = amount
            while missing and given:
                source, there = given.pop(0)
                taken = min(missing, there)
                drawings.append(Drawing(day, batch.dish, source.name, source.bought, taken, batch.version))
                missing -= taken
                if there > taken:
                    given.insert(0, (source, there - taken))
    return drawings
