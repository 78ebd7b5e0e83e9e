"""Minutes of steps: hands-on ones add up to what the batch takes."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.unit.cookday.small_dishes import CHOP, SIMMER, batch, dish

from ladleworth.cookday.pose_minutes import hands_on_minutes, shared_minutes
from ladleworth.cookday.to_cook import at_work, hands_on_total

MINUTES = st.fractions(0, 40, max_denominator=4)


@pytest.mark.parametrize(
    ("written", "total", "given_out"),
    [
        ([6, 2], 8, (6, 2)),
        ([6, 2], 0, (6, 2)),  # stated nowhere: as the steps say
        ([6, 0, 2], 12, (9, 0, 3)),
        ([6, 2], Fraction(25, 2), (10, 3)),  # 12.5 is 13: 9.75 and 3.25
        ([1, 1, 1], 2, (1, 1, 1)),  # never below a minute, so that the sum is three
        ([20, 1, 1], 4, (2, 1, 1)),
        ([0, 0], 9, (0, 0)),
    ],
)
def test_minutes_are_shared_out_as_the_recipe_does(
    written: list[int], total: Fraction, given_out: tuple[int, ...]
) -> None:
    assert hands_on_minutes([Fraction(minutes) for minutes in written], Fraction(total)) == given_out


@given(st.lists(MINUTES, max_size=12), MINUTES)
def test_they_add_up_and_no_busy_step_is_without_a_minute(written: list[Fraction], total: Fraction) -> None:
    shared = hands_on_minutes(written, total)
    busy = [minutes for minutes in written if minutes]
    assert [minutes > 0 for minutes in shared] == [minutes > 0 for minutes in written]
    assert sum(shared) == (max(ceil(total or sum(busy)), len(busy)) if busy else 0)


@pytest.mark.parametrize(("minutes", "together"), [([6, 3], 8), ([5, 4, 4], 11), ([7, 7], 12), ([1, 1], 2)])
def test_a_shared_preparation_takes_the_longest_and_two_thirds_of_the_others(
    minutes: list[int], together: int
) -> None:
    assert shared_minutes(minutes) == together  # house rule, no source: 7 + 2/3 x 7 = 11.7, rounded up


@given(st.lists(st.integers(1, 60), min_size=2, max_size=6))
def test_a_shared_preparation_is_never_longer_than_one_after_another(minutes: list[int]) -> None:
    assert max(minutes) <= shared_minutes(minutes) <= sum(minutes)


@given(st.integers(1, 40), st.fractions(0, 30, max_denominator=2), st.fractions(0, 4, max_denominator=4))
def test_the_steps_of_a_batch_add_up_to_its_version(portions: int, fixed: Fraction, each: Fraction) -> None:
    told = {"fixed": str(fixed), "per_portion": str(each)}
    made = dish("Rice", [CHOP, SIMMER, {"do": "Taste."}], hands_on=told, greatest="40")
    one = batch(made, portions)
    (working,), faults = at_work([one])
    assert faults == ()
    total = fixed + each * portions
    assert hands_on_total(one, [one]) == total
    assert sum(work.hands_min for work in working.works) == max(2, ceil(total or 8))
    assert [work.alone_min for work in working.works] == [0, 30]


@given(st.integers(1, 9), st.integers(1, 9))
def test_a_split_batch_pays_the_minutes_of_its_dish_once(first: int, second: int) -> None:
    parts = [
        {
            "part": "rice",
            "lines": ["400 g rice"],
            "swaps": [
                {"swap": "egg", "lines": ["4 eggs"], "hands_on": {"fixed": "3"}},
                {"swap": "no", "lines": []},
            ],
        }
    ]
    made = dish(
        "Bowl", [CHOP, SIMMER], parts=parts, hands_on={"fixed": "10", "per_portion": "1"}, greatest="9"
    )
    batches = [batch(made, first, version=0), batch(made, second, version=1)]
    totals = [hands_on_total(one, batches) for one in batches]
    assert sum(totals) == 10 + 3 + first + second  # once the dish's ten, once the swap's three
    assert hands_on_total(batches[0], batches[:1]) == 13 + first
