"""Sharing out by hand-worked cases: the remainder, small amounts, pieces that are cut and pieces that are not."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.divide import deal_mass, deal_pieces
from ladleworth.divide.shares import unit_of
from ladleworth.errors import BadField

HALF = Fraction(1, 2)


def test_a_pot_is_shared_to_the_gram_and_nothing_is_over() -> None:
    # 2900 g in six is 483 g, and 2 g are left: the first two get one more.
    assert deal_mass(2_900_000, [1] * 6) == (484_000, 484_000, 483_000, 483_000, 483_000, 483_000)


def test_two_appetites_share_by_the_largest_remainder() -> None:
    # 1000 g by 1, 1 and 2/3 is 375, 375 and 250; 1001 g is 375.375, 375.375 and 250.25: the first gets the gram.
    assert deal_mass(1_000_000, [1, 1, Fraction(2, 3)]) == (375_000, 375_000, 250_000)
    assert deal_mass(1_001_000, [1, 1, Fraction(2, 3)]) == (376_000, 375_000, 250_000)


def test_what_is_beyond_whole_grams_goes_to_the_next_in_line() -> None:
    # 100.5 g in four is 25.125 g each: nobody gets a gram more, the first gets the half gram.
    assert deal_mass(100_500, [1] * 4) == (25_500, 25_000, 25_000, 25_000)
    assert deal_mass(102_500, [1] * 4) == (26_000, 26_000, 25_500, 25_000)


def test_little_is_dealt_out_in_tenths_of_a_gram() -> None:
    assert (unit_of(60_000, 6), unit_of(59_999, 6)) == (1_000, 100)
    assert deal_mass(20_000, [1] * 6) == (3_400, 3_400, 3_300, 3_300, 3_300, 3_300)


def test_nothing_gives_nothing_and_a_zero_weight_gets_nothing() -> None:
    assert deal_mass(0, [1, 1]) == (0, 0)
    assert deal_mass(1_001_000, [1, 0, 1]) == (501_000, 0, 500_000)


@pytest.mark.parametrize(("total", "weights"), [(-1, [1]), (5, [0, 0]), (5, [1, -1])])
def test_shares_that_cannot_be_are_refused(total: int, weights: list[int]) -> None:
    with pytest.raises(BadField, match="cannot be"):
        deal_mass(total, weights)
    with pytest.raises(BadField):
        deal_pieces(total, weights)


def test_pieces_come_out_whole_or_are_cut_in_up_to_eight() -> None:
    assert deal_pieces(12, [1] * 6) == (2,) * 6
    assert deal_pieces(7, [1] * 6) == (Fraction(7, 6),) * 6
    assert deal_pieces(3, [1, 1, HALF]) == (Fraction(6, 5), Fraction(6, 5), Fraction(3, 5))


def test_pieces_that_would_be_cut_too_small_stay_whole() -> None:
    # ten in nine would be cut in nine: the first gets two instead
    assert deal_pieces(10, [1] * 9) == (2, *[1] * 8)
    assert deal_pieces(1, [1] * 9) == (1, *[0] * 8)
