"""The decision agrees, to the exact fraction of a cent, with trying everything on small weeks."""

from __future__ import annotations

import pytest
from tests.model.plan_cost import cost_of, total_of
from tests.model.small_kitchens import KITCHENS, small_kitchen
from tests.model.tried_out import tried_out

from ladleworth.decide import Status, decide, judge

BLOCK = 10


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
