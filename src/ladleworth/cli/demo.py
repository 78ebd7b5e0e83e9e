"""`ladleworth demo`: a whole week of the demo kitchen, from the shelf to the reckoning."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from ladleworth.cli import options


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
    default=5.0,
    show_default=True,
    help="The clock limit of the decision.",
)
@options.as_json
def demo(out: Path, seconds: float, *, as_json: bool) -> int:
    """Live a whole week of the demo kitchen.

    Loads examples/demo of the source checkout into a kitchen file, decides, accepts, shops, cooks and eats day
    by day, and reckons.
    """
    from ladleworth.cli import say
    from ladleworth.week import (
        buy_day,
        cook_day,
        decide_week,
        eat_day,
        load_folder,
        open_kitchen,
        week_money,
    )

    folder = demo_folder()
    file = _fresh(out, open_kitchen(folder).household.name)
    load_folder(folder, file)
    kitchen = open_kitchen(file)
    start: date = kitchen.household.start
    week = decide_week(file, today=start, seconds=seconds, accept=True)
    if week.answer.plan is None:
        from ladleworth.errors import NotYet

        raise NotYet(
            f"the demo has no plan after {seconds} s ({week.answer.status.value}); give more --seconds"
        )
    if not as_json:
        from ladleworth.cli import show_plan

        click.echo(f"{folder} is in {file} now; its people, shops and prices are invented.\n")
        show_plan.title(week, start)
        show_plan.whole(week)
        say.heading(f"Accepted as plan {week.number}; now the week goes by")
    lines = []
    for day in range(1, kitchen.household.days + 1):
        bought, cooked, eaten = buy_day(file, day), cook_day(file, day), eat_day(file, day)
        lots = [lot for _, entered in cooked.entered for lot in entered.lots]
        lines.append(
            {
                "day": day,
                "date": kitchen.household.date_of(day),
                "paid_cents": sum(lot.cents for _, entered in bought.entered for lot in entered.lots),
                "packages": sum(lot.packages for _, entered in bought.entered for lot in entered.lots),
                "cooked_portions": sum(lot.quantity for lot in lots),
                "eaten_portions": len(eaten.entered),
            }
        )
    week, money = week_money(file)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"file": file, "plan_number": week.number, "days": lines, "money": money})
        return 0
    from ladleworth.cli import show_money

    rows = []
    for line in lines:
        packages, portions, eaten_portions = (
            int(str(line[key])) for key in ("packages", "cooked_portions", "eaten_portions")
        )
        rows.append(
            (
                say.short_day(kitchen.household.date_of(int(str(line["day"])))),
                str(packages or ""),
                say.cents_text(int(str(line["paid_cents"])), kitchen) if packages else "",
                str(portions or ""),
                str(eaten_portions or ""),
            )
        )
    say.table(("day", "packages", "paid", "portions cooked", "eaten"), rows, right=(1, 2, 3, 4))
    show_money.week(week, money)
    say.heading("To try next")
    end = kitchen.household.date_of(kitchen.household.days)
    for line_text in (
        f"ladleworth onhand {file} --today {end}",
        f"ladleworth history {file} --lot rice-white-long-grain",
        f"ladleworth prices {folder} carrots",
        f"ladleworth dish {folder} 'split pea' --portions 10 --sources",
        "ladleworth facts rice",
        f"ladleworth decide {folder} --why --seconds 30",
    ):
        click.echo(f"  {line_text}")
    return 0


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
