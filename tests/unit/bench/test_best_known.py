from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from bench.best_known import Best, contradictions, learn, read, within, write
from bench.measure import Measured

RUN = Measured(
    "tiny #1",
    "decide",
    10.0,
    4310.0,
    4300.0,
    proven=False,
    seconds=10.0,
    track=((1.0, 5000.0), (2.0, 4460.0), (3.0, 4450.0), (7.0, 4310.0)),
    mark="abc",
    worth_cents=3000.0,
)


def known(**fields: float) -> dict[str, Best]:
    best = Best("abc", 4305.0, "an earlier one", 4200.0, "an earlier one")
    return {"tiny #1": replace(best, **fields)}  # type: ignore[arg-type]


def test_what_is_better_is_taken_over_and_what_is_worse_is_not() -> None:
    learnt = learn(known(), [RUN], "today")["tiny #1"]
    assert learnt == Best("abc", 4305.0, "an earlier one", 4300.0, "decide, 10 s, today")
    cheaper = learn(known(), [replace(RUN, value=4304.0, bound=4100.0)], "today")["tiny #1"]
    assert cheaper == Best("abc", 4304.0, "decide, 10 s, today", 4200.0, "an earlier one")


def test_a_changed_question_begins_anew() -> None:
    learnt = learn(known(value=1.0), [replace(RUN, mark="def")], "today")["tiny #1"]
    assert learnt.mark == "def"
    assert learnt.value == 4310.0


@pytest.mark.parametrize("change", [{"fault": "breaks a rule"}, {"mark": ""}])
def test_a_fault_teaches_nothing(change: dict[str, str]) -> None:
    assert learn(known(), [replace(RUN, value=1.0, **change)], "today") == known()  # type: ignore[arg-type]


def test_the_bound_of_a_solver_that_errs_is_not_believed_but_its_judged_plan_is() -> None:
    run = replace(RUN, method="plain CBC", value=4301.0, bound=4301.0, proven=True)
    learnt = learn(known(), [run], "today")["tiny #1"]
    assert (learnt.value, learnt.bound) == (4301.0, 4200.0)
    assert contradictions(known(value=4300.0), [run]) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"proven": True}, "4310.0000 is called best; an earlier one found 4305.0000"),
        ({"bound": 4305.1}, "bound 4305.1000 is above the 4305.0000 of an earlier one"),
        ({"value": 4199.9, "bound": None}, "costs 4199.9000; an earlier one has a bound of 4200.0000"),
        (
            {"value": None, "bound": None, "proven": True},
            "is called impossible; an earlier one found 4305.0000",
        ),
        ({"fault": "its process ended with exit code -9"}, "its process ended with exit code -9"),
    ],
)
def test_what_cannot_be_true_is_said(change: dict[str, object], words: str) -> None:
    run = replace(RUN, **change)  # type: ignore[arg-type]
    assert contradictions(known(), [run]) == [f"tiny #1, decide, 10 s: {words}"]


def test_nothing_is_said_where_all_agree() -> None:
    within_tolerance = replace(RUN, value=4305.04, bound=4305.04, proven=True)
    assert contradictions(known(), [RUN, within_tolerance]) == []
    assert contradictions(known(value=1.0), [replace(RUN, mark="def")]) == []
    assert contradictions({}, [RUN]) == []


def test_seconds_to_a_plan_within_two_percent_count_what_the_week_takes_from_stock() -> None:
    best = known(value=4305.0)["tiny #1"]
    assert within(RUN, best) == 3.0
    assert within(RUN, best, percent=0) is None
    assert within(replace(RUN, track=None), best) is None
    assert within(RUN, None) is None


def test_the_gap_is_a_share_of_what_the_week_uses_up() -> None:
    assert RUN.gap_percent == pytest.approx(100 * 10 / 7310)
    assert replace(RUN, value=4300.0, bound=4300.00001).gap_percent == 0
    assert replace(RUN, bound=None).gap_percent is None


def test_what_is_known_comes_back_as_written(tmp_path: Path) -> None:
    path = tmp_path / "known.json"
    assert read(path) == {}
    write(known(), path)
    assert read(path) == known()
