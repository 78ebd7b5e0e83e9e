"""Costing rules against examples of teaching texts. Inputs were read in the source named beside each check;
where it says 'worked out', the text gives the question or the formula and the answer follows from them."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.reckon import cost_factor, cost_share, edible_cost, quantity_to_buy
from ladleworth.units import half_up


def nearest(exact: Fraction, digits: int) -> Fraction:
    """Rounded half up to so many digits after the point."""
    return Fraction(half_up(exact * 10**digits), 10**digits)


def test_a_kilogram_of_carrots_peeled_to_800_g_yields_80_percent() -> None:
    # BC open textbook, yield testing: 1 kg bought, 800 g left, 80 %. Exact.
    share = Fraction(800, 1000)
    assert share == Fraction("0.80")
    # worked out, the price of 2.00 a kg is made up for the example: 2.50 a kg edible
    assert edible_cost(Fraction(200), share) == 250
    assert quantity_to_buy(Fraction(800), share) == 1000


def test_99_cents_a_pound_at_36_percent_is_2_75_a_pound_edible() -> None:
    # PSU open textbook on food-cost control, chapter 7: 0.99 at 36 % = 2.75. Exact.
    assert edible_cost(Fraction(99), Fraction(36, 100)) == 275


def test_a_pound_of_usable_pepper_at_82_percent_is_1_22_pounds_to_buy() -> None:
    # yield and formula read in the culinary-math formula sheet, figure worked out; to two decimals
    assert nearest(quantity_to_buy(Fraction(1), Fraction(82, 100)), 2) == Fraction("1.22")


def test_three_pounds_for_12_45_at_60_percent_are_4_15_and_6_92_a_pound() -> None:
    # question read in PSU open textbook chapter 7, answer worked out; to the cent
    bought = Fraction(1245, 3)
    assert bought == 415
    assert nearest(edible_cost(bought, Fraction(60, 100)), 0) == 692


def test_a_teaspoon_of_spice_at_10_60_a_pound_is_5_52_cents() -> None:
    # question read in culinary-math chapter 6 slides (4 oz to the cup, 48 tsp to the cup), answer worked out
    assert nearest(Fraction(1060, 16) * 4 / 48, 2) == Fraction("5.52")


def test_the_couscous_sheet_comes_to_4_0133_and_0_5017_a_portion() -> None:
    # inputs read in cost-control course slides, sums worked out; to a hundredth of a cent
    carrot_lb = edible_cost(Fraction(68), Fraction(77, 100))
    assert nearest(carrot_lb, 1) == Fraction("88.3")
    sheet = {
        "couscous": Fraction(420) * 2 / 4,
        "carrots": carrot_lb * 4 / 16,
        "raisins": Fraction(437) * 4 / 16,
        "stock": Fraction(84) * 16 / 32,
        "parsley": Fraction(72) * 2 / 8,
    }
    assert [nearest(cents, 2) for cents in sheet.values()] == [
        210,
        Fraction("22.08"),
        Fraction("109.25"),
        42,
        18,
    ]
    total = sum(sheet.values())
    assert nearest(total, 2) == Fraction("401.33")
    assert nearest(total / 8, 2) == Fraction("50.17")


def test_a_roast_of_1605_g_that_weighs_1468_g_cooked_yields_91_5_percent() -> None:
    # BC open textbook, yield testing: the page says 92 %; to a tenth of a percent
    share = Fraction(1468, 1605)
    assert nearest(share * 100, 1) == Fraction("91.5")
    assert nearest(share * 100, 0) == nearest(100 / cost_factor(share), 0) == 91  # 91.46 rounds to 91, not 92


def test_a_dish_of_6_at_18_is_33_percent_and_with_a_cover_of_1_it_is_38_9_percent() -> None:
    # trade-magazine advice column on the Q factor: 18, 6, 33 % and 1 read, 38.9 % worked out
    assert nearest(cost_share(600, 1800) * 100, 0) == 33
    assert nearest(cost_share(600, 1800, cover_cents=100) * 100, 1) == Fraction("38.9")
