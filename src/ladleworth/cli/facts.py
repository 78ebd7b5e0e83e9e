"""`ladleworth facts`: what is known of a food, every figure with its source and how it was come by."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ladleworth.facts import FoodTable
    from ladleworth.facts.entry import EntryRow

MOST_FOUND, MOST_NEAR = 40, 6


@click.command()
@click.argument("names", nargs=-1, metavar="[NAME]...")
@click.option("--search", metavar="TEXT", help="List the foods whose names are most like TEXT.")
@click.option("--kitchen", type=options.PLACE, help="Take a kitchen's own foods in.")
@click.option(
    "--import-fdc",
    "fdc",
    type=options.PLACE,
    metavar="FOLDER",
    help="Take foods from an unpacked FoodData Central CSV download, with --search or --select.",
)
@click.option("--select", multiple=True, metavar="NUMBER", help="With --import-fdc: a food's number there.")
@options.as_json
def facts(
    names: tuple[str, ...],
    search: str | None,
    kitchen: Path | None,
    fdc: Path | None,
    select: tuple[str, ...],
    *,
    as_json: bool,
) -> None:
    """Show what is known of foods, with sources.

    A food that is not known ends with the three nearest names and exit code 4. With --import-fdc, --search lists
    the download's foods with their numbers, and --select prints the chosen ones as text for foods.yaml. A
    packet's label needs no command: write it in foods.yaml under `label`.
    """
    if select and fdc is None:
        raise click.UsageError("--select chooses foods of a download; name it with --import-fdc FOLDER")
    if fdc is not None:
        if names or not (search or select):
            raise click.UsageError(
                "--import-fdc goes with --search TEXT or --select NUMBER, and without a NAME"
            )
        _download(fdc, search, select, as_json=as_json)
        return
    if bool(names) == (search is not None):
        raise click.UsageError("name at least one food, or --search TEXT")
    foods = _table(kitchen)
    if search is not None:
        _list(foods, search, as_json=as_json)
        return
    from ladleworth.facts.entry import describe

    entries = [(food, describe(foods, food.id)) for food in map(foods.find, names)]
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"foods": [{"id": food.id, "name": food.name, "rows": rows} for food, rows in entries]})
        return
    for _, rows in entries:
        _show(rows)


def _table(kitchen: Path | None) -> FoodTable:
    from ladleworth.facts import food_table

    if kitchen is None:
        return food_table()
    from ladleworth.week import open_kitchen

    return open_kitchen(kitchen).foods


def _list(foods: FoodTable, text: str, *, as_json: bool) -> None:
    """List foods that have all the words in a name, then those with the likest names."""
    wanted = text.casefold().split()
    having = [
        food
        for food in foods
        if all(word in " ".join((food.name, *food.aliases)).casefold() for word in wanted)
    ]
    near = [foods.find(name) for name in foods.nearest(text, MOST_NEAR)]
    found = list(dict.fromkeys([*having, *near]))[:MOST_FOUND]
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"search": text, "foods": found})
        return
    from ladleworth.cli import say

    rows = [(food.name, food.id, food.aisle, "yes" if food.own else "") for food in found]
    say.table(("food", "id", "aisle", "own"), rows)


def _show(rows: Iterable[EntryRow]) -> None:
    """Show one food; sources are numbered and listed below."""
    from ladleworth.cli import say

    listed = list(rows)
    sources = list(dict.fromkeys(row.source for row in listed if row.source))
    say.heading(listed[0].value)
    cells = []
    about = ""
    for row in listed[1:]:
        label = (
            f"{row.about}{f': {row.detail}' if row.detail else ''}"
            if row.about != about
            else f"  {row.detail}"
        )
        about = row.about
        note = f"\n  {row.note}" if row.note else ""
        number = f"[{sources.index(row.source) + 1}]" if row.source else ""
        cells.append((f"{label}{note}", row.value, row.basis, number))
    say.table(("", "", "basis", "source"), cells)
    for at, source in enumerate(sources, 1):
        say.sentence(f"[{at}] {source}")


def _download(folder: Path, search: str | None, select: tuple[str, ...], *, as_json: bool) -> None:
    from ladleworth.cli.foods_yaml import foods_yaml
    from ladleworth.cli.json_out import write_json
    from ladleworth.facts.fdc import import_foods, search_foods

    if select:
        text = foods_yaml(import_foods(folder, select))
        if as_json:
            write_json({"folder": folder, "selected": select, "foods_yaml": text})
        else:
            click.echo(text, nl=False)
        return
    found = search_foods(folder, search or "")
    if as_json:
        write_json({"folder": folder, "search": search, "found": found})
        return
    for match in found:
        click.echo(f"{match.fdc_id:>9}  {match.description}")
    if not found:
        click.echo(f"no food of the download has all of {search!r} in its description")
