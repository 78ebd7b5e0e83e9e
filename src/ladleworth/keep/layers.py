"""Heat through a slab in layers, cut into thin cells: exact in time, and nearly so in depth.

The cells' own series, whose terms die away each at its rate, is found by a solver of eigenvalues.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from ladleworth.keep.bodies import Layer
from ladleworth.keep.modes import Direction, sealed

CELLS = 160
"""Cells over the depth."""


@lru_cache(maxsize=64)
def layered(layers: tuple[Layer, ...], first_w_m2k: float, second_w_m2k: float) -> Direction:
    """Take a slab in layers apart, by thin cells.

    Parameters
    ----------
    layers
        From the top down.
    first_w_m2k, second_w_m2k
        What top and bottom give to their surroundings.

    Returns
    -------
    Direction
        As many terms as there are cells. Means are weighted by what each cell stores.
    """
    from scipy.linalg import eigh_tridiagonal

    counts = cells_of(layers)
    thick = np.repeat([one.thickness_m / count for one, count in zip(layers, counts, strict=True)], counts)
    passes = np.repeat([one.matter.conductivity_w_mk for one in layers], counts) * 2 / thick
    stores = thick * np.repeat(
        [one.matter.density_kg_m3 * one.matter.heat_capacity_j_kgk for one in layers], counts
    )
    between = 1 / (1 / passes[:-1] + 1 / passes[1:])
    faces = np.array([first_w_m2k, second_w_m2k])
    outward = faces * passes[[0, -1]] / (faces + passes[[0, -1]])
    loss = np.zeros(len(stores))
    loss[:-1] += between
    loss[1:] += between
    loss[[0, -1]] += outward
    root = np.sqrt(stores)
    rates, vectors = eigh_tridiagonal(loss / stores, -between / (root[:-1] * root[1:]))
    weights = stores / stores.sum()
    terms = vectors / np.sqrt(weights)[:, None]
    ends = terms[[0, -1]]
    return sealed(
        rates=np.maximum(rates, 0.0),
        means=weights @ terms,
        at_points=terms,
        at_faces=ends,
        forces=outward[:, None] / stores.sum() * ends,
        face_shares=passes[[0, -1]] / (faces + passes[[0, -1]]),
        nodes=terms,
        weights=weights,
    )


def cells_of(layers: tuple[Layer, ...], cells: int = CELLS) -> list[int]:
    """Deal the cells out to the layers by thickness, no fewer than 8 to each."""
    depth = sum(layer.thickness_m for layer in layers)
    return [max(8, round(cells * layer.thickness_m / depth)) for layer in layers]
