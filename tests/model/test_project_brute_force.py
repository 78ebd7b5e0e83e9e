"""Tiny projects with every kind of lag: the answer is what trying all starts gives, and the judge agrees."""

from __future__ import annotations

from collections import Counter
from unittest.mock import patch

import pytest
from tests.model.tiny_projects import PROJECTS, least_makespan, tiny_project

from ladleworth.cookday import project_model
from ladleworth.cookday.answer import Status
from ladleworth.cookday.project import Anchor, Demand, Project, ProjectActivity, ProjectLag, Resource
from ladleworth.cookday.project_judge import judge_project
from ladleworth.cookday.project_model import can_be, schedule

FOLDS = 10


@pytest.mark.parametrize("fold", range(FOLDS))
def test_the_answer_is_what_trying_all_starts_gives(fold: int) -> None:
    for seed in range(fold, PROJECTS, FOLDS):
        project = tiny_project(seed)
        answer, known = schedule(project, seconds=60, seed=seed), least_makespan(project)
        assert answer.makespan == known, seed
        assert answer.status is (Status.IMPOSSIBLE if known is None else Status.PROVEN), seed
        assert can_be(project, 60)[0] is (known is not None), seed
        if answer.times is not None:
            assert judge_project(project, answer.times) == (), seed


@pytest.mark.parametrize("fold", range(FOLDS))
def test_the_solver_alone_gives_the_same(fold: int) -> None:
    """Most of these are so small that a draft is proven shortest by itself; here there is none to begin from."""
    with patch.object(project_model, "draft", lambda *_: None):
        for seed in range(fold, PROJECTS, FOLDS):
            project = tiny_project(seed)
            answer, known = schedule(project, seconds=60, seed=seed), least_makespan(project)
            assert answer.makespan == known, seed
            assert can_be(project, 60)[0] is (known is not None), seed


def test_the_tiny_projects_have_every_kind_of_lag_and_end() -> None:
    projects = [tiny_project(seed) for seed in range(PROJECTS)]
    kinds = {
        (lag.first_anchor, lag.second_anchor, lag.least is not None, lag.greatest is not None)
        for project in projects
        for lag in project.lags
    }
    both = (True, False)
    assert kinds >= {(a, b, k, not k) for a in Anchor for b in Anchor for k in both}
    with patch.object(project_model, "draft", lambda *_: None):
        answers = [schedule(project, seconds=60) for project in projects]
    ends = Counter((answer.status, answer.solver == "none needed") for answer in answers)
    assert ends[Status.PROVEN, False] >= 150
    assert ends[Status.IMPOSSIBLE, True] >= 50
    assert ends[Status.IMPOSSIBLE, False] >= 5


@pytest.mark.parametrize(
    ("lag", "known"),
    [
        (ProjectLag("a", "b", 2), 7),  # 2, 2 between, 3
        (ProjectLag("a", "b", None, -1, Anchor.END, Anchor.END), 4),  # b (3) ends 1 before a
        (ProjectLag("a", "b", 9, 9, Anchor.START, Anchor.START), 12),
    ],
)
def test_trying_all_starts_reaches_what_is_worked_out_by_hand(lag: ProjectLag, known: int) -> None:
    activities = (ProjectActivity("a", 2), ProjectActivity("b", 3))
    assert least_makespan(Project(activities, (), (lag,))) == known
    assert least_makespan(Project(activities, (), (lag,), known - 1)) is None


def test_trying_all_starts_sees_what_is_held() -> None:
    activities = tuple(ProjectActivity(name, 2, (Demand("r", 2),)) for name in "abc")
    assert least_makespan(Project(activities, (Resource("r", 3),))) == 6
    assert least_makespan(Project(activities, (Resource("r", 4),))) == 4
    assert least_makespan(Project(activities, (Resource("r", 1),))) is None
