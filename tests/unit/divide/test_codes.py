"""The code on a container: what it says, and every slip of the pen that its letter shows."""

from __future__ import annotations

from datetime import date

import pytest

from ladleworth.divide import PortionCode, check_letter, code_of, read_code
from ladleworth.divide.codes import LETTERS
from ladleworth.errors import BadField

DAY = date(2026, 12, 6)


def test_a_code_says_day_batch_and_number_and_is_worked_by_hand() -> None:
    # 1206A3: 1 x 2 + 2 x 3 + 0 x 4 + 6 x 5 + A (0) x 6 + 3 x 7 = 59; 59 - 2 x 23 = 13: the fourteenth letter, P.
    assert str(code_of(DAY, 0, 3)) == "1206A3-P"
    assert check_letter("1206A3") == "P"


@pytest.mark.parametrize("written", ["1206A3-P", "1206a3p", " 1206 A 3 P ", "1206.A3–p"])
def test_a_code_is_read_however_it_is_spaced(written: str) -> None:
    assert read_code(written) == PortionCode(12, 6, 0, 3)


@pytest.mark.parametrize("number", [1, 9, 10, 123, 999])
@pytest.mark.parametrize("batch", [0, 1, len(LETTERS) - 1])
def test_every_code_is_read_back(batch: int, number: int) -> None:
    code = code_of(DAY, batch, number)
    assert read_code(str(code)) == code


def slips(code: str) -> set[str]:
    """Every code that differs by one sign, or by two that changed places."""
    plain = code.replace("-", "")
    found = set()
    for at, sign in enumerate(plain):
        signs = "0123456789" if sign.isdigit() else LETTERS
        found |= {plain[:at] + other + plain[at + 1 :] for other in signs}
        for later in range(at + 1, len(plain)):
            swapped = [*plain]
            swapped[at], swapped[later] = swapped[later], swapped[at]
            found.add("".join(swapped))
    return found - {plain}


@pytest.mark.parametrize(
    "code", ["1206A3-P", str(code_of(date(2027, 2, 28), 4, 12)), str(code_of(DAY, 22, 101))]
)
def test_no_slip_of_one_sign_or_two_that_changed_places_goes_unseen(code: str) -> None:
    tried = slips(code)
    assert len(tried) > 80
    for slip in tried:
        with pytest.raises(BadField):
            read_code(slip)


@pytest.mark.parametrize("wrong", ["", "chili", "1206A3", "12A3-P", "1206O3-P", "1306A3-W", "1206A0-W"])
def test_what_is_no_code_is_refused(wrong: str) -> None:
    with pytest.raises(BadField, match=r"look at the label again|write one such as 1206A3-P"):
        read_code(wrong)


def test_there_are_no_codes_beyond_what_can_be_written() -> None:
    for batch, number in ((0, 0), (0, 1000), (23, 1)):
        with pytest.raises(BadField, match="has no code"):
            code_of(DAY, batch, number)
    with pytest.raises(BadField, match="stands in no code"):
        check_letter("12:06")


def test_the_leap_day_has_codes() -> None:
    assert read_code(str(code_of(date(2028, 2, 29), 1, 2))) == PortionCode(2, 29, 1, 2)
