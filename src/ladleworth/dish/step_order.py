"""Which steps of a dish follow which: as written, or by the order in which they stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol

Edges = tuple[frozenset[int], ...]
"""For each step the positions of those that it follows."""


class Ordered(Protocol):
    """What decides the order of a step, as written or ready to plan with."""

    @property
    def name(self) -> str:
        """Its short name, '' for none."""

    @property
    def part(self) -> str:
        """The part that it makes, '' for none."""

    @property
    def after(self) -> tuple[str, ...] | None:
        """Names of the steps that it follows; None: by the order in which the steps stand."""

    @property
    def day_before(self) -> bool:
        """Whether it is done the day before."""


def followed(steps: Sequence[Ordered]) -> Edges:
    """Tell which steps each step follows.

    Parameters
    ----------
    steps
        All steps of a dish, as they stand.

    Returns
    -------
    tuple of frozenset of int
        What `after` names, names that no step bears left out. Without `after`: for a step of a part the part's step
        before it and the last step without a part before it; for a step without a part everything before it. The
        day before and the day itself are then counted apart.
    """
    at = {step.name.casefold(): position for position, step in enumerate(steps) if step.name}
    found = []
    for position, step in enumerate(steps):
        if step.after is not None:
            found.append(frozenset(at[name.casefold()] for name in step.after if name.casefold() in at))
            continue
        earlier = [j for j in range(position) if steps[j].day_before == step.day_before]
        if step.part:
            same = [j for j in earlier if steps[j].part.casefold() == step.part.casefold()]
            whole = [j for j in earlier if not steps[j].part]
            earlier = same[-1:] + whole[-1:]
        found.append(frozenset(earlier))
    return tuple(found)


def cycle_in(edges: Edges) -> tuple[int, ...]:
    """Find steps that follow one another in a circle, each followed by the next; empty if there are none."""
    done: set[int] = set()
    for start in range(len(edges)):
        path, open_ends = [start], [sorted(edges[start])]
        while path:
            if not open_ends[-1]:
                done.add(path.pop())
                open_ends.pop()
                continue
            step = open_ends[-1].pop(0)
            if step in path:
                return tuple(reversed(path[path.index(step) :]))
            if step not in done:
                path.append(step)
                open_ends.append(sorted(edges[step]))
    return ()


def without(edges: Edges, left_out: Iterable[int]) -> Edges:
    """Leave steps out: whoever followed one of them follows what it followed. The edges must hold no circle."""
    gone = frozenset(left_out)
    kept: list[frozenset[int]] = [frozenset()] * len(edges)
    for step in sorted_by_order(edges):
        straight = edges[step] - gone
        kept[step] = straight.union(*(kept[out] for out in edges[step] & gone))
    return tuple(frozenset() if step in gone else kept[step] for step in range(len(edges)))


def nearest_only(edges: Edges) -> Edges:
    """Leave out what a step follows already because something else that it follows does."""
    far = all_followed(edges)
    return tuple(
        frozenset(j for j in befores if not any(j in far[other] for other in befores)) for befores in edges
    )


def all_followed(edges: Edges) -> Edges:
    """Tell for each step everything that it follows, near or far."""
    far: list[frozenset[int]] = [frozenset()] * len(edges)
    for step in sorted_by_order(edges):
        far[step] = edges[step].union(*(far[j] for j in edges[step]))
    return tuple(far)


def sorted_by_order(edges: Edges) -> tuple[int, ...]:
    """List the steps so that each stands after all that it follows, as far as they stand already otherwise."""
    listed: list[int] = []
    waiting = list(range(len(edges)))
    while waiting:
        step = next(step for step in waiting if edges[step] <= set(listed))
        listed.append(step)
        waiting.remove(step)
    return tuple(listed)
