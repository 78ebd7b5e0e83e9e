"""Which foods a misspelt name may mean: the nearest names, compared word by word and as a whole."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice

from ladleworth.facts.names import plain_words

_BEGINNING = 0.25
"""Share of a word's likeness that goes by its beginning (Jaro-Winkler); the rest by slips. Ours, no source."""
_UNMATCHED = 0.3
"""Share of a name's likeness that is lost when none of its own words is asked for. Ours, no source."""
_LEAST_LIKE = 0.7
"""Least likeness of a name that the nearest one must have, or none is given. Ours, no source."""
_LEAST_LIKE_SHORT = 0.63
"""The same where at most five letters were written: two slips in five ('hunny', honey) are seen through. Ours."""
_SHORT = 5
_MOST_WORDS = 8
_LONGEST_WORD = 40


def nearest_names(wanted: str, names: Iterable[tuple[str, str]], n: int) -> tuple[str, ...]:
    """Give the foods whose names are most like a misspelt one.

    A word's likeness counts slips: a letter left out, put in, changed, or swapped with its neighbour, against
    the longer word's letters. A name's likeness is the greater of two: that of all letters run together
    ('peanutbutter'), and that of each wanted word to its best word of the name, lowered by the words of the
    name which nobody asked for, so that 'rise' means rice before it means iceberg lettuce.

    Parameters
    ----------
    wanted
        What the cook wrote; beyond eight words and forty letters a word, the rest is passed over.
    names
        Every name of every food, each with what is to be given for it. May repeat both.
    n
        At most so many are given.

    Returns
    -------
    tuple of str
        Different foods, most like first; equally like ones in the order of `names`. None at all where even
        the best is a poor likeness.
    """
    asked = tuple(word[:_LONGEST_WORD] for word in _words(wanted)[:_MOST_WORDS])
    called = dict.fromkeys((_words(name), given) for name, given in names)
    if not asked:
        return tuple(islice(dict.fromkeys(given for _, given in called), n))
    like = {word: _likenesses(word, {other for words, _ in called for other in words}) for word in asked}
    whole = _likenesses("".join(asked), {"".join(words) for words, _ in called})
    best: dict[str, float] = {}
    for words, given in called:
        least = max(best.get(given, 0.0), whole["".join(words)])
        best[given] = max(least, _by_words(asked, words, like, least))
    least_like = _LEAST_LIKE_SHORT if sum(map(len, asked)) <= _SHORT else _LEAST_LIKE
    if max(best.values(), default=0.0) < least_like:
        return ()
    return tuple(sorted(best, key=lambda given: -best[given])[:n])


def _words(name: str) -> tuple[str, ...]:
    return plain_words(name) or tuple(name.split())


def _likenesses(word: str, others: Iterable[str]) -> dict[str, float]:
    """Say how like a word each other is: 1 for the same, 0 for nothing in common."""
    from rapidfuzz.distance import OSA, JaroWinkler

    slips, beginning = OSA.normalized_similarity, JaroWinkler.normalized_similarity
    share = 1 - _BEGINNING
    return {other: share * slips(word, other) + _BEGINNING * beginning(word, other) for other in others}


def _by_words(
    asked: tuple[str, ...], words: tuple[str, ...], like: dict[str, dict[str, float]], least: float
) -> float:
    """Say how like a name is word by word, longer words counting for more; 0 if it cannot be above `least`."""
    found = sum([len(word) * max([like[word][other] for other in words]) for word in asked])
    found /= sum(map(len, asked))
    if found <= least:
        return 0.0
    used = sum([len(other) * max([like[word][other] for word in asked]) for other in words])
    return found * (1 - _UNMATCHED + _UNMATCHED * used / sum(map(len, words)))
