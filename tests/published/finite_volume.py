"""Another way to reckon cooling, for the tests alone: finite volumes, stepped through time after Crank and Nicolson.

It shares nothing with the series that it checks: no terms, no roots, no eigenvectors. Cells are on a grid of one, two (round,
by height and radius) or three directions (one quarter of a box, by height, half length and half width).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_matrix, diags, eye, lil_matrix
from scipy.sparse.linalg import splu

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Food:
    k: float
    rho: float
    c: float


@dataclass(frozen=True, slots=True)
class Spell:
    """So many seconds with (exchange, surroundings) for each outer face; `mixed_at_end`: stirred when it is over."""

    seconds: float
    faces: tuple[tuple[float, float], ...]
    mixed_at_end: bool = False


@dataclass(frozen=True, slots=True)
class Grid:
    """Cells: what each stores (J/K), what passes between neighbours (W/K), and which touch a face (area, half depth)."""

    stores: Array
    links: tuple[tuple[int, int, float], ...]
    outer: tuple[tuple[tuple[int, float, float], ...], ...]


def slab(food: Food, depth: float, cells: int) -> Grid:
    step = depth / cells
    links = tuple((at, at + 1, food.k / step) for at in range(cells - 1))
    ends = (((0, 1.0, step / 2),), ((cells - 1, 1.0, step / 2),))
    return Grid(np.full(cells, food.rho * food.c * step), links, ends)


def round_box(food: Food, height: float, diameter: float, high: int, wide: int) -> Grid:
    """Rings by height; faces: top, bottom, side."""
    dz, dr = height / high, diameter / 2 / wide
    rims = np.pi * (np.arange(wide + 1) * dr) ** 2
    areas = np.diff(rims)
    stores, links = np.empty(high * wide), []
    top, bottom, side = [], [], []
    for row in range(high):
        for ring in range(wide):
            at = row * wide + ring
            stores[at] = food.rho * food.c * areas[ring] * dz
            if row + 1 < high:
                links.append((at, at + wide, food.k * areas[ring] / dz))
            if ring + 1 < wide:
                links.append((at, at + 1, food.k * 2 * np.pi * (ring + 1) * dr * dz / dr))
        side.append((row * wide + wide - 1, np.pi * diameter * dz, dr / 2))
    for ring in range(wide):
        top.append((ring, areas[ring], dz / 2))
        bottom.append(((high - 1) * wide + ring, areas[ring], dz / 2))
    return Grid(stores, tuple(links), (tuple(top), tuple(bottom), tuple(side)))


def box(food: Food, sizes: tuple[float, float, float], cells: tuple[int, int, int]) -> Grid:
    """A quarter of a box: whole height, half length, half width; faces: top, bottom, sides, ends."""
    steps = (sizes[0] / cells[0], sizes[1] / 2 / cells[1], sizes[2] / 2 / cells[2])
    number = np.arange(np.prod(cells)).reshape(cells)
    areas = (steps[1] * steps[2], steps[0] * steps[2], steps[0] * steps[1])
    links = []
    for axis in range(3):
        here = np.moveaxis(number, axis, 0)
        passes = food.k * areas[axis] / steps[axis]
        for before, after in pairwise(here):
            links += [
                (int(one), int(other), passes)
                for one, other in zip(before.ravel(), after.ravel(), strict=True)
            ]
    ends = (number[0], number[-1], number[:, -1], number[:, :, -1])
    axes = (0, 0, 1, 2)
    outer = tuple(
        tuple((int(at), areas[axis], steps[axis] / 2) for at in end.ravel())
        for end, axis in zip(ends, axes, strict=True)
    )
    stores = np.full(number.size, food.rho * food.c * steps[0] * steps[1] * steps[2])
    return Grid(stores, tuple(links), outer)


def stepped(
    grid: Grid, food: Food, spells: Sequence[Spell], start: float, step_s: float
) -> tuple[Array, Array, Array]:
    """Give times, the hottest temperature of cells and faces, and the mean."""
    state = np.full(len(grid.stores), start)
    times, hottest, means = [0.0], [start], [start]
    for spell in spells:
        matrix, gain = _system(grid, food, spell)
        number = max(1, round(spell.seconds / step_s))
        dt = spell.seconds / number
        # the first two steps are halved and taken backwards (Rannacher), so that a jump at a face rings no bell
        backward = splu(csc_matrix(eye(len(state)) - dt / 2 * matrix))
        ahead = (eye(len(state)) + dt / 2 * matrix).tocsr()
        for at in range(number):
            if at < 2:
                for _ in range(2):
                    state = backward.solve(state + dt / 2 * gain)
            else:
                state = backward.solve(ahead @ state + dt * gain)
            times.append(times[-1] + dt)
            hottest.append(max(float(state.max()), _outermost(grid, food, spell, state)))
            means.append(float(state @ grid.stores / grid.stores.sum()))
        if spell.mixed_at_end:
            state = np.full(len(state), means[-1])
    return np.array(times), np.array(hottest), np.array(means)


def _outermost(grid: Grid, food: Food, spell: Spell, state: Array) -> float:
    """Give the hottest place of the faces themselves, half a cell beyond the outer cells."""
    found = []
    for (exchange, around), cells in zip(spell.faces, grid.outer, strict=True):
        at = np.array([cell for cell, _, _ in cells])
        passes = food.k / np.array([half for _, _, half in cells])
        found.append(float(((passes * state[at] + exchange * around) / (passes + exchange)).max()))
    return max(found)


def _system(grid: Grid, food: Food, spell: Spell) -> tuple[csc_matrix, Array]:
    size = len(grid.stores)
    matrix = lil_matrix((size, size))
    gain = np.zeros(size)
    for one, other, passes in grid.links:
        matrix[one, one] -= passes
        matrix[other, other] -= passes
        matrix[one, other] += passes
        matrix[other, one] += passes
    for (exchange, around), cells in zip(spell.faces, grid.outer, strict=True):
        for at, area, half in cells:
            passes = area / (1 / exchange + half / food.k) if exchange else 0.0
            matrix[at, at] -= passes
            gain[at] += passes * around
    scale = diags(1 / grid.stores)
    return (scale @ matrix.tocsr()).tocsc(), gain / grid.stores
