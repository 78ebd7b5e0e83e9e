"""Heat in one direction of a body, taken apart into shapes that each die away at a rate of their own.

Here the plane wall: the exact series of every textbook on conduction, a sum of cosines. Cylinder and sphere are in
`rounds.py`, a slab in layers in `layers.py`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from ladleworth.keep.bodies import Matter

Array: TypeAlias = NDArray[np.float64]

LEAST_TERMS, MOST_TERMS = 48, 200
SHARP = 4.0
"""Terms of a series: enough that those left out have died away e^-16-fold (the square of SHARP) after a minute."""


@dataclass(frozen=True, slots=True, eq=False)
class Direction:
    """One direction of a body: its series, and what it is at points, at faces and on the whole.

    The series is normed so that the mean of each squared term over the body is 1. Arrays have one column a term.

    Parameters
    ----------
    rates
        How fast each term dies away, 1/s.
    means
        The mean of each term: a body at 1 °C throughout is the sum of means × terms.
    at_points, at_faces
        The terms at the points in which the hottest is looked for, and at the faces.
    forces
        What 1 °C around each face adds to each term in a second.
    face_shares
        How much of a face's temperature is the outermost food's; the rest is its surroundings'.
    nodes, weights
        The terms at places whose weighted sum is a mean over the body: to take a profile apart.
    """

    rates: Array
    means: Array
    at_points: Array
    at_faces: Array
    forces: Array
    face_shares: Array
    nodes: Array
    weights: Array

    def taken_apart(self, profile: Array) -> Array:
        """Give the amount of each term in a profile told at the nodes."""
        apart: Array = self.nodes.T @ (self.weights * profile)
        return apart


def terms_for(matter: Matter, length_m: float, seconds: float, sharp: float, least: int, most: int) -> int:
    """Say how many terms are needed that those left out have died away e^-sharp²-fold after so many seconds."""
    needed = sharp / math.pi * length_m / math.sqrt(matter.diffusivity_m2_s * seconds)
    return min(most, max(least, math.ceil(needed)))


@lru_cache(maxsize=128)
def carried_over(before: Direction, after: Direction) -> Array:
    """Give the matrix that turns amounts of the terms before into amounts of the terms after."""
    # not by a matrix product: a library with threads wakes them all for one so small
    over: Array = np.einsum("np,nq->pq", after.weights[:, None] * after.nodes, before.nodes)
    return over


@lru_cache(maxsize=128)
def wall(
    matter: Matter,
    depth_m: float,
    first_w_m2k: float,
    second_w_m2k: float,
    points: int,
    terms: int = LEAST_TERMS,
) -> Direction:
    """Take a plane wall apart; its two faces may differ.

    Parameters
    ----------
    matter, depth_m
        What it is made of, and its thickness in m.
    first_w_m2k, second_w_m2k
        What its faces give to their surroundings; 0 for an insulated face.
    points
        How many points from face to face are looked at.
    terms
        How many terms are taken.

    Returns
    -------
    Direction
        Terms A cos(z x/D − a) with z = a + b + nπ, tan a = B1/z, tan b = B2/z, B = U D/k.
    """
    to_biot = depth_m / matter.conductivity_w_mk
    biot: Array = np.array([first_w_m2k * to_biot, second_w_m2k * to_biot], dtype=np.float64)
    turns: Array = np.pi * np.arange(terms, dtype=np.float64)
    zeta = _wall_roots(biot, turns)
    phase = np.arctan2(biot[:, None], np.maximum(zeta, 1e-300))
    alternate = np.where(np.arange(terms) % 2, -1.0, 1.0)
    swing = np.divide(np.sin(2 * phase).sum(axis=0), 2 * zeta, out=np.ones(terms), where=zeta > 0)
    size = np.sqrt(2 / (1 + swing))
    means = np.divide(
        size * (alternate * np.sin(phase[1]) + np.sin(phase[0])), zeta, out=np.ones(terms), where=zeta > 0
    )
    faces = size * np.cos(phase) * np.array([np.ones(terms), alternate])
    stores = matter.density_kg_m3 * matter.heat_capacity_j_kgk * depth_m
    places, weights = places_of(3 * terms, 0)
    return sealed(
        rates=matter.diffusivity_m2_s * (zeta / depth_m) ** 2,
        means=means,
        at_points=size * np.cos(np.outer(np.linspace(0, 1, points), zeta) - phase[0]),
        at_faces=faces,
        forces=np.array([[first_w_m2k], [second_w_m2k]]) / stores * faces,
        face_shares=np.ones(2),
        nodes=size * np.cos(np.outer(places, zeta) - phase[0]),
        weights=weights,
    )


def _wall_roots(biot: Array, turns: Array) -> Array:
    """Solve z − atan(B1/z) − atan(B2/z) = nπ: rising and hollow downwards, so Newton comes from the left and stays."""
    if not biot.any():
        return turns.copy()
    zeta = turns.copy()
    zeta[0] = 1e-9
    for _ in range(60):
        phase = np.arctan2(biot[:, None], zeta)
        slope = 1 + (biot[:, None] / (zeta**2 + biot[:, None] ** 2)).sum(axis=0)
        step = (turns + phase.sum(axis=0) - zeta) / slope
        zeta = zeta + step
        if np.all(np.abs(step) <= 1e-15 * zeta):
            break
    return zeta


@lru_cache(maxsize=8)
def places_of(number: int, power: int) -> tuple[Array, Array]:
    """Give Gauss's places from 0 to 1 with weights for a mean over a wall (0), a circle (1) or a ball (2)."""
    nodes, weights = np.polynomial.legendre.leggauss(number)
    places = (nodes + 1) / 2
    return places, weights / 2 * (power + 1) * places**power


def sealed(**arrays: Array) -> Direction:
    """Close the arrays: a direction is shared by all that ask for the same one."""
    for array in arrays.values():
        array.setflags(write=False)
    return Direction(**arrays)
