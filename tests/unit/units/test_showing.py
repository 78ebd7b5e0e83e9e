from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadField
from ladleworth.units import (
    CUP,
    GALLON,
    LB,
    OZ,
    TSP,
    round_ounces,
    show_count,
    show_mass,
    show_number,
    show_volume,
)


@pytest.mark.parametrize(
    ("number", "plain", "signs", "decimals"),
    [
        (Fraction(0), "0", "0", "0"),
        (Fraction(3), "3", "3", "3"),
        (Fraction(3, 2), "1 1/2", "1½", "1.5"),
        (Fraction(2, 3), "2/3", "⅔", "0.667"),
        (Fraction(11, 8), "1 3/8", "1⅜", "1.375"),
        (Fraction(1, 32), "1/32", "1/32", "0.031"),
        (Fraction(1, 5), "0.2", "0.2", "0.2"),
        (Fraction(1, 7), "0.143", "0.143", "0.143"),
        (Fraction(-3, 2), "-1 1/2", "-1½", "-1.5"),
        (Fraction(1, 100_000), "0.00001", "0.00001", "0.00001"),
    ],
)
def test_a_number_is_written_as_a_cook_does(number: Fraction, plain: str, signs: str, decimals: str) -> None:
    assert show_number(number) == plain
    assert show_number(number, "unicode") == signs
    assert show_number(number, "decimal") == decimals


def test_a_count_keeps_its_odd_parts() -> None:
    assert show_count(Fraction(7, 6)) == "1 1/6"
    assert show_count(Fraction(7, 12)) == "7/12"
    assert show_count(Fraction(1, 7)) == "1/7"
    assert show_count(Fraction(7, 6), "unicode") == "1⅙"
    assert show_count(Fraction(1, 6), "decimal") == "0.167"
    assert show_count(Fraction(1, 101)) == "0.01"
    assert show_count(Fraction(-1, 7)) == "-1/7"


@pytest.mark.parametrize(
    ("mass_mg", "shown"),
    [
        (0, "0 g"),
        (1, "1 mg"),
        (Fraction(1, 2), "1 mg"),
        (999, "999 mg"),
        (1_000, "1 g"),
        (7_450, "7.5 g"),
        (9_940, "9.9 g"),
        (9_950, "10 g"),
        (10_500, "11 g"),
        (999_499, "999 g"),
        (999_500, "1 kg"),
        (1_250_000, "1.25 kg"),
        (-250_000, "-250 g"),
    ],
)
def test_a_metric_mass_is_shown_as_fine_as_a_kitchen_scale(mass_mg: int | Fraction, shown: str) -> None:
    assert show_mass(mass_mg) == shown


def test_an_exact_metric_figure_keeps_every_milligram() -> None:
    assert show_mass(1_234_567, exact=True) == "1.234567 kg"
    assert show_mass(1_001, exact=True) == "1.001 g"
    assert show_mass(7, exact=True) == "7 mg"
    assert show_volume(Fraction("1234.567"), exact=True) == "1.234567 l"
    assert show_volume(Fraction("4.929"), exact=True) == "4.929 ml"


@pytest.mark.parametrize(
    ("ounces", "shown"),
    [
        (Fraction(16), "1 lb"),
        (Fraction("69.6"), "4 lb 5 1/2 oz"),
        (Fraction("3.3"), "3 1/4 oz"),
        (Fraction("15.9"), "1 lb"),
        (Fraction("31.95"), "2 lb"),
        (Fraction("0.1"), "0.1 oz"),
        (Fraction("0.001"), "0.001 oz"),
        (Fraction(-16), "-1 lb"),
    ],
)
def test_a_us_mass_is_shown_in_pounds_and_quarter_ounces(ounces: Fraction, shown: str) -> None:
    assert show_mass(ounces * OZ.in_base, "us") == shown


def test_a_pound_is_shown_as_a_pound() -> None:
    assert show_mass(LB.in_base, "us") == "1 lb"


@pytest.mark.parametrize(
    ("volume_ml", "shown"),
    [
        (0, "0 ml"),
        (Fraction(1, 4), "0.3 ml"),
        (Fraction(15, 2), "7.5 ml"),
        (250, "250 ml"),
        (Fraction(1999, 2), "1 l"),
        (1_250, "1.25 l"),
        (-5, "-5 ml"),
    ],
)
def test_a_metric_volume_is_shown_as_a_jug_measures(volume_ml: int | Fraction, shown: str) -> None:
    assert show_volume(volume_ml) == shown


@pytest.mark.parametrize(
    ("teaspoons", "shown"),
    [
        (Fraction(0), "0 tsp"),
        (Fraction(1, 100), "0.01 tsp"),
        (Fraction(1, 8), "1/8 tsp"),
        (Fraction(5, 2), "2 1/2 tsp"),
        (Fraction(3), "1 tbsp"),
        (Fraction(10), "3 tbsp 1 tsp"),
        (Fraction(12), "1/4 cup"),
        (Fraction(16), "1/3 cup"),
        (Fraction(24), "1/2 cup"),
        (Fraction(32), "2/3 cup"),
        (Fraction(36), "3/4 cup"),
        (Fraction(47), "3/4 cup 3 tbsp 2 tsp"),
        (Fraction(48), "1 cup"),
        (Fraction(54), "1 cup 2 tbsp"),
        (Fraction(72), "1 1/2 cups"),
    ],
)
def test_a_us_volume_is_shown_in_measures_a_drawer_holds(teaspoons: Fraction, shown: str) -> None:
    assert show_volume(teaspoons * TSP.in_base, "us") == shown


def test_a_gallon_and_more_is_shown_in_quarts() -> None:
    assert show_volume(GALLON.in_base, "us") == "4 qt"
    assert show_volume(21 * CUP.in_base, "us") == "5 1/4 qt"
    assert show_volume(-CUP.in_base, "us") == "-1 cup"


def test_ounces_below_zero_are_not_rounded() -> None:
    with pytest.raises(BadField, match="give 0 or more"):
        round_ounces(Fraction(-1))
