"""Seek the least total of a sheet: from below by ruling out, from above by finding.

The solver is quick to find a solution with a total of no more than a number, or to rule it out, where it is slow to
make a total smaller bit by bit. So each step asks two questions side by side: is there one as good as the bound (which
would end the search), and is there one half way between the bound and the best one known? What changes nothing is asked
again with more work. A run is limited by work, not by the clock, and what a step learns does not depend on which of its
runs ends first: the same sheet gives the same solution every time, unless the clock runs out.
"""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from ladleworth.cookday.model import Clock, Halt, Manner, Run, run
from ladleworth.cookday.sheet import Sheet, Sum

BOUNDING = Manner(relaxation=2, disjunctive=False)
FINDING = Manner(relaxation=1, disjunctive=False, probe=False)
RULING = (Manner(), Manner(cumulative=True), Manner(relaxation=1))
"""How to ask whether there is a solution within some total, and how to ask again after it was in vain. Found by trial on
made-up days (bench/made_days.py): with several cooks it is better to begin with the second."""


@dataclass(slots=True)
class Sought:
    """What is known of the least total: no solution is below `lower`, `values` has the total `known` (None: none).

    `impossible` says that there is no solution at all.
    """

    lower: int
    known: int | None = None
    values: tuple[int, ...] | None = None
    impossible: bool = False

    @property
    def proven(self) -> bool:
        """Whether nothing is left to find."""
        return self.impossible or (self.known is not None and self.known <= self.lower)


@dataclass(frozen=True, slots=True)
class Patience:
    """How long to seek: the clock, and the work of runs.

    Parameters
    ----------
    clock
        Seconds.
    look, first, most
        Work of the first run that looks for a bound, of the first that rules out or finds, and of a run at the most.
    threads
        1, or 2 to run the two of a step side by side; the outcome is the same.
    seed
        The solver's random seed.
    turn
        Which of RULING comes first.
    """

    clock: Clock
    look: float = 0.1
    first: float = 0.5
    most: float = 1e9
    threads: int = 2
    seed: int = 0
    turn: int = 0


def seek(
    sheet: Sheet, total: Sum, lower: int, patience: Patience, *, known: int | None = None, hint: tuple[int, ...] = ()
) -> Sought:
    """Seek the least total.

    Parameters
    ----------
    sheet, total
        What must hold, and the total.
    lower
        What the total cannot be below.
    patience
        When to stop.
    known
        A total that is known to be possible: only less is of interest.
    hint
        Values of a solution to begin from, one a column; none: nothing to begin from.
    """
    seeking = _Seeking(sheet, total, patience, Sought(lower, known), hint or None)
    while not seeking.over():
        seeking.step()
    return seeking.sought


class _Seeking:
    """A search under way."""

    def __init__(
        self, sheet: Sheet, total: Sum, patience: Patience, sought: Sought, hint: tuple[int, ...] | None
    ) -> None:
        self.sheet, self.total, self.patience, self.sought, self.hint = sheet, total, patience, sought, hint
        self.highest = total.constant + sum(
            (sheet.bounds[column][1] if a > 0 else sheet.bounds[column][0]) * a for column, a in total.terms
        )
        self.steps = 0
        self.look: float | None = patience.look
        """Work of the next run for a bound; None: these lead no further"""
        self.work = patience.first
        self.reach = Fraction(1, 2)
        """How far from the bound to the best known to look from above"""
        self.raise_to(sought.lower)

    def over(self) -> bool:
        """Say whether to stop."""
        return self.sought.proven or self.work > self.patience.most or self.patience.clock.left() <= 0

    def step(self) -> None:
        """Ask both questions, and learn from the answers."""
        low, high = self.sought.lower, self._part_way()
        ruling = RULING[(self.steps + self.patience.turn) % len(RULING)]
        first: Asked = (low, ruling, self.work) if self.look is None else (None, BOUNDING, self.look)
        second: Asked = (high, RULING[(self.steps + self.patience.turn + (high == low)) % len(RULING)], self.work)
        if not self.steps:
            second = (None if self.sought.known is None else self.sought.known - 1, FINDING, self.patience.look)
        runs = self._both(first, second)
        self.steps += 1
        self._learn(first, runs[0])
        self._learn(second, runs[1])
        self.reach = Fraction(1, 2) if runs[1].proven else (1 + self.reach) / 2
        if self.look is not None:
            rose = self.sought.lower > low
            self.look = 2 * self.look if rose and self.look < self.work else None
        elif not runs[0].proven:
            self.work *= 2

    def _both(self, first: Asked, second: Asked) -> tuple[Run, Run]:
        """Run two searches, side by side if there are threads for it."""
        halts = Halt(), Halt()

        def one(n: int, most: int | None, manner: Manner, work: float) -> Run:
            found = run(
                self.sheet,
                self.total,
                work,
                manner=manner,
                most=most,
                clock=self.patience.clock,
                seed=self.patience.seed + self.steps + 1000 * n,
                hint=self.hint if n else None,
                halt=halts[n],
            )
            if found.proven and (found.values is not None) == (n == 0):
                halts[1 - n].stop()  # nothing that the other could find out matters any more
            return found

        if self.patience.threads == 1:
            return one(0, *first), one(1, *second)
        with ThreadPoolExecutor(2) as pool:
            runs = pool.submit(one, 0, *first), pool.submit(one, 1, *second)
            return runs[0].result(), runs[1].result()

    def _learn(self, asked: Asked, found: Run) -> None:
        """Take what a run has found out."""
        sought = self.sought
        if found.values is not None:
            value = self.total.value(found.values)
            if sought.known is None or value < sought.known:
                sought.known, sought.values = value, found.values
        if found.bound is not None:
            self.raise_to(found.bound)
        if found.impossible:
            most = asked[0]
            if most is None:
                most = self.highest if sought.known is None else sought.known - 1
            self.raise_to(most + 1)

    def raise_to(self, lower: int) -> None:
        """Take a bound."""
        sought = self.sought
        sought.lower = max(sought.lower, lower if sought.known is None else min(lower, sought.known))
        sought.impossible = sought.known is None and sought.lower > self.highest

    def _part_way(self) -> int:
        """Where to look from above: nearer to what is known, or to what must be possible, the oftener it was in vain."""
        known, lower = self.sought.known, self.sought.lower
        if known is not None:
            return lower + floor((known - 1 - lower) * self.reach)
        near = lower + max(2, abs(lower) // 20)
        return min(self.highest, near + floor((self.highest - near) * (2 * self.reach - 1) ** 8))


Asked = tuple[int | None, Manner, float]
"""What a run is asked: for a total of no more than this (None: the least), in this manner, with this much work."""
