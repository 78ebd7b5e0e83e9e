"""What each part of a batch should weigh when it is done: edible weight times cooking yield, and what is not known of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.dish.chain import NoFigure, by_part, expected_yield
from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap, Variant
from ladleworth.divide.pieces import Counted, counted_in
from ladleworth.divide.swelling import CookedAs, boiled_from_dry, counted_twice_mg, swollen_more_ml
from ladleworth.errors import BadField
from ladleworth.facts import Figure, FoodTable


@dataclass(frozen=True, slots=True)
class PartMade:
    """A part as it should come out, for the whole batch.

    Parameters
    ----------
    part, role, kinds, apart
        As the dish has it; `kinds` with those of the swap chosen.
    known_mg
        What it weighs as far as that is known, exact mg. What boils away or runs off is taken off only by a cooking yield.
    missing
        Ingredients that are left out for want of a figure; then the part's weight is not known.
    to_taste
        Foods without an amount, which nobody counts.
    cooked
        Foods taken through a cooking yield.
    raw
        Foods counted at their edible weight though the table has yields for them.
    figures
        Every figure used.
    looser_ml
        By how many ml it fills more than its weight in water, since swollen foods lie loosely (an estimate).
    counted
        The pieces in which it is dealt out; None where it is dealt out by weight.
    """

    part: str
    role: Role
    kinds: tuple[str, ...]
    apart: bool
    known_mg: Fraction
    missing: tuple[NoFigure, ...]
    to_taste: tuple[str, ...]
    cooked: tuple[CookedAs, ...]
    raw: tuple[str, ...]
    figures: tuple[Figure, ...]
    looser_ml: Fraction
    counted: Counted | None

    @property
    def mass_mg(self) -> Fraction | None:
        """What it weighs in exact mg; None where an ingredient has no figure, or nothing of it is measured."""
        return self.known_mg if self.known_mg and not self.missing else None


def parts_made(
    dish: Dish, variant: Variant, foods: FoodTable, methods: Mapping[str, str] | None = None
) -> tuple[PartMade, ...]:
    """Reckon what each part of a dish weighs when it is done.

    Parameters
    ----------
    dish, variant
        The dish, scaled to the batch, and the swaps chosen.
    foods
        The food table.
    methods
        By food id, how it is cooked, as the table of cooking yields names it. What is boiled from dry is taken as
        boiled without being named (`swelling`); any other food without a method counts at its edible weight.

    Returns
    -------
    tuple of PartMade
        One for each part that has any ingredient, in the order of the dish.

    Raises
    ------
    BadField
        If a method is named for a food that the dish does not take.
    MissingFact
        If the table has no such method for a food.
    """
    asked = dict(methods or {})
    taken = {ingredient.food for _, ingredient in by_part(dish, variant)}
    if unknown := sorted(set(asked) - taken):
        raise BadField(f"{dish.name} takes no {', '.join(unknown)}; name methods only for its own foods")
    for food, method in asked.items():
        foods.cooking_yield(food, method)
    chosen = dict(variant.swaps)
    made = (_made(dish, part, chosen.get(part.name, ""), variant, foods, asked) for part in dish.parts)
    return tuple(one for one in made if one is not None)


def _made(
    dish: Dish, part: Part, chosen: str, variant: Variant, foods: FoodTable, asked: Mapping[str, str]
) -> PartMade | None:
    ingredients = [i for _, i in by_part(replace(dish, parts=(part,)), variant)]
    if not ingredients:
        return None
    weighed = replace(dish, parts=(_weighed(part),), yield_mg=None)
    ways = _ways(ingredients, foods, asked)
    found = expected_yield(weighed, foods, variant, {food: way.figure.method for food, way in ways.items()})
    kinds = part.kinds + tuple(kind for swap in part.swaps if swap.name == chosen for kind in swap.kinds)
    return PartMade(
        part.name,
        part.role,
        tuple(dict.fromkeys(kinds)),
        part.apart,
        found.known_mg - counted_twice_mg(ingredients, foods, ways),
        found.missing,
        tuple(dict.fromkeys(i.food for i in ingredients if not _is_weighed(i))),
        tuple(ways.values()),
        tuple(food for food in found.uncooked if foods.cooking_yields(food)),
        found.figures,
        swollen_more_ml(ingredients, foods, ways),
        counted_in(ingredients, foods, kinds),
    )


def _is_weighed(ingredient: Ingredient) -> bool:
    return not ingredient.unmeasured or bool(ingredient.edible_mg)


def _weighed(part: Part) -> Part:
    """Leave out what has no amount ('to taste')."""

    def kept(piece: Part | Swap) -> tuple[Ingredient, ...]:
        return tuple(i for i in piece.ingredients if _is_weighed(i))

    swaps = tuple(replace(swap, ingredients=kept(swap)) for swap in part.swaps)
    return replace(part, ingredients=kept(part), swaps=swaps)


def _ways(
    ingredients: Sequence[Ingredient], foods: FoodTable, asked: Mapping[str, str]
) -> dict[str, CookedAs]:
    """Say how each food is cooked, where that is known or taken for granted."""
    ways = {}
    for one in ingredients:
        if one.unmeasured:
            continue
        if one.food in asked:
            ways[one.food] = CookedAs(one.food, foods.cooking_yield(one.food, asked[one.food]), assumed=False)
        elif (boiled := boiled_from_dry(foods, one.food)) is not None:
            ways[one.food] = CookedAs(one.food, boiled, assumed=True)
    return ways
