"""Scoops by number: how many level ones make a US quart, and what one holds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from ladleworth.errors import BadField
from ladleworth.facts.load import read_rows
from ladleworth.facts.records import BASES
from ladleworth.units import QUART


@dataclass(frozen=True, slots=True)
class Scoop:
    """A scoop (the trade: a disher) of a number.

    Parameters
    ----------
    number
        How many level scoops make a US quart.
    level
        What it holds by a measuring cup or spoon, as the source's sheet rounds it; '' where it does not say.
    source, basis
        The id of the source, and how it was come by that such a scoop is made.
    note
        What else is to be said.
    """

    number: int
    level: str
    source: str
    basis: str
    note: str = ""

    def __post_init__(self) -> None:
        if self.number < 1:
            raise BadField(f"a scoop has the number {self.number}; write 1 or more")
        if self.basis not in BASES:
            raise BadField(f"basis {self.basis!r} is not known; write one of: {', '.join(BASES)}")

    @property
    def volume_ml(self) -> Fraction:
        """What a level one holds, in exact ml: a US quart divided by the number.

        Source: Institute of Child Nutrition, kitchen measures sheet (`icn-measures`, read).
        """
        return QUART.in_base / self.number


@cache
def scoops() -> Mapping[int, Scoop]:
    """Give every scoop by its number, the largest first; read on first use."""
    found = {
        int(row["number"]): Scoop(
            int(row["number"]), row["level_measure"], row["source"], row["basis"], row["note"]
        )
        for row in read_rows("scoops")
    }
    return MappingProxyType(found)


def scoop(number: int) -> Scoop:
    """Look a scoop up by its number.

    Raises
    ------
    BadField
        If none of that number is known to be made; it names those that are.
    """
    if number not in scoops():
        raise BadField(f"no scoop has the number {number}; there are {', '.join(map(str, scoops()))}")
    return scoops()[number]
