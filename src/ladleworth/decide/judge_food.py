"""Rules of shopping and stock: whole packages, money on hand, and food that is there and has not gone off."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from ladleworth.decide.answer import Plan
from ladleworth.decide.question import Question
from ladleworth.decide.verdict import Breach, batch_words, drawn_by_batch, need

Source = tuple[str, int | None]
"""Where food comes from: a lot's name with None, or an offer's name with the day it was bought."""

# --- rule 6: whole packages on session days, a trip cost a visit, money on hand -----------------------


def purchases_are_possible(question: Question, plan: Plan) -> Iterator[Breach]:
    """Purchases happen on session days, in whole packages, no more than the shop has."""
    sessions = {s.day for s in question.sessions}
    offers = {o.name: o for o in question.offers}
    for (day, name), times in Counter((p.day, p.offer) for p in plan.purchases).items():
        if times > 1:
            yield Breach("shopping", f"{name} stands {times} times on the list of day {day}")
    for purchase in plan.purchases:
        if purchase.day not in sessions:
            yield Breach(
                "shopping", f"{purchase.offer} is bought on day {purchase.day}, which has no session"
            )
        if purchase.packages < 1:
            yield Breach("shopping", f"{purchase.offer} day {purchase.day}: {purchase.packages} packages")
        most = offers[purchase.offer].most
        if most is not None and purchase.packages > most:
            yield Breach(
                "shopping", f"{purchase.offer} day {purchase.day}: {purchase.packages} of at most {most}"
            )


def tills(question: Question, plan: Plan) -> int:
    """Money at the tills over all days, in cents."""
    cents = {o.name: o.cents for o in question.offers}
    return sum(cents[p.offer] * p.packages for p in plan.purchases)


def budget_suffices(question: Question, plan: Plan) -> Iterator[Breach]:
    """Money at the tills stays within the budget."""
    budget, paid = question.rules.budget_cents, tills(question, plan)
    if budget is not None and paid > budget:
        yield Breach("budget", f"{paid} cents at the tills are more than {budget}")


# --- rule 7: each batch gets what it needs, from sources that hold it and have not gone off -----------


def needs_are_met(question: Question, plan: Plan) -> Iterator[Breach]:
    """Each batch draws exactly what it needs."""
    for drawing in plan.drawings:
        if drawing.quantity < 1:
            yield Breach("needs", f"{drawing.source}: {drawing.quantity} is no amount to draw")
    drawn = drawn_by_batch(question, plan)
    for batch in plan.batches:
        version = question.version(batch.dish, batch.version)
        for food in version.needs:
            pot = (batch.day, batch.dish, batch.version)
            wanted, got = need(version, food, batch.portions), drawn.pop((pot, food), 0)
            if wanted != got:
                yield Breach("needs", f"{batch_words(batch)} needs {wanted} of {food} and draws {got}")
    for ((day, dish, version_name), food), quantity in drawn.items():
        words = f"{dish} ({version_name}) day {day}"
        yield Breach("needs", f"{words} draws {quantity} of {food} that it does not need")


class Supply(NamedTuple):
    """What a lot on hand or a purchase holds before anything is drawn; `last_day` None: durable."""

    food: str
    quantity: int
    cents: int
    last_day: int | None


def supplies(question: Question, plan: Plan) -> dict[Source, Supply]:
    """List every lot on hand and every purchase of the plan, by source."""
    offers = {o.name: o for o in question.offers}
    held: dict[Source, Supply] = {
        (lot.name, None): Supply(lot.food, lot.quantity, lot.cents, lot.last_day) for lot in question.lots
    }
    for p in plan.purchases:
        offer = offers[p.offer]
        keep = question.food(offer.food).keep_days
        end = None if keep is None else p.day + keep - 1
        held[p.offer, p.day] = Supply(offer.food, offer.quantity * p.packages, offer.cents * p.packages, end)
    return held


def sources_suffice(question: Question, plan: Plan) -> Iterator[Breach]:
    """No source gives more than it holds, before it is there, or after its last day."""
    held = supplies(question, plan)
    drawn: Counter[Source] = Counter()
    for drawing in plan.drawings:
        source = (drawing.source, drawing.bought_day)
        drawn[source] += drawing.quantity
        end = held[source].last_day if source in held else None
        if drawing.bought_day is not None and drawing.bought_day > drawing.day:
            yield Breach("stock", f"{drawing.source} is drawn on day {drawing.day}, before it is bought")
        if end is not None and drawing.day > end:
            yield Breach("stock", f"{drawing.source} is drawn on day {drawing.day}; its last day is {end}")
    for source, quantity in drawn.items():
        there = held[source].quantity if source in held else 0
        if quantity > there:
            yield Breach("stock", f"{quantity} of {source[0]} are drawn and {there} are there")
