"""Lags put together: windows, and circles named in order, against reckoning done another way."""

from __future__ import annotations

import itertools
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ladleworth.cookday.lags import Circle, Edge, Starts, earliest, latest, longest_from, tightened

NODES = 5
EDGES = st.lists(
    st.builds(Edge, st.integers(0, NODES - 1), st.integers(0, NODES - 1), st.integers(-6, 6)), max_size=12
)
FLOORS = st.lists(st.integers(-5, 5), min_size=NODES, max_size=NODES)


def paths(edges: list[Edge]) -> list[list[int | None]]:
    """The longest path between every two nodes that meets no node twice, by trying all."""
    best: list[list[int | None]] = [[None] * NODES for _ in range(NODES)]
    weight: dict[tuple[int, int], int] = {}
    for first, second, least in edges:
        weight[first, second] = max(least, weight.get((first, second), least))
    for length in range(1, NODES + 1):
        for line in itertools.permutations(range(NODES), length):
            steps = list(itertools.pairwise(line))
            if all(step in weight for step in steps):
                total = sum(weight[step] for step in steps)
                known = best[line[0]][line[-1]]
                best[line[0]][line[-1]] = total if known is None else max(known, total)
    return best


def has_circle(edges: list[Edge]) -> bool:
    """Whether some round of edges asks for time to pass, by trying all rounds."""
    best = paths(edges)
    return any(
        least > 0 if first == second else (back := best[second][first]) is not None and least + back > 0
        for first, second, least in edges
    )


def test_without_edges_every_node_starts_at_its_floor() -> None:
    assert earliest([], [3, 0]) == Starts((3, 0), (None, None))
    assert latest([], [3, 0]) == (3, 0)


def test_a_chain_pushes_on_and_says_so() -> None:
    edges = [Edge(0, 1, 4), Edge(1, 2, 3), Edge(0, 2, 5)]
    starts = earliest(edges, [1, 0, 0])
    assert isinstance(starts, Starts)
    assert starts.at == (1, 5, 8)
    assert starts.chain(2, edges) == (0, 1)
    assert starts.chain(0, edges) == ()
    assert latest(edges, [20, 20, 20]) == (13, 17, 20)


def test_a_greatest_lag_holds_the_first_back() -> None:
    """1 starts at 9 at the earliest, and at most 2 after 0."""
    starts = earliest([Edge(0, 1, 0), Edge(1, 0, -2)], [0, 9])
    assert isinstance(starts, Starts)
    assert starts.at == (7, 9)


@pytest.mark.parametrize(
    ("edges", "circle"),
    [
        ([Edge(0, 0, 1)], Circle((0,), 1)),
        ([Edge(0, 1, 5), Edge(1, 0, -4)], Circle((0, 1), 1)),
        ([Edge(2, 0, 1), Edge(0, 1, 3), Edge(1, 2, -3)], Circle((0, 1, 2), 1)),
        ([Edge(1, 2, -3), Edge(2, 0, 1), Edge(0, 1, 3)], Circle((0, 1, 2), 1)),
        ([Edge(0, 1, 2), Edge(1, 2, 9), Edge(1, 0, -1)], Circle((0, 2), 1)),
    ],
)
def test_a_circle_is_named_in_order_from_its_first_edge(edges: list[Edge], circle: Circle) -> None:
    assert earliest(edges, [0, 0, 0]) == circle


@pytest.mark.parametrize("edges", [[Edge(0, 1, 5), Edge(1, 0, -5)], [Edge(0, 0, 0)], [Edge(0, 0, -3)]])
def test_a_round_that_asks_for_no_time_is_none(edges: list[Edge]) -> None:
    assert isinstance(earliest(edges, [0, 0]), Starts)


def test_the_latest_starts_refuse_a_circle() -> None:
    with pytest.raises(ValueError, match="circle"):
        latest([Edge(0, 1, 1), Edge(1, 0, 0)], [5, 5])


@given(EDGES, FLOORS)
def test_starts_and_circles_are_what_trying_all_paths_gives(edges: list[Edge], floors: list[int]) -> None:
    found = earliest(edges, floors)
    assert isinstance(found, Circle) == has_circle(edges)
    if isinstance(found, Circle):
        round_ = [edges[place] for place in found.edges]
        assert all(one.second == other.first for one, other in itertools.pairwise([*round_, round_[0]]))
        assert len({edge.first for edge in round_}) == len(round_)
        assert found.excess == sum(edge.least for edge in round_) > 0
        return
    best = paths(edges)
    for node in range(NODES):
        ways = [(floors[n], best[n][node]) for n in range(NODES)]
        assert found.at[node] == max(floor + way for floor, way in ways if way is not None)
        chain = [edges[place] for place in found.chain(node, edges)]
        begin = chain[0].first if chain else node
        assert floors[begin] + sum(edge.least for edge in chain) == found.at[node]
        assert longest_from(node, edges, NODES) == tuple(best[node])
    assert latest(edges, floors) == tuple(
        min(floors[n] - way for n in range(NODES) if (way := best[node][n]) is not None)
        for node in range(NODES)
    )


@given(EDGES, FLOORS)
def test_the_edge_that_asks_most_says_it_all(edges: list[Edge], floors: list[int]) -> None:
    few = tightened(edges)
    assert len({(edge.first, edge.second) for edge in few}) == len(few)
    all_of_them, those = earliest(edges, floors), earliest(few, floors)
    if isinstance(all_of_them, Starts):
        assert isinstance(those, Starts)
        assert those.at == all_of_them.at
    else:
        assert isinstance(those, Circle)


def test_a_circle_through_a_large_day_is_found() -> None:
    """130 nodes and 2000 edges; one more leads from the last start back to where its chain begins, 1 too many."""
    dice = random.Random(130)
    edges = [Edge(*sorted(dice.sample(range(130), 2)), dice.randint(0, 30)) for _ in range(2000)]
    starts = earliest(edges, [0] * 130)
    assert isinstance(starts, Starts)
    last = starts.at.index(max(starts.at))
    chain = starts.chain(last, edges)
    back = Edge(last, edges[chain[0]].first, 1 - max(starts.at))
    circle = earliest([*edges, back], [0] * 130)
    assert isinstance(circle, Circle)
    assert circle.excess == 1
    assert len(edges) in circle.edges
    assert isinstance(earliest([*edges, back._replace(least=-max(starts.at))], [0] * 130), Starts)
