"""Why this plan, and why none: which rules bind and what each costs, what clashes and the ways out.

A plan stays possible when a rule is dropped, so what the rule costs lies between two known figures: the plan
less the best plan found without the rule, and the plan less the bound without it. Both are shown. For a
question without a plan, a deletion filter finds rules and wishes that clash (none of them can be spared for the
clash to stand), and for the rules what change of one alone leaves a plan; `comparing.wishes_in_the_way` says the same
of wishes.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.decide.answer import Answer, Plan, Status
from ladleworth.decide.bending import WITHOUT_AMOUNT, Rule, in_force, places, without
from ladleworth.decide.deciding import PROOF_CENTS, decide
from ladleworth.decide.existing import has_plan
from ladleworth.decide.judge import judge
from ladleworth.decide.judge_food import tills
from ladleworth.decide.judge_kitchen import frozen_on, station_min
from ladleworth.decide.mending import mended
from ladleworth.decide.question import HouseRules, Question, Wish
from ladleworth.decide.rules import MustNotCook
from ladleworth.decide.sift import promised_dishes, with_dishes
from ladleworth.decide.verdict import held_on, session_min

__all__ = [
    "Clash",
    "PriceOfRule",
    "Rule",
    "Tight",
    "WayOut",
    "clash",
    "in_force",
    "limits",
    "prices_of_rules",
    "runner_up",
    "tight",
    "without",
]


@dataclass(frozen=True, slots=True)
class Tight:
    """A limit that the plan reaches: the rule, where, how much of it is used and how much there is."""

    rule: Rule
    where: str
    used: Fraction
    limit: Fraction


@dataclass(frozen=True, slots=True)
class PriceOfRule:
    """What dropping a rule would save, in cents: at least `least`, at most `most` (None: not known)."""

    rule: Rule
    least: float
    most: float | None


@dataclass(frozen=True, slots=True)
class WayOut:
    """The least change of one rule alone with which a plan exists; `proven`, or else the least one found."""

    rule: Rule
    amount: Fraction
    proven: bool


@dataclass(frozen=True, slots=True)
class Clash:
    """Rules and wishes that cannot be kept together, and ways out of it (by one rule alone, where one suffices).

    `proven` is False when the time did not allow to show that each of them is needed for the clash. Neither rules
    nor wishes: the clash lies in what cannot be bent (dishes, exclusions, keeping times, sessions, shops).
    `droppable` are those of the rules without an amount of which one dropped altogether leaves a plan.
    """

    rules: tuple[Rule, ...]
    ways_out: tuple[WayOut, ...]
    proven: bool
    wishes: tuple[Wish, ...] = ()
    droppable: tuple[Rule, ...] = ()


def tight(question: Question, plan: Plan) -> tuple[Tight, ...]:
    """List the limits that the plan reaches, each with its place."""
    return tuple(t for t in limits(question, plan) if t.used >= t.limit)


def limits(question: Question, plan: Plan) -> Iterator[Tight]:
    """Measure the plan against every limit that the household has set.

    What waits in containers only rises on a session's day, so that those nights are measured, and the first one
    where there are portions on hand; the fridge is measured every night, since it fills up by what thaws too.
    """
    for session in question.sessions:
        used = session_min(question, plan, session.day)
        yield Tight(Rule.MINUTES, f"day {session.day}", used, Fraction(session.minutes))
        for station, there in session.stations.items():
            taken = station_min(question, plan, session.day, station)
            yield Tight(Rule.STATIONS, f"{station}, day {session.day}", taken, Fraction(there))
    yield from _storage_limits(question, plan)
    load = question.rules.freezing_load
    if load is not None:
        frozen = frozen_on(question, plan)
        for session in question.sessions:
            here = Fraction(frozen[session.day])
            yield Tight(Rule.FREEZING_LOAD, f"day {session.day}", here, Fraction(load))
    if question.rules.budget_cents is not None:
        yield Tight(
            Rule.BUDGET, "all days", Fraction(tills(question, plan)), Fraction(question.rules.budget_cents)
        )


def _storage_limits(question: Question, plan: Plan) -> Iterator[Tight]:
    """Measure containers, freezer and room on the nights that can be the fullest."""
    rules, there = question.rules, places(question.rules)
    nights = {session.day for session in question.sessions} | ({1} if question.portions else set())
    for night in range(1, question.days + 1):
        held, where = held_on(question, plan, night), f"night {night}"
        frozen = [one for one in held if one.frozen]
        if night in nights:
            if there is not None:
                yield Tight(Rule.CONTAINERS, where, Fraction(len(held)), Fraction(there))
            if rules.freezer_places is not None:
                yield Tight(Rule.FREEZER, where, Fraction(len(frozen)), Fraction(rules.freezer_places))
            for capacity in sorted(size.capacity_ml for size in rules.container_sizes)[:-1]:
                larger = sum(size.count for size in rules.container_sizes if size.capacity_ml > capacity)
                above = sum(one.volume_ml > capacity for one in held)
                words = f"{where}, above {capacity} ml"
                yield Tight(Rule.SIZES, words, Fraction(above), Fraction(larger))
            if rules.freezer_ml is not None:
                volume = sum(one.volume_ml for one in frozen)
                yield Tight(Rule.FREEZER_ROOM, where, Fraction(volume), Fraction(rules.freezer_ml))
        if rules.fridge_ml is not None:
            volume = sum(one.volume_ml for one in held if not one.frozen)
            yield Tight(Rule.FRIDGE_ROOM, where, Fraction(volume), Fraction(rules.fridge_ml))


def prices_of_rules(
    question: Question, answer: Answer, seconds: float = 20.0, seed: int = 0
) -> tuple[PriceOfRule, ...]:
    """Work out what each bendable rule costs, by deciding again without it, from the plan on.

    Parameters
    ----------
    question, answer
        A question and an answer with a plan.
    seconds
        The clock limit for all rules together.
    seed
        The seed of the searches.

    Returns
    -------
    tuple of PriceOfRule
        In the order of `in_force`; 'nobody eats out' is left out, as its price would be the household's own.
    """
    assert answer.costs is not None
    value = float(answer.costs.total)
    rules = [rule for rule in in_force(question) if rule is not Rule.NO_MEAL_OUT]
    prices = []
    for rule in rules:
        freed = _decide_from(without(question, [rule]), answer.plan, seconds / len(rules), seed)
        best = value if freed.costs is None else float(freed.costs.total)
        most = None if freed.bound is None else max(0.0, value - freed.bound)
        if answer.bound is not None and answer.status is Status.PROVEN and freed.status is Status.PROVEN:
            most = max(0.0, value - best)
        prices.append(PriceOfRule(rule, max(0.0, value - best), most))
    return tuple(prices)


def _decide_from(question: Question, start: Plan | None, seconds: float, seed: int) -> Answer:
    if start is None:
        return decide(question, seconds, seed)
    return decide(question, seconds, seed, start=start)


def runner_up(question: Question, plan: Plan, seconds: float = 10.0, seed: int = 0) -> Answer:
    """Find the cheapest plan without one of the dishes that the plan cooks.

    The same question is asked again with one dish of the plan left out at a time; the cheapest answer counts. Each
    begins from the cheapest of the plan and the answers before it, mended; the dish that is missed least that way
    comes first and has half of the time, and so on, what is not spent going to the others. It is proven only if none
    of the other answers leaves room for a cheaper one.
    """
    until = time.monotonic() + seconds
    left_out = {name: _left_out(question, name) for name in sorted({batch.dish for batch in plan.batches})}
    known = [plan]
    best: Answer | None = None
    bound = math.inf
    none = Status.INFEASIBLE
    while left_out:
        starts = {name: _cheapest_start(asked, known) for name, asked in left_out.items()}
        worth = {name: math.inf if found is None else found[0] for name, found in starts.items()}
        name = min(worth, key=lambda one: (worth[one], one))
        found, asked = starts[name], left_out.pop(name)
        share = max(0.0, until - time.monotonic()) / min(2, 1 + len(left_out))
        answer = _decide_from(asked, None if found is None else found[1], share, seed)
        if answer.plan is not None:
            known.append(answer.plan)
        none = Status.OUT_OF_TIME if answer.status is Status.OUT_OF_TIME else none
        if answer.status is not Status.INFEASIBLE:
            bound = min(bound, -math.inf if answer.bound is None else answer.bound)
        if answer.costs is not None and (
            best is None or best.costs is None or answer.costs.total < best.costs.total
        ):
            best = answer
    if best is None or best.costs is None:
        return Answer(none, None, None, None, 0.0, "none needed", seed)
    if best.status is Status.PROVEN and bound < float(best.costs.total) - PROOF_CENTS:
        return replace(best, status=Status.GOOD, bound=bound if math.isfinite(bound) else None)
    return best


def _cheapest_start(question: Question, plans: Iterable[Plan]) -> tuple[Fraction, Plan] | None:
    """The cheapest of some plans, mended for a question, and what it costs in cents."""
    starts = [start for start in (mended(question, plan) for plan in plans) if start is not None]
    costs = [(judge(question, start).costs.total, start) for start in starts]
    return min(costs, key=lambda pair: pair[0], default=None)


def _left_out(question: Question, name: str) -> Question:
    """Leave a dish out of a question; one that a wish asks for stays in it, and is not cooked."""
    if name in promised_dishes(question):
        return replace(question, wishes=(*question.wishes, MustNotCook(name)))
    return with_dishes(question, (dish.name for dish in question.dishes if dish.name != name))


def clash(question: Question, seconds: float = 20.0, seed: int = 0) -> Clash:
    """Explain a question that has no plan.

    Parameters
    ----------
    question
        A question whose answer was INFEASIBLE.
    seconds
        The clock limit for the whole explanation.
    seed
        The seed of the searches.

    Returns
    -------
    Clash
        See there.
    """
    until = time.monotonic() + seconds
    filtered = until - seconds / 3  # the rest is for the ways out
    proven = True

    def has_no_plan(dropped: Iterable[Rule], wishes: Iterable[Wish], parts: int = 4) -> bool | None:
        left = max(0.5, (filtered - time.monotonic()) / parts)
        asked = replace(without(question, dropped), wishes=tuple(wishes))
        there_is = has_plan(asked, left, seed)
        return None if there_is is None else not there_is

    everything = in_force(question)
    if has_no_plan(everything, ()):
        return Clash((), (), proven=True)
    wishes = list(question.wishes)
    if wishes and has_no_plan((), ()):
        wishes = []  # the rules clash whatever was wished for
    for wish in tuple(wishes):
        rest = [other for other in wishes if other is not wish]
        still = has_no_plan((), rest)
        if still:
            wishes = rest
        proven = proven and still is not None
    spared: list[Rule] = []
    for few in _few_rules(everything):
        # with so little kept a plan is quickly found, or ruled out; so the filter has less to do
        if time.monotonic() > filtered:
            break
        others = [rule for rule in everything if rule not in few]
        if has_no_plan(others, wishes, 2):
            spared = others
            break
    for rule in [rule for rule in everything if rule not in spared]:
        still = has_no_plan([*spared, rule], wishes)
        if still:
            spared.append(rule)
        proven = proven and still is not None
    clashing = tuple(rule for rule in everything if rule not in spared)
    ways, droppable = [], []
    for rule in clashing:
        if rule in WITHOUT_AMOUNT:
            if has_no_plan((rule,), question.wishes) is False:
                droppable.append(rule)
            continue
        way = _way_out(question, rule, max(1.0, (until - time.monotonic()) / len(clashing)))
        if way is not None:
            ways.append(way)
    return Clash(clashing, tuple(ways), proven, tuple(wishes), tuple(droppable))


def _few_rules(rules: Sequence[Rule]) -> Iterator[frozenset[Rule]]:
    """Each rule with nobody eating out, where that is a rule: most clashes are of two."""
    always = frozenset({Rule.NO_MEAL_OUT} & set(rules))
    yield from (always | {rule} for rule in rules if rule not in always)


def _way_out(question: Question, rule: Rule, seconds: float) -> WayOut | None:
    if rule in (Rule.IN_A_ROW, Rule.MOST_TIMES):
        return _looser(question, rule, seconds)
    from ladleworth.decide.slack import least_slack

    counted = replace(question, rules=replace(question.rules, containers=places(question.rules)))
    found = least_slack(without(question, [rule]), counted, rule.name.lower(), seconds)
    return None if found is None else WayOut(rule, Fraction(round(found.amount)), found.proven)


def _looser(question: Question, rule: Rule, seconds: float) -> WayOut | None:
    """Raise a count by one until a plan exists; None if no count would do, or none was found in time."""
    until = time.monotonic() + seconds
    if has_plan(without(question, [rule]), max(0.5, seconds / 4)) is False:
        return None
    now = question.rules.in_a_row if rule is Rule.IN_A_ROW else question.rules.most_times
    assert now is not None
    proven = True
    highest = question.days if rule is Rule.IN_A_ROW else len(question.slots)
    for value in range(now + 1, highest + 1):
        left = until - time.monotonic()
        if left <= 0:
            break
        changed = replace(question, rules=_with_count(question.rules, rule, value))
        there_is = has_plan(changed, max(0.5, left / 4))
        if there_is:
            return WayOut(rule, Fraction(value - now), proven)
        proven = proven and there_is is False
    return None


def _with_count(rules: HouseRules, rule: Rule, value: int) -> HouseRules:
    return replace(rules, in_a_row=value) if rule is Rule.IN_A_ROW else replace(rules, most_times=value)
