"""Small batches for the tests of dividing, made by hand."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from fractions import Fraction
from typing import Any

from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Variant
from ladleworth.divide import DivideQuestion, Filling, PartMade, Portion, parts_made
from ladleworth.facts import food_table
from ladleworth.household.rules import Container

TABLE = food_table()
SUNDAY = date(2026, 12, 6)
TENTH = Filling(Fraction(1, 10))


def food(name: str, grams: float, edible: float | None = None, **more: Any) -> Ingredient:
    """So many grams of a food, all of it eaten unless said otherwise."""
    bought = Fraction(str(grams)) * 1000
    return Ingredient(name, bought, bought if edible is None else Fraction(str(edible)) * 1000, **more)


def tap(grams: int) -> Ingredient:
    return Ingredient("water", Fraction(0), Fraction(grams * 1000), unmeasured=True)


def counted(name: str, number: int, piece: str = "", *, grams: int = 50, **more: Any) -> Ingredient:
    """So many pieces of a food that is bought in pieces."""
    count = Fraction(number)
    return Ingredient(name, count, Fraction(grams * 1000) * number, count=count, piece=piece, **more)


def part(
    name: str, role: Role, *ingredients: Ingredient, kinds: Sequence[str] = (), apart: bool = False
) -> Part:
    return Part(name, role, ingredients, kinds=tuple(kinds), apart=apart)


def dish(*parts: Part, portions: int = 6, **more: Any) -> Dish:
    return Dish("pot", "Pot", portions, parts, **more)


def only(of: Dish) -> Variant:
    (variant,) = of.variants()
    return variant


def made(of: Dish, **methods: str) -> dict[str, PartMade]:
    """What each part weighs; a method is given by the food's id with _ for -."""
    ways = {name.replace("_", "-"): way for name, way in methods.items()}
    return {one.part: one for one in parts_made(of, only(of), TABLE, ways)}


def asked(of: Dish, sizes: Sequence[Fraction | int] | None = None, **more: Any) -> DivideQuestion:
    """A batch of a dish, into so many portions of such sizes (left out: the recipe's, all alike)."""
    portions = tuple(Portion(Fraction(size)) for size in sizes or [1] * of.portions)
    return DivideQuestion(of, only(of), TABLE, more.pop("portions", portions), SUNDAY, **more)


STEW = dish(
    part("beef", Role.PROTEIN, food("beef-ground-80", 600), kinds=["ground meat in sauce"]),
    part("sauce", Role.SAUCE, food("tomatoes-crushed", 900), kinds=["tomato sauce"]),
    part("rice", Role.STARCH, food("rice-white-long-grain", 390), tap(750), kinds=["rice plain"]),
    part("bread", Role.STARCH, counted("tortilla-flour", 7, grams=30), apart=True),
    part(
        "cheese",
        Role.GARNISH,
        food("cheddar", 60, preparation=("shredded",)),
        kinds=["crumb or cheese topping"],
    ),
)
"""For six: beef in sauce, rice, seven tortillas kept apart, a little cheese on top."""

BOXES = (Container(600, 4, 60), Container(750, 6, 75), Container(1000, 2, 80))
