from __future__ import annotations

import pytest
from bench.cases import mark_of, question_of
from bench.measure import measure


def test_a_method_is_measured_in_a_process_of_its_own() -> None:
    run = measure("tiny #3", "plain HiGHS", 3.0)
    assert run.fault == ""
    assert run.status in ("proven", "open")
    assert run.mark == mark_of(question_of("tiny #3"))
    assert run.value is not None
    assert run.bound is not None
    assert run.bound <= run.value + 0.05
    assert 0 < run.seconds < 30
    assert run.peak_mb is not None
    assert run.peak_mb > 20


def test_a_process_that_fails_leaves_its_fault_in_the_table() -> None:
    run = measure("tiny #3", "no such solver", 3.0)
    assert "KeyError: 'no such solver'" in run.fault
    assert run.value is None


def test_a_case_that_nobody_knows_is_a_fault_too() -> None:
    assert "no such case" in measure("no such case #1", "plain HiGHS", 1.0).fault


@pytest.mark.parametrize("limit_s", [0.0001])
def test_a_limit_too_short_to_write_the_week_down_ends_without_an_answer(limit_s: float) -> None:
    run = measure("tiny #3", "plain HiGHS", limit_s)
    assert (run.fault, run.value, run.proven) == ("", None, False)
