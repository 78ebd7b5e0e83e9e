from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import (
    CUP,
    DASH,
    DOZEN,
    EACH,
    FL_OZ,
    GALLON,
    IMPERIAL_PINT,
    KG,
    LB,
    METRIC_CUP,
    OZ,
    PINCH,
    PINT,
    QUART,
    SMIDGEN,
    TBSP,
    TSP,
    UNITS,
    Dimension,
    G,
    L,
    Unit,
    find_unit,
)


@pytest.mark.parametrize(
    ("spelling", "unit"),
    [
        ("T", TBSP),
        ("T.", TBSP),
        ("t", TSP),
        ("t.", TSP),
        ("Tbsp", TBSP),
        ("TBSP.", TBSP),
        ("tbs", TBSP),
        ("tablespoons", TBSP),
        ("Tablespoon", TBSP),
        ("tsp.", TSP),
        ("Teaspoons", TSP),
        ("c.", CUP),
        ("C", CUP),
        ("cups", CUP),
        ("lb", LB),
        ("lbs.", LB),
        ("#", LB),
        ("pounds", LB),
        ("oz.", OZ),
        ("ounce", OZ),
        ("fl. oz", FL_OZ),
        ("fl oz.", FL_OZ),
        ("fluid ounces", FL_OZ),
        ("Fl.  Oz.", FL_OZ),
        ("litre", L),
        ("liters", L),
        ("gramme", G),
        ("KG", KG),
        ("kilos", KG),
        ("pt.", PINT),
        ("qts", QUART),
        ("gal", GALLON),
        ("doz.", DOZEN),
        ("pieces", EACH),
        ("imperial pint", IMPERIAL_PINT),
        ("UK pint", IMPERIAL_PINT),
        ("metric cup", METRIC_CUP),
    ],
)
def test_a_spelling_names_its_unit(spelling: str, unit: Unit) -> None:
    assert find_unit(spelling) is unit


def test_a_capital_t_is_three_of_a_small_one() -> None:
    assert find_unit("T").in_base == 3 * find_unit("t").in_base


def test_every_unit_is_found_by_its_own_name_and_aliases() -> None:
    for unit in UNITS:
        for spelling in (unit.name, *unit.aliases):
            assert find_unit(spelling) is unit


def test_a_plain_cup_is_the_us_one_and_the_metric_one_needs_its_full_name() -> None:
    assert find_unit("cup").in_base < find_unit("metric cup").in_base == 250


@pytest.mark.parametrize(
    ("wrong", "near"),
    [("cupz", "cup"), ("tablespon", "tbsp"), ("onces", "oz"), ("killo", "kg"), ("pintt", "pt")],
)
def test_an_unknown_unit_is_refused_naming_the_nearest(wrong: str, near: str) -> None:
    with pytest.raises(BadUnit, match=f"no unit is called '{wrong}'; write .*{near}"):
        find_unit(wrong)


@pytest.mark.parametrize("wrong", ["", "   ", "xyzzy", "stick", "°"])
def test_a_word_near_no_unit_is_refused_with_some_to_choose_from(wrong: str) -> None:
    with pytest.raises(BadUnit, match="write"):
        find_unit(wrong)


def test_the_small_spoons_halve_each_time() -> None:
    assert TSP.in_base == 8 * DASH.in_base == 16 * PINCH.in_base == 32 * SMIDGEN.in_base


def test_a_dozen_is_twelve_pieces() -> None:
    assert DOZEN.in_base == 12 * EACH.in_base


def test_a_unit_without_a_name_or_a_size_is_refused() -> None:
    with pytest.raises(BadField, match="name is blank"):
        Unit(" ", Dimension.MASS, Fraction(1))
    with pytest.raises(BadField, match="above zero"):
        Unit("nothing", Dimension.MASS, Fraction(0))
