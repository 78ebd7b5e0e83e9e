"""Scaling checked against the worked examples of the US Armed Forces Recipe Service (TM 10-412), card A-1.

The examples were read in that service's general information on adjusting recipes.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.dish import Dish, Ingredient, Part, Role
from ladleworth.dish.scale import factor_for_portion_size, factor_for_portions, scale, show_amount
from ladleworth.units import LB, OZ, round_ounces

HUNDRED = Dish(
    id="beef", name="Beef", portions=100, parts=(Part("all", Role.WHOLE, (Ingredient("beef", LB.in_base * Fraction("1.25")),)),)
)  # fmt: skip


def test_348_portions_of_3_ounces_from_100_of_4_ounces_take_the_recipe_2_61_times() -> None:
    # Source: AFRS card A-1, changed portion size; tolerance none.
    assert factor_for_portion_size(100, 4 * OZ.in_base, 348, 3 * OZ.in_base) == Fraction("2.61")


def test_348_portions_take_the_recipe_3_48_times_and_1_25_pounds_become_4_lb_5_1_2_oz() -> None:
    # Source: AFRS card A-1, 3.48 x 1.25 lb = 4 lb 5 1/2 oz; tolerance none.
    assert factor_for_portions(HUNDRED, 348) == Fraction("3.48")
    scaled = scale(HUNDRED, Fraction("3.48"))
    assert scaled.portions == 348
    assert show_amount(scaled.parts[0].ingredients[0].bought, system="us").text == "4 lb 5 1/2 oz"


@pytest.mark.parametrize(
    ("hundredths", "ounces"),
    [(0, 0), (12, 0), (13, Fraction(1, 4)), (37, Fraction(1, 4)), (38, Fraction(1, 2)), (62, Fraction(1, 2)),
     (63, Fraction(3, 4)), (87, Fraction(3, 4)), (88, 1), (99, 1)],
)  # fmt: skip
def test_fractions_of_an_ounce_round_as_the_card_says(hundredths: int, ounces: Fraction) -> None:
    # Source: AFRS card A-1, the ends of each band of its rounding table; tolerance none.
    assert round_ounces(20 + Fraction(hundredths, 100)) == 20 + ounces
    shown = show_amount((20 + Fraction(hundredths, 100)) * OZ.in_base, system="us")
    assert shown.amount == (20 + ounces) * OZ.in_base
