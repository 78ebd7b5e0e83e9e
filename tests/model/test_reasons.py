"""Why a plan and why none: planted clashes are named exactly, with ways out and prices that were argued by hand.

Nobody eats out in the weeks of the clashes, so one more meal out is always a way out too; the rice of a
portion costs 10 and a meal out, where there is one, 300. The small random weeks stand in `test_reasons_agree.py`.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.brute_force import best
from tests.model.strict_weeks import at_home, ways
from tests.unit.decide.weeks import BEANS, PORTION, RICE, pack, rules, sessions, slots, stew, week

from ladleworth.decide import (
    CookSession,
    Foodstuff,
    PriceOfRule,
    Question,
    Rule,
    Status,
    Tight,
    clash,
    decide,
    prices_of_rules,
    runner_up,
    tight,
)
from ladleworth.decide.bending import WITHOUT_AMOUNT
from ladleworth.decide.reasons import in_force, limits, without

THREE = slots(1, 2, 3)


# -- planted clashes ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("question", "amounts"),
    [
        # Three portions cost 30 and there are 18: 12 more, or two meals out (10 buys one portion).
        (week(slots=THREE, rules=at_home(budget_cents=18)), {Rule.BUDGET: 12, Rule.NO_MEAL_OUT: 2}),
        # 10 minutes and 5 a portion, 25 for three; with 18 one portion is cooked.
        (
            week(
                slots=THREE,
                dishes=(stew(fixed_min=Fraction(10), per_portion_min=Fraction(5)),),
                sessions=sessions(1, minutes=18),
                rules=at_home(),
            ),
            {Rule.MINUTES: 7, Rule.NO_MEAL_OUT: 2},
        ),
        # Two portions wait on the first night.
        (week(slots=THREE, rules=at_home(containers=1)), {Rule.CONTAINERS: 1, Rule.NO_MEAL_OUT: 1}),
        (week(slots=THREE, rules=at_home(containers=0)), {Rule.CONTAINERS: 2, Rule.NO_MEAL_OUT: 2}),
        # The portions for days 3 and 4 have to be frozen: the dish keeps for one day chilled.
        (
            week(
                days=4,
                slots=slots(1, 3, 4),
                dishes=(stew(keep_days=1, freezer_days=30),),
                rules=at_home(freezer_places=0),
            ),
            {Rule.FREEZER: 2, Rule.NO_MEAL_OUT: 2},
        ),
        # Four days in a row where one is the most: three more, or days 2 and 4 out.
        (
            week(days=4, slots=slots(1, 2, 3, 4), rules=at_home(in_a_row=1)),
            {Rule.IN_A_ROW: 3, Rule.NO_MEAL_OUT: 2},
        ),
        (
            week(days=4, slots=slots(1, 2, 3, 4), rules=at_home(most_times=3)),
            {Rule.MOST_TIMES: 1, Rule.NO_MEAL_OUT: 1},
        ),
    ],
    ids=["money", "minutes", "containers", "no containers", "freezer", "in a row", "most times"],
)
def test_one_rule_too_strict_for_eating_at_home_is_named_with_what_it_takes(
    question: Question, amounts: dict[Rule, int]
) -> None:
    assert decide(question).status is Status.INFEASIBLE
    found = clash(question)
    assert set(found.rules) == set(amounts)
    assert ways(found) == amounts


def test_rules_that_do_not_matter_to_the_clash_are_not_named() -> None:
    # 18 to spend where three portions take 30; everything else is there in plenty.
    ample = at_home(budget_cents=18, containers=9, freezer_places=9, in_a_row=3, most_times=3)
    found = clash(week(slots=THREE, rules=ample))
    assert set(found.rules) == {Rule.BUDGET, Rule.NO_MEAL_OUT}
    assert ways(found) == {Rule.BUDGET: 12, Rule.NO_MEAL_OUT: 2}


def test_two_rules_that_only_clash_together_are_both_named() -> None:
    # A package for two portions, of use only on its day, costs 20. Both on day 1: one container. Each on its own
    # day: two packages, 40. Without containers and with 30 to spend neither will do, yet either limit alone would.
    question = week(
        slots=slots(1, 2),
        sessions=sessions(1, 2),
        foods=(Foodstuff("rice", keep_days=1),),
        offers=(pack(20, quantity=2 * PORTION),),
        rules=at_home(containers=0, budget_cents=30),
    )
    assert best(without(question, [Rule.CONTAINERS])) == 20
    assert best(without(question, [Rule.BUDGET])) == 40
    found = clash(question)
    assert set(found.rules) == {Rule.BUDGET, Rule.CONTAINERS, Rule.NO_MEAL_OUT}
    assert ways(found) == {Rule.BUDGET: 10, Rule.CONTAINERS: 1, Rule.NO_MEAL_OUT: 1}


def test_minutes_and_money_that_only_clash_together_are_both_named() -> None:
    # Stew costs 10 and takes 30 minutes, the quick bake 25 and takes 5. With 20 minutes and 20 cents neither.
    question = week(
        dishes=(
            stew(fixed_min=Fraction(30)),
            stew({"beans": PORTION}, name="bake", fixed_min=Fraction(5)),
        ),
        foods=(RICE, BEANS),
        offers=(pack(10), pack(25, "beans")),
        sessions=sessions(1, minutes=20),
        rules=at_home(budget_cents=20),
    )
    found = clash(question)
    assert set(found.rules) == {Rule.BUDGET, Rule.MINUTES, Rule.NO_MEAL_OUT}
    assert ways(found) == {Rule.BUDGET: 5, Rule.MINUTES: 10, Rule.NO_MEAL_OUT: 1}


def test_of_two_rules_too_strict_each_by_itself_only_a_clash_without_the_other_is_named() -> None:
    # 18 cents and one container are each too little. One of the two clashes is named, and no bending of its rule
    # alone is a way out while the other stands; two meals out are.
    question = week(slots=THREE, rules=at_home(budget_cents=18, containers=1))
    found = clash(question)
    assert set(found.rules) in ({Rule.BUDGET, Rule.NO_MEAL_OUT}, {Rule.CONTAINERS, Rule.NO_MEAL_OUT})
    assert ways(found) == {Rule.NO_MEAL_OUT: 2}


@pytest.mark.parametrize(
    "dish",
    [stew(barred=frozenset({"Ada"})), stew(keep_days=1), stew(meals=frozenset({"lunch"})), stew(least=2)],
    ids=["barred", "keeping", "meals", "least"],
)
def test_where_only_what_cannot_be_bent_is_in_the_way_eating_out_is_the_way_out(dish: object) -> None:
    question = week(slots=slots(2), dishes=(dish,), rules=at_home(budget_cents=500, containers=5))
    found = clash(question)
    assert found.rules == (Rule.NO_MEAL_OUT,)
    assert ways(found) == {Rule.NO_MEAL_OUT: 1}


@pytest.mark.parametrize(("fixed", "more"), [(Fraction(25, 2), 1), (Fraction(41, 3), 2), (Fraction(14), 2)])
def test_the_minutes_of_a_way_out_suffice_though_the_batch_takes_half_or_a_third_of_one(
    fixed: Fraction, more: int
) -> None:
    # A session of 12 minutes; sessions are as long as whole minutes.
    question = week(dishes=(stew(fixed_min=fixed),), sessions=sessions(1, minutes=12), rules=at_home())
    assert ways(clash(question))[Rule.MINUTES] == more


def test_every_session_of_a_way_out_is_longer_by_whole_minutes() -> None:
    # 12 minutes on two days for batches of 12 and a half: a minute more for each of them.
    question = week(
        slots=slots(1, 2),
        dishes=(stew(fixed_min=Fraction(25, 2), keep_days=1),),
        sessions=sessions(1, 2, minutes=12),
        rules=at_home(),
    )
    assert ways(clash(question)) == {Rule.MINUTES: 2, Rule.NO_MEAL_OUT: 2}


# -- without a rule -----------------------------------------------------------------------------------


def test_each_rule_in_force_can_be_left_out_by_itself() -> None:
    full = rules(
        containers=1, freezer_places=2, budget_cents=3, meal_out_cents=None, in_a_row=4, most_times=5
    )
    question = week(rules=full)
    assert in_force(question) == tuple(rule for rule in Rule if rule not in WITHOUT_AMOUNT)
    fields = {
        Rule.CONTAINERS: {"containers": None},
        Rule.FREEZER: {"freezer_places": None},
        Rule.BUDGET: {"budget_cents": None},
        Rule.IN_A_ROW: {"in_a_row": None},
        Rule.MOST_TIMES: {"most_times": None},
        Rule.NO_MEAL_OUT: {"meal_out_cents": 0},
    }
    for rule, changed in fields.items():
        assert without(question, [rule]) == replace(question, rules=replace(full, **changed))  # type: ignore[arg-type]
    assert without(question, []) == question
    assert in_force(week(sessions=())) == ()


def test_without_the_limit_on_minutes_every_dish_can_be_cooked_at_its_greatest() -> None:
    # 10 + 5 x 8 and 20/3 x 8 minutes.
    dishes = (
        stew(fixed_min=Fraction(10), per_portion_min=Fraction(5)),
        stew(name="bake", per_portion_min=Fraction(20, 3)),
    )
    question = week(dishes=dishes, sessions=(CookSession(1, 20), CookSession(2, 500)))
    free = without(question, [Rule.MINUTES])
    assert [s.minutes >= 50 + Fraction(160, 3) for s in free.sessions] == [True, True]
    assert free.sessions[1].minutes == 500
    assert free.rules == question.rules


# -- prices and limits --------------------------------------------------------------------------------


def test_the_price_of_each_rule_is_what_was_argued() -> None:
    # Five days, one session. The dish keeps for four days chilled and does not freeze: day 5 is out whatever
    # the rules. The four others: two containers leave day 4 out too; so does the most of three times. Three
    # portions at home, 2 out: 630. Without either alone the other stands, so neither costs anything by itself.
    question = week(days=5, slots=slots(1, 2, 3, 4, 5), rules=rules(containers=2, most_times=3))
    answer = decide(question)
    assert answer.costs is not None
    assert answer.costs.total == 630
    assert prices_of_rules(question, answer) == (
        PriceOfRule(Rule.MINUTES, 0.0, 0.0),
        PriceOfRule(Rule.CONTAINERS, 0.0, 0.0),
        PriceOfRule(Rule.MOST_TIMES, 0.0, 0.0),
    )
    # With room for it, the most of three times alone costs one meal out less a portion.
    alone = replace(question, rules=rules(containers=9, most_times=3))
    prices = {p.rule: (p.least, p.most) for p in prices_of_rules(alone, decide(alone))}
    assert prices == {Rule.MINUTES: (0, 0), Rule.CONTAINERS: (0, 0), Rule.MOST_TIMES: (290, 290)}


def test_eating_at_home_has_no_price_of_its_own() -> None:
    question = week(rules=at_home())
    assert [p.rule for p in prices_of_rules(question, decide(question))] == [Rule.MINUTES]


def test_the_limits_that_a_plan_reaches_are_listed_with_their_places() -> None:
    # Four days, sessions on days 1 and 3, 10 minutes a portion. Chilled for one day only: day 4 is served from
    # the freezer or not at all, and day 3 may be too. 20 minutes on day 1 make the portions of day 1 and, frozen,
    # day 3; 10 on day 3 cannot thaw in time for day 4. So: days 1 and 3 at home, day 4 from ... day 1 or none.
    question = week(
        days=4,
        slots=slots(1, 3, 4),
        sessions=(CookSession(1, 20), CookSession(3, 30)),
        dishes=(stew(keep_days=1, freezer_days=30, per_portion_min=Fraction(10)),),
        rules=rules(containers=1, freezer_places=1, budget_cents=30),
    )
    # Day 1: the portions of days 1 and 4. Day 3: its own. One is frozen from night 1 to 3 (taken out on day 3).
    answer = decide(question)
    assert answer.plan is not None
    assert answer.costs is not None
    assert answer.costs.total == 30
    assert set(tight(question, answer.plan)) == {
        Tight(Rule.MINUTES, "day 1", Fraction(20), Fraction(20)),
        Tight(Rule.CONTAINERS, "night 1", Fraction(1), Fraction(1)),
        Tight(Rule.FREEZER, "night 1", Fraction(1), Fraction(1)),
        Tight(Rule.CONTAINERS, "night 3", Fraction(1), Fraction(1)),
        Tight(Rule.BUDGET, "all days", Fraction(30), Fraction(30)),
    }
    slack = {(t.rule, t.where): (t.used, t.limit) for t in limits(question, answer.plan) if t.used < t.limit}
    assert slack == {(Rule.MINUTES, "day 3"): (10, 30), (Rule.FREEZER, "night 3"): (0, 1)}


def test_the_runner_up_cooks_something_else_and_is_never_cheaper() -> None:
    # Stew 10 or bake 25 for one slot.
    question = week(
        dishes=(stew(), stew({"beans": PORTION}, name="bake")),
        foods=(RICE, BEANS),
        offers=(pack(10), pack(25, "beans")),
    )
    answer = decide(question)
    assert answer.plan is not None
    other = runner_up(question, answer.plan)
    assert other.plan is not None
    assert other.costs is not None
    assert [b.dish for b in other.plan.batches] == ["bake"]
    assert other.costs.total == 25
    # Without the bake there is nothing but eating out.
    alone = replace(question, dishes=question.dishes[:1])
    last = runner_up(alone, answer.plan)
    assert last.costs is not None
    assert last.costs.total == 300


def test_a_runner_up_that_cannot_be_is_told_from_one_that_was_not_found_in_time(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    question = week(rules=at_home())
    answer = decide(question)
    assert answer.plan is not None
    assert runner_up(question, answer.plan).status is Status.INFEASIBLE
    late = replace(answer, status=Status.OUT_OF_TIME, plan=None, costs=None, bound=None)
    monkeypatch.setattr("ladleworth.decide.reasons.decide", lambda *_: late)
    assert runner_up(question, answer.plan).status is Status.OUT_OF_TIME
