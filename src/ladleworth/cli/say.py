"""Results for the eye: headings, tables and sentences, at 80 columns, without colour where nobody sees it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from rich.console import Console, RenderableType

    from ladleworth.household import Kitchen
    from ladleworth.ledger import LotUnit
    from ladleworth.reckon import Reckoning

WIDEST = 100
"""Tables are no wider than this: a line that is longer is hard to follow across a kitchen."""


def console() -> Console:
    """Give the console that writes to stdout now; text is taken as it is, never as markup."""
    from rich.console import Console

    made = Console(markup=False, emoji=False, highlight=False)
    if made.width > WIDEST:
        made.width = WIDEST
    return made


def heading(text: str) -> None:
    """Write a heading with a blank line before it."""
    _print(f"\n{text}", style="bold")


def sentence(text: str, indent: int = 0) -> None:
    """Write a sentence, folded at the width of the screen."""
    from rich.padding import Padding

    _print(Padding(text, (0, 0, 0, indent)) if indent else text)


def table(
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    right: Iterable[int] = (),
    total: Sequence[str] | None = None,
    sections: Iterable[int] = (),
) -> None:
    """Write a table.

    Parameters
    ----------
    columns
        The headings; all empty for a table without.
    rows
        The cells.
    right
        Numbers of the columns, from 0, that are set flush right: figures.
    total
        A last row under a line.
    sections
        Numbers of the rows, from 0, after which a line is drawn.
    """
    from rich.box import Box
    from rich.table import Table

    flush, breaks, lines = frozenset(right), frozenset(sections), list(rows)
    shown = Table(
        box=Box(_LINED if total is not None else _SPACED),
        show_header=any(columns),
        pad_edge=False,
        header_style="bold",
        show_edge=False,
    )
    for at, name in enumerate(columns):
        figures = at in flush
        shown.add_column(name, justify="right" if figures else "left", no_wrap=figures, overflow="fold")
    for at, row in enumerate(lines):
        last = total is not None and at == len(lines) - 1
        shown.add_row(*map(_cell, row), end_section=last or at in breaks)
    if total is not None:
        shown.add_row(*total, style="bold")
    _print(shown)


_LINED = "    \n    \n ── \n    \n ── \n ── \n    \n    \n"
_SPACED = "    \n    \n ── \n    \n    \n    \n    \n    \n"
"""Tables without edges: a line under the headings, and above a total or else a space between sections."""


def _cell(text: str) -> RenderableType:
    """Set the further lines of a cell that begin with spaces as indented paragraphs."""
    from rich.console import Group
    from rich.padding import Padding

    if "\n  " not in text:
        return text
    lines = [
        line if not line.startswith("  ") else Padding(line[2:], (0, 0, 0, 2)) for line in text.split("\n")
    ]
    return Group(*lines)


def _print(shown: RenderableType, style: str | None = None) -> None:
    """Print; where nobody looks at a screen, without the spaces that fill lines up."""
    screen = console()
    if screen.is_terminal:
        screen.print(shown, style=style)
        return
    with screen.capture() as captured:
        screen.print(shown, style=style)
    for line in captured.get().splitlines():
        click.echo(line.rstrip())


def reckoning(money: Reckoning, kitchen: Kitchen, *, title: str = "", total: str = "") -> None:
    """Write a table of money that adds up, its total last."""
    heading(f"{title or money.title} ({kitchen.household.currency.code})")
    rows = [(row.label, cents_text(row.cents, kitchen)) for row in money.rows]
    table(("", ""), rows, right=(1,), total=(total or "together", cents_text(money.total_cents, kitchen)))


def cents_text(cents: int | Fraction, kitchen: Kitchen) -> str:
    """Write money plainly; fractions of a cent are rounded half up, for the eye only."""
    from ladleworth.units import half_up, show_money

    return show_money(half_up(cents), kitchen.household.currency)


def amount_text(quantity: int | Fraction, unit: LotUnit) -> str:
    """Write an amount of a lot: '1.3 kg', '5 pieces', '2 portions'."""
    from ladleworth.ledger import LotUnit
    from ladleworth.units import show_count, show_mass

    if unit is LotUnit.MG:
        return show_mass(quantity)
    return f"{show_count(quantity)} {unit.value}{'' if abs(quantity) == 1 else 's'}"


def short_day(day: date) -> str:
    """Write a day shortly: 'Sun 6 Dec'."""
    return f"{_WEEKDAYS[day.weekday()][:3]} {day.day} {_MONTHS[day.month - 1][:3]}"


def day_style(days: Iterable[date | None], kitchen: Kitchen) -> Callable[[date | None], str]:
    """Choose how a table writes its days: shortly, each with its year where any lies outside the plan's year.

    No day at all is 'no limit'.
    """
    told = any(day is not None and day.year != kitchen.household.start.year for day in days)

    def write(day: date | None) -> str:
        if day is None:
            return "no limit"
        return f"{short_day(day)} {day.year}" if told else short_day(day)

    return write


def long_day(day: date) -> str:
    """Write a day in full: 'Sunday, 6 December 2026'."""
    return f"{_WEEKDAYS[day.weekday()]}, {day.day} {_MONTHS[day.month - 1]} {day.year}"


def plural(number: int | Fraction, one: str, many: str = "") -> str:
    """Write a number with its noun: '1 portion', '2 portions'."""
    from ladleworth.units import show_number

    return f"{show_number(number)} {one if number == 1 else many or one + 's'}"


def food_name(kitchen: Kitchen, item: str) -> str:
    """Name a food, or the dish of a batch, as a cook calls it."""
    if item in kitchen.foods:
        return kitchen.foods.get(item).name
    day = item.split(" ")[1] if " " in item else ""
    return f"{batch_name(kitchen, item)}, cooked {day}" if day else item


def batch_name(kitchen: Kitchen, item: str) -> str:
    """Name a batch as a cook calls it: its dish, and the version where it was split."""
    dish, _, rest = item.partition(" ")
    version = rest.partition(" ")[2]
    return dish_name(kitchen, dish) + (f" ({version})" if version else "")


def containers_text(count: int, size: Fraction) -> str:
    """Write how many containers, and what is in each: '4 portions', '2 of 1/2 portion'."""
    return plural(count, "portion") if size == 1 else f"{count} of {size} portion"


def dish_name(kitchen: Kitchen, dish_id: str) -> str:
    """Name a dish."""
    return next((dish.name for dish in kitchen.dishes if dish.id == dish_id), dish_id)


def warn(text: str) -> None:
    """Write a caution to stderr, so that what is piped stays the result."""
    click.echo(text, err=True)


_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
