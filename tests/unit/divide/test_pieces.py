"""Which parts are dealt out to the piece, and how it is said."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.divide.batches import TABLE, counted, food, tap

from ladleworth.dish.dish import Ingredient
from ladleworth.divide.pieces import Counted, counted_in, each_words


@pytest.mark.parametrize(
    ("pieces", "portions", "words"),
    [
        (12, 6, "2 each"),
        (7, 6, "1 1/6 each: one each, the seventh in six"),
        (8, 6, "1 1/3 each: one each, the other two in three"),
        (5, 3, "1 2/3 each: one each, the other two in three, two of these each"),
        (1, 2, "1/2 each: all in two"),
        (4, 6, "2/3 each: all in three, two of these each"),
        (21, 20, "1 1/20 each: one each, the 21st in 20"),
        (113, 112, "1.009 each: one each, the 113th in 112"),
    ],
)
def test_what_each_gets_is_said_as_a_cook_says_it(pieces: int, portions: int, words: str) -> None:
    assert each_words(pieces, portions) == words


def test_bread_is_counted_in_slices_and_tortillas_in_themselves() -> None:
    slices = food("bread-rye", 192, count=Fraction(6), piece="slice")
    assert counted_in([slices], TABLE) == Counted(Fraction(6), "bread-rye", "slice")
    assert counted_in([counted("tortilla-flour", 7)], TABLE) == Counted(Fraction(7), "tortilla-flour", "")


def test_a_food_bought_in_pieces_is_counted_without_a_line_that_counts() -> None:
    per_portion = Ingredient("tortilla-flour", Fraction(9, 2), Fraction(135_000))
    assert counted_in([per_portion], TABLE) == Counted(Fraction(9, 2), "tortilla-flour", "")


def test_an_egg_is_a_piece_only_where_it_is_hard_cooked() -> None:
    assert counted_in([counted("egg", 6)], TABLE) is None
    assert counted_in([counted("egg", 6)], TABLE, ["hard-cooked egg"]) == Counted(Fraction(6), "egg", "")


@pytest.mark.parametrize(
    "ingredients",
    [
        [counted("onion", 2, preparation=("chopped",))],
        [food("tomatoes-canned", 800, count=Fraction(2), piece="can")],
        [food("garlic", 6, count=Fraction(2), piece="clove")],
        [counted("tortilla-flour", 6), food("cheddar", 100)],
        [food("rice-white-long-grain", 300)],
        [tap(300)],
        [],
    ],
)
def test_what_is_cut_up_tinned_mixed_or_weighed_is_dealt_out_by_weight(ingredients: list[Ingredient]) -> None:
    assert counted_in(ingredients, TABLE) is None


def test_what_has_no_amount_does_not_make_a_part_mixed() -> None:
    salt = Ingredient("salt", Fraction(0), unmeasured=True)
    assert counted_in([counted("tortilla-flour", 6, preparation=("warmed",)), salt], TABLE) is not None
