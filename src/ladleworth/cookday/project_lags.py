"""What the lags of a project alone say: windows for the starts, a horizon, and reasons why there can be no timetable.

No solver is needed for any of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ladleworth.cookday.lags import Circle, Edge, Starts, earliest, latest
from ladleworth.cookday.project import Anchor, Project, ProjectLag
from ladleworth.cookday.project_pairs import groups_apart


@dataclass(frozen=True, slots=True)
class Tied:
    """A lag as an edge between starts, by number of activity: its least value, or its greatest turned round."""

    edge: Edge
    lag: ProjectLag
    turned: bool

    def __str__(self) -> str:
        asks = "greatest" if self.turned else "least"
        number = self.lag.greatest if self.turned else self.lag.least
        return (
            f"{self.lag.first!r} ({self.lag.first_anchor.value}) to {self.lag.second!r} "
            f"({self.lag.second_anchor.value}): {asks} {number}"
        )


@dataclass(frozen=True, slots=True)
class Windows:
    """What starts the lags leave: by number of activity, from the earliest to the latest that keeps the horizon.

    `least` is what no makespan can be below by the lags and by all that must find room. A timetable that
    is within the horizon exists if any exists that keeps the deadline. `apart` are groups of activities of which no two
    can run at once.
    """

    ties: tuple[Tied, ...]
    apart: tuple[tuple[int, ...], ...]
    earliest: tuple[int, ...]
    latest: tuple[int, ...]
    least: int
    horizon: int

    def within(self, horizon: int) -> Windows:
        """Give the windows of a nearer horizon."""
        sooner = self.horizon - horizon
        return replace(self, latest=tuple(start - sooner for start in self.latest), horizon=horizon)


def ties_of(project: Project) -> tuple[Tied, ...]:
    """Turn every lag into edges between starts."""
    return tuple(_ties(project))


def _ties(project: Project) -> Iterator[Tied]:
    number = {activity.name: n for n, activity in enumerate(project.activities)}
    lasts = {activity.name: activity.duration for activity in project.activities}
    for lag in project.lags:
        first, second = number[lag.first], number[lag.second]
        shift = (lasts[lag.first] if lag.first_anchor is Anchor.END else 0) - (
            lasts[lag.second] if lag.second_anchor is Anchor.END else 0
        )
        if lag.least is not None:
            yield Tied(Edge(first, second, lag.least + shift), lag, turned=False)
        if lag.greatest is not None:
            yield Tied(Edge(second, first, -(lag.greatest + shift)), lag, turned=True)


def horizon_of(project: Project, ties: tuple[Tied, ...]) -> int:
    """Give a time by which some shortest timetable has ended, if there is a timetable at all.

    Start everything as early as the lags and the order on the resources let it: each start is then the end of a path
    of lags and durations that meets no activity twice, so that it is no later than the sum over all activities of the
    most that a path can gain at one: its duration, or the greatest edge that leads from it.
    """
    gains = [activity.duration for activity in project.activities]
    for tied in ties:
        gains[tied.edge.first] = max(gains[tied.edge.first], tied.edge.least)
    return sum(gains)


def reasons(project: Project) -> tuple[str, ...]:
    """Say without a solver why there can be no timetable: each reason is enough by itself.

    Returns
    -------
    tuple of str
        A demand above the capacity; lags that go round in a circle; lags, or all that must find room, that lead beyond
        the deadline. Empty where nothing of this is so, which does not say that there is a timetable.
    """
    room = {resource.name: resource.capacity for resource in project.resources}
    found = [
        f"{activity.name!r} takes {demand.amount} of {demand.resource!r}, which has {room[demand.resource]}"
        for activity, demand in project.demands()
        if activity.duration and demand.amount > room[demand.resource]
    ]
    ties = ties_of(project)
    starts = _earliest(project, ties)
    if isinstance(starts, Circle):
        said = "; ".join(str(ties[place]) for place in starts.edges)
        found.append(f"the lags go round in a circle that ends {starts.excess} after itself: {said}")
    elif project.deadline is not None and project.activities and not found:
        found += _too_late(project, ties, starts, project.deadline)
    return tuple(found)


def windows_of(project: Project) -> Windows:
    """Work out the windows of a project for which `reasons` finds none."""
    ties = ties_of(project)
    starts = _earliest(project, ties)
    assert isinstance(starts, Starts)
    tails = _tails(project, ties)
    groups = groups_apart(project)
    filled = (until for _, until in _filled(project, groups, starts, tails))
    least = max((max(_ends(project, starts), default=0), *filled))
    most = max(least, horizon_of(project, ties))
    horizon = most if project.deadline is None else min(most, project.deadline)
    latest_starts = tuple(
        horizon - tail - a.duration for a, tail in zip(project.activities, tails, strict=True)
    )
    return Windows(ties, groups, starts.at, latest_starts, least, horizon)


def _earliest(project: Project, ties: tuple[Tied, ...]) -> Starts | Circle:
    return earliest([tied.edge for tied in ties], [0] * len(project.activities))


def _ends(project: Project, starts: Starts) -> list[int]:
    return [start + a.duration for start, a in zip(starts.at, project.activities, strict=True)]


def _tails(project: Project, ties: tuple[Tied, ...]) -> tuple[int, ...]:
    """Work out for each activity how long after its end the project ends at the least, by the lags alone."""
    durations = [activity.duration for activity in project.activities]
    starts = latest([tied.edge for tied in ties], [-duration for duration in durations])
    return tuple(-start - duration for start, duration in zip(starts, durations, strict=True))


def _filled(
    project: Project, groups: tuple[tuple[int, ...], ...], starts: Starts, tails: tuple[int, ...]
) -> Iterator[tuple[str, int]]:
    """Say of each resource, and of each group of which no two run at once, until when it lasts at the least.

    All that starts no sooner than some time and ends no later than some time before the project's end must find room
    between the two.
    """
    for resource in project.resources:
        amounts = [activity.duration * activity.demand(resource.name) for activity in project.activities]
        yield f"what is held of {resource.name!r}", _lasts_until(starts.at, tails, amounts, resource.capacity)
    for group in groups:
        amounts = [a.duration if n in group else 0 for n, a in enumerate(project.activities)]
        names = ", ".join(repr(project.activities[n].name) for n in group)
        yield f"what cannot run at once ({names})", _lasts_until(starts.at, tails, amounts, 1)


def _lasts_until(starts: Sequence[int], tails: Sequence[int], amounts: Sequence[int], capacity: int) -> int:
    held = sorted(
        ((tail, start, amount) for start, tail, amount in zip(starts, tails, amounts, strict=True) if amount),
        reverse=True,
    )
    until = 0
    for begin in {start for _, start, _ in held}:
        total = 0
        for tail, start, amount in held:
            if start >= begin:
                total += amount
                until = max(until, begin + -(-total // capacity) + tail)
    return until


def _too_late(project: Project, ties: tuple[Tied, ...], starts: Starts, deadline: int) -> Iterator[str]:
    """Name the activity that ends last by the lags alone and what holds it back, and resources that are too full."""
    ends = _ends(project, starts)
    last = max(range(len(ends)), key=ends.__getitem__)
    if ends[last] > deadline:
        edges = [tied.edge for tied in ties]
        said = "; ".join(str(ties[place]) for place in starts.chain(last, edges))
        because = f", by the lags {said}" if said else ""
        yield f"{project.activities[last].name!r} ends at {ends[last]} at the earliest, after the deadline {deadline}{because}"
    filled = _filled(project, groups_apart(project), starts, _tails(project, ties))
    what, until = max(filled, key=lambda one: one[1], default=("", 0))
    if until > max(deadline, ends[last]):
        yield f"{what} lasts until {until} at the least, after the deadline {deadline}"
