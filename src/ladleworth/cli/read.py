"""`ladleworth read`: a recipe from plain text, JSON-LD or a page, as a dish of our own."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.dish.written import WrittenDish
    from ladleworth.facts import FoodTable

MOST_BYTES = 20_000_000


@click.command()
@click.argument("file", type=options.PLACE)
@click.option("--kitchen", type=options.PLACE, help="Take a kitchen's own foods in.")
@options.as_json
def read(file: Path, kitchen: Path | None, *, as_json: bool) -> None:
    """Read a recipe and print it as a dish of ours.

    FILE is plain text, JSON-LD, or an HTML page that carries JSON-LD; `-` reads what is piped in. Prints text
    for dishes.yaml; what has to be reviewed stands above each dish as comments.
    """
    from ladleworth.errors import BadField
    from ladleworth.facts import food_table

    text = _text(file)
    foods: FoodTable = food_table()
    if kitchen is not None:
        from ladleworth.week import open_kitchen

        foods = open_kitchen(kitchen).foods
    recipes, faults = _recipes(text)
    if not any(dish for dish, _ in recipes):
        told = "; ".join([*faults, *(note for _, notes in recipes for note in notes)][:3]) or "it is empty"
        raise BadField(f"no recipe can be read from {file}: {told}")
    written = [(dish, [*notes, *_doubts(dish, foods)]) for dish, notes in recipes if dish is not None]
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "file": file,
                "unread": faults,
                "dishes": [
                    {"dish": dish.name, "yaml": _yaml(dish), "review": notes} for dish, notes in written
                ],
            }
        )
        return
    for fault in faults:
        click.echo(f"# not read: {fault}")
    for dish, notes in written:
        for note in notes:
            click.echo(f"# review: {' '.join(note.split())}")
        click.echo(_yaml(dish), nl=False)


def _text(file: Path) -> str:
    from ladleworth.errors import BadField

    if str(file) == "-":
        data = sys.stdin.buffer.read(MOST_BYTES + 1)
    else:
        with file.open("rb") as handle:
            data = handle.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise BadField(f"{file} has more than {MOST_BYTES // 1_000_000} MB; take the recipe out of it")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise BadField(
            f"{file}:{line}: byte {data[error.start]:#04x} is no UTF-8; save the file as UTF-8"
        ) from error


def _recipes(text: str) -> tuple[list[tuple[WrittenDish | None, list[str]]], list[str]]:
    """Read every recipe of a text with what could not be read of it; and what is wrong with the text as a whole."""
    from ladleworth.dish.jsonld import read_jsonld
    from ladleworth.dish.plain_text import read_plain_text

    start = text.lstrip()
    if start[:1] in ("{", "[") or start[:1] == "<":
        imported, unread = read_jsonld(text)
        recipes = []
        for one in imported:
            notes = [str(fault) for fault in one.unread]
            if one.not_kept:
                notes.append(f"not kept: {', '.join(one.not_kept)}")
            recipes.append((one.dish, notes))
        return recipes, [str(fault) for fault in unread]
    dish, unread = read_plain_text(text)
    return [(dish, [str(fault) for fault in unread])], []


def _doubts(dish: WrittenDish, foods: FoodTable) -> list[str]:
    """List what the food table makes of a dish's lines: unknown foods, amounts that cannot be worked out."""
    from ladleworth.dish.resolve import resolve

    _, findings = resolve(dish, foods)
    return [f"{finding.place.item or dish.name}: {finding.what}; {finding.remedy}" for finding in findings]


def _yaml(dish: WrittenDish) -> str:
    """Write a dish as an entry of a list of dishes."""
    import io

    from ruamel.yaml import YAML

    from ladleworth.dish.mapping import to_mapping

    yaml = YAML()
    yaml.default_flow_style = False
    yaml.width = 100
    yaml.indent(mapping=2, sequence=4, offset=2)
    out = io.StringIO()
    yaml.dump([_numbers(to_mapping(dish))], out)
    lines = out.getvalue().splitlines()
    return "\n".join(line.removeprefix("  ") for line in lines) + "\n"


def _numbers(tree: object) -> object:
    """Write whole numbers without quotes."""
    if isinstance(tree, dict):
        return {key: _numbers(value) for key, value in tree.items()}
    if isinstance(tree, list):
        return [_numbers(value) for value in tree]
    if isinstance(tree, str) and tree.isascii() and tree.isdigit() and str(int(tree)) == tree:
        return int(tree)
    return tree
