"""What any plan costs, part by part, worked out from the rules in words alone."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.decide.answer import Batch, Plan
from ladleworth.decide.question import Question, Version

NOTHING = Fraction(0)


def version_of(question: Question, batch: Batch) -> Version:
    """Return the version that a batch cooks."""
    dish = next(d for d in question.dishes if d.name == batch.dish)
    return next(v for v in dish.versions if v.name == batch.version)


def cost_of(question: Question, plan: Plan) -> dict[str, Fraction]:
    """Return the parts of a plan's cost by name, worked out from the plan alone (it is taken to be in order)."""
    additions = question.additions
    offers = {offer.name: offer for offer in question.offers}
    keep = {food.name: food.keep_days for food in question.foods}
    fares = {shop.name: shop.trip_cents for shop in question.shops}
    tills = sum((Fraction(p.packages * offers[p.offer].cents) for p in plan.purchases), NOTHING)
    visits = {(offers[p.offer].shop, p.day) for p in plan.purchases}
    trips = sum((Fraction(fares[shop]) for shop, _ in visits), NOTHING)
    spoilt = carried = NOTHING
    for lot in question.lots:
        used = sum(d.quantity for d in plan.drawings if d.source == lot.name and d.bought_day is None)
        worth = Fraction(lot.cents * (lot.quantity - used), lot.quantity)
        if lot.last_day is not None and lot.last_day <= question.days:
            spoilt += worth
        else:
            carried += worth
    for p in plan.purchases:
        offer = offers[p.offer]
        days_kept = keep[offer.food]
        if days_kept is not None and p.day + days_kept - 1 <= question.days:
            continue
        used = sum(d.quantity for d in plan.drawings if d.source == p.offer and d.bought_day == p.day)
        carried += p.packages * offer.cents - Fraction(used * offer.cents, offer.quantity)
    times: dict[tuple[str, str], int] = {}
    out = 0
    for helping in plan.helpings:
        if helping.dish is None:
            out += 1
        else:
            times[helping.eater, helping.dish] = times.get((helping.eater, helping.dish), 0) + 1
    minutes = liking = NOTHING
    for batch in plan.batches:
        version = version_of(question, batch)
        minutes += version.fixed_min + version.per_portion_min * batch.portions
        liking += version.liking_cents * batch.portions
    kept_back = sum(b.portions for b in plan.batches) - sum(times.values())
    return {
        "tills": tills,
        "trips": trips,
        "spoilt": spoilt,
        "meals_out": Fraction(out * (question.rules.meal_out_cents or 0)),
        "carried": carried * additions.carried_share,
        "repeats": Fraction(additions.repeat_cents * sum(n - 1 for n in times.values())),
        "minutes": additions.minute_cents * minutes,
        "liking": liking,
        "reserve": Fraction(additions.reserve_cents * kept_back),
    }


def total_of(parts: dict[str, Fraction]) -> Fraction:
    """Add the parts up; what is carried and what is in reserve count against the cost."""
    return sum((-v if name in ("carried", "reserve") else v for name, v in parts.items()), NOTHING)
