"""`ladleworth decide`: the plan of the week, or why there is none."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from ladleworth.cli import options
from ladleworth.cli.wishing import Compared, comparing, wishing

NO_PLAN, OUT_OF_TIME = 9, 10
"""Exit codes of an answer without a plan."""


@click.command()
@options.kitchen_argument
@options.deciding
@click.option("--again", is_flag=True, help="Plan on from the accepted plan, from today.")
@click.option("--drop-wishes", is_flag=True, help="With --again: let go of that plan's wishes.")
@wishing
@click.option("--accept", is_flag=True, help="Keep the plan in the file, as the one you go by.")
@click.option(
    "--why", is_flag=True, help="Say what each rule costs, and what the runner-up was. Takes longer."
)
@comparing
@click.option("--questions", is_flag=True, help="Show what was asked: slots, sessions, dishes, rules.")
@click.option("--question", type=options.PLACE, metavar="FILE", help="Write the whole question as JSON.")
@click.option("--progress", is_flag=True, help="Say on stderr how far it is, line by line.")
@options.today
@options.as_json
def decide(
    kitchen: Path,
    seconds: float,
    seed: int,
    work: int | None,
    start: date | None,
    days: int | None,
    without: tuple[str, ...],
    *,
    again: bool,
    drop_wishes: bool,
    wanted: object,
    accept: bool,
    why: bool,
    compared: Compared,
    questions: bool,
    question: Path | None,
    progress: bool,
    today: date,
    as_json: bool,
) -> int:
    """Decide what to buy, cook, chill and freeze.

    Prints the plan of the week with its costs, its bound and its shopping list. Exit code 9: no plan keeps all
    the rules, and the ways out are listed. Exit code 10: none was found in the time given. The interrupt key asks for
    the best plan so far.

    With --again, what was cooked, bought and eaten stays as it is, and the accepted plan is where the search begins.
    """
    from ladleworth.cli.comparisons import compare, read_compared
    from ladleworth.cli.document import document
    from ladleworth.cli.ending import interrupted
    from ladleworth.cli.progress import ProgressLine
    from ladleworth.cli.stopping import stops_when_asked
    from ladleworth.decide.comparing import Asking
    from ladleworth.week.planning import ask_week, check_acceptable, decide_asked
    from ladleworth.week.wanted import Wanted

    assert isinstance(wanted, Wanted)
    if again and start is not None:
        raise click.BadParameter("--again plans on from --today; leave --start out", param_hint="--start")
    if drop_wishes and not again:
        raise click.BadParameter("it goes with --again alone; leave it out", param_hint="--drop-wishes")
    if question is not None and not question.parent.is_dir():
        raise click.BadParameter(
            f"there is no folder {question.parent}; make it first", param_hint="--question"
        )
    check_acceptable(kitchen, accept=accept)
    with stops_when_asked(as_json=as_json) as stop:
        asked = ask_week(
            kitchen,
            today=today,
            start=start,
            days=days,
            without_dishes=without,
            wanted=wanted,
            again=again,
            keep_wishes=not drop_wishes,
        )
        to_compare = read_compared(asked.kitchen, compared)
        line = ProgressLine(plain=progress, digits=asked.kitchen.household.currency.minor_digits)
        asking = Asking(seconds, seed, work, line.report, stop)
        try:
            week = decide_asked(kitchen, asked, asking, today=today, accept=accept)
        finally:
            line.close()
        if stop() and week.answer.plan is None:
            return interrupted(as_json=as_json)
        if question is not None:
            from ladleworth.store import record_json

            question.write_text(record_json.to_json(week.question) + "\n", encoding="utf-8")
        found = compare(week, to_compare, replace(asking, report=None), why=why)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(document(week, found, stopped=stop()))
    else:
        from ladleworth.cli import say, show_compared, show_plan, show_why

        show_plan.title(week, today)
        if questions:
            show_why.question(week)
        if week.answer.plan is None:
            show_why.no_plan(week)
        else:
            if stop():
                say.sentence("Stopped by the interrupt key: this is the best plan found by then.")
            show_plan.whole(week)
            if why:
                show_why.prices(week, found.prices)
                show_why.runner_up(week, found.runner_up)
        show_compared.whole(week, found)
        if week.answer.plan is not None:
            show_plan.what_next(week, kitchen)
        if week.findings:
            say.warn(f"{say.plural(len(week.findings), 'doubt')}; ladleworth check {kitchen} lists them")
    if week.answer.plan is not None:
        return 0
    return NO_PLAN if week.clash is not None else OUT_OF_TIME
