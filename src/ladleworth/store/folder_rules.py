"""The house rules of kitchen.yaml: limits, containers by size, room, weeks."""

from __future__ import annotations

import re
from fractions import Fraction

from ladleworth.dish.dish import KEEP_DAYS
from ladleworth.dish.tree import Node, shorten
from ladleworth.errors import BadField
from ladleworth.household import Container, Rules
from ladleworth.store.fields import parse_volume_ml, read_cents, read_share, read_whole, read_with
from ladleworth.units import Currency, half_up, read_number

RULE_KEYS = {
    "containers": "12", "freezer_places": "8", "budget": "60.00", "meal_out": "7.50", "in_a_row": "2",
    "most_times": "3", "keep_days": "4", "headspace": "10%", "fridge_room": "20 l", "freezer_room": "30 l",
    "freezing_load": "8", "week_days": "7", "splits": "2",
}  # fmt: skip
CONTAINER_KEYS = {"size": "750 ml", "count": "8", "depth": "6 cm"}

_LENGTH = re.compile(r"(.+?)\s*(mm|cm|in|inch|inches)\.?", re.IGNORECASE)
_MM = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction("25.4")}


def read_rules(node: Node, money: Currency | None) -> tuple[Rules, int]:
    """Read the house rules, and the days a cooked dish keeps chilled; what is left out has no limit."""
    keys = node.keys(RULE_KEYS, "rules") if node.data is not None else {}

    def whole(key: str, least: int, left_out: int | None = None) -> int | None:
        return read_whole(keys[key], key, least=least, none=True) if key in keys else left_out

    def cents(key: str) -> int | None:
        return read_cents(keys[key], key, money, none=True) if key in keys else None

    def room(key: str) -> int | None:
        if key not in keys or str(keys[key].data).strip().casefold() == "none":
            return None
        return read_with(keys[key], key, "20 l", parse_volume_ml)

    sizes = _containers(keys["containers"]) if "containers" in keys and _is_list(keys["containers"]) else None
    share = (
        read_share(keys["headspace"], "headspace", most=Fraction(90, 100)) if "headspace" in keys else None
    )
    rules = Rules(
        containers=whole("containers", 0) if sizes is None else sum(one.count for one in sizes),
        freezer_places=whole("freezer_places", 0),
        budget_cents=cents("budget"),
        meal_out_cents=cents("meal_out"),
        in_a_row=whole("in_a_row", 1, Rules().in_a_row),
        most_times=whole("most_times", 1),
        container_sizes=sizes or (),
        headspace=Rules().headspace if share is None or share == 1 else share,
        fridge_room_ml=room("fridge_room"),
        freezer_room_ml=room("freezer_room"),
        freezing_load=whole("freezing_load", 0),
        week_days=whole("week_days", 1, Rules().week_days),
        splits=(read_whole(keys["splits"], "splits", least=1) if "splits" in keys else None) or 1,
    )
    kept = read_whole(keys["keep_days"], "keep_days", least=1) if "keep_days" in keys else None
    return rules, KEEP_DAYS if kept is None else kept


def _is_list(node: Node) -> bool:
    return isinstance(node.data, list | tuple) or node.is_mapping


def _containers(node: Node) -> tuple[Container, ...]:
    """Read containers by size: their brim volume, how many there are, and how deep they are if that was measured."""
    containers = []
    items = node.items("containers")
    if not items and not node.is_mapping:
        node.fault("containers lists nothing", "write sizes such as [{size: 750 ml, count: 8}], or a number")
    for item in items:
        keys = item.keys(CONTAINER_KEYS, "a size of containers")
        for key in ("size", "count") if keys else ():
            if key not in keys:
                item.fault(f"a size of containers has no {key}", f"write {key}: {CONTAINER_KEYS[key]}")
        size = read_with(keys["size"], "size", "750 ml", parse_volume_ml) if "size" in keys else None
        count = read_whole(keys["count"], "count") if "count" in keys else None
        depth = read_with(keys["depth"], "depth", "6 cm", _depth_mm) if "depth" in keys else None
        if size is None or count is None:
            continue
        try:
            containers.append(Container(size, count, depth))
        except BadField as bad:
            what, _, remedy = str(bad).partition("; ")
            keys["depth"].fault(what, remedy)
    return tuple(containers)


def _depth_mm(text: str) -> int:
    found = _LENGTH.fullmatch(text.strip())
    if found is None:
        raise BadField(f"{shorten(text)} is no depth; write one such as 6 cm or 2 1/2 in")
    return half_up(read_number(found[1]) * _MM[found[2].casefold()[:2]])
