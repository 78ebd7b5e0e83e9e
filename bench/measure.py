"""One method on one question, in a process of its own: what it found, when, and what memory it took."""

from __future__ import annotations

import contextlib
import inspect
import multiprocessing
import os
import signal
import sys
import time
import traceback
from collections.abc import Iterator
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from bench.cases import mark_of, question_of, worth_on_hand
from bench.plain_solvers import SOLVERS, solve_plainly
from bench.plain_week import NotWrittenDown

from ladleworth.decide import Question, Status, decide, judge

OURS = "decide"
METHODS = (OURS, *SOLVERS)
GRACE_S = 120.0
"""How much longer than its limit a method may take before its process is ended."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What a method made of a case: cents, seconds, MB; `track` is (seconds, cents) of each better plan it told of.

    `mark` and `worth_cents` are the question's own (`cases.py`). A `fault` is whatever should not have happened.
    """

    case: str
    method: str
    limit_s: float
    value: float | None = None
    bound: float | None = None
    proven: bool = False
    status: str = "no answer"
    seconds: float = 0.0
    track: tuple[tuple[float, float], ...] | None = None
    peak_mb: float | None = None
    mark: str = ""
    worth_cents: float = 0.0
    fault: str = ""

    @property
    def gap_percent(self) -> float | None:
        """How far the plan may be from the best, in percent of what the week costs and takes from stock."""
        if self.value is None or self.bound is None:
            return None
        return 100 * max(0.0, self.value - self.bound) / max(1.0, self.value + self.worth_cents)


def measure(case: str, method: str, limit_s: float) -> Measured:
    """Run a method on a case in a process of its own.

    Parameters
    ----------
    case, method, limit_s
        A name of `cases.NAMES`, one of `METHODS`, and seconds.

    Returns
    -------
    Measured
        With a fault if the process did not end as it should.
    """
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    process = context.Process(target=_run, args=(theirs, case, method, limit_s))
    process.start()
    theirs.close()
    assert process.pid is not None
    others: dict[int, float] = {}
    patience = time.monotonic() + limit_s + GRACE_S
    while not ours.poll(0.1) and process.is_alive() and time.monotonic() < patience:
        for pid in _below(process.pid):
            others[pid] = max(others.get(pid, 0.0), _peak_mb(pid) or 0.0)
    found: Measured | None = None
    if ours.poll(0):
        try:
            found = ours.recv()
        except EOFError:
            found = None
    if found is None and process.is_alive():
        for pid in [*_below(process.pid), process.pid]:
            with contextlib.suppress(ProcessLookupError):
                os.kill(pid, signal.SIGTERM)
        found = Measured(case, method, limit_s, fault=f"had to be ended {GRACE_S:g} s after its limit")
    process.join()
    if found is None:
        found = Measured(case, method, limit_s, fault=f"its process ended with exit code {process.exitcode}")
    if found.peak_mb is None:
        return found
    fields = {name: getattr(found, name) for name in Measured.__slots__}
    return Measured(**(fields | {"peak_mb": found.peak_mb + sum(others.values())}))


def _run(to: Connection, case: str, method: str, limit_s: float) -> None:
    """Measure inside the process; standard output is closed to whatever a solver likes to say."""
    sys.stdout.flush()
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    try:
        question = question_of(case)
        run = _ours if method == OURS else _theirs
        found = run(question, case, method, limit_s)
    except Exception:  # noqa: BLE001  # whatever it is, the table and the exit code say so
        found = Measured(case, method, limit_s, fault=traceback.format_exc(limit=-3))
    to.send(found)
    to.close()


def _ours(question: Question, case: str, method: str, limit_s: float) -> Measured:
    track: list[tuple[float, float]] = []
    reports = "report" in inspect.signature(decide).parameters
    began = time.monotonic()

    def note(progress: object) -> None:
        value = getattr(progress, "value", None)
        if value is not None and (not track or float(value) < track[-1][1]):
            track.append((time.monotonic() - began, float(value)))

    wanted: dict[str, Any] = {"report": note} if reports else {}
    answer = decide(question, seconds=limit_s, **wanted)
    seconds = time.monotonic() - began
    fault, value = "", None
    if answer.plan is not None:
        verdict = judge(question, answer.plan)
        value = float(verdict.costs.total)
        fault = "; ".join(str(breach) for breach in verdict.breaches)
        if answer.costs != verdict.costs:
            fault = f"{fault} its costs are not the judge's".strip()
    return Measured(
        case,
        method,
        limit_s,
        value,
        answer.bound,
        answer.status in (Status.PROVEN, Status.INFEASIBLE),
        answer.status.value,
        seconds,
        tuple(track) if reports else None,
        _peak_mb(os.getpid()),
        mark_of(question),
        float(worth_on_hand(question)),
        fault,
    )


def _theirs(question: Question, case: str, method: str, limit_s: float) -> Measured:
    try:
        outcome = solve_plainly(question, method, limit_s)
    except NotWrittenDown as missing:
        return Measured(case, method, limit_s, status=f"not tried: {missing}")
    status = "impossible" if outcome.infeasible else "proven" if outcome.proven else "open"
    return Measured(
        case,
        method,
        limit_s,
        None if outcome.cents is None else float(outcome.cents),
        outcome.bound,
        outcome.proven,
        status,
        outcome.seconds,
        None,
        _peak_mb(os.getpid()),
        mark_of(question),
        float(worth_on_hand(question)),
        "; ".join(outcome.breaches),
    )


def _peak_mb(pid: int) -> float | None:
    """The most memory a process has held; None where the system does not say, or the process is gone."""
    try:
        lines = Path(f"/proc/{pid}/status").read_text().splitlines()
    except OSError:
        return None
    return next((int(line.split()[1]) / 1024 for line in lines if line.startswith("VmHWM:")), None)


def _below(pid: int) -> Iterator[int]:
    """Processes that a process has started, and those that they have."""
    for listed in Path(f"/proc/{pid}/task").glob("*/children"):
        try:
            below = [int(one) for one in listed.read_text().split()]
        except OSError:
            continue
        for one in below:
            yield one
            yield from _below(one)
