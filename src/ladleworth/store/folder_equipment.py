"""The equipment card of kitchen.yaml: people, burners, oven, fridge and freezer, boards, vessels, and their pace."""

from __future__ import annotations

import re
from fractions import Fraction

from ladleworth.dish.needs import read_degrees_off
from ladleworth.dish.tree import Node, shorten
from ladleworth.household import Equipment, OvenPace, Vessel
from ladleworth.store.fields import parse_volume_ml, read_minutes_whole, read_share, read_whole, read_with
from ladleworth.units import read_number, read_temperature

EQUIPMENT_KEYS = {
    "burners": "4", "oven_shelves": "2", "fridge": "4 °C", "freezer": "-18 °C", "microwave": "800",
    "vessels": "{large pot: 6 l}", "cooks": "2", "boards": "2", "counter": "8",
    "oven": "{heating: 0.6 min, tolerance: 10 °C}", "room": "21 °C", "wash": "2 min", "slower": "20%",
}  # fmt: skip
OVEN_KEYS = {"heating": "0.6 min", "cooling": "2 min", "tolerance": "10 °C"}
VESSEL_KEYS = {"size": "1.5 l", "count": "2"}
MOST_COOKS = 9


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

    def degrees(key: str, example: str = "4 °C") -> Fraction | None:
        return read_with(keys[key], key, example, read_temperature) if key in keys else None

    cooks = read_whole(keys["cooks"], "cooks", least=1, most=MOST_COOKS) if "cooks" in keys else None
    boards = whole("boards", 0)
    return Equipment(
        burners=whole("burners", 0),
        oven_shelves=whole("oven_shelves", 0),
        fridge_c=degrees("fridge"),
        freezer_c=degrees("freezer"),
        microwave_w=whole("microwave", 1),
        vessels=_vessels(keys["vessels"]) if "vessels" in keys else (),
        cooks=1 if cooks is None else cooks,
        boards=1 if boards is None else boards,
        counter=whole("counter", 0),
        oven=_oven(keys["oven"]) if "oven" in keys else OvenPace(),
        room_c=degrees("room", "21 °C"),
        wash_min=read_minutes_whole(keys["wash"], "wash") if "wash" in keys else None,
        slower=read_share(keys["slower"], "slower", most=Fraction(1)) if "slower" in keys else None,
    )


def _vessels(node: Node) -> tuple[Vessel, ...]:
    """Read the vessels: a volume each, or size and count; a name that stands twice but for capitals is a fault."""
    vessels: dict[str, Vessel] = {}
    for name, item in node.entries("vessels"):
        if name.casefold() in vessels:
            item.fault(f"two vessels are called {shorten(name)}", "write one, with {size: 1.5 l, count: 2}")
            continue
        keys = item.keys(VESSEL_KEYS, f"the vessel {name}") if item.is_mapping else {"size": item}
        if "size" not in keys:
            item.fault(f"nobody knows what {name} holds", "write its brim volume: {size: 1.5 l, count: 2}")
            continue
        volume = read_with(keys["size"], f"the volume of {name}", "6 l", parse_volume_ml)
        count = read_whole(keys["count"], f"the number of {name}", least=1) if "count" in keys else 1
        if volume is not None:
            vessels[name.casefold()] = Vessel(name, volume, count or 1)
    return tuple(vessels.values())


def _oven(node: Node) -> OvenPace:
    keys = node.keys(OVEN_KEYS, "oven")
    pace = {
        f"{key}_min": read_with(keys[key], key, OVEN_KEYS[key], read_oven_minutes)
        for key in ("heating", "cooling")
        if key in keys
    }
    off = (
        read_with(keys["tolerance"], "tolerance", "10 °C", read_degrees_off) if "tolerance" in keys else None
    )
    return OvenPace(**pace, tolerance_c=off)


def read_oven_minutes(text: str) -> Fraction:
    """Read the minutes that the oven takes for 10 °C, which may be parts of a minute: '0.6 min', '2'.

    Raises
    ------
    BadUnit
        If they cannot be read.
    """
    found = re.fullmatch(r"(.*?)\s*(?:min(?:utes?)?|m)?\.?", text.strip(), re.IGNORECASE)
    return read_number(found[1] if found else text)
