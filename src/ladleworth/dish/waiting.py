"""How long a step may or must wait after those that it follows: '20 min to 30 min', 'at least 20 min', 'at most 5 min'."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import read_minutes

_BETWEEN = re.compile(r"(?:between )?(?P<least>.+?) ?(?: to | and |-|–|—) ?(?P<most>.+)")
_BOUND = re.compile(r"(?P<which>at least|at most|up to) (?P<time>.+)")
_REMEDY = "write '20 min to 30 min', 'at least 20 min' or 'at most 5 min'"


@dataclass(frozen=True, slots=True)
class Wait:
    """Minutes between the end of what a step follows and its start, `most` None for no limit.

    Raises
    ------
    BadField
        If the most is below the least.
    """

    least: int = 0
    most: int | None = None

    def __post_init__(self) -> None:
        if self.most is not None and self.most < self.least:
            raise BadField(
                f"the greatest wait, {self.most} min, is below the least, {self.least} min; write the smaller first"
            )


def read_wait(text: str) -> Wait:
    """Read a wait.

    Parameters
    ----------
    text
        '20 min to 30 min', '20-30 min' (the first takes the unit of the second), 'at least 1 h', 'at most 5 min'.

    Returns
    -------
    Wait
        Whole minutes.

    Raises
    ------
    BadField
        If it cannot be read, names one time and neither 'at least' nor 'at most', or its most is below its least.
    """
    clean = " ".join(text.casefold().split())
    if bound := _BOUND.fullmatch(clean):
        minutes = _minutes(bound["time"], text)
        return Wait(least=minutes) if bound["which"] == "at least" else Wait(most=minutes)
    between = _BETWEEN.fullmatch(clean)
    if between is None:
        raise BadField(f"the wait {text!r} says neither the least nor the greatest; {_REMEDY}")
    first, second = between["least"], between["most"]
    if not any(c.isalpha() for c in first):
        first = f"{first} {second.lstrip('0123456789.,/ ')}"
    return Wait(_minutes(first, text), _minutes(second, text))


def _minutes(part: str, text: str) -> int:
    bare = part.strip()
    try:
        return read_minutes(f"{bare} min" if bare.isdigit() else bare)
    except BadUnit as bad:
        raise BadField(f"the wait {text!r} cannot be read; {_REMEDY}, in whole minutes") from bad
