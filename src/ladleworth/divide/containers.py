"""Which container each portion goes into: an exact choice that leaves the scarce sizes, and why there is none."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from ladleworth.divide.fit_words import why_not
from ladleworth.divide.rooms import Filling, food_depth_mm
from ladleworth.household.rules import Container


@dataclass(frozen=True, slots=True)
class ToFill:
    """A portion that needs a container: its place among the portions, what it fills in ml, and whether it is frozen."""

    portion: int
    volume_ml: int
    frozen: bool


@dataclass(frozen=True, slots=True)
class Filled:
    """A portion in its container: what it fills and may fill, in ml; `depth_mm` is how deep the food stands."""

    portion: int
    container: Container
    volume_ml: int
    room_ml: int
    depth_mm: Fraction | None


@dataclass(frozen=True, slots=True)
class Fit:
    """Which portion goes into which container.

    Parameters
    ----------
    filled
        By portion. A portion that fits into none is not among them.
    left
        The clean containers that stay, by size.
    emptied
        Sizes in ml of which none is left clean.
    unfilled
        Portions without a container.
    reasons
        Why, in words; empty where every portion has one.
    """

    filled: tuple[Filled, ...]
    left: tuple[Container, ...]
    emptied: tuple[int, ...] = ()
    unfilled: tuple[int, ...] = ()
    reasons: tuple[str, ...] = ()


def choose(to_fill: Iterable[ToFill], clean: Iterable[Container], filling: Filling) -> Fit:
    """Choose a container for each portion.

    Parameters
    ----------
    to_fill
        The portions.
    clean
        The containers that are clean, by size.
    filling
        How full and how deep they may be filled.

    Returns
    -------
    Fit
        If all fit: of the choices that use up the fewest sizes (so that one of each is left clean where that can be), one
        whose containers are the smallest in all; the larger portions of a kind lie in the larger ones. If not all fit:
        the largest portions that can be placed are, and the reasons say what would do.
    """
    wanted = sorted(to_fill, key=lambda one: (-one.volume_ml, one.frozen, one.portion))
    sizes = _merged(clean)
    taken = _cheapest(wanted, sizes, filling)
    if taken is not None:
        return _fit(wanted, taken, sizes, filling)
    placed = _most(wanted, sizes, filling)
    seated = [one for one in wanted if one.portion in placed]
    best = _cheapest(seated, sizes, filling)
    assert best is not None
    fit = _fit(seated, best, sizes, filling)
    over = [one for one in wanted if one.portion not in placed]
    reasons = why_not([(one.volume_ml, one.frozen) for one in over], sizes, filling)
    unfilled = tuple(sorted(one.portion for one in over))
    return Fit(fit.filled, fit.left, fit.emptied, unfilled, reasons)


def _merged(clean: Iterable[Container]) -> tuple[Container, ...]:
    """Put containers of one kind together, the smallest first; kinds of which there is none are left out."""
    counts: Counter[tuple[int, int | None]] = Counter()
    for one in clean:
        counts[one.size_ml, one.depth_mm] += one.count
    kinds = sorted((kind for kind in counts if counts[kind]), key=lambda kind: (kind[0], kind[1] or 0))
    return tuple(Container(size, counts[size, depth], depth) for size, depth in kinds)


def _cheapest(
    wanted: Sequence[ToFill], sizes: Sequence[Container], filling: Filling
) -> dict[int, int] | None:
    """Pair each portion with a size (its place in `sizes`): fewest sizes used up, then the smallest; None if not all fit.

    Which sizes may be used up is tried from none to all. For each choice the containers are taken smallest first, each
    if the portions can still be matched with it: sets of containers that can be matched form a matroid, so that
    this gives the least sum of sizes there is.
    """
    fits = [[at for at, one in enumerate(wanted) if _holds(size, one, filling)] for size in sizes]
    for number in range(len(sizes) + 1):
        best: dict[int, int] | None = None
        for used_up in combinations(range(len(sizes)), number):
            most = [size.count - (at not in used_up) for at, size in enumerate(sizes)]
            found = _matched(fits, most, len(wanted))
            if found is not None and (best is None or _ml(found, sizes) < _ml(best, sizes)):
                best = found
        if best is not None:
            return {wanted[at].portion: size for at, size in best.items()}
    return None


def _holds(size: Container, one: ToFill, filling: Filling) -> bool:
    return filling.room_ml(size, frozen=one.frozen) >= one.volume_ml


def _ml(found: dict[int, int], sizes: Sequence[Container]) -> int:
    return sum(sizes[size].size_ml for size in found.values())


def _matched(fits: Sequence[Sequence[int]], most: Sequence[int], portions: int) -> dict[int, int] | None:
    """Match every portion with a container, the smallest first; `fits` lists by size which portions it holds."""
    size_of: dict[int, int] = {}

    def seat(size: int, seen: set[int]) -> bool:
        """Give one more container of a size a portion; one that has a container already may get another."""
        seen.add(size)
        for portion in fits[size]:
            if portion not in size_of:
                size_of[portion] = size
                return True
        for portion in fits[size]:
            other = size_of[portion]
            if other not in seen and seat(other, seen):
                size_of[portion] = size
                return True
        return False

    for size, limit in enumerate(most):
        for _ in range(limit):
            if len(size_of) == portions or not seat(size, set()):
                break
    return size_of if len(size_of) == portions else None


def _most(wanted: Sequence[ToFill], sizes: Sequence[Container], filling: Filling) -> frozenset[int]:
    """Name the portions that can be placed, the largest first: as many as can be, and the largest of them."""
    held: list[list[int]] = [[] for _ in sizes]

    def seat(at: int, seen: set[int]) -> bool:
        for place, size in enumerate(sizes):
            if place in seen or not _holds(size, wanted[at], filling):
                continue
            seen.add(place)
            if len(held[place]) < size.count:
                held[place].append(at)
                return True
            for other in held[place]:
                if seat(other, seen):
                    held[place][held[place].index(other)] = at
                    return True
        return False

    return frozenset(wanted[at].portion for at in range(len(wanted)) if seat(at, set()))


def _fit(
    wanted: Sequence[ToFill], taken: dict[int, int], sizes: Sequence[Container], filling: Filling
) -> Fit:
    """Lay the portions into the containers taken, of the chilled and of the frozen ones the larger in the larger."""
    filled = []
    for frozen in (False, True):
        mine = [one for one in wanted if one.frozen is frozen]
        rooms = sorted(
            (sizes[taken[one.portion]] for one in mine),
            key=lambda size: (-filling.room_ml(size, frozen=frozen), -size.size_ml),
        )
        for one, size in zip(mine, rooms, strict=True):
            alone = Container(size.size_ml, 1, size.depth_mm)
            room = filling.room_ml(size, frozen=frozen)
            depth = food_depth_mm(size, one.volume_ml)
            filled.append(Filled(one.portion, alone, one.volume_ml, room, depth))
    used = Counter(taken.values())
    left = (
        Container(size.size_ml, size.count - used[at], size.depth_mm)
        for at, size in enumerate(sizes)
        if size.count > used[at]
    )
    emptied = tuple(size.size_ml for at, size in enumerate(sizes) if size.count == used[at])
    return Fit(tuple(sorted(filled, key=lambda one: one.portion)), tuple(left), emptied)
