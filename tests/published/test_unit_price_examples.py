"""Unit prices against examples of teaching texts and the show rule of NIST Handbook 130.

The Handbook's decimals (section 4) are from memory: no readable copy was found. Its bases (section 2) were read.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from ladleworth.ledger import LotUnit, Offer, shelf_price
from ladleworth.ledger.price_book import MG_PER_LB
from ladleworth.units import currency

SEEN = date(2026, 3, 2)
USD = currency("USD")
MG_PER_OZ = MG_PER_LB / 16


def by_mass(mass_mg: Fraction, cents: int) -> Offer:
    """An offer of a mass that is rounded to whole milligrams, as the ledger keeps it."""
    return Offer("food", "shop", round(mass_mg), LotUnit.MG, cents, SEEN)


def test_1_99_for_453_59_g_shows_0_439_per_100_g() -> None:
    # worked out: 0.4387 per 100 g
    offer = by_mass(Fraction(453_590), 199)
    assert round(offer.unit_price * 100_000, 2) == Fraction("43.87")
    assert shelf_price(offer, USD) == "0.439 USD per 100 g"


def test_3_49_for_907_18_g_shows_0_385_per_100_g() -> None:
    # worked out: 0.3847 per 100 g
    offer = by_mass(Fraction(907_180), 349)
    assert round(offer.unit_price * 100_000, 2) == Fraction("38.47")
    assert shelf_price(offer, USD) == "0.385 USD per 100 g"


def test_a_25_lb_bag_at_8_00_is_2_cents_an_ounce_and_32_a_pound() -> None:
    # PSU open textbook on food-cost control, chapter 7: 25 lb bag, 8.00, 400 oz, 0.02 an ounce.
    # Tolerance: a millionth of a cent, for the bag is kept in whole milligrams.
    offer = by_mass(25 * MG_PER_LB, 800)
    assert abs(offer.unit_price * MG_PER_OZ - 2) < Fraction(1, 10**6)
    assert shelf_price(offer, USD, per_lb=True) == "0.320 USD per lb"


def test_a_case_of_six_cans_of_6_lb_6_oz_at_16_54_is_43_2_cents_a_pound() -> None:
    # cost-control course slides: data read; 38.25 lb and 0.432 a pound worked out
    pounds = 6 * (6 + Fraction(6, 16))
    assert pounds == Fraction("38.25")
    assert shelf_price(by_mass(pounds * MG_PER_LB, 1654), USD, per_lb=True) == "0.432 USD per lb"


def test_from_a_dollar_up_a_unit_price_shows_whole_cents_and_below_it_tenths() -> None:
    # NIST Handbook 130, Uniform Unit Pricing Regulation, section 4, from memory
    assert shelf_price(by_mass(Fraction(100_000), 100), USD) == "1.00 USD per 100 g"
    assert shelf_price(by_mass(Fraction(200_000), 249), USD) == "1.25 USD per 100 g"
    assert shelf_price(by_mass(Fraction(200_000), 199), USD) == "0.995 USD per 100 g"
    assert shelf_price(by_mass(Fraction(1_000_000), 9_996), USD) == "10.00 USD per 100 g"
