"""Everything that is known of one food, drawn together from the tables."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.facts import load
from ladleworth.facts.own import OwnFood
from ladleworth.facts.records import (
    AllergenFlag,
    Composition,
    CookingYield,
    Density,
    Figure,
    Food,
    Freezing,
    Keeping,
    PieceWeight,
)

_WITH_REFUSE = ("produce", "meat", "fish")
"""Aisles of foods that may have peel, bone or skin."""
_PRACTICE = "common-practice"


@dataclass(frozen=True, slots=True)
class Entry:
    """All that is known of one food; what is unknown is None or empty."""

    food: Food
    composition: Composition | None
    edible: Figure | None
    pieces: tuple[PieceWeight, ...]
    densities: tuple[Density, ...]
    keeping: tuple[Keeping, ...]
    freezing: Freezing | None
    allergens: tuple[AllergenFlag, ...]
    yields: tuple[CookingYield, ...]
    read_label: bool


def lay_over(base: Entry | None, own: OwnFood) -> Entry:
    """Lay the kitchen's own record over what the table knows; what the record leaves out stays.

    Parameters
    ----------
    base
        The table's entry, None for a food that is new. A new food without a word on allergens is taken
        for one whose label must be read; one without an edible fraction is taken as eaten whole, unless it
        has its aisle with produce, meat or fish and no label.
    own
        The kitchen's record.
    """
    if base is None:
        unsure = own.allergens is None
        base = Entry(own.food, None, _eaten_whole(own), (), (), (), None, (), (), read_label=unsure)
    kept = tuple(
        row for row in base.keeping if (row.place, row.state) not in {(k.place, k.state) for k in own.keeping}
    )
    return Entry(
        own.food,
        own.composition or base.composition,
        own.edible_fraction or base.edible,
        own.pieces or base.pieces,
        own.densities or base.densities,
        own.keeping + kept,
        own.freezing or base.freezing,
        base.allergens if own.allergens is None else own.allergens,
        own.yields or base.yields,
        base.read_label if own.read_label is None else own.read_label,
    )


def _eaten_whole(own: OwnFood) -> Figure | None:
    """Take packet goods as eaten whole; None for what may have peel, bone or skin."""
    labelled = own.composition is not None and own.composition.basis == "label"
    if own.food.aisle in _WITH_REFUSE and not labelled:
        return None
    return Figure(Fraction(1), "share", _PRACTICE, "common practice", "packet goods are eaten whole")


def read_entries() -> dict[str, Entry]:
    """Read every food of the package with all its figures, by food id, in the order of the table."""
    compositions, edible, pieces = load.read_compositions(), load.read_edible(), load.read_pieces()
    densities, freezing, allergens = load.read_densities(), load.read_freezing(), load.read_allergens()
    yields = load.read_yields()
    of_food, of_class = load.read_keeping()
    entries: dict[str, Entry] = {}
    for food, keeps_as, read_label in load.read_foods():
        alone = of_food.get(food.id, ())
        seen = {(row.place, row.state) for row in alone}
        shared = tuple(row for row in of_class.get(keeps_as, ()) if (row.place, row.state) not in seen)
        entries[food.id] = Entry(
            food,
            compositions.get(food.id),
            edible.get(food.id),
            pieces.get(food.id, ()),
            densities.get(food.id, ()),
            alone + shared,
            freezing.get(food.id),
            allergens.get(food.id, ()),
            yields.get(food.id, ()),
            read_label,
        )
    return entries
