"""The judge lets a week in good order stand and refuses it with every single breach planted in it."""

from __future__ import annotations

import ast
import importlib
import inspect
import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from tests.model.full_week import FULL_PLAN, FULL_WEEK
from tests.model.planted_food import PLANTED_FOOD
from tests.model.planted_further import FURTHER_PLANTED
from tests.model.planted_table import PLANTED_TABLE, added, with_rules
from tests.model.planted_week import PLAN, WEEK, Planted

from ladleworth.decide.answer import Batch, Drawing, Helping, Plan, Purchase
from ladleworth.decide.judge import Breach, judge, portions_held
from ladleworth.decide.question import CookSession, DishChoice, HouseRules, MealSlot, Question, Version
from ladleworth.errors import BadField


def test_the_week_in_good_order_stands() -> None:
    assert judge(WEEK, PLAN).breaches == ()
    assert judge(WEEK, PLAN).stands


def test_the_week_with_all_that_a_household_may_add_stands() -> None:
    assert judge(FULL_WEEK, FULL_PLAN).breaches == ()


def test_the_costs_of_that_week_are_those_worked_out_by_hand() -> None:
    costs = judge(FULL_WEEK, FULL_PLAN).costs
    # beans 40 and meat 300, on one visit
    assert costs.tills == 340
    assert costs.trips == 20
    # The old beans and the curry are used up; the meat's last day is day 2, so its rest is worth nothing.
    assert costs.spoilt == 0
    assert costs.meals_out == 350
    # Half of: one of two soups (100), and 60 g of 100 g of beans (40).
    assert costs.carried == Fraction(50 + 24, 2)
    # Ada has the stew twice in days 1 to 2 and once in days 3 to 4.
    assert costs.repeats == 10
    # 6 for the dish, and 5 + 2 x 4 for each version, at 2
    assert costs.minutes == 2 * (6 + 13 + 13)
    assert costs.liking == costs.reserve == 0
    assert costs.sessions == 30
    assert costs.total == 340 + 20 + 350 - 37 + 10 + 64 + 30


@pytest.mark.parametrize(("night", "held", "frozen"), [(1, 5, 3), (2, 3, 2), (3, 2, 1), (4, 1, 1)])
def test_portions_on_hand_fill_containers_until_they_are_eaten(night: int, held: int, frozen: int) -> None:
    # Night 1: two stews, one of them frozen, two frozen soups and the curry for day 2. Night 2: the soup of day
    # 3 thaws. Night 3: the stew of day 4 thaws. Night 4: the other soup stays.
    assert portions_held(FULL_WEEK, FULL_PLAN, night) == (held, frozen)


def test_portions_on_hand_that_nobody_eats_are_thrown_out_on_their_last_evening_and_count_as_spoilt() -> None:
    out = tuple(Helping(2, "Ben", "supper") if h.lot == "old curry" else h for h in FULL_PLAN.helpings)
    question, plan = replace(FULL_WEEK, wishes=()), replace(FULL_PLAN, helpings=out)
    verdict = judge(question, plan)
    assert verdict.costs.spoilt == 50
    assert verdict.costs.meals_out == 700
    # On night 1 the curry is there still; on night 2 it is gone.
    assert portions_held(question, plan, 1) == (5, 3)
    assert portions_held(question, plan, 2) == (3, 2)


def test_a_half_portion_fills_half_a_container_rounded_up_and_a_remnant_of_a_batch_nothing() -> None:
    # Ben's half portion of 401 ml takes 201 ml on night 1; the other half of that portion is shared out.
    stew, *others = FULL_WEEK.dishes
    beans, meat = stew.versions
    odd = replace(stew, versions=(replace(beans, volume_ml=401), meat))
    question = replace(
        FULL_WEEK,
        dishes=(odd, *others),
        portions=(),
        wishes=(),
        slots=(MealSlot(1, "Ada", "supper"), MealSlot(2, "Ben", "supper")),
        rules=HouseRules(fridge_ml=201),
    )
    plan = Plan(
        (Batch(1, "stew", "with beans", 2),),
        (Helping(1, "Ada", "supper", "stew", 1), Helping(2, "Ben", "supper", "stew", 1)),
        (Purchase(1, "beans tin", 1),),
        (Drawing(1, "stew", "old beans", None, 120_000), Drawing(1, "stew", "beans tin", 1, 40_000)),
    )
    assert portions_held(question, plan, 1) == (1, 0)
    assert judge(question, plan).breaches == ()
    tight = replace(question, rules=HouseRules(fridge_ml=200))
    assert [str(b) for b in judge(tight, plan).breaches] == [
        "[room] night 1: 201 ml of portions for 200 ml of fridge"
    ]


def test_the_costs_are_those_worked_out_by_hand() -> None:
    costs = judge(WEEK, PLAN).costs
    # beans 80, rice 150, eggs 180 twice, greens 100
    assert costs.tills == 690
    # corner 25 and market 60, on both days
    assert costs.trips == 170
    # 60 g of the 260 g of old greens (65), and all of the wilted (20)
    assert costs.spoilt == 15 + 20
    assert costs.meals_out == 350
    # 450 g of the 500 g of rice (150), and 4 of the 6 eggs of day 4 (180), which keep to day 8. The greens
    # of day 4 keep to day 6, the last of the days: what is left of them is worth nothing.
    assert costs.carried == 135 + 120
    # Ada has bake and stew three times each, Ben the bake twice: 2 + 2 + 1 repeats at 10
    assert costs.repeats == 50
    # 10 + 3 x 5, 15 + 4 x 3 and 15 + 4 x 2 minutes at 2
    assert costs.minutes == 2 * (25 + 27 + 23)
    # five portions of the stew at -2.5
    assert costs.liking == Fraction(-25, 2)
    # one portion of stew
    assert costs.reserve == 90
    assert costs.total == Fraction("1087.5")


@pytest.mark.parametrize(
    ("night", "held", "frozen"), [(1, 6, 2), (2, 4, 2), (3, 2, 2), (4, 3, 1), (5, 1, 1), (6, 1, 1)]
)
def test_containers_and_freezer_places_are_counted_night_by_night(night: int, held: int, frozen: int) -> None:
    # Night 1: one bake (for lunch on day 2) and five stews. Night 4: the stew of day 5 has been taken out of
    # the freezer, the reserve stays; one bake waits for Ben.
    assert portions_held(WEEK, PLAN, night) == (held, frozen)


PLANTED = (*PLANTED_TABLE, *PLANTED_FOOD, *FURTHER_PLANTED)


@pytest.mark.parametrize("case", PLANTED, ids=lambda case: case.what)
def test_a_planted_breach_is_refused_in_the_name_of_its_rule(case: Planted) -> None:
    verdict = judge(case.question, case.plan)
    assert not verdict.stands
    assert {breach.rule for breach in verdict.breaches} == case.rules
    assert any(case.phrase in str(breach) for breach in verdict.breaches), verdict.breaches


JUDGES = ("judge", "judge_food", "judge_kitchen", "judge_meals")
"""The modules of the judge that find breaches."""


def test_every_place_where_the_judge_finds_a_breach_is_reached_by_a_planted_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    reached: set[tuple[str, int]] = set()
    places: set[tuple[str, int]] = set()

    def noting(rule: str, what: str) -> Breach:
        caller = sys._getframe(1)
        reached.add((str(caller.f_globals["__name__"]), caller.f_lineno))
        return Breach(rule, what)

    for name in JUDGES:
        module = importlib.import_module(f"ladleworth.decide.{name}")
        places |= {
            (module.__name__, node.lineno)
            for node in ast.walk(ast.parse(inspect.getsource(module)))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Breach"
        }
        monkeypatch.setattr(module, "Breach", noting)
    for case in PLANTED:
        judge(case.question, case.plan)
    assert len(places) >= 45
    assert reached == places


def test_no_other_module_finds_breaches() -> None:
    folder = Path(inspect.getfile(importlib.import_module("ladleworth.decide"))).parent
    finding = {path.stem for path in folder.glob("*.py") if " Breach(" in path.read_text(encoding="utf-8")}
    assert finding == set(JUDGES)


@pytest.mark.parametrize(("most_times", "broken"), [(2, set()), (1, {"sameness"})])
def test_two_meals_of_one_day_are_two_helpings_of_a_dish(most_times: int, broken: set[str]) -> None:
    question = Question(
        days=1,
        slots=(MealSlot(1, "Ada", "lunch"), MealSlot(1, "Ada", "supper")),
        sessions=(CookSession(1, 0),),
        dishes=(DishChoice("toast", (Version("plain", {}),)),),
        foods=(),
        rules=HouseRules(most_times=most_times, in_a_row=1),
    )
    toast = tuple(Helping(1, "Ada", meal, "toast", 1) for meal in ("lunch", "supper"))
    verdict = judge(question, Plan((Batch(1, "toast", "plain", 2),), toast, (), ()))
    assert {breach.rule for breach in verdict.breaches} == broken


def test_a_meal_out_cannot_pass_for_a_portion_that_empties_a_container() -> None:
    # Six portions wait on night 1. A meal out on day 1 that names a cooking day must not make them five.
    question = replace(with_rules(containers=5), slots=(*WEEK.slots, MealSlot(1, "Ben", "lunch")))
    honest = added("helpings", Helping(1, "Ben", "lunch"))
    assert {breach.rule for breach in judge(question, honest).breaches} == {"containers"}
    with pytest.raises(BadField):
        Helping(1, "Ben", "lunch", dish=None, cooked_day=1)
    with pytest.raises(BadField):
        Helping(1, "Ben", "lunch", dish="stew", cooked_day=None)
