"""Amounts of a food as bought: whole milligrams for what is weighed, whole pieces for what is counted."""

from __future__ import annotations

from ladleworth.dish.amounts import reckon_quantity
from ladleworth.dish.tree import shorten
from ladleworth.errors import BadField, BadUnit, MissingFact
from ladleworth.facts import Food, FoodTable, Measure
from ladleworth.ledger import LotUnit
from ladleworth.units import Dimension, Quantity, half_up, read_number, read_total

MOST = 10**12
"""The greatest amount that is read: a thousand tonnes in milligrams."""


def unit_of(food: Food) -> LotUnit:
    """Say what the integers of a lot or a package of this food count."""
    return LotUnit.PIECE if food.measured_in is Measure.PIECES else LotUnit.MG


def read_as_bought(text: str, food: Food, foods: FoodTable) -> int:
    """Read an amount of a food in what it is bought by.

    Parameters
    ----------
    text
        '500 g', '1 1/2 cups', '2 lb 3 oz', or a bare number of pieces.
    food, foods
        The food and the table with its weights.

    Returns
    -------
    int
        Milligrams (a volume by the food's density, pieces by the weight of one as bought; rounded half up),
        or pieces for a food that is counted; 0 or more.

    Raises
    ------
    BadUnit, BadField
        If it cannot be read or turned into what the food is bought by.
    """
    amount = _read(text)
    if food.measured_in is Measure.PIECES:
        if amount.dimension is not Dimension.COUNT:
            raise BadField(f"{food.name} is counted in pieces; write how many, such as 6")
        if amount.amount.denominator != 1:
            raise BadField(f"{amount.amount} of {food.name} are no whole pieces; write a whole number")
        whole = amount.amount.numerator
    else:
        try:
            weighed = amount.dimension is Dimension.MASS
            whole = half_up(
                amount.amount if weighed else reckon_quantity(amount, food, foods, as_bought=True).bought
            )
        except MissingFact as missing:
            key = "density" if amount.dimension is Dimension.VOLUME else "piece"
            raise BadField(
                f"{missing}; write a weight such as 500 g, or its {key} in foods.yaml"
            ) from missing
    if whole >= MOST:
        raise BadField(f"{shorten(text)} is more than any kitchen holds; check the unit")
    return whole


def _read(text: str) -> Quantity:
    clean = text.strip()
    if clean[:1] in "-−":
        raise BadUnit(f"the amount {shorten(clean)} is below zero; write one above zero")
    if not any(c.isalpha() or c == "#" for c in clean):
        return Quantity(read_number(clean), Dimension.COUNT)
    return read_total(clean)
