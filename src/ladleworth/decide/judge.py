"""The rules of the week and its objective in plain Python; with its `judge_` neighbours this is the specification.

They know no solver. The judge recomputes everything from the question and the plan alone, slot by slot and gram
by gram, and it passes on every answer before anyone sees it. The rules are numbered as in docs/decide.md.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from ladleworth.decide.answer import Costs, Plan
from ladleworth.decide.judge_food import (
    Source,
    Supply,
    budget_suffices,
    needs_are_met,
    purchases_are_possible,
    sources_suffice,
    supplies,
    tills,
)
from ladleworth.decide.judge_kitchen import batches_are_allowed, containers_suffice, minutes_suffice
from ladleworth.decide.judge_meals import (
    exclusions_are_kept,
    no_dish_too_often,
    nutrients_stay_within,
    portions_are_eaten,
    portions_keep,
    slots_are_filled,
)
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustBuy, MustCook, MustNotCook, MustServe, MustUse, Wish
from ladleworth.decide.verdict import (
    Breach,
    Verdict,
    hands_on_min,
    need,
    portions_held,
    pot_of,
    reserve,
    session_min,
    slot_words,
    which_pot,
)

__all__ = [
    "Breach",
    "Source",
    "Supply",
    "Verdict",
    "hands_on_min",
    "judge",
    "need",
    "portions_held",
    "reserve",
    "supplies",
]


def judge(question: Question, plan: Plan) -> Verdict:
    """Check a plan against every rule and add up what it costs.

    Parameters
    ----------
    question, plan
        The question of the week, and any plan whatever, however it was found.

    Returns
    -------
    Verdict
        All breaches, in the order of the rules, and the costs. A plan that names a dish, version, offer,
        shop or lot unknown to the question has those breaches alone and no costs worth reading.
    """
    unknown = tuple(_unknown_names(question, plan))
    if unknown:
        return Verdict(unknown, Costs())
    rules = (
        slots_are_filled,
        batches_are_allowed,
        portions_are_eaten,
        portions_keep,
        containers_suffice,
        minutes_suffice,
        no_dish_too_often,
        exclusions_are_kept,
        purchases_are_possible,
        budget_suffices,
        needs_are_met,
        sources_suffice,
        nutrients_stay_within,
        wishes_are_kept,
    )
    breaches = tuple(breach for rule in rules for breach in rule(question, plan))
    return Verdict(breaches, _costs(question, plan))


# --- rule 0: the plan speaks of things that exist ---------------------------------------------------


def _unknown_names(question: Question, plan: Plan) -> Iterator[Breach]:
    sessions = {s.day for s in question.sessions}
    versions = {(d.name, v.name) for d in question.dishes for v in d.versions}
    offers = {o.name for o in question.offers}
    lots = {lot.name for lot in question.lots}
    cooked = Counter((b.day, b.dish, b.version) for b in plan.batches)
    for batch in plan.batches:
        if (batch.dish, batch.version) not in versions:
            yield Breach("names", f"no dish {batch.dish!r} has a version {batch.version!r}")
        if batch.day not in sessions:
            yield Breach("names", f"{batch.dish} is cooked on day {batch.day}, which has no session")
    for (day, dish, _), times in cooked.items():
        if times > 1:
            yield Breach("batches", f"{dish} is cooked {times} times in the session of day {day}")
    containers = {lot.name: lot for lot in question.portions}
    for helping in plan.helpings:
        if helping.lot is not None:
            lot = containers.get(helping.lot)
            if lot is None or lot.dish != helping.dish or lot.frozen != helping.frozen:
                yield Breach("names", f"{slot_words(helping)} eats of {helping.lot!r}, which is no such lot")
        elif (
            helping.dish is not None
            and pot_of(plan, helping.cooked_day, helping.dish, helping.version) is None
        ):
            which = which_pot(plan, helping.cooked_day, helping.dish, helping.version)
            yield Breach("names", f"{slot_words(helping)} eats {helping.dish} {which}")
    for purchase in plan.purchases:
        if purchase.offer not in offers:
            yield Breach("names", f"no offer is called {purchase.offer!r}")
    for drawing in plan.drawings:
        if drawing.source not in (lots if drawing.bought_day is None else offers):
            yield Breach("names", f"nothing is called {drawing.source!r} to draw from")
        if pot_of(plan, drawing.day, drawing.dish, drawing.version) is None:
            which = which_pot(plan, drawing.day, drawing.dish, drawing.version)
            yield Breach("names", f"{drawing.source} is drawn for {drawing.dish} {which}")


# --- rule 10: what the household has settled beforehand --------------------------------------------------


def wishes_are_kept(question: Question, plan: Plan) -> Iterator[Breach]:
    """Whatever the household wished for is so."""
    for wish in question.wishes:
        if not _is_kept(plan, wish):
            yield Breach("wishes", wish_words(wish))


def wish_words(wish: Wish) -> str:
    """Say a wish in words."""
    match wish:
        case MustCook(dish, day, version, portions):
            return f"at least {portions} portions of {_named(dish, day, version)} are cooked"
        case MustNotCook(dish, day, version):
            return f"no {_named(dish, day, version)} is cooked"
        case MustUse(lot, quantity):
            return f"at least {quantity} of {lot} are used"
        case MustServe(day, eater, meal, dish_name):
            return f"{eater} {meal} day {day} has {dish_name or 'a meal out'}"
        case MustBuy(day, offer, packages):
            return f"at least {packages} of {offer} are bought on day {day}"


def _named(dish: str, day: int | None, version: str | None) -> str:
    return dish + (f" ({version})" if version else "") + (f" on day {day}" if day else "")


def _is_kept(plan: Plan, wish: Wish) -> bool:
    match wish:
        case MustCook() | MustNotCook():
            cooked = sum(
                b.portions
                for b in plan.batches
                if b.dish == wish.dish and wish.day in (None, b.day) and wish.version in (None, b.version)
            )
            return cooked >= wish.portions if isinstance(wish, MustCook) else not cooked
        case MustUse(lot, quantity):
            drawn = sum(d.quantity for d in plan.drawings if d.bought_day is None and d.source == lot)
            return drawn + sum(h.lot == lot for h in plan.helpings) >= quantity
        case MustServe(day, eater, meal, dish):
            return any((h.day, h.eater, h.meal, h.dish) == (day, eater, meal, dish) for h in plan.helpings)
        case MustBuy(day, offer, packages):
            return sum(p.packages for p in plan.purchases if (p.day, p.offer) == (day, offer)) >= packages


# --- rule 8: the objective, in exact cents -------------------------------------------------------------


def _costs(question: Question, plan: Plan) -> Costs:
    shop = {o.name: o.shop for o in question.offers}
    trips = {(p.day, shop[p.offer]) for p in plan.purchases}
    trip_cents = {s.name: s.trip_cents for s in question.shops}
    spoilt, carried = _leftover_values(question, plan)
    extra = question.additions
    minutes = sum((session_min(question, plan, s.day) for s in question.sessions), Fraction(0))
    liking = sum(
        (question.version(b.dish, b.version).liking_cents * b.portions for b in plan.batches), Fraction(0)
    )
    held = sum(s.cents for s in question.sessions if any(b.day == s.day for b in plan.batches))
    return Costs(
        tills=Fraction(tills(question, plan)),
        trips=Fraction(sum(trip_cents[name] for _, name in trips)),
        spoilt=spoilt,
        meals_out=Fraction((question.rules.meal_out_cents or 0) * sum(h.dish is None for h in plan.helpings)),
        carried=carried,
        repeats=Fraction(extra.repeat_cents * _repeats(question, plan)),
        minutes=extra.minute_cents * minutes,
        liking=liking,
        reserve=Fraction(extra.reserve_cents * sum(max(0, n) for n in reserve(question, plan).values())),
        sessions=Fraction(held),
    )


def _repeats(question: Question, plan: Plan) -> int:
    """Helpings of a dish by an eater beyond the first, in each span of days."""
    spans = question.spans()
    times = Counter(
        (next(n for n, span in enumerate(spans) if h.day in span), h.eater, h.dish)
        for h in plan.helpings
        if h.dish is not None and 1 <= h.day <= question.days
    )
    return sum(n - 1 for n in times.values())


def _leftover_values(question: Question, plan: Plan) -> tuple[Fraction, Fraction]:
    drawn: Counter[Source] = Counter()
    for drawing in plan.drawings:
        drawn[drawing.source, drawing.bought_day] += drawing.quantity
    spoilt = carried = Fraction(0)
    for source, supply in supplies(question, plan).items():
        value = Fraction(supply.cents * (supply.quantity - drawn[source]), supply.quantity or 1)
        if supply.last_day is None or supply.last_day > question.days:
            carried += value * question.additions.carried_share
        elif source[1] is None:
            spoilt += value
    eaten = Counter(h.lot for h in plan.helpings if h.lot is not None)
    for lot in question.portions:
        value = Fraction(lot.cents * (lot.portions - eaten[lot.name]), lot.portions)
        if lot.last_day is None or lot.last_day > question.days:
            carried += value * question.additions.carried_share
        else:
            spoilt += value
    return spoilt, carried
