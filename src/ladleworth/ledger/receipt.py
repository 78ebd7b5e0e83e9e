"""A receipt turned into lots: discounts and tax dealt out so that the lots add up to what was paid."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from ladleworth.errors import BadField
from ladleworth.ledger.lot import Lot
from ladleworth.units import split


@dataclass(frozen=True, slots=True)
class ReceiptLine:
    """One line of food.

    `lot` bears the price printed on the line as its cents; `discount_cents` and `tax_cents` are what the receipt
    takes off, or adds, for this line alone, both zero or more.
    """

    lot: Lot
    discount_cents: int = 0
    tax_cents: int = 0

    def __post_init__(self) -> None:
        if self.lot.gift:
            raise BadField(f"lot {self.lot.id!r} is a gift and has no place on a receipt; enter it by itself")
        if not 0 <= self.discount_cents <= self.lot.cents:
            raise BadField(
                f"the line of lot {self.lot.id!r} takes {self.discount_cents} cents off {self.lot.cents}; "
                "write a discount from zero to the price"
            )
        if self.tax_cents < 0:
            raise BadField(
                f"the line of lot {self.lot.id!r} has a tax of {self.tax_cents} cents; write zero or more"
            )

    @property
    def net_cents(self) -> int:
        """The price less the line's own discount."""
        return self.lot.cents - self.discount_cents


@dataclass(frozen=True, slots=True)
class Receipt:
    """What one visit to a shop cost.

    Parameters
    ----------
    shop, day
        Where and when.
    lines
        The food.
    total_cents
        What was paid.
    basket_discount_cents
        Taken off everything together: a coupon, points.
    tax_cents
        Tax that the receipt does not give by line.
    deposit_cents
        Deposits on bottles and boxes: paid, yet no cost of food.
    other_cents
        Everything that is not food, after its own discounts and tax.
    """

    shop: str
    day: date
    lines: tuple[ReceiptLine, ...]
    total_cents: int
    basket_discount_cents: int = 0
    tax_cents: int = 0
    deposit_cents: int = 0
    other_cents: int = 0

    def __post_init__(self) -> None:
        amounts = {
            "discount": self.basket_discount_cents,
            "tax": self.tax_cents,
            "deposit": self.deposit_cents,
            "sum for other things": self.other_cents,
        }
        for name, cents in amounts.items():
            if cents < 0:
                raise BadField(
                    f"the receipt of {self.shop!r} has a {name} of {cents} cents; write zero or more"
                )
        net = self.other_cents + sum(line.net_cents for line in self.lines)
        if self.basket_discount_cents > net:
            raise BadField(
                f"the receipt of {self.shop!r} takes {self.basket_discount_cents} cents off {net}; "
                "write no more than the lines come to"
            )
        taxes = self.tax_cents + sum(line.tax_cents for line in self.lines)
        adds_up_to = net - self.basket_discount_cents + taxes + self.deposit_cents
        if adds_up_to != self.total_cents:
            raise BadField(
                f"the receipt of {self.shop!r} adds up to {adds_up_to} cents and says {self.total_cents}; "
                f"look for {abs(self.total_cents - adds_up_to)} cents in its lines, discounts, tax and deposits"
            )


@dataclass(frozen=True, slots=True)
class Cart:
    """A receipt dealt out: `lots` at what was paid for each, and the cents that are no food's."""

    lots: tuple[Lot, ...]
    other_cents: int
    deposit_cents: int


def unpack(receipt: Receipt) -> Cart:
    """Turn a receipt into lots at the price paid, keeping the price on the shelf beside it.

    Parameters
    ----------
    receipt
        The receipt, which adds up.

    Returns
    -------
    Cart
        Lots, other things and deposits, together exactly the receipt's total. The basket's discount and tax are
        dealt over food and other things by price, with the largest remainder.
    """
    weights = (*(line.net_cents for line in receipt.lines), receipt.other_cents)
    off = _dealt(receipt.basket_discount_cents, weights)
    tax = _dealt(receipt.tax_cents, weights)
    lots = tuple(
        replace(
            line.lot,
            cents=line.net_cents + line.tax_cents - less + more,
            shelf_cents=line.lot.cents if line.lot.shelf_cents is None else line.lot.shelf_cents,
            shop=line.lot.shop or receipt.shop,
        )
        for line, less, more in zip(receipt.lines, off[:-1], tax[:-1], strict=True)
    )
    return Cart(lots, receipt.other_cents - off[-1] + tax[-1], receipt.deposit_cents)


def _dealt(cents: int, weights: tuple[int, ...]) -> tuple[int, ...]:
    """Deal cents out by price; where there are none there is nothing to deal."""
    return split(cents, weights) if cents else (0,) * len(weights)
