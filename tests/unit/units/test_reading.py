from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadUnit
from ladleworth.units import (
    CUP,
    EACH,
    FL_OZ,
    KG,
    LB,
    OZ,
    TBSP,
    TSP,
    G,
    Quantity,
    Range,
    Unit,
    read_quantity,
    read_total,
)


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("1 1/2 cups", Fraction(3, 2), Fraction(3, 2), CUP),
        ("14.5 oz", Fraction(29, 2), Fraction(29, 2), OZ),
        ("14-oz", Fraction(14), Fraction(14), OZ),
        ("1,5 kg", Fraction(3, 2), Fraction(3, 2), KG),
        ("500g", Fraction(500), Fraction(500), G),
        ("1,500 g", Fraction(1500), Fraction(1500), G),
        ("2-3 tbsp", Fraction(2), Fraction(3), TBSP),
        ("2 T", Fraction(2), Fraction(2), TBSP),
        ("2 t", Fraction(2), Fraction(2), TSP),
        ("½ tsp.", Fraction(1, 2), Fraction(1, 2), TSP),
        ("8 fl. oz", Fraction(8), Fraction(8), FL_OZ),
        ("5#", Fraction(5), Fraction(5), LB),
        ("3 each", Fraction(3), Fraction(3), EACH),
    ],
)
def test_a_number_and_its_unit_are_read(text: str, low: Fraction, high: Fraction, unit: Unit) -> None:
    assert read_quantity(text) == (Range(low, high), unit)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("3", "no unit follows the number at character 2 of '3'; write one such as '500 g'"),
        ("2 cupz", "at character 3 of '2 cupz': no unit is called 'cupz'; write cup"),
        ("x cups", "no number stands"),
        ("", "a number is missing"),
        ("-1 cup", "a negative number"),
        ("1/0 cup", "0 below the line"),
        ("2 x 400 g", "no unit is called 'x 400 g'"),
        ("1 cup flour", "no unit is called 'cup flour'"),
        ("nan g", "no number stands"),
    ],
)
def test_what_cannot_be_read_is_refused_saying_what_and_where(text: str, said: str) -> None:
    with pytest.raises(BadUnit, match=said):
        read_quantity(text)


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("500 g", Quantity.of(500, G)),
        ("4 lb 5 1/2 oz", Quantity.of(Fraction(139, 2), OZ)),
        ("1 lb. 4 oz.", Quantity.of(20, OZ)),
        ("1 lb, 4 oz", Quantity.of(20, OZ)),
        ("1 cup plus 2 tbsp", Quantity.of(18, TBSP)),
        ("1 cup + 2 tbsp and 1 tsp", Quantity.of(55, TSP)),
        ("2 fl. oz & 1 tbsp", Quantity.of(5, TBSP)),
        ("2 dozen plus 3 each", Quantity.of(27, EACH)),
    ],
)
def test_amounts_of_one_kind_are_added(text: str, total: Quantity) -> None:
    assert read_total(text) == total


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("1 cup plus 3 oz", "cannot be added"),
        ("2-3 cups", "is a range"),
        ("1 cup flour", "number stands"),
        ("1 cup plus", "a number is missing"),
        ("1 bogus", "no unit is called 'bogus'"),
        ("1", "no unit"),
        ("", "a number is missing"),
    ],
)
def test_amounts_that_cannot_be_added_are_refused(text: str, said: str) -> None:
    with pytest.raises(BadUnit, match=said):
        read_total(text)
