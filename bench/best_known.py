"""The best plan and the best bound known of each case, and what may not be true beside them."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

from bench.measure import Measured
from bench.plain_solvers import UNTRUSTED

FILE = Path(__file__).resolve().parent / "best_known.json"
TOLERANCE_CENTS = 0.05
"""How far apart two optima may lie: every solver keeps to its rows by about a millionth only."""


@dataclass(frozen=True, slots=True)
class Best:
    """The cheapest judged plan and the highest bound of a case, in cents, and which method found each."""

    mark: str
    value: float | None = None
    value_by: str = ""
    bound: float | None = None
    bound_by: str = ""


def read(path: Path | None = None) -> dict[str, Best]:
    """Read what is known; nothing if there is no file yet."""
    path = path or FILE
    if not path.exists():
        return {}
    return {case: Best(**fields) for case, fields in json.loads(path.read_text()).items()}


def write(known: dict[str, Best], path: Path | None = None) -> None:
    """Write what is known, cases in order."""
    (path or FILE).write_text(
        json.dumps({case: asdict(known[case]) for case in sorted(known)}, indent=1) + "\n"
    )


def learn(known: dict[str, Best], runs: Iterable[Measured], words: str) -> dict[str, Best]:
    """Take over what is better than what is known; a question with other figures than before begins anew.

    Parameters
    ----------
    known, runs
        What was known, and what has been measured; a run with a fault teaches nothing.
    words
        When and with what it was measured.
    """
    better = dict(known)
    for run in runs:
        if run.fault or not run.mark:
            continue
        best = better.get(run.case)
        if best is None or best.mark != run.mark:
            best = Best(run.mark)
        by = f"{run.method}, {run.limit_s:g} s, {words}"
        if run.value is not None and (best.value is None or run.value < best.value - 1e-6):
            best = Best(best.mark, run.value, by, best.bound, best.bound_by)
        trusted = run.method not in UNTRUSTED
        if trusted and run.bound is not None and (best.bound is None or run.bound > best.bound + 1e-6):
            best = Best(best.mark, best.value, best.value_by, run.bound, by)
        better[run.case] = best
    return better


def contradictions(known: dict[str, Best], runs: Iterable[Measured]) -> list[str]:
    """Say what in these runs cannot be true beside what is known, themselves included.

    Parameters
    ----------
    known
        What is known with these runs taken in (`learn`).
    runs
        What has been measured.

    Returns
    -------
    list of str
        Faults, proofs of a plan that is not the best, bounds above a plan, plans below a bound, and possible
        weeks called impossible. The proofs of `UNTRUSTED` solvers are let pass.
    """
    wrong = []
    for run in runs:
        words = f"{run.case}, {run.method}, {run.limit_s:g} s"
        if run.fault:
            wrong.append(f"{words}: {run.fault.strip()}")
            continue
        best = known.get(run.case)
        if best is None or best.mark != run.mark:
            continue
        if best.bound is not None and run.value is not None and run.value < best.bound - TOLERANCE_CENTS:
            wrong.append(f"{words}: costs {run.value:.4f}; {best.bound_by} has a bound of {best.bound:.4f}")
        if run.method in UNTRUSTED or best.value is None:
            continue
        if run.proven and run.value is not None and run.value > best.value + TOLERANCE_CENTS:
            wrong.append(f"{words}: {run.value:.4f} is called best; {best.value_by} found {best.value:.4f}")
        if run.proven and run.value is None:
            wrong.append(f"{words}: is called impossible; {best.value_by} found {best.value:.4f}")
        if run.bound is not None and run.bound > best.value + TOLERANCE_CENTS:
            wrong.append(f"{words}: bound {run.bound:.4f} is above the {best.value:.4f} of {best.value_by}")
    return wrong


def within(run: Measured, best: Best | None, percent: float = 2.0) -> float | None:
    """Seconds until the plan was within so many percent of the best known; None if never, or not told."""
    if best is None or best.value is None or run.track is None:
        return None
    enough = best.value + percent / 100 * max(1.0, best.value + run.worth_cents)
    return next((seconds for seconds, value in run.track if value <= enough), None)
