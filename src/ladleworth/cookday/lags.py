"""Lags between starts, put together: the earliest and latest starts they leave, and lags that go round in a circle.

Nodes are numbers from 0. An edge says that one node starts no sooner than another start plus some minutes; a greatest
lag is an edge the other way round with the minutes negative. Nothing here knows what the nodes are, or any solver.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple


class Edge(NamedTuple):
    """start[second] >= start[first] + least."""

    first: int
    second: int
    least: int


@dataclass(frozen=True, slots=True)
class Circle:
    """Edges, by their places in the list and in order, that lead back to where they begin and ask for time to pass.

    Every start would have to be `excess` minutes later than itself, which no timetable can do.
    """

    edges: tuple[int, ...]
    excess: int


@dataclass(frozen=True, slots=True)
class Starts:
    """The earliest starts of all nodes, and for each the place of the edge that sets it (None: its own floor)."""

    at: tuple[int, ...]
    by: tuple[int | None, ...]

    def chain(self, node: int, edges: Sequence[Edge]) -> tuple[int, ...]:
        """Give the edges in order, by their places, that lead to the start of a node: why it is no earlier."""
        found: list[int] = []
        step = self.by[node]
        while step is not None:
            found.append(step)
            step = self.by[edges[step].first]
        return tuple(reversed(found))


def earliest(edges: Sequence[Edge], floors: Sequence[int]) -> Starts | Circle:
    """Find the earliest starts.

    Parameters
    ----------
    edges
        The lags; there may be several between the same nodes.
    floors
        For each node, in minutes: no start before.

    Returns
    -------
    Starts or Circle
        The least start of every node that keeps all edges and floors; or a circle of edges that rules any out.
    """
    at = list(floors)
    by: list[int | None] = [None] * len(at)
    out = _by_first(edges, len(at))
    moved = list(range(len(at)))
    for _ in range(len(at) + 1):
        if not moved:
            return Starts(tuple(at), tuple(by))
        further: dict[int, None] = {}
        for node in moved:
            for place, second, least in out[node]:
                if at[node] + least > at[second]:
                    at[second] = at[node] + least
                    by[second] = place
                    further[second] = None
        moved = list(further)
    return _circle(edges, by, moved[0])


def latest(edges: Sequence[Edge], ceilings: Sequence[int]) -> tuple[int, ...]:
    """Find the latest starts, given for each node the latest that it may start at all, in minutes.

    Raises
    ------
    ValueError
        If the edges hold a circle: `earliest` names it.
    """
    turned = earliest([Edge(e.second, e.first, e.least) for e in edges], [-top for top in ceilings])
    if isinstance(turned, Circle):
        raise ValueError("the lags go round in a circle; ask for the earliest starts first, which names it")
    return tuple(-start for start in turned.at)


def tightened(edges: Sequence[Edge]) -> tuple[Edge, ...]:
    """Keep of all edges between the same two nodes the one that asks most, in the order of their first."""
    most: dict[tuple[int, int], int] = {}
    for first, second, least in edges:
        known = most.get((first, second))
        most[first, second] = least if known is None else max(known, least)
    return tuple(Edge(first, second, least) for (first, second), least in most.items())


def longest_from(node: int, edges: Sequence[Edge], count: int) -> tuple[int | None, ...]:
    """Find how long after one node every other must start at least (None: nothing says so).

    The edges must hold no circle.
    """
    at: list[int | None] = [None] * count
    at[node] = 0
    out = _by_first(edges, count)
    moved = [node]
    while moved:
        further: dict[int, None] = {}
        for one in moved:
            here = at[one]
            assert here is not None
            for _, second, least in out[one]:
                known = at[second]
                if known is None or here + least > known:
                    at[second] = here + least
                    further[second] = None
        moved = list(further)
    return tuple(at)


def _by_first(edges: Sequence[Edge], count: int) -> list[list[tuple[int, int, int]]]:
    """Sort edges by the node that they lead from: (place in the list, second, least)."""
    out: list[list[tuple[int, int, int]]] = [[] for _ in range(count)]
    for place, (first, second, least) in enumerate(edges):
        out[first].append((place, second, least))
    return out


def _circle(edges: Sequence[Edge], by: Sequence[int | None], node: int) -> Circle:
    """Follow back the edges that set each start until a node comes up again; that they do is certain by now."""
    seen: set[int] = set()
    while node not in seen:
        seen.add(node)
        step = by[node]
        assert step is not None
        node = edges[step].first
    first, found = node, list[int]()
    while not found or node != first:
        step = by[node]
        assert step is not None
        found.append(step)
        node = edges[step].first
    places = tuple(reversed(found))
    lowest = min(range(len(places)), key=lambda at: places[at])
    places = places[lowest:] + places[:lowest]
    return Circle(places, sum(edges[place].least for place in places))
