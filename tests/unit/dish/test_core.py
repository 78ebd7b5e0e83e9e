"""What the middle of a food has to reach."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.core import Core, read_core
from ladleworth.errors import BadField


@pytest.mark.parametrize(
    ("text", "core"),
    [
        ("74 °C", Core(Fraction(74))),
        ("165 °F", Core(Fraction(665, 9))),
        ("63 °C, roast", Core(Fraction(63), "roast")),
        ("145 F, Very large roast", Core(Fraction(565, 9), "very large roast")),
    ],
)
def test_a_core_is_a_temperature_and_perhaps_a_roast(text: str, core: Core) -> None:
    assert read_core(text) == core


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("165", "core '165' cannot be read; write it like '165 °F', or '63 °C, roast'"),
        ("hot", "cannot be read"),
        ("63 °C, ham", "names no roast that is known; write it like"),
        ("165 °C", "is 165 °C; write one from 30 to 110 °C"),
    ],
)
def test_a_core_that_cannot_be_read_says_what_to_write(text: str, told: str) -> None:
    with pytest.raises(BadField) as refused:
        read_core(text)
    assert told in str(refused.value)
