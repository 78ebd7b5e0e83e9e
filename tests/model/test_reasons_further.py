"""Why a plan and why none where a household has more rules than the plain ones, and wishes.

The rice of a portion costs 10 and a meal out, where there is one, 300. After the weeks that were argued by hand come
the small random ones with further rules, against trying everything.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from tests.model.brute_force import best, best_plan
from tests.model.small_kitchens import KITCHENS, PLAIN_KITCHENS, small_kitchen
from tests.unit.decide.weeks import BEANS, PORTION, RICE, pack, rules, sessions, slots, stew, week

from ladleworth.decide import (
    Answer,
    ContainerSize,
    CookSession,
    DishChoice,
    HouseRules,
    Load,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    NutrientBound,
    PortionLot,
    Question,
    Rule,
    Status,
    Tight,
    clash,
    decide,
    judge,
    prices_of_rules,
    runner_up,
    tight,
    why_not,
)
from ladleworth.decide.answer import Progress
from ladleworth.decide.comparing import Asking, wishes_in_the_way
from ladleworth.decide.reasons import in_force, limits, without

FURTHER = PLAIN_KITCHENS
"""From this seed on the small random weeks have further rules."""


def at_home(**limits: object) -> HouseRules:
    """Nobody eats out, and no other rule than these."""
    return rules(**({"meal_out_cents": None} | limits))


def with_version(**fields: object) -> DishChoice:
    """The stew, its one version changed."""
    plain = stew()
    (version,) = plain.versions
    return replace(plain, versions=(replace(version, **fields),))  # type: ignore[arg-type]


BAKED = with_version(loads={"oven": Load(Fraction(20), Fraction(5))})
"""20 minutes of the oven, and 5 for each portion."""

LARGE = with_version(volume_ml=500)

SALTY = with_version(nutrients={"salt": Fraction(6)})


def oven(minutes: int) -> tuple[CookSession, ...]:
    return (CookSession(1, 60, {"oven": minutes}),)


# -- clashes ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("question", "rule"),
    [
        # two portions take 30 minutes of an oven that is free for 29
        (week(slots=slots(1, 2), dishes=(BAKED,), sessions=oven(29), rules=at_home()), Rule.STATIONS),
        # one portion of 500 ml waits for a night: no container holds it, or the fridge does not
        (
            week(slots=slots(2), dishes=(LARGE,), rules=at_home(container_sizes=(ContainerSize(499, 9),))),
            Rule.SIZES,
        ),
        (week(slots=slots(2), dishes=(LARGE,), rules=at_home(fridge_ml=499)), Rule.FRIDGE_ROOM),
        # chilled it keeps for its first day, so that the portion of day 3 has to be frozen
        (
            week(
                slots=slots(3),
                dishes=(replace(LARGE, keep_days=1, freezer_days=30),),
                rules=at_home(freezer_ml=499),
            ),
            Rule.FREEZER_ROOM,
        ),
        (
            week(
                slots=slots(3),
                dishes=(stew(keep_days=1, freezer_days=30),),
                rules=at_home(freezing_load=0),
            ),
            Rule.FREEZING_LOAD,
        ),
        (
            week(
                dishes=(SALTY,),
                rules=at_home(nutrient_bounds=(NutrientBound("Ada", "salt", most=Fraction(5)),)),
            ),
            Rule.NUTRIENTS,
        ),
    ],
    ids=lambda value: value.name if isinstance(value, Rule) else "",
)
def test_a_further_rule_too_strict_for_eating_at_home_is_named_and_can_be_dropped(
    question: Question, rule: Rule
) -> None:
    assert decide(question).status is Status.INFEASIBLE
    found = clash(question)
    assert found.proven
    assert set(found.rules) == {rule, Rule.NO_MEAL_OUT}
    assert found.droppable == (rule,)
    assert {way.rule for way in found.ways_out} == {Rule.NO_MEAL_OUT}
    assert found.wishes == ()


def test_too_few_containers_are_a_matter_of_their_number_whatever_their_sizes() -> None:
    # three portions of 500 ml wait on the first night, for one container that holds them and one that does not
    sizes = (ContainerSize(300, 1), ContainerSize(600, 3))
    ample = week(days=4, slots=slots(2, 3, 4), dishes=(LARGE,), rules=at_home(container_sizes=sizes))
    assert decide(ample).status is Status.PROVEN
    few = replace(ample, rules=replace(ample.rules, containers=1))
    found = clash(few)
    assert set(found.rules) == {Rule.CONTAINERS, Rule.NO_MEAL_OUT}
    assert {way.rule: way.amount for way in found.ways_out} == {Rule.CONTAINERS: 2, Rule.NO_MEAL_OUT: 2}
    small = replace(ample, rules=replace(ample.rules, container_sizes=(ContainerSize(300, 9),)))
    assert set(clash(small).rules) == {Rule.SIZES, Rule.NO_MEAL_OUT}


def test_wishes_that_cannot_be_had_together_are_the_clash_and_others_are_not_named() -> None:
    wishes = (MustCook("stew"), MustBuy(1, "rice pack", 1), MustNotCook("stew"))
    question = week(wishes=wishes)
    found = clash(question)
    assert found.proven
    assert (found.rules, found.ways_out) == ((), ())
    assert found.wishes == (wishes[0], wishes[2])
    assert wishes_in_the_way(question, Asking(5)) == (wishes[0], wishes[2])


def test_a_wish_and_the_rule_that_does_not_let_it_be_are_named_together() -> None:
    # two packages of rice cost 20
    question = week(
        rules=rules(budget_cents=15, containers=0), wishes=(MustCook("stew"), MustBuy(1, "rice pack", 2))
    )
    found = clash(question)
    assert found.wishes == (MustBuy(1, "rice pack", 2),)
    assert found.rules == (Rule.BUDGET,)
    assert [(way.rule, way.amount, way.proven) for way in found.ways_out] == [
        (Rule.BUDGET, Fraction(5), True)
    ]


def test_rules_that_clash_whatever_was_wished_for_are_named_without_the_wishes() -> None:
    question = week(
        slots=slots(1, 2), rules=at_home(budget_cents=15), wishes=(MustServe(1, "Ada", "supper", "stew"),)
    )
    found = clash(question)
    assert set(found.rules) == {Rule.BUDGET, Rule.NO_MEAL_OUT}
    assert found.wishes == ()


@pytest.mark.parametrize("block", range(FURTHER, KITCHENS, 40))
def test_a_clash_of_further_rules_and_wishes_stands_by_itself_and_falls_without_any_of_them(
    block: int,
) -> None:
    impossible = 0
    for seed in range(block, min(block + 40, KITCHENS)):
        question = small_kitchen(seed)
        if decide(question).status is Status.INFEASIBLE:
            impossible += 1
            _stands_and_falls(question)
    assert impossible


def _stands_and_falls(question: Question) -> None:
    found = clash(question)
    assert found.proven
    rest = [rule for rule in in_force(question) if rule not in found.rules]
    bare = replace(without(question, rest), wishes=found.wishes)
    assert best(bare) is None
    for rule in found.rules:
        assert best(replace(without(question, [*rest, rule]), wishes=found.wishes)) is not None, rule
    for wish in found.wishes:
        others = tuple(other for other in found.wishes if other is not wish)
        assert best(replace(bare, wishes=others)) is not None, wish
    for rule in found.rules:
        alone = best(without(question, [rule]))
        ways = {*found.droppable, *(way.rule for way in found.ways_out)}
        assert (alone is not None) == (rule in ways), rule
    for way in found.ways_out:
        assert way.proven
        assert way.amount == int(way.amount) >= 1
        assert _some_plan(question, way.rule, int(way.amount)), way
        assert not _some_plan(question, way.rule, int(way.amount) - 1), way


def _some_plan(question: Question, rule: Rule, by: int) -> bool:
    """Say whether there is a plan with one rule looser by so much; minutes shared out in every way."""
    old = question.rules
    if rule is Rule.NO_MEAL_OUT:
        # with a meal out dearer than all else together, the best plan has the fewest
        found = best_plan(replace(question, rules=replace(old, meal_out_cents=10**6)))
        return found is not None and sum(h.dish is None for h in found[1].helpings) <= by
    if rule is Rule.MINUTES:
        shares = product(range(by + 1), repeat=len(question.sessions))
        longer = (
            tuple(
                replace(s, minutes=s.minutes + more) for s, more in zip(question.sessions, share, strict=True)
            )
            for share in shares
            if sum(share) == by
        )
        return any(best(replace(question, sessions=one)) is not None for one in longer)
    if rule is Rule.CONTAINERS and old.container_sizes:
        there = min(old.containers or 10**6, sum(size.count for size in old.container_sizes))
        smallest, *others = sorted(old.container_sizes, key=lambda size: size.capacity_ml)
        more = replace(smallest, count=smallest.count + 10**6)
        changed = replace(old, containers=there + by, container_sizes=(more, *others))
        return best(replace(question, rules=changed)) is not None
    field = {
        Rule.BUDGET: "budget_cents",
        Rule.CONTAINERS: "containers",
        Rule.FREEZER: "freezer_places",
        Rule.IN_A_ROW: "in_a_row",
        Rule.MOST_TIMES: "most_times",
    }[rule]
    changed = replace(old, **{field: getattr(old, field) + by})
    return best(replace(question, rules=changed)) is not None


def test_a_clash_asks_for_no_more_than_a_first_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    question = week(slots=slots(1, 2, 3), rules=at_home(budget_cents=18))
    stopped: list[bool] = []

    def looked_at(
        asked: Question,
        seconds: float,
        seed: int,
        *,
        work: int | None,
        report: Callable[[Progress], None],
        stop: Callable[[], bool],
    ) -> Answer:
        before = stop()
        answer = decide(asked, seconds, seed, report=report)
        stopped.append((before, stop()) == (False, answer.plan is not None))
        return answer

    monkeypatch.setattr("ladleworth.decide.existing.decide", looked_at)
    assert set(clash(question).rules) == {Rule.BUDGET, Rule.NO_MEAL_OUT}
    assert stopped
    assert all(stopped)


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
