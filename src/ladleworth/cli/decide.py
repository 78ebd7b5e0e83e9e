"""`ladleworth decide`: the plan of the week, or why there is none."""

from __future__ import annotations

from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.decide import Answer, PriceOfRule
    from ladleworth.week import PlannedWeek

NO_PLAN, OUT_OF_TIME = 9, 10
"""Exit codes of an answer without a plan."""


@click.command()
@options.kitchen_argument
@options.deciding
@click.option("--accept", is_flag=True, help="Keep the plan in the file, as the one you go by.")
@click.option(
    "--why", is_flag=True, help="Say what each rule costs, and what the runner-up was. Takes longer."
)
@click.option("--questions", is_flag=True, help="Show what was asked: slots, sessions, dishes, rules.")
@click.option("--question", type=options.PLACE, metavar="FILE", help="Write the whole question as JSON.")
@options.today
@options.as_json
def decide(
    kitchen: Path,
    seconds: float,
    seed: int,
    start: date | None,
    days: int | None,
    without: tuple[str, ...],
    *,
    accept: bool,
    why: bool,
    questions: bool,
    question: Path | None,
    today: date,
    as_json: bool,
) -> int:
    """Decide what to buy, cook, chill and freeze.

    Prints the plan of the week with its costs, its bound and its shopping list. Exit code 9: no plan keeps all
    the rules, and the ways out are listed. Exit code 10: none was found in the time given.
    """
    from ladleworth.cli.stopping import stops_at_once
    from ladleworth.week import decide_week

    if question is not None and not question.parent.is_dir():
        raise click.BadParameter(
            f"there is no folder {question.parent}; make it first", param_hint="--question"
        )
    with stops_at_once(as_json=as_json):
        week = decide_week(
            kitchen,
            today=today,
            seconds=seconds,
            seed=seed,
            start=start,
            days=days,
            accept=accept,
            without_dishes=without,
        )
        if question is not None:
            from ladleworth.store import record_json

            question.write_text(record_json.to_json(week.question) + "\n", encoding="utf-8")
        prices, second = _reasons(week, seconds, seed) if why and week.answer.plan is not None else ((), None)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(_document(week, prices, second))
    else:
        from ladleworth.cli import show_plan, show_why

        show_plan.title(week, today)
        if questions:
            show_why.question(week)
        if week.answer.plan is None:
            show_why.no_plan(week)
        else:
            show_plan.whole(week)
            if why:
                show_why.prices(week, prices)
                show_why.runner_up(week, second)
            show_plan.what_next(week, kitchen)
        if week.findings:
            from ladleworth.cli import say

            say.warn(f"{say.plural(len(week.findings), 'doubt')}; ladleworth check {kitchen} lists them")
    if week.answer.plan is not None:
        return 0
    return NO_PLAN if week.clash is not None else OUT_OF_TIME


def _reasons(week: PlannedWeek, seconds: float, seed: int) -> tuple[tuple[PriceOfRule, ...], Answer | None]:
    """Ask again without each rule, and without each dish; each of the two takes the time once more."""
    from ladleworth.decide import prices_of_rules, runner_up

    return (
        prices_of_rules(week.question, week.answer, seconds, seed),
        runner_up(week.question, week.plan, seconds, seed),
    )


def _document(week: PlannedWeek, prices: tuple[PriceOfRule, ...], second: Answer | None) -> dict[str, object]:
    """Gather what --json prints."""
    from ladleworth.decide import tight
    from ladleworth.week import (
        cooking_of,
        costs_table,
        gross_cents,
        opened_too_long,
        preview_money,
        shopping_of,
        use_up_of,
    )

    answer, household = week.answer, week.kitchen.household
    document: dict[str, object] = {
        "kitchen": household.name,
        "currency": household.currency.code,
        "start": household.start,
        "days": household.days,
        "plan_number": week.number,
        "status": answer.status,
        "bound_cents": answer.bound,
        "gap_cents": answer.gap_cents,
        "seconds": answer.seconds,
        "seed": answer.seed,
        "solver": answer.solver,
        "plan": answer.plan,
        "clash": week.clash,
        "findings": week.findings,
    }
    if answer.plan is None or answer.costs is None:
        return document
    return document | {
        "total_cents": answer.costs.total,
        "gross_cents": gross_cents(answer.costs),
        "costs_cents": asdict(answer.costs),
        "costs_table": costs_table(answer.costs),
        "cooking": cooking_of(week),
        "shopping": shopping_of(week),
        "use_up": use_up_of(week),
        "limits_reached": tight(week.question, answer.plan),
        "opened_too_long": opened_too_long(week.kitchen, answer.plan),
        "money": preview_money(week),
        "prices_of_rules": prices,
        "runner_up": second,
    }
