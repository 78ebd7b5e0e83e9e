"""How a lot's name says what its containers hold."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.ledger import size_of, size_words


@pytest.mark.parametrize("size", [Fraction(1), Fraction(2, 3), Fraction(3, 2), Fraction(2)])
@pytest.mark.parametrize("spot", ["chilled", "frozen"])
@pytest.mark.parametrize("more", ["", "-2", "-13"])
def test_what_is_written_is_read_again_also_off_a_lot_split_from_it(
    size: Fraction, spot: str, more: str
) -> None:
    assert size_of(f"chili 2026-12-06 carrot {spot}{size_words(size)}{more}") == size


@pytest.mark.parametrize(
    "name", ["egg", "egg-2", "chili 2026-12-06 2/3", "box 3/4", "chili 2026-12-06 chilled 2/0"]
)
def test_a_name_that_says_nothing_of_it_is_a_standard_portion(name: str) -> None:
    assert size_of(name) == 1
