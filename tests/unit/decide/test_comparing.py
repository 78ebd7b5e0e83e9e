"""Several decisions compared: what is exact where both are proven, and between which bounds it lies otherwise."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.decide.weeks import CORNER, PORTION, pack, rules, slots, stew, week

from ladleworth.decide import (
    Answer,
    Costs,
    Foodstuff,
    MustBuy,
    MustCook,
    MustNotCook,
    Plan,
    Question,
    ShopVisit,
    Status,
    decide,
)
from ladleworth.decide.comparing import (
    Asking,
    Between,
    difference,
    ladder,
    near_equal,
    raised_to,
    second_shop,
    wishes_in_the_way,
    without_shop,
)
from ladleworth.decide.forced import why_not
from ladleworth.errors import BadField

FAST = Asking(seconds=5)
NOTHING = Plan((), (), (), ())


def answer(value: int | None, bound: float | None, status: Status = Status.GOOD) -> Answer:
    costs = None if value is None else Costs(tills=Fraction(value))
    return Answer(status, None if value is None else NOTHING, costs, bound, 0.0, "by hand")


def three_dishes(**fields: object) -> Question:
    """A supper of rice for 10, of beans for 14 or of corn for 25 cents."""
    foods = tuple(Foodstuff(name) for name in ("rice", "beans", "corn"))
    usual: dict[str, object] = {
        "foods": foods,
        "dishes": tuple(stew({f.name: PORTION}, name=f"{f.name} stew") for f in foods),
        "offers": (pack(10), pack(14, "beans"), pack(25, "corn")),
    }
    return week(**(usual | fields))


# --- how much two answers differ --------------------------------------------------------------------------


def test_two_proven_answers_differ_by_one_figure() -> None:
    found = difference(answer(30, 30.0, Status.PROVEN), answer(10, 10.0, Status.PROVEN))
    assert (found, found.proven) == (Between(20.0, 20.0), True)


def test_unproven_answers_differ_by_no_less_than_bound_less_plan_and_no_more_than_plan_less_bound() -> None:
    found = difference(answer(30, 22.0), answer(10, 7.0))
    assert (found, found.proven) == (Between(12.0, 23.0), False)


def test_what_is_not_known_of_either_is_not_known_of_the_difference() -> None:
    assert difference(answer(30, None), answer(10, 7.0)) == Between(None, 23.0)
    assert difference(answer(None, 22.0, Status.OUT_OF_TIME), answer(10, 7.0)) == Between(12.0, None)
    assert not Between(None, None).proven


def test_a_bound_known_otherwise_proves_a_plan_that_reaches_it_and_never_rises_above_it() -> None:
    assert raised_to(answer(10, 4.0), 10.0).status is Status.PROVEN
    assert raised_to(answer(10, 4.0), 12.0).bound == 10.0
    assert raised_to(answer(10, 4.0), 6.0) == answer(10, 6.0)
    assert raised_to(answer(10, 4.0), 3.0) == answer(10, 4.0)
    assert raised_to(answer(10, 0.0), -3.0) == answer(10, 0.0)
    impossible = answer(None, None, Status.INFEASIBLE)
    assert raised_to(impossible, 5.0) == impossible


# --- why not this dish ------------------------------------------------------------------------------------


def test_a_dish_forced_in_costs_what_it_costs_more() -> None:
    question = three_dishes()
    best = decide(question, 5)
    forced = why_not(question, best, "corn stew", FAST)
    assert forced.plan is not None
    assert {batch.dish for batch in forced.plan.batches} == {"corn stew"}
    assert difference(forced, best) == Between(15.0, 15.0)


def test_a_dish_that_the_plan_cooks_needs_no_second_decision() -> None:
    question = three_dishes()
    best = decide(question, 5)
    assert why_not(question, best, "rice stew", FAST) is best


def test_a_dish_that_no_plan_can_cook_is_impossible() -> None:
    question = three_dishes(rules=rules(budget_cents=20))
    assert why_not(question, decide(question, 5), "corn stew", FAST).status is Status.INFEASIBLE


def test_a_plan_with_a_dish_forced_in_has_the_bound_of_the_question_at_the_least() -> None:
    question = three_dishes()
    best = decide(question, 5)
    cut_short = why_not(question, best, "beans stew", replace(FAST, stop=lambda: True))
    assert cut_short.bound is None or cut_short.bound >= 10.0 - 1e-6


# --- budgets ------------------------------------------------------------------------------------------------


def test_more_money_never_makes_the_week_dearer() -> None:
    question = three_dishes(slots=slots(1, 2, 3), rules=rules(in_a_row=1))
    rungs = ladder(question, [60, 5, 24, 24], FAST)
    assert [rung.budget_cents for rung in rungs] == [5, 24, 60]
    values = [rung.answer.costs.total for rung in rungs if rung.answer.costs is not None]
    assert values == sorted(values, reverse=True)
    assert [rung.answer.status for rung in rungs] == [Status.PROVEN] * 3
    # 5 cents buy nothing: three meals out; 24 buy rice for days 1 and 3; 60 rice, beans and rice
    assert values == [900, 10 + 10 + 300, 10 + 14 + 10]


def test_a_budget_too_small_for_any_plan_is_impossible_and_so_is_a_smaller_one() -> None:
    question = three_dishes(rules=rules(meal_out_cents=None))
    assert [rung.answer.status for rung in ladder(question, [5, 9, 10], FAST)] == [
        Status.INFEASIBLE,
        Status.INFEASIBLE,
        Status.PROVEN,
    ]


def test_a_better_plan_of_a_smaller_budget_is_taken_and_a_larger_budgets_bound_is_one_of_a_smaller(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    given = iter([answer(30, 5.0), answer(40, 28.0), answer(20, 12.0)])
    monkeypatch.setattr("ladleworth.decide.comparing.decide", lambda *_, **__: next(given))
    low, middle, high = ladder(three_dishes(), [10, 20, 30], FAST)
    assert (low.answer.costs, low.answer.bound) == (Costs(tills=Fraction(30)), 28.0)
    assert (middle.answer.costs, middle.answer.bound) == (Costs(tills=Fraction(30)), 28.0)
    assert (high.answer.costs, high.answer.bound) == (Costs(tills=Fraction(20)), 12.0)


# --- a second shop ----------------------------------------------------------------------------------------------


def two_shops(market_trip: int) -> Question:
    """Rice for 40 at the corner, for 10 at the market, which takes a trip."""
    market = ShopVisit("market", market_trip)
    cheap = pack(10, name="market rice", shop="market")
    return week(offers=(pack(40), cheap), shops=(CORNER, market))


@pytest.mark.parametrize(("trip", "saved"), [(5, 25.0), (29, 1.0), (30, 0.0), (50, 0.0)])
def test_a_shop_saves_what_is_cheaper_there_less_the_trip(trip: int, saved: float) -> None:
    question = two_shops(trip)
    worth = second_shop(question, "market", decide(question, 5), FAST)
    assert worth.saved == Between(saved, saved)


def test_a_shop_is_never_worth_less_than_nothing_as_nobody_has_to_go() -> None:
    question = two_shops(5)
    unproven = replace(decide(question, 5), status=Status.GOOD, bound=0.0)
    worth = second_shop(question, "market", unproven, FAST)
    assert worth.saved.least == 25.0
    assert worth.saved.most == 40.0
    dear = second_shop(two_shops(500), "market", answer(90, 20.0), FAST)
    assert (dear.with_shop.costs, dear.saved.least) == (Costs(tills=Fraction(40)), 0.0)


def test_without_a_shop_its_offers_and_the_wishes_to_buy_there_are_gone() -> None:
    question = replace(two_shops(5), wishes=(MustBuy(1, "market rice", 1), MustCook("stew")))
    rest = without_shop(question, "market")
    assert [offer.name for offer in rest.offers] == ["rice pack"]
    assert rest.wishes == (MustCook("stew"),)
    with pytest.raises(BadField, match="name one of corner, market"):
        without_shop(question, "the moon")


# --- plans that differ in dishes ----------------------------------------------------------------------------


def test_the_next_plans_leave_out_a_dish_of_every_plan_before_the_cheapest_first() -> None:
    question = three_dishes()
    found = near_equal(question, decide(question, 5), 3, FAST)
    cooked = [{b.dish for b in one.answer.plan.batches} for one in found if one.answer.plan is not None]
    assert cooked == [{"beans stew"}, {"corn stew"}, set()]
    assert [one.dearer_cents for one in found] == [4.0, 15.0, 290.0]
    assert all(one.next_best for one in found)


def test_fewer_plans_are_found_where_there_are_no_more() -> None:
    question = three_dishes(rules=rules(meal_out_cents=None))
    assert len(near_equal(question, decide(question, 5), 9, FAST)) == 2


def test_a_plan_that_only_adds_dishes_to_one_shown_is_not_another() -> None:
    # two suppers, not the same twice: rice and beans; then beans and corn or rice and corn, never three dishes
    question = three_dishes(slots=slots(1, 2), rules=rules(most_times=1, meal_out_cents=None))
    best = decide(question, 5)
    assert best.plan is not None
    found = near_equal(question, best, 5, FAST)
    sets = [{b.dish for b in plan.batches} for plan in (best.plan, *(o.answer.plan for o in found)) if plan]
    assert sets == [{"rice stew", "beans stew"}, {"rice stew", "corn stew"}, {"beans stew", "corn stew"}]
    assert not any(one <= other for at, one in enumerate(sets) for other in sets[at + 1 :])


def test_near_equal_plans_of_an_unfinished_search_are_not_called_the_next_best(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    question = three_dishes()
    best = decide(question, 5)

    def unproven(asked: Question, *given: object, **more: object) -> Answer:
        found = decide(asked, 5)
        return replace(found, status=Status.GOOD, bound=0.0) if found.costs is not None else found

    monkeypatch.setattr("ladleworth.decide.comparing.decide", unproven)
    assert [one.next_best for one in near_equal(question, best, 2, FAST)] == [False, False]


# --- wishes in the way ---------------------------------------------------------------------------------------


def test_the_wish_without_which_there_is_a_plan_is_named() -> None:
    wishes = (MustCook("rice stew"), MustNotCook("rice stew"), MustNotCook("corn stew"))
    question = three_dishes(wishes=wishes)
    assert decide(question, 5).status is Status.INFEASIBLE
    assert wishes_in_the_way(question, FAST) == wishes[:2]


def test_wishes_are_not_in_the_way_where_there_is_no_plan_without_them_either() -> None:
    question = three_dishes(rules=rules(meal_out_cents=None, budget_cents=1), wishes=(MustCook("rice stew"),))
    assert wishes_in_the_way(question, FAST) is None
    assert wishes_in_the_way(replace(question, wishes=()), FAST) is None
