"""A timetable and how good it is known to be: records only."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Status(Enum):
    """How certain the answer is; never more certain than the solver was."""

    PROVEN = "proven shortest"
    GOOD = "good, with a gap"
    IMPOSSIBLE = "no timetable keeps all the rules"
    OUT_OF_TIME = "out of time"


@dataclass(frozen=True, slots=True)
class Timed:
    """An activity from `start` to `end`; `cooks` are the people (0, 1, ...) whose hands it keeps busy."""

    activity: str
    start: int
    end: int
    cooks: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Washed:
    """A tool (of a kind, the which-th of it) washed between two uses, by a cook."""

    kind: str
    which: int
    start: int
    end: int
    cook: int


@dataclass(frozen=True, slots=True)
class Held:
    """Which tool of its kind (0, 1, ...) a use has."""

    use: str
    which: int


@dataclass(frozen=True, slots=True)
class Heated:
    """The heat of the oven while it holds an activity's load."""

    activity: str
    heat_c: int


@dataclass(frozen=True, slots=True)
class Timetable:
    """When each activity runs and with what. Members of a merging that is done (`merged`) have the same times.

    Everything is in the natural order of the activities and uses; washes by start, then kind and number.
    """

    times: tuple[Timed, ...]
    tools: tuple[Held, ...] = ()
    washes: tuple[Washed, ...] = ()
    oven: tuple[Heated, ...] = ()
    merged: tuple[str, ...] = ()

    def timed(self, activity: str) -> Timed:
        """Find when an activity runs (KeyError if it does not stand there)."""
        for time in self.times:
            if time.activity == activity:
                return time
        raise KeyError(activity)


@dataclass(frozen=True, slots=True)
class Measure:
    """What makes one timetable better than another, the first difference deciding; all in minutes.

    `finish`: when the last activity or wash ends. `hands_span`: from the first to the last hands-on work. `warm`: how
    long food stands about warm, added up.
    """

    finish: int
    hands_span: int
    warm: int


@dataclass(frozen=True, slots=True)
class DayAnswer:
    """The answer to a day's question.

    `slow` is the timetable that is promised: hands-on work takes `slower` times as long as stated. `nominal` is the same work
    in the same order at the stated pace, which is what is shown. Both have been judged. `bound` is the least possible finish
    of `slow`, in minutes; `missed` are limits that what has already happened has broken. `why_not` says why there is
    no timetable.
    """

    status: Status
    slow: Timetable | None
    nominal: Timetable | None
    measure: Measure | None
    bound: int | None
    seconds: float
    seed: int
    solver: str
    missed: tuple[str, ...] = ()
    why_not: tuple[str, ...] = ()
