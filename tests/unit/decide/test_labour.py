from __future__ import annotations

import math
import time
from collections.abc import Callable

import pytest
from bench.kitchens import kitchen_like
from tests.unit.decide.pieces import BEST, Judged, in_turn
from tests.unit.decide.weeks import stew, week

from ladleworth.decide import Question
from ladleworth.decide.labour import (
    Known,
    Outcome,
    PolishTask,
    SearchTask,
    SiftTask,
    Task,
    VisitsTask,
    WholeTask,
    liking,
    perform,
)
from ladleworth.decide.sift import Corner, Limit, all_visits

COUNTED = Limit(counted=True)
NOTHING_KNOWN = Known(math.inf)


def done(task: Task, best: float = math.inf, question: Question | None = None) -> tuple[Outcome, Judged]:
    question = question or in_turn()
    found = Judged(question)
    return perform(question, task, Known(best), COUNTED, found.tell), found


def test_the_whole_question_is_settled_by_the_solver() -> None:
    outcome, found = done(WholeTask(1e4))
    assert outcome.settled
    assert outcome.bound == pytest.approx(BEST)
    assert found.totals == [BEST]
    worse, none = done(WholeTask(1e4), best=float(BEST))
    assert worse.settled
    assert none.totals == []


def test_a_search_finds_plans_and_names_the_batches_of_good_states() -> None:
    outcome, found = done(SearchTask(1, 0.5, 2.0))
    assert 1 <= len(outcome.batches) <= 5
    assert found.totals
    assert min(found.totals) <= 2 * BEST
    # Every plan told of is better than those before it.
    assert found.totals == sorted(found.totals, reverse=True)


def test_a_search_that_begins_with_the_best_batches_keeps_them() -> None:
    _, best = done(WholeTask(1e4))
    _, found = done(SearchTask(1, 0.3, 2.0, best.plans[0].batches))
    assert min(found.totals) == BEST


def test_a_search_that_is_led_by_the_relaxation_of_some_visits_finds_plans() -> None:
    visits = frozenset(all_visits(in_turn()))
    _, found = done(SearchTask(1, 0.5, 2.0, visits=visits, led=True))
    assert min(found.totals) <= 2 * BEST


def test_visits_are_settled_and_the_corners_come_to_the_best_plan() -> None:
    outcome, found = done(VisitsTask(Corner(), 40))
    assert found.totals == []
    assert {corner.made | corner.unmade for corner in outcome.corners} == {frozenset(all_visits(in_turn()))}
    totals: list[float] = []
    open_corners = list(outcome.corners)
    for _ in range(100):
        if not open_corners:
            break
        left, judged = done(SiftTask(open_corners.pop()), best=min(totals, default=math.inf))
        open_corners += left.corners
        totals += [float(total) for total in judged.totals]
    assert not open_corners
    assert min(totals) == BEST


def test_polishing_the_batches_of_states_is_no_worse_than_any_of_them() -> None:
    outcome, searched = done(SearchTask(5, 0.2, 0.01))
    _, polished = done(PolishTask(outcome.batches, 10.0, 1, 0))
    assert min(polished.totals) <= min(searched.totals)


def test_polishing_with_other_dishes_beside_them_takes_in_the_better_ones() -> None:
    # From the two dearest dishes alone, all five are drawn: the best plan is among what the solver may choose.
    outcome, _ = done(SearchTask(5, 0.2, 0.01))
    _, polished = done(PolishTask(outcome.batches[:1], 100.0, 1, 5))
    assert min(polished.totals) == BEST


def test_the_same_piece_comes_to_the_same_where_work_is_counted() -> None:
    question = kitchen_like(4, dishes=7, days=5, meals=("lunch", "dinner"), staples=15)
    for task in (SearchTask(3, 0.3, 0.05), VisitsTask(Corner(), 20)):
        (once, first), (again, second) = (done(task, question=question) for _ in range(2))
        assert once == again
        assert first.plans == second.plans


@pytest.mark.parametrize(
    "make",
    [
        lambda: SearchTask(1, 30.0, 30.0),
        lambda: VisitsTask(Corner(), 10**6),
        lambda: SiftTask(Corner()),
        lambda: WholeTask(1e6),
    ],
    ids=["search", "visits", "sift", "whole"],
)
def test_a_piece_of_work_ends_with_its_clock(make: Callable[[], Task]) -> None:
    question = kitchen_like(1, dishes=14, days=7, staples=30)
    began = time.monotonic()
    outcome = perform(question, make(), NOTHING_KNOWN, Limit(began + 0.5), Judged(question).tell)
    assert time.monotonic() - began < 6
    assert not outcome.settled


def test_what_the_relaxation_likes_is_not_that_of_a_question_decided_before() -> None:
    first = week()
    liking(first, None)
    place = id(first)
    del first
    others: list[Question] = []
    while not others or (id(others[-1]) != place and len(others) < 5000):
        others.append(week(dishes=(stew(name="bake"),)))
    assert set(liking(others[-1], None).against) == {"bake"}
