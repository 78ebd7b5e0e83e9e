"""Reading a dish as a person wrote it: ingredient lines and amounts stay text, nothing is looked up yet.

The keys are those of the kitchen folder (docs/kitchen-folder.md); docs/dishes.md says what each means.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ladleworth.dish.dish import BRINGS, GREATEST, LEAST, Role
from ladleworth.dish.records import HandsOn, WrittenDish, WrittenPart, WrittenStep, WrittenSwap, dish_id
from ladleworth.dish.tree import Findings, Node, Placer, nearest, shorten
from ladleworth.dish.written_steps import read_step_minutes, read_steps, read_yes
from ladleworth.errors import BadUnit, Finding
from ladleworth.facts.texture import textures
from ladleworth.units import Dimension, Quantity, half_up, read_total

__all__ = [
    "HandsOn",
    "WrittenDish",
    "WrittenPart",
    "WrittenStep",
    "WrittenSwap",
    "dish_id",
    "read_dish",
    "read_portion_volume_ml",
    "read_step_minutes",
]

_TIME = "15 or 15 min"
_AMOUNTS = "{lentils: 80 g, egg: 1}"
_PART_KEYS = {
    "part": "stew",
    "role": "protein",
    "lines": "[1 lb dried beans]",
    "per_portion": _AMOUNTS,
    "swaps": "[{swap: without, lines: []}]",
    "oven": "45 min",
    "burners": "30 min",
    "kind": "pasta in sauce",
    "apart": "yes",
    "brings": "[fresh]",
}
_SWAP_KEYS = {
    "swap": "sausage",
    "lines": "[12 oz sausage]",
    "per_portion": _AMOUNTS,
    "hands_on": "{fixed: 5}",
    "oven": "45 min",
    "burners": "30 min",
    "kind": "tofu",
    "brings": "[crunch]",
}
_HANDS_ON_KEYS = {"fixed": "15", "per_portion": "2"}
_DISH_KEYS = {
    "dish": "Bean chili", "portions": "6", "least": "4", "greatest": "10", "hands_on": "{fixed: 15}",
    "freezer_days": "60", "keep_days": "4", "meals": "[lunch]", "never": "[Ben]", "lines": "[1 lb dried beans]",
    "per_portion": _AMOUNTS, "swaps": "[{swap: without, lines: []}]", "parts": "[{part: stew}]",
    "steps": "[{do: Stir.}]", "yield": "2.4 kg", "portion_volume": "400 ml", "oven": "45 min",
    "burners": "{fixed: 30, per_portion: 2}", "splits": "2", "kind": "curry or chili",
    "brings": "[colour]",
}  # fmt: skip


def _read_yield(text: str) -> Quantity:
    total = read_total(text)
    if total.whole_mg() < 1:
        raise BadUnit(f"{text!r} is no mass above 0")
    return total


def read_portion_volume_ml(text: str) -> int:
    """Read what a portion fills ('400 ml', '1 3/4 cups') in whole millilitres, half up; BadUnit if it is no volume."""
    total = read_total(text)
    if total.dimension is not Dimension.VOLUME or half_up(total.ml) < 1:
        raise BadUnit(f"{text!r} is no volume above 0")
    return half_up(total.ml)


def read_dish(data: object, place: Placer) -> tuple[WrittenDish | None, tuple[Finding, ...]]:
    """Read one dish from the tree of a file, listing every fault at once.

    Parameters
    ----------
    data
        Mappings, lists and texts; None stands for an empty value.
    place
        Tells where the value at a path of keys stands, such as ('parts', 0, 'lines', 2).

    Returns
    -------
    tuple of WrittenDish or None, and of Finding
        The dish, None if there is any fault; and the faults.
    """
    top = Node(data, (), Findings(place))
    keys = top.keys(_DISH_KEYS, "a dish")
    if not keys:
        if not top.findings.found:
            top.fault("a dish is empty", "write at least {dish: NAME, per_portion: {FOOD: AMOUNT}}")
        return None, tuple(top.findings.found)
    parts = _parts(keys)
    written = WrittenDish(
        name=_name(top, keys),
        portions=_whole(keys, "portions"),
        least=_whole(keys, "least"),
        greatest=_whole(keys, "greatest"),
        hands_on=_hands_on(keys),
        freezer_days=_whole(keys, "freezer_days", none=True),
        keep_days=_whole(keys, "keep_days"),
        meals=keys["meals"].texts("meals", "[lunch, dinner]") if "meals" in keys else (),
        never=keys["never"].texts("never", "[Ben]") if "never" in keys else (),
        parts=parts,
        steps=read_steps(keys, parts),
        measured_yield=_checked(keys, "yield", _read_yield),
        oven=_station(keys, "oven"),
        burners=_station(keys, "burners"),
        splits=_whole(keys, "splits"),
        portion_volume=_checked(keys, "portion_volume", read_portion_volume_ml),
    )
    _cross_check(top, keys, written)
    return (None if top.findings.faulty else written), tuple(top.findings.found)


def _name(top: Node, keys: dict[str, Node]) -> str:
    if "dish" not in keys:
        top.fault("a dish has no name", "write it as dish: NAME")
        return ""
    name = keys["dish"].text("the dish's name", "Bean chili")
    if name and not dish_id(name):
        keys["dish"].fault(f"the dish's name is {shorten(name)}", "write one with letters or digits")
    return name


def _whole(keys: dict[str, Node], key: str, *, none: bool = False) -> int | None:
    return keys[key].whole(key, none=none) if key in keys else None


def _hands_on(keys: dict[str, Node]) -> HandsOn | None:
    if "hands_on" not in keys:
        return None
    opened = keys["hands_on"].keys(_HANDS_ON_KEYS, "hands_on")
    return (
        HandsOn(**{key: node.check(key, _TIME, read_step_minutes) for key, node in opened.items()})
        if opened
        else None
    )


def _checked(keys: dict[str, Node], key: str, read: Callable[[str], object]) -> str:
    return keys[key].check(key, _DISH_KEYS[key], read) if key in keys else ""


def _station(keys: dict[str, Node], key: str) -> HandsOn | None:
    """Read minutes of the oven or of burners: one length of time, or fixed and per_portion."""
    if key not in keys:
        return None
    node = keys[key]
    if node.is_mapping:
        opened = node.keys(_HANDS_ON_KEYS, key)
        told = {name: inner.check(name, _TIME, read_step_minutes) for name, inner in opened.items()}
        return HandsOn(**told) if told else None
    return HandsOn(fixed=node.check(key, "45 min, or {fixed: 30, per_portion: 2}", read_step_minutes))


def _kinds(keys: dict[str, Node]) -> tuple[str, ...]:
    """Read kinds of cooked food, each a kind that the table of textures knows."""
    kinds = []
    for node in keys["kind"].items("kind", or_one=True) if "kind" in keys else ():
        kind = node.text("a kind of food", "pasta in sauce")
        if kind in textures() and kind not in kinds:
            kinds.append(kind)
        elif kind:
            near = nearest(kind, textures())
            what = (
                f"kind names {shorten(kind)} twice" if kind in kinds else f"no kind is called {shorten(kind)}"
            )
            remedy = f"did you mean {near!r}?" if near else f"the kinds are {', '.join(textures())}"
            node.fault(what, "write it once" if kind in kinds else remedy)
    return tuple(kinds)


def _brings(keys: dict[str, Node]) -> tuple[str, ...]:
    """Read what a part or a swap brings to the plate."""
    brings: list[str] = []
    for node in keys["brings"].items("brings", or_one=True) if "brings" in keys else ():
        one = node.text("what it brings", "fresh")
        if one in BRINGS and one not in brings:
            brings.append(one)
        elif one in brings:
            node.fault(f"brings names {shorten(one)} twice", "write it once")
        elif one:
            near = nearest(one, BRINGS)
            remedy = f"did you mean {near!r}?" if near else f"write {', '.join(BRINGS[:-1])} or {BRINGS[-1]}"
            node.fault(f"brings names {shorten(one)}", remedy)
    return tuple(brings)


def _doubt_brings(keys: dict[str, Node], part: WrittenPart) -> None:
    """Doubt a part that brings something with a swap that leaves nothing of the part on the plate."""
    empty = [swap.name for swap in part.swaps if not swap.lines and not swap.per_portion]
    if part.brings and empty and not part.lines and not part.per_portion:
        node = keys["brings"]
        node.findings.doubt(
            node.path,
            f"the part brings {' and '.join(part.brings)} whatever the swap, and {shorten(empty[0])} adds nothing",
            "write brings at the swaps that do",
        )


def _apart(keys: dict[str, Node]) -> bool:
    return read_yes(keys, "apart", "write yes if the part is not frozen with the others, else no")


def _lines(keys: dict[str, Node]) -> tuple[str, ...]:
    nodes = keys["lines"].items("lines") if "lines" in keys else ()
    return tuple(node.text("an ingredient line", "'2 cups rice'") for node in nodes)


def _per_portion(keys: dict[str, Node]) -> tuple[tuple[str, str], ...]:
    named = keys["per_portion"].entries("per_portion") if "per_portion" in keys else ()
    return tuple((food, node.text(f"the amount of {food}", "80 g, or 1 for a piece")) for food, node in named)


def _swaps(keys: dict[str, Node]) -> tuple[WrittenSwap, ...]:
    swaps: list[WrittenSwap] = []
    for node in keys["swaps"].items("swaps") if "swaps" in keys else ():
        inner = node.keys(_SWAP_KEYS, "a swap")
        if not node.is_mapping:
            continue
        if "swap" not in inner:
            node.fault("a swap has no name", "write it as swap: NAME")
        name = inner["swap"].text("the swap's name", "sausage") if "swap" in inner else ""
        if name and any(name.casefold() == other.name.casefold() for other in swaps):
            inner["swap"].fault(f"two swaps of a part are called {shorten(name)}", "give each its own name")
        swaps.append(
            WrittenSwap(
                name,
                _lines(inner),
                _per_portion(inner),
                _hands_on(inner),
                _station(inner, "oven"),
                _station(inner, "burners"),
                _kinds(inner),
                _brings(inner),
            )
        )
    return tuple(swaps)


def _role(keys: dict[str, Node]) -> Role | None:
    if "role" not in keys:
        return None
    text = keys["role"].text("role", "protein")
    roles = [role.value for role in Role]
    if text and text not in roles:
        near = nearest(text, roles)
        remedy = f"did you mean {near!r}?" if near else f"write {', '.join(roles[:-1])} or {roles[-1]}"
        keys["role"].fault(f"no role is called {shorten(text)}", remedy)
        return None
    return Role(text) if text else None


def _parts(keys: dict[str, Node]) -> tuple[WrittenPart, ...]:
    flat = [key for key in ("lines", "per_portion", "swaps", "kind", "brings") if key in keys]
    if "parts" not in keys:  # minutes of the oven and of burners are then the dish's own
        if not flat:
            return ()
        whole = WrittenPart("", None, _lines(keys), _per_portion(keys), _swaps(keys))
        whole = replace(whole, kinds=_kinds(keys), brings=_brings(keys))
        _doubt_brings(keys, whole)
        return (whole,)
    for key in flat:
        keys[key].fault(f"a dish has both parts and {key}", f"move {key} into one of the parts")
    parts: list[WrittenPart] = []
    for node in keys["parts"].items("parts"):
        inner = node.keys(_PART_KEYS, "a part")
        if not node.is_mapping:
            continue
        if "part" not in inner:
            node.fault("a part has no name", "write it as part: NAME")
        name = inner["part"].text("the part's name", "stew") if "part" in inner else ""
        if name and any(name.casefold() == other.name.casefold() for other in parts):
            inner["part"].fault(f"two parts are called {shorten(name)}", "give each its own name")
        part = WrittenPart(
            name,
            _role(inner),
            _lines(inner),
            _per_portion(inner),
            _swaps(inner),
            _station(inner, "oven"),
            _station(inner, "burners"),
            _kinds(inner),
            _apart(inner),
            _brings(inner),
        )
        if not (part.lines or part.per_portion or part.swaps):
            node.fault(
                f"the part {shorten(name)} has no ingredients" if name else "a part has no ingredients",
                "write lines, per_portion or swaps in it",
            )
        _doubt_brings(inner, part)
        parts.append(part)
    return tuple(parts)


def _cross_check(top: Node, keys: dict[str, Node], written: WrittenDish) -> None:
    """Check what no single value can tell: lines need portions, and least may not be above greatest."""
    pieces: list[WrittenPart | WrittenSwap] = [*written.parts]
    pieces += [swap for part in written.parts for swap in part.swaps]
    if any(piece.lines for piece in pieces) and "portions" not in keys:
        top.fault("lines are written but not for how many portions", "write portions: N beside them")
    if not any(piece.lines or piece.per_portion for piece in pieces) and not top.findings.faulty:
        top.fault("a dish has no ingredients", "write per_portion, lines or parts")
    if "yield" in keys and "portions" not in keys:
        keys["yield"].fault("a yield is written but not of how many portions", "write portions: N beside it")
    least, greatest = written.least or LEAST, written.greatest or GREATEST
    if least > greatest:
        told = f"greatest is {greatest}" + ("" if "greatest" in keys else ", as it is when left out")
        keys["least"].fault(
            f"least is {least} and {told}", f"write greatest: {least} or more, or a smaller least"
        )
