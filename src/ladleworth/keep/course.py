"""The course of a cooling: temperatures at any time, and when a limit is passed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from ladleworth.errors import BadField
from ladleworth.keep.bodies import Body, Shape, Stage
from ladleworth.keep.conduction import run
from ladleworth.keep.legs import Leg, Readings
from ladleworth.keep.modes import Array

LOOKS, LOOKS_AT_LAST = 16, 64
"""Times at which a stage, and an endless one, is looked at before a limit is sought between two of them."""

DIED_AWAY = 24.0
"""An endless stage is looked at until its slowest term has died away e^-24-fold: a billionth of a degree."""

PARTS = 32
"""A limit is sought by parting the stretch that holds it, then by a straight line: to a hundred-thousandth of the time."""


class Stretch(Protocol):
    """A stretch of time that can be read at any moment of it."""

    @property
    def start_s(self) -> float:
        """When it starts, s."""

    @property
    def seconds(self) -> float:
        """How long it is, s."""

    @property
    def opening(self) -> Readings:
        """The readings at its start."""

    def readings(self, since_s: Array) -> Readings:
        """Tell the temperatures at times since its start, s."""


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """How a body went through its stages; `times` and `seen` are where it has been looked at, in order of time."""

    shape: Shape
    legs: tuple[Stretch, ...]
    times: Array
    seen: Readings

    def at(self, seconds: Sequence[float] | Array) -> Readings:
        """Tell the temperatures at times since the start, in any order.

        Parameters
        ----------
        seconds
            Times from 0 on, s; past the end of the last stage there is nothing to tell.

        Raises
        ------
        BadField
            If a time lies outside the stages.
        """
        wanted = np.asarray(seconds, dtype=float)
        ends = np.array([leg.start_s + leg.seconds for leg in self.legs])
        if wanted.size and (wanted.min() < 0 or wanted.max() > ends[-1] + 1e-6):
            raise BadField(f"a time lies outside the stages; ask for 0 to {ends[-1]:g} s")
        which = np.minimum(np.searchsorted(ends, wanted), len(self.legs) - 1)
        parts = [(which == at, leg) for at, leg in enumerate(self.legs) if np.any(which == at)]
        found = [(mask, _looked(leg, wanted[mask] - leg.start_s)) for mask, leg in parts]
        columns = [np.empty(len(wanted)) for _ in range(3)] + [np.empty((len(wanted), len(self.shape.faces)))]
        for mask, readings in found:
            for column, values in zip(columns, readings.columns, strict=True):
                column[mask] = values
        return Readings(*columns)

    def when(self, point: str, level_c: float, since_s: float = 0.0) -> float | None:
        """Find when a temperature first reaches a level.

        Parameters
        ----------
        point
            hottest, coldest, mean, or a face of the shape.
        level_c
            The level, °C. A temperature that begins above it has to fall, any other to rise.
        since_s
            From when on, s: the start of the course, or of one of its stages.

        Returns
        -------
        float or None
            Seconds since the start of the course, `since_s` if it begins there; None if it is never reached.
        """
        first = int(np.searchsorted(self.times, since_s - 1e-6))
        seen = self.seen.of(point, self.shape)[first:]
        falls = bool(seen[0] > level_c)
        over = seen > level_c if falls else seen < level_c
        if not over[0]:
            return since_s
        reached = int(np.argmin(over))
        if over[reached]:
            return None
        low, high = (float(each) for each in self.times[first + reached - 1 : first + reached + 1])
        return self._between(point, level_c, low, high, falls=falls)

    def _between(self, point: str, level_c: float, low: float, high: float, *, falls: bool) -> float:
        """Part a stretch of one leg, and draw a straight line over the part that holds the level."""
        if high - low < 1e-6:
            return high
        middle = (low + high) / 2
        leg = next(leg for leg in self.legs if middle <= leg.start_s + leg.seconds)
        times = np.linspace(low, high, PARTS + 1)
        values = _looked(leg, times - leg.start_s).of(point, self.shape) - level_c
        not_yet = values > 0 if falls else values < 0
        at = PARTS if not_yet.all() else max(1, int(np.argmin(not_yet)))
        low, high = float(times[at - 1]), float(times[at])
        before, after = float(values[at - 1]), float(values[at])
        if before == after or before * after > 0:
            return high
        return low + (high - low) * before / (before - after)


def follow(body: Body, stages: Sequence[Stage], start_c: float) -> Course:
    """Let a body go through its stages, and look at it on the way.

    Parameters
    ----------
    body, stages, start_c
        As for `conduction.run`.

    Returns
    -------
    Course
        Looked at often enough to find when a limit is passed.
    """
    legs = run(body, stages, start_c)
    return looked_at(body.shape, legs, [_looks(leg) for leg in legs])


def looked_at(shape: Shape, legs: Sequence[Stretch], looks: Sequence[Array]) -> Course:
    """Look at stretches at times since the start of each, and at their starts."""
    times, seen = [], []
    for leg, since in zip(legs, looks, strict=True):
        times.append(np.append(0.0, since) + leg.start_s)
        rows = zip(leg.opening.columns, leg.readings(since).columns, strict=True)
        seen.append([np.concatenate(pair) for pair in rows])
    columns = [np.concatenate(parts) for parts in zip(*seen, strict=True)]
    return Course(shape, tuple(legs), np.concatenate(times), Readings(*columns))


def _looks(leg: Leg) -> Array:
    """Choose when to look: closer together at the beginning of a stage, where most happens."""
    if math.isfinite(leg.seconds):
        number = max(4, min(LOOKS, int(leg.seconds / 20)))
        return leg.seconds * (np.arange(1, number + 1) / number) ** 1.5
    slowest = leg.slowest or max(float(one.rates[1]) for one in leg.directions)
    return DIED_AWAY / slowest * (np.arange(1, LOOKS_AT_LAST + 1) / LOOKS_AT_LAST) ** 2


def _looked(leg: Stretch, since_s: Array) -> Readings:
    """Read a leg; its very start as it is known from the leg before."""
    readings = leg.readings(since_s)
    at_start = since_s <= 1e-9
    if at_start.any():
        for column, value in zip(readings.columns, leg.opening.columns, strict=True):
            column[at_start] = value[0]
    return readings
