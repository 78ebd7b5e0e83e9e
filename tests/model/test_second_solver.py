"""The same programme, solved by CBC, has the same optimum; and the judge's sum is that optimum."""

from __future__ import annotations

import math
import warnings

import pytest
from bench.kitchens import kitchen_like

from ladleworth.decide import Question, Status, decide
from ladleworth.decide.model import build, build_crowd, run
from ladleworth.decide.sheet import Sheet


def by_cbc(sheet: Sheet) -> float | None:
    """Solve a sheet with CBC, the solver that PuLP carries."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # PuLP warns of its own coming changes
        import pulp

        problem = pulp.LpProblem("week", pulp.LpMinimize)
        columns = [
            pulp.LpVariable(
                f"x{n}",
                lower,
                None if math.isinf(upper) else upper,
                pulp.LpInteger if whole else pulp.LpContinuous,
            )
            for n, (lower, upper, whole) in enumerate(zip(sheet.lower, sheet.upper, sheet.whole, strict=True))
        ]
        problem += pulp.lpSum(c * x for c, x in zip(sheet.cost, columns, strict=True) if c)
        for low, high, terms in sheet.rows:
            total = pulp.lpSum(a * columns[c] for c, a in terms)
            if low == high:
                problem += total == low
                continue
            if not math.isinf(low):
                problem += total >= low
            if not math.isinf(high):
                problem += total <= high
        status = problem.solve(pulp.PULP_CBC_CMD(msg=False, timeLimit=60, gapRel=0, threads=1))
        if status != pulp.LpStatusOptimal:
            return None
        return float(pulp.value(problem.objective) or 0.0) + sheet.constant


def small(seed: int) -> Question:
    return kitchen_like(
        seed,
        dishes=4,
        days=4,
        eaters=1 + seed % 2,
        meals=("lunch", "dinner"),
        staples=14,
        containers=3 + seed % 5,
        freezer_places=seed % 4,
        minutes=60 + 10 * (seed % 3),
        budget_cents=800 + 300 * (seed % 4),
    )


@pytest.mark.parametrize("seed", range(8))
def test_cbc_and_highs_agree_on_the_exact_programme_and_the_judge_on_the_sum(seed: int) -> None:
    question = small(seed)
    sheet = build(question).sheet
    ours, theirs = run(sheet, 60), by_cbc(sheet)
    assert ours.proven
    assert ours.bound is not None
    assert theirs == pytest.approx(ours.bound, abs=1e-3, rel=1e-7)
    answer = decide(question, seconds=60)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert float(answer.costs.total) == pytest.approx(theirs, abs=1e-3, rel=1e-7)


@pytest.mark.parametrize("seed", range(4))
def test_cbc_and_highs_agree_on_the_aggregated_programme_which_is_never_above_the_exact_one(
    seed: int,
) -> None:
    question = small(seed)
    crowd, exact = run(build_crowd(question).sheet, 60), run(build(question).sheet, 60)
    assert crowd.bound is not None
    assert exact.bound is not None
    assert by_cbc(build_crowd(question).sheet) == pytest.approx(crowd.bound, abs=1e-3, rel=1e-7)
    assert crowd.bound <= exact.bound + 1e-6
