"""Kitchen numbers and ranges: '1 1/2', '1½', '1,5', '2-3'; read exactly or refused, never guessed.

The rules where cooks differ:

- A comma before exactly three digits, after a leading group that does not begin with 0, parts thousands:
  '1,500' is 1500. Any other comma is a decimal comma: '1,5' is 3/2 and '0,500' is 1/2.
- A full stop is always a decimal point ('1.500' is 3/2), unless a decimal comma follows ('1.234,5').
- A hyphen between a whole number and a fraction below one makes a mixed number: '1-1/2' is 3/2. Any other
  hyphen or dash, and the words 'to' and 'or', make a range, whose ends are kept and never averaged.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField, BadUnit

_VULGAR = {sign: Fraction(unicodedata.numeric(sign)).limit_denominator(10) for sign in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_SP = "[ \t\u00a0\u2009\u202f]"
_HY = "[-\u2010\u2011]"
_FRAC = rf"([0-9]{{1,4}}){_SP}?[/⁄∕]{_SP}?([0-9]{{1,4}})"
_SIGN = f"([{''.join(_VULGAR)}])"
_END = rf"(?![0-9]|[.,][0-9]|{_SP}?[/⁄∕]{_SP}?[0-9]|[{''.join(_VULGAR)}])"

_MIXED = re.compile(rf"([0-9]{{1,6}})(?:{_SP}{{1,3}}|{_HY}){_FRAC}{_END}")
_MIXED_SIGN = re.compile(rf"([0-9]{{1,6}})(?:{_SP}{{0,3}}|{_HY}){_SIGN}{_END}")
_FRACTION = re.compile(_FRAC + _END)
_FRACTION_SIGN = re.compile(_SIGN + _END)
_THOUSANDS = re.compile(rf"[1-9][0-9]{{0,2}}(?:,[0-9]{{3}})+(?:\.[0-9]{{1,9}})?{_END}")
_POINTED = re.compile(rf"[1-9][0-9]{{0,2}}(?:\.[0-9]{{3}})+,[0-9]{{1,9}}{_END}")
_DECIMAL = re.compile(rf"[0-9]{{1,12}}(?:[.,][0-9]{{1,18}})?{_END}|\.[0-9]{{1,18}}{_END}")
_JOIN = re.compile(
    rf"{_SP}{{0,3}}[-\u2010\u2011–—−]{_SP}{{0,3}}|{_SP}{{1,3}}(?:to|or){_SP}{{1,3}}", re.IGNORECASE
)
_STARTS = re.compile(rf"[0-9]|\.[0-9]|{_SIGN}")


@dataclass(frozen=True, slots=True)
class Range:
    """From so many to so many, both ends kept; a plain number has them equal.

    Parameters
    ----------
    low, high
        The ends, exact, neither below zero, low at most high.

    Raises
    ------
    BadField
        If an end is below zero or the ends are the wrong way round.
    """

    low: Fraction
    high: Fraction

    def __post_init__(self) -> None:
        object.__setattr__(self, "low", Fraction(self.low))
        object.__setattr__(self, "high", Fraction(self.high))
        if not 0 <= self.low <= self.high:
            raise BadField(
                f"a range runs from {self.low} to {self.high}; write the smaller end first, none below 0"
            )

    @property
    def plain(self) -> bool:
        """Whether both ends are the same number."""
        return self.low == self.high

    def __str__(self) -> str:
        return str(self.low) if self.plain else f"{self.low}-{self.high}"


def _refuse(what: str, text: str, start: int, remedy: str) -> BadUnit:
    shown = text if len(text) <= 60 else text[:60] + "…"
    return BadUnit(f"{what} at character {start + 1} of {shown!r}; {remedy}")


def scan_number(text: str, start: int = 0) -> tuple[Fraction, int] | None:
    """Read the number that begins at a place in a text.

    Parameters
    ----------
    text
        Any text.
    start
        Where to begin, 0-based.

    Returns
    -------
    tuple or None
        The number and the place after it; None if no number begins there.

    Raises
    ------
    BadUnit
        If one begins there but makes no sense: '1/0', '1 3/2', '1.2.3', more than twelve digits.
    """
    if found := _MIXED.match(text, start):
        whole, over, under = int(found[1]), int(found[2]), int(found[3])
        if under == 0:
            raise _refuse("a fraction has 0 below the line", text, found.start(2), "write one such as 1/2")
        if over >= under:
            raise _refuse(
                f"the fraction {over}/{under} after a whole number is not below one",
                text, found.start(2), f"write {whole + over // under} and what remains",
            )  # fmt: skip
        return whole + Fraction(over, under), found.end()
    if found := _MIXED_SIGN.match(text, start):
        return int(found[1]) + _VULGAR[found[2]], found.end()
    if found := _FRACTION.match(text, start):
        if int(found[2]) == 0:
            raise _refuse("a fraction has 0 below the line", text, start, "write one such as 1/2")
        return Fraction(int(found[1]), int(found[2])), found.end()
    if found := _FRACTION_SIGN.match(text, start):
        return _VULGAR[found[1]], found.end()
    if found := _THOUSANDS.match(text, start):
        return Fraction(found[0].replace(",", "")), found.end()
    if found := _POINTED.match(text, start):
        return Fraction(found[0].replace(".", "").replace(",", ".")), found.end()
    if found := _DECIMAL.match(text, start):
        return Fraction(found[0].replace(",", ".")), found.end()
    if _STARTS.match(text, start):
        raise _refuse("a number cannot be read", text, start, "write one such as 2, 1 1/2, 0.75 or 3/4")
    return None


def scan_range(text: str, start: int = 0) -> tuple[Range, int] | None:
    """Read the number or range that begins at a place in a text.

    Parameters
    ----------
    text, start
        As for `scan_number`.

    Returns
    -------
    tuple or None
        The range and the place after it; None if no number begins there.

    Raises
    ------
    BadUnit
        If a number makes no sense or the range runs downwards.
    """
    first = scan_number(text, start)
    if first is None:
        return None
    low, end = first
    join = _JOIN.match(text, end)
    second = scan_number(text, join.end()) if join else None
    if second is None:
        return Range(low, low), end
    high, stop = second
    if high < low:
        raise _refuse(f"the range runs down from {low} to {high}", text, start, "write the smaller end first")
    return Range(low, high), stop


def _no_number(text: str, wanted: str) -> BadUnit:
    stripped = text.strip()
    if not stripped:
        return BadUnit(f"a number is missing; write {wanted}")
    if stripped[0] in "-−–" and _STARTS.match(stripped[1:].lstrip()):
        return _refuse("a negative number", text, text.index(stripped[0]), "write a number of 0 or more")
    at = len(text) - len(text.lstrip())
    return _refuse(f"no number stands where {stripped[:20]!r} does", text, at, f"write {wanted}")


def read_number(text: str) -> Fraction:
    """Read a whole text as one kitchen number.

    Parameters
    ----------
    text
        '2', '1 1/2', '1½', '⅔', '1-1/2', '1.5', '1,5', '1,500' (1500).

    Returns
    -------
    Fraction
        The number, exact.

    Raises
    ------
    BadUnit
        If the text is no number, a range, negative, or a fraction over zero.
    """
    start = len(text) - len(text.lstrip())
    found = scan_number(text, start)
    if found is None:
        raise _no_number(text, "a number such as 2, 1 1/2, 0.75 or 3/4")
    number, end = found
    if text[end:].strip():
        raise _refuse(
            f"{text[end:].strip()[:20]!r} follows the number", text, end, "write one number and nothing else"
        )
    return number


def read_range(text: str) -> Range:
    """Read a whole text as a number or a range; the ends are kept, never averaged.

    Parameters
    ----------
    text
        '2', '2-3', '2–3', '2 to 3', '2 or 3'.

    Returns
    -------
    Range
        The ends; equal for a plain number.

    Raises
    ------
    BadUnit
        If the text is no number or range, or the range runs downwards.
    """
    start = len(text) - len(text.lstrip())
    found = scan_range(text, start)
    if found is None:
        raise _no_number(text, "a number or a range such as 2 or 2-3")
    ends, end = found
    if text[end:].strip():
        raise _refuse(
            f"{text[end:].strip()[:20]!r} follows the number", text, end, "write one number or range only"
        )
    return ends
