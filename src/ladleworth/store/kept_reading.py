"""A reading of the scale as it is kept: of which batch of a plan, and when it was entered."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ladleworth.divide.readings import Reading
from ladleworth.errors import BadField


@dataclass(frozen=True, slots=True)
class KeptReading:
    """A reading of a batch. Readings stay; a part that is weighed again has a further one, which counts from then on.

    Parameters
    ----------
    number
        Its number in the kitchen's file, above zero.
    day, dish, version
        The plan's day, and the batch's dish (its id) and version.
    portions
        How many standard portions the batch makes.
    reading
        What the scale said.
    entered
        When it was entered.
    """

    number: int
    day: int
    dish: str
    version: str
    portions: int
    reading: Reading
    entered: datetime

    def __post_init__(self) -> None:
        if self.number < 1 or self.day < 1 or self.portions < 1:
            raise BadField(
                f"a reading has the number {self.number}, the day {self.day} and {self.portions} portions; count from 1"
            )
        if not self.dish or not self.version:
            raise BadField(f"reading {self.number} names no dish or no version; write both")
