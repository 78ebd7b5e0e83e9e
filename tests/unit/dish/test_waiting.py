"""How long a step waits after those that it follows."""

from __future__ import annotations

import pytest

from ladleworth.dish.waiting import Wait, read_wait
from ladleworth.errors import BadField


@pytest.mark.parametrize(
    ("text", "wait"),
    [
        ("20 min to 30 min", Wait(20, 30)),
        ("20 to 30 min", Wait(20, 30)),
        ("20-30 min", Wait(20, 30)),
        ("1 h to 1 h 30 min", Wait(60, 90)),
        ("at least 20 min", Wait(20)),
        ("At most 5 min", Wait(0, 5)),
        ("up to 1 h", Wait(0, 60)),
        ("at least 20", Wait(20)),
    ],
)
def test_a_wait_has_a_least_and_a_greatest(text: str, wait: Wait) -> None:
    assert read_wait(text) == wait


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "30 min to 20 min",
            "the greatest wait, 20 min, is below the least, 30 min; write the smaller first",
        ),
        ("20 min", "the wait '20 min' says neither the least nor the greatest; write '20 min to 30 min'"),
        ("a while", "says neither the least nor the greatest"),
        ("at least soon", "the wait 'at least soon' cannot be read"),
        ("1/3 min to 2 min", "cannot be read"),
    ],
)
def test_a_wait_that_cannot_be_read_says_what_to_write(text: str, told: str) -> None:
    with pytest.raises(BadField) as refused:
        read_wait(text)
    assert told in str(refused.value)
