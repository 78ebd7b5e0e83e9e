"""How far off a cost may be: the range over what scale, yield and price may really have been."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least, the likeliest and the greatest that a figure may be, in that order and none below zero."""

    least: Fraction
    likely: Fraction
    greatest: Fraction

    def __post_init__(self) -> None:
        if not 0 <= self.least <= self.likely <= self.greatest:
            raise BadField(
                f"bounds {self.least}, {self.likely}, {self.greatest} are not in order from zero up; "
                "write least, likely, greatest"
            )


def known(figure: Fraction | int) -> Bounds:
    """Give bounds for a figure that is not in doubt."""
    return Bounds(Fraction(figure), Fraction(figure), Fraction(figure))


@dataclass(frozen=True, slots=True)
class DoubtfulLine:
    """One line of a cost: edible `quantity`, `yield_share` and cents by unit as purchased, each in its bounds."""

    label: str
    quantity: Bounds
    yield_share: Bounds
    unit_price: Bounds

    def __post_init__(self) -> None:
        if self.yield_share.least <= 0:
            raise BadField(
                f"the yield of {self.label!r} may be {self.yield_share.least}; write one above zero"
            )


def cost_bounds(line: DoubtfulLine) -> Bounds:
    """Work out the least, likely and greatest cost of one line, in exact cents.

    Parameters
    ----------
    line
        The line.

    Returns
    -------
    Bounds
        Quantity over yield times unit price: least with the least quantity and price and the greatest yield.
    """
    return Bounds(
        line.quantity.least * line.unit_price.least / line.yield_share.greatest,
        line.quantity.likely * line.unit_price.likely / line.yield_share.likely,
        line.quantity.greatest * line.unit_price.greatest / line.yield_share.least,
    )


def total_bounds(lines: tuple[DoubtfulLine, ...]) -> Bounds:
    """Add up lines at their worst corners: every doubt falls the same way, so no case lies outside.

    Parameters
    ----------
    lines
        The lines of one batch.

    Returns
    -------
    Bounds
        Exact cents.
    """
    each = [cost_bounds(line) for line in lines]
    return Bounds(
        sum((bounds.least for bounds in each), Fraction(0)),
        sum((bounds.likely for bounds in each), Fraction(0)),
        sum((bounds.greatest for bounds in each), Fraction(0)),
    )
