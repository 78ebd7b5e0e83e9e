"""Where planned food is in the ledger: the offers of the price book, and the lots that were bought at them. Pure."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date

from ladleworth.household import Kitchen
from ladleworth.ledger import Kind, Ledger, Offer


def offers_by_id(kitchen: Kitchen) -> Mapping[str, Offer]:
    """All offers of the price book by their ids."""
    return {offer.id: offer for offer in kitchen.prices.offers}


def bought_lot(ledger: Ledger, offer: str, when: date, before: Collection[str] = ()) -> str | None:
    """Find the lot of an offer bought on a day, as long as the purchase stands; None if there is none.

    Lots in `before` were on hand already when the plan was made, though bought on the same day.
    """
    for entry in ledger.movements:
        if entry.kind is not Kind.BOUGHT or entry.reverses is not None or entry.day != when:
            continue
        if entry.lot in before:
            continue
        if ledger.holding(entry.lot).lot.offer == offer and ledger.reversal_of(entry.id) is None:
            return entry.lot
    return None
