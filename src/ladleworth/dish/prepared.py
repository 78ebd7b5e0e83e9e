"""What an ingredient line has done to its food, and how many of it the line counts."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.dish.line import Line
from ladleworth.dish.line_words import ADVERBS, HANDWORK

_OF = (" of", " from")


def prepared(line: Line) -> tuple[str, ...]:
    """Give the preparing words of a line: those before the food that are handwork, then those after it.

    '500 g finely chopped onions' is ('finely chopped',), '1 leek, halved, sliced' ('halved', 'sliced'); what is only
    bought so ('canned', 'frozen') is no preparation.
    """
    before = [phrase.casefold() for phrase in line.before if _is_handwork(phrase.casefold())]
    return (*before, *(phrase.casefold() for phrase in line.preparation))


def _is_handwork(phrase: str) -> bool:
    words = phrase.split()
    return (
        not phrase.endswith(_OF)
        and any(word in HANDWORK for word in words)
        and all(word in HANDWORK | ADVERBS or word == "and" for word in words)
    )


def counted(line: Line) -> tuple[Fraction | None, str]:
    """Give how many the line counts and of what ('' is the food itself); (None, '') where it weighs or measures."""
    if line.package is not None:
        return line.package.count.high, "" if line.package.form == "piece" else line.package.form
    if len(line.amounts) == 1 and line.amounts[0].unit is None:
        return line.amounts[0].high, ""
    return None, ""
