"""The shortest timetable of a project by CP-SAT; what comes out is judged before anyone sees it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from importlib.metadata import version
from typing import TYPE_CHECKING

from ladleworth.cookday.answer import Status
from ladleworth.cookday.lags import tightened
from ladleworth.cookday.project import Project, ProjectAnswer, ProjectTime, Resource
from ladleworth.cookday.project_draft import draft, ends_at, left_shifted
from ladleworth.cookday.project_judge import judge_project, makespan
from ladleworth.cookday.project_lags import Windows, reasons, windows_of
from ladleworth.errors import JudgeRefused, SolverFailed

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

LARGE = 40
"""From so many activities on, the solver begins from a draft; smaller projects it was seen to do sooner without."""
NONE = "none needed"
NO_TIMETABLE = "no starts keep the lags and the capacities together"
NO_TIMETABLE_BY = "no starts keep the lags and the capacities together and end by the deadline {}"


def schedule(project: Project, *, seconds: float = 20.0, seed: int = 0) -> ProjectAnswer:
    """Find the timetable of least makespan.

    One search is run, by one worker: on two cores, several took longer over ft10 and over projects of 20 activities.
    The same project and seed get the same timetable each time, unless the clock ends the search.

    Parameters
    ----------
    project
        The question.
    seconds
        The clock limit of the solver.
    seed
        The solver's random seed.

    Returns
    -------
    ProjectAnswer
        Judged. Impossible where `reasons` finds a reason, which takes no solver, or the solver proves it.

    Raises
    ------
    JudgeRefused
        If the timetable breaks a rule: a defect, never shown as an answer.
    SolverFailed
        If CP-SAT ends in a state that is no answer.
    """
    why_not = reasons(project)
    if why_not:
        return ProjectAnswer(Status.IMPOSSIBLE, None, None, None, 0.0, seed, NONE, why_not)
    if not project.activities:
        return ProjectAnswer(Status.PROVEN, (), 0, 0, 0.0, seed, NONE)
    windows = windows_of(project)
    first = draft(project, windows)
    if first is None:
        run = _run(project, windows, seconds, seed)
    elif ends_at(project, first) == windows.least:
        run = _Run(first, windows.least, proven=True, seconds=0.0, solver=NONE)
    else:
        run = _run(project, windows.within(ends_at(project, first)), seconds, seed, first)
    return _answer(project, windows, run, seed)


def can_be(project: Project, seconds: float, seed: int = 0) -> tuple[bool | None, float]:
    """Tell whether a project has any timetable (None: not found out in the time), and what seconds that took."""
    if reasons(project):
        return False, 0.0
    windows = windows_of(project)
    if draft(project, windows) is not None:
        return True, 0.0
    run = _run(project, windows, seconds, seed, least=False)
    return (True if run.starts is not None else False if run.proven else None), run.seconds


def solver() -> str:
    """Name the solver and its version."""
    return f"CP-SAT {version('ortools')}"


@dataclass(frozen=True, slots=True)
class _Run:
    """How a run of the solver ended: the best starts (None: none found), the bound, whether nothing better exists."""

    starts: tuple[int, ...] | None
    bound: int
    proven: bool
    seconds: float
    solver: str


def _run(
    project: Project,
    windows: Windows,
    seconds: float,
    seed: int,
    first: tuple[int, ...] | None = None,
    *,
    least: bool = True,
) -> _Run:
    """Run CP-SAT for the least makespan, or without `least` for any timetable at all; `first` are starts to begin from."""
    from ortools.sat.python import cp_model

    model, columns = _model(project, windows, least=least)
    if first is not None and len(first) >= LARGE:
        for column, start in zip(columns, first, strict=True):
            model.add_hint(column, start)
    engine = cp_model.CpSolver()
    settings = engine.parameters
    settings.num_workers, settings.random_seed = 1, seed % 2**31
    settings.max_time_in_seconds = seconds
    settings.catch_sigint_signal = False  # the interrupt key belongs to whoever calls
    settings.use_strong_propagation_in_disjunctive = True  # ft10: in 3 s in place of more than 30
    settings.cp_model_probing_level = 0  # it took longer than it saved
    if any(resource.capacity > 1 for resource in project.resources):
        settings.linearization_level = 0
    status = engine.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE, cp_model.UNKNOWN):
        raise SolverFailed(f"CP-SAT ended with {engine.status_name(status)}: {model.validate()}")
    if status == cp_model.INFEASIBLE and first is not None:
        raise SolverFailed("CP-SAT finds no timetable for a project that has one")
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    known = engine.best_objective_bound if least and status != cp_model.INFEASIBLE else -math.inf
    return _Run(
        tuple(engine.value(column) for column in columns) if found else first,
        max(windows.least, math.ceil(known - 1e-6)) if math.isfinite(known) else windows.least,
        status in (cp_model.OPTIMAL, cp_model.INFEASIBLE),
        engine.wall_time,
        solver(),
    )


def _model(
    project: Project, windows: Windows, *, least: bool
) -> tuple[cp_model.CpModel, list[cp_model.IntVar]]:
    """Write the project down: a start for each activity, one rule after another, and the makespan to be least."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    starts = [
        model.new_int_var(low, high, "") for low, high in zip(windows.earliest, windows.latest, strict=True)
    ]
    for edge in tightened([tied.edge for tied in windows.ties]):
        model.add(starts[edge.second] - starts[edge.first] >= edge.least)
    spans = [
        model.new_fixed_size_interval_var(start, activity.duration, "")
        for start, activity in zip(starts, project.activities, strict=True)
    ]
    for resource in project.resources:
        _capacity(model, project, resource, spans)
    for group in windows.apart:
        model.add_no_overlap([spans[number] for number in group])
    if not least:
        return model, starts
    last = model.new_int_var(windows.least, windows.horizon, "")
    for start, activity in zip(starts, project.activities, strict=True):
        model.add(last >= start + activity.duration)
    model.minimize(last)
    return model, starts


def _capacity(
    model: cp_model.CpModel, project: Project, resource: Resource, spans: list[cp_model.IntervalVar]
) -> None:
    """Keep a resource within its capacity.

    What has a duration of 0 holds nothing, and is left out: in the solver's no-overlap it could not stand inside
    another. No-overlap is only right where all demands are 1 of 1, as they are here after `reasons`: it says nothing of
    a demand above the capacity.
    """
    held = [
        (span, activity.demand(resource.name))
        for span, activity in zip(spans, project.activities, strict=True)
        if activity.duration and activity.demand(resource.name)
    ]
    takers, amounts = [span for span, _ in held], [amount for _, amount in held]
    if sum(amounts) <= resource.capacity:
        return
    if resource.capacity == 1 and max(amounts) <= 1:
        model.add_no_overlap(takers)
    else:
        model.add_cumulative(takers, amounts, resource.capacity)


def _times(project: Project, starts: tuple[int, ...]) -> tuple[ProjectTime, ...]:
    return tuple(
        ProjectTime(activity.name, start, start + activity.duration)
        for activity, start in zip(project.activities, starts, strict=True)
    )


def _answer(project: Project, windows: Windows, run: _Run, seed: int) -> ProjectAnswer:
    """Let the judge pass on what was found, or say that nothing was."""
    if run.starts is None:
        return _without(project, windows, run, seed)
    times = _times(project, left_shifted(project, windows, run.starts))
    breaches = judge_project(project, times)
    if breaches:
        raise JudgeRefused(map(str, breaches))
    found = makespan(times)
    if run.bound > found:
        raise SolverFailed(
            f"CP-SAT calls {run.bound} the least makespan of a project that has one of {found}"
        )
    status = Status.PROVEN if run.bound == found else Status.GOOD
    return ProjectAnswer(status, times, found, run.bound, run.seconds, seed, run.solver)


def _without(project: Project, windows: Windows, run: _Run, seed: int) -> ProjectAnswer:
    """Answer where no timetable was found: there is none, or the time was too short to say."""
    if not run.proven:
        return ProjectAnswer(Status.OUT_OF_TIME, None, None, run.bound, run.seconds, seed, run.solver)
    by = project.deadline is not None and windows.horizon == project.deadline
    why_not = NO_TIMETABLE_BY.format(project.deadline) if by else NO_TIMETABLE
    return ProjectAnswer(Status.IMPOSSIBLE, None, None, None, run.seconds, seed, run.solver, (why_not,))
