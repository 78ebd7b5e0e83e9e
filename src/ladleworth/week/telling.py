"""What a plan comes to in lists: what to buy, what to cook, what has to be used up. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import floor
from typing import TYPE_CHECKING

from ladleworth.decide import Costs, Plan
from ladleworth.decide.judge import hands_on_min
from ladleworth.dish.allergens import DishAllergens, allergens_of
from ladleworth.dish.dish import Dish, Variant
from ladleworth.household import Kitchen
from ladleworth.ledger import LotUnit
from ladleworth.reckon import Reckoning, Row
from ladleworth.store.lacking import lacking_of, lacking_text, uncookable
from ladleworth.units import half_up
from ladleworth.week.carry_out import offers_by_id

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
class ToCook:
    """A batch of a cooking day: which dish, how made, how many portions are chilled and frozen.

    `swaps` pairs each part that has some with the one chosen.
    """

    dish: str
    name: str
    version: str
    swaps: tuple[tuple[str, str], ...]
    portions: int
    chilled: int
    frozen: int
    hands_on_min: Fraction
    allergens: DishAllergens


@dataclass(frozen=True, slots=True)
class CookingDay:
    """A session with its batches; hands-on minutes as used and at the most."""

    day: int
    when: date
    used_min: Fraction
    most_min: int
    batches: tuple[ToCook, ...]


@dataclass(frozen=True, slots=True)
class ToUseUp:
    """A lot on hand that ends within the days: how much the plan draws, and what is left to spoil."""

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
                offer.price_cents * purchase.packages,
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


def cooking_of(week: PlannedWeek) -> tuple[CookingDay, ...]:
    """List what a plan cooks, session by session; a session without a batch is listed empty."""
    household, plan, question = week.kitchen.household, week.plan, week.question
    dishes = {dish.id: dish for dish in week.kitchen.dishes}
    days = []
    for session in question.sessions:
        batches = []
        for batch in plan.batches:
            if batch.day != session.day:
                continue
            version = next(v for v in question.dish(batch.dish).versions if v.name == batch.version)
            frozen = frozen_of(plan, batch.dish, batch.day, batch.portions)
            dish = dishes[batch.dish]
            variant = variant_of(dish, batch.version)
            batches.append(
                ToCook(
                    batch.dish,
                    dish.name,
                    batch.version,
                    variant.swaps,
                    batch.portions,
                    batch.portions - frozen,
                    frozen,
                    hands_on_min(version, batch.portions),
                    allergens_of(variant.ingredients, week.kitchen.foods),
                )
            )
        used = sum((batch.hands_on_min for batch in batches), Fraction(0))
        days.append(
            CookingDay(session.day, household.date_of(session.day), used, session.minutes, tuple(batches))
        )
    return tuple(days)


def frozen_of(plan: Plan, dish: str, day: int, portions: int) -> int:
    """Count a batch's frozen portions: those eaten frozen, and those that nobody eats within the days."""
    mine = [h for h in plan.helpings if (h.dish, h.cooked_day) == (dish, day)]
    return sum(h.frozen for h in mine) + portions - len(mine)


def variant_of(dish: Dish, version: str) -> Variant:
    """Find a dish's variant by its version's name in the plan."""
    return next(variant for variant in dish.variants() if variant.name == version)


def use_up_of(week: PlannedWeek) -> tuple[ToUseUp, ...]:
    """List what is on hand and ends within the days, the earliest first, with what the plan leaves to spoil."""
    household, plan = week.kitchen.household, week.plan
    drawn: dict[str, int] = defaultdict(int)
    for drawing in plan.drawings:
        if drawing.bought_day is None:
            drawn[drawing.source] += drawing.quantity
    found = []
    for lot in week.question.lots:
        if lot.last_day is None or lot.last_day > household.days:
            continue
        left = lot.quantity - drawn[lot.name]
        found.append(
            ToUseUp(
                lot.name,
                lot.food,
                week.kitchen.ledger.holding(lot.name).lot.unit,
                household.date_of(lot.last_day),
                lot.quantity,
                drawn[lot.name],
                Fraction(lot.cents * left, lot.quantity),
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
    return costs.tills + costs.trips + costs.spoilt + costs.meals_out + costs.repeats + costs.minutes
