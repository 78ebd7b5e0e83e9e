"""The rules of the week and its objective in plain Python: this file is the specification.

It knows no solver. It recomputes everything from the question and the plan alone, slot by slot and gram by
gram, and it passes on every answer before anyone sees it. The rules are numbered as in docs/decide.md.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from ladleworth.decide.answer import Batch, Costs, Helping, Plan
from ladleworth.decide.question import Question, Version

Source = tuple[str, int | None]
"""Where food comes from: a lot's name with None, or an offer's name with the day it was bought."""


@dataclass(frozen=True, slots=True)
class Breach:
    """A rule that a plan does not keep: the rule's name, and what is wrong in words."""

    rule: str
    what: str

    def __str__(self) -> str:
        return f"[{self.rule}] {self.what}"


@dataclass(frozen=True, slots=True)
class Verdict:
    """Every breach found (none: the plan stands), and what the plan costs in exact cents."""

    breaches: tuple[Breach, ...]
    costs: Costs

    @property
    def stands(self) -> bool:
        """Say whether the plan keeps every rule."""
        return not self.breaches


def need(version: Version, food: str, portions: int) -> int:
    """How much of a food a batch takes, as bought.

    Parameters
    ----------
    version, food, portions
        The version cooked, the food, the number of portions.

    Returns
    -------
    int
        Milligrams or pieces; a fraction of either is rounded up to a whole one per batch.
    """
    return math.ceil(version.needs[food] * portions)


def hands_on_min(version: Version, portions: int) -> Fraction:
    """Hands-on minutes of a batch: a fixed part and a part per portion."""
    return version.fixed_min + version.per_portion_min * portions


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
        _slots_are_filled,
        _batches_are_allowed,
        _portions_are_eaten,
        _portions_keep,
        _containers_suffice,
        _minutes_suffice,
        _no_dish_too_often,
        _exclusions_are_kept,
        _purchases_are_possible,
        _budget_suffices,
        _needs_are_met,
        _sources_suffice,
    )
    breaches = tuple(breach for rule in rules for breach in rule(question, plan))
    return Verdict(breaches, _costs(question, plan))


# --- rule 0: the plan speaks of things that exist ---------------------------------------------------


def _unknown_names(question: Question, plan: Plan) -> Iterator[Breach]:
    sessions = {s.day for s in question.sessions}
    versions = {(d.name, v.name) for d in question.dishes for v in d.versions}
    offers = {o.name for o in question.offers}
    lots = {lot.name for lot in question.lots}
    cooked = Counter((b.day, b.dish) for b in plan.batches)
    for batch in plan.batches:
        if (batch.dish, batch.version) not in versions:
            yield Breach("names", f"no dish {batch.dish!r} has a version {batch.version!r}")
        if batch.day not in sessions:
            yield Breach("names", f"{batch.dish} is cooked on day {batch.day}, which has no session")
    for (day, dish), times in cooked.items():
        if times > 1:
            yield Breach("batches", f"{dish} is cooked {times} times in the session of day {day}")
    for helping in plan.helpings:
        if helping.dish is not None and (helping.cooked_day, helping.dish) not in cooked:
            yield Breach("names", f"{_slot(helping)} eats {helping.dish} that nobody cooked")
    for purchase in plan.purchases:
        if purchase.offer not in offers:
            yield Breach("names", f"no offer is called {purchase.offer!r}")
    for drawing in plan.drawings:
        if drawing.source not in (lots if drawing.bought_day is None else offers):
            yield Breach("names", f"nothing is called {drawing.source!r} to draw from")
        if (drawing.day, drawing.dish) not in cooked:
            yield Breach("names", f"{drawing.source} is drawn for {drawing.dish} that nobody cooks")


def _slot(helping: Helping) -> str:
    return f"{helping.eater} {helping.meal} day {helping.day}"


def _version(question: Question, batch: Batch) -> Version:
    return next(v for v in question.dish(batch.dish).versions if v.name == batch.version)


# --- rule 1: every listed slot takes one portion or a meal out; every portion cooked is eaten --------


def _slots_are_filled(question: Question, plan: Plan) -> Iterator[Breach]:
    filled = Counter((h.day, h.eater, h.meal) for h in plan.helpings)
    listed = {(s.day, s.eater, s.meal) for s in question.slots}
    for day, eater, meal in sorted(listed):
        if filled[day, eater, meal] != 1:
            yield Breach("slots", f"{eater} {meal} day {day} has {filled[day, eater, meal]} helpings, not 1")
    for day, eater, meal in sorted(set(filled) - listed):
        yield Breach("slots", f"{eater} {meal} day {day} is no listed slot")
    for helping in plan.helpings:
        if helping.dish is None and question.rules.meal_out_cents is None:
            yield Breach("slots", f"{_slot(helping)} eats out, which the household does not do")
        if helping.dish is not None and not question.dish(helping.dish).suits(helping.meal):
            yield Breach("meals", f"{helping.dish} is no dish for {helping.meal} ({_slot(helping)})")


def _eaten(plan: Plan) -> dict[tuple[int, str], list[Helping]]:
    eaten: dict[tuple[int, str], list[Helping]] = defaultdict(list)
    for helping in plan.helpings:
        if helping.dish is not None and helping.cooked_day is not None:
            eaten[helping.cooked_day, helping.dish].append(helping)
    return eaten


def reserve(plan: Plan) -> dict[tuple[int, str], int]:
    """Portions of each batch (cooking day, dish) that nobody eats within the days."""
    eaten = _eaten(plan)
    return {(b.day, b.dish): b.portions - len(eaten[b.day, b.dish]) for b in plan.batches}


def _portions_are_eaten(question: Question, plan: Plan) -> Iterator[Breach]:
    left = reserve(plan)
    for (day, dish), portions in left.items():
        if portions < 0:
            yield Breach("portions", f"{-portions} more portions of {dish} (day {day}) are eaten than cooked")
        freezes = question.dish(dish).freezer_days
        if portions > 0 and (freezes is None or day + freezes - 1 <= question.days):
            yield Breach(
                "portions", f"{portions} portions of {dish} (day {day}) are neither eaten nor keep on"
            )
    total = sum(max(0, portions) for portions in left.values())
    if total > question.additions.reserve_portions:
        yield Breach(
            "portions",
            f"{total} portions are left over; the household allows {question.additions.reserve_portions}",
        )


# --- rule 2: a session cooks a dish at most once, least..greatest portions, within its minutes -------


def _batches_are_allowed(question: Question, plan: Plan) -> Iterator[Breach]:
    for batch in plan.batches:
        dish = question.dish(batch.dish)
        if not dish.least <= batch.portions <= dish.greatest:
            yield Breach(
                "batches",
                f"{batch.dish} day {batch.day}: {batch.portions} is outside {dish.least}..{dish.greatest}",
            )


def _minutes_suffice(question: Question, plan: Plan) -> Iterator[Breach]:
    for session in question.sessions:
        used = sum(
            (hands_on_min(_version(question, b), b.portions) for b in plan.batches if b.day == session.day),
            Fraction(0),
        )
        if used > session.minutes:
            yield Breach("minutes", f"day {session.day} takes {float(used):g} minutes of {session.minutes}")


# --- rule 3: chilled portions within their keeping time, frozen ones after a night's thaw ------------


def _portions_keep(question: Question, plan: Plan) -> Iterator[Breach]:
    for helping in plan.helpings:
        if helping.dish is None or helping.cooked_day is None:
            continue
        dish = question.dish(helping.dish)
        age = helping.day - helping.cooked_day + 1
        if age < 1:
            yield Breach("keeping", f"{_slot(helping)} eats {dish.name} before it is cooked")
        elif not helping.frozen and age > dish.keep_days:
            yield Breach(
                "keeping", f"{_slot(helping)}: chilled {dish.name} is in day {age} of {dish.keep_days}"
            )
        elif helping.frozen and dish.freezer_days is None:
            yield Breach("freezing", f"{_slot(helping)}: {dish.name} does not freeze well")
        elif helping.frozen and age < 3:
            yield Breach(
                "freezing", f"{_slot(helping)}: frozen {dish.name} cannot be thawed before day 3 of its age"
            )
        elif helping.frozen and dish.freezer_days is not None and age > dish.freezer_days:
            yield Breach(
                "freezing", f"{_slot(helping)}: frozen {dish.name} is in day {age} of {dish.freezer_days}"
            )


# --- rule 4: containers and freezer places, after the slots of each day ------------------------------


def portions_held(plan: Plan, day: int) -> tuple[int, int]:
    """Portions in containers, and those of them in the freezer, after the slots of a day.

    Tomorrow's frozen portions have been taken out to thaw: they are in a container but not in the freezer.
    """
    held = sum(b.portions for b in plan.batches if b.day <= day)
    frozen = 0
    for helping in plan.helpings:
        if helping.cooked_day is None or helping.cooked_day > day:
            continue
        if helping.day <= day:
            held -= 1
        elif helping.frozen and helping.day > day + 1:
            frozen += 1
    kept_on = sum(n for (cooked, _), n in reserve(plan).items() if cooked <= day)
    return held, frozen + kept_on


def _containers_suffice(question: Question, plan: Plan) -> Iterator[Breach]:
    rules = question.rules
    for day in range(1, question.days + 1):
        held, frozen = portions_held(plan, day)
        if rules.containers is not None and held > rules.containers:
            yield Breach("containers", f"night {day}: {held} portions wait for {rules.containers} containers")
        if rules.freezer_places is not None and frozen > rules.freezer_places:
            yield Breach(
                "freezer", f"night {day}: {frozen} frozen portions for {rules.freezer_places} places"
            )


# --- rule 5: sameness and exclusions ------------------------------------------------------------------


def _no_dish_too_often(question: Question, plan: Plan) -> Iterator[Breach]:
    days: dict[tuple[str, str], Counter[int]] = defaultdict(Counter)
    for helping in plan.helpings:
        if helping.dish is not None:
            days[helping.eater, helping.dish][helping.day] += 1
    rules = question.rules
    for (eater, dish), times in days.items():
        if rules.most_times is not None and times.total() > rules.most_times:
            yield Breach(
                "sameness", f"{eater} has {dish} {times.total()} times; {rules.most_times} is the most"
            )
        if rules.in_a_row is not None:
            for day in times:
                run = range(day, day + rules.in_a_row + 1)
                if all(d in times for d in run):
                    yield Breach("sameness", f"{eater} has {dish} on each of days {run[0]} to {run[-1]}")


def _exclusions_are_kept(question: Question, plan: Plan) -> Iterator[Breach]:
    versions = {(b.day, b.dish): _version(question, b) for b in plan.batches}
    for helping in plan.helpings:
        if helping.dish is None or helping.cooked_day is None:
            continue
        version = versions[helping.cooked_day, helping.dish]
        if helping.eater in version.barred:
            yield Breach("exclusions", f"{helping.eater} may not have {helping.dish} ({version.name})")


# --- rule 6: whole packages on session days, a trip cost a visit, money on hand -----------------------


def _purchases_are_possible(question: Question, plan: Plan) -> Iterator[Breach]:
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


def _tills(question: Question, plan: Plan) -> int:
    cents = {o.name: o.cents for o in question.offers}
    return sum(cents[p.offer] * p.packages for p in plan.purchases)


def _budget_suffices(question: Question, plan: Plan) -> Iterator[Breach]:
    budget, tills = question.rules.budget_cents, _tills(question, plan)
    if budget is not None and tills > budget:
        yield Breach("budget", f"{tills} cents at the tills are more than {budget}")


# --- rule 7: each batch gets what it needs, from sources that hold it and have not gone off -----------


def _needs_are_met(question: Question, plan: Plan) -> Iterator[Breach]:
    offers = {o.name: o for o in question.offers}
    lots = {lot.name: lot for lot in question.lots}
    drawn: Counter[tuple[int, str, str]] = Counter()
    for drawing in plan.drawings:
        source = lots[drawing.source] if drawing.bought_day is None else offers[drawing.source]
        if drawing.quantity < 1:
            yield Breach("needs", f"{drawing.source}: {drawing.quantity} is no amount to draw")
        drawn[drawing.day, drawing.dish, source.food] += drawing.quantity
    for batch in plan.batches:
        version = _version(question, batch)
        for food in version.needs:
            wanted, got = need(version, food, batch.portions), drawn.pop((batch.day, batch.dish, food), 0)
            if wanted != got:
                yield Breach(
                    "needs", f"{batch.dish} day {batch.day} needs {wanted} of {food} and draws {got}"
                )
    for (day, dish, food), quantity in drawn.items():
        yield Breach("needs", f"{dish} day {day} draws {quantity} of {food} that it does not need")


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


def _sources_suffice(question: Question, plan: Plan) -> Iterator[Breach]:
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


# --- rule 8: the objective, in exact cents -------------------------------------------------------------


def _costs(question: Question, plan: Plan) -> Costs:
    shop = {o.name: o.shop for o in question.offers}
    trips = {(p.day, shop[p.offer]) for p in plan.purchases}
    trip_cents = {s.name: s.trip_cents for s in question.shops}
    spoilt, carried = _leftover_values(question, plan)
    versions = {(b.day, b.dish): _version(question, b) for b in plan.batches}
    times = Counter((h.eater, h.dish) for h in plan.helpings if h.dish is not None)
    extra = question.additions
    minutes = sum((hands_on_min(versions[b.day, b.dish], b.portions) for b in plan.batches), Fraction(0))
    return Costs(
        tills=Fraction(_tills(question, plan)),
        trips=Fraction(sum(trip_cents[name] for _, name in trips)),
        spoilt=spoilt,
        meals_out=Fraction((question.rules.meal_out_cents or 0) * sum(h.dish is None for h in plan.helpings)),
        carried=carried,
        repeats=Fraction(extra.repeat_cents * sum(n - 1 for n in times.values())),
        minutes=extra.minute_cents * minutes,
        liking=sum((versions[b.day, b.dish].liking_cents * b.portions for b in plan.batches), Fraction(0)),
        reserve=Fraction(extra.reserve_cents * sum(max(0, n) for n in reserve(plan).values())),
    )


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
    return spoilt, carried
