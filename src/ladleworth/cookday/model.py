"""CP-SAT: the only place of the cooking day that knows a solver. A sheet goes in, values and bounds come out."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.metadata import version
from threading import Lock
from typing import Any

from ladleworth.cookday.sheet import Row, Sheet, Span, Sum
from ladleworth.errors import SolverFailed


@dataclass(frozen=True, slots=True)
class Manner:
    """How CP-SAT goes about it: what one kind of sheet is quick with, another is slow with.

    Parameters
    ----------
    relaxation
        How much it learns from the model without whole numbers: 0 nothing, 1 some, 2 all.
    disjunctive
        Whether it thinks hard about what can come before what where only one can be at work at once.
    cumulative
        Whether it thinks hard about what fits where several can be at work at once.
    prepare, probe
        Whether it simplifies the sheet before it begins, and tries out what each choice would lead to.
    """

    relaxation: int = 0
    disjunctive: bool = True
    cumulative: bool = False
    prepare: bool = True
    probe: bool = True


@dataclass(frozen=True, slots=True)
class Run:
    """How a run of the solver ended.

    `values` are those of the best solution found, one a column (None: none found); `bound` is below every solution's
    total (None: none known); `proven` says that nothing better exists, or no solution at all.
    """

    values: tuple[int, ...] | None
    bound: int | None
    proven: bool

    @property
    def impossible(self) -> bool:
        """Whether it is proven that there is no solution."""
        return self.proven and self.values is None


class Halt:
    """Stops a run from another thread, before it begins or while it goes on."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._halted = False
        self._engine: Any = None

    def stop(self) -> None:
        """Stop the run."""
        with self._lock:
            self._halted = True
            if self._engine is not None:
                self._engine.stop_search()

    def watch(self, engine: Any) -> bool:
        """Take over an engine that is about to run; say whether it may."""
        with self._lock:
            self._engine = engine
            return not self._halted


class Clock:
    """The seconds of a search."""

    def __init__(self, seconds: float) -> None:
        self._began = time.monotonic()
        self.seconds = seconds

    def passed(self) -> float:
        """Seconds since it began."""
        return time.monotonic() - self._began

    def left(self) -> float:
        """Seconds left, none below 0."""
        return max(0.0, self.seconds - self.passed())


def solver() -> str:
    """Name the solver and its version."""
    return f"CP-SAT {version('ortools')}"


def run(
    sheet: Sheet,
    aim: Sum,
    work: float,
    *,
    manner: Manner = Manner(),  # frozen
    most: int | None = None,
    clock: Clock | None = None,
    seed: int = 0,
    hint: Sequence[int] | None = None,
    halt: Halt | None = None,
) -> Run:
    """Hand a sheet to CP-SAT: make a total as small as possible, or no more than a number.

    Parameters
    ----------
    sheet, aim
        What must hold, and the total.
    work
        The most work, by the solver's own measure, which is the same on every machine: the run ends alike everywhere.
    manner
        How to go about it.
    most
        The first solution with a total of no more than this will do (None: the least total is wanted).
    clock
        Stops the run where its seconds are over (None: the work alone counts).
    seed
        The solver's random seed.
    hint
        Values to begin from, one a column; they need not keep all the rules.
    halt
        Stops the run from another thread.

    Raises
    ------
    SolverFailed
        If CP-SAT calls the sheet no model.
    """
    from ortools.sat.python import cp_model

    loaded = _Loaded(cp_model, sheet)
    if most is not None:
        loaded.row(Row(aim, None, most))
    elif aim.terms:
        loaded.model.minimize(loaded.total(aim))
    for column, value in zip(loaded.columns, hint or (), strict=hint is not None):
        loaded.model.add_hint(column, value)
    engine = cp_model.CpSolver()
    _set(engine.parameters, manner, seed)
    engine.parameters.max_deterministic_time = work
    if clock is not None:
        engine.parameters.max_time_in_seconds = clock.left()
    if halt is not None and not halt.watch(engine):
        return Run(None, None, proven=False)
    status = engine.solve(loaded.model)
    if status == cp_model.MODEL_INVALID:
        raise SolverFailed(f"CP-SAT calls the sheet no model: {loaded.model.validate()}")
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    values = tuple(engine.value(column) for column in loaded.columns) if found else None
    bound = None
    if most is None and status != cp_model.INFEASIBLE:
        bound = round(engine.best_objective_bound) if aim.terms else aim.constant
    return Run(values, bound, status in (cp_model.OPTIMAL, cp_model.INFEASIBLE))


def _set(parameters: Any, manner: Manner, seed: int) -> None:
    parameters.num_workers = 1
    parameters.random_seed = seed
    parameters.linearization_level = manner.relaxation
    parameters.use_dynamic_precedence_in_disjunctive = manner.disjunctive
    parameters.use_strong_propagation_in_disjunctive = manner.disjunctive
    parameters.use_overload_checker_in_cumulative = True
    parameters.use_timetable_edge_finding_in_cumulative = manner.cumulative
    parameters.cp_model_presolve = manner.prepare
    if not manner.probe:
        parameters.cp_model_probing_level = 0


class _Loaded:
    """A sheet as a model of CP-SAT."""

    def __init__(self, cp_model: Any, sheet: Sheet) -> None:
        self.model = cp_model.CpModel()
        self._sums = cp_model.LinearExpr
        self.columns = [
            self.model.new_bool_var("") if (low, high) == (0, 1) else self.model.new_int_var(low, high, "")
            for low, high in sheet.bounds
        ]
        self._spans = [self._span(span) for span in sheet.spans]
        for row in sheet.rows:
            self.row(row)
        for clause in sheet.clauses:
            self.model.add_bool_or([self._literal(literal) for literal in clause])
        for numbers in sheet.in_turn:
            self.model.add_no_overlap([self._spans[n] for n in numbers])
        for takers, room in sheet.together:
            self.model.add_cumulative(
                [self._spans[n] for n, _ in takers], [takes for _, takes in takers], room
            )
        for chains in sheet.chains:
            arcs = [(one, other, self._literal(literal)) for one, other, literal in chains.arcs]
            (self.model.add_multiple_circuit if chains.several else self.model.add_circuit)(arcs)
        for least, others in sheet.least_of:
            self.model.add_min_equality(self.total(least), [self.total(other) for other in others])

    def _literal(self, literal: int) -> Any:
        return self.columns[literal] if literal >= 0 else ~self.columns[~literal]

    def total(self, total: Sum) -> Any:
        """Write a total for CP-SAT."""
        columns = [self.columns[column] for column, _ in total.terms]
        return self._sums.weighted_sum(columns, [a for _, a in total.terms]) + total.constant

    def _span(self, span: Span) -> Any:
        start, size, end = self.total(span.start), self.total(span.size), self.total(span.end)
        if span.when is None:
            return self.model.new_interval_var(start, size, end, "")
        return self.model.new_optional_interval_var(start, size, end, self._literal(span.when), "")

    def row(self, row: Row) -> None:
        """Write a row for CP-SAT."""
        total = self.total(row.total)
        if row.low is not None and row.low == row.high:
            sides = [total == row.low]
        else:
            sides = [total >= row.low] if row.low is not None else []
            sides += [total <= row.high] if row.high is not None else []
        for side in sides:
            asked = self.model.add(side)
            if row.when:
                asked.only_enforce_if([self._literal(literal) for literal in row.when])
