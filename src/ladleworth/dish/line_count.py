"""How many: numbers in figures and in words at a place in a line, and the units after them."""

from __future__ import annotations

import re
from fractions import Fraction

from ladleworth.dish.line import Unclear
from ladleworth.dish.line_words import NUMBER_WORDS, PART_WORDS, VAGUE
from ladleworth.units import Range, Unit, look_up_unit, scan_range

_N = "|".join(NUMBER_WORDS)
_P = "|".join(sorted(PART_WORDS, key=len, reverse=True))
_WORD = re.compile(
    rf"(?:({_N})\b(?:[ -]and[ -](an?|{_N})[ -]({_P})\b)?)(?!-?(?:spice|grain|bean)\b)", re.IGNORECASE
)
_PART = re.compile(
    rf"(?!half[ -]and[ -]half)(?!quarter pounder)(?:(an?|{_N})[ -])?({_P})\b(?![-'’](?!pound|ounce|cup|inch|kilo|pint|litre|liter|teasp|tablesp|lb|oz))"
    r"(?: of)?(?: an?\b)?",
    re.IGNORECASE,
)
_ARTICLE = re.compile(r"an?\b(?![-'’])", re.IGNORECASE)
_AND_PART = re.compile(
    rf" and (?:(an?|{_N})[ -])?({_P})\b|(?: and| &) (1/[2348]|[½⅓¼⅛¾⅔])(?=[ -])", re.IGNORECASE
)
_OF_A = re.compile(r"(?: of)? an?\b", re.IGNORECASE)
_WORD_JOIN = re.compile(r"(?: (?:to|or) |-to-|-or-|[-–])", re.IGNORECASE)
_UNIT = re.compile(r"#(?! ?[0-9]+(?: |-)(?:can|tin)s?\b)|[^\W\d_]+(?:³|3\b)?\.?", re.UNICODE)
_NOT_UNITS = frozenset({"piece", "pieces", "pc", "pcs", "each", "ea"})
_AFTER_UNIT = re.compile(r"[\w'’]|-\w")


def _part(count: str | None, part: str) -> Fraction:
    times = 1 if count is None or count.lower() in ("a", "an") else NUMBER_WORDS[count.lower()]
    return times * PART_WORDS[part.lower()]


def _spoken(text: str, start: int) -> tuple[Fraction, int] | None:
    """Read one number in words: 'one', 'two and a half', 'half a', 'three quarters of a', 'a'."""
    if found := _PART.match(text, start):
        return _part(found[1], found[2]), found.end()
    if found := _WORD.match(text, start):
        number = Fraction(NUMBER_WORDS[found[1].lower()])
        if found[3] is None and (more := half_more(text, found.end())):
            return number + more[0], more[1]
        return number + (_part(found[2], found[3]) if found[3] else 0), found.end()
    if found := _ARTICLE.match(text, start):
        word = re.match(r" *([\w-]+)", text[found.end() :])
        if word and word[1].lower() in VAGUE:
            raise Unclear(
                f"'{found[0]} {word[1]}' says no amount", "write how much in figures, such as '1 tbsp'"
            )
        return Fraction(1), found.end()
    return None


def scan_count(text: str, start: int) -> tuple[Range, int] | None:
    """Read how many, in figures or in words, at a place in a line.

    Parameters
    ----------
    text, start
        The line and the 0-based place.

    Returns
    -------
    tuple or None
        The range and the place after it; None if no number begins there.

    Raises
    ------
    BadUnit
        If a number in figures makes no sense.
    Unclear
        If words such as 'a few' stand there.
    """
    figures = scan_range(text, start)
    if figures is not None:
        ends, end = figures
        if ends.plain and (more := _AND_PART.match(text, end)):
            added = _fraction_word(more)
            return Range(ends.low + added, ends.low + added), more.end()
        if ends.plain and ends.low < 1 and (of := _OF_A.match(text, end)):
            end = of.end()
        return figures if end == figures[1] else (ends, end)
    spoken = _spoken(text, start)
    if spoken is None:
        return None
    low, end = spoken
    join = _WORD_JOIN.match(text, end)
    if join and (second := _WORD.match(text, join.end())):
        high = Fraction(NUMBER_WORDS[second[1].lower()]) + (_part(second[2], second[3]) if second[3] else 0)
        if high < low:
            raise Unclear(f"the range runs down from {low} to {high}", "write the smaller number first")
        return Range(low, high), second.end()
    return Range(low, low), end


def _fraction_word(found: re.Match[str]) -> Fraction:
    if found[3]:
        figure = scan_range(found[3])
        if figure is None:
            raise Unclear(f"{found[3]!r} is no fraction", "write one such as 1/2")
        return figure[0].low
    return _part(found[1], found[2])


def half_more(text: str, start: int) -> tuple[Fraction, int] | None:
    """Read ' and a half' after a unit: 'a pound and a half of beef'."""
    found = _AND_PART.match(text, start)
    return (_fraction_word(found), found.end()) if found else None


def scan_unit(text: str, start: int) -> tuple[Unit, int] | None:
    """Read the longest unit at a place in a line, or none; a hyphen or apostrophe after it makes it a food's name.

    Parameters
    ----------
    text, start
        The line and the 0-based place.

    Returns
    -------
    tuple or None
        The unit and the place after it. 'Piece' and 'each' are no units here: they have a form of their own.
    """
    ends: list[int] = []
    at = start
    while len(ends) < 3 and (word := _UNIT.match(text, at)):
        ends.append(word.end())
        if text[word.end() : word.end() + 1] != " ":
            break
        at = word.end() + 1
    for end in reversed(ends):
        spelling = text[start:end]
        if _AFTER_UNIT.match(text, end) and not spelling.endswith("."):
            continue
        if spelling.rstrip(".").lower() in _NOT_UNITS:
            continue
        unit = look_up_unit(spelling)
        if unit is not None:
            return unit, end
    return None
