"""`ladleworth check`: every fault and doubt of a kitchen folder, with file and line."""

from __future__ import annotations

from pathlib import Path

import click

from ladleworth.cli import options

FAULTY = 3


@click.command()
@options.kitchen_argument
@options.as_json
def check(kitchen: Path, *, as_json: bool) -> int:
    """List every fault and doubt of a kitchen folder.

    A kitchen file is checked in the same way. A fault stops everything; a doubt is shown and nothing more. Each has
    its file and line, and what to write instead. A note tells which version of a dish an eater with bounds on
    nutrients cannot have, since a figure of it is not known.
    """
    from ladleworth.cli.say import plural
    from ladleworth.errors import Weight
    from ladleworth.store import Store, is_kitchen_file, read_folder

    if is_kitchen_file(kitchen):
        with Store.open(kitchen) as store:
            reading = store.read()
    else:
        reading = read_folder(kitchen)
    faults = [finding for finding in reading.findings if finding.weight is Weight.FAULT]
    doubts = [finding for finding in reading.findings if finding.weight is Weight.DOUBT]
    from ladleworth.decide.pose import without_figures

    lacking = () if reading.kitchen is None else without_figures(reading.kitchen)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"kitchen": kitchen, "faults": faults, "doubts": doubts, "without_figures": lacking})
        return FAULTY if faults else 0
    for kind, findings in (("fault", faults), ("doubt", doubts)):
        for finding in findings:
            click.echo(f"{kind}  {finding.place}\n       {finding.what}\n       {finding.remedy}")
    for sentence in lacking:
        click.echo(f"note   {sentence}")
    summary = f"{plural(len(faults), 'fault')}, {plural(len(doubts), 'doubt')}"
    if reading.kitchen is None:
        click.echo(f"{summary}: nothing can be planned from {kitchen} yet")
        return FAULTY
    read = reading.kitchen
    click.echo(
        f"{summary}: {read.household.name}, {plural(len(read.dishes), 'dish', 'dishes')}, "
        f"{plural(len(read.ledger.holdings()), 'lot')} on hand, {plural(len(read.prices.offers), 'price')}"
    )
    return 0
