"""Why a plan and why none where a household has more rules than the plain ones, and wishes.

The rice of a portion costs 10 and a meal out, where there is one, 300. After the weeks that were argued by hand come
the small random ones with further rules, against trying everything.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from tests.model.brute_force import best, best_plan
from tests.model.small_kitchens import KITCHENS, PLAIN_KITCHENS, small_kitchen
from tests.model.strict_weeks import BAKED, LARGE, SALTY, at_home, oven
from tests.unit.decide.weeks import rules, slots, stew, week

from ladleworth.decide import (
    Answer,
    ContainerSize,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    NutrientBound,
    Question,
    Rule,
    Status,
    clash,
    decide,
)
from ladleworth.decide.answer import Progress
from ladleworth.decide.comparing import Asking, wishes_in_the_way
from ladleworth.decide.reasons import in_force, without

FURTHER = PLAIN_KITCHENS
"""From this seed on the small random weeks have further rules."""


# -- clashes ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("question", "rule"),
    [
        # two portions take 30 minutes of an oven that is free for 29
        (week(slots=slots(1, 2), dishes=(BAKED,), sessions=oven(29), rules=at_home()), Rule.STATIONS),
        # one portion of 500 ml waits for a night: no container holds it, or the fridge does not
        (
            week(slots=slots(2), dishes=(LARGE,), rules=at_home(container_sizes=(ContainerSize(499, 9),))),
            Rule.SIZES,
        ),
        (week(slots=slots(2), dishes=(LARGE,), rules=at_home(fridge_ml=499)), Rule.FRIDGE_ROOM),
        # chilled it keeps for its first day, so that the portion of day 3 has to be frozen
        (
            week(
                slots=slots(3),
                dishes=(replace(LARGE, keep_days=1, freezer_days=30),),
                rules=at_home(freezer_ml=499),
            ),
            Rule.FREEZER_ROOM,
        ),
        (
            week(
                slots=slots(3),
                dishes=(stew(keep_days=1, freezer_days=30),),
                rules=at_home(freezing_load=0),
            ),
            Rule.FREEZING_LOAD,
        ),
        (
            week(
                dishes=(SALTY,),
                rules=at_home(nutrient_bounds=(NutrientBound("Ada", "salt", most=Fraction(5)),)),
            ),
            Rule.NUTRIENTS,
        ),
    ],
    ids=lambda value: value.name if isinstance(value, Rule) else "",
)
def test_a_further_rule_too_strict_for_eating_at_home_is_named_and_can_be_dropped(
    question: Question, rule: Rule
) -> None:
    assert decide(question).status is Status.INFEASIBLE
    found = clash(question)
    assert found.proven
    assert set(found.rules) == {rule, Rule.NO_MEAL_OUT}
    assert found.droppable == (rule,)
    assert {way.rule for way in found.ways_out} == {Rule.NO_MEAL_OUT}
    assert found.wishes == ()


def test_too_few_containers_are_a_matter_of_their_number_whatever_their_sizes() -> None:
    # three portions of 500 ml wait on the first night, for one container that holds them and one that does not
    sizes = (ContainerSize(300, 1), ContainerSize(600, 3))
    ample = week(days=4, slots=slots(2, 3, 4), dishes=(LARGE,), rules=at_home(container_sizes=sizes))
    assert decide(ample).status is Status.PROVEN
    few = replace(ample, rules=replace(ample.rules, containers=1))
    found = clash(few)
    assert set(found.rules) == {Rule.CONTAINERS, Rule.NO_MEAL_OUT}
    assert {way.rule: way.amount for way in found.ways_out} == {Rule.CONTAINERS: 2, Rule.NO_MEAL_OUT: 2}
    small = replace(ample, rules=replace(ample.rules, container_sizes=(ContainerSize(300, 9),)))
    assert set(clash(small).rules) == {Rule.SIZES, Rule.NO_MEAL_OUT}


def test_wishes_that_cannot_be_had_together_are_the_clash_and_others_are_not_named() -> None:
    wishes = (MustCook("stew"), MustBuy(1, "rice pack", 1), MustNotCook("stew"))
    question = week(wishes=wishes)
    found = clash(question)
    assert found.proven
    assert (found.rules, found.ways_out) == ((), ())
    assert found.wishes == (wishes[0], wishes[2])
    assert wishes_in_the_way(question, Asking(5)) == (wishes[0], wishes[2])


def test_a_wish_and_the_rule_that_does_not_let_it_be_are_named_together() -> None:
    # two packages of rice cost 20
    question = week(
        rules=rules(budget_cents=15, containers=0), wishes=(MustCook("stew"), MustBuy(1, "rice pack", 2))
    )
    found = clash(question)
    assert found.wishes == (MustBuy(1, "rice pack", 2),)
    assert found.rules == (Rule.BUDGET,)
    assert [(way.rule, way.amount, way.proven) for way in found.ways_out] == [
        (Rule.BUDGET, Fraction(5), True)
    ]


def test_rules_that_clash_whatever_was_wished_for_are_named_without_the_wishes() -> None:
    question = week(
        slots=slots(1, 2), rules=at_home(budget_cents=15), wishes=(MustServe(1, "Ada", "supper", "stew"),)
    )
    found = clash(question)
    assert set(found.rules) == {Rule.BUDGET, Rule.NO_MEAL_OUT}
    assert found.wishes == ()


@pytest.mark.parametrize("block", range(FURTHER, KITCHENS, 40))
def test_a_clash_of_further_rules_and_wishes_stands_by_itself_and_falls_without_any_of_them(
    block: int,
) -> None:
    impossible = 0
    for seed in range(block, min(block + 40, KITCHENS)):
        question = small_kitchen(seed)
        if decide(question).status is Status.INFEASIBLE:
            impossible += 1
            _stands_and_falls(question)
    assert impossible


def _stands_and_falls(question: Question) -> None:
    found = clash(question)
    assert found.proven
    rest = [rule for rule in in_force(question) if rule not in found.rules]
    bare = replace(without(question, rest), wishes=found.wishes)
    assert best(bare) is None
    for rule in found.rules:
        assert best(replace(without(question, [*rest, rule]), wishes=found.wishes)) is not None, rule
    for wish in found.wishes:
        others = tuple(other for other in found.wishes if other is not wish)
        assert best(replace(bare, wishes=others)) is not None, wish
    for rule in found.rules:
        alone = best(without(question, [rule]))
        ways = {*found.droppable, *(way.rule for way in found.ways_out)}
        assert (alone is not None) == (rule in ways), rule
    for way in found.ways_out:
        assert way.proven
        assert way.amount == int(way.amount) >= 1
        assert _some_plan(question, way.rule, int(way.amount)), way
        assert not _some_plan(question, way.rule, int(way.amount) - 1), way


def _some_plan(question: Question, rule: Rule, by: int) -> bool:
    """Say whether there is a plan with one rule looser by so much; minutes shared out in every way."""
    old = question.rules
    if rule is Rule.NO_MEAL_OUT:
        # with a meal out dearer than all else together, the best plan has the fewest
        found = best_plan(replace(question, rules=replace(old, meal_out_cents=10**6)))
        return found is not None and sum(h.dish is None for h in found[1].helpings) <= by
    if rule is Rule.MINUTES:
        shares = product(range(by + 1), repeat=len(question.sessions))
        longer = (
            tuple(
                replace(s, minutes=s.minutes + more) for s, more in zip(question.sessions, share, strict=True)
            )
            for share in shares
            if sum(share) == by
        )
        return any(best(replace(question, sessions=one)) is not None for one in longer)
    if rule is Rule.CONTAINERS and old.container_sizes:
        there = min(old.containers or 10**6, sum(size.count for size in old.container_sizes))
        smallest, *others = sorted(old.container_sizes, key=lambda size: size.capacity_ml)
        more = replace(smallest, count=smallest.count + 10**6)
        changed = replace(old, containers=there + by, container_sizes=(more, *others))
        return best(replace(question, rules=changed)) is not None
    field = {
        Rule.BUDGET: "budget_cents",
        Rule.CONTAINERS: "containers",
        Rule.FREEZER: "freezer_places",
        Rule.IN_A_ROW: "in_a_row",
        Rule.MOST_TIMES: "most_times",
    }[rule]
    changed = replace(old, **{field: getattr(old, field) + by})
    return best(replace(question, rules=changed)) is not None


def test_a_clash_asks_for_no_more_than_a_first_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    question = week(slots=slots(1, 2, 3), rules=at_home(budget_cents=18))
    stopped: list[bool] = []

    def looked_at(
        asked: Question,
        seconds: float,
        seed: int,
        *,
        work: int | None,
        report: Callable[[Progress], None],
        stop: Callable[[], bool],
    ) -> Answer:
        before = stop()
        answer = decide(asked, seconds, seed, report=report)
        stopped.append((before, stop()) == (False, answer.plan is not None))
        return answer

    monkeypatch.setattr("ladleworth.decide.existing.decide", looked_at)
    assert set(clash(question).rules) == {Rule.BUDGET, Rule.NO_MEAL_OUT}
    assert stopped
    assert all(stopped)
