"""What a part should weigh: yields, swelling, tap water, and figures that nobody has."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.divide.batches import TABLE, dish, food, made, only, part, tap

from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap
from ladleworth.divide import parts_made
from ladleworth.errors import BadField, MissingFact


def pot(*ingredients: Ingredient) -> Dish:
    return dish(part("pot", Role.WHOLE, *ingredients))


def grams(of: Dish, **methods: str) -> Fraction | None:
    mass = made(of, **methods)["pot"].mass_mg
    return None if mass is None else mass / 1000


def test_a_food_without_a_method_counts_at_its_edible_weight_and_is_named() -> None:
    one = made(pot(food("onion", 300, edible=270), food("beef-ground-80", 500)))["pot"]
    assert (one.mass_mg, one.raw) == (770_000, ("onion", "beef-ground-80"))


def test_a_method_takes_its_yield() -> None:
    # USDA yields 2014: ground beef of 78 to 88 % lean, pan-fried, 67 %.
    one = made(pot(food("beef-ground-80", 500)), beef_ground_80="pan-fried")["pot"]
    assert one.mass_mg == 335_000
    assert [(way.food, way.assumed, way.figure.source) for way in one.cooked] == [
        ("beef-ground-80", False, "usda-yields-2014")
    ]
    assert one.raw == ()


def test_rice_and_the_water_of_its_part_weigh_together_what_they_weighed_before() -> None:
    # 65 g x 280 % = 182 g, of which 117 g are of the 125 g of water: 182 + 8 = 190 = 65 + 125.
    assert grams(pot(food("rice-white-long-grain", 65), tap(125))) == 190
    # with less water than it could take up there is no more to weigh
    assert grams(pot(food("rice-white-long-grain", 65), tap(100))) == 165


def test_rice_without_written_water_swells_by_its_yield_unless_something_else_is_its_liquid() -> None:
    assert grams(pot(food("rice-white-long-grain", 100))) == 280
    assert grams(pot(food("rice-white-long-grain", 100), food("onion", 50))) == 330
    assert grams(pot(food("rice-white-long-grain", 100), food("broth-chicken", 400))) == 500


def test_two_dry_foods_share_the_liquid_and_take_the_rest_from_the_tap() -> None:
    # rice takes up 180 g, lentils 286 - 100 = 186 g for each 100 g
    rice, lentils = food("rice-white-long-grain", 100), food("lentils", 100)
    assert grams(pot(rice, lentils)) == 100 + 180 + 100 + 186
    assert grams(pot(rice, lentils, food("carrot", 500))) == 566 + 500  # carrots are no liquid
    assert (
        grams(pot(rice, lentils, food("tomatoes-canned", 200))) == 200 + 366
    )  # 166 g more than the tomatoes
    assert grams(pot(rice, lentils, tap(600))) == 800


def test_what_is_boiled_and_drained_swells_without_the_water_of_the_sauce() -> None:
    # macaroni 224.8 % (usda-sr26, worked); the water is the sauce's own
    assert grams(pot(food("macaroni", 100), tap(200))) == Fraction("424.8")


def test_a_method_that_is_named_takes_up_no_more_water_than_there_is() -> None:
    assert grams(pot(food("oats", 100), tap(500)), oats="cooked with water") == 600  # 544 of it: 444 taken up
    assert grams(pot(food("oats", 100), tap(100)), oats="cooked with water") == 544
    assert grams(pot(food("oats", 100), tap(500))) == 600  # not boiled: nothing is taken for granted


def test_a_missing_figure_is_told_and_the_part_has_no_weight() -> None:
    one = made(pot(food("onion", 100), Ingredient("chicken-drumstick", Fraction(500_000))))["pot"]
    assert one.mass_mg is None
    assert [lacking.food for lacking in one.missing] == ["chicken-drumstick"]


def test_what_has_no_amount_is_named_and_does_not_hide_the_weight() -> None:
    one = made(pot(food("onion", 100), Ingredient("salt", Fraction(0), unmeasured=True)))["pot"]
    assert (one.mass_mg, one.to_taste) == (100_000, ("salt",))
    nothing = made(pot(Ingredient("salt", Fraction(0), unmeasured=True)))["pot"]
    assert nothing.mass_mg is None  # not nothing: nobody knows


def test_a_method_of_a_food_that_is_not_there_or_not_known_is_refused() -> None:
    with pytest.raises(BadField, match="takes no bacon"):
        made(pot(food("onion", 100)), bacon="pan-fried")
    with pytest.raises(MissingFact, match="nobody has the yield of 'onion' when flambéed"):
        made(pot(food("onion", 100)), onion="flambéed")


def test_only_the_swap_chosen_counts_and_an_empty_part_is_left_out() -> None:
    swaps = (
        Swap("beef", (food("beef-ground-80", 500),), kinds=("ground meat in sauce",)),
        Swap("without", ()),
    )
    of = dish(part("pot", Role.SAUCE, food("onion", 100)), Part("heart", Role.PROTEIN, swaps=swaps))
    beef, without = of.variants()
    assert [one.part for one in parts_made(of, without, TABLE)] == ["pot"]
    heart = parts_made(of, beef, TABLE)[1]
    assert (heart.mass_mg, heart.kinds) == (500_000, ("ground meat in sauce",))


def test_a_measured_yield_leaves_the_parts_as_reckoned() -> None:
    of = dish(part("pot", Role.WHOLE, food("onion", 100)), yield_mg=90_000)
    assert parts_made(of, only(of), TABLE)[0].mass_mg == 100_000
