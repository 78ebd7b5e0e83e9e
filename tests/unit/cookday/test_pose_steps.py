"""From steps to activities and lags."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.cookday.small_dishes import CHOP, SIMMER, STATED, activity, batch, dish, lag, question

from ladleworth.cookday.question import Activity, OvenHeat
from ladleworth.household import OvenPace


def test_a_step_with_both_minutes_is_two_activities_that_share_all_but_hands() -> None:
    asked = question(
        batch(dish("Rice", [{**SIMMER, "needs": ["2 cooks", "2 burners", "microwave", "pot"]}])),
        equipment=replace(STATED, cooks=2),
    )
    assert asked.activities[:2] == (
        Activity("Rice: 1", "Rice", "Simmer.", 2, 2, hands=2, burners=2, microwaves=1),
        Activity("Rice: 1, by itself", "Rice", "Simmer.", 30, 30, burners=2, microwaves=1),
    )
    tie = lag(asked, "Rice: 1", "Rice: 1, by itself")
    assert (tie.least, tie.most, tie.why) == (0, 0, "it goes on by itself at once")


def test_hands_are_needed_where_there_are_hands_on_minutes_whether_named_or_not() -> None:
    asked = question(
        batch(
            dish(
                "Rice",
                [{"do": "Stir.", "hands_on": "3"}, {"do": "Rest.", "unattended": "5", "needs": "hands"}],
            )
        )
    )
    assert [one.hands for one in asked.activities[:2]] == [1, 0]


def test_the_ovens_tolerance_is_the_steps_own_then_the_cards_then_none() -> None:
    steps = [
        CHOP,
        *(
            {"do": "Bake.", "unattended": "9", "needs": [need]}
            for need in ("oven at 190 °C ± 5 °C", "oven at 375 °F, 2 shelves")
        ),
    ]
    card = replace(STATED, oven_shelves=2, oven=OvenPace(tolerance_c=12))
    asked = question(batch(dish("Rice", steps)), equipment=card)
    assert [one.oven for one in asked.activities[1:3]] == [OvenHeat(190, 5), OvenHeat(191, 12, 2)]
    bare = question(batch(dish("Rice", steps)), equipment=replace(card, oven=OvenPace()))
    assert activity(bare, "Rice: 3").oven == OvenHeat(191, 0, 2)


def test_steps_follow_one_another_at_once_after_a_wait_or_at_any_time() -> None:
    steps = [
        {**CHOP, "step": "chop"},
        {**SIMMER, "step": "sauce", "after": []},
        {"do": "Whisk.", "step": "whisk", "hands_on": "1", "after": ["chop", "sauce"], "at_once": "yes"},
        {"do": "Stand.", "step": "stand", "unattended": "5", "after": ["whisk"], "wait": "3 min to 9 min"},
        {"do": "Stir.", "step": "stir", "hands_on": "1", "after": ["whisk"], "wait": "at least 4 min"},
        {"do": "Fold.", "hands_on": "1", "after": ["stand", "stir"], "wait": "at most 7 min"},
    ]
    asked = question(batch(dish("Rice", steps)))
    told = {
        (one.first, one.second): (one.least, one.most)
        for one in asked.lags
        if not one.limit and one.first not in ("Rice: divide", "Rice: cool") and one.second != "Rice: divide"
    }
    assert told == {
        ("Rice: 2 sauce", "Rice: 2 sauce, by itself"): (0, 0),
        ("Rice: 1 chop", "Rice: 3 whisk"): (0, None),
        ("Rice: 2 sauce, by itself", "Rice: 3 whisk"): (0, 0),  # at once after the last written of the two
        ("Rice: 3 whisk", "Rice: 4 stand"): (3, 9),
        ("Rice: 3 whisk", "Rice: 5 stir"): (4, None),
        ("Rice: 4 stand", "Rice: 6"): (0, 7),
        ("Rice: 5 stir", "Rice: 6"): (0, 7),
    }
    assert lag(asked, "Rice: 3 whisk", "Rice: 4 stand").why == "it waits 3 to 9 min"
