from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import Range, read_number, read_range, scan_number, scan_range


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("2", Fraction(2)),
        ("0", Fraction(0)),
        (" 12 ", Fraction(12)),
        ("1 1/2", Fraction(3, 2)),
        ("1  1/2", Fraction(3, 2)),
        ("1\u00a01/2", Fraction(3, 2)),
        ("1½", Fraction(3, 2)),
        ("1 ½", Fraction(3, 2)),
        ("10½", Fraction(21, 2)),
        ("½", Fraction(1, 2)),
        ("⅔", Fraction(2, 3)),
        ("⅞", Fraction(7, 8)),
        ("⅒", Fraction(1, 10)),
        ("1/2", Fraction(1, 2)),
        ("1⁄2", Fraction(1, 2)),
        ("1 / 2", Fraction(1, 2)),
        ("3/2", Fraction(3, 2)),
        ("1-1/2", Fraction(3, 2)),
        ("1\u20111/2", Fraction(3, 2)),
        ("1-½", Fraction(3, 2)),
        ("1.5", Fraction(3, 2)),
        ("1,5", Fraction(3, 2)),
        ("1,50", Fraction(3, 2)),
        (".5", Fraction(1, 2)),
        ("0.333", Fraction(333, 1000)),
        ("1,500", Fraction(1500)),
        ("0,500", Fraction(1, 2)),
        ("1.500", Fraction(3, 2)),
        ("12,345,678", Fraction(12345678)),
        ("1,234.5", Fraction(2469, 2)),
        ("1.234,5", Fraction(2469, 2)),
        ("1234,567", Fraction(1234567, 1000)),
    ],
)
def test_a_kitchen_number_is_read_exactly(text: str, number: Fraction) -> None:
    assert read_number(text) == number


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "a number is missing"),
        ("  ", "a number is missing"),
        ("-1", "a negative number at character 1"),
        ("−2", "a negative number"),
        (" -1/2", "a negative number at character 2"),
        ("1/0", "0 below the line"),
        ("1 1/0", "0 below the line at character 3"),
        ("1 3/2", "3/2 after a whole number is not below one at character 3 .*; write 2"),
        ("nan", "no number stands"),
        ("inf", "no number stands"),
        ("-inf", "no number stands"),
        ("infinity", "no number stands"),
        ("1e3", "'e3' follows the number at character 2"),
        ("a dozen", "no number stands"),
        ("٣", "no number stands"),
        ("1.2.3", "cannot be read"),
        ("1/2/3", "cannot be read"),
        ("1½½", "cannot be read"),
        ("½2", "cannot be read"),
        ("1,23,456", "cannot be read"),
        ("9" * 30, "cannot be read"),
        ("9" * 5000, "cannot be read"),
        ("1 2", "'2' follows the number"),
        ("2-3", "'-3' follows the number"),
        ("12.", "'.' follows the number"),
        ("2 cups", "'cups' follows the number at character 2"),
    ],
)
def test_what_is_no_number_is_refused_saying_what_and_where(text: str, said: str) -> None:
    with pytest.raises(BadUnit, match=said):
        read_number(text)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("2", Fraction(2), Fraction(2)),
        ("2-3", Fraction(2), Fraction(3)),
        ("2 - 3", Fraction(2), Fraction(3)),
        ("2–3", Fraction(2), Fraction(3)),
        ("2—3", Fraction(2), Fraction(3)),
        ("2 to 3", Fraction(2), Fraction(3)),
        ("2 TO 3", Fraction(2), Fraction(3)),
        ("2 or 3", Fraction(2), Fraction(3)),
        ("1/2-3/4", Fraction(1, 2), Fraction(3, 4)),
        ("½-1", Fraction(1, 2), Fraction(1)),
        ("1½-2", Fraction(3, 2), Fraction(2)),
        ("1-1 1/2", Fraction(1), Fraction(3, 2)),
        ("1 1/2 to 2", Fraction(3, 2), Fraction(2)),
        ("1-1/2 to 2", Fraction(3, 2), Fraction(2)),
        ("1,5-2,5", Fraction(3, 2), Fraction(5, 2)),
        ("5-5", Fraction(5), Fraction(5)),
    ],
)
def test_a_range_keeps_both_ends(text: str, low: Fraction, high: Fraction) -> None:
    assert read_range(text) == Range(low, high)


def test_a_hyphen_before_a_fraction_below_one_is_a_mixed_number_not_a_range() -> None:
    assert read_range("1-1/2") == Range(Fraction(3, 2), Fraction(3, 2))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("3-2", "runs down from 3 to 2"),
        ("2 to 1/2", "runs down"),
        ("between 2 and 3", "no number stands"),
        ("2 to 3 to 4", "'to 4' follows"),
        ("2-", "'-' follows"),
        ("-2-3", "a negative number"),
        ("1-2/0", "0 below the line"),
    ],
)
def test_what_is_no_range_is_refused(text: str, said: str) -> None:
    with pytest.raises(BadUnit, match=said):
        read_range(text)


def test_scanning_stops_where_the_number_ends() -> None:
    assert scan_number("use 1 1/2 cups", 4) == (Fraction(3, 2), 9)
    assert scan_number("use 1 1/2 cups") is None
    assert scan_range("14-oz can") == (Range(Fraction(14), Fraction(14)), 2)
    assert scan_range("2 to taste") == (Range(Fraction(2), Fraction(2)), 1)


def test_a_range_that_runs_down_or_below_zero_cannot_be_made() -> None:
    with pytest.raises(BadField, match="smaller end first"):
        Range(Fraction(3), Fraction(2))
    with pytest.raises(BadField, match="none below 0"):
        Range(Fraction(-1), Fraction(2))


def test_a_range_says_itself() -> None:
    assert str(Range(Fraction(2), Fraction(3))) == "2-3"
    assert str(Range(Fraction(2), Fraction(2))) == "2"
    assert Range(Fraction(2), Fraction(2)).plain
    assert not Range(Fraction(2), Fraction(3)).plain
