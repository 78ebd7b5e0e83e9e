"""The household as a whole, and the kitchen on record."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

from ladleworth.dish.dish import BURNER, OVEN, Dish
from ladleworth.errors import BadField
from ladleworth.facts import FoodTable, OwnFood
from ladleworth.household.people import Eater, Meals, Slot
from ladleworth.household.rules import Equipment, Rules, Session, Shop, Wishes
from ladleworth.ledger import Ledger, PriceBook
from ladleworth.units import Currency


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
    rules: Rules = field(default_factory=Rules)
    wishes: Wishes = field(default_factory=Wishes)
    equipment: Equipment = field(default_factory=Equipment)

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

    def cook_days(self) -> tuple[tuple[int, Session], ...]:
        """List the days on which the cook cooks, in order, each with its session."""
        listed = [
            (day, session) for session in self.sessions for day in session.days.within(self.start, self.days)
        ]
        return tuple(sorted(listed, key=lambda pair: pair[0]))

    def session_minutes(self) -> tuple[tuple[int, int], ...]:
        """List the days on which the cook cooks, in order, each with its hands-on minutes at the most."""
        return tuple((day, session.minutes) for day, session in self.cook_days())

    def station_minutes(self, session: Session) -> dict[str, int]:
        """Tell how many minutes the oven and the burners have in a session.

        Returns
        -------
        dict
            By station: the session's length for the oven (one, however many shelves it has: dishes may want
            different heats), as often as there are burners for these. Empty without a length; a station that the
            equipment card does not state is left out.
        """
        card, length = self.equipment, session.length_min
        if length is None:
            return {}
        there = {OVEN: card.oven_shelves and min(card.oven_shelves, 1), BURNER: card.burners}
        return {station: length * number for station, number in there.items() if number is not None}


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
