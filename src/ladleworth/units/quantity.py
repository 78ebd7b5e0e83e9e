"""An exact amount that knows whether it is a mass, a volume or a count."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField, BadUnit
from ladleworth.units.table import Dimension, Unit


def half_up(number: Fraction | int) -> int:
    """Round to the nearest whole number, a half going up (towards the greater number)."""
    return math.floor(Fraction(number) + Fraction(1, 2))


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact amount in the base unit of its dimension.

    Parameters
    ----------
    amount
        Exact number of base units: mg for a mass, ml for a volume, pieces for a count. It may be below
        zero, being a difference.
    dimension
        What it measures.

    Raises
    ------
    BadField
        If the amount is not an exact number.
    """

    amount: Fraction
    dimension: Dimension

    def __post_init__(self) -> None:
        given: object = self.amount
        if isinstance(given, bool) or not isinstance(given, int | Fraction):
            raise BadField(f"an amount is {self.amount!r}; give a whole number or a Fraction")
        object.__setattr__(self, "amount", Fraction(self.amount))

    @classmethod
    def of(cls, number: Fraction | int, unit: Unit) -> Quantity:
        """Take so many of a unit."""
        return cls(number * unit.in_base, unit.dimension)

    def in_unit(self, unit: Unit) -> Fraction:
        """Say how many of a unit this is, exactly.

        Raises
        ------
        BadUnit
            If the unit measures something else.
        """
        self._guard(unit.dimension, "be shown in", unit.name)
        return self.amount / unit.in_base

    @property
    def mg(self) -> int:
        """The whole number of milligrams; a mass that is not whole must be rounded with `whole_mg`."""
        self._guard(Dimension.MASS, "be read in", "mg")
        if self.amount.denominator != 1:
            raise BadUnit(f"{self} is not a whole number of milligrams; ask for whole_mg() to round it")
        return self.amount.numerator

    def whole_mg(self) -> int:
        """Give the mass in milligrams, rounded half up."""
        self._guard(Dimension.MASS, "be read in", "mg")
        return half_up(self.amount)

    @property
    def ml(self) -> Fraction:
        """The volume in millilitres, exact."""
        self._guard(Dimension.VOLUME, "be read in", "ml")
        return self.amount

    @property
    def each(self) -> Fraction:
        """The count in pieces, exact."""
        self._guard(Dimension.COUNT, "be read in", "each")
        return self.amount

    def _guard(self, dimension: Dimension, deed: str, other: str) -> None:
        if self.dimension is not dimension:
            raise BadUnit(
                f"{self} is a {self.dimension.name.lower()} and cannot {deed} {other}, "
                f"a {dimension.name.lower()}; convert one by the food's own weights first"
            )

    def __add__(self, other: Quantity) -> Quantity:
        self._guard(other.dimension, "be added to", str(other))
        return Quantity(self.amount + other.amount, self.dimension)

    def __sub__(self, other: Quantity) -> Quantity:
        self._guard(other.dimension, "be lessened by", str(other))
        return Quantity(self.amount - other.amount, self.dimension)

    def __mul__(self, factor: Fraction | int) -> Quantity:
        if isinstance(factor, bool) or not isinstance(factor, int | Fraction):
            return NotImplemented
        return Quantity(self.amount * factor, self.dimension)

    __rmul__ = __mul__

    def __truediv__(self, divisor: Fraction | int) -> Quantity:
        if isinstance(divisor, bool) or not isinstance(divisor, int | Fraction):
            return NotImplemented
        if divisor == 0:
            raise BadUnit(f"{self} cannot be divided by zero; give a number above zero")
        return Quantity(self.amount / divisor, self.dimension)

    def ratio(self, other: Quantity) -> Fraction:
        """Say how many times the other amount this one is, exactly.

        Raises
        ------
        BadUnit
            If the two measure different things, or the other is nothing.
        """
        self._guard(other.dimension, "be divided by", str(other))
        if other.amount == 0:
            raise BadUnit(f"{self} cannot be divided by {other}; give an amount above zero")
        return self.amount / other.amount

    def __lt__(self, other: Quantity) -> bool:
        self._guard(other.dimension, "be compared with", str(other))
        return self.amount < other.amount

    def __le__(self, other: Quantity) -> bool:
        self._guard(other.dimension, "be compared with", str(other))
        return self.amount <= other.amount

    def __gt__(self, other: Quantity) -> bool:
        return other < self

    def __ge__(self, other: Quantity) -> bool:
        return other <= self

    def __str__(self) -> str:
        return f"{self.amount} {self.dimension.value}"
