"""Seek the least total of a sheet: from below by ruling out, from above by finding.

The solver is quick to find a solution with a total of no more than a number, or to rule it out, where it is slow to
make a total smaller bit by bit. So each step asks two questions side by side: is there one as good as the bound (which
would end the search), and is there one half way between the bound and the best one known? What changes nothing is asked
again with more work. A run is limited by work, not by the clock, and what a step learns does not depend on which of its
runs ends first: the same sheet gives the same solution every time, unless the clock runs out.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from typing import NamedTuple

from ladleworth.cookday.model import Clock, Halt, Manner, Run, run
from ladleworth.cookday.sheet import Sheet, Sum

BOUNDING = Manner(relaxation=2, disjunctive=False)
FINDING = Manner(relaxation=1, disjunctive=False, probe=False)
RULING = (Manner(cumulative=True), Manner())
"""How to ask whether there is a solution within some total, in turn. Found by trial on made-up days (bench/made_days.py):
the first is quicker where several can be at work at once, the second where one cook does all."""


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


class Asked(NamedTuple):
    """What a run is asked: for a total of no more than `most` (None: the least), in a manner, with so much work."""

    most: int | None
    manner: Manner
    work: float


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
    steps
        How many steps at the most.
    reach
        How far from the bound to the best known to look from above at first: 1 is just below the best known.
    """

    clock: Clock
    look: float = 0.1
    first: float = 0.5
    most: float = 1e9
    threads: int = 2
    seed: int = 0
    turn: int = 0
    steps: int = 1_000_000
    reach: Fraction = Fraction(1, 2)


def seek(
    sheet: Sheet,
    total: Sum,
    lower: int,
    patience: Patience,
    *,
    known: int | None = None,
    hint: tuple[int, ...] = (),
    tidy: Callable[[tuple[int, ...]], tuple[int, ...]] = tuple,
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
    tidy
        Makes of the values of a solution those of one that is no worse.
    """
    seeking = _Seeking(sheet, total, patience, Sought(lower, known), hint or None)
    seeking.tidy = tidy
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
        self.tidy: Callable[[tuple[int, ...]], tuple[int, ...]] = tuple
        self.steps = 0
        self.look: float | None = patience.look
        """Work of the next run for a bound; None: these lead no further"""
        self.work = patience.first
        self.reach = patience.reach
        """How far from the bound to the best known to look from above"""
        self.raise_to(sought.lower)

    def over(self) -> bool:
        """Say whether to stop."""
        patience = self.patience
        spent = self.steps >= patience.steps or self.work > patience.most or patience.clock.left() <= 0
        return spent or self.sought.proven

    def step(self) -> None:
        """Ask two questions, and learn from the answers."""
        low = self.sought.lower
        asked = self._questions()
        runs = self._both(asked)
        self._learn(asked[0], runs[0])
        self._learn(asked[1], runs[1])
        looked = next((n for n in range(2) if asked[n].manner is BOUNDING), None)
        if self.steps and not runs[0].proven:
            self.work *= 2
        if looked is None:
            self.reach = self.patience.reach if runs[1].proven else (1 + self.reach) / 2
        else:
            bound = runs[looked].bound
            self.look = 2 * asked[looked].work if bound is not None and bound > low else None
        self.steps += 1

    def _questions(self) -> tuple[Asked, Asked]:
        """Choose what to ask: is there one as good as the bound; and what is the bound, or is there one part way up."""
        low, high = self.sought.lower, self._part_way()
        if not self.steps:
            most = None if self.sought.known is None else self.sought.known - 1
            return Asked(None, BOUNDING, self.patience.look), Asked(most, FINDING, self.patience.look)
        manners = [RULING[(self.steps + self.patience.turn + n) % len(RULING)] for n in (1, 2)]
        ruling = Asked(low, manners[0], self.work)
        if self.look is not None:
            return ruling, Asked(None, BOUNDING, self.look)
        return ruling, Asked(high, manners[0] if high > low else manners[1], self.work)

    def _both(self, asked: tuple[Asked, Asked]) -> tuple[Run, Run]:
        """Run two searches, side by side if there are threads for it."""
        halts = Halt(), Halt()

        def one(n: int) -> Run:
            found = run(
                self.sheet,
                self.total,
                asked[n].work,
                manner=asked[n].manner,
                most=asked[n].most,
                clock=self.patience.clock,
                seed=self.patience.seed + self.steps + 1000 * n,
                hint=self.hint if n else None,
                halt=halts[n],
            )
            if _ends_other(n, asked, found):
                halts[1 - n].stop()
            return found

        if self.patience.threads == 1:
            return one(0), one(1)
        with ThreadPoolExecutor(2) as pool:
            runs = pool.submit(one, 0), pool.submit(one, 1)
            return runs[0].result(), runs[1].result()

    def _learn(self, asked: Asked, found: Run) -> None:
        """Take what a run has found out."""
        sought = self.sought
        if found.values is not None:
            values = self.tidy(found.values)
            value = self.total.value(values)
            if sought.known is None or value < sought.known:
                sought.known, sought.values = value, values
        if found.bound is not None:
            self.raise_to(found.bound)
        if found.impossible:
            most = asked.most
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


def _ends_other(n: int, asked: tuple[Asked, Asked], found: Run) -> bool:
    """Tell whether nothing matters any more that the other run of a step could find out.

    The first run ends the second once it has found the best there is; the second ends the first only where that one
    cannot find anything, so that what is learnt does not depend on which is quicker.
    """
    if n == 0:
        return found.proven and found.values is not None
    own, other = asked[1].most, asked[0].most
    if found.impossible:
        return own is None or (other is not None and other <= own)
    return found.bound is not None and other is not None and found.bound > other
