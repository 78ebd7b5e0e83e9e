"""Acts on one lot of a kitchen file: count, move, open, throw, give, undo; and the entries so far."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.household import Kitchen
    from ladleworth.ledger import Entered, Movement

CAUSES = ("past-date", "spoiled", "spilt", "burnt", "not-liked", "left-on-plate", "power-cut", "not-known")
SPOTS = ("fridge", "freezer", "cupboard")

lot_argument = click.argument("lot")
part_option = click.option("--part", metavar="AMOUNT", help="Only so much of it, such as 200 g or 2.")


@click.command(
    context_settings={"ignore_unknown_options": True}
)  # so that -3 is an amount, and refused as one
@options.file_argument
@lot_argument
@click.argument("amount")
@click.option("--why", required=True, metavar="TEXT", help="How the count came to differ.")
@options.today
@options.as_json
def count(file: Path, lot: str, amount: str, why: str, today: date, *, as_json: bool) -> None:
    """Enter what a count of a lot found.

    Less than the ledger has is written off as lost; more comes in at no cost.
    """
    from ladleworth.week import count_lot

    tell(file, count_lot(file, lot, amount, today=today, why=why), as_json=as_json)


@click.command()
@options.file_argument
@lot_argument
@click.argument("place", type=click.Choice(SPOTS))
@click.option("--use-by", type=options.DAY, help="Its last day there.")
@part_option
@options.today
@options.as_json
def move(
    file: Path, lot: str, place: str, use_by: date | None, part: str | None, today: date, *, as_json: bool
) -> None:
    """Put a lot in the fridge, freezer or cupboard.

    Into the freezer, the last day is the published greatest freezer time (for portions, the dish's). Days spent
    in the fridge stay spent: back in the fridge, a lot has the days that it had left when it was frozen. Where
    nobody knows the time, --use-by is needed.
    """
    from ladleworth.ledger import Spot
    from ladleworth.week import move_lot

    entered = move_lot(file, lot, Spot(place), today=today, use_by=use_by, part=part)
    tell(file, entered, as_json=as_json)


@click.command(name="open")
@options.file_argument
@lot_argument
@part_option
@options.today
@options.as_json
def open_(file: Path, lot: str, part: str | None, today: date, *, as_json: bool) -> None:
    """Open a lot's package.

    Where a time once opened is published for the food, the last day comes forward to it. With --part, only the
    package that holds so much is opened, and becomes a lot of its own.
    """
    from ladleworth.week import open_lot

    tell(file, open_lot(file, lot, today=today, part=part), as_json=as_json)


@click.command()
@options.file_argument
@lot_argument
@click.option("--why", type=click.Choice(CAUSES), required=True, help="The cause.")
@click.option("--note", default="", metavar="TEXT", help="Anything worth keeping with it.")
@part_option
@options.today
@options.as_json
def throw(file: Path, lot: str, why: str, note: str, part: str | None, today: date, *, as_json: bool) -> None:
    """Enter that a lot was thrown out, and why."""
    from ladleworth.ledger import Cause
    from ladleworth.week import throw_lot

    cause = Cause[why.replace("-", "_").upper()]
    tell(file, throw_lot(file, lot, cause, today=today, part=part, note=note), as_json=as_json)


@click.command()
@options.file_argument
@lot_argument
@click.option("--to", "who", default="", metavar="WHO", help="Who was given it.")
@part_option
@options.today
@options.as_json
def give(file: Path, lot: str, who: str, part: str | None, today: date, *, as_json: bool) -> None:
    """Enter that a lot was given away."""
    from ladleworth.week import give_lot

    tell(file, give_lot(file, lot, today=today, part=part, who=who), as_json=as_json)


@click.command()
@options.file_argument
@click.argument("number", type=click.IntRange(min=1))
@click.option("--note", default="", metavar="TEXT", help="Why it is taken back.")
@options.today
@options.as_json
def undo(file: Path, number: int, note: str, today: date, *, as_json: bool) -> None:
    """Take an entry back by its number.

    Nothing is removed: the exact opposite is entered. Entries that only make sense together go together. The
    numbers stand in `ladleworth history`.
    """
    from ladleworth.week import undo_entry

    tell(file, undo_entry(file, number, today=today, note=note), as_json=as_json)


@click.command()
@options.kitchen_argument
@click.option("--lot", help="Only the entries of this lot.")
@options.as_json
def history(kitchen: Path, lot: str | None, *, as_json: bool) -> None:
    """List the ledger's entries.

    Every entry with its number, the latest last. What was taken back says so.
    """
    from ladleworth.week import open_kitchen
    from ladleworth.week.finding import find_lot

    found = open_kitchen(kitchen)
    if lot is not None:
        lot = find_lot(found, lot)
    entries = [entry for entry in found.ledger.movements if lot in (None, entry.lot)]
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"kitchen": found.household.name, "lot": lot, "movements": entries})
        return
    _show(found, entries)


def _show(kitchen: Kitchen, entries: list[Movement]) -> None:
    """Show entries as a table."""
    from ladleworth.cli import say

    rows = [
        (
            str(entry.id),
            entry.day.isoformat(),
            f"{entry.kind.value}{_aside(kitchen, entry)}",
            entry.lot,
            "" if not entry.quantity else _signed(kitchen, entry),
            say.cents_text(entry.cents, kitchen) if entry.cents else "",
        )
        for entry in entries
    ]
    say.table(("no.", "day", "what", "lot", "amount", "worth"), rows, right=(0, 4, 5))


def _signed(kitchen: Kitchen, entry: Movement) -> str:
    from ladleworth.cli import say

    amount = say.amount_text(entry.quantity, kitchen.ledger.holding(entry.lot).lot.unit)
    return f"+{amount}" if entry.quantity > 0 else amount


def _aside(kitchen: Kitchen, entry: Movement) -> str:
    """Say what else an entry tells: its cause, where it was moved, who, why, and whether it was taken back."""
    from ladleworth.cli import say

    taken_back = kitchen.ledger.reversal_of(entry.id)
    told = [
        "" if entry.reverses is None else f"takes back no. {entry.reverses}",
        "" if taken_back is None else f"taken back by no. {taken_back}",
        "" if entry.cause is None else entry.cause.value,
        "" if entry.after is None else entry.after.spot.value,
        "" if entry.after is None or entry.after.opened_on is None else "opened",
        "" if entry.after is None or entry.after.use_by is None else f"until {entry.after.use_by}",
        "" if entry.batch is None else f"for {say.food_name(kitchen, entry.batch)}",
        entry.who,
        entry.note,
    ]
    said = ", ".join(part for part in told if part)
    return f"\n  {said}" if said else ""


def tell(file: Path, entered: Entered, *, as_json: bool) -> None:
    """Show what an act entered, and how the lots stand now."""
    from ladleworth.cli.onhand import as_record
    from ladleworth.week import open_kitchen

    touched = list(dict.fromkeys(entry.lot for entry in entered.movements))
    held = [entered.ledger.holding(lot) for lot in touched]
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "file": file,
                "movements": entered.movements,
                "lots": entered.lots,
                "now": [as_record(one) for one in held],
            }
        )
        return
    from ladleworth.cli import say

    kitchen = open_kitchen(file)
    _show(kitchen, list(entered.movements))
    for one in held:
        standing = one.standing
        until = "no limit" if standing.use_by is None else f"until {say.long_day(standing.use_by)}"
        there = (
            f"{say.amount_text(one.quantity, one.lot.unit)} worth {say.cents_text(one.cents, kitchen)}, "
            f"{standing.spot.value}, {until}"
            if one.quantity
            else "nothing left"
        )
        say.sentence(f"{one.lot.id}: {there}")
