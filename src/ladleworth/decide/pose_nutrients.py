"""Bounds on averages: what the household wants, and which versions of dishes lack the figure for it."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from ladleworth.decide.rules import NutrientBound
from ladleworth.dish.dish import Dish
from ladleworth.dish.nutrients import portion_nutrients
from ladleworth.facts import FoodTable
from ladleworth.household import Eater, Household, Kitchen, barred


def pose_bounds(household: Household, eaters: Collection[str]) -> tuple[NutrientBound, ...]:
    """Pose the bounds of these eaters: nutrients in the units of the food table, what helpings bring as shares."""
    return tuple(
        NutrientBound(eater.name, goal.nutrient, goal.least, goal.most, goal.is_share)
        for eater in household.eaters
        if eater.name in eaters
        for goal in eater.goals
    )


def without_figures(kitchen: Kitchen) -> tuple[str, ...]:
    """Say in words which versions of dishes cannot be served to a bounded eater, and why.

    Returns
    -------
    tuple of str
        One sentence for each dish, version, eater and nutrient without a figure; what the eater may not have
        anyway is left out.
    """
    return tuple(
        f"{eater.name} cannot have {dish.name} ({version}): {why}"
        for eater in kitchen.household.eaters
        for dish in kitchen.dishes
        for version, why in _lacking(eater, dish, kitchen.foods)
        if why
    )


def never_served(eater: Eater, dish: Dish, foods: FoodTable) -> str | None:
    """Say why no version of a dish can be served to an eater with bounds; None if one can, or none may be had anyway."""
    lacking = list(_lacking(eater, dish, foods))
    if not lacking or any(not why for _, why in lacking):
        return None
    return lacking[0][1]


def _lacking(eater: Eater, dish: Dish, foods: FoodTable) -> Iterable[tuple[str, str]]:
    """Pair each version that the eater may have with what it lacks, '' for nothing; what it brings is always known."""
    names = tuple(goal.nutrient for goal in eater.goals if not goal.is_share)
    for variant in dish.variants() if names else ():
        if barred(eater, dish, variant, foods) is None:
            missing = portion_nutrients(dish, variant, foods, names).missing
            yield (
                variant.name,
                " and ".join(
                    f"its {name.rpartition('_')[0].replace('_', ' ')} is not known ({gaps[0].why})"
                    for name, gaps in missing.items()
                ),
            )
