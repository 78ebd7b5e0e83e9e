"""Text of SVG: tags with everything escaped, numbers written one way, and how wide a text comes out."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape, quoteattr

_NO_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that XML 1.0 has no place for (section 2.2)."""

_NARROW = frozenset("iljtfrI.,:;'|!()[]- /")
_WIDE = frozenset("mwMW%@—…")
_EM = {"narrow": 0.37, "wide": 0.95, "capital": 0.73, "other": 0.61}
"""Widths of letters in parts of the type size, rather too wide than too narrow for a plain sans serif."""


def tag(name: str, content: str | None = None, **attributes: object) -> str:
    """Write an element.

    Parameters
    ----------
    name
        Its name.
    content
        What stands in it, as SVG already; None: nothing.
    attributes
        Values, None to leave one out; `stroke_width` is written stroke-width, `class_` is class.
    """
    written = "".join(
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(_clean(number(value)))}"
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{written}/>" if content is None else f"<{name}{written}>{content}</{name}>"


def text(words: str) -> str:
    """Escape words for the inside of an element."""
    return escape(_clean(words))


def number(value: object) -> str:
    """Write a number with at most two decimals, anything else as it is."""
    if isinstance(value, float):
        return f"{value:.2f}".rstrip("0").rstrip(".")
    return str(value)


def _clean(words: str) -> str:
    return _NO_XML.sub("�", words)


def width_of(words: str, size: float) -> float:
    """Estimate how wide a text of a type size comes out, rather too wide than too narrow."""
    return size * sum(_EM[_kind(letter)] for letter in words)


def _kind(letter: str) -> str:
    if letter in _NARROW:
        return "narrow"
    if letter in _WIDE or ord(letter) > 0x2E80:
        return "wide"
    return "capital" if letter.isupper() else "other"


def fitted(words: str, room: float, size: float) -> str:
    """Cut a text to the room that there is, with an ellipsis; '' where not even two letters fit."""
    if width_of(words, size) <= room:
        return words
    cut = words
    while cut and width_of(cut + "…", size) > room:
        cut = cut[:-1]
    cut = cut.rstrip(" ,;:.")
    return f"{cut}…" if len(cut) > 1 else ""


def spread(wanted: list[float], gap: float, low: float, high: float) -> list[float]:
    """Move labels apart as little as possible.

    Parameters
    ----------
    wanted
        Where each label would like to be, in rising order.
    gap
        The least distance between two.
    low, high
        Where the first and the last may be at the utmost; where there is no room for all, the distance shrinks.

    Returns
    -------
    list of float
        Their places, in the same order: the nearest ones by least squares (pool adjacent violators).
    """
    if not wanted:
        return []
    gap = min(gap, (high - low) / max(1, len(wanted) - 1))
    pools: list[tuple[float, int]] = []
    for at, place in enumerate(wanted):
        pools.append((place - at * gap, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (one, many), (other, more) = pools[-2], pools[-1]
            pools[-2:] = [((one * many + other * more) / (many + more), many + more)]
    flat = [mean for mean, many in pools for _ in range(many)]
    most = high - (len(wanted) - 1) * gap
    return [min(max(mean, low), most) + at * gap for at, mean in enumerate(flat)]
