from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap
from ladleworth.dish.scale import (
    amount_of,
    change_percent,
    factor_for_portions,
    factor_for_whole_packages,
    factor_from_on_hand,
    say_change,
    scale,
    show_amount,
    total_error,
)
from ladleworth.errors import BadField, BadUnit
from ladleworth.units import CUP, LB, OZ, Quantity

DISH = Dish(
    id="chili",
    name="Chili",
    portions=6,
    parts=(
        Part(
            "stew",
            Role.PROTEIN,
            (
                Ingredient("beans", Fraction(450_000), Fraction(450_000)),
                Ingredient("egg", Fraction(2), Fraction(100_000)),
                Ingredient("beans", Fraction(150_000)),
                Ingredient("salt", Fraction(0), unmeasured=True),
            ),
            (Swap("sausage", (Ingredient("sausage", Fraction(340_000)),)), Swap("without", ())),
        ),
    ),
    fixed_min=Fraction(20),
    yield_mg=2_400_001,
)
WITH_SAUSAGE, WITHOUT = DISH.variants()


def test_scaling_multiplies_every_amount_exactly_and_keeps_what_does_not_follow() -> None:
    scaled = scale(DISH, Fraction(7, 6))
    beans, egg, more_beans, salt = scaled.parts[0].ingredients
    assert scaled.portions == 7
    assert (beans.bought, beans.edible_mg) == (525_000, 525_000)
    assert egg.bought == Fraction(7, 3)
    assert (more_beans.bought, more_beans.edible_mg) == (175_000, None)
    assert salt.unmeasured
    assert scaled.parts[0].swaps[0].ingredients[0].bought == Fraction(340_000 * 7, 6)
    assert scaled.fixed_min == 20
    assert scaled.yield_mg == 2_800_001


@given(factor=st.fractions(min_value=Fraction(1, 50), max_value=50))
def test_scaling_there_and_back_is_the_same_dish(factor: Fraction) -> None:
    dish = Dish("a", "A", 6, DISH.parts)
    assert scale(scale(dish, factor, portions=1), 1 / factor, portions=6) == dish


def test_a_factor_that_makes_no_whole_portions_asks_how_many() -> None:
    with pytest.raises(BadField, match="7 1/2 portions"):
        scale(DISH, Fraction(5, 4))
    assert scale(DISH, Fraction(5, 4), portions=10).portions == 10


def test_portions_on_hand_and_packages_each_give_a_factor() -> None:
    assert factor_for_portions(DISH, 9) == Fraction(3, 2)
    assert amount_of(WITHOUT.ingredients, "beans") == 600_000
    assert factor_from_on_hand(WITHOUT, "beans", 900_000) == Fraction(3, 2)
    assert factor_for_whole_packages(WITHOUT, {"beans": 500_000}) == Fraction(5, 6)
    assert factor_for_whole_packages(WITHOUT, {"beans": 500_000}, at_least=1) == Fraction(5, 3)
    assert factor_for_whole_packages(WITHOUT, {"beans": 500_000}, at_least=Fraction(5, 3)) == Fraction(5, 3)


@given(
    beans=st.integers(1, 40).map(lambda n: n * 25_000),
    eggs=st.integers(1, 12),
    least=st.fractions(min_value=0, max_value=10),
)
def test_whole_packages_of_several_foods_come_out_even_and_no_smaller_factor_does(
    beans: int, eggs: int, least: Fraction
) -> None:
    factor = factor_for_whole_packages(WITHOUT, {"beans": beans, "egg": eggs}, at_least=least)
    packs, boxes = factor * 600_000 / beans, factor * 2 / eggs
    assert packs.denominator == boxes.denominator == 1
    assert factor >= least
    smaller = [Fraction(n * beans, 600_000) for n in range(1, packs.numerator)]
    assert not [f for f in smaller if f >= least and (f * 2 / eggs).denominator == 1]


def test_a_food_that_the_chosen_swap_leaves_out_gives_no_factor() -> None:
    assert factor_from_on_hand(WITH_SAUSAGE, "sausage", 340_000) == 1
    with pytest.raises(BadField, match="takes no measured amount of sausage"):
        factor_from_on_hand(WITHOUT, "sausage", 340_000)
    with pytest.raises(BadField, match="takes no measured amount of salt"):
        factor_for_whole_packages(WITHOUT, {"salt": 500_000})


@pytest.mark.parametrize("bad", [0, -1, Fraction(-1, 3)])
def test_nothing_scales_by_zero_or_less(bad: Fraction | int) -> None:
    with pytest.raises(BadField):
        scale(DISH, bad)
    with pytest.raises(BadField):
        factor_from_on_hand(WITHOUT, "beans", bad)
    with pytest.raises(BadField):
        factor_for_whole_packages(WITHOUT, {"beans": bad})
    with pytest.raises(BadField):
        show_amount(bad)


@pytest.mark.parametrize(
    ("amount_mg", "text"),
    [
        (1_234_567, "1.23 kg"),
        (1_250_000, "1.25 kg"),
        (2_549_000, "2.5 kg"),
        (124_400, "124 g"),
        (126_000, "125 g"),
        (17_300, "17.5 g"),
        (4_444, "4.4 g"),
        (1, "100 mg"),
    ],
)
def test_metric_amounts_are_shown_at_steps_that_a_scale_reads(amount_mg: int, text: str) -> None:
    assert show_amount(amount_mg).text == text


@pytest.mark.parametrize(
    ("amount_mg", "text"),
    [
        (LB.in_base * 2, "2 lb"),
        (OZ.in_base * Fraction("12.30"), "12 1/4 oz"),
        (OZ.in_base * Fraction("3.13"), "3.1 oz"),
        (OZ.in_base * Fraction("0.62"), "0.62 oz"),
        (Fraction(1), "0.01 oz"),
    ],
)
def test_us_amounts_are_quarter_ounces_unless_that_is_off_by_more_than_two_percent(
    amount_mg: Fraction, text: str
) -> None:
    assert show_amount(amount_mg, system="us").text == text


@pytest.mark.parametrize(("count", "text"), [(Fraction(7, 3), "2 1/4"), (Fraction(1, 9), "1/4"), (3, "3")])
def test_pieces_are_shown_in_quarters_and_never_as_nothing(count: Fraction, text: str) -> None:
    assert show_amount(count, pieces=True).text == text


@given(
    amounts=st.lists(st.integers(2_500, 20_000_000), min_size=1, max_size=20),
    factor=st.fractions(min_value=1, max_value=20),
    system=st.sampled_from(["metric", "us"]),
)
def test_what_is_shown_adds_up_to_within_two_percent_of_the_exact_total(
    amounts: list[int], factor: Fraction, system: str
) -> None:
    least = (
        2_500 if system == "metric" else 7_100
    )  # a hundredth of an ounce is 2 % of a quarter ounce and more
    shown = [show_amount(max(a, least) * factor, system=system) for a in amounts]  # type: ignore[arg-type]
    assert abs(total_error(shown)) <= Fraction(2, 100)


def test_the_error_of_a_total_is_a_signed_share() -> None:
    assert total_error([show_amount(17_300)]) == Fraction(2, 173)
    with pytest.raises(BadField):
        total_error([])


def test_a_change_is_said_in_percent() -> None:
    two, more = Quantity.of(2, CUP), Quantity.of(Fraction(5, 2), CUP)
    assert change_percent(two, more) == 25
    assert say_change("water", two, more) == "25 % more water"
    assert say_change("water", more, two) == "20 % less water"
    assert say_change("water", two, two) == "as much water as before"
    with pytest.raises(BadUnit):
        say_change("water", two, Quantity.of(1, LB))
