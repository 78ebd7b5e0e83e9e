"""What any plan costs, part by part, worked out from the rules in words alone."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.decide.answer import Batch, Helping, Plan
from ladleworth.decide.question import DishChoice, Question, Version

NOTHING = Fraction(0)


def dish_of(question: Question, batch: Batch) -> DishChoice:
    """Return the dish that a batch cooks."""
    return next(d for d in question.dishes if d.name == batch.dish)


def version_of(question: Question, batch: Batch) -> Version:
    """Return the version that a batch cooks."""
    return next(v for v in dish_of(question, batch).versions if v.name == batch.version)


def appetite_of(question: Question, eater: str) -> Fraction:
    """Return what an eater's portion is of a standard one."""
    return Fraction(question.appetites[eater]) if eater in question.appetites else Fraction(1)


def batch_of(plan: Plan, helping: Helping) -> Batch | None:
    """Return the batch that a helping comes from; None for a meal out and for portions on hand."""
    if helping.cooked_day is None:
        return None
    there = [b for b in plan.batches if (b.day, b.dish) == (helping.cooked_day, helping.dish)]
    if helping.version is not None:
        there = [b for b in there if b.version == helping.version]
    assert len(there) == 1, f"{helping} does not say which batch it comes from"
    return there[0]


def left_over(question: Question, plan: Plan) -> dict[Batch, int]:
    """Return the whole portions of each batch that nobody eats; below 0 if more is eaten than was cooked."""
    eaten: dict[Batch, Fraction] = {}
    for helping in plan.helpings:
        batch = batch_of(plan, helping)
        if batch is not None:
            eaten[batch] = eaten.get(batch, NOTHING) + appetite_of(question, helping.eater)
    return {batch: (batch.portions - eaten.get(batch, NOTHING)) // 1 for batch in plan.batches}


def minutes_of(question: Question, batches: tuple[Batch, ...]) -> Fraction:
    """Hands-on minutes: for each batch its own, and once for each dish of a session what is shared."""
    minutes = NOTHING
    begun = set()
    for batch in batches:
        version = version_of(question, batch)
        minutes += version.fixed_min + version.per_portion_min * batch.portions
        if (batch.day, batch.dish) not in begun:
            begun.add((batch.day, batch.dish))
            minutes += dish_of(question, batch).shared_min
    return minutes


def span_of(question: Question, day: int) -> int:
    """Return the number of the span of days that a day lies in, from 0."""
    length = question.rules.span_days
    return 0 if length is None else (day - 1) // length


def cost_of(question: Question, plan: Plan) -> dict[str, Fraction]:
    """Return the parts of a plan's cost by name, worked out from the plan alone (it is taken to be in order)."""
    additions = question.additions
    offers = {offer.name: offer for offer in question.offers}
    keep = {food.name: food.keep_days for food in question.foods}
    fares = {shop.name: shop.trip_cents for shop in question.shops}
    tills = sum((Fraction(p.packages * offers[p.offer].cents) for p in plan.purchases), NOTHING)
    visits = {(offers[p.offer].shop, p.day) for p in plan.purchases}
    trips = sum((Fraction(fares[shop]) for shop, _ in visits), NOTHING)
    worths = []
    for lot in question.lots:
        used = sum(d.quantity for d in plan.drawings if d.source == lot.name and d.bought_day is None)
        worths.append((lot.last_day, Fraction(lot.cents * (lot.quantity - used), lot.quantity)))
    for box in question.portions:
        eaten = sum(1 for h in plan.helpings if h.lot == box.name)
        worths.append((box.last_day, Fraction(box.cents * (box.portions - eaten), box.portions)))
    spoilt = carried = NOTHING
    for last_day, worth in worths:
        if last_day is not None and last_day <= question.days:
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
    times: dict[tuple[int, str, str], int] = {}
    out = 0
    for helping in plan.helpings:
        if helping.dish is None:
            out += 1
        else:
            key = (span_of(question, helping.day), helping.eater, helping.dish)
            times[key] = times.get(key, 0) + 1
    liking = sum((version_of(question, b).liking_cents * b.portions for b in plan.batches), NOTHING)
    cooking_days = {b.day for b in plan.batches}
    return {
        "tills": tills,
        "trips": trips,
        "spoilt": spoilt,
        "meals_out": Fraction(out * (question.rules.meal_out_cents or 0)),
        "carried": carried * additions.carried_share,
        "repeats": Fraction(additions.repeat_cents * sum(n - 1 for n in times.values())),
        "minutes": additions.minute_cents * minutes_of(question, plan.batches),
        "liking": liking,
        "reserve": Fraction(
            additions.reserve_cents * sum(n for n in left_over(question, plan).values() if n > 0)
        ),
        "sessions": Fraction(sum(s.cents for s in question.sessions if s.day in cooking_days)),
    }


def total_of(parts: dict[str, Fraction]) -> Fraction:
    """Add the parts up; what is carried and what is in reserve count against the cost."""
    return sum((-v if name in ("carried", "reserve") else v for name, v in parts.items()), NOTHING)
