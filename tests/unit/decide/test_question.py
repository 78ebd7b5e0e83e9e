from __future__ import annotations

import pickle
from dataclasses import FrozenInstanceError, replace
from fractions import Fraction

import pytest
from tests.model.planted_week import PLAN, WEEK
from tests.unit.decide.weeks import PORTION, RICE, pack, sessions, slots, stew, week

from ladleworth.decide import (
    Additions,
    Answer,
    Costs,
    DishChoice,
    Foodstuff,
    Helping,
    HouseRules,
    PackageOffer,
    ShopVisit,
    Status,
    StockLot,
    Version,
)
from ladleworth.decide.question import MOST_VERSIONS
from ladleworth.errors import BadField
from ladleworth.store import record_json


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Foodstuff("rice", keep_days=0), "rice: keep_days must be 1 or more"),
        (lambda: StockLot("old", "rice", 0, 5), "lot old: the quantity must be above 0"),
        (lambda: StockLot("old", "rice", 5, -1), "lot old: the cents must not be negative"),
        (lambda: pack(5, quantity=0), "offer rice pack: the quantity must be above 0"),
        (lambda: pack(-1), "offer rice pack: the price must not be negative"),
        (lambda: pack(1, most=-1), "offer rice pack: most must not be negative"),
        (lambda: ShopVisit("corner", -1), "shop corner: the trip cost must not be negative"),
        (lambda: sessions(1, minutes=-1), "session on day 1: minutes must not be negative"),
        (lambda: stew(fixed_min=Fraction(-1)), "plain: minutes must not be negative"),
        (lambda: stew(per_portion_min=Fraction(-1, 2)), "plain: minutes must not be negative"),
        (lambda: stew({"rice": 0}), "plain: the amount of rice must be above 0"),
        (lambda: DishChoice("stew", ()), "dish stew: at least one version is needed"),
        (lambda: stew(least=0), "dish stew: 1 <= least <= greatest does not hold"),
        (lambda: stew(least=9), "dish stew: 1 <= least <= greatest does not hold"),
        (lambda: stew(keep_days=0), "dish stew: keep_days must be 1 or more"),
        (lambda: stew(freezer_days=0), "dish stew: freezer_days must be 1 or more"),
        (
            lambda: DishChoice("stew", (Version("a", {}),) * 2),
            "version of dish stew 'a' stands there more than",
        ),
        (
            lambda: DishChoice("stew", tuple(Version(str(n), {}) for n in range(MOST_VERSIONS + 1))),
            "dish stew: 65 combinations of swaps are more than 64",
        ),
        (lambda: HouseRules(containers=-1), "containers must not be negative"),
        (lambda: HouseRules(freezer_places=-1), "freezer_places must not be negative"),
        (lambda: HouseRules(budget_cents=-1), "budget_cents must not be negative"),
        (lambda: HouseRules(meal_out_cents=-1), "meal_out_cents must not be negative"),
        (lambda: HouseRules(in_a_row=0), "in_a_row must be 1 or more"),
        (lambda: HouseRules(most_times=0), "most_times must be 1 or more"),
        (lambda: Additions(repeat_cents=-1), "repeat_cents must not be negative"),
        (lambda: Additions(minute_cents=Fraction(-1)), "minute_cents must not be negative"),
        (lambda: Additions(reserve_portions=-1), "reserve_portions must not be negative"),
        (lambda: Additions(reserve_cents=-1), "reserve_cents must not be negative"),
        (lambda: Additions(carried_share=Fraction(11, 10)), "carried_share must be from 0 to 1"),
        (lambda: Additions(carried_share=Fraction(-1, 10)), "carried_share must be from 0 to 1"),
        (lambda: Helping(1, "Ada", "supper", "stew"), "a helping has a dish and its cooking day, or neither"),
        (
            lambda: Helping(1, "Ada", "supper", frozen=True),
            "a helping has a dish and its cooking day, or neither",
        ),
    ],
)
def test_a_record_is_checked_when_it_is_made(make: object, said: str) -> None:
    with pytest.raises(BadField) as raised:
        make()  # type: ignore[operator]
    assert said in str(raised.value)


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"days": 0, "slots": (), "sessions": ()}, "there must be at least one day"),
        ({"slots": slots(1, 1)}, "slot 'Ada supper day 1' stands there more than once"),
        ({"slots": slots(4)}, "slot day 4 is outside 1..3"),
        ({"slots": slots(0)}, "slot day 0 is outside 1..3"),
        ({"sessions": sessions(4)}, "session day 4 is outside 1..3"),
        ({"sessions": sessions(0)}, "session day 0 is outside 1..3"),
        ({"sessions": sessions(2, 2)}, "session on day '2' stands there more than once"),
        ({"dishes": (stew(), stew())}, "dish 'stew' stands there more than once"),
        ({"foods": (RICE, RICE)}, "food 'rice' stands there more than once"),
        ({"lots": (StockLot("a", "rice", 1, 1),) * 2}, "lot 'a' stands there more than once"),
        ({"offers": (pack(10), pack(10))}, "offer 'rice pack' stands there more than once"),
        ({"shops": (ShopVisit("corner"),) * 2}, "shop 'corner' stands there more than once"),
        ({"lots": (StockLot("a", "beans", 1, 1),)}, "lot a: no food is called 'beans'"),
        ({"offers": (pack(10, "beans"),)}, "offer beans pack: no food is called 'beans'"),
        ({"shops": ()}, "offer rice pack: no shop is called 'corner'"),
        ({"dishes": (stew({"beans": 1}),)}, "dish stew: no food is called 'beans'"),
    ],
)
def test_what_records_say_of_each_other_is_checked_in_the_question(
    fields: dict[str, object], said: str
) -> None:
    with pytest.raises(BadField) as raised:
        week(**fields)
    assert said in str(raised.value)


def test_limits_of_nothing_and_a_share_of_nothing_are_limits_all_the_same() -> None:
    none = HouseRules(containers=0, freezer_places=0, budget_cents=0, meal_out_cents=0)
    assert none != HouseRules()
    assert Additions(carried_share=Fraction(0)) != Additions()
    assert PackageOffer("a", "rice", "corner", 1, 0, 0).most == 0


def test_records_and_the_needs_in_them_cannot_be_changed() -> None:
    needs = {"rice": Fraction(PORTION)}
    version = Version("plain", needs)
    needs["rice"] = Fraction(1)
    assert version.needs["rice"] == PORTION
    with pytest.raises(TypeError):
        version.needs["rice"] = Fraction(1)  # type: ignore[index]
    with pytest.raises(FrozenInstanceError):
        version.name = "rich"  # type: ignore[misc]


def test_foods_and_dishes_are_found_by_name_and_eaters_in_the_order_they_appear() -> None:
    question = week(slots=(*slots(2, eater="Ben"), *slots(1, 2), *slots(1, eater="Ben")))
    assert question.food("rice") is RICE
    assert question.dish("stew").name == "stew"
    assert question.eaters == ("Ben", "Ada")
    assert week(slots=()).eaters == ()


def test_a_question_and_a_plan_come_back_from_a_pickle_as_they_were() -> None:
    assert pickle.loads(pickle.dumps((WEEK, PLAN))) == (WEEK, PLAN)
    again = pickle.loads(pickle.dumps(WEEK))
    assert again.food("eggs") == WEEK.food("eggs")
    with pytest.raises(TypeError):
        again.dishes[0].versions[0].needs["rice"] = 1


def test_a_question_and_a_plan_come_back_from_json_as_they_were() -> None:
    question = replace(WEEK, additions=replace(WEEK.additions, minute_cents=Fraction(7, 3)))
    assert record_json.from_json(record_json.to_json(question), type(question)) == question
    assert record_json.from_json(record_json.to_json(PLAN), type(PLAN)) == PLAN


def test_a_dish_suits_the_meals_it_names_or_all() -> None:
    assert stew().suits("tea")
    lunch = stew(meals=frozenset({"lunch"}))
    assert (lunch.suits("lunch"), lunch.suits("tea")) == (True, False)
    assert not stew(meals=frozenset()).suits("tea")


def test_what_is_carried_and_in_reserve_counts_against_the_cost() -> None:
    ones = Costs(*map(Fraction, (1, 2, 4, 8, 16, 32, 64, 128, 256)))
    assert ones.total == 1 + 2 + 4 + 8 - 16 + 32 + 64 + 128 - 256


def test_the_gap_is_what_the_plan_may_cost_too_much_and_never_below_nothing() -> None:
    answer = Answer(Status.GOOD, PLAN, Costs(tills=Fraction(90)), 60.0, 1.0, "none needed")
    assert answer.gap_cents == 30
    assert replace(answer, bound=90.5).gap_cents == 0
    assert replace(answer, bound=None).gap_cents is None
    assert replace(answer, costs=None).gap_cents is None
