"""A number and its unit, read from text: '1 1/2 cups', '500g', '4 lb 5 1/2 oz'."""

from __future__ import annotations

import re

from ladleworth.errors import BadUnit
from ladleworth.units.numbers import Range, read_range, scan_range
from ladleworth.units.quantity import Quantity
from ladleworth.units.table import Unit, find_unit, look_up_unit

_GAP = re.compile(r"[ \t\u00a0\u2009\u202f]*-?[ \t\u00a0\u2009\u202f]*")
_JOINER = re.compile(r"[ \t,]*(?:\b(?:plus|and)\b|[+&])?[ \t]*", re.IGNORECASE)
_UNIT_WORDS = re.compile(r"[^\W\d_]+\.?(?:[ \t][^\W\d_]+\.?){0,2}3?|#")


def _shown(text: str) -> str:
    return repr(text if len(text) <= 60 else text[:60] + "…")


def read_quantity(text: str) -> tuple[Range, Unit]:
    """Read one number or range and its unit.

    Parameters
    ----------
    text
        '1 1/2 cups', '14.5 oz', '1,5 kg', '500g', '2-3 tbsp', '14-oz'.

    Returns
    -------
    tuple of Range and Unit
        How many, and of what.

    Raises
    ------
    BadUnit
        If the number or the unit cannot be read; the message says where and what to write instead.
    """
    start = len(text) - len(text.lstrip())
    found = scan_range(text, start)
    if found is None:
        read_range(text)  # says what stands there instead of a number
        raise AssertionError("a number was both found and not found")
    ends, end = found
    gap = _GAP.match(text, end)
    at = gap.end() if gap else end
    spelling = text[at:].strip()
    if not spelling:
        raise BadUnit(
            f"no unit follows the number at character {end + 1} of {_shown(text)}; "
            "write one such as '500 g', '2 cups' or '3 each'"
        )
    try:
        return ends, find_unit(spelling)
    except BadUnit as fault:
        raise BadUnit(f"at character {at + 1} of {_shown(text)}: {fault}") from fault


def read_total(text: str) -> Quantity:
    """Read one or more amounts of the same kind and add them: '4 lb 5 1/2 oz', '1 cup plus 2 tbsp'.

    Parameters
    ----------
    text
        Amounts parted by a space, a comma, 'plus', 'and' or '+'.

    Returns
    -------
    Quantity
        Their exact sum.

    Raises
    ------
    BadUnit
        If an amount cannot be read, is a range, or measures another thing than the first.
    """
    total: Quantity | None = None
    at = len(text) - len(text.lstrip())
    while True:
        found = scan_range(text, at)
        if found is None:
            read_quantity(text[at:])
            raise AssertionError("a number was both found and not found")
        ends, end = found
        if not ends.plain:
            raise BadUnit(f"{ends} in {_shown(text)} is a range, not one amount; write one number")
        gap = _GAP.match(text, end)
        at = gap.end() if gap else end
        words = _UNIT_WORDS.match(text, at)
        unit, at = _longest_unit(text, at, words[0] if words else "")
        amount = Quantity.of(ends.low, unit)
        total = amount if total is None else total + amount
        if not text[at:].strip():
            return total
        joiner = _JOINER.match(text, at)
        at = joiner.end() if joiner else at


def _longest_unit(text: str, at: int, words: str) -> tuple[Unit, int]:
    spelling = words
    while spelling:
        unit = look_up_unit(spelling)
        if unit is not None:
            return unit, at + len(spelling)
        spelling = spelling.rpartition(" ")[0]
    found = words.split(" ")[0] if words else text[at : at + 20]
    try:
        return find_unit(found), at + len(found)
    except BadUnit as fault:
        raise BadUnit(f"at character {at + 1} of {_shown(text)}: {fault}") from fault
