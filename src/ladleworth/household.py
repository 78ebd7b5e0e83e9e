"""The household: who eats when, with what kitchen, under which house rules; and the kitchen on record."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import Enum
from fractions import Fraction

from ladleworth.dish.dish import Dish
from ladleworth.errors import BadField
from ladleworth.facts import FoodTable
from ladleworth.ledger import Ledger, PriceBook
from ladleworth.units import Currency


class Avoid(Enum):
    """What an exclusion speaks of."""

    FOOD = "food"
    ALLERGEN = "allergen"
    AISLE = "aisle"
    DISH = "dish"


@dataclass(frozen=True, slots=True)
class Exclusion:
    """Something an eater never has: a food, a major allergen, a whole aisle (meat, fish) or a dish."""

    avoid: Avoid
    what: str


@dataclass(frozen=True, slots=True)
class Eater:
    """Someone who eats here, and what they never have."""

    name: str
    never: tuple[Exclusion, ...] = ()


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


@dataclass(frozen=True, slots=True)
class Session:
    """When the cook cooks, and for how many hands-on minutes at the most."""

    days: Days
    minutes: int


@dataclass(frozen=True, slots=True)
class Shop:
    """A shop and what one visit costs (fare, or what the cook's minutes are worth), in cents."""

    name: str
    trip_cents: int = 0


@dataclass(frozen=True, slots=True)
class Vessel:
    """A pot, pan or dish of the kitchen with its brim volume in millilitres."""

    name: str
    volume_ml: int


@dataclass(frozen=True, slots=True)
class Equipment:
    """The equipment card: measured once, used by every stage. None: not stated."""

    burners: int | None = None
    oven_shelves: int | None = None
    fridge_c: Fraction | None = None
    freezer_c: Fraction | None = None
    microwave_w: int | None = None
    vessels: tuple[Vessel, ...] = ()


@dataclass(frozen=True, slots=True)
class Rules:
    """House rules. None: no limit (or, for `meal_out_cents`, no meals out). Money in cents."""

    containers: int | None = None
    freezer_places: int | None = None
    budget_cents: int | None = None
    meal_out_cents: int | None = None
    in_a_row: int | None = 2
    most_times: int | None = None


@dataclass(frozen=True, slots=True)
class Wishes:
    """Named, priced additions to the plain question, all off by default (see docs/decide.md)."""

    repeat_cents: int = 0
    minute_cents: int = 0
    reserve_portions: int = 0
    reserve_cents: int = 0
    liking_cents: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Household:
    """Who eats when, in which kitchen, with what money and rules. `start` is the plan's first day."""

    name: str
    currency: Currency
    start: date
    days: int
    eaters: tuple[Eater, ...]
    meals: tuple[Meals, ...]
    sessions: tuple[Session, ...]
    shops: tuple[Shop, ...] = ()
    rules: Rules = Rules()
    wishes: Wishes = Wishes()
    equipment: Equipment = Equipment()

    def __post_init__(self) -> None:
        if self.days < 1:
            raise BadField("days must be 1 or more")
        if not self.eaters:
            raise BadField("at least one eater is needed")

    def date_of(self, day: int) -> date:
        """Return the date of a day number (1 is the first day)."""
        return self.start + timedelta(days=day - 1)

    def day_of(self, when: date) -> int:
        """Return the day number of a date (0 and below lie before the first day)."""
        return (when - self.start).days + 1


@dataclass(frozen=True, slots=True)
class Kitchen:
    """The kitchen on record: the household, its foods and dishes, what is on hand, what the shops ask."""

    household: Household
    foods: FoodTable
    dishes: tuple[Dish, ...]
    ledger: Ledger
    prices: PriceBook
    keep_days: dict[str, int | None] = field(default_factory=dict)
    """How many days a food keeps once bought, by food id, the day of buying as day 1; None: durable."""
