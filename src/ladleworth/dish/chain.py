"""The yield chain of an ingredient, bought to edible to cooked, and what a dish should weigh when it is done.

As bought x edible fraction = edible; edible x cooking yield = cooked. Where the cooking yield was measured on
the weight as bought (with bone, skin or peel), it is applied to that weight, so that nothing is taken off twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.dish import Dish, Ingredient, Variant
from ladleworth.errors import BadField, MissingFact
from ladleworth.facts import CookingYield, Figure, FoodTable, Measure, WeightIs

_ON_BOUGHT = ("bone-in", "with refuse", "ready-to-cook", "unpeeled", "raw whole", "include bone")


@dataclass(frozen=True, slots=True)
class YieldChain:
    """An ingredient's weight as bought, edible and cooked, in exact mg, with the figures it rests on.

    Parameters
    ----------
    food
        The food's id.
    bought_mg, edible_mg
        Weight as bought, and of the part that is eaten.
    cooked_mg
        Weight after cooking; None where no method was asked for.
    figures
        The table's figures used, in the order of use, each with its source and basis; what a line's own
        amounts rest on stands in the ingredient's `working`.
    includes_bone
        True where the cooked weight counts bone as well.
    """

    food: str
    bought_mg: Fraction
    edible_mg: Fraction
    cooked_mg: Fraction | None
    figures: tuple[Figure, ...]
    includes_bone: bool = False

    @property
    def edible_pct(self) -> Fraction:
        """Edible weight in per cent of the weight as bought."""
        return self.edible_mg / self.bought_mg * 100

    @property
    def cooked_pct(self) -> Fraction | None:
        """Cooked weight in per cent of the weight as bought."""
        return None if self.cooked_mg is None else self.cooked_mg / self.bought_mg * 100


def bought_mass(ingredient: Ingredient, foods: FoodTable) -> tuple[Fraction, tuple[Figure, ...]]:
    """Give an ingredient's weight as bought in mg; a food in pieces is weighed by its usual piece.

    Raises
    ------
    MissingFact
        If the food comes in pieces and nobody has the weight of one.
    """
    if foods.get(ingredient.food).measured_in is Measure.MASS:
        return ingredient.bought, ()
    piece = foods.piece_weight(ingredient.food, weight_is=WeightIs.AS_BOUGHT)
    return ingredient.bought * piece.value * 1000, (piece,)


def edible_mass(ingredient: Ingredient, foods: FoodTable) -> tuple[Fraction, tuple[Figure, ...]]:
    """Give the weight of an ingredient's edible part in mg: as recorded, else bought x edible fraction.

    Raises
    ------
    MissingFact
        If nobody has the figures for it.
    """
    if ingredient.edible_mg is not None:
        return ingredient.edible_mg, ()
    bought_mg, figures = bought_mass(ingredient, foods)
    fraction = foods.edible_fraction(ingredient.food)
    return bought_mg * fraction.value, (*figures, fraction)


def chain(ingredient: Ingredient, foods: FoodTable, method: str | None = None) -> YieldChain:
    """Follow an ingredient from the shop through the board to the pot.

    Parameters
    ----------
    ingredient
        A measured ingredient.
    foods
        The food table.
    method
        How it is cooked, as the table of cooking yields names it ('boiled', 'roasted'); None leaves it raw.

    Returns
    -------
    YieldChain
        Its weights and the figures they rest on.

    Raises
    ------
    BadField
        If the ingredient is unmeasured.
    MissingFact
        If a figure on the way is one that nobody has.
    """
    if ingredient.unmeasured:
        raise BadField(f"{ingredient.food} has no measured amount; only measured ingredients have a yield")
    bought_mg, piece = bought_mass(ingredient, foods)
    edible_mg, share = edible_mass(ingredient, foods)
    figures = tuple(dict.fromkeys((*piece, *(share or _share_behind(ingredient, foods)))))
    if method is None:
        return YieldChain(ingredient.food, bought_mg, edible_mg, None, figures)
    cooked = foods.cooking_yield(ingredient.food, method)
    of_bought = on_bought(cooked)
    return YieldChain(
        food=ingredient.food,
        bought_mg=bought_mg,
        edible_mg=edible_mg,
        cooked_mg=(bought_mg if of_bought else edible_mg) * cooked.yield_pct / 100,
        figures=(*figures, _figure(cooked)),
        includes_bone=_with_bone(cooked),
    )


def _share_behind(ingredient: Ingredient, foods: FoodTable) -> tuple[Figure, ...]:
    """Give the edible fraction if the recorded weights rest on it; `working` names what else they rest on."""
    try:
        share = foods.edible_fraction(ingredient.food)
    except MissingFact:
        return ()
    return (share,) if ingredient.edible_mg == ingredient.bought * share.value else ()


def on_bought(cooked: CookingYield) -> bool:
    """Tell whether a cooking yield was measured on the weight as bought, with bone, skin or peel."""
    return any(words in text for words in _ON_BOUGHT for text in (cooked.before, cooked.note))


def _with_bone(cooked: CookingYield) -> bool:
    """Tell whether the cooked weight counts bone: not where the source weighed the edible part of it."""
    return "refuse" not in cooked.before and "bone-in" in f"{cooked.before} {cooked.note}"


def _figure(cooked: CookingYield) -> Figure:
    note = f"{cooked.method}, of the weight {cooked.before}"
    return Figure(cooked.yield_pct, "%", cooked.source, cooked.basis, note)


@dataclass(frozen=True, slots=True)
class NoFigure:
    """An ingredient that a sum leaves out, and why; `edible_mg` is its mass where that is known."""

    part: str
    food: str
    why: str
    edible_mg: Fraction | None = None


@dataclass(frozen=True, slots=True)
class PartYield:
    """What a part weighs, in exact mg, as far as it is known; `complete` says whether all of it is."""

    part: str
    known_mg: Fraction
    complete: bool = True

    @property
    def total_mg(self) -> Fraction | None:
        """The part's weight; None where an ingredient is left out of the known one."""
        return self.known_mg if self.complete else None


@dataclass(frozen=True, slots=True)
class DishYield:
    """What all portions of a dish weigh.

    Parameters
    ----------
    parts
        The parts' known weights.
    known_mg
        Their sum, or the measured yield where the dish has one.
    measured
        True where the scale has given the yield.
    missing
        Ingredients that the sum leaves out.
    uncooked
        Foods counted at their edible weight because no cooking method was named for them; liquid that
        boils away from them is not taken off.
    figures
        Every figure used.
    """

    parts: tuple[PartYield, ...]
    known_mg: Fraction
    measured: bool
    missing: tuple[NoFigure, ...]
    uncooked: tuple[str, ...]
    figures: tuple[Figure, ...]

    @property
    def complete(self) -> bool:
        """Whether nothing is left out: the scale has spoken, or every ingredient has its figure."""
        return self.measured or not self.missing

    @property
    def total_mg(self) -> Fraction | None:
        """What all portions weigh; None where something is left out, which `missing` then lists."""
        return self.known_mg if self.complete else None


def by_part(dish: Dish, variant: Variant) -> tuple[tuple[str, Ingredient], ...]:
    """Pair every ingredient of a dish with the name of its part, for the swaps chosen."""
    chosen = dict(variant.swaps)
    pairs = []
    for part in dish.parts:
        swap = [i for s in part.swaps if s.name == chosen.get(part.name) for i in s.ingredients]
        pairs += [(part.name, ingredient) for ingredient in (*part.ingredients, *swap)]
    return tuple(pairs)


def expected_yield(
    dish: Dish, foods: FoodTable, variant: Variant | None = None, methods: Mapping[str, str] | None = None
) -> DishYield:
    """Sum what a dish should weigh when it is done; what has no figure is listed, never guessed.

    Parameters
    ----------
    dish
        The dish.
    foods
        The food table.
    variant
        Which swaps; left out, the first-written ones.
    methods
        By food id, how it is cooked on its own ('rice-white-long-grain': 'boiled'). A food without a method
        counts at its edible weight.

    Returns
    -------
    DishYield
        Weights by part in mg, what is missing, and what was counted uncooked. The dish's measured yield, if
        it has one, takes the place of the sum; the parts stay computed.

    Raises
    ------
    BadField
        If a method is named for a food that the dish does not take.
    """
    methods = methods or {}
    missing, figures = [], list[Figure]()
    known = {part.name: Fraction(0) for part in dish.parts}
    uncooked: dict[str, None] = {}
    seen: set[str] = set()
    for part, ingredient in by_part(dish, variant or dish.variants()[0]):
        seen.add(ingredient.food)
        try:
            mass, used = _done_mass(ingredient, foods, methods.get(ingredient.food))
        except MissingFact as lacking:
            missing.append(NoFigure(part, ingredient.food, str(lacking), ingredient.edible_mg))
            continue
        known[part] += mass
        figures += used
        if ingredient.food not in methods:
            uncooked[ingredient.food] = None
    if unused := set(methods) - seen:
        raise BadField(
            f"{dish.name} takes no {', '.join(sorted(unused))}; name methods only for its own foods"
        )
    total = sum(known.values(), Fraction(0))
    lacking_parts = {one.part for one in missing}
    return DishYield(
        parts=tuple(PartYield(part, mass, part not in lacking_parts) for part, mass in known.items()),
        known_mg=total if dish.yield_mg is None else Fraction(dish.yield_mg),
        measured=dish.yield_mg is not None,
        missing=tuple(missing),
        uncooked=tuple(uncooked),
        figures=tuple(dict.fromkeys(figures)),
    )


def _done_mass(
    ingredient: Ingredient, foods: FoodTable, method: str | None
) -> tuple[Fraction, tuple[Figure, ...]]:
    if ingredient.bought == 0:  # tap water has a mass though nothing is bought; 'to taste' has none
        if ingredient.edible_mg is None:
            raise MissingFact(f"the amount of {ingredient.food} is not measured")
        return ingredient.edible_mg, ()
    if method is None:
        return edible_mass(ingredient, foods)
    followed = chain(ingredient, foods, method)
    assert followed.cooked_mg is not None
    return followed.cooked_mg, followed.figures
