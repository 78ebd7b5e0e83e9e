"""A model in whole numbers as plain lists, before any solver sees it: columns, rows, spans of time, chains.

A literal is the number of a column of 0 and 1, meaning 1, or its complement (`~column`), meaning 0.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Sum:
    """Columns times factors and a constant, added up; in minutes mostly."""

    terms: tuple[tuple[int, int], ...] = ()
    constant: int = 0

    def __add__(self, other: Sum | int) -> Sum:
        if isinstance(other, int):
            return Sum(self.terms, self.constant + other)
        return Sum(_together((*self.terms, *other.terms)), self.constant + other.constant)

    def __sub__(self, other: Sum | int) -> Sum:
        return self + (-other if isinstance(other, int) else other.times(-1))

    def times(self, factor: int) -> Sum:
        """Multiply by a whole factor."""
        return Sum(tuple((column, a * factor) for column, a in self.terms if factor), self.constant * factor)

    def value(self, values: Sequence[int]) -> int:
        """Work it out."""
        return sum(a * values[column] for column, a in self.terms) + self.constant


def _together(terms: Iterable[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    summed: dict[int, int] = {}
    for column, a in terms:
        summed[column] = summed.get(column, 0) + a
    return tuple((column, a) for column, a in summed.items() if a)


def one(literal: int) -> Sum:
    """Give 1 where a literal holds and 0 where it does not."""
    return Sum(((literal, 1),)) if literal >= 0 else Sum(((~literal, -1),), 1)


def holds(literal: int, values: Sequence[int]) -> bool:
    """Tell whether a literal holds in a solution."""
    return bool(values[literal]) if literal >= 0 else not values[~literal]


@dataclass(frozen=True, slots=True)
class Span:
    """From `start` for `size` minutes to `end`, if a literal holds; each is one column at the most, and a constant."""

    start: Sum
    size: Sum
    end: Sum
    when: int | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """low <= total <= high, if all of `when` hold (None: no limit on that side)."""

    total: Sum
    low: int | None
    high: int | None
    when: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Chains:
    """Arcs (from, to, literal): those that hold lead from 0 through every other node once, in one round or several.

    An arc from a node to itself leaves it out.
    """

    arcs: tuple[tuple[int, int, int], ...]
    several: bool


@dataclass(slots=True)
class Sheet:
    """Columns with their bounds, and what must hold."""

    bounds: list[tuple[int, int]] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    clauses: list[tuple[int, ...]] = field(default_factory=list)
    """Of each, at least one literal holds"""
    spans: list[Span] = field(default_factory=list)
    in_turn: list[tuple[int, ...]] = field(default_factory=list)
    """Spans, by number, of which no two run at once"""
    together: list[tuple[tuple[tuple[int, int], ...], int]] = field(default_factory=list)
    """Spans, by number, with what each takes; and how much there is"""
    chains: list[Chains] = field(default_factory=list)
    least_of: list[tuple[Sum, tuple[Sum, ...]]] = field(default_factory=list)
    """A total that is the least of others"""

    def whole(self, low: int, high: int) -> Sum:
        """Add a column of whole numbers."""
        self.bounds.append((low, max(low, high)))
        if high < low:
            self.never()
        return Sum(((len(self.bounds) - 1, 1),))

    def either(self) -> int:
        """Add a column of 0 and 1 and return its literal."""
        self.bounds.append((0, 1))
        return len(self.bounds) - 1

    def row(
        self, total: Sum, low: int | None = None, high: int | None = None, when: tuple[int, ...] = ()
    ) -> None:
        """Ask that a total lies between two numbers, if all of some literals hold."""
        if total.terms:
            self.rows.append(Row(total, low, high, when))
        elif (low is not None and total.constant < low) or (high is not None and total.constant > high):
            self.clauses.append(tuple(~literal for literal in when))

    def after(self, later: Sum, earlier: Sum, least: int = 0, when: tuple[int, ...] = ()) -> None:
        """Ask that one moment is at least so many minutes after another."""
        self.row(later - earlier, least, None, when)

    def equal(self, first: Sum, second: Sum, when: tuple[int, ...] = ()) -> None:
        """Ask that two totals are the same."""
        self.row(first - second, 0, 0, when)

    def clause(self, *literals: int) -> None:
        """Ask that at least one literal holds."""
        self.clauses.append(literals)

    def never(self) -> None:
        """Ask for the impossible."""
        self.clauses.append(())

    def span(self, start: Sum, size: Sum, end: Sum, when: int | None = None) -> int:
        """Add a span and return its number."""
        self.spans.append(Span(start, size, end, when))
        return len(self.spans) - 1

    def chain(self, arcs: Iterable[tuple[int, int, int]], *, several: bool) -> None:
        """Ask that arcs form one round through all nodes from 0 on, or several that share only 0."""
        self.chains.append(Chains(tuple(arcs), several))
