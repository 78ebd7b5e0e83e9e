"""What a plan comes to in lists: what to buy, what has to be used up, what it costs. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import floor
from typing import TYPE_CHECKING

from ladleworth.decide import Costs, Question
from ladleworth.household import Kitchen
from ladleworth.ledger import LotUnit
from ladleworth.reckon import Reckoning, Row
from ladleworth.store.lacking import lacking_of, lacking_text, uncookable
from ladleworth.units import half_up
from ladleworth.week.packing import THAWING
from ladleworth.week.sources import offers_by_id

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


@dataclass(frozen=True, slots=True)
class ToBuy:
    """A line of the shopping list.

    Parameters
    ----------
    day, shop, offer, food, name
        When and where, which offer of which food, and what stands on the package ('' for nothing).
    packages, size, unit
        How many, and what one holds, in `unit`.
    cents
        What all of them cost.
    taken, left
        How much of them the plan uses in all the days, and what it leaves, in `unit`.
    on_hand
        How much of the same food the plan takes from what is on hand, in `unit`.
    dishes
        Ids of the dishes that take from these packages.
    """

    day: int
    shop: str
    offer: str
    food: str
    name: str
    packages: int
    size: int
    unit: LotUnit
    cents: int
    taken: int
    left: int
    on_hand: int
    dishes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ToUseUp:
    """A lot on hand, of food or portions, that ends within the days: how much the plan takes, what is left to spoil."""

    lot: str
    food: str
    unit: LotUnit
    last_day: date
    quantity: int
    drawn: int
    spoils_cents: Fraction


def shopping_of(week: PlannedWeek) -> tuple[ToBuy, ...]:
    """List what a plan buys: by day, by shop as the household lists them, by aisle, by food."""
    offers, plan = offers_by_id(week.kitchen), week.plan
    on_hand: dict[str, int] = defaultdict(int)
    items = {lot.id: lot.item for lot in week.kitchen.ledger.lots}
    for drawing in plan.drawings:
        if drawing.bought_day is None:
            on_hand[items[drawing.source]] += drawing.quantity
    order = {shop.name: at for at, shop in enumerate(week.kitchen.household.shops)}
    price_of = {offer.name: offer.cents for offer in week.question.offers}
    lines = []
    for purchase in plan.purchases:
        offer = offers[purchase.offer]
        mine = [d for d in plan.drawings if (d.source, d.bought_day) == (purchase.offer, purchase.day)]
        taken = sum(drawing.quantity for drawing in mine)
        lines.append(
            ToBuy(
                purchase.day,
                offer.shop,
                offer.id,
                offer.food,
                offer.name,
                purchase.packages,
                offer.quantity,
                offer.unit,
                price_of[offer.id] * purchase.packages,
                taken,
                offer.quantity * purchase.packages - taken,
                on_hand[offer.food],
                tuple(dict.fromkeys(drawing.dish for drawing in mine)),
            )
        )
    foods = week.kitchen.foods

    def place(line: ToBuy) -> tuple[int, int, str, str]:
        food = foods.get(line.food)
        return line.day, order.get(line.shop, len(order)), food.aisle, food.name

    return tuple(sorted(lines, key=place))


def use_up_of(week: PlannedWeek) -> tuple[ToUseUp, ...]:
    """List what is on hand and ends within the days, the earliest first, with what the plan leaves to spoil."""
    household, plan = week.kitchen.household, week.plan
    drawn: dict[str, int] = defaultdict(int)
    for drawing in plan.drawings:
        if drawing.bought_day is None:
            drawn[drawing.source] += drawing.quantity
    for helping in plan.helpings:
        if helping.lot is not None:
            drawn[helping.lot] += 1
    there = [(lot.name, lot.quantity, lot.cents, lot.last_day) for lot in week.question.lots]
    there += [(lot.name, lot.portions, lot.cents, lot.last_day) for lot in week.question.portions]
    found = []
    for name, quantity, cents, last_day in there:
        if last_day is None or last_day > household.days:
            continue
        lot = week.kitchen.ledger.holding(name.removesuffix(THAWING)).lot
        found.append(
            ToUseUp(
                name,
                lot.item,
                lot.unit,
                household.date_of(last_day),
                quantity,
                drawn[name],
                Fraction(cents * (quantity - drawn[name]), quantity),
            )
        )
    return tuple(sorted(found, key=lambda one: (one.last_day, one.food, one.lot)))


def cannot_be_cooked(kitchen: Kitchen) -> tuple[str, ...]:
    """Say which dishes cannot be cooked for want of a food that no shop has, a sentence a food.

    Where that leaves no dish at all, the first sentence says so.
    """
    dishes, ledger, prices, start = kitchen.dishes, kitchen.ledger, kitchen.prices, kitchen.household.start
    told = [lacking_text(one, dishes, kitchen.foods) for one in lacking_of(dishes, ledger, prices, start)]
    fallen = uncookable(dishes, ledger, prices, start)
    if dishes and len(fallen) == len(dishes):
        told.insert(0, f"none of the dishes can be cooked: {', '.join(dish.name for dish in dishes)}")
    return tuple(f"{text[0].upper()}{text[1:]}." for text in told)


COST_LABELS: Mapping[str, str] = {
    "tills": "at the tills",
    "trips": "trips to the shops",
    "spoilt": "spoilt of what is on hand",
    "meals_out": "meals eaten out",
    "repeats": "the same dish again",
    "minutes": "hands-on minutes",
    "liking": "dishes liked or not",
    "sessions": "cooking on a day at all",
    "carried": "less: carried over",
    "reserve": "less: portions in reserve",
}
"""The components of the value in words; the last two are taken off."""

ALWAYS_SHOWN = ("tills", "trips", "spoilt", "meals_out", "carried")


def costs_table(costs: Costs) -> Reckoning:
    """Round the value's components so that they add up to its rounded total; additions that are off are left out."""
    exact = {}
    for field, label in COST_LABELS.items():
        cents: Fraction = getattr(costs, field)
        if cents or field in ALWAYS_SHOWN:
            exact[label] = -cents if label.startswith("less") else cents
    total = half_up(costs.total)
    shown = {label: floor(cents) for label, cents in exact.items()}
    by_remainder = sorted(exact, key=lambda label: shown[label] - exact[label])
    for label in by_remainder[: total - sum(shown.values())]:
        shown[label] += 1
    return Reckoning("value", tuple(Row(label, cents) for label, cents in shown.items()), total)


def gross_cents(costs: Costs) -> Fraction:
    """Add up what the plan costs before anything is taken off (likings left out), exact cents."""
    return (
        costs.tills
        + costs.trips
        + costs.spoilt
        + costs.meals_out
        + costs.repeats
        + costs.minutes
        + costs.sessions
    )


def week_cost_cents(question: Question, costs: Costs) -> Fraction:
    """Say what the week costs with what it uses of the stock counted; a gap is told as a share of it.

    The value takes off what is carried over, and so also what was there before and is left untouched. That much is
    put back: the worth of all that is on hand and keeps beyond the days, at the share at which it is carried. What
    remains is what the plan spends and what it uses up, likings and the reserve as in the value.

    Parameters
    ----------
    question, costs
        The question, and the costs of a plan for it.

    Returns
    -------
    Fraction
        Exact cents; above 0 for any plan that uses something worth something, unless likings outweigh it.
    """
    on_hand = [(lot.cents, lot.last_day) for lot in question.lots]
    on_hand += [(lot.cents, lot.last_day) for lot in question.portions]
    keeping = sum(cents for cents, last in on_hand if last is None or last > question.days)
    return costs.total + keeping * question.additions.carried_share
