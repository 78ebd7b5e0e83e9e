"""A relaxation takes in only the tightening rows that matter: it must be worth what it is worth with all of them."""

from __future__ import annotations

import math

import pytest
from bench.kitchens import random_week
from tests.unit.decide.pieces import BEST, Judged, in_turn

from ladleworth.decide.labour import Known, VisitsTask, perform
from ladleworth.decide.model import Ending, Relaxation
from ladleworth.decide.programme import build
from ladleworth.decide.sheet import Sheet
from ladleworth.decide.sift import Corner, Limit


def with_all_rows(sheet: Sheet) -> Relaxation:
    sheet.tightening.clear()
    return Relaxation(sheet)


def test_a_row_that_tightens_is_taken_in_once_it_is_broken() -> None:
    # Least 2 x + y with x + y >= 1 is 1 at y = 1; of the other rows only x >= 1/2 is then broken: 3/2.
    sheet = Sheet()
    x, y = sheet.column("x", 1, 2), sheet.column("y", 1, 1)
    sheet.row([(x, 1), (y, 1)], low=1)
    sheet.row([(x, 1)], low=0.5, tightens=True)
    sheet.row([(y, 1)], high=3, tightens=True)
    assert sheet.tightening == {1, 2}
    relaxed = Relaxation(sheet)
    assert relaxed.solve() is Ending.SOLVED
    assert relaxed.value == pytest.approx(1.5)
    assert set(relaxed.prices) == {0, 1}


def test_a_relaxation_that_is_not_to_go_on_is_worth_less_and_still_a_bound() -> None:
    model = build(random_week(1, 8, 5, 1))
    told = []

    def stops(value: float) -> bool:
        told.append(value)
        return False

    first = Relaxation(model.sheet)
    assert first.solve(goes_on=stops) is Ending.SOLVED
    assert told == [first.value]
    whole = Relaxation(model.sheet)
    whole.solve()
    assert first.value < whole.value


@pytest.mark.parametrize("seed", range(1, 6))
def test_it_is_worth_the_same_as_with_all_rows(seed: int) -> None:
    model = build(random_week(seed, 8, 5, 1))
    few, every = Relaxation(model.sheet), with_all_rows(build(random_week(seed, 8, 5, 1)).sheet)
    assert few.solve() is every.solve() is Ending.SOLVED
    assert few.value == pytest.approx(every.value, rel=1e-4)
    assert len(few.prices) < len(every.prices)
    for column in model.ever.values():
        for side in (0.0, 1.0):
            # the first may be a little lower: rows broken by less than a ten-thousandth stay out
            assert few.value_with(column, side, side) == pytest.approx(
                every.value_with(column, side, side), rel=1e-3
            )


def test_asking_with_other_bounds_leaves_it_as_it_was() -> None:
    model = build(random_week(2, 8, 5, 1))
    relaxed = Relaxation(model.sheet)
    relaxed.solve()
    value, values, prices = relaxed.value, list(relaxed.values), dict(relaxed.prices)
    for column in model.ever.values():
        relaxed.value_with(column, 1.0, 1.0)
    assert (relaxed.value, relaxed.values, relaxed.prices) == (value, values, prices)
    # rows taken in for another question may lift it, never lower it
    assert relaxed.solve() is Ending.SOLVED
    assert relaxed.value >= value - 1e-6


def test_bounds_are_told_while_visits_are_settled() -> None:
    question = in_turn()
    found = Judged(question)
    outcome = perform(question, VisitsTask(Corner(), 40), Known(math.inf), Limit(counted=True), found.tell)
    assert found.bounds
    assert max(found.bounds) <= BEST + 1e-6
    assert min(corner.bound for corner in outcome.corners) >= max(found.bounds) - 1e-6


def test_no_bound_is_told_of_a_part_of_the_question() -> None:
    question = in_turn()
    found = Judged(question)
    part = Corner(left_out=frozenset({"dish 0"}))
    perform(question, VisitsTask(part, 40), Known(math.inf), Limit(counted=True), found.tell)
    assert found.bounds == []
