"""Greatest waits of a day on its way that cannot be kept any more, whatever is done from now on. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.happened import asks_most, fact_at, lag_minutes, lag_words
from ladleworth.cookday.lags import Circle
from ladleworth.cookday.moments import moments_of
from ladleworth.cookday.question import DayQuestion, Lag


def begun_waits(question: DayQuestion) -> tuple[Lag, ...]:
    """List the greatest waits that run since something that has happened, and are still asked."""
    return tuple(
        lag
        for lag in question.lags
        if lag.most is not None
        and asks_most(question, lag)
        and fact_at(question, lag.first, end=lag.first_end) is not None
    )


def out_of_reach(question: DayQuestion) -> dict[Lag, int]:
    """List the waits that run already and end too late even if everything else goes as fast as it may.

    Parameters
    ----------
    question
        A day on its way.

    Returns
    -------
    dict of Lag to int
        With the fewest minutes that each can still take, by the order of steps, their least waits and their minutes at the
        slow pace alone; who or what is busy meanwhile is not looked at.
    """
    waits = begun_waits(question)
    loose = replace(loosened(question, dict.fromkeys(waits)), deadline=None)
    moments = moments_of(loose, slow=True)
    earliest = moments.earliest()
    if isinstance(earliest, Circle):
        return {lag: lag.most or 0 for lag in waits}
    fewest = {
        lag: earliest.at[moments.at(lag.second, end=lag.second_end)]
        - earliest.at[moments.at(lag.first, end=lag.first_end)]
        for lag in waits
    }
    return {lag: minutes for lag, minutes in fewest.items() if lag.most is not None and minutes > lag.most}


def loosened(question: DayQuestion, waits: Mapping[Lag, int | None]) -> DayQuestion:
    """Let some waits take so many minutes, or as many as they will (None)."""
    lags = tuple(replace(lag, most=waits[lag]) if lag in waits else lag for lag in question.lags)
    return replace(question, lags=lags)


def hurried(question: DayQuestion, waits: Mapping[Lag, int]) -> dict[Lag, int | None]:
    """Keep the fewest minutes of what is not broken yet, so that it is not put off; let go of what is."""
    hurry: dict[Lag, int | None] = {}
    for lag, fewest in waits.items():
        hurry[lag] = fewest if (minutes_left(question, lag) or 0) >= 0 else None
    return hurry


def minutes_left(question: DayQuestion, lag: Lag) -> int | None:
    """Say how many minutes are left of a wait that runs already (below zero, it is broken); None: it does not run."""
    since = fact_at(question, lag.first, end=lag.first_end)
    return None if since is None or lag.most is None else since + lag.most - question.now


def broken_waits(question: DayQuestion, timetable: Timetable) -> tuple[Lag, ...]:
    """List the greatest waits that a timetable does not keep, in the order of the question."""
    return tuple(
        lag for lag in question.lags if lag.most is not None and lag_minutes(timetable, lag) > lag.most
    )


def wait_words(timetable: Timetable, lag: Lag) -> str:
    """Say how long a wait is, and how long it may be."""
    return f"{lag_words(lag)}: {lag_minutes(timetable, lag)} minutes, and {lag.most} are the most"
