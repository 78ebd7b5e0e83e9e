"""Temperatures, kept exactly in degrees Celsius."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from ladleworth.errors import BadUnit
from ladleworth.units.numbers import read_number
from ladleworth.units.quantity import half_up

ABSOLUTE_ZERO_C = Fraction(-27315, 100)

_TEXT = re.compile(
    r"([-−]?)\s*([0-9][0-9.,/ ½¼¾]*?)\s*(?:°|º|degrees?\b|deg\b\.?)?\s*(c|celsius|centigrade|f|fahrenheit)\.?",
    re.IGNORECASE,
)


def celsius(fahrenheit: Fraction | int) -> Fraction:
    """Turn degrees Fahrenheit into degrees Celsius, exactly: (F - 32) x 5/9."""
    return (Fraction(fahrenheit) - 32) * Fraction(5, 9)


def fahrenheit(celsius: Fraction | int) -> Fraction:
    """Turn degrees Celsius into degrees Fahrenheit, exactly: C x 9/5 + 32."""
    return Fraction(celsius) * Fraction(9, 5) + 32


def read_temperature(text: str) -> Fraction:
    """Read a temperature.

    Parameters
    ----------
    text
        '350 F', '180 °C', '-18C', '165 degrees Fahrenheit'. The scale must be named.

    Returns
    -------
    Fraction
        Degrees Celsius, exact.

    Raises
    ------
    BadUnit
        If there is no number or no scale, or it is colder than anything can be.
    """
    found = _TEXT.fullmatch(text.strip()) if len(text) <= 60 else None
    if found is None:
        raise BadUnit(
            f"the temperature {text[:40]!r} cannot be read; write a number and C or F, like '180 C' or '350 F'"
        )
    number = read_number(found[2]) * (-1 if found[1] else 1)
    degrees_c = celsius(number) if found[3][0] in "fF" else number
    if degrees_c < ABSOLUTE_ZERO_C:
        raise BadUnit(
            f"the temperature {text[:40]!r} is below absolute zero; write one like '-18 C' or '0 F'"
        )
    return degrees_c


def show_temperature(degrees_c: Fraction | int, scale: Literal["C", "F"] = "C") -> str:
    """Write a temperature to the whole degree, rounded half up: '180 °C', '350 °F'."""
    return f"{half_up(fahrenheit(degrees_c) if scale == 'F' else Fraction(degrees_c))} °{scale}"
