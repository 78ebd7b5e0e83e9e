"""Our currency table against the CLDR data of the babel library, each difference named."""

from __future__ import annotations

import pytest
from babel import Locale
from babel.core import get_global
from babel.numbers import get_currency_precision, list_currencies

from ladleworth.units import CURRENCIES

# CLDR writes how money is shown in daily life and drops decimals that nobody uses; ISO 4217 keeps them.
SHOWN_WITHOUT_DECIMALS_IN_CLDR = frozenset(
    {"AFN", "ALL", "IRR", "KPW", "LAK", "LBP", "MGA", "MMK", "RSD", "SOS", "SYP", "YER"}
)
# The Iraqi dinar has thousandths in ISO 4217; CLDR shows none.
OTHER_DIGITS_IN_CLDR = {"IQD": (3, 0)}
# Funds codes and second currencies of ISO 4217 that are no territory's money in CLDR.
NOT_A_TERRITORY_S_MONEY = frozenset(
    {"BOV", "CHE", "CHW", "CLF", "COU", "MXV", "SVC", "USN", "UYI", "UYW", "VED"}
)
# Bulgaria took the euro on 1 January 2026; the CLDR release here was made before that.
WITHDRAWN_SINCE_CLDR = frozenset({"BGN"})


def in_use_by_cldr() -> frozenset[str]:
    """Give the codes that are some territory's tender without an end date."""
    return frozenset(
        code
        for spans in get_global("territory_currencies").values()
        for code, _start, end, tender in spans
        if end is None and tender
    )


def test_every_currency_that_is_tender_somewhere_is_in_the_table() -> None:
    assert in_use_by_cldr() - set(CURRENCIES) == WITHDRAWN_SINCE_CLDR


def test_every_currency_in_the_table_is_tender_somewhere_or_a_named_fund() -> None:
    assert set(CURRENCIES) - in_use_by_cldr() == NOT_A_TERRITORY_S_MONEY


def test_every_code_in_the_table_is_known_to_cldr() -> None:
    known = list_currencies()
    assert set(CURRENCIES) <= known
    names = Locale("en").currencies
    assert all(names[code] != code for code in CURRENCIES)


@pytest.mark.parametrize("code", sorted(CURRENCIES))
def test_a_currency_has_the_decimals_that_cldr_gives_unless_the_difference_is_named(code: str) -> None:
    ours, cldr = CURRENCIES[code].minor_digits, get_currency_precision(code)
    if code in SHOWN_WITHOUT_DECIMALS_IN_CLDR:
        assert (ours, cldr) == (2, 0)
    elif code in OTHER_DIGITS_IN_CLDR:
        assert (ours, cldr) == OTHER_DIGITS_IN_CLDR[code]
    else:
        assert ours == cldr
