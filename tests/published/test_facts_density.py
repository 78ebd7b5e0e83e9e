"""Cup weights of pourable foods against the density that their composition gives.

Outside source: the component densities of Choi and Okos (1986), as printed in the ASHRAE Handbook,
Refrigeration (2006), chapter 9, table 1, at 20 °C; a mixture's volume is taken as the sum of its parts.
Our densities come from weighed cups, so the two ways share nothing but the composition. Ash is not in our
table and goes with the water: that alone makes salty sauces read about 5 % low.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.facts import food_table

CELSIUS = Fraction(20)
# kg/m³ = c0 + c1 t + c2 t², Choi and Okos
COEFFICIENTS = {
    "water": ("997.18", "0.0031439", "-0.0037574"),
    "protein_g": ("1329.9", "-0.5184", "0"),
    "fat_g": ("925.59", "-0.41757", "0"),
    "carbohydrate_g": ("1599.1", "-0.31046", "0"),
}

POURABLE = [
    "milk-whole",
    "milk-2-percent",
    "milk-1-percent",
    "milk-skim",
    "buttermilk",
    "half-and-half",
    "cream-heavy",
    "sour-cream",
    "yogurt-plain",
    "yogurt-low-fat",
    "milk-evaporated",
    "milk-condensed",
    "soymilk",
    "egg-white",
    "egg-yolk",
    "honey",
    "molasses",
    "corn-syrup",
    "maple-syrup",
    "pancake-syrup",
    "oil-soybean",
    "oil-canola",
    "oil-olive",
    "oil-sunflower",
    "oil-corn",
    "lard",
    "mayonnaise",
    "ketchup",
    "barbecue-sauce",
    "tomato-sauce",
    "tomato-paste",
    "tomato-puree",
    "tomatoes-crushed",
    "applesauce",
    "lemon-juice",
    "lime-juice",
    "orange-juice",
    "apple-juice",
    "tomato-juice",
    "broth-beef",
    "stock-chicken-homemade",
    "vinegar-cider",
    "vinegar-white",
    "pumpkin-canned",
    "baked-beans",
    "refried-beans",
    "cream-cheese",
    "butter",
    "coconut-milk",
    "tahini",
    "jam",
    "water",
    "cranberry-sauce",
]

# Wider than 6 %, and why.
WIDER = {"ketchup": "the source rounds a tablespoon to 15 g"}


def _density_kg_m3(part: str) -> Fraction:
    c0, c1, c2 = map(Fraction, COEFFICIENTS[part])
    return c0 + c1 * CELSIUS + c2 * CELSIUS**2


def _worked_g_per_ml(food: str) -> Fraction:
    table = food_table()
    grams = {part: table.nutrient(food, part).value for part in COEFFICIENTS if part != "water"}
    grams["water"] = 100 - sum(grams.values())
    millilitres = sum((amount / _density_kg_m3(part) * 1000 for part, amount in grams.items()), Fraction(0))
    return 100 / millilitres


@pytest.mark.parametrize("food", POURABLE)
def test_a_weighed_cup_agrees_with_the_density_its_parts_give(food: str) -> None:
    weighed, worked = food_table().density(food).value, _worked_g_per_ml(food)
    allowed = Fraction("0.10") if food in WIDER else Fraction("0.06")
    assert abs(weighed - worked) <= allowed * worked, (
        f"cup {float(weighed):.4f}, parts {float(worked):.4f} g/ml"
    )


def test_no_wider_tolerance_is_kept_that_is_not_needed() -> None:
    for food in WIDER:
        weighed, worked = food_table().density(food).value, _worked_g_per_ml(food)
        assert abs(weighed - worked) > Fraction("0.06") * worked, f"{food} agrees: drop the excuse"
