"""What a portion holds of a nutrient, from the composition of its ingredients; what is unknown stays unknown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.chain import NoFigure, by_part, edible_mass
from ladleworth.dish.dish import Dish, Ingredient, Variant
from ladleworth.errors import MissingFact
from ladleworth.facts import Figure, FoodTable


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
    amounts: dict[str, Fraction] = {}
    missing: dict[str, tuple[NoFigure, ...]] = {}
    for name in names:
        total, lacking = Fraction(0), list[NoFigure]()
        for one in held(dish, variant, foods, name):
            if one.amount is not None:
                total += one.amount
            elif not (one.is_unmeasured and one.figure is not None and one.figure.value == 0):
                food = one.ingredient
                lacking.append(NoFigure(one.part, food.food, one.no_figure or one.no_mass, food.edible_mg))
        if lacking:
            missing[name] = tuple(lacking)
        else:
            amounts[name] = total / dish.portions
    return PortionNutrients(amounts, missing)


@dataclass(frozen=True, slots=True)
class Held:
    """What an ingredient holds of a nutrient, for all portions, as far as it is known.

    Parameters
    ----------
    part, ingredient
        Which ingredient, of which part.
    edible_mg
        What of it is edible; None where that is not known, and `no_mass` says why.
    figure
        The nutrient in 100 g of it; None where nobody has it, and `no_figure` says why.
    """

    part: str
    ingredient: Ingredient
    edible_mg: Fraction | None
    figure: Figure | None
    no_mass: str = ""
    no_figure: str = ""

    @property
    def amount(self) -> Fraction | None:
        """The amount, in the nutrient's own unit; None where mass or figure is not known."""
        if self.edible_mg is None or self.figure is None:
            return None
        return self.edible_mg / 100_000 * self.figure.value

    @property
    def is_unmeasured(self) -> bool:
        """Whether it is taken 'to taste', so that nobody knows how much of it there is."""
        return self.ingredient.unmeasured and self.ingredient.edible_mg is None


def held(dish: Dish, variant: Variant, foods: FoodTable, name: str) -> tuple[Held, ...]:
    """List what each ingredient of a dish holds of a nutrient, in the order of the parts.

    Raises
    ------
    UnknownFood
        If an ingredient's food is not in the table.
    BadField
        If there is no such nutrient.
    """
    return tuple(_held(part, ingredient, foods, name) for part, ingredient in by_part(dish, variant))


def _held(part: str, ingredient: Ingredient, foods: FoodTable, name: str) -> Held:
    mass, figure, no_mass, no_figure = None, None, "", ""
    try:
        figure = foods.nutrient(ingredient.food, name)
    except MissingFact as why:
        no_figure = str(why)
    if ingredient.unmeasured and ingredient.edible_mg is None:
        return Held(
            part, ingredient, None, figure, f"the amount of {ingredient.food} is not measured", no_figure
        )
    try:
        mass = edible_mass(ingredient, foods)[0]
    except MissingFact as why:
        no_mass = str(why)
    return Held(part, ingredient, mass, figure, no_mass, no_figure)
