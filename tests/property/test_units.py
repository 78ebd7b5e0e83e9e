from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ladleworth.errors import BadUnit
from ladleworth.units import (
    CURRENCIES,
    UNITS,
    Dimension,
    Quantity,
    Range,
    read_minutes,
    read_money,
    read_number,
    read_quantity,
    read_range,
    read_temperature,
    read_total,
    round_ounces,
    share,
    show_count,
    show_mass,
    show_minutes,
    show_money,
    show_number,
    show_volume,
    split,
)

weights = st.lists(
    st.one_of(st.integers(0, 10**6), st.fractions(min_value=0, max_value=1000, max_denominator=97)),
    min_size=1,
    max_size=12,
).filter(any)
kitchen_numbers = st.builds(
    lambda whole, over, under: whole + Fraction(over % under, under),
    st.integers(0, 999_999),
    st.integers(0, 31),
    st.sampled_from([1, 2, 3, 4, 6, 8, 12, 16, 32, 5, 10, 100, 1000]),
)


@given(st.integers(0, 10**9), weights)
def test_shares_add_up_and_stand_within_one_unit_of_exact(total: int, given_weights: list[Fraction]) -> None:
    shares = split(total, given_weights)
    whole = sum(map(Fraction, given_weights))
    assert sum(shares) == total
    for part, weight in zip(shares, given_weights, strict=True):
        assert part >= 0
        assert abs(part - total * Fraction(weight) / whole) < 1
        assert weight > 0 or part == 0


@given(st.integers(0, 10**9), weights)
def test_a_greater_weight_never_gets_less_and_an_equal_earlier_one_never_less(
    total: int, given_weights: list[Fraction]
) -> None:
    shares = split(total, given_weights)
    for i, heavy in enumerate(given_weights):
        for j, light in enumerate(given_weights):
            if heavy > light or (heavy == light and i < j):
                assert shares[i] >= shares[j]


@given(st.integers(0, 10**9), weights, st.integers(1, 50))
def test_scaling_all_weights_changes_no_share(total: int, given_weights: list[Fraction], factor: int) -> None:
    assert split(total, given_weights) == split(total, [weight * factor for weight in given_weights])


@given(st.integers(0, 10**9), st.integers(1, 10**9), st.data())
def test_drawing_a_lot_down_in_steps_ends_at_its_last_cent(
    total: int, whole: int, data: st.DataObject
) -> None:
    left_cents, left_mg, drawn = total, whole, 0
    while left_mg:
        part = data.draw(st.integers(max(1, left_mg // 4), left_mg))
        taken = share(left_cents, part, left_mg)
        assert 0 <= taken <= left_cents
        drawn, left_cents, left_mg = drawn + taken, left_cents - taken, left_mg - part
    assert (drawn, left_cents) == (total, 0)


@given(st.integers(0, 10**9), st.integers(1, 10**9), st.data())
def test_a_greater_part_never_costs_less(total: int, whole: int, data: st.DataObject) -> None:
    small = data.draw(st.integers(0, whole))
    large = data.draw(st.integers(small, whole))
    assert share(total, small, whole) <= share(total, large, whole)


@given(kitchen_numbers, st.sampled_from(["plain", "unicode"]))
def test_a_shown_number_reads_back_the_same(number: Fraction, style: str) -> None:
    assert read_number(show_number(number, style)) == number  # type: ignore[arg-type]


@given(st.integers(0, 999), st.integers(0, 98), st.integers(1, 99))
def test_a_shown_count_reads_back_the_same(whole: int, over: int, under: int) -> None:
    number = whole + Fraction(over % under, under)
    assert read_number(show_count(number)) == number


@given(st.fractions(min_value=0, max_value=10**6, max_denominator=10**15))
def test_any_number_shown_is_within_half_a_thousandth_and_never_nothing_if_something(
    number: Fraction,
) -> None:
    back = read_number(show_number(number))
    assert abs(back - number) <= Fraction(1, 2000)
    assert (back > 0) == (number > 0)


@given(kitchen_numbers, kitchen_numbers, st.sampled_from(["-", "–", " - ", " to ", " or "]))
def test_a_range_reads_back_with_both_its_ends(one: Fraction, other: Fraction, join: str) -> None:
    low, high = sorted((one, other))
    if (
        join == "-"
        and high < 1
        and low.denominator == 1
        and high.denominator > 1
        and "/" in show_number(high)
    ):
        join = " to "  # '0-1/2' is a mixed number
    assert read_range(f"{show_number(low)}{join}{show_number(high)}") == Range(low, high)


@given(kitchen_numbers, st.sampled_from(UNITS), st.data())
def test_a_quantity_reads_back_under_every_spelling(
    number: Fraction, unit: object, data: st.DataObject
) -> None:
    assert unit in UNITS
    chosen = next(one for one in UNITS if one == unit)
    spelling = data.draw(st.sampled_from((chosen.name, *chosen.aliases)))
    assert read_quantity(f"{show_number(number)} {spelling}") == (Range(number, number), chosen)


@given(st.integers(0, 10**10))
def test_an_exact_metric_mass_reads_back_to_the_milligram(mass_mg: int) -> None:
    assert read_total(show_mass(mass_mg, exact=True)).mg == mass_mg


@given(st.integers(0, 10**9))
def test_a_shown_mass_is_as_near_as_it_says(mass_mg: int) -> None:
    metric = read_total(show_mass(mass_mg)).amount
    assert abs(metric - mass_mg) <= (50 if mass_mg < 9_950 else 500)
    us = read_total(show_mass(mass_mg, "us"))
    assert abs(us.amount - mass_mg) <= Fraction(28_349_523_125, 8_000_000)
    assert (us.amount > 0) == (mass_mg > 0)


@given(st.fractions(min_value=0, max_value=20_000, max_denominator=1000))
def test_a_shown_volume_is_as_near_as_it_says(volume_ml: Fraction) -> None:
    metric = read_total(show_volume(volume_ml)).ml
    assert abs(metric - volume_ml) <= (Fraction(1, 20) if volume_ml < Fraction(995, 100) else Fraction(1, 2))
    us = read_total(show_volume(volume_ml, "us")).ml
    teaspoon = Fraction("4.92892159375")
    nearest = teaspoon / 16 if volume_ml < 14 else teaspoon / 2 if volume_ml < 3785 else teaspoon * 24
    assert abs(us - volume_ml) <= nearest


@given(st.fractions(min_value=0, max_value=1000))
def test_ounces_round_to_the_nearest_quarter(ounces: Fraction) -> None:
    rounded = round_ounces(ounces)
    assert (rounded * 4).denominator == 1
    assert abs(rounded - ounces) <= Fraction(1, 8)


@given(st.integers(-(10**12), 10**12), st.sampled_from(sorted(CURRENCIES)), st.booleans())
def test_a_shown_price_reads_back_to_the_cent(cents: int, code: str, with_code: bool) -> None:
    cur = CURRENCIES[code]
    assert read_money(show_money(cents, cur, with_code=with_code), cur, negative=True) == cents


@given(st.integers(0, 59_999), st.sampled_from(["kitchen", "iso"]))
def test_a_shown_time_reads_back_the_same(minutes: int, style: str) -> None:
    assert read_minutes(show_minutes(minutes, style)) == minutes  # type: ignore[arg-type]


@given(st.fractions(), st.fractions(), st.sampled_from(Dimension))
def test_adding_and_taking_away_again_changes_nothing(
    one: Fraction, other: Fraction, dimension: Dimension
) -> None:
    first, second = Quantity(one, dimension), Quantity(other, dimension)
    assert first + second - second == first


ragged = st.one_of(st.text(max_size=40), st.text("0123456789 ½¼/.,-–:$€TPHM°CFghminoz()", max_size=30))


@pytest.mark.parametrize(
    "read",
    [
        read_number,
        read_range,
        read_quantity,
        read_total,
        read_minutes,
        read_temperature,
        lambda text: read_money(text, CURRENCIES["USD"]),
        lambda text: read_money(text, CURRENCIES["KWD"], negative=True),
    ],
)
@given(text=ragged)
def test_any_text_is_read_or_refused_with_a_message_and_nothing_else(read: object, text: str) -> None:
    assert callable(read)
    try:
        answer = read(text)
    except BadUnit as fault:
        said = str(fault)
        answer = said if "write" in said or "convert" in said else None
    assert answer is not None
