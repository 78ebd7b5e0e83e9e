"""Why a day takes as long as it does: the chain of work that its finish hangs on, and what one thing more would save."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ladleworth.cookday.answer import DayAnswer, Timetable
from ladleworth.cookday.deciding import least_finish
from ladleworth.cookday.moments import moments_of
from ladleworth.cookday.orders import Edge, Node, Wash, minutes_at, node_of, nodes_of, orders
from ladleworth.cookday.question import DayQuestion, ToolKind
from ladleworth.cookday.verdict import Piece

SAVING_SECONDS = 2.0
"""No more seconds than this go into each thing more."""


@dataclass(frozen=True, slots=True)
class Link:
    """A piece of the chain: what runs from `start` to `end` (minutes), and what it waited for.

    `activities` are those done in one go; empty for a wash, of which `wash` names the tool. `waited_for` says what tied it to
    the link before: a lag in words, or what they share ('the same hands', 'burners', a tool); empty for the first.
    `gap` is how many minutes lie between (a least wait, heating the oven).
    """

    activities: tuple[str, ...]
    wash: str
    start: int
    end: int
    waited_for: str
    gap: int = 0


_Moment = tuple[Node | None, bool]
"""The start (False) or the end (True) of a piece of work; of None: the start of the day."""


@dataclass(frozen=True, slots=True)
class _Tie:
    """One moment is at least so many minutes after another, and why."""

    first: _Moment
    second: _Moment
    least: int
    why: str


def critical_chain(question: DayQuestion, timetable: Timetable, *, slow: bool) -> tuple[Link, ...]:
    """Walk back from the last thing done to what it waited for, as far as nothing could have begun earlier.

    Parameters
    ----------
    question, timetable
        The question, and a timetable that keeps its rules.
    slow
        The pace of the timetable.

    Returns
    -------
    tuple of Link
        In the order of time. The first began at the start of the day, or when the day was planned anew, or waited for
        nothing. Nothing on it can take longer without the order or the finish giving way.
    """
    pieces = nodes_of(question, timetable)
    if not pieces:
        return ()
    minutes = minutes_at(question, timetable, slow=slow)
    # the end of what waits longer than it has to holds nothing up
    idle = {(node, True) for node, piece in pieces.items() if piece.end - piece.start > minutes[node]}
    ties = tuple(tie for tie in _ties(question, timetable, slow=slow) if tie.first not in idle)
    last = max(pieces, key=lambda node: (pieces[node].end, pieces[node].start))
    links: list[Link] = []
    seen: set[Node] = set()
    here: Node | None = last
    while here is not None and here not in seen:
        seen.add(here)
        begins = pieces[here].begun or pieces[here].start <= question.now
        tie = None if begins else _tight(here, pieces, ties, seen)
        links.append(_link(here, pieces, tie))
        here = None if tie is None else tie.first[0]
    return tuple(reversed(links))


def _ties(question: DayQuestion, timetable: Timetable, *, slow: bool) -> Iterator[_Tie]:
    for edge in orders(question, timetable):
        yield _of_order(edge)
    moments, nodes = moments_of(question, slow=slow), node_of(question, timetable)
    names = {moments.at(name, end=end): (node, end) for name, node in nodes.items() for end in (False, True)}
    for tie in moments.ties:
        if tie.lag is not None and tie.edge.first and tie.edge.second:
            yield _Tie(names[tie.edge.first], names[tie.edge.second], tie.edge.least, tie.words)


def _of_order(edge: Edge) -> _Tie:
    return _Tie((edge.first, edge.first_end), (edge.second, edge.second_end), edge.least, edge.why)


def _tight(here: Node, pieces: dict[Node, Piece], ties: tuple[_Tie, ...], seen: set[Node]) -> _Tie | None:
    """Find what holds a piece of work where it is: the latest of what it waited for, a thing shared before a lag."""

    def at(moment: _Moment) -> int:
        node, end = moment
        if node is None:
            return 0
        return pieces[node].end if end else pieces[node].start

    holding = [
        tie
        for tie in ties
        if tie.second[0] == here
        and tie.first[0] not in seen
        and tie.first[0] != here
        and at(tie.second) == at(tie.first) + tie.least
    ]
    holding.sort(key=lambda tie: (tie.least < 0, tie.second[1], -at(tie.first), str(tie.first[0]), tie.why))
    return holding[0] if holding else None


def _link(here: Node, pieces: dict[Node, Piece], tie: _Tie | None) -> Link:
    piece = pieces[here]
    wash = f"{here.kind} {here.which + 1}" if isinstance(here, Wash) else ""
    members = () if isinstance(here, Wash) else piece.members
    if tie is None:
        return Link(members, wash, piece.start, piece.end, "")
    return Link(members, wash, piece.start, piece.end, tie.why, max(0, tie.least))


@dataclass(frozen=True, slots=True)
class Saving:
    """With one thing more the day would be done at least `least` minutes sooner, and no more than `most`.

    Both are against the promised finish; the first is from a timetable that was found, the second is proven.
    """

    words: str
    least: int
    most: int


def savings(question: DayQuestion, answer: DayAnswer, seconds: float = SAVING_SECONDS) -> tuple[Saving, ...]:
    """Say what one more cook, burner, oven shelf, tool or place on the counter would save, each by itself.

    Parameters
    ----------
    question, answer
        The question, and its answer with a timetable.
    seconds
        The most for each thing.

    Returns
    -------
    tuple of Saving
        The most useful first; things of which one more makes no difference for certain are left out.
    """
    if answer.measure is None:
        return ()
    finish, found = answer.measure.finish, []
    for words, more in _one_more(question):
        sought = least_finish(more, seconds=seconds, seed=answer.seed)
        reached = finish if sought.known is None else min(finish, sought.known)
        most = finish - min(reached, sought.lower)
        if most:
            found.append(Saving(words, finish - reached, most))
    return tuple(sorted(found, key=lambda saving: (-saving.least, -saving.most, saving.words)))


def _one_more(question: DayQuestion) -> Iterator[tuple[str, DayQuestion]]:
    bench = question.bench
    if any(a.hands for a in question.activities):
        yield "a second cook" if bench.cooks == 1 else "one more cook", _with(question, cooks=bench.cooks + 1)
    if any(a.burners for a in question.activities):
        yield "one more burner", _with(question, burners=bench.burners + 1)
    if bench.oven is not None and any(a.oven for a in question.activities):
        more = replace(bench.oven, shelves=bench.oven.shelves + 1)
        yield "one more oven shelf", _with(question, oven=more)
    if any(a.microwaves for a in question.activities):
        yield "one more microwave", _with(question, microwaves=bench.microwaves + 1)
    if bench.counter is not None and any(a.counter for a in question.activities):
        yield "one more place on the counter", _with(question, counter=bench.counter + 1)
    for tool in bench.tools:
        if sum(use.kind == tool.name for use in question.uses) > tool.count:
            yield f"one more {tool.name}", _with(question, tools=_more(bench.tools, tool.name))


def _more(tools: tuple[ToolKind, ...], kind: str) -> tuple[ToolKind, ...]:
    return tuple(replace(tool, count=tool.count + 1) if tool.name == kind else tool for tool in tools)


def _with(question: DayQuestion, **changes: object) -> DayQuestion:
    return replace(question, bench=replace(question.bench, **changes))  # type: ignore[arg-type]
