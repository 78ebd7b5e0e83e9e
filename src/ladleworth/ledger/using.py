"""Acts that use things up: draw, cook, eat, give away, throw out.

What is taken from a lot carries the share of the lot's remaining cents, rounded half up; the last to take
gets all that is left, so cents in are cents out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from ladleworth.errors import BadField, LedgerError
from ladleworth.ledger.book import Draft, Entered, Ledger
from ladleworth.ledger.lot import Lot, LotUnit, Spot, in_words
from ladleworth.ledger.movement import Cause, Kind
from ladleworth.ledger.order import Take, earliest
from ladleworth.units import share, split


@dataclass(frozen=True, slots=True)
class Portions:
    """Cooked portions that will be one lot.

    Parameters
    ----------
    lot
        The new lot's id.
    count
        How many portions, above zero.
    spot
        Where they go.
    use_by
        Their last day, None for no date.
    weight
        How much of the batch they are against its other portions (grams, say); None for one per portion.
    """

    lot: str
    count: int
    spot: Spot
    use_by: date | None
    weight: int | None = None

    def __post_init__(self) -> None:
        if self.count <= 0:
            raise BadField(f"lot {self.lot!r} is to hold {self.count} portions; write one or more")
        if self.weight is not None and self.weight <= 0:
            raise BadField(f"lot {self.lot!r} weighs {self.weight} in its batch; write a weight above zero")


def draw(
    ledger: Ledger,
    day: date,
    batch: str,
    takes: Iterable[Take],
    *,
    even_past_use_by: bool = False,
    note: str = "",
) -> Entered:
    """Take named lots for a batch that is not yet in portions.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of cooking.
    batch
        The batch's id.
    takes
        How much of which lot.
    even_past_use_by
        True to take lots past their last day as well.
    note
        Anything worth keeping with the entries.

    Returns
    -------
    Entered
        One 'drawn' entry per take.

    Raises
    ------
    LedgerError
        When there is less than is to be taken, a lot is past its last day, or the batch is already cooked.
    """
    draft = Draft(ledger, day)
    _draw_into(draft, day, batch, takes, even_past_use_by=even_past_use_by, note=note)
    return draft.close()


def draw_earliest(
    ledger: Ledger,
    day: date,
    batch: str,
    item: str,
    quantity: int,
    unit: LotUnit,
    *,
    even_past_use_by: bool = False,
    note: str = "",
) -> Entered:
    """Take an amount of a food for a batch, first things first (see `order.earliest`).

    Parameters
    ----------
    ledger, day, batch, even_past_use_by, note
        As for `draw`.
    item
        The food, or the batch of the portions.
    quantity
        How much in all, in `unit`.
    unit
        What `quantity` counts.

    Returns
    -------
    Entered
        One 'drawn' entry per lot touched.

    Raises
    ------
    LedgerError
        When there is less than that, saying what there is, or the batch is already cooked.
    """
    takes = earliest(ledger, day, item, quantity, unit, even_past_use_by=even_past_use_by)
    return draw(ledger, day, batch, takes, even_past_use_by=even_past_use_by, note=note)


def cook(
    ledger: Ledger,
    day: date,
    batch: str,
    portions: Iterable[Portions],
    *,
    takes: Iterable[Take] = (),
    even_past_use_by: bool = False,
    note: str = "",
) -> Entered:
    """Turn all that was drawn for a batch into lots of portions.

    The cents drawn, and no others, are dealt out over the lots by weight with the largest remainder. An
    allowance for what was not measured is not added here: it stands as a line of its own in the reckoning.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of cooking.
    batch
        The batch's id, which becomes the portions' item.
    portions
        The lots that come out; weights are given for all of them or for none.
    takes
        What is drawn in the same breath, on top of what was drawn before.
    even_past_use_by
        True to take lots past their last day as well.
    note
        Anything worth keeping with the entries.

    Returns
    -------
    Entered
        'Drawn' entries for `takes`, then one 'cooked' entry per lot of portions; all are reversed together.

    Raises
    ------
    LedgerError
        When nothing was drawn, the batch is already cooked, or a take is refused.
    """
    draft, out = Draft(ledger, day), tuple(portions)
    if not out:
        raise BadField(f"batch {batch!r} comes out in no portions; name one lot of portions at least")
    if len({made.weight is None for made in out}) > 1:
        raise BadField(
            f"batch {batch!r} has weights for some portions only; give all of them a weight, or none"
        )
    bound = draft.next_id
    _draw_into(draft, day, batch, takes, even_past_use_by=even_past_use_by, note=note, bound=bound)
    account = draft.batch(batch)
    if account.is_cooked:
        raise LedgerError(
            f"batch {batch!r} is already in portions; reverse its cooking first, or name a new batch"
        )
    if not account.draws:
        raise LedgerError(f"nothing is drawn for batch {batch!r}; draw its ingredients before it is cooked")
    weights = tuple(made.count if made.weight is None else made.weight for made in out)
    for made, cents in zip(out, split(account.in_pot_cents, weights), strict=True):
        lot = Lot(made.lot, batch, LotUnit.PORTION, made.spot, day, made.count, cents, use_by=made.use_by)
        draft.let_in(Kind.COOKED, lot, batch=batch, note=note, bound=bound)
    return draft.close()


def eat(
    ledger: Ledger,
    day: date,
    lot_id: str,
    quantity: int,
    *,
    who: str = "",
    even_past_use_by: bool = False,
    note: str = "",
) -> Entered:
    """Enter that portions, or a food as it is, were eaten.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of eating.
    lot_id
        The lot.
    quantity
        How much, in the lot's unit.
    who
        The eater.
    even_past_use_by
        True when it was eaten past its last day.
    note
        Anything worth keeping with the entry.

    Returns
    -------
    Entered
        One 'eaten' entry.

    Raises
    ------
    LedgerError
        When there is less than that, or the lot is past its last day.
    """
    draft = Draft(ledger, day)
    cents = _taken_cents(draft, day, Take(lot_id, quantity), even_past_use_by=even_past_use_by)
    draft.change(Kind.EATEN, lot_id, -quantity, -cents, who=who, note=note)
    return draft.close()


def give_away(
    ledger: Ledger,
    day: date,
    lot_id: str,
    quantity: int,
    *,
    who: str = "",
    even_past_use_by: bool = False,
    note: str = "",
) -> Entered:
    """Enter that some of a lot went to somebody outside the household.

    Parameters
    ----------
    ledger, day, lot_id, quantity, even_past_use_by, note
        As for `eat`.
    who
        Who was given it.

    Returns
    -------
    Entered
        One 'given away' entry.

    Raises
    ------
    LedgerError
        When there is less than that, or the lot is past its last day.
    """
    draft = Draft(ledger, day)
    cents = _taken_cents(draft, day, Take(lot_id, quantity), even_past_use_by=even_past_use_by)
    draft.change(Kind.GIVEN_AWAY, lot_id, -quantity, -cents, who=who, note=note)
    return draft.close()


def throw_out(
    ledger: Ledger, day: date, lot_id: str, cause: Cause, *, quantity: int | None = None, note: str = ""
) -> Entered:
    """Enter that a lot, or some of it, was thrown out, and why.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day.
    lot_id
        The lot.
    cause
        Why.
    quantity
        How much, in the lot's unit; None for all that is left.
    note
        Anything worth keeping with the entry.

    Returns
    -------
    Entered
        One 'thrown out' entry.

    Raises
    ------
    LedgerError
        When there is less than that, or nothing.
    """
    draft = Draft(ledger, day)
    held = draft.holding(lot_id)
    if held.quantity == 0:
        raise LedgerError(f"nothing is left of {held}; name a lot of which something is left")
    part = held.quantity if quantity is None else quantity
    cents = _taken_cents(draft, day, Take(lot_id, part), even_past_use_by=True)
    draft.change(Kind.THROWN_OUT, lot_id, -part, -cents, cause=cause, note=note)
    return draft.close()


def _draw_into(
    draft: Draft,
    day: date,
    batch: str,
    takes: Iterable[Take],
    *,
    even_past_use_by: bool,
    note: str,
    bound: int | None = None,
) -> None:
    """Enter each take as drawn for the batch."""
    if not batch:
        raise BadField("things are drawn for a batch; give the batch's id")
    for take in takes:
        cents = _taken_cents(draft, day, take, even_past_use_by=even_past_use_by)
        draft.change(Kind.DRAWN, take.lot, -take.quantity, -cents, batch=batch, note=note, bound=bound)


def _taken_cents(draft: Draft, day: date, take: Take, *, even_past_use_by: bool) -> int:
    """Work out the cents that go with what is taken, refusing what is not there or past its last day."""
    held = draft.holding(take.lot)
    if take.quantity > held.quantity:
        raise LedgerError(
            f"{in_words(take.quantity, held.lot.unit)} of {held} wanted, "
            f"{in_words(held.quantity, held.lot.unit)} there; take no more than that, or count the lot"
        )
    if held.is_past(day) and not even_past_use_by:
        raise LedgerError(
            f"{held} had its last day on {held.use_by}, before {day}; "
            "leave it, or say that it is to be used all the same"
        )
    return share(held.cents, take.quantity, held.quantity)
