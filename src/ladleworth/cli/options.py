"""Options that several commands share. Only the doors read the clock: here."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, datetime, time
from pathlib import Path
from typing import Any, TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., Any])

PLACE = click.Path(path_type=Path)


class Day(click.ParamType):  # type: ignore[type-arg]  # generic only in newer releases of click
    """A date written as 2026-12-06."""

    name = "YYYY-MM-DD"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Read the date."""
        if isinstance(value, date):
            return value
        from ladleworth.errors import BadField
        from ladleworth.store.fields import parse_date

        try:
            return parse_date(value)
        except BadField as bad:
            self.fail(str(bad), param, ctx)


DAY = Day()


class ClockTime(click.ParamType):  # type: ignore[type-arg]  # generic only in newer releases of click
    """A time of the day written as 16:00."""

    name = "HH:MM"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> time:
        """Read the time."""
        if isinstance(value, time):
            return value
        found = re.fullmatch(r"\s*([0-9]{1,2})[:.]([0-9]{2})\s*", value, re.ASCII)
        if found is None or int(found[1]) > 23 or int(found[2]) > 59:
            self.fail(f"{value!r} is no time of the day; write hours and minutes, such as 16:05", param, ctx)
        return time(int(found[1]), int(found[2]))


TIME = ClockTime()

as_json = click.option("--json", "as_json", is_flag=True, help="Print the result as one JSON document.")


def clock_now() -> datetime:
    """Read the kitchen's date and time off the clock, to the second."""
    return datetime.now().astimezone().replace(tzinfo=None, microsecond=0)


def clock_today() -> date:
    """Read today's date off the clock."""
    return clock_now().date()


today = click.option(
    "--today", type=DAY, default=clock_today, show_default="by the clock", help="The day that it is."
)

kitchen_argument = click.argument("kitchen", type=PLACE)
file_argument = click.argument("file", type=PLACE)


def deciding(command: Command) -> Command:
    """Add the options of everything that decides a week."""
    options = [
        click.option(
            "--seconds",
            type=click.FloatRange(min=0.1, max=86_400),
            default=20.0,
            show_default=True,
            help="The clock limit.",
        ),
        click.option(
            "--seed", type=click.IntRange(min=0), default=0, show_default=True, help="The search's seed."
        ),
        click.option(
            "--work",
            type=click.IntRange(min=1),
            metavar="N",
            help="So many steps of work instead of the clock.",
        ),
        click.option("--start", type=DAY, help="Another first day."),
        click.option("--days", type=click.IntRange(1, 366), help="Another number of days."),
        click.option(
            "--without", multiple=True, metavar="DISH", help="Leave this dish out; may be given again."
        ),
    ]
    for option in reversed(options):
        command = option(command)
    return command
