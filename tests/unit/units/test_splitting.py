from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadField
from ladleworth.units import share, split


def test_equal_weights_give_the_odd_unit_to_the_earlier_share() -> None:
    assert split(100, [1, 1, 1]) == (34, 33, 33)
    assert split(101, [1, 1, 1]) == (34, 34, 33)


def test_the_largest_remainder_gets_the_unit_even_when_it_is_last() -> None:
    # exact shares 1.5, 1.75, 6.75 of 10: floors 1, 1, 6 leave two units, to the two 0.75s
    assert split(10, [6, 7, 27]) == (1, 2, 7)


def test_a_zero_weight_gets_nothing() -> None:
    assert split(7, [0, 2, 0, 1]) == (0, 5, 0, 2)


def test_fractions_weigh_exactly() -> None:
    assert split(3, [Fraction(1, 3), Fraction(2, 3)]) == (1, 2)


def test_nothing_divides_into_nothing() -> None:
    assert split(0, [1, 2]) == (0, 0)


@pytest.mark.parametrize(
    ("total", "weights", "said"),
    [
        (5, [], "no weight is above zero"),
        (5, [0, 0], "no weight is above zero"),
        (5, [1, -1], "weight 2 of 2 is -1"),
        (-1, [1], "give a total of 0 or more"),
    ],
)
def test_weights_that_cannot_divide_are_refused(total: int, weights: list[int], said: str) -> None:
    with pytest.raises(BadField, match=said):
        split(total, weights)


def test_a_share_is_rounded_half_up() -> None:
    assert share(100, 1, 8) == 13  # 12.5
    assert share(100, 1, 3) == 33
    assert share(100, 2, 3) == 67


def test_no_part_costs_nothing_and_the_whole_costs_everything() -> None:
    assert share(999, 0, 7) == 0
    assert share(999, 7, 7) == 999


@pytest.mark.parametrize(("total", "part", "whole"), [(-1, 1, 2), (1, 3, 2), (1, -1, 2), (1, 0, 0)])
def test_a_part_outside_its_whole_is_refused(total: int, part: int, whole: int) -> None:
    with pytest.raises(BadField, match="give"):
        share(total, part, whole)
