"""Options of `cookday` for a kitchen: which day, from when, by when, with how many, what to show, and what happened."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields
from datetime import date, datetime, time, timedelta
from functools import wraps
from pathlib import Path
from typing import Any, TypeVar

import click

from ladleworth.cli import options

Command = TypeVar("Command", bound=Callable[..., Any])

MOST_COOKS, MOST_RUNS = 9, 100_000


@dataclass(frozen=True, slots=True)
class DayOptions:
    """What was asked of a cooking day, as it was written."""

    day: int | None = None
    start: time | None = None
    by: time | None = None
    cooks: int | None = None
    why: bool = False
    simulate: int = 0
    chart: Path | None = None
    portrait: bool = False
    keep: bool = False
    began: str | None = None
    ended: str | None = None
    forget: str | None = None
    now: bool = False
    at: time | None = None

    @property
    def acts(self) -> list[str]:
        """Name the options that enter something."""
        return [f"--{name}" for name in ("began", "ended", "forget") if getattr(self, name) is not None]

    @property
    def is_live(self) -> bool:
        """Whether it is about a day on its way."""
        return self.now or bool(self.acts)

    @property
    def plans_anew(self) -> bool:
        """Whether it asks for another timetable than the one that is kept."""
        return self.keep or (self.start, self.by, self.cooks) != (None, None, None)

    def check(self) -> None:
        """Refuse options that do not go together."""
        if len(self.acts) > 1:
            raise click.UsageError(f"{' and '.join(self.acts)} are two entries; make one at a time")
        if self.at is not None and not self.is_live:
            raise click.BadParameter(
                "it goes with --began, --ended or --now; leave it out", param_hint="--at"
            )
        if self.portrait and self.chart is None:
            raise click.BadParameter("it goes with --chart FILE; leave it out", param_hint="--portrait")
        if self.is_live and (self.why or self.simulate):
            raise click.UsageError(
                "--why and --simulate are about a whole day; ask them without --began, --ended, --forget and --now"
            )
        if self.chart is not None and not self.chart.parent.is_dir():
            raise click.BadParameter(
                f"there is no folder {self.chart.parent}; make it first", param_hint="--chart"
            )


def of_a_kitchen(command: Command) -> Command:
    """Add the options; the command takes them as one `asked`."""

    @wraps(command)
    def gathered(*given: Any, **others: Any) -> Any:
        asked = DayOptions(**{field.name: others.pop(field.name) for field in fields(DayOptions)})
        return command(*given, asked=asked, **others)

    added = [
        click.option("--day", type=click.IntRange(min=1), metavar="N", help="Another day of the plan."),
        click.option("--start", type=options.TIME, help="When the day begins, such as 16:00."),
        click.option("--by", type=options.TIME, help="When all is to be done and washed up."),
        click.option("--cooks", type=click.IntRange(1, MOST_COOKS), metavar="N", help="So many people cook."),
        click.option("--why", is_flag=True, help="Say why it takes so long, and what would save time."),
        click.option(
            "--simulate",
            type=click.IntRange(0, MOST_RUNS),
            default=0,
            metavar="N",
            help="On how many of N days of chance everything holds.",
        ),
        click.option("--chart", type=options.PLACE, metavar="FILE", help="Draw the day as SVG."),
        click.option("--portrait", is_flag=True, help="With --chart: for a phone held upright."),
        click.option("--keep", is_flag=True, help="Keep this timetable in the file and go by it."),
        click.option("--began", metavar="STEP", help="Enter that a step began."),
        click.option("--ended", metavar="STEP", help="Enter that a step ended."),
        click.option("--forget", metavar="STEP", help="Take the last entry of a step back."),
        click.option("--now", is_flag=True, help="Say what to do now and next."),
        click.option("--at", type=options.TIME, help="When it happened (left out: now)."),
    ]
    for option in reversed(added):
        gathered = option(gathered)
    return gathered  # type: ignore[return-value]  # with more options than the command


def moment(asked: DayOptions, today: date) -> datetime:
    """Give the time that was meant: --at on the day that it is, shortly after midnight of the evening before."""
    clock = options.clock_now().replace(second=0)
    if asked.at is None:
        return datetime.combine(today, clock.time())
    meant = datetime.combine(today, asked.at)
    if today == clock.date() and meant > clock and asked.acts:
        if meant - clock > timedelta(hours=12):
            return meant - timedelta(days=1)
        raise click.BadParameter(
            f"{asked.at:%H:%M} is still to come, it is {clock:%H:%M}; enter it when it has happened",
            param_hint="--at",
        )
    return meant
