"""Why a day has no timetable: more is wanted than there is, ties that no timetable keeps, or what would have to give."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.lags import Circle
from ladleworth.cookday.moments import moments_of
from ladleworth.cookday.question import Activity, DayQuestion

MORE = 3
"""So many more people, burners, tools are tried as a way out."""


def wanting(question: DayQuestion) -> tuple[str, ...]:
    """Say in words which activities or uses take more than the kitchen has; found without a solver."""
    return (*(words for a in question.activities for words in _too_much(question, a)), *_no_tools(question))


def _too_much(question: DayQuestion, activity: Activity) -> Iterator[str]:
    if fact_at(question, activity.name, end=False) is not None:
        return  # it has begun: what it takes is a fact
    bench = question.bench
    there = {
        "hands": (activity.hands, bench.cooks, "cook"),
        "burners": (activity.burners, bench.burners, "burner"),
        "microwaves": (activity.microwaves, bench.microwaves, "microwave"),
    }
    for takes, has, name in there.values():
        if takes > has and activity.most_min:
            yield f"{activity.name} takes {takes} {_many(name, takes)}, and there {_are(has)} {has}"
    if bench.counter is not None and activity.counter > bench.counter and activity.most_min:
        yield f"{activity.name} takes {activity.counter} places on the counter, and there {_are(bench.counter)} {bench.counter}"
    if activity.oven is not None:
        shelves = 0 if bench.oven is None else bench.oven.shelves
        if activity.oven.shelves > shelves:
            takes = activity.oven.shelves
            yield f"{activity.name} takes {takes} {_many('oven shelf', takes)}, and there {_are(shelves)} {shelves}"


def _no_tools(question: DayQuestion) -> Iterator[str]:
    counts = {tool.name: tool.count for tool in question.bench.tools}
    for use in question.uses:
        if not counts[use.kind]:
            yield f"{use.name} takes a {use.kind}, and there are 0"


def _many(name: str, number: int) -> str:
    return name if number == 1 else {"oven shelf": "oven shelves"}.get(name, name + "s")


def _are(number: int) -> str:
    return "is" if number == 1 else "are"


def circle(question: DayQuestion, *, slow: bool) -> tuple[str, ...]:
    """Name the ties that no timetable keeps, in order; nothing if there are none."""
    moments = moments_of(question, slow=slow)
    found = moments.earliest()
    if not isinstance(found, Circle):
        return ()
    pace = " with hands at the slow pace" if slow and question.slower > 1 else ""
    return (
        f"these cannot all be kept{pace}; together they ask for {found.excess} minutes more than there are",
        *(moments.ties[at].words for at in found.edges),
    )


@dataclass(frozen=True, slots=True)
class Loosened:
    """A question with one thing more, or one rule less, and what that is in words."""

    words: str
    question: DayQuestion


def loosened(question: DayQuestion) -> Iterator[Loosened]:
    """List what could give, one thing at a time."""
    bench = question.bench
    if question.deadline is not None:
        yield Loosened("without the time by which all is to be done", replace(question, deadline=None))
    if question.slower > 1:
        yield Loosened(
            "with hands that are never slower than stated", replace(question, slower=type(question.slower)(1))
        )
    waits = tuple(lag if lag.most is None or lag.limit else replace(lag, most=None) for lag in question.lags)
    if waits != question.lags:
        yield Loosened("with waits as long as need be, all but the limits", replace(question, lags=waits))
    for n in range(1, MORE + 1):
        more = f"{n} more" if n > 1 else "one more"
        yield Loosened(f"with {more} {_many('cook', n)}", _with(question, cooks=bench.cooks + n))
        if any(a.burners for a in question.activities):
            yield Loosened(f"with {more} {_many('burner', n)}", _with(question, burners=bench.burners + n))
        if bench.oven is not None and any(a.oven for a in question.activities):
            oven = replace(bench.oven, shelves=bench.oven.shelves + n)
            yield Loosened(f"with {more} {_many('oven shelf', n)}", _with(question, oven=oven))
        for tool in bench.tools:
            if sum(use.kind == tool.name for use in question.uses) > tool.count:
                yield Loosened(f"with {more} {tool.name}", _with_tools(question, tool.name, n))
    if bench.counter is not None:
        yield Loosened("with as much room on the counter as need be", _with(question, counter=None))


def _with(question: DayQuestion, **changes: object) -> DayQuestion:
    return replace(question, bench=replace(question.bench, **changes))  # type: ignore[arg-type]


def _with_tools(question: DayQuestion, kind: str, more: int) -> DayQuestion:
    tools = tuple(
        replace(tool, count=tool.count + more) if tool.name == kind else tool for tool in question.bench.tools
    )
    return _with(question, tools=tools)


def ways_out(question: DayQuestion, has_timetable: Callable[[DayQuestion], bool | None]) -> tuple[str, ...]:
    """Say what would give the day a timetable, each by itself; `has_timetable` answers None where it is not known."""
    found, done = [], set()
    for way in loosened(question):
        what = way.words.split()[-1].rstrip("s")
        if what in done:
            continue
        answer = has_timetable(way.question)
        if answer:
            found.append(f"{way.words} there is a timetable")
            done.add(what)
    return tuple(found)
