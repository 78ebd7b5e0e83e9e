"""How good a plan, and how good a bound, in how many seconds: `decide` against the exact programme alone.

The exact programme handed to HiGHS as it is (one thread, same limit, same run) is the plain method that a
competent user would write. Prints a table, for the cases named as arguments or for all; `--append` adds its rows to docs/bench-decide.md.
"""

from __future__ import annotations

import os
import platform
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from bench.kitchens import kitchen_like

from ladleworth.decide import Question, decide, pose
from ladleworth.decide.model import build, run

HERE = Path(__file__).resolve().parent.parent
TABLE = HERE / "docs" / "bench-decide.md"


def demo() -> Question:
    """The demo kitchen's week."""
    from ladleworth.store import read_folder

    return pose(read_folder(HERE / "examples" / "demo").without_faults())


CASES: dict[str, Callable[[], Question]] = {
    "demo kitchen": demo,
    "12 dishes, 2 eaters, 7 days #1": lambda: kitchen_like(1, dishes=12, meals=("lunch", "dinner")),
    "24 dishes, 2 eaters, 7 days #1": lambda: kitchen_like(1, containers=24),
    "24 dishes, 2 eaters, 7 days #2": lambda: kitchen_like(2, containers=24),
    "24 dishes, 2 eaters, 7 days #3": lambda: kitchen_like(3, containers=24),
}


def measure(name: str, question: Question, seconds: float) -> str:
    """Run both on one question and write a row of the table."""
    ours = decide(question, seconds)
    began = time.monotonic()
    model = build(question)
    plain = run(model.sheet, seconds - (time.monotonic() - began))
    worth = None
    if plain.values is not None:
        pairs = zip(model.sheet.cost, plain.values, strict=True)
        worth = sum(c * v for c, v in pairs) + model.sheet.constant

    def show(value: float | None) -> str:
        return "none" if value is None else f"{value / 100:.2f}"

    value = None if ours.costs is None else float(ours.costs.total)
    return (
        f"| {name} | {seconds:g} | {show(value)} | {show(ours.bound)} | {ours.status.value} | {ours.seconds:.1f} "
        f"| {show(worth)} | {show(plain.bound)} | {'proven' if plain.proven else 'open'} | {plain.seconds:.1f} |"
    )


def main() -> None:
    """Measure every case at 5 and 20 seconds."""
    commit = subprocess.run(
        ["git", "rev-parse", "--short", "HEAD"], capture_output=True, text=True, check=False, cwd=HERE
    ).stdout.strip()
    head = (
        f"\n{datetime.now(UTC).date()}, commit {commit}, Python {platform.python_version()}, "
        f"{len(os.sched_getaffinity(0))} cores, value and bound in money\n\n"
        "| question | limit s | value | bound | status | s | plain value | plain bound | plain | plain s |\n"
        "|---|---|---|---|---|---|---|---|---|---|"
    )
    rows = [head]
    print(head)
    wanted = [case for case in sys.argv[1:] if case in CASES]
    for name, make in CASES.items():
        if wanted and name not in wanted:
            continue
        question = make()
        for seconds in (5.0, 20.0):
            rows.append(measure(name, question, seconds))
            print(rows[-1], flush=True)
    if "--append" in sys.argv:
        with TABLE.open("a") as table:
            table.write("\n".join(rows) + "\n")


if __name__ == "__main__":
    main()
