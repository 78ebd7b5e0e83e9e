"""House bounds on a dish: amounts that are more likely a slip than a meal, as doubts and never as faults.

All numbers here are our own, no source: a slip of ten or a missing unit should cross them, an unusual dish
may. They say nothing about what is good to eat.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.chain import bought_mass
from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap, Variant
from ladleworth.dish.salt import salt
from ladleworth.errors import Finding, MissingFact, Place, Weight
from ladleworth.facts import FoodTable, Measure
from ladleworth.units import half_up, show_number

LEAST_TOTAL_G, MOST_TOTAL_G = 50, 1500
MOST_SALT_G = 10
MOST_PIECES = 8
MOST_HANDS_ON_MIN = 480
LEAST_MAIN_G = 20
"""What the starch and the protein part of a portion weigh at the least, as bought."""
MOST_TIMES_THE_REST = 10
MOST_G_OF_AISLE = {
    "spices": 15, "snacks": 200, "baking": 250, "dry-goods": 250, "oils-and-sauces": 250, "bakery": 400,
    "dairy-and-eggs": 500, "frozen": 600, "tins": 600, "meat": 700, "fish": 700, "produce": 1000, "drinks": 1000,
}  # fmt: skip
"""Grams of one food in a portion, as bought, that are the most to pass without a question."""
MOST_G_ELSEWHERE = 1000

REMEDY = "if it is right, leave it; else mend the amount, its unit or the portions (house bounds, no source)"


@dataclass(frozen=True, slots=True)
class Spot:
    """Where an ingredient stands in the dish: part, swap (None: the part itself) and place in it, from 0."""

    part: int
    swap: int | None
    ingredient: int


def doubts(
    dish: Dish,
    foods: FoodTable,
    ingredient_place: Callable[[Spot], Place],
    dish_place: Place,
) -> tuple[Finding, ...]:
    """List what looks like a slip in a dish: tenfold amounts, missing units, portions that do not fit.

    Parameters
    ----------
    dish
        The dish.
    foods
        The food table.
    ingredient_place
        Tells where an ingredient was written.
    dish_place
        Where the dish was written.

    Returns
    -------
    tuple of Finding
        Doubts, each with its place; what has no weight on record is passed over.
    """
    found = [
        finding
        for at, part in enumerate(dish.parts)
        for spot, ingredient in _spots(at, part)
        for finding in _of_ingredient(ingredient, dish, foods, ingredient_place(spot))
    ]
    found += [_doubt(dish_place, what) for what in _of_dish(dish, foods)]
    return tuple(found)


def _spots(at: int, part: Part) -> list[tuple[Spot, Ingredient]]:
    own = [(Spot(at, None, n), i) for n, i in enumerate(part.ingredients)]
    return own + [
        (Spot(at, s, n), i) for s, swap in enumerate(part.swaps) for n, i in enumerate(swap.ingredients)
    ]


def _doubt(place: Place, what: str) -> Finding:
    return Finding(place, what, REMEDY, Weight.DOUBT)


def _grams(mg: Fraction) -> str:
    return f"{half_up(mg / 1000)} g"


def _bought_mg(ingredient: Ingredient, foods: FoodTable) -> Fraction | None:
    """Give the weight as bought, None where nobody has the weight of a piece; tap water counts as it is."""
    if ingredient.unmeasured:
        return ingredient.edible_mg
    try:
        return bought_mass(ingredient, foods)[0]
    except MissingFact:
        return None


def _of_ingredient(ingredient: Ingredient, dish: Dish, foods: FoodTable, place: Place) -> list[Finding]:
    food = foods.get(ingredient.food)
    each = ingredient.bought / dish.portions
    if food.measured_in is Measure.PIECES and each > MOST_PIECES:
        return [_doubt(place, f"{show_number(each)} pieces of {food.name} in a portion are many")]
    mass = _bought_mg(ingredient, foods)
    most = MOST_G_OF_AISLE.get(food.aisle, MOST_G_ELSEWHERE)
    if mass is None or mass / dish.portions <= most * 1000:
        return []
    what = f"{_grams(mass / dish.portions)} of {food.name} in a portion are more than {most} g"
    return [_doubt(place, what)]


def _of_dish(dish: Dish, foods: FoodTable) -> list[str]:
    found: dict[str, None] = {}
    for variant in _corners(dish, foods):
        masses = [(i, _bought_mg(i, foods)) for i in variant.ingredients]
        known = [mass for _, mass in masses if mass]
        total = sum(known, Fraction(0)) / dish.portions
        if total > MOST_TOTAL_G * 1000:
            found[f"a portion takes {_grams(total)}, more than {MOST_TOTAL_G} g"] = None
        if total < LEAST_TOTAL_G * 1000 and all(mass is not None for _, mass in masses):
            found[f"a portion takes {_grams(total)}, less than {LEAST_TOTAL_G} g"] = None
        for ingredient, mass in masses:
            rest = total * dish.portions - (mass or 0)
            if len(known) > 2 and mass and not ingredient.unmeasured and mass > MOST_TIMES_THE_REST * rest:
                name = foods.get(ingredient.food).name
                found[f"{name} weighs over {MOST_TIMES_THE_REST} times all the rest together"] = None
        salty = salt(dish, variant, foods).salt_g_per_portion
        if salty > MOST_SALT_G:
            found[f"a portion holds {show_number(salty, 'decimal')} g of salt, more than {MOST_SALT_G} g"] = (
                None
            )
    found |= dict.fromkeys(_of_parts(dish, foods))
    if dish.fixed_min > MOST_HANDS_ON_MIN:
        found[f"{show_number(dish.fixed_min)} hands-on minutes are more than {MOST_HANDS_ON_MIN}"] = None
    return list(found)


def _corners(dish: Dish, foods: FoodTable) -> tuple[Variant, ...]:
    """Choose the variants that any bound would show in, without listing all: heaviest, lightest and saltiest."""

    def mass(swap: Swap) -> Fraction:
        return sum((_bought_mg(i, foods) or Fraction(0) for i in swap.ingredients), Fraction(0))

    def sodium(swap: Swap) -> Fraction:
        alone = Dish(dish.id, dish.name, dish.portions, (Part("", Role.WHOLE, swap.ingredients),))
        return salt(alone, alone.variants()[0], foods).sodium_mg

    choosing = [part for part in dish.parts if part.swaps]
    choices = [
        [max(part.swaps, key=mass) for part in choosing],
        [min(part.swaps, key=mass) for part in choosing],
        [max(part.swaps, key=sodium) for part in choosing],
    ]
    corners: dict[tuple[tuple[str, str], ...], Variant] = {}
    for choice in choices:
        swaps = tuple((part.name, swap.name) for part, swap in zip(choosing, choice, strict=True))
        always = [i for part in dish.parts for i in part.ingredients]
        taken = (*always, *(i for swap in choice for i in swap.ingredients))
        corners[swaps] = Variant(swaps, taken, dish.fixed_min, dish.per_portion_min)
    return tuple(corners.values())


def _of_parts(dish: Dish, foods: FoodTable) -> list[str]:
    found = []
    for part in dish.parts:
        if part.role not in (Role.STARCH, Role.PROTEIN) or part.swaps:
            continue
        masses = [_bought_mg(ingredient, foods) for ingredient in part.ingredients]
        mass = sum((mass or Fraction(0) for mass in masses), Fraction(0)) / dish.portions
        if None not in masses and mass < LEAST_MAIN_G * 1000:
            found.append(f"the {part.role.value} part {part.name!r} is {_grams(mass)} a portion")
    return found
