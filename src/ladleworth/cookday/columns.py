"""Columns of a day's model: when each activity runs, which mergings are done, and each piece of work with what it takes.

A piece of work here is an activity done by itself, or a merging; a literal says whether it is there. What has begun and
still runs counts from now on: nothing new can be at work before.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.lags import Circle
from ladleworth.cookday.moments import Moments, horizon_of, moments_of
from ladleworth.cookday.question import Activity, DayQuestion, Merging, ToolUse
from ladleworth.cookday.sheet import Sheet, Sum, holds
from ladleworth.cookday.verdict import longest, merging_min, shortest


@dataclass(slots=True)
class Job:
    """A piece of work from `start` for `size` minutes to `end`, if `when` holds, with the most that any member takes.

    `minutes` is the least that it takes; `fixed` says that it never takes more. A job without members is a wash.
    """

    members: tuple[Activity, ...]
    start: Sum
    size: Sum
    end: Sum
    minutes: int
    fixed: bool
    when: int | None = None
    begun: bool = False
    ended: bool = False
    span: int | None = None

    def takes(self, what: str) -> int:
        """How much of something it takes: 'hands', 'burners', 'counter', 'microwaves', 'shelves'."""
        if not self.members:
            return int(what == "hands")
        if what == "shelves":
            return max(a.oven.shelves if a.oven else 0 for a in self.members)
        return max(int(getattr(a, what)) for a in self.members)

    def conditions(self) -> tuple[int, ...]:
        """The literals that must hold for it to be there."""
        return () if self.when is None else (self.when,)


@dataclass(frozen=True, slots=True)
class Node:
    """A use of a tool, or uses of a merging that have one tool as one use, in the order of a kind's tools.

    `when`: the literal that it is there (None: always). `wash`: the job of washing the tool before it, if that can be.
    """

    uses: tuple[ToolUse, ...]
    start: Sum
    end: Sum
    when: int | None
    begun: bool
    wash: Job | None = None


@dataclass(slots=True)
class Kind:
    """The uses of a kind of tool as nodes 1, 2, ..., and the literal of each arc between two (0: the start and end)."""

    name: str
    nodes: tuple[Node, ...]
    arcs: dict[tuple[int, int], int]


@dataclass(slots=True)
class Kept:
    """What an earlier timetable has settled for what has begun: heats of the oven, and tools by their number."""

    heats: dict[str, int] = field(default_factory=dict)
    tools: dict[str, int] = field(default_factory=dict)


class DayModel:
    """A day's question as a sheet, with the columns by what they mean."""

    def __init__(self, question: DayQuestion, *, slow: bool, kept: Kept | None = None) -> None:
        self.question, self.slow, self.kept = question, slow, kept or Kept()
        self.moments: Moments = moments_of(question, slow=slow)
        earliest = self.moments.earliest()
        self.possible = not isinstance(earliest, Circle)
        self.horizon = horizon_of(self.moments)
        self.first: tuple[int, ...] = () if isinstance(earliest, Circle) else earliest.at
        self.last: tuple[int, ...] = self.moments.latest(self.horizon) if self.possible else ()
        self.possible = self.possible and all(a <= b for a, b in zip(self.first, self.last, strict=True))
        self.sheet = Sheet()
        self.starts: dict[str, Sum] = {}
        self.ends: dict[str, Sum] = {}
        self.merged: dict[str, int] = {}
        self.jobs: list[Job] = []
        self.washes: list[Job] = []
        self.heats: dict[str, Sum] = {}
        self.kinds: list[Kind] = []
        self.finish = self.first_hands = self.last_hands = self.warm = Sum()
        self.soonest = 0
        """The finish cannot be below this"""

    def window(self, activity: str, *, end: bool) -> tuple[int, int]:
        """The earliest and latest minute of a moment."""
        at = self.moments.at(activity, end=end)
        return self.first[at], self.last[at]

    def span(self, job: Job) -> int:
        """Number the span of a job."""
        if job.span is None:
            job.span = self.sheet.span(job.start, job.size, job.end, job.when)
        return job.span

    def tidy(self, values: tuple[int, ...]) -> tuple[int, ...]:
        """Bring the finish, and the first and last hands-on minute, to where the times of a solution put them."""
        known = list(values)
        hands = [a.name for a in self.question.activities if a.hands]
        washes = [
            wash for wash in self.washes if all(holds(literal, values) for literal in wash.conditions())
        ]
        starts = [self.starts[name].value(values) for name in hands] + [w.start.value(values) for w in washes]
        ends = [self.ends[name].value(values) for name in hands] + [w.end.value(values) for w in washes]
        finish = max((end.value(values) for end in self.ends.values()), default=0)
        for total, minute in (
            (self.finish, max(finish, self.soonest)),
            (self.first_hands, min(starts, default=0)),
            (self.last_hands, max(ends, default=0)),
        ):
            for column, _ in total.terms:
                known[column] = minute
        return tuple(known)

    def surely_after(self, later: tuple[str, bool], earlier: tuple[str, bool], least: int = 0) -> bool:
        """Tell whether the ties alone put a moment at least so long after another."""
        minutes = self.moments.after(
            self.moments.at(earlier[0], end=earlier[1]), self.moments.at(later[0], end=later[1])
        )
        return minutes is not None and minutes >= least


def columns_for_times(model: DayModel) -> None:
    """Add when each activity starts and ends, and what is done in one go."""
    question = model.question
    merging_of = {name: m for m in question.mergings for name in m.activities}
    for activity in question.activities:
        if activity.name not in merging_of:
            model.jobs.append(_alone(model, activity))
    for merging in question.mergings:
        literal = model.merged[merging.name] = model.sheet.either()
        members = [question.activity(name) for name in merging.activities]
        for activity in members:
            model.jobs.append(_maybe_alone(model, activity, ~literal))
        model.jobs.append(_merged(model, merging, members, literal))


def _start(model: DayModel, activity: Activity) -> Sum:
    began = fact_at(model.question, activity.name, end=False)
    start = (
        Sum(constant=began)
        if began is not None
        else model.sheet.whole(*model.window(activity.name, end=False))
    )
    model.starts[activity.name] = start
    return start


def _running(model: DayModel, activity: Activity, end: Sum, minutes: int, when: int | None) -> Job:
    """What has begun, from now on."""
    question = model.question
    ended = fact_at(question, activity.name, end=True) is not None
    now = Sum(constant=question.now)
    return Job((activity,), now, end - now, end, minutes, not end.terms, when, begun=True, ended=ended)


def _alone(model: DayModel, activity: Activity) -> Job:
    """An activity that is in no merging."""
    question, name = model.question, activity.name
    start = _start(model, activity)
    least, most = shortest(question, activity, slow=model.slow), longest(question, activity, slow=model.slow)
    low, high = model.window(name, end=True)
    if fact_at(question, name, end=False) is not None:
        end = model.ends[name] = Sum(constant=low) if low == high else model.sheet.whole(low, high)
        return _running(model, activity, end, low - question.now, None)
    if least == most:
        model.ends[name] = start + least
        return Job((activity,), start, Sum(constant=least), start + least, least, fixed=True)
    end = model.ends[name] = model.sheet.whole(low, high)
    size = model.sheet.whole(least, most)
    model.sheet.equal(end, start + size)
    return Job((activity,), start, size, end, least, fixed=False)


def _maybe_alone(model: DayModel, activity: Activity, apart: int) -> Job:
    """An activity of a merging, as it is if the merging is not done."""
    question, name, sheet = model.question, activity.name, model.sheet
    start = _start(model, activity)
    end = model.ends[name] = sheet.whole(*model.window(name, end=True))
    least, most = shortest(question, activity, slow=model.slow), longest(question, activity, slow=model.slow)
    if fact_at(question, name, end=False) is not None:
        if fact_at(question, name, end=True) is None:
            first, last = (max(question.now, start.constant + minutes) for minutes in (least, most))
            sheet.row(end, first, last, (apart,))
        return _running(model, activity, end, max(0, model.window(name, end=True)[0] - question.now), apart)
    if least == most:
        sheet.equal(end, start + least, (apart,))
        return Job((activity,), start, Sum(constant=least), end, least, fixed=True, when=apart)
    size = sheet.whole(least, most)
    sheet.equal(end, start + size, (apart,))
    return Job((activity,), start, size, end, least, fixed=False, when=apart)


def _merged(model: DayModel, merging: Merging, members: list[Activity], literal: int) -> Job:
    """All activities of a merging at once."""
    question, sheet = model.question, model.sheet
    minutes = merging_min(question, merging, slow=model.slow)
    start, end = model.starts[members[0].name], model.ends[members[0].name]
    for activity in members:
        sheet.equal(model.starts[activity.name], start, (literal,))
        sheet.equal(model.ends[activity.name], end, (literal,))
        began = fact_at(question, activity.name, end=False)
        if began is None:
            sheet.equal(model.ends[activity.name], model.starts[activity.name] + minutes, (literal,))
        elif fact_at(question, activity.name, end=True) is None:
            running_to = max(question.now, began + minutes)
            sheet.row(model.ends[activity.name], running_to, running_to, (literal,))
    begun = [a for a in members if fact_at(question, a.name, end=False) is not None]
    if begun:
        ended = any(fact_at(question, a.name, end=True) is not None for a in begun)
        now = Sum(constant=question.now)
        return Job(tuple(members), now, end - now, end, 0, fixed=False, when=literal, begun=True, ended=ended)
    return Job(tuple(members), start, Sum(constant=minutes), end, minutes, fixed=True, when=literal)


def lags_are_kept(model: DayModel) -> None:
    """Between the moments of each lag that is asked there are as many minutes as it asks for."""
    moments = model.moments
    columns: dict[int, Sum] = {0: Sum()}
    for name in model.starts:
        columns[moments.at(name, end=False)] = model.starts[name]
        columns[moments.at(name, end=True)] = model.ends[name]
    for tie in moments.ties:
        if tie.lag is not None:
            model.sheet.after(columns[tie.edge.second], columns[tie.edge.first], tie.edge.least)
