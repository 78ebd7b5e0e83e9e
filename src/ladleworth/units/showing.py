"""Numbers, masses and volumes written for a cook's eye; what is rounded says how."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from ladleworth.errors import BadField
from ladleworth.units.quantity import half_up
from ladleworth.units.table import CUP, GALLON, LB, OZ, QUART, TSP

System = Literal["metric", "us"]
Style = Literal["plain", "unicode", "decimal"]

_KITCHEN_PARTS = frozenset({2, 3, 4, 6, 8, 12, 16, 32})
_SIGNS = {
    Fraction(1, 2): "½", Fraction(1, 3): "⅓", Fraction(2, 3): "⅔", Fraction(1, 4): "¼", Fraction(3, 4): "¾",
    Fraction(1, 6): "⅙", Fraction(5, 6): "⅚", Fraction(1, 8): "⅛", Fraction(3, 8): "⅜", Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
}  # fmt: skip


def _decimal(number: Fraction, places: int) -> str:
    scaled = half_up(number * 10**places)
    while scaled == 0 and number > 0:
        places += 3
        scaled = half_up(number * 10**places)
    whole, rest = divmod(scaled, 10**places)
    return f"{whole}.{rest:0{places}d}".rstrip("0").rstrip(".") if places else str(whole)


def _mixed(number: Fraction, style: Style) -> str:
    whole, part = divmod(number, 1)
    if part == 0:
        return str(whole)
    if style == "unicode" and part in _SIGNS:
        return f"{whole or ''}{_SIGNS[part]}"
    fraction = f"{part.numerator}/{part.denominator}"
    return f"{whole} {fraction}" if whole else fraction


def show_number(number: Fraction | int, style: Style = "plain") -> str:
    """Write a number as a cook does: halves, thirds, quarters and their like, else decimals.

    Parameters
    ----------
    number
        Any exact number.
    style
        'plain' gives '1 1/2', 'unicode' '1½', 'decimal' '1.5'.

    Returns
    -------
    str
        Exact where the fraction is a kitchen one (halves to thirty-seconds) or fits three decimals;
        otherwise rounded half up to three decimals, and never to nothing if it is something.
    """
    exact = Fraction(number)
    if exact < 0:
        return "-" + show_number(-exact, style)
    if exact.denominator == 1 or (style != "decimal" and exact.denominator in _KITCHEN_PARTS):
        return _mixed(exact, style)
    return _decimal(exact, 3)


def show_count(number: Fraction | int, style: Style = "plain") -> str:
    """Write a count of pieces or batches, exact to any part up to ninety-ninths: '1 1/6', '7/12'."""
    exact = Fraction(number)
    if exact < 0:
        return "-" + show_count(-exact, style)
    if exact.denominator <= 99 and style != "decimal":
        return _mixed(exact, style)
    return show_number(exact, style)


def round_ounces(ounces: Fraction | int) -> Fraction:
    """Round ounces to a quarter the way the armed forces' recipe cards do.

    Parameters
    ----------
    ounces
        Ounces, not below zero.

    Returns
    -------
    Fraction
        Ounces; taken to hundredths, a fraction of .00-.12 falls, .13-.37 becomes 1/4, .38-.62 becomes 1/2,
        .63-.87 becomes 3/4 and .88-.99 becomes a whole ounce.

    Raises
    ------
    BadField
        If the ounces are below zero.

    Source
    ------
    US Armed Forces Recipe Service (TM 10-412), card A-1, general information: adjusting recipes.
    """
    exact = Fraction(ounces)
    if exact < 0:
        raise BadField(f"{exact} oz cannot be rounded; give 0 or more")
    whole, hundredths = divmod(half_up(exact * 100), 100)
    for ceiling, quarters in ((12, 0), (37, 1), (62, 2), (87, 3)):
        if hundredths <= ceiling:
            return whole + Fraction(quarters, 4)
    return Fraction(whole + 1)


def show_mass(mass_mg: Fraction | int, system: System = "metric", *, exact: bool = False) -> str:
    """Write a mass: metric in mg, g or kg; US in pounds and quarter ounces.

    Parameters
    ----------
    mass_mg
        Mass in mg.
    system
        'metric' or 'us'.
    exact
        Metric only: keep every milligram instead of rounding half up (tenths of a gram below 10 g,
        whole grams from there).

    Returns
    -------
    str
        '850 mg', '7.5 g', '250 g', '1.25 kg'; '3 1/4 oz', '4 lb 5 1/2 oz'. Ounces too few for a quarter
        are written with decimals, so that something is never shown as nothing.
    """
    amount = Fraction(mass_mg)
    if amount < 0:
        return "-" + show_mass(-amount, system, exact=exact)
    if system == "us":
        return _us_mass(amount)
    if amount == 0:
        return "0 g"
    if exact:
        for name, size in (("kg", 1_000_000), ("g", 1_000)):
            if amount >= size:
                return f"{_decimal(amount / size, 6)} {name}"
        return f"{_decimal(amount, 3)} mg"
    grams = amount / 1000
    if half_up(grams) >= 1000:
        return f"{_decimal(grams / 1000, 3)} kg"
    if half_up(grams * 10) >= 100:
        return f"{half_up(grams)} g"
    return f"{_decimal(grams, 1)} g" if half_up(amount) >= 1000 else f"{_decimal(amount, 0)} mg"


def _us_mass(amount_mg: Fraction) -> str:
    ounces = amount_mg / OZ.in_base
    rounded = round_ounces(ounces)
    if rounded == 0:
        return f"{_decimal(ounces, 2)} oz"
    pounds, rest = divmod(rounded, LB.in_base / OZ.in_base)
    parts = ([f"{pounds} lb"] if pounds else []) + ([f"{_mixed(rest, 'plain')} oz"] if rest else [])
    return " ".join(parts)


def show_volume(volume_ml: Fraction | int, system: System = "metric", *, exact: bool = False) -> str:
    """Write a volume: metric in ml or l; US in measures that a drawer holds.

    Parameters
    ----------
    volume_ml
        Volume in ml.
    system
        'metric' or 'us'.
    exact
        Metric only: keep six decimals instead of rounding half up (tenths of a ml below 10 ml, whole ml
        from there).

    Returns
    -------
    str
        '7.5 ml', '250 ml', '1.25 l'; '1/4 tsp', '1 cup 2 tbsp', '5 1/4 qt'. US volumes are rounded half up:
        eighths of a teaspoon below a tablespoon, whole teaspoons below a gallon, quarter quarts from there.
    """
    amount = Fraction(volume_ml)
    if amount < 0:
        return "-" + show_volume(-amount, system, exact=exact)
    if system == "us":
        return _us_volume(amount)
    if exact:
        return f"{_decimal(amount / 1000, 9)} l" if amount >= 1000 else f"{_decimal(amount, 6)} ml"
    if half_up(amount) >= 1000:
        return f"{_decimal(amount / 1000, 3)} l"
    return f"{half_up(amount)} ml" if half_up(amount * 10) >= 100 else f"{_decimal(amount, 1)} ml"


def _us_volume(amount_ml: Fraction) -> str:
    if amount_ml >= GALLON.in_base:
        return f"{_mixed(Fraction(half_up(amount_ml / QUART.in_base * 4), 4), 'plain')} qt"
    teaspoons = amount_ml / TSP.in_base
    eighths = half_up(teaspoons * 8)
    if eighths == 0:
        return f"{_decimal(teaspoons, 2)} tsp" if teaspoons else "0 tsp"
    if eighths < 24:
        return f"{_mixed(Fraction(eighths, 8), 'plain')} tsp"
    whole = half_up(teaspoons)
    per_cup = int(CUP.in_base / TSP.in_base)
    full, rest = divmod(whole, per_cup)
    part = next(size for size in (36, 32, 24, 16, 12, 0) if size <= rest)
    cups = full + Fraction(part, per_cup)
    spoons, left = divmod(rest - part, 3)
    parts = [f"{_mixed(cups, 'plain')} {'cups' if cups > 1 else 'cup'}"] if cups else []
    parts += [f"{spoons} tbsp"] if spoons else []
    parts += [f"{left} tsp"] if left else []
    return " ".join(parts)
