"""Limits of a cooking day, against what is published."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import MissingFact
from ladleworth.facts import food_table
from ladleworth.facts.limits import cited, limit, limits, out_of_fridge


def test_every_limit_names_a_source_of_the_list() -> None:
    assert len(limits()) >= 10
    for name, figure in limits().items():
        assert food_table().source(figure.source).title, name
        assert (figure.source == "common-practice") == (figure.basis == "common practice"), name


@pytest.mark.parametrize(
    ("room", "minutes"),
    [
        # Nutrition education program, fact sheet on safe thawing practices (read): perishable food is not left out for
        # more than two hours, one hour above 90 °F (32 °C). The same rule is USDA FSIS's (from memory).
        (None, 120),
        (Fraction(21), 120),
        (Fraction(32), 120),
        (Fraction(33), 60),
        # 90 °F itself is 32.2 °C: the stricter hour holds from there on already.
        ((Fraction(90) - 32) * Fraction(5, 9), 60),
    ],
)
def test_food_stands_out_two_hours_and_one_on_a_hot_day(room: Fraction | None, minutes: int) -> None:
    assert out_of_fridge(room).value == minutes
    assert cited(out_of_fridge(room)) == "(thawing-fact-sheet, read)"
    assert cited(limit("pot filled")) == "(common practice, no source)"


def test_thawing_takes_a_day_for_five_pounds() -> None:
    # The same fact sheet: a large frozen item thaws in the fridge for 24 hours at least for each 5 pounds.
    assert (limit("thawing in the fridge").value, limit("thawing in the fridge").unit) == (24, "h")
    assert "5 lb (2268 g)" in limit("thawing in the fridge").note  # 5 x 453.59237 g, by definition


def test_a_limit_that_nobody_has_is_not_guessed() -> None:
    with pytest.raises(MissingFact, match="nobody has a limit called 'frying'"):
        limit("frying")
