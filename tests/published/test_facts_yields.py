"""Cooking yields against rows re-typed from the printed table.

Source of every row: USDA Table of Cooking Yields for Meat and Poultry, Release 2 (2014): food, method,
yield in per cent of the raw weight, moisture change and fat change in per cent of the raw weight.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.facts import food_table

# fmt: off
PRINTED = [  # (our food, method, yield %, moisture change %, fat change %)
    ("bacon", "pan-fried", "32", "-36.8", "-28.6"),                  # bacon, pork, raw slices, n = 1, 2012
    ("bacon", "oven-baked", "32", "-35.53", "-32.37"),               # n = 3, 2003
    ("bacon", "microwaved", "29", "-34.75", "-35.45"),               # n = 3, 2003
    ("beef-ground-70", "pan-fried", "62", "-24.96", "-12.57"),       # ground beef over 22 % fat, crumbles, 2003
    ("beef-ground-80", "pan-fried", "67", "-27.83", "-5.32"),        # ground beef 12 to 22 % fat, crumbles, 2002
    ("beef-ground-80", "baked", "70", "-23.97", "-5.73"),            # loaf
    ("beef-ground-80", "broiled or grilled", "69", "-25.1", "-5.17"),  # patty
    ("beef-ground-80", "pan-broiled", "73", "-20.82", "-6.22"),      # patty
    ("beef-ground-90", "pan-fried", "69", "-29.56", "-1.39"),        # ground beef under 12 % fat, crumbles
    ("beef-brisket", "braised", "69", "-25.01", "-10.23"),           # flat half, boneless, n = 20
    ("beef-flank", "broiled or grilled", "81", "-22.55", "-0.99"),   # n = 20, 2003
    ("beef-liver", "pan-fried or sauteed", "73", "-25.71", "-0.23"),
    ("chicken-whole", "baked or roasted", "78", None, None),         # with skin and bone, 1975
    ("chicken-whole", "simmered or stewed", "75", None, None),
    ("chicken-thigh-skin-on", "baked or roasted", "69", None, None),
    ("chicken-drumstick", "baked or roasted", "76", None, None),
    ("chicken-liver", "pan-fried or sauteed", "62", "-35.78", "-0.83"),
    ("turkey-whole", "roasted", "71", "-11.29", "0.18"),             # non-enhanced
    ("pork-sausage", "pan-fried", "80", "-16.5", "-2.9"),            # link or patty, 2012
    ("pork-chop-bone-in", "pan-fried", "76", "-25.4", "1.1"),        # center loin
    ("pork-picnic", "braised", "74", "-19.0", "-0.8"),               # shoulder, arm picnic
    ("pork-spareribs", "baked or roasted", "76", "-22.92", "0.19"),
]
# fmt: on


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: f"{row[0]}, {row[1]}")
def test_a_yield_is_the_printed_one(row: tuple[str, str, str, str | None, str | None]) -> None:
    food, method, yield_pct, moisture, fat = row
    found = food_table().cooking_yield(food, method)
    assert found.source == "usda-yields-2014"
    assert found.yield_pct == Fraction(yield_pct)
    assert found.moisture_change_pct == (None if moisture is None else Fraction(moisture))
    assert found.fat_change_pct == (None if fat is None else Fraction(fat))


def test_a_single_word_of_the_method_finds_the_printed_row() -> None:
    table = food_table()
    assert table.cooking_yield("chicken-whole", "stewed").method == "simmered or stewed"
    assert table.cooking_yield("chickpeas-dry", "boiled").method == "boiled, drained"
