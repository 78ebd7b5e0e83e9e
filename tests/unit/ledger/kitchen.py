"""Lots and days that the tests of the ledger share."""

from __future__ import annotations

from datetime import date, timedelta

from ladleworth.ledger import Ledger, Lot, LotUnit, Spot, buy

MONDAY = date(2026, 3, 2)


def day(number: int) -> date:
    """Monday is day 0."""
    return MONDAY + timedelta(days=number)


def by_mass(lot_id: str, item: str, mass_mg: int, cents: int, **rest: object) -> Lot:
    fields = {
        "unit": LotUnit.MG,
        "spot": Spot.CUPBOARD,
        "got_on": MONDAY,
        "quantity": mass_mg,
        "cents": cents,
    }
    return Lot(lot_id, item, **{**fields, **rest})  # type: ignore[arg-type]


def by_piece(lot_id: str, item: str, pieces: int, cents: int, **rest: object) -> Lot:
    return by_mass(lot_id, item, pieces, cents, **{"unit": LotUnit.PIECE, **rest})


def stocked(*lots: Lot) -> Ledger:
    return buy(Ledger(), MONDAY, lots).ledger
