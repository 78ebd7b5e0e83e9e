"""Limits reached, prices and runners-up where a household has more rules than the plain ones, and wishes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.small_kitchens import KITCHENS, PLAIN_KITCHENS, small_kitchen
from tests.model.strict_weeks import BAKED, LARGE, oven, with_version
from tests.unit.decide.weeks import BEANS, PORTION, RICE, pack, rules, sessions, slots, stew, week

from ladleworth.decide import (
    Answer,
    ContainerSize,
    MustCook,
    MustNotCook,
    NutrientBound,
    PortionLot,
    Question,
    Rule,
    Status,
    Tight,
    decide,
    judge,
    prices_of_rules,
    runner_up,
    tight,
    why_not,
)
from ladleworth.decide.comparing import Asking
from ladleworth.decide.reasons import in_force, limits, without

FURTHER = PLAIN_KITCHENS
"""From this seed on the small random weeks have further rules."""


# -- without a rule -----------------------------------------------------------------------------------


def test_each_further_rule_in_force_can_be_left_out_by_itself() -> None:
    full = rules(
        freezing_load=1,
        container_sizes=(ContainerSize(600, 2), ContainerSize(300, 1)),
        fridge_ml=1000,
        freezer_ml=2000,
        nutrient_bounds=(NutrientBound("Ada", "salt", most=Fraction(9)),),
    )
    question = week(rules=full, sessions=oven(30), dishes=(with_version(nutrients={"salt": Fraction(1)}),))
    fields = {
        Rule.FREEZING_LOAD: {"freezing_load": None},
        Rule.SIZES: {"container_sizes": (), "containers": 3},
        Rule.FRIDGE_ROOM: {"fridge_ml": None},
        Rule.FREEZER_ROOM: {"freezer_ml": None},
        Rule.NUTRIENTS: {"nutrient_bounds": ()},
    }
    assert set(in_force(question)) == {*fields, Rule.MINUTES, Rule.CONTAINERS, Rule.STATIONS}
    for rule, changed in fields.items():
        assert without(question, [rule]).rules == replace(full, **changed)  # type: ignore[arg-type]
    assert dict(without(question, [Rule.STATIONS]).sessions[0].stations) == {}
    # as many of the small ones as could ever be wanted; the large ones stay two
    freed = without(question, [Rule.CONTAINERS]).rules
    assert freed.containers is None
    assert freed.container_sizes == (ContainerSize(300, 2), ContainerSize(600, 2))
    neither = without(question, [Rule.CONTAINERS, Rule.SIZES]).rules
    assert (neither.containers, neither.container_sizes) == (None, ())


def test_without_the_limit_on_minutes_a_split_batch_and_what_its_versions_share_fit() -> None:
    plain = stew(fixed_min=Fraction(40), per_portion_min=Fraction(2))
    (version,) = plain.versions
    dish = replace(
        plain,
        versions=(version, replace(version, name="other", fixed_min=Fraction(30))),
        most_versions=2,
        shared_min=Fraction(50),
    )
    free = without(week(dishes=(dish,)), [Rule.MINUTES])
    assert free.sessions[0].minutes >= 50 + 40 + 30 + 2 * 8


# -- limits -------------------------------------------------------------------------------------------


def test_minutes_that_versions_share_and_minutes_of_stations_count_towards_their_limits() -> None:
    dish = replace(BAKED, shared_min=Fraction(60))
    question = week(dishes=(dish,), sessions=oven(25))
    answer = decide(question)
    assert answer.plan is not None
    assert set(tight(question, answer.plan)) == {
        Tight(Rule.MINUTES, "day 1", Fraction(60), Fraction(60)),
        Tight(Rule.STATIONS, "oven, day 1", Fraction(25), Fraction(25)),
    }


def test_sizes_room_and_freezing_load_are_limits_with_their_places() -> None:
    # day 3 is served from the freezer: the portion lies there on night 1 and thaws in the fridge on night 2
    question = week(
        slots=slots(3),
        dishes=(replace(LARGE, keep_days=1, freezer_days=30),),
        rules=rules(
            container_sizes=(ContainerSize(600, 1), ContainerSize(300, 4)),
            fridge_ml=500,
            freezer_ml=700,
            freezing_load=1,
        ),
    )
    answer = decide(question)
    assert answer.plan is not None
    measured = {(t.rule, t.where): (t.used, t.limit) for t in limits(question, answer.plan)}
    assert measured == {
        (Rule.MINUTES, "day 1"): (0, 60),
        (Rule.CONTAINERS, "night 1"): (1, 5),
        (Rule.SIZES, "night 1, above 300 ml"): (1, 1),
        (Rule.FREEZER_ROOM, "night 1"): (500, 700),
        (Rule.FRIDGE_ROOM, "night 1"): (0, 500),
        (Rule.FRIDGE_ROOM, "night 2"): (500, 500),
        (Rule.FRIDGE_ROOM, "night 3"): (0, 500),
        (Rule.FREEZING_LOAD, "day 1"): (1, 1),
    }


def test_portions_on_hand_fill_containers_on_the_first_night_though_nobody_cooks_then() -> None:
    box = PortionLot("box", "soup", 2, 100, last_day=3)
    question = week(
        slots=slots(2, 3), sessions=sessions(3), portions=(box,), rules=rules(containers=2, in_a_row=None)
    )
    answer = decide(question)
    assert answer.plan is not None
    assert Tight(Rule.CONTAINERS, "night 1", Fraction(2), Fraction(2)) in tight(question, answer.plan)
    assert judge(replace(question, rules=rules(containers=1)), answer.plan).breaches != ()


@pytest.mark.parametrize("seed", range(FURTHER, KITCHENS, 4))
def test_a_further_limit_that_is_reached_is_one_that_one_less_would_break(seed: int) -> None:
    question = small_kitchen(seed)
    answer = decide(question)
    if answer.plan is None:
        assert answer.status is Status.INFEASIBLE
        return
    measured = list(limits(question, answer.plan))
    assert measured
    assert all(one.used <= one.limit for one in measured)
    for one in measured:
        stricter = _stricter(question, one)
        if stricter is not None:
            reached = any(t.used > t.limit - 1 for t in measured if t.rule is one.rule)
            assert judge(stricter, answer.plan).stands is not reached, one


def _stricter(question: Question, one: Tight) -> Question | None:
    """The question with a further limit less by one, for stations each of one day; None for other limits."""
    if one.limit == 0:
        return None
    if one.rule is Rule.STATIONS:
        less = tuple(
            replace(s, stations={name: minutes - 1 for name, minutes in s.stations.items() if minutes})
            for s in question.sessions
        )
        return replace(question, sessions=less)
    field = {
        Rule.FRIDGE_ROOM: "fridge_ml",
        Rule.FREEZER_ROOM: "freezer_ml",
        Rule.FREEZING_LOAD: "freezing_load",
    }.get(one.rule)
    if field is None:
        return None
    return replace(question, rules=replace(question.rules, **{field: int(one.limit) - 1}))  # type: ignore[arg-type]


# -- prices and runners-up ----------------------------------------------------------------------------


def test_the_price_of_a_further_rule_is_what_was_argued() -> None:
    # the oven takes one portion: the other supper is out
    question = week(slots=slots(1, 2), dishes=(BAKED,), sessions=oven(29))
    answer = decide(question)
    assert answer.costs is not None
    assert answer.costs.total == 310
    prices = {price.rule: (price.least, price.most) for price in prices_of_rules(question, answer)}
    assert prices == {Rule.MINUTES: (0, 0), Rule.STATIONS: (290, 290)}


def test_a_price_begins_from_the_plan_so_that_no_time_makes_it_no_worse(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    question = week(slots=slots(1, 2), rules=rules(containers=0))
    answer = decide(question)
    began: list[object] = []

    def looked_at(asked: Question, seconds: float, seed: int, *, start: object = None) -> Answer:
        began.append(start)
        return decide(asked, seconds, seed)

    monkeypatch.setattr("ladleworth.decide.reasons.decide", looked_at)
    assert {p.rule: p.least for p in prices_of_rules(question, answer)} == {
        Rule.MINUTES: 0,
        Rule.CONTAINERS: 290,
    }
    assert began == [answer.plan] * 2


def three_dishes(**fields: object) -> Question:
    """Rice for 10, beans for 14 or corn for 25 cents a portion."""
    dishes = tuple(stew({food: PORTION}, name=food) for food in ("rice", "beans", "corn"))
    usual: dict[str, object] = {
        "dishes": dishes,
        "foods": (RICE, BEANS, replace(RICE, name="corn")),
        "offers": (pack(10), pack(14, "beans"), pack(25, "corn")),
    }
    return week(**(usual | fields))


def test_a_runner_up_that_is_given_no_time_still_keeps_what_is_left_of_the_plan() -> None:
    # rice on day 1, beans on day 2; without either the other is left, and a meal out
    question = three_dishes(slots=slots(1, 2), rules=rules(most_times=1))
    answer = decide(question)
    assert answer.plan is not None
    hasty = runner_up(question, answer.plan, seconds=0.0)
    assert hasty.costs is not None
    assert hasty.costs.total <= 310
    found = runner_up(question, answer.plan)
    assert found.costs is not None
    assert (found.costs.total, found.status) == (10 + 25, Status.PROVEN)


def test_the_runner_up_of_a_plan_with_wishes_keeps_them() -> None:
    question = three_dishes(
        slots=slots(1, 2), rules=rules(most_times=1), wishes=(MustCook("rice"), MustNotCook("corn"))
    )
    answer = decide(question)
    assert answer.plan is not None
    found = runner_up(question, answer.plan)
    assert found.plan is not None
    assert [batch.dish for batch in found.plan.batches] == ["rice"]
    assert judge(question, found.plan).stands


def test_why_not_says_what_a_dish_would_cost() -> None:
    question = three_dishes()
    forced = why_not(question, decide(question), "corn", Asking(5))
    assert forced.costs is not None
    assert (forced.costs.total, forced.status) == (25, Status.PROVEN)
