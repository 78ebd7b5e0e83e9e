"""Plans as JSON: the answer of a week, exactly, and a plan as it is kept with what became of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from ladleworth.decide.answer import Answer
from ladleworth.errors import BadField
from ladleworth.store import record_json
from ladleworth.store.kept_day import DayEntry, KeptDay
from ladleworth.store.kept_reading import KeptReading


class Deed(Enum):
    """What a mark says was done."""

    BOUGHT = "bought"
    COOKED = "cooked"


@dataclass(frozen=True, slots=True)
class Mark:
    """A part of a plan that was carried out: `what` is the offer bought, or the dish cooked, on a plan's day."""

    deed: Deed
    day: int
    what: str

    def __post_init__(self) -> None:
        if not self.what:
            raise BadField("a mark names nothing; write the offer or the dish")
        if self.day < 1:
            raise BadField(f"a mark is for day {self.day}; count the days of the plan from 1")


@dataclass(frozen=True, slots=True)
class SavedPlan:
    """A plan as it is kept.

    Parameters
    ----------
    id
        Its number, above zero.
    made_on, start
        The day it was made, and the date of its day 1.
    question
        The question it answers, as JSON; empty when it was not kept.
    answer
        The answer.
    accepted
        Whether the cook goes by it.
    marks
        What has been carried out, in the order marked.
    cooking_days, day_entries
        The timetables that the cook went by, and what really happened on those days; each by number.
    yield_readings
        What the scale said of its batches, by number.
    """

    id: int
    made_on: date
    start: date
    question: str
    answer: Answer
    accepted: bool = False
    marks: tuple[Mark, ...] = ()
    cooking_days: tuple[KeptDay, ...] = ()
    day_entries: tuple[DayEntry, ...] = ()
    yield_readings: tuple[KeptReading, ...] = ()

    def __post_init__(self) -> None:
        if self.id < 1:
            raise BadField(f"a plan has the number {self.id}; number from 1 upwards")
        if len(set(self.marks)) != len(self.marks):
            raise BadField(f"plan {self.id} has a mark twice; keep one of the two")
        for what, numbers in (
            ("cooking day", [one.number for one in self.cooking_days]),
            ("entry of a cooking day", [one.number for one in self.day_entries]),
            ("reading of the scale", [one.number for one in self.yield_readings]),
        ):
            if numbers != sorted(set(numbers)):
                raise BadField(
                    f"plan {self.id} has a {what} twice or out of order; keep each once, by number"
                )


def to_json(answer: Answer) -> str:
    """Write an answer as JSON, fractions as 'a/b'; `from_json` reads an equal one back."""
    return record_json.to_json(answer)


def from_json(text: str) -> Answer:
    """Read an answer written by `to_json`; raise BadField if it is none."""
    return record_json.from_json(text, Answer)


def write_plan(plan: SavedPlan) -> str:
    """Write a kept plan as the text of a paper."""
    return record_json.to_json(plan) + "\n"


def read_plan(text: str) -> SavedPlan:
    """Read a kept plan back; raise BadField if it is none."""
    return record_json.from_json(text.removeprefix("\ufeff"), SavedPlan)
