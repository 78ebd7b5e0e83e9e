"""What the scale says, and which of several readings counts."""

from __future__ import annotations

import pytest

from ladleworth.divide import Reading, standing
from ladleworth.errors import BadField


def test_the_net_weight_is_what_the_scale_says_less_the_pot() -> None:
    assert Reading(("pot",), 4_100_000, 1_200_000).net == 2_900_000


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (((), 5), "name each part once"),
        ((("a", "a"), 5), "name each part once"),
        ((("a",), 0), "write amounts above 0"),
        ((("a",), 5, -1), "write amounts above 0"),
        ((("a",), 400_000, 400_000), "write the filled weight first"),
        ((("a", "b"), 7, 0, True), "counted for one part"),
        ((("a",), 7, 1, True), "leave the tare out"),
    ],
)
def test_a_reading_that_cannot_be_is_refused(wrong: tuple[object, ...], said: str) -> None:
    with pytest.raises(BadField, match=said):
        Reading(*wrong)  # type: ignore[arg-type]


def test_a_part_weighed_again_takes_the_place_of_every_reading_that_it_was_in() -> None:
    pot, rice, again, other = (
        Reading(("sauce", "rice"), 3_000_000),
        Reading(("rice",), 1_000_000),
        Reading(("rice",), 1_100_000),
        Reading(("bread",), 6, in_pieces=True),
    )
    assert standing([pot]) == (pot,)
    assert standing([pot, rice]) == (rice,)  # what the sauce weighs without the rice, nobody knows
    assert standing([pot, rice, again, other]) == (again, other)
    assert standing([rice, pot]) == (pot,)
