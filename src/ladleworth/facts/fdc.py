"""Taking foods from a FoodData Central download, the folder of CSV files.

The layout of the folder (file and column names) and the nutrient numbers are from memory: files food.csv
(fdc_id, data_type, description), nutrient.csv (id, unit_name, nutrient_nbr), food_nutrient.csv (fdc_id,
nutrient_id, amount), and for piece weights food_portion.csv (fdc_id, amount, measure_unit_id,
portion_description, modifier, gram_weight) with measure_unit.csv (id, name). Where a file or a column is
called otherwise, reading stops and says which. Amounts are taken as per 100 g.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from ladleworth.errors import FaultyKitchen, Finding, Place, UnknownFood
from ladleworth.facts.own import OwnFood
from ladleworth.facts.records import NUTRIENTS, Composition, Figure, Food, Measure, PieceWeight, WeightIs

NUMBERS = {
    "208": "energy_kcal",
    "203": "protein_g",
    "204": "fat_g",
    "606": "saturated_fat_g",
    "205": "carbohydrate_g",
    "291": "fibre_g",
    "269": "sugars_g",
    "307": "sodium_mg",
    "306": "potassium_mg",
    "301": "calcium_mg",
    "303": "iron_mg",
    "320": "vitamin_a_rae_ug",
    "401": "vitamin_c_mg",
    "328": "vitamin_d_ug",
    "418": "vitamin_b12_ug",
    "435": "folate_dfe_ug",
    "958": "energy_kcal",
    "957": "energy_kcal",
}
"""Nutrient numbers of the national nutrient database, by which nutrient.csv names a nutrient (memory).

Energy is 208; where a food lacks it, energy by specific factors (958), then by general ones (957).
"""

_ENERGY = ("208", "958", "957")

_UNITS = {"kcal": "kcal", "g": "g", "mg": "mg", "ug": "µg", "µg": "µg"}
_COLUMNS = {
    "food": ("fdc_id", "description"),
    "nutrient": ("id", "unit_name", "nutrient_nbr"),
    "food_nutrient": ("fdc_id", "nutrient_id", "amount"),
    "food_portion": ("fdc_id", "amount", "measure_unit_id", "modifier", "gram_weight"),
    "measure_unit": ("id", "name"),
}
_NO_UNIT = ("undetermined", "racc", "")


@dataclass(frozen=True, slots=True)
class FdcMatch:
    """A food of the download: its number there and its description."""

    fdc_id: str
    description: str


def _rows(folder: Path, name: str) -> Iterator[dict[str, str]]:
    with (folder / f"{name}.csv").open(encoding="utf-8-sig", newline="") as table:
        yield from csv.DictReader(table)


def check_folder(folder: Path) -> None:
    """Check that a folder holds the five files with the columns that are read.

    Raises
    ------
    FaultyKitchen
        With a finding for every file that is missing and every column that a file lacks.
    """
    findings = []
    for name, columns in _COLUMNS.items():
        path = folder / f"{name}.csv"
        if not path.is_file():
            findings.append(
                Finding(Place(str(path)), "the file is missing", "give the unpacked CSV download's folder")
            )
            continue
        with path.open(encoding="utf-8-sig", newline="") as table:
            header = next(csv.reader(table), [])
        findings += [
            Finding(Place(str(path), 1), f"there is no column {column!r}", "use an unchanged download")
            for column in columns
            if column not in header
        ]
    if findings:
        raise FaultyKitchen(findings)


def search_foods(folder: Path, words: str, limit: int = 20) -> tuple[FdcMatch, ...]:
    """Find foods of the download whose description has all the words, in the download's order.

    Parameters
    ----------
    folder
        The unpacked download.
    words
        Words parted by spaces; each must stand in the description, whatever its case.
    limit
        At most so many.
    """
    check_folder(folder)
    wanted = words.casefold().split()
    found = []
    for row in _rows(folder, "food"):
        description = row["description"].casefold()
        if all(word in description for word in wanted):
            found.append(FdcMatch(row["fdc_id"], row["description"]))
            if len(found) == limit:
                break
    return tuple(found)


def _nutrient_ids(folder: Path) -> dict[str, str]:
    """Map the download's nutrient ids to nutrient numbers, where number and unit agree with ours."""
    found = {}
    for row in _rows(folder, "nutrient"):
        number = (
            row["nutrient_nbr"].partition(".")[0]
            if row["nutrient_nbr"].endswith(".0")
            else row["nutrient_nbr"]
        )
        name = NUMBERS.get(number)
        if name is not None and _UNITS.get(row["unit_name"].casefold()) == NUTRIENTS[name]:
            found[row["id"]] = number
    return found


def _portion_name(row: dict[str, str], units: dict[str, str]) -> str:
    unit = units.get(row["measure_unit_id"], "")
    words = [
        "" if unit.casefold() in _NO_UNIT else unit,
        row["modifier"],
        row.get("portion_description") or "",
    ]
    return ", ".join(word.strip() for word in words if word.strip())


def _number(text: str, place: Place, faults: list[Finding]) -> Fraction | None:
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        faults.append(Finding(place, f"{text!r} is no number", "use an unchanged download"))
        return None


def _amounts(folder: Path, wanted: tuple[str, ...], faults: list[Finding]) -> dict[str, dict[str, Fraction]]:
    """Read what 100 g of each wanted food holds, by nutrient."""
    numbers = _nutrient_ids(folder)
    read: dict[str, dict[str, Fraction]] = {fdc_id: {} for fdc_id in wanted}
    for line, row in enumerate(_rows(folder, "food_nutrient"), start=2):
        if row["fdc_id"] in read and row["nutrient_id"] in numbers and row["amount"]:
            place = Place(str(folder / "food_nutrient.csv"), line, "amount")
            if (amount := _number(row["amount"], place, faults)) is not None:
                read[row["fdc_id"]][numbers[row["nutrient_id"]]] = amount
    for held in read.values():
        energies = [held.pop(number) for number in _ENERGY if number in held]
        if energies:
            held[_ENERGY[0]] = energies[0]
    return {
        fdc_id: {NUMBERS[number]: amount for number, amount in held.items()} for fdc_id, held in read.items()
    }


def _pieces(
    folder: Path, wanted: tuple[str, ...], faults: list[Finding]
) -> dict[str, dict[str, PieceWeight]]:
    """Read the piece weights of each wanted food, by the portion's name."""
    units = {row["id"]: row["name"] for row in _rows(folder, "measure_unit")}
    found: dict[str, dict[str, PieceWeight]] = {fdc_id: {} for fdc_id in wanted}
    for line, row in enumerate(_rows(folder, "food_portion"), start=2):
        name = _portion_name(row, units) if row["fdc_id"] in found and row["gram_weight"] else ""
        if not name:
            continue
        place = Place(str(folder / "food_portion.csv"), line, "gram_weight or amount")
        count = _number(row["amount"] or "1", place, faults)
        grams = _number(row["gram_weight"], place, faults)
        if count is not None and grams is not None and count > 0 and grams > 0:
            weight = Figure(grams / count, "g", "fdc", "read", f"{row['amount'] or 1} × {name}")
            found[row["fdc_id"]].setdefault(name, PieceWeight(name, weight, WeightIs.EDIBLE))
    return found


def _own_id(description: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", description.casefold()).strip("-") or "food"


def import_foods(folder: Path, fdc_ids: Iterable[str]) -> tuple[OwnFood, ...]:
    """Take foods from a FoodData Central download as the kitchen's own.

    The big files are read once, row by row; nothing but the foods asked for is kept.

    Parameters
    ----------
    folder
        The unpacked download.
    fdc_ids
        Numbers of foods, see `search_foods`.

    Returns
    -------
    tuple of OwnFood
        In the order asked for: composition in 100 g (a nutrient without a row is absent) and piece
        weights in g, source 'fdc', the food's number as the key. Allergens stay unsaid.

    Raises
    ------
    FaultyKitchen
        If files or columns are missing, or a figure is no number: all at once.
    UnknownFood
        If the download has no food of a number.
    """
    check_folder(folder)
    wanted = tuple(dict.fromkeys(fdc_ids))
    described = {
        row["fdc_id"]: row["description"] for row in _rows(folder, "food") if row["fdc_id"] in wanted
    }
    for fdc_id in wanted:
        if fdc_id not in described:
            raise UnknownFood(f"FoodData Central {fdc_id}")
    faults: list[Finding] = []
    amounts = _amounts(folder, wanted, faults)
    pieces = _pieces(folder, wanted, faults)
    if faults:
        raise FaultyKitchen(faults)
    made = []
    for fdc_id in wanted:
        own_id = f"{_own_id(described[fdc_id])}-{fdc_id}"
        held = tuple((name, amounts[fdc_id][name]) for name in NUTRIENTS if name in amounts[fdc_id])
        made.append(
            OwnFood(
                Food(own_id, described[fdc_id], (), "own", Measure.MASS, own=True),
                Composition(own_id, held, "fdc", "read", fdc_id) if held else None,
                pieces=tuple(pieces[fdc_id].values()),
            )
        )
    return tuple(made)
