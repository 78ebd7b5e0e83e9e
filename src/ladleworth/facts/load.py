"""Reading the tables that come with the package (docs/facts.md lists files and columns)."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from fractions import Fraction
from importlib.resources import files

from ladleworth.facts.records import (
    NUTRIENTS,
    AllergenFlag,
    Composition,
    CookingYield,
    Density,
    Figure,
    Food,
    FreezesHow,
    Freezing,
    Keeping,
    Measure,
    PieceWeight,
    Source,
    WeightIs,
)


def read_rows(name: str) -> Iterator[dict[str, str]]:
    """Read a table of the package row by row.

    Parameters
    ----------
    name
        The table's file name without its ending, 'foods' say.

    Yields
    ------
    dict
        One row: column name to text; an absent figure is the empty text.
    """
    text = (files("ladleworth.facts") / "data" / f"{name}.csv").read_text(encoding="utf-8")
    yield from csv.DictReader(text.splitlines())


def read_sources() -> dict[str, Source]:
    """Read every source by its id."""
    return {row["id"]: Source(**row) for row in read_rows("sources")}


def read_foods() -> tuple[tuple[Food, str, bool], ...]:
    """Read every food with its keeping class ('' for none) and whether its label must be read."""
    return tuple(
        (
            Food(
                row["id"],
                row["name"],
                tuple(filter(None, row["aliases"].split(";"))),
                row["aisle"],
                Measure(row["measured_in"]),
            ),
            row["keeps_as"],
            row["read_label"] == "yes",
        )
        for row in read_rows("foods")
    )


def read_compositions() -> dict[str, Composition]:
    """Read what 100 g of each food holds, by food."""
    return {
        row["food"]: Composition(
            row["food"],
            tuple((name, Fraction(row[name])) for name in NUTRIENTS if row[name]),
            row["source"],
            row["basis"],
            row["source_key"],
        )
        for row in read_rows("composition")
    }


def _figure(row: dict[str, str], column: str, unit: str) -> Figure:
    return Figure(Fraction(row[column]), unit, row["source"], row["basis"], row["note"])


def read_edible() -> dict[str, Figure]:
    """Read the share of each food as bought that is eaten, by food."""
    return {row["food"]: _figure(row, "fraction", "share") for row in read_rows("edible")}


def read_pieces() -> dict[str, tuple[PieceWeight, ...]]:
    """Read piece weights by food, the usual size first."""
    found: dict[str, list[PieceWeight]] = {}
    for row in read_rows("pieces"):
        piece = PieceWeight(row["size"], _figure(row, "grams", "g"), WeightIs(row["weight_is"]))
        found.setdefault(row["food"], []).append(piece)
    return {food: tuple(pieces) for food, pieces in found.items()}


def read_densities() -> dict[str, tuple[Density, ...]]:
    """Read densities by food, the usual form first."""
    found: dict[str, list[Density]] = {}
    for row in read_rows("densities"):
        found.setdefault(row["food"], []).append(Density(row["form"], _figure(row, "g_per_ml", "g/ml")))
    return {food: tuple(densities) for food, densities in found.items()}


def read_keeping() -> tuple[dict[str, tuple[Keeping, ...]], dict[str, tuple[Keeping, ...]]]:
    """Read keeping times: those of single foods, and those of keeping classes."""
    found: dict[str, dict[str, list[Keeping]]] = {"food": {}, "class": {}}
    for row in read_rows("keeping"):
        keeping = Keeping(
            row["place"],
            row["state"],
            int(row["least_days"]) if row["least_days"] else None,
            int(row["most_days"]),
            row["source"],
            row["basis"],
            row["note"],
        )
        found[row["keyed_by"]].setdefault(row["key"], []).append(keeping)
    foods, classes = ({key: tuple(rows) for key, rows in found[by].items()} for by in ("food", "class"))
    return foods, classes


def read_freezing() -> dict[str, Freezing]:
    """Read how each food takes freezing, by food."""
    return {
        row["food"]: Freezing(
            FreezesHow(row["freezes"]),
            row["frozen_as"],
            row["goes_wrong"],
            row["remedy"],
            row["source"],
            row["basis"],
        )
        for row in read_rows("freezing")
    }


def read_allergens() -> dict[str, tuple[AllergenFlag, ...]]:
    """Read allergen flags by food."""
    found: dict[str, list[AllergenFlag]] = {}
    for row in read_rows("allergens"):
        food = row.pop("food")
        found.setdefault(food, []).append(AllergenFlag(**row))
    return {food: tuple(flags) for food, flags in found.items()}


def _share(text: str) -> Fraction | None:
    return Fraction(text) if text else None


def read_yields() -> dict[str, tuple[CookingYield, ...]]:
    """Read cooking yields by food."""
    found: dict[str, list[CookingYield]] = {}
    for row in read_rows("yields"):
        cooked = CookingYield(
            row["method"],
            row["before"],
            Fraction(row["yield_pct"]),
            row["source"],
            row["basis"],
            _share(row["moisture_change_pct"]),
            _share(row["fat_change_pct"]),
            _share(row["least_pct"]),
            _share(row["most_pct"]),
            int(row["samples"]) if row["samples"] else None,
            row["note"],
        )
        found.setdefault(row["food"], []).append(cooked)
    return {food: tuple(yields) for food, yields in found.items()}
