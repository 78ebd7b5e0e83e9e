"""Clashes, prices, runners-up and tight limits of the small random weeks, against trying everything."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import product

import pytest
from tests.model.brute_force import all_plans, best, best_plan
from tests.model.small_kitchens import KITCHENS, PLAIN_KITCHENS, small_kitchen
from tests.model.strict_weeks import ways

from ladleworth.decide import (
    MustNotCook,
    Question,
    Rule,
    Status,
    clash,
    decide,
    judge,
    prices_of_rules,
    runner_up,
)
from ladleworth.decide.reasons import in_force, limits, without

# -- against trying everything ------------------------------------------------------------------------


BLOCK = 40
"""So many seeds of the small random weeks a test."""


def bent(question: Question, rule: Rule, by: int) -> list[Question]:
    """The question with one rule looser by so much; for minutes, shared out in every way."""
    field = {
        Rule.BUDGET: "budget_cents",
        Rule.CONTAINERS: "containers",
        Rule.FREEZER: "freezer_places",
        Rule.IN_A_ROW: "in_a_row",
        Rule.MOST_TIMES: "most_times",
    }
    if rule is Rule.MINUTES:
        count = len(question.sessions)
        shares = [s for s in product(range(by + 1), repeat=count) if sum(s) == by]
        return [
            replace(
                question,
                sessions=tuple(
                    replace(s, minutes=s.minutes + more)
                    for s, more in zip(question.sessions, share, strict=True)
                ),
            )
            for share in shares
        ]
    value = getattr(question.rules, field[rule]) + by
    return [replace(question, rules=replace(question.rules, **{field[rule]: value}))]


@pytest.mark.parametrize("block", range(0, PLAIN_KITCHENS, BLOCK))
def test_a_clash_stands_by_itself_falls_without_any_of_its_rules_and_its_ways_out_are_the_least(
    block: int,
) -> None:
    weeks = [small_kitchen(seed) for seed in range(block, block + BLOCK)]
    impossible = [question for question in weeks if decide(question).status is Status.INFEASIBLE]
    assert len(impossible) >= 2
    for question in impossible:
        clash_is_the_least(question)


def clash_is_the_least(question: Question) -> None:
    found = clash(question)
    assert found.proven
    rest = [rule for rule in in_force(question) if rule not in found.rules]
    assert best(without(question, rest)) is None
    for rule in found.rules:
        assert best(without(question, [*rest, rule])) is not None, rule
    amounts = ways(found)
    for rule in found.rules:
        if rule not in amounts:
            assert best(without(question, [rule])) is None, rule
            continue
        least = int(amounts[rule])
        assert amounts[rule] == least >= 1
        if rule is Rule.NO_MEAL_OUT:
            # with a meal out dearer than all else together, the best plan has the fewest
            dear = replace(question, rules=replace(question.rules, meal_out_cents=10**6))
            cheapest = best_plan(dear)
            assert cheapest is not None
            assert sum(h.dish is None for h in cheapest[1].helpings) == least
            continue
        assert any(best(one) is not None for one in bent(question, rule, least)), rule
        assert all(best(one) is None for one in bent(question, rule, least - 1)), rule


@pytest.mark.parametrize("seed", range(0, KITCHENS, 9))
def test_what_a_rule_costs_lies_between_the_two_figures(seed: int) -> None:
    question = small_kitchen(seed)
    answer = decide(question)
    if answer.costs is None:
        assert best(question) is None
        return
    # Once for the proven plan, and once for one that is known to be worse.
    dice = random.Random(seed)
    total, plan = dice.choice(all_plans(question))
    worse = replace(answer, status=Status.GOOD, plan=plan, costs=judge(question, plan).costs)
    for shown, value in ((answer, answer.costs.total), (worse, total)):
        for price in prices_of_rules(question, shown):
            freed = best(without(question, [price.rule]))
            assert freed is not None
            assert price.most is not None
            assert price.least <= float(value - freed) + 1e-9, price
            assert price.most >= float(value - freed) - 1e-9, price
            assert price.most - price.least <= 1e-3


@pytest.mark.parametrize("seed", range(1, KITCHENS, 8))
def test_the_runner_up_is_the_best_plan_that_leaves_out_one_of_the_dishes(seed: int) -> None:
    question = small_kitchen(seed)
    answer = decide(question)
    if answer.plan is None or answer.costs is None or not answer.plan.batches:
        return
    cooked = {batch.dish for batch in answer.plan.batches}
    others = [
        best(replace(question, wishes=(*question.wishes, MustNotCook(name)))) for name in sorted(cooked)
    ]
    expected = min((cents for cents in others if cents is not None), default=None)
    other = runner_up(question, answer.plan)
    if expected is None:
        assert other.status is Status.INFEASIBLE
        return
    assert other.plan is not None
    assert other.costs is not None
    assert other.costs.total == expected >= answer.costs.total
    assert other.plan.batches != answer.plan.batches
    assert judge(question, other.plan).stands


@pytest.mark.parametrize("seed", range(2, PLAIN_KITCHENS, 6))
def test_tight_limits_are_those_that_one_less_would_break(seed: int) -> None:
    question = small_kitchen(seed)
    answer = decide(question)
    if answer.plan is None:
        return
    for limit in limits(question, answer.plan):
        if limit.rule is Rule.MINUTES:
            day = int(limit.where.removeprefix("day "))
            stricter = replace(
                question,
                sessions=tuple(
                    replace(s, minutes=s.minutes - 1) if s.day == day else s for s in question.sessions
                ),
            )
            reached = limit.used > limit.limit - 1
        elif limit.limit == 0:
            continue
        else:
            (stricter,) = bent(question, limit.rule, -1)
            reached = any(t.rule is limit.rule and t.used >= t.limit for t in limits(question, answer.plan))
        assert judge(question, answer.plan).stands
        assert judge(stricter, answer.plan).stands is not reached, limit
