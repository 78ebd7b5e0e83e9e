"""The exact best timetable of a tiny day, found by trying every minute; written from the rules in words alone.

It shares no code with the judge or the solver. It tries every choice of mergings; for each, every whole-minute start
and length (`_Search`); for each, every set of heats, tools and washes (`day_fittings.py`), at the slow pace. The finish
is raised minute by minute, so the first timetables found are those with the least finish, and all of them are
compared. What is left out of the search is left out with the reason beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from tests.model.day_fittings import Times, fit, heats_for, timetable_of, tools_suffice
from tests.model.day_rules import asked, length, merged_length

from ladleworth.cookday.answer import Measure, Timetable
from ladleworth.cookday.question import Activity, DayQuestion

FAR = 10**6

PATIENCE = 3
"""How many finishes are tried in vain before it is asked whether there is a timetable at all."""


@dataclass(frozen=True)
class Unit:
    """What is done in one go: its activities, and the ranges of its length and, if it has begun, of its times."""

    activities: tuple[Activity, ...]
    lengths: tuple[int, int]
    starts: tuple[int, int]
    ends: tuple[int, int]
    begun: bool

    def takes(self, what: str) -> int:
        return max(getattr(a, what) for a in self.activities)


def best_day(question: DayQuestion) -> Measure | None:
    """Return the best measure of any timetable at the slow pace; None if no timetable keeps the rules."""
    found = best_timetable(question)
    return None if found is None else found[0]


def best_timetable(question: DayQuestion) -> tuple[Measure, Timetable] | None:
    """Return the best measure and a timetable that has it; None if no timetable keeps the rules."""
    searches = [_Search(question, units) for units in _choices(question)]
    searches = [s for s in searches if s.possible]
    last = max((s.horizon for s in searches), default=-1)
    soonest = min((s.soonest for s in searches), default=0)
    for finish in range(soonest, last + 1):
        found = [one for search in searches if (one := search.best(finish)) is not None]
        if found:
            return min(found, key=lambda pair: measure_key(pair[0]))
        if finish == soonest + PATIENCE and not any(search.any(search.horizon) for search in searches):
            return None
    return None


def _choices(question: DayQuestion) -> Iterator[tuple[tuple[str, ...], list[Unit]]]:
    """Yield every choice of mergings and the units that it makes."""
    for picked in product((False, True), repeat=len(question.mergings)):
        done = [m for m, is_done in zip(question.mergings, picked, strict=True) if is_done]
        groups: dict[str, list[Activity]] = {}
        for activity in question.activities:
            merging = next((m for m in done if activity.name in m.activities), None)
            groups.setdefault(f"m {merging.name}" if merging else f"a {activity.name}", []).append(activity)
        units = []
        for key, group in groups.items():
            merging = next((m for m in done if key == f"m {m.name}"), None)
            minutes = merged_length(question, merging, slow=True) if merging else None
            units.append(_unit(question, tuple(group), minutes))
        yield tuple(m.name for m in done), units


def _unit(question: DayQuestion, group: tuple[Activity, ...], minutes: int | None) -> Unit:
    first, floor = group[0], max(0, question.now)
    lengths = minutes, minutes
    if minutes is None:
        lengths = tuple(length(question, first, m, slow=True) for m in (first.least_min, first.most_min))
    least, most = lengths
    starts, ends = (floor, FAR), (floor, FAR)
    begun = [b for a in group for b in question.begun if b.activity == a.name]
    for fact in begun:
        starts = (
            max(starts[0] if fact is not begun[0] else fact.start, fact.start),
            min(starts[1], fact.start),
        )
        if fact.end is None:
            ran = max(question.now, fact.start + least), max(question.now, fact.start + most)
        else:
            ran = fact.end, fact.end
        ends = max(ends[0] if fact is not begun[0] else ran[0], ran[0]), min(ends[1], ran[1])
    if begun and len(begun) < len(group):
        starts = max(starts[0], floor), starts[1]  # a member that has not begun cannot start in the past
    return Unit(group, (least, most), starts, ends, bool(begun))


class _Search:
    """Every timetable of one choice of mergings."""

    def __init__(self, question: DayQuestion, choice: tuple[tuple[str, ...], list[Unit]]) -> None:
        self.question = question
        self.merged, self.units = choice
        self.of = {a.name: n for n, unit in enumerate(self.units) for a in unit.activities}
        self.apart = self._least_minutes()
        self.order = self._order()
        self.horizon = self._horizon()
        cooks = question.bench.cooks
        self.possible = all(row[m] <= 0 for m, row in enumerate(self.apart)) and all(
            unit.takes("hands") <= cooks for unit in self.units
        )
        if question.bench.oven is None and any(a.oven for a in question.activities):
            self.possible = False

    # Moments: 0 is the start of the day; a unit n starts at 2 n + 1 and ends at 2 n + 2.

    def _least_minutes(self) -> list[list[int]]:
        """For each two moments, the least minutes from one to the other that all lags together ask for."""
        size = 2 * len(self.units) + 1
        apart = [[0 if a == b else -FAR * 9 for b in range(size)] for a in range(size)]

        def ask(first: int, second: int, least: int, most: int | None) -> None:
            apart[first][second] = max(apart[first][second], least)
            if most is not None:
                apart[second][first] = max(apart[second][first], -most)

        for n, unit in enumerate(self.units):
            if not unit.begun:
                ask(2 * n + 1, 2 * n + 2, *unit.lengths)
            ask(0, 2 * n + 1, *unit.starts)
            ask(0, 2 * n + 2, *unit.ends)
        for lag in self.question.lags:
            first = 2 * self.of[lag.first] + 1 + lag.first_end
            second = 2 * self.of[lag.second] + 1 + lag.second_end
            least, most = asked(self.question, lag)
            ask(first, second, lag.least if least else -FAR * 9, lag.most if most else None)
        for middle in range(size):
            for first in range(size):
                for second in range(size):
                    through = apart[first][middle] + apart[middle][second]
                    apart[first][second] = max(apart[first][second], through)
        return apart

    def _horizon(self) -> int:
        """A finish by which the day can be done if it can be done at all.

        In the earliest timetable of any order, every start has a chain of reasons back to a fact or to the start of
        the day. The chain goes through nothing twice: not through a piece of work, a lag, a wash or a change of heat.
        """
        question, oven = self.question, self.question.bench.oven
        minutes = max((b.end or b.start for b in question.begun), default=0) + question.now
        minutes += sum(max(unit.lengths) for unit in self.units)
        for lag in question.lags:
            minutes += max(0, lag.least, -(lag.most or 0))
        washes = {tool.name: tool.wash_min for tool in question.bench.tools}
        minutes += sum(-int(-washes[use.kind] * question.slower // 1) for use in question.uses)
        heats = [oven.start_c] if oven else []
        heats += [c for a in question.activities if a.oven for c in _ends(a.oven.want_c, a.oven.tolerance_c)]
        if oven:
            rate = max(oven.heating_min_per_10c, oven.cooling_min_per_10c)
            loads = sum(a.oven is not None for a in question.activities)
            minutes += loads * (int((max(heats) - min(heats)) * rate / 10) + 1)
        return minutes if question.deadline is None else min(minutes, question.deadline)

    def _order(self) -> list[int]:
        """The units in the order in which they are placed: next comes the one most tied to those before it."""
        left = list(range(len(self.units)))

        def play(one: int, other: int) -> int:
            return -self.apart[2 * one + 1][2 * other + 1] - self.apart[2 * other + 1][2 * one + 1]

        order: list[int] = []
        while left:
            others = order or left
            ties = {n: min((play(n, m) for m in others if m != n), default=0) for n in left}
            order.append(min(left, key=lambda n: (ties[n], n)))
            left.remove(order[-1])
        return order

    @property
    def soonest(self) -> int:
        """A finish that the lags alone do not forbid."""
        return max(self.apart[0])

    def best(self, finish: int) -> tuple[Measure, Timetable] | None:
        """Return the best timetable that is done by this minute."""
        return _Walk(self, finish).walk()

    def any(self, finish: int) -> bool:
        """Say whether a timetable is done by this minute."""
        return _Walk(self, finish, any_will_do=True).walk() is not None


def _ends(want: int, tolerance: int) -> tuple[int, int]:
    return want - tolerance, want + tolerance


class _Walk:
    """A walk through all starts and lengths with which everything is done by some minute."""

    def __init__(self, search: _Search, finish: int, any_will_do: bool = False) -> None:
        self.search, self.question, self.finish = search, search.question, finish
        self.any_will_do = any_will_do
        self.at: dict[int, int] = {0: 0}
        self.placed: list[int] = []
        self.found: tuple[Measure, Timetable] | None = None
        bench = self.question.bench
        room = {"burners": bench.burners, "microwaves": bench.microwaves, "hands": bench.cooks}
        if bench.counter is not None:
            room["counter"] = bench.counter
        self.room = room | {"shelves": bench.oven.shelves if bench.oven else 0}
        self.taken = {what: [0] * (finish + 1) for what in self.room}
        self.needs = [
            {"shelves": max((a.oven.shelves for a in unit.activities if a.oven), default=0)}
            | {what: unit.takes(what) for what in room}
            for unit in search.units
        ]

    def walk(self) -> tuple[Measure, Timetable] | None:
        self._place()
        return self.found

    def _place(self) -> None:
        """Try every time of the next unit and of all after it. Starts that a lag forbids are left out."""
        if len(self.placed) == len(self.search.units):
            self._fit()
            return
        n = self.search.order[len(self.placed)]
        self.placed.append(n)
        for start in self._window(2 * n + 1):
            self.at[2 * n + 1] = start
            for end in self._window(2 * n + 2):
                self.at[2 * n + 2] = end
                if self._take(n) and not self._worse() and self._may_fit(n):
                    self._place()
                self._give_back(n)
                del self.at[2 * n + 2]
            del self.at[2 * n + 1]
        self.placed.pop()

    def _window(self, moment: int) -> range:
        apart = self.search.apart
        low = max(at + apart[m][moment] for m, at in self.at.items())
        high = min(at - apart[moment][m] for m, at in self.at.items())
        return range(low, min(high, self.finish - max(apart[moment])) + 1)

    def _take(self, n: int) -> bool:
        """Take what the unit needs; False if it is too much. Only what has begun may be too much by itself."""
        fits = True
        for what, amount in self.needs[n].items():
            for minute in range(self.at[2 * n + 1], self.at[2 * n + 2]) if amount else ():
                self.taken[what][minute] += amount
                if self.taken[what][minute] > self.room[what]:
                    fits = fits and self._all_begun(what, minute)
        return fits

    def _give_back(self, n: int) -> None:
        for what, amount in self.needs[n].items():
            for minute in range(self.at[2 * n + 1], self.at[2 * n + 2]) if amount else ():
                self.taken[what][minute] -= amount

    def _all_begun(self, what: str, minute: int) -> bool:
        return all(
            self.search.units[n].begun
            for n in self.placed
            if self.needs[n][what] and self.at[2 * n + 1] <= minute < self.at[2 * n + 2]
        )

    def _worse(self) -> bool:
        """Say whether what is placed cannot lead to anything better: the span and warm minutes only grow."""
        if self.found is None or self.any_will_do:
            return self.found is not None
        hands = [n for n in self.placed if any(a.hands for a in self.search.units[n].activities)]
        span = 0
        if hands:
            span = max(self.at[2 * n + 2] for n in hands) - min(self.at[2 * n + 1] for n in hands)
        return (span, self._warm()) >= (self.found[0].hands_span, self.found[0].warm)

    def _warm(self) -> int:
        return sum(
            (self.at[2 * n + 2] - self.at[2 * n + 1]) * sum(a.warm for a in self.search.units[n].activities)
            for n in self.placed
        )

    def _times(self) -> Times:
        return {
            a.name: (self.at[2 * n + 1], self.at[2 * n + 2])
            for n in self.placed
            for a in self.search.units[n].activities
        }

    def _may_fit(self, n: int) -> bool:
        """Say whether there are heats and tools for what is placed, if the unit placed last needs any."""
        names = {a.name for a in self.search.units[n].activities}
        if self.needs[n]["shelves"] and heats_for(self.question, self._times()) is None:
            return False
        if all(names.isdisjoint(use.activities) for use in self.question.uses):
            return True
        return tools_suffice(self.question, self.search.merged, self._times())

    def _fit(self) -> None:
        question, merged = self.question, self.search.merged
        times = self._times()
        fitted = fit(question, merged, times, self.taken["hands"])
        if fitted is None:
            return
        measure = Measure(max(self.at.values()), fitted.hands_span, self._warm())
        if self.found is None or measure_key(measure) < measure_key(self.found[0]):
            self.found = measure, timetable_of(question, merged, times, fitted)


def measure_key(measure: Measure) -> tuple[int, int, int]:
    return measure.finish, measure.hands_span, measure.warm
