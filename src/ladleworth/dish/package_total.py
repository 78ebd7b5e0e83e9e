"""What a written amount of packages comes to in all: '2 (14.5 oz) cans', '2 x 400 g', '4 lb'."""

from __future__ import annotations

from ladleworth.dish.line import Package, Unclear
from ladleworth.dish.line_head import read_head
from ladleworth.errors import BadUnit
from ladleworth.units import Quantity, read_total


def read_package_total(text: str) -> Quantity:
    """Read an amount that may be written as packages of one size.

    Parameters
    ----------
    text
        '2 (14.5 oz) cans', '2 x 400 g', '3 x 400 g tins', '14.5 oz can', or any amount that `read_total` reads.

    Returns
    -------
    Quantity
        All of it: so many packages times the content of one, exact.

    Raises
    ------
    BadUnit
        If it cannot be read, the packages have no size, or a number is a range; the message says what to
        write instead.
    """
    package = _package(" ".join(text.split()))
    if package is None:
        return read_total(text)
    size = package.size
    if size is None or size.unit is None:
        raise BadUnit(
            f"{text!r} does not say what one {package.form} holds; write it like '2 (14.5 oz) cans' or '2 x 400 g'"
        )
    if not package.count.plain or size.low != size.high:
        raise BadUnit(f"{text!r} has a range, not one amount; write one number of packages and one size")
    return Quantity.of(package.count.low * size.low, size.unit)


def _package(text: str) -> Package | None:
    """Read a text that is packages and nothing else; None if it is anything more, or no packages."""
    try:
        head = read_head(text)
    except (Unclear, BadUnit):
        return None  # read_total says better what is wrong with a plain amount
    rest = text[head.end :].strip(" .")
    return head.package if head.package is not None and not rest else None
