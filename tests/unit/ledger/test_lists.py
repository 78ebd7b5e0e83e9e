from __future__ import annotations

import pytest
from tests.unit.ledger.kitchen import MONDAY, by_mass, by_piece, day, stocked

from ladleworth.errors import BadField
from ladleworth.ledger import (
    LotUnit,
    Need,
    Offer,
    PriceBook,
    eat,
    shopping_list,
    shortfall,
    usable,
    use_up,
)

PRICES = PriceBook(
    (
        Offer("rice", "corner", 500, LotUnit.MG, 100, MONDAY),
        Offer("rice", "market", 2000, LotUnit.MG, 300, MONDAY),
        Offer("egg", "corner", 6, LotUnit.PIECE, 180, MONDAY),
    )
)


def test_use_up_lists_what_ends_before_a_day_with_its_cents() -> None:
    ledger = stocked(
        by_mass("gone", "cream", 10, 50, use_by=day(0)),
        by_mass("soon", "milk", 10, 90, use_by=day(2)),
        by_mass("sooner", "leek", 10, 70, use_by=day(1)),
        by_mass("on-the-day", "kale", 10, 40, use_by=day(5)),
        by_mass("durable", "rice", 10, 20),
        by_mass("eaten", "pear", 10, 30, use_by=day(1)),
    )
    ledger = eat(ledger, MONDAY, "eaten", 10).ledger
    found = use_up(ledger, day(1), before=day(5))
    assert [held.lot.id for held in found.holdings] == ["gone", "sooner", "soon"]
    assert (found.at_risk_cents, found.past_cents) == (160, 50)


def test_stock_past_its_last_day_or_in_another_unit_is_not_usable() -> None:
    ledger = stocked(
        by_mass("a", "rice", 300, 50, use_by=day(2)),
        by_mass("b", "rice", 200, 50),
        by_piece("c", "rice", 9, 1),
    )
    assert usable(ledger, "rice", LotUnit.MG, day(2)) == 500
    assert usable(ledger, "rice", LotUnit.MG, day(3)) == 200


def test_the_list_is_need_less_stock_in_whole_packages_by_dish() -> None:
    ledger = stocked(by_mass("a", "rice", 300, 50), by_piece("eggs", "egg", 12, 300))
    needs = (
        Need("rice", LotUnit.MG, 800, "pilaf"),
        Need("rice", LotUnit.MG, 400, "soup"),
        Need("rice", LotUnit.MG, 100, "pilaf"),
        Need("egg", LotUnit.PIECE, 12, "cake"),
        Need("saffron", LotUnit.MG, 1, "pilaf"),
    )
    rice, saffron = shopping_list(needs, ledger, PRICES, day(1))
    assert (rice.food, rice.needed, rice.on_hand, rice.missing) == ("rice", 1300, 300, 1000)
    assert rice.dishes == (("pilaf", 900), ("soup", 400))
    assert rice.cover is not None
    assert [(o.shop, n) for o, n in rice.cover.counts] == [("corner", 2)]
    assert (saffron.food, saffron.cover) == ("saffron", None)


def test_a_list_for_one_shop_buys_there() -> None:
    (rice,) = shopping_list((Need("rice", LotUnit.MG, 900),), stocked(), PRICES, day(1), shop="market")
    assert rice.cover is not None
    assert (rice.cover.cost_cents, rice.cover.left) == (300, 1100)


def test_what_is_there_in_full_is_left_out_of_the_shortfall() -> None:
    ledger = stocked(by_piece("eggs", "egg", 6, 180))
    needs = {("egg", LotUnit.PIECE): 6, ("rice", LotUnit.MG): 5}
    assert shortfall(needs, ledger, day(1)) == {("rice", LotUnit.MG): 5}


def test_a_need_of_nothing_is_refused() -> None:
    with pytest.raises(BadField, match="above zero"):
        Need("rice", LotUnit.MG, 0)
