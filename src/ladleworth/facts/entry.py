"""Showing an entry of the food table: every figure with its source and how it was come by."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.facts.records import Figure
from ladleworth.facts.table import FoodTable


@dataclass(frozen=True, slots=True)
class EntryRow:
    """One line about a food: what it tells (`about`, `detail`), the `value` in words, and where from.

    `source` and `basis` are empty only for what needs none (name, aisle, how it is counted) and for what
    nobody has, whose value is 'not known'.
    """

    about: str
    detail: str
    value: str
    source: str = ""
    basis: str = ""
    note: str = ""


def show_number(value: Fraction, decimals: int = 4) -> str:
    """Write a number in plain decimals, rounded half to even, without trailing zeros: 110, 0.6763."""
    text = f"{float(round(value, decimals)):.{decimals}f}"
    return text.rstrip("0").rstrip(".")


def _title(table: FoodTable, source_id: str) -> str:
    source = table.source(source_id)
    return f"{source.title}, {source.edition}" if source.edition else source.title


def _row(table: FoodTable, about: str, detail: str, figure: Figure) -> EntryRow:
    return EntryRow(
        about,
        detail,
        f"{show_number(figure.value)} {figure.unit}".removesuffix(" share"),
        _title(table, figure.source),
        figure.basis,
        figure.note,
    )


def _days(least: int | None, most: int) -> str:
    if least is None:
        return f"at most {most} days"
    return f"{most} days" if least == most else f"{least} to {most} days"


def _name_rows(table: FoodTable, food_id: str) -> list[EntryRow]:
    food = table.get(food_id)
    return [
        EntryRow("name", "", food.name),
        EntryRow("also called", "", ", ".join(food.aliases) or "–"),
        EntryRow("aisle", "", food.aisle),
        EntryRow("counted", "", f"by {food.measured_in.value}"),
    ]


def _figure_rows(table: FoodTable, food_id: str) -> list[EntryRow]:
    entry = table.entry(food_id)
    rows = []
    if entry.composition is None:
        rows.append(EntryRow("composition", "", "not known"))
    else:
        rows += [
            _row(table, "in 100 g", name, entry.composition.get(name)) for name in entry.composition.known
        ]
    if entry.edible is None:
        rows.append(EntryRow("edible share", "", "not known"))
    else:
        rows.append(_row(table, "edible share", "of the weight as bought", entry.edible))
    rows += [
        _row(table, "one piece", f"{piece.size} ({piece.weight_is.value})", piece.weight)
        for piece in entry.pieces
    ]
    rows += [_row(table, "density", density.form, density.weight) for density in entry.densities]
    return rows


def _practice_rows(table: FoodTable, food_id: str) -> list[EntryRow]:
    entry = table.entry(food_id)
    rows = [
        EntryRow(
            "keeps",
            f"{keeping.place}, {keeping.state}",
            _days(keeping.least_days, keeping.most_days),
            _title(table, keeping.source),
            keeping.basis,
            keeping.note,
        )
        for keeping in entry.keeping
    ]
    if (freezing := entry.freezing) is not None:
        value = "; ".join(filter(None, (freezing.freezes.value, freezing.goes_wrong, freezing.remedy)))
        rows.append(
            EntryRow("freezes", freezing.frozen_as, value, _title(table, freezing.source), freezing.basis)
        )
    rows += [
        EntryRow(
            "yield",
            f"{cooked.method}, from {cooked.before}",
            f"{show_number(cooked.yield_pct)} %",
            _title(table, cooked.source),
            cooked.basis,
            cooked.note,
        )
        for cooked in entry.yields
    ]
    rows += [
        EntryRow("allergen", flag.allergen, flag.why, _title(table, flag.source), flag.basis)
        for flag in entry.allergens
    ]
    if entry.read_label:
        rows.append(EntryRow("allergen", "", "read the label: products of this kind often hide allergens"))
    return rows


def describe(table: FoodTable, food_id: str) -> tuple[EntryRow, ...]:
    """List all that the table knows of a food, each figure with the title of its source and its basis.

    Parameters
    ----------
    table
        The food table, with the kitchen's own foods or without.
    food_id
        The food's id.

    Returns
    -------
    tuple of EntryRow
        Name rows first, then composition, edible share, pieces, densities, keeping, freezing, yields and
        allergens. Composition and edible share that nobody has are listed as 'not known'.

    Raises
    ------
    UnknownFood
        If there is no such food.
    """
    return (
        *_name_rows(table, food_id),
        *_figure_rows(table, food_id),
        *_practice_rows(table, food_id),
    )
