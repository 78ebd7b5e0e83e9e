from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.decide.weeks import PORTION, pack, rules, sessions, slots, stew, week

from ladleworth.decide import (
    Batch,
    CookSession,
    Drawing,
    Foodstuff,
    Helping,
    HouseRules,
    Plan,
    Purchase,
    Question,
    Status,
    StockLot,
    decide,
    judge,
    judged,
)
from ladleworth.decide.settling import trim
from ladleworth.errors import JudgeRefused

QUESTION = week()
BOUGHT_TOO_MUCH = Plan(
    (Batch(1, "stew", "plain", 1),),
    (Helping(1, "Ada", "supper", "stew", 1),),
    (Purchase(1, "rice pack", 5),),
    (Drawing(1, "stew", "rice pack", 1, PORTION),),
)


def test_packages_that_only_lie_there_are_left_in_the_shop() -> None:
    # They would be carried at what they cost, so the total is the same without them.
    trimmed = trim(QUESTION, BOUGHT_TOO_MUCH)
    assert trimmed.purchases == (Purchase(1, "rice pack", 1),)
    assert trimmed.drawings == (Drawing(1, "stew", "rice pack", 1, PORTION, "plain"),)
    assert judged(QUESTION, trimmed).total == judged(QUESTION, BOUGHT_TOO_MUCH).total == 10


def test_a_purchase_that_nobody_draws_from_is_left_out_altogether() -> None:
    question = week(offers=(pack(10), pack(50, name="second", quantity=2 * PORTION)))
    plan = replace(BOUGHT_TOO_MUCH, purchases=(Purchase(1, "rice pack", 1), Purchase(1, "second", 2)))
    assert trim(question, plan).purchases == (Purchase(1, "rice pack", 1),)


def test_a_package_that_saves_spoilt_stock_nothing_is_replaced_by_the_stock() -> None:
    # 100 g of stock that spoils, at 30: drawn from instead of the package.
    question = week(lots=(StockLot("old", "rice", PORTION, 30, 2),))
    trimmed = trim(question, BOUGHT_TOO_MUCH)
    assert trimmed.purchases == ()
    assert trimmed.drawings == (Drawing(1, "stew", "old", None, PORTION, "plain"),)
    assert judged(question, trimmed).total == 0


def test_packages_that_the_plan_needs_stay() -> None:
    plan = replace(BOUGHT_TOO_MUCH, purchases=(Purchase(1, "rice pack", 1),))
    assert trim(QUESTION, plan) == plan


def test_a_cheap_package_stays_where_the_dearer_stock_can_be_carried() -> None:
    # Drawing from the stock instead would cost its share of 90.
    question = week(lots=(StockLot("old", "rice", PORTION, 90),))
    assert trim(question, BOUGHT_TOO_MUCH).purchases == (Purchase(1, "rice pack", 1),)
    assert judged(question, trim(question, BOUGHT_TOO_MUCH)).total == 10 - 90


def test_a_thousand_million_tiny_packages_are_trimmed_in_no_time() -> None:
    question = week(offers=(pack(1, quantity=1),))
    plan = replace(BOUGHT_TOO_MUCH, purchases=(Purchase(1, "rice pack", 10**9),))
    assert trim(question, plan).purchases == (Purchase(1, "rice pack", PORTION),)


def test_a_plan_that_breaks_a_rule_is_never_given_its_costs() -> None:
    with pytest.raises(JudgeRefused, match="300 cents at the tills are more than 29"):
        judged(
            week(offers=(pack(300),), rules=rules(budget_cents=29)),
            replace(BOUGHT_TOO_MUCH, purchases=(Purchase(1, "rice pack", 1),)),
        )


def test_the_answer_says_how_it_came_about() -> None:
    answer = decide(QUESTION, seed=3)
    assert answer.status is Status.PROVEN
    assert answer.seed == 3
    assert answer.solver.startswith("HiGHS")
    assert answer.seconds < 20
    assert answer.gap_cents is not None
    assert answer.gap_cents <= 1e-4
    assert answer.bound == pytest.approx(10)


@pytest.mark.parametrize(
    "question",
    [
        week(dishes=()),
        week(sessions=()),
        week(slots=()),
        week(slots=(), dishes=(), sessions=(), offers=(), shops=()),
        week(foods=(), dishes=(), offers=(), lots=()),
        week(shops=(), offers=()),
        week(dishes=(stew(barred=frozenset({"Ada"})),)),
    ],
    ids=["no dish", "no session", "no slot", "nothing", "no food", "no shop", "barred"],
)
def test_a_week_without_much_to_decide_is_decided(question: Question) -> None:
    answer = decide(question)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert answer.costs.total == 300 * len(question.slots)
    assert answer.plan is not None
    assert (answer.plan.batches, answer.plan.purchases) == ((), ())
    assert judge(question, answer.plan).stands


def test_without_a_dish_nobody_can_eat_at_home() -> None:
    assert decide(week(dishes=(), rules=HouseRules())).status is Status.INFEASIBLE


def many_sizes() -> Question:
    """So many dishes and sizes that the local search begins: five dishes of one food each, six days."""
    foods = tuple(f"food {n}" for n in range(5))
    return week(
        days=6,
        slots=(*slots(*range(1, 7)), *slots(*range(1, 7), eater="Ben")),
        sessions=(CookSession(1, 60), CookSession(4, 60)),
        dishes=tuple(
            stew({food: PORTION}, name=f"dish {food}", greatest=20, fixed_min=Fraction(10)) for food in foods
        ),
        foods=tuple(map(Foodstuff, foods)),
        offers=tuple(pack(10 + n, food) for n, food in enumerate(foods)),
        rules=rules(in_a_row=1),
    )


def test_a_larger_week_goes_through_the_search_to_the_proof() -> None:
    # One day in a row at most: every eater has the two cheapest dishes in turn, three helpings of each. Both
    # keep for four days: 6 portions at 10 and 6 at 11.
    answer = decide(many_sizes(), seconds=30)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert answer.costs.total == 6 * 10 + 6 * 11


def test_a_larger_week_that_cannot_be_is_found_out() -> None:
    question = replace(many_sizes(), rules=HouseRules(budget_cents=100), sessions=sessions(1, 4))
    assert decide(question, seconds=30).status is Status.INFEASIBLE
