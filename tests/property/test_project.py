"""Projects built around a timetable that is possible in them: it is found that they are, and no longer is answered."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from ladleworth.cookday.answer import Status
from ladleworth.cookday.project import (
    Anchor,
    Demand,
    Project,
    ProjectActivity,
    ProjectAnswer,
    ProjectLag,
    ProjectTime,
    Resource,
)
from ladleworth.cookday.project_clash import clash
from ladleworth.cookday.project_draft import left_shifted
from ladleworth.cookday.project_judge import judge_project, makespan
from ladleworth.cookday.project_lags import reasons, windows_of
from ladleworth.cookday.project_model import schedule

Pick = st.DrawFn
ROOMS = ("hands", "rings", "shelves")


def moment(time: ProjectTime, anchor: Anchor) -> int:
    return time.start if anchor is Anchor.START else time.end


def planted_lag(pick: Pick, times: list[ProjectTime]) -> ProjectLag:
    """A lag that the timetable keeps, tightly or not."""
    one, other = pick(st.sampled_from(times)), pick(st.sampled_from(times))
    first, second = pick(st.sampled_from(Anchor)), pick(st.sampled_from(Anchor))
    passes = moment(other, second) - moment(one, first)
    least = pick(st.none() | st.integers(passes - 4, passes))
    greatest = pick(st.none() | st.integers(passes, passes + 4))
    return ProjectLag(
        one.activity, other.activity, passes if least is greatest is None else least, greatest, first, second
    )


@st.composite
def planted(draw: Pick) -> tuple[Project, tuple[ProjectTime, ...]]:
    """A project and a timetable that keeps its rules; capacities are what it holds at its fullest."""
    count = draw(st.integers(1, 7))
    times, activities = [], []
    for n in range(count):
        start, lasts = draw(st.integers(0, 12)), draw(st.integers(0, 6))
        demands = tuple(Demand(room, draw(st.integers(0, 3))) for room in ROOMS if draw(st.booleans()))
        times.append(ProjectTime(f"a{n}", start, start + lasts))
        activities.append(ProjectActivity(f"a{n}", lasts, demands))
    rooms = tuple(Resource(room, fullest(room, activities, times)) for room in ROOMS)
    lags = tuple(planted_lag(draw, times) for _ in range(draw(st.integers(0, 8))))
    deadline = draw(st.none() | st.integers(makespan(times), makespan(times) + 5))
    return Project(tuple(activities), rooms, lags, deadline), tuple(times)


def fullest(room: str, activities: list[ProjectActivity], times: list[ProjectTime]) -> int:
    held = [
        sum(a.demand(room) for a, t in zip(activities, times, strict=True) if t.start <= now < t.end)
        for now in range(20)
    ]
    return max(held)


@given(planted())
@settings(max_examples=60)
def test_a_project_with_a_timetable_is_answered_with_one_as_short(
    case: tuple[Project, tuple[ProjectTime, ...]],
) -> None:
    project, times = case
    assert judge_project(project, times) == ()
    assert reasons(project) == ()
    windows = windows_of(project)
    assert windows.least <= makespan(times)
    answer = schedule(project, seconds=60)
    assert answer.status is Status.PROVEN
    assert answer.makespan is not None
    assert windows.least <= answer.makespan <= makespan(times)
    assert answer.makespan <= windows.horizon
    assert answer.times is not None
    assert judge_project(project, answer.times) == ()


@given(planted())
@settings(max_examples=60)
def test_shifting_to_the_left_keeps_the_rules_and_moves_nothing_to_the_right(
    case: tuple[Project, tuple[ProjectTime, ...]],
) -> None:
    project, times = case
    starts = left_shifted(project, windows_of(project), tuple(time.start for time in times))
    shifted = [
        ProjectTime(a.name, start, start + a.duration)
        for a, start in zip(project.activities, starts, strict=True)
    ]
    assert judge_project(project, shifted) == ()
    assert all(new.start <= old.start for new, old in zip(shifted, times, strict=True))
    assert left_shifted(project, windows_of(project), starts) == starts


@given(planted())
@settings(max_examples=25)
def test_the_same_project_is_answered_the_same_and_with_a_shorter_deadline_not_at_all(
    case: tuple[Project, tuple[ProjectTime, ...]],
) -> None:
    project, _ = case

    def timeless(answer: ProjectAnswer) -> ProjectAnswer:
        return replace(answer, seconds=0)

    answer = schedule(project, seconds=60, seed=3)
    assert timeless(schedule(project, seconds=60, seed=3)) == timeless(answer)
    if answer.makespan:
        sooner = replace(project, deadline=answer.makespan - 1)
        assert schedule(sooner, seconds=60).status is Status.IMPOSSIBLE
        if not reasons(sooner):
            found = clash(sooner, seconds=60)
            assert f"the deadline {answer.makespan - 1}" in found.limits
            assert found.fewest
