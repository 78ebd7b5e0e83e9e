"""What one batch cost: the share of each lot that went in, by portion, with and without what was lost."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import LedgerError
from ladleworth.ledger import Kind, Ledger, Lot, LotUnit
from ladleworth.reckon.table import Reckoning, Row
from ladleworth.units import split


@dataclass(frozen=True, slots=True)
class BatchLine:
    """So much of one item in a batch: `quantity` in `unit`, its share of `cents`, and the lots it came from."""

    item: str
    unit: LotUnit
    quantity: int
    cents: int
    lots: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BatchCost:
    """What a batch cost.

    Parameters
    ----------
    batch
        The batch's id.
    lines
        What went in, by item in the order of first draw.
    portion_cents
        One figure per portion, the batch's cents to the cent; portions of greater weight bear more.
    charged_cents
        What was lost of the purchases that the batch drew from, its share by quantity among the batches that
        drew from the same purchase. Never part of the used cents.
    lost_portions, lost_portion_cents
        The batch's own portions that were thrown out or counted short.
    """

    batch: str
    lines: tuple[BatchLine, ...]
    portion_cents: tuple[int, ...]
    charged_cents: int
    lost_portions: int
    lost_portion_cents: int

    def __post_init__(self) -> None:
        self.used()

    @property
    def portions(self) -> int:
        """How many portions came out."""
        return len(self.portion_cents)

    @property
    def used_cents(self) -> int:
        """The share of each lot actually drawn."""
        return sum(self.portion_cents)

    @property
    def per_portion(self) -> Fraction:
        """Used cents by portion, exact."""
        return Fraction(self.used_cents, self.portions)

    @property
    def per_portion_with_loss(self) -> Fraction:
        """Used and charged cents by portion, exact."""
        return Fraction(self.used_cents + self.charged_cents, self.portions)

    def per_portion_quantity(self, item: str) -> Fraction:
        """Tell how much of an item one portion has, exact, in the item's unit; zero when there is none."""
        return Fraction(sum(line.quantity for line in self.lines if line.item == item), self.portions)

    def used(self) -> Reckoning:
        """Show what went in; the total is what the portions carry."""
        rows = tuple(Row(line.item, line.cents) for line in self.lines)
        return Reckoning(f"used for {self.batch}", rows, self.used_cents)

    def with_loss(self) -> Reckoning:
        """Show the used cents with what was lost of the same purchases as a line of its own."""
        rows = (Row("used", self.used_cents), Row("lost of the same purchases", self.charged_cents))
        return Reckoning(f"{self.batch} with what was lost", rows, self.used_cents + self.charged_cents)


@dataclass(frozen=True, slots=True)
class ChargedLosses:
    """Every loss of food, charged to batches where one drew from the same purchase.

    `by_batch` pairs batches with cents; `uncharged_cents` was lost of purchases that no batch drew from. Together
    they are all the food that was thrown out or counted short.
    """

    by_batch: tuple[tuple[str, int], ...]
    uncharged_cents: int

    def cents(self, batch: str) -> int:
        """Give what a batch is charged, zero when it drew from nothing that was lost."""
        return dict(self.by_batch).get(batch, 0)


def purchase_of(ledger: Ledger, lot_id: str) -> Lot:
    """Follow a lot back through the lots it was split off to the one that came into the house."""
    lot = ledger.holding(lot_id).lot
    while lot.split_from:
        lot = ledger.holding(lot.split_from).lot
    return lot


def drawn_by_lot(ledger: Ledger, batch: str) -> dict[str, tuple[int, int]]:
    """Sum what stands as drawn for a batch.

    Parameters
    ----------
    ledger
        The ledger.
    batch
        The batch's id.

    Returns
    -------
    dict
        Lot id to (quantity, cents), in the order of first draw; what was reversed is left out.
    """
    sums: dict[str, tuple[int, int]] = {}
    for entry in ledger.movements:
        if entry.kind is Kind.DRAWN and entry.batch == batch:
            quantity, cents = sums.get(entry.lot, (0, 0))
            sums[entry.lot] = (quantity - entry.quantity, cents - entry.cents)
    return {lot: drawn for lot, drawn in sums.items() if drawn[0]}


def charge_losses(ledger: Ledger) -> ChargedLosses:
    """Charge what was lost of each purchase to the batches that drew from it, by quantity drawn.

    Portions that were lost are not here: their batch shows them itself.

    Parameters
    ----------
    ledger
        The ledger, cut off at the day wanted (`Ledger.as_of`).

    Returns
    -------
    ChargedLosses
        To the cent, by largest remainder.
    """
    lost: dict[str, int] = {}
    drawn: dict[str, dict[str, int]] = {}
    for entry in ledger.movements:
        purchase = purchase_of(ledger, entry.lot)
        if purchase.unit is LotUnit.PORTION:
            continue
        if entry.kind is Kind.DRAWN and entry.batch is not None:
            of_purchase = drawn.setdefault(purchase.id, {})
            of_purchase[entry.batch] = of_purchase.get(entry.batch, 0) - entry.quantity
        elif entry.kind is Kind.THROWN_OUT or (entry.kind is Kind.COUNTED and entry.way < 0):
            lost[purchase.id] = lost.get(purchase.id, 0) - entry.cents
    charged: dict[str, int] = {}
    uncharged = 0
    for purchase_id, cents in lost.items():
        standing = {batch: quantity for batch, quantity in drawn.get(purchase_id, {}).items() if quantity}
        if not standing:
            uncharged += cents
            continue
        for batch, part in zip(standing, split(cents, tuple(standing.values())), strict=True):
            charged[batch] = charged.get(batch, 0) + part
    return ChargedLosses(tuple(charged.items()), uncharged)


def reckon_batch(ledger: Ledger, batch: str, losses: ChargedLosses | None = None) -> BatchCost:
    """Reckon one batch from the ledger.

    Parameters
    ----------
    ledger
        The ledger, cut off at the day wanted (`Ledger.as_of`).
    batch
        The batch's id.
    losses
        From `charge_losses`, when several batches are reckoned in a row; worked out when not given.

    Returns
    -------
    BatchCost
        Whose lines and portions both add up to the cents drawn.

    Raises
    ------
    LedgerError
        When the batch is not in portions.
    """
    if not ledger.batch(batch).is_cooked:
        raise LedgerError(f"batch {batch!r} is not in portions yet; cook it before it is reckoned")
    lines: dict[tuple[str, LotUnit], BatchLine] = {}
    for lot_id, (quantity, cents) in drawn_by_lot(ledger, batch).items():
        lot = ledger.holding(lot_id).lot
        line = lines.get((lot.item, lot.unit), BatchLine(lot.item, lot.unit, 0, 0, ()))
        lines[lot.item, lot.unit] = BatchLine(
            lot.item, lot.unit, line.quantity + quantity, line.cents + cents, (*line.lots, lot_id)
        )
    portion_cents: list[int] = []
    lost_portions = lost_portion_cents = 0
    for entry in ledger.movements:
        if entry.kind is Kind.COOKED and entry.batch == batch and entry.reverses is None:
            if ledger.reversal_of(entry.id) is None:
                portion_cents.extend(split(entry.cents, (1,) * entry.quantity))
            continue
        lost = entry.kind is Kind.THROWN_OUT or (entry.kind is Kind.COUNTED and entry.way < 0)
        lot = ledger.holding(entry.lot).lot
        if lost and lot.unit is LotUnit.PORTION and lot.item == batch:
            lost_portions -= entry.quantity
            lost_portion_cents -= entry.cents
    charged = (losses or charge_losses(ledger)).cents(batch)
    return BatchCost(
        batch, tuple(lines.values()), tuple(portion_cents), charged, lost_portions, lost_portion_cents
    )
