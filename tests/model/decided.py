"""Small weeks decided for a check: proven, judged, and of the cost that trying everything finds."""

from __future__ import annotations

from fractions import Fraction

from tests.model.brute_force import best

from ladleworth.decide import Answer, Question, Status, decide, judge


def answered(question: Question) -> Answer:
    answer = decide(question)
    assert answer.status is Status.PROVEN
    assert answer.plan is not None
    assert answer.costs is not None
    assert judge(question, answer.plan).breaches == ()
    assert answer.costs.total == best(question)
    return answer


def cost(question: Question) -> Fraction:
    costs = answered(question).costs
    assert costs is not None
    return costs.total


def refused(question: Question, *, ignoring: Question) -> str:
    """Decide the week without its rule; return the one rule for which the judge then refuses the plan."""
    with_rule, without = answered(question), answered(ignoring)
    assert with_rule.costs is not None
    assert without.costs is not None
    assert without.plan is not None
    assert without.costs.total < with_rule.costs.total
    broken = {breach.rule for breach in judge(question, without.plan).breaches}
    assert len(broken) == 1, broken
    return broken.pop()


def ignored_costs_more(question: Question, *, ignoring: Question) -> bool:
    """Decide the week without a price; say whether that plan is dearer than it need be once it is asked."""
    plan = answered(ignoring).plan
    assert plan is not None
    verdict = judge(question, plan)
    assert verdict.stands
    return verdict.costs.total > cost(question)


def no_plan(question: Question) -> bool:
    assert best(question) is None
    answer = decide(question)
    assert (answer.plan, answer.costs, answer.bound) == (None, None, None)
    return answer.status is Status.INFEASIBLE
