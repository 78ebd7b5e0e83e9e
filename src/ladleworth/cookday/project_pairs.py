"""Activities of which no two can run at once, whatever the resources are that they share with one another.

That a and b, b and c, and a and c each ask too much of some resource says nothing to a rule about one resource, yet the
three must run one after another. To know such groups shortens proofs a great deal.
"""

from __future__ import annotations

from itertools import combinations

from ladleworth.cookday.project import Project

MOST = 12
"""How many groups are told of at the most: the solver proved no sooner with more."""


def groups_apart(project: Project) -> tuple[tuple[int, ...], ...]:
    """Find groups of activities that run one after another in every timetable.

    Returns
    -------
    tuple of tuple of int
        The largest groups met with when each activity in turn is joined by those that most others cannot run with, by
        number, of three or more; those that share one resource of capacity 1 are left out. At most `MOST` of them,
        those that take longest.
    """
    apart = _apart(project)
    groups = {_grown(apart, seed) for seed in range(len(apart))}
    units = [
        {n for n, a in enumerate(project.activities) if a.duration and a.demand(resource.name)}
        for resource in project.resources
        if resource.capacity == 1
    ]
    told = [group for group in groups if len(group) > 2 and not any(unit.issuperset(group) for unit in units)]
    lasts = [activity.duration for activity in project.activities]
    told.sort(key=lambda group: (-sum(lasts[n] for n in group), group))
    return tuple(told[:MOST])


def _apart(project: Project) -> list[set[int]]:
    """Give for each activity those that it cannot run with, since a resource has too little for both."""
    apart: list[set[int]] = [set() for _ in project.activities]
    for resource in project.resources:
        held = [
            (n, activity.demand(resource.name))
            for n, activity in enumerate(project.activities)
            if activity.duration and activity.demand(resource.name)
        ]
        for (one, amount), (other, more) in combinations(held, 2):
            if amount + more > resource.capacity:
                apart[one].add(other)
                apart[other].add(one)
    return apart


def _grown(apart: list[set[int]], seed: int) -> tuple[int, ...]:
    group, may = [seed], set(apart[seed])
    while may:
        joins = min(may, key=lambda n: (-len(apart[n]), n))
        group.append(joins)
        may &= apart[joins]
    return tuple(sorted(group))
