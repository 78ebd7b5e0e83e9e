from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.decide.weeks import PORTION, pack, rules, sessions, slots, stew, week

from ladleworth.decide import (
    Batch,
    Drawing,
    Foodstuff,
    Helping,
    MustBuy,
    Plan,
    Purchase,
    StockLot,
    judge,
    judged,
)
from ladleworth.decide.columns import Dinner
from ladleworth.decide.programme import Counts
from ladleworth.decide.settling import settle, trim, with_what_lacks
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


def test_a_package_that_is_wished_for_stays() -> None:
    question = week(wishes=(MustBuy(1, "rice pack", 3),))
    trimmed = trim(question, BOUGHT_TOO_MUCH)
    assert trimmed.purchases == (Purchase(1, "rice pack", 3),)
    assert judge(question, trimmed).stands


# -- what the solver's tolerance leaves short -----------------------------------------------------------


def one_portion(*purchases: Purchase) -> Counts:
    return Counts(
        (Batch(1, "stew", "plain", 1),),
        purchases,
        {Dinner("stew", "plain", 1, Fraction(1), 1, frozen=False): 1},
        {("stew", "plain", "Ada", 1): 1},
        {},
    )


def test_counts_are_seated_and_drawn() -> None:
    plan = settle(QUESTION, one_portion(Purchase(1, "rice pack", 1)))
    assert judge(QUESTION, plan).stands
    assert plan.purchases == (Purchase(1, "rice pack", 1),)
    assert plan.helpings == (Helping(1, "Ada", "supper", "stew", 1, version="plain"),)
    assert plan.drawings == (Drawing(1, "stew", "rice pack", 1, PORTION, "plain"),)


def test_a_package_is_added_where_a_milligram_is_lacking() -> None:
    question = week(offers=(pack(10, quantity=PORTION - 1),))
    plan = settle(question, one_portion(Purchase(1, "rice pack", 1)))
    assert plan.purchases == (Purchase(1, "rice pack", 2),)
    assert judge(question, plan).breaches == ()


def test_only_the_food_that_lacks_is_bought_once_more_and_once_alone() -> None:
    question = week(
        days=4,
        slots=slots(1, 3),
        sessions=sessions(1, 3),
        dishes=(stew({"rice": PORTION, "beans": PORTION}),),
        foods=(Foodstuff("rice"), Foodstuff("beans")),
        offers=(pack(10, quantity=PORTION - 1), pack(10, "beans")),
    )
    batches = (Batch(1, "stew", "plain", 1), Batch(3, "stew", "plain", 1))
    bought = tuple(Purchase(day, f"{food} pack", 1) for day in (1, 3) for food in ("rice", "beans"))
    raised = with_what_lacks(question, batches, bought)
    assert sorted(p.packages for p in raised if p.offer == "rice pack") == [1, 2]
    assert [p.packages for p in raised if p.offer == "beans pack"] == [1, 1]
    assert with_what_lacks(question, batches[:1], bought) == bought


@pytest.mark.parametrize(
    "counts",
    [
        one_portion(),
        replace(one_portion(Purchase(1, "rice pack", 1)), eaten={}),
        replace(one_portion(Purchase(1, "rice pack", 1)), served={("stew", "plain", "Ada", 1): 2}),
    ],
    ids=["nothing is bought", "nothing is there to eat", "two portions in one slot"],
)
def test_counts_that_make_no_plan_are_refused(counts: Counts) -> None:
    with pytest.raises(JudgeRefused, match="cannot be put into slots or drawn"):
        settle(QUESTION, counts)
