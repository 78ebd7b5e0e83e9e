"""What to use up: lots that end before a given day, with the cents at risk."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from ladleworth.ledger.book import Ledger
from ladleworth.ledger.index import Holding
from ladleworth.ledger.order import eat_first


@dataclass(frozen=True, slots=True)
class UseUp:
    """Lots that will be past their last day on the day named.

    `holdings` are in the order of use, those already past on `today` first; `at_risk_cents` is what is left of
    their cost and is still good today, `past_cents` that of lots already past.
    """

    today: date
    before: date
    holdings: tuple[Holding, ...]
    at_risk_cents: int
    past_cents: int


def use_up(ledger: Ledger, today: date, before: date) -> UseUp:
    """List what ends before a day, the next cooking day for instance.

    Parameters
    ----------
    ledger
        What is there.
    today
        The day of asking.
    before
        Lots whose last day is earlier than this are listed.

    Returns
    -------
    UseUp
        The lots and the cents at risk; a gift may end as well, at no cents.
    """
    ending = eat_first(held for held in ledger.on_hand(today) if held.is_past(before))
    past = sum(held.cents for held in ending if held.is_past(today))
    return UseUp(today, before, ending, sum(held.cents for held in ending) - past, past)
