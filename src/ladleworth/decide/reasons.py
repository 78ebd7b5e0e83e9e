"""Why this plan, and why none: which rules bind and what each costs, what clashes and the ways out.

A plan stays possible when a rule is dropped, so what the rule costs lies between two known figures: the plan
less the best plan found without the rule, and the plan less the bound without it. Both are shown. For a
question without a plan, a deletion filter finds rules that clash (none of them can be spared for the clash to
stand), and for each the least change of it alone that leaves a plan.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from ladleworth.decide.answer import Answer, Plan, Status
from ladleworth.decide.deciding import PROOF_CENTS, decide
from ladleworth.decide.judge import hands_on_min, portions_held
from ladleworth.decide.question import HouseRules, Question


class Rule(Enum):
    """A rule that a household could bend. Exclusions and keeping times are not among them."""

    BUDGET = "the budget"
    MINUTES = "the sessions' hands-on minutes"
    CONTAINERS = "the containers"
    FREEZER = "the freezer places"
    IN_A_ROW = "not the same dish on too many days in a row"
    MOST_TIMES = "not the same dish too often"
    NO_MEAL_OUT = "nobody eats out"


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
    """Rules that cannot be kept together, and ways out of it (by one rule alone, where one suffices).

    `proven` is False when the time did not allow to show that each of the rules is needed for the clash. No
    rules at all: the clash lies in what cannot be bent (dishes, exclusions, keeping times, sessions, shops).
    """

    rules: tuple[Rule, ...]
    ways_out: tuple[WayOut, ...]
    proven: bool


def in_force(question: Question) -> tuple[Rule, ...]:
    """Name the bendable rules that this question has."""
    rules = question.rules
    there = {
        Rule.BUDGET: rules.budget_cents is not None,
        Rule.MINUTES: bool(question.sessions),
        Rule.CONTAINERS: rules.containers is not None,
        Rule.FREEZER: rules.freezer_places is not None,
        Rule.IN_A_ROW: rules.in_a_row is not None,
        Rule.MOST_TIMES: rules.most_times is not None,
        Rule.NO_MEAL_OUT: rules.meal_out_cents is None,
    }
    return tuple(rule for rule, is_there in there.items() if is_there)


def without(question: Question, rules: Iterable[Rule]) -> Question:
    """Return the question without some rules (meals out then cost nothing)."""
    dropped = set(rules)
    old = question.rules
    bent = replace(
        old,
        containers=None if Rule.CONTAINERS in dropped else old.containers,
        freezer_places=None if Rule.FREEZER in dropped else old.freezer_places,
        budget_cents=None if Rule.BUDGET in dropped else old.budget_cents,
        meal_out_cents=0 if Rule.NO_MEAL_OUT in dropped else old.meal_out_cents,
        in_a_row=None if Rule.IN_A_ROW in dropped else old.in_a_row,
        most_times=None if Rule.MOST_TIMES in dropped else old.most_times,
    )
    sessions = question.sessions
    if Rule.MINUTES in dropped:
        enough = _minutes_of_everything(question)
        sessions = tuple(replace(s, minutes=max(s.minutes, enough)) for s in sessions)
    return replace(question, rules=bent, sessions=sessions)


def _minutes_of_everything(question: Question) -> int:
    return 1 + int(
        sum(max(hands_on_min(v, dish.greatest) for v in dish.versions) for dish in question.dishes)
    )


def tight(question: Question, plan: Plan) -> tuple[Tight, ...]:
    """List the limits that the plan reaches, each with its place."""
    return tuple(t for t in limits(question, plan) if t.used >= t.limit)


def limits(question: Question, plan: Plan) -> Iterator[Tight]:
    """Measure the plan against every limit that the household has set."""
    rules = question.rules
    versions = {(d.name, v.name): v for d in question.dishes for v in d.versions}
    for session in question.sessions:
        used = sum(
            (
                hands_on_min(versions[b.dish, b.version], b.portions)
                for b in plan.batches
                if b.day == session.day
            ),
            Fraction(0),
        )
        yield Tight(Rule.MINUTES, f"day {session.day}", used, Fraction(session.minutes))
    for night in (s.day for s in question.sessions):
        held, frozen = portions_held(question, plan, night)
        if rules.containers is not None:
            yield Tight(Rule.CONTAINERS, f"night {night}", Fraction(held), Fraction(rules.containers))
        if rules.freezer_places is not None:
            yield Tight(Rule.FREEZER, f"night {night}", Fraction(frozen), Fraction(rules.freezer_places))
    if rules.budget_cents is not None:
        cents = {o.name: o.cents for o in question.offers}
        tills = sum(cents[p.offer] * p.packages for p in plan.purchases)
        yield Tight(Rule.BUDGET, "all days", Fraction(tills), Fraction(rules.budget_cents))


def prices_of_rules(
    question: Question, answer: Answer, seconds: float = 20.0, seed: int = 0
) -> tuple[PriceOfRule, ...]:
    """Work out what each bendable rule costs, by deciding again without it.

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
        freed = decide(without(question, [rule]), seconds / len(rules), seed)
        best = value if freed.costs is None else float(freed.costs.total)
        most = None if freed.bound is None else max(0.0, value - freed.bound)
        if answer.bound is not None and answer.status is Status.PROVEN and freed.status is Status.PROVEN:
            most = max(0.0, value - best)
        prices.append(PriceOfRule(rule, max(0.0, value - best), most))
    return tuple(prices)


def runner_up(question: Question, plan: Plan, seconds: float = 10.0, seed: int = 0) -> Answer:
    """Find the cheapest plan without one of the dishes that the plan cooks.

    The same question is asked again with one dish of the plan left out at a time; the cheapest answer counts.
    It is proven only if none of the other answers leaves room for a cheaper one.
    """
    dishes = sorted({batch.dish for batch in plan.batches})
    best: Answer | None = None
    bound = math.inf
    none = Status.INFEASIBLE
    for name in dishes:
        rest = tuple(d for d in question.dishes if d.name != name)
        answer = decide(replace(question, dishes=rest), seconds / max(1, len(dishes)), seed)
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
    proven = True

    def has_no_plan(dropped: Iterable[Rule]) -> bool | None:
        left = max(0.5, (until - time.monotonic()) / 4)
        status = decide(without(question, dropped), left, seed).status
        return None if status is Status.OUT_OF_TIME else status is Status.INFEASIBLE

    everything = in_force(question)
    if has_no_plan(everything):
        return Clash((), (), proven=True)
    spared: list[Rule] = []
    for rule in everything:
        still = has_no_plan([*spared, rule])
        if still:
            spared.append(rule)
        proven = proven and still is not None
    clashing = tuple(rule for rule in everything if rule not in spared)
    ways = []
    for rule in clashing:
        way = _way_out(question, rule, max(1.0, (until - time.monotonic()) / len(clashing)))
        if way is not None:
            ways.append(way)
    return Clash(clashing, tuple(ways), proven)


def _way_out(question: Question, rule: Rule, seconds: float) -> WayOut | None:
    if rule in (Rule.IN_A_ROW, Rule.MOST_TIMES):
        return _looser(question, rule, seconds)
    from ladleworth.decide.slack import least_slack

    found = least_slack(without(question, [rule]), question, rule.name.lower(), seconds)
    return None if found is None else WayOut(rule, Fraction(round(found.amount)), found.proven)


def _looser(question: Question, rule: Rule, seconds: float) -> WayOut | None:
    """Raise a count by one until a plan exists; None if no count would do, or none was found in time."""
    until = time.monotonic() + seconds
    if decide(without(question, [rule]), max(0.5, seconds / 4)).status is Status.INFEASIBLE:
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
        status = decide(changed, max(0.5, left / 4)).status
        if status in (Status.PROVEN, Status.GOOD):
            return WayOut(rule, Fraction(value - now), proven)
        proven = proven and status is Status.INFEASIBLE
    return None


def _with_count(rules: HouseRules, rule: Rule, value: int) -> HouseRules:
    return replace(rules, in_a_row=value) if rule is Rule.IN_A_ROW else replace(rules, most_times=value)
