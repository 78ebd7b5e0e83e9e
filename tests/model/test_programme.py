"""Every plan is a solution of the programme at its exact cost, and what only tightens it cuts off none."""

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
from tests.model.tried_out import tried_out
from tests.unit.decide.weeks import PORTION, pack, rules, sessions, slots, stew, week

from ladleworth.decide import Additions, Foodstuff, Plan, Question, StockLot, decide, judge
from ladleworth.decide.columns import Dinner, WeekModel, unit
from ladleworth.decide.judge import reserve
from ladleworth.decide.model import Run, run
from ladleworth.decide.programme import build, fix_batches, read
from ladleworth.decide.settling import settle
from ladleworth.decide.verdict import pot_of

BLOCK = 50
"""So many seeds of the small random weeks a test."""

CLOSE = 1e-6
"""How far a row, or a value in cents, may be off: doubles, added up."""


def not_frozen_in_vain(question: Question, plan: Plan) -> Plan:
    """Keep chilled what is eaten while it keeps: the programme has no column for freezing it, as nothing is gained."""
    if question.rules.fridge_ml is not None:
        return plan
    keep = {dish.name: dish.keep_days for dish in question.dishes}
    helpings = tuple(
        replace(h, frozen=False)
        if h.frozen and h.cooked_day is not None and h.dish and h.day - h.cooked_day < keep[h.dish]
        else h
        for h in plan.helpings
    )
    return replace(plan, helpings=helpings)


def put_in(model: WeekModel, plan: Plan) -> list[float]:
    """Give every column the value that it has in a plan; fail if a column that the plan needs is not there."""
    question, sheet = model.question, model.sheet
    counted: Counter[int] = Counter()
    for b in plan.batches:
        counted[model.size[b.dish, b.version, b.day, b.portions]] += 1
    by_name: set[str] = set()
    first = {day: span[0] for span in question.spans() for day in span}
    has = set()
    for h in plan.helpings:
        pot = pot_of(plan, h.cooked_day, h.dish, h.version)
        if h.dish is None:
            counted[model.out[h.eater, h.day]] += 1
            continue
        if h.lot is not None:
            counted[model.taken[h.lot, h.eater, h.day]] += 1
        else:
            assert pot is not None
            session, dish, version = pot
            appetite = question.appetite(h.eater)
            counted[model.eaten[Dinner(dish, version, session, appetite, h.day, h.frozen)]] += 1
            counted[model.served[dish, version, h.eater, h.day]] += 1
        by_name.add(f"day with {h.dish} {h.eater} {h.day}")
        has.add((h.dish, h.eater, first[h.day]))
    for (day, dish, version), portions in reserve(question, plan).items():
        if portions:
            counted[model.kept[dish, version, day]] += portions
    cooked = {(b.dish, b.day) for b in plan.batches}
    times = Counter(dish for dish, _ in cooked)
    shop = {o.name: o.shop for o in question.offers}
    for p in plan.purchases:
        counted[model.buy[p.offer, p.day]] += p.packages
        counted[model.trip[shop[p.offer], p.day]] = 1
    ones = [
        *(c for key, c in model.cooked.items() if key in cooked),
        *(c for day, c in model.held.items() if day in {day for _, day in cooked}),
        *(c for dish, c in model.ever.items() if times[dish]),
        *(c for key, c in model.has.items() if key in has),
    ]
    counted.update(ones)
    counted.update({c: times[dish] - 1 for dish, c in model.again.items() if times[dish]})
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
        if name in by_name:
            values[column] = 1.0
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


def visits_made(question: Question, plan: Plan) -> frozenset[tuple[str, int]]:
    shop = {o.name: o.shop for o in question.offers}
    return frozenset((shop[p.offer], p.day) for p in plan.purchases)


def plan_is_a_solution(question: Question, plan: Plan, total: Fraction) -> None:
    plan = not_frozen_in_vain(question, plan)
    for visits in (None, visits_made(question, plan)):
        model = build(question, visits)
        values = put_in(model, plan)
        assert faults(model, values) == []
        assert worth(model, values) == pytest.approx(float(total), abs=CLOSE)


# -- every plan is a solution -------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(0, KITCHENS, 10))
def test_the_best_plan_of_every_set_of_batches_is_a_solution_also_with_its_own_visits_alone(
    seed: int,
) -> None:
    question = small_kitchen(seed)
    plans = all_plans(question)
    for total, plan in plans[:: max(1, len(plans) // 15)]:
        plan_is_a_solution(question, plan, total)


@pytest.mark.parametrize("block", range(0, KITCHENS, BLOCK))
def test_the_best_plan_of_every_small_week_is_a_solution_also_with_its_own_visits_alone(block: int) -> None:
    possible = 0
    for seed in range(block, block + BLOCK):
        found = tried_out(seed)
        if found is not None:
            plan_is_a_solution(small_kitchen(seed), found[1], found[0])
            possible += 1
    assert possible >= BLOCK // 2


@pytest.mark.parametrize("block", range(3, KITCHENS, BLOCK))
def test_the_plan_decided_on_is_a_solution_at_its_cost(block: int) -> None:
    for seed in range(block, block + BLOCK, 5):
        answer = decide(small_kitchen(seed % KITCHENS))
        if answer.plan is not None and answer.costs is not None:
            plan_is_a_solution(small_kitchen(seed % KITCHENS), answer.plan, answer.costs.total)


def test_a_week_that_uses_nearly_every_rule_is_a_solution_at_its_cost() -> None:
    verdict = judge(WEEK, PLAN)
    assert verdict.stands
    plan_is_a_solution(WEEK, PLAN, verdict.costs.total)


def test_a_plan_that_breaks_a_rule_is_no_solution() -> None:
    # Six portions wait on the first night.
    strict = replace(WEEK, rules=replace(WEEK.rules, containers=5))
    model = build(strict)
    (only,) = faults(model, put_in(model, not_frozen_in_vain(strict, PLAN)))
    assert "6.0 <= 5" in only


def test_a_plan_with_a_visit_that_is_not_to_be_made_is_no_solution() -> None:
    visits = visits_made(WEEK, PLAN)
    assert visits
    for absent in sorted(visits):
        model = build(WEEK, visits - {absent})
        assert model.sheet.upper[model.trip[absent]] == 0
        assert not any(o.shop == absent[0] and (o.name, absent[1]) in model.buy for o in WEEK.offers)


# -- a solution is a plan ------------------------------------------------------------------------------


@cache
def solved(seed: int) -> tuple[WeekModel, Run]:
    model = build(small_kitchen(seed))
    ended = run(model.sheet, 60)
    assert ended.proven
    return model, ended


@pytest.mark.parametrize("block", range(1, KITCHENS, BLOCK))
def test_the_best_solution_is_read_back_as_a_plan_that_stands_at_its_worth(block: int) -> None:
    for seed in range(block, block + BLOCK, 5):
        model, ended = solved(seed % KITCHENS)
        if ended.values is None:
            assert tried_out(seed % KITCHENS) is None
            continue
        plan = settle(model.question, read(model, ended.values))
        verdict = judge(model.question, plan)
        assert verdict.breaches == (), seed
        assert ended.bound == pytest.approx(float(verdict.costs.total), abs=1e-4), seed


@pytest.mark.parametrize("seed", range(5, KITCHENS, 23))
def test_with_batches_fixed_the_programme_is_worth_what_trying_everything_finds_for_them(seed: int) -> None:
    question = small_kitchen(seed)
    plans = all_plans(question)
    for total, plan in plans[:: max(1, len(plans) // 3)]:
        model = build(question)
        fix_batches(model, plan.batches)
        ended = run(model.sheet, 60)
        assert ended.proven
        assert ended.bound == pytest.approx(float(total), abs=1e-4)


# -- what only tightens ---------------------------------------------------------------------------------


def without_covers(monkeypatch: pytest.MonkeyPatch) -> None:
    for rows in ("packages_cover_each_batch", "packages_cover_both_sessions"):
        monkeypatch.setattr(f"ladleworth.decide.programme.{rows}", lambda model: None)


@pytest.mark.parametrize("block", range(2, KITCHENS, BLOCK))
def test_covers_cut_off_no_optimum_of_a_small_week(block: int, monkeypatch: pytest.MonkeyPatch) -> None:
    seeds = [seed % KITCHENS for seed in range(block, block + BLOCK, 5)]
    tightened = {seed: solved(seed)[1] for seed in seeds}
    rows = sum(len(solved(seed)[0].sheet.rows) for seed in seeds)
    without_covers(monkeypatch)
    assert sum(len(build(small_kitchen(seed)).sheet.rows) for seed in seeds) < rows
    for seed in seeds:
        plain = run(build(small_kitchen(seed)).sheet, 60)
        assert plain.proven
        assert (plain.values is None) == (tightened[seed].values is None), seed
        if plain.bound is not None:
            assert tightened[seed].bound == pytest.approx(plain.bound, abs=1e-4), seed


@pytest.mark.parametrize("seed", [0, 9])
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
    assert tightened.bound == pytest.approx(plain.bound, abs=1e-4)
