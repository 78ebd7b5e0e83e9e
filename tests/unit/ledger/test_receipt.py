from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.ledger.kitchen import MONDAY, by_mass

from ladleworth.errors import BadField
from ladleworth.ledger import Receipt, ReceiptLine, unpack


def line(name: str, cents: int, **rest: int) -> ReceiptLine:
    return ReceiptLine(by_mass(name, name, 1000, cents), **rest)


def test_a_basket_discount_is_dealt_by_price_to_the_cent() -> None:
    receipt = Receipt("corner", MONDAY, (line("a", 100), line("b", 100), line("c", 100)), 200, 100)
    cart = unpack(receipt)
    assert [lot.cents for lot in cart.lots] == [66, 67, 67]
    assert [lot.shelf_cents for lot in cart.lots] == [100, 100, 100]
    assert {lot.shop for lot in cart.lots} == {"corner"}


def test_discounts_tax_deposits_and_other_things_add_up_to_what_was_paid() -> None:
    receipt = Receipt(
        "corner",
        MONDAY,
        (line("a", 399, discount_cents=50, tax_cents=7), line("b", 251)),
        total_cents=399 - 50 + 7 + 251 - 100 + 33 + 25 + 500,
        basket_discount_cents=100,
        tax_cents=33,
        deposit_cents=25,
        other_cents=500,
    )
    cart = unpack(receipt)
    assert sum(lot.cents for lot in cart.lots) + cart.other_cents + cart.deposit_cents == receipt.total_cents
    # 100 off and 33 on, over 349, 251 and 500 of 1100: 31.7, 22.8, 45.5 and 10.5, 7.5, 15.0
    assert [lot.cents for lot in cart.lots] == [349 + 7 - 32 + 10, 251 - 23 + 8]
    assert cart.other_cents == 500 - 45 + 15


def test_a_receipt_that_does_not_add_up_says_how_much_to_look_for() -> None:
    with pytest.raises(BadField, match=r"adds up to 200 cents and says 250; look for 50 cents"):
        Receipt("corner", MONDAY, (line("a", 200),), 250)


def test_what_cannot_be_on_a_receipt_is_refused() -> None:
    with pytest.raises(BadField, match="is a gift"):
        ReceiptLine(replace(by_mass("a", "a", 10, 0), gift=True))
    with pytest.raises(BadField, match="takes 201 cents off 200"):
        line("a", 200, discount_cents=201)
    with pytest.raises(BadField, match="tax of -1"):
        line("a", 200, tax_cents=-1)
    with pytest.raises(BadField, match="deposit of -1"):
        Receipt("corner", MONDAY, (line("a", 200),), 199, deposit_cents=-1)
    with pytest.raises(BadField, match="takes 201 cents off 200"):
        Receipt("corner", MONDAY, (line("a", 200),), -1, 201)


def test_free_food_takes_no_part_in_a_discount() -> None:
    cart = unpack(Receipt("corner", MONDAY, (line("a", 0), line("b", 10)), 9, 1))
    assert [lot.cents for lot in cart.lots] == [0, 9]
