"""The food's name in an ingredient line: preparing words before and after it, and foods that may stand instead."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ladleworth.dish.line import Unclear
from ladleworth.dish.line_words import (
    ADVERBS,
    COLOURS,
    GROWN_FORMS,
    HANDWORK,
    JOINED_NAMES,
    KEPT_NAMES,
    NAMELESS,
    NAMES_WITH_UNITS,
    NOT_VAGUE_AFTER,
    PREPARED,
    QUALIFIERS,
    SEASONING,
    SHARED_HEADS,
    SIZES,
    TRAILING_FORMS,
    TRAILING_PAIRS,
    UNIT_WORDS_INSIDE,
    VAGUE,
)

_DIGITS = re.compile(
    r"[0-9]+(?:[.,][0-9]+)?(?: ?[–-] ?[0-9]+)? ?%|[0-9]{2}/[0-9]{1,2}|\b00\b|[0-9]{1,2}-(?:spice|grain|bean|cheese)"
)
_OTHER = re.compile(r"[^\w \-'’.&%/®™!,°]")
_MOST_WORDS = 10


@dataclass(frozen=True, slots=True)
class Named:
    """A food's name with the preparing words that stood around it."""

    food: str
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    instead: tuple[str, ...] = ()


def _plain(word: str) -> str:
    return word.lower().strip(".,")


def take_before(phrase: str) -> tuple[tuple[str, ...], str]:
    """Part the preparing words before a food's name from it: 'finely chopped fresh parsley'.

    Returns
    -------
    tuple
        The preparing words (none or one phrase) and the name.
    """
    lower = phrase.lower()
    if lower.startswith(KEPT_NAMES):
        return (), phrase
    words = phrase.split(" ")
    taken = 0
    for index, word in enumerate(words[:-1]):
        plain = _plain(word)
        if plain in HANDWORK or (plain.startswith("finely-") and plain[7:] in HANDWORK):
            if " ".join(words[index:]).lower().startswith(KEPT_NAMES):
                break
            taken = index + 1
        elif plain not in ADVERBS and plain not in ("and", "&", "but", "or"):
            break
    if taken == 0 and _plain(words[0]) == "freshly" and len(words) > 1:
        taken = 1
    return ((" ".join(words[:taken]).strip(" ,"),) if taken else ()), " ".join(words[taken:])


def take_after(phrase: str) -> tuple[str, tuple[str, ...]]:
    """Part preparing words that follow a food's name without a comma: 'potatoes peeled and diced'."""
    words = phrase.split(" ")
    first = len(words)
    while first > 1:
        plain = _plain(words[first - 1])
        if plain in HANDWORK or plain in ADVERBS or (plain in ("and", "&", "then") and first < len(words)):
            first -= 1
        else:
            break
    tail = words[first:]
    if not any(_plain(word) in HANDWORK for word in tail):
        return phrase, ()
    while tail and _plain(tail[0]) in ("and", "&", "then"):
        return phrase, ()
    return " ".join(words[:first]), (" ".join(tail),)


def split_or(phrase: str) -> tuple[str, ...]:
    """Part the foods that may stand for each other: 'butter or margarine', 'chicken or vegetable stock'.

    Parameters
    ----------
    phrase
        The food's name as written, without amounts.

    Returns
    -------
    tuple of str
        One name, or the names in the order written, each complete.

    Raises
    ------
    Unclear
        If it cannot be told where one food's name ends and the other's begins.
    """
    sides = re.split(r" or ", phrase, flags=re.IGNORECASE)
    if len(sides) == 1:
        return (phrase,)
    unsure = Unclear(
        f"it is not sure which words of {phrase!r} belong to both foods",
        "write both names in full, or one of them",
    )
    if len(sides) > 2:
        raise unsure
    left, right = (side.strip(" ,").split(" ") for side in sides)
    if not left[0] or not right[0]:
        raise unsure
    if all(_plain(word) in QUALIFIERS for word in right):
        raise unsure
    shared = _shared(left, right)
    if shared is None:
        raise unsure
    return (" ".join([*left, *shared]), " ".join(right))


def _shared(left: list[str], right: list[str]) -> list[str] | None:
    """Give the words of the right name that the left one shares; None where that cannot be told."""
    lead, head = _plain(left[-1]), _plain(right[-1])
    if all(_plain(word) in QUALIFIERS for word in left):
        return right[1:] if len(right) > 1 else None
    if len(right) == 1:
        return []
    makers = SHARED_HEADS.get(head)
    if makers is not None:
        if lead == head:
            return []
        return (
            right[-1:]
            if lead in makers and _plain(right[-2]) in makers
            else ([] if lead not in makers else None)
        )
    alike = _plain(left[0]) == _plain(right[0]) or lead == head
    return [] if alike or (len(right) == 2 and _plain(right[0]) in QUALIFIERS) else None


def check_name(food: str) -> str:
    """Refuse a name that shows the line was not understood.

    Parameters
    ----------
    food
        The food's name as read.

    Returns
    -------
    str
        The name, trimmed.

    Raises
    ------
    Unclear
        If it is empty, too long, or holds a number, a measure, 'each', 'the size of' or a second food.
    """
    food = re.sub(r"^(?:of|the) (?:the )?", "", food.strip(" ,.-–—*:"), flags=re.IGNORECASE).strip()
    lower = food.lower()
    words = [_plain(word) for word in food.split(" ")]
    if not re.search(r"[^\W\d_]{2}", food):
        raise Unclear("no food is named", "write the food's name after the amount")
    if len(words) > _MOST_WORDS or len(food) > 80:
        raise Unclear(
            "the food's name is too long to be sure of", "write the amount, the food, a comma, and the rest"
        )
    if re.search(r"[0-9½¼¾⅓⅔⅛⅜⅝⅞]", _DIGITS.sub("", food)):
        raise Unclear(
            f"a number stands inside the food's name {food!r}",
            "write the amount first, or the rest in brackets",
        )
    if _OTHER.search(food) or ("/" in _DIGITS.sub("", food)):
        raise Unclear(
            f"the food's name {food!r} holds a sign that is not understood", "write one food in plain words"
        )
    if words[0] in (
        "or",
        "and",
        "plus",
        "x",
        "to",
        "with",
        "for",
        "in",
        "from",
        "until",
        "not",
        "if",
    ):
        raise Unclear(f"a food's name cannot begin with {words[0]!r}", "write the amount, then one food")
    if words[0] in VAGUE and words[0] != "extra" and tuple(words[:2]) not in NOT_VAGUE_AFTER:
        raise Unclear(
            f"{words[0]!r} does not say how much", "write an amount, such as '1 tbsp', or 'to taste'"
        )
    if lower in NAMELESS:
        raise Unclear(f"{food!r} does not say of which food", "write the food's name, such as 'lemon juice'")
    if "each" in words:
        raise Unclear("'each' shares one amount between foods", "write one line per food")
    if "size of" in lower:
        raise Unclear("the amount is a likeness, not a measure", "write a weight or a measure")
    if words[0] in ("half", "halves", "quarter") and not lower.startswith(
        ("half and half", "half-and-half", *NAMES_WITH_UNITS)
    ):
        raise Unclear(f"{words[0]!r} may belong to the number or the food", "write the number as 1/2 or 1/4")
    inside = [word for word in words if word in UNIT_WORDS_INSIDE]
    if inside and lower not in NAMES_WITH_UNITS:
        raise Unclear(
            f"the measure {inside[0]!r} stands inside the food's name",
            "write the amount first, then the food",
        )
    return food


def _states(two: re.Match[str]) -> bool:
    return is_prepared(two[1]) and is_prepared(two[2]) and not {two[1], two[2]} <= COLOURS


def refuse_two_foods(food: str) -> str:
    """Refuse two foods under one amount; 'salt and pepper' and 'half and half' are one.

    Raises
    ------
    Unclear
        If the name holds 'and', '&', 'plus' or 'with' between foods.
    """
    if SEASONING.fullmatch(food):
        return food
    lower = re.sub(r" & |-and-", " and ", food.lower())
    for name in JOINED_NAMES:
        lower = lower.replace(name, "")
    lower = re.sub(r"([\w-]+) and (?=([\w-]+))", lambda two: " " if _states(two) else two[0], lower)
    if re.search(r"\b(?:and|plus|and/or)\b|[&+]", lower):
        raise Unclear(f"{food!r} names two foods under one amount", "write one line per food")
    return food


def trailing_form(food: str) -> tuple[str, str] | None:
    """Part a form that follows the food from it: 'garlic cloves', 'thyme sprigs'; None if there is none."""
    name, _, last = food.rpartition(" ")
    if not name:
        return None
    singular = next((form for form in GROWN_FORMS if last.lower() in (form, form + "s")), None)
    if singular is None:
        return None
    pair = (name.lower().split(" ")[-1], singular)
    if last.lower() in TRAILING_FORMS or pair in TRAILING_PAIRS:
        return name, GROWN_FORMS[singular]
    return None


def read_food(phrase: str, *, keep_words: bool = False) -> Named:
    """Read a food's name and the preparing words around it.

    Parameters
    ----------
    phrase
        What stands between the amount and the first comma, brackets taken out.
    keep_words
        True after a shop's package: 'diced tomatoes' in a can is the food's name.

    Returns
    -------
    Named
        The name, the words around it, and the foods that may stand instead.

    Raises
    ------
    Unclear
        If there is no name, or more than one food under one amount.
    """
    phrase = re.sub(r"^(?:of|the) (?:the )?", "", phrase.strip(" ,"), flags=re.IGNORECASE)
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    if not keep_words:
        before, phrase = take_before(phrase)
    phrase, after = take_after(phrase)
    names = tuple(refuse_two_foods(check_name(name)) for name in split_or(phrase))
    if len(names) > 1 and _plain(names[0].split(" ")[0]) in SIZES:
        raise Unclear("a size stands before one of two foods", "write one line, with one food")
    return Named(names[0], before, after, names[1:])


def is_prepared(word: str) -> bool:
    """Say whether a word names a state that a food can be in."""
    return _plain(word) in PREPARED or _plain(word) in QUALIFIERS
