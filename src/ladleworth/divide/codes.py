"""The short code of a container, to be written by hand where no label holds, with a letter that shows a slip of the pen."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from ladleworth.errors import BadField

LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"
"""Twenty-three letters: I, O and Q are left out, for by hand they are 1 and 0."""

FIRST_WEIGHT = 2
MOST_NUMBER = 999

_CODE = re.compile(r"(?P<month>\d{2})(?P<day>\d{2})(?P<batch>[A-Z])(?P<number>\d{1,3})(?P<check>[A-Z])")


@dataclass(frozen=True, slots=True)
class PortionCode:
    """What a code says: month and day of cooking, which batch of that day (0 is the first), which container (from 1)."""

    month: int
    day: int
    batch: int
    number: int

    def __post_init__(self) -> None:
        if not 1 <= self.number <= MOST_NUMBER or not 0 <= self.batch < len(LETTERS):
            raise BadField(
                f"container {self.number} of batch {self.batch + 1} has no code; there are codes for {MOST_NUMBER} "
                f"containers of each of {len(LETTERS)} batches a day"
            )
        try:
            date(2000, self.month, self.day)  # a leap year
        except ValueError as error:
            raise BadField(
                f"there is no day {self.day} in month {self.month}; look at the label again"
            ) from error

    def __str__(self) -> str:
        body = f"{self.month:02}{self.day:02}{LETTERS[self.batch]}{self.number}"
        return f"{body}-{check_letter(body)}"


def code_of(cooked_on: date, batch: int, number: int) -> PortionCode:
    """Give the code of a container: cooked on a day, in its batch (from 0), with its number (from 1)."""
    return PortionCode(cooked_on.month, cooked_on.day, batch, number)


def check_letter(body: str) -> str:
    """Reckon the letter that belongs to a code's other signs.

    Parameters
    ----------
    body
        Digits and letters of LETTERS, at most 21.

    Returns
    -------
    str
        The letter whose number is the sum of every sign's number, times its place counted from 2, modulo 23. Twenty-three
        is prime, so that one wrong digit or letter, or two signs that changed places, never keep the letter. That the
        check digit of a book's number works alike, modulo 11 (ISO 2108, from memory), is where the idea is from.

    Raises
    ------
    BadField
        If a sign is none of these.
    """
    total = 0
    for place, sign in enumerate(body, FIRST_WEIGHT):
        if sign not in LETTERS and sign not in "0123456789":
            raise BadField(f"{sign!r} stands in no code; write digits and the letters {LETTERS}")
        total += place * (int(sign) if sign.isdigit() else LETTERS.index(sign))
    return LETTERS[total % len(LETTERS)]


def read_code(text: str) -> PortionCode:
    """Read a code as somebody wrote it; spaces, dashes and small letters do not matter.

    Raises
    ------
    BadField
        If it is none, or its letter does not belong to it.
    """
    plain = re.sub(r"[\s\-–.]", "", text).upper()
    found = _CODE.fullmatch(plain)
    if found is None or found["batch"] not in LETTERS:
        raise BadField(
            f"{text!r} is no code of a container; write one such as {code_of(date(2000, 12, 6), 0, 3)}"
        )
    if check_letter(plain[:-1]) != found["check"]:
        raise BadField(f"{text!r}: the last letter does not belong to the rest; look at the label again")
    month, day, number = (int(found[name]) for name in ("month", "day", "number"))
    return PortionCode(month, day, LETTERS.index(found["batch"]), number)
