"""The aggregated programme lies below the exact one, every plan is a solution of both, and covers cut off none."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest
from tests.model.brute_force import all_plans
from tests.model.planted_week import PLAN, WEEK
from tests.model.small_kitchens import KITCHENS, small_kitchen
from tests.model.test_second_solver import question as medium
from tests.unit.decide.weeks import PORTION, pack, rules, sessions, slots, stew, week

from ladleworth.decide import Additions, Foodstuff, Plan, Question, StockLot, decide, judge
from ladleworth.decide.columns import WeekModel, unit
from ladleworth.decide.judge import reserve
from ladleworth.decide.model import Run, build, build_crowd, run

BLOCK = 40
"""So many seeds of the small random weeks a test."""

CLOSE = 1e-6
"""How far a row, or a value in cents, may be off: doubles, added up."""


def put_in(model: WeekModel, plan: Plan, *, crowd: bool) -> list[float]:
    """Give every column the value that it has in a plan; fail if a column that the plan needs is not there."""
    question, sheet = model.question, model.sheet
    version = {(b.day, b.dish): b.version for b in plan.batches}
    counted: Counter[int] = Counter()
    for b in plan.batches:
        counted[model.size[b.dish, b.version, b.day, b.portions]] += 1
    by_name: Counter[str] = Counter()
    for h in plan.helpings:
        if h.dish is None or h.cooked_day is None:
            counted[model.out["" if crowd else h.eater, h.day]] += 1
            continue
        batch = (h.dish, version[h.cooked_day, h.dish], h.cooked_day)
        counted[(model.thawed if h.frozen else model.chilled)[*batch, h.day]] += 1
        if not crowd:
            counted[model.served[h.dish, batch[1], h.eater, h.day]] += 1
        by_name[f"has {h.dish} {h.eater}"] = 1
        by_name[f"day with {h.dish} {h.eater} {h.day}"] = 1
        by_name[f"repeats {h.dish}"] += 1
    for (day, dish, _), portions in reserve(question, plan).items():
        if portions:
            counted[model.kept[dish, version[day, dish], day]] += portions
    shop = {o.name: o.shop for o in question.offers}
    for p in plan.purchases:
        counted[model.buy[p.offer, p.day]] += p.packages
        counted[model.trip[shop[p.offer], p.day]] = 1
    food = {o.name: o.food for o in question.offers} | {lot.name: lot.food for lot in question.lots}
    drawn: Counter[tuple[str, int | None, int]] = Counter()
    for d in plan.drawings:
        drawn[d.source, d.bought_day, d.day] += d.quantity
    values = [0.0] * len(sheet.cost)
    for column, count in counted.items():
        values[column] = float(count)
    for key, quantity in drawn.items():
        values[model.use[key]] = quantity / unit(question, food[key[0]])
    for column, name in enumerate(sheet.names):
        if name.startswith("repeats "):
            dish = question.dish(name.removeprefix("repeats "))
            eaters = [e for e in question.eaters if any(e not in v.barred for v in dish.versions)]
            values[column] = max(0.0, by_name[name] - len(eaters))
        elif name in by_name:
            values[column] = float(by_name[name])
    return values


def faults(model: WeekModel, values: list[float]) -> list[str]:
    """Name every bound, whole number and row that does not hold; none: the values are a solution."""
    sheet = model.sheet
    columns = zip(values, sheet.lower, sheet.upper, sheet.whole, sheet.names, strict=True)
    found = [
        f"{name}: {value} of {lower}..{upper}"
        for value, lower, upper, whole, name in columns
        if not lower <= value <= upper or (whole and value != round(value))
    ]
    for low, high, terms in sheet.rows:
        amount = math.fsum(a * values[c] for c, a in terms)
        slack = CLOSE * max(1.0, max(abs(a) for _, a in terms))
        if not low - slack <= amount <= high + slack:
            found.append(f"{low} <= {amount} <= {high}: {', '.join(sheet.names[c] for c, _ in terms)}")
    return found


def worth(model: WeekModel, values: list[float]) -> float:
    return math.fsum(c * v for c, v in zip(model.sheet.cost, values, strict=True)) + model.sheet.constant


def plan_is_a_solution(question: Question, plan: Plan, total: Fraction) -> None:
    exact, crowd = build(question), build_crowd(question)
    exact_values, crowd_values = put_in(exact, plan, crowd=False), put_in(crowd, plan, crowd=True)
    assert faults(exact, exact_values) == []
    assert faults(crowd, crowd_values) == []
    assert worth(exact, exact_values) == pytest.approx(float(total), abs=CLOSE)
    assert worth(crowd, crowd_values) <= float(total) + CLOSE
    if not question.additions.repeat_cents:
        assert worth(crowd, crowd_values) == pytest.approx(float(total), abs=CLOSE)


# -- every plan is a solution -------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(0, KITCHENS, 5))
def test_the_best_plan_of_every_set_of_batches_is_a_solution_of_both_programmes_at_its_cost(
    seed: int,
) -> None:
    question = small_kitchen(seed)
    plans = all_plans(question)
    for total, plan in plans[:: max(1, len(plans) // 25)]:
        plan_is_a_solution(question, plan, total)


@pytest.mark.parametrize("block", range(0, KITCHENS, BLOCK))
def test_the_plan_decided_on_is_a_solution_of_both_programmes_at_its_cost(block: int) -> None:
    for seed in range(block, block + BLOCK):
        answer = decide(small_kitchen(seed))
        if answer.plan is not None and answer.costs is not None:
            plan_is_a_solution(small_kitchen(seed), answer.plan, answer.costs.total)


def test_a_week_that_uses_nearly_every_rule_is_a_solution_of_both_programmes_at_its_cost() -> None:
    verdict = judge(WEEK, PLAN)
    assert verdict.stands
    plan_is_a_solution(WEEK, PLAN, verdict.costs.total)


def test_a_plan_that_breaks_a_rule_is_no_solution() -> None:
    # Six portions wait on the first night.
    strict = replace(WEEK, rules=replace(WEEK.rules, containers=5))
    for model, crowd in ((build(strict), False), (build_crowd(strict), True)):
        (only,) = faults(model, put_in(model, PLAN, crowd=crowd))
        assert "6.0 <= 5" in only


# -- the aggregated programme lies below --------------------------------------------------------------


@cache
def solved(seed: int, *, crowd: bool) -> Run:
    ended = run((build_crowd if crowd else build)(small_kitchen(seed)).sheet, 60)
    assert ended.proven
    return ended


@pytest.mark.parametrize("block", range(0, KITCHENS, BLOCK))
def test_no_week_costs_less_than_the_aggregated_programme_says(block: int) -> None:
    below = 0
    for seed in range(block, block + BLOCK):
        exact, crowd = solved(seed, crowd=False), solved(seed, crowd=True)
        if crowd.values is None:
            assert exact.values is None, seed
        elif exact.bound is not None:
            assert crowd.bound is not None
            assert crowd.bound <= exact.bound + CLOSE, seed
            below += crowd.bound < exact.bound - 1
    # it would be no use to check a programme that is never any lower, and it is mostly as high
    assert 1 <= below <= BLOCK // 3


# -- covers -------------------------------------------------------------------------------------------


def without_covers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ladleworth.decide.model.packages_cover_each_batch", lambda model: None)


@pytest.mark.parametrize("block", range(0, KITCHENS, BLOCK))
def test_covers_cut_off_no_optimum_of_a_small_week(block: int, monkeypatch: pytest.MonkeyPatch) -> None:
    seeds = range(block, block + BLOCK)
    tightened = [(solved(seed, crowd=False), solved(seed, crowd=True)) for seed in seeds]
    rows = sum(len(build(small_kitchen(seed)).sheet.rows) for seed in seeds)
    without_covers(monkeypatch)
    assert sum(len(build(small_kitchen(seed)).sheet.rows) for seed in seeds) < rows
    for seed, (exact, crowd) in zip(seeds, tightened, strict=True):
        plain = run(build(small_kitchen(seed)).sheet, 60)
        assert plain.proven
        assert (plain.values is None) == (exact.values is None), seed
        if plain.bound is not None:
            assert exact.bound == pytest.approx(plain.bound, abs=CLOSE), seed
        plain = run(build_crowd(small_kitchen(seed)).sheet, 60)
        # portions need not be whole in the aggregated programme, so covers may raise its bound, never past the exact
        if plain.bound is not None and crowd.bound is not None:
            assert crowd.bound >= plain.bound - CLOSE, seed


@pytest.mark.parametrize("seed", [0, 9, 18])
def test_covers_cut_off_no_optimum_of_a_larger_week(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    tightened = run(build(medium(seed)).sheet, 60)
    without_covers(monkeypatch)
    plain = run(build(medium(seed)).sheet, 60)
    assert plain.proven
    assert tightened.proven
    assert tightened.bound == pytest.approx(plain.bound, abs=1e-4)


@pytest.mark.parametrize("share", [Fraction(1), Fraction(7, 10), Fraction(1, 3), Fraction(0)])
@pytest.mark.parametrize("keep_days", [1, 2, 3, 9, None])
def test_covers_cut_off_no_optimum_where_packages_of_several_sizes_are_carried_in_part(
    share: Fraction, keep_days: int | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Three packages of which mixes pay, two sessions, a little stock; the food may keep to either session or on.
    question = week(
        days=4,
        slots=(*slots(1, 2, 3, 4), *slots(1, 2, 3, 4, eater="Ben")),
        sessions=sessions(1, 3),
        dishes=(stew(keep_days=2, least=2), stew({"rice": 70_000}, name="broth", keep_days=3)),
        foods=(Foodstuff("rice", keep_days=keep_days),),
        lots=(StockLot("old", "rice", 130_000, 20, 3),),
        offers=(
            pack(13, name="small", quantity=90_000, most=2),
            pack(25, name="middle", quantity=2 * PORTION),
            pack(48, name="large", quantity=5 * PORTION),
        ),
        rules=rules(in_a_row=2),
        additions=Additions(carried_share=share),
    )
    tightened = run(build(question).sheet, 60)
    without_covers(monkeypatch)
    plain = run(build(question).sheet, 60)
    assert plain.values is not None
    assert tightened.bound == pytest.approx(plain.bound, abs=CLOSE)
