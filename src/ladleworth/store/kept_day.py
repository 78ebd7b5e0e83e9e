"""A cooking day as it is kept: the timetable that the cook goes by, and what really happened, entry by entry."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from ladleworth.errors import BadField


class Happened(Enum):
    """What an entry says of a step."""

    BEGAN = "began"
    ENDED = "ended"


@dataclass(frozen=True, slots=True)
class KeptDay:
    """A timetable that the cook goes by on a day of a plan; of several for a day the last counts.

    Parameters
    ----------
    number
        Its number in the kitchen's file, above zero.
    day
        The plan's day.
    start
        When minute 0 is, by the kitchen's clock; None: nobody has said.
    kept
        When it was kept.
    session, answer
        The day's question with all that stands beside it, and the answer, as JSON.
    in_force
        The answer as it was last planned anew, as JSON; empty as long as it was not.
    """

    number: int
    day: int
    start: datetime | None
    kept: datetime
    session: str
    answer: str
    in_force: str = ""

    def __post_init__(self) -> None:
        if self.number < 1 or self.day < 1:
            raise BadField(f"a cooking day has the number {self.number} and the day {self.day}; count from 1")


@dataclass(frozen=True, slots=True)
class DayEntry:
    """A step of a cooking day began or ended. Entries stay; a wrong one is taken back by another.

    Parameters
    ----------
    number
        Its number in the kitchen's file, above zero.
    day
        The plan's day.
    activity
        The step, by its name in the day's question.
    what, at
        What happened, and when by the kitchen's clock, to the minute.
    entered
        When it was entered.
    act
        The number of the first of the entries that were made together.
    takes_back
        The number of the entry that it takes back; None for one that takes nothing back.
    """

    number: int
    day: int
    activity: str
    what: Happened
    at: datetime
    entered: datetime
    act: int
    takes_back: int | None = None

    def __post_init__(self) -> None:
        if self.number < 1 or self.day < 1:
            raise BadField(f"an entry has the number {self.number} and the day {self.day}; count from 1")
        if not self.activity:
            raise BadField(f"entry {self.number} names no step; write one")
        if self.act > self.number or (self.takes_back is not None and self.takes_back >= self.number):
            raise BadField(
                f"entry {self.number} speaks of one that comes after it; number them in their order"
            )
