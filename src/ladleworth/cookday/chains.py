"""Who waits for whom in a timetable: the next thing on the same hands, burner, shelf or tool, and the oven's heat.

What has begun is a fact and waits for nothing; what comes next waits for all of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, pairwise

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.holdings import Holding, gaps_to_wash, holdings_of
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import Piece, groups_of, tool_words


@dataclass(frozen=True, slots=True)
class Wash:
    """The node of a wash: the `number`-th (0, 1, ...) of the which-th tool of a kind."""

    kind: str
    which: int
    number: int


Node = str | Wash
"""A piece of work: the first of the activities done in one go, or a wash."""


@dataclass(frozen=True, slots=True)
class Edge:
    """`second` starts (or ends) no earlier than `least` minutes after `first` ends (or starts).

    `first` None is the start of the day, minute 0. `why` says what they share.
    """

    first: Node | None
    second: Node
    least: int = 0
    first_end: bool = True
    second_end: bool = False
    why: str = ""


def follow(nodes: Iterable[Node], pieces: Mapping[Node, Piece], why: str) -> Iterator[Edge]:
    """Yield the edges that keep one thing after the other, in the order in which they start."""
    line = sorted(nodes, key=lambda node: (pieces[node].start, pieces[node].end))
    begun = [node for node in line if pieces[node].begun]
    later = [node for node in line if not pieces[node].begun]
    yield from (Edge(first, second, why=why) for first, second in pairwise(later))
    yield from (Edge(first, second, why=why) for first in begun for second in later[:1])


def chain_units(
    room: int, takes: Mapping[Node, int], pieces: Mapping[Node, Piece], why: str
) -> Iterator[Edge]:
    """Hand out the units of something (burners, places) and yield what follows what on each of them.

    A thing takes the units that have been free the longest. Waiting that a timetable makes 0 minutes long takes
    one only if there is one.
    """
    units: list[list[Node]] = [[] for _ in range(room)]
    free_from = [0] * room
    for node in sorted(takes, key=lambda node: (pieces[node].start, pieces[node].end)):
        piece = pieces[node]
        by_end = sorted(range(room), key=free_from.__getitem__)[: takes[node]]
        if piece.start == piece.end and any(free_from[unit] > piece.start for unit in by_end):
            continue
        for unit in by_end:
            units[unit].append(node)
            free_from[unit] = max(free_from[unit], piece.end)
    edges = {edge: None for unit in units for edge in follow(unit, pieces, why)}
    yield from edges


def heat_edges(question: DayQuestion, timetable: Timetable, pieces: Mapping[Node, Piece]) -> Iterator[Edge]:
    """Yield the minutes that the oven takes to its first heat, and from one to another."""
    oven = question.bench.oven
    if oven is None:
        return
    heats = {h.activity: h.heat_c for h in timetable.oven}
    loads: dict[Node, int] = {}
    for _, group in groups_of(question, timetable.merged):
        loads.update((group[0], heats[name]) for name in group if name in heats)
    for node, heat in loads.items():
        yield Edge(None, node, oven.change_min(oven.start_c, heat), why="heating the oven")
    line = sorted(loads, key=lambda node: (pieces[node].end, pieces[node].start))
    for before, after in combinations(line, 2):
        if loads[before] != loads[after] and not pieces[after].begun:
            yield Edge(before, after, oven.change_min(loads[before], loads[after]), why="the oven's heat")


def tool_edges(question: DayQuestion, timetable: Timetable, pieces: Mapping[Node, Piece]) -> Iterator[Edge]:
    """Yield what waits for a tool: the next use, and the wash between."""
    nodes = {name: node for node, piece in pieces.items() for name in piece.members}
    for (kind, which), holdings in holdings_of(question, timetable).items():
        why = tool_words(kind, which)
        held = [
            tuple(dict.fromkeys(nodes[name] for use in holding.uses for name in use.activities))
            for holding in holdings
        ]
        numbers = {later: n for n, (_, later) in enumerate(gaps_to_wash(holdings))}
        for n, later in enumerate(holdings):
            first = tuple(node for before in _before(holdings, n) for node in held[before])
            if later in numbers:
                wash = (Wash(kind, which, numbers[later]),)
                yield from _all_after(first, wash, why)
                first = wash
            yield from _all_after(first, held[n], why)


def _before(holdings: list[Holding], n: int) -> list[int]:
    """Which holdings the n-th waits for: the one before, and all that have begun before the first that has not."""
    if not n or holdings[n].begun:
        return []
    begun = [k for k in range(n - 1) if holdings[k].begun] if holdings[n - 1].begun else []
    return [*begun, n - 1]


def _all_after(first: tuple[Node, ...], second: tuple[Node, ...], why: str) -> Iterator[Edge]:
    yield from (Edge(one, other, why=why) for one in first for other in second)
