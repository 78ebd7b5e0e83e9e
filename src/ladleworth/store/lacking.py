"""Foods that dishes call for and that cannot be had: no shop has them, and too little is on hand. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from ladleworth.dish.dish import Dish, Variant
from ladleworth.errors import Finding, Place, Weight
from ladleworth.facts import FoodTable
from ladleworth.ledger import Ledger, LotUnit, PriceBook

TO_PAPERS = "add a row for it to prices.csv or stock.csv"
TO_BOOKS = "enter a price with `ladleworth price`, or what came in with `ladleworth bring`"
"""What to do about a food that cannot be had: in a folder, and in a file whose books have gone on."""


@dataclass(frozen=True, slots=True)
class Lacking:
    """A food that cannot be had, and what falls with it.

    Parameters
    ----------
    food
        The food's id.
    some
        Whether a little is on hand, less than the smallest batch takes.
    dishes
        Ids of the dishes that cannot be cooked in any way without it.
    swaps
        (Dish id, name of the variant) of those that can be made some other way.
    """

    food: str
    some: bool
    dishes: tuple[str, ...]
    swaps: tuple[tuple[str, str], ...]


def lacking_of(dishes: Iterable[Dish], ledger: Ledger, prices: PriceBook, start: date) -> tuple[Lacking, ...]:
    """List the foods that dishes call for and that cannot be had.

    Parameters
    ----------
    dishes
        The dishes.
    ledger
        What is on hand; lots past their last day on `start` do not count.
    prices
        The price book; a food that any shop has ever had can be had.
    start
        The first day of the plan.

    Returns
    -------
    tuple of Lacking
        By food.
    """
    stock: dict[str, int] = {}
    for held in ledger.on_hand(start):
        if held.lot.unit is not LotUnit.PORTION and not held.is_past(start):
            stock[held.lot.item] = stock.get(held.lot.item, 0) + held.quantity
    offered = {offer.food for offer in prices.offers}
    whole: dict[str, list[str]] = {}
    parts: dict[str, list[tuple[str, str]]] = {}
    for dish in dishes:
        variants = dish.variants()
        lack = [_short_of(dish, variant, stock, offered) for variant in variants]
        for food in sorted(set().union(*lack)):
            if all(food in short for short in lack):
                whole.setdefault(food, []).append(dish.id)
                continue
            mine = [v.name for v, short in zip(variants, lack, strict=True) if food in short]
            parts.setdefault(food, []).extend((dish.id, name) for name in mine)
    return tuple(
        Lacking(food, food in stock, tuple(whole.get(food, ())), tuple(parts.get(food, ())))
        for food in sorted({*whole, *parts})
    )


def _short_of(dish: Dish, variant: Variant, stock: dict[str, int], offered: set[str]) -> set[str]:
    """Name the foods of a variant that no shop has and of which less is there than its smallest batch takes."""
    need: dict[str, int] = {}
    for one in variant.ingredients:
        if not one.unmeasured and one.food not in offered:
            least = one.bought * dish.least / dish.portions
            need[one.food] = need.get(one.food, 0) + least.numerator // least.denominator
    return {food for food, least in need.items() if food not in stock or stock[food] < least}


def lacking_text(one: Lacking, dishes: tuple[Dish, ...], foods: FoodTable) -> str:
    """Say what cannot be had and what falls with it.

    Examples: 'no shop has cumin and none is on hand, so Shakshuka cannot be cooked', and with swaps
    '... so Chili cannot be cooked with sausage (stew)'.
    """
    names = {dish.id: dish.name for dish in dishes}
    swaps = {(dish.id, v.name): v.swaps for dish in dishes for v in dish.variants()}
    fallen = [names[dish] for dish in one.dishes]
    for dish in dict.fromkeys(dish for dish, _ in one.swaps):
        mine = [name for other, name in one.swaps if other == dish]
        others = [v for (owner, name), v in swaps.items() if owner == dish and name not in mine]
        chosen = {pair for name in mine for pair in swaps[dish, name]} - {pair for v in others for pair in v}
        told = " or ".join(f"{swap} ({part})" for part, swap in sorted(chosen)) or "some of its swaps"
        fallen.append(f"{names[dish]} with {told}")
    little = "too little of it is on hand" if one.some else "none is on hand"
    so = fallen[0] if len(fallen) == 1 else f"{', '.join(fallen[:-1])} and {fallen[-1]}"
    return f"no shop has {foods.get(one.food).name} and {little}, so {so} cannot be cooked"


def doubt_lacking(
    place: Place,
    dishes: tuple[Dish, ...],
    foods: FoodTable,
    ledger: Ledger,
    prices: PriceBook,
    start: date,
    remedy: str = TO_PAPERS,
) -> list[Finding]:
    """Doubt each food that cannot be had, and say it where nothing at all can be cooked."""
    lacking = lacking_of(dishes, ledger, prices, start)
    found = [Finding(place, lacking_text(one, dishes, foods), remedy, Weight.DOUBT) for one in lacking]
    if dishes and len(uncookable(dishes, ledger, prices, start)) == len(dishes):
        names = ", ".join(dish.name for dish in dishes)
        found.append(Finding(place, f"none of the dishes can be cooked: {names}", remedy, Weight.DOUBT))
    return found


def uncookable(dishes: Iterable[Dish], ledger: Ledger, prices: PriceBook, start: date) -> tuple[str, ...]:
    """Name by id the dishes of which every variant wants for something that cannot be had."""
    every = tuple(dishes)
    lacking = lacking_of(every, ledger, prices, start)
    fallen = {dish for one in lacking for dish in one.dishes}
    barred = {pair for one in lacking for pair in one.swaps}
    return tuple(
        dish.id
        for dish in every
        if dish.id in fallen or all((dish.id, v.name) in barred for v in dish.variants())
    )
