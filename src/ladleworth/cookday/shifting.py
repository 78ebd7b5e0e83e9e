"""A timetable's order kept and its times made as good as that order allows, at either pace.

With the order fixed (`orders.py`) only times are left, and the heats of the oven where they are open: the finish, then the
minutes from the first hands-on work to the last, then the minutes that food stands warm are made as few as they can be;
then heats come as near to those wanted as they can, and after that all starts as early as possible.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from ladleworth.cookday.answer import Timed, Timetable, Washed
from ladleworth.cookday.bonds import Bonds
from ladleworth.cookday.heating import OVEN_REASONS, OpenHeats
from ladleworth.cookday.lags import Circle, Edge, earliest
from ladleworth.cookday.model import Manner, run
from ladleworth.cookday.orders import Wash
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.sheet import Sheet, Sum

SHIFT_WORK = 2.0
"""The most work for each thing that is made small; what was ever needed is a hundredth of it."""

PLAINLY = Manner(relaxation=1, disjunctive=False, prepare=False)
"""With the order fixed the relaxation alone finds the answer: to prepare the sheet takes longer than to solve it."""

LONG_AGO = -1_000_000


def shift(
    question: DayQuestion, timetable: Timetable, *, slow: bool, heats: Mapping[str, int] | None = None
) -> Timetable | None:
    """Make the times of a timetable as good as its order allows.

    Parameters
    ----------
    question, timetable
        The question, and a timetable with its people that keeps the rules at some pace.
    slow
        The pace of the times wanted.
    heats
        Those of loads that have begun, in degrees Celsius, where they are known: the others are then brought as near
        to what is wanted as the times allow, before everything is started early. None: all heats stay.

    Returns
    -------
    Timetable or None
        None if the order cannot be kept at this pace.
    """
    bonds = Bonds(question, timetable, slow=slow)
    oven = None if heats is None or question.bench.oven is None else OpenHeats(question, timetable, heats)
    edges = [bond.edge for bond in bonds.all]
    if oven is not None:
        edges += [_wait(bonds, before, after) for before, after in oven.waits()]
    starts = earliest(edges, [0] + [LONG_AGO] * (bonds.count() - 1))
    if isinstance(starts, Circle):
        return None
    order = _Ordered(question, bonds, starts.at, oven)
    values: tuple[int, ...] | None = None
    missed = Sum() if oven is None else oven.missed
    for aim in (*filter(lambda aim: aim.terms, (order.span, order.warm, missed)), order.starts):
        values = run(order.sheet, aim, SHIFT_WORK, manner=PLAINLY, hint=values).values
        if values is None:
            return None
        order.sheet.row(aim, None, aim.value(values))
    assert values is not None
    if oven is not None:
        timetable = replace(timetable, oven=oven.read(values))
    return _timed(timetable, bonds, [moment.value(values) for moment in order.moments])


def _wait(bonds: Bonds, before: Timed, after: Timed) -> Edge:
    """The later of two loads starts once the other has ended."""
    first, second = bonds.node_of[before.activity], bonds.node_of[after.activity]
    return Edge(bonds.at(first, end=True), bonds.at(second, end=False), 0)


class _Ordered:
    """The moments of a timetable as a sheet: the finish is the earliest that there is, which the ties alone tell."""

    def __init__(
        self, question: DayQuestion, bonds: Bonds, soonest: tuple[int, ...], oven: OpenHeats | None
    ) -> None:
        self.sheet = Sheet()
        finish = max(soonest)
        self.moments = [Sum(), *(self.sheet.whole(minute, finish) for minute in soonest[1:])]
        for bond in bonds.all:
            if oven is None or bond.what not in OVEN_REASONS:
                self.sheet.after(self.moments[bond.second], self.moments[bond.first], bond.least)
        self.warm = self.starts = Sum()
        first, last = (self.sheet.whole(min(0, *soonest), finish) for _ in range(2))
        self.span = last - first
        self.sheet.after(last, first)
        known = {a.name: a for a in question.activities}
        for node, piece in bonds.pieces.items():
            start, end = (self.moments[bonds.at(node, end=each)] for each in (False, True))
            self.starts = self.starts + start
            if isinstance(node, Wash) or any(known[name].hands for name in piece.members):
                self.sheet.after(start, first)
                self.sheet.after(last, end)
            for _ in filter(lambda name: known[name].warm, piece.members):
                self.warm = self.warm + end - start
        if oven is not None:

            def moment(name: str, *, end: bool) -> Sum:
                return self.moments[bonds.at(bonds.node_of[name], end=end)]

            oven.write(self.sheet, partial(moment, end=False), partial(moment, end=True))


def _timed(timetable: Timetable, bonds: Bonds, minutes: list[int]) -> Timetable:
    """Write the times into the timetable."""
    times = []
    for time in timetable.times:
        node = bonds.node_of[time.activity]
        start, end = (minutes[bonds.at(node, end=each)] for each in (False, True))
        times.append(replace(time, start=start, end=end))
    washes = []
    for node, piece in bonds.pieces.items():
        if isinstance(node, Wash):
            start, end = (minutes[bonds.at(node, end=each)] for each in (False, True))
            washes.append(Washed(node.kind, node.which, start, end, piece.cooks[0]))
    washes.sort(key=lambda wash: (wash.start, wash.kind, wash.which))
    return replace(timetable, times=tuple(times), washes=tuple(washes))
