"""Parts that are dealt out to the piece: which they are, and how it is said: 'one each, the seventh in six'."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.dish import Ingredient
from ladleworth.facts import FoodTable, Measure
from ladleworth.units import show_count

STAYS_WHOLE = frozenset({"", "slice", "rasher", "fillet", "piece", "ear", "link", "patty"})
"""What a line may count for its part to be dealt out to the piece; of a can, a clove, a stalk nobody gets one."""

LEFT_WHOLE = frozenset(
    {
        "peeled",
        "rinsed",
        "washed",
        "toasted",
        "warmed",
        "hard-cooked",
        "hard-boiled",
        "hard cooked",
        "hard boiled",
    }
)
"""Preparations after which a piece is still one. House rules, no source."""

BROKEN = frozenset({"egg"})
"""Foods that are broken into the dish unless their part says otherwise by its kind (`hard-cooked egg`)."""

WHOLE_KIND = "hard-cooked egg"

NUMBERS = (
    "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
ORDINALS = (
    "", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth", "thirteenth",
)  # fmt: skip
TEENS = range(11, 14)


@dataclass(frozen=True, slots=True)
class Counted:
    """How many pieces a batch's part takes as written, and of what: `piece` is '' for the food itself."""

    number: Fraction
    food: str
    piece: str = ""


def counted_in(
    ingredients: Sequence[Ingredient], foods: FoodTable, kinds: Sequence[str] = ()
) -> Counted | None:
    """Tell whether a part is dealt out to the piece.

    Parameters
    ----------
    ingredients, foods
        Those of the part, and the food table.
    kinds
        The kinds of cooked food that the part is said to be.

    Returns
    -------
    Counted or None
        Where its one measured food is counted and stays in its pieces: slices of bread, flatbreads, sausages, eggs of
        the kind `hard-cooked egg`. None for anything else.
    """
    measured = [one for one in ingredients if not one.unmeasured]
    if len(measured) != 1:
        return None
    one = measured[0]
    number = one.count
    if number is None and foods.get(one.food).measured_in is Measure.PIECES:
        number = one.bought
    if number is None or one.piece not in STAYS_WHOLE or not set(one.preparation) <= LEFT_WHOLE:
        return None
    if one.food in BROKEN and WHOLE_KIND not in kinds:
        return None
    return Counted(number, one.food, one.piece)


def each_words(pieces: int, portions: int) -> str:
    """Say what each of so many equal portions gets of so many pieces.

    Parameters
    ----------
    pieces, portions
        How many of each; both above zero.

    Returns
    -------
    str
        '2 each'; of 7 pieces for 6, '1 1/6 each: one each, the seventh in six'; of 8 for 6, '1 1/3 each: one each, the
        other two in three'.
    """
    share = Fraction(pieces, portions)
    told = f"{show_count(share)} each"
    whole, left = divmod(pieces, portions)
    if not left:
        return told
    parts = (share - whole).denominator
    cut = (
        f"the {_ordinal(pieces)}" if left == 1 and whole else f"the other {_number(left)}" if whole else "all"
    )
    several = (share - whole).numerator
    taken = f", {_number(several)} of these each" if several > 1 else ""
    first = f"{_number(whole)} each, " if whole else ""
    return f"{told}: {first}{cut} in {_number(parts)}{taken}"


def _number(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def _ordinal(number: int) -> str:
    if number < len(ORDINALS):
        return ORDINALS[number]
    ends = {1: "st", 2: "nd", 3: "rd"} if number % 100 not in TEENS else {}
    return f"{number}{ends.get(number % 10, 'th')}"
