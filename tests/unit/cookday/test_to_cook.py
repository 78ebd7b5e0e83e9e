"""The steps of a day's batches, sorted out; and what a dish has to say before it can be timed."""

from __future__ import annotations

import pytest
from tests.unit.cookday.small_dishes import CHOP, SIMMER, batch, dish, posed

from ladleworth.cookday.to_cook import BatchToCook, at_work
from ladleworth.errors import BadField

WAYS = [
    {
        "part": "rice",
        "lines": ["400 g rice"],
        "swaps": [{"swap": "egg", "lines": ["4 eggs"]}, {"swap": "no", "lines": []}],
    }
]


def test_notes_the_day_before_and_unchosen_swaps_are_no_work_of_the_day() -> None:
    steps = [
        {"do": "Soak.", "hands_on": "1", "unattended": "8 h", "day_before": "yes"},
        {"do": "Season well."},
        {**CHOP, "swap": "egg", "part": "rice"},
        SIMMER,
    ]
    made = dish("Bowl", steps, parts=WAYS)
    (with_egg,), _ = at_work([batch(made, version=0)])
    (without,), _ = at_work([batch(made, version=1)])
    assert [work.number for work in with_egg.works] == [3, 4]
    assert [work.number for work in without.works] == [4]
    assert (without.notes, [one.lead_min for one in without.earlier]) == (("Season well.",), [481])
    assert with_egg.works[1].follows == {0}


def test_what_followed_a_step_that_is_not_done_follows_what_that_one_followed() -> None:
    steps = [
        {**CHOP, "step": "chop"},
        {
            "do": "Fry the egg.",
            "step": "egg",
            "swap": "egg",
            "part": "rice",
            "hands_on": "2",
            "after": ["chop"],
        },
        {**SIMMER, "after": ["egg"], "at_once": "yes"},
    ]
    made = dish("Bowl", steps, parts=WAYS)
    (without,), _ = at_work([batch(made, version=1)])
    assert [work.follows for work in without.works] == [frozenset(), {0}]


def test_activities_have_names_of_their_own_and_a_split_dish_says_its_versions() -> None:
    made = dish("Bowl", [{**CHOP, "step": "chop"}, SIMMER], parts=WAYS)
    both, _ = at_work([batch(made, version=0), batch(made, version=1)])
    assert [one.name for one in both] == ["Bowl (egg)", "Bowl (no)"]
    assert [name for work in both[0].works for name in work.activities] == [
        "Bowl (egg): 1 chop",
        "Bowl (egg): 2",
        "Bowl (egg): 2, by itself",
    ]
    with pytest.raises(BadField, match="bowl is to be cooked twice in one version"):
        at_work([batch(made), batch(made)])


def test_a_chain_of_the_day_before_begins_in_time_for_all_of_it() -> None:
    steps = [
        {"do": "Mix the dough.", "hands_on": "10", "unattended": "50", "day_before": "yes"},
        {"do": "Fold it.", "hands_on": "5", "unattended": "8 h", "day_before": "yes"},
        SIMMER,
    ]
    (bread,), _ = at_work([batch(dish("Bread", steps))])
    assert [(one.hands_min, one.lead_min) for one in bread.earlier] == [(10, 545), (5, 485)]


def test_a_dish_that_does_not_say_enough_gets_one_clear_finding_each() -> None:
    none = dish("Bare", [])
    notes = dish("Notes", [{"do": "Cook it."}])
    idle = dish(
        "Idle", [{"do": "Bake.", "unattended": "30", "needs": "oven at 190 °C"}], hands_on={"fixed": "9"}
    )
    cold = dish("Cold", [CHOP, {"do": "Bake.", "unattended": "30", "needs": "oven"}])
    day = posed(batch(none), batch(notes), batch(idle), batch(cold), batch(dish("Good", [CHOP])))
    assert day.question is None
    assert [str(fault) for fault in day.faults] == [
        (
            "Bare: steps: Bare has no steps, so that it cannot be put on a timetable; "
            "write them: steps: [{do: Chop the onion., hands_on: 5 min, needs: [hands, board]}]"
        ),
        (
            "Notes: steps: Notes has no steps with minutes, so that it cannot be put on a timetable; "
            "write them: steps: [{do: Chop the onion., hands_on: 5 min, needs: [hands, board]}]"
        ),
        (
            "Idle: steps: Idle takes hands-on minutes, and none of its steps has any; "
            "write hands_on at the steps that keep the cook busy"
        ),
        "Cold: steps[2].needs: Cold: 'Bake.' needs the oven and does not say how hot; write needs: [oven at 190 °C]",
    ]


def test_a_batch_has_portions_and_containers() -> None:
    made = dish("Bowl", [CHOP])
    with pytest.raises(BadField, match="a batch has 1 portion or more"):
        BatchToCook(made, made.variants()[0], 0, 0)
    with pytest.raises(BadField, match="containers must not be negative"):
        BatchToCook(made, made.variants()[0], 2, -1)
