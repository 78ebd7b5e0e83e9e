"""What a plan comes to in figures: nutrients by eater and week, and portions that have to be used up."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

from tests.unit.week.split_week import PAPERS, kitchen_of, split_plan

from ladleworth.decide import Answer, Helping, Plan, Status, judge, pose
from ladleworth.ledger import LotUnit
from ladleworth.week import PlannedWeek, nutrients_of, use_up_of, week_cost_cents
from ladleworth.week.carry_out import buy_planned, cook_planned

BOUNDED = PAPERS["kitchen.yaml"].replace(
    "  - name: Kid\n", "  - name: Kid\n    bounds: {protein: {least: 10 g}, energy: {most: 400 kcal}}\n"
)


def week_of(folder: Path, kitchen_yaml: str = BOUNDED) -> PlannedWeek:
    kitchen = kitchen_of(folder, kitchen_yaml=kitchen_yaml)
    question = pose(kitchen)
    plan = split_plan(question)
    costs = judge(question, plan).costs
    return PlannedWeek(kitchen, question, Answer(Status.GOOD, plan, costs, None, 0.0, "planted"))


def test_means_are_those_of_the_eaters_own_portions_span_by_span(tmp_path: Path) -> None:
    week = week_of(tmp_path / "k")
    version = week.question.version("chili", "carrot")
    protein, energy = nutrients_of(week)
    assert (protein.eater, protein.nutrient, protein.helpings) == ("Kid", "protein_g", 4)
    assert (protein.first_day, protein.last_day) == (1, 4)
    assert protein.mean == version.nutrients["protein_g"] * Fraction(2, 3)
    assert (protein.least, protein.most) == (10, None)
    assert (energy.least, energy.most) == (None, 400)
    fortnight = replace(
        week, question=replace(week.question, rules=replace(week.question.rules, span_days=3))
    )
    assert [(one.first_day, one.last_day, one.helpings) for one in nutrients_of(fortnight)][:2] == [
        (1, 3, 3),
        (4, 4, 1),
    ]


def test_the_share_of_helpings_that_bring_something_goes_by_no_appetite(tmp_path: Path) -> None:
    text = PAPERS["kitchen.yaml"].replace(
        "  - name: Kid\n", "  - name: Kid\n    bounds: {crunch: {least: 75%}}\n"
    )
    dishes = PAPERS["dishes.yaml"].replace(
        "        lines: [60 g carrots]\n", "        lines: [60 g carrots]\n        brings: crunch\n"
    )
    kitchen = kitchen_of(tmp_path / "k", kitchen_yaml=text, dishes_yaml=dishes)
    question = pose(kitchen)
    plan = split_plan(question)
    answer = Answer(Status.GOOD, plan, judge(question, plan).costs, None, 0.0, "planted")
    (crunch,) = nutrients_of(PlannedWeek(kitchen, question, answer))
    assert (crunch.eater, crunch.nutrient, crunch.share, crunch.helpings) == ("Kid", "crunch", True, 4)
    assert (crunch.mean, crunch.least, crunch.most) == (1, Fraction(3, 4), None)


def test_a_mean_is_not_known_where_no_helping_is_served_or_one_has_no_figure(tmp_path: Path) -> None:
    week = week_of(tmp_path / "k")
    out = tuple(Helping(h.day, h.eater, h.meal) if h.eater == "Kid" else h for h in week.plan.helpings)
    hungry = replace(week, answer=replace(week.answer, plan=replace(week.plan, helpings=out)))
    assert [(one.helpings, one.mean) for one in nutrients_of(hungry)] == [(0, None), (0, None)]
    (dish,) = week.question.dishes
    bare = tuple(replace(version, nutrients={}) for version in dish.versions)
    unknown = replace(week, question=replace(week.question, dishes=(replace(dish, versions=bare),)))
    assert [(one.helpings, one.mean) for one in nutrients_of(unknown)] == [(4, None), (4, None)]


def test_portions_on_hand_have_to_be_used_up_like_food(tmp_path: Path) -> None:
    week = week_of(tmp_path / "k", PAPERS["kitchen.yaml"])
    ledger = buy_planned(week.kitchen, week.plan, 1).ledger
    ledger = cook_planned(replace(week.kitchen, ledger=ledger), week.plan, 1).ledger
    monday = replace(week.kitchen.household, start=date(2026, 12, 7), days=3)
    kitchen = replace(week.kitchen, household=monday, ledger=ledger)
    question = pose(kitchen)
    lot = "chili 2026-12-06 onion chilled"
    plan = Plan((), (Helping(1, "Ada", "dinner", "chili", lot=lot),), (), ())
    found = use_up_of(PlannedWeek(kitchen, question, replace(week.answer, plan=plan)))
    (mine,) = [one for one in found if one.lot == lot]
    assert (mine.unit, mine.quantity, mine.drawn, mine.last_day) == (LotUnit.PORTION, 3, 1, date(2026, 12, 9))
    assert mine.spoils_cents == Fraction(ledger.holding(lot).cents * 2, 3)


def test_what_the_week_costs_puts_back_what_is_on_hand_and_keeps_beyond_the_days(tmp_path: Path) -> None:
    week = week_of(tmp_path / "k", PAPERS["kitchen.yaml"])
    costs = week.answer.costs
    assert costs is not None
    # the kilogram of lentils cost 1.00: what is left of it is carried, and all of it is put back
    assert week_cost_cents(week.question, costs) == costs.total + 100
    half = replace(week.question, additions=replace(week.question.additions, carried_share=Fraction(1, 2)))
    assert week_cost_cents(half, costs) == costs.total + 50
