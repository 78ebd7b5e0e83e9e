"""Our conversions against the legal definitions and printed tables."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.units import (
    CUP,
    FL_OZ,
    GALLON,
    IMPERIAL_FL_OZ,
    IMPERIAL_GALLON,
    IMPERIAL_PINT,
    LB,
    OZ,
    PINT,
    QUART,
    TBSP,
    TSP,
    Quantity,
    Unit,
    fahrenheit,
    read_quantity,
    read_temperature,
    round_ounces,
    show_mass,
    show_temperature,
)


# Source: NIST Special Publication 811 (2008), Appendix B.8, and Handbook 44, Appendix C: values printed in full, exact.
@pytest.mark.parametrize(
    ("unit", "grams"),
    [(LB, "453.59237"), (OZ, "28.349523125")],
)
def test_a_mass_unit_is_what_the_handbook_prints(unit: Unit, grams: str) -> None:
    assert unit.in_base / 1000 == Fraction(grams)


# Source: NIST Handbook 44, Appendix C, units of capacity, liquid measure: exact, in millilitres.
@pytest.mark.parametrize(
    ("unit", "ml"),
    [
        (GALLON, "3785.411784"),
        (QUART, "946.352946"),
        (PINT, "473.176473"),
        (CUP, "236.5882365"),
        (FL_OZ, "29.5735295625"),
        (TBSP, "14.78676478125"),
        (TSP, "4.92892159375"),
    ],
)
def test_a_us_volume_is_what_the_handbook_prints(unit: Unit, ml: str) -> None:
    assert unit.in_base == Fraction(ml)


# Source: UK Weights and Measures Act 1985, Schedule 1: gallon 4.54609 cubic decimetres, exact; its parts worked by hand.
@pytest.mark.parametrize(
    ("unit", "ml"),
    [(IMPERIAL_GALLON, "4546.09"), (IMPERIAL_PINT, "568.26125"), (IMPERIAL_FL_OZ, "28.4130625")],
)
def test_an_imperial_volume_is_what_the_act_says(unit: Unit, ml: str) -> None:
    assert unit.in_base == Fraction(ml)


# Source: NIST, 'Metric kitchen: cooking measurement equivalencies' (rounded there for the home kitchen): within 4 %.
@pytest.mark.parametrize(
    ("text", "printed_ml"),
    [("1 teaspoon", 5), ("1 tablespoon", 15), ("1 fluid ounce", 30), ("1/4 cup", 60), ("1/3 cup", 80),
     ("1/2 cup", 120), ("1 cup", 240), ("1 pint", 480), ("1 quart", 950)],
)  # fmt: skip
def test_rounded_kitchen_equivalents_come_near_ours(text: str, printed_ml: int) -> None:
    ends, unit = read_quantity(text)
    ours = Quantity.of(ends.low, unit).ml
    assert abs(ours - printed_ml) / printed_ml < Fraction(4, 100)


# Source: US Armed Forces Recipe Service (TM 10-412), card A-1: 3.48 lb for 100 portions, factor 1.25, gives 4.35 lb;
# .35 lb x 16 = 5.6 oz; weighed as 4 lb 5 1/2 oz.
def test_the_recipe_card_example_scales_to_four_pounds_five_and_a_half_ounces() -> None:
    scaled = Quantity.of(Fraction("3.48"), LB) * Fraction("1.25")
    assert scaled.in_unit(LB) == Fraction("4.35")
    assert show_mass(scaled.amount, "us") == "4 lb 5 1/2 oz"


# Source: the same card's table of ounce fractions, each band to its ends.
@pytest.mark.parametrize(
    ("first", "last", "becomes"),
    [(0, 12, "0"), (13, 37, "1/4"), (38, 62, "1/2"), (63, 87, "3/4"), (88, 99, "1")],
)
def test_every_hundredth_of_an_ounce_rounds_as_the_card_says(first: int, last: int, becomes: str) -> None:
    for hundredths in range(first, last + 1):
        assert round_ounces(7 + Fraction(hundredths, 100)) == 7 + Fraction(becomes)


# Source: FDA Food Code 2022, which prints both scales side by side (3-501.14, 3-501.16, 3-401.11): whole degrees.
@pytest.mark.parametrize(
    ("printed_f", "printed_c"),
    [(41, 5), (135, 57), (145, 63), (155, 68), (165, 74), (70, 21), (32, 0), (212, 100)],
)
def test_both_scales_agree_with_a_code_that_prints_both(printed_f: int, printed_c: int) -> None:
    assert show_temperature(read_temperature(f"{printed_f} F")) == f"{printed_c} °C"
    assert abs(fahrenheit(printed_c) - printed_f) < 1
