"""Limits and rules of thumb of a cooking day: how long food may stand out, how long it thaws, how full a pot may be."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from ladleworth.errors import MissingFact
from ladleworth.facts.load import read_rows
from ladleworth.facts.records import Figure

OUT_OF_FRIDGE = "out of the fridge"
OUT_OF_FRIDGE_HOT = "out of the fridge on a hot day"
HOT_DAY = "hot day"
THAWING = "thawing in the fridge"
THAWING_SMALL = "thawing a small pack in the fridge"
COOLING_OPEN = "cooling open on the counter"
POT_FILLED = "pot filled"


@cache
def limits() -> Mapping[str, Figure]:
    """Give every limit by its name, in the order of the table; read on first use."""
    return MappingProxyType(
        {
            row["name"]: Figure(Fraction(row["value"]), row["unit"], row["source"], row["basis"], row["note"])
            for row in read_rows("limits")
        }
    )


def limit(name: str) -> Figure:
    """Look a limit up.

    Parameters
    ----------
    name
        One of `limits`.

    Returns
    -------
    Figure
        Its value with unit, source and basis.

    Raises
    ------
    MissingFact
        If the table has none of that name.
    """
    if name not in limits():
        raise MissingFact(f"nobody has a limit called {name!r}; there are: {', '.join(limits())}")
    return limits()[name]


def out_of_fridge(room_c: Fraction | None) -> Figure:
    """Give how long perishable food may stand out in a kitchen so warm (None: not stated, taken for no hot day)."""
    hot = room_c is not None and room_c > limit(HOT_DAY).value
    return limit(OUT_OF_FRIDGE_HOT if hot else OUT_OF_FRIDGE)


def cited(figure: Figure) -> str:
    """Name a figure's source and how it was come by: '(thawing-fact-sheet, read)', '(common practice, no source)'."""
    if figure.basis == "common practice":
        return "(common practice, no source)"
    return f"({figure.source}, {figure.basis})"
