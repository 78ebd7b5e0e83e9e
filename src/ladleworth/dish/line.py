"""An ingredient line as read: amounts, packages, the food's name and everything said about it.

Nothing is looked up here: the food is still text, and amounts are as written, never averaged or guessed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField, LadleworthError
from ladleworth.units import Range, Unit


@dataclass(frozen=True, slots=True)
class Amount:
    """From so much to so much of one unit; a plain amount has both ends equal.

    Parameters
    ----------
    low, high
        The ends, exact, above zero, low at most high.
    unit
        What they count; None for pieces of the food itself ('2 onions').

    Raises
    ------
    BadField
        If an end is not above zero or the ends are the wrong way round.
    """

    low: Fraction
    high: Fraction
    unit: Unit | None = None

    def __post_init__(self) -> None:
        if not 0 < self.low <= self.high:
            raise BadField(
                f"an amount runs from {self.low} to {self.high}; write amounts above 0, the smaller first"
            )

    @property
    def plain(self) -> bool:
        """Whether both ends are the same."""
        return self.low == self.high


@dataclass(frozen=True, slots=True)
class Package:
    """So many cans, bunches, cloves: things with a form, whose size may be written.

    Parameters
    ----------
    count
        How many, a range kept with both ends.
    size
        What one of them holds, with a unit; None where the line does not say.
    form
        'can', 'packet', 'jar', 'bunch', 'head', 'clove', 'stick', 'slice' and so on, in the singular;
        'piece' for pieces of a written size ('4 (6 oz) salmon fillets').

    Raises
    ------
    BadField
        If there are none, the size has no unit or the form is blank.
    """

    count: Range
    size: Amount | None
    form: str

    def __post_init__(self) -> None:
        if self.count.low <= 0:
            raise BadField(f"a package counts {self.count}; write how many, above 0")
        if self.size is not None and self.size.unit is None:
            raise BadField("a package's size has no unit; write one such as 400 g")
        if not self.form:
            raise BadField("a package has no form; write one such as can or bunch")


@dataclass(frozen=True, slots=True)
class Line:
    """One ingredient line, read for sure.

    Parameters
    ----------
    text
        The line as it was written.
    food_text
        The food's name as written, for the food table to match.
    amounts
        Amounts that are *added* ('1 cup plus 2 tbsp' has two). Empty for a package or an unmeasured line.
    also
        The same amount in another measure, as the line gives it ('1 pound (450 g)'), checked to agree.
    size
        'large', 'medium' or '1-inch', where the line says so.
    package
        Cans, bunches, cloves and the like, instead of amounts.
    before
        Preparing words before the food: 'finely chopped' in '2 tbsp finely chopped parsley'; 'juice of'.
    preparation
        Preparing words after the food, one entry per comma.
    divided, optional
        Whether the line says so.
    to_taste
        Whether the line says so; with an amount, the amount still counts.
    unmeasured
        True where the line gives no amount on purpose: 'salt to taste', 'oil for frying'.
    alternatives
        Foods that may stand instead, each a line of its own: 'butter or margarine'.
    note
        What else the line says, parts joined by '; '.

    Raises
    ------
    BadField
        If there is no food, or not exactly one of amounts, package and unmeasured.
    """

    text: str
    food_text: str
    amounts: tuple[Amount, ...] = ()
    also: tuple[Amount, ...] = ()
    size: str | None = None
    package: Package | None = None
    before: tuple[str, ...] = ()
    preparation: tuple[str, ...] = ()
    divided: bool = False
    optional: bool = False
    to_taste: bool = False
    unmeasured: bool = False
    alternatives: tuple[Line, ...] = ()
    note: str = ""

    def __post_init__(self) -> None:
        if not self.food_text.strip():
            raise BadField(f"the line {self.text!r} names no food; write one after the amount")
        if (bool(self.amounts), self.package is not None, self.unmeasured).count(True) != 1:
            raise BadField(
                f"the line {self.text!r} must have amounts, or a package, or be unmeasured; give exactly one"
            )

    @property
    def in_all(self) -> tuple[Amount, ...]:
        """The amounts to add up: those written, or a sized package times its count; else empty."""
        if self.package is None or self.package.size is None:
            return self.amounts
        count, size = self.package.count, self.package.size
        return (Amount(count.low * size.low, count.high * size.high, size.unit),)


@dataclass(frozen=True, slots=True)
class Review:
    """A line that cannot be read for sure: why, and what to write instead."""

    text: str
    why: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.text!r}: {self.why}; {self.remedy}"


class Unclear(LadleworthError):
    """Raised inside the reader where a line stops being sure; `read_line` turns it into a `Review`."""

    def __init__(self, why: str, remedy: str) -> None:
        self.why = why
        self.remedy = remedy
        super().__init__(f"{why}; {remedy}")
