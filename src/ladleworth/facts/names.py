"""Names of foods, folded so that one food answers to its spellings."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_NOT_WORD = re.compile(r"[^0-9a-z%]+")
_KEEP_S = ("ss", "us", "is")
_SHORTEST_WITH_ENDING = 4


def _fold_word(word: str) -> str:
    if len(word) >= _SHORTEST_WITH_ENDING and word.endswith("s") and not word.endswith(_KEEP_S):
        word = word[:-1]
    if len(word) >= _SHORTEST_WITH_ENDING and word.endswith("e"):
        word = word[:-1]
    if word.endswith("y"):
        return word[:-1] + "i"
    return word[:-1] + "v" if word.endswith("f") else word


@lru_cache(maxsize=16384)
def fold_name(name: str) -> str:
    """Fold case, accents, punctuation, spaces and simple plurals of a food's name away.

    Parameters
    ----------
    name
        A food's name as somebody writes it.

    Returns
    -------
    str
        Words of a to z and 0 to 9 joined by single spaces; equal for 'Jalapeños' and 'jalapeno', for
        'bay leaves' and 'bay leaf', for 'tomatoes' and 'tomato'. Not meant to be shown.
    """
    plain = unicodedata.normalize("NFKD", name.casefold())
    plain = "".join(c for c in plain if not unicodedata.combining(c)).replace("'", "").replace("’", "")
    return " ".join(_fold_word(word) for word in _NOT_WORD.split(plain) if word)
