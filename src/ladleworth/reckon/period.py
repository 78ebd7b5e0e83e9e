"""A period in money: what was there and came in, and where it went, exact to the cent."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from ladleworth.errors import BadField, LedgerError
from ladleworth.ledger import Cause, Kind, Ledger, LotUnit
from ladleworth.reckon.table import Reckoning, Row, check_equal


@dataclass(frozen=True, slots=True)
class Stock:
    """Cents in the house at the end of a day: foods, portions in containers, and drawn but not yet divided."""

    food_cents: int
    portions_cents: int
    pot_cents: int

    @property
    def cents(self) -> int:
        """All of it."""
        return self.food_cents + self.portions_cents + self.pot_cents


@dataclass(frozen=True, slots=True)
class PeriodMoney:
    """Where the money of a period went.

    Parameters
    ----------
    first, last
        The period, both days included.
    opening, closing
        The house on the evening before, and on the last evening.
    bought_cents
        What was paid at the tills for food.
    counted_in_cents
        The stated worth of stock that the ledger did not know before.
    eaten_food_cents, eaten_portions_cents
        Eaten as it was, and from containers.
    thrown_out
        Cents thrown out by cause, only causes that occurred.
    short_cents
        Written off because a count found less.
    given_cents
        Given to others.
    drawn_cents
        Drawn for batches, whatever became of them; it is in no table, since what is cooked stays in the house.
    """

    first: date
    last: date
    opening: Stock
    closing: Stock
    bought_cents: int
    counted_in_cents: int
    eaten_food_cents: int
    eaten_portions_cents: int
    thrown_out: tuple[tuple[Cause, int], ...]
    short_cents: int
    given_cents: int
    drawn_cents: int

    def __post_init__(self) -> None:
        check_equal(self.came_from(), self.went_to())

    @property
    def eaten_cents(self) -> int:
        """Eaten, from the cupboard and from containers."""
        return self.eaten_food_cents + self.eaten_portions_cents

    @property
    def lost_cents(self) -> int:
        """Thrown out or counted short."""
        return sum(cents for _, cents in self.thrown_out) + self.short_cents

    @property
    def used_cents(self) -> int:
        """Eaten, in containers, or in the pot."""
        return self.eaten_cents + self.closing.portions_cents + self.closing.pot_cents

    @property
    def carried_cents(self) -> int:
        """Foods still on hand."""
        return self.closing.food_cents

    def came_from(self) -> Reckoning:
        """Show what was there and what came in."""
        rows = (
            Row("food there before", self.opening.food_cents),
            Row("portions there before", self.opening.portions_cents),
            Row("in the pot before", self.opening.pot_cents),
            Row("bought", self.bought_cents),
            Row("counted in", self.counted_in_cents),
        )
        return Reckoning("there before and come in", rows, sum(row.cents for row in rows))

    def went_to(self) -> Reckoning:
        """Show where it went: used, carried, lost, given away."""
        lost = tuple(Row(f"thrown out: {cause.value}", cents) for cause, cents in self.thrown_out)
        rows = (
            Row("eaten as it was", self.eaten_food_cents),
            Row("eaten from containers", self.eaten_portions_cents),
            Row("portions in containers", self.closing.portions_cents),
            Row("in the pot", self.closing.pot_cents),
            Row("food carried", self.closing.food_cents),
            *lost,
            Row("counted short", self.short_cents),
            Row("given away", self.given_cents),
        )
        total = self.used_cents + self.carried_cents + self.lost_cents + self.given_cents
        return Reckoning("where it went", rows, total)


def stock(ledger: Ledger) -> Stock:
    """Value what a ledger holds at its end.

    Parameters
    ----------
    ledger
        The ledger, cut off at the day wanted (`Ledger.as_of`).

    Returns
    -------
    Stock
        Cents by where they are.
    """
    food = portions = 0
    for held in ledger.holdings():
        if held.lot.unit is LotUnit.PORTION:
            portions += held.cents
        else:
            food += held.cents
    return Stock(food, portions, sum(ledger.batch(name).in_pot_cents for name in ledger.batches))


def reckon_period(ledger: Ledger, first: date, last: date) -> PeriodMoney:
    """Reckon a period: opening + bought + counted in = eaten + lost + given away + closing.

    Reversals count on the day of the reversal, against what they take back; so a row can be below zero when a
    period takes back more of an earlier one than it adds.

    Parameters
    ----------
    ledger
        The ledger.
    first, last
        The period, both days included.

    Returns
    -------
    PeriodMoney
        Every row in cents; opening and closing are read from balances and the rest from entries, and the two
        must agree.

    Raises
    ------
    BadField
        When the period ends before it begins.
    JudgeRefused
        When the two do not agree, which would be a fault of the program.
    """
    if last < first:
        raise BadField(f"the period from {first} to {last} ends before it begins; swap the two days")
    sums: dict[str, int] = {}
    thrown: dict[Cause, int] = {}
    for entry in ledger.movements:
        if not first <= entry.day <= last:
            continue
        if entry.kind is Kind.THROWN_OUT and entry.cause is not None:
            thrown[entry.cause] = thrown.get(entry.cause, 0) - entry.cents
            continue
        cooked = ledger.holding(entry.lot).lot.unit is LotUnit.PORTION
        heading = _heading(entry.kind, lets_in=entry.way > 0, portions=cooked)
        sums[heading] = sums.get(heading, 0) + abs(entry.cents) * (1 if entry.reverses is None else -1)
    return PeriodMoney(
        first=first,
        last=last,
        opening=stock(ledger.as_of(first - timedelta(days=1))),
        closing=stock(ledger.as_of(last)),
        bought_cents=sums.get("bought", 0),
        counted_in_cents=sums.get("counted in", 0),
        eaten_food_cents=sums.get("eaten food", 0),
        eaten_portions_cents=sums.get("eaten portions", 0),
        thrown_out=tuple((cause, thrown[cause]) for cause in Cause if cause in thrown),
        short_cents=sums.get("short", 0),
        given_cents=sums.get("given", 0),
        drawn_cents=sums.get("drawn", 0),
    )


def reckon_all(ledger: Ledger) -> PeriodMoney:
    """Reckon everything in a ledger, from its first entry to its last.

    Raises
    ------
    LedgerError
        When there is nothing to reckon.
    """
    if not ledger.movements:
        raise LedgerError(
            "the ledger has no entries, so there is nothing to reckon; buy or count something in"
        )
    days = [entry.day for entry in ledger.movements]
    return reckon_period(ledger, min(days), max(days))


def _heading(kind: Kind, *, lets_in: bool, portions: bool) -> str:
    """Name the sum that an entry belongs to, by what it is or takes back."""
    match kind:
        case Kind.BOUGHT:
            return "bought"
        case Kind.COUNTED:
            return "counted in" if lets_in else "short"
        case Kind.EATEN:
            return "eaten portions" if portions else "eaten food"
        case Kind.GIVEN_AWAY:
            return "given"
        case Kind.DRAWN:
            return "drawn"
        case Kind.MOVED | Kind.COOKED | Kind.THROWN_OUT:
            return "stays, or is summed by cause"
