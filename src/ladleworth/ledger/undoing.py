"""Taking an entry back: its exact opposite is entered, and what rests on it is named."""

from __future__ import annotations

from datetime import date

from ladleworth.errors import LedgerError
from ladleworth.ledger.book import Draft, Entered, Ledger
from ladleworth.ledger.movement import Kind, Movement, negation


def reverse(ledger: Ledger, day: date, number: int, *, note: str = "") -> Entered:
    """Take an entry back by entering its exact opposite; nothing is ever edited or removed.

    Parameters
    ----------
    ledger
        The ledger so far.
    day
        The day of the reversal.
    number
        The entry's number. Entries that only make sense together (a split, a cooking) go together.
    note
        Why it is taken back.

    Returns
    -------
    Entered
        One opposite entry for each, the last entered first.

    Raises
    ------
    LedgerError
        When the entry is itself a reversal, is reversed already, or what it brought is no longer there.
    """
    entry = ledger.movement(number)
    if entry.reverses is not None:
        raise LedgerError(
            f"entry {number} is itself a reversal, of number {entry.reverses}; enter the act anew instead"
        )
    together = ledger.bound_with(entry)
    taken_back = ledger.reversal_of(number)
    if taken_back is not None:
        raise LedgerError(f"entry {number} was taken back already, by entry {taken_back}; it counts no more")
    draft = Draft(ledger, day)
    bound = draft.next_id if len(together) > 1 else None
    try:
        for original in reversed(together):
            draft.write(negation(original, draft.next_id, day, bound=bound, note=note), original)
        return draft.close()
    except LedgerError as refused:
        late = "is dated" in str(refused)
        later = () if late else resting_on(ledger, together)
        if not later:
            why = str(refused).partition(") ")[2] or str(refused)
            raise LedgerError(f"entry {number} cannot be taken back: its opposite {why}") from refused
        numbers = ", ".join(map(str, later))
        what = "a later entry rests" if len(later) == 1 else "later entries rest"
        first = "undo it first" if len(later) == 1 else "undo them first, in this order"
        raise LedgerError(
            f"entry {number} cannot be taken back while {what} on it: {numbers}; {first}"
        ) from refused


def resting_on(ledger: Ledger, entries: tuple[Movement, ...]) -> tuple[int, ...]:
    """Number the entries that use what others brought, and those that use theirs in turn, the last first.

    Entries that only make sense together stand under one number, that of the last of them.
    """
    found: dict[int, Movement] = {entry.id: entry for entry in entries}
    waiting, numbers = list(entries), []
    while waiting:
        one = waiting.pop()
        for later in ledger.movements:
            if later.id <= one.id or later.id in found or later.reverses is not None:
                continue
            same_pot = one.kind is Kind.DRAWN and later.kind is Kind.COOKED and later.batch == one.batch
            if (later.lot != one.lot and not same_pot) or ledger.reversal_of(later.id) is not None:
                continue
            act = ledger.bound_with(later)
            found |= {entry.id: entry for entry in act}
            waiting += act
            numbers.append(act[-1].id)
    return tuple(sorted(numbers, reverse=True))
