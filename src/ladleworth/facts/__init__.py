"""Published figures about food, each with its source: the food table and its look-ups."""

from __future__ import annotations

from ladleworth.facts.allergens import find_allergen, near_allergens
from ladleworth.facts.own import OwnFood
from ladleworth.facts.records import (
    ALLERGENS,
    NUTRIENTS,
    AllergenFlag,
    Composition,
    CookingYield,
    Density,
    Figure,
    Food,
    FreezesHow,
    Freezing,
    Keeping,
    Measure,
    PieceWeight,
    Source,
    WeightIs,
)
from ladleworth.facts.table import FoodTable, food_table

__all__ = [
    "ALLERGENS",
    "NUTRIENTS",
    "AllergenFlag",
    "Composition",
    "CookingYield",
    "Density",
    "Figure",
    "Food",
    "FoodTable",
    "FreezesHow",
    "Freezing",
    "Keeping",
    "Measure",
    "OwnFood",
    "PieceWeight",
    "Source",
    "WeightIs",
    "find_allergen",
    "food_table",
    "near_allergens",
]
