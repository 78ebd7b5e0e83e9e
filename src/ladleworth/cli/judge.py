"""`ladleworth judge`: a plan against every rule, in plain arithmetic, without a solver."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.decide import Plan, Question

REFUSED = 6


@click.command()
@click.argument("question", type=options.PLACE)
@click.argument("plan", type=options.PLACE)
@options.as_json
def judge(question: Path, plan: Path, *, as_json: bool) -> int:
    """Check a plan against every rule.

    QUESTION is a kitchen, or a file that `decide --question` wrote. PLAN is a JSON file: what `decide --json`
    printed, a plan of a dumped folder, or a bare plan, from wherever it comes. Exit code 6 if a rule is broken.
    """
    from ladleworth.decide import judge as judge_plan

    verdict = judge_plan(_question(question), _plan(plan))
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(
            {
                "stands": verdict.stands,
                "breaches": verdict.breaches,
                "costs_cents": asdict(verdict.costs) if verdict.stands else None,
                "total_cents": verdict.costs.total if verdict.stands else None,
            }
        )
    elif verdict.stands:
        total = verdict.costs.total
        click.echo(f"The plan keeps every rule. Its value is {float(total):.2f} cents (exactly {total}).")
    else:
        for breach in verdict.breaches:
            click.echo(f"broken  {breach}")
        click.echo(f"The plan does not stand: {len(verdict.breaches)} broken.")
    return 0 if verdict.stands else REFUSED


def _question(place: Path) -> Question:
    from ladleworth.decide import Question, pose
    from ladleworth.store import record_json
    from ladleworth.week import open_kitchen

    if place.suffix == ".json":
        return record_json.from_json(place.read_text(encoding="utf-8"), Question)
    return pose(open_kitchen(place))


def _plan(file: Path) -> Plan:
    from ladleworth.decide import Plan
    from ladleworth.errors import BadField
    from ladleworth.store import record_json

    try:
        data = json.loads(file.read_text(encoding="utf-8"))
    except (ValueError, RecursionError) as error:
        raise BadField(f"{file} is no JSON: {error}; name a plan's JSON file") from error
    for key in ("answer", "plan"):
        if isinstance(data, dict) and key in data:
            data = data[key]
    return record_json.from_json(json.dumps(data), Plan)
