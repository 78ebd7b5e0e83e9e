"""Lots, movements, offers and plans as rows of the kitchen's file, and back."""

from __future__ import annotations

from datetime import date
from typing import Any

from ladleworth.ledger import Cause, Kind, Lot, LotUnit, Movement, Offer, Spot, Standing

Row = tuple[Any, ...]

LOT_FIELDS = (
    "id, item, unit, spot, got_on, quantity, cents, use_by, opened_on, packages, shop, offer, gift, shelf_cents, "
    "split_from"
)
MOVEMENT_FIELDS = (
    "id, day, kind, lot, quantity, cents, batch, who, note, cause, after_spot, after_use_by, after_opened_on, "
    "bound, reverses"
)
OFFER_FIELDS = "food, shop, quantity, unit, price_cents, seen, name, id, most"

_UNITS = {unit.value: unit for unit in LotUnit}
_SPOTS = {spot.value: spot for spot in Spot}
_KINDS = {kind.value: kind for kind in Kind}
_CAUSES = {cause.value: cause for cause in Cause}


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


def _text(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def row_of_lot(lot: Lot) -> Row:
    """Give a lot's row, in the order of `LOT_FIELDS`."""
    return (
        lot.id, lot.item, lot.unit.value, lot.spot.value, lot.got_on.isoformat(), lot.quantity, lot.cents,
        _text(lot.use_by), _text(lot.opened_on), lot.packages, lot.shop, lot.offer, int(lot.gift),
        lot.shelf_cents, lot.split_from or None,
    )  # fmt: skip


def lot_of_row(row: Row) -> Lot:
    """Build a lot from its row."""
    (
        name,
        item,
        unit,
        spot,
        got_on,
        quantity,
        cents,
        use_by,
        opened_on,
        packages,
        shop,
        offer,
        gift,
        shelf,
        split,
    ) = row
    return Lot(
        name, item, _UNITS[unit], _SPOTS[spot], date.fromisoformat(got_on), quantity, cents, _day(use_by),
        _day(opened_on), packages, shop, offer, bool(gift), shelf, split or "",
    )  # fmt: skip


def row_of_movement(entry: Movement) -> Row:
    """Give a movement's row, in the order of `MOVEMENT_FIELDS`."""
    after = entry.after
    return (
        entry.id, entry.day.isoformat(), entry.kind.value, entry.lot, entry.quantity, entry.cents, entry.batch,
        entry.who, entry.note, None if entry.cause is None else entry.cause.value,
        None if after is None else after.spot.value, None if after is None else _text(after.use_by),
        None if after is None else _text(after.opened_on), entry.bound, entry.reverses,
    )  # fmt: skip


def movement_of_row(row: Row) -> Movement:
    """Build a movement from its row."""
    (
        number,
        day,
        kind,
        lot,
        quantity,
        cents,
        batch,
        who,
        note,
        cause,
        spot,
        use_by,
        opened_on,
        bound,
        reverses,
    ) = row
    after = None if spot is None else Standing(_SPOTS[spot], _day(use_by), _day(opened_on))
    return Movement(
        number, date.fromisoformat(day), _KINDS[kind], lot, quantity, cents, batch, who, note,
        None if cause is None else _CAUSES[cause], after, bound, reverses,
    )  # fmt: skip


def row_of_offer(offer: Offer, most: int | None) -> Row:
    """Give an offer's row, in the order of `OFFER_FIELDS`."""
    return (
        offer.food, offer.shop, offer.quantity, offer.unit.value, offer.price_cents, offer.seen.isoformat(),
        offer.name, offer.id, most,
    )  # fmt: skip


def offer_of_row(row: Row) -> tuple[Offer, int | None]:
    """Build an offer from its row, and the most packages of it a visit (None: any number)."""
    food, shop, quantity, unit, price_cents, seen, name, offer_id, most = row
    offer = Offer(food, shop, quantity, _UNITS[unit], price_cents, date.fromisoformat(seen), name, offer_id)
    return offer, most


def free_name(stem: str, taken: set[str]) -> str:
    """Give the stem, or the stem with the lowest free number from 2."""
    number = 2
    name = stem
    while name in taken:
        name = f"{stem}-{number}"
        number += 1
    return name
