"""HiGHS: the only place of the decision that knows a solver. A sheet goes in, values and bounds come out."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
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


BROKEN = 1e-4
"""A tightening row is taken into a relaxation once it is broken by this share of its largest coefficient."""


def _loaded(
    sheet: Sheet, *, whole: bool, options: dict[str, bool | float | str], rows: Sequence[int] | None = None
) -> Any:
    """Load a sheet into HiGHS, with all its rows or those of some numbers.

    Raises
    ------
    SolverFailed
        If HiGHS refuses the programme.
    """
    import highspy
    import numpy as np

    taken = sheet.rows if rows is None else [sheet.rows[number] for number in rows]
    lp = highspy.HighsLp()
    lp.num_col_ = len(sheet.cost)
    lp.num_row_ = len(taken)
    lp.col_cost_ = np.array(sheet.cost, dtype=np.double)
    lp.col_lower_ = np.array(sheet.lower, dtype=np.double)
    lp.col_upper_ = np.array(sheet.upper, dtype=np.double)
    lp.row_lower_ = np.array([low for low, _, _ in taken], dtype=np.double)
    lp.row_upper_ = np.array([high for _, high, _ in taken], dtype=np.double)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array([0, *np.cumsum([len(terms) for _, _, terms in taken])], dtype=np.int32)
    lp.a_matrix_.index_ = np.array([c for _, _, terms in taken for c, _ in terms], dtype=np.int32)
    lp.a_matrix_.value_ = np.array([a for _, _, terms in taken for _, a in terms], dtype=np.double)
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


def run(
    sheet: Sheet,
    seconds: float,
    *,
    seed: int = 0,
    nodes: int | None = None,
    stop: Callable[[], bool] | None = None,
) -> Run:
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
    stop
        Asked now and then, some times a second; once it says yes, the best solution so far is the run's. Whatever it
        raises ends the run, and is raised again then.

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
    _run_heeding(highs, stop)
    if highs.getModelStatus() == states.kSolveError:
        # seen with HiGHS 1.16 on a small programme that has no solution: without its presolve it says so
        highs = _loaded(sheet, whole=True, options={**options, "presolve": "off"})
        _run_heeding(highs, stop)
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


def _run_heeding(highs: Any, stop: Callable[[], bool] | None) -> None:
    """Let HiGHS run until it is done or asked to stop; no exception is thrown through it."""
    raised: list[BaseException] = []

    def asked(event: Any) -> None:
        assert stop is not None
        try:
            over = stop()
        except BaseException as error:  # noqa: BLE001  # it is raised again once the solver has come to its end
            raised.append(error)
            over = True
        if over:
            event.interrupt()

    if stop is not None:
        for moment in (highs.cbMipInterrupt, highs.cbSimplexInterrupt, highs.cbIpmInterrupt):
            moment.subscribe(asked)
    highs.run()
    if raised:
        raise raised[0]


class Ending(Enum):
    """How a linear relaxation ended."""

    SOLVED = "solved"
    ABOVE = "worth at least the limit, or impossible"
    UNKNOWN = "unknown"


class Relaxation:
    """A sheet without whole numbers, kept warm: bounds change and it is solved again from where it stood.

    Of the rows that only tighten those are taken in that a solution did not keep: few of them ever matter.
    """

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        self._taken = [number for number in range(len(sheet.rows)) if number not in sheet.tightening]
        self._others = _Others(sheet)
        # the first solution comes from the interior, three to four times as quick; later ones start from a basis
        self._highs = _loaded(sheet, whole=False, options={"solver": "ipm"}, rows=self._taken)
        self.value = -math.inf
        self.values: list[float] = []
        self.reduced: list[float] = []
        self.prices: dict[int, float] = {}
        """What a unit of a row is worth, by its number; rows not taken in are worth nothing"""

    def solve(
        self,
        above: float = math.inf,
        *,
        goes_on: Callable[[float], bool] = lambda value: True,  # noqa: ARG005
    ) -> Ending:
        """Solve for `value`, `values` and `reduced` costs; stop once it is worth `above` at the least.

        An ending that says nothing leaves the value at minus infinity: nothing may be concluded from it. `goes_on`
        is told the value each time before rows are taken in; where it says no, the solution may break some of
        them, and its value is a bound all the same.
        """
        ending = self._solve_once(above)
        while (
            ending is Ending.SOLVED
            and goes_on(self.value)
            and self._take_in(self._others.broken(self.values))
        ):
            ending = self._solve_once(above)
        return ending

    def _solve_once(self, above: float) -> Ending:
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
        self.prices = dict(zip(self._taken, solution.row_dual, strict=True))
        return Ending.ABOVE if self.value >= above else Ending.SOLVED

    def _take_in(self, numbers: Sequence[int]) -> bool:
        """Add rows; say whether there were any."""
        import numpy as np

        rows = [self._sheet.rows[number] for number in numbers]
        if rows:
            starts = np.cumsum([0, *(len(terms) for _, _, terms in rows)])
            self._highs.addRows(
                len(rows),
                np.array([low for low, _, _ in rows], dtype=np.double),
                np.array([high for _, high, _ in rows], dtype=np.double),
                int(starts[-1]),
                starts[:-1].astype(np.int32),
                np.array([c for _, _, terms in rows for c, _ in terms], dtype=np.int32),
                np.array([a for _, _, terms in rows for _, a in terms], dtype=np.double),
            )
            self._taken += numbers
        return bool(rows)

    def value_with(self, column: int, lower: float, upper: float, above: float = math.inf) -> float:
        """What it would be worth with other bounds on a column; minus infinity if that is not found out.

        The relaxation stays as it was, at the basis of its last full solution.
        """
        import highspy

        basis = self._highs.getBasis()
        kept = (self.value, self.values, self.reduced, self.prices)
        self._highs.changeColBounds(column, lower, upper)
        ending = self.solve(above)
        value = max(self.value, above) if ending is Ending.ABOVE else self.value
        self.value, self.values, self.reduced, self.prices = kept
        self._highs.changeColBounds(column, self._sheet.lower[column], self._sheet.upper[column])
        new = len(self._taken) - len(basis.row_status)
        basis.row_status = [*basis.row_status, *[highspy.HighsBasisStatus.kBasic] * new]
        self._highs.setBasis(basis)
        return value

    def bind(self, column: int, lower: float, upper: float) -> None:
        """Change the bounds of a column for good, here and in the sheet."""
        self._sheet.lower[column], self._sheet.upper[column] = lower, upper
        self._highs.changeColBounds(column, lower, upper)


class _Others:
    """The tightening rows of a sheet that a relaxation has not taken in yet."""

    def __init__(self, sheet: Sheet) -> None:
        import numpy as np

        self._numbers = np.array(sorted(sheet.tightening), dtype=np.int64)
        rows = [sheet.rows[number] for number in self._numbers]
        self._low = np.array([low for low, _, _ in rows], dtype=np.double)
        self._high = np.array([high for _, high, _ in rows], dtype=np.double)
        self._starts = np.cumsum([0, *(len(terms) for _, _, terms in rows)])[:-1]
        self._columns = np.array([c for _, _, terms in rows for c, _ in terms], dtype=np.int64)
        self._amounts = np.array([a for _, _, terms in rows for _, a in terms], dtype=np.double)
        self._sizes = np.maximum.reduceat(abs(self._amounts), self._starts) if rows else self._low
        self._waiting = np.ones(len(rows), dtype=bool)

    def broken(self, values: Sequence[float]) -> list[int]:
        """Take out the rows that these values break by more than a little, and return their numbers."""
        import numpy as np

        if not self._waiting.any():
            return []
        sums = np.add.reduceat(np.array(values)[self._columns] * self._amounts, self._starts)
        beyond = np.maximum(self._low - sums, sums - self._high) / self._sizes
        found = np.flatnonzero(self._waiting & (beyond > BROKEN))
        self._waiting[found] = False
        return [int(number) for number in self._numbers[found]]
