"""The units a kitchen measures in, each exact in milligrams, millilitres or pieces."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ladleworth.errors import BadField, BadUnit


class Dimension(Enum):
    """What a unit measures; the value names the base unit that amounts are kept in."""

    MASS = "mg"
    VOLUME = "ml"
    COUNT = "each"


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of measure.

    Parameters
    ----------
    name
        How the project writes it (`tbsp`).
    dimension
        Whether it measures mass, volume or a count.
    in_base
        How many base units (mg, ml, each) it holds, exactly.
    aliases
        Other spellings. Single capitals count as written (`T` is a tablespoon, `t` a teaspoon); in
        longer ones neither case nor a full stop matters.

    Raises
    ------
    BadField
        If the name is blank or the unit holds nothing.
    """

    name: str
    dimension: Dimension
    in_base: Fraction
    aliases: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise BadField("a unit's name is blank; give it a name")
        if self.in_base <= 0:
            raise BadField(f"unit {self.name!r} holds {self.in_base}; write a figure above zero")

    def __str__(self) -> str:
        return self.name


_POUND_MG = Fraction(45_359_237, 100)
_CUBIC_INCH_ML = Fraction(254, 100) ** 3
_GALLON_ML = 231 * _CUBIC_INCH_ML
_IMPERIAL_GALLON_ML = Fraction(454_609, 100)
_TEASPOON_ML = _GALLON_ML / 768


def _mass(name: str, mg: Fraction | int, *aliases: str) -> Unit:
    return Unit(name, Dimension.MASS, Fraction(mg), aliases)


def _volume(name: str, ml: Fraction | int, *aliases: str) -> Unit:
    return Unit(name, Dimension.VOLUME, Fraction(ml), aliases)


# Source: the avoirdupois pound is 453.59237 g and the inch 2.54 cm by the international agreement of 1959
# (US: NIST Handbook 44, Appendix C; UK: Weights and Measures Act 1985, Schedule 1).
MG = _mass("mg", 1, "milligram", "milligrams", "milligramme", "milligrammes", "mgs")
G = _mass("g", 1_000, "gram", "grams", "gramme", "grammes", "gm", "gms", "gr", "grs")
KG = _mass("kg", 1_000_000, "kilogram", "kilograms", "kilogramme", "kilogrammes", "kilo", "kilos", "kgs")
OZ = _mass("oz", _POUND_MG / 16, "ounce", "ounces", "ozs")
LB = _mass("lb", _POUND_MG, "pound", "pounds", "lbs", "#")

ML = _volume("ml", 1, "milliliter", "milliliters", "millilitre", "millilitres", "mls", "cc", "cm3", "cm³")
CL = _volume("cl", 10, "centiliter", "centiliters", "centilitre", "centilitres")
DL = _volume("dl", 100, "deciliter", "deciliters", "decilitre", "decilitres")
L = _volume("l", 1_000, "liter", "liters", "litre", "litres", "ltr", "ltrs", "ℓ")

# Source: the US gallon is 231 cubic inches; the rest are its binary and ternary parts (NIST Handbook 44, App. C).
GALLON = _volume("gal", _GALLON_ML, "gallon", "gallons", "gals", "us gallon", "us gallons")
QUART = _volume("qt", _GALLON_ML / 4, "quart", "quarts", "qts", "us quart", "us quarts")
PINT = _volume("pt", _GALLON_ML / 8, "pint", "pints", "pts", "us pint", "us pints")
CUP = _volume("cup", _GALLON_ML / 16, "cups", "c", "us cup", "us cups")
FL_OZ = _volume(
    "fl oz",
    _GALLON_ML / 128,
    "fl. oz",
    "fl ozs",
    "floz",
    "fluid ounce",
    "fluid ounces",
    "fluid oz",
    "us fl oz",
)
TBSP = _volume(
    "tbsp", 3 * _TEASPOON_ML, "T", "tablespoon", "tablespoons", "tablespoonful", "tablespoonfuls", "tbsps", "tbs",
    "tbl", "tbls", "tb", "us tbsp",
)  # fmt: skip
TSP = _volume(
    "tsp", _TEASPOON_ML, "t", "teaspoon", "teaspoons", "teaspoonful", "teaspoonfuls", "tsps", "us tsp"
)
# Common practice, no source: nobody defines these three by law.
DASH = _volume("dash", _TEASPOON_ML / 8, "dashes")
PINCH = _volume("pinch", _TEASPOON_ML / 16, "pinches")
SMIDGEN = _volume("smidgen", _TEASPOON_ML / 32, "smidgens", "smidgin", "smidgins")

# By custom in metric kitchens, no legal definition; only under their full names, so that a plain 'cup' stays one thing.
METRIC_CUP = _volume("metric cup", 250, "metric cups")
METRIC_TBSP = _volume("metric tbsp", 15, "metric tablespoon", "metric tablespoons")
METRIC_TSP = _volume("metric tsp", 5, "metric teaspoon", "metric teaspoons")

# Source: the imperial gallon is 4.54609 litres (UK Weights and Measures Act 1985, Schedule 1).
IMPERIAL_GALLON = _volume(
    "imperial gallon", _IMPERIAL_GALLON_ML, "imperial gallons", "imp gal", "uk gallon", "uk gallons"
)
IMPERIAL_QUART = _volume(
    "imperial quart", _IMPERIAL_GALLON_ML / 4, "imperial quarts", "imp qt", "uk quart", "uk quarts"
)
IMPERIAL_PINT = _volume(
    "imperial pint", _IMPERIAL_GALLON_ML / 8, "imperial pints", "imp pt", "uk pint", "uk pints"
)
IMPERIAL_FL_OZ = _volume(
    "imperial fl oz", _IMPERIAL_GALLON_ML / 160, "imperial fluid ounce", "imperial fluid ounces", "imp fl oz",
    "uk fl oz",
)  # fmt: skip

EACH = Unit("each", Dimension.COUNT, Fraction(1), ("ea", "piece", "pieces", "pc", "pcs"))
DOZEN = Unit("dozen", Dimension.COUNT, Fraction(12), ("dozens", "doz", "dz"))

UNITS: tuple[Unit, ...] = (
    MG, G, KG, OZ, LB,
    ML, CL, DL, L, GALLON, QUART, PINT, CUP, FL_OZ, TBSP, TSP, DASH, PINCH, SMIDGEN,
    METRIC_CUP, METRIC_TBSP, METRIC_TSP, IMPERIAL_GALLON, IMPERIAL_QUART, IMPERIAL_PINT, IMPERIAL_FL_OZ,
    EACH, DOZEN,
)  # fmt: skip
"""Every unit the project knows."""


def fold_spelling(text: str) -> str:
    """Write a unit's spelling the one way it is looked up: single spaces, no full stops, small letters.

    Single letters `T` and `t` keep their case, since they name different spoons.
    """
    words = " ".join(text.replace(".", " ").split())
    return words if words in ("T", "t") else words.casefold()


def _spellings() -> dict[str, Unit]:
    found: dict[str, Unit] = {}
    for unit in UNITS:
        for spelling in (unit.name, *unit.aliases):
            folded = fold_spelling(spelling)
            if found.setdefault(folded, unit) is not unit:
                raise BadField(f"the spelling {spelling!r} names both {found[folded]} and {unit}")
    return found


SPELLINGS: dict[str, Unit] = _spellings()
"""Every folded spelling and the unit it names."""


def nearest_units(text: str) -> tuple[str, ...]:
    """Give the names of the units whose spelling comes nearest, closest first, at most three."""
    close = difflib.get_close_matches(fold_spelling(text)[:40], SPELLINGS, n=6, cutoff=0.6)
    return tuple(dict.fromkeys(SPELLINGS[spelling].name for spelling in close))[:3]


def look_up_unit(text: str) -> Unit | None:
    """Find the unit that a spelling names, or None: for readers that try one word after another."""
    return SPELLINGS.get(fold_spelling(text))


def find_unit(text: str) -> Unit:
    """Find the unit that a spelling names.

    Parameters
    ----------
    text
        A spelling such as `Tbsp.`, `fl. oz` or `litres`.

    Returns
    -------
    Unit
        The unit.

    Raises
    ------
    BadUnit
        If no unit is spelt so; the message names the nearest ones.
    """
    unit = look_up_unit(text)
    if unit is None:
        shown = text if len(text) <= 40 else text[:40] + "…"
        near = nearest_units(text)
        raise BadUnit(
            f"no unit is called {shown!r}; write {' or '.join(near)}"
            if near
            else f"no unit is called {shown!r}; write one such as g, kg, ml, l, oz, lb, cup, tbsp, tsp or each"
        )
    return unit
