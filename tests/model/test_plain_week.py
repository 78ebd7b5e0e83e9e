"""The plain programme that `decide` is measured against is the same question: it comes to the same optimum."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache

import highspy
import pytest
from bench.plain_plan import draw_cheapest
from bench.plain_solvers import Outcome, solve_plainly
from bench.plain_week import NotWrittenDown, write_down
from tests.model.brute_force import best
from tests.model.small_kitchens import small_kitchen

from ladleworth.decide import (
    Batch,
    CookSession,
    DishChoice,
    Foodstuff,
    Helping,
    HouseRules,
    Load,
    MealSlot,
    MustCook,
    NutrientBound,
    PackageOffer,
    Plan,
    PortionLot,
    Purchase,
    Question,
    ShopVisit,
    StockLot,
    Version,
    judge,
)

SOLVERS = ("plain HiGHS", "plain CBC, unprocessed")
SEEDS = tuple(range(60))
CENTS = Fraction(1, 100)
"""A plan may be this much dearer than the best one: both solvers stop within 0.0001 cents by their own floats."""


@pytest.fixture(scope="module", autouse=True)
def threads() -> Iterator[None]:
    """HiGHS keeps the number of threads that it began with in a process: others begin with one."""
    highspy.Highs.resetGlobalScheduler(True)
    yield
    highspy.Highs.resetGlobalScheduler(True)


@cache
def solved(seed: int, solver: str) -> Outcome:
    return solve_plainly(small_kitchen(seed), solver, 60)


@pytest.mark.parametrize("solver", SOLVERS)
@pytest.mark.parametrize("seed", SEEDS)
def test_the_plain_programme_comes_to_what_trying_everything_comes_to(seed: int, solver: str) -> None:
    least, outcome = best(small_kitchen(seed)), solved(seed, solver)
    assert outcome.breaches == ()
    assert outcome.proven
    if least is None:
        assert outcome.infeasible
        return
    assert outcome.cents is not None
    assert outcome.bound is not None
    assert least <= outcome.cents <= least + CENTS
    assert float(outcome.cents) == pytest.approx(outcome.bound, abs=0.01)


def test_the_small_weeks_tried_are_of_all_kinds() -> None:
    outcomes = [solved(seed, "plain HiGHS") for seed in SEEDS]
    plans = [outcome.plan for outcome in outcomes if outcome.plan is not None]
    assert sum(outcome.infeasible for outcome in outcomes) >= 3
    assert sum(bool(plan.purchases) for plan in plans) >= 10
    assert sum(any(h.frozen for h in plan.helpings) for plan in plans) >= 3
    assert sum(len({d.source for d in plan.drawings}) >= 2 for plan in plans) >= 8


def two_dishes(**rules: object) -> Question:
    """Two dishes of which the rice is free: soup brings 300 kcal and no figure for salt, pie 700 kcal and 2 g."""
    soup = Version("", {"rice": Fraction(50)}, liking_cents=Fraction(10), nutrients={"kcal": Fraction(300)})
    pie = Version(
        "",
        {"rice": Fraction(50)},
        liking_cents=Fraction(90),
        loads={"oven": Load(Fraction(30), Fraction(5))},
        nutrients={"kcal": Fraction(700), "salt": Fraction(2)},
    )
    return Question(
        2,
        tuple(MealSlot(day, eater) for day in (1, 2) for eater in ("Ada", "Ben")),
        (CookSession(1, 100, {"oven": 45}, cents=25),),
        (
            DishChoice("soup", (soup,), least=1, greatest=4),
            DishChoice("pie", (pie,), least=1, greatest=4, shared_min=Fraction(12)),
        ),
        (Foodstuff("rice"),),
        (StockLot("shelf", "rice", 1000, 0),),
        rules=HouseRules(meal_out_cents=500, **rules),  # type: ignore[arg-type]
    )


def least_of_all(question: Question) -> Fraction | None:
    """Judge every way to give the four slots soup, pie or a meal out."""
    found = []
    for choice in itertools.product(("soup", "pie", None), repeat=4):
        helpings = tuple(
            Helping(s.day, s.eater, s.meal, dish, dish and 1)  # type: ignore[arg-type]
            for s, dish in zip(question.slots, choice, strict=True)
        )
        batches = tuple(Batch(1, dish, "", choice.count(dish)) for dish in ("soup", "pie") if dish in choice)
        plan = Plan(batches, helpings, (), draw_cheapest(question, batches, ()))
        verdict = judge(question, plan)
        if verdict.stands:
            found.append(verdict.costs.total)
    return min(found, default=None)


@pytest.mark.parametrize("solver", SOLVERS)
@pytest.mark.parametrize(
    ("bounds", "cents"),
    [
        ((), 65),
        ((NutrientBound("Ada", "kcal", least=Fraction(500)),), 145),
        ((NutrientBound("Ada", "kcal", least=Fraction(501)),), 225),
        (
            (
                NutrientBound("Ada", "kcal", least=Fraction(400)),
                NutrientBound("Ben", "kcal", least=Fraction(400), most=Fraction(600)),
            ),
            225,
        ),
        ((NutrientBound("Ben", "salt", most=Fraction(2)),), 225),
        ((NutrientBound("Ben", "salt", most=Fraction(1)),), 1045),
        (
            tuple(NutrientBound(eater, "kcal", least=Fraction(650)) for eater in ("Ada", "Ben")),
            795,
        ),
    ],
)
def test_nutrients_stations_and_a_priced_session_cost_what_every_plan_judged_says(
    bounds: tuple[NutrientBound, ...], cents: int, solver: str
) -> None:
    question = two_dishes(nutrient_bounds=bounds)
    assert least_of_all(question) == cents
    outcome = solve_plainly(question, solver, 60)
    assert outcome.breaches == ()
    assert outcome.proven
    assert outcome.cents == cents


def test_the_plain_programme_refuses_what_it_leaves_out() -> None:
    question = two_dishes()
    portions = PortionLot("box", "stew", 2, 100)
    for wider, words in (
        (replace(question, portions=(portions,)), "portions on hand"),
        (replace(question, appetites={"Ada": Fraction(3, 2)}), "appetites"),
        (replace(question, wishes=(MustCook("soup"),)), "wishes"),
        (replace(question, rules=HouseRules(fridge_ml=100)), "room by volume"),
    ):
        with pytest.raises(NotWrittenDown, match=f"does not know {words}"):
            write_down(wider)


def test_food_is_drawn_where_it_costs_least_even_if_it_has_to_change_places() -> None:
    """The half bottle is dearest to lose and first in line for day 1; the old one, only good that day, moves it on."""
    version = Version("", {"milk": Fraction(10)})
    question = Question(
        7,
        (MealSlot(7, "Ada"),),
        (CookSession(1, 60), CookSession(4, 60)),
        (DishChoice("porridge", (version,), greatest=8),),
        (Foodstuff("milk", keep_days=5),),
        (
            StockLot("half", "milk", 30, 300, 4),
            StockLot("old", "milk", 25, 200, 1),
        ),
        (PackageOffer("carton", "milk", "corner", 100, 90),),
        (ShopVisit("corner"),),
    )
    batches = (Batch(1, "porridge", "", 4), Batch(4, "porridge", "", 4))
    drawings = draw_cheapest(question, batches, (Purchase(1, "carton", 1),))
    drawn = {(d.source, d.day): d.quantity for d in drawings}
    assert sum(amount for (source, _), amount in drawn.items() if source == "half") == 30
    assert drawn["old", 1] == 25
    assert drawn["half", 4] >= 15
    assert sum(drawn.values()) == 80
    assert all(d.bought_day == (1 if d.source == "carton" else None) for d in drawings)
