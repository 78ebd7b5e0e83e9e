"""HiGHS: the only place of the decision that knows a solver. A sheet goes in, values and bounds come out."""

from __future__ import annotations

import math
import time
from dataclasses import dataclass
from enum import Enum
from importlib.metadata import version
from typing import Any

from ladleworth.decide.hush import hushed
from ladleworth.decide.sheet import Sheet
from ladleworth.errors import SolverFailed


@dataclass(frozen=True, slots=True)
class Run:
    """How a run of the solver ended.

    `values` are those of the best solution found, one a column (None: none found); `bound` is below every
    solution's value (None: no bound yet); `proven` says that nothing better exists, or nothing at all.
    """

    values: tuple[float, ...] | None
    bound: float | None
    proven: bool
    seconds: float
    solver: str
    below: float | None = None
    """Only solutions worth less than this were looked for (None: all)."""


TOLERANCE = 1e-7
"""How far rows and whole columns may be off. At 1e-9 HiGHS 1.16 was seen to give up the best solution of a small
programme as infeasible and to call another one proven."""


def _loaded(sheet: Sheet, *, whole: bool, options: dict[str, bool | float | str]) -> Any:
    """Load a sheet into HiGHS.

    Raises
    ------
    SolverFailed
        If HiGHS refuses the programme.
    """
    import highspy
    import numpy as np

    lp = highspy.HighsLp()
    lp.num_col_ = len(sheet.cost)
    lp.num_row_ = len(sheet.rows)
    lp.col_cost_ = np.array(sheet.cost, dtype=np.double)
    lp.col_lower_ = np.array(sheet.lower, dtype=np.double)
    lp.col_upper_ = np.array(sheet.upper, dtype=np.double)
    lp.row_lower_ = np.array([low for low, _, _ in sheet.rows], dtype=np.double)
    lp.row_upper_ = np.array([high for _, high, _ in sheet.rows], dtype=np.double)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array(
        [0, *np.cumsum([len(terms) for _, _, terms in sheet.rows])], dtype=np.int32
    )
    lp.a_matrix_.index_ = np.array([c for _, _, terms in sheet.rows for c, _ in terms], dtype=np.int32)
    lp.a_matrix_.value_ = np.array([a for _, _, terms in sheet.rows for _, a in terms], dtype=np.double)
    if whole:
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[one] for one in sheet.whole]
    with hushed():
        highs = highspy.Highs()  # type: ignore[no-untyped-call]
    for name, value in {"output_flag": False, "threads": 1, **options}.items():
        highs.setOptionValue(name, value)
    if highs.passModel(lp) == highspy.HighsStatus.kError:
        raise SolverFailed("HiGHS refused the programme")
    return highs


def solver() -> str:
    """Name the solver and its version."""
    return f"HiGHS {version('highspy')}"


def run(sheet: Sheet, seconds: float, *, seed: int = 0, nodes: int | None = None) -> Run:
    """Hand a sheet to HiGHS.

    Parameters
    ----------
    sheet
        The programme.
    seconds
        The clock limit.
    seed
        The solver's random seed.
    nodes
        The most nodes of its search tree (None: no limit); unlike the clock's, this limit gives the same end on
        every machine.

    Raises
    ------
    SolverFailed
        If HiGHS ends in a state that says nothing about the programme.
    """
    if not sheet.cost:  # nothing to choose: HiGHS would call that neither solved nor unsolvable
        return Run((), sheet.constant, proven=True, seconds=0.0, solver="none needed")
    import highspy

    began = time.monotonic()
    options: dict[str, bool | float | str] = {
        "random_seed": seed,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 1e-7,
        "primal_feasibility_tolerance": TOLERANCE,
        "dual_feasibility_tolerance": TOLERANCE,
        "mip_feasibility_tolerance": TOLERANCE,
    }
    if math.isfinite(seconds):
        options["time_limit"] = float(seconds)
    if nodes is not None:
        options["mip_max_nodes"] = nodes
    states = highspy.HighsModelStatus
    highs = _loaded(sheet, whole=True, options=options)
    highs.run()
    if highs.getModelStatus() == states.kSolveError:
        # seen with HiGHS 1.16 on a small programme that has no solution: without its presolve it says so
        highs = _loaded(sheet, whole=True, options={**options, "presolve": "off"})
        highs.run()
    status, info = highs.getModelStatus(), highs.getInfo()
    name = solver()
    if status == states.kInfeasible:
        return Run(None, None, proven=True, seconds=time.monotonic() - began, solver=name)
    if status not in (states.kOptimal, states.kTimeLimit, states.kSolutionLimit, states.kInterrupt):
        raise SolverFailed(f"HiGHS ended with {highs.modelStatusToString(status)!r}")
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    values = tuple(highs.getSolution().col_value) if found else None
    bound = info.mip_dual_bound + sheet.constant if math.isfinite(info.mip_dual_bound) else None
    if values is not None:
        value = sum(c * v for c, v in zip(sheet.cost, values, strict=True)) + sheet.constant
        if abs(value - sheet.constant - info.objective_function_value) > 1e-4 * (1 + abs(value)):
            raise SolverFailed(f"HiGHS reports {info.objective_function_value} for a solution worth {value}")
        bound = value if status == states.kOptimal else bound
    return Run(values, bound, status == states.kOptimal, time.monotonic() - began, name)


class Ending(Enum):
    """How a linear relaxation ended."""

    SOLVED = "solved"
    ABOVE = "worth at least the limit, or impossible"
    UNKNOWN = "unknown"


class Relaxation:
    """A sheet without whole numbers, kept warm: bounds change and it is solved again from where it stood."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        # the first solution comes from the interior, three to four times as quick; later ones start from a basis
        self._highs = _loaded(sheet, whole=False, options={"solver": "ipm"})
        self.value = -math.inf
        self.values: list[float] = []
        self.reduced: list[float] = []
        self.prices: list[float] = []
        """What a unit of each row is worth"""

    def solve(self, above: float = math.inf) -> Ending:
        """Solve for `value`, `values` and `reduced` costs; stop once it is worth `above` at the least.

        An ending that says nothing leaves the value at minus infinity: nothing may be concluded from it.
        """
        import highspy

        self._highs.setOptionValue(
            "objective_bound", above - self._sheet.constant if math.isfinite(above) else math.inf
        )
        self._highs.run()
        self._highs.setOptionValue("solver", "simplex")
        status = self._highs.getModelStatus()
        states = highspy.HighsModelStatus
        if status in (states.kInfeasible, states.kObjectiveBound):
            self.value = math.inf if status == states.kInfeasible else above
            return Ending.ABOVE
        if status != states.kOptimal:
            self.value = -math.inf
            return Ending.UNKNOWN
        self.value = self._highs.getInfo().objective_function_value + self._sheet.constant
        solution = self._highs.getSolution()
        self.values, self.reduced = list(solution.col_value), list(solution.col_dual)
        self.prices = list(solution.row_dual)
        return Ending.ABOVE if self.value >= above else Ending.SOLVED

    def value_with(self, column: int, lower: float, upper: float, above: float = math.inf) -> float:
        """What it would be worth with other bounds on a column; minus infinity if that is not found out.

        The relaxation stays as it was, at the basis of its last full solution.
        """
        basis = self._highs.getBasis()
        kept = (self.value, self.values, self.reduced, self.prices)
        self._highs.changeColBounds(column, lower, upper)
        ending = self.solve(above)
        value = max(self.value, above) if ending is Ending.ABOVE else self.value
        self.value, self.values, self.reduced, self.prices = kept
        self._highs.changeColBounds(column, self._sheet.lower[column], self._sheet.upper[column])
        self._highs.setBasis(basis)
        return value

    def bind(self, column: int, lower: float, upper: float) -> None:
        """Change the bounds of a column for good, here and in the sheet."""
        self._sheet.lower[column], self._sheet.upper[column] = lower, upper
        self._highs.changeColBounds(column, lower, upper)
