"""Pots, pans and boards: what holds what, what may follow what, and what has to be got out."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.cookday.small_dishes import CHOP, SIMMER, STATED, batch, dish, posed, question, uses

from ladleworth.cookday.answer import Held, Timetable
from ladleworth.cookday.pose_tools import Gathered, gather
from ladleworth.cookday.question import ToolKind
from ladleworth.household import Vessel

CARD = replace(STATED, boards=2, vessels=(Vessel("Pot", 5000, 2), Vessel("pan", 3000)), wash_min=3)


def fry(**keys: object) -> dict[str, object]:
    return {"do": "Fry.", "hands_on": "4", "needs": ["hands", "burner", "pan"], **keys}


def test_raw_food_may_follow_clean_things_on_a_board_and_nothing_else_without_a_wash() -> None:
    steps = [
        CHOP,
        {**CHOP, "needs": ["board for raw meat"]},
        {**CHOP, "needs": ["board for raw fish"]},
        SIMMER,
    ]
    clean, meat, fish = uses(question(batch(dish("Stew", steps))), "board")
    assert (clean.activities, meat.activities) == (("Stew: 1",), ("Stew: 2",))
    # That raw food comes after what is ready to eat, or after a wash: common practice, no source.
    assert clean.may_follow(clean)
    assert meat.may_follow(clean)
    assert meat.may_follow(meat)
    assert not clean.may_follow(meat)
    assert not fish.may_follow(meat)


def test_steps_that_follow_one_another_in_one_pot_are_one_use_until_the_batch_is_divided() -> None:
    steps = [{**SIMMER, "part": "a"}, CHOP, {**SIMMER, "needs": ["burner", "Pot"]}]
    parts = [{"part": "a", "lines": ["400 g rice"]}]
    (held,) = uses(question(batch(dish("Stew", steps, parts=parts)), equipment=CARD), "Pot")
    assert held.activities == (
        "Stew: 1", "Stew: 1, by itself", "Stew: 3", "Stew: 3, by itself", "Stew: divide",
    )  # fmt: skip
    assert (held.leaves, held.takes) == ("dirt", ())


def test_steps_side_by_side_in_one_kind_of_pot_are_uses_of_their_own() -> None:
    steps = [
        {**SIMMER, "step": "rice"},
        {**SIMMER, "after": []},
        {"do": "Mix.", "hands_on": "2", "needs": "bowl"},
    ]
    first, second = uses(question(batch(dish("Stew", steps)), equipment=CARD), "Pot")
    assert first.activities == ("Stew: 1 rice", "Stew: 1 rice, by itself", "Stew: 3")
    assert second.activities == ("Stew: 2", "Stew: 2, by itself", "Stew: 3")


def test_a_pot_is_held_until_the_next_hands_have_emptied_it_but_other_tools_are_not() -> None:
    steps = [
        {"do": "Blend.", "hands_on": "2", "needs": ["blender", "large bowl"]},
        {"do": "Bake.", "hands_on": "1", "unattended": "20", "needs": ["oven at 190 °C", "tin"]},
    ]
    asked = question(batch(dish("Cake", steps)))
    assert [one.activities for one in uses(asked, "blender")] == [("Cake: 1",)]
    assert [one.activities for one in uses(asked, "large bowl")] == [("Cake: 1", "Cake: 2")]
    assert [one.activities for one in uses(asked, "tin")] == [
        ("Cake: 2", "Cake: 2, by itself", "Cake: divide")
    ]


def test_two_tools_of_a_kind_at_one_step_are_two_uses() -> None:
    asked = question(
        batch(dish("Cake", [fry(needs=["2 burners", "2 pans"])])), equipment=replace(STATED, wash_min=1)
    )
    assert [one.name for one in uses(asked, "pan")] == ["Cake: 1, pan", "Cake: 1, pan 2"]
    assert [tool for tool in asked.bench.tools if tool.name == "pan"] == [ToolKind("pan", 2, 1)]


def test_what_a_step_leaves_ends_its_use_and_another_may_take_it_without_a_wash() -> None:
    bacon = dish("Bacon", [fry(leaves="Bacon fat"), {"do": "Crumble.", "hands_on": "1"}])
    onions = dish("Onions", [fry(takes=["bacon fat"]), SIMMER])
    asked = question(batch(bacon), batch(onions), equipment=CARD)
    left, taken = uses(asked, "pan")
    assert (left.activities, left.leaves) == (("Bacon: 1",), "bacon fat")
    assert taken.may_follow(left)
    assert not left.may_follow(taken)


def test_what_somebody_never_has_does_not_come_into_their_pan() -> None:
    bacon = dish("Bacon", [fry(leaves="bacon fat")])
    onions = dish("Onions", [fry(takes=["bacon fat"])])
    theirs = replace(batch(onions), apart_from=frozenset({batch(bacon).key}))
    day = posed(batch(bacon), theirs, equipment=CARD)
    assert day.question is not None
    left, other = uses(day.question, "pan")
    assert not other.may_follow(left)
    assert day.doubts == (
        (
            "bacon fat of Bacon does not go into Onions: somebody who has the one never has the other; "
            "the pan is washed"
        ),
    )


def test_the_day_gathers_as_many_tools_as_are_in_use_at_once() -> None:
    steps = [
        CHOP,
        {**SIMMER, "step": "a", "after": []},
        {**SIMMER, "after": []},
        {"do": "Mix.", "hands_on": "2", "needs": "bowl"},
    ]
    asked = question(batch(dish("Stew", steps)), equipment=CARD)
    before = (Gathered("board", 1), Gathered("Pot", 2, 5000), Gathered("bowl", 1))
    assert gather(asked, CARD) == before
    held = tuple(Held(use.name, 0) for use in asked.uses)
    assert gather(asked, CARD, Timetable((), held)) == (
        Gathered("board", 1),
        Gathered("Pot", 1, 5000),
        Gathered("bowl", 1),
    )
