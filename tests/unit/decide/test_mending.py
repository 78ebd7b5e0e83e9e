"""A plan of which something cannot be any more is mended by dropping it, or not at all."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.decide.weeks import PORTION, pack, rules, slots, stew, week

from ladleworth.decide import (
    Foodstuff,
    Helping,
    MustBuy,
    MustNotCook,
    Plan,
    PortionLot,
    Purchase,
    Question,
    decide,
    judge,
)
from ladleworth.decide.mending import mended


def two_dishes(**fields: object) -> Question:
    """Rice for 10 and beans for 14, two suppers, each dish but once."""
    foods = (Foodstuff("rice"), Foodstuff("beans"))
    usual: dict[str, object] = {
        "foods": foods,
        "slots": slots(1, 2),
        "dishes": (stew(), stew({"beans": PORTION}, name="bean pot")),
        "offers": (pack(10), pack(14, "beans")),
        "rules": rules(most_times=1),
    }
    return week(**(usual | fields))


def plan_of(question: Question) -> Plan:
    found = decide(question, 5).plan
    assert found is not None
    return found


def test_a_plan_that_stands_stays_as_it_is() -> None:
    question = two_dishes()
    plan = plan_of(question)
    assert mended(question, plan) == replace(plan, helpings=tuple(sorted(plan.helpings)))


def test_what_the_shop_does_not_have_is_not_cooked_and_eaten_out_in_its_place() -> None:
    question = two_dishes()
    plan = plan_of(question)
    gone = replace(question, offers=question.offers[1:])
    found = mended(gone, plan)
    assert found is not None
    assert [batch.dish for batch in found.batches] == ["bean pot"]
    assert [purchase.offer for purchase in found.purchases] == ["beans pack"]
    assert [helping.dish for helping in found.helpings].count(None) == 1
    assert judge(gone, found).costs.total == 14 + 300


def test_where_nobody_eats_out_a_plan_that_lost_a_dish_is_not_mended() -> None:
    question = two_dishes(rules=rules(most_times=1, meal_out_cents=None))
    plan = plan_of(question)
    assert mended(replace(question, offers=question.offers[1:]), plan) is None


def test_a_dish_that_is_forbidden_now_is_dropped_and_so_is_one_that_is_no_dish_any_more() -> None:
    question = two_dishes()
    plan = plan_of(question)
    barred = mended(replace(question, wishes=(MustNotCook("bean pot"),)), plan)
    less = mended(replace(question, dishes=question.dishes[:1]), plan)
    assert barred is not None
    assert barred == less
    assert [batch.dish for batch in barred.batches] == ["stew"]


def test_what_lies_in_the_basket_is_bought_though_nobody_cooks_it() -> None:
    question = two_dishes()
    plan = plan_of(question)
    wished = replace(question, wishes=(MustBuy(1, "rice pack", 3), MustNotCook("stew")))
    found = mended(wished, plan)
    assert found is not None
    assert Purchase(1, "rice pack", 3) in found.purchases


def test_no_more_is_eaten_of_a_lot_than_there_is_and_new_slots_are_eaten_out() -> None:
    lot = PortionLot("soup", "soup", 1, 50)
    question = two_dishes(portions=(lot,), slots=slots(1, 2, 3))
    plan = Plan((), tuple(Helping(day, "Ada", "supper", "soup", lot="soup") for day in (1, 2)), (), ())
    found = mended(question, plan)
    assert found is not None
    assert [helping.lot for helping in found.helpings] == ["soup", None, None]


def test_where_the_food_is_not_enough_for_all_the_smallest_batch_is_dropped_first() -> None:
    one = stew(name="one")
    large = two_dishes(dishes=(stew(least=2), one), slots=slots(1, 2, 3), rules=rules(most_times=2))
    question = replace(large, offers=(pack(10, most=2),))
    plan = plan_of(large)
    assert sorted(batch.portions for batch in plan.batches) == [1, 2]
    found = mended(question, replace(plan, purchases=(Purchase(1, "rice pack", 2),)))
    assert found is not None
    assert [(batch.dish, batch.portions) for batch in found.batches] == [("stew", 2)]
