from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.chain import bought_mass, by_part, chain, expected_yield
from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap
from ladleworth.errors import BadField, MissingFact
from ladleworth.facts import (
    CookingYield,
    Figure,
    Food,
    FoodTable,
    Measure,
    OwnFood,
    PieceWeight,
    WeightIs,
    food_table,
)


def own(food: str, **figures: object) -> OwnFood:
    measure = Measure.PIECES if food == "bun" else Measure.MASS
    return OwnFood(Food(food, food, (), "produce", measure, own=True), **figures)  # type: ignore[arg-type]


def figure(value: str, unit: str = "share") -> Figure:
    return Figure(Fraction(value), unit, "own", "own")


def cooked(method: str, before: str, pct: int) -> CookingYield:
    return CookingYield(method, before, Fraction(pct), "own", "own")


FOODS = FoodTable({}, {}).with_own(
    [
        own("root", edible_fraction=figure("0.8"), yields=(cooked("boiled", "raw, peeled", 90),)),
        own("thigh", edible_fraction=figure("0.7"), yields=(cooked("braised", "raw, bone-in", 68),)),
        own(
            "bun",
            edible_fraction=figure("1"),
            pieces=(PieceWeight("whole", figure("60", "g"), WeightIs.AS_BOUGHT),),
        ),
        own("leaf"),
    ]
)
ROOT = Ingredient("root", Fraction(1_000_000), Fraction(800_000))
LEAF = Ingredient("leaf", Fraction(50_000))
DISH = Dish(
    "d",
    "D",
    4,
    (
        Part("mash", Role.STARCH, (ROOT,)),
        Part(
            "top",
            Role.PROTEIN,
            (LEAF,),
            (Swap("thigh", (Ingredient("thigh", Fraction(500_000)),)), Swap("bun", (Ingredient("bun", Fraction(4)),))),
        ),
    ),
)  # fmt: skip


def test_the_chain_goes_from_bought_over_edible_to_cooked_and_names_each_figure() -> None:
    followed = chain(ROOT, FOODS, "boiled")
    assert (followed.bought_mg, followed.edible_mg, followed.cooked_mg) == (1_000_000, 800_000, 720_000)
    assert (followed.edible_pct, followed.cooked_pct) == (80, 72)
    assert [(f.value, f.unit) for f in followed.figures] == [(Fraction("0.8"), "share"), (90, "%")]
    assert not followed.includes_bone


def test_without_a_method_nothing_is_cooked() -> None:
    followed = chain(ROOT, FOODS)
    assert followed.cooked_mg is None
    assert followed.cooked_pct is None


def test_a_yield_measured_with_the_bone_is_not_applied_after_taking_the_bone_out() -> None:
    followed = chain(Ingredient("thigh", Fraction(1_000_000)), FOODS, "braised")
    assert followed.edible_mg == 700_000
    assert followed.cooked_mg == 680_000
    assert followed.includes_bone


def test_a_food_in_pieces_is_weighed_by_its_piece() -> None:
    assert bought_mass(Ingredient("bun", Fraction(4)), FOODS)[0] == 240_000
    assert chain(Ingredient("bun", Fraction(4)), FOODS).edible_mg == 240_000


def test_a_figure_that_nobody_has_is_missing_and_never_one() -> None:
    with pytest.raises(MissingFact, match="edible fraction"):
        chain(LEAF, FOODS)
    with pytest.raises(MissingFact, match="yield"):
        chain(ROOT, FOODS, "fried")
    with pytest.raises(BadField, match="no measured amount"):
        chain(Ingredient("root", Fraction(0), unmeasured=True), FOODS)


def test_the_expected_yield_sums_what_is_known_and_lists_what_is_not() -> None:
    weight = expected_yield(DISH, FOODS, methods={"root": "boiled"})
    assert [(part.part, part.known_mg) for part in weight.parts] == [("mash", 720_000), ("top", 350_000)]
    assert weight.known_mg == 1_070_000
    assert [(one.part, one.food) for one in weight.missing] == [("top", "leaf")]
    assert not weight.complete
    assert weight.uncooked == ("thigh",)


def test_the_expected_yield_follows_the_swaps_chosen() -> None:
    with_bun = DISH.variants()[1]
    assert [i.food for _, i in by_part(DISH, with_bun)] == ["root", "leaf", "bun"]
    assert expected_yield(DISH, FOODS, with_bun).known_mg == 800_000 + 240_000


def test_the_measured_yield_takes_the_place_of_the_sum() -> None:
    weighed = Dish("d", "D", 4, DISH.parts, yield_mg=990_000)
    weight = expected_yield(weighed, FOODS)
    assert weight.known_mg == 990_000
    assert weight.measured
    assert weight.complete


def test_tap_water_weighs_though_it_is_not_bought_and_to_taste_is_missing() -> None:
    parts = (
        Part(
            "all",
            Role.WHOLE,
            (
                Ingredient("water", Fraction(0), Fraction(500_000), unmeasured=True),
                Ingredient("salt", Fraction(0), unmeasured=True),
            ),
        ),
    )
    weight = expected_yield(Dish("d", "D", 1, parts), food_table())
    assert weight.known_mg == 500_000
    assert [one.food for one in weight.missing] == ["salt"]


def test_a_method_for_a_food_that_is_not_in_the_dish_is_refused() -> None:
    with pytest.raises(BadField, match="takes no onion"):
        expected_yield(DISH, FOODS, methods={"onion": "boiled"})


def test_a_total_weight_is_none_where_any_ingredient_has_no_figure() -> None:
    weight = expected_yield(DISH, FOODS, methods={"root": "boiled"})
    assert weight.total_mg is None
    assert weight.known_mg == 1_070_000
    assert [(part.part, part.total_mg) for part in weight.parts] == [("mash", 720_000), ("top", None)]


def test_a_total_weight_is_the_sum_or_what_the_scale_says() -> None:
    whole = Dish("d", "D", 4, DISH.parts[:1])
    assert expected_yield(whole, FOODS).total_mg == expected_yield(whole, FOODS).known_mg > 0
    weighed = expected_yield(Dish("d", "D", 4, DISH.parts, yield_mg=990_000), FOODS)
    assert weighed.total_mg == 990_000
    assert weighed.parts[1].total_mg is None


def test_a_part_without_a_measured_ingredient_weighs_an_unknown_amount_and_not_nothing() -> None:
    part = Part("all", Role.WHOLE, (Ingredient("leaf", Fraction(0), unmeasured=True),))
    weight = expected_yield(Dish("d", "D", 4, (part,)), FOODS)
    assert weight.total_mg is None
    assert weight.parts[0].total_mg is None
