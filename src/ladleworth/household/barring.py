"""What an eater may not have, and why."""

from __future__ import annotations

from ladleworth.dish.allergens import allergens_of
from ladleworth.dish.dish import Dish, Variant
from ladleworth.facts import FoodTable
from ladleworth.household.people import Avoid, Eater, Exclusion

NO_AISLE = "own"
"""The aisle of an own food for which none is written: it is not on record."""


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
