"""Dividing whole units (cents, milligrams, pieces) so that the shares add up again exactly."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ladleworth.errors import BadField
from ladleworth.units.quantity import half_up


def split(total: int, weights: Sequence[int | Fraction]) -> tuple[int, ...]:
    """Divide a whole number by weights with the largest remainder; ties go to the earlier share.

    Parameters
    ----------
    total
        What is divided, in whole units (cents, mg, pieces), not below zero.
    weights
        How much each share counts; none below zero and not all zero.

    Returns
    -------
    tuple of int
        One share per weight, in the same unit. They sum to `total`; each is less than one unit from its
        exact share; a zero weight gets nothing; a greater weight never gets less. (Raising the total can
        lower a single share by one: that is the price of this rule.)

    Raises
    ------
    BadField
        If the total or a weight is below zero, or no weight is above zero.
    """
    if total < 0:
        raise BadField(f"{total} cannot be divided into shares; give a total of 0 or more")
    for index, weight in enumerate(weights):
        if weight < 0:
            raise BadField(f"weight {index + 1} of {len(weights)} is {weight}; give weights of 0 or more")
    whole = sum((Fraction(weight) for weight in weights), Fraction(0))
    if whole == 0:
        raise BadField(f"{total} cannot be divided: no weight is above zero; give at least one")
    exact = [total * Fraction(weight) / whole for weight in weights]
    shares = [part.numerator // part.denominator for part in exact]
    left = total - sum(shares)
    by_remainder = sorted(range(len(exact)), key=lambda index: (shares[index] - exact[index], index))
    for index in by_remainder[:left]:
        shares[index] += 1
    return tuple(shares)


def share(total: int, part: int, whole: int) -> int:
    """Take the part's share of a total, rounded half up, as when a lot's cents follow what is drawn.

    Parameters
    ----------
    total
        What the whole is worth, in whole units, not below zero.
    part, whole
        How much is taken of how much there is, in one unit; 0 <= part <= whole, whole above zero.

    Returns
    -------
    int
        The share: 0 for no part, all of `total` for the whole.

    Raises
    ------
    BadField
        If a figure is out of its range.
    """
    if total < 0:
        raise BadField(f"the total is {total}; give 0 or more")
    if whole <= 0 or not 0 <= part <= whole:
        raise BadField(f"{part} of {whole} is no part of a whole; give a part from 0 to a whole above 0")
    return half_up(Fraction(total * part, whole))
