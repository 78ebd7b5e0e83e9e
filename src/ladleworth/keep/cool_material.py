"""Reading a material of a neutral question: its three properties, or its makeup; and what it does when it freezes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ladleworth.dish.tree import Node
from ladleworth.errors import BadField
from ladleworth.keep.bodies import Matter
from ladleworth.keep.cool_numbers import number
from ladleworth.keep.freezing import freezing_matter
from ladleworth.keep.frozen import FreezingMatter, plain_latent_j_kg
from ladleworth.keep.materials import COMPONENTS, Makeup, matter_of
from ladleworth.keep.surroundings import Case

PROPERTIES: Mapping[str, tuple[float, float]] = {
    "conductivity_w_mk": (1e-3, 1000),
    "density_kg_m3": (1, 25_000),
    "heat_capacity_j_kgk": (10, 20_000),
}
FROZEN: Mapping[str, tuple[float, float]] = {
    "conductivity_w_mk": (1e-3, 100),
    "heat_capacity_j_kgk": (100, 20_000),
    "freezing_point_c": (-30, -0.01),
    "freezable_share": (0, 1),
    "latent_j_kg": (1, 1e6),
}
MATERIAL_KEYS = {
    "conductivity_w_mk": "0.5",
    "density_kg_m3": "1040",
    "heat_capacity_j_kgk": "3700",
    "frozen": "{...}",
    "makeup": '{"water": 0.75, ...}',
    "at_c": "31",
    "freezes": "true",
}
FROZEN_KEYS = {name: f"{(low + high) / 2:g}" for name, (low, high) in FROZEN.items()}
MAKEUP_KEYS = dict.fromkeys((*COMPONENTS, "air"), "0.1")


@dataclass(frozen=True, slots=True)
class ReadMaterial:
    """A material; `freezing` where it is said how it freezes."""

    matter: Matter
    freezing: FreezingMatter | None = None


def read_material(node: Node, case: Case) -> ReadMaterial | None:
    """Read a material.

    Parameters
    ----------
    node
        Conductivity, density and heat capacity, with `frozen` beside them; or `makeup` with `at_c` and `freezes`.
    case
        Which end of each number.

    Returns
    -------
    ReadMaterial or None
        None after a fault.
    """
    keys = node.keys(MATERIAL_KEYS, "a material")
    if "makeup" in keys:
        return _from_makeup(node, keys, case)
    for key in keys.keys() & {"at_c", "freezes"}:
        keys[key].fault(
            f"{key} goes with a makeup", "leave it out, or write a makeup in place of the properties"
        )
    told = _numbers(node, keys, PROPERTIES, case)
    frozen = _frozen(keys["frozen"], told, case) if "frozen" in keys else None
    if told is None or ("frozen" in keys and frozen is None):
        return None
    return ReadMaterial(Matter(**told), frozen)


def _numbers(
    node: Node, keys: Mapping[str, Node], wanted: Mapping[str, tuple[float, float]], case: Case
) -> dict[str, float] | None:
    found = {}
    for key, (low, high) in wanted.items():
        if key not in keys:
            node.fault(f"{key} is missing", f'write "{key}": {low:g} to {high:g}')
            continue
        value = number(keys[key], key, case, low, high)
        if value is not None:
            found[key] = value
    return found if len(found) == len(wanted) else None


def _frozen(node: Node, unfrozen: dict[str, float] | None, case: Case) -> FreezingMatter | None:
    keys = node.keys(FROZEN_KEYS, "frozen")
    wanted = {key: bounds for key, bounds in FROZEN.items() if key != "latent_j_kg" or key in keys}
    told = _numbers(node, keys, wanted, case)
    if told is None or unfrozen is None:
        return None
    return FreezingMatter(
        Matter(**unfrozen),
        told["conductivity_w_mk"],
        told["heat_capacity_j_kgk"],
        told["freezing_point_c"],
        told["freezable_share"],
        told.get("latent_j_kg", plain_latent_j_kg()),
    )


def _from_makeup(node: Node, keys: Mapping[str, Node], case: Case) -> ReadMaterial | None:
    for key in keys.keys() & {*PROPERTIES, "frozen"}:
        keys[key].fault(f"{key} stands beside a makeup", "write one or the other")
    shares = keys["makeup"].keys(MAKEUP_KEYS, "a makeup")
    read = {key: number(share, f"the share of {key}", case, 0, 1) for key, share in shares.items()}
    at = number(keys["at_c"], "at_c", case, 0, 150) if "at_c" in keys else None
    if "at_c" not in keys:
        node.fault("at_c is missing", 'write "at_c": 31, the temperature of the properties')
    freezes = keys["freezes"].data if "freezes" in keys else False
    if not isinstance(freezes, bool):
        keys["freezes"].fault("freezes is neither true nor false", "write true or false")
        return None
    told = {key: share for key, share in read.items() if share is not None}
    if len(told) < len(shares) or at is None:
        return None
    try:
        makeup = Makeup(**({"water": 0.0} | told))
        return ReadMaterial(matter_of(makeup, at), freezing_matter(makeup, Case.MIDDLE) if freezes else None)
    except BadField as bad:
        what, _, remedy = str(bad).partition("; ")
        keys["makeup"].fault(what, remedy)
        return None
