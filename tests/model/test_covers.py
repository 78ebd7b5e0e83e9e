"""The least that packages for one batch can cost, against a table over amounts."""

from __future__ import annotations

import pytest

from ladleworth.decide.covers import cheapest


def _by_table(kinds: list[tuple[int, int, bool]], amount: int) -> int:
    """Least cents for packages that are worth nothing afterwards: a table over amounts."""
    least = [0] + [0] * amount
    for wanted in range(1, amount + 1):
        least[wanted] = min(cents + least[max(0, wanted - quantity)] for quantity, cents, _ in kinds)
    return least[amount]


def test_the_cheapest_packages_are_found_among_many() -> None:
    kinds = [(97 + 31 * n, 40 + 37 * n * n % 211, False) for n in range(14)]
    for amount in (500, 3_000, 9_999):
        assert cheapest(tuple(sorted(kinds)), amount) == pytest.approx(_by_table(kinds, amount))
    carried = tuple(sorted((quantity, cents, True) for quantity, cents, _ in kinds))
    assert cheapest(carried, 9_999, 0.0) == pytest.approx(_by_table(kinds, 9_999))
