"""Timetables of a project without a solver: a first one, made in one go, and one that is there shifted to the left."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence

from ladleworth.cookday.lags import Edge, Starts, earliest, tightened
from ladleworth.cookday.project import Project
from ladleworth.cookday.project_lags import Windows

TRIES = 8
"""How often it is begun anew, with something held back, before it is given up: more seldom came to anything."""


class Room:
    """How much of a resource is held from each time to the next; nothing is held in the end."""

    def __init__(self, capacity: int) -> None:
        self._capacity = capacity
        self._times = [0]
        self._held = [0]

    def first(self, start: int, lasts: int, amount: int) -> int:
        """Find the first time, not before `start`, from which so much more can be held for so long."""
        at = bisect_right(self._times, start) - 1
        while True:
            if self._held[at] + amount > self._capacity:
                start = self._times[at + 1]
            elif at + 1 == len(self._times) or self._times[at + 1] >= start + lasts:
                return start
            at += 1

    def hold(self, start: int, lasts: int, amount: int) -> None:
        """Hold so much more for so long."""
        for at in range(self._split(start), self._split(start + lasts)):
            self._held[at] += amount

    def _split(self, time: int) -> int:
        at = bisect_left(self._times, time)
        if at == len(self._times) or self._times[at] != time:
            self._times.insert(at, time)
            self._held.insert(at, self._held[at - 1])
        return at


def draft(project: Project, windows: Windows) -> tuple[int, ...] | None:
    """Start one activity after another as early as it can, those that leave the least time first.

    Where a greatest lag breaks, what came before is held back as far as that lag asks, and all is begun anew.

    Parameters
    ----------
    project, windows
        A project for which `reasons` finds none, so that no demand is above its capacity.

    Returns
    -------
    tuple of int or None
        The starts by number of activity; they keep all rules. None where it was given up.
    """
    edges = tightened([tied.edge for tied in windows.ties])
    best: tuple[int, ...] | None = None
    for slack in (windows.latest, windows.earliest):
        order = sorted(range(len(slack)), key=lambda n: (slack[n], windows.earliest[n], n))
        found = _begun_anew(project, edges, order)
        if found is not None and (best is None or ends_at(project, found) < ends_at(project, best)):
            best = found
    return best if best is not None and ends_at(project, best) <= windows.horizon else None


def ends_at(project: Project, starts: tuple[int, ...]) -> int:
    """When the last activity ends, of a project that has any."""
    return max(start + activity.duration for start, activity in zip(starts, project.activities, strict=True))


def left_shifted(project: Project, windows: Windows, starts: tuple[int, ...]) -> tuple[int, ...]:
    """Start everything as early as it can while what shared a resource one after the other stays in that order.

    Whatever overlaps then has overlapped before, all at one time, so that no capacity is exceeded.
    """
    holders = [
        frozenset(demand.resource for demand in activity.demands if demand.amount and activity.duration)
        for activity in project.activities
    ]
    ends = [start + a.duration for start, a in zip(starts, project.activities, strict=True)]
    orders = [
        Edge(one, other, project.activities[one].duration)
        for one, end in enumerate(ends)
        for other, start in enumerate(starts)
        if end <= start and holders[one] & holders[other]
    ]
    shifted = earliest([*(tied.edge for tied in windows.ties), *orders], [0] * len(starts))
    assert isinstance(shifted, Starts)  # `starts` keep all these edges, so that no circle is among them
    return shifted.at


def _begun_anew(project: Project, edges: tuple[Edge, ...], order: list[int]) -> tuple[int, ...] | None:
    floors = [0] * len(order)
    for _ in range(TRIES):
        bound = earliest(edges, floors)
        assert isinstance(bound, Starts)
        starts = _in_order(project, edges, order, bound.at)
        late = [edge for edge in edges if starts[edge.second] < starts[edge.first] + edge.least]
        if not late:
            return starts
        for edge in late:
            floors[edge.second] = max(floors[edge.second], starts[edge.first] + edge.least)
    return None


def _in_order(
    project: Project, edges: Sequence[Edge], order: Sequence[int], floors: Sequence[int]
) -> tuple[int, ...]:
    """Start every activity in this order, not before its floor and what it must follow of those before it."""
    into: list[list[Edge]] = [[] for _ in order]
    for edge in edges:
        into[edge.second].append(edge)
    rooms = {resource.name: Room(resource.capacity) for resource in project.resources}
    starts: dict[int, int] = {}
    for number in order:
        follows = (starts[edge.first] + edge.least for edge in into[number] if edge.first in starts)
        start = max((floors[number], *follows))
        activity = project.activities[number]
        held = [(rooms[d.resource], d.amount) for d in activity.demands if d.amount and activity.duration]
        starts[number] = _where_all_have_room(held, start, activity.duration)
        for room, amount in held:
            room.hold(starts[number], activity.duration, amount)
    return tuple(starts[number] for number in range(len(order)))


def _where_all_have_room(held: list[tuple[Room, int]], start: int, lasts: int) -> int:
    def later(start: int) -> Iterator[int]:
        return (room.first(start, lasts, amount) for room, amount in held)

    while (moved := max(later(start), default=start)) > start:
        start = moved
    return start
