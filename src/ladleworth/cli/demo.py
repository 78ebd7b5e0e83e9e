"""`ladleworth demo`: a whole week of the demo kitchen, from the shelf to the reckoning."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.household import Kitchen
    from ladleworth.week import Done


@click.command()
@click.option(
    "--out",
    type=options.PLACE,
    default=Path("demo-out"),
    show_default=True,
    help="The folder for the kitchen file; the file of an earlier demo in it is replaced.",
)
@click.option(
    "--seconds",
    type=click.FloatRange(min=0.1, max=86_400),
    default=15.0,
    show_default=True,
    help="The clock limit of the decision.",
)
@options.as_json
def demo(out: Path, seconds: float, *, as_json: bool) -> None:
    """Live a whole week of the demo kitchen.

    Loads examples/demo of the source checkout into a kitchen file, decides, accepts, shops, cooks and eats day
    by day, and reckons.
    """
    from ladleworth.cli.stopping import stops_at_once
    from ladleworth.errors import NotYet
    from ladleworth.week import decide_week, live_week, load_folder, open_kitchen, week_money

    folder = demo_folder()
    kitchen = open_kitchen(folder)
    file = _fresh(out, kitchen.household.name)
    load_folder(folder, file)
    with stops_at_once(as_json=as_json):
        week = decide_week(file, today=kitchen.household.start, seconds=seconds, accept=True)
    if week.answer.plan is None:
        raise NotYet(
            f"the demo has no plan after {seconds} s ({week.answer.status.value}); give more --seconds"
        )
    if not as_json:
        from ladleworth.cli import say, show_plan

        say.sentence(f"{folder} is in {file} now; its people, shops and prices are invented.")
        show_plan.title(week, kitchen.household.start)
        show_plan.whole(week)
        say.heading(f"Accepted as plan {week.number}; now the week goes by")
    days = [
        _day_of(kitchen.household.date_of(day), done) for day, done in enumerate(live_week(file), start=1)
    ]
    week, money = week_money(file)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"file": file, "plan_number": week.number, "days": days, "money": money})
        return
    from ladleworth.cli import show_money

    _show_days(week.kitchen, days)
    show_money.week(week, money)
    _what_next(folder, file, days[-1].date)


@dataclass(frozen=True, slots=True)
class DemoDay:
    """What a day of the demo came to."""

    date: date
    packages: int
    paid_cents: int
    cooked_portions: int
    eaten_portions: int


def _day_of(day: date, done: tuple[Done, Done, Done]) -> DemoDay:
    bought, cooked, eaten = ([entered for _, entered in one.entered] for one in done)
    packages = [lot for entered in bought for lot in entered.lots]
    return DemoDay(
        day,
        sum(lot.packages for lot in packages),
        sum(lot.cents for lot in packages),
        sum(lot.quantity for entered in cooked for lot in entered.lots),
        len(eaten),
    )


def _show_days(kitchen: Kitchen, days: list[DemoDay]) -> None:
    from ladleworth.cli import say

    rows = [
        (
            say.short_day(day.date),
            str(day.packages or ""),
            say.cents_text(day.paid_cents, kitchen) if day.packages else "",
            str(day.cooked_portions or ""),
            str(day.eaten_portions or ""),
        )
        for day in days
    ]
    say.table(("day", "packages", "paid", "portions cooked", "eaten"), rows, right=(1, 2, 3, 4))


def _what_next(folder: Path, file: Path, end: date) -> None:
    from ladleworth.cli import say

    say.heading("To try next")
    for line in (
        f"ladleworth onhand {file} --today {end}",
        f"ladleworth history {file} --lot rice-white-long-grain",
        f"ladleworth prices {folder} carrots",
        f"ladleworth dish {folder} 'split pea' --portions 10 --sources",
        "ladleworth facts rice",
        f"ladleworth decide {folder} --why --seconds 30",
    ):
        click.echo(f"  {line}")


def demo_folder() -> Path:
    """Find examples/demo beside the source; an installed package does not carry it."""
    import ladleworth
    from ladleworth.errors import StoreError

    folder = Path(ladleworth.__file__).resolve().parents[2] / "examples" / "demo"
    if folder.is_relative_to(Path.cwd()):
        folder = folder.relative_to(Path.cwd())
    if not (folder / "kitchen.yaml").is_file():
        raise StoreError(
            "the demo kitchen is not here: it comes with the source, not with the installed package; "
            "run the command from a source checkout (pip install -e .), or load a kitchen folder of your own"
        )
    return folder


def _fresh(out: Path, name: str) -> Path:
    """Make room for the demo's file; a file that is not an earlier demo is left alone and refused."""
    from ladleworth.errors import StoreError
    from ladleworth.week import open_kitchen

    out.mkdir(parents=True, exist_ok=True)
    file = out / "kitchen.db"
    if file.exists():
        if open_kitchen(file).household.name != name:
            raise StoreError(f"{file} is a kitchen of your own; name another folder with --out")
        for old in (file, file.with_name(file.name + "-wal"), file.with_name(file.name + "-shm")):
            old.unlink(missing_ok=True)
    return file
