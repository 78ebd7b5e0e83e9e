"""From the dishes on record to the dishes of the question: versions with needs, minutes, nutrients and volume."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from fractions import Fraction
from math import floor

from ladleworth.decide.question import DishChoice, Load, Version
from ladleworth.dish.dish import Dish, Variant
from ladleworth.dish.nutrients import portion_nutrients
from ladleworth.dish.volume import portion_ml
from ladleworth.errors import MissingFact
from ladleworth.facts import FoodTable, Measure
from ladleworth.household import Household, Kitchen, barred


def pose_dish(kitchen: Kitchen, dish: Dish) -> DishChoice:
    """Pose a dish with all its versions.

    Where a batch of it may be split, the minutes of the dish itself are shared among the versions, so that a batch
    in one version takes the same minutes either way.
    """
    household = kitchen.household
    variants = dish.variants()
    most_versions = min(dish.splits or household.rules.splits, len(variants))
    shared = dish.fixed_min if most_versions > 1 else Fraction(0)
    return DishChoice(
        name=dish.id,
        versions=tuple(_version(kitchen, dish, variant, shared) for variant in variants),
        least=dish.least,
        greatest=dish.greatest,
        keep_days=dish.keep_days,
        freezer_days=dish.freezer_days,
        meals=frozenset(dish.meals) if dish.meals else None,
        most_versions=most_versions,
        shared_min=shared,
    )


def _version(kitchen: Kitchen, dish: Dish, variant: Variant, shared_min: Fraction) -> Version:
    household, foods = kitchen.household, kitchen.foods
    stations = limited_stations(household)
    return Version(
        name=variant.name,
        needs=per_portion(dish, variant, foods),
        fixed_min=variant.fixed_min - shared_min,
        per_portion_min=variant.per_portion_min,
        barred=frozenset(
            eater.name for eater in household.eaters if barred(eater, dish, variant, foods) is not None
        ),
        liking_cents=Fraction(-dict(household.wishes.liking_cents).get(dish.id, 0)),
        loads={
            taken.station: Load(taken.fixed_min, taken.per_portion_min)
            for taken in variant.stations
            if taken.station in stations
        },
        nutrients=figures(household, dish, variant, foods),
        volume_ml=volume_ml(kitchen, dish, variant),
    )


def volume_ml(kitchen: Kitchen, dish: Dish, variant: Variant) -> int:
    """Tell what a standard portion fills, in ml; 0 where no rule of the house goes by it.

    Raises
    ------
    MissingFact
        If nobody knows it, saying what to write.
    """
    if not kitchen.household.rules.by_volume:
        return 0
    try:
        return portion_ml(dish, variant, kitchen.foods)
    except MissingFact as lacking:
        raise MissingFact(
            f"nobody knows what a portion of {dish.name} fills: {lacking}; write portion_volume for it"
        ) from lacking


def limited_stations(household: Household) -> frozenset[str]:
    """Name the stations whose minutes any session limits."""
    return frozenset(
        station for _, session in household.cook_days() for station in household.station_minutes(session)
    )


def figures(household: Household, dish: Dish, variant: Variant, foods: FoodTable) -> Mapping[str, Fraction]:
    """Give the figures of a standard portion on which any eater has a bound.

    Returns
    -------
    Mapping
        Nutrients as far as they are known, and what the version brings or not (of BRINGS), as 1 or 0.
    """
    goals = {goal.nutrient: goal for eater in household.eaters for goal in eater.goals}
    nutrients = [name for name, goal in goals.items() if not goal.is_share]
    brought = {name: Fraction(name in variant.brings) for name, goal in goals.items() if goal.is_share}
    return {**portion_nutrients(dish, variant, foods, nutrients).amounts, **brought}


def per_portion(dish: Dish, variant: Variant, foods: FoodTable) -> Mapping[str, Fraction]:
    """Add up what one portion takes of each food, as bought; nothing unmeasured.

    Returns
    -------
    Mapping
        Pieces exact, mass in whole milligrams, rounded down (a mass below one milligram stays exact): a recipe
        that takes all of a package must not need a milligram more than the package, rounded, holds.
    """
    needs: dict[str, Fraction] = defaultdict(Fraction)
    for ingredient in variant.ingredients:
        if not ingredient.unmeasured:
            needs[ingredient.food] += ingredient.bought / dish.portions
    return {
        food: amount
        if foods.get(food).measured_in is Measure.PIECES or amount < 1
        else Fraction(floor(amount))
        for food, amount in needs.items()
    }
