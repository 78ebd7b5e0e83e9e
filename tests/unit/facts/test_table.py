from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pytest

from ladleworth.errors import BadField, MissingFact, UnknownFood
from ladleworth.facts import FoodTable, FreezesHow, Measure, WeightIs, food_table


@pytest.fixture(scope="module")
def table() -> FoodTable:
    return food_table()


def test_the_table_is_read_once() -> None:
    assert food_table() is food_table()


def test_importing_the_room_reads_no_table_and_no_matcher() -> None:
    code = (
        "import sys, ladleworth.facts as f; "
        "print('rapidfuzz' in sys.modules, f.food_table.cache_info().currsize)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "0"]


@pytest.mark.parametrize(
    ("name", "food_id"),
    [
        ("scallions", "green-onion"),
        ("Spring Onion", "green-onion"),
        ("courgettes", "zucchini"),
        ("garbanzo beans", "chickpeas-dry"),
        ("CILANTRO", "cilantro"),
        ("jalapeno", "jalapeno"),
        ("plain flour", "flour-all-purpose"),
        ("minced beef", "beef-ground-80"),
        ("eggs", "egg"),
        ("  ground   beef ", "beef-ground-80"),
        ("bicarbonate of soda", "baking-soda"),
        ("prawns", "shrimp"),
    ],
)
def test_a_food_is_found_by_any_of_its_names(table: FoodTable, name: str, food_id: str) -> None:
    assert table.find(name).id == food_id


def test_an_unknown_name_comes_with_three_near_ones(table: FoodTable) -> None:
    with pytest.raises(UnknownFood, match="no food is called 'oinon'; did you mean 'onion'") as caught:
        table.find("oinon")
    assert len(caught.value.nearest) == 3
    with pytest.raises(UnknownFood):
        table.get("no-such-food")


def test_nearest_gives_different_foods(table: FoodTable) -> None:
    names = table.nearest("tomatto", 5)
    assert len(names) == len(set(names)) == 5
    assert "tomato" in names


def test_a_nutrient_carries_unit_source_and_basis(table: FoodTable) -> None:
    figure = table.nutrient("sugar", "energy_kcal")
    assert (figure.value, figure.unit, figure.source, figure.basis) == (
        387,
        "kcal/100 g",
        "usda-sr26",
        "read",
    )
    assert table.source(figure.source).edition == "Release 26, 2013"


def test_an_absent_nutrient_raises_and_is_not_zero(table: FoodTable) -> None:
    composed = [food for food in table if table.entry(food.id).composition is not None]
    holes = [(food.id, "sugars_g") for food in composed if "sugars_g" not in table.composition(food.id).known]
    assert holes
    with pytest.raises(MissingFact, match=f"sugars_g of '{holes[0][0]}'"):
        table.nutrient(*holes[0])


def test_a_nutrient_nobody_lists_is_a_bad_field(table: FoodTable) -> None:
    with pytest.raises(BadField, match="write one of: energy_kcal"):
        table.nutrient("egg", "energy")


def test_the_usual_piece_is_medium_and_for_eggs_large(table: FoodTable) -> None:
    assert table.piece("onion").size == "medium"
    assert table.piece("egg").size == "large"
    assert table.piece_weight("egg").value == 50
    assert table.piece("cucumber").size == "whole"
    assert table.piece("garlic").size == "clove"
    assert table.piece_sizes("onion")[:3] == ("medium", "large", "small")


def test_a_piece_weight_tells_edible_from_bought(table: FoodTable) -> None:
    assert table.piece("onion").weight_is is WeightIs.EDIBLE
    assert table.piece("potato").weight_is is WeightIs.AS_BOUGHT
    assert table.piece_weight("egg", "large", WeightIs.AS_BOUGHT).value == Fraction("56.7")


def test_the_other_kind_of_piece_weight_is_worked_through_the_edible_fraction(table: FoodTable) -> None:
    bought = table.piece_weight("onion", "medium", WeightIs.AS_BOUGHT)
    assert bought.value == 110 / Fraction("0.9")
    assert bought.basis == "worked"
    assert "afrs-a6" in bought.note
    assert table.piece_weight("potato", "medium", WeightIs.EDIBLE).value == 213 * Fraction("0.81")


def test_a_piece_weight_that_nobody_has_names_the_sizes_there_are(table: FoodTable) -> None:
    with pytest.raises(MissingFact, match="'huge' piece of 'onion'; there are: medium"):
        table.piece_weight("onion", "huge")
    with pytest.raises(MissingFact, match="one piece of 'milk-whole'"):
        table.piece_weight("milk-whole")


def test_an_edible_fraction_in_doubt_stays_absent(table: FoodTable) -> None:
    with pytest.raises(MissingFact, match="edible fraction of 'chicken-drumstick'"):
        table.edible_fraction("chicken-drumstick")


def test_the_usual_density_is_as_poured_or_chopped(table: FoodTable) -> None:
    assert table.density("milk-whole") == table.density("milk-whole", "as is")
    assert table.density("onion") == table.density("onion", "chopped")
    assert table.density("cheddar") == table.density("cheddar", "shredded")
    assert table.density("sugar-brown") == table.density("sugar-brown", "packed")
    assert (
        table.density("rice-white-long-grain", "cooked").value < table.density("rice-white-long-grain").value
    )


def test_a_density_that_nobody_has_names_the_forms_there_are(table: FoodTable) -> None:
    with pytest.raises(MissingFact, match="'onion' when grated; there are: chopped"):
        table.density("onion", "grated")
    with pytest.raises(MissingFact, match="density of 'hot-dog'"):
        table.density("hot-dog")


def test_keeping_is_looked_up_by_place_and_state(table: FoodTable) -> None:
    raw = table.keeping("chicken-breast", "fridge", "raw")
    assert (raw.least_days, raw.most_days, raw.source) == (1, 2, "foodsafety-gov-cold-storage")
    assert table.keeping("pinto-beans-dry", "fridge", "cooked").most_days == 4
    assert table.keeping("chickpeas-canned", "fridge", "opened").most_days == 4


def test_a_time_for_any_state_answers_for_a_packet_but_never_for_a_cooked_dish(table: FoodTable) -> None:
    assert table.keeping("bacon", "fridge", "opened").most_days == 7
    with pytest.raises(MissingFact, match="'bacon', cooked, in the fridge"):
        table.keeping("bacon", "fridge", "cooked")


def test_a_keeping_time_that_nobody_has_raises(table: FoodTable) -> None:
    with pytest.raises(MissingFact, match="'mussels', raw, in the fridge"):
        table.keeping("mussels", "fridge", "raw")
    with pytest.raises(MissingFact, match="'onion', raw, in the fridge"):
        table.keeping("onion", "fridge", "raw")  # the cupboard's time says nothing of the fridge
    with pytest.raises(BadField, match="places: cupboard, fridge, freezer"):
        table.keeping("onion", "cellar", "raw")


def test_freezing_tells_what_goes_wrong(table: FoodTable) -> None:
    assert table.freezing("sour-cream").freezes is FreezesHow.AVOID
    assert table.freezing("macaroni").freezes is FreezesHow.POORLY
    assert table.freezing("pinto-beans-dry").freezes is FreezesHow.WELL
    with pytest.raises(MissingFact, match="'water' takes freezing"):
        table.freezing("water")


def test_allergens_say_why(table: FoodTable) -> None:
    assert [(flag.allergen, flag.why) for flag in table.allergens("soy-sauce")] == [
        ("soybean", "by nature of the food"),
        ("wheat", "by nature of the food"),
    ]
    assert table.allergens("rice-white-long-grain") == ()
    assert table.read_label("bouillon-cube-chicken")
    assert not table.read_label("carrot")


def test_a_cooking_yield_is_found_by_method_or_its_word(table: FoodTable) -> None:
    assert table.cooking_yield("rice-white-long-grain", "boiled, absorbed").yield_pct == 280
    assert table.cooking_yield("black-beans-dry", "boiled").yield_pct == Fraction("243.8")
    assert table.cooking_yield("onion", "sauteed until soft").basis == "memory"
    with pytest.raises(MissingFact, match="when microwaved; there are: boiled, absorbed"):
        table.cooking_yield("rice-white-long-grain", "microwaved")
    with pytest.raises(MissingFact, match="there are: none"):
        table.cooking_yield("sugar", "boiled")


def test_an_unknown_source_raises(table: FoodTable) -> None:
    with pytest.raises(MissingFact, match="no source has the id 'hearsay'"):
        table.source("hearsay")


def test_foods_come_in_one_order_and_know_how_they_are_counted(table: FoodTable) -> None:
    assert next(iter(table)).id == "onion"
    assert "egg" in table
    assert "no-such-food" not in table
    assert table.get("egg").measured_in is Measure.PIECES
    assert table.get("bread-white").measured_in is Measure.MASS


def test_a_tin_named_drained_yields_its_drained_share_or_none_at_all(table: FoodTable) -> None:
    assert table.edible_fraction("chickpeas-canned").value == Fraction("0.5647")  # 253 g of 448 g
    assert table.piece_weight("chickpeas-canned", "can").value == 448
    assert table.piece_weight("chickpeas-canned", "can, drained").value == 253
    with pytest.raises(MissingFact):
        table.edible_fraction("mushrooms-canned")


@pytest.mark.parametrize(
    ("name", "food"),
    [
        ("canned sardines", "sardines-canned"),
        ("pollock fillets", "pollock"),
        ("haddock", "haddock"),
        ("smoked paprika", "paprika"),
        ("vegetable broth", "broth-vegetable"),
        ("vegetable stock", "broth-vegetable"),
        ("garlic bulbs", "garlic"),
        ("head of garlic", "garlic"),
    ],
)
def test_plain_names_are_known(table: FoodTable, name: str, food: str) -> None:
    assert table.find(name).id == food


def test_whatever_is_tinned_is_canned_too(table: FoodTable) -> None:
    tinned = [
        (food.id, name) for food in table for name in (food.name, *food.aliases) if name.startswith("tinned ")
    ]
    assert len(tinned) > 10
    for food_id, name in tinned:
        assert table.find("canned " + name.removeprefix("tinned ")).id == food_id


def test_a_family_name_matches_every_food_that_bears_it_the_usual_one_first(table: FoodTable) -> None:
    ids = [food.id for food in table.matches("lentils")]
    assert ids[0] == table.find("lentils").id == "lentils"
    assert "lentils-red" in ids
    assert "lentils-red" in [food.id for food in table.matches("Red Lentil")]
    assert table.matches("xyz") == ()
    assert table.matches(" ") == ()


def test_vegetable_stock_says_that_its_composition_is_not_known(table: FoodTable) -> None:
    with pytest.raises(MissingFact, match="composition"):
        table.composition("broth-vegetable")
    assert table.read_label("broth-vegetable")


def test_a_spice_with_figures_for_whole_and_ground_is_spooned_ground(table: FoodTable) -> None:
    forms = {
        food.id: [one.form for one in table.densities(food.id)] for food in table if food.aisle == "spices"
    }
    assert len(forms) > 20
    for food_id, there in forms.items():
        assert not {"whole", "ground"} <= set(there) or there[0] == "ground", food_id
