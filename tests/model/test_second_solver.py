"""The same programme, written once, solved by two solvers that share no code: HiGHS and CBC.

And what the solver's floating point calls the optimum is what the judge's fractions add up to.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

import pulp
import pytest
from bench.kitchens import kitchen_like

from ladleworth.decide import Additions, Plan, Question, Status, decide, judge
from ladleworth.decide.columns import WeekModel
from ladleworth.decide.draw import draw
from ladleworth.decide.model import run
from ladleworth.decide.programme import build, read
from ladleworth.decide.seat import seat
from ladleworth.decide.sheet import Sheet

CENTS = 1e-4
"""How far apart two optima may lie: each solver keeps rows and whole numbers to about a millionth."""

SEEDS = (0, 3, 4, 6, 8, 9, 10, 12, 18, 20)
"""Questions that all three solve within seconds; odd seeds have two eaters and five dishes."""

PULP_IS_CHANGING = pytest.mark.filterwarnings("ignore:.*PuLP 4.0:DeprecationWarning:pulp")


@cache
def question(seed: int) -> Question:
    """Invent a week of three or four days with prices for repeats, minutes, reserve and what is carried."""
    eaters = 1 + seed % 2
    plain = kitchen_like(
        seed,
        dishes=4 + seed % 2,
        days=4 - seed % 2,
        eaters=eaters,
        meals=("lunch", "dinner"),
        staples=12,
        budget_cents=6000 if seed % 3 else 700,
        containers=4 + eaters,
        freezer_places=2,
        minutes=60,
    )
    priced = Additions(
        repeat_cents=15 * (seed % 2),
        minute_cents=Fraction(seed % 3, 2),
        reserve_portions=seed % 4 // 2,
        reserve_cents=150,
        carried_share=Fraction(10 - seed % 4 * 3, 10),
    )
    return replace(plain, additions=priced)


@dataclass(frozen=True)
class Solved:
    values: tuple[float, ...]
    cents: float


@cache
def by_highs(seed: int) -> tuple[WeekModel, Solved]:
    model = build(question(seed))
    ended = run(model.sheet, 120)
    assert ended.proven
    assert ended.values is not None
    assert ended.bound is not None
    return model, Solved(ended.values, ended.bound)


def by_cbc(sheet: Sheet) -> Solved:
    problem = pulp.LpProblem("week", pulp.LpMinimize)
    columns = [
        pulp.LpVariable(
            f"x{n}", lower, None if upper == math.inf else upper, "Integer" if w else "Continuous"
        )
        for n, (lower, upper, w) in enumerate(zip(sheet.lower, sheet.upper, sheet.whole, strict=True))
    ]
    problem += pulp.LpAffineExpression(list(zip(columns, sheet.cost, strict=True)))
    for low, high, terms in sheet.rows:
        amount = pulp.LpAffineExpression([(columns[c], a) for c, a in terms])
        if low == high:
            problem += amount == low
            continue
        if low > -math.inf:
            problem += amount >= low
        if high < math.inf:
            problem += amount <= high
    exactly = pulp.PULP_CBC_CMD(
        msg=False, gapRel=0, gapAbs=1e-7, threads=1, timeLimit=120, options=["preprocess off"]
    )
    assert pulp.LpStatus[problem.solve(exactly)] == "Optimal"
    assert problem.sol_status == pulp.LpSolutionOptimal
    values = tuple(float(column.value()) for column in columns)
    return Solved(values, worth(sheet, values))


def worth(sheet: Sheet, values: tuple[float, ...]) -> float:
    return math.fsum(c * v for c, v in zip(sheet.cost, values, strict=True)) + sheet.constant


def plan_of(model: WeekModel, values: tuple[float, ...]) -> Plan:
    counts = read(model, values)
    helpings = seat(model.question, counts.eaten, counts.served, counts.taken)
    drawings = draw(model.question, counts.batches, counts.purchases)
    assert helpings is not None
    assert drawings is not None
    return Plan(counts.batches, helpings, counts.purchases, drawings)


def test_the_questions_are_no_trifles() -> None:
    models = [by_highs(seed)[0] for seed in SEEDS]
    plans = [plan_of(*by_highs_values(seed)) for seed in SEEDS]
    assert len(SEEDS) >= 10
    assert min(len(model.sheet.cost) for model in models) >= 200
    assert sum(len(plan.batches) >= 3 for plan in plans) >= 6
    assert all(plan.purchases for plan in plans)
    assert sum(any(h.dish is None for h in plan.helpings) for plan in plans) >= 2


def by_highs_values(seed: int) -> tuple[WeekModel, tuple[float, ...]]:
    model, solved = by_highs(seed)
    return model, solved.values


@pytest.mark.parametrize("seed", SEEDS)
def test_the_optimum_of_the_programme_is_what_the_judge_adds_up(seed: int) -> None:
    model, solved = by_highs(seed)
    verdict = judge(model.question, plan_of(model, solved.values))
    assert verdict.breaches == ()
    assert float(verdict.costs.total) == pytest.approx(solved.cents, abs=CENTS, rel=0)


@pytest.mark.parametrize("seed", [8, 9])
def test_the_decision_as_a_whole_comes_to_the_optimum_of_the_programme(seed: int) -> None:
    answer = decide(question(seed), seconds=60)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert float(answer.costs.total) == pytest.approx(by_highs(seed)[1].cents, abs=CENTS, rel=0)


@PULP_IS_CHANGING
@pytest.mark.parametrize("seed", SEEDS)
def test_cbc_finds_the_same_optimum_of_the_programme_and_its_plan_stands(seed: int) -> None:
    model, solved = by_highs(seed)
    second = by_cbc(model.sheet)
    assert second.cents == pytest.approx(solved.cents, abs=CENTS, rel=0)
    verdict = judge(model.question, plan_of(model, second.values))
    assert verdict.breaches == ()
    assert float(verdict.costs.total) == pytest.approx(solved.cents, abs=CENTS, rel=0)
