from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.dish import Dish, Ingredient, Role
from ladleworth.dish.resolve import resolve
from ladleworth.dish.tree import Path, show_path
from ladleworth.dish.written import HandsOn, WrittenDish, WrittenPart, WrittenStep, WrittenSwap
from ladleworth.errors import Finding, Place, Weight
from ladleworth.facts import (
    CookingYield,
    Density,
    Figure,
    Food,
    FoodTable,
    Measure,
    OwnFood,
    PieceWeight,
    WeightIs,
    food_table,
)
from ladleworth.units import CUP, LB, OZ


def figure(value: str, unit: str = "share") -> Figure:
    return Figure(Fraction(value), unit, "own-scale", "own")


def piece(size: str, grams: str, weight_is: WeightIs) -> PieceWeight:
    return PieceWeight(size, figure(grams, "g"), weight_is)


def own(food: str, measured_in: Measure = Measure.MASS, aisle: str = "produce", **figures: object) -> OwnFood:
    return OwnFood(Food(food, food, (), aisle, measured_in, own=True), allergens=(), **figures)  # type: ignore[arg-type]


FOODS = FoodTable({}, {}).with_own(
    [
        own(
            "onion",
            edible_fraction=figure("0.9"),
            pieces=(piece("medium", "110", WeightIs.EDIBLE), piece("large", "150", WeightIs.EDIBLE)),
            densities=(
                Density("sliced", figure("0.5", "g/ml")),
                Density("chopped", figure("0.7", "g/ml")),
                Density("cooked, chopped", figure("1", "g/ml")),
            ),
            yields=(CookingYield("boiled, drained", "raw, peeled", Fraction(80), "own-scale", "own"),),
        ),
        own("squash", edible_fraction=figure("0.8"), pieces=(piece("whole", "1000", WeightIs.AS_BOUGHT),)),
        own("garlic", edible_fraction=figure("0.9"), pieces=(piece("clove", "3", WeightIs.EDIBLE),)),
        own(
            "egg",
            Measure.PIECES,
            edible_fraction=figure("0.88"),
            pieces=(piece("large", "50", WeightIs.EDIBLE), piece("large", "56", WeightIs.AS_BOUGHT)),
            densities=(Density("as is", figure("1", "g/ml")),),
        ),
        own("beans", aisle="tins", edible_fraction=figure("0.6")),
        own("canned-beans", aisle="tins", edible_fraction=figure("0.6")),
        own("lentils", aisle="dry-goods"),
        own("butter", edible_fraction=figure("1"), densities=(Density("as is", figure("0.96", "g/ml")),)),
        own("margarine"),
        own("salt", aisle="spices"),
        own("pepper", aisle="spices"),
    ]
)


def dish_of(*lines: str, portions: int = 4, **per_portion: str) -> WrittenDish:
    return WrittenDish(
        "Test", (WrittenPart(lines=lines, per_portion=tuple(per_portion.items())),), portions=portions
    )


def ready(written: WrittenDish, foods: FoodTable = FOODS) -> Dish:
    dish, findings = resolve(written, foods)
    assert [str(f) for f in findings if f.weight is Weight.FAULT] == []
    assert dish is not None
    return dish


def first(line: str) -> Ingredient:
    (ingredient,) = ready(dish_of(line)).parts[0].ingredients
    return ingredient


def faults(written: WrittenDish, foods: FoodTable = FOODS) -> list[Finding]:
    dish, findings = resolve(written, foods)
    assert dish is None
    return [finding for finding in findings if finding.weight is Weight.FAULT]


@pytest.mark.parametrize(
    ("line", "bought", "edible_mg"),
    [
        # a mass is as bought; with a preparing word before the food it is the edible part
        ("500 g onions", 500_000, 450_000),
        ("500 g onions, chopped", 500_000, 450_000),
        ("450 g chopped onions", 500_000, 450_000),
        # a volume is the edible part, by the form that the words name, else the usual raw one
        ("1 cup chopped onion", CUP.in_base * 700 / Fraction("0.9"), CUP.in_base * 700),
        ("1 cup onion, chopped", CUP.in_base * 700 / Fraction("0.9"), CUP.in_base * 700),
        ("1 cup diced onion", CUP.in_base * 700 / Fraction("0.9"), CUP.in_base * 700),
        ("1 cup onion", CUP.in_base * 500 / Fraction("0.9"), CUP.in_base * 500),
        # the line's own weight in brackets wins over a density
        ("1 cup (180 g) chopped onion", 200_000, 180_000),
        # cooked before the food is weighed cooked; after the comma it is cooked later
        ("360 g cooked onions", 500_000, 450_000),
        ("1 cup cooked chopped onion", CUP.in_base * 1000 / Fraction("0.72"), CUP.in_base * 1250),
        ("1 cup onion, chopped and cooked", CUP.in_base * 700 / Fraction("0.9"), CUP.in_base * 700),
        # a piece weighs what is printed: edible weights are divided by the edible fraction, bought ones not
        ("2 onions", 220_000 / Fraction("0.9"), 220_000),
        ("1 large onion, chopped", 150_000 / Fraction("0.9"), 150_000),
        ("1 squash", 1_000_000, 800_000),
        ("3 cloves garlic, minced", 10_000, 9_000),
        # packages with their content are as bought
        ("2 (14.5 oz) cans beans", OZ.in_base * 29, OZ.in_base * 29 * Fraction("0.6")),
        # amounts are added; of a range the high end is bought
        ("1 lb plus 4 oz onions", LB.in_base * Fraction(5, 4), LB.in_base * Fraction(5, 4) * Fraction("0.9")),
        ("2-3 onions", 330_000 / Fraction("0.9"), 330_000),
        # a food in pieces takes counts directly; mass and volume become pieces by the weight as bought
        ("3 eggs", 3, 150_000),
        ("1 dozen eggs", 12, 600_000),
        ("112 g eggs", 2, 112_000 * Fraction("0.88")),
        (
            "1 cup beaten egg",
            CUP.in_base * 1000 / Fraction("0.88") / 56_000,
            CUP.in_base * 1000,
        ),
    ],
)
def test_an_amount_comes_to_exactly_this_as_bought(line: str, bought: Fraction, edible_mg: Fraction) -> None:
    ingredient = first(line)
    assert ingredient.bought == bought
    assert ingredient.edible_mg == edible_mg
    assert ingredient.text == line


def test_a_plain_count_is_of_whole_pieces_and_not_of_the_package_that_stands_first() -> None:
    trout = own(
        "trout",
        pieces=(piece("package", "900", WeightIs.AS_BOUGHT), piece("piece", "270", WeightIs.AS_BOUGHT)),
    )
    (ingredient,) = ready(dish_of("2 trout"), FOODS.with_own([trout])).parts[0].ingredients
    assert ingredient.bought == 540_000


def test_the_working_names_the_figures_with_source_and_basis() -> None:
    working = first("450 g chopped onions").working
    assert working == "450 g edible part / edible fraction 0.9 (own-scale, own) = 500 g as bought"
    assert "110 g (own-scale, own) edible, medium" in first("2 onions").working
    assert "0.7 g/ml (own-scale, own), chopped" in first("1 cup chopped onion").working


def test_the_working_says_that_the_high_end_of_a_range_is_taken() -> None:
    assert first("2-3 onions").working.startswith("high end of 2-3; ")


def test_of_alternatives_the_first_is_taken_and_the_others_are_named() -> None:
    ingredient = first("2 tbsp butter or margarine")
    assert ingredient.food == "butter"
    assert ingredient.working.endswith("the first is taken; instead: margarine")


def test_an_optional_line_counts_and_says_so() -> None:
    assert first("2 onions (optional)").working.endswith("optional, counted")


def test_to_taste_is_an_unmeasured_ingredient_and_salt_and_pepper_are_two() -> None:
    _, salt, pepper = ready(dish_of("300 g lentils", "salt and pepper, to taste")).parts[0].ingredients
    assert (salt.food, pepper.food) == ("salt", "pepper")
    assert salt.unmeasured
    assert pepper.unmeasured
    assert (salt.bought, salt.edible_mg) == (0, None)


def test_tap_water_is_weighed_but_not_bought_unless_the_kitchen_has_its_own() -> None:
    _, water = ready(dish_of("300 g lentils", "2 cups cold water"), food_table()).parts[0].ingredients
    assert water.unmeasured
    assert water.bought == 0
    assert water.edible_mg is not None
    assert 470_000 < water.edible_mg < 476_000
    assert "not bought" in water.working
    bottled = food_table().with_own([own("water", aisle="drinks")])
    (water,) = ready(dish_of("500 g water"), bottled).parts[0].ingredients
    assert water.bought == 500_000
    assert not water.unmeasured


def test_what_comes_in_cans_is_the_canned_food() -> None:
    assert first("1 (15 oz) can beans").food == "canned-beans"
    assert first("300 g beans").food == "beans"


def test_the_same_food_in_several_lines_stays_several_ingredients() -> None:
    assert [i.food for i in ready(dish_of("1 onion", "2 onions")).parts[0].ingredients] == ["onion", "onion"]


def test_amounts_per_portion_are_as_bought_and_exact_for_all_portions() -> None:
    lentils, egg, onion = (
        ready(dish_of(portions=3, lentils="80 g", egg="1 1/2", onion="1 cup")).parts[0].ingredients
    )
    assert (lentils.bought, lentils.edible_mg) == (240_000, 240_000)  # dry goods are eaten whole
    assert egg.bought == Fraction(9, 2)
    assert onion.bought == CUP.in_base * 1500
    assert onion.edible_mg == CUP.in_base * 1350
    assert lentils.working == "80 g as bought; x 3 portions"


def test_the_dish_takes_over_everything_else_that_was_written() -> None:
    written = WrittenDish(
        name="Bean chili",
        portions=6,
        least=4,
        greatest=10,
        keep_days=3,
        freezer_days=60,
        meals=("lunch",),
        never=("Ben",),
        hands_on=HandsOn("20", "1 min"),
        parts=(
            WrittenPart(
                "stew",
                Role.PROTEIN,
                ("2 lb beans",),
                (),
                (WrittenSwap("onion", ("1 onion",), (), HandsOn(fixed="5")), WrittenSwap("without")),
            ),
            WrittenPart("side", None, per_portion=(("lentils", "75 g"),)),
        ),
        steps=(WrittenStep("Soak.", unattended="8 h"), WrittenStep("Chop.", "stew", "5 min", "", ("board",))),
        measured_yield="2.4 kg",
    )
    dish = ready(written)
    assert (dish.id, dish.portions, dish.least, dish.greatest) == ("bean-chili", 6, 4, 10)
    assert (dish.keep_days, dish.freezer_days, dish.meals, dish.never) == (3, 60, ("lunch",), ("Ben",))
    assert (dish.fixed_min, dish.per_portion_min) == (20, 1)
    assert [(part.name, part.role) for part in dish.parts] == [
        ("stew", Role.PROTEIN),
        ("side", Role.WHOLE),
    ]
    assert [variant.name for variant in dish.variants()] == ["onion", "without"]
    assert dish.variants()[0].fixed_min == 25
    assert dish.parts[1].ingredients[0].bought == 450_000
    assert dish.steps[0].unattended_min == 480
    assert (dish.steps[1].part, dish.steps[1].hands_on_min, dish.steps[1].needs) == ("stew", 5, ("board",))
    assert dish.yield_mg == 2_400_000


def test_what_was_left_out_is_taken_from_the_steps_and_the_house_rule() -> None:
    steps = (WrittenStep("Chop.", hands_on="5 min"), WrittenStep("Fry.", hands_on="7"))
    written = WrittenDish("A", (WrittenPart(per_portion=(("lentils", "80 g"),)),), steps=steps)
    dish, findings = resolve(written, FOODS, 3)
    assert findings == ()
    assert dish is not None
    assert (dish.portions, dish.least, dish.greatest, dish.keep_days) == (1, 1, 8, 3)
    assert (dish.fixed_min, dish.per_portion_min) == (12, 0)
    assert (dish.parts[0].name, dish.parts[0].role) == ("all", Role.WHOLE)
    assert dish.freezer_days is None


def test_every_faulty_line_is_named_at_once_with_its_place() -> None:
    written = WrittenDish(
        "A",
        (
            WrittenPart("a", None, ("1 onoin", "a handful of onions", "1 onion"), (("lentils", "80"),)),
            WrittenPart("b", None, (), (), (WrittenSwap("s", ("2 garlic", "1 cup lentils")),)),
        ),
        portions=4,
    )

    def place(path: Path) -> Place:
        return Place("dishes.yaml", 7, show_path(path))

    dish, findings = resolve(written, FOODS, 4, place)
    assert dish is None
    told = {finding.place.item: finding for finding in findings}
    assert list(told) == [
        "parts[1].lines[1]",
        "parts[1].lines[2]",
        "parts[1].per_portion.lentils",
        "parts[2].swaps[1].lines[1]",
        "parts[2].swaps[1].lines[2]",
    ]
    assert told["parts[1].lines[1]"].what == "the line '1 onoin': no food is called 'onoin'"
    assert told["parts[1].lines[1]"].remedy.startswith("write 'onion' or ")
    assert told["parts[1].lines[1]"].remedy.count(" or ") == 3
    assert "'a handful of onions' cannot be read" in told["parts[1].lines[2]"].what
    assert "weight of one piece of 'lentils'" in told["parts[1].per_portion.lentils"].what
    assert told["parts[1].per_portion.lentils"].remedy.startswith("write '80 g'")
    assert "there are: clove" in told["parts[2].swaps[1].lines[1]"].what
    assert "density of 'lentils'" in told["parts[2].swaps[1].lines[2]"].what
    assert {finding.place.file for finding in findings} == {"dishes.yaml"}


def test_without_a_placer_a_fault_names_the_dish_and_the_line() -> None:
    (fault,) = faults(dish_of("1 onoin"))
    assert fault.place == Place("Test", item="lines[1]")


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("2 huge squash", ""),
        ("2 large squash", "weight of a large piece of 'squash'"),
        ("1 bunch garlic", "no weight of a bunch of garlic is on record"),
        ("1 cup cooked butter", "nobody has the density of 'butter' cooked"),
        ("200 g cooked squash", "which yield 'squash' has when cooked cannot be told"),
        ("1 cup margarine", "nobody has the density of 'margarine'"),
        ("100 g chopped margarine", "nobody has the edible fraction of 'margarine'"),
        ("1 can garlic", "no weight of a can of garlic is on record"),
    ],
)
def test_an_amount_for_which_nobody_has_the_figure_is_a_fault_and_never_a_guess(line: str, what: str) -> None:
    (fault,) = faults(dish_of(line))
    assert what in fault.what


@pytest.mark.parametrize("amount", ["0 g", "0", "-80 g", "80-90 g", "80 gg", "some", "80 g 1 cup"])
def test_an_amount_per_portion_that_cannot_be_read_is_a_fault(amount: str) -> None:
    (fault,) = faults(dish_of(lentils=amount))
    assert fault.what.startswith("the amount of lentils cannot be read")
    assert fault.place.item == "per_portion.lentils"


def test_fresh_before_the_name_of_produce_is_no_other_food_but_before_a_spice_it_may_be() -> None:
    foods = FOODS.with_own([own("dried-thyme", aisle="spices"), own("leek", aisle="produce")])
    assert ready(dish_of("100 g fresh leek"), foods).parts[0].ingredients[0].food == "leek"
    assert len(faults(dish_of("100 g fresh dried-thyme"), foods)) == 1


def test_a_dish_from_elsewhere_that_is_still_faulty_is_told_so_and_not_resolved() -> None:
    written = WrittenDish(
        "A", (WrittenPart(lines=("1 onion",)),), measured_yield="3", hands_on=HandsOn("soon")
    )
    told = [finding.what for finding in faults(written)]
    assert len(told) == 4
    assert "lines are written but not for how many portions" in told
