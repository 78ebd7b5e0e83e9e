"""The major allergens of a dish: which ingredient brings which, and which labels have to be read.

The nine are those of United States law. What is recorded is flagged; that an allergen is absent is never
vouched for.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ladleworth.dish.dish import Ingredient
from ladleworth.facts import ALLERGENS, AllergenFlag, FoodTable

NOT_VOUCHED = (
    "An allergen that is not listed is not vouched for: this rests on what is recorded for each food and "
    "knows nothing of traces. Read the labels."
)
"""The sentence that stands wherever allergens are shown. It is ours, and so is its caution."""


@dataclass(frozen=True, slots=True)
class Bringer:
    """A food that brings an allergen into the dish, with the flag that says so and its source."""

    food: str
    flag: AllergenFlag


@dataclass(frozen=True, slots=True)
class DishAllergens:
    """What is on record about a dish's allergens.

    Parameters
    ----------
    present
        Each allergen that is flagged, in the order of the law, with every food that brings it.
    read_labels
        Foods whose kind commonly hides allergens: the label has to be read.
    unknown
        The kitchen's own foods of which nothing is recorded.
    notice
        The sentence to be shown with them.
    """

    present: tuple[tuple[str, tuple[Bringer, ...]], ...]
    read_labels: tuple[str, ...]
    unknown: tuple[str, ...]
    notice: str = NOT_VOUCHED

    @property
    def names(self) -> tuple[str, ...]:
        """The allergens flagged, in the order of the law."""
        return tuple(allergen for allergen, _ in self.present)


def allergens_of(ingredients: Iterable[Ingredient], foods: FoodTable) -> DishAllergens:
    """Gather the allergens of ingredients; unmeasured ones ('to taste') count like all others.

    Parameters
    ----------
    ingredients
        A variant's ingredients, or those of all variants.
    foods
        The food table.

    Returns
    -------
    DishAllergens
        The union over all ingredients.

    Raises
    ------
    UnknownFood
        If an ingredient's food is not in the table.
    """
    taken = tuple(dict.fromkeys(ingredient.food for ingredient in ingredients))
    flags = [Bringer(food, flag) for food in taken for flag in foods.allergens(food)]
    present = (
        (allergen, tuple(bringer for bringer in flags if bringer.flag.allergen == allergen))
        for allergen in ALLERGENS
    )
    unknown = tuple(food for food in taken if _unknown(food, foods))
    return DishAllergens(
        present=tuple((allergen, bringers) for allergen, bringers in present if bringers),
        read_labels=tuple(food for food in taken if foods.read_label(food) and food not in unknown),
        unknown=unknown,
    )


def _unknown(food: str, foods: FoodTable) -> bool:
    """Tell whether an own food says nothing of allergens: the table then has no flag and asks for the label."""
    return foods.get(food).own and foods.read_label(food) and not foods.allergens(food)
