"""Three solvers of others, each given the plain programme as it stands: HiGHS, CBC (through PuLP), CP-SAT.

Each proves to the same tolerance as far as it has one, uses two threads, and stops at the same limit, which
includes writing the programme down. What a solver calls a plan is judged, and the judge's cost is its value.
"""

from __future__ import annotations

import math
import re
import tempfile
import time
import warnings
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

from bench.plain_plan import plan_of
from bench.plain_week import Exact, PlainWeek, write_down

from ladleworth.decide import Plan, Question, judge

THREADS = 2
ABS_GAP_CENTS = 1e-4
"""What counts as proven, as in `ladleworth.decide`."""

MONEY_SCALE = 10**6
"""CP-SAT counts money in millionths of a cent: it takes whole numbers only."""


@dataclass(frozen=True, slots=True)
class Solved:
    """What a solver leaves behind: figures of the columns (None: no plan), a bound in cents, and if it is proven."""

    values: tuple[float, ...] | None
    bound: float | None
    proven: bool
    infeasible: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """A judged outcome: cost in cents by the judge (None: no plan), bound, proof, seconds, and what breaks a rule."""

    cents: Fraction | None
    bound: float | None
    proven: bool
    infeasible: bool
    seconds: float
    breaches: tuple[str, ...] = ()
    plan: Plan | None = None


def solve_plainly(question: Question, solver: str, limit_s: float) -> Outcome:
    """Write the question down, hand it to a solver, and judge what comes back.

    Parameters
    ----------
    question, solver, limit_s
        `solver` is one of `SOLVERS`; the limit is for all of it, in seconds.

    Returns
    -------
    Outcome
        A plan that breaks a rule has no cost; its breaches say why.

    Raises
    ------
    NotWrittenDown
        If the question has rules that the plain programme leaves out.
    """
    began = time.monotonic()
    week = write_down(question)
    left = limit_s - (time.monotonic() - began)
    solved = SOLVERS[solver](week, left) if left > 0 else Solved(None, None, proven=False)
    seconds = time.monotonic() - began
    if solved.values is None:
        return Outcome(None, solved.bound, solved.proven, solved.infeasible, seconds)
    plan = plan_of(week, solved.values)
    verdict = judge(question, plan)
    breaches = tuple(str(breach) for breach in verdict.breaches)
    cents = None if breaches else verdict.costs.total
    return Outcome(cents, solved.bound, solved.proven, solved.infeasible, seconds, breaches, plan)


def by_highs(week: PlainWeek, limit_s: float) -> Solved:
    """Solve by HiGHS."""
    import highspy

    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(week.columns), len(week.rows)
    lp.col_cost_ = [float(c.cost * c.step) for c in week.columns]
    lp.col_lower_ = [0.0] * len(week.columns)
    lp.col_upper_ = [c.most / c.step for c in week.columns]
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    lp.integrality_ = [kinds[c.whole] for c in week.columns]
    lp.row_lower_ = [-math.inf if r.low is None else float(r.low / r.scale) for r in week.rows]
    lp.row_upper_ = [math.inf if r.high is None else float(r.high / r.scale) for r in week.rows]
    starts, at, factors = [0], [], []
    for row in week.rows:
        for column, factor in row.terms:
            at.append(column)
            factors.append(_float(week, column, factor, row.scale))
        starts.append(len(at))
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_, lp.a_matrix_.index_, lp.a_matrix_.value_ = starts, at, factors
    lp.offset_ = float(week.constant)
    highs: Any = highspy.Highs()  # type: ignore[no-untyped-call]
    options = {
        "output_flag": False,
        "threads": THREADS,
        "time_limit": float(limit_s),
        "mip_rel_gap": 0.0,
        "mip_abs_gap": ABS_GAP_CENTS,
    }
    for name, value in options.items():
        highs.setOptionValue(name, value)
    if highs.passModel(lp) == highspy.HighsStatus.kError:
        raise RuntimeError("HiGHS does not take the programme")
    highs.run()
    status, info = highs.getModelStatus(), highs.getInfo()
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    bound = info.mip_dual_bound if math.isfinite(info.mip_dual_bound) else None
    if not found:
        infeasible = status == highspy.HighsModelStatus.kInfeasible
        return Solved(None, None if infeasible else bound, proven=infeasible, infeasible=infeasible)
    values = tuple(v * c.step for v, c in zip(highs.getSolution().col_value, week.columns, strict=True))
    return Solved(values, bound, proven=status == highspy.HighsModelStatus.kOptimal)


def _float(week: PlainWeek, column: int, factor: Exact, scale: int) -> float:
    return float(Fraction(factor * week.columns[column].step, scale))


def by_cbc(week: PlainWeek, limit_s: float, *, preprocess: bool = True) -> Solved:
    """Solve by the CBC that comes with PuLP; its bound stands in its log alone.

    What it calls proven is to be doubted: with its preprocessing on, CBC 2.10.3 gave 2 of 240 small weeks a
    best plan that was not the best, and called another, possible one impossible (`tests/model/test_plain_week.py`).
    Without it, it agreed with HiGHS and CP-SAT on all of them, but is slower to find plans on large ones.
    """
    began = time.monotonic()
    import pulp  # type: ignore[import-untyped]

    with warnings.catch_warnings(), tempfile.TemporaryDirectory() as folder:
        warnings.simplefilter("ignore", DeprecationWarning)  # PuLP announces its own next release
        problem = pulp.LpProblem("week", pulp.LpMinimize)
        columns = [
            pulp.LpVariable(f"x{n}", 0, c.most / c.step, "Integer" if c.whole else "Continuous")
            for n, c in enumerate(week.columns)
        ]
        problem += pulp.LpAffineExpression(
            [(x, float(c.cost * c.step)) for x, c in zip(columns, week.columns, strict=True) if c.cost]
        )
        for row in week.rows:
            terms: dict[int, float] = {}
            for column, factor in row.terms:
                terms[column] = terms.get(column, 0.0) + _float(week, column, factor, row.scale)
            amount = pulp.LpAffineExpression([(columns[column], factor) for column, factor in terms.items()])
            if row.low is not None and row.low == row.high:
                problem += amount == float(row.low / row.scale)
                continue
            if row.low is not None:
                problem += amount >= float(row.low / row.scale)
            if row.high is not None:
                problem += amount <= float(row.high / row.scale)
        log = Path(folder) / "log"
        left = limit_s - (time.monotonic() - began)
        if left <= 0:
            return Solved(None, None, proven=False)
        problem.solve(
            pulp.PULP_CBC_CMD(
                msg=False,
                threads=THREADS,
                timeLimit=left,
                gapRel=0,
                gapAbs=ABS_GAP_CENTS,
                logPath=str(log),
                options=[] if preprocess else ["preprocess off"],
            )
        )
        said = log.read_text()
    constant = float(week.constant)
    if problem.status == pulp.LpStatusInfeasible:
        return Solved(None, None, proven=True, infeasible=True)
    if problem.sol_status not in (pulp.LpSolutionOptimal, pulp.LpSolutionIntegerFeasible):
        return Solved(None, _cbc_bound(said, constant), proven=False)
    values = tuple((x.value() or 0.0) * c.step for x, c in zip(columns, week.columns, strict=True))
    proven = problem.sol_status == pulp.LpSolutionOptimal
    bound = pulp.value(problem.objective) + constant if proven else _cbc_bound(said, constant)
    return Solved(values, bound, proven)


def _cbc_bound(log: str, constant: float) -> float | None:
    """Read the bound in the result that CBC prints at its end."""
    said = re.search(r"^Lower bound:\s+(-?[\d.]+(?:e[+-]?\d+)?)\s*$", log, re.MULTILINE)
    return None if said is None else float(said[1]) + constant


def by_cp_sat(week: PlainWeek, limit_s: float) -> Solved:
    """Solve by CP-SAT, which counts everything in whole numbers; costs are rounded to a millionth of a cent.

    Its bound is lowered by as much as that rounding can come to.
    """
    began = time.monotonic()
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    columns = [model.new_int_var(0, c.most, c.name) for c in week.columns]
    for row in week.rows:
        exact = [factor for _, factor in row.terms]
        limits = [limit for limit in (row.low, row.high) if limit is not None]
        times = math.lcm(*(Fraction(one).denominator for one in (*exact, *limits)))
        low = cp_model.INT_MIN if row.low is None else int(row.low * times)
        high = cp_model.INT_MAX if row.high is None else int(row.high * times)
        amount = cp_model.LinearExpr.weighted_sum(
            [columns[column] for column, _ in row.terms], [int(factor * times) for factor in exact]
        )
        model.add_linear_constraint(amount, low, high)
    costs = [round(c.cost * MONEY_SCALE) for c in week.columns]
    model.minimize(cp_model.LinearExpr.weighted_sum(columns, costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = THREADS
    solver.parameters.max_time_in_seconds = max(0.01, limit_s - (time.monotonic() - began))
    status = solver.solve(model)
    if status == cp_model.MODEL_INVALID:
        raise RuntimeError(f"CP-SAT does not take the programme: {model.validate()}")
    if status == cp_model.INFEASIBLE:
        return Solved(None, None, proven=True, infeasible=True)
    rounded = float(sum(_rounding(week, costs)))
    bound = solver.best_objective_bound / MONEY_SCALE - rounded + float(week.constant)
    if status == cp_model.UNKNOWN:
        return Solved(None, bound, proven=False)
    return Solved(tuple(float(solver.value(x)) for x in columns), bound, proven=status == cp_model.OPTIMAL)


def _rounding(week: PlainWeek, costs: Sequence[int]) -> list[Fraction]:
    """How much each column's rounded cost may overstate it, at most."""
    return [
        max(Fraction(0), Fraction(cost, MONEY_SCALE) - column.cost) * column.most
        for cost, column in zip(costs, week.columns, strict=True)
    ]


SOLVERS: dict[str, Callable[[PlainWeek, float], Solved]] = {
    "plain HiGHS": by_highs,
    "plain CBC": by_cbc,
    "plain CBC, unprocessed": partial(by_cbc, preprocess=False),
    "plain CP-SAT": by_cp_sat,
}
UNTRUSTED = ("plain CBC",)
"""Whose bound and proof are shown, but never believed."""
