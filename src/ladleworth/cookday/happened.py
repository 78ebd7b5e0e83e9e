"""What has happened on a day that is on its way, and what can still be asked of the rest.

A lag is asked as far as it can still be kept. Once its second moment has happened it is not asked at all. Of its
least and its greatest minutes, one that what has begun has already decided the wrong way, at either pace, is not
asked; the other is.
"""

from __future__ import annotations

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.question import DayQuestion, Lag
from ladleworth.cookday.verdict import longest, shortest


def fact_at(question: DayQuestion, activity: str, *, end: bool) -> int | None:
    """Find the minute at which an activity has started (or ended); None if it has not."""
    for begun in question.begun:
        if begun.activity == activity:
            return begun.end if end else begun.start
    return None


def earliest_at(question: DayQuestion, activity: str, *, end: bool, slow: bool) -> int:
    """Find the first minute at which an activity can start (or end): the one at which it did, if it did."""
    start = fact_at(question, activity, end=False)
    fact = fact_at(question, activity, end=end)
    if fact is not None:
        return fact
    if not end:
        return question.now
    least = shortest(question, question.activity(activity), slow=slow)
    return question.now + least if start is None else max(question.now, start + least)


def latest_at(question: DayQuestion, activity: str, *, end: bool, slow: bool) -> int | None:
    """Find the last minute at which an activity that has begun can start (or end); None if it has not begun.

    What should be over by now and is not ends now: nobody knows better.
    """
    start = fact_at(question, activity, end=False)
    fact = fact_at(question, activity, end=end)
    if fact is not None or start is None:
        return fact
    return max(question.now, start + longest(question, question.activity(activity), slow=slow))


def asks_least(question: DayQuestion, lag: Lag) -> bool:
    """Tell whether the least minutes of a lag are asked."""
    if fact_at(question, lag.second, end=lag.second_end) is not None:
        return False
    for slow in (False, True):
        latest = latest_at(question, lag.second, end=lag.second_end, slow=slow)
        if latest is not None and lag.least > latest - earliest_at(
            question, lag.first, end=lag.first_end, slow=slow
        ):
            return False
    return True


def asks_most(question: DayQuestion, lag: Lag) -> bool:
    """Tell whether the lag has greatest minutes and they are asked."""
    if lag.most is None or fact_at(question, lag.second, end=lag.second_end) is not None:
        return False
    for slow in (False, True):
        latest = latest_at(question, lag.first, end=lag.first_end, slow=slow)
        if (
            latest is not None
            and lag.most < earliest_at(question, lag.second, end=lag.second_end, slow=slow) - latest
        ):
            return False
    return True


def missed(question: DayQuestion, timetable: Timetable) -> tuple[str, ...]:
    """Say in words which greatest lags, no longer asked, a timetable does not keep, and what waited too long.

    Parameters
    ----------
    question, timetable
        A day on its way, and a timetable that the judge lets stand.

    Returns
    -------
    tuple of str
        In the order of the question; empty for a day that has not begun.
    """
    told = []
    for lag in question.lags:
        minutes = lag_minutes(timetable, lag)
        if lag.most is not None and minutes > lag.most and not asks_most(question, lag):
            told.append(f"{lag_words(lag)}: {minutes} minutes, and {lag.most} are the most")
    for begun in question.begun:
        activity, time = question.activity(begun.activity), timetable.timed(begun.activity)
        minutes = time.end - time.start
        if activity.least_min < activity.most_min < minutes:
            told.append(f"{activity.name} took {minutes} minutes, and {activity.most_min} are the most")
    return tuple(told)


def lag_minutes(timetable: Timetable, lag: Lag) -> int:
    """Minutes between the two moments that a lag ties."""
    first, second = timetable.timed(lag.first), timetable.timed(lag.second)
    return (second.end if lag.second_end else second.start) - (first.end if lag.first_end else first.start)


def lag_words(lag: Lag) -> str:
    """Name the two moments that a lag ties, and the reason."""
    first = f"the {'end' if lag.first_end else 'start'} of {lag.first}"
    second = f"the {'end' if lag.second_end else 'start'} of {lag.second}"
    return f"from {first} to {second}{f' ({lag.why})' if lag.why else ''}"
