"""Heaps: what is dealt out together, a part or the parts of one pot, and how much of it there is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from math import ceil

from ladleworth.dish.chain import NoFigure
from ladleworth.divide.making import PartMade
from ladleworth.divide.readings import Reading, standing
from ladleworth.divide.shares import GRAM_MG, unit_of
from ladleworth.errors import BadField
from ladleworth.units import half_up, split


class Known(Enum):
    """How it is known what a heap weighs."""

    WEIGHED = "weighed"
    COUNTED = "counted"
    WRITTEN = "the dish's measured yield"
    RECKONED = "reckoned"
    NOT = "not known"


@dataclass(frozen=True, slots=True)
class Heap:
    """What is dealt out together.

    Parameters
    ----------
    parts
        The dish's parts in it, in their order.
    known
        How its weight is known.
    total_mg
        What there is to deal out, in mg; None where nobody knows.
    pieces
        How many whole pieces there are; None where it is dealt out by weight.
    within
        What each part of a pot of several is reckoned to weigh in mg, so that they add up to `total_mg`; empty where
        there is one part, or one of them has no figure.
    reckoned_mg
        What the same parts are reckoned to weigh; None where an ingredient has no figure.
    missing
        Ingredients that the reckoning leaves out.
    """

    parts: tuple[str, ...]
    known: Known
    total_mg: int | None
    pieces: int | None = None
    within: tuple[tuple[str, int], ...] = ()
    reckoned_mg: Fraction | None = None
    missing: tuple[NoFigure, ...] = ()

    @property
    def name(self) -> str:
        """The names of its parts."""
        return in_words(self.parts)


def in_words(names: Sequence[str]) -> str:
    """Put names together: 'sauce, beans and rice'."""
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def heaps_of(
    made: Sequence[PartMade], readings: Iterable[Reading], written_mg: int | None, portions: int
) -> tuple[Heap, ...]:
    """Say what is dealt out, and how much of it there is.

    Parameters
    ----------
    made
        The parts as reckoned.
    readings
        The batch's readings, the earliest first: what was weighed last wins over everything else.
    written_mg
        The dish's measured yield for the whole batch, None without one. It counts while nothing has been weighed.
    portions
        Into how many portions it goes, which says how finely a reckoning is rounded.

    Returns
    -------
    tuple of Heap
        Every part in exactly one of them, in the order of the dish.

    Raises
    ------
    BadField
        If a reading is of a part that the batch does not have.
    """
    parts = {one.part: one for one in made}
    live = standing(readings)
    for reading in live:
        if unknown := [name for name in reading.parts if name not in parts]:
            raise BadField(f"the batch has no part {unknown[0]!r}; its parts are {', '.join(parts)}")
    if not live and written_mg is not None:
        return _written(made, written_mg)
    heaps = [
        _weighed([one for one in made if one.part in reading.parts], reading, portions) for reading in live
    ]
    covered = {name for reading in live for name in reading.parts}
    heaps += [_reckoned(one, portions) for one in made if one.part not in covered]
    place = {name: at for at, name in enumerate(parts)}
    return tuple(sorted(heaps, key=lambda heap: place[heap.parts[0]]))


def _weighed(parts: Sequence[PartMade], reading: Reading, portions: int) -> Heap:
    names, reckoned, missing = tuple(one.part for one in parts), _sum(parts), _missing(parts)
    if reading.in_pieces:
        mass = None if reckoned is None else _rounded(reckoned, portions)
        return Heap(names, Known.COUNTED, mass, reading.net, (), reckoned, missing)
    pieces = _pieces(parts[0]) if len(parts) == 1 else None
    within = _within(parts, reading.net) if len(parts) > 1 else ()
    return Heap(names, Known.WEIGHED, reading.net, pieces, within, reckoned, missing)


def _reckoned(one: PartMade, portions: int) -> Heap:
    mass = None if one.mass_mg is None else _rounded(one.mass_mg, portions)
    pieces = _pieces(one)
    known = Known.NOT if mass is None and pieces is None else Known.RECKONED
    return Heap((one.part,), known, mass, pieces, (), one.mass_mg, one.missing)


def _written(made: Sequence[PartMade], written_mg: int) -> tuple[Heap, ...]:
    """Share the dish's measured yield out among its parts as they are reckoned; all together where one is not."""
    within = _within(made, written_mg)
    if within:
        return tuple(
            Heap((one.part,), Known.WRITTEN, mass, _pieces(one), (), one.mass_mg)
            for one, (_, mass) in zip(made, within, strict=True)
        )
    parts = tuple(one.part for one in made)
    pieces = _pieces(made[0]) if len(made) == 1 else None
    return (Heap(parts, Known.WRITTEN, written_mg, pieces, (), _sum(made), _missing(made)),)


def _within(parts: Sequence[PartMade], total_mg: int) -> tuple[tuple[str, int], ...]:
    """Share a weight out among parts as they are reckoned, to the gram; nothing where one of them has no figure."""
    masses = [one.mass_mg for one in parts if one.mass_mg is not None]
    if len(masses) < len(parts):
        return ()
    grams, rest_mg = divmod(total_mg, GRAM_MG)
    shares = [share * GRAM_MG for share in split(grams, masses)]
    shares[masses.index(max(masses))] += rest_mg
    return tuple(zip((one.part for one in parts), shares, strict=True))


def _pieces(one: PartMade) -> int | None:
    """How many whole pieces there are: a batch takes whole ones, as the ledger draws them."""
    return None if one.counted is None else ceil(one.counted.number)


def _sum(parts: Sequence[PartMade]) -> Fraction | None:
    masses = [one.mass_mg for one in parts if one.mass_mg is not None]
    return sum(masses, Fraction(0)) if len(masses) == len(parts) else None


def _missing(parts: Sequence[PartMade]) -> tuple[NoFigure, ...]:
    return tuple(one for part in parts for one in part.missing)


def _rounded(mass_mg: Fraction, portions: int) -> int:
    """Round a reckoning half up to the unit in which it is dealt out: it is no better known than that."""
    unit = unit_of(mass_mg, portions)
    return max(1, half_up(mass_mg / unit)) * unit
