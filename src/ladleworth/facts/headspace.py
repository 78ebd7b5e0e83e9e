"""Room to leave at the top of a container that is frozen, as published."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from ladleworth.errors import MissingFact
from ladleworth.facts.load import read_rows
from ladleworth.facts.records import Figure

MM_PER_INCH = Fraction(254, 10)


@cache
def headspaces() -> Mapping[tuple[str, str], tuple[tuple[int, Figure], ...]]:
    """Give the published headspace, in mm, by pack and opening: for each size of container in ml, smallest first."""
    found: dict[tuple[str, str], list[tuple[int, Figure]]] = {}
    for row in read_rows("headspace"):
        figure = Figure(
            Fraction(row["headspace_in"]) * MM_PER_INCH, "mm", row["source"], row["basis"], row["note"]
        )
        found.setdefault((row["pack"], row["opening"]), []).append((int(row["container_ml"]), figure))
    return MappingProxyType({key: tuple(sorted(rows, key=lambda r: r[0])) for key, rows in found.items()})


def headspace(size_ml: int, pack: str = "liquid", opening: str = "wide") -> Figure:
    """Look up how much room is left at the top of a container that is frozen.

    Parameters
    ----------
    size_ml
        What the container holds to the brim.
    pack
        'liquid' (food in a liquid, crushed or pureed) or 'dry'.
    opening
        'wide' or 'narrow'.

    Returns
    -------
    Figure
        Millimetres. The source has a pint and a quart: between the two the quart's is taken, and above a quart too,
        of which it says nothing (our reading).

    Raises
    ------
    MissingFact
        If the table has no such pack and opening.
    """
    rows = headspaces().get((pack, opening))
    if rows is None:
        there = "; ".join(" ".join(key) for key in headspaces())
        raise MissingFact(
            f"nobody has the headspace of a {pack} pack with a {opening} opening; there are: {there}"
        )
    return next((figure for most, figure in rows if size_ml <= most), rows[-1][1])
