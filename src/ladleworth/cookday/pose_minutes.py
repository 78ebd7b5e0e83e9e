"""The minutes of a batch's steps: hands-on ones shared out of what the batch takes, unattended ones as written."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from ladleworth.units import split

SHARED = Fraction(2, 3)
"""What each further batch of a preparation done in one go adds of its own minutes: house rule, no source."""


def whole_minutes(minutes: Fraction) -> int:
    """Round minutes up to whole ones."""
    return ceil(minutes)


def hands_on_minutes(written: Sequence[Fraction], total: Fraction) -> tuple[int, ...]:
    """Share a batch's hands-on minutes out among its steps, as the recipe shares them out.

    Parameters
    ----------
    written
        The steps' hands-on minutes as written, for the whole recipe; 0 for a step that has none.
    total
        What the batch takes in all, rounded up to whole minutes; 0 (stated nowhere): as much as the steps say.

    Returns
    -------
    tuple of int
        Whole minutes by largest remainder, 0 for a step that has none and at least 1 for any other. They add up to
        the total, unless there are more steps than minutes.
    """
    busy = [minutes for minutes in written if minutes]
    if not busy:
        return (0,) * len(written)
    whole = ceil(total or sum(busy))
    shares = [max(1, part) for part in split(whole, busy)]
    for _ in range(sum(shares) - max(whole, len(shares))):
        shares[max(range(len(shares)), key=lambda at: (shares[at], at))] -= 1
    given = iter(shares)
    return tuple(next(given) if minutes else 0 for minutes in written)


def shared_minutes(minutes: Sequence[int]) -> int:
    """Give the minutes of one preparation for several batches: the longest, and two thirds of the others, rounded up."""
    longest = max(minutes)
    return longest + ceil(SHARED * (sum(minutes) - longest))
