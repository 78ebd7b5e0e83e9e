from __future__ import annotations

import os
import subprocess
import sys
from itertools import combinations

import pytest

from ladleworth.decide.columns import unions
from ladleworth.decide.model import run
from ladleworth.decide.sheet import FREE, Sheet


def test_columns_are_numbered_in_the_order_they_come_in() -> None:
    sheet = Sheet()
    assert sheet.column("a", 3, 2.5) == 0
    assert sheet.column("b", lower=1, whole=False) == 1
    assert (sheet.names, sheet.lower, sheet.upper) == (["a", "b"], [0.0, 1], [3, FREE])
    assert (sheet.cost, sheet.whole) == ([2.5, 0.0], [True, False])


def test_a_column_that_stands_twice_in_a_row_is_added_up() -> None:
    sheet = Sheet()
    a, b = sheet.column("a"), sheet.column("b")
    sheet.row([(a, 1.0), (b, 2.0), (a, 3.0)], 1, 5)
    assert sheet.rows == [(1, 5, ((a, 4.0), (b, 2.0)))]


def test_what_cancels_out_leaves_the_row() -> None:
    sheet = Sheet()
    a, b = sheet.column("a"), sheet.column("b")
    sheet.row([(a, 1.0), (b, 2.0), (a, -1.0)], high=5)
    assert sheet.rows == [(-FREE, 5, ((b, 2.0),))]


def test_a_row_without_columns_that_holds_is_left_out() -> None:
    sheet = Sheet()
    a = sheet.column("a")
    sheet.row([], -1, 0)
    sheet.row([(a, 1.0), (a, -1.0)], 0, 0)
    sheet.row([])
    assert sheet.rows == []


@pytest.mark.parametrize(("low", "high"), [(1.0, FREE), (-FREE, -1.0), (2.0, 3.0)])
def test_a_row_without_columns_that_cannot_hold_makes_the_sheet_impossible(low: float, high: float) -> None:
    sheet = Sheet()
    sheet.column("a", 5, 1)
    sheet.row([], low, high)
    ended = run(sheet, 10)
    assert ended.values is None
    assert ended.proven


def test_the_solver_gives_value_and_bound_with_the_constant() -> None:
    # Least 3a + 2b - 10 with a + b >= 2.5, a whole and b at most 1: a = 2, b = 0.5.
    sheet = Sheet(constant=-10)
    a, b = sheet.column("a", cost=3), sheet.column("b", 1, 2, whole=False)
    sheet.row([(a, 1.0), (b, 1.0)], low=2.5)
    ended = run(sheet, 10)
    assert ended.proven
    assert ended.values == pytest.approx((2, 0.5))
    assert ended.bound == pytest.approx(-3)
    assert ended.solver.startswith("HiGHS")


def test_unions_are_all_unions_and_each_once() -> None:
    sets = [frozenset(s) for s in ("ab", "bc", "d", "ab")]
    found = unions(sets)
    assert len(found) == len(set(found)) == 7
    assert set(found) == {
        frozenset().union(*chosen) for n in (1, 2, 3) for chosen in combinations(set(sets), n)
    }


WRITES = """
import hashlib
from bench.kitchens import kitchen_like
from ladleworth.decide.programme import build
question = kitchen_like(3, dishes=6, days=5, meals=("breakfast", "lunch", "dinner"), staples=15)
for visits in (None, frozenset({("near", 1), ("far", 4)})):
    print(hashlib.sha256(repr(build(question, visits).sheet).encode()).hexdigest())
"""


def test_the_sheet_is_the_same_in_every_process() -> None:
    # Sets of texts have another order in every process; a solver that is handed rows in another order may stop
    # at another of several best plans.
    written = [
        subprocess.run(
            [sys.executable, "-c", WRITES],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    ]
    assert len(written[0].split()) == 2
    assert len(set(written)) == 1
