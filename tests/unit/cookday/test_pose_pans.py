"""Doubts: pots too small, too little room to cool, raw food that is not heated."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.cookday.small_dishes import CHOP, SIMMER, STATED, batch, dish, posed

from ladleworth.cookday.pose import pose_day
from ladleworth.facts import Food, Measure, OwnFood, food_table
from ladleworth.household import Equipment, Vessel

SOUP = dish("Soup", [CHOP, SIMMER], portion_volume="500 ml")


def card(litres: int, count: int = 1) -> Equipment:
    return replace(STATED, vessels=(Vessel("pot", litres * 1000, count),), wash_min=2)


def test_a_batch_above_four_fifths_of_its_pot_is_doubted() -> None:
    # 80 % of the brim: common practice, no source. Eight portions of 500 ml are 4 l; 80 % of 5 l are 4 l.
    assert posed(batch(SOUP, 8), equipment=card(5)).doubts == ()
    assert posed(batch(SOUP, 8), equipment=card(4)).doubts == (
        (
            "Soup: 8 portions fill about 4 l, more than 80 % of the pot of 4 l (common practice, no source); "
            "take a larger one, or cook it in two goes"
        ),
    )


def test_two_pots_at_one_step_hold_twice_as_much() -> None:
    two = dish("Soup", [{**SIMMER, "needs": ["2 burners", "2 pots"]}], portion_volume="500 ml")
    assert posed(batch(two, 8), equipment=card(4, count=2)).doubts == ()


def test_only_the_part_that_is_in_the_pot_counts_and_what_is_kept_apart_does_not() -> None:
    parts = [
        {"part": "rice", "lines": ["400 g rice"]},
        {"part": "bread", "lines": ["600 g white bread"], "apart": "yes"},
    ]
    # Twelve portions' rice swells to about 5 l, and 1.8 kg of bread counts as 1.8 l at the density of water.
    for part in ({"part": "rice"}, {}):
        made = dish("Rice", [{**SIMMER, **part}], parts=parts, greatest="12")
        assert posed(batch(made, 12), equipment=card(7)).doubts == ()
    mixed = dish("Rice", [SIMMER], parts=[parts[0], {**parts[1], "apart": "no"}], greatest="12")
    assert len(posed(batch(mixed, 12), equipment=card(7)).doubts) == 1


def test_a_pot_beside_another_is_not_taken_to_hold_everything() -> None:
    rice = {**SIMMER, "step": "rice", "needs": ["burner", "pot"]}
    sauce = {**SIMMER, "step": "sauce", "after": [], "needs": ["burner", "skillet"]}
    mix = {"do": "Mix.", "hands_on": "2", "needs": ["bowl"]}
    beside = dish("Both", [rice, sauce, mix], portion_volume="500 ml")
    assert posed(batch(beside, 8), equipment=card(4)).doubts == ()
    together = dish("Both", [sauce, {**mix, "needs": ["pot"]}], portion_volume="500 ml")
    assert len(posed(batch(together, 8), equipment=card(4)).doubts) == 1


def test_a_volume_that_nobody_knows_is_said() -> None:
    bun = OwnFood(Food("bun", "bun", (), "bakery", Measure.PIECES, own=True), allergens=())
    foods = food_table().with_own([bun])
    made = dish("Buns", [SIMMER], foods, lines=["2 buns", "400 g rice"])
    (doubt,) = pose_day([batch(made)], card(9), foods).doubts
    assert doubt.startswith("whether Buns fits its pots nobody can tell: ")
    assert doubt.endswith("; write portion_volume")


def test_a_pot_that_is_not_on_the_card_is_not_checked() -> None:
    assert posed(batch(SOUP, 8), equipment=replace(STATED, wash_min=2)).doubts == ()


def test_more_containers_than_can_cool_at_once_are_doubted() -> None:
    small = replace(STATED, counter=3)
    assert posed(batch(SOUP, 3), equipment=small).doubts == ()
    assert posed(batch(SOUP, 4), equipment=small).doubts == (
        "Soup fills 4 containers, and 3 can cool at once; make fewer portions of it",
    )
    assert posed(batch(dish("Salad", [CHOP]), 4), equipment=small).doubts == ()


def test_raw_food_that_no_later_step_heats_is_doubted() -> None:
    cut = {"do": "Cut.", "hands_on": "3", "needs": ["board for raw fish"]}
    assert posed(batch(dish("Tartare", [cut, CHOP]))).doubts == (
        "Tartare: raw fish is cut in step 1, and no later step heats it",
    )
    assert posed(batch(dish("Stew", [cut, SIMMER]))).doubts == ()
    assert posed(batch(dish("Fry", [{**cut, "needs": ["board for raw fish", "burner"]}]))).doubts == ()
