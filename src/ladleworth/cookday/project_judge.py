"""The rules of a project's timetable in plain Python: this is the specification.

It knows no solver and uses nothing of what the solver's side works out. A timetable keeps the rules if

1. names: every activity of the project stands there once, and nothing else;
2. times: it starts at 0 or later and ends its duration after it starts;
3. lags: from one anchor to the other at least the least and at most the greatest value passes;
4. capacity: at every time, those that run hold no more of a resource than there is. An activity of duration 0 never
   runs; two of which one ends when the other starts do not run together;
5. deadline: everything has ended by then.

The makespan is the greatest end, 0 for a project without activities.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from ladleworth.cookday.project import Anchor, Project, ProjectLag, ProjectTime
from ladleworth.cookday.verdict import Breach

Times = Mapping[str, ProjectTime]


def judge_project(project: Project, times: Sequence[ProjectTime]) -> tuple[Breach, ...]:
    """Check a timetable against every rule.

    Parameters
    ----------
    project, times
        The question, and any timetable whatever, however it was found.

    Returns
    -------
    tuple of Breach
        All breaches, in the order of the rules; where names are wrong, those alone.
    """
    wrong = tuple(_names(project, times))
    if wrong:
        return wrong
    known = {time.activity: time for time in times}
    rules = (_durations, _lags, _capacity, _deadline)
    return tuple(breach for rule in rules for breach in rule(project, known))


def makespan(times: Sequence[ProjectTime]) -> int:
    """Give the end of the last activity."""
    return max((time.end for time in times), default=0)


def _names(project: Project, times: Sequence[ProjectTime]) -> Iterator[Breach]:
    there = Counter(time.activity for time in times)
    wanted = {activity.name for activity in project.activities}
    for activity in project.activities:
        if activity.name not in there:
            yield Breach("names", f"{activity.name!r} has no time")
    for name, count in there.items():
        if name not in wanted:
            yield Breach("names", f"{name!r} is no activity of the project")
        elif count > 1:
            yield Breach("names", f"{name!r} has {count} times")


def _durations(project: Project, times: Times) -> Iterator[Breach]:
    for activity in project.activities:
        time = times[activity.name]
        if time.start < 0:
            yield Breach("times", f"{activity.name!r} starts at {time.start}, before 0")
        if time.end - time.start != activity.duration:
            yield Breach(
                "times", f"{activity.name!r} lasts {time.end - time.start} in place of {activity.duration}"
            )


def _lags(project: Project, times: Times) -> Iterator[Breach]:
    for lag in project.lags:
        passes = _moment(times[lag.second], lag.second_anchor) - _moment(times[lag.first], lag.first_anchor)
        if lag.least is not None and passes < lag.least:
            yield Breach("lags", f"{_between(lag)} {passes} passes; {lag.least} at the least")
        if lag.greatest is not None and passes > lag.greatest:
            yield Breach("lags", f"{_between(lag)} {passes} passes; {lag.greatest} at the most")


def _moment(time: ProjectTime, anchor: Anchor) -> int:
    return time.start if anchor is Anchor.START else time.end


def _between(lag: ProjectLag) -> str:
    return f"from the {lag.first_anchor.value} of {lag.first!r} to the {lag.second_anchor.value} of {lag.second!r}"


def _capacity(project: Project, times: Times) -> Iterator[Breach]:
    """What is held is greatest when something starts; each such time is looked at once."""
    for resource in project.resources:
        holders = [(times[a.name], a.demand(resource.name)) for a in project.activities if a.duration]
        for now in sorted({time.start for time, amount in holders if amount}):
            held = sum(amount for time, amount in holders if time.start <= now < time.end)
            if held > resource.capacity:
                yield Breach(
                    "capacity",
                    f"at {now}, {held} of {resource.name!r} are held; there are {resource.capacity}",
                )


def _deadline(project: Project, times: Times) -> Iterator[Breach]:
    if project.deadline is None:
        return
    for time in times.values():
        if time.end > project.deadline:
            yield Breach("deadline", f"{time.activity!r} ends at {time.end}, after {project.deadline}")
