"""The judge of projects finds every planted breach, and only that."""

from __future__ import annotations

from dataclasses import replace
from unittest.mock import patch

import pytest

from ladleworth.cookday import project_model
from ladleworth.cookday.project import (
    Anchor,
    Demand,
    Project,
    ProjectActivity,
    ProjectLag,
    ProjectTime,
    Resource,
)
from ladleworth.cookday.project_judge import judge_project, makespan
from ladleworth.errors import JudgeRefused, SolverFailed

START, END = Anchor.START, Anchor.END
PROJECT = Project(
    (
        ProjectActivity("a", 3, (Demand("ring", 2),)),
        ProjectActivity("b", 4, (Demand("ring", 1),)),
        ProjectActivity("c", 0, (Demand("ring", 3),)),
    ),
    (Resource("ring", 2),),
    (ProjectLag("a", "b", 0, 2), ProjectLag("b", "c", 1, 3, START, START)),
    deadline=9,
)
GOOD = (ProjectTime("a", 0, 3), ProjectTime("b", 3, 7), ProjectTime("c", 4, 4))
"""c takes no time, so that it may stand where the ring is taken."""


def moved(name: str, start: int, lasts: int | None = None) -> tuple[ProjectTime, ...]:
    """The good timetable with one activity moved (and made longer or shorter)."""
    return tuple(
        t
        if t.activity != name
        else ProjectTime(name, start, start + (t.end - t.start if lasts is None else lasts))
        for t in GOOD
    )


def rules(times: tuple[ProjectTime, ...], project: Project = PROJECT) -> list[str]:
    return [breach.rule for breach in judge_project(project, times)]


def test_a_timetable_that_keeps_the_rules_has_no_breach() -> None:
    assert judge_project(PROJECT, GOOD) == ()
    assert makespan(GOOD) == 7
    assert judge_project(Project(()), ()) == ()
    assert makespan(()) == 0


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (GOOD[:2], "'c' has no time"),
        ((*GOOD, ProjectTime("d", 0, 1)), "'d' is no activity of the project"),
        ((*GOOD, GOOD[0]), "'a' has 2 times"),
    ],
)
def test_names(times: tuple[ProjectTime, ...], words: str) -> None:
    assert [str(breach) for breach in judge_project(PROJECT, times)] == [f"[names] {words}"]


def test_times() -> None:
    free = replace(PROJECT, lags=())
    assert rules(moved("a", -1), free) == ["times"]
    assert rules(moved("a", 0, 2), free) == ["times"]
    assert rules(moved("a", 0, 2), PROJECT) == ["times"]
    (breach,) = judge_project(free, moved("b", 3, 5))
    assert breach.what == "'b' lasts 5 in place of 4"


@pytest.mark.parametrize(
    ("first", "second", "passes"),
    [(START, START, 3), (START, END, 7), (END, START, 0), (END, END, 4)],
)
def test_lags_between_any_anchors(first: Anchor, second: Anchor, passes: int) -> None:
    """From a (0 to 3) to b (3 to 7)."""
    for least, greatest, kept in (
        (passes, None, True),
        (None, passes, True),
        (passes + 1, None, False),
        (None, passes - 1, False),
    ):
        project = replace(PROJECT, lags=(ProjectLag("a", "b", least, greatest, first, second),))
        assert rules(GOOD, project) == ([] if kept else ["lags"])


def test_a_lag_that_is_not_kept_says_what_passes() -> None:
    (late,) = judge_project(PROJECT, moved("c", 7))
    assert late.what == "from the start of 'b' to the start of 'c' 4 passes; 3 at the most"
    (early,) = judge_project(PROJECT, moved("c", 3))
    assert early.what == "from the start of 'b' to the start of 'c' 0 passes; 1 at the least"


def test_capacity() -> None:
    free = replace(PROJECT, lags=())
    (breach,) = judge_project(free, moved("b", 2))
    assert str(breach) == "[capacity] at 2, 3 of 'ring' are held; there are 2"
    assert rules(moved("b", 0), free) == ["capacity"]
    assert rules(GOOD, replace(PROJECT, resources=(Resource("ring", 1),))) == ["capacity"]  # a alone takes 2


def test_deadline() -> None:
    (breach,) = judge_project(replace(PROJECT, deadline=6), GOOD)
    assert str(breach) == "[deadline] 'b' ends at 7, after 6"
    assert rules(GOOD, replace(PROJECT, deadline=7)) == []


def test_several_breaches_are_all_named() -> None:
    times = (ProjectTime("a", -1, 2), ProjectTime("b", 1, 99), ProjectTime("c", 5, 5))
    assert rules(times) == ["times", "times", "lags", "lags", "capacity", "deadline"]


def test_an_answer_that_breaks_a_rule_is_never_given() -> None:
    with (
        patch.object(project_model, "left_shifted", lambda *_: (0, 0, 0)),
        pytest.raises(JudgeRefused, match="lags"),
    ):
        project_model.schedule(PROJECT)


def test_a_bound_above_a_timetable_is_never_given() -> None:
    run = project_model._Run((0, 3, 4), 8, proven=True, seconds=0.1, solver="CP-SAT")
    with (
        patch.object(project_model, "_run", lambda *_, **__: run),
        patch.object(project_model, "draft", lambda *_: None),
        pytest.raises(SolverFailed, match="8"),
    ):
        project_model.schedule(PROJECT)


def test_a_project_that_has_a_timetable_is_never_called_impossible() -> None:
    """The draft that the solver is handed is none: it ends at 6, and the project at 7 at the earliest."""
    with (
        patch.object(project_model, "draft", lambda *_: (0, 2, 4)),
        pytest.raises(SolverFailed, match="has one"),
    ):
        project_model.schedule(replace(PROJECT, lags=(), resources=(Resource("ring", 2),)))
