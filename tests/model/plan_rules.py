"""Which rules any plan breaks, worked out from the rules in words alone; it shares no code with the judge.

A plan is taken to name only what there is. The names of the rules are those of the page on deciding.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from tests.model.plan_cost import (
    NOTHING,
    appetite_of,
    batch_of,
    dish_of,
    left_over,
    minutes_of,
    span_of,
    version_of,
)

from ladleworth.decide.answer import Batch, Helping, Plan
from ladleworth.decide.question import PortionLot, Question
from ladleworth.decide.rules import MustBuy, MustCook, MustNotCook, MustServe, MustUse, Wish


def broken_rules(question: Question, plan: Plan) -> set[str]:
    """Return the names of all rules that a plan breaks; none: it stands."""
    found = (_slots, _batches, _portions, _keeping, _nights, _sameness, _nutrients, _shopping, _food, _wishes)
    return {name for check in found for name in check(question, plan)}


def _lot_of(question: Question, helping: Helping) -> PortionLot | None:
    return next((lot for lot in question.portions if lot.name == helping.lot), None)


def _slots(question: Question, plan: Plan) -> Iterator[str]:
    got = sorted((h.day, h.eater, h.meal) for h in plan.helpings)
    if got != sorted((s.day, s.eater, s.meal) for s in question.slots):
        yield "slots"
    for helping in plan.helpings:
        batch, lot = batch_of(plan, helping), _lot_of(question, helping)
        if batch is None and lot is None:
            if question.rules.meal_out_cents is None:
                yield "slots"
            continue
        source = lot if lot is not None else dish_of(question, _sure(batch))
        if source.meals is not None and helping.meal not in source.meals:
            yield "meals"
        barred = lot.barred if lot is not None else version_of(question, _sure(batch)).barred
        if helping.eater in barred:
            yield "exclusions"


def _sure(batch: Batch | None) -> Batch:
    assert batch is not None
    return batch


def _batches(question: Question, plan: Plan) -> Iterator[str]:
    for session in question.sessions:
        here = tuple(b for b in plan.batches if b.day == session.day)
        if minutes_of(question, here) > session.minutes:
            yield "minutes"
        for station, there in session.stations.items():
            loads = [(version_of(question, b).loads.get(station), b.portions) for b in here]
            taken = sum((x.fixed_min + x.per_portion_min * n for x, n in loads if x is not None), NOTHING)
            if taken > there:
                yield "stations"
        for dish in question.dishes:
            sizes = [b.portions for b in here if b.dish == dish.name]
            if sizes and (
                min(sizes) < 1
                or not dish.least <= sum(sizes) <= dish.greatest
                or len(sizes) > dish.most_versions
            ):
                yield "batches"


def _portions(question: Question, plan: Plan) -> Iterator[str]:
    total = 0
    for batch, over in left_over(question, plan).items():
        freezer_days = dish_of(question, batch).freezer_days
        if over < 0:
            yield "portions"
        elif over > 0:
            total += over
            # It must be good on the first day after the days still.
            if freezer_days is None or question.days + 2 - batch.day > freezer_days:
                yield "portions"
    if total > question.additions.reserve_portions:
        yield "portions"
    for lot in question.portions:
        if sum(h.lot == lot.name for h in plan.helpings) > lot.portions:
            yield "portions"


def _keeping(question: Question, plan: Plan) -> Iterator[str]:
    for helping in plan.helpings:
        batch, lot = batch_of(plan, helping), _lot_of(question, helping)
        if lot is not None:
            last = question.days if lot.last_day is None else lot.last_day
            if helping.day not in range(lot.first_day, last + 1):
                yield "keeping"
        elif batch is not None:
            dish, age = dish_of(question, batch), helping.day - batch.day + 1
            if age < 1 or (not helping.frozen and age > dish.keep_days):
                yield "keeping"
            elif helping.frozen and (dish.freezer_days is None or not 3 <= age <= dish.freezer_days):
                yield "freezing"


def _boxes(question: Question, plan: Plan) -> Iterator[tuple[int, range, range]]:
    """Yield each container: what it holds in ml, the nights it is in use, and those it lies in the freezer."""
    end = question.days + 1
    for helping in plan.helpings:
        batch, lot = batch_of(plan, helping), _lot_of(question, helping)
        if batch is not None:
            volume = ceil(version_of(question, batch).volume_ml * appetite_of(question, helping.eater))
            first = batch.day
        elif lot is not None:
            volume, first = lot.volume_ml, 1
        else:
            continue
        iced = range(first, helping.day - 1) if helping.frozen else range(0)
        yield volume, range(first, helping.day), iced
    for batch, over in left_over(question, plan).items():
        nights = range(batch.day, end)
        for _ in range(over):
            yield version_of(question, batch).volume_ml, nights, nights
    for lot in question.portions:
        nights = range(1, end if lot.last_day is None else min(lot.last_day, end))
        for _ in range(lot.portions - sum(h.lot == lot.name for h in plan.helpings)):
            yield lot.volume_ml, nights, nights if lot.frozen else range(0)


def _nights(question: Question, plan: Plan) -> Iterator[str]:
    rules = question.rules
    boxes = list(_boxes(question, plan))
    sizes = [size.capacity_ml for size in rules.container_sizes for _ in range(size.count)]
    for night in range(1, question.days + 1):
        held = sorted((ml for ml, nights, _ in boxes if night in nights), reverse=True)
        iced = [ml for ml, nights, frozen in boxes if night in nights and night in frozen]
        if rules.containers is not None and len(held) > rules.containers:
            yield "containers"
        if rules.freezer_places is not None and len(iced) > rules.freezer_places:
            yield "freezer"
        if rules.freezer_ml is not None and sum(iced) > rules.freezer_ml:
            yield "room"
        if rules.fridge_ml is not None and sum(held) - sum(iced) > rules.fridge_ml:
            yield "room"
        # The largest food into the largest container, and so on: if that fails, every other way does.
        large_first = sorted(sizes, reverse=True)
        if rules.container_sizes and (
            len(held) > len(sizes) or any(ml > box for ml, box in zip(held, large_first, strict=False))
        ):
            yield "sizes"
    if rules.freezing_load is not None:
        froze: Counter[int] = Counter(b.day for h in plan.helpings if h.frozen and (b := batch_of(plan, h)))
        for batch, over in left_over(question, plan).items():
            froze[batch.day] += max(0, over)
        if any(n > rules.freezing_load for n in froze.values()):
            yield "freezing load"


def _sameness(question: Question, plan: Plan) -> Iterator[str]:
    rules = question.rules
    had = [(h.eater, h.dish, h.day) for h in plan.helpings if h.dish is not None]
    times = Counter((eater, dish, span_of(question, day)) for eater, dish, day in had)
    if rules.most_times is not None and any(n > rules.most_times for n in times.values()):
        yield "sameness"
    if rules.in_a_row is not None:
        days = set(had)
        for eater, dish, day in days:
            if all((eater, dish, day + k) in days for k in range(rules.in_a_row + 1)):
                yield "sameness"


def _nutrients(question: Question, plan: Plan) -> Iterator[str]:
    for bound in question.rules.nutrient_bounds:
        by_span: dict[int, list[Fraction | None]] = {}
        for helping in plan.helpings:
            batch, lot = batch_of(plan, helping), _lot_of(question, helping)
            if helping.eater != bound.eater or helping.dish is None:
                continue
            if lot is not None:
                figure = lot.nutrients.get(bound.nutrient)
            else:
                figure = version_of(question, _sure(batch)).nutrients.get(bound.nutrient)
                if figure is not None and not bound.share:
                    figure *= appetite_of(question, bound.eater)
            by_span.setdefault(span_of(question, helping.day), []).append(figure)
        for figures in by_span.values():
            known = [f for f in figures if f is not None]
            if len(known) < len(figures):
                yield "nutrients"
                continue
            mean = sum(known, NOTHING) / len(known)
            if (bound.least is not None and mean < bound.least) or (
                bound.most is not None and mean > bound.most
            ):
                yield "nutrients"


def _shopping(question: Question, plan: Plan) -> Iterator[str]:
    offers = {o.name: o for o in question.offers}
    days = {s.day for s in question.sessions}
    lines = [(p.day, p.offer) for p in plan.purchases]
    if len(set(lines)) < len(lines):
        yield "shopping"
    for purchase in plan.purchases:
        most = offers[purchase.offer].most
        if (
            purchase.day not in days
            or purchase.packages < 1
            or (most is not None and purchase.packages > most)
        ):
            yield "shopping"
    budget = question.rules.budget_cents
    if budget is not None and sum(p.packages * offers[p.offer].cents for p in plan.purchases) > budget:
        yield "budget"


def _food(question: Question, plan: Plan) -> Iterator[str]:
    keep = {f.name: f.keep_days for f in question.foods}
    offers = {o.name: o for o in question.offers}
    lots = {lot.name: lot for lot in question.lots}
    wanted: Counter[tuple[Batch, str]] = Counter()
    for batch in plan.batches:
        for food, each in version_of(question, batch).needs.items():
            wanted[batch, food] += ceil(each * batch.portions)
    taken: Counter[tuple[str, int | None]] = Counter()
    for drawing in plan.drawings:
        there = [b for b in plan.batches if (b.day, b.dish) == (drawing.day, drawing.dish)]
        (batch,) = [b for b in there if drawing.version in (None, b.version)]
        taken[drawing.source, drawing.bought_day] += drawing.quantity
        if drawing.quantity < 1:
            yield "needs"
        if drawing.bought_day is None:
            lot = lots[drawing.source]
            food, last = lot.food, lot.last_day
        else:
            food = offers[drawing.source].food
            kept = keep[food]
            last = None if kept is None else drawing.bought_day + kept - 1
            if drawing.bought_day > drawing.day:
                yield "stock"
            if not any((p.day, p.offer) == (drawing.bought_day, drawing.source) for p in plan.purchases):
                last = None  # nothing was bought: that it is not there is said once
        if last is not None and drawing.day > last:
            yield "stock"
        wanted[batch, food] -= drawing.quantity
    if any(wanted.values()):
        yield "needs"
    for (source, day), quantity in taken.items():
        if day is None:
            there_is = lots[source].quantity
        else:
            packages = sum(p.packages for p in plan.purchases if (p.day, p.offer) == (day, source))
            there_is = packages * offers[source].quantity
        if quantity > there_is:
            yield "stock"


def _wishes(question: Question, plan: Plan) -> Iterator[str]:
    if not all(_holds(plan, wish) for wish in question.wishes):
        yield "wishes"


def _holds(plan: Plan, wish: Wish) -> bool:
    if isinstance(wish, MustCook | MustNotCook):
        cooked = 0
        for batch in plan.batches:
            other_day = wish.day is not None and wish.day != batch.day
            other_version = wish.version is not None and wish.version != batch.version
            if batch.dish == wish.dish and not other_day and not other_version:
                cooked += batch.portions
        return cooked == 0 if isinstance(wish, MustNotCook) else cooked >= wish.portions
    if isinstance(wish, MustUse):
        used = sum(d.quantity for d in plan.drawings if d.bought_day is None and d.source == wish.lot)
        return used + sum(1 for h in plan.helpings if h.lot == wish.lot) >= wish.quantity
    if isinstance(wish, MustServe):
        return (wish.day, wish.eater, wish.meal, wish.dish) in {
            (h.day, h.eater, h.meal, h.dish) for h in plan.helpings
        }
    assert isinstance(wish, MustBuy)
    return (
        sum(p.packages for p in plan.purchases if (p.day, p.offer) == (wish.day, wish.offer)) >= wish.packages
    )
