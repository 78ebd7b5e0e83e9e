"""A simple host who seats portions: quick, and good enough to tell which batches can feed the week.

He serves day by day, first what has most portions left for each day that it still keeps; then he moves people about
to fill the slots that stayed empty, and to bring nutrients within their bounds. He promises nothing: where he finds
no seat the programme may find one.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from ladleworth.decide.columns import has_figures
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustServe

MOST_SWAPS = 20
"""So many times two helpings change places for the sake of nutrients."""

FEW_GAPS = 4
"""With no more empty slots than this two others are moved for each, with more only one."""

ROUNDING = 1e-9
"""Sums of floating figures are off by less than this."""

NEARLY = 5.0
"""Nutrients out of bounds by more than so many average portions are not worth swapping for."""


@dataclass(slots=True)
class Dinner:
    """A batch or a lot of portions at the host's table; `left` in parts of a standard portion, or containers."""

    mask: int
    """Bits of the slots that it may fill"""
    number: int
    """Number of the dish, by which sameness counts"""
    left: int
    cooked: int
    last: int
    """The last day on which it can be eaten"""
    fridge_end: int
    is_lot: bool
    offs: list[tuple[float, ...]]
    """By eater: how far a helping is from each of the eater's bounds, in parts of the bound (above 0: beyond)"""
    seats: list[int] = field(default_factory=list)
    """Slots that it fills"""


@dataclass(slots=True)
class Seating:
    """What the host came to."""

    seated: int
    repeats: int
    amiss: float
    """Portions' worth of what does not work out, but for portions left over"""
    left: list[int]
    """By dinner: parts left over"""


@dataclass(slots=True)
class Host:
    """The table of the week, prepared: slots are numbers, sets of them bits."""

    question: Question
    numbers: dict[str, int]
    """Number of each dish by name"""
    slots: list[tuple[int, int, int, str]] = field(init=False)
    """(day, number of the eater, number of the span, meal)"""
    eaters: list[str] = field(init=False)
    parts: int = field(init=False)
    """Portions are counted in so many parts, so that every appetite is a whole number of them"""
    bites: list[int] = field(init=False)
    """By slot: parts of a portion"""
    bounds: list[list[tuple[str, float, float, float]]] = field(init=False)
    """By eater: (nutrient, least, most) of an average helping, and what a version's figure is multiplied by"""
    promised: dict[int, int] = field(init=False)
    """Slot -> number of the dish that it is promised to, -1 a meal out"""
    places: float = field(init=False)
    sessions: tuple[int, ...] = field(init=False)
    by_day: list[list[int]] = field(init=False)

    def __post_init__(self) -> None:
        question, rules = self.question, self.question.rules
        self.eaters = list(question.eaters)
        at = {name: n for n, name in enumerate(self.eaters)}
        span_of = {day: n for n, span in enumerate(question.spans()) for day in span}
        ordered = sorted(question.slots, key=lambda slot: slot.day)
        self.slots = [(s.day, at[s.eater], span_of[s.day], s.meal) for s in ordered]
        self.by_day = [[] for _ in range(question.days + 1)]
        for number, (day, *_) in enumerate(self.slots):
            self.by_day[day].append(number)
        self.parts = math.lcm(*(question.appetite(e).denominator for e in self.eaters)) if self.eaters else 1
        self.bites = [int(question.appetite(s.eater) * self.parts) for s in ordered]
        self.bounds = [
            [
                (
                    b.nutrient,
                    float(b.least or 0),
                    math.inf if b.most is None else float(b.most),
                    float(question.counted(b)),
                )
                for b in rules.nutrient_bounds
                if b.eater == eater
            ]
            for eater in self.eaters
        ]
        where = {(s.day, s.eater, s.meal): n for n, s in enumerate(ordered)}
        self.promised = {
            where[w.day, w.eater, w.meal]: -1 if w.dish is None else self.numbers[w.dish]
            for w in question.wishes
            if isinstance(w, MustServe)
        }
        sizes = sum(c.count for c in rules.container_sizes) if rules.container_sizes else math.inf
        self.places = min(math.inf if rules.containers is None else rules.containers, sizes)
        self.sessions = tuple(sorted(s.day for s in question.sessions))

    def offs_of(self, nutrients: Mapping[str, Fraction], *, whole: bool) -> list[tuple[float, ...]]:
        """By eater: how far a helping is from each bound; `whole`: a container, whoever has it."""
        offs = []
        for bounds in self.bounds:
            mine: list[float] = []
            for nutrient, least, most, factor in bounds:
                amount = float(nutrients.get(nutrient, 0))  # who lacks a figure is not seated here
                amount *= 1.0 if whole else factor
                if least:
                    mine.append((least - amount) / least)
                if most < math.inf:
                    mine.append((amount - most) / (most or 1.0))
            offs.append(tuple(mine))
        return offs

    def mask_of(
        self,
        number: int,
        barred: frozenset[str],
        meals: frozenset[str] | None,
        days: set[int],
        known: set[str],
    ) -> int:
        """Bits of the slots that a dish may fill on these days."""
        mask = 0
        for slot, (day, eater, _, meal) in enumerate(self.slots):
            name = self.eaters[eater]
            if (
                day in days
                and name not in barred
                and (meals is None or meal in meals)
                and self.promised.get(slot, number) == number
                and has_figures(self.question, name, known)
            ):
                mask |= 1 << slot
        return mask

    def seat(self, dinners: list[Dinner]) -> Seating:
        """Seat portions, then move them about."""
        table = _Table(self, dinners)
        table.serve()
        table.fill_gaps()
        amiss = table.nutrients_amiss() if self.question.rules.nutrient_bounds else 0.0
        if ROUNDING < amiss < NEARLY:
            amiss = table.swap(amiss)
        kept = sum(dish >= 0 and table.holder[slot] < 0 for slot, dish in self.promised.items())
        return Seating(
            table.seated, table.repeats(), amiss + table.no_place() + kept, [d.left for d in dinners]
        )


def _beyond(sums: list[float]) -> float:
    """How far sums are beyond their bounds, together."""
    return sum(off for off in sums if off > 0)


class _Table:
    """One seating under way."""

    __slots__ = ("days", "dinners", "holder", "host", "run", "seated", "times", "times_most")

    def __init__(self, host: Host, dinners: list[Dinner]) -> None:
        self.host = host
        self.dinners = dinners
        self.holder = [-1] * len(host.slots)
        self.days: dict[tuple[int, int], dict[int, int]] = {}
        self.times: dict[tuple[int, int, int], int] = {}
        self.run = host.question.rules.in_a_row
        self.times_most = host.question.rules.most_times
        self.seated = 0

    def may(self, slot: int, dinner: Dinner) -> bool:
        """Say whether sameness lets this slot have a dish."""
        day, eater, span, _ = self.host.slots[slot]
        if self.times_most is not None and self.times.get((eater, dinner.number, span), 0) >= self.times_most:
            return False
        run = self.run
        if run is None:
            return True
        had = self.days.get((eater, dinner.number))
        if not had or day in had:
            return True
        before = after = 0
        while day - before - 1 in had:
            before += 1
        while day + after + 1 in had:
            after += 1
        return before + after + 1 <= run

    def put(self, slot: int, at: int) -> None:
        """Give a slot a portion."""
        day, eater, span, _ = self.host.slots[slot]
        dinner = self.dinners[at]
        dinner.left -= 1 if dinner.is_lot else self.host.bites[slot]
        dinner.seats.append(slot)
        self.holder[slot] = at
        self.seated += 1
        had = self.days.setdefault((eater, dinner.number), {})
        had[day] = had.get(day, 0) + 1
        key = (eater, dinner.number, span)
        self.times[key] = self.times.get(key, 0) + 1

    def take(self, slot: int) -> int:
        """Take a slot's portion away again."""
        at = self.holder[slot]
        day, eater, span, _ = self.host.slots[slot]
        dinner = self.dinners[at]
        dinner.left += 1 if dinner.is_lot else self.host.bites[slot]
        dinner.seats.remove(slot)
        self.holder[slot] = -1
        self.seated -= 1
        had = self.days[eater, dinner.number]
        had[day] -= 1
        if not had[day]:
            del had[day]
        self.times[eater, dinner.number, span] -= 1
        return at

    def enough(self, slot: int, dinner: Dinner) -> bool:
        """Say whether there is a portion left for this slot."""
        return dinner.left >= (1 if dinner.is_lot else self.host.bites[slot])

    def serve(self) -> None:
        """Serve day by day what presses most."""
        last = self.host.question.days
        for day in range(1, last + 1):
            slots = self.host.by_day[day]
            if not slots:
                continue
            today = 0
            for slot in slots:
                today |= 1 << slot
            ready = [
                (-d.left / (min(last, d.last) - day + 1), at)
                for at, d in enumerate(self.dinners)
                if d.left > 0 and d.mask & today
            ]
            ready.sort()
            for slot in slots:
                bit = 1 << slot
                for _, at in ready:
                    dinner = self.dinners[at]
                    if dinner.mask & bit and self.enough(slot, dinner) and self.may(slot, dinner):
                        self.put(slot, at)
                        break

    def fill_gaps(self) -> None:
        """Fill a slot that stayed empty by moving other portions, where that can be done."""
        if not any(dinner.left > 0 for dinner in self.dinners):
            return
        gaps = [
            slot for slot, held in enumerate(self.holder) if held < 0 and self.host.promised.get(slot) != -1
        ]
        depth = 2 if len(gaps) <= FEW_GAPS else 1
        for slot in gaps:
            self._fill(slot, depth, set())

    def _fill(self, slot: int, depth: int, moved: set[int]) -> bool:
        """Fill a slot, moving others on for it one after another, at most so many."""
        bit = 1 << slot
        for at, dinner in enumerate(self.dinners):
            if dinner.left > 0 and dinner.mask & bit and self.enough(slot, dinner) and self.may(slot, dinner):
                self.put(slot, at)
                return True
        if not depth:
            return False
        moved = moved | {slot}
        for at, dinner in enumerate(self.dinners):
            if not dinner.mask & bit:
                continue
            for other in list(dinner.seats):
                if other in moved:
                    continue
                self.take(other)
                if self.enough(slot, dinner) and self.may(slot, dinner):
                    self.put(slot, at)
                    if self._fill(other, depth - 1, moved):
                        return True
                    self.take(slot)
                self.put(other, at)
        return False

    def repeats(self) -> int:
        """Helpings of a dish by an eater beyond the first, in each span."""
        return sum(n - 1 for n in self.times.values() if n)

    def nutrients_amiss(self) -> float:
        """How far nutrients are out of their bounds, in average portions."""
        return sum(off for sums in self._sums().values() for off in sums if off > ROUNDING)

    def _sums(self) -> dict[tuple[int, int], list[float]]:
        """By (eater, span): how far the helpings together are beyond each bound."""
        found: dict[tuple[int, int], list[float]] = {}
        for slot, at in enumerate(self.holder):
            if at >= 0:
                _, eater, span, _ = self.host.slots[slot]
                offs = self.dinners[at].offs[eater]
                if (eater, span) in found:
                    found[eater, span] = [a + b for a, b in zip(found[eater, span], offs, strict=True)]
                else:
                    found[eater, span] = list(offs)
        return found

    def swap(self, amiss: float) -> float:
        """Let helpings of different eaters change places as long as nutrients come nearer their bounds."""
        slots, sums = self.host.slots, self._sums()
        swaps = 0
        for one, (_, eater, span, _) in enumerate(slots):
            for other in range(one + 1, len(slots)):
                first, second = self.holder[one], self.holder[other]
                _, guest, at, _ = slots[other]
                if first < 0 or second < 0 or first == second or eater == guest:
                    continue
                a, b = self.dinners[first], self.dinners[second]
                if not (a.mask >> other & 1 and b.mask >> one & 1) or a.number == b.number:
                    continue
                mine, theirs = sums[eater, span], sums[guest, at]
                new = [x - p + q for x, p, q in zip(mine, a.offs[eater], b.offs[eater], strict=True)]
                others = [x - q + p for x, p, q in zip(theirs, a.offs[guest], b.offs[guest], strict=True)]
                gain = _beyond(mine) + _beyond(theirs) - _beyond(new) - _beyond(others)
                if gain < 1e-6 or self.host.bites[one] != self.host.bites[other]:
                    continue
                self.take(one)
                self.take(other)
                if self.may(one, b) and self.may(other, a):
                    self.put(one, second)
                    self.put(other, first)
                    sums[eater, span], sums[guest, at] = new, others
                    amiss -= gain
                    swaps += 1
                    if amiss <= ROUNDING or swaps >= MOST_SWAPS:
                        return max(0.0, amiss)
                else:
                    self.put(one, first)
                    self.put(other, second)
        return max(0.0, amiss)

    def no_place(self) -> float:
        """Portions without a container, or without a place in the freezer."""
        rules, slots = self.host.question.rules, self.host.slots
        short = 0.0
        for night in self.host.sessions:
            held = frozen = load = 0
            for dinner in self.dinners:
                if dinner.cooked > night:
                    continue
                if dinner.is_lot:
                    held += dinner.left if dinner.last > night else 0
                for slot in dinner.seats:
                    day = slots[slot][0]
                    if day > night:
                        held += 1
                        if day > dinner.fridge_end and not dinner.is_lot:
                            frozen += day > night + 1
                            load += dinner.cooked == night
            short += max(0, held - self.host.places)
            if rules.freezer_places is not None:
                short += max(0, frozen - rules.freezer_places)
            if rules.freezing_load is not None:
                short += max(0, load - rules.freezing_load)
        return short
