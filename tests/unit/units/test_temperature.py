from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadUnit
from ladleworth.units import celsius, fahrenheit, read_temperature, show_temperature


@pytest.mark.parametrize(
    ("text", "degrees_c"),
    [
        ("180 °C", Fraction(180)),
        ("180C", Fraction(180)),
        ("-18 C", Fraction(-18)),
        ("−18 °C", Fraction(-18)),
        ("4,5 °C", Fraction(9, 2)),
        ("212 F", Fraction(100)),
        ("350°F", Fraction(1590, 9)),
        ("165 degrees Fahrenheit", Fraction(665, 9)),
        ("40 deg. F", Fraction(40, 9)),
        ("100 celsius", Fraction(100)),
    ],
)
def test_a_temperature_is_read_exactly_in_celsius(text: str, degrees_c: Fraction) -> None:
    assert read_temperature(text) == degrees_c


@pytest.mark.parametrize(
    "text", ["", "350", "hot", "gas mark 4", "nan C", "350 K", "-300 C", "-500 F", "9" * 100 + "C"]
)
def test_what_is_no_temperature_is_refused(text: str) -> None:
    with pytest.raises(BadUnit, match="write"):
        read_temperature(text)


def test_the_scales_meet_at_forty_below() -> None:
    assert celsius(-40) == fahrenheit(-40) == -40


def test_a_temperature_is_shown_to_the_degree() -> None:
    assert show_temperature(Fraction(1590, 9)) == "177 °C"
    assert show_temperature(Fraction(1590, 9), "F") == "350 °F"
    assert show_temperature(Fraction(-18)) == "-18 °C"
