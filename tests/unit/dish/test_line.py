from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.line import Amount, Line, Package, Review
from ladleworth.dish.read_line import read_line
from ladleworth.errors import BadField
from ladleworth.units import CUP, OZ, TBSP, G, Range

ONE = Range(Fraction(1), Fraction(1))


def lined(text: str) -> Line:
    line = read_line(text)
    assert isinstance(line, Line), str(line)
    return line


def test_a_plain_line_gives_its_fields() -> None:
    assert lined("1 cup plus 2 tbsp flour, sifted") == Line(
        text="1 cup plus 2 tbsp flour, sifted",
        food_text="flour",
        amounts=(Amount(Fraction(1), Fraction(1), CUP), Amount(Fraction(2), Fraction(2), TBSP)),
        preparation=("sifted",),
    )


def test_a_sized_can_gives_count_size_and_form_apart() -> None:
    line = lined("2 (14.5 oz) cans tomatoes")
    size = Amount(Fraction(29, 2), Fraction(29, 2), OZ)
    assert line.package == Package(Range(Fraction(2), Fraction(2)), size, "can")
    assert line.amounts == ()


def test_in_all_multiplies_a_sized_package_by_its_count() -> None:
    assert lined("2 x 400 g tins tomatoes").in_all == (Amount(Fraction(800), Fraction(800), G),)
    assert lined("1 (2 to 3 lb) roast").in_all[0].high == 3
    assert lined("3 cloves garlic").in_all == ()
    assert lined("500 g rice").in_all == (Amount(Fraction(500), Fraction(500), G),)


def test_a_range_keeps_both_ends_and_is_never_averaged() -> None:
    amount = lined("2-3 onions").amounts[0]
    assert (amount.low, amount.high, amount.unit, amount.plain) == (2, 3, None, False)


def test_an_alternative_with_its_own_amount_is_a_line_of_its_own() -> None:
    line = lined("1 cup milk or 1/2 cup cream, warmed")
    assert [(other.food_text, other.amounts[0].low) for other in line.alternatives] == [
        ("cream", Fraction(1, 2))
    ]


def test_an_alternative_does_not_take_over_the_other_food_s_weight() -> None:
    line = lined("1 cup (227 g) butter or olive oil")
    assert line.also == (Amount(Fraction(227), Fraction(227), G),)
    assert line.alternatives[0].also == ()
    assert line.alternatives[0].amounts == line.amounts


def test_an_amount_with_to_taste_still_counts() -> None:
    line = lined("1 tsp salt, or to taste")
    assert line.to_taste
    assert not line.unmeasured
    assert line.amounts


def test_a_plain_pint_that_means_the_imperial_one_is_caught_by_its_millilitres() -> None:
    assert isinstance(read_line("1 pint (568 ml) milk"), Review)
    assert lined("1 imperial pint (568 ml) milk").also


def test_a_review_says_the_line_the_reason_and_the_remedy() -> None:
    assert str(read_line("some butter")) == (
        "'some butter': 'some' does not say how much; write an amount, such as '1 tbsp', or 'to taste'"
    )


def test_a_fault_in_a_number_keeps_its_own_remedy() -> None:
    review = read_line("1/0 cup flour")
    assert isinstance(review, Review)
    assert review.remedy == "write one such as 1/2"


@pytest.mark.parametrize("ends", [(0, 1), (-1, 1), (2, 1)])
def test_an_amount_out_of_range_cannot_be_made(ends: tuple[int, int]) -> None:
    with pytest.raises(BadField, match="smaller first"):
        Amount(Fraction(ends[0]), Fraction(ends[1]), CUP)


def test_a_package_out_of_range_cannot_be_made() -> None:
    with pytest.raises(BadField, match="above 0"):
        Package(Range(Fraction(0), Fraction(1)), None, "can")
    with pytest.raises(BadField, match="no unit"):
        Package(ONE, Amount(Fraction(1), Fraction(1), None), "can")
    with pytest.raises(BadField, match="no form"):
        Package(ONE, None, "")


def test_a_line_has_exactly_one_of_amounts_package_and_unmeasured() -> None:
    amount = Amount(Fraction(1), Fraction(1), CUP)
    for fields in (
        {},
        {"amounts": (amount,), "unmeasured": True},
        {"amounts": (amount,), "package": Package(ONE, None, "can")},
    ):
        with pytest.raises(BadField, match="give exactly one"):
            Line("text", "rice", **fields)  # type: ignore[arg-type]
    with pytest.raises(BadField, match="names no food"):
        Line("text", " ", amounts=(amount,))
