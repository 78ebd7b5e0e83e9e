"""Acts on what stands in the kitchen: buy, take stock, count, move, open a package.

Each act gives a new ledger together with the entries and lots it added; it changes nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from ladleworth.errors import BadField, LedgerError
from ladleworth.ledger.book import Draft, Entered, Ledger
from ladleworth.ledger.lot import Lot, Spot, Standing, in_words
from ladleworth.ledger.movement import Kind
from ladleworth.units import share


def fresh_lot_id(ledger: Ledger, stem: str) -> str:
    """Find a lot id that is not taken: the stem, or the stem with the lowest free number from 2.

    Parameters
    ----------
    ledger
        The ledger that the lot is to join.
    stem
        How the id begins, the food's id for instance.

    Returns
    -------
    str
        'rice', 'rice-2', 'rice-3' and so on.
    """
    if not ledger.has_lot(stem):
        return stem
    number = 2
    while ledger.has_lot(f"{stem}-{number}"):
        number += 1
    return f"{stem}-{number}"


def buy(ledger: Ledger, day: date, lots: Iterable[Lot], *, note: str = "") -> Entered:
    """Enter what was bought, or came as a gift, as new lots.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of buying.
    lots
        The new lots, each with the total paid for it.
    note
        Anything worth keeping with the entries.

    Returns
    -------
    Entered
        One 'bought' entry per lot.

    Raises
    ------
    LedgerError
        When a lot's id is taken, or it holds portions.
    """
    draft = Draft(ledger, day)
    for lot in lots:
        draft.let_in(Kind.BOUGHT, lot, note=note)
    return draft.close()


def take_stock(ledger: Ledger, day: date, lots: Iterable[Lot], *, reason: str = "first count") -> Entered:
    """Enter lots that were there before the ledger knew them, at the cents that they are said to be worth.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of counting.
    lots
        The lots found.
    reason
        Why they were not in the ledger.

    Returns
    -------
    Entered
        One 'counted' entry per lot; a reckoning shows their cents as counted in, not as paid.

    Raises
    ------
    LedgerError
        When a lot's id is taken.
    """
    draft = Draft(ledger, day)
    for lot in lots:
        draft.let_in(Kind.COUNTED, lot, note=reason)
    return draft.close()


def count(ledger: Ledger, day: date, lot_id: str, found: int, reason: str) -> Entered:
    """Enter a physical count of a lot, which explains the gap between the shelf and the ledger.

    A shortfall writes off its share of the lot's remaining cents as lost. A surplus adds quantity at no
    cents: nobody paid for it again, so what is there only becomes cheaper by the unit.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of counting.
    lot_id
        The lot counted.
    found
        What is there, in the lot's unit, zero or more.
    reason
        How the gap came about, or that there was none.

    Returns
    -------
    Entered
        One 'counted' entry, also when nothing differs.

    Raises
    ------
    BadField
        When the count is below zero or the reason is empty.
    """
    if found < 0:
        raise BadField(f"lot {lot_id!r} was counted as {found}; write zero or more")
    draft = Draft(ledger, day)
    held = draft.holding(lot_id)
    missing = held.quantity - found
    lost_cents = share(held.cents, missing, held.quantity) if missing > 0 else 0
    draft.change(Kind.COUNTED, lot_id, -missing, -lost_cents, note=reason)
    return draft.close()


def move(
    ledger: Ledger,
    day: date,
    lot_id: str,
    spot: Spot,
    *,
    use_by: date | None,
    quantity: int | None = None,
    new_lot_id: str = "",
    note: str = "",
) -> Entered:
    """Put a lot, or a part of it, in another spot with the last day that it has there.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of moving.
    lot_id
        The lot.
    spot
        Where it goes.
    use_by
        Its last day there, None for no date.
    quantity
        How much of it, in the lot's unit; None for all of it.
    new_lot_id
        The id of the part, when it is not all.
    note
        Anything worth keeping with the entries.

    Returns
    -------
    Entered
        One 'moved' entry for a whole lot; for a part two, out of the old lot and into the new one, with the
        part's share of the remaining cents.

    Raises
    ------
    LedgerError
        When nothing is left of the lot, or less than `quantity`, or the new id is taken.
    """
    draft = Draft(ledger, day)
    opened_on = draft.holding(lot_id).standing.opened_on
    _place(draft, lot_id, Standing(spot, use_by, opened_on), quantity, new_lot_id, note)
    return draft.close()


def open_package(
    ledger: Ledger,
    day: date,
    lot_id: str,
    *,
    use_by: date | None,
    quantity: int | None = None,
    new_lot_id: str = "",
    note: str = "",
) -> Entered:
    """Open a lot's package, which may bring its last day forward, never put it off.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of opening.
    lot_id
        The lot.
    use_by
        The last day once open; the earlier of this and the lot's own holds. None keeps the lot's own.
    quantity
        What the opened package holds, when the lot is more than one package; None for all of it.
    new_lot_id
        The id of the opened package, when it is not all of the lot.
    note
        Anything worth keeping with the entries.

    Returns
    -------
    Entered
        One 'moved' entry, or two when a package is split off.

    Raises
    ------
    LedgerError
        When the lot is open already or nothing is left of it.
    """
    draft = Draft(ledger, day)
    held = draft.holding(lot_id)
    standing = held.standing
    if standing.opened_on is not None:
        raise LedgerError(f"{held} was opened on {standing.opened_on}; it cannot be opened again")
    dates = [last for last in (standing.use_by, use_by) if last is not None]
    opened = Standing(standing.spot, min(dates, default=None), day)
    _place(draft, lot_id, opened, quantity, new_lot_id, note)
    return draft.close()


def _place(
    draft: Draft, lot_id: str, after: Standing, quantity: int | None, new_lot_id: str, note: str
) -> None:
    """Give a lot, or a part split off it, a new standing."""
    held = draft.holding(lot_id)
    if held.quantity == 0:
        raise LedgerError(f"nothing is left of {held}; name a lot of which something is left")
    part = held.quantity if quantity is None else quantity
    if part <= 0:
        raise BadField(f"{part} of {held} cannot be moved; move more than zero")
    if part > held.quantity:
        raise LedgerError(
            f"{in_words(part, held.lot.unit)} of {held} to be moved, "
            f"{in_words(held.quantity, held.lot.unit)} there; move no more than that"
        )
    if part == held.quantity:
        draft.change(Kind.MOVED, lot_id, 0, 0, after=after, note=note)
        return
    if not new_lot_id:
        raise BadField(f"a part of {held} needs an id of its own; give the new lot's id")
    cents = share(held.cents, part, held.quantity)
    shelf_cents, whole = held.lot.shelf_cents, held.lot.quantity
    new = replace(
        held.lot,
        id=new_lot_id,
        spot=after.spot,
        use_by=after.use_by,
        opened_on=after.opened_on,
        quantity=part,
        cents=cents,
        packages=1,
        shelf_cents=None if shelf_cents is None else share(shelf_cents, min(part, whole), whole),
        split_from=lot_id,
    )
    bound = draft.next_id
    draft.change(Kind.MOVED, lot_id, -part, -cents, bound=bound, note=note)
    draft.let_in(Kind.MOVED, new, bound=bound, note=note)
