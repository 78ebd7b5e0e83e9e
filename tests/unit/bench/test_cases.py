from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from bench.cases import NAMES, SIZES, mark_of, names_like, question_of, worth_on_hand

from ladleworth.decide import Helping, Plan, Question, judge

SMALL = [name for name in NAMES if not name.startswith(("random 1000", "random 300"))]


def all_out(question: Question) -> Plan:
    return Plan((), tuple(Helping(s.day, s.eater, s.meal) for s in question.slots), (), ())


@pytest.mark.parametrize(
    ("name", "mark"),
    [
        ("tiny #1", "c038016a47ff"),
        ("tiny #2", "bdc33b87475e"),
        ("random 30/7/2 #1", "46969b629532"),
        ("random 100/14/2 #5", "b665bd591408"),
        ("staples 60/7/2 #3", "8bcc9269f0cd"),
    ],
)
def test_the_invented_questions_are_frozen(name: str, mark: str) -> None:
    assert mark_of(question_of(name)) == mark


@pytest.mark.parametrize("name", SMALL)
def test_every_case_has_a_plan_if_only_that_of_eating_out(name: str) -> None:
    question = question_of(name)
    assert judge(question, all_out(question)).breaches == ()


def test_every_case_is_another_question() -> None:
    marks = [mark_of(question_of(name)) for name in SMALL]
    assert len(set(marks)) == len(marks) == 1 + 5 * (len(SIZES) - 2)


def test_a_mark_changes_with_any_figure() -> None:
    question = question_of("tiny #1")
    dish = question.dishes[0]
    dearer = replace(question.offers[0], cents=question.offers[0].cents + 1)
    changed = [
        replace(question, offers=(dearer, *question.offers[1:])),
        replace(question, rules=replace(question.rules, in_a_row=3)),
        replace(question, rules=replace(question.rules, nutrient_bounds=())),
        replace(question, additions=replace(question.additions, minute_cents=Fraction(1, 3))),
        replace(question, dishes=(replace(dish, keep_days=dish.keep_days + 1), *question.dishes[1:])),
        replace(question, lots=question.lots[1:]),
        replace(question, appetites={"eater 1": Fraction(3, 2)}),
    ]
    assert len({mark_of(one) for one in [question, *changed]}) == 1 + len(changed)
    assert mark_of(replace(question)) == mark_of(question)


def test_names_are_cases_sizes_or_patterns() -> None:
    assert names_like(["demo", "random 30/7/4", "tiny #2", "demo"]) == [
        "demo",
        *(f"random 30/7/4 #{seed}" for seed in range(1, 6)),
        "tiny #2",
    ]
    assert names_like(["* #3"]) == [f"{size} #3" for size in SIZES]
    with pytest.raises(ValueError, match=r"no case is called 'random 31/7/2'; there are demo and tiny"):
        names_like(["random 31/7/2"])


def test_what_a_week_uses_up_is_its_value_and_the_worth_of_the_stock() -> None:
    question = question_of("staples 60/7/2 #1")
    costs = judge(question, all_out(question)).costs
    assert worth_on_hand(question) == costs.carried > 0
    less = replace(question, additions=replace(question.additions, carried_share=Fraction(1, 2)))
    assert worth_on_hand(less) == costs.carried / 2
