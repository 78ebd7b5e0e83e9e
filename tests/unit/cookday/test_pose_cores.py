"""What is measured in the middle, and when a roast is taken out."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.cookday.small_dishes import CHOP, SIMMER, batch, dish, posed

from ladleworth.cookday.pose_cores import pull_at
from ladleworth.dish.core import read_core


@pytest.mark.parametrize(
    ("core", "pull"),
    [
        # Professional cooking notes on carry-over (read): a roast's middle rises by 3 °C if it is small, 6 to 8 °C as a
        # rule, 14 °C if it is very large.
        ("63 °C, small roast", 60),
        ("63 °C, roast", 57),
        ("63 °C, very large roast", 49),
        ("74 °C", 74),
    ],
)
def test_a_roast_is_taken_out_before_by_what_it_rises(core: str, pull: int) -> None:
    assert pull_at(read_core(core)) == pull


def test_the_day_says_what_to_measure_at_the_end_of_a_step() -> None:
    steps = [
        CHOP,
        {**SIMMER, "core": "165 °F"},
        {"do": "Roast.", "unattended": "60", "needs": "oven at 160 °C", "core": "63 °C, roast"},
    ]
    chicken, roast = posed(batch(dish("Both", steps))).cores
    assert (chicken.activity, chicken.core_c) == ("Both: 2, by itself", Fraction(665, 9))
    assert chicken.words == "It has to reach 74 °C (165 °F) in the middle: measure."
    assert (roast.activity, roast.pull_c) == ("Both: 3", 57)
    assert roast.words == (
        "Take it out at 57 °C (135 °F): a roast rises by about 6 °C while it rests (carry-over-notes, read). It has to "
        "reach 63 °C (145 °F) in the middle: measure before it is cut, and put it back if it does not."
    )
