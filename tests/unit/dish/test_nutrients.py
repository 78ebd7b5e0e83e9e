"""Nutrients of a portion by hand from the composition; nothing unknown is taken as nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.dish import Dish, Ingredient, Part, Role
from ladleworth.dish.nutrients import held, portion_nutrients
from ladleworth.dish.salt import salt
from ladleworth.errors import BadField
from ladleworth.facts import food_table

TABLE = food_table()


def dish(*ingredients: Ingredient, portions: int = 2) -> Dish:
    return Dish("d", "D", portions, (Part("pot", Role.WHOLE, ingredients),))


def of(made: Dish, *names: str) -> tuple[dict[str, Fraction], dict[str, list[str]]]:
    found = portion_nutrients(made, made.variants()[0], TABLE, names)
    return dict(found.amounts), {
        name: [one.why for one in lacking] for name, lacking in found.missing.items()
    }


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
    pinch = Ingredient("salt", Fraction(0), unmeasured=True)
    onion = Ingredient("onion", Fraction(100_000), Fraction(100_000))
    amounts, missing = of(dish(pinch, onion), "energy_kcal", "sodium_mg")
    assert amounts == {"energy_kcal": 20}
    assert missing == {"sodium_mg": ["the amount of salt is not measured"]}


def test_tap_water_of_a_known_amount_brings_its_own() -> None:
    water = Ingredient("water", Fraction(0), Fraction(500_000), unmeasured=True)
    amounts, _ = of(dish(water), "sodium_mg")
    assert amounts == {"sodium_mg": Fraction(4 * 5, 2)}


def test_a_nutrient_that_is_none_is_refused() -> None:
    with pytest.raises(BadField, match="nutrient 'vitality' is not known"):
        of(dish(Ingredient("onion", Fraction(1000), Fraction(1000))), "vitality")


def test_what_each_ingredient_holds_is_told_with_why_it_is_not_known() -> None:
    # USDA SR26: onion 4 mg of sodium in 100 g; the source has no entry for vegetable broth.
    onion = Ingredient("onion", Fraction(100_000), Fraction(100_000))
    broth = Ingredient("broth-vegetable", Fraction(500_000), Fraction(500_000))
    salt_to_taste = Ingredient("salt", Fraction(0), unmeasured=True)
    made = dish(onion, broth, salt_to_taste)
    first, second, third = held(made, made.variants()[0], TABLE, "sodium_mg")
    assert (first.part, first.amount, first.no_mass, first.no_figure) == ("pot", 4, "", "")
    assert (second.amount, second.edible_mg, second.figure) == (None, 500_000, None)
    assert second.no_figure == "nobody has the composition of 'broth-vegetable'"
    assert (third.amount, third.edible_mg, third.no_figure) == (None, None, "")
    assert third.no_mass == "the amount of salt is not measured"
    assert third.figure is not None


def test_salt_and_nutrients_add_up_the_same_sodium_and_tell_what_is_absent_each_in_its_way() -> None:
    onion = Ingredient("onion", Fraction(100_000), Fraction(100_000))
    oil = Ingredient("oil-sunflower", Fraction(0), unmeasured=True)
    plain, dressed = dish(onion), dish(onion, oil)
    for made in (plain, dressed):
        amounts, missing = of(made, "sodium_mg")
        assert amounts["sodium_mg"] == salt(made, made.variants()[0], TABLE).sodium_mg_per_portion == 2
        assert missing == {}
    # USDA SR26: no sodium in 100 g of sunflower oil, so in none of it; salt lists it all the same, as not measured.
    (listed,) = salt(dressed, dressed.variants()[0], TABLE).missing
    assert (listed.food, listed.edible_mg) == ("oil-sunflower", None)
