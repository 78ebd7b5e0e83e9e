"""What a portion fills, worked by hand from the figures of the food table."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil

import pytest

from ladleworth.dish.dish import Dish, Ingredient, Part, Role
from ladleworth.dish.volume import part_volumes_ml, portion_ml
from ladleworth.errors import MissingFact
from ladleworth.facts import Food, Measure, OwnFood, food_table

TABLE = food_table()
WATER = "water"


def dish(*parts: tuple[Ingredient, ...], portions: int = 1) -> Dish:
    return Dish("d", "D", portions, tuple(Part(f"p{n}", Role.WHOLE, part) for n, part in enumerate(parts)))


def food(name: str, grams: int, edible: int | None = None) -> Ingredient:
    return Ingredient(
        name, Fraction(grams * 1000), Fraction(grams * 1000 if edible is None else edible * 1000)
    )


def tap(grams: int) -> Ingredient:
    return Ingredient(WATER, Fraction(0), Fraction(grams * 1000), unmeasured=True)


def ml(made: Dish) -> int:
    return portion_ml(made, made.variants()[0], TABLE)


def test_the_cooks_own_figure_comes_first() -> None:
    assert ml(replace(dish((food("onion", 500),)), portion_volume_ml=123)) == 123


def test_edible_weight_counts_at_the_density_of_water() -> None:
    # 300 g of onion, of which 270 g are eaten, and 100 g of tap water, for two: 185 ml each.
    assert ml(dish((food("onion", 300, edible=270), tap(100)), portions=2)) == 185


def test_rice_swells_by_its_yield_and_takes_up_the_water_of_its_own_part() -> None:
    # 65 g x 280 % = 182 g at 0.66783 g/ml = 272.5 ml; of 125 g water 117 g are taken up, 8 g are left.
    rice = food("rice-white-long-grain", 65)
    assert ml(dish((rice, tap(125)))) == ceil(182 / 0.66783 + 8)
    assert ml(dish((rice,), (tap(125),))) == ceil(182 / 0.66783 + 125)


def test_what_is_drained_swells_without_the_water_of_the_sauce() -> None:
    # 75 g of macaroni x 224.8 % = 168.6 g at 0.59175 g/ml.
    assert ml(dish((food("macaroni", 75), tap(50)))) == ceil(168.6 / 0.59175 + 50)


def test_a_measured_yield_takes_the_rest_as_water_boiled_away() -> None:
    onion = dish((food("onion", 500), tap(500)), portions=2)
    assert ml(replace(onion, yield_mg=800_000)) == 400
    assert ml(replace(dish((food("macaroni", 100),)), yield_mg=10_000)) == ceil(224.8 / 0.59175 - 224.8 + 10)


def test_a_yield_below_what_could_boil_away_counts_at_waters_density() -> None:
    # 100 g of grits x 521.9 % fill 480 ml, 41 less than they weigh in g, so that 5 g would come out below 0.
    assert ml(replace(dish((food("grits", 100),)), yield_mg=5_000)) == 5


def test_to_taste_fills_nothing() -> None:
    salt = Ingredient("salt", Fraction(0), unmeasured=True)
    assert ml(dish((food("onion", 100), salt))) == 100


def test_a_piece_without_a_weight_is_a_missing_figure() -> None:
    own = OwnFood(Food("knob", "knob", (), "bakery", Measure.PIECES, own=True))
    made = dish((Ingredient("knob", Fraction(2)),))
    with pytest.raises(MissingFact, match="nobody has the weight of one piece of 'knob'"):
        portion_ml(made, made.variants()[0], TABLE.with_own([own]))


def test_a_food_without_an_edible_fraction_counts_as_bought() -> None:
    own = OwnFood(Food("wild-roots", "wild roots", (), "produce", Measure.MASS, own=True))
    made = dish((Ingredient("wild-roots", Fraction(250_000)),))
    assert portion_ml(made, made.variants()[0], TABLE.with_own([own])) == 250


def test_the_parts_of_a_dish_add_up_and_share_out_what_was_measured() -> None:
    made = dish((food("onion", 300, edible=270), tap(30)), (food("onion", 100),), portions=2)
    variant = made.variants()[0]
    assert part_volumes_ml(made, variant, TABLE) == {"p0": 300, "p1": 100}
    measured = replace(made, portion_volume_ml=300)
    assert part_volumes_ml(measured, variant, TABLE) == {"p0": 450, "p1": 150}  # 600 ml, three to one
