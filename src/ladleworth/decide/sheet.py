"""A mixed-integer programme as plain lists, before any solver sees it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

FREE = math.inf
"""No bound on this side."""

Terms = Iterable[tuple[int, float]]
"""Pairs of column and coefficient; a column may stand there more than once."""


@dataclass(slots=True)
class Sheet:
    """Columns with bounds, cost and kind, and rows with two bounds: what a solver is handed.

    The value of a solution is the sum of cost times column, plus `constant`.
    """

    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    cost: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    rows: list[tuple[float, float, tuple[tuple[int, float], ...]]] = field(default_factory=list)
    tightening: set[int] = field(default_factory=set)
    """Numbers of the rows that every whole solution keeps without being told, and that only tighten"""
    constant: float = 0.0

    def column(
        self, name: str, upper: float = FREE, cost: float = 0.0, *, lower: float = 0.0, whole: bool = True
    ) -> int:
        """Add a column and return its index."""
        self.lower.append(lower)
        self.upper.append(upper)
        self.cost.append(cost)
        self.whole.append(whole)
        self.names.append(name)
        return len(self.cost) - 1

    def row(self, terms: Terms, low: float = -FREE, high: float = FREE, *, tightens: bool = False) -> None:
        """Add a row: low <= sum of coefficient times column <= high. Repeated columns are added up."""
        merged: dict[int, float] = {}
        for column, coefficient in terms:
            merged[column] = merged.get(column, 0.0) + coefficient
        entries = tuple((c, a) for c, a in merged.items() if a)
        if entries:
            if tightens:
                self.tightening.add(len(self.rows))
            self.rows.append((low, high, entries))
        elif low > 0 or high < 0:
            # no column can help: keep the contradiction, so that the solver reports it
            self.rows.append((low, high, ((self.column("nothing", 0.0, whole=False), 1.0),)))
