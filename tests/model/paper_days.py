"""Days that can be worked out on paper: how they are written down, asked and read."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from ladleworth.cookday import (
    Activity,
    Bench,
    DayAnswer,
    DayQuestion,
    Measure,
    OvenCard,
    OvenHeat,
    Status,
    timetable,
)

SLOW_OVEN = OvenCard(shelves=2, heating_min_per_10c=Fraction(1), cooling_min_per_10c=Fraction(2), start_c=100)


def work(name: str, minutes: int, hands: int = 1, **takes: Any) -> Activity:
    return Activity(name, name, name, minutes, minutes, hands, **takes)


def alone(name: str, minutes: int, most: int | None = None, **takes: Any) -> Activity:
    return Activity(name, name, name, minutes, minutes if most is None else most, **takes)


def asked(*activities: Activity, bench: Bench | None = None, **rest: Any) -> DayQuestion:
    return DayQuestion(activities, bench=bench or Bench(), **{"slower": Fraction(1)} | rest)


def answered(question: DayQuestion) -> DayAnswer:
    """Answer, and see that nothing is said that is not proven."""
    answer = timetable(question, seconds=30.0)
    assert answer.status is Status.PROVEN, answer.why_not
    return answer


def measured(question: DayQuestion) -> tuple[int, int, int]:
    found = answered(question).measure
    assert isinstance(found, Measure)
    return found.finish, found.hands_span, found.warm


def finish(question: DayQuestion) -> int:
    return measured(question)[0]


def cannot_be(question: DayQuestion) -> bool:
    answer = timetable(question, seconds=30.0)
    assert (answer.slow is None) == (answer.status is Status.IMPOSSIBLE)
    assert bool(answer.why_not) == (answer.status is Status.IMPOSSIBLE)
    return answer.status is Status.IMPOSSIBLE


def baked(name: str, minutes: int, want: int, tolerance: int = 0, shelves: int = 1) -> Activity:
    return alone(name, minutes, oven=OvenHeat(want, tolerance, shelves))
