"""Questions at the edge: nothing is asked, no time is left to look, and what a runner-up may claim."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest
from tests.unit.decide.weeks import PORTION, RICE, rules, slots, stew, week

from ladleworth.decide import (
    Answer,
    Batch,
    Costs,
    Plan,
    Question,
    Rule,
    Status,
    StockLot,
    clash,
    decide,
    existing,
    reasons,
    runner_up,
)


@pytest.mark.parametrize("spoilt", [(), (StockLot("old rice", "rice", PORTION, 70, 1),)])
def test_where_nothing_is_asked_the_plan_is_empty_and_proven(spoilt: tuple[StockLot, ...]) -> None:
    nothing = Question(days=1, slots=(), sessions=(), dishes=(), foods=(RICE,), lots=spoilt)
    answer = decide(nothing)
    assert answer.status is Status.PROVEN
    assert answer.plan == Plan((), (), (), ())
    assert answer.costs is not None
    assert answer.costs.total == answer.bound == sum(lot.cents for lot in spoilt)


def test_no_way_out_is_sought_for_longer_than_there_is_time(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = 0

    def slow(question: Question, seconds: float = 20.0, seed: int = 0, **more: object) -> Answer:
        nonlocal asked
        asked += 1
        time.sleep(min(seconds, 0.2))
        return Answer(Status.OUT_OF_TIME, None, None, None, seconds, "none")

    monkeypatch.setattr(existing, "decide", slow)
    many = week(days=40, slots=slots(*range(1, 41)), rules=rules(most_times=1, meal_out_cents=None))
    began = time.monotonic()
    found = clash(many, 2.0)
    assert time.monotonic() - began < 5
    assert asked < 20
    assert Rule.MOST_TIMES not in {way.rule for way in found.ways_out}


def _answers(monkeypatch: pytest.MonkeyPatch, by_dish: dict[str, Answer]) -> None:
    def left_out(
        question: Question, seconds: float = 20.0, seed: int = 0, *, start: Plan | None = None
    ) -> Answer:
        (gone,) = set(by_dish) - {dish.name for dish in question.dishes}
        return by_dish[gone]

    monkeypatch.setattr(reasons, "decide", left_out)


TWO = week(dishes=(stew(name="stew"), stew(name="bake")))
BOTH = Plan((Batch(1, "bake", "plain", 1), Batch(1, "stew", "plain", 1)), (), (), ())
NONE_FOUND = Answer(Status.OUT_OF_TIME, None, None, None, 1.0, "a solver")
NO_PLAN = Answer(Status.INFEASIBLE, None, None, None, 1.0, "a solver")


def _worth(cents: int, status: Status, bound: float | None) -> Answer:
    return Answer(status, BOTH, Costs(tills=Fraction(cents)), bound, 1.0, "a solver")


def test_a_runner_up_is_proven_only_if_no_other_dish_left_out_could_cost_less(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    best, worse = _worth(500, Status.PROVEN, 500.0), _worth(520, Status.GOOD, 480.0)
    _answers(monkeypatch, {"bake": best, "stew": worse})
    second = runner_up(TWO, BOTH)
    assert second.costs == best.costs
    assert (second.status, second.bound) == (Status.GOOD, 480.0)
    _answers(monkeypatch, {"bake": best, "stew": _worth(520, Status.GOOD, 510.0)})
    assert runner_up(TWO, BOTH) == best
    _answers(monkeypatch, {"bake": best, "stew": NONE_FOUND})
    assert (runner_up(TWO, BOTH).status, runner_up(TWO, BOTH).bound) == (Status.GOOD, None)
    _answers(monkeypatch, {"bake": best, "stew": NO_PLAN})
    assert runner_up(TWO, BOTH) == best
