"""Names of foods, folded so that one food answers to its spellings, in whatever script."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

_KEEP_S = ("ss", "us", "is")
_SHORTEST_WITH_ENDING = 4
_APOSTROPHES = "'’‘ʼ`"
_OPTIONAL_MARKS = range(10, 37)
"""Combining classes of the vowel points of Hebrew, Arabic and Syriac, which are mostly left out."""
_ACCENTS = range(200, 241)
"""Combining classes of marks above, below and attached to a letter: the accents of Latin, Greek, Cyrillic.

Marks of other classes (dakuten, nukta, virama, the vowel signs of South and South-East Asia) make another
letter or syllable and are always kept.
"""


def _fold_word(word: str) -> str:
    if len(word) >= _SHORTEST_WITH_ENDING and word.endswith("s") and not word.endswith(_KEEP_S):
        word = word[:-1]
    if len(word) >= _SHORTEST_WITH_ENDING and word.endswith("e"):
        word = word[:-1]
    if word.endswith("y"):
        return word[:-1] + "i"
    return word[:-1] + "v" if word.endswith("f") else word


def _kept(character: str, *, accents: bool) -> str:
    """Give what stays of a character: itself, a space for one that parts words, or nothing."""
    category = unicodedata.category(character)
    if character in _APOSTROPHES or category == "Cf":
        return ""
    if category[0] == "M":
        mark = unicodedata.combining(character)
        return "" if mark in _OPTIONAL_MARKS or (mark in _ACCENTS and not accents) else character
    return character if category[0] in "LN" or character == "%" else " "


def _words(name: str, *, accents: bool) -> list[str]:
    plain = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", name).casefold())
    return "".join(_kept(character, accents=accents) for character in plain).split()


def _fold(name: str, *, accents: bool) -> str:
    words = _words(name, accents=accents) or name.split()  # a name without a letter stands for itself
    return " ".join(map(_fold_word, words))


@lru_cache(maxsize=16384)
def fold_name(name: str) -> str:
    """Fold case, accents, punctuation, spaces and simple plurals of a food's name away.

    Parameters
    ----------
    name
        A food's name as somebody writes it, in any script.

    Returns
    -------
    str
        Words of letters, digits and '%' joined by single spaces; equal for 'Jalapeños' and 'jalapeno', for
        'bay leaves' and 'bay leaf', for 'tomatoes' and 'tomato'; '' only for a blank name. Not meant to be
        shown.
    """
    return _fold(name, accents=False)


@lru_cache(maxsize=16384)
def fold_spelling(name: str) -> str:
    """Fold a name as `fold_name` does but keep its accents, which tell 'cá' (fish) from 'cà' (eggplant)."""
    return _fold(name, accents=True)


@lru_cache(maxsize=16384)
def plain_words(name: str) -> tuple[str, ...]:
    """Part a name into its words, case, accents and punctuation folded away, plurals as they are."""
    return tuple(_words(name, accents=False))
