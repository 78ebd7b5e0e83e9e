"""What ties the moments of a timetable once its order is fixed: lengths, lags, and who waits for whom.

The n-th piece of work (an activity, a merging, a wash) starts at moment 2 n + 1 and ends at moment 2 n + 2; moment 0 is
the start of the day.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.happened import asks_least, asks_most, fact_at
from ladleworth.cookday.lags import Edge
from ladleworth.cookday.orders import Node, minutes_at, nodes_of, orders
from ladleworth.cookday.question import DayQuestion, Lag
from ladleworth.cookday.running import may_stretch
from ladleworth.cookday.verdict import Piece, longest


class Sort(Enum):
    """Why one moment waits for another."""

    TAKES = "it takes its minutes"
    LAG = "a least lag"
    WINDOW = "a greatest lag, so that nothing waits too long"
    ORDER = "something that both need"
    FACT = "what has happened, and now"


@dataclass(frozen=True, slots=True)
class Bond:
    """Moment `second` is at least `least` minutes after moment `first`.

    `what` names the thing that both need, for ORDER; `lag` is the lag, for LAG and WINDOW.
    """

    first: int
    second: int
    least: int
    sort: Sort
    what: str = ""
    lag: Lag | None = None

    @property
    def edge(self) -> Edge:
        """The bond without its reason."""
        return Edge(self.first, self.second, self.least)


class Bonds:
    """The bonds of a timetable at one pace."""

    def __init__(self, question: DayQuestion, timetable: Timetable, *, slow: bool) -> None:
        self.question = question
        self.pieces: Mapping[Node, Piece] = nodes_of(question, timetable)
        self.number = {node: n for n, node in enumerate(self.pieces)}
        self.node_of = {name: node for node, piece in self.pieces.items() for name in piece.members}
        minutes = minutes_at(question, timetable, slow=slow)
        self.all: tuple[Bond, ...] = (
            *(bond for node in self.pieces for bond in self._lengths(node, minutes[node], slow=slow)),
            *(bond for lag in question.lags for bond in self._lag(lag)),
            *self._orders(timetable),
        )

    def at(self, node: Node, *, end: bool) -> int:
        """Number a moment."""
        return 2 * self.number[node] + (2 if end else 1)

    def count(self) -> int:
        """Count the moments."""
        return 2 * len(self.pieces) + 1

    def _lengths(self, node: Node, least: int, *, slow: bool) -> Iterator[Bond]:
        """When it may start and how long it takes, or when it did."""
        question, piece = self.question, self.pieces[node]
        start, end = self.at(node, end=False), self.at(node, end=True)
        most = least
        if may_stretch(question, piece):
            most = longest(question, question.activity(piece.members[0]), slow=slow)
        began, ended = (_fact(question, piece, end=each) for each in (False, True))
        if began is None:
            yield Bond(0, start, max(0, question.now), Sort.FACT)
            yield Bond(start, end, least, Sort.TAKES)
            yield Bond(end, start, -most, Sort.WINDOW)
            return
        first, last = max(question.now, began + least), max(question.now, began + most)
        if ended is not None:
            first = last = ended
        for moment, low, high in ((start, began, began), (end, first, last)):
            yield Bond(0, moment, low, Sort.FACT)
            yield Bond(moment, 0, -high, Sort.FACT)

    def _lag(self, lag: Lag) -> Iterator[Bond]:
        first = self.at(self.node_of[lag.first], end=lag.first_end)
        second = self.at(self.node_of[lag.second], end=lag.second_end)
        if asks_least(self.question, lag):
            yield Bond(first, second, lag.least, Sort.LAG, lag=lag)
        if lag.most is not None and asks_most(self.question, lag):
            yield Bond(second, first, -lag.most, Sort.WINDOW, lag=lag)

    def _orders(self, timetable: Timetable) -> Iterator[Bond]:
        for edge in orders(self.question, timetable):
            if self.pieces[edge.second].begun:  # a fact waits for nothing
                continue
            first = 0 if edge.first is None else self.at(edge.first, end=edge.first_end)
            yield Bond(first, self.at(edge.second, end=edge.second_end), edge.least, Sort.ORDER, edge.why)


def _fact(question: DayQuestion, piece: Piece, *, end: bool) -> int | None:
    for name in piece.members:
        minute = fact_at(question, name, end=end)
        if minute is not None:
            return minute
    return None
