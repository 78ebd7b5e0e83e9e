"""What a portion fills: as the cook measured it, else an estimate from the ingredients."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from ladleworth.dish.chain import bought_mass, by_part, edible_mass
from ladleworth.dish.dish import Dish, Ingredient, Variant
from ladleworth.errors import MissingFact
from ladleworth.facts import CookingYield, FoodTable

WATER_MG_PER_ML = 1000
"""What a millilitre of water weighs, within 1 % between 0 and 50 °C (basis: memory)."""


def portion_ml(dish: Dish, variant: Variant, foods: FoodTable) -> int:
    """Tell what one portion fills.

    The cook's own figure comes first. Without one it is an estimate by house rules (no source): edible weights at
    water's density; a dry food with a cooking yield in the table (rice, pasta, beans) swollen by it, at the density
    of the cooked food where the table has that. Unless it is drained, it swells by the tap water written in its
    part. With a measured yield, the difference to the sum counts as water boiled away or taken up.

    Parameters
    ----------
    dish, variant
        The dish, and the swaps chosen.
    foods
        The food table.

    Returns
    -------
    int
        Millilitres of one portion, rounded up.

    Raises
    ------
    MissingFact
        If nobody knows what an ingredient weighs.
    """
    if dish.portion_volume_ml is not None:
        return dish.portion_volume_ml
    volumes = _parts(dish, variant, foods)
    mass = sum((mg for mg, _ in volumes.values()), Fraction(0))
    volume = sum((ml for _, ml in volumes.values()), Fraction(0))
    if dish.yield_mg is not None:
        volume += (dish.yield_mg - mass) / WATER_MG_PER_ML
        volume = volume if volume > 0 else Fraction(dish.yield_mg, WATER_MG_PER_ML)
    return ceil(volume / dish.portions)


def part_volumes_ml(dish: Dish, variant: Variant, foods: FoodTable) -> dict[str, Fraction]:
    """Estimate what each part of the whole recipe fills, in ml, by the rules of `portion_ml`.

    Where the cook has measured what a portion fills, that is shared out among the parts as the estimates are; a measured
    yield is not, since nobody knows from which part the water went.

    Raises
    ------
    MissingFact
        If nobody knows what an ingredient weighs.
    """
    volumes = {part: ml for part, (_, ml) in _parts(dish, variant, foods).items()}
    total = sum(volumes.values(), Fraction(0))
    if dish.portion_volume_ml is None or not total:
        return volumes
    return {part: ml * dish.portion_volume_ml * dish.portions / total for part, ml in volumes.items()}


def _parts(dish: Dish, variant: Variant, foods: FoodTable) -> dict[str, tuple[Fraction, Fraction]]:
    parts: dict[str, list[Ingredient]] = {}
    for part, ingredient in by_part(dish, variant):
        parts.setdefault(part, []).append(ingredient)
    return {part: _part(ingredients, foods) for part, ingredients in parts.items()}


def _part(ingredients: list[Ingredient], foods: FoodTable) -> tuple[Fraction, Fraction]:
    """Give the weight of a part as cooked in mg, and what it fills in ml."""
    mass = volume = water = swollen = Fraction(0)
    for ingredient in ingredients:
        if ingredient.unmeasured:  # from the tap, or 'to taste'
            water += ingredient.edible_mg or 0
            continue
        raw = _mass(ingredient, foods)
        dry = _dry_yield(foods, ingredient.food)
        done = raw if dry is None else raw * dry.yield_pct / 100
        mass += done
        volume += done / (WATER_MG_PER_ML if dry is None else _cooked_mg_per_ml(foods, ingredient.food))
        if dry is not None and "drained" not in dry.method:
            swollen += done - raw
    left = max(Fraction(0), water - swollen)
    return mass + left, volume + left / WATER_MG_PER_ML


def _mass(ingredient: Ingredient, foods: FoodTable) -> Fraction:
    """Give the edible weight, or the weight as bought where no edible fraction is known."""
    try:
        return edible_mass(ingredient, foods)[0]
    except MissingFact:
        return bought_mass(ingredient, foods)[0]


def _dry_yield(foods: FoodTable, food: str) -> CookingYield | None:
    """Give the first yield of a food that is cooked from dry, None if there is none."""
    return next((row for row in foods.cooking_yields(food) if "dry" in row.before.split()), None)


def _cooked_mg_per_ml(foods: FoodTable, food: str) -> Fraction:
    """Give the density of a cooked food, water's where the table has none."""
    for density in foods.densities(food):
        if density.form == "cooked" or density.form.startswith("cooked,"):
            return density.weight.value * 1000
    return Fraction(WATER_MG_PER_ML)
