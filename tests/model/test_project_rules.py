"""Each rule of a project alone: of no account, tight, and such that there is no timetable. Optima are argued beside."""

from __future__ import annotations

import pytest

from ladleworth.cookday.answer import Status
from ladleworth.cookday.project import Anchor, Demand, Project, ProjectActivity, ProjectLag, Resource
from ladleworth.cookday.project_clash import clash
from ladleworth.cookday.project_model import schedule

START, END = Anchor.START, Anchor.END


def act(name: str, duration: int, **demands: int) -> ProjectActivity:
    return ProjectActivity(name, duration, tuple(Demand(resource, n) for resource, n in demands.items()))


def least(project: Project) -> int | None:
    answer = schedule(project, seconds=60)
    assert answer.status in (Status.PROVEN, Status.IMPOSSIBLE)
    assert (answer.makespan is None) == bool(answer.why_not)
    return answer.makespan


def two(lag: ProjectLag) -> Project:
    return Project((act("a", 3), act("b", 5)), (), (lag,))


def test_a_project_without_activities_ends_at_0() -> None:
    answer = schedule(Project(()))
    assert (answer.status, answer.times, answer.makespan, answer.bound) == (Status.PROVEN, (), 0, 0)
    assert schedule(Project((), deadline=0)).status is Status.PROVEN


def test_activities_without_rules_run_side_by_side() -> None:
    assert least(Project((act("a", 3), act("b", 5), act("c", 0)))) == 5


@pytest.mark.parametrize(
    ("first", "second", "value", "end"),
    [
        (END, START, 0, 8),  # 3, then 5
        (END, START, 2, 10),  # 3 + 2 + 5
        (END, START, -1, 7),  # b may start 1 before a ends
        (END, START, -9, 5),  # of no account: b may start at 0
        (START, START, 4, 9),  # b starts at 4
        (START, END, 7, 7),  # b starts at 2
        (START, END, 5, 5),  # of no account
        (END, END, 6, 9),  # b ends at 3 + 6
        (END, END, 2, 5),  # of no account: b ends 2 after a anyway
    ],
)
def test_a_least_lag_between_any_anchors(first: Anchor, second: Anchor, value: int, end: int) -> None:
    assert least(two(ProjectLag("a", "b", value, None, first, second))) == end


@pytest.mark.parametrize(
    ("first", "second", "value", "end"),
    [
        (END, START, 0, 5),  # of no account
        (END, START, -4, 5),  # b starts no later than 4 before a ends: a starts at 1, of no account
        (END, START, -6, 6),  # a starts at 3
        (START, START, -2, 5),  # a starts at 2, ends with b
        (START, START, -4, 7),  # a starts at 4
        (START, END, 4, 5),  # b ends no later than 4 after a starts: a starts at 1
        (START, END, 1, 7),  # a starts at 4
        (END, END, -3, 8),  # a ends at 5 + 3
    ],
)
def test_a_greatest_lag_between_any_anchors(first: Anchor, second: Anchor, value: int, end: int) -> None:
    assert least(two(ProjectLag("a", "b", None, value, first, second))) == end


def test_a_greatest_lag_holds_back_what_comes_before() -> None:
    """c has the only hands for 6; a (3) must end when b starts, which must wait for c: a starts at 3."""
    resources = (Resource("hands", 1),)
    activities = (act("c", 6, hands=1), act("a", 3), act("b", 5, hands=1))
    lags = (ProjectLag("c", "b"), ProjectLag("a", "b", 0, 0))
    answer = schedule(Project(activities, resources, lags), seconds=60)
    assert answer.times is not None
    assert [(time.start, time.end) for time in answer.times] == [(0, 6), (3, 6), (6, 11)]


@pytest.mark.parametrize(
    ("capacity", "end"),
    [(6, 4), (5, 8), (4, 8), (3, 12), (2, 12)],  # of 2 each: three at once, two at once, one at once
)
def test_a_capacity_lets_so_many_run_at_once(capacity: int, end: int) -> None:
    activities = tuple(act(name, 4, ring=2) for name in "abc")
    assert least(Project(activities, (Resource("ring", capacity),))) == end


def test_a_demand_of_more_than_half_is_kept_apart_but_not_called_impossible() -> None:
    activities = (act("a", 4, ring=2), act("b", 3, ring=2))
    assert least(Project(activities, (Resource("ring", 3),))) == 7


@pytest.mark.parametrize(("capacity", "demand"), [(1, 2), (3, 4), (0, 1)])
def test_a_demand_above_the_capacity_is_impossible_and_says_so(capacity: int, demand: int) -> None:
    activities = (act("a", 4, ring=demand), act("b", 3, ring=capacity))
    answer = schedule(Project(activities, (Resource("ring", capacity),)))
    assert answer.status is Status.IMPOSSIBLE
    assert answer.why_not == (f"'a' takes {demand} of 'ring', which has {capacity}",)
    assert answer.solver == "none needed"


def test_what_takes_no_time_holds_nothing() -> None:
    """b must stand in the middle of a, and would take more than there is."""
    activities = (act("a", 4, ring=1), act("b", 0, ring=9))
    lags = (ProjectLag("a", "b", 2, 2, START, START),)
    assert least(Project(activities, (Resource("ring", 1),), lags)) == 4


@pytest.mark.parametrize(("deadline", "end"), [(99, 8), (8, 8), (7, None)])
def test_a_deadline_by_the_lags_alone(deadline: int, end: int | None) -> None:
    project = Project((act("a", 3), act("b", 5)), (), (ProjectLag("a", "b"),), deadline)
    assert least(project) == end
    if end is None:
        (reason,) = schedule(project).why_not
        assert reason == (
            "'b' ends at 8 at the earliest, after the deadline 7, by the lags 'a' (end) to 'b' (start): least 0"
        )


def three(deadline: int | None) -> Project:
    """Three of 4 each, of which two may run at once."""
    return Project(tuple(act(n, 4, ring=1) for n in "abc"), (Resource("ring", 2),), (), deadline)


@pytest.mark.parametrize(("deadline", "end"), [(None, 8), (8, 8)])
def test_a_deadline_that_can_just_be_kept(deadline: int | None, end: int) -> None:
    assert least(three(deadline)) == end


def test_a_deadline_that_lags_and_capacity_break_together_is_proven_by_the_solver() -> None:
    answer = schedule(three(7), seconds=60)
    assert answer.status is Status.IMPOSSIBLE
    assert answer.why_not == (
        "no starts keep the lags and the capacities together and end by the deadline 7",
    )
    assert answer.solver.startswith("CP-SAT ")


def test_a_deadline_before_all_that_is_held_needs_no_solver() -> None:
    """3 x 4 of a ring that has 2 take 6."""
    answer = schedule(three(5))
    assert answer.why_not == ("what is held of 'ring' lasts until 6 at the least, after the deadline 5",)
    assert answer.solver == "none needed"


@pytest.mark.parametrize(("deadline", "end"), [(12, 12), (11, None)])
def test_a_deadline_before_what_cannot_run_at_once(deadline: int, end: int | None) -> None:
    """Each two of them ask too much of something, though of no one thing all three."""
    activities = (act("a", 4, ring=2, pan=1), act("b", 4, ring=2, oven=2), act("c", 4, pan=1, oven=2))
    rooms = (Resource("ring", 3), Resource("pan", 1), Resource("oven", 3))
    project = Project(activities, rooms, (), deadline)
    assert least(project) == end
    if end is None:
        assert schedule(project).why_not == (
            "what cannot run at once ('a', 'b', 'c') lasts until 12 at the least, after the deadline 11",
        )


def circle() -> Project:
    """b starts 5 after a ends or later, but must end within 6 of a's start: 3 + 5 + 5 is 7 too many."""
    lags = (ProjectLag("z", "a"), ProjectLag("a", "b", 5), ProjectLag("a", "b", None, 6, START, END))
    return Project((act("z", 1), act("a", 3), act("b", 5)), (), lags)


def test_lags_in_a_circle_are_named_in_order_without_a_solver() -> None:
    answer = schedule(circle())
    assert answer.status is Status.IMPOSSIBLE
    assert answer.solver == "none needed"
    assert answer.why_not == (
        (
            "the lags go round in a circle that ends 7 after itself: "
            "'a' (end) to 'b' (start): least 5; 'a' (start) to 'b' (end): greatest 6"
        ),
    )


def test_every_reason_is_given_at_once() -> None:
    project = circle()
    activities = (act("z", 1, ring=2), *project.activities[1:])
    answer = schedule(Project(activities, (Resource("ring", 1),), project.lags))
    assert [reason.split(" ")[0] for reason in answer.why_not] == ["'z'", "the"]


def tied() -> Project:
    """a and b have the only hands 4 each, and both must start within 3 of the start of c."""
    lags = (
        ProjectLag("c", "a", 0, 3, START, START),
        ProjectLag("c", "b", 0, 3, START, START),
        ProjectLag("c", "d", 0, 90),
    )
    activities = (act("a", 4, hands=1), act("b", 4, hands=1), act("c", 2, ring=1), act("d", 2, ring=1))
    return Project(activities, (Resource("hands", 1), Resource("ring", 1)), lags)


def test_what_clashes_is_found_and_nothing_else() -> None:
    assert schedule(tied(), seconds=60).status is Status.IMPOSSIBLE
    found = clash(tied(), seconds=60)
    assert found.fewest
    assert found.limits == (
        "'c' (start) to 'a' (start): greatest 3",
        "'c' (start) to 'b' (start): greatest 3",
        "the capacity 1 of 'hands'",
    )


def test_a_clash_with_the_deadline_names_it() -> None:
    assert clash(three(7), seconds=60).limits == ("the deadline 7", "the capacity 2 of 'ring'")


def test_without_time_a_clash_does_not_claim_to_be_the_fewest() -> None:
    assert not clash(tied(), seconds=0).fewest
