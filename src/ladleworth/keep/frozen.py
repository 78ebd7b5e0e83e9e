"""Food that freezes or thaws: heat and ice together, in thin cells, advanced by a solver of stiff equations.

What a cell holds is counted as heat (enthalpy), zero where freezing begins; from it follow temperature and ice. The
same cells take faces whose exchange changes with their temperature. Slower than the series, for what these cannot do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from ladleworth.errors import BadField
from ladleworth.facts.heat import heat_limit
from ladleworth.keep.bodies import Face, Matter, Shape, Stage
from ladleworth.keep.course import Course, looked_at
from ladleworth.keep.exchange import radiated_w_m2k
from ladleworth.keep.legs import Readings
from ladleworth.keep.modes import Array

CELLS = 100
"""Cells over the depth: with half as many no time changes by 0.05 %."""

HORIZON_S = 30 * 86_400.0
"""An endless stage is followed for thirty days."""

LOOKS = 240


@dataclass(frozen=True, slots=True)
class FreezingMatter:
    """Food that can freeze: unfrozen and frozen properties, W/(m·K), kg/m³ and J/(kg·K).

    `freezing_c` is where ice begins, below 0 °C; `freezable` the share of the mass that is water and can freeze;
    `latent_j_kg` what melting 1 kg of ice takes.
    """

    unfrozen: Matter
    frozen_conductivity_w_mk: float
    frozen_heat_capacity_j_kgk: float
    freezing_c: float
    freezable: float
    latent_j_kg: float

    def __post_init__(self) -> None:
        for name in ("frozen_conductivity_w_mk", "frozen_heat_capacity_j_kgk", "latent_j_kg"):
            if not getattr(self, name) > 0:
                raise BadField(f"{name} is {getattr(self, name)}; write a number above 0")
        if not self.freezing_c < 0:
            raise BadField(
                f"freezing_c is {self.freezing_c}; food begins to freeze below 0 °C: write -1, say"
            )
        if not 0 <= self.freezable <= 1:
            raise BadField(f"freezable is {self.freezable}; write a share from 0 to 1")

    @property
    def latent_of_food_j_kg(self) -> float:
        """What all ice of 1 kg of the food holds back, J/kg."""
        return self.latent_j_kg * self.freezable

    def heat_j_kg(self, degrees_c: float) -> float:
        """Give the heat in 1 kg, counted from where freezing begins, J/kg; below zero when colder."""
        above = degrees_c - self.freezing_c
        if above >= 0:
            return self.unfrozen.heat_capacity_j_kgk * above
        ice = 1 - self.freezing_c / degrees_c
        return self.frozen_heat_capacity_j_kgk * above - self.latent_of_food_j_kg * ice


def plain_latent_j_kg() -> float:
    """Give what melting 1 kg of ice takes, J/kg (`ashrae-foods`)."""
    return float(heat_limit("latent heat of ice").value)


@dataclass(frozen=True, slots=True)
class FreeFace:
    """A face in still air: h = factor (ΔT / length)^power by convection, and radiation with an emissivity."""

    factor_w: float
    length_m: float
    power: float
    emissivity: float
    surroundings_c: float

    def exchange_w_m2k(self, surface_c: float) -> float:
        """Give the exchange at a temperature of the surface, W/(m²·K)."""
        apart = abs(surface_c - self.surroundings_c)
        convected = self.factor_w * math.pow(apart / self.length_m, self.power)
        return convected + radiated_w_m2k(surface_c, self.surroundings_c, self.emissivity)


@dataclass(frozen=True, slots=True, eq=False)
class CellLeg:
    """A stage in cells: `heats` gives the heat in every cell, J/m³, at times since its start."""

    start_s: float
    seconds: float
    heats: Callable[[Array], Array]
    slab: _Slab
    faces: tuple[Face | FreeFace, ...]

    @property
    def opening(self) -> Readings:
        """The readings at its start."""
        return self.readings(np.zeros(1))

    def readings(self, since_s: Array) -> Readings:
        """Tell the temperatures at times since this leg's start, s."""
        cells = self.slab.temperatures(self.heats(since_s)).T
        passes = self.slab.passes(cells[:, [0, -1]])
        surfaces = [
            _surfaces(face, cells[:, at], passes[:, at]) for at, face in zip((0, -1), self.faces, strict=True)
        ]
        return Readings(cells.max(axis=1), cells.min(axis=1), cells.mean(axis=1), np.stack(surfaces, axis=1))


@dataclass(frozen=True, slots=True, eq=False)
class _Slab:
    matter: FreezingMatter
    cell_m: float

    def temperatures(self, heats: Array) -> Array:
        """Turn heat in cells, J/m³, into °C: below freezing by solving a quadratic equation."""
        food = self.matter
        by_mass = heats / food.unfrozen.density_kg_m3
        above = by_mass / food.unfrozen.heat_capacity_j_kgk
        lost = np.maximum(-by_mass, 0.0)
        capacity, start = food.frozen_heat_capacity_j_kgk, -food.freezing_c
        half = capacity * start + food.latent_of_food_j_kg - lost
        below = (np.sqrt(half**2 + 4 * capacity * lost * start) - half) / (2 * capacity)
        found: Array = food.freezing_c + np.where(heats >= 0, above, -below)
        return found

    def heat(self, degrees_c: float) -> float:
        """Give the heat of a cell at a temperature, J/m³."""
        return self.matter.heat_j_kg(degrees_c) * self.matter.unfrozen.density_kg_m3

    def passes(self, temperatures: Array) -> Array:
        """Give what each half cell lets pass, W/(m²·K)."""
        food = self.matter
        ice = 1 - food.freezing_c / np.minimum(temperatures, food.freezing_c)
        unfrozen = food.unfrozen.conductivity_w_mk
        found: Array = (unfrozen + (food.frozen_conductivity_w_mk - unfrozen) * ice) * 2 / self.cell_m
        return found

    def change(self, heats: Array, faces: Sequence[Face | FreeFace]) -> Array:
        """Say how fast the heat of each cell changes, W/m³."""
        temperatures = self.temperatures(heats)
        passes = self.passes(temperatures)
        flows = np.zeros(len(heats) + 1)
        flows[1:-1] = (temperatures[:-1] - temperatures[1:]) / (1 / passes[:-1] + 1 / passes[1:])
        flows[0] = -_outflow(faces[0], float(temperatures[0]), float(passes[0]))
        flows[-1] = _outflow(faces[1], float(temperatures[-1]), float(passes[-1]))
        changed: Array = (flows[:-1] - flows[1:]) / self.cell_m
        return changed


def follow_freezing(
    matter: FreezingMatter,
    depth_m: float,
    stages: Sequence[tuple[float, tuple[Face | FreeFace, ...]]],
    start_c: float,
    cells: int = CELLS,
) -> Course:
    """Let a slab that may freeze or thaw go through stages.

    Parameters
    ----------
    matter, depth_m
        The food, and how deep it is, m.
    stages
        Seconds and the faces above and below; an endless last stage is followed for thirty days.
    start_c
        Its temperature at the start.
    cells
        How finely it is cut.

    Returns
    -------
    Course
        As for a body that does not freeze; its hottest and coldest points are cells.
    """
    slab = _Slab(matter, depth_m / cells)
    heats = np.full(cells, slab.heat(start_c))
    legs: list[CellLeg] = []
    started = 0.0
    for seconds, faces in stages:
        lasting = min(seconds, HORIZON_S)
        solution = _solved(slab, heats, faces, lasting)
        legs.append(CellLeg(started, lasting, solution, slab, faces))
        heats = solution(np.array([lasting]))[:, 0]
        started += lasting
    return looked_at(Shape.SLAB, tuple(legs), [_looks(leg.seconds) for leg in legs])


def plain_stages(stages: Sequence[Stage]) -> list[tuple[float, tuple[Face | FreeFace, ...]]]:
    """Turn stages of a slab into what `follow_freezing` takes.

    Raises
    ------
    BadField
        If one is stirred: ice is not.
    """
    if any(stage.stir_every_s is not None for stage in stages):
        raise BadField("food that freezes is not stirred; leave stirring out, or freezing")
    return [(stage.seconds, tuple(stage.faces)) for stage in stages]


def _solved(
    slab: _Slab, heats: Array, faces: Sequence[Face | FreeFace], seconds: float
) -> Callable[[Array], Array]:
    from scipy.integrate import solve_ivp

    largest = slab.matter.unfrozen.density_kg_m3 * slab.matter.unfrozen.heat_capacity_j_kgk
    solved = solve_ivp(
        lambda _, state: slab.change(state, faces),
        (0.0, seconds),
        heats,
        method="LSODA",
        dense_output=True,
        rtol=1e-6,
        atol=1e-5 * largest,
        lband=1,
        uband=1,
    )
    if not solved.success:
        raise BadField(f"this freezing cannot be followed ({solved.message}); give milder figures")
    found: Callable[[Array], Array] = solved.sol
    return found


def _surface(face: Face | FreeFace, cell_c: float, passes: float) -> float:
    """Give the temperature of a face whose exchange may depend on it."""
    if isinstance(face, Face):
        share = passes / (passes + face.exchange_w_m2k)
        return share * cell_c + (1 - share) * face.surroundings_c
    surface = cell_c
    for _ in range(20):
        exchange = face.exchange_w_m2k(surface)
        nearer = (passes * cell_c + exchange * face.surroundings_c) / (passes + exchange)
        if math.isclose(nearer, surface, abs_tol=1e-9):
            break
        surface = nearer
    return surface


def _surfaces(face: Face | FreeFace, cells_c: Array, passes: Array) -> Array:
    """Give the temperatures of a face at many times."""
    if isinstance(face, Face):
        share = passes / (passes + face.exchange_w_m2k)
        found: Array = share * cells_c + (1 - share) * face.surroundings_c
        return found
    pairs = zip(cells_c.tolist(), passes.tolist(), strict=True)
    return np.array([_surface(face, cell, each) for cell, each in pairs])


def _outflow(face: Face | FreeFace, cell_c: float, passes: float) -> float:
    """Give what leaves the outermost cell through its face, W/m²."""
    return passes * (cell_c - _surface(face, cell_c, passes))


def _looks(seconds: float) -> Array:
    return seconds * (np.arange(1, LOOKS + 1) / LOOKS) ** 3
