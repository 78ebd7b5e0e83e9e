"""What the middle of a food has to reach at a step: '165 °F', or '63 °C, very large roast' for one that rests."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import read_temperature

ROASTS = ("small roast", "roast", "very large roast")
"""Sizes of a roast, which tell by how much its middle rises while it rests."""

HOTTEST_C, COOLEST_C = 110, 30
"""Temperatures that a middle may be asked for: our own bounds, no source; what lies outside is taken for a slip."""

_REMEDY = f"write it like '165 °F', or '63 °C, roast' (one of {', '.join(ROASTS)})"


@dataclass(frozen=True, slots=True)
class Core:
    """The temperature of the middle in °C, exact, and what it is of, '' for anything but a roast that rests."""

    heat_c: Fraction
    roast: str = ""


def read_core(text: str) -> Core:
    """Read what the middle has to reach.

    Raises
    ------
    BadField
        If it is no temperature with its scale, names no known roast, or lies outside what a middle reaches.
    """
    heat, comma, roast = (part.strip() for part in text.partition(","))
    if comma and roast.casefold() not in ROASTS:
        raise BadField(f"core {text!r} names no roast that is known; {_REMEDY}")
    try:
        core = Core(read_temperature(heat), roast.casefold())
    except BadUnit as bad:
        raise BadField(f"core {text!r} cannot be read; {_REMEDY}") from bad
    if not COOLEST_C <= core.heat_c <= HOTTEST_C:
        raise BadField(
            f"core {text!r} is {float(core.heat_c):.0f} °C; write one from {COOLEST_C} to {HOTTEST_C} °C"
        )
    return core
