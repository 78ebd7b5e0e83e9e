"""How much to stock at a low, by sums that can be done on paper."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from tests.unit.ledger.kitchen import MONDAY, by_mass, by_piece, day, stocked

from ladleworth.ledger import (
    Cause,
    Ledger,
    LotUnit,
    Offer,
    PriceBook,
    StockUp,
    Take,
    Until,
    Use,
    draw,
    stock_up,
    throw_out,
    use_of,
)

TWO_LOWS = ((0, 100), (7, 160), (14, 160), (28, 100))
"""(day, cents): at 1.00 on days 0 and 28, at 1.60 between: the next low is 28 days away."""


def history(prices: tuple[tuple[int, int], ...] = TWO_LOWS) -> tuple[Offer, PriceBook]:
    offers = tuple(
        Offer("rice", "corner", 500_000, LotUnit.MG, cents, day(when), id=f"rice-{when}")
        for when, cents in prices
    )
    return offers[-1], PriceBook(offers)


def told(
    use: Use, on_hand: int = 0, keep: int | None = None, prices: tuple[tuple[int, int], ...] = TWO_LOWS
) -> StockUp | None:
    offer, book = history(prices)
    return stock_up(offer, book.history(offer), use, on_hand, keep)


def test_it_is_what_is_used_until_the_next_low() -> None:
    # 100 g a day for 28 days is 2800 g; 600 g are there; 2200 g are four packages of 500 g, each 0.30 below the
    # usual price, which is the median of 1.00, 1.00, 1.60, 1.60.
    found = told(Use(1_400_000, 14), 600_000)
    assert found is not None
    assert (found.days, found.until, found.wanted) == (28, Until.NEXT_LOW, 2_800_000)
    assert (found.packages, found.spared_cents) == (4, 4 * 30)


def test_no_more_than_is_used_while_it_keeps() -> None:
    # 100 g a day for ten days are two packages.
    found = told(Use(1_400_000, 14), keep=10)
    assert found is not None
    assert (found.days, found.until, found.packages) == (10, Until.KEEPS, 2)


def test_what_is_on_hand_may_last() -> None:
    found = told(Use(1_400_000, 14), 2_800_000)
    assert found is not None
    assert (found.packages, found.spared_cents) == (0, 0)


@pytest.mark.parametrize(
    "prices",
    [
        ((0, 100), (7, 160), (14, 120)),  # not its lowest
        ((0, 160), (7, 100)),  # at its lowest for the first time: nobody knows when again
        ((0, 100), (7, 100)),  # it never cost more
    ],
)
def test_without_a_low_that_comes_again_nothing_is_advised(prices: tuple[tuple[int, int], ...]) -> None:
    assert told(Use(1_400_000, 14), prices=prices) is None


def used(ledger: Ledger, lot: str, when: date, quantity: int) -> Ledger:
    return draw(ledger, when, f"batch {when}", [Take(lot, quantity)]).ledger


def test_use_is_what_was_drawn_or_eaten_and_nothing_thrown_out() -> None:
    ledger = stocked(by_mass("rice", "rice", 2_000_000, 400), by_piece("egg", "egg", 6, 200))
    assert use_of(ledger, "rice", LotUnit.MG, day(5)) is None
    ledger = used(used(ledger, "rice", day(1), 300_000), "rice", day(4), 400_000)
    ledger = throw_out(ledger, day(4), "rice", Cause.SPILT, quantity=100_000).ledger
    found = use_of(ledger, "rice", LotUnit.MG, day(6))
    assert found == Use(700_000, 7)
    assert found.per_day == Fraction(100_000)
    assert use_of(ledger, "rice", LotUnit.MG, day(4), days=2) == Use(400_000, 2)
    assert use_of(ledger, "egg", LotUnit.PIECE, day(6)) is None
    assert use_of(ledger, "rice", LotUnit.PIECE, day(6)) is None


def test_a_rate_cannot_be_told_on_the_first_day() -> None:
    ledger = used(stocked(by_mass("rice", "rice", 2_000_000, 400)), "rice", MONDAY, 300_000)
    assert use_of(ledger, "rice", LotUnit.MG, MONDAY) is None
