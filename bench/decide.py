"""How good a plan, and how good a bound, in how many seconds: `decide` against other solvers on the plain week.

    python bench/decide.py                                     a short selection, in a few minutes
    python bench/decide.py "random 30/7/2" demo --limits 20 60
    python bench/decide.py --help

Run with the repository's root on PYTHONPATH (`make bench` does). Each method runs alone, in a process of its own.
Ends with exit code 1 if something measured contradicts what is known of a case (`best_known.py`).
"""

from __future__ import annotations

import argparse
import importlib.util
import os
import platform
import subprocess
import sys
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

from bench import best_known
from bench.cases import NAMES, names_like
from bench.measure import METHODS, OURS, Measured, measure

HERE = Path(__file__).resolve().parent.parent
TABLE = HERE / "docs" / "bench-decide.md"
SHORT = ("tiny #1", "tiny #2", "demo", "random 30/7/2 #1", "staples 60/7/2 #1")
SHORT_METHODS = (OURS, "plain HiGHS", "plain CBC", "plain CP-SAT")
COLUMNS = "| method | limit s | value | bound | gap % | status | s | within 2 % s | peak MB |"


def main(arguments: list[str]) -> int:
    """Measure what was asked for, print it, record it if asked to, and say whether anything contradicts."""
    asked = _asked(arguments)
    head = _head()
    print("\n".join(head), flush=True)
    runs: list[Measured] = []
    rows: list[str] = []
    before = best_known.read()
    known = before
    for case in asked.cases:
        here: list[Measured] = []
        print(f"\n{case}", flush=True)
        for limit_s in asked.limits:
            for method in asked.methods:
                run = measure(case, method, limit_s)
                here.append(run)
                print(_row(run, known.get(case)), flush=True)
        known = best_known.learn(known, here, head[0].removeprefix("## "))
        rows += ["", f"{case}{_known_words(known.get(case))}", "", COLUMNS, "|---" * 9 + "|"]
        rows += [_row(run, known.get(case)) for run in here]
        runs += here
    wrong = best_known.contradictions(known, runs)
    print("\n".join(["", *wrong] if wrong else ["", "nothing contradicts what is known"]))
    if asked.record:
        with TABLE.open("a") as table:
            table.write(
                "\n".join(["", *head, *rows, *(["", *(f"- {one}" for one in wrong)] if wrong else []), ""])
            )
        if not wrong:
            best_known.write(known)
    return 1 if wrong else 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Measure decide against other solvers on the plain week.")
    parser.add_argument(
        "cases", nargs="*", help="cases, sizes (all five seeds) or patterns; without: a selection"
    )
    parser.add_argument(
        "--limits", nargs="+", type=float, default=[10.0], metavar="S", help="seconds, for each"
    )
    parser.add_argument("--methods", nargs="+", choices=METHODS, default=list(SHORT_METHODS))
    parser.add_argument(
        "--record", action="store_true", help=f"add to docs/{TABLE.name} and bench/best_known.json"
    )
    parser.add_argument("--list", action="store_true", help="list the cases and end")
    asked = parser.parse_args(arguments)
    if asked.list:
        print("\n".join(NAMES))
        parser.exit()
    if min(asked.limits) <= 0:
        parser.error("--limits: seconds must be above 0")
    try:
        asked.cases = names_like(asked.cases or list(SHORT))
    except ValueError as unknown:
        parser.error(str(unknown))
    if "plain CP-SAT" in asked.methods and importlib.util.find_spec("ortools") is None:
        print("plain CP-SAT is left out: ortools is not installed (it is in the dependency group `bench`)")
        asked.methods.remove("plain CP-SAT")
    return asked


def _head() -> list[str]:
    def git(*words: str) -> str:
        done = subprocess.run(["git", *words], capture_output=True, text=True, check=False, cwd=HERE)
        return done.stdout.strip()

    changed = " with changes" if git("status", "--porcelain", "--", "src", "bench") else ""
    tools = ["highspy", "pulp", *(["ortools"] if importlib.util.find_spec("ortools") else [])]
    return [
        f"## {datetime.now(UTC).date()}, commit {git('rev-parse', '--short', 'HEAD')}{changed}",
        "",
        f"{len(os.sched_getaffinity(0))} cores ({platform.machine()}), Python {platform.python_version()}, "
        + ", ".join(f"{tool} {version(tool)}" for tool in tools),
    ]


def _known_words(best: best_known.Best | None) -> str:
    if best is None or best.value is None:
        return ""
    bound = "" if best.bound is None else f", bound {best.bound / 100:.2f}"
    return f": best known {best.value / 100:.2f}{bound}"


def _row(run: Measured, best: best_known.Best | None) -> str:
    def show(number: float | None, digits: int = 1) -> str:
        return "–" if number is None else f"{number:.{digits}f}"

    cells = (
        run.method,
        f"{run.limit_s:g}",
        show(None if run.value is None else run.value / 100, 2),
        show(None if run.bound is None else run.bound / 100, 2),
        show(run.gap_percent),
        "fault, see below" if run.fault else run.status,
        show(run.seconds),
        show(best_known.within(run, best)),
        show(run.peak_mb, 0),
    )
    return f"| {' | '.join(cells)} |"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
