from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import UnknownFood
from ladleworth.facts import Food, Measure, OwnFood, food_table
from ladleworth.facts.entry import describe, show_number


def test_every_figure_shows_the_title_of_its_source_and_its_basis() -> None:
    for food in food_table():
        for row in describe(food_table(), food.id):
            bare = row.about in {"name", "also called", "aisle", "counted"}
            unknown = row.value == "not known" or row.value.startswith("read the label")
            assert (bare or unknown) == (row.source == ""), row
            assert (row.source == "") == (row.basis == ""), row


def test_an_entry_lists_everything_there_is() -> None:
    rows = describe(food_table(), "egg")
    told = {(row.about, row.detail): row.value for row in rows}
    assert told["name", ""] == "egg"
    assert told["in 100 g", "protein_g"] == "12.56 g/100 g"
    assert told["edible share", "of the weight as bought"] == "0.88"
    assert told["one piece", "large (edible)"] == "50 g"
    assert told["one piece", "large (as bought)"] == "56.7 g"
    assert told["keeps", "fridge, raw"] == "21 to 35 days"
    assert told["keeps", "fridge, cooked"] == "7 days"
    assert told["freezes", "in the shell"].startswith("avoid; shell cracks")
    assert told["allergen", "egg"] == "by nature of the food"
    assert told["yield", "fried, from raw, shelled"] == "92 %"


def test_what_nobody_has_is_said_and_not_left_out() -> None:
    table = food_table().with_own([OwnFood(Food("quince", "quince", (), "produce", Measure.MASS, own=True))])
    rows = describe(table, "quince")
    assert [(row.about, row.value) for row in rows if row.value == "not known"] == [
        ("composition", "not known"),
        ("edible share", "not known"),
    ]
    assert rows[-1].value.startswith("read the label")


def test_a_time_with_a_greatest_only_says_so() -> None:
    rows = describe(food_table(), "pinto-beans-dry")
    assert "at most 180 days" in {row.value for row in rows}


def test_a_keeping_time_from_memory_shows_that_it_is_and_speaks_of_quality_only() -> None:
    (kept,) = (
        row
        for row in describe(food_table(), "onion")
        if (row.about, row.detail) == ("keeps", "cupboard, raw")
    )
    assert (kept.value, kept.basis) == ("at most 28 days", "memory")
    assert kept.source.endswith("from memory, not looked up; quality, not safety")


def test_an_unknown_food_is_refused() -> None:
    with pytest.raises(UnknownFood):
        describe(food_table(), "no-such-food")


def test_numbers_are_shown_without_trailing_zeros() -> None:
    assert show_number(Fraction(110)) == "110"
    assert show_number(Fraction("0.67628")) == "0.6763"
    assert show_number(Fraction(1, 3), 2) == "0.33"
    assert show_number(Fraction(0)) == "0"
