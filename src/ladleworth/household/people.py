"""Who eats here: what they never have, how much they eat, and when."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum
from fractions import Fraction

from ladleworth.dish.dish import BRINGS
from ladleworth.errors import BadField
from ladleworth.facts import NUTRIENTS


class Avoid(Enum):
    """What an exclusion speaks of."""

    FOOD = "food"
    ALLERGEN = "allergen"
    AISLE = "aisle"
    DISH = "dish"


@dataclass(frozen=True, slots=True)
class Exclusion:
    """Something an eater never has: a food (its id), a major allergen, a whole aisle or a dish (its id)."""

    avoid: Avoid
    what: str

    def __str__(self) -> str:
        return f"{self.avoid.value} {self.what}"


@dataclass(frozen=True, slots=True)
class Goal:
    """What an eater's helpings hold of a nutrient on average: at `least` and at `most`, in the table's unit of it.

    None is no bound on that side. One of BRINGS stands in a nutrient's place for the share of helpings that bring it,
    from 0 to 1.
    """

    nutrient: str
    least: Fraction | None = None
    most: Fraction | None = None

    def __post_init__(self) -> None:
        if self.nutrient not in NUTRIENTS and not self.is_share:
            known = ", ".join((*NUTRIENTS, *BRINGS))
            raise BadField(f"nutrient {self.nutrient!r} is not known; write one of: {known}")
        ends = [end for end in (self.least, self.most) if end is not None]
        if self.is_share and not all(0 <= end <= 1 for end in ends):
            raise BadField(f"{self.nutrient}: a share of helpings must be from 0 to 1")
        if self.least is not None and self.most is not None and self.least > self.most:
            raise BadField(f"{self.nutrient}: the least {self.least} is above the most {self.most}")

    @property
    def is_share(self) -> bool:
        """Whether it is about what helpings bring, and no nutrient."""
        return self.nutrient in BRINGS


@dataclass(frozen=True, slots=True)
class Eater:
    """Someone who eats here, what they never have, and what their portion is of a standard one.

    `goals` are bounds on nutrients, and on what helpings bring, on average over the helpings of a week.
    """

    name: str
    never: tuple[Exclusion, ...] = ()
    appetite: Fraction = Fraction(1)
    goals: tuple[Goal, ...] = ()

    def __post_init__(self) -> None:
        if self.appetite <= 0:
            raise BadField(f"{self.name}: the appetite must be above 0")


@dataclass(frozen=True, slots=True)
class Days:
    """A choice of days: by number (1 is the first day of the plan), weekday (0 is Monday) or date.

    All three empty means every day.
    """

    numbers: tuple[int, ...] = ()
    weekdays: tuple[int, ...] = ()
    dates: tuple[date, ...] = ()

    def within(self, start: date, days: int) -> tuple[int, ...]:
        """Return the day numbers 1..days of a plan that begins on `start` which this choice covers."""
        everything = not (self.numbers or self.weekdays or self.dates)
        chosen = []
        for number in range(1, days + 1):
            day = start + timedelta(days=number - 1)
            if everything or number in self.numbers or day.weekday() in self.weekdays or day in self.dates:
                chosen.append(number)
        return tuple(chosen)


@dataclass(frozen=True, slots=True)
class Meals:
    """Slots: these eaters (empty: all) have these meals on these days."""

    meals: tuple[str, ...]
    eaters: tuple[str, ...] = ()
    days: Days = Days()


@dataclass(frozen=True, slots=True, order=True)
class Slot:
    """One eater's meal on one day of the plan (1 is the first)."""

    day: int
    eater: str
    meal: str
