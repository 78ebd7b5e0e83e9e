"""Why portions do not fit into the clean containers, and what would do, in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil

from ladleworth.divide.rooms import Filling
from ladleworth.facts.headspace import headspace
from ladleworth.household.rules import Container
from ladleworth.units import show_number, show_volume


def why_not(
    over: Iterable[tuple[int, bool]], sizes: Sequence[Container], filling: Filling
) -> tuple[str, ...]:
    """Say why portions have no container.

    Parameters
    ----------
    over
        What each of them fills in ml, and whether it is frozen.
    sizes
        The clean containers.
    filling
        How full they may be filled.

    Returns
    -------
    tuple of str
        A sentence for each volume, the largest first: that no container is large enough, or that too few are, with the
        number and the size of containers that would do.
    """
    counts = Counter(over)
    return tuple(
        _sentence(volume, counts[volume, frozen], sizes, filling, frozen=frozen)
        for volume, frozen in sorted(counts, key=lambda key: (-key[0], key[1]))
    )


def _sentence(
    volume_ml: int, number: int, sizes: Sequence[Container], filling: Filling, *, frozen: bool
) -> str:
    who = f"{number} portions need" if number > 1 else "a portion needs"
    way = "frozen" if frozen else "chilled"
    each = " each" if number > 1 else ""
    needs = f"{who} a container for {show_volume(volume_ml)}{each} ({way})"
    more = _more(volume_ml, number, filling, frozen=frozen)
    if not sizes:
        return f"{needs}, and no container is clean: {more}"
    largest = max(sizes, key=lambda size: (filling.room_ml(size, frozen=frozen), size.size_ml))
    room = filling.room_ml(largest, frozen=frozen)
    if room < volume_ml:
        told = (
            f"the largest clean container holds {show_volume(room)} ({_of(largest, filling, frozen=frozen)})"
        )
        return f"{told}; {needs}: {more}, or share it into two"
    there = sum(size.count for size in sizes if filling.room_ml(size, frozen=frozen) >= volume_ml)
    taken = f"all {there} that hold so much are" if there > 1 else "the only one that holds so much is"
    return f"{needs}, and {taken} taken: {more}"


def _more(volume_ml: int, number: int, filling: Filling, *, frozen: bool) -> str:
    """Say what further containers would do."""
    if filling.depth_limit_mm is not None:
        floor_cm2 = ceil(Fraction(volume_ml * 10, filling.depth_limit_mm))
        return f"{number} more with a floor of {floor_cm2} cm² or more would do, filled {filling.depth_limit_mm} mm deep"
    if frozen:
        gap = headspace(volume_ml)
        room = f"with {float(gap.value):.0f} mm free at the top ({gap.source}, {gap.basis})"
        return f"{number} more that hold{'s' if number == 1 else ''} {show_volume(volume_ml)} {room} would do"
    share = show_number(filling.headspace * 100, "decimal")
    brim = show_volume(filling.brim_ml(volume_ml))
    return f"{number} more of {brim} or larger would do ({share} % of it left empty)"


def _of(container: Container, filling: Filling, *, frozen: bool) -> str:
    """Say how a container's room comes about: '600 ml to the brim, 13 mm left at the top'."""
    told = [f"{show_volume(container.size_ml)} to the brim"]
    gap = filling.gap_mm(container, frozen=frozen)
    if gap is None or container.depth_mm is None:
        told.append(f"{show_number(filling.headspace * 100, 'decimal')} % left empty")
    elif filling.depth_limit_mm is not None and filling.depth_limit_mm < container.depth_mm - gap:
        told.append(f"filled {filling.depth_limit_mm} mm deep at the most")
    else:
        told.append(f"{float(gap):.0f} mm left at the top")
    return ", ".join(told)
