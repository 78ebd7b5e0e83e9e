"""Sharing out: to the gram or to the piece, so that nothing is over and equal portions differ by one unit at most."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from ladleworth.errors import BadField
from ladleworth.units import split

GRAM_MG, TENTH_MG = 1_000, 100
"""What a kitchen scale shows. Shares of less than 10 g on average are dealt out in tenths of a gram (house rule)."""

SMALL_SHARE_MG = 10_000

MOST_CUT = 8
"""A piece is cut into no more than so many: halves to eighths can be cut by eye. House rule, no source."""


def unit_of(total_mg: Fraction | int, portions: int) -> int:
    """Give the unit, in mg, in which a mass is dealt out to so many portions."""
    return GRAM_MG if total_mg >= SMALL_SHARE_MG * portions else TENTH_MG


def deal_mass(total_mg: int, weights: Sequence[Fraction | int]) -> tuple[int, ...]:
    """Share out a mass by weights with the largest remainder; ties go to the earlier portion.

    Parameters
    ----------
    total_mg
        What is there, in mg, not below zero.
    weights
        How much each portion counts; none below zero and not all zero.

    Returns
    -------
    tuple of int
        Milligrams for each portion, whole units (`unit_of`) all but one: what is there beyond whole units goes to the
        portion that is next in line. They sum to `total_mg`. Each is less than a unit from its exact share, equal
        weights differ by one unit at most, and a greater weight never gets less.

    Raises
    ------
    BadField
        If the total or a weight is below zero, or no weight is above it.
    """
    whole = sum(map(Fraction, weights), Fraction(0))
    if total_mg < 0 or whole <= 0 or min(weights) < 0:
        raise BadField(
            f"{total_mg} mg cannot be shared by {list(map(str, weights))}; give 0 or more, not all 0"
        )
    unit = unit_of(total_mg, len(weights))
    exact = [total_mg * Fraction(weight) / whole / unit for weight in weights]
    units = [share.numerator // share.denominator for share in exact]
    left, rest_mg = divmod(total_mg - unit * sum(units), unit)
    in_line = sorted(range(len(exact)), key=lambda at: (units[at] - exact[at], at))
    shares = [share * unit for share in units]
    for at in in_line[:left]:
        shares[at] += unit
    if rest_mg:
        shares[in_line[left]] += rest_mg
    return tuple(shares)


def deal_pieces(pieces: int, weights: Sequence[Fraction | int]) -> tuple[Fraction, ...]:
    """Share out whole pieces: cut where that comes out in halves to eighths, else whole by the largest remainder.

    Parameters
    ----------
    pieces
        How many there are, not below zero.
    weights
        How much each portion counts; none below zero and not all zero.

    Returns
    -------
    tuple of Fraction
        Pieces for each portion; they sum to `pieces`. Where they are cut, every portion has exactly its share; where they
        are not, equal weights differ by one piece at most.

    Raises
    ------
    BadField
        As for `units.split`.
    """
    whole_ones = split(pieces, weights)
    whole = sum(map(Fraction, weights), Fraction(0))
    exact = [pieces * Fraction(weight) / whole for weight in weights]
    if lcm(*(share.denominator for share in exact)) <= MOST_CUT:
        return tuple(exact)
    return tuple(map(Fraction, whole_ones))
