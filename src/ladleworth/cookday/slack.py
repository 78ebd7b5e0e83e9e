"""How much a timetable bears: the tightest windows, how slow a cook may be, and what a day of chance does to it."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.happened import asks_most, lag_minutes, lag_words
from ladleworth.cookday.orders import Node, Run, course_of, minutes_at
from ladleworth.cookday.question import DayQuestion, Lag
from ladleworth.cookday.running import Course

SLOWEST_PERCENT = 200
"""The pace at which looking for the slowest bearable one stops: twice the stated minutes."""


@dataclass(frozen=True, slots=True)
class Window:
    """A greatest lag: the minutes in the timetable, and how many minutes later its second moment might come."""

    lag: Lag
    minutes: int
    spare: int

    def __str__(self) -> str:
        return f"{lag_words(self.lag)}: {self.minutes} minutes of {self.lag.most}, {self.spare} to spare"


def tight_windows(question: DayQuestion, timetable: Timetable) -> tuple[Window, ...]:
    """List the greatest lags of a timetable, the tightest first, those as tight in the order of the question.

    Where the first moment is the end of waiting whose length is open, the food may wait longer: that is spare too.
    """
    windows = []
    merged = {name for m in question.mergings if m.name in timetable.merged for name in m.activities}
    for lag in question.lags:
        if lag.most is None or not asks_most(question, lag):
            continue
        first, minutes = timetable.timed(lag.first), lag_minutes(timetable, lag)
        longer = 0
        if lag.first_end and lag.first not in merged:
            longer = max(0, question.activity(lag.first).most_min - (first.end - first.start))
        windows.append(Window(lag, minutes, lag.most - minutes + longer))
    return tuple(sorted(windows, key=lambda window: window.spare))


# --- a cook who is slower all day ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class HowSlow:
    """How slow hands-on work may be, in per cent of the stated minutes, until a greatest lag breaks.

    `percent` is for a cook who goes by the clock times of the timetable, is late when held up and holds nothing
    back; `retimed_percent` for one whose timetable is made anew in the same order at the slower pace. Neither is
    looked for above SLOWEST_PERCENT. `breaks` says what breaks first, one per cent above `percent`.
    """

    percent: int
    breaks: tuple[str, ...]
    retimed_percent: int


def how_slow(question: DayQuestion, nominal: Timetable) -> HowSlow:
    """Find out how slow the cook may be with the order of a timetable.

    Parameters
    ----------
    question, nominal
        The question, and a timetable that keeps its rules at the stated pace. Nothing starts before it does there.

    Returns
    -------
    HowSlow
        Tried in steps of 1 %; minutes are rounded up to whole ones.
    """
    course = course_of(question, nominal)
    clock = _clock_times(course)
    stated = minutes_at(question, nominal, slow=False)

    def run(percent: int, *, foresight: bool) -> Run | None:
        pace = Fraction(percent, 100)
        minutes = {n: -(-m * pace // 1) if course.pieces[n].hands else m for n, m in stated.items()}
        return course.run(minutes, clock, foresight=foresight)

    percent, breaks = SLOWEST_PERCENT, tuple[str, ...]()
    for slower in range(100, SLOWEST_PERCENT + 1):
        found = run(slower, foresight=False)
        if found is None or found.broken:
            percent, breaks = slower - 1, _words(found)
            break
    retimed = percent
    while retimed < SLOWEST_PERCENT and run(retimed + 1, foresight=True) is not None:
        retimed += 1
    return HowSlow(percent, breaks, retimed)


def _clock_times(course: Course) -> Mapping[Node, int]:
    return {node: piece.start for node, piece in course.pieces.items()}


def _words(run: Run | None) -> tuple[str, ...]:
    """Say which lags a run breaks."""
    if run is None:
        return ("the order of the timetable cannot be kept",)
    return tuple(f"{lag_words(lag)}, at most {lag.most} minutes" for lag in run.broken)


# --- days of chance --------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Simulated:
    """In how many of `runs` days of chance every greatest lag held, and every one that is there for safety.

    `broken` counts, for each greatest lag that broke in some run, in how many; the most often broken first.
    """

    runs: int
    all_held: int
    limits_held: int
    broken: tuple[tuple[Lag, int], ...]


def simulate(
    question: DayQuestion, timetable: Timetable, runs: int, seed: int, low: float = 0.9, high: float = 1.3
) -> Simulated:
    """Let hands-on work take more or less than stated by chance, and count the days on which the lags hold.

    The cook goes by the clock times of the timetable and its order: nothing starts before its time there (but for what
    a greatest lag would not let wait), and what is held up starts as soon as it can. Nothing is held back because of a
    later thing, for nobody knows beforehand what will take long; food that waits waits on, within what it may, until
    hands are free for it. Whoever looks ahead can do better than this.

    Parameters
    ----------
    question, timetable
        The question, and the timetable that is shown: one that keeps its rules at the stated pace.
    runs, seed
        How many days, and where the chance starts: the same seed gives the same days.
    low, high
        Each piece of hands-on work and each wash takes its stated minutes times a factor of its own, any between
        these two as likely as any other, to the nearest minute. 0.9 and 1.3 are our choice, no source.
    """
    course, dice = course_of(question, timetable), random.Random(seed)  # noqa: S311  # no secret
    clock, stated = _clock_times(course), minutes_at(question, timetable, slow=False)
    all_held = limits_held = 0
    broken: Counter[Lag] = Counter()
    for _ in range(runs):
        minutes = {
            node: round(length * dice.uniform(low, high)) if course.pieces[node].hands else length
            for node, length in stated.items()
        }
        run = course.run(minutes, clock)
        if run is None:
            continue
        all_held += not run.broken
        limits_held += not any(lag.limit for lag in run.broken)
        broken.update(dict.fromkeys(run.broken, 1))
    order = {lag: n for n, lag in enumerate(question.lags)}
    often = sorted(broken.items(), key=lambda pair: (-pair[1], order[pair[0]]))
    return Simulated(runs, all_held, limits_held, tuple(often))
