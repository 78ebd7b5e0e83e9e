"""A table of cents whose rows add up to its total, and the check that refuses one that does not."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from ladleworth.errors import JudgeRefused
from ladleworth.units import half_up


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table: what it is, in words, and its cents."""

    label: str
    cents: int


@dataclass(frozen=True, slots=True)
class Reckoning:
    """A table that adds up: `rows` and `total_cents`, worked out apart from the rows."""

    title: str
    rows: tuple[Row, ...]
    total_cents: int

    def __post_init__(self) -> None:
        check_adds_up(self)

    def cents(self, label: str) -> int:
        """Give the cents of the row with this label, zero when the table has no such row."""
        return sum(row.cents for row in self.rows if row.label == label)


def check_adds_up(reckoning: Reckoning) -> None:
    """Refuse a table whose rows do not come to its total; every table passes here before anyone sees it.

    Parameters
    ----------
    reckoning
        The table.

    Raises
    ------
    JudgeRefused
        Naming the table, the sum of its rows and its total.
    """
    came_to = sum(row.cents for row in reckoning.rows)
    if came_to != reckoning.total_cents:
        raise JudgeRefused(
            [f"the rows of {reckoning.title!r} come to {came_to} cents, its total is {reckoning.total_cents}"]
        )


def check_equal(left: Reckoning, right: Reckoning) -> None:
    """Refuse two tables that should come to the same total and do not.

    Parameters
    ----------
    left, right
        What came in and where it went, say.

    Raises
    ------
    JudgeRefused
        Naming both tables and totals.
    """
    if left.total_cents != right.total_cents:
        both = f"{left.total_cents} and {right.total_cents} cents"
        raise JudgeRefused([f"{left.title!r} and {right.title!r} come to {both}; they must be equal"])


def rounded(title: str, exact: Mapping[str, Fraction]) -> Reckoning:
    """Round a table of exact cents so that its rows still add up.

    Parameters
    ----------
    title
        What the table shows.
    exact
        Cents by label, none below zero.

    Returns
    -------
    Reckoning
        The total is the exact sum rounded half up. Every row is its exact value rounded down or up, those with
        the largest remainders up, the earlier first among equals.
    """
    total = half_up(sum(exact.values(), Fraction(0)))
    shown = {label: floor(cents) for label, cents in exact.items()}
    by_remainder = sorted(exact, key=lambda label: shown[label] - exact[label])
    for label in by_remainder[: total - sum(shown.values())]:
        shown[label] += 1
    return Reckoning(title, tuple(Row(label, cents) for label, cents in shown.items()), total)
