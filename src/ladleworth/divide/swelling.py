"""Dry foods that swell: what they take up, and of which liquid, so that no water is counted twice or left out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.chain import edible_mass
from ladleworth.dish.dish import Ingredient
from ladleworth.errors import MissingFact
from ladleworth.facts import CookingYield, FoodTable

LIQUIDS = frozenset(
    [
        "beer",
        "broth-beef",
        "broth-chicken",
        "broth-vegetable",
        "buttermilk",
        "coconut-milk",
        "cream-heavy",
        "milk-1-percent",
        "milk-2-percent",
        "milk-evaporated",
        "milk-skim",
        "milk-whole",
        "pasta-sauce",
        "soup-tomato",
        "soymilk",
        "stock-chicken-homemade",
        "tomato-puree",
        "tomato-sauce",
        "tomatoes-canned",
        "tomatoes-crushed",
        "tomatoes-stewed",
    ]
)
"""Foods beside tap water, and beside those of the aisle of drinks, that a dry food swells in. House rule, no source."""

DRINKS = "drinks"


@dataclass(frozen=True, slots=True)
class CookedAs:
    """How a food of a part was taken to be cooked; `assumed` where nobody said so."""

    food: str
    figure: CookingYield
    assumed: bool

    @property
    def is_from_dry(self) -> bool:
        """Whether its yield is of the dry food."""
        return "dry" in self.figure.before.split()

    @property
    def is_drained(self) -> bool:
        """Whether what it was boiled in is poured off."""
        return "drained" in self.figure.method


def boiled_from_dry(foods: FoodTable, food: str) -> CookingYield | None:
    """Give the first yield of a food that is boiled from dry; None for a food that is not, or of which none is known."""
    first = next((row for row in foods.cooking_yields(food) if "dry" in row.before.split()), None)
    return first if first is not None and first.method.startswith("boiled") else None


def counted_twice_mg(
    ingredients: Sequence[Ingredient], foods: FoodTable, ways: Mapping[str, CookedAs]
) -> Fraction:
    """Tell how much liquid of a part stands in the yield of a swollen food and in its own line as well.

    Parameters
    ----------
    ingredients, foods
        Those of one part, and the food table.
    ways
        By food id, how it is cooked.

    Returns
    -------
    Fraction
        Milligrams to take off. What is boiled and drained takes up none of it. What is taken to swell without anybody
        saying so weighs, with the tap water of its part, what the two weighed before; where no tap water is written,
        as much more as it takes up beyond the part's other liquids. A yield that is named counts, and takes up no more
        than there is (house rules, no source).
    """
    tap = sum((i.edible_mg or Fraction(0) for i in ingredients if i.unmeasured), Fraction(0))
    swells = {True: Fraction(0), False: Fraction(0)}
    others = Fraction(0)
    for one in ingredients:
        if one.unmeasured:
            continue
        try:
            mass = edible_mass(one, foods)[0]
        except MissingFact:
            continue  # it is named as missing, and then the part has no weight
        way = ways.get(one.food)
        if way is not None and way.is_from_dry and not way.is_drained:
            swells[way.assumed] += mass * (way.figure.yield_pct - 100) / 100
        elif one.food in LIQUIDS or foods.get(one.food).aisle == DRINKS:
            others += mass
    taken = swells[True] if tap else min(swells[True], others)
    left = max(Fraction(0), tap + others - taken)
    return taken + min(swells[False], left)


def swollen_more_ml(
    ingredients: Sequence[Ingredient], foods: FoodTable, ways: Mapping[str, CookedAs]
) -> Fraction:
    """Tell by how many ml a part fills more than its weight in water would: swollen foods lie loosely.

    A food cooked from dry counts at the table's density of the cooked food, at water's where there is none.
    """
    more = Fraction(0)
    for one in ingredients:
        way = ways.get(one.food)
        if one.unmeasured or way is None or not way.is_from_dry:
            continue
        try:
            done_mg = edible_mass(one, foods)[0] * way.figure.yield_pct / 100
        except MissingFact:
            continue
        more += done_mg / cooked_mg_per_ml(foods, one.food) - done_mg / 1000
    return more


def cooked_mg_per_ml(foods: FoodTable, food: str) -> Fraction:
    """Give the density of a cooked food in mg/ml, water's where the table has none."""
    for density in foods.densities(food):
        if density.form == "cooked" or density.form.startswith("cooked,"):
            return density.weight.value * 1000
    return Fraction(1000)
