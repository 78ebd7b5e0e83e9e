"""The moments of a day and what ties them: lengths, lags, facts, the deadline. No solver is needed for any of it.

The n-th activity starts at moment 2 n + 1 and ends at moment 2 n + 2; moment 0 is the start of the day. A merging may
or may not be done, so the ties hold either way: of two lengths the shorter counts as the least.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from ladleworth.cookday.happened import asks_least, asks_most, fact_at, lag_words
from ladleworth.cookday.lags import Circle, Edge, Starts, earliest, latest, longest_from
from ladleworth.cookday.question import Activity, DayQuestion, Lag
from ladleworth.cookday.verdict import longest, merging_min, paced, shortest

LONG_AGO = -1_000_000
"""A minute before anything happened: where moments stand before a tie moves them."""


@dataclass(frozen=True, slots=True)
class Tie:
    """Moment `edge.second` is at least `edge.least` minutes after moment `edge.first`, and why."""

    edge: Edge
    words: str
    lag: Lag | None = None


@dataclass(slots=True)
class Moments:
    """The moments of a question at one pace, and what the ties between them alone say."""

    question: DayQuestion
    slow: bool
    number: dict[str, int]
    ties: tuple[Tie, ...]
    _after: dict[int, tuple[int | None, ...]] = field(default_factory=dict)

    def at(self, activity: str, *, end: bool) -> int:
        """Number a moment."""
        return 2 * self.number[activity] + (2 if end else 1)

    def count(self) -> int:
        """Count the moments."""
        return 2 * len(self.number) + 1

    def edges(self) -> list[Edge]:
        """List the ties as edges."""
        return [tie.edge for tie in self.ties]

    def earliest(self) -> Starts | Circle:
        """Find the earliest minute of each moment, or ties that no timetable keeps."""
        return earliest(self.edges(), [0] + [LONG_AGO] * (self.count() - 1))

    def latest(self, horizon: int) -> tuple[int, ...]:
        """Find the latest minute of each moment with which all is done by the horizon; there is no circle."""
        return latest(self.edges(), [0] + [horizon] * (self.count() - 1))

    def after(self, first: int, second: int) -> int | None:
        """Say how many minutes after one moment another is at the least (None: nothing says so)."""
        if first not in self._after:
            self._after[first] = longest_from(first, self.edges(), self.count())
        return self._after[first][second]


def moments_of(question: DayQuestion, *, slow: bool) -> Moments:
    """List the moments of a question and their ties, at the slow or the stated pace."""
    number = {a.name: n for n, a in enumerate(question.activities)}
    moments = Moments(question, slow, number, ())
    moments.ties = (
        *(tie for activity in question.activities for tie in _times(moments, activity)),
        *(tie for activity in question.activities for tie in _oven(moments, activity)),
        *(tie for lag in question.lags for tie in _lag(moments, lag)),
        *(_deadline(moments, question.deadline) if slow and question.deadline is not None else ()),
    )
    return moments


def lengths(question: DayQuestion, activity: Activity, *, slow: bool) -> tuple[int, int]:
    """Give the least and greatest minutes of an activity, done by itself or in a merging."""
    least, most = shortest(question, activity, slow=slow), longest(question, activity, slow=slow)
    for merging in question.mergings:
        if activity.name in merging.activities:
            together = merging_min(question, merging, slow=slow)
            least, most = min(least, together), max(most, together)
    return least, most


def _times(moments: Moments, activity: Activity) -> Iterator[Tie]:
    """When it may start, and how long it takes; or when it started."""
    question, name = moments.question, activity.name
    start, end = moments.at(name, end=False), moments.at(name, end=True)
    least, most = lengths(question, activity, slow=moments.slow)
    began = fact_at(question, name, end=False)
    ended = fact_at(question, name, end=True)
    if began is None:
        floor = max(0, question.now)
        yield Tie(Edge(0, start, floor), f"{name} starts at minute {floor} or later")
        yield Tie(
            Edge(start, end, least), f"{name} takes {least} minutes" + (" or more" if most > least else "")
        )
        yield Tie(Edge(end, start, -most), f"{name} takes {most} minutes at the most")
        return
    yield from _fact(start, began, began, f"{name} started at minute {began}")
    if ended is not None:
        yield from _fact(end, ended, ended, f"{name} ended at minute {ended}")
    else:
        first, last = max(question.now, began + least), max(question.now, began + most)
        words = f"{name} is running and ends at minute {first}" + (f" to {last}" if last > first else "")
        yield from _fact(end, first, last, words)


def _fact(moment: int, first: int, last: int, words: str) -> Iterator[Tie]:
    yield Tie(Edge(0, moment, first), words)
    yield Tie(Edge(moment, 0, -last), words)


def _oven(moments: Moments, activity: Activity) -> Iterator[Tie]:
    """The oven is hot enough, or cool enough, before the first load."""
    question, oven, load = moments.question, moments.question.bench.oven, activity.oven
    if oven is None or load is None or fact_at(question, activity.name, end=False) is not None:
        return
    nearest = min(max(oven.start_c, load.want_c - load.tolerance_c), load.want_c + load.tolerance_c)
    minutes = oven.change_min(oven.start_c, nearest)
    words = f"the oven takes {minutes} minutes to {nearest} °C for {activity.name}"
    yield Tie(Edge(0, moments.at(activity.name, end=False), minutes), words)


def _lag(moments: Moments, lag: Lag) -> Iterator[Tie]:
    first = moments.at(lag.first, end=lag.first_end)
    second = moments.at(lag.second, end=lag.second_end)
    if asks_least(moments.question, lag):
        yield Tie(Edge(first, second, lag.least), f"{lag_words(lag)} at least {lag.least} minutes", lag)
    if lag.most is not None and asks_most(moments.question, lag):
        yield Tie(Edge(second, first, -lag.most), f"{lag_words(lag)} at most {lag.most} minutes", lag)


def _deadline(moments: Moments, deadline: int) -> Iterator[Tie]:
    for activity in moments.question.activities:
        end = moments.at(activity.name, end=True)
        yield Tie(Edge(end, 0, -deadline), f"all is done by minute {deadline}")


def horizon_of(moments: Moments) -> int:
    """Give a minute by which all can be done, if a timetable exists at all.

    In the earliest timetable of any order every moment has a chain of reasons back to a fact or to the start of the
    day, and no chain goes through a thing twice: an activity, a lag, a wash or a change of the oven's heat.
    """
    question = moments.question
    minutes = max((b.start if b.end is None else b.end for b in question.begun), default=0)
    minutes = max(0, minutes, question.now)
    minutes += sum(lengths(question, a, slow=moments.slow)[1] for a in question.activities)
    minutes += sum(max(0, lag.least, -(lag.most or 0)) for lag in question.lags)
    wash = {tool.name: paced(question, tool.wash_min, slow=moments.slow) for tool in question.bench.tools}
    minutes += sum(wash[use.kind] for use in question.uses)
    minutes += _heating(question)
    return minutes if question.deadline is None or not moments.slow else min(minutes, question.deadline)


def _heating(question: DayQuestion) -> int:
    """The most minutes that all changes of the oven's heat can take."""
    oven = question.bench.oven
    loads = [a.oven for a in question.activities if a.oven]
    if oven is None or not loads:
        return 0
    low = min(oven.start_c, *(load.want_c - load.tolerance_c for load in loads))
    high = max(oven.start_c, *(load.want_c + load.tolerance_c for load in loads))
    return len(loads) * max(oven.change_min(low, high), oven.change_min(high, low))
