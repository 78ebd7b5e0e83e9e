"""The nutrition table of a packet, as written under `label` in foods.yaml."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from ladleworth.dish.tree import Node, shorten
from ladleworth.errors import BadField
from ladleworth.facts.label import Label
from ladleworth.store.fields import read_with
from ladleworth.units import Dimension, read_number, read_total

LABEL_KEYS = {
    "serving": "130 g", "energy": "460 kJ", "protein": "7", "fat": "0.5", "saturated": "0.1",
    "carbohydrate": "18", "fibre": "5", "sugars": "0.6", "salt": "0.6", "sodium": "240 mg",
}  # fmt: skip
_GRAMS = {
    "protein": "protein_g", "fat": "fat_g", "saturated": "saturated_fat_g", "carbohydrate": "carbohydrate_g",
    "fibre": "fibre_g", "sugars": "sugars_g", "salt": "salt_g",
}  # fmt: skip


def read_label(node: Node) -> Label | None:
    """Read a packet's nutrition table.

    Parameters
    ----------
    node
        The value of `label`.

    Returns
    -------
    Label or None
        None when the serving is missing or anything is faulty.
    """
    keys = node.keys(LABEL_KEYS, "a label")
    if not keys:
        return None
    if "serving" not in keys:
        node.fault(
            "a label has no serving", "write the grams that the figures are for, such as serving: 100 g"
        )
    if "salt" in keys and "sodium" in keys:
        node.fault("a label has both salt and sodium", "keep the one that the packet shows")
    figures: dict[str, Fraction | None] = {}
    for key, name in _GRAMS.items():
        if key in keys:
            figures[name] = read_with(keys[key], key, LABEL_KEYS[key], _grams)
    if "sodium" in keys:
        sodium = read_with(keys["sodium"], "sodium", "240 mg", _with_unit)
        figures["sodium_mg"] = None if sodium is None else sodium * 1000
    if "energy" in keys:
        energy = read_with(keys["energy"], "energy", "460 kJ or 110 kcal", _energy)
        if energy is not None:
            figures[energy[0]] = energy[1]
    serving = read_with(keys["serving"], "serving", "130 g", _with_unit) if "serving" in keys else None
    if serving is None or len(figures) < len(keys) - 1 or None in figures.values():
        return None
    return Label(
        serving,
        energy_kcal=figures.get("energy_kcal"),
        energy_kj=figures.get("energy_kj"),
        protein_g=figures.get("protein_g"),
        fat_g=figures.get("fat_g"),
        saturated_fat_g=figures.get("saturated_fat_g"),
        carbohydrate_g=figures.get("carbohydrate_g"),
        fibre_g=figures.get("fibre_g"),
        sugars_g=figures.get("sugars_g"),
        sodium_mg=figures.get("sodium_mg"),
        salt_g=figures.get("salt_g"),
    )


def _with_unit(text: str) -> Fraction:
    total = read_total(text)
    if total.dimension is not Dimension.MASS:
        raise BadField(f"{shorten(text)} is no weight; write one such as 130 g")
    return total.amount / 1000


def _grams(text: str) -> Fraction:
    return _with_unit(text) if any(c.isalpha() for c in text) else read_number(text)


_ENERGY: dict[str, Callable[[Fraction], tuple[str, Fraction]]] = {
    "kj": lambda number: ("energy_kj", number),
    "kcal": lambda number: ("energy_kcal", number),
    "cal": lambda number: ("energy_kcal", number),  # on US labels a 'Calorie' is a kilocalorie
    "calories": lambda number: ("energy_kcal", number),
}


def _energy(text: str) -> tuple[str, Fraction]:
    number = text.rstrip("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ")
    unit = text[len(number) :].casefold()
    if unit not in _ENERGY:
        raise BadField(f"{shorten(text)} does not say kJ or kcal; write 460 kJ or 110 kcal")
    return _ENERGY[unit](read_number(number))
