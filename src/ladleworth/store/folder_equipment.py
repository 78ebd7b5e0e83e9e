"""The equipment card of kitchen.yaml: burners, shelves, fridge and freezer, vessels."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.dish.tree import Node
from ladleworth.household import Equipment, Vessel
from ladleworth.store.fields import parse_volume_ml, read_whole, read_with
from ladleworth.units import read_temperature

EQUIPMENT_KEYS = {
    "burners": "4", "oven_shelves": "2", "fridge": "4 °C", "freezer": "-18 °C", "microwave": "800",
    "vessels": "{large pot: 6 l}",
}  # fmt: skip


def read_equipment(node: Node | None) -> Equipment:
    """Read the equipment card; what is left out or faulty stays unstated.

    Parameters
    ----------
    node
        The value of `equipment`, None when it is left out.

    Returns
    -------
    Equipment
        The card.
    """
    keys = node.keys(EQUIPMENT_KEYS, "equipment") if node is not None and node.data is not None else {}

    def whole(key: str, least: int) -> int | None:
        return read_whole(keys[key], key, least=least) if key in keys else None

    def degrees(key: str) -> Fraction | None:
        return read_with(keys[key], key, "4 °C", read_temperature) if key in keys else None

    vessels: list[Vessel] = []
    for name, item in keys["vessels"].entries("vessels") if "vessels" in keys else ():
        volume = read_with(item, f"the volume of {name}", "6 l", parse_volume_ml)
        if volume is not None:
            vessels.append(Vessel(name, volume))
    return Equipment(
        burners=whole("burners", 0),
        oven_shelves=whole("oven_shelves", 0),
        fridge_c=degrees("fridge"),
        freezer_c=degrees("freezer"),
        microwave_w=whole("microwave", 1),
        vessels=tuple(vessels),
    )
