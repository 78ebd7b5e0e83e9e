"""Heat from the middle of a cylinder or a sphere outwards: the exact series of Bessel functions, and of sine over radius."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

import numpy as np

from ladleworth.keep.bodies import Matter
from ladleworth.keep.modes import LEAST_TERMS, Array, Direction, places_of, sealed


@lru_cache(maxsize=128)
def round_rod(
    matter: Matter, radius_m: float, side_w_m2k: float, points: int, terms: int = LEAST_TERMS
) -> Direction:
    """Take a long cylinder apart from its middle to its side: terms A J0(z r/R) with z J1(z) = B J0(z)."""
    from scipy.special import j0, j1

    def condition(zeta: Array, biot: float) -> Array:
        solved: Array = zeta * j1(zeta) - biot * j0(zeta)
        return solved

    zeta = _round_roots(matter, radius_m, side_w_m2k, condition, _rod_gaps(terms))
    outer = j0(zeta)
    size = 1 / np.sqrt(outer**2 + j1(zeta) ** 2)
    means = np.divide(2 * j1(zeta), zeta, out=np.ones_like(zeta), where=zeta > 0) * size
    return _round(
        matter, radius_m, side_w_m2k, zeta, size, means, lambda at: j0(np.outer(at, zeta)), 2, points
    )


@lru_cache(maxsize=128)
def ball(
    matter: Matter, radius_m: float, side_w_m2k: float, points: int, terms: int = LEAST_TERMS
) -> Direction:
    """Take a sphere apart from its middle to its side: terms A sin(z r/R)/(z r/R) with 1 − z cot z = B."""

    def condition(zeta: Array, biot: float) -> Array:
        # divided by z, so that the root at 0 counts for nothing but without any exchange
        slip: Array = np.sinc(zeta / np.pi) * (1 - biot) - np.cos(zeta)
        return slip

    gaps = np.pi * np.array([np.arange(terms), np.arange(1, terms + 1)])
    zeta = _round_roots(matter, radius_m, side_w_m2k, condition, gaps)
    wave = np.divide(np.sin(2 * zeta), 2 * zeta, out=np.ones_like(zeta), where=zeta > 0)
    size = np.divide(
        zeta * np.sqrt(2 / 3),
        np.sqrt(np.maximum(1 - wave, 1e-300)),
        out=np.ones_like(zeta),
        where=zeta > 1e-6,
    )
    means = np.divide(
        3 * (np.sin(zeta) - zeta * np.cos(zeta)), zeta**3, out=np.ones_like(zeta), where=zeta > 1e-3
    )
    waves = lambda at: np.sinc(np.outer(at, zeta) / np.pi)  # noqa: E731
    return _round(matter, radius_m, side_w_m2k, zeta, size, means * size, waves, 3, points)


@lru_cache(maxsize=8)
def _rod_gaps(terms: int) -> Array:
    """Between which values each root of z J1(z) = B J0(z) lies: a zero of J1 (0 the first), and one of J0."""
    from scipy.special import jn_zeros

    return np.array([np.append(0.0, jn_zeros(1, terms - 1)), jn_zeros(0, terms)])


def _round_roots(
    matter: Matter,
    radius_m: float,
    side_w_m2k: float,
    condition: Callable[[Array, float], Array],
    gaps: Array,
) -> Array:
    """Halve each gap until its root is as exact as a number can be."""
    biot = side_w_m2k * radius_m / matter.conductivity_w_mk
    low, high = gaps[0].copy(), gaps[1].copy()
    side = np.sign(condition(high - 1e-12 * high, biot))
    for _ in range(58):
        middle = (low + high) / 2
        over = np.sign(condition(middle, biot)) == side
        low, high = np.where(over, low, middle), np.where(over, middle, high)
    zeta: Array = (low + high) / 2
    if biot == 0:
        zeta[0] = 0.0
    return zeta


def _round(
    matter: Matter,
    radius_m: float,
    side_w_m2k: float,
    zeta: Array,
    size: Array,
    means: Array,
    waves: Callable[[Array], Array],
    dimensions: int,
    points: int,
) -> Direction:
    """Gather the direction of a cylinder (2 dimensions) or a sphere (3) from its roots and terms."""
    stores = matter.density_kg_m3 * matter.heat_capacity_j_kgk * radius_m
    places, weights = places_of(3 * len(zeta), dimensions - 1)
    faces = size * waves(np.ones(1))
    return sealed(
        rates=matter.diffusivity_m2_s * (zeta / radius_m) ** 2,
        means=means,
        at_points=size * waves(np.linspace(0, 1, points)),
        at_faces=faces,
        forces=side_w_m2k * dimensions / stores * faces,
        face_shares=np.ones(1),
        nodes=size * waves(places),
        weights=weights,
    )
