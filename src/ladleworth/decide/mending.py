"""A plan that does not stand any more, mended by dropping what cannot be: a place for a search to begin from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from ladleworth.decide.answer import Batch, Drawing, Helping, Plan, Purchase
from ladleworth.decide.draw import draw
from ladleworth.decide.judge import judge
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustBuy, MustNotCook
from ladleworth.decide.verdict import pot_of


def mended(question: Question, plan: Plan) -> Plan | None:
    """Drop from a plan what the question has no longer, and let those eat out who lose their helping by it.

    Purchases of what no shop has, batches that cannot be made of what is there and bought, and helpings of what is
    not there are dropped; what is wished to be bought is bought. Nothing is cooked or bought in their place: that is for the search.

    Parameters
    ----------
    question
        The question, as it is now.
    plan
        A plan of a question much like it.

    Returns
    -------
    Plan or None
        A plan that the judge lets stand; None where dropping is not enough, as where nobody eats out.
    """
    sessions = {session.day for session in question.sessions}
    offers = {offer.name for offer in question.offers}
    possible = tuple(p for p in plan.purchases if p.offer in offers and p.day in sessions)
    purchases = _with_wished(question, possible)
    batches = [b for b in plan.batches if b.day in sessions and _is_known(question, b)]
    batches = [b for b in batches if _drawn(question, [b], purchases) is not None]
    while (drawings := _drawn(question, batches, purchases)) is None:
        dish = min(batches, key=lambda b: (b.portions, b)).dish
        batches = [b for b in batches if b.dish != dish]
    helpings = _helpings(question, replace(plan, batches=tuple(batches)))
    drawn_from = {(d.bought_day, d.source) for d in drawings}
    wished = {(w.day, w.offer) for w in question.wishes if isinstance(w, MustBuy)}
    bought = tuple(p for p in purchases if (p.day, p.offer) in drawn_from | wished)
    found = Plan(tuple(batches), helpings, bought, drawings)
    return found if judge(question, found).stands else None


def _is_known(question: Question, batch: Batch) -> bool:
    """Say whether a batch can still be named, and no wish forbids it."""
    versions = {(dish.name, version.name) for dish in question.dishes for version in dish.versions}
    return (batch.dish, batch.version) in versions and not any(
        isinstance(wish, MustNotCook)
        and wish.dish == batch.dish
        and wish.day in (None, batch.day)
        and wish.version in (None, batch.version)
        for wish in question.wishes
    )


def _drawn(
    question: Question, batches: Sequence[Batch], purchases: tuple[Purchase, ...]
) -> tuple[Drawing, ...] | None:
    return draw(question, batches, purchases) if batches else ()


def _with_wished(question: Question, purchases: tuple[Purchase, ...]) -> tuple[Purchase, ...]:
    """Buy what is wished for as well, as what lies in the basket already."""
    packages = Counter({(p.day, p.offer): p.packages for p in purchases})
    for wish in question.wishes:
        if isinstance(wish, MustBuy):
            packages[wish.day, wish.offer] = max(packages[wish.day, wish.offer], wish.packages)
    return tuple(Purchase(day, offer, number) for (day, offer), number in sorted(packages.items()))


def _helpings(question: Question, plan: Plan) -> tuple[Helping, ...]:
    """Leave each slot its helping where its batch or its lot is there, and a meal out where it is not.

    A slot of which the plan knows nothing is eaten out as well.
    """
    left = Counter({lot.name: lot.portions for lot in question.portions})
    served = {(h.day, h.eater, h.meal): h for h in plan.helpings}
    found = []
    for slot in question.slots:
        helping = served.get((slot.day, slot.eater, slot.meal))
        if helping is not None and helping.lot is not None:
            left[helping.lot] -= 1
            there = left[helping.lot] >= 0
        else:
            there = helping is not None and (
                helping.dish is None
                or pot_of(plan, helping.cooked_day, helping.dish, helping.version) is not None
            )
        out = Helping(slot.day, slot.eater, slot.meal)
        found.append(helping if helping is not None and there else out)
    return tuple(sorted(found, key=lambda h: (h.day, h.eater, h.meal)))
