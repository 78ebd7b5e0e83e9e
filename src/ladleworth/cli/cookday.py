"""`ladleworth cookday`: when each piece of work runs, or why no timetable keeps the rules."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options
from ladleworth.cli.day_options import DayOptions, of_a_kitchen
from ladleworth.cli.decide import NO_PLAN, OUT_OF_TIME

if TYPE_CHECKING:
    from ladleworth.cookday.project import Project, ProjectAnswer
    from ladleworth.cookday.project_clash import Clash
    from ladleworth.cookday.project_json import AskedProject


@click.command()
@click.argument("kitchen", type=options.PLACE, required=False)
@click.option(
    "--question",
    type=options.PLACE,
    metavar="FILE",
    help="A question of plain activities as JSON, in place of a kitchen.",
)
@of_a_kitchen
@click.option(
    "--seconds",
    type=click.FloatRange(min=0.1, max=86_400),
    default=20.0,
    show_default=True,
    help="The clock limit.",
)
@click.option(
    "--seed", type=click.IntRange(0, 2**31 - 1), default=0, show_default=True, help="The search's seed."
)
@options.today
@options.as_json
def cookday(
    kitchen: Path | None,
    question: Path | None,
    asked: DayOptions,
    seconds: float,
    seed: int,
    today: date,
    *,
    as_json: bool,
) -> int:
    """Say when each piece of work runs.

    KITCHEN: the next session of the accepted plan by the clock: what to start, on whose hands, where, with how much of
    what, by when it must be in the fridge, and how slow the cook may be. --began, --ended and --now go along with the
    day and plan the rest of it anew. Steps are named as in the list, such as A1.

    --question FILE instead: activities with durations, the resources they hold while they run, and least and greatest
    lags between them (docs/cookday-question.md); `-` reads what is piped in. Prints the timetable that ends earliest.

    Exit code 9: no timetable keeps the rules. Exit code 10: none was found in the time given.
    """
    if (kitchen is None) == (question is None):
        raise click.UsageError("name a KITCHEN, or --question FILE, one of the two")
    if question is not None:
        if asked != DayOptions():
            raise click.UsageError(
                "--question takes --seconds, --seed and --json; the other options are for a KITCHEN"
            )
        return _project(question, seconds, seed, as_json=as_json)
    assert kitchen is not None
    from ladleworth.cli.cooking_day import run

    return run(kitchen, asked, seconds, seed, today, as_json=as_json)


def _project(question: Path, seconds: float, seed: int, *, as_json: bool) -> int:
    """Answer a question of plain activities."""
    from ladleworth.cli.stopping import stops_at_once
    from ladleworth.cookday.answer import Status
    from ladleworth.cookday.project_clash import clash
    from ladleworth.cookday.project_json import read_project
    from ladleworth.cookday.project_lags import reasons
    from ladleworth.cookday.project_model import schedule

    asked = read_project(_bytes(question), str(question))
    with stops_at_once(as_json=as_json):
        answer = schedule(asked.project, seconds=seconds, seed=seed)
        wanted = answer.status is Status.IMPOSSIBLE and not reasons(asked.project)
        found = clash(asked.project, seconds=seconds, seed=seed) if wanted else None
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(_document(question, asked, answer, found))
    else:
        _show(asked, answer, found)
    return {Status.IMPOSSIBLE: NO_PLAN, Status.OUT_OF_TIME: OUT_OF_TIME}.get(answer.status, 0)


def _bytes(question: Path) -> bytes:
    """Read the file, or what is piped in, as far as it may be long and one byte more."""
    from ladleworth.cookday.json_tree import MOST_BYTES

    if str(question) == "-":
        return sys.stdin.buffer.read(MOST_BYTES + 1)
    with question.open("rb") as handle:
        return handle.read(MOST_BYTES + 1)


def _document(
    question: Path, asked: AskedProject, answer: ProjectAnswer, found: Clash | None
) -> dict[str, object]:
    """Gather what --json prints."""
    return {
        "question": question,
        "title": asked.title,
        "status": answer.status,
        "makespan": answer.makespan,
        "bound": answer.bound,
        "times": answer.times,
        "why_not": answer.why_not,
        "clash": found,
        "seconds": answer.seconds,
        "seed": answer.seed,
        "solver": answer.solver,
    }


def _show(asked: AskedProject, answer: ProjectAnswer, found: Clash | None) -> None:
    """Show the answer for the eye."""
    from ladleworth.cli import say
    from ladleworth.cookday.answer import Status

    say.heading(asked.title or "The timetable")
    if answer.times is None:
        _show_none(answer, found)
        return
    if answer.status is Status.PROVEN:
        say.sentence(f"Proven shortest: everything has ended at {answer.makespan}.")
    else:
        say.sentence(
            f"Good, with a gap: everything has ended at {answer.makespan}; no timetable ends before {answer.bound}."
        )
    say.table(("activity", "start", "end", "holds"), _rows(asked.project, answer), right=(1, 2))


def _rows(project: Project, answer: ProjectAnswer) -> list[tuple[str, str, str, str]]:
    """Write the activities in the order in which they start."""
    assert answer.times is not None
    pairs = sorted(zip(answer.times, project.activities, strict=True), key=lambda pair: pair[0].start)
    return [
        (
            time.activity,
            str(time.start),
            str(time.end),
            ", ".join(f"{demand.amount} {demand.resource}" for demand in activity.demands if demand.amount),
        )
        for time, activity in pairs
    ]


def _show_none(answer: ProjectAnswer, found: Clash | None) -> None:
    """Say that there is no timetable and why, or that the time was too short to find out."""
    from ladleworth.cli import say
    from ladleworth.cookday.answer import Status

    if answer.status is Status.OUT_OF_TIME:
        say.sentence(
            f"Out of time: no timetable was found in {answer.seconds:.1f} s, and none was ruled out; give more --seconds. "
            f"None ends before {answer.bound}."
        )
        return
    say.sentence("There is no timetable:")
    for reason in answer.why_not:
        say.sentence(f"{reason}.", 2)
    if found is not None and found.limits:
        without = "; without any one of them there is one" if found.fewest else ""
        say.sentence(f"These cannot all be kept, given the durations and the least lags{without}:")
        for limit in found.limits:
            say.sentence(limit, 2)
