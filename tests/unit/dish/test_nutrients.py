"""Nutrients of a portion by hand from the composition; nothing unknown is taken as nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.dish import Dish, Ingredient, Part, Role
from ladleworth.dish.nutrients import portion_nutrients
from ladleworth.errors import BadField
from ladleworth.facts import food_table

TABLE = food_table()


def dish(*ingredients: Ingredient, portions: int = 2) -> Dish:
    return Dish("d", "D", portions, (Part("pot", Role.WHOLE, ingredients),))


def of(made: Dish, *names: str) -> tuple[dict[str, Fraction], dict[str, list[str]]]:
    held = portion_nutrients(made, made.variants()[0], TABLE, names)
    return dict(held.amounts), {name: [one.why for one in lacking] for name, lacking in held.missing.items()}


def test_a_portion_holds_its_share_of_the_edible_weights() -> None:
    # USDA SR26: onion 40 kcal and 1.10 g protein, rice 365 kcal and 7.13 g, in 100 g of the edible part.
    onion = Ingredient("onion", Fraction(222_222), Fraction(200_000))
    rice = Ingredient("rice-white-long-grain", Fraction(150_000), Fraction(150_000))
    amounts, missing = of(dish(onion, rice), "energy_kcal", "protein_g")
    assert amounts == {
        "energy_kcal": (200 * Fraction("0.40") + 150 * Fraction("3.65")) / 2,
        "protein_g": (200 * Fraction("0.0110") + 150 * Fraction("0.0713")) / 2,
    }
    assert missing == {}


def test_a_nutrient_that_one_ingredient_lacks_is_absent_and_says_why() -> None:
    # The source has no entry for vegetable broth.
    broth = Ingredient("broth-vegetable", Fraction(500_000), Fraction(500_000))
    onion = Ingredient("onion", Fraction(100_000), Fraction(100_000))
    amounts, missing = of(dish(broth, onion), "sodium_mg")
    assert amounts == {}
    assert missing == {"sodium_mg": ["nobody has the composition of 'broth-vegetable'"]}


def test_salt_to_taste_hides_the_sodium_but_not_the_energy() -> None:
    salt = Ingredient("salt", Fraction(0), unmeasured=True)
    onion = Ingredient("onion", Fraction(100_000), Fraction(100_000))
    amounts, missing = of(dish(salt, onion), "energy_kcal", "sodium_mg")
    assert amounts == {"energy_kcal": 20}
    assert missing == {"sodium_mg": ["the amount of salt is not measured"]}


def test_tap_water_of_a_known_amount_brings_its_own() -> None:
    water = Ingredient("water", Fraction(0), Fraction(500_000), unmeasured=True)
    amounts, _ = of(dish(water), "sodium_mg")
    assert amounts == {"sodium_mg": Fraction(4 * 5, 2)}


def test_a_nutrient_that_is_none_is_refused() -> None:
    with pytest.raises(BadField, match="nutrient 'vitality' is not known"):
        of(dish(Ingredient("onion", Fraction(1000), Fraction(1000))), "vitality")
