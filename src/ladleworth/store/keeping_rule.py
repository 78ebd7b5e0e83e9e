"""How many days a food keeps once bought, by a stated rule over the food table (docs/kitchen-folder.md)."""

from __future__ import annotations

from ladleworth.errors import MissingFact
from ladleworth.facts import FoodTable, Keeping, food_table

DURABLE_FROM_DAYS = 90
"""A food whose time in the cupboard is at least this counts as durable. House rule, no source."""

CUPBOARD_AISLES = frozenset({"baking", "dry-goods", "oils-and-sauces", "spices", "tins"})
"""Aisles of closed packages that stand in the cupboard for months. Common practice, no source: it stands in
only for a food of the kitchen's own that says nothing else, and says nothing about an opened package."""

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
        The greatest days of `bought_keeping`; None for durable: at least `DURABLE_FROM_DAYS` in the cupboard,
        or a food of the kitchen's own from one of `CUPBOARD_AISLES` of which no time is on record.

    Raises
    ------
    MissingFact
        If no time is on record.
    """
    keeping = bought_keeping(foods, food_id)
    if keeping is None or (keeping.place == "cupboard" and keeping.most_days >= DURABLE_FROM_DAYS):
        return None
    return max(keeping.most_days, 1)


def bought_keeping(foods: FoodTable, food_id: str) -> Keeping | None:
    """Find the time of the table by which a food keeps once bought, with its source and basis.

    Parameters
    ----------
    foods
        The food table.
    food_id
        The food's id.

    Returns
    -------
    Keeping or None
        For a frozen food the time in the freezer. Otherwise, closed or raw: in the cupboard if that makes the
        food durable, else in the fridge, else in the cupboard; else in the fridge once opened, as for what is
        sold by the slice. None for a food of the kitchen's own from one of `CUPBOARD_AISLES` without any.

    Raises
    ------
    MissingFact
        If none of these is on record.
    """
    food = foods.get(food_id)
    if food.aisle == FROZEN_AISLE:
        return _in_freezer(foods, food_id)
    cupboard = _find(foods, food_id, "cupboard", _CLOSED)
    if cupboard is not None and cupboard.most_days >= DURABLE_FROM_DAYS:
        return cupboard
    keeping = (
        _find(foods, food_id, "fridge", _CLOSED) or cupboard or _find(foods, food_id, "fridge", ("opened",))
    )
    if keeping is None and not (food.aisle in CUPBOARD_AISLES and food_id not in food_table()):
        raise MissingFact(f"nobody has the keeping time of {food.name} once bought")
    return keeping


def days_in_freezer(foods: FoodTable, food_id: str) -> int:
    """Say how many days a raw or closed food keeps frozen; raise MissingFact if nobody has it."""
    return max(_in_freezer(foods, food_id).most_days, 1)


def _in_freezer(foods: FoodTable, food_id: str) -> Keeping:
    keeping = _find(foods, food_id, "freezer", _CLOSED)
    if keeping is None:
        raise MissingFact(f"nobody has the keeping time of {foods.get(food_id).name} in the freezer")
    return keeping


def _find(foods: FoodTable, food_id: str, place: str, states: tuple[str, ...]) -> Keeping | None:
    """Find the first time on record in a place among these states, None if nobody has one."""
    for state in states:
        try:
            return foods.keeping(food_id, place, state)
        except MissingFact:
            continue
    return None
