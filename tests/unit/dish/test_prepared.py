"""What a line has done to its food, and how many it counts."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.line import Line
from ladleworth.dish.prepared import counted, prepared
from ladleworth.dish.read_line import read_line
from ladleworth.dish.resolve import resolve
from ladleworth.dish.scale import scale_ingredient
from ladleworth.dish.written import WrittenDish, WrittenPart
from ladleworth.facts import food_table


def line(text: str) -> Line:
    read = read_line(text)
    assert isinstance(read, Line)
    return read


@pytest.mark.parametrize(
    ("text", "done"),
    [
        ("2 onions, chopped", ("chopped",)),
        ("500 g finely chopped onions", ("finely chopped",)),
        ("1 leek, halved, sliced", ("halved", "sliced")),
        ("2 lb potatoes, cut into wedges", ("cut into wedges",)),
        ("2 (15 oz) cans chickpeas, drained and rinsed", ("drained and rinsed",)),
        ("juice of 1 lemon", ()),
        ("10 oz frozen spinach", ()),
        ("2 cups rice", ()),
    ],
)
def test_the_words_of_preparing_are_kept(text: str, done: tuple[str, ...]) -> None:
    assert prepared(line(text)) == done


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("2 onions", (Fraction(2), "")),
        ("2-3 large onions", (Fraction(3), "")),
        ("3 cloves garlic", (Fraction(3), "clove")),
        ("1/2 cucumber", (Fraction(1, 2), "")),
        ("2 (15 oz) cans chickpeas", (Fraction(2), "can")),
        ("500 g onions", (None, "")),
        ("1 cup rice", (None, "")),
    ],
)
def test_what_a_line_counts_is_kept(text: str, count: tuple[Fraction | None, str]) -> None:
    assert counted(line(text)) == count


def test_an_ingredient_keeps_its_name_preparation_and_count_through_scaling() -> None:
    lines = ("3 cloves garlic, sliced", "2 tbsp vegetable oil", "salt to taste", "salt and pepper")
    dish, _ = resolve(
        WrittenDish("Oil", (WrittenPart(lines=lines, per_portion=(("rice", "50 g"),)),), portions=2),
        food_table(),
    )
    assert dish is not None
    garlic, oil, salt, *both, rice = dish.parts[0].ingredients
    assert (garlic.called, garlic.preparation, garlic.count, garlic.piece) == (
        "garlic",
        ("sliced",),
        3,
        "clove",
    )
    assert (oil.called, oil.preparation, oil.count) == ("vegetable oil", (), None)
    assert (salt.called, salt.unmeasured) == ("salt", True)
    assert [one.called for one in both] == ["table salt", "black pepper"]
    assert rice.called == "rice"
    assert scale_ingredient(garlic, Fraction(1, 2)).count == Fraction(3, 2)
