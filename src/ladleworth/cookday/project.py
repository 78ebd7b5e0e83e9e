"""A project in the plain sense of scheduling: activities, what they hold while they run, and the lags between them.

It knows no kitchen. It is here so that the timetables of this room can be measured against published instances and
against other solvers. A job shop is a project whose resources all have a capacity of 1. Times are whole numbers of
one unit (minutes, say) from 0. What the records mean, and every rule, stands in `project_judge.py`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum

from ladleworth.cookday.answer import Status
from ladleworth.cookday.question import require


class Anchor(Enum):
    """Which end of an activity a lag is counted from, or to."""

    START = "start"
    END = "end"


@dataclass(frozen=True, slots=True)
class Resource:
    """Something renewable of which `capacity` units are there all the time."""

    name: str
    capacity: int

    def __post_init__(self) -> None:
        require(bool(self.name), "a resource needs a name")
        require(self.capacity >= 0, f"{self.name}: the capacity must not be negative")


@dataclass(frozen=True, slots=True)
class Demand:
    """Units of a resource that an activity holds while it runs."""

    resource: str
    amount: int

    def __post_init__(self) -> None:
        require(self.amount >= 0, f"a demand of {self.resource} must not be negative")


@dataclass(frozen=True, slots=True)
class ProjectActivity:
    """A piece of work of so long a `duration` that runs without a break. One of duration 0 holds nothing."""

    name: str
    duration: int
    demands: tuple[Demand, ...] = ()

    def __post_init__(self) -> None:
        require(bool(self.name), "an activity needs a name")
        require(self.duration >= 0, f"{self.name}: the duration must not be negative")
        _unique((demand.resource for demand in self.demands), f"{self.name}: the demand of")

    def demand(self, resource: str) -> int:
        """How many units of a resource it holds while it runs; 0 for one that it does not name."""
        return sum(demand.amount for demand in self.demands if demand.resource == resource)


@dataclass(frozen=True, slots=True)
class ProjectLag:
    """From an anchor of `first` to an anchor of `second` at least `least` and at most `greatest` pass.

    Either may be None (no such limit) or negative (the other way round in time).
    """

    first: str
    second: str
    least: int | None = 0
    greatest: int | None = None
    first_anchor: Anchor = Anchor.END
    second_anchor: Anchor = Anchor.START

    def __post_init__(self) -> None:
        require(
            self.least is not None or self.greatest is not None,
            f"from {self.first} to {self.second}: a lag has a least or a greatest value",
        )
        require(
            self.least is None or self.greatest is None or self.least <= self.greatest,
            f"from {self.first} to {self.second}: the greatest lag {self.greatest} is below the least {self.least}",
        )


@dataclass(frozen=True, slots=True)
class Project:
    """The whole question: find the timetable of least makespan, which is the end of the last activity.

    `deadline` is the time by which all must have ended (None: no such wish).
    """

    activities: tuple[ProjectActivity, ...]
    resources: tuple[Resource, ...] = ()
    lags: tuple[ProjectLag, ...] = ()
    deadline: int | None = None

    def __post_init__(self) -> None:
        require(self.deadline is None or self.deadline >= 0, "the deadline must not be negative")
        _unique((activity.name for activity in self.activities), "the activity")
        _unique((resource.name for resource in self.resources), "the resource")
        names = {activity.name for activity in self.activities}
        strange = sorted({name for lag in self.lags for name in (lag.first, lag.second)} - names)
        require(not strange, f"a lag names what is no activity: {', '.join(map(repr, strange))}")
        there = {resource.name for resource in self.resources}
        unknown = sorted({demand.resource for _, demand in self.demands()} - there)
        require(not unknown, f"a demand names what is no resource: {', '.join(map(repr, unknown))}")

    def demands(self) -> Iterator[tuple[ProjectActivity, Demand]]:
        """Every demand with its activity."""
        return ((activity, demand) for activity in self.activities for demand in activity.demands)


@dataclass(frozen=True, slots=True)
class ProjectTime:
    """An activity from `start` to `end`."""

    activity: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class ProjectAnswer:
    """A judged timetable and how good it is known to be.

    `times` are in the order of the activities, None where there is no timetable; `bound` is what no makespan can be
    below (None: nothing is known). `seconds` are the solver's own. `why_not` says why there is no timetable.
    """

    status: Status
    times: tuple[ProjectTime, ...] | None
    makespan: int | None
    bound: int | None
    seconds: float
    seed: int
    solver: str
    why_not: tuple[str, ...] = ()


def _unique(names: Iterable[str], what: str) -> None:
    twice = [name for name, times in Counter(names).items() if times > 1]
    require(not twice, f"{what} {', '.join(map(repr, twice))} stands there more than once")
