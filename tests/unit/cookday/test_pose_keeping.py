"""From the pot to the fridge: dividing, cooling, the lid, and the limits on standing out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.cookday.small_dishes import CHOP, SIMMER, STATED, Steps, activity, batch, dish, lag, question

from ladleworth.cookday.pose_keeping import divide_minutes
from ladleworth.cookday.question import Lag

BAKE: dict[str, object] = {"do": "Bake.", "unattended": "30", "needs": ["oven at 190 °C", "dish"]}


@pytest.mark.parametrize(("containers", "minutes"), [(0, 1), (1, 2), (4, 3), (5, 4), (6, 4), (7, 5)])
def test_dividing_takes_a_minute_and_half_a_minute_a_container(containers: int, minutes: int) -> None:
    assert divide_minutes(containers) == minutes  # house rule, no source: 1 + 5 / 2 is 3.5, rounded up


def test_a_hot_batch_is_divided_cooled_open_and_lidded() -> None:
    asked = question(batch(dish("Rice", [CHOP, SIMMER]), portions=5, chilled=3, frozen=2))
    divide, cool, lid = (activity(asked, f"Rice: {what}") for what in ("divide", "cool", "lid"))
    assert (divide.least_min, divide.hands, divide.words) == (4, 1, "Divide into 5 containers.")
    # At least 20 minutes open: common practice, no source.
    assert (cool.least_min, cool.most_min, cool.counter, cool.warm, cool.hands) == (20, 120, 5, True, 0)
    assert (lid.least_min, lid.hands, lid.words) == (1, 1, "Lid on; 3 into the fridge, 2 into the freezer.")
    assert lag(asked, "Rice: 2, by itself", "Rice: divide").most is None
    assert (lag(asked, "Rice: divide", "Rice: cool").most, lag(asked, "Rice: cool", "Rice: lid").most) == (
        0,
        0,
    )


@pytest.mark.parametrize(
    ("chilled", "frozen", "words"),
    [
        (3, 0, "Lid on, and all into the fridge."),
        (0, 1, "Lid on, and it goes into the freezer."),
        (0, 0, "Lid on."),
    ],
)
def test_the_lid_says_where_the_containers_go(chilled: int, frozen: int, words: str) -> None:
    asked = question(batch(dish("Rice", [SIMMER]), chilled=chilled, frozen=frozen))
    assert activity(asked, "Rice: lid").words == words


@pytest.mark.parametrize(
    ("room", "most"),
    [
        # Nutrition education program, fact sheet on safe thawing practices (read): perishable food stands at room
        # temperature for two hours at the most, one hour above 90 °F (32 °C). USDA FSIS says the same (from memory).
        (None, 120),
        (Fraction(21), 120),
        (Fraction(32), 120),
        (Fraction(33), 60),
    ],
)
def test_what_leaves_the_heat_is_in_the_fridge_within_the_published_time(
    room: Fraction | None, most: int
) -> None:
    asked = question(batch(dish("Rice", [CHOP, SIMMER])), equipment=replace(STATED, room_c=room))
    limit = lag(asked, "Rice: 2, by itself", "Rice: lid", limit=True)
    assert limit == Lag(
        "Rice: 2, by itself", "Rice: lid", 0, most, first_end=True, second_end=True, limit=True, why=limit.why
    )
    assert limit.why == (
        f"perishable food stands out {most} min at the most (thawing-fact-sheet, read), from the heat to the fridge"
    )
    assert activity(asked, "Rice: cool").most_min == most


def limits(steps: Steps) -> dict[tuple[str, str], bool]:
    """The limits of a dish, and whether each is on the end of the second activity."""
    asked = question(batch(dish("Rice", steps)), equipment=replace(STATED, oven_shelves=2))
    assert all(one.most == 120 for one in asked.lags if one.limit)
    return {
        (one.first.removeprefix("Rice: "), one.second.removeprefix("Rice: ")): one.second_end
        for one in asked.lags
        if one.limit
    }


def test_hot_food_is_heated_again_or_kept_in_time_whichever_comes_next() -> None:
    steps = [
        {**SIMMER, "step": "rice"},
        {**SIMMER, "step": "sauce", "after": []},
        {"do": "Fill.", "step": "fill", "hands_on": "3", "after": ["rice", "sauce"]},
        BAKE,
        {"do": "Boil the eggs.", "hands_on": "1", "after": [], "needs": "burner"},
    ]
    assert limits(steps) == {
        ("1 rice, by itself", "4"): False,
        ("2 sauce, by itself", "4"): False,
        ("4", "lid"): True,
        ("5", "lid"): True,
    }


def test_raw_food_that_is_cut_is_heated_in_time() -> None:
    steps = [
        {"do": "Cut.", "hands_on": "4", "needs": ["hands", "board for raw meat"]},
        {"do": "Fry.", "hands_on": "4", "needs": ["hands", "burner", "pan", "board for raw egg"]},
    ]
    assert limits(steps) == {("1", "2"): False, ("2", "lid"): True}


def test_a_limit_that_a_tie_keeps_anyway_is_not_said_twice() -> None:
    assert limits([SIMMER, {**SIMMER, "at_once": "yes"}]) == {("2, by itself", "lid"): True}
    slow = limits([SIMMER, {**SIMMER, "wait": "at most 200 min"}])
    assert slow == {("1, by itself", "2"): False, ("2, by itself", "lid"): True}


@pytest.mark.parametrize("needs", ["burner", "microwave", "kettle", "oven at 60 °C"])
def test_stations_and_tools_that_heat_leave_food_hot(needs: str) -> None:
    asked = question(batch(dish("Rice", [{"do": "Heat.", "hands_on": "2", "needs": needs}])))
    assert activity(asked, "Rice: cool").warm


def test_a_cold_dish_needs_no_cooling_and_goes_into_the_fridge_at_once() -> None:
    asked = question(batch(dish("Salad", [CHOP, {"do": "Mix.", "hands_on": "2", "needs": "bowl"}])))
    assert [one.name for one in asked.activities] == [
        "Salad: 1",
        "Salad: 2",
        "Salad: divide",
        "Salad: lid",
        "washing up",
    ]
    assert lag(asked, "Salad: divide", "Salad: lid").most == 0
    limit = lag(asked, "Salad: 2", "Salad: lid", limit=True)
    assert (limit.most, limit.second_end) == (120, True)
