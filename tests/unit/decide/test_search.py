from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from bench.kitchens import kitchen_like
from tests.unit.decide.weeks import BEANS, PORTION, RICE, pack, rules, slots, stew, week

from ladleworth.decide import Additions, Batch, Question, Status, decide
from ladleworth.decide.judge import hands_on_min
from ladleworth.decide.moves import State, move
from ladleworth.decide.search import Search, search

FOREVER = 1e9
"""A clock limit that the number of looks always comes before."""


def larger(seed: int, **fields: object) -> Question:
    usual: dict[str, object] = {"dishes": 8, "days": 7, "meals": ("lunch", "dinner"), "staples": 20}
    return kitchen_like(seed, **(usual | fields))  # type: ignore[arg-type]


def keeps_sizes_and_minutes(question: Question, batches: tuple[Batch, ...]) -> bool:
    versions = {(d.name, v.name): v for d in question.dishes for v in d.versions}
    used = {s.day: Fraction(0) for s in question.sessions}
    assert len({(b.day, b.dish) for b in batches}) == len(batches)
    for batch in batches:
        dish = question.dish(batch.dish)
        assert dish.least <= batch.portions <= dish.greatest
        used[batch.day] += hands_on_min(versions[batch.dish, batch.version], batch.portions)
    return all(used[s.day] <= s.minutes for s in question.sessions)


@pytest.mark.parametrize("seed", range(3))
def test_the_same_seed_and_looks_find_the_same_batches(seed: int) -> None:
    question = larger(seed)
    once, again = (search(question, FOREVER, looks=700, seed=seed) for _ in range(2))
    assert once == again
    assert once
    assert search(question, FOREVER, looks=700, seed=seed + 100) != once


@pytest.mark.parametrize("seed", range(4))
def test_what_is_found_keeps_sizes_and_minutes_and_is_at_most_five_different_sets(seed: int) -> None:
    question = larger(seed, minutes=50)
    found = search(question, FOREVER, looks=1000, seed=seed)
    assert 1 <= len(found) <= 5
    assert len(set(found)) == len(found)
    for batches in found:
        assert keeps_sizes_and_minutes(question, batches)
        assert list(batches) == sorted(batches)


@pytest.mark.parametrize(
    "question",
    [week(sessions=()), week(dishes=()), week(sessions=(), dishes=())],
    ids=["session", "dish", "both"],
)
def test_without_sessions_or_dishes_there_is_nothing_to_find(question: Question) -> None:
    assert search(question, FOREVER, looks=10) == ()


def test_the_search_ends_with_its_clock() -> None:
    assert search(larger(1), 0.2, looks=10**9)


def test_the_cheaper_dish_is_found_for_every_slot() -> None:
    question = week(
        slots=slots(1, 2, 3),
        dishes=(stew({"beans": PORTION}, name="bake"), stew()),
        foods=(RICE, BEANS),
        offers=(pack(10), pack(25, "beans")),
    )
    assert search(question, FOREVER, looks=3000)[0] == (Batch(1, "stew", "plain", 3),)


def test_a_search_that_starts_from_a_good_plan_does_not_lose_it() -> None:
    question = larger(2)
    start = search(question, FOREVER, looks=2000, seed=1)[0]
    bench = Search(question)

    def cents(batches: tuple[Batch, ...]) -> float:
        everywhere = (1 << len(bench.days) * len(question.shops)) - 1
        state = State(bench.state_of(batches), everywhere)
        bench.weigh(state)
        return state.cost

    found = search(question, FOREVER, looks=1500, seed=2, start=start)
    assert min(map(cents, found)) <= cents(start)


@pytest.mark.parametrize("seed", range(4))
def test_a_state_priced_from_the_one_before_costs_what_it_costs_by_itself(seed: int) -> None:
    question = larger(seed)
    question = replace(
        question,
        additions=Additions(
            repeat_cents=10,
            minute_cents=Fraction(seed, 3),
            reserve_portions=seed % 2,
            carried_share=Fraction(1, 1 + seed),
        ),
    )
    bench, dice = Search(question), random.Random(seed)
    here = State({}, (1 << len(bench.days) * len(question.shops)) - 1)
    bench.weigh(here)
    moved = 0
    while moved < 200:
        there = move(bench, here, dice)
        if there is None:
            continue
        alone = State(dict(there.batches), there.visits)
        bench.weigh(there, here)
        bench.weigh(alone)
        assert there.batches == alone.batches
        assert there.cost == pytest.approx(alone.cost, abs=1e-6)
        assert there.sound == alone.sound
        here, moved = there, moved + 1


def test_batches_are_written_in_numbers_and_back() -> None:
    question = larger(3)
    bench = Search(question)
    for batches in search(question, FOREVER, looks=600):
        written = bench.state_of(batches)
        assert {
            (bench.days[s], question.dishes[d].name, question.dishes[d].versions[v].name, portions)
            for (d, s), (v, portions) in written.items()
        } == {(b.day, b.dish, b.version, b.portions) for b in batches}


def test_the_host_keeps_the_house_rules_and_cuts_a_batch_to_its_seats() -> None:
    # Four days in a row where two are the most: three portions find a seat.
    question = week(
        days=4, slots=slots(1, 2, 3, 4), dishes=(stew(keep_days=4),), rules=rules(in_a_row=2, most_times=3)
    )
    bench = Search(question)
    state = State({(0, 0): (0, 4)}, 1)
    bench.weigh(state)
    assert state.batches == {(0, 0): (0, 3)}
    assert state.sound
    assert state.cost == pytest.approx(3 * 10 + 300)


def test_containers_and_freezer_places_that_are_not_there_make_a_state_unsound() -> None:
    dish = stew(keep_days=1, freezer_days=30)
    full = week(days=4, slots=slots(1, 3, 4), dishes=(dish,), rules=rules(containers=2, freezer_places=2))
    for limits, sound in (
        ({}, True),
        ({"containers": 1}, False),
        ({"freezer_places": 1}, False),
        ({"containers": 0, "freezer_places": 0}, False),
    ):
        bench = Search(replace(full, rules=replace(full.rules, **limits)))
        state = State({(0, 0): (0, 3)}, 1)
        bench.weigh(state)
        assert state.sound is sound, limits


def test_a_week_found_by_the_search_alone_is_near_the_best() -> None:
    question = larger(5, dishes=5, days=4, staples=12, eaters=1)
    answer = decide(question, seconds=30)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    bench = Search(question)
    costs = []
    for batches in search(question, FOREVER, looks=5000):
        for visits in range(1 << len(bench.days) * len(question.shops)):
            state = State(bench.state_of(batches), visits)
            bench.weigh(state)
            costs += [state.cost] if state.sound else []
    untouched = sum(
        lot.cents if lot.last_day is not None and lot.last_day <= question.days else -lot.cents
        for lot in question.lots
    )
    best = float(answer.costs.total)
    assert best - 1e-4 <= min(costs) + untouched <= best + 300


def test_sessions_may_be_listed_in_any_order() -> None:
    question = larger(1)
    turned = replace(question, sessions=question.sessions[::-1])
    assert turned.sessions != question.sessions
    assert search(turned, FOREVER, looks=500) == search(question, FOREVER, looks=500)
