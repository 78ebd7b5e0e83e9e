"""How work runs that keeps the order of a timetable, once it takes longer or shorter than was planned."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ladleworth.cookday.chains import Edge, Node
from ladleworth.cookday.happened import asks_least, asks_most, fact_at
from ladleworth.cookday.question import DayQuestion, Lag
from ladleworth.cookday.verdict import Piece


@dataclass(frozen=True, slots=True)
class Run:
    """How the work runs: when each node starts and ends, and which lags that does not keep."""

    starts: Mapping[Node, int]
    ends: Mapping[Node, int]
    broken: tuple[Lag, ...]


class Course:
    """The order of a timetable, read once so that it can be run through many times (see `orders.py`).

    Every node has two moments, its start and its end, as places 2 n and 2 n + 1 of one list of minutes.
    """

    def __init__(self, question: DayQuestion, pieces: Mapping[Node, Piece], edges: Iterable[Edge]) -> None:
        edges = tuple(edges)
        self.question, self.pieces = question, pieces
        self.place = {node: n for n, node in enumerate(self.pieces)}
        self.at = {name: n for n, piece in enumerate(self.pieces.values()) for name in piece.members}
        self.open = [may_stretch(question, piece) for piece in self.pieces.values()]
        self.fixed = [_facts(question, piece) for piece in self.pieces.values()]
        self.least = tuple(lag for lag in question.lags if asks_least(question, lag))
        self.soonest = {e.second: e.least for e in edges if e.first is None}
        self.waits = self._in_order(
            *((*self._moments(lag), lag.least) for lag in self.least),
            *(
                (2 * self.place[e.first] + e.first_end, 2 * self.place[e.second] + e.second_end, e.least)
                for e in edges
                if e.first is not None
            ),
        )
        self.greatest = {
            lag: (*self._moments(lag), lag.most)
            for lag in question.lags
            if lag.most is not None and asks_most(question, lag)
        }

        self.windows: dict[Node, list[tuple[int, int, bool]]] = {}
        for lag, (first, second, most) in self.greatest.items():
            node = list(self.pieces)[second // 2]
            self.windows.setdefault(node, []).append((first, most, lag.second_end))

    def _moments(self, lag: Lag) -> tuple[int, int]:
        return 2 * self.at[lag.first] + lag.first_end, 2 * self.at[lag.second] + lag.second_end

    def _in_order(self, *waits: tuple[int, int, int]) -> list[tuple[int, int, int]]:
        """Sort by when the first moment is in the timetable, so that one pass nearly settles everything."""
        planned = [minute for piece in self.pieces.values() for minute in (piece.start, piece.end)]
        return sorted(set(waits), key=lambda wait: (planned[wait[0]], planned[wait[1]], wait))

    def run(
        self, minutes: Mapping[Node, int], not_before: Mapping[Node, int], *, foresight: bool = False
    ) -> Run | None:
        """Run through it once (see `run_through`)."""
        windows = {} if foresight else self.windows
        clock = _Clock(self, minutes, {n: m for n, m in not_before.items() if n not in windows})
        floors = [
            (self.place[node], minute, windows[node])
            for node, minute in not_before.items()
            if node in windows
        ]
        pulls = [
            (second, first, -most)
            for first, second, most in self.greatest.values()
            if foresight or (first % 2 and self.open[first // 2])
        ]
        while clock.moved:
            clock.moved = False
            for n, minute, closing in floors:
                clock.lift(2 * n, clock.before_it_closes(n, minute, closing))
            for first, second, least in self.waits:
                if clock.minutes[first] + least > clock.minutes[second]:
                    clock.lift(second, clock.minutes[first] + least)
            for second, first, least in pulls:
                if clock.minutes[second] + least > clock.minutes[first]:
                    clock.lift(first, clock.minutes[second] + least, only_stretch=not foresight)
            if max(clock.minutes, default=0) > clock.ceiling:
                return None
        run = self._told(clock.minutes)
        return None if foresight and run.broken else run

    def _told(self, at: list[int]) -> Run:
        def gap(lag: Lag) -> int:
            first, second = self._moments(lag)
            return at[second] - at[first]

        early = {lag for lag in self.least if gap(lag) < lag.least}
        late = {lag for lag, (_, _, most) in self.greatest.items() if gap(lag) > most}
        broken = tuple(lag for lag in self.question.lags if lag in early or lag in late)
        starts = {node: at[2 * n] for node, n in self.place.items()}
        return Run(starts, {node: at[2 * n + 1] for node, n in self.place.items()}, broken)


class _Clock:
    """The minute of every moment, which only ever moves later."""

    def __init__(self, course: Course, minutes: Mapping[Node, int], not_before: Mapping[Node, int]) -> None:
        question = course.question
        self.now, self.fixed = question.now, course.fixed
        self.minutes: list[int] = []
        self.longest: list[int] = []
        self.length = [minutes[node] for node in course.pieces]
        self.open = course.open
        self.moved = True
        for n, (node, piece) in enumerate(course.pieces.items()):
            start, end = self.fixed[n]
            soonest = max(not_before.get(node, 0), course.soonest.get(node, 0), question.now)
            begin = soonest if start is None else start
            done = begin + self.length[n] if end is None else end
            if start is not None and end is None:
                done = max(done, question.now)
            most = question.activity(piece.members[0]).most_min if self.open[n] else self.length[n]
            self.minutes += [begin, done]
            self.longest.append(most)
        # No chain of reasons goes through a thing twice, so nothing can be pushed further than this.
        self.ceiling = (
            max(self.minutes, default=0)
            + sum(self.longest)
            + sum(max(0, least) for _, _, least in course.waits)
        )

    def before_it_closes(self, n: int, minute: int, windows: Iterable[tuple[int, int, bool]]) -> int:
        """Give the minute on the clock, or an earlier one by which a window closes that is open already."""
        return min(
            minute,
            *(
                self._at_the_latest(first) + most - (self.length[n] if end else 0)
                for first, most, end in windows
            ),
        )

    def _at_the_latest(self, moment: int) -> int:
        """When a moment comes, or how far the waiting that it ends may stretch."""
        n, at_end = divmod(moment, 2)
        if not at_end or not self.open[n] or self.fixed[n][1] is not None:
            return self.minutes[moment]
        return max(self.minutes[moment], self.minutes[2 * n] + self.longest[n])

    def lift(self, moment: int, minute: int, *, only_stretch: bool = False) -> None:
        """Move a moment to a later minute, as far as it can be moved: what has begun cannot."""
        n, at_end = divmod(moment, 2)
        start, end = self.fixed[n]
        if not at_end or not self.open[n]:
            if start is None:
                self._start(n, minute - self.length[n] if at_end else minute)
        elif end is None:
            if start is None and not only_stretch:
                self._start(n, minute - self.longest[n])
            minute = min(minute, max(self.minutes[2 * n] + self.longest[n], self.now))
            if minute > self.minutes[moment]:
                self.minutes[moment], self.moved = minute, True

    def _start(self, n: int, minute: int) -> None:
        if minute > self.minutes[2 * n]:
            self.minutes[2 * n], self.moved = minute, True
            self.minutes[2 * n + 1] = max(self.minutes[2 * n + 1], minute + self.length[n])


def _facts(question: DayQuestion, piece: Piece) -> tuple[int | None, int | None]:
    """When a piece of work has started and ended, None where it has not."""
    for name in piece.members:
        start = fact_at(question, name, end=False)
        if start is not None:
            return start, fact_at(question, name, end=True)
    return None, None


def may_stretch(question: DayQuestion, piece: Piece) -> bool:
    """Tell whether it is waiting whose length is open."""
    if len(piece.members) != 1:
        return False
    activity = question.activity(piece.members[0])
    return activity.least_min < activity.most_min
