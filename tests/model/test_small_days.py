"""The small cooking days have every rule of the question, and every rule decides something in some of them."""

from __future__ import annotations

import pytest
from tests.model.brute_day import best_day
from tests.model.day_features import FEATURES, DayFeature
from tests.model.day_rules import asked, known
from tests.model.small_days import DAYS, PLAIN_DAYS, small_day
from tests.model.tried_day import tried_day

from ladleworth.cookday.question import DayQuestion


@pytest.mark.parametrize("feature", FEATURES, ids=lambda feature: feature.name)
def test_every_rule_is_in_many_small_days_and_some_have_another_best_timetable_without_it(
    feature: DayFeature,
) -> None:
    having = [seed for seed in range(DAYS) if feature.is_in(small_day(seed))]
    assert len(having) >= 10
    binding = 0
    for seed in sorted(having, key=lambda seed: (len(small_day(seed).activities), seed)):
        found = tried_day(seed)
        binding += best_day(feature.without(small_day(seed))) != (found and found[0])
        if binding == 3:
            return
    assert binding >= 3


def test_from_fifteen_to_twenty_five_in_a_hundred_small_days_have_no_timetable() -> None:
    assert DAYS >= 150
    for seeds in (range(PLAIN_DAYS), range(PLAIN_DAYS, DAYS)):
        without = sum(tried_day(seed) is None for seed in seeds)
        assert 0.07 <= without / len(seeds) <= 0.30, without
    assert 0.15 <= sum(tried_day(seed) is None for seed in range(DAYS)) / DAYS <= 0.25


def overdue(question: DayQuestion) -> bool:
    """Whether something is running that should be over by now."""
    return any(
        b.end is None and b.start + known(question, b.activity)[0].most_min < question.now
        for b in question.begun
    )


def test_days_on_their_way_are_in_every_state() -> None:
    live = [small_day(seed) for seed in range(PLAIN_DAYS, DAYS)]
    assert all(question.begun for question in live)
    assert sum(any(b.end is None for b in q.begun) for q in live) >= 20
    assert sum(any(b.end is not None for b in q.begun) for q in live) >= 20
    assert sum(overdue(q) for q in live) >= 10
    unasked = [q for q in live if any(asked(q, lag) != (True, lag.most is not None) for lag in q.lags)]
    assert len(unasked) >= 10


def test_the_best_timetables_are_varied_enough_for_the_agreement_to_mean_something() -> None:
    found = {seed: one for seed in range(DAYS) if (one := tried_day(seed)) is not None}
    tables = [timetable for _, timetable in found.values()]
    assert sum(bool(table.washes) for table in tables) >= 15
    assert sum(bool(table.merged) for table in tables) >= 8
    assert sum(len(table.oven) > 1 for table in tables) >= 20
    assert sum(len({h.heat_c for h in table.oven}) > 1 for table in tables) >= 15
    assert sum(any(held.which for held in table.tools) for table in tables) >= 10
    assert sum(any(1 in time.cooks for time in table.times) for table in tables) >= 30
    assert len({measure.finish for measure, _ in found.values()}) >= 12
    waits = 0
    for seed, (_, table) in found.items():
        for activity in small_day(seed).activities:
            time = table.timed(activity.name)
            begun = any(b.activity == activity.name for b in small_day(seed).begun)
            waits += (
                not begun
                and not table.merged
                and time.end - time.start > activity.least_min
                and not activity.hands
            )
    assert waits >= 10
