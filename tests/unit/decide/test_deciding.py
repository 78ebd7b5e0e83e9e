from __future__ import annotations

import math
import time
from dataclasses import replace
from typing import Any

import pytest
from bench.kitchens import kitchen_like
from tests.model.small_kitchens import KITCHENS, small_kitchen
from tests.model.tried_out import tried_out
from tests.unit.decide.pieces import BEST, in_turn
from tests.unit.decide.weeks import sessions, stew, week

from ladleworth.decide import (
    Answer,
    Batch,
    Helping,
    HouseRules,
    Plan,
    Question,
    Status,
    decide,
    deciding,
    judge,
    work,
)
from ladleworth.decide.answer import Progress
from ladleworth.decide.model import Run, run
from ladleworth.errors import JudgeRefused, SolverFailed

QUESTION = week()


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


def test_a_larger_week_goes_through_the_search_to_the_proof() -> None:
    answer = decide(in_turn(), seconds=30)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert answer.costs.total == BEST


def test_a_larger_week_that_cannot_be_is_found_out() -> None:
    question = replace(in_turn(), rules=HouseRules(budget_cents=100), sessions=sessions(1, 4))
    assert decide(question, seconds=30).status is Status.INFEASIBLE


# -- in pieces ----------------------------------------------------------------------------------------


@pytest.fixture
def in_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    """No question is small, and no search is long."""
    monkeypatch.setattr(deciding, "SMALL_SIZES", 0)
    monkeypatch.setattr(work, "SEARCH_SECONDS", 0.05)


def agrees(seed: int, answer: Answer) -> None:
    """Say that an answer is what trying everything finds for a small week."""
    found = tried_out(seed)
    if found is None:
        assert answer.status is Status.INFEASIBLE, seed
        assert (answer.plan, answer.costs, answer.bound) == (None, None, None)
        return
    assert answer.status is Status.PROVEN, seed
    assert answer.plan is not None
    assert answer.costs is not None
    assert answer.bound is not None
    assert answer.costs.total == found[0], seed
    assert judge(small_kitchen(seed), answer.plan).breaches == ()
    assert answer.bound <= float(found[0]) + 1e-6, seed


@pytest.mark.usefixtures("in_pieces")
@pytest.mark.parametrize("seed", range(3, KITCHENS, 17))
def test_two_processes_agree_with_trying_everything(seed: int) -> None:
    agrees(seed, decide(small_kitchen(seed), seconds=40))


def test_some_of_those_small_weeks_cannot_be() -> None:
    impossible = [seed for seed in range(3, KITCHENS, 17) if tried_out(seed) is None]
    assert 3 <= len(impossible) <= 15


@pytest.mark.usefixtures("in_pieces")
@pytest.mark.parametrize("block", range(0, KITCHENS, 80))
def test_one_piece_after_another_agrees_with_trying_everything(block: int) -> None:
    weeks = {seed: small_kitchen(seed) for seed in range(block + 1, block + 80, 7)}
    for seed, question in weeks.items():
        agrees(seed, decide(question, work=400))


def plain(answer: Answer) -> Answer:
    return replace(answer, seconds=0.0)


LARGER = kitchen_like(2, dishes=6, days=5, meals=("lunch", "dinner"), staples=14, eaters=1)


@pytest.mark.parametrize("steps", [2, 7])
def test_the_same_work_and_seed_come_to_the_same_answer(steps: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(work, "SEARCH_SECONDS", 0.3)
    monkeypatch.setattr(work, "POLISH_PATIENCE", 0.2)
    once, again = (decide(LARGER, work=steps, seed=5) for _ in range(2))
    assert plain(once) == plain(again)
    assert once.seed == 5
    # It is the same question read anew, in the same process, that has to come to the same too.
    assert plain(decide(replace(LARGER), work=steps, seed=5)) == plain(once)


def test_more_work_is_no_worse(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(work, "SEARCH_SECONDS", 0.2)
    monkeypatch.setattr(work, "POLISH_PATIENCE", 0.1)
    answers = [decide(LARGER, work=steps) for steps in (2, 4, 7)]
    values = [math.inf if a.costs is None else float(a.costs.total) for a in answers]
    bounds = [-math.inf if a.bound is None else a.bound for a in answers]
    assert values == sorted(values, reverse=True)
    assert bounds == sorted(bounds)
    assert values[-1] < math.inf


@pytest.mark.parametrize("question", [QUESTION, in_turn(), LARGER], ids=["small", "in turn", "larger"])
def test_who_asks_to_stop_at_once_is_answered_at_once(question: Question) -> None:
    began = time.monotonic()
    answer = decide(question, seconds=60, stop=lambda: True)
    assert time.monotonic() - began < 3
    assert answer.status is Status.OUT_OF_TIME
    assert (answer.plan, answer.costs, answer.bound) == (None, None, None)


def test_who_asks_to_stop_later_has_the_best_plan_by_then() -> None:
    heard: list[Progress] = []
    answer = decide(
        LARGER, seconds=60, report=heard.append, stop=lambda: any(p.value is not None for p in heard)
    )
    assert answer.seconds < 30
    assert answer.plan is not None
    assert answer.costs is not None
    assert judge(LARGER, answer.plan).breaches == ()
    assert float(answer.costs.total) == min(p.value for p in heard if p.value is not None)


SMALL_AND_LONG = kitchen_like(2, dishes=5, staples=30)
"""Few enough sizes for the solver alone, which does not come to an end in half a minute."""


def test_the_solver_alone_stops_too_with_the_best_plan_by_then() -> None:
    began = time.monotonic()
    asked: list[float] = []

    def stop() -> bool:
        asked.append(time.monotonic() - began)
        return asked[-1] > 2.0

    assert deciding._Deciding(SMALL_AND_LONG, 60, 0, None, None, None).is_small()
    answer = decide(SMALL_AND_LONG, seconds=60, stop=stop)
    assert answer.seconds < 20
    assert len(asked) > 5
    assert answer.status is Status.GOOD
    assert answer.plan is not None
    assert answer.costs is not None
    assert answer.bound is not None
    assert judge(SMALL_AND_LONG, answer.plan).breaches == ()
    assert answer.bound < answer.costs.total


def test_who_stops_the_solver_alone_before_it_has_a_plan_keeps_the_one_to_begin_from() -> None:
    eaten_out = Plan((), tuple(Helping(s.day, s.eater, s.meal) for s in SMALL_AND_LONG.slots), (), ())
    asked = 0

    def once() -> bool:
        nonlocal asked
        asked += 1
        return asked > 1

    answer = decide(SMALL_AND_LONG, seconds=60, start=eaten_out, stop=once)
    assert answer.seconds < 10
    assert (answer.status, answer.plan) == (Status.GOOD, eaten_out)


OUT = Plan(
    (), tuple(Helping(day, eater, "supper") for eater in ("Ada", "Ben") for day in range(1, 7)), (), ()
)
"""Everybody eats out."""


def test_a_plan_to_begin_from_counts() -> None:
    answer = decide(in_turn(), seconds=60, start=OUT, stop=lambda: True)
    assert (answer.status, answer.plan, answer.bound) == (Status.GOOD, OUT, None)
    assert answer.costs is not None
    assert answer.costs.total == 12 * 300
    better = decide(in_turn(), seconds=30, start=OUT)
    assert better.costs is not None
    assert better.status is Status.PROVEN
    assert better.costs.total == BEST
    proven = decide(in_turn(), seconds=30, start=better.plan, stop=lambda: True)
    assert proven.plan == better.plan


@pytest.mark.parametrize(
    "broken",
    [
        replace(OUT, helpings=OUT.helpings[1:]),
        replace(OUT, batches=(Batch(1, "dish food 0", "plain", 2),)),
        replace(OUT, batches=(Batch(1, "no such dish", "plain", 2),)),
        replace(OUT, batches=(Batch(2, "dish food 0", "plain", 2),)),
    ],
    ids=["a slot is missing", "portions are left", "no such dish", "no such session"],
)
def test_a_plan_to_begin_from_that_breaks_a_rule_does_not_count(broken: Plan) -> None:
    stopped = decide(in_turn(), seconds=60, start=broken, stop=lambda: True)
    assert (stopped.status, stopped.plan) == (Status.OUT_OF_TIME, None)
    answer = decide(in_turn(), seconds=30, start=broken)
    assert answer.costs is not None
    assert answer.status is Status.PROVEN
    assert answer.costs.total == BEST


@pytest.mark.parametrize(("steps", "seconds"), [(None, 6.0), (8, 60.0)], ids=["in processes", "counted"])
def test_what_is_reported_never_gets_worse_and_the_answer_is_its_end(
    steps: int | None, seconds: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(work, "SEARCH_SECONDS", 0.3)
    heard: list[Progress] = []
    answer = decide(LARGER, seconds=seconds, work=steps, report=heard.append)
    values = [math.inf if p.value is None else p.value for p in heard]
    bounds = [-math.inf if p.bound is None else p.bound for p in heard]
    assert len(heard) >= 2
    assert values == sorted(values, reverse=True)
    assert bounds == sorted(bounds)
    assert [p.seconds for p in heard] == sorted(p.seconds for p in heard)
    assert answer.costs is not None
    assert answer.bound is not None
    assert float(answer.costs.total) == values[-1]
    assert answer.bound == bounds[-1]
    # No bound on the way was above what was found in the end.
    assert max(bounds) <= values[-1] + 1e-4


def test_a_decision_keeps_to_its_clock() -> None:
    large = kitchen_like(3, dishes=24)
    began = time.monotonic()
    answer = decide(large, seconds=3)
    assert time.monotonic() - began < 6
    assert answer.status in (Status.GOOD, Status.OUT_OF_TIME)
    assert answer.seconds == pytest.approx(3, abs=2)


@pytest.mark.usefixtures("in_pieces")
def test_a_piece_in_which_the_solver_fails_comes_to_nothing_and_the_others_go_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    runs = 0

    def failing(*given: Any, **named: Any) -> Run:
        nonlocal runs
        runs += 1
        if runs % 2:
            raise SolverFailed("HiGHS ended with 'Solve error'")
        return run(*given, **named)

    monkeypatch.setattr("ladleworth.decide.sift.run", failing)
    answer = decide(in_turn(), work=60)
    assert answer.costs is not None
    assert answer.status is Status.PROVEN
    assert answer.costs.total == BEST


def test_a_solution_that_cannot_be_made_a_plan_is_told_and_not_asked_for_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked = 0

    def unsettled(*_: object) -> Plan:
        nonlocal asked
        asked += 1
        raise JudgeRefused(["nobody can draw a milligram that is not there"])

    monkeypatch.setattr("ladleworth.decide.labour.settle", unsettled)
    with pytest.raises(JudgeRefused, match="a milligram that is not there"):
        decide(QUESTION, seconds=20)
    assert asked == 1
    with pytest.raises(JudgeRefused, match="a milligram that is not there"):
        decide(in_turn(), work=1)
