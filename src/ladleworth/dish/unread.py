"""What could not be read of a recipe that comes from elsewhere, by name; and how many portions a text states."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ladleworth.dish.mapping import to_mapping
from ladleworth.dish.tree import shorten, show_path
from ladleworth.dish.written import WrittenDish, read_dish
from ladleworth.errors import Place

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NUMBER = rf"(?P<n>[0-9]{{1,4}}|{'|'.join(_WORDS)})"
_UNIT = (
    r"(?:(?:small|medium|large|generous|hearty|main|individual|adult|dinner|lunch)\s+)?"
    r"(?:portions?|servings?|serves|people|persons?|eaters?|containers?|helpings?|meals?|plates?|bowls?|tubs?|boxes)"
)
_RANGE = re.compile(
    rf"(?:[0-9]|\b(?:{'|'.join(_WORDS)}))\s*(?:-|–|—|to\b|or\b)\s*(?:[0-9]|{'|'.join(_WORDS)})"
)
_BARE = re.compile(rf"\W*{_NUMBER}\W*")
_BEFORE = re.compile(rf"\b(?:serves|servings?|portions?|feeds|for)\s*:?\s*{_NUMBER}\b(?!\s*[/.,]\s*[0-9])")
_AFTER = re.compile(rf"(?<![0-9/.,])\b{_NUMBER}[\s-]*{_UNIT}\b")


@dataclass(frozen=True, slots=True)
class Unread:
    """Something that could not be read: its name, its text, and why, with what to write instead."""

    name: str
    text: str
    why: str

    def __str__(self) -> str:
        return f"{self.name} {shorten(self.text)}: {self.why}" if self.text else f"{self.name}: {self.why}"


def read_portions(text: str) -> int | None:
    """Read how many portions a text states, if it states one number of them.

    Parameters
    ----------
    text
        '4', 'Serves 4', '8 containers', 'four servings', '12 servings (24 cookies)'.

    Returns
    -------
    int or None
        The portions; None for a range, for a number of something else (24 cookies, 2 quarts), or for none.
    """
    folded = " ".join(text.casefold().split())
    if _RANGE.search(folded):
        return None
    bare = _BARE.fullmatch(folded)
    found = {m["n"] for m in ([bare] if bare else [*_BEFORE.finditer(folded), *_AFTER.finditer(folded)])}
    numbers = {_WORDS.index(word) + 1 if word in _WORDS else int(word) for word in found}
    number = numbers.pop() if len(numbers) == 1 else 0
    return number or None


def check_written(dish: WrittenDish, unread: list[Unread]) -> WrittenDish | None:
    """Check a dish put together from elsewhere; its faults join what could not be read.

    Parameters
    ----------
    dish
        The dish as far as it was read.
    unread
        What could not be read so far; faults are added to it.

    Returns
    -------
    WrittenDish or None
        The dish with what is faulty still in it, for the cook to mend; None without a name or an ingredient.
    """
    _, findings = read_dish(to_mapping(dish), lambda path: Place("", item=show_path(path)))
    named = {one.name for one in unread}
    for finding in findings:
        if finding.remedy.startswith("write portions") and named & {"recipeYield", "portions"}:
            continue  # said already, with the text it was read from
        unread.append(Unread(finding.place.item or "the dish", "", f"{finding.what}; {finding.remedy}"))
    has_ingredients = any(part.lines or part.per_portion or part.swaps for part in dish.parts)
    return dish if dish.name and has_ingredients else None
