"""Cooking times in whole minutes."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from ladleworth.errors import BadField, BadUnit
from ladleworth.units.numbers import read_number

_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])")
_ISO = re.compile(
    r"P(?:([0-9]{1,4})D)?(?:T(?:([0-9]{1,5}(?:[.,][0-9]{1,4})?)H)?(?:([0-9]{1,6}(?:[.,][0-9]{1,4})?)M)?"
    r"(?:([0-9]{1,7})(?:[.,]0+)?S)?)?",
    re.IGNORECASE,
)
_HOURS = r"h|hr|hrs|hour|hours"
_MINUTES = r"m|min|mins|minute|minutes"
_WORDS = re.compile(
    rf"(?:(?P<h>[^a-z]+?)\s*-?(?:{_HOURS})\.?(?![a-z]))?\s*(?:,|and\b)?\s*"
    rf"(?:(?P<m>[^a-z]+?)\s*-?(?:{_MINUTES})\.?(?![a-z])|(?P<bare>[0-9]{{1,2}}))?",
    re.IGNORECASE,
)
_REMEDY = "write it like '90 min', '1 h 20 min', '1:30' or 'PT1H30M'"


def _whole(text: str, minutes: Fraction) -> int:
    if minutes.denominator != 1:
        raise BadUnit(f"the time {text[:40]!r} is not a whole number of minutes; {_REMEDY}")
    return minutes.numerator


def read_minutes(text: str) -> int:
    """Read a length of time.

    Parameters
    ----------
    text
        '90 min', '1 h 20', '1 1/2 hours', '1:30' (hours and minutes), 'PT1H30M' (ISO 8601).

    Returns
    -------
    int
        Minutes.

    Raises
    ------
    BadUnit
        If it is no length of time, a bare number, a range, or not whole minutes.
    """
    clean = text.strip()
    if found := _CLOCK.fullmatch(clean):
        return int(found[1]) * 60 + int(found[2])
    if (found := _ISO.fullmatch(clean)) and any(found.groups()):
        days, hours, minutes, seconds = (Fraction((part or "0").replace(",", ".")) for part in found.groups())
        return _whole(text, days * 1440 + hours * 60 + minutes + seconds / 60)
    found = _WORDS.fullmatch(clean) if len(clean) <= 60 else None
    if found is None or not (found["h"] or found["m"]) or (found["bare"] and not found["h"]):
        raise BadUnit(f"the time {text[:40]!r} cannot be read; {_REMEDY}")
    try:
        total = 60 * read_number(found["h"] or "0") + read_number(found["m"] or found["bare"] or "0")
    except BadUnit as fault:
        raise BadUnit(f"the time {text[:40]!r} cannot be read: {fault}; {_REMEDY}") from fault
    return _whole(text, total)


def show_minutes(minutes: int, style: Literal["kitchen", "iso"] = "kitchen") -> str:
    """Write a length of time: '45 min', '1 h 20 min', or 'PT1H20M' for machines.

    Raises
    ------
    BadField
        If the minutes are below zero.
    """
    if minutes < 0:
        raise BadField(f"a length of time is {minutes} min; give 0 or more")
    hours, rest = divmod(minutes, 60)
    if style == "iso":
        return "PT" + (f"{hours}H" if hours else "") + (f"{rest}M" if rest or not hours else "")
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"
