"""The tables that come with the package hold together."""

from __future__ import annotations

import csv
from collections import defaultdict
from fractions import Fraction
from importlib.resources import files

import pytest

from ladleworth.facts import ALLERGENS, Food, FoodTable, Keeping, Measure, food_table
from ladleworth.facts.names import fold_name

DATA = files("ladleworth.facts") / "data"
TABLES = [
    "foods",
    "composition",
    "edible",
    "pieces",
    "densities",
    "keeping",
    "freezing",
    "allergens",
    "yields",
    "sources",
]

# Energy outside what protein, fat and carbohydrate can make at 4/9/4 kcal per g, and why.
ATWATER_EXPLAINED = {
    "baking-powder": "salts counted as carbohydrate by difference",
    "vanilla-extract": "alcohol",
    "wine-white": "alcohol",
    "wine-red": "alcohol",
    "beer": "alcohol",
    "vinegar-cider": "acetic acid",
    "vinegar-white": "acetic acid",
    "vinegar-red-wine": "acetic acid",
    "oat-bran": "the source takes a low factor for its bran",
    "taco-seasoning": "the source's own figure is high for its macronutrients",
}

NO_COMPOSITION = {"broth-vegetable"}
"""Foods that the source of composition has no entry for: what they hold stays absent."""


def composed(table: FoodTable) -> list[Food]:
    foods = [food for food in table if food.id not in NO_COMPOSITION]
    assert len(foods) == len(rows("composition")) == len(table) - len(NO_COMPOSITION)
    return foods


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()))


@pytest.fixture(scope="module")
def table() -> FoodTable:
    return food_table()


def test_there_are_at_least_three_hundred_and_twenty_foods(table: FoodTable) -> None:
    assert len(table) >= 320


def test_food_ids_are_unique() -> None:
    ids = [row["id"] for row in rows("foods")]
    assert len(ids) == len(set(ids))


def test_no_two_foods_answer_to_the_same_name(table: FoodTable) -> None:
    owners = defaultdict(set)
    for food in table:
        for name in (food.id, food.name, *food.aliases):
            owners[fold_name(name)].add(food.id)
    assert {name: ids for name, ids in owners.items() if len(ids) > 1} == {}


def test_no_food_repeats_an_alias(table: FoodTable) -> None:
    for food in table:
        assert len(set(food.aliases)) == len(food.aliases), food.id


@pytest.mark.parametrize("name", [name for name in TABLES if name not in ("foods", "sources")])
def test_every_figure_names_a_source_of_the_list(name: str) -> None:
    known = {row["id"] for row in rows("sources")}
    assert {row["source"] for row in rows(name)} <= known


@pytest.mark.parametrize(
    "name", ["composition", "edible", "pieces", "densities", "freezing", "allergens", "yields"]
)
def test_every_row_is_about_a_food_of_the_table(name: str, table: FoodTable) -> None:
    assert {row["food"] for row in rows(name)} <= {food.id for food in table}


def test_keeping_rows_are_about_foods_or_classes_in_use(table: FoodTable) -> None:
    classes = {row["keeps_as"] for row in rows("foods")} - {""}
    for row in rows("keeping"):
        assert row["key"] in ({food.id for food in table} if row["keyed_by"] == "food" else classes)
    assert classes == {row["key"] for row in rows("keeping") if row["keyed_by"] == "class"}


def test_every_food_has_energy_and_the_three_macronutrients(table: FoodTable) -> None:
    for food in composed(table):
        known = table.composition(food.id).known
        assert {"energy_kcal", "protein_g", "fat_g", "carbohydrate_g"} <= set(known), food.id


def test_energy_is_what_the_macronutrients_make_within_a_quarter(table: FoodTable) -> None:
    outside = set()
    for food in composed(table):
        held = dict(table.composition(food.id).amounts)
        most = 4 * held["protein_g"] + 9 * held["fat_g"] + 4 * held["carbohydrate_g"]
        least = most - 4 * held.get("fibre_g", Fraction(0))  # fibre may count for nothing
        if not least * Fraction("0.75") - 4 <= held["energy_kcal"] <= most * Fraction("1.25") + 4:
            outside.add(food.id)
    assert outside == set(ATWATER_EXPLAINED)


def test_macronutrients_do_not_pass_one_hundred_grams(table: FoodTable) -> None:
    for food in composed(table):
        held = table.composition(food.id)
        assert sum(held.get(name).value for name in ("protein_g", "fat_g", "carbohydrate_g")) <= Fraction(101)


def test_edible_fractions_are_above_zero_and_at_most_one() -> None:
    for row in rows("edible"):
        assert 0 < Fraction(row["fraction"]) <= 1, row


def test_densities_are_plausible(table: FoodTable) -> None:
    for food in table:
        for density in table.densities(food.id):
            least = Fraction("0.03") if food.id == "popcorn" else Fraction("0.05")
            assert least <= density.weight.value <= Fraction("1.6"), (food.id, density)


def test_a_density_is_its_note_worked_out() -> None:
    for row in rows("densities"):
        measured, _, millilitres = row["note"].partition(" g, ")
        said, _, grams = measured.rpartition(" = ")
        worked = Fraction(grams) / (Fraction(said.split()[0]) * Fraction(millilitres.split()[0]))
        assert abs(worked - Fraction(row["g_per_ml"])) <= Fraction("0.000005"), row


def test_piece_sizes_do_not_repeat_within_a_kind() -> None:
    keys = [(row["food"], row["size"], row["weight_is"]) for row in rows("pieces")]
    assert len(keys) == len(set(keys))


def test_every_food_counted_in_pieces_has_a_piece_weight(table: FoodTable) -> None:
    counted = [food.id for food in table if food.measured_in is Measure.PIECES]
    assert len(counted) >= 12
    for food_id in counted:
        assert table.piece(food_id).weight.value > 0, food_id


def test_only_the_nine_major_allergens_are_flagged() -> None:
    assert {row["allergen"] for row in rows("allergens")} == set(ALLERGENS)
    assert {row["why"] for row in rows("allergens")} == {
        "by nature of the food",
        "usual recipe of the product",
    }


def test_molluscs_and_coconut_are_not_flagged_as_united_states_law_leaves_them_out(table: FoodTable) -> None:
    for food_id in ("mussels", "clams-canned", "coconut-milk", "coconut-desiccated"):
        assert table.allergens(food_id) == ()


MEMORY_QUALITY = "memory-quality"
NO_MEMORY_AISLES = {"meat", "fish"}
NO_MEMORY = {
    "egg",
    "egg-white",
    "egg-yolk",
    "bean-sprouts",
    "stock-chicken-homemade",
    "hummus",
    "queso-fresco",
}


def remembered(table: FoodTable) -> list[tuple[str, Keeping]]:
    found = [(food.id, row) for food in table for row in table.keepings(food.id) if row.basis == "memory"]
    assert len(found) > 300
    return found


def test_no_keeping_time_that_decides_safety_is_from_memory(table: FoodTable) -> None:
    assert {row["basis"] for row in rows("keeping")} == {"read", "memory"}
    for food_id, row in remembered(table):
        assert table.get(food_id).aisle not in NO_MEMORY_AISLES, food_id
        assert food_id not in NO_MEMORY
        assert row.state not in ("cooked", "cut"), food_id
        assert row.source == MEMORY_QUALITY, food_id
        assert not (table.get(food_id).aisle == "tins" and row.state in ("opened", "any")), food_id


def test_a_remembered_time_never_stands_beside_a_published_one_for_the_same_place_and_state(
    table: FoodTable,
) -> None:
    for food_id, row in remembered(table):
        published = {(k.place, k.state) for k in table.keepings(food_id) if k.basis == "read"}
        assert (row.place, row.state) not in published, food_id
        assert (row.place, "any") not in published, food_id
        assert not (
            row.state == "any" and {(row.place, s) for s in ("raw", "unopened", "opened")} & published
        )


def test_a_remembered_time_of_soft_cheese_milk_and_tofu_keeps_within_the_published_ones_of_their_like(
    table: FoodTable,
) -> None:
    # USDA answer on dairy storage: soft cheese and milk, 7 days; USDA leftovers: 3 to 4 days
    for food_id in ("mozzarella", "feta", "soymilk", "tofu-firm", "tofu-soft", "tempeh"):
        assert table.keeping(food_id, "fridge", "unopened").most_days <= 7
    for food_id in ("tofu-firm", "tofu-soft", "tempeh"):
        assert table.keeping(food_id, "fridge", "opened").most_days <= 3


def test_an_opened_package_never_keeps_longer_than_a_closed_one_in_the_same_place(table: FoodTable) -> None:
    for food_id, row in remembered(table):
        if row.state == "opened" and any(
            k.place == row.place and k.state == "unopened" for k in table.keepings(food_id)
        ):
            assert row.most_days <= table.keeping(food_id, row.place, "unopened").most_days, food_id


def test_a_source_from_memory_says_so_in_its_title(table: FoodTable) -> None:
    title = table.source(MEMORY_QUALITY).title
    assert "from memory, not looked up" in title
    assert "quality, not safety" in title


def test_a_figure_from_memory_never_names_a_printed_work_as_its_source() -> None:
    for name in ("edible", "pieces", "densities", "yields"):
        for row in rows(name):
            if row["basis"] == "memory":
                assert row["source"] == "kitchen-memory", row
    for row in rows("keeping"):
        assert (row["basis"] == "memory") == (row["source"] == MEMORY_QUALITY), row


def test_no_file_holds_a_quoted_line_break() -> None:
    for name in TABLES:
        text = (DATA / f"{name}.csv").read_text(encoding="utf-8")
        assert len(text.splitlines()) == len(list(csv.reader(text.splitlines()))), name
