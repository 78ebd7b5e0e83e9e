"""The order that a timetable gives to the work, and how the work runs when it keeps that order.

`orders` lists who waits for whom: the next thing for the same pair of hands, the same burner, place or shelf, the
oven at its heat, the washed tool. Whatever starts keep these and the least lags, however long the work takes, keep
every rule about people and things (a deadline and the greatest lags apart). `run_through` gives the earliest such
starts. What has begun is a fact; what the timetable gives 0 minutes never takes any, and has no place in the order but
that of its tools and of the oven.

A cook who is held up cannot know it beforehand: without foresight, nothing is held back for the sake of a later thing,
and a greatest lag may break. Waiting alone goes on (food stands longer, as long as it may) until whoever comes for it
has hands free. With foresight, the pace is known and things are held back so that the greatest lags hold too.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from ladleworth.cookday.answer import Timetable, Washed
from ladleworth.cookday.chains import Edge, Node, Wash, chain_units, follow, heat_edges, tool_edges
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.running import Course, Run, may_stretch
from ladleworth.cookday.verdict import (
    Piece,
    groups_of,
    merging_min,
    paced,
    pieces_of,
    shortest,
    wash_piece,
)

__all__ = [
    "Edge",
    "Node",
    "Run",
    "Wash",
    "course_of",
    "minutes_at",
    "node_of",
    "nodes_of",
    "orders",
    "retimed",
    "run_through",
]


def node_of(question: DayQuestion, timetable: Timetable) -> dict[str, str]:
    """Name the node of each activity: the first of the activities that are done in one go with it."""
    return {name: group[0] for _, group in groups_of(question, timetable.merged) for name in group}


def nodes_of(question: DayQuestion, timetable: Timetable) -> dict[Node, Piece]:
    """Read a timetable as nodes: pieces of work in the natural order, then washes by tool and start."""
    nodes: dict[Node, Piece] = {piece.members[0]: piece for piece in pieces_of(question, timetable)}
    return nodes | {node: wash_piece(wash) for node, wash in _washes(question, timetable).items()}


def _washes(question: DayQuestion, timetable: Timetable) -> dict[Wash, Washed]:
    kinds = [tool.name for tool in question.bench.tools]
    numbers: Counter[tuple[str, int]] = Counter()
    washes = {}
    for wash in sorted(timetable.washes, key=lambda w: (kinds.index(w.kind), w.which, w.start, w.end)):
        washes[Wash(wash.kind, wash.which, numbers[wash.kind, wash.which])] = wash
        numbers[wash.kind, wash.which] += 1
    return washes


def minutes_at(question: DayQuestion, timetable: Timetable, *, slow: bool) -> dict[Node, int]:
    """Whole minutes that each node takes at the stated or the slow pace; waiting: at the least."""
    wash_min = {tool.name: tool.wash_min for tool in question.bench.tools}
    of = {m.activities: m for m in question.mergings if m.name in timetable.merged}
    members = {name: m for m in of.values() for name in m.activities}
    minutes: dict[Node, int] = {}
    for node in nodes_of(question, timetable):
        if isinstance(node, Wash):
            minutes[node] = paced(question, wash_min[node.kind], slow=slow)
        elif node in members:
            minutes[node] = merging_min(question, members[node], slow=slow)
        else:
            minutes[node] = shortest(question, question.activity(node), slow=slow)
    return minutes


def orders(question: DayQuestion, timetable: Timetable) -> tuple[Edge, ...]:
    """List what waits for what in a timetable that keeps the rules, the lags of the question apart.

    Returns
    -------
    tuple of Edge
        Between nodes (`first` None: the start of the day), in no order that matters; minutes.
    """
    nodes, bench = nodes_of(question, timetable), question.bench
    firm = {
        node: piece
        for node, piece in nodes.items()
        if piece.start < piece.end or may_stretch(question, piece)
    }
    edges: list[Edge] = []
    for cook in range(bench.cooks):
        edges += follow([n for n, p in firm.items() if cook in p.cooks], firm, "the same hands")
    for room, what in (
        (bench.burners, "burners"),
        (bench.microwaves, "microwaves"),
        (bench.counter, "counter"),
        (bench.oven.shelves if bench.oven else 0, "shelves"),
    ):
        if room is not None:
            edges += chain_units(room, {n: getattr(p, what) for n, p in firm.items()}, firm, what)
    return (*edges, *heat_edges(question, timetable, nodes), *tool_edges(question, timetable, nodes))


def run_through(
    question: DayQuestion,
    timetable: Timetable,
    minutes: Mapping[Node, int],
    not_before: Mapping[Node, int] | None = None,
    *,
    foresight: bool = False,
) -> Run | None:
    """Start everything as early as the order of a timetable lets it.

    Parameters
    ----------
    question, timetable
        The question, and a timetable that keeps its rules at some pace: its order is kept, its times are not.
    minutes
        How long each node takes, waiting at the least (see `minutes_at`).
    not_before
        The minute before which a node does not start, where there is one. Without foresight it does all the same
        where a greatest lag would break for waiting: the sauce goes on the pasta now, whatever the clock says.
    foresight
        Hold things back so that the greatest lags hold too.

    Returns
    -------
    Run or None
        None if no starts keep the order and the lags asked for. What has begun stands as it is.
    """
    return course_of(question, timetable).run(minutes, not_before or {}, foresight=foresight)


def course_of(question: DayQuestion, timetable: Timetable) -> Course:
    """Read the order of a timetable once, to run through it many times."""
    return Course(question, nodes_of(question, timetable), orders(question, timetable))


def retimed(question: DayQuestion, timetable: Timetable, run: Run) -> Timetable:
    """Write a timetable anew with the times of a run through it: the same people, tools and heats."""
    at = node_of(question, timetable)
    washes = [
        replace(wash, start=run.starts[node], end=run.ends[node])
        for node, wash in _washes(question, timetable).items()
    ]
    return replace(
        timetable,
        times=tuple(
            replace(t, start=run.starts[at[t.activity]], end=run.ends[at[t.activity]])
            for t in timetable.times
        ),
        washes=tuple(sorted(washes, key=lambda wash: (wash.start, wash.kind, wash.which))),
    )
