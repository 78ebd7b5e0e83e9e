from __future__ import annotations

import pytest

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import Currency, currency, read_money, show_money

USD, EUR, JPY, KWD, GBP = (currency(code) for code in ("USD", "EUR", "JPY", "KWD", "GBP"))


@pytest.mark.parametrize(
    ("text", "cur", "cents"),
    [
        ("12.40", USD, 1240),
        ("12,40", USD, 1240),
        ("12.4", USD, 1240),
        ("12", USD, 1200),
        (".50", USD, 50),
        ("0", USD, 0),
        ("$12.40", USD, 1240),
        ("$ 12.40", USD, 1240),
        ("US$12.40", USD, 1240),
        ("USD 12.40", USD, 1240),
        ("usd 12.40", USD, 1240),
        ("12.40 USD", USD, 1240),
        ("1,234.50", USD, 123450),
        ("1.234,50", USD, 123450),
        ("1 234,50", EUR, 123450),
        ("1\u202f234,50 €", EUR, 123450),
        ("1'234.50", USD, 123450),
        ("1,234", USD, 123400),
        ("1,234,567", USD, 123456700),
        ("12,40 €", EUR, 1240),
        ("£3", GBP, 300),
        ("1200", JPY, 1200),
        ("¥1,200", JPY, 1200),
        ("1.250", KWD, 1250),
        ("1,25", KWD, 1250),
        ("12.40", KWD, 12400),
        ("-0", USD, 0),
    ],
)
def test_a_price_is_read_to_the_cent(text: str, cur: Currency, cents: int) -> None:
    assert read_money(text, cur) == cents


@pytest.mark.parametrize(
    ("text", "cur", "said"),
    [
        ("", USD, "is missing"),
        ("free", USD, "cannot be read"),
        ("nan", USD, "cannot be read"),
        ("inf", USD, "cannot be read"),
        ("1.234", USD, "has 3 decimals where USD has 2"),
        ("12.999", USD, "has 3 decimals"),
        ("12,4000", USD, "has 4 decimals"),
        ("1200.50", JPY, "has 2 decimals where JPY has 0"),
        ("1,250", KWD, "may mean thousands or decimals"),
        ("-3", USD, "is below zero"),
        ("$-3", USD, "is below zero"),
        ("−3", USD, "is below zero"),
        ("--3", USD, "cannot be read"),
        ("€12.40", USD, "is marked '€', which is not USD"),
        ("12.40 GBP", USD, "is marked 'GBP'"),
        ("$12.40 USD", USD, "is marked twice"),
        ("12.", USD, "cannot be read"),
        ("1,23.50", USD, "where no thousands end"),
        ("12 34.50", USD, "where no thousands end"),
        ("1 000 000 000 000 000.00", USD, "more than 15 digits"),
        ("9" * 5000, USD, "cannot be read"),
        ("2 for 3.00", USD, "cannot be read|is marked"),
        ("12.40/kg", USD, "is marked"),
    ],
)
def test_what_is_no_price_is_refused_with_what_to_write(text: str, cur: Currency, said: str) -> None:
    with pytest.raises(BadUnit, match=f"({said}).*; write it like '12"):
        read_money(text, cur)


def test_a_refund_is_read_only_where_it_may_stand() -> None:
    assert read_money("-3.25", USD, negative=True) == -325
    assert read_money("$-3.25", USD, negative=True) == -325


def test_a_price_is_shown_plainly() -> None:
    assert show_money(1240, USD) == "12.40"
    assert show_money(5, USD) == "0.05"
    assert show_money(-5, USD) == "-0.05"
    assert show_money(1200, JPY) == "1200"
    assert show_money(1250, KWD) == "1.250"


def test_a_difference_wears_its_sign_and_a_code_when_asked() -> None:
    assert show_money(240, USD, signed=True) == "+2.40"
    assert show_money(-240, USD, signed=True) == "-2.40"
    assert show_money(0, USD, signed=True) == "0.00"
    assert show_money(1240, EUR, with_code=True) == "EUR 12.40"


def test_a_currency_is_found_by_its_code_in_any_case() -> None:
    assert currency(" eur ") == EUR
    assert str(EUR) == "EUR"
    assert [currency(code).minor_units for code in ("JPY", "EUR", "KWD", "CLF")] == [1, 100, 1000, 10000]


@pytest.mark.parametrize(
    ("code", "near"), [("USDD", "USD"), ("DEM", "write"), ("", "write"), ("XXX", "write")]
)
def test_a_code_not_in_use_is_refused(code: str, near: str) -> None:
    with pytest.raises(BadUnit, match=f"no currency in use has the code .*{near}"):
        currency(code)


def test_a_currency_that_cannot_be_is_refused() -> None:
    with pytest.raises(BadField, match="three capital letters"):
        Currency("us", 2)
    with pytest.raises(BadField, match="give 0 to 4"):
        Currency("USD", 9)


@pytest.mark.parametrize("text", ["0.9O", "O.90", "$1o.50"])
def test_a_letter_o_in_a_price_is_asked_about(text: str) -> None:
    with pytest.raises(BadUnit, match=r"the letter O stands there for a zero\?"):
        read_money(text, USD)


@pytest.mark.parametrize(
    ("code", "near"),
    [("GPB", "GBP"), ("UDS", "USD"), ("ERU", "EUR"), ("CHFF", "CHF"), ("JYP", "JPY"), ("USX", "USD or")],
)
def test_a_code_with_a_slip_is_answered_with_the_one_meant_first(code: str, near: str) -> None:
    with pytest.raises(BadUnit, match=f"write {near}"):
        currency(code)


def test_no_letter_o_is_seen_in_a_word() -> None:
    with pytest.raises(BadUnit) as caught:
        read_money("one dollar", USD)
    assert "letter O" not in str(caught.value)
