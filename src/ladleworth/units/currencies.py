"""The currencies in use and how many decimals each is written with."""

from __future__ import annotations

from dataclasses import dataclass

from ladleworth.errors import BadField, BadUnit


@dataclass(frozen=True, slots=True)
class Currency:
    """A currency and its smallest unit.

    Parameters
    ----------
    code
        Three capital letters (`USD`).
    minor_digits
        Decimals it is written with: 2 for cents, 0 where there are none.

    Raises
    ------
    BadField
        If the code or the digits are out of range.
    """

    code: str
    minor_digits: int

    def __post_init__(self) -> None:
        if len(self.code) != 3 or not self.code.isascii() or not self.code.isupper():
            raise BadField(f"a currency's code is {self.code!r}; write three capital letters such as USD")
        if self.minor_digits not in range(5):
            raise BadField(f"{self.code} has {self.minor_digits} decimals; give 0 to 4")

    @property
    def minor_units(self) -> int:
        """How many of the smallest unit make one: 100 cents to a dollar."""
        return (1, 10, 100, 1_000, 10_000)[self.minor_digits]

    def __str__(self) -> str:
        return self.code


# Basis: memory of the ISO 4217 list of active currencies as of 2026 (metals, test codes and 'no currency' left
# out; funds codes kept). The tests compare it with the CLDR data of an independent library, naming each difference.
_DIGITS: dict[int, str] = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    2: (
        "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF "
        "CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL "
        "HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU "
        "MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR "
        "SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED "
        "VES WST XCD XCG YER ZAR ZMW ZWG"
    ),
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}

CURRENCIES: dict[str, Currency] = {
    code: Currency(code, digits) for digits, codes in _DIGITS.items() for code in codes.split()
}
"""Every active currency by its code."""

SIGNS: dict[str, frozenset[str]] = {
    "$": frozenset(
        [
            "USD",
            "CAD",
            "AUD",
            "NZD",
            "MXN",
            "ARS",
            "CLP",
            "COP",
            "BBD",
            "BMD",
            "BND",
            "BSD",
            "BZD",
            "DOP",
            "FJD",
            "GYD",
            "HKD",
            "JMD",
            "KYD",
            "LRD",
            "NAD",
            "SBD",
            "SGD",
            "SRD",
            "TTD",
            "TWD",
            "UYU",
            "XCD",
        ]
    ),
    "US$": frozenset({"USD"}),
    "CA$": frozenset({"CAD"}),
    "C$": frozenset({"CAD", "NIO"}),
    "A$": frozenset({"AUD"}),
    "AU$": frozenset({"AUD"}),
    "NZ$": frozenset({"NZD"}),
    "R$": frozenset({"BRL"}),
    "€": frozenset({"EUR"}),
    "£": frozenset({"GBP", "EGP", "FKP", "GIP", "SHP", "SSP", "SYP", "LBP", "SDG"}),
    "¥": frozenset({"JPY", "CNY"}),
    "₹": frozenset({"INR"}),
    "₩": frozenset({"KRW", "KPW"}),
    "₱": frozenset({"PHP", "CUP"}),
    "₪": frozenset({"ILS"}),
    "₺": frozenset({"TRY"}),
    "₴": frozenset({"UAH"}),
    "₽": frozenset({"RUB"}),
    "₦": frozenset({"NGN"}),
    "₫": frozenset({"VND"}),
    "฿": frozenset({"THB"}),
    "₡": frozenset({"CRC"}),
    "₲": frozenset({"PYG"}),
    "₵": frozenset({"GHS"}),
    "₸": frozenset({"KZT"}),
    "kr": frozenset({"DKK", "ISK", "NOK", "SEK"}),
    "zł": frozenset({"PLN"}),
    "Kč": frozenset({"CZK"}),
    "Ft": frozenset({"HUF"}),
    "Fr": frozenset({"CHF"}),
    "R": frozenset({"ZAR"}),
}
"""The signs a price may wear and the currencies each may mean (common practice, no source)."""


def currency(code: str) -> Currency:
    """Find a currency by its three-letter code.

    Parameters
    ----------
    code
        An ISO 4217 code; small letters are taken too.

    Returns
    -------
    Currency
        The currency.

    Raises
    ------
    BadUnit
        If no currency in use has the code; the message names the nearest.
    """
    found = CURRENCIES.get(code.strip().upper())
    if found is None:
        near = _nearest_codes(code.strip().upper()[:10])
        raise BadUnit(
            f"no currency in use has the code {code[:20]!r}; write {' or '.join(near) if near else 'one such as USD'}"
        )
    return found


def _nearest_codes(code: str) -> tuple[str, ...]:
    """Give at most three codes that one slip makes of this one: a swap of neighbours first, then a slip at the end."""
    from rapidfuzz.distance import OSA  # only a code that is not known needs it

    near = [known for known in CURRENCIES if OSA.distance(code, known, score_cutoff=1) <= 1]
    return tuple(sorted(near, key=lambda known: (sorted(known) != sorted(code), known[:2] != code[:2])))[:3]
