"""Tiny projects with every kind of lag, and the least makespan by trying all starts. Nothing here knows a solver."""

from __future__ import annotations

import random
from collections.abc import Iterator

from ladleworth.cookday.project import Anchor, Demand, Project, ProjectActivity, ProjectLag, Resource

PROJECTS = 300


def tiny_project(seed: int) -> Project:
    """A project of two to four activities; about one in four has no timetable."""
    dice = random.Random(f"tiny project {seed}")
    rooms = tuple(Resource(f"r{n}", dice.randint(1, 3)) for n in range(dice.randint(1, 2)))
    names = [f"a{n}" for n in range(dice.randint(2, 4))]
    activities = tuple(
        ProjectActivity(
            name,
            dice.choice((0, 1, 2, 2, 3, 4)),
            tuple(
                Demand(room.name, dice.randint(0, room.capacity + (dice.random() < 0.05)))
                for room in rooms
                if dice.random() < 0.8
            ),
        )
        for name in names
    )
    lags = tuple(_lag(dice, names) for _ in range(dice.randint(1, 4)))
    deadline = dice.randint(3, 12) if dice.random() < 0.3 else None
    return Project(activities, rooms, lags, deadline)


def _lag(dice: random.Random, names: list[str]) -> ProjectLag:
    first, second = dice.sample(names, 2)
    least = dice.randint(-3, 4)
    greatest = least + dice.randint(0, 3)
    kept = dice.choice(("least", "greatest", "both"))
    return ProjectLag(
        first,
        second,
        None if kept == "greatest" else least,
        None if kept == "least" else greatest,
        dice.choice(tuple(Anchor)),
        dice.choice(tuple(Anchor)),
    )


def least_makespan(project: Project) -> int | None:
    """Try all starts, earlier ones first, activity by activity; None if no starts keep the rules.

    No shortest timetable starts anything later than all durations and lags added up: what is not held up by a lag or
    by a resource could start earlier.
    """
    end = sum(a.duration for a in project.activities)
    end += sum(abs(value) for lag in project.lags for value in (lag.least, lag.greatest) if value is not None)
    best: list[int] = []
    for starts in _starts(project, end if project.deadline is None else min(end, project.deadline), {}, best):
        best[:] = [max(start + _lasts(project, name) for name, start in starts.items())]
    return best[0] if best else None


def _starts(project: Project, end: int, starts: dict[str, int], best: list[int]) -> Iterator[dict[str, int]]:
    if len(starts) == len(project.activities):
        yield starts
        return
    activity = project.activities[len(starts)]
    for start in range(end - activity.duration + 1):
        if best and start + activity.duration >= best[0]:
            return
        starts[activity.name] = start
        if _keeps_lags(project, activity.name, starts) and _has_room(project, starts):
            yield from _starts(project, end, starts, best)
        del starts[activity.name]


def _lasts(project: Project, name: str) -> int:
    return next(activity.duration for activity in project.activities if activity.name == name)


def _keeps_lags(project: Project, name: str, starts: dict[str, int]) -> bool:
    for lag in project.lags:
        if name in (lag.first, lag.second) and lag.first in starts and lag.second in starts:
            one = starts[lag.first] + (_lasts(project, lag.first) if lag.first_anchor is Anchor.END else 0)
            other = starts[lag.second] + (
                _lasts(project, lag.second) if lag.second_anchor is Anchor.END else 0
            )
            if lag.least is not None and other < one + lag.least:
                return False
            if lag.greatest is not None and other > one + lag.greatest:
                return False
    return True


def _has_room(project: Project, starts: dict[str, int]) -> bool:
    """Add up what is held in every unit of time."""
    for resource in project.resources:
        held: dict[int, int] = {}
        for activity in project.activities:
            if activity.name in starts:
                for time in range(starts[activity.name], starts[activity.name] + activity.duration):
                    held[time] = held.get(time, 0) + activity.demand(resource.name)
        if any(amount > resource.capacity for amount in held.values()):
            return False
    return True
