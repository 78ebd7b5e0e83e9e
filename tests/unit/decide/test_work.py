from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.decide.pieces import in_turn

from ladleworth.decide import Batch, Plan, Purchase
from ladleworth.decide.labour import Outcome, SearchTask, SiftTask, VisitsTask, WholeTask
from ladleworth.decide.sift import MARGIN_CENTS, Corner, all_visits
from ladleworth.decide.work import Agenda

QUESTION = in_turn()
VISITS = frozenset(all_visits(QUESTION))
SETTLED = Corner(made=VISITS)


def agenda(*corners: Corner, **fields: object) -> Agenda:
    return Agenda(QUESTION, 0, corners=list(corners), **fields)  # type: ignore[arg-type]


def corner_given(agenda: Agenda, worker: int, total: Fraction | None = None) -> Corner:
    """Ask for work until it is a corner; what is looked about for meanwhile comes to nothing."""
    for _ in range(50):
        task = agenda.next(worker, total, None)
        if isinstance(task, SiftTask | VisitsTask):
            return task.corner
        assert isinstance(task, SearchTask), task
        agenda.end(worker, Outcome())
    pytest.fail("no corner is ever worked through")


def test_a_small_question_is_one_piece_of_work() -> None:
    alone = agenda(Corner(), small=True)
    assert isinstance(alone.next(0, None, None), WholeTask)
    assert alone.bound() == -math.inf
    alone.end(0, Outcome(bound=7.0, settled=True))
    assert alone.bound() == 7.0
    assert alone.settled
    assert alone.next(0, None, None) is None


def test_the_first_search_begins_from_the_plan_in_force() -> None:
    start = (Batch(1, "dish food 1", "plain", 3),)
    task = agenda(Corner(), start=start).next(0, None, None)
    assert isinstance(task, SearchTask)
    assert task.start == start


def test_no_two_searches_have_the_same_seed() -> None:
    here = agenda(Corner())
    seeds = []
    for _ in range(60):
        task = here.next(0, None, None)
        if isinstance(task, SearchTask):
            seeds.append(task.seed)
            here.end(0, Outcome())
        else:
            assert isinstance(task, VisitsTask | SiftTask)
            here.end(0, Outcome(corners=(replace(task.corner, made=VISITS),)))
    assert len(seeds) >= 3
    assert len(set(seeds)) == len(seeds)


def test_the_bound_is_the_least_of_open_corners_and_of_those_under_way() -> None:
    here = agenda(replace(SETTLED, bound=50.0), replace(SETTLED, bound=70.0))
    assert here.bound() == 50.0
    assert corner_given(here, 1).bound == 50.0
    assert here.bound() == 50.0
    here.end(1, Outcome(corners=(replace(SETTLED, bound=60.0), replace(SETTLED, bound=90.0))))
    assert here.bound() == 60.0


def test_the_corner_of_a_worker_that_is_gone_is_taken_back() -> None:
    here = agenda(replace(SETTLED, bound=50.0), replace(SETTLED, bound=70.0))
    corner = corner_given(here, 1)
    here.lose(1)
    assert here.bound() == 50.0
    assert corner_given(here, 0) == corner
    here.lose(0)
    here.lose(0)  # it had nothing more to do
    assert sorted(one.bound for one in here.corners) == [50.0, 70.0]


def test_nothing_is_settled_while_a_corner_is_under_way() -> None:
    here = agenda(SETTLED)
    corner_given(here, 1)
    assert here.corners == []
    before = here.settled
    here.end(1, Outcome())
    assert (before, here.settled) == (False, True)
    assert here.next(0, None, None) is None
    assert here.next(1, None, None) is None


def test_only_corners_that_cannot_be_better_are_dropped() -> None:
    here = agenda(replace(SETTLED, bound=99.9), replace(SETTLED, bound=100.0 + MARGIN_CENTS))
    assert corner_given(here, 1, Fraction(100)).bound == 99.9
    here.end(1, Outcome())
    assert here.settled
    assert here.bound() == 100.0


def test_what_is_known_goes_out_with_the_work() -> None:
    here = agenda(Corner())
    assert here.known(None).best == math.inf
    assert here.known(Fraction(7, 2)).best == 3.5
    plan = Plan((), (), (Purchase(4, "food 0 pack", 1),), ())
    here.next(0, Fraction(5), plan)
    assert here.made == {("corner", 4)}
    assert here.best == 5.0
