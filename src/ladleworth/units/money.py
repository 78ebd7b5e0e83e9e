"""Prices as whole minor units (cents), read from what a receipt or a cook writes and shown again."""

from __future__ import annotations

import re

from ladleworth.errors import BadUnit
from ladleworth.units.currencies import SIGNS, Currency

_BODY = re.compile(
    r"^([-−]?)\s*([^\d.,]*?)\s*([-−]?)\s*([0-9](?:[0-9., '’\u00a0\u202f]*[0-9])?|[.,][0-9]+)\s*([^\d.,]*)$"
)
_GROUPED = {
    ",": re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+"),
    ".": re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3})+"),
    " ": re.compile(r"[1-9][0-9]{0,2}(?: [0-9]{3})+"),
    "'": re.compile(r"[1-9][0-9]{0,2}(?:'[0-9]{3})+"),
}
_LONGEST = 60
_LETTER_O = re.compile(r"(?<=[0-9.,])[oO](?![^\W\d_])|(?<![^\W\d_])[oO](?=[0-9.,])")
_MOST_DIGITS = 15


def _example(cur: Currency) -> str:
    return "12" if cur.minor_digits == 0 else "12." + "40"[: cur.minor_digits].ljust(cur.minor_digits, "0")


def _refuse(text: str, what: str, cur: Currency) -> BadUnit:
    shown = text if len(text) <= 40 else text[:40] + "…"
    return BadUnit(f"the price {shown!r} {what}; write it like {_example(cur)!r}, in {cur.code}")


def _check_label(text: str, label: str, cur: Currency) -> None:
    if label and label.upper() != cur.code and cur.code not in SIGNS.get(label, frozenset()):
        raise _refuse(text, f"is marked {label[:10]!r}, which is not {cur.code}", cur)


def _has_letter_o(text: str) -> bool:
    """Tell whether a letter O stands among the digits; never where it belongs to a word or a code."""
    return len(text) <= _LONGEST and _LETTER_O.search(text) is not None


def _ungroup(text: str, digits: str, cur: Currency) -> str:
    for mark, pattern in _GROUPED.items():
        if mark in digits:
            if not pattern.fullmatch(digits):
                raise _refuse(text, f"has {mark!r} where no thousands end", cur)
            return digits.replace(mark, "")
    return digits


def _parts(text: str, figure: str, cur: Currency) -> tuple[str, str]:
    """Part a figure into whole and minor digits by the last point or comma, where that is a decimal mark."""
    at = max(figure.rfind("."), figure.rfind(","))
    if at < 0:
        return _ungroup(text, figure, cur), ""
    mark, whole, rest = figure[at], figure[:at], figure[at + 1 :]
    if mark in whole or (mark == "," and len(rest) == 3 and _GROUPED[","].fullmatch(figure)):
        if cur.minor_digits == 3 and mark not in whole:
            raise _refuse(text, "may mean thousands or decimals", cur)
        return _ungroup(text, figure, cur), ""
    if len(rest) > cur.minor_digits:
        raise _refuse(text, f"has {len(rest)} decimals where {cur.code} has {cur.minor_digits}", cur)
    if not rest.isdigit():
        raise _refuse(text, "breaks off after its decimal mark", cur)
    return _ungroup(text, whole, cur), rest


def read_money(text: str, cur: Currency, *, negative: bool = False) -> int:
    """Read a price.

    Parameters
    ----------
    text
        '12.40', '12,40', '$12.40', 'USD 12.40', '12,40 €', '1,234.50', '1.234,50'. A comma before exactly
        three digits parts thousands where the currency has no three decimals; a single point never does.
    cur
        The currency the price must be in.
    negative
        Whether a price below zero (a refund) may stand.

    Returns
    -------
    int
        Minor units (cents).

    Raises
    ------
    BadUnit
        If it is no price, is marked with another currency, has too many decimals, or is negative.
    """
    clean = text.strip().replace("\u00a0", " ").replace("\u202f", " ").replace("’", "'")
    found = _BODY.match(clean) if len(clean) <= _LONGEST else None
    if found is None or (found[1] and found[3]):
        what = "cannot be read" if clean else "is missing"
        raise _refuse(
            text, f"{what} (the letter O stands there for a zero?)" if _has_letter_o(clean) else what, cur
        )
    before, figure, after = found[2].strip(), found[4], found[5].strip()
    if _has_letter_o(clean):
        raise _refuse(text, "cannot be read (the letter O stands there for a zero?)", cur)
    if before and after:
        raise _refuse(text, f"is marked twice, {before[:10]!r} and {after[:10]!r}", cur)
    _check_label(text, before or after, cur)
    whole, minor = _parts(text, figure, cur)
    if len(whole) + len(minor) > _MOST_DIGITS:
        raise _refuse(text, f"has more than {_MOST_DIGITS} digits", cur)
    amount = int(whole or "0") * cur.minor_units + int(minor.ljust(cur.minor_digits, "0") or "0")
    if not found[1] and not found[3]:
        return amount
    if not negative and amount:
        raise _refuse(text, "is below zero", cur)
    return -amount


def show_money(cents: int, cur: Currency, *, signed: bool = False, with_code: bool = False) -> str:
    """Write a price plainly, with a point and every decimal of its currency: '12.40'.

    Parameters
    ----------
    cents
        Minor units; below zero for what comes back.
    cur
        The currency.
    signed
        Put '+' before what is above zero, as for a difference.
    with_code
        Put the code first: 'USD 12.40'.

    Returns
    -------
    str
        The price, which `read_money` reads back.
    """
    whole, minor = divmod(abs(cents), cur.minor_units)
    sign = "-" if cents < 0 else "+" if signed and cents > 0 else ""
    figure = f"{sign}{whole}.{minor:0{cur.minor_digits}d}" if cur.minor_digits else f"{sign}{whole}"
    return f"{cur.code} {figure}" if with_code else figure
