"""What is given up, step by step, where the rest of a day on its way has no timetable with all its rules. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.cookday.happened import asks_most, fact_at
from ladleworth.cookday.question import DayQuestion, Lag
from ladleworth.week.day_missed import hurried, loosened, out_of_reach

MORE_MIN = 10
"""So many minutes more a wait that runs already may take, before it may take as many as it will: house rule, no source."""


@dataclass(frozen=True, slots=True)
class Easing:
    """What is asked less of a day: waits that may take so many minutes (None: as many as they will).

    `on_time` says that the wished end is kept, `at_slow_pace` that everything still holds where hands are slower.
    """

    waits: Mapping[Lag, int | None]
    on_time: bool = True
    at_slow_pace: bool = True

    def eased(self, question: DayQuestion) -> DayQuestion:
        """Ask a question so."""
        return replace(
            loosened(question, self.waits),
            deadline=question.deadline if self.on_time else None,
            slower=question.slower if self.at_slow_pace else Fraction(1),
        )


def easings(question: DayQuestion) -> Iterator[Easing]:
    """Give what is given up, the least of it first: every step gives up what those before it did, and more.

    What is out of reach whatever comes next goes at once, though it is hurried as long as it is not broken. Then the
    wished end; the slow pace; ten minutes more for waits that run already, limits apart; all waits but the limits; the
    limits too. What goes on by itself from the minute that hands let go of it always does.
    """
    reach = out_of_reach(question)
    gone: dict[Lag, int | None] = dict.fromkeys(reach)
    yield Easing(hurried(question, reach))
    if reach:
        yield Easing(gone)
    if question.deadline is not None:
        yield Easing(gone, on_time=False)
    if question.slower > 1:
        yield Easing(gone, on_time=False, at_slow_pace=False)
    waits = [lag for lag in question.lags if _may_give(question, lag)]
    longer = {lag: (lag.most or 0) + MORE_MIN for lag in waits if not lag.limit and _runs(question, lag)}
    if longer:
        yield Easing({**longer, **gone}, on_time=False, at_slow_pace=False)
    yield Easing({**{lag: None for lag in waits if not lag.limit}, **gone}, on_time=False)
    yield Easing(dict.fromkeys(waits), on_time=False)


def _may_give(question: DayQuestion, lag: Lag) -> bool:
    at_once = (lag.least, lag.most, lag.first_end, lag.second_end) == (0, 0, True, False)
    by_itself = at_once and not question.activity(lag.second).hands
    return lag.most is not None and asks_most(question, lag) and not by_itself


def _runs(question: DayQuestion, lag: Lag) -> bool:
    return fact_at(question, lag.first, end=False) is not None
