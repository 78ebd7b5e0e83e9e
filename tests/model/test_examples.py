"""The example kitchens have the weeks that their pages promise."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from tests.model.brute_force import best

from ladleworth.decide import Status, decide, judge, pose
from ladleworth.store import read_folder

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def test_the_plain_kitchen_costs_what_trying_everything_finds_and_its_page_says() -> None:
    question = pose(read_folder(EXAMPLES / "plain").without_faults())
    answer = decide(question, seconds=60)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert answer.costs.total == best(question) == Fraction(237149, 300)
    assert "237149/300" in (EXAMPLES / "plain" / "README.md").read_text()


@pytest.mark.parametrize("name", ["one-person", "four-people", "vegetarian", "empty-fridge", "tight-budget"])
def test_every_odd_kitchen_gets_a_judged_week(name: str) -> None:
    question = pose(read_folder(EXAMPLES / name).without_faults())
    answer = decide(question, seconds=8)
    assert answer.plan is not None
    assert answer.costs is not None
    assert answer.bound is not None
    assert judge(question, answer.plan).breaches == ()
    assert answer.bound <= float(answer.costs.total) + 1e-6
    out = sum(helping.dish is None for helping in answer.plan.helpings)
    assert (out > 0) == (name == "tight-budget")
