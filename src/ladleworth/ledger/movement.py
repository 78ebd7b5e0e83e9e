"""A movement: one entry of the ledger, written once and never changed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from ladleworth.errors import BadField
from ladleworth.ledger.lot import Standing


class Kind(Enum):
    """What happened to a lot."""

    BOUGHT = "bought"
    COUNTED = "counted"
    MOVED = "moved"
    DRAWN = "drawn"
    COOKED = "cooked"
    EATEN = "eaten"
    GIVEN_AWAY = "given away"
    THROWN_OUT = "thrown out"


class Cause(Enum):
    """Why something was thrown out."""

    PAST_DATE = "past its date"
    SPOILED = "spoiled"
    SPILT = "spilt or broken"
    BURNT = "burnt or failed"
    NOT_LIKED = "not liked"
    LEFT_ON_PLATE = "left on the plate"
    POWER_CUT = "power cut"
    NOT_KNOWN = "not known"


_LETS_IN = frozenset({Kind.BOUGHT, Kind.COOKED})
_TAKES_OUT = frozenset({Kind.DRAWN, Kind.EATEN, Kind.GIVEN_AWAY, Kind.THROWN_OUT})


@dataclass(frozen=True, slots=True)
class Movement:
    """One change to one lot.

    Parameters
    ----------
    id
        Its number in the ledger; later entries have higher numbers.
    day
        The day it happened.
    kind
        What happened.
    lot
        The lot's id.
    quantity, cents
        The signed change, in the lot's unit and in cents.
    batch
        The batch, for what is drawn or cooked.
    who
        The eater, or who was given it; empty when not told.
    note
        The reason of a count, or anything worth keeping.
    cause
        Why it was thrown out.
    after
        For a lot moved as a whole: its spot and dates afterwards.
    bound
        The number of the first of several movements that only make sense together (the halves of a split,
        the draws and portions of a cooking); they are reversed together.
    reverses
        The number of the movement that this one takes back.
    """

    id: int
    day: date
    kind: Kind
    lot: str
    quantity: int
    cents: int
    batch: str | None = None
    who: str = ""
    note: str = ""
    cause: Cause | None = None
    after: Standing | None = None
    bound: int | None = None
    reverses: int | None = None

    def __post_init__(self) -> None:
        name = f"movement {self.id} ({self.kind.value})"
        if self.id < 1:
            raise BadField(f"{name} has the number {self.id}; number from 1 upwards")
        if self.quantity * self.cents < 0 or (self.quantity == 0 and self.cents != 0):
            raise BadField(
                f"{name} changes the quantity by {self.quantity} and the cents by {self.cents}; "
                "both must go the same way"
            )
        way = self.way
        if (self.kind in _LETS_IN and way <= 0) or (self.kind in _TAKES_OUT and way >= 0):
            raise BadField(f"{name} changes the quantity by {self.quantity}; write it with the other sign")
        if (self.batch is not None) != (self.kind in (Kind.DRAWN, Kind.COOKED)):
            raise BadField(
                f"{name} has batch {self.batch!r}; what is drawn or cooked has one, nothing else has"
            )
        if (self.cause is not None) != (self.kind is Kind.THROWN_OUT):
            raise BadField(f"{name} has the cause {self.cause}; what is thrown out has one, nothing else has")
        whole_move = self.kind is Kind.MOVED and self.quantity == 0
        if (self.after is not None) != whole_move:
            raise BadField(f"{name} must tell spot and dates afterwards if and only if a whole lot is moved")
        if self.kind is Kind.COUNTED and not self.note:
            raise BadField(f"{name} has no reason; say how the count came to differ, or 'first count'")
        if self.reverses is not None and not 0 < self.reverses < self.id:
            raise BadField(f"{name} reverses movement {self.reverses}; it can only reverse an earlier one")

    @property
    def way(self) -> int:
        """The change in quantity as first entered: a reversal counts with what it takes back."""
        return self.quantity if self.reverses is None else -self.quantity


def negation(movement: Movement, number: int, day: date, *, bound: int | None, note: str) -> Movement:
    """Write the entry that takes a movement back to the milligram and the cent.

    Parameters
    ----------
    movement
        What is taken back.
    number, day
        The new entry's own number and day.
    bound
        The number of the first of the entries reversed together, None when it stands alone.
    note
        Why it is taken back.

    Returns
    -------
    Movement
        The same kind, lot, batch, eater and cause with quantity and cents of the opposite sign.
    """
    return Movement(
        id=number,
        day=day,
        kind=movement.kind,
        lot=movement.lot,
        quantity=-movement.quantity,
        cents=-movement.cents,
        batch=movement.batch,
        who=movement.who,
        note=note or movement.note,
        cause=movement.cause,
        after=movement.after,
        bound=bound,
        reverses=movement.id,
    )
