"""A lot: an amount of one food, or of cooked portions, that shares cost, spot and dates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from ladleworth.errors import BadField
from ladleworth.units import show_mass


class LotUnit(Enum):
    """What the integers of a lot count: milligrams, whole pieces, or cooked portions."""

    MG = "mg"
    PIECE = "piece"
    PORTION = "portion"


class Spot(Enum):
    """Where in the kitchen a lot stands."""

    CUPBOARD = "cupboard"
    FRIDGE = "fridge"
    FREEZER = "freezer"


@dataclass(frozen=True, slots=True)
class Standing:
    """What can change about a lot without any of it being used: where it is and its dates.

    `use_by` is the last day on which it may be used, None for no date; `opened_on` is None while closed.
    """

    spot: Spot
    use_by: date | None = None
    opened_on: date | None = None


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot as it first came into the ledger; what is left of it is read from the movements.

    A lot keeps its *total* cents and *total* quantity, never a rounded unit price.

    Parameters
    ----------
    id
        The lot's own name in this ledger, used once and never again.
    item
        The food's id, or for cooked portions the id of their batch.
    unit
        What `quantity` counts.
    spot
        Where it was first put.
    got_on
        The day it came into the house (or was cooked); older lots are drawn first.
    quantity
        All of it, in `unit`; above zero.
    cents
        What all of it cost, in minor units of the kitchen's money; zero for a gift.
    use_by
        The last day on which it may be used, None for no date.
    opened_on
        The day its package was opened, None while closed.
    packages
        How many whole packages the lot was bought as.
    shop, offer
        Where it was bought and at which offer of the price book, empty when not known.
    gift
        True for gifts, garden and sponsors' goods: they cost nothing and must be disclosed.
    shelf_cents
        What the shelf asked for all of it before discounts, or what a gift would have cost; None when
        nobody knows.
    split_from
        The lot that this one was split off, empty for none.
    """

    id: str
    item: str
    unit: LotUnit
    spot: Spot
    got_on: date
    quantity: int
    cents: int
    use_by: date | None = None
    opened_on: date | None = None
    packages: int = 1
    shop: str = ""
    offer: str = ""
    gift: bool = False
    shelf_cents: int | None = None
    split_from: str = ""

    def __post_init__(self) -> None:
        if not self.id:
            raise BadField(f"a lot of {self.item!r} has no id; give it one that no other lot has")
        if not self.item:
            raise BadField(f"lot {self.id!r} has no item; name its food, or its batch for portions")
        if self.quantity <= 0:
            raise BadField(
                f"lot {self.id!r} has a quantity of {self.quantity} {self.unit.value}; write one above zero"
            )
        if self.cents < 0:
            raise BadField(f"lot {self.id!r} costs {self.cents} cents; write zero or more")
        if self.gift and self.cents:
            raise BadField(
                f"lot {self.id!r} is a gift that costs {self.cents} cents; write 0 cents, "
                "and what it would have cost as its shelf price"
            )
        if self.packages < 1:
            raise BadField(f"lot {self.id!r} has {self.packages} packages; write one or more")
        if self.shelf_cents is not None and self.shelf_cents < 0:
            raise BadField(
                f"lot {self.id!r} has a shelf price of {self.shelf_cents} cents; write zero or more"
            )
        if self.split_from == self.id:
            raise BadField(f"lot {self.id!r} cannot be split off itself; name the lot it came from")

    @property
    def standing(self) -> Standing:
        """Where it was first put, and its first dates."""
        return Standing(self.spot, self.use_by, self.opened_on)


def in_words(quantity: int, unit: LotUnit) -> str:
    """Write a quantity in a lot's unit for a message, exactly ('250 g', '1.2 kg', '1 piece', '3 pieces')."""
    if unit is LotUnit.MG:
        return show_mass(quantity, exact=True)
    return f"{quantity} {unit.value}" + ("" if abs(quantity) == 1 else "s")
