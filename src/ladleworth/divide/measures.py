"""The scoop or cup that comes nearest to a share, how often it is filled, and by how much that is off."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField
from ladleworth.facts.scoops import scoop, scoops
from ladleworth.units import CUP, TBSP, TSP

MOST_COUNT = 6
"""A share is measured out in no more than so many: who has to count further loses count. House rule, no source."""

NEAR_ENOUGH = Fraction(5, 100)
"""Among measures that are off by no more than this, the one that is filled the fewest times. House rule, no source."""

SPOONS = (
    ("1 cup", CUP.in_base),
    ("2/3 cup", CUP.in_base * 2 / 3),
    ("1/2 cup", CUP.in_base / 2),
    ("1/3 cup", CUP.in_base / 3),
    ("1/4 cup", CUP.in_base / 4),
    ("1 tbsp", TBSP.in_base),
    ("1 tsp", TSP.in_base),
    ("1/2 tsp", TSP.in_base / 2),
    ("1/4 tsp", TSP.in_base / 4),
)
"""Cups and spoons that a drawer holds, exact ml. Sizes by definition (see `units.table`); that sets hold these is common
practice, no source."""


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure filled level so many times.

    Parameters
    ----------
    name
        'No. 8', '1/2 cup'.
    number
        The scoop's number; None for a cup or spoon.
    volume_ml
        What it holds once, exact.
    count
        How often it is filled.
    error
        By what share that is off: 0.03 is 3 % too much.
    """

    name: str
    number: int | None
    volume_ml: Fraction
    count: int
    error: Fraction


def nearest_scoop(target_ml: Fraction, numbers: Iterable[int] = ()) -> Measure:
    """Find the scoop that comes nearest to a volume.

    Parameters
    ----------
    target_ml
        The share's volume in ml, above zero.
    numbers
        The scoops that there are; empty: any that is made.

    Returns
    -------
    Measure
        Of those off by 5 % or less the one filled the fewest times, else the one off the least.

    Raises
    ------
    BadField
        If the volume is not above zero, or no scoop has such a number.
    """
    chosen = [scoop(number) for number in dict.fromkeys(numbers)] or list(scoops().values())
    return _nearest(target_ml, [(f"No. {one.number}", one.number, one.volume_ml) for one in chosen])


def nearest_spoon(target_ml: Fraction) -> Measure:
    """Find the cup or spoon that comes nearest to a volume, as `nearest_scoop`."""
    return _nearest(target_ml, [(name, None, volume) for name, volume in SPOONS])


def _nearest(target_ml: Fraction, there: Iterable[tuple[str, int | None, Fraction]]) -> Measure:
    if target_ml <= 0:
        raise BadField(f"a share of {target_ml} ml cannot be measured; give a volume above 0")
    tried = [
        Measure(name, number, volume, count, count * volume / target_ml - 1)
        for name, number, volume in there
        for count in range(1, MOST_COUNT + 1)
    ]
    near = [one for one in tried if abs(one.error) <= NEAR_ENOUGH]
    if near:
        return min(near, key=lambda one: (one.count, abs(one.error), -one.volume_ml))
    return min(tried, key=lambda one: (abs(one.error), one.count, -one.volume_ml))
