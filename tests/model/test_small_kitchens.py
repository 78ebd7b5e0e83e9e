"""The small weeks have every rule of the question, and every rule decides something in some of them."""

from __future__ import annotations

import pytest
from tests.model.brute_force import best
from tests.model.kitchen_rules import FEATURES, Feature
from tests.model.plan_cost import cost_of
from tests.model.small_kitchens import KITCHENS, PLAIN_KITCHENS, small_kitchen
from tests.model.tried_out import tried_out


@pytest.mark.parametrize("feature", FEATURES, ids=lambda feature: feature.name)
def test_every_rule_is_in_many_small_weeks_and_some_have_another_best_plan_without_it(
    feature: Feature,
) -> None:
    having = [seed for seed in range(KITCHENS) if feature.is_in(small_kitchen(seed))]
    assert len(having) >= 12
    binding = 0
    for seed in sorted(having, key=lambda seed: (seed < PLAIN_KITCHENS, seed)):
        found = tried_out(seed)
        cents = None if found is None else found[0]
        binding += best(feature.without(small_kitchen(seed))) != cents
        if binding == 3:
            return
    assert binding >= 3


def test_from_fifteen_to_twenty_five_in_a_hundred_small_weeks_have_no_plan() -> None:
    assert KITCHENS >= 320
    for seeds in (range(PLAIN_KITCHENS), range(PLAIN_KITCHENS, KITCHENS)):
        without = sum(tried_out(seed) is None for seed in seeds)
        assert 0.15 <= without / len(seeds) <= 0.30, without
    assert 0.15 <= sum(tried_out(seed) is None for seed in range(KITCHENS)) / KITCHENS <= 0.25


def test_the_small_weeks_are_varied_enough_for_the_agreement_to_mean_something() -> None:
    found = {seed: tried_out(seed) for seed in range(KITCHENS)}
    plans = {seed: one[1] for seed, one in found.items() if one is not None}
    parts = {seed: cost_of(small_kitchen(seed), plan) for seed, plan in plans.items()}

    def share(count: int) -> float:
        return count / KITCHENS

    assert share(sum(bool(plan.batches) for plan in plans.values())) >= 0.40
    assert share(sum(len(plan.batches) > 1 for plan in plans.values())) >= 0.15
    assert share(sum(bool(plan.purchases) for plan in plans.values())) >= 0.25
    assert sum(any(h.frozen for h in plan.helpings) for plan in plans.values()) >= 15
    assert sum(len({b.day for b in plan.batches}) > 1 for plan in plans.values()) >= 20
    for name in (
        "tills",
        "trips",
        "spoilt",
        "meals_out",
        "carried",
        "repeats",
        "minutes",
        "liking",
        "reserve",
        "sessions",
    ):
        assert sum(costs[name] != 0 for costs in parts.values()) >= 12, name
