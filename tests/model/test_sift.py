"""Corners of small weeks against trying everything: none loses a plan, and no bound lies above one."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache

import pytest
from tests.model.brute_force import all_plans
from tests.model.small_kitchens import KITCHENS, small_kitchen
from tests.unit.decide.weeks import pack, slots, stew, week

from ladleworth.decide import (
    Foodstuff,
    MustCook,
    MustNotCook,
    MustServe,
    Plan,
    Question,
    ShopVisit,
    judge,
    sift,
)
from ladleworth.decide.model import Ending, Relaxation
from ladleworth.decide.programme import Counts
from ladleworth.decide.settling import settle
from ladleworth.decide.sift import (
    MARGIN_CENTS,
    Corner,
    Limit,
    Sifting,
    all_visits,
    promised_dishes,
    settle_visits,
    with_dishes,
)

COUNTED = Limit(counted=True)
CLOSE = 1e-6

SEEDS = tuple(
    seed
    for seed in range(0, KITCHENS, 4)
    if len(all_visits(small_kitchen(seed))) >= 2 and len(small_kitchen(seed).dishes) >= 2
)
"""Small weeks in which there are visits and dishes to choose from."""


@cache
def plans_of(seed: int) -> tuple[tuple[Fraction, Plan], ...]:
    """The cheapest plan of every set of batches."""
    return tuple(all_plans(small_kitchen(seed)))


def holds(question: Question, corner: Corner, plan: Plan) -> bool:
    """Say whether a plan is one of a corner's; what lies there only to be paid for makes no difference."""
    shop = {o.name: o.shop for o in question.offers}
    made = {(shop[p.offer], p.day) for p in plan.purchases}
    cooked = {b.dish for b in plan.batches}
    return (
        corner.made <= made
        and not corner.unmade & made
        and corner.cooked <= cooked
        and not corner.left_out & cooked
        and not corner.gone & {(b.dish, b.version, b.day, b.portions) for b in plan.batches}
    )


def nothing_is_lost(question: Question, corners: Iterable[Corner], best: float, seed: int) -> None:
    """Every plan that is better than the best one known is in a corner whose bound is below it."""
    corners = tuple(corners)
    for total, plan in plans_of(seed):
        if float(total) < best - CLOSE:
            bounds = [corner.bound for corner in corners if holds(question, corner, plan)]
            assert bounds, (seed, float(total), best)
            assert min(bounds) <= float(total) + CLOSE, seed


def bests(seed: int) -> tuple[float, ...]:
    """What the best plan known may cost: nothing is known, a plan just above the optimum, and one well above."""
    plans = plans_of(seed)
    if not plans:
        return (math.inf,)
    return (math.inf, float(plans[0][0]) + 0.5, float(plans[len(plans) // 2][0]) + 0.5)


@pytest.mark.parametrize("seed", SEEDS[::2])
def test_settled_visits_are_every_visit_and_lose_no_plan(seed: int) -> None:
    question = small_kitchen(seed)
    visits = frozenset(all_visits(question))
    for best in bests(seed):
        corners = settle_visits(question, Corner(), best, COUNTED, 10**6)
        for corner in corners:
            assert corner.made | corner.unmade == visits
            assert not corner.made & corner.unmade
            assert corner.bound < best + MARGIN_CENTS
        assert len({corner.made for corner in corners}) == len(corners)
        nothing_is_lost(question, corners, best, seed)


@pytest.mark.parametrize("seed", SEEDS[1::4])
@pytest.mark.parametrize("steps", [0, 1, 3])
def test_visits_settled_for_some_steps_alone_lose_no_plan_either(seed: int, steps: int) -> None:
    question = small_kitchen(seed)
    for best in bests(seed):
        nothing_is_lost(question, settle_visits(question, Corner(), best, COUNTED, steps), best, seed)


@pytest.mark.parametrize("seed", SEEDS[::8])
def test_without_any_time_left_no_plan_is_lost_either(seed: int) -> None:
    corners = settle_visits(small_kitchen(seed), Corner(), math.inf, Limit(until=0.0), 10)
    assert len(corners) <= 2  # one step at the most
    nothing_is_lost(small_kitchen(seed), corners, math.inf, seed)


@dataclass
class Found:
    """What is told of on the way: the best judged plan."""

    question: Question
    cents: float = math.inf
    totals: list[float] = field(default_factory=list)

    def tell(self, counts: Counts) -> bool:
        plan = settle(self.question, counts)
        verdict = judge(self.question, plan)
        assert verdict.breaches == ()
        self.totals.append(float(verdict.costs.total))
        self.cents = min(self.cents, self.totals[-1])
        return True


@pytest.mark.parametrize("solved", [1, 12])
@pytest.mark.parametrize("seed", SEEDS[::3])
def test_working_through_the_corners_comes_to_the_best_plan_and_loses_none_on_the_way(
    seed: int, solved: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    # With one dish at the most for the solver nearly all is split; the best plan known at first is well above.
    monkeypatch.setattr(sift, "SOLVED_DISHES", solved)
    question = small_kitchen(seed)
    best = bests(seed)[-1]
    corners = settle_visits(question, Corner(), best, COUNTED, 10**6)
    steps = 0
    while corners and steps < 300:
        corners.sort(key=lambda one: one.bound)
        corner = corners.pop(0)
        if corner.bound >= best + MARGIN_CENTS:
            continue
        found = Found(question)
        parts = Sifting(question, best, COUNTED, tell=found.tell).sift(corner)
        best = min(best, found.cents)
        if len(parts) == 1:  # nothing to split it on: it is left to the solver
            with monkeypatch.context() as patch:
                patch.setattr(sift, "SOLVED_DISHES", 99)
                parts = Sifting(question, best, COUNTED, tell=found.tell).sift(parts[0])
            best = min(best, found.cents)
        for part in parts:
            assert part.bound >= corner.bound - CLOSE
        corners += parts
        nothing_is_lost(question, corners, best, seed)
        steps += 1
    plans = plans_of(seed)
    assert not corners
    if plans:
        assert best == pytest.approx(float(plans[0][0]), abs=1e-4)
    else:
        assert best == math.inf


@pytest.mark.parametrize("seed", SEEDS[1::3])
def test_what_a_thinned_corner_says_of_dishes_and_batches_is_true(seed: int) -> None:
    question = small_kitchen(seed)
    for best in bests(seed):
        for corner in settle_visits(question, Corner(), best, COUNTED, 10**6):
            sifting = Sifting(question, best, COUNTED)
            model = sifting.model_of(corner)
            relaxed = Relaxation(model.sheet)
            if relaxed.solve(best + MARGIN_CENTS) is Ending.ABOVE:
                assert not any(
                    holds(question, corner, plan) for total, plan in plans_of(seed) if float(total) < best
                )
                continue
            thinned = sifting.thin(corner, model, relaxed)
            assert thinned.bound >= corner.bound
            assert thinned.cooked >= corner.cooked
            for total, plan in plans_of(seed):
                if float(total) < best - CLOSE and holds(question, corner, plan):
                    assert holds(question, thinned, plan), (seed, float(total))
                    assert thinned.bound <= float(total) + CLOSE


def test_something_is_sifted_out_of_the_small_weeks() -> None:
    # It would be no use to check claims that are never made.
    gone = left_out = cooked = 0
    for seed in SEEDS[1::3]:
        question = small_kitchen(seed)
        best = bests(seed)[min(1, len(bests(seed)) - 1)]
        for corner in settle_visits(question, Corner(), best, COUNTED, 10**6):
            sifting = Sifting(question, best, COUNTED)
            model = sifting.model_of(corner)
            thinned = sifting.thin(corner, model, Relaxation(model.sheet))
            gone += len(thinned.gone)
            left_out += len(thinned.left_out)
            cooked += len(thinned.cooked)
    assert min(gone, left_out, cooked) >= 5


# -- corners on paper -----------------------------------------------------------------------------------

TWO = week(
    slots=slots(1, 2),
    dishes=(stew(), stew({"beans": 100_000}, name="bake")),
    foods=(Foodstuff("rice"), Foodstuff("beans")),
    offers=(pack(10), replace(pack(25, "beans"), shop="market")),
    shops=(ShopVisit("corner", 3), ShopVisit("market", 5)),
)


def best_in(corner: Corner, question: Question = TWO) -> float:
    found = Found(question)
    assert Sifting(question, math.inf, COUNTED, tell=found.tell).sift(corner) == []
    return found.cents


def test_a_corner_keeps_what_it_says() -> None:
    here, there = ("corner", 1), ("market", 1)
    assert best_in(Corner()) == 3 + 20
    assert best_in(Corner(unmade=frozenset({here}))) == 5 + 50
    assert best_in(Corner(cooked=frozenset({"bake"}))) == 3 + 10 + 5 + 25
    assert best_in(Corner(left_out=frozenset({"stew"}))) == 5 + 50
    assert best_in(Corner(gone=frozenset({("stew", "plain", 1, 2)}))) == 3 + 10 + 5 + 25
    assert best_in(Corner(unmade=frozenset({here, there}))) == 600
    assert best_in(Corner(cooked=frozenset({"stew"}), left_out=frozenset({"stew"}))) == math.inf


def test_a_corner_without_anything_to_split_on_goes_to_the_solver(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sift, "SOLVED_DISHES", 1)
    both = Corner(cooked=frozenset({"stew", "bake"}))
    found = Found(TWO)
    assert Sifting(TWO, math.inf, COUNTED, tell=found.tell).sift(both) == []
    assert found.cents == 3 + 10 + 5 + 25


def test_a_visit_that_has_to_be_made_is_paid_in_the_bound() -> None:
    # The solver is told of it; a plan that buys nothing there would not pay it, so the trip is worth nothing to it.
    (corner,) = settle_visits(
        TWO, Corner(made=frozenset({("corner", 1), ("market", 1)})), math.inf, COUNTED, 10
    )
    assert corner.bound == pytest.approx(3 + 20 + 5)


def test_a_dish_that_a_wish_asks_for_stays_in_the_question() -> None:
    wished = replace(TWO, wishes=(MustServe(1, "Ada", "supper", "bake"), MustNotCook("stew", 1)))
    assert promised_dishes(wished) == {"bake"}
    kept = with_dishes(wished, set())
    assert [dish.name for dish in kept.dishes] == ["bake"]
    assert kept.wishes == wished.wishes[:1]
    both = with_dishes(replace(TWO, wishes=(MustCook("bake"),)), {"stew"})
    assert {dish.name for dish in both.dishes} == {"stew", "bake"}
