"""Rates of the trade: edible cost, allowances, cost by a basis, packaging by use, planned against paid."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField
from ladleworth.units import half_up


def cost_factor(yield_share: Fraction) -> Fraction:
    """Turn a yield into the number that a price as purchased is multiplied by, whatever the price is.

    Parameters
    ----------
    yield_share
        Edible quantity over quantity as purchased, above zero.

    Returns
    -------
    Fraction
        One over the yield, for trim of no value.

    Raises
    ------
    BadField
        When the yield is zero or less.

    Source
    ------
    Cost factor as taught in food-cost control (PSU open textbook on food-cost control, chapter 7).
    """
    if yield_share <= 0:
        raise BadField(f"a yield of {yield_share} leaves nothing to eat; write a share above 0, such as 4/5")
    return 1 / Fraction(yield_share)


def edible_cost(as_purchased_cost: Fraction, yield_share: Fraction) -> Fraction:
    """Work out the cost of a unit that can be eaten: cost as purchased times cost factor.

    Parameters
    ----------
    as_purchased_cost
        Cents for a unit (a pound, a kilogram, a milligram) as bought.
    yield_share
        Edible quantity over quantity as purchased, above zero.

    Returns
    -------
    Fraction
        Cents for the same unit once trimmed, exact. The yield is used once: a cooking loss changes what a portion
        weighs, not what a batch costs.

    Raises
    ------
    BadField
        When the yield is zero or less, or the cost below zero.
    """
    if as_purchased_cost < 0:
        raise BadField(f"a cost of {as_purchased_cost} cents is below zero; write zero or more")
    return as_purchased_cost * cost_factor(yield_share)


def quantity_to_buy(edible_quantity: Fraction, yield_share: Fraction) -> Fraction:
    """Go back from what is to be eaten to what must be bought, in the same unit, exact."""
    return edible_quantity * cost_factor(yield_share)


def primary_part_cost(total_cents: int, other_parts_cents: int, usable_quantity: Fraction) -> Fraction:
    """Work out the cost of a useful cut that bears everything but the worth of its other parts.

    Parameters
    ----------
    total_cents
        What the whole piece cost.
    other_parts_cents
        What bones, fat and trimmings are worth.
    usable_quantity
        What the cut weighs, above zero.

    Returns
    -------
    Fraction
        Cents by unit of the cut, exact.

    Raises
    ------
    BadField
        When the other parts are worth more than the whole, or there is no cut.
    """
    if not 0 <= other_parts_cents <= total_cents:
        raise BadField(
            f"other parts worth {other_parts_cents} cents of {total_cents}; write from zero to the total"
        )
    if usable_quantity <= 0:
        raise BadField(f"a cut of {usable_quantity} has no cost by unit; write a quantity above zero")
    return (total_cents - other_parts_cents) / Fraction(usable_quantity)


def spice_factor(unmeasured_cents: int, all_food_cents: int) -> Fraction:
    """Tell the share of all food money that goes on what nobody measures (oil, salt, spices).

    Parameters
    ----------
    unmeasured_cents, all_food_cents
        Spent in one period.

    Returns
    -------
    Fraction
        The ratio, exact.

    Raises
    ------
    BadField
        When the period has no food money, or less of it than of what is unmeasured.

    Source
    ------
    The ratio is from memory; that the allowance follows the portion cost is taught in costing assignments.
    """
    if not 0 <= unmeasured_cents <= all_food_cents or all_food_cents == 0:
        raise BadField(
            f"{unmeasured_cents} cents of {all_food_cents} is no share; write food money above zero that holds it"
        )
    return Fraction(unmeasured_cents, all_food_cents)


def allowance_cents(measured_cents: int, factor: Fraction) -> int:
    """Work out the allowance for what was not measured; a line of its own, never an entry of the ledger.

    Parameters
    ----------
    measured_cents
        Cost of what was measured.
    factor
        The spice factor, zero or more.

    Returns
    -------
    int
        Cents, rounded half up.

    Raises
    ------
    BadField
        When the factor or the cost is below zero.
    """
    if factor < 0 or measured_cents < 0:
        raise BadField(
            f"an allowance of {factor} on {measured_cents} cents is below zero; write zero or more"
        )
    return half_up(measured_cents * Fraction(factor))


def cost_share(cost_cents: int, price_cents: int, cover_cents: int = 0) -> Fraction:
    """Tell a dish's cost as a share of a price, with a flat allowance for what is eaten with it.

    Parameters
    ----------
    cost_cents
        Cost of the dish.
    price_cents
        What it is compared with (a meal out, say), above zero.
    cover_cents
        The flat allowance, known in the trade as Q.

    Returns
    -------
    Fraction
        The share, exact.

    Raises
    ------
    BadField
        When there is no price.
    """
    if price_cents <= 0:
        raise BadField(f"a price of {price_cents} cents has no shares; write one above zero")
    return Fraction(cost_cents + cover_cents, price_cents)


def cost_by(cents: Fraction, amount: Fraction, basis: Fraction) -> Fraction:
    """Work out cents by a basis: by 1000 kcal, by 100 g of protein, by 100 g of the dish.

    Parameters
    ----------
    cents
        Cost of the portion or the batch.
    amount
        How much of it there is in the same portion or batch, above zero.
    basis
        The amount that the answer is for, in the same unit.

    Returns
    -------
    Fraction
        Cents, exact.

    Raises
    ------
    BadField
        When there is none of it.
    """
    if amount <= 0:
        raise BadField(f"an amount of {amount} has no cost by {basis}; write one above zero")
    return Fraction(cents) * Fraction(basis) / Fraction(amount)


def cents_by_use(
    paid_cents: int, pieces: int, uses_each: int, lost_share: Fraction = Fraction(0)
) -> Fraction:
    """Work out what a container or a bag costs by use.

    Parameters
    ----------
    paid_cents, pieces
        What so many of them cost.
    uses_each
        How often one is used before it is worn out, one or more.
    lost_share
        The share of them that is lost or broken before a use, from 0 up to but not 1.

    Returns
    -------
    Fraction
        Cents by use, exact: each piece survives from one use to the next with the share not lost.

    Raises
    ------
    BadField
        When a figure is out of its range.
    """
    if paid_cents < 0 or pieces < 1 or uses_each < 1 or not 0 <= lost_share < 1:
        raise BadField(
            f"{pieces} pieces for {paid_cents} cents, {uses_each} uses each, {lost_share} lost: "
            "write cents from 0, pieces and uses from 1, and a lost share from 0 and below 1"
        )
    kept = 1 - Fraction(lost_share)
    uses = sum((kept**use for use in range(uses_each)), Fraction(0))
    return Fraction(paid_cents, pieces) / uses


@dataclass(frozen=True, slots=True)
class Variance:
    """Paid less planned, in exact cents: what the price did and what the quantity did; they add up."""

    price_cents: Fraction
    quantity_cents: Fraction

    @property
    def cents(self) -> Fraction:
        """Both together."""
        return self.price_cents + self.quantity_cents


def variance(planned_quantity: int, planned_cents: int, paid_quantity: int, paid_cents: int) -> Variance:
    """Split the gap between planned and paid into price and quantity.

    Parameters
    ----------
    planned_quantity, planned_cents
        As on the list; the quantity is above zero.
    paid_quantity, paid_cents
        As on the receipt, in the same unit; zero when it was not bought.

    Returns
    -------
    Variance
        Price: the change in unit price on what was bought. Quantity: the change in quantity at the planned price.

    Raises
    ------
    BadField
        When a figure is below zero or nothing was planned.
    """
    if planned_quantity <= 0 or min(planned_cents, paid_quantity, paid_cents) < 0:
        raise BadField(
            f"planned {planned_quantity} for {planned_cents} cents, paid {paid_quantity} for {paid_cents}: "
            "write a planned quantity above zero and nothing below zero"
        )
    planned_unit = Fraction(planned_cents, planned_quantity)
    return Variance(
        paid_cents - planned_unit * paid_quantity, planned_unit * (paid_quantity - planned_quantity)
    )
