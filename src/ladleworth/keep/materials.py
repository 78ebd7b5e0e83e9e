"""What food is made of, and what follows for heat: after Choi and Okos, from its composition alone."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts.heat import components, estimate, heat_limit
from ladleworth.keep.bodies import Matter

COMPONENTS = ("water", "protein", "fat", "carbohydrate", "fibre", "ash")

ASH_SHARE = 0.01
"""Ash of a cooked dish where nobody has it: our choice; it changes nothing by more than a hundredth."""

SLACK = 0.005
"""How far the shares may be from 1 together; they are then brought to 1."""

SALT_G_MOL, SUGAR_G_MOL = 58.44, 180.16
"""Molar masses of sodium chloride and of glucose: true by the periodic table. Salt goes into two particles."""


@dataclass(frozen=True, slots=True)
class Makeup:
    """Shares of the mass of a food, together 1. Carbohydrate is without fibre. `air` is the share of the volume."""

    water: float
    protein: float = 0.0
    fat: float = 0.0
    carbohydrate: float = 0.0
    fibre: float = 0.0
    ash: float = 0.0
    air: float = 0.0

    def __post_init__(self) -> None:
        for name in (*COMPONENTS, "air"):
            if not 0 <= getattr(self, name) <= 1:
                raise BadField(f"the share of {name} is {getattr(self, name)}; write 0 to 1")
        if self.air >= 1:
            raise BadField("the share of air is 1; write less: there is no food in it")
        if abs(self._together - 1) > SLACK:
            raise BadField(
                f"the shares come to {self._together:.4g}; make water, protein, fat, carbohydrate (without fibre), "
                "fibre and ash come to 1"
            )

    @property
    def _together(self) -> float:
        return math.fsum(getattr(self, name) for name in COMPONENTS)

    def shares(self) -> dict[str, float]:
        """Give the shares by component, brought to 1 exactly."""
        whole = self._together
        return {name: getattr(self, name) / whole for name in COMPONENTS}


def makeup_of(per_100_g: Mapping[str, Fraction | float], ash_share: float = ASH_SHARE) -> Makeup:
    """Take the makeup from nutrients in 100 g as the food table has them; what is left is water.

    Parameters
    ----------
    per_100_g
        `protein_g`, `fat_g`, `carbohydrate_g` (fibre counted in, as tables do) and `fibre_g`, in 100 g as eaten.
    ash_share
        Share of ash.

    Returns
    -------
    Makeup
        Carbohydrate without fibre.

    Raises
    ------
    MissingFact
        If one of the four is not there: it is never taken as zero.
    BadField
        If they come to more than there is.
    """
    missing = [name for name in ("protein_g", "fat_g", "carbohydrate_g", "fibre_g") if name not in per_100_g]
    if missing:
        raise MissingFact(f"nobody has {', '.join(missing)}; without it the water cannot be worked out")
    protein, fat, carbohydrate, fibre = (
        float(per_100_g[name]) / 100 for name in ("protein_g", "fat_g", "carbohydrate_g", "fibre_g")
    )
    water = 1 - protein - fat - carbohydrate - ash_share
    return Makeup(water, protein, fat, carbohydrate - fibre, fibre, ash_share)


def density_kg_m3(makeup: Makeup, degrees_c: float) -> float:
    """Work out the density, air in it counted: (1 − air) / sum(share / density). Source: Choi and Okos 1986."""
    volumes = _volumes(makeup, degrees_c)
    return (1 - makeup.air) / math.fsum(volumes.values())


def conductivity_w_mk(makeup: Makeup, degrees_c: float) -> float:
    """Work out how well the food passes heat, W/(m·K), as if its components lay along the heat.

    That is the upper estimate. Air passes next to nothing, so that the rest counts by its share of the volume.
    Source: Choi and Okos 1986, parallel model.
    """
    volumes = _volumes(makeup, degrees_c)
    whole = math.fsum(volumes.values())
    parts = (volume / whole * _property("conductivity", name, degrees_c) for name, volume in volumes.items())
    return (1 - makeup.air) * math.fsum(parts)


def heat_capacity_j_kgk(makeup: Makeup, degrees_c: float) -> float:
    """Work out what warms 1 kg of it by 1 K, J/(kg·K), unfrozen.

    The constant of water is 4176.2, as its authors had it: within 0.2 % of measured water from 20 to 57 °C, and 0.7 % at
    5 °C. The handbook's 4128.9 is 1.1 % less, and would let food cool too fast. Source: Choi and Okos 1986.
    """
    parts = (
        share * _property("heat capacity", name, degrees_c)
        for name, share in makeup.shares().items()
        if share
    )
    return math.fsum(parts)


def matter_of(makeup: Makeup, degrees_c: float) -> Matter:
    """Give the three properties at one temperature."""
    return Matter(
        conductivity_w_mk(makeup, degrees_c),
        density_kg_m3(makeup, degrees_c),
        heat_capacity_j_kgk(makeup, degrees_c),
    )


def matter_between(makeup: Makeup, start_c: float, target_c: float) -> Matter:
    """Give the properties of the middle case: at the mean of start and target."""
    return matter_of(makeup, (start_c + target_c) / 2)


def slow_matter(makeup: Makeup, start_c: float, target_c: float) -> Matter:
    """Give the properties of the slow corner.

    Conductivity at the target, where it is lowest, times 0.85; heat capacity at the start, times 1.03; density at the
    target, where it is highest (`estimate` has the shares: chosen, no source).
    """
    low, high = sorted((start_c, target_c))
    return Matter(
        conductivity_w_mk(makeup, low) * float(estimate("conductivity, share").slow),
        density_kg_m3(makeup, low),
        heat_capacity_j_kgk(makeup, high) * float(estimate("heat capacity, share").slow),
    )


def freezable_share(makeup: Makeup) -> float:
    """Give the share of the mass that is water and can freeze: water less what protein binds (0.4 of it)."""
    bound = float(heat_limit("bound water").value) * makeup.protein
    return max(0.0, makeup.shares()["water"] - bound)


def freezing_point_c(makeup: Makeup, salt_share: float = 0.0, sugar_share: float = 0.0) -> float:
    """Estimate where the food begins to freeze, °C.

    Parameters
    ----------
    makeup
        The food.
    salt_share, sugar_share
        Added salt and sugars as shares of the mass: each mole of particles in 1 kg of water lowers the point by 1.86 K
        (from memory) below the usual -1 °C of food (from memory).

    Returns
    -------
    float
        At most -1 °C.

    Raises
    ------
    BadField
        If there is no water to freeze.
    """
    water = freezable_share(makeup)
    if water <= 0:
        raise BadField("the food holds no water that can freeze; leave freezing out")
    moles = (2 * salt_share / SALT_G_MOL + sugar_share / SUGAR_G_MOL) * 1000 / water
    return float(heat_limit("initial freezing point").value) + moles * float(
        heat_limit("freezing point of a molal").value
    )


def ice_share(freezable: float, freezing_c: float, degrees_c: float) -> float:
    """Give the share of the mass that is ice: freezable × (1 − freezing point / T), T in °C; none above the point."""
    return freezable * (1 - freezing_c / degrees_c) if degrees_c < freezing_c else 0.0


def _property(name: str, component: str, degrees_c: float) -> float:
    return components()[name, component].at(degrees_c)


def _volumes(makeup: Makeup, degrees_c: float) -> dict[str, float]:
    """Give the volume of each component in 1 kg, m³."""
    return {
        name: share / _property("density", name, degrees_c)
        for name, share in makeup.shares().items()
        if share
    }
