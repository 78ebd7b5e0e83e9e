"""How many days a food keeps once bought, by a stated rule over the published table (docs/kitchen-folder.md)."""

from __future__ import annotations

from ladleworth.errors import MissingFact
from ladleworth.facts import FoodTable

DURABLE_FROM_DAYS = 90
"""A food whose published time in the cupboard is at least this counts as durable. House rule, no source."""

CUPBOARD_AISLES = frozenset({"baking", "dry-goods", "oils-and-sauces", "spices", "tins"})
"""Aisles of closed packages that stand in the cupboard for months. Common practice, no source: it stands in
only for foods of which the table has no cupboard time, and says nothing about an opened package."""

FROZEN_AISLE = "frozen"
_CLOSED = ("unopened", "raw")


def days_kept(foods: FoodTable, food_id: str) -> int | None:
    """Say how many days a food keeps once bought, the day of buying as day 1.

    Parameters
    ----------
    foods
        The food table.
    food_id
        The food's id.

    Returns
    -------
    int or None
        Days, None for durable: for a frozen food the published greatest time in the freezer; durable for a
        published cupboard time of `DURABLE_FROM_DAYS` or more, or, where there is none, for the aisles of
        `CUPBOARD_AISLES`; otherwise the published greatest time in the fridge (closed or raw), else the one
        in the cupboard.

    Raises
    ------
    MissingFact
        If none of these is on record.
    """
    food = foods.get(food_id)
    if food.aisle == FROZEN_AISLE:
        days = _published(foods, food_id, "freezer")
        if days is not None:
            return days
        raise MissingFact(f"nobody has the keeping time of {food.name} in the freezer")
    cupboard = _published(foods, food_id, "cupboard")
    if cupboard is None and food.aisle in CUPBOARD_AISLES:
        return None
    if cupboard is not None and cupboard >= DURABLE_FROM_DAYS:
        return None
    fridge = _published(foods, food_id, "fridge")
    days = cupboard if fridge is None else fridge
    if days is None:
        raise MissingFact(f"nobody has the keeping time of {food.name} once bought")
    return days


def days_in_freezer(foods: FoodTable, food_id: str) -> int:
    """Say how many days a raw or closed food keeps frozen; raise MissingFact if nobody has it."""
    days = _published(foods, food_id, "freezer")
    if days is None:
        raise MissingFact(f"nobody has the keeping time of {foods.get(food_id).name} in the freezer")
    return days


def _published(foods: FoodTable, food_id: str, place: str) -> int | None:
    """Look up the greatest published days of a closed or raw food in a place, None if nobody has them."""
    for state in _CLOSED:
        try:
            days = foods.keeping(food_id, place, state).most_days
        except MissingFact:
            continue
        return max(days, 1)
    return None
