"""Which lot goes first: by its last day, not by the day it came."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from ladleworth.errors import BadField, LedgerError
from ladleworth.ledger.book import Ledger
from ladleworth.ledger.index import Holding
from ladleworth.ledger.lot import LotUnit, in_words


@dataclass(frozen=True, slots=True)
class Take:
    """So much of one lot: `quantity` in the lot's unit, above zero."""

    lot: str
    quantity: int

    def __post_init__(self) -> None:
        if self.quantity <= 0:
            raise BadField(f"{self.quantity} cannot be taken of lot {self.lot!r}; take more than zero")


def eat_first(holdings: Iterable[Holding]) -> tuple[Holding, ...]:
    """Put lots in the order in which they should be used.

    Parameters
    ----------
    holdings
        Lots with what is left of them.

    Returns
    -------
    tuple of Holding
        Earliest last day first and undated ones last; of one date opened ones first, then the longest in the
        house, then by id.
    """
    return tuple(sorted(holdings, key=_turn))


def earliest(
    ledger: Ledger, day: date, item: str, quantity: int, unit: LotUnit, *, even_past_use_by: bool = False
) -> tuple[Take, ...]:
    """Choose the lots to take an amount from, first things first.

    Parameters
    ----------
    ledger
        What is there.
    day
        The day of use; lots whose last day is before it are passed over.
    item
        The food, or the batch of the portions.
    quantity
        How much in all, in `unit`, above zero.
    unit
        What `quantity` counts; lots kept in another unit are passed over.
    even_past_use_by
        True to use lots past their last day as well, earliest first.

    Returns
    -------
    tuple of Take
        One entry per lot touched, together exactly `quantity`.

    Raises
    ------
    LedgerError
        When there is less than that, saying what there is.
    """
    if quantity <= 0:
        raise BadField(f"{in_words(quantity, unit)} of {item!r} cannot be drawn; draw more than zero")
    there = [held for held in ledger.holdings(item) if held.lot.unit is unit]
    usable = eat_first(held for held in there if even_past_use_by or not held.is_past(day))
    takes, wanting = [], quantity
    for held in usable:
        part = min(wanting, held.quantity)
        takes.append(Take(held.lot.id, part))
        wanting -= part
        if wanting == 0:
            return tuple(takes)
    past = sum(held.quantity for held in there) - sum(held.quantity for held in usable)
    beyond = f", and {in_words(past, unit)} past the last day" if past else ""
    raise LedgerError(
        f"{in_words(quantity, unit)} of {item!r} wanted, {in_words(quantity - wanting, unit)} there{beyond}; "
        "draw less, buy more, or count what is on hand"
    )


def _turn(held: Holding) -> tuple[bool, date, bool, date, str]:
    standing = held.standing
    return (
        standing.use_by is None,
        standing.use_by or date.max,
        standing.opened_on is None,
        held.lot.got_on,
        held.lot.id,
    )
