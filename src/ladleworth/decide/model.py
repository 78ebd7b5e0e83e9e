"""The week as a mixed-integer programme, solved by HiGHS: assembly, the run, and reading it back.

The slots of one eater on one day are alike but for their meal, so the programme counts: batches by size,
portions by eating day, chilled or frozen, and by eater and day. `seat.py` puts them into slots afterwards
and `draw.py` settles exact drawings. Nothing here is trusted: the judge passes on the plan.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass

from ladleworth.decide.answer import Batch, Purchase
from ladleworth.decide.columns import (
    Dinner,
    WeekModel,
    columns_for_batches,
    columns_for_shopping,
    columns_for_slots,
)
from ladleworth.decide.covers import cooked_at_all, packages_cover_both_sessions, packages_cover_each_batch
from ladleworth.decide.hush import hushed
from ladleworth.decide.question import Question
from ladleworth.decide.rows_food import (
    budget_suffices,
    needs_are_met,
    portions_on_hand_are_used,
    stock_is_valued,
    till_terms,
    trips_are_paid,
    wished_packages_are_bought,
)
from ladleworth.decide.rows_kitchen import (
    batches_are_allowed,
    containers_suffice,
    minute_terms,
    minutes_suffice,
    waiting,
)
from ladleworth.decide.rows_meals import (
    no_dish_too_often,
    nutrients_stay_within,
    portions_are_eaten,
    slots_are_filled,
)
from ladleworth.decide.sheet import Sheet
from ladleworth.errors import SolverFailed


def build(question: Question, visits: frozenset[tuple[str, int]] | None = None) -> WeekModel:
    """Write the question down: columns, a function for each rule, the objective, and rows that only tighten.

    Parameters
    ----------
    question
        The question.
    visits
        (shop, session day) of the visits that may be made; None: all.
    """
    model = WeekModel(question, visits)
    columns_for_batches(model)
    columns_for_slots(model)
    columns_for_shopping(model)
    for rule in (
        portions_are_eaten,
        slots_are_filled,
        no_dish_too_often,
        nutrients_stay_within,
        batches_are_allowed,
        containers_suffice,
        minutes_suffice,
        needs_are_met,
        trips_are_paid,
        budget_suffices,
        portions_on_hand_are_used,
        wished_packages_are_bought,
        stock_is_valued,
        packages_cover_each_batch,
        cooked_at_all,
        packages_cover_both_sessions,
    ):
        rule(model)
    return model


def fix_batches(model: WeekModel, batches: Sequence[Batch]) -> None:
    """Leave the model no choice but these batches."""
    wanted = {(b.dish, b.version, b.day, b.portions) for b in batches}
    for key, column in model.size.items():
        model.sheet.lower[column] = model.sheet.upper[column] = float(key in wanted)


def restrict_dishes(model: WeekModel, dishes: set[str]) -> None:
    """Leave the model only these dishes."""
    for (dish, *_), column in model.size.items():
        if dish not in dishes:
            model.sheet.upper[column] = 0.0


def beat(model: WeekModel, cents: float) -> None:
    """Admit only what costs less than this.

    A row does it, not a solution to start from: HiGHS 1.16, given a start, was seen to report an objective
    (and so a bound) that its own solution did not have.
    """
    sheet = model.sheet
    sheet.row(list(enumerate(sheet.cost)), high=cents - sheet.constant)


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


def run(sheet: Sheet, seconds: float, *, seed: int = 0) -> Run:
    """Hand a sheet to HiGHS.

    Parameters
    ----------
    sheet
        The programme.
    seconds
        The clock limit.
    seed
        The solver's random seed.

    Raises
    ------
    SolverFailed
        If HiGHS ends in a state that says nothing about the programme.
    """
    if not sheet.cost:  # nothing to choose: HiGHS would call that neither solved nor unsolvable
        return Run((), sheet.constant, proven=True, seconds=0.0, solver="none needed")
    import highspy
    import numpy as np

    began = time.monotonic()
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
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    lp.integrality_ = [kinds[whole] for whole in sheet.whole]
    with hushed():
        highs = highspy.Highs()  # type: ignore[no-untyped-call]
    options = {
        "output_flag": False,
        "threads": 1,
        "random_seed": seed,
        "time_limit": float(seconds),
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 1e-7,
        "primal_feasibility_tolerance": 1e-7,
        "dual_feasibility_tolerance": 1e-7,
        "mip_feasibility_tolerance": 1e-7,
    }
    for name, value in options.items():
        highs.setOptionValue(name, value)
    if highs.passModel(lp) == highspy.HighsStatus.kError:
        raise SolverFailed("HiGHS refused the programme")
    highs.run()
    status, info = highs.getModelStatus(), highs.getInfo()
    name = f"HiGHS {highs.version()}"
    states = highspy.HighsModelStatus
    if status == states.kInfeasible:
        return Run(None, None, proven=True, seconds=time.monotonic() - began, solver=name)
    if status not in (states.kOptimal, states.kTimeLimit, states.kSolutionLimit, states.kInterrupt):
        raise SolverFailed(f"HiGHS ended with {highs.modelStatusToString(status)!r}")
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    values = tuple(highs.getSolution().col_value) if found else None
    bound = info.mip_dual_bound + sheet.constant if np.isfinite(info.mip_dual_bound) else None
    if values is not None:
        value = sum(c * v for c, v in zip(sheet.cost, values, strict=True)) + sheet.constant
        if abs(value - sheet.constant - info.objective_function_value) > 1e-4 * (1 + abs(value)):
            raise SolverFailed(f"HiGHS reports {info.objective_function_value} for a solution worth {value}")
        bound = value if status == states.kOptimal else bound
    return Run(values, bound, status == states.kOptimal, time.monotonic() - began, name)


@dataclass(frozen=True, slots=True)
class Counts:
    """What the model decides, in whole numbers: seats and drawings are settled from these."""

    batches: tuple[Batch, ...]
    purchases: tuple[Purchase, ...]
    eaten: dict[Dinner, int]
    served: dict[tuple[str, str, str, int], int]
    """(dish, version, eater, day) -> portions"""
    taken: dict[tuple[str, str, int], int]
    """(lot of portions, eater, day) -> containers"""


@dataclass(frozen=True, slots=True)
class Slack:
    """How much of a rule must give way: cents, whole minutes of each session added up, places, or meals."""

    amount: float
    proven: bool


def least_slack(freed: Question, question: Question, rule: str, seconds: float) -> Slack | None:
    """Find the least by which one rule must give way for a plan to exist.

    Parameters
    ----------
    freed
        The question without the rule.
    question
        The question with it.
    rule
        'budget', 'minutes', 'containers', 'freezer' or 'no_meal_out'.
    seconds
        The clock limit.

    Returns
    -------
    Slack or None
        None if no plan was found with the rule given up altogether.
    """
    model = build(freed)
    sheet = model.sheet
    sheet.cost = [0.0] * len(sheet.cost)
    sheet.constant = 0.0
    rules = question.rules
    if rule == "budget":
        over = sheet.column("over budget", cost=1.0)
        sheet.row([*till_terms(model), (over, -1.0)], high=rules.budget_cents or 0)
    elif rule == "minutes":
        for session in question.sessions:
            over = sheet.column(f"over time {session.day}", cost=1.0)
            sheet.row([*minute_terms(model, session.day), (over, -1.0)], high=session.minutes)
    elif rule == "no_meal_out":
        for column in model.out.values():
            sheet.cost[column] = 1.0
    else:
        over = sheet.column(f"over {rule}", cost=1.0)
        limit = rules.containers if rule == "containers" else rules.freezer_places
        for night in range(1, question.days + 1):
            here = [w for w in waiting(model, night) if rule == "containers" or w.frozen]
            fixed = sum(w.number for w in here if w.column is None)
            terms = [(w.column, w.number) for w in here if w.column is not None]
            sheet.row([*terms, (over, -1.0)], high=(limit or 0) - fixed)
    ended = run(sheet, max(0.1, seconds))
    if ended.values is None:
        return None
    return Slack(sum(c * v for c, v in zip(sheet.cost, ended.values, strict=True)), ended.proven)


def read_batches(model: WeekModel, values: Sequence[float]) -> tuple[Batch, ...]:
    """Read the batches alone."""
    return tuple(
        sorted(
            Batch(day, dish, version, portions)
            for (dish, version, day, portions), column in model.size.items()
            if round(values[column])
        )
    )


def read(model: WeekModel, values: Sequence[float]) -> Counts:
    """Turn column values into whole counts."""
    whole = [round(v) for v in values]
    purchases = tuple(
        Purchase(day, offer, whole[c]) for (offer, day), c in sorted(model.buy.items()) if whole[c]
    )
    return Counts(
        read_batches(model, values),
        purchases,
        {dinner: whole[c] for dinner, c in model.eaten.items() if whole[c]},
        {key: whole[c] for key, c in model.served.items() if whole[c]},
        {key: whole[c] for key, c in model.taken.items() if whole[c]},
    )
