"""The oven's heats left open while the times of a timetable are made anew, so that they come near to those wanted.

The order of the loads is kept: those that are in together have one heat, of two others the later waits for the oven.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import combinations

from ladleworth.cookday.answer import Heated, Timed, Timetable
from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.question import Activity, DayQuestion, OvenCard
from ladleworth.cookday.sheet import Sheet, Sum

OVEN_REASONS = frozenset({"heating the oven", "the oven's heat"})
"""Why something waits in an order where heats are settled (`chains.py`); with heats left open these say too much."""


class OpenHeats:
    """The loads of a timetable, with heats as columns of a sheet."""

    def __init__(self, question: DayQuestion, timetable: Timetable, kept: Mapping[str, int]) -> None:
        self.question, self.kept = question, kept
        self.loads = [a for a in question.activities if a.oven]
        self.new = {a.name for a in self.loads if fact_at(question, a.name, end=False) is None}
        times = [timetable.timed(load.name) for load in self.loads]
        self.pairs = [
            sorted(pair, key=lambda load: (load.end, load.start))
            for pair in combinations(times, 2)
            if not self.new.isdisjoint(load.activity for load in pair)
        ]
        self.heats: dict[str, Sum] = {}
        self.missed = Sum()
        """Degrees by which the heats miss those wanted, added up"""

    def waits(self) -> Iterator[tuple[Timed, Timed]]:
        """List the loads of which the second is not in together with the first: it comes later."""
        for before, after in self.pairs:
            if before.end <= after.start and after.activity in self.new:
                yield before, after

    def write(self, sheet: Sheet, start: Callable[[str], Sum], end: Callable[[str], Sum]) -> None:
        """Write heats into a sheet of times, given the moments at which each load starts and ends there."""
        oven = self.question.bench.oven
        if oven is None:
            return
        for load in self.loads:
            self._heat(sheet, load)
            if load.name in self.new:
                heat = self.heats[load.name]
                _change(sheet, oven, Sum(constant=oven.start_c), heat, start(load.name))
        for before, after in self.pairs:
            was, becomes = self.heats[before.activity], self.heats[after.activity]
            if before.end > after.start:
                sheet.equal(was, becomes)
            elif after.activity in self.new:
                sheet.after(start(after.activity), end(before.activity))
                _change(sheet, oven, was, becomes, start(after.activity) - end(before.activity))

    def _heat(self, sheet: Sheet, load: Activity) -> None:
        """Add a load's heat, within what it may be or as it is known to be, and how far it is from the wanted one."""
        assert load.oven is not None
        want, tolerance = load.oven.want_c, load.oven.tolerance_c
        low, high = want - tolerance, want + tolerance
        known = self.kept.get(load.name)
        if known is not None and low <= known <= high:
            low = high = known
        heat = self.heats[load.name] = sheet.whole(low, high)
        missed = sheet.whole(0, tolerance)
        sheet.after(missed, heat - want)
        sheet.after(missed, (heat - want).times(-1))
        self.missed = self.missed + missed

    def read(self, values: tuple[int, ...]) -> tuple[Heated, ...]:
        """Read the heats of a solution."""
        return tuple(Heated(load.name, self.heats[load.name].value(values)) for load in self.loads)


def _change(sheet: Sheet, oven: OvenCard, before: Sum, after: Sum, minutes: Sum) -> None:
    """The oven comes from one heat to another in so many minutes, which are whole: so it is time rounded up."""
    rise = after - before
    for rate, degrees in ((oven.heating_min_per_10c, rise), (oven.cooling_min_per_10c, rise.times(-1))):
        sheet.after(minutes.times(10 * rate.denominator), degrees.times(rate.numerator))
