"""What a container of cooked portions holds against a standard portion: how its lot's name says it."""

from __future__ import annotations

import re
from fractions import Fraction

_SIZED = re.compile(r" (?:chilled|frozen) (\d+(?:/[1-9]\d*)?)(?:-\d+)?$")


def size_words(size: Fraction) -> str:
    """Write what a container holds against a standard portion, nothing for a standard one."""
    return "" if size == 1 else f" {size}"


def size_of(lot: str) -> Fraction:
    """Read off a lot's name what one of its containers holds against a standard portion; 1 if it says nothing."""
    found = _SIZED.search(lot)
    return Fraction(found[1]) if found else Fraction(1)
