"""Measures in an ingredient line: '14.5 oz', '1 cup plus 2 tbsp', 'about 6 oz each', '200 g/7 oz'."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.line import Amount, Unclear
from ladleworth.dish.line_count import half_more, scan_count, scan_unit
from ladleworth.units import Dimension, Range, Unit

AGREE = Fraction(1, 10)
"""How far two measures of one amount may differ (our own bound: kitchen books round to about this)."""

ABOUT = re.compile(r"(?:about|approximately|approx\.?|roughly|around|circa|ca\.?)(?= )|~", re.IGNORECASE)
_JOIN = re.compile(r" ?[-–—] ?| to ", re.IGNORECASE)
_PLUS = re.compile(r",? plus | ?\+ ?| and | & ", re.IGNORECASE)
_DUAL = re.compile(r" ?/ ?| or (?=[0-9¼½¾⅓⅔])", re.IGNORECASE)
_EACH = re.compile(r",? ?\b(?:each|apiece|per (?:can|tin|piece|packet|jar))$|^each,? ", re.IGNORECASE)
_TOTAL = re.compile(
    r",? ?\b(?:in total|total weight|total|in all|altogether)$|^(?:in total|total):? ", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Measure:
    """A text that is a measure and nothing else, and what it says of itself."""

    amounts: tuple[Amount, ...]
    also: tuple[Amount, ...] = ()
    about: bool = False
    each: bool = False
    total: bool = False

    def one(self) -> Amount:
        """Give the measure as one amount, added up in its first unit.

        Raises
        ------
        Unclear
            If it mixes kinds of measure.
        """
        first = self.amounts[0].unit
        summed = total_in_base(self.amounts)
        if summed is None or first is None:
            raise Unclear("a size mixes kinds of measure", "write one size, such as 400 g")
        low, high, _ = summed
        return Amount(low / first.in_base, high / first.in_base, first)


def skip_spaces(text: str, at: int) -> int:
    """Give the first place from `at` on that is no space."""
    while at < len(text) and text[at] == " ":
        at += 1
    return at


def amount_of(ends: Range, unit: Unit | None) -> Amount:
    """Make an amount, refusing one of nothing.

    Raises
    ------
    Unclear
        If it begins at 0.
    """
    if ends.low == 0:
        raise Unclear("the amount is 0", "write an amount above 0, or leave the line out")
    return Amount(ends.low, ends.high, unit)


def total_in_base(amounts: tuple[Amount, ...]) -> tuple[Fraction, Fraction, Dimension] | None:
    """Add amounts of one dimension up in base units; None if some are pieces or they are of several dimensions."""
    low = high = Fraction(0)
    kinds: set[Dimension] = set()
    for amount in amounts:
        if amount.unit is None:
            return None
        low += amount.low * amount.unit.in_base
        high += amount.high * amount.unit.in_base
        kinds.add(amount.unit.dimension)
    return (low, high, kinds.pop()) if len(kinds) == 1 else None


def check_agree(amounts: tuple[Amount, ...], also: tuple[Amount, ...]) -> None:
    """Refuse two measures of one amount that differ by more than a tenth; different kinds cannot be checked.

    Raises
    ------
    Unclear
        If they differ.
    """
    one, other = total_in_base(amounts), total_in_base(also)
    if one is None or other is None or one[2] is not other[2]:
        return
    if other[0] < one[0] * (1 - AGREE) or other[1] > one[1] * (1 + AGREE):
        raise Unclear(
            "the two measures of one amount differ by more than a tenth",
            "keep only the right one (pint, cup, fl oz and spoons are US ones unless 'imperial' or 'metric' precedes)",
        )


def measured(text: str, at: int) -> tuple[Range, Unit, int] | None:
    """Read a number and a unit at a place: '14.5 oz', '14-oz', '500g'; None if either is missing."""
    counted = scan_count(text, at)
    if counted is None:
        return None
    ends, end = counted
    place = skip_spaces(text, end)
    if text[place : place + 1] in ("-", "‑", "‐"):
        place = skip_spaces(text, place + 1)
    found = scan_unit(text, place)
    return (ends, found[0], found[1]) if found else None


def _one(text: str, at: int, ends: Range, unit: Unit) -> tuple[Amount, int]:
    """Finish one amount after its unit: 'a pound and a half', '200 g - 250 g'."""
    amount = amount_of(ends, unit)
    if not ends.plain:
        return amount, at
    more = half_more(text, at)
    if more and scan_unit(text, skip_spaces(text, more[1])) is None:
        return Amount(amount.low + more[0], amount.high + more[0], unit), more[1]
    join = _JOIN.match(text, at)
    second = measured(text, join.end()) if join else None
    if second and second[0].plain and second[1].dimension is unit.dimension:
        top = second[0].low * second[1].in_base / unit.in_base
        if top > amount.low:
            return Amount(amount.low, top, unit), second[2]
    return amount, at


def _group(text: str, at: int, ends: Range, unit: Unit) -> tuple[tuple[Amount, ...], int]:
    """Read one amount and those added to it: 'plus 2 tbsp', '1 lb 4 oz', '1 lb, 4 oz'."""
    first, at = _one(text, at, ends, unit)
    amounts = [first]
    while True:
        joiner = _PLUS.match(text, at)
        comma = unit.name == "lb" and text[at : at + 2] == ", "
        place = joiner.end() if joiner else skip_spaces(text, at + 1 if comma else at)
        more = measured(text, place)
        if more is None:
            return tuple(amounts), at
        ends, new_unit, end = more
        if not joiner and (new_unit.dimension is not unit.dimension or new_unit.in_base >= unit.in_base):
            raise Unclear(
                "two amounts stand side by side", "write 'plus' between them, or one of them in brackets"
            )
        unit = new_unit
        amount, at = _one(text, end, ends, unit)
        amounts.append(amount)


def read_amounts(text: str, at: int, ends: Range, unit: Unit) -> tuple[Measure, int]:
    """Read on from a number and its unit: what is added to it, and the same amount in other measures.

    Parameters
    ----------
    text, at
        The line and the place after the unit.
    ends, unit
        The number and the unit before that place.

    Returns
    -------
    tuple
        The measure and the place after it.

    Raises
    ------
    Unclear
        If two measures contradict each other or stand side by side for no reason.
    """
    amounts, at = _group(text, at, ends, unit)
    also: list[Amount] = []
    while dual := _DUAL.match(text, at):
        more = measured(text, dual.end())
        if more is None:
            break
        group, at = _group(text, more[2], more[0], more[1])
        check_agree(amounts, group)
        also += group
    return Measure(amounts, tuple(also)), at


def read_measure(text: str) -> Measure | None:
    """Read a text that is a measure and nothing else.

    Parameters
    ----------
    text
        What stands in brackets or between commas: '14.5 oz', 'about 6 oz each', '400 g / 14 oz'.

    Returns
    -------
    Measure or None
        The measure; None if the text says anything more or has no unit.

    Raises
    ------
    BadUnit, Unclear
        If a number in it makes no sense or two measures contradict each other.
    """
    text = text.strip()
    each, total = bool(_EACH.search(text)), bool(_TOTAL.search(text))
    text = _TOTAL.sub("", _EACH.sub("", text)).strip()
    text = re.sub(r"([0-9])(?:- to |-to-)", r"\1 to ", text)
    about = ABOUT.match(text)
    found = measured(text, skip_spaces(text, about.end()) if about else 0)
    if found is None:
        return None
    measure, at = read_amounts(text, found[2], found[0], found[1])
    if text[at:].strip(" .,"):
        return None
    return Measure(measure.amounts, measure.also, about is not None, each, total)
