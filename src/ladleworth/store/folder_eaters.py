"""The eaters of kitchen.yaml: what they never have, how much they eat, and bounds on what their helpings hold."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from functools import partial

from ladleworth.dish.dish import BRINGS
from ladleworth.dish.tree import Node, shorten
from ladleworth.errors import BadField
from ladleworth.facts import NUTRIENTS
from ladleworth.facts.label import KJ_PER_KCAL
from ladleworth.household import Eater, Exclusion, Goal
from ladleworth.store.fields import parse_share, read_filled, read_name, read_with
from ladleworth.units import read_number

EATER_KEYS = {"name": "Ada", "never": "[milk]", "appetite": "0.75", "bounds": "{sodium: {most: 800 mg}}"}
BOUNDS_KEYS = {
    "energy": "{least: 450 kcal}", "protein": "{least: 20 g}", "fat": "{most: 30 g}", "saturated": "{most: 8 g}",
    "carbohydrate": "{most: 90 g}", "fibre": "{least: 8 g}", "sugars": "{most: 20 g}", "sodium": "{most: 800 mg}",
    "potassium": "{least: 900 mg}", "calcium": "{least: 250 mg}", "iron": "{least: 4 mg}",
    "vitamin_a": "{least: 200 µg}", "vitamin_c": "{least: 25 mg}", "vitamin_d": "{least: 3 µg}",
    "vitamin_b12": "{least: 0.8 µg}", "folate": "{least: 100 µg}",
    "colour": "{least: 50%}", "crunch": "{least: 50%}", "fresh": "{least: 50%}",
}  # fmt: skip
BOUND_KEYS = {"least": "20 g", "most": "40 g"}
MOST_APPETITE = 10

_STEMS = {name.rpartition("_")[0].removesuffix("_rae").removesuffix("_dfe"): name for name in NUTRIENTS}
NUTRIENT_OF = {
    key: key if key in BRINGS else _STEMS["saturated_fat" if key == "saturated" else key]
    for key in BOUNDS_KEYS
}
"""The nutrient of the food table that each key of `bounds` stands for, or what helpings bring."""

_AMOUNT = re.compile(r"(.+?)\s*(kcal|kJ|g|mg|µg|μg|ug|mcg)", re.IGNORECASE)
_PERCENT = re.compile(r"(\d{1,3}(?:\.\d+)?)\s*%")
_MICROGRAMS = {"g": 1_000_000, "mg": 1_000, "µg": 1, "μg": 1, "ug": 1, "mcg": 1}


def read_eaters(node: Node, read_exclusion: Callable[[Node], Exclusion | None]) -> tuple[Eater, ...]:
    """Read the eaters; every fault is noted with the node's findings.

    Parameters
    ----------
    node
        The value of `eaters`.
    read_exclusion
        Reads one entry of an eater's `never`.
    """
    eaters: list[Eater] = []
    taken: dict[str, int | None] = {}
    for item in read_filled(node, "eaters"):
        keys = item.keys(EATER_KEYS, "an eater")
        name = read_name(item, keys, "an eater", taken) if keys else ""
        entries = keys["never"].items("never", or_one=True) if "never" in keys else ()
        never = [read for entry in entries if (read := read_exclusion(entry)) is not None]
        appetite = read_with(keys["appetite"], "appetite", "0.75", _appetite) if "appetite" in keys else None
        goals = _goals(keys["bounds"]) if "bounds" in keys else ()
        if name:
            eaters.append(Eater(name, tuple(dict.fromkeys(never)), appetite or Fraction(1), goals))
    return tuple(eaters)


def _appetite(text: str) -> Fraction:
    appetite = parse_share(text)
    if not 0 < appetite <= MOST_APPETITE:
        raise BadField(
            f"an appetite of {shorten(text)} is not above 0 and at most {MOST_APPETITE}; "
            "write what the eater's portion is of a standard one, such as 0.75, 3/4 or 150%"
        )
    return appetite


def _goals(node: Node) -> tuple[Goal, ...]:
    opened = node.keys(BOUNDS_KEYS, "bounds") if node.data is not None else {}
    goals = []
    for key, inner in opened.items():
        faults = len(inner.findings.found)
        ends = inner.keys(BOUND_KEYS, f"the bound of {key}")
        nutrient = NUTRIENT_OF[key]
        reader = _share if key in BRINGS else partial(_amount, nutrient)
        read = {end: read_with(value, end, BOUNDS_KEYS[key], reader) for end, value in ends.items()}
        least, most = read.get("least"), read.get("most")
        if least is None and most is None:
            if len(inner.findings.found) == faults:
                inner.fault(
                    f"the bound of {key} says nothing", f"write least, most or both: {BOUNDS_KEYS[key]}"
                )
        elif least is not None and most is not None and least > most:
            inner.fault(f"the least of {key} is above the most", "write the smaller one as least")
        else:
            goals.append(Goal(nutrient, least, most))
    return tuple(goals)


def _share(text: str) -> Fraction:
    """Read a share of helpings: '50%'."""
    found = _PERCENT.fullmatch(text.strip())
    share = Fraction(found[1]) / 100 if found else None
    if share is None or share > 1:
        raise BadField(f"{shorten(text)} is no share of helpings from 0% to 100%; write 50%, say")
    return share


def _amount(nutrient: str, text: str) -> Fraction:
    """Read an amount of a nutrient ('500 kcal', '800 mg') in the unit of the food table."""
    unit, found = NUTRIENTS[nutrient], _AMOUNT.fullmatch(text.strip())
    energy = unit == "kcal"
    wanted = "write kcal or kJ after the number" if energy else "write g, mg or µg after the number"
    word = found[2].casefold() if found else ""
    if not found or energy != (word in ("kcal", "kj")):
        raise BadField(f"{shorten(text)} is no amount of {'energy' if energy else 'a nutrient'}; {wanted}")
    number = read_number(found[1])
    if energy:
        return number if word == "kcal" else number / KJ_PER_KCAL
    return number * _MICROGRAMS[word] / _MICROGRAMS[unit]
