"""A whole day posed: shared preparations, the last wash, the wish to be done by a time."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.cookday.small_dishes import CHOP, SIMMER, STATED, activity, batch, dish, lag, posed, question

from ladleworth.cookday.pose import PosedDay
from ladleworth.cookday.question import Merging
from ladleworth.errors import BadField

ONIONS = {**CHOP, "prep": "chopped onion"}


def test_the_same_preparation_of_several_batches_may_be_done_at_once() -> None:
    first = dish("Stew", [ONIONS, {**ONIONS, "hands_on": "2"}, SIMMER])  # of one batch only the first counts
    second = dish("Curry", [{**CHOP, "hands_on": "3", "prep": "Chopped onion"}, SIMMER])
    asked = question(batch(first), batch(second), batch(dish("Soup", [{**CHOP, "prep": "diced carrot"}])))
    assert asked.mergings == (
        Merging("chopped onion", ("Stew: 1", "Curry: 1"), 8, "chopped onion, for Stew and Curry"),
    )


def test_one_batch_shares_with_nobody() -> None:
    assert question(batch(dish("Stew", [ONIONS, ONIONS]))).mergings == ()


def test_washing_up_is_the_last_activity_and_washes_every_tool_once() -> None:
    card = replace(STATED, wash_min=3, boards=1)
    asked = question(batch(dish("Stew", [CHOP, CHOP, SIMMER])), batch(dish("Soup", [SIMMER])), equipment=card)
    last = asked.activities[-1]
    # A board and one pot of which there is one: two tools at three minutes.
    assert (last.name, last.batch, last.least_min, last.hands) == ("washing up", "", 6, 1)
    assert [lag(asked, f"{name}: divide", "washing up").most for name in ("Stew", "Soup")] == [None, None]


def test_the_wish_to_be_done_by_a_time_is_the_deadline() -> None:
    day = posed(batch(dish("Stew", [CHOP])), clean_by=90)
    assert day.question is not None
    assert day.question.deadline == 90
    assert question(batch(dish("Stew", [CHOP]))).deadline is None


def test_notes_are_told_with_their_batch() -> None:
    day = posed(batch(dish("Stew", [CHOP, {"do": "It is better the next day."}])))
    assert [(note.batch, note.words) for note in day.notes] == [("Stew", "It is better the next day.")]


def test_a_day_without_a_batch_has_no_question() -> None:
    assert posed() == PosedDay(None)


def test_the_natural_order_is_that_of_the_batches_and_their_steps() -> None:
    asked = question(batch(dish("B", [CHOP, SIMMER])), batch(dish("A", [CHOP])))
    assert [one.name for one in asked.activities] == [
        "B: 1",
        "B: 2",
        "B: 2, by itself",
        "B: divide",
        "B: cool",
        "B: lid",
        "A: 1",
        "A: divide",
        "A: lid",
        "washing up",
    ]
    assert activity(asked, "B: 2").words == "Simmer."


def test_a_dish_twice_in_one_version_is_refused() -> None:
    made = dish("Stew", [CHOP])
    with pytest.raises(
        BadField, match="stew is to be cooked twice in one version; put the portions together"
    ):
        posed(batch(made), batch(made))
