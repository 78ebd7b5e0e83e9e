"""What a container's label says of what is in it, as records; printing is another's."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Content:
    """What a container holds of a heap: milligrams (None: not known), and pieces where it is dealt out so.

    `aside` says that it lies beside the rest, or in a place of its own.
    """

    what: str
    mass_mg: int | None
    pieces: Fraction | None = None
    aside: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """What a label says.

    Parameters
    ----------
    code
        The short code, with its check letter.
    portion
        The portion's place among those of the batch, from 0.
    dish, name, version
        The dish's id and name, and the swaps chosen.
    number, of
        Which container of how many of the batch.
    size
        What is in it of a standard portion.
    who, day
        Whose it is by the plan, for which meal, and the day of it; '' and None for nobody's.
    frozen, cooked_on
        Whether it goes into the freezer, and the day it was cooked.
    contents
        What is in it.
    total_mg
        What all of it weighs; None where a weight is not known.
    container_ml
        What the container holds to the brim; None where none was chosen.
    """

    code: str
    portion: int
    dish: str
    name: str
    version: str
    number: int
    of: int
    size: Fraction
    who: str
    day: date | None
    frozen: bool
    cooked_on: date
    contents: tuple[Content, ...]
    total_mg: int | None
    container_ml: int | None
