"""How much of a package to stock at a low price: what is used until the next low, as long as it keeps."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum
from fractions import Fraction

from ladleworth.ledger.book import Ledger
from ladleworth.ledger.lot import LotUnit
from ladleworth.ledger.movement import Kind
from ladleworth.ledger.price_book import Offer, PriceHistory

WATCHED_DAYS = 56
"""How far back use is looked at, in days: eight weeks, our choice, no source."""

_USES = frozenset({Kind.DRAWN, Kind.EATEN})


@dataclass(frozen=True, slots=True)
class Use:
    """What was used of a food (mg or pieces), over how many days; used means drawn for cooking, or eaten."""

    quantity: int
    days: int

    @property
    def per_day(self) -> Fraction:
        """What was used a day, exact."""
        return Fraction(self.quantity, self.days)


class Until(Enum):
    """What ends the days for which to stock."""

    NEXT_LOW = "until it is this cheap again"
    KEEPS = "as long as it keeps"


@dataclass(frozen=True, slots=True)
class StockUp:
    """How many packages to buy at this price. `wanted` and `on_hand` are mg or pieces.

    `spared_cents` is what the packages cost less than at the usual price.
    """

    offer: Offer
    days: int
    until: Until
    wanted: int
    on_hand: int
    packages: int
    spared_cents: int


def use_of(ledger: Ledger, food: str, unit: LotUnit, today: date, days: int = WATCHED_DAYS) -> Use | None:
    """Add up what was used of a food lately.

    Parameters
    ----------
    ledger
        What has happened.
    food, unit
        The food's id, and the unit to count in; lots in another unit are left out.
    today
        The last day looked at.
    days
        How far back to look, today included; less where the ledger begins later.

    Returns
    -------
    Use or None
        None where nothing was used, or the ledger begins today: a rate cannot be told then.
    """
    lots = {lot.id for lot in ledger.lots if lot.item == food and lot.unit is unit}
    begun = min((movement.day for movement in ledger.movements), default=today)
    first = max(begun, today - timedelta(days=days - 1))
    watched = (today - first).days + 1
    used = -sum(
        movement.quantity
        for movement in ledger.movements
        if movement.lot in lots and movement.kind in _USES and first <= movement.day <= today
    )
    return Use(used, watched) if used > 0 and watched > 1 else None


def stock_up(
    offer: Offer, history: PriceHistory, use: Use, on_hand: int, keep_days: int | None
) -> StockUp | None:
    """Tell how many packages to buy now of what is as cheap as it ever was.

    Parameters
    ----------
    offer, history
        The package at its price of today, and what it has cost so far.
    use
        How much of the food is used.
    on_hand
        What is there already, in the offer's unit.
    keep_days
        How long a package keeps, the day of buying as day 1; None: as good as for ever.

    Returns
    -------
    StockUp or None
        Packages rounded down, so that nothing is bought that is not used in time: 0 where what is on hand
        lasts. None where the price is not its lowest, or where it was only once, so that nobody can tell when the
        next low comes.
    """
    gap = history.days_between_lows
    if gap is None or offer.price_cents > history.low_cents or history.low_cents >= history.usual_cents:
        return None
    next_low = -(-gap // 1)
    days, until = next_low, Until.NEXT_LOW
    if keep_days is not None and keep_days < next_low:
        days, until = keep_days, Until.KEEPS
    wanted = int(use.per_day * days)
    packages = max(0, wanted - on_hand) // offer.quantity
    spared = packages * (history.usual_cents - offer.price_cents)
    return StockUp(offer, days, until, wanted, on_hand, packages, spared)
