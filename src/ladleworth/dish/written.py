"""A dish as a person wrote it: ingredient lines and amounts still text, nothing looked up yet.

The keys are those of the kitchen folder (docs/kitchen-folder.md); docs/dishes.md says what each means.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.dish import GREATEST, LEAST, Role
from ladleworth.dish.tree import Findings, Node, Placer, nearest, shorten
from ladleworth.errors import BadUnit, Finding
from ladleworth.units import Quantity, read_minutes, read_number, read_total

_TIME = "15 or 15 min"
_AMOUNTS = "{lentils: 80 g, egg: 1}"
_PART_KEYS = {
    "part": "stew",
    "role": "protein",
    "lines": "[1 lb dried beans]",
    "per_portion": _AMOUNTS,
    "swaps": "[{swap: without, lines: []}]",
}
_SWAP_KEYS = {
    "swap": "sausage",
    "lines": "[12 oz sausage]",
    "per_portion": _AMOUNTS,
    "hands_on": "{fixed: 5}",
}
_STEP_KEYS = {
    "do": "Chop the onion.",
    "part": "stew",
    "hands_on": "5 min",
    "unattended": "1 h",
    "needs": "[hands]",
}
_HANDS_ON_KEYS = {"fixed": "15", "per_portion": "2"}
_DISH_KEYS = {
    "dish": "Bean chili", "portions": "6", "least": "4", "greatest": "10", "hands_on": "{fixed: 15}",
    "freezer_days": "60", "keep_days": "4", "meals": "[lunch]", "never": "[Ben]", "lines": "[1 lb dried beans]",
    "per_portion": _AMOUNTS, "swaps": "[{swap: without, lines: []}]", "parts": "[{part: stew}]",
    "steps": "[{do: Stir.}]", "yield": "2.4 kg",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class HandsOn:
    """Hands-on minutes as written, '' for what was left out: `fixed`, and for each portion beside it."""

    fixed: str = ""
    per_portion: str = ""


@dataclass(frozen=True, slots=True)
class WrittenSwap:
    """One way to make a part, as written. `per_portion` pairs a food's name with its amount."""

    name: str
    lines: tuple[str, ...] = ()
    per_portion: tuple[tuple[str, str], ...] = ()
    hands_on: HandsOn | None = None


@dataclass(frozen=True, slots=True)
class WrittenPart:
    """A part as written. `name` '' means that its keys stand at the top level: the dish is all one part."""

    name: str = ""
    role: Role | None = None
    lines: tuple[str, ...] = ()
    per_portion: tuple[tuple[str, str], ...] = ()
    swaps: tuple[WrittenSwap, ...] = ()


@dataclass(frozen=True, slots=True)
class WrittenStep:
    """A step as written; times are text, '' for what was left out."""

    text: str
    part: str = ""
    hands_on: str = ""
    unattended: str = ""
    needs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WrittenDish:
    """A dish as written: what the YAML form holds, no more and no less; None and '' are what was left out."""

    name: str
    parts: tuple[WrittenPart, ...]
    portions: int | None = None
    least: int | None = None
    greatest: int | None = None
    hands_on: HandsOn | None = None
    freezer_days: int | None = None
    keep_days: int | None = None
    meals: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    steps: tuple[WrittenStep, ...] = ()
    measured_yield: str = ""

    @property
    def id(self) -> str:
        """The dish's id, made from its name."""
        return dish_id(self.name)


def dish_id(name: str) -> str:
    """Make a dish's id from its name: small letters and digits of any script, everything else a hyphen.

    Parameters
    ----------
    name
        The dish's name.

    Returns
    -------
    str
        'bean-chili' for 'Bean chili!'; '' for a name without letters or digits.
    """
    kept = (c if unicodedata.category(c)[0] in "LMN" else " " for c in _fold(name))
    return "-".join("".join(kept).split())


def _fold(name: str) -> str:
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def read_step_minutes(text: str) -> Fraction:
    """Read minutes as a dish writes them: '15' is 15 minutes, '1 h 20 min' and the like are taken too.

    Parameters
    ----------
    text
        A bare number of minutes, or a length of time.

    Returns
    -------
    Fraction
        Minutes, 0 or more.

    Raises
    ------
    BadUnit
        If it is neither, or negative.
    """
    clean = text.strip()
    if clean[:1] in ("-", "−") or not any(c.isalpha() or c == ":" for c in clean):
        return read_number(clean)
    return Fraction(read_minutes(clean))


def _read_yield(text: str) -> Quantity:
    total = read_total(text)
    if total.whole_mg() < 1:
        raise BadUnit(f"{text!r} is no mass above 0")
    return total


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
        steps=_steps(keys, [part.name for part in parts if part.name]),
        measured_yield=keys["yield"].check("yield", "2.4 kg", _read_yield) if "yield" in keys else "",
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
        swaps.append(WrittenSwap(name, _lines(inner), _per_portion(inner), _hands_on(inner)))
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
    flat = [key for key in ("lines", "per_portion", "swaps") if key in keys]
    if "parts" not in keys:
        return (WrittenPart("", None, _lines(keys), _per_portion(keys), _swaps(keys)),) if flat else ()
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
        part = WrittenPart(name, _role(inner), _lines(inner), _per_portion(inner), _swaps(inner))
        if not (part.lines or part.per_portion or part.swaps):
            node.fault(
                f"the part {shorten(name)} has no ingredients" if name else "a part has no ingredients",
                "write lines, per_portion or swaps in it",
            )
        parts.append(part)
    return tuple(parts)


def _steps(keys: dict[str, Node], parts: list[str]) -> tuple[WrittenStep, ...]:
    steps: list[WrittenStep] = []
    for node in keys["steps"].items("steps") if "steps" in keys else ():
        inner = node.keys(_STEP_KEYS, "a step")
        if not node.is_mapping:
            continue
        if "do" not in inner:
            node.fault("a step does not say what to do", "write it as do: Chop the onion.")
        part = inner["part"].text("the step's part", "stew") if "part" in inner else ""
        if part and part not in parts:
            near = nearest(part, parts)
            remedy = f"did you mean {near!r}?" if near else f"its parts are {', '.join(parts) or 'not named'}"
            inner["part"].fault(f"the dish has no part {shorten(part)}", remedy)
        times = {
            key: inner[key].check(key, "5 min", read_step_minutes)
            for key in ("hands_on", "unattended")
            if key in inner
        }
        steps.append(
            WrittenStep(
                text=inner["do"].text("what to do", "Chop the onion.") if "do" in inner else "",
                part=part,
                needs=inner["needs"].texts("needs", "[hands, board]") if "needs" in inner else (),
                **times,
            )
        )
    return tuple(steps)


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
