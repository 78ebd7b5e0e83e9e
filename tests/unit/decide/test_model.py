"""The solver heeds who asks it to stop: the best solution so far is the run's, and its bound holds."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace

import pytest
from bench.kitchens import kitchen_like
from tests.unit.decide.pieces import in_turn

from ladleworth.decide.model import run
from ladleworth.decide.programme import build
from ladleworth.decide.sheet import Sheet

LONG = build(kitchen_like(2, dishes=5, staples=30)).sheet
"""A programme that HiGHS does not settle in half a minute."""


def after(seconds: float) -> Callable[[], bool]:
    began = time.monotonic()
    return lambda: time.monotonic() - began > seconds


def test_a_run_that_is_asked_to_stop_gives_the_best_solution_so_far() -> None:
    ended = run(LONG, 60, stop=after(2.0))
    assert ended.seconds < 20
    assert not ended.proven
    assert ended.values is not None
    assert ended.bound is not None
    value = sum(c * v for c, v in zip(LONG.cost, ended.values, strict=True)) + LONG.constant
    assert ended.bound < value
    for low, high, terms in LONG.rows:
        assert low - 1e-4 <= sum(a * ended.values[c] for c, a in terms) <= high + 1e-4


def test_a_run_that_is_asked_to_stop_at_once_has_found_nothing() -> None:
    ended = run(LONG, 60, stop=lambda: True)
    assert ended.seconds < 10
    assert (ended.values, ended.bound, ended.proven) == (None, None, False)


def test_to_be_asked_and_to_say_no_changes_nothing() -> None:
    asked = 0

    def goes_on() -> bool:
        nonlocal asked
        asked += 1
        return False

    sheet = build(in_turn()).sheet
    alone, heard = (run(sheet, 60, stop=stop) for stop in (None, goes_on))
    assert replace(heard, seconds=0.0) == replace(alone, seconds=0.0)
    assert asked


def test_what_is_raised_by_who_is_asked_comes_through_once_the_run_has_ended() -> None:
    def presses() -> bool:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run(LONG, 60, stop=presses)
    sheet = Sheet()
    column = sheet.column("a", 5, 1)
    sheet.row([(column, 1.0)], low=2)
    assert run(sheet, 10, stop=lambda: False).values == pytest.approx((2,))
