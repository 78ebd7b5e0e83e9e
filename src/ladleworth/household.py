"""The household: who eats when, with what kitchen, under which house rules; and the kitchen on record."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import Enum
from fractions import Fraction

from ladleworth.dish.allergens import allergens_of
from ladleworth.dish.dish import Dish, Variant
from ladleworth.errors import BadField
from ladleworth.facts import FoodTable, OwnFood
from ladleworth.ledger import Ledger, PriceBook
from ladleworth.units import Currency

NO_AISLE = "own"
"""The aisle of an own food for which none is written: it is not on record."""


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
    """Named, priced additions to the plain question, all off by default (see docs/decide.md).

    `carried_share` is the share of its cost at which what is carried over counts (1: in full). `hour_cents` is for each hands-on hour; `liking_cents` pairs a dish's id with what is taken off for each
    portion of it (below zero: added).
    """

    repeat_cents: int = 0
    hour_cents: int = 0
    reserve_portions: int = 0
    reserve_cents: int = 0
    carried_share: Fraction = Fraction(1)
    liking_cents: tuple[tuple[str, int], ...] = ()

    @property
    def minute_cents(self) -> Fraction:
        """What a hands-on minute costs, exact."""
        return Fraction(self.hour_cents, 60)


@dataclass(frozen=True, slots=True, order=True)
class Slot:
    """One eater's meal on one day of the plan (1 is the first)."""

    day: int
    eater: str
    meal: str


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

    def slots(self) -> tuple[Slot, ...]:
        """List every slot once: by day, then as the meals and the eaters are listed."""
        everyone = tuple(eater.name for eater in self.eaters)
        listed = [
            (day, at, meal, eater)
            for entry in self.meals
            for day in entry.days.within(self.start, self.days)
            for at, meal in enumerate(entry.meals)
            for eater in entry.eaters or everyone
        ]
        listed.sort(key=lambda slot: slot[:2])
        return tuple(dict.fromkeys(Slot(day, eater, meal) for day, _, meal, eater in listed))

    def session_minutes(self) -> tuple[tuple[int, int], ...]:
        """List the days on which the cook cooks, in order, each with its hands-on minutes at the most."""
        listed = [
            (day, session.minutes)
            for session in self.sessions
            for day in session.days.within(self.start, self.days)
        ]
        return tuple(sorted(listed))


@dataclass(frozen=True, slots=True)
class Kitchen:
    """The kitchen on record: the household, its foods and dishes, what is on hand, what the shops ask.

    Parameters
    ----------
    household
        Who eats when.
    foods
        The food table with the kitchen's own foods laid over it.
    dishes
        Every dish that can be planned.
    ledger
        What is and was on hand.
    prices
        What the shops ask.
    keep_days
        How many days a food keeps once bought, by food id, the day of buying as day 1; None: durable. A food
        of which nobody knows it is absent.
    own_foods
        The kitchen's own foods and figures. Two kitchens with the same ones have the same `foods`.
    most_packages
        How many packages of an offer can be had in one visit, by the offer's id; absent: any number.
    """

    household: Household
    foods: FoodTable = field(compare=False)
    dishes: tuple[Dish, ...]
    ledger: Ledger
    prices: PriceBook
    keep_days: dict[str, int | None] = field(default_factory=dict)
    own_foods: tuple[OwnFood, ...] = ()
    most_packages: dict[str, int] = field(default_factory=dict)


def barred(eater: Eater, dish: Dish, variant: Variant, foods: FoodTable) -> str | None:
    """Tell why an eater may not have a dish made this way; None if nothing on record speaks against it.

    Parameters
    ----------
    eater
        The eater and what they never have.
    dish, variant
        The dish, and the swaps chosen for it.
    foods
        The food table with the kitchen's own foods.

    Returns
    -------
    str or None
        The first reason in words. An ingredient of which the allergens (or the aisle) are not on record is a
        reason for an eater who avoids an allergen (or an aisle). None is no promise that the dish is free of
        anything: it rests on what is recorded and cannot speak of traces.
    """
    if eater.name in dish.never:
        return f"{dish.name} is not for {eater.name}"
    for exclusion in eater.never:
        why = _speaks_against(exclusion, dish, variant, foods)
        if why is not None:
            return f"{eater.name} never has {exclusion}: {why}"
    return None


def _speaks_against(exclusion: Exclusion, dish: Dish, variant: Variant, foods: FoodTable) -> str | None:
    """Tell why an exclusion bars a dish made this way, None if it does not."""
    if exclusion.avoid is Avoid.DISH:
        return f"this is {dish.name}" if exclusion.what == dish.id else None
    if exclusion.avoid is Avoid.ALLERGEN:
        return _allergen_in(exclusion.what, variant, foods)
    for food_id in dict.fromkeys(ingredient.food for ingredient in variant.ingredients):
        food = foods.get(food_id)
        if exclusion.what == (food_id if exclusion.avoid is Avoid.FOOD else food.aisle):
            return f"{food.name} is in it"
        if exclusion.avoid is Avoid.AISLE and food.aisle in ("", NO_AISLE):
            return f"the aisle of {food.name} is not on record"
    return None


def _allergen_in(allergen: str, variant: Variant, foods: FoodTable) -> str | None:
    """Tell which food brings an allergen, or keeps silent about allergens; None if neither."""
    known = allergens_of(variant.ingredients, foods)
    for name, bringers in known.present:
        if name == allergen:
            return f"{foods.get(bringers[0].food).name} has it ({bringers[0].flag.why})"
    if known.unknown:
        return f"the allergens of {foods.get(known.unknown[0]).name} are not on record"
    return None
