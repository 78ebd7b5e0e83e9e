"""What a portion holds of a nutrient, from the composition of its ingredients; what is unknown stays unknown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.chain import NoFigure, by_part, edible_mass
from ladleworth.dish.dish import Dish, Ingredient, Variant
from ladleworth.errors import MissingFact
from ladleworth.facts import FoodTable


@dataclass(frozen=True, slots=True)
class PortionNutrients:
    """Nutrients of one standard portion.

    Parameters
    ----------
    amounts
        The amount by nutrient, in the nutrient's own unit; one that any ingredient lacks is not there.
    missing
        By nutrient that is not there, the ingredients that lack a figure or an amount.
    """

    amounts: Mapping[str, Fraction]
    missing: Mapping[str, tuple[NoFigure, ...]]


def portion_nutrients(
    dish: Dish, variant: Variant, foods: FoodTable, names: Iterable[str]
) -> PortionNutrients:
    """Add up nutrients of a portion from the raw composition of the edible weights.

    Calculated, not analysed. Not taken off: what goes away with poured-off water, marinade or fat, and what heat
    and keeping destroy of vitamins.

    Parameters
    ----------
    dish, variant
        The dish, and the swaps chosen.
    foods
        The food table.
    names
        Names of nutrients, as in NUTRIENTS.

    Returns
    -------
    PortionNutrients
        What is known in full, and for the rest what is missing. An ingredient without an amount ('to taste')
        leaves the sum whole only where 100 g of it hold none of the nutrient.

    Raises
    ------
    BadField
        If there is no such nutrient.
    """
    ingredients = by_part(dish, variant)
    amounts: dict[str, Fraction] = {}
    missing: dict[str, tuple[NoFigure, ...]] = {}
    for name in names:
        total, lacking = Fraction(0), list[NoFigure]()
        for part, ingredient in ingredients:
            try:
                total += _amount(ingredient, foods, name)
            except MissingFact as why:
                lacking.append(NoFigure(part, ingredient.food, str(why), ingredient.edible_mg))
        if lacking:
            missing[name] = tuple(lacking)
        else:
            amounts[name] = total / dish.portions
    return PortionNutrients(amounts, missing)


def _amount(ingredient: Ingredient, foods: FoodTable, name: str) -> Fraction:
    figure = foods.nutrient(ingredient.food, name)
    if ingredient.unmeasured and ingredient.edible_mg is None:
        if figure.value == 0:
            return Fraction(0)
        raise MissingFact(f"the amount of {ingredient.food} is not measured")
    return edible_mass(ingredient, foods)[0] / 100_000 * figure.value
