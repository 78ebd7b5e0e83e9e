"""The timetable agrees, to the minute, with trying everything on small cooking days."""

from __future__ import annotations

import pytest
from tests.model.brute_day import measure_key
from tests.model.day_rules import broken_rules, measure_of
from tests.model.small_days import DAYS, small_day
from tests.model.tried_day import tried_day

from ladleworth.cookday import Status, timetable
from ladleworth.cookday.happened import missed
from ladleworth.cookday.judge import judge, measure

BLOCK = 30


@pytest.mark.parametrize("block", range(0, DAYS, BLOCK), ids=lambda b: f"{b}..{b + BLOCK - 1}")
def test_the_day_is_done_exactly_when_trying_everything_says(block: int) -> None:
    for seed in range(block, block + BLOCK):
        question, found = small_day(seed), tried_day(seed)
        answer = timetable(question, seconds=20.0)
        if found is None:
            assert answer.status is Status.IMPOSSIBLE, seed
            assert answer.slow is None, seed
            assert answer.nominal is None, seed
            assert answer.measure is None, seed
            assert answer.why_not, seed
            continue
        assert answer.status is Status.PROVEN, (seed, answer.why_not)
        assert answer.slow is not None, seed
        assert answer.nominal is not None, seed
        assert answer.measure is not None, seed
        assert answer.bound == answer.measure.finish == found[0].finish, seed
        # What comes after the finish is looked for within limits; on days as small as these it is found.
        assert measure_key(answer.measure) == measure_key(found[0]), seed
        assert answer.measure == measure(question, answer.slow) == measure_of(question, answer.slow), seed
        assert judge(question, answer.slow, slow=True) == (), seed
        assert judge(question, answer.nominal, slow=False) == (), seed
        assert broken_rules(question, answer.slow, True) == set(), seed
        assert broken_rules(question, answer.nominal, False) == set(), seed
        assert answer.missed == missed(question, answer.nominal), seed
