from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from itertools import product

import pytest
from tests.unit.ledger.kitchen import MONDAY, day

from ladleworth.errors import BadField, MissingFact
from ladleworth.ledger import (
    LotUnit,
    Offer,
    PriceBook,
    break_even_share,
    cheapest_cover,
    describe,
    shelf_price,
    surcharges,
)
from ladleworth.units import currency


def offer(quantity: int, cents: int, *, shop: str = "corner", seen: date = MONDAY, name: str = "") -> Offer:
    return Offer("rice", shop, quantity, LotUnit.MG, cents, seen, name)


def test_a_unit_price_is_kept_exact() -> None:
    assert offer(453_592, 199).unit_price == Fraction(199, 453_592)


def test_shelf_prices_are_rounded_for_the_eye_only() -> None:
    usd, yen, dinar = currency("USD"), currency("JPY"), currency("BHD")
    assert shelf_price(offer(1_000_000, 1000), usd) == "1.00 USD per 100 g"
    assert shelf_price(offer(1_000_000, 999), usd) == "0.999 USD per 100 g"
    assert shelf_price(offer(1_000_000, 375), yen) == "38 JPY per 100 g"
    assert shelf_price(offer(1_000_000, 8), yen) == "0.8 JPY per 100 g"
    assert shelf_price(offer(1_000_000, 1005), dinar) == "0.1005 BHD per 100 g"
    eggs = Offer("egg", "corner", 12, LotUnit.PIECE, 299, MONDAY)
    assert shelf_price(eggs, usd) == "0.249 USD per piece"
    assert describe(offer(1000, 3, name="short grain")) == "short grain, 1 g for 3 cents"


def test_the_newest_price_of_each_package_counts() -> None:
    old, new = offer(1000, 90), offer(1000, 80, seen=day(3))
    big, other = offer(5000, 300), offer(1000, 70, shop="market")
    book = PriceBook((new, big, other, old))
    assert book.latest("rice") == (new, big, other)
    assert book.latest("rice", shop="market") == (other,)
    assert book.latest("rice", on=day(2)) == (old, big, other)
    assert book.latest("oats") == ()
    assert book.cheapest_unit("rice", LotUnit.MG) == big
    with pytest.raises(MissingFact, match="no price of 'rice' sold by the piece"):
        book.cheapest_unit("rice", LotUnit.PIECE)


def test_one_package_has_one_price_a_day() -> None:
    with pytest.raises(BadField, match="seen twice on 2026-03-02"):
        PriceBook((offer(1000, 90), offer(1000, 80)))


def test_history_tells_low_usual_last_and_days_between_lows() -> None:
    prices = [(0, 99), (7, 79), (14, 79), (21, 99), (28, 95), (35, 79), (40, 99), (63, 79), (70, 98)]
    book = PriceBook(tuple(offer(1000, cents, seen=day(number)) for number, cents in prices))
    history = book.history(offer(1000, 1))
    assert (history.low_cents, history.usual_cents, history.last_cents, history.seen) == (79, 95, 98, 9)
    assert history.last_seen == day(70)
    assert history.days_between_lows == 28  # lows began on days 7, 35 and 63


def test_a_history_with_one_low_has_no_days_between_and_the_median_of_two_rounds_half_up() -> None:
    book = PriceBook((offer(1000, 80), offer(1000, 85, seen=day(1))))
    history = book.history(offer(1000, 80))
    assert history.days_between_lows is None
    assert history.usual_cents == 83
    with pytest.raises(MissingFact, match="no price of"):
        book.history(offer(2000, 80))


def test_a_bigger_package_that_is_dearer_by_the_unit_is_caught() -> None:
    small, middle, big = offer(500, 100), offer(1000, 190), offer(2000, 420)
    elsewhere = offer(4000, 9999, shop="market")
    assert surcharges((big, small, middle, elsewhere)) == ((big, middle),)
    assert surcharges((small, middle)) == ()


def test_an_equal_unit_price_is_no_surcharge() -> None:
    assert surcharges((offer(500, 100), offer(1000, 200))) == ()


def test_a_large_package_pays_above_the_ratio_of_unit_prices() -> None:
    small, large = offer(500, 100), offer(2000, 300)
    assert break_even_share(small, large) == Fraction(3, 4)
    # at three quarters used, 1500 mg cost 300 either way
    assert 1500 * small.unit_price == large.price_cents
    with pytest.raises(BadField, match="not one food in one unit"):
        break_even_share(small, replace(large, food="oats"))
    with pytest.raises(BadField, match="is free"):
        break_even_share(replace(small, price_cents=0), large)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"food": ""}, "name both"),
        ({"shop": ""}, "name both"),
        ({"quantity": 0}, "above zero"),
        ({"price_cents": -1}, "costs -1 cents"),
        ({"unit": LotUnit.PORTION}, "by the portion"),
    ],
)
def test_an_offer_with_a_field_out_of_range_is_refused(change: dict[str, object], message: str) -> None:
    with pytest.raises(BadField, match=message):
        replace(offer(1000, 1), **change)  # type: ignore[arg-type]


def brute_force(offers: list[Offer], need: int) -> tuple[int, int, int]:
    """Every count of every package up to enough of it alone: least cents, then left over, then packages."""
    ranges = [range(-(-need // each.quantity) + 1) for each in offers]
    ways = []
    for counts in product(*ranges):
        held = sum(count * each.quantity for count, each in zip(counts, offers, strict=True))
        if held >= need:
            cents = sum(count * each.price_cents for count, each in zip(counts, offers, strict=True))
            ways.append((cents, held - need, sum(counts)))
    return min(ways)


@pytest.mark.parametrize("need", [1, 2, 3, 7, 10, 11, 23, 40])
@pytest.mark.parametrize(
    "packages",
    [
        [(5, 10)],
        [(3, 7), (5, 11)],
        [(3, 7), (5, 11), (10, 20)],
        [(2, 5), (4, 10), (6, 15)],
        [(7, 5), (3, 5), (1, 5)],
        [(4, 0), (9, 3)],
        [(3, 4), (4, 5), (5, 7), (11, 13)],
    ],
)
def test_the_cover_is_the_best_of_all_of_them(packages: list[tuple[int, int]], need: int) -> None:
    offers = [offer(quantity, cents) for quantity, cents in packages]
    cover = cheapest_cover(offers, need)
    assert (cover.cost_cents, cover.left, cover.packages) == brute_force(offers, need)
    assert cover.quantity == need + cover.left
    assert cheapest_cover(reversed(offers), need) == cover


def test_sizes_in_odd_milligrams_are_covered_exactly() -> None:
    offers = [offer(453_592, 199), offer(907_185, 349), offer(2_267_962, 799)]
    cover = cheapest_cover(offers, 4_000_000)
    # two of five pounds cost 1598; one of them and two of two pounds hold 4 082 332 mg for 1497
    assert [(each.quantity, count) for each, count in cover.counts] == [(907_185, 2), (2_267_962, 1)]
    assert (cover.cost_cents, cover.left) == (1497, 82_332)


def test_nothing_needed_is_covered_by_nothing_and_no_offer_is_a_missing_fact() -> None:
    assert cheapest_cover([], 0).counts == ()
    with pytest.raises(MissingFact, match="nobody offers"):
        cheapest_cover([], 1)
    with pytest.raises(BadField, match="need of -1"):
        cheapest_cover([offer(1, 1)], -1)
    with pytest.raises(BadField, match="one food at a time"):
        cheapest_cover([offer(1, 1), replace(offer(1, 1), food="oats")], 1)


def test_too_many_ways_are_refused_rather_than_guessed() -> None:
    offers = [offer(1009, 100), offer(1013, 100), offer(1019, 101), offer(1021, 101)]
    with pytest.raises(BadField, match="too many ways"):
        cheapest_cover(offers, 2_000_000_000)
