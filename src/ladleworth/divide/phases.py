"""Solids first, then the liquid: the two readings of the scale by which every portion gets its share of both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.dish import Role
from ladleworth.divide.heaps import Heap
from ladleworth.divide.layers import is_in_sauce
from ladleworth.divide.making import PartMade
from ladleworth.divide.shares import GRAM_MG, deal_mass

LEAST_POURED_MG = 2 * GRAM_MG
"""Less liquid than this in a portion is not poured by the scale: rounding would eat it up."""


@dataclass(frozen=True, slots=True)
class Phases:
    """The two targets of each portion.

    Parameters
    ----------
    solids, liquid
        The parts that are lifted out first, and those that are poured over them.
    solids_mg
        What the scale shows of each portion with the solids in, in mg: they sum to all the solids.
    total_mg
        What it shows when the liquid is in as well: they sum to all of both.
    """

    solids: tuple[str, ...]
    liquid: tuple[str, ...]
    solids_mg: tuple[int, ...]
    total_mg: tuple[int, ...]


def phases_of(
    made: Sequence[PartMade], dealt: Sequence[tuple[Heap, tuple[int, ...]]], weights: Sequence[Fraction]
) -> Phases | None:
    """Say how solids and sauce are dealt out one after the other.

    Parameters
    ----------
    made
        The batch's parts.
    dealt
        Each heap with what each portion gets of it in mg; empty where nobody knows.
    weights
        How much each portion counts.

    Returns
    -------
    Phases or None
        Where a part is solids in sauce and another is the sauce. If they lie in one pot with others or by themselves,
        the pot's share is the second target, and the solids' the first. None if there is no such pair, or a weight
        of it is not known.
    """
    solids = {one.part for one in made if one.role is not Role.SAUCE and is_in_sauce(one)}
    liquid = {one.part for one in made if one.role is Role.SAUCE and not one.apart}
    mine = [(heap, shares) for heap, shares in dealt if (solids | liquid) & set(heap.parts)]
    if not solids or not liquid or not all(shares for _, shares in mine):
        return None
    firsts = [_solids(heap, shares, liquid, weights) for heap, shares in mine]
    known = [first for first in firsts if first is not None]
    if len(known) < len(firsts):
        return None
    in_them = [part for heap, _ in mine for part in heap.parts]
    return Phases(
        tuple(part for part in in_them if part not in liquid),
        tuple(part for part in in_them if part in liquid),
        _added(known, len(weights)),
        _added([shares for _, shares in mine], len(weights)),
    )


def _solids(
    heap: Heap, shares: tuple[int, ...], liquid: set[str], weights: Sequence[Fraction]
) -> tuple[int, ...] | None:
    """Give each portion's share of the solids of a heap; None if nobody can tell them from the liquid, or pour it."""
    if not liquid & set(heap.parts):
        return shares
    if liquid >= set(heap.parts):
        return (0,) * len(weights)
    masses = [mass for part, mass in heap.within if part not in liquid]
    if not masses or heap.total_mg is None:
        return None
    poured = heap.total_mg - sum(masses)
    if poured * min(weights) < LEAST_POURED_MG * sum(weights, Fraction(0)):
        return None
    return deal_mass(sum(masses), weights)


def _added(every: Sequence[tuple[int, ...]], portions: int) -> tuple[int, ...]:
    return tuple(sum(shares[at] for shares in every) for at in range(portions))
