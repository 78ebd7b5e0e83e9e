"""`ladleworth divide`: a batch divided into portions and containers, by the scale or by what it should weigh."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from ladleworth.cli import options


@click.command()
@options.kitchen_argument
@click.argument("dish")
@click.option(
    "--day",
    type=click.IntRange(min=1),
    metavar="N",
    help="The plan's day; left out, today's batch or the next.",
)
@click.option("--portions", type=click.IntRange(1, 999), metavar="N", help="Into so many equal portions.")
@click.option("--swap", multiple=True, metavar="SWAP", help="The version with this swap.")
@click.option(
    "--weighed",
    multiple=True,
    metavar="[PART=]1.62kg",
    help="What the scale says of a part, or of the whole pot; may be given again.",
)
@click.option("--tare", multiple=True, metavar="[PART=]400g", help="What the empty pot weighs.")
@click.option(
    "--cooked", multiple=True, metavar="FOOD=METHOD", help="How a food is cooked, for what is reckoned."
)
@click.option(
    "--scoop",
    multiple=True,
    type=int,
    metavar="NUMBER",
    help="A scoop that there is; any that is made otherwise.",
)
@click.option("--depth", metavar="'5 cm'", help="Fill no deeper than this.")
@options.today
@options.as_json
def divide(
    kitchen: Path,
    dish: str,
    day: int | None,
    portions: int | None,
    swap: tuple[str, ...],
    weighed: tuple[str, ...],
    tare: tuple[str, ...],
    cooked: tuple[str, ...],
    scoop: tuple[int, ...],
    depth: str | None,
    today: date,
    *,
    as_json: bool,
) -> None:
    """Divide a batch into portions and containers.

    By what the scale says where it was weighed, else by what it should weigh. What was weighed of a plan's batch is
    kept in the file.
    """
    from ladleworth.week.dividing import divide_batch
    from ladleworth.week.weighing import DivideWish

    if tare and not weighed:
        raise click.UsageError("--tare says nothing by itself; give --weighed with it")
    wish = DivideWish(portions, swap, weighed, tare, cooked, scoop, depth)
    divided = divide_batch(kitchen, dish, today=today, now=options.clock_now(), day=day, wish=wish)
    if as_json:
        from ladleworth.cli.json_out import write_json
        from ladleworth.cli.show_divided import document

        write_json(document(kitchen, divided))
        return
    from ladleworth.cli import show_divided

    for one in divided:
        show_divided.whole(one)
    show_divided.what_next(kitchen, divided, weighed=bool(weighed))
