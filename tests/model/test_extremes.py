"""Weeks at the ends of what can be asked: each has a plan or its reasons, in its time, whole and in pieces."""

from __future__ import annotations

import time
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.decide.weeks import BEANS, PORTION, RICE, pack, rules, sessions, slots, stew, week

from ladleworth.decide import (
    CookSession,
    HouseRules,
    MustCook,
    Question,
    Rule,
    Status,
    StockLot,
    clash,
    decide,
    deciding,
    judge,
    work,
)

THREE = slots(1, 2, 3)
AT_HOME = rules(meal_out_cents=None)
MONTH = tuple(range(1, 29))

EXTREMES: dict[str, tuple[Question, int | None, set[Rule]]] = {
    # name: question, the least it can cost (None: no plan), rules that clash
    "an empty kitchen": (
        week(slots=THREE, dishes=(), foods=(), offers=(), shops=(), sessions=()),
        900,
        set(),
    ),
    "an empty kitchen, nobody eats out": (
        week(slots=THREE, dishes=(), foods=(), offers=(), shops=(), sessions=(), rules=AT_HOME),
        None,
        {Rule.NO_MEAL_OUT},
    ),
    "one dish": (week(slots=THREE), 30, set()),
    "no container": (week(slots=THREE, rules=rules(containers=0)), 10 + 600, set()),
    "no container, nobody eats out": (
        week(slots=THREE, rules=rules(containers=0, meal_out_cents=None)),
        None,
        {Rule.CONTAINERS, Rule.NO_MEAL_OUT},
    ),
    "a budget one cent too small": (week(slots=THREE, rules=rules(budget_cents=29)), 20 + 300, set()),
    "a budget one cent too small, nobody eats out": (
        week(slots=THREE, rules=rules(budget_cents=29, meal_out_cents=None)),
        None,
        {Rule.BUDGET, Rule.NO_MEAL_OUT},
    ),
    "every dish excluded for one": (
        week(
            slots=(*THREE, *slots(1, 2, 3, eater="Ben")),
            dishes=(
                stew(barred=frozenset({"Ben"})),
                stew({"beans": PORTION}, name="bake", barred=frozenset({"Ben"})),
            ),
            foods=(RICE, BEANS),
            offers=(pack(10), pack(25, "beans")),
        ),
        30 + 900,
        set(),
    ),
    "every dish excluded for one, nobody eats out": (
        week(
            slots=(*THREE, *slots(1, eater="Ben")), dishes=(stew(barred=frozenset({"Ben"})),), rules=AT_HOME
        ),
        None,
        {Rule.NO_MEAL_OUT},
    ),
    # a lot worth 10^7 cents for 10^10 mg: a portion of it is 100 cents, bought 10
    "a lot of ten tonnes": (
        week(slots=THREE, lots=(StockLot("silo", "rice", 10**10, 10**7),)),
        30 - 10**7,
        set(),
    ),
    "a lot of ten tonnes that spoils": (
        week(slots=THREE, lots=(StockLot("silo", "rice", 10**10, 10**7, 3),)),
        10**7 - 300,
        set(),
    ),
    "a price of nothing": (week(slots=THREE, offers=(pack(0),)), 0, set()),
    "everything for nothing": (
        week(slots=THREE, offers=(pack(0),), rules=rules(meal_out_cents=0, budget_cents=0)),
        0,
        set(),
    ),
    "a package of one milligram": (week(slots=THREE, offers=(pack(1, quantity=1),)), 900, set()),
    "four weeks and one session": (
        week(
            days=28,
            slots=slots(*MONTH),
            sessions=sessions(1, minutes=600),
            dishes=(stew(greatest=28, freezer_days=90),),
            rules=HouseRules(meal_out_cents=300, in_a_row=None),
        ),
        280,
        set(),
    ),
    "four weeks and one session, nothing frozen": (
        week(days=28, slots=slots(*MONTH), dishes=(stew(greatest=28),)),
        40 + 24 * 300,
        set(),
    ),
    "four weeks and one session, nobody eats out": (
        week(days=28, slots=slots(*MONTH), dishes=(stew(greatest=28),), rules=AT_HOME),
        None,
        {Rule.NO_MEAL_OUT},
    ),
    "a session of no minutes": (
        week(slots=THREE, sessions=(CookSession(1, 0),), dishes=(stew(fixed_min=Fraction(1, 3)),)),
        900,
        set(),
    ),
    "a wish for more than can be cooked": (
        week(slots=THREE, wishes=(MustCook("stew", portions=99),)),
        None,
        set(),
    ),
}
LIMIT_S = 8.0


@pytest.mark.parametrize("name", EXTREMES)
@pytest.mark.parametrize("pieces", [False, True], ids=["whole", "in pieces"])
def test_there_is_a_plan_or_there_are_reasons(
    name: str, pieces: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    question, cents, clashing = EXTREMES[name]
    if pieces:
        monkeypatch.setattr(deciding, "SMALL_SIZES", -1)
        monkeypatch.setattr(work, "SEARCH_SECONDS", 0.05)
    began = time.monotonic()
    answer = decide(question, seconds=LIMIT_S, work=60 if pieces else None)
    assert time.monotonic() - began < LIMIT_S + 2
    if cents is None:
        assert (answer.status, answer.plan) == (Status.INFEASIBLE, None)
        if not pieces:
            assert clashing <= set(clash(question, LIMIT_S).rules)
        assert time.monotonic() - began < 2 * LIMIT_S + 2
        return
    assert answer.plan is not None
    assert answer.costs is not None
    assert judge(question, answer.plan).breaches == ()
    assert answer.costs.total == cents
    assert answer.bound is not None
    assert answer.status is Status.PROVEN


def test_every_dish_of_many_may_be_wished_for() -> None:
    names = [f"dish {n}" for n in range(8)]
    question = week(
        slots=(*THREE, *slots(1, 2, 3, eater="Ben"), *slots(1, 2, eater="Cem")),
        dishes=tuple(stew(name=name) for name in names),
        wishes=tuple(map(MustCook, names)),
    )
    answer = decide(question, seconds=LIMIT_S)
    assert answer.costs is not None
    assert answer.status is Status.PROVEN
    assert answer.costs.total == 80
    more = replace(question, wishes=(*question.wishes, MustCook("dish 0", portions=2)))
    assert decide(more, seconds=LIMIT_S).status is Status.INFEASIBLE
