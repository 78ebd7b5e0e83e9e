"""The major allergens under the names that people write for them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from ladleworth.facts.names import fold_name
from ladleworth.facts.records import ALLERGENS

SPELLINGS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "milk": ("cow's milk", "cow milk"),
        "egg": ("hen's egg",),
        "fish": ("fin fish", "finfish"),
        "crustacean shellfish": ("crustacean", "crustacea", "shellfish (crustacean)"),
        "tree nuts": ("treenut",),
        "peanut": ("pea nut", "groundnut", "ground nut", "monkey nut"),
        "soybean": ("soy", "soya", "soja", "soy bean", "soya bean"),
        "sesame": ("sesame seed",),
    }
)
"""Further names of an allergen, each meaning neither more nor less than it (common practice, no source)."""

UNCLEAR: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "nut": ("tree nuts", "peanut"),
        "shellfish": ("crustacean shellfish",),
        "seafood": ("fish", "crustacean shellfish"),
        "gluten": ("wheat",),
        "dairy": ("milk",),
        "lactose": ("milk",),
    }
)
"""Words that mean more than one allergen, or something beside it, each with the allergens it touches.

Shellfish and seafood take in molluscs, gluten barley and rye, none of which the law counts: such a word is
never taken for an allergen by itself.
"""

_BY_NAME = {
    fold_name(name): allergen for allergen in ALLERGENS for name in (allergen, *SPELLINGS.get(allergen, ()))
}
_UNCLEAR = {fold_name(word): allergens for word, allergens in UNCLEAR.items()}
_NEAR = 75
"""Least likeness, in per cent, of a word that may be a misspelt allergen. Ours, no source."""


def find_allergen(word: str) -> str | None:
    """Find a major allergen by its name in the singular or plural, or by another usual name.

    Parameters
    ----------
    word
        What somebody wrote: 'peanuts', 'soy', 'Tree nut'.

    Returns
    -------
    str or None
        The allergen as ALLERGENS has it; None if the word names none, or names more than one.
    """
    return _BY_NAME.get(fold_name(word))


def near_allergens(word: str) -> tuple[str, ...]:
    """Give the allergens that a word may mean which names none by itself.

    Parameters
    ----------
    word
        What somebody wrote: 'nuts', 'wheet'.

    Returns
    -------
    tuple of str
        All that an unclear word touches; else the one that is spelt most like it; else none.
    """
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    folded = fold_name(word)
    if folded in _UNCLEAR:
        return _UNCLEAR[folded]
    names = {name: name for name in _BY_NAME}
    near = process.extractOne(folded, names, scorer=OSA.normalized_similarity, score_cutoff=_NEAR / 100)
    return () if near is None else (_BY_NAME[near[2]],)
