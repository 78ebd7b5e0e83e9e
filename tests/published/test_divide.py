"""Dividing against printed figures: scoops and cups, headspace, cooking yields of meat."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.divide.batches import asked, dish, food, made, part

from ladleworth.dish.dish import Role
from ladleworth.divide import Filling, Reading, divide, nearest_scoop, nearest_spoon
from ladleworth.facts.headspace import headspace
from ladleworth.facts.scoops import scoop, scoops
from ladleworth.household.rules import Container
from ladleworth.units import CUP, FL_OZ, LB, QUART, TBSP, TSP


@pytest.mark.parametrize(
    ("number", "printed", "within"),
    [
        # Source: Institute of Child Nutrition, kitchen measures sheet: the level measure of each number of disher, read
        # in public copies. The number is how many level scoops make a US quart; tolerance where the sheet rounds.
        (6, CUP.in_base * 2 / 3, 0),
        (8, CUP.in_base / 2, 0),
        (10, CUP.in_base * 3 / 8, Fraction(7, 100)),  # a No. 10 is 2/5 cup by the rule; the sheet says 3/8
        (12, CUP.in_base / 3, 0),
        (16, CUP.in_base / 4, 0),
        (20, TBSP.in_base * Fraction(10, 3), Fraction(5, 100)),  # 3.2 tbsp by the rule, 3 1/3 on the sheet
        (24, TBSP.in_base * Fraction(8, 3), 0),
        (30, TBSP.in_base * 2, Fraction(7, 100)),  # 2.13 tbsp by the rule
        (40, TBSP.in_base * Fraction(5, 3), Fraction(5, 100)),
        (50, TSP.in_base * Fraction(15, 4), Fraction(3, 100)),
        (60, TSP.in_base * Fraction(13, 4), Fraction(2, 100)),
        (70, TSP.in_base * Fraction(11, 4), Fraction(1, 100)),
        (100, TSP.in_base * 2, Fraction(5, 100)),
    ],
)
def test_a_scoop_holds_what_the_sheet_prints(number: int, printed: Fraction, within: Fraction) -> None:
    assert abs(scoop(number).volume_ml / printed - 1) <= within
    assert scoop(number).basis == "read"


def test_the_number_of_a_scoop_is_how_many_make_a_us_quart() -> None:
    # Source: the same sheet. A quart is 32 fluid ounces (NIST Handbook 44, Appendix C).
    for number, one in scoops().items():
        assert one.volume_ml * number == QUART.in_base == 32 * FL_OZ.in_base


def test_a_pan_of_thirteen_by_nine_by_two_inches_is_28_scoops_of_no_8() -> None:
    # Source: magazine card on swapping pans, read: 13 x 9 x 2 inches hold 14 cups. A No. 8 is half a cup.
    assert 14 * CUP.in_base / scoop(8).volume_ml == 28


def test_a_third_of_a_cup_of_sauce_for_each_of_six_is_two_cups() -> None:
    # Common practice, no source: a third of a cup of sauce a portion. Six of them are 2 cups by arithmetic.
    # Salsa weighs 260 g a cup (USDA SR26, half a cup is 130 g): 520 g, less a gram at most by rounding.
    of = dish(part("sauce", Role.SAUCE, food("salsa", 520)))
    (sauce,) = divide(asked(of, readings=(Reading(("sauce",), 520_000),))).dealt
    (share,) = sauce.sizes
    assert share.volume_ml is not None
    assert abs(share.volume_ml * 6 / CUP.in_base - 2) < Fraction(1, 10_000)
    assert share.spoon is not None
    assert share.scoop is not None
    assert (share.spoon.name, share.spoon.count, share.scoop.name) == ("1/3 cup", 1, "No. 12")
    assert abs(share.spoon.error) < Fraction(1, 10_000)
    assert nearest_spoon(CUP.in_base / 3).error == nearest_scoop(CUP.in_base / 3).error == 0


@pytest.mark.parametrize(
    ("name", "method", "percent"),
    [
        # Source: USDA Table of Cooking Yields for Meat and Poultry, Release 2 (2014): per cent of the raw weight.
        ("bacon", "pan-fried", 32),
        ("beef-ground-80", "pan-fried", 67),  # 12 to 22 % fat: 78 to 88 % lean
        ("pork-sausage", "pan-fried", 80),
    ],
)
def test_a_part_of_meat_cooks_down_to_the_printed_share(name: str, method: str, percent: int) -> None:
    of = dish(part("meat", Role.PROTEIN, food(name, 1000)))
    one = made(of, **{name.replace("-", "_"): method})["meat"]
    assert one.mass_mg == percent * 10_000
    assert one.cooked[0].figure.source == "usda-yields-2014"


def test_a_pound_of_bacon_gives_145_grams_and_24_or_25_for_each_of_six() -> None:
    # The same row: 32 % of 454 g is 145 g (145.1 g of an exact pound).
    of = dish(part("bacon", Role.PROTEIN, food("bacon", LB.in_base / 1000)))
    (bacon,) = divide(asked(of, methods={"bacon": "pan-fried"})).dealt
    assert bacon.heap.total_mg == 145_000
    assert bacon.shares_mg == (25_000, 24_000, 24_000, 24_000, 24_000, 24_000)


@pytest.mark.parametrize(
    ("pack", "opening", "size_ml", "inches"),
    [
        # Source: NCHFP, Headspace to Allow Between Packed Food and Closure (So Easy to Preserve, 5th edition), read.
        ("liquid", "wide", 473, "0.5"),
        ("liquid", "wide", 946, "1"),
        ("liquid", "narrow", 473, "0.75"),
        ("liquid", "narrow", 946, "1.5"),
        ("dry", "wide", 473, "0.5"),
        ("dry", "wide", 946, "0.5"),
        ("dry", "narrow", 473, "0.5"),
        ("dry", "narrow", 946, "0.5"),
    ],
)
def test_headspace_is_the_printed_one(pack: str, opening: str, size_ml: int, inches: str) -> None:
    found = headspace(size_ml, pack, opening)
    assert (found.value, found.source, found.basis) == (
        Fraction(inches) * Fraction("25.4"),
        "nchfp-headspace",
        "read",
    )


def test_a_pint_and_a_quart_for_the_freezer_are_filled_so_much_less() -> None:
    # The same rows: half an inch of a pint 4 inches deep, one inch of a quart 5 inches deep (depths are invented).
    filling = Filling(Fraction(0))
    assert filling.room_ml(Container(473, 1, 102), frozen=True) == int(473 * (1 - Fraction("12.7") / 102))
    assert filling.room_ml(Container(946, 1, 127), frozen=True) == int(946 * (1 - Fraction("25.4") / 127))
    assert filling.room_ml(Container(946, 1, 127), frozen=False) == 946
