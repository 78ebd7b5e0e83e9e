"""`ladleworth load` and `dump`: a kitchen folder into a file, and back."""

from __future__ import annotations

from pathlib import Path

import click

from ladleworth.cli import options


@click.command()
@click.argument("folder", type=options.PLACE)
@options.file_argument
@click.option(
    "--papers",
    is_flag=True,
    help="Take household, dishes and foods anew; the file keeps its ledger, prices and plans.",
)
@options.as_json
def load(folder: Path, file: Path, *, papers: bool, as_json: bool) -> None:
    """Load a kitchen folder into a new kitchen file.

    Nothing is written if the folder has a fault, or if the file holds a kitchen already (but for --papers).
    """
    from ladleworth.cli import say
    from ladleworth.week import load_folder

    reading = load_folder(folder, file, papers_only=papers)
    kitchen = reading.without_faults()
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "folder": folder,
                "file": file,
                "kitchen": kitchen.household.name,
                "papers": [paper.path for paper in reading.papers],
                "doubts": reading.findings,
            }
        )
        return
    for doubt in reading.findings:
        say.warn(f"doubt  {doubt}")
    if papers:
        click.echo(
            f"{file} goes by the household, dishes and foods of {folder} now; its stock, prices and plans are kept."
        )
        return
    click.echo(f"{kitchen.household.name} is in {file} now ({say.plural(len(reading.papers), 'paper')}).")
    click.echo(f"Next: ladleworth decide {file} --accept")


@click.command()
@options.file_argument
@click.argument("folder", type=options.PLACE)
@options.as_json
def dump(file: Path, folder: Path, *, as_json: bool) -> None:
    """Write a kitchen file out as a folder.

    The folder is there whole or not at all; it must not exist yet, or be empty.
    """
    from ladleworth.week import dump_file

    kitchen = dump_file(file, folder)
    written = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"file": file, "folder": folder, "kitchen": kitchen.household.name, "papers": written})
        return
    click.echo(f"{kitchen.household.name} is in {folder} now: {', '.join(written)}")
