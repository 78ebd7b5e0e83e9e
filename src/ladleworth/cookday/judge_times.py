"""Rules of time: how long each thing takes, and how long after another it comes."""

from __future__ import annotations

from collections.abc import Iterator

from ladleworth.cookday.answer import Timed, Timetable
from ladleworth.cookday.happened import asks_least, asks_most, lag_minutes, lag_words
from ladleworth.cookday.question import Activity, Begun, DayQuestion, Merging
from ladleworth.cookday.verdict import Breach, longest, merging_min, paced, shortest, tool_words

# --- rule 1: everything runs once, as long as it takes -----------------------------------------------------


def times_are_right(question: DayQuestion, timetable: Timetable, *, slow: bool) -> Iterator[Breach]:
    """Everything takes its time, starts no earlier than now, and what has begun stands as it was."""
    begun = {b.activity: b for b in question.begun}
    times = {t.activity: t for t in timetable.times}
    done = {name: m for m in question.mergings if m.name in timetable.merged for name in m.activities}
    for activity in question.activities:
        time, merging = times[activity.name], done.get(activity.name)
        if time.start % 1 or time.end % 1:
            yield Breach("times", f"{activity.name} runs from {time.start} to {time.end}: no whole minutes")
            continue
        lengths = _lengths(question, activity, merging, slow=slow)
        yield from _one_time(question, time, lengths, begun.get(activity.name))
        first = times[merging.activities[0]] if merging else time
        if (first.start, first.end) != (time.start, time.end):
            yield Breach("times", f"{time.activity} and {first.activity} are done as one, at different times")
    yield from _washes(question, timetable, slow=slow)


def _lengths(
    question: DayQuestion, activity: Activity, merging: Merging | None, *, slow: bool
) -> tuple[int, int]:
    """Least and greatest minutes of an activity, or of the merging that does it."""
    if merging is not None:
        minutes = merging_min(question, merging, slow=slow)
        return minutes, minutes
    return shortest(question, activity, slow=slow), longest(question, activity, slow=slow)


def _one_time(
    question: DayQuestion, time: Timed, lengths: tuple[int, int], begun: Begun | None
) -> Iterator[Breach]:
    name, now = time.activity, question.now
    least, most = lengths
    if begun is None:
        if time.start < max(0, now):
            yield Breach("times", f"{name} starts at minute {time.start}, before minute {max(0, now)}")
        if not least <= time.end - time.start <= most:
            yield Breach("times", f"{name} takes {time.end - time.start} minutes, not {_span(least, most)}")
        return
    if time.start != begun.start:
        yield Breach("times", f"{name} starts at minute {time.start}; it began at minute {begun.start}")
    if begun.end is not None:
        if time.end != begun.end:
            yield Breach("times", f"{name} ends at minute {time.end}; it ended at minute {begun.end}")
        return
    first, last = max(now, begun.start + least), max(now, begun.start + most)
    if not first <= time.end <= last:
        yield Breach("times", f"{name} is running and ends at minute {time.end}, not {_span(first, last)}")


def _span(least: int, most: int) -> str:
    return str(least) if least == most else f"{least} to {most}"


def _washes(question: DayQuestion, timetable: Timetable, *, slow: bool) -> Iterator[Breach]:
    minutes = {tool.name: paced(question, tool.wash_min, slow=slow) for tool in question.bench.tools}
    for wash in timetable.washes:
        tool, takes = tool_words(wash.kind, wash.which), wash.end - wash.start
        if wash.start % 1 or wash.end % 1:
            yield Breach("times", f"{tool} is washed from {wash.start} to {wash.end}: no whole minutes")
        elif takes != minutes[wash.kind]:
            yield Breach("times", f"{tool} is washed for {takes} minutes, not {minutes[wash.kind]}")
        if wash.start < max(0, question.now):
            yield Breach(
                "times", f"{tool} is washed at minute {wash.start}, before minute {max(0, question.now)}"
            )


# --- rule 2: least and greatest lags -----------------------------------------------------------------------


def lags_are_kept(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    """Between the two moments of a lag there are as many minutes as it asks for."""
    for lag in question.lags:
        minutes = lag_minutes(timetable, lag)
        if minutes < lag.least and asks_least(question, lag):
            yield Breach("lags", f"{lag_words(lag)}: {minutes} minutes, and {lag.least} are the least")
        if lag.most is not None and minutes > lag.most and asks_most(question, lag):
            yield Breach("lags", f"{lag_words(lag)}: {minutes} minutes, and {lag.most} are the most")
