"""The decision agrees, to the exact fraction of a cent, with trying everything on small weeks."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest
from tests.model.brute_force import best_plan
from tests.model.plan_cost import cost_of, total_of
from tests.model.small_kitchens import KITCHENS, small_kitchen

from ladleworth.decide import Plan, Status, decide, judge

BLOCK = 10


@cache
def tried_out(seed: int) -> tuple[Fraction, Plan] | None:
    return best_plan(small_kitchen(seed))


@pytest.mark.parametrize("block", range(0, KITCHENS, BLOCK), ids=lambda b: f"{b}..{b + BLOCK - 1}")
def test_the_decision_costs_exactly_what_trying_everything_finds(block: int) -> None:
    for seed in range(block, block + BLOCK):
        question = small_kitchen(seed)
        answer = decide(question, seconds=60.0, seed=0)
        found = tried_out(seed)
        if found is None:
            assert answer.status is Status.INFEASIBLE, seed
            assert answer.plan is None, seed
            assert answer.costs is None, seed
            continue
        assert answer.status is Status.PROVEN, seed
        assert answer.plan is not None, seed
        assert answer.costs is not None, seed
        assert answer.costs.total == found[0], (seed, answer.costs, found)
        verdict = judge(question, answer.plan)
        assert verdict.breaches == (), seed
        assert verdict.costs == answer.costs, seed
        assert total_of(cost_of(question, answer.plan)) == found[0], seed
        assert answer.bound is not None, seed
        assert answer.bound <= float(found[0]) + 1e-6, seed


def test_the_small_weeks_are_varied_enough_for_the_agreement_to_mean_something() -> None:
    found = {seed: tried_out(seed) for seed in range(KITCHENS)}
    plans = {seed: best[1] for seed, best in found.items() if best is not None}
    parts = {seed: cost_of(small_kitchen(seed), plan) for seed, plan in plans.items()}

    def share(count: int) -> float:
        return count / KITCHENS

    assert KITCHENS >= 220
    assert sum(best is None for best in found.values()) >= 20
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
    ):
        assert sum(costs[name] != 0 for costs in parts.values()) >= 15, name
