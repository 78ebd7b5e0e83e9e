"""A first timetable of a project: it keeps the rules, or is none."""

from __future__ import annotations

import random

import pytest
from tests.model.tiny_projects import least_makespan, tiny_project

from ladleworth.cookday.project import (
    Anchor,
    Demand,
    Project,
    ProjectActivity,
    ProjectLag,
    ProjectTime,
    Resource,
)
from ladleworth.cookday.project_draft import Room, draft, ends_at
from ladleworth.cookday.project_judge import judge_project
from ladleworth.cookday.project_lags import reasons, windows_of


def act(name: str, duration: int, **demands: int) -> ProjectActivity:
    return ProjectActivity(name, duration, tuple(Demand(resource, n) for resource, n in demands.items()))


@pytest.mark.parametrize(
    ("start", "lasts", "amount", "first"),
    [
        (0, 2, 3, 0),
        (0, 3, 3, 6),
        (0, 3, 2, 0),
        (1, 2, 2, 1),
        (3, 1, 3, 6),
        (3, 9, 2, 3),
        (9, 4, 3, 9),
        (5, 0, 3, 6),
    ],
)
def test_room_is_found_between_and_after_what_is_held(
    start: int, lasts: int, amount: int, first: int
) -> None:
    room = Room(3)
    room.hold(2, 4, 1)  # from 2 to 6
    assert room.first(start, lasts, amount) == first


def test_what_is_held_adds_up_as_if_every_time_were_counted() -> None:
    dice = random.Random(3)
    room, held = Room(9), [0] * 60
    for _ in range(40):
        lasts, amount = dice.randint(1, 6), dice.randint(1, 9)
        start = dice.randint(0, 20)
        first = room.first(start, lasts, amount)
        free = (
            t for t in range(start, 400) if all(n + amount <= 9 for n in (held + [0] * 400)[t : t + lasts])
        )
        assert first == next(free)
        held += [0] * max(0, first + lasts - len(held))
        for time in range(first, first + lasts):
            held[time] += amount
        room.hold(first, lasts, amount)


def test_what_leaves_the_least_time_goes_first() -> None:
    """With b first all ends at 3 + 5 + 9; with a first, 2 later."""
    activities = (act("a", 2, hands=1), act("b", 5, hands=1), act("c", 9))
    project = Project(activities, (Resource("hands", 1),), (ProjectLag("b", "c"),))
    starts = draft(project, windows_of(project))
    assert starts == (5, 0, 5)
    assert ends_at(project, starts) == 14


def test_a_greatest_lag_holds_back_what_has_been_placed() -> None:
    """a (3) must end when b starts, but the hands are c's until 6."""
    activities = (act("a", 3), act("b", 5, hands=1), act("c", 6, hands=1))
    lags = (ProjectLag("c", "b"), ProjectLag("a", "b", 0, 0))
    project = Project(activities, (Resource("hands", 1),), lags)
    assert draft(project, windows_of(project)) == (3, 6, 0)


def test_it_is_given_up_where_there_is_none_and_where_the_deadline_comes_too_soon() -> None:
    activities = (act("a", 4, hands=1), act("b", 4, hands=1))
    together = ProjectLag("a", "b", -1, 1, Anchor.START, Anchor.START)
    project = Project(activities, (Resource("hands", 1),), (together,))
    assert reasons(project) == ()
    assert draft(project, windows_of(project)) is None
    late = Project((*activities, act("c", 1)), (Resource("hands", 1),), (), 8)
    assert draft(late, windows_of(late)) is not None


def test_drafts_keep_the_rules_and_are_found_for_nearly_all_that_have_a_timetable() -> None:
    found = 0
    projects = [project for seed in range(200) if not reasons(project := tiny_project(seed))]
    possible = sum(least_makespan(project) is not None for project in projects)
    for project in projects:
        starts = draft(project, windows_of(project))
        if starts is not None:
            times = [
                ProjectTime(a.name, start, start + a.duration)
                for a, start in zip(project.activities, starts, strict=True)
            ]
            assert judge_project(project, times) == ()
            found += 1
    assert 0.8 * possible <= found <= possible
