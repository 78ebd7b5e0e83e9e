"""foods.yaml: the kitchen's own foods, and its own figures for foods of the table."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.dish.tree import Node, nearest, shorten
from ladleworth.dish.written import dish_id
from ladleworth.errors import BadField, UnknownFood
from ladleworth.facts import (
    NUTRIENTS,
    AllergenFlag,
    Composition,
    Density,
    Figure,
    Food,
    FoodTable,
    Measure,
    OwnFood,
    PieceWeight,
    WeightIs,
)
from ladleworth.facts.label import food_from_label
from ladleworth.facts.names import fold_spelling
from ladleworth.household import NO_AISLE
from ladleworth.store.exclusions import name_allergen
from ladleworth.store.fields import read_whole, read_with
from ladleworth.store.folder_label import LABEL_KEYS, read_label
from ladleworth.units import Dimension, read_number, read_total

OWN = "own"
"""The source id and the basis of a figure that the kitchen gives itself."""
FOOD_KEYS = {
    "food": "lentils", "measured_in": "grams", "keep_days": "durable", "piece": "60 g", "edible": "0.9",
    "density": "0.55", "also": "[rolls]", "aisle": "bakery", "allergens": "[wheat]",
    "per_100_g": "{energy_kcal: 270}", "label": "{serving: 130 g, energy: 460 kJ}",
}  # fmt: skip
ALL_KEYS = {"foods.yaml": FOOD_KEYS, "label": LABEL_KEYS}
MEASURES = {"grams": Measure.MASS, "pieces": Measure.PIECES}
DURABLE = "durable"


@dataclass(frozen=True, slots=True)
class FoodsPaper:
    """What foods.yaml holds: the own foods, and how many days foods keep once bought (None: durable)."""

    foods: tuple[OwnFood, ...] = ()
    keep_days: tuple[tuple[str, int | None], ...] = ()


def read_foods(top: Node, table: FoodTable) -> FoodsPaper:
    """Read foods.yaml; every fault is noted with the node's findings.

    Parameters
    ----------
    top
        The paper's top node: one food or a list of foods.
    table
        The food table that comes with the package.

    Returns
    -------
    FoodsPaper
        The foods without a fault of their own.
    """
    items = (top,) if isinstance(top.data, dict) else top.items("foods.yaml")
    foods: list[OwnFood] = []
    keep_days: list[tuple[str, int | None]] = []
    names: dict[str, str] = {}
    for item in items:
        keys = item.keys(FOOD_KEYS, "a food")
        if not keys:
            continue
        read = _food(item, keys, table)
        if read is None:
            continue
        taken = next(
            (n for n in _names(read.food) if names.get(fold_spelling(n), read.food.id) != read.food.id), None
        )
        if read.food.id in names.values() or taken is not None:
            name = taken or read.food.name
            item.fault(
                f"two foods of foods.yaml are called {shorten(name)}", "keep one, or name one otherwise"
            )
            continue
        names.update({fold_spelling(name): read.food.id for name in _names(read.food)})
        same = read.food.id in table and read == OwnFood(replace(table.get(read.food.id), own=True))
        if not same:  # an entry that only tells keep_days changes nothing about the food itself
            foods.append(read)
        if "keep_days" in keys:
            kept, known = _keep_days(keys["keep_days"])
            keep_days.extend([(read.food.id, kept)] if known else [])
    return FoodsPaper(tuple(foods), tuple(keep_days))


def _names(food: Food) -> tuple[str, ...]:
    return (food.name, *food.aliases)


def _food(node: Node, keys: dict[str, Node], table: FoodTable) -> OwnFood | None:
    """Read one entry; None when it has no name that can be used."""
    if "food" not in keys:
        node.fault("a food has no name", "write it as food: NAME")
        return None
    name = keys["food"].text("the food's name", "lentils")
    if not name:
        return None
    also = keys["also"].texts("also", "[rolls]") if "also" in keys else ()
    measure = _measure(keys["measured_in"]) if "measured_in" in keys else None
    aisle = keys["aisle"].text("aisle", "bakery") if "aisle" in keys else ""
    aisle = "-".join(aisle.casefold().split())
    try:
        base = table.find(name)
        food = replace(
            base,
            own=True,
            aliases=base.aliases + also,
            aisle=aisle or base.aisle,
            measured_in=measure or base.measured_in,
        )
    except UnknownFood as unknown:
        if "measured_in" not in keys:
            hint = f", or did you mean {' or '.join(map(repr, unknown.nearest))}?" if unknown.nearest else ""
            node.fault(
                f"{shorten(name)} is not in the food table and has no measured_in",
                f"write measured_in: grams or measured_in: pieces for a food of your own{hint}",
            )
        if not dish_id(name):
            keys["food"].fault(f"the food's name is {shorten(name)}", "write one with letters or digits")
            return None
        food = Food(dish_id(name), name, also, aisle or NO_AISLE, measure or Measure.MASS, own=True)
    return _figures(keys, food)


def _figures(keys: dict[str, Node], food: Food) -> OwnFood:
    composition = _composition(keys["per_100_g"], food.id) if "per_100_g" in keys else None
    if "label" in keys:
        if composition is not None:
            keys["label"].fault(f"{food.name} has both per_100_g and label", "keep one of the two")
        composition = _from_label(keys["label"], food)
    piece = read_with(keys["piece"], "piece", "60 g", _grams) if "piece" in keys else None
    edible = read_with(keys["edible"], "edible", "0.9", _share) if "edible" in keys else None
    density = read_with(keys["density"], "density", "0.55", _above_zero) if "density" in keys else None
    return OwnFood(
        food,
        composition,
        None if edible is None else Figure(edible, "share", OWN, OWN),
        () if piece is None else (PieceWeight("whole", Figure(piece, "g", OWN, OWN), WeightIs.AS_BOUGHT),),
        () if density is None else (Density("as bought", Figure(density, "g/ml", OWN, OWN)),),
        allergens=_allergens(keys["allergens"]) if "allergens" in keys else None,
    )


def _measure(node: Node) -> Measure | None:
    text = node.text("measured_in", "grams")
    if text and text not in MEASURES:
        near = nearest(text, MEASURES)
        hint = f"did you mean {near!r}?" if near else f"write {' or '.join(MEASURES)}"
        node.fault(f"a food is not measured in {shorten(text)}", hint)
    return MEASURES.get(text)


def _keep_days(node: Node) -> tuple[int | None, bool]:
    """Read the keeping days, None for durable, and whether they could be read."""
    text = node.text("keep_days", "durable, or 5")
    if text.casefold() == DURABLE:
        return None, True
    days = read_whole(node, "keep_days", least=1) if text else None
    return days, days is not None


def _allergens(node: Node) -> tuple[AllergenFlag, ...]:
    flags: dict[str, AllergenFlag] = {}
    for item in node.items("allergens", or_one=True):
        text = item.text("an allergen", "wheat")
        allergen = name_allergen(item, text) if text else None
        if allergen is not None:
            flags[allergen] = AllergenFlag(allergen, "as the kitchen's own record says", OWN, OWN)
    return tuple(flags.values())


def _composition(node: Node, food_id: str) -> Composition | None:
    opened = node.keys(dict.fromkeys(NUTRIENTS, "9"), "per_100_g")
    read = {
        name: amount
        for name, item in opened.items()
        if (amount := read_with(item, name, "9", read_number)) is not None
    }
    amounts = tuple((name, read[name]) for name in NUTRIENTS if name in read)
    return Composition(food_id, amounts, OWN, OWN) if amounts else None


def _from_label(node: Node, food: Food) -> Composition | None:
    label = read_label(node)
    if label is None:
        return None
    own, found = food_from_label(food.id, food.name, label, node.findings.place(node.path))
    node.findings.found.extend(found)
    return None if own is None else own.composition


def _grams(text: str) -> Fraction:
    total = read_total(text)
    if total.dimension is not Dimension.MASS or total.amount <= 0:
        raise BadField(f"{shorten(text)} is no weight above 0; write one such as 60 g")
    return total.amount / 1000


def _share(text: str) -> Fraction:
    share = read_number(text)
    if not 0 < share <= 1:
        raise BadField(f"{shorten(text)} is no share; write a number above 0 and at most 1, such as 0.9")
    return share


def _above_zero(text: str) -> Fraction:
    number = read_number(text)
    if number <= 0:
        raise BadField("it is 0; write grams per millilitre above 0, such as 0.55")
    return number
