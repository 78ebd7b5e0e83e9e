"""Groups of activities of which no two can run at once."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from ladleworth.cookday.project import Demand, Project, ProjectActivity, Resource
from ladleworth.cookday.project_pairs import MOST, groups_apart


def act(name: str, duration: int, **demands: int) -> ProjectActivity:
    return ProjectActivity(name, duration, tuple(Demand(resource, n) for resource, n in demands.items()))


def test_a_group_is_seen_across_resources() -> None:
    activities = (act("a", 1, r=2, s=1), act("b", 1, r=2, t=2), act("c", 1, s=1, t=2), act("d", 1, r=1))
    project = Project(activities, (Resource("r", 3), Resource("s", 1), Resource("t", 3)))
    assert groups_apart(project) == ((0, 1, 2),)


def test_what_one_resource_of_capacity_1_says_already_is_left_out() -> None:
    activities = tuple(act(name, 1, r=1) for name in "abcd")
    assert groups_apart(Project(activities, (Resource("r", 1),))) == ()
    assert groups_apart(Project(tuple(act(n, 1, r=2) for n in "abcd"), (Resource("r", 3),))) == (
        (0, 1, 2, 3),
    )


def test_what_takes_no_time_and_pairs_are_left_out() -> None:
    activities = (act("a", 0, r=2), act("b", 1, r=2), act("c", 1, r=2))
    assert groups_apart(Project(activities, (Resource("r", 3),))) == ()


def test_no_more_are_told_of_than_help() -> None:
    """Twenty threes, each with a resource of its own; the longest are told of."""
    activities = tuple(act(f"{n}.{k}", n + 1, **{f"r{n}": 2}) for n in range(20) for k in range(3))
    groups = groups_apart(Project(activities, tuple(Resource(f"r{n}", 3) for n in range(20))))
    assert len(groups) == MOST
    assert groups[0] == (57, 58, 59)


DEMANDS = st.fixed_dictionaries({"r": st.integers(0, 4), "s": st.integers(0, 4)})


@given(st.lists(st.tuples(st.integers(0, 3), DEMANDS), max_size=9))
def test_each_two_of_a_group_ask_too_much_of_something(drawn: list[tuple[int, dict[str, int]]]) -> None:
    activities = tuple(act(f"a{n}", lasts, **demands) for n, (lasts, demands) in enumerate(drawn))
    project = Project(activities, (Resource("r", 4), Resource("s", 5)))
    for group in groups_apart(project):
        assert len(set(group)) == len(group) > 2
        for one, other in itertools.combinations(group, 2):
            both = [activities[one], activities[other]]
            assert all(activity.duration for activity in both)
            assert any(sum(a.demand(r.name) for a in both) > r.capacity for r in project.resources)
