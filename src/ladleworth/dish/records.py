"""A dish as a person wrote it, as frozen records: ingredient lines and amounts still text, nothing looked up yet."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

from ladleworth.dish.dish import Role


@dataclass(frozen=True, slots=True)
class HandsOn:
    """Minutes (hands-on, of the oven or of burners) as written, '' for what was left out: `fixed`, and a portion."""

    fixed: str = ""
    per_portion: str = ""


@dataclass(frozen=True, slots=True)
class WrittenSwap:
    """One way to make a part, as written. `per_portion` pairs a food's name with its amount."""

    name: str
    lines: tuple[str, ...] = ()
    per_portion: tuple[tuple[str, str], ...] = ()
    hands_on: HandsOn | None = None
    oven: HandsOn | None = None
    burners: HandsOn | None = None
    kinds: tuple[str, ...] = ()
    brings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WrittenPart:
    """A part as written. `name` '' means that its keys stand at the top level: the dish is all one part."""

    name: str = ""
    role: Role | None = None
    lines: tuple[str, ...] = ()
    per_portion: tuple[tuple[str, str], ...] = ()
    swaps: tuple[WrittenSwap, ...] = ()
    oven: HandsOn | None = None
    burners: HandsOn | None = None
    kinds: tuple[str, ...] = ()
    apart: bool = False
    brings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WrittenStep:
    """A step as written; times and waits are text, '' for what was left out.

    `name` is its key `step`; `after` None was left out, () says that it follows nothing.
    """

    text: str
    part: str = ""
    hands_on: str = ""
    unattended: str = ""
    needs: tuple[str, ...] = ()
    name: str = ""
    swaps: tuple[str, ...] = ()
    after: tuple[str, ...] | None = None
    at_once: bool = False
    wait: str = ""
    prep: str = ""
    leaves: str = ""
    takes: tuple[str, ...] = ()
    day_before: bool = False
    core: str = ""


@dataclass(frozen=True, slots=True)
class WrittenDish:
    """A dish as written: what the YAML form holds, no more and no less; None and '' are what was left out."""

    name: str
    parts: tuple[WrittenPart, ...]
    portions: int | None = None
    least: int | None = None
    greatest: int | None = None
    hands_on: HandsOn | None = None
    freezer_days: int | None = None
    keep_days: int | None = None
    meals: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    steps: tuple[WrittenStep, ...] = ()
    measured_yield: str = ""
    oven: HandsOn | None = None
    burners: HandsOn | None = None
    splits: int | None = None
    portion_volume: str = ""

    @property
    def id(self) -> str:
        """The dish's id, made from its name."""
        return dish_id(self.name)


def dish_id(name: str) -> str:
    """Make a dish's id from its name: small letters and digits of any script, everything else a hyphen.

    Parameters
    ----------
    name
        The dish's name.

    Returns
    -------
    str
        'bean-chili' for 'Bean chili!'; '' for a name without letters or digits.
    """
    kept = (c if unicodedata.category(c)[0] in "LMN" else " " for c in _fold(name))
    return "-".join("".join(kept).split())


def _fold(name: str) -> str:
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())
