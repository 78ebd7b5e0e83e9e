"""One stretch of cooling without change: its temperatures at any time, everywhere in the body.

A body is one, two or three directions at once (slab; cylinder; brick). What a uniform body does in surroundings of one
temperature is the product of what its directions do; here the same series are kept as a table of terms with a row a
direction, so that any profile and faces with different surroundings have a place in it as well.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ladleworth.keep.bodies import Shape
from ladleworth.keep.modes import Array, Direction

GONE = 1e-10
"""A term that has died away to this share is left out."""

SPAN = 6.0
"""How many times as late the last of the times may be that are reckoned together."""


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """Temperatures at some times, °C: arrays with one row a time, `faces` with one column a face of the shape.

    `hottest` and `coldest` are taken over the whole body, wherever they are; a face is told at its middle.
    """

    hottest: Array
    coldest: Array
    mean: Array
    faces: Array

    @classmethod
    def uniform(cls, shape: Shape, degrees_c: float) -> Readings:
        """Tell of a body that is as warm everywhere."""
        row = np.full(1, degrees_c)
        return cls(row, row, row, np.full((1, len(shape.faces)), degrees_c))

    @property
    def columns(self) -> tuple[Array, Array, Array, Array]:
        """All four, in order."""
        return self.hottest, self.coldest, self.mean, self.faces

    def of(self, point: str, shape: Shape) -> Array:
        """Give one of them by name: hottest, coldest, mean, or a face of the shape."""
        if point in shape.faces:
            column: Array = self.faces[:, shape.faces.index(point)]
            return column
        found: Array = getattr(self, point)
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Base:
    """Temperatures along the first direction that the terms are added to: at its points and nodes, and their mean."""

    points: Array
    nodes: Array
    mean: float


@dataclass(frozen=True, slots=True, eq=False)
class Leg:
    """A stretch without change: from `start_s`, `seconds` long, beginning with `amounts` of the terms.

    Temperatures are `base` and the terms; `settled` is what the amounts of these tend to. No temperature lies outside
    `bounds`. `around` are the surroundings of the faces, °C. `first` holds the readings at its start where they are
    known better than from the series: from the leg before.
    """

    shape: Shape
    start_s: float
    seconds: float
    directions: tuple[Direction, ...]
    base: Base
    settled: Array
    amounts: Array
    bounds: tuple[float, float]
    around: Array
    first: Readings | None = None

    @property
    def slowest(self) -> float:
        """The rate at which the last unevenness dies away, 1/s; 0 only for a body that gives off nothing."""
        least = sum(float(one.rates[0]) for one in self.directions)
        return least if least > 1e-15 else 0.0

    @property
    def opening(self) -> Readings:
        """The readings at its start."""
        return self.first or self.readings(np.zeros(1))

    def readings(self, since_s: Array) -> Readings:
        """Tell the temperatures at times since this leg's start, s.

        Times are taken together with those up to six times as late: the later, the fewer terms are still there.
        """
        if not len(since_s) or since_s.max() <= SPAN * since_s.min():
            return self._together(since_s)
        early = since_s <= SPAN * since_s.min()
        parts = [self._together(since_s[early]).columns, self.readings(since_s[~early]).columns]
        order = np.argsort(np.argsort(~early, kind="stable"), kind="stable")
        return Readings(*(np.concatenate(pair)[order] for pair in zip(*parts, strict=True)))

    def _together(self, since_s: Array) -> Readings:
        temperatures, means = self._at_points(since_s)
        low, high = self.bounds
        return Readings(
            np.clip(_peak(temperatures), low, high),
            np.clip(temperatures.reshape(len(since_s), -1).min(axis=1), low, high),
            means,
            np.clip(self._at_faces(temperatures), low, high),
        )

    def at_end(self) -> tuple[Array, float]:
        """Give the amounts of the terms at the end, and the mean temperature."""
        fading = outer([np.exp(-one.rates * self.seconds) for one in self.directions])
        amounts = self.settled + (self.amounts - self.settled) * fading
        mean = amounts
        for one in reversed(self.directions):
            mean = mean @ one.means
        return amounts, self.base.mean + float(mean)

    def _at_points(self, since_s: Array) -> tuple[Array, Array]:
        """Give temperatures by time and place, and the mean by time."""
        lines = [np.vstack([one.at_points, one.means]) for one in self.directions]
        fades = [np.exp(-np.outer(since_s, one.rates)) for one in self.directions]
        left = [max(1, int(np.count_nonzero(fade.max(axis=0) > GONE))) for fade in fades]
        amounts = (self.amounts - self.settled)[tuple(slice(number) for number in left)]
        cut = zip(lines, fades, left, strict=True)
        found = _spread(amounts, [(line[:, :number], fade[:, :number]) for line, fade, number in cut])
        if self.settled.any():
            found = found + _spread(self.settled, [(line, np.ones((1, line.shape[1]))) for line in lines])
        inner = (slice(None), *(slice(-1) for _ in lines))
        temperatures: Array = found[inner] + self.base.points.reshape(-1, *(1 for _ in lines[1:]))
        means: Array = found.reshape(len(since_s), -1)[:, -1] + self.base.mean
        return temperatures, means

    def _at_faces(self, temperatures: Array) -> Array:
        """Pick the middle of each face out of the temperatures at points."""
        middle = temperatures.shape[1] // 2
        places: dict[Shape, list[tuple[int, ...]]] = {
            Shape.SLAB: [(0,), (-1,)],
            Shape.BRICK: [(0, 0, 0), (-1, 0, 0), (middle, -1, 0), (middle, 0, -1)],
            Shape.CYLINDER: [(0, 0), (-1, 0), (middle, -1)],
            Shape.LONG_CYLINDER: [(-1,)],
            Shape.SPHERE: [(-1,)],
        }
        outermost = np.stack([_at_place(temperatures, place) for place in places[self.shape]], axis=1)
        if self.shape is not Shape.SLAB:
            return outermost
        shares = self.directions[0].face_shares
        found: Array = shares * outermost + (1 - shares) * self.around
        return found


def _at_place(temperatures: Array, place: Sequence[int]) -> Array:
    """Pick one place out of temperatures by time and place."""
    for at in place:
        temperatures = temperatures[:, at]
    return temperatures


def outer(parts: Sequence[Array]) -> Array:
    """Multiply rows into a table with a row's length in each direction."""
    whole = parts[0]
    for part in parts[1:]:
        whole = np.multiply.outer(whole, part)
    return whole


def _spread(amounts: Array, directions: Sequence[tuple[Array, Array]]) -> Array:
    """Sum the terms at every point of every direction and time: by time, then a place in each direction.

    `directions` hold the terms by point, and what is left of them by time.
    """
    if len(directions) == 1:
        (line, fade), *_ = directions
        flat: Array = (fade * amounts) @ line.T
        return flat
    (line, fade), (last, fading) = directions[0], directions[-1]
    if len(directions) == 2:
        terms = fade[:, :, None] * amounts * fading[:, None, :]
        plane: Array = line @ (terms @ last.T)
        return plane
    middle, lasting = directions[1]
    terms = fade[:, :, None, None] * amounts * lasting[:, None, :, None] * fading[:, None, None, :]
    times, first, second, third = terms.shape
    sides = middle @ (terms.reshape(-1, third) @ last.T).reshape(times, first, second, -1)
    space: Array = line @ sides.reshape(times, first, -1)
    return space.reshape(times, len(line), len(middle), len(last))


def _peak(temperatures: Array) -> Array:
    """Give the greatest temperature by time, through a parabola over the three points about the hottest."""
    rows = np.arange(len(temperatures))
    if temperatures.ndim == 2:
        column = temperatures
    else:
        by_depth = temperatures.reshape(*temperatures.shape[:2], -1)
        column = by_depth[rows, :, by_depth.max(axis=1).argmax(axis=1)]
    hottest = column.argmax(axis=1)
    at = np.minimum(np.maximum(hottest, 1), column.shape[1] - 2)
    before, here, after = column[rows, at - 1], column[rows, at], column[rows, at + 1]
    bend = 2 * here - before - after
    lean = (after - before) / 2
    inside = (bend > 0) & (np.abs(lean) <= bend)
    top = here + np.divide(lean**2, 2 * bend, out=np.zeros_like(here), where=inside)
    found: Array = np.where(inside, top, column[rows, hottest])
    return found
