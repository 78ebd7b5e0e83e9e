"""How long foods keep once bought: durable, so many days, or nobody knows; none is left in between."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from ladleworth.errors import MissingFact
from ladleworth.facts import Food, FoodTable, Keeping, Measure, OwnFood, food_table
from ladleworth.store.keeping_rule import DURABLE_FROM_DAYS, bought_keeping, days_in_freezer, days_kept

DOCS = Path(__file__).parents[3] / "docs"
PAGE = (DOCS / "facts.md").read_text(encoding="utf-8")
FOLDER_PAGE = (DOCS / "kitchen-folder.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def table() -> FoodTable:
    return food_table()


@pytest.mark.parametrize(
    ("name", "days"),
    [
        ("egg", 35),  # FoodSafety.gov cold storage chart: in shell, 3 to 5 weeks
        ("ground beef", 2),  # the same chart: 1 to 2 days
        ("sliced ham", 5),  # the same chart: store-wrapped slices, 3 to 5 days; it is sold opened
        ("home-made chicken stock", 2),  # Be Food Safe chart: 1 to 2 days, though it is shelved with the tins
        ("cheddar cheese", 180),  # USDA answer on dairy: 6 months unopened
        ("canned tomatoes", None),  # FSIS: 12 to 18 months
    ],
)
def test_a_published_time_is_taken_as_it_stands(table: FoodTable, name: str, days: int | None) -> None:
    food_id = table.find(name).id
    assert days_kept(table, food_id) == days
    keeping = bought_keeping(table, food_id)
    assert keeping is not None
    assert keeping.basis == "read"


@pytest.mark.parametrize(
    ("name", "days"),
    [
        ("onion", 28),
        ("potato", 14),
        ("carrot", 14),
        ("spinach", 3),
        ("apple", 21),
        ("white bread", 5),
        ("firm tofu", 7),
        ("whole-wheat flour", 60),
        ("rice", None),
        ("spaghetti", None),
        ("dry black beans", None),
        ("olive oil", None),
        ("ground cinnamon", None),
        ("ketchup", None),
    ],
)
def test_where_nothing_is_published_the_remembered_time_is_taken_and_says_so(
    table: FoodTable, name: str, days: int | None
) -> None:
    food_id = table.find(name).id
    assert days_kept(table, food_id) == days
    keeping = bought_keeping(table, food_id)
    assert keeping is not None
    assert (keeping.basis, keeping.source) == ("memory", "memory-quality")


def test_ninety_days_in_the_cupboard_make_a_food_durable_and_eighty_nine_do_not(table: FoodTable) -> None:
    for most_days, kept in ((DURABLE_FROM_DAYS, None), (DURABLE_FROM_DAYS - 1, DURABLE_FROM_DAYS - 1)):
        assert (
            days_kept(own(table, Keeping("cupboard", "unopened", None, most_days, "own", "own")), "x") == kept
        )


def test_the_fridge_goes_before_a_short_time_in_the_cupboard(table: FoodTable) -> None:
    both = (
        Keeping("cupboard", "raw", None, 7, "own", "own"),
        Keeping("fridge", "raw", None, 21, "own", "own"),
    )
    assert days_kept(own(table, *both), "x") == 21


def test_a_time_of_no_days_still_covers_the_day_of_buying(table: FoodTable) -> None:
    assert days_kept(own(table, Keeping("fridge", "raw", None, 0, "own", "own")), "x") == 1


@pytest.mark.parametrize("aisle", ["baking", "dry-goods", "oils-and-sauces", "spices", "tins"])
def test_an_own_food_of_a_cupboard_aisle_is_durable_when_nothing_else_is_said(
    table: FoodTable, aisle: str
) -> None:
    assert days_kept(own(table, aisle=aisle), "x") is None
    assert bought_keeping(own(table, aisle=aisle), "x") is None


@pytest.mark.parametrize("aisle", ["produce", "meat", "own", "frozen"])
def test_any_other_own_food_needs_its_time_written(table: FoodTable, aisle: str) -> None:
    with pytest.raises(MissingFact, match="nobody has the keeping time of thing"):
        days_kept(own(table, aisle=aisle), "x")


def test_own_figures_do_not_make_a_food_durable_whose_time_nobody_knows(table: FoodTable) -> None:
    fat = OwnFood(Food("chicken-fat", "chicken fat", (), "oils-and-sauces", Measure.MASS, own=True))
    with pytest.raises(MissingFact, match="chicken fat once bought"):
        days_kept(table.with_own([fat]), "chicken-fat")


def test_a_tin_is_durable_and_a_frozen_food_has_its_freezer_time(table: FoodTable) -> None:
    unlike_tins = {"home-made chicken stock", "canned anchovies in oil, drained"}
    for food in table:
        if food.aisle == "tins" and food.name not in unlike_tins:
            assert days_kept(table, food.id) is None, food.id
    frozen = {
        food.id: days_kept(table, food.id)
        for food in table
        if food.aisle == "frozen" and knows(table, food.id)
    }
    assert frozen["peas-frozen"] == 360  # Oregon State freezer list: 12 months of 30 days
    assert None not in frozen.values()


def test_days_in_the_freezer_are_those_of_the_raw_or_closed_food(table: FoodTable) -> None:
    assert days_in_freezer(table, table.find("ground beef").id) == 120  # FoodSafety.gov: 3 to 4 months
    with pytest.raises(MissingFact, match="white long-grain rice in the freezer"):
        days_in_freezer(table, "rice-white-long-grain")  # only cooked rice has one


def test_the_page_lists_every_food_of_which_nobody_knows_how_long_it_keeps(table: FoodTable) -> None:
    absent = {food.name for food in table if not knows(table, food.id)}
    count, listed = re.findall(r"(?s)([0-9]+) foods are left of which nobody has .*?: (.*?)\n\n", PAGE)[0]
    said = {
        name.strip() for name in re.sub(r"\([^)]*\)", "", listed).replace("\n", " ").rstrip(".").split(";")
    }
    assert said == absent
    assert int(count) == len(absent)


def test_the_page_says_how_many_foods_keep_by_a_published_and_by_a_remembered_time(table: FoodTable) -> None:
    known = [bought_keeping(table, food.id) for food in table if knows(table, food.id)]
    bases = [keeping.basis for keeping in known if keeping is not None]
    assert len(bases) == len(known)
    said = " ".join(PAGE.split())
    assert (
        f"{bases.count('read')} foods keep by a published time and {bases.count('memory')} by one from memory"
        in said
    )


def test_the_page_of_the_kitchen_folder_gives_its_examples_as_the_rule_does(table: FoodTable) -> None:
    onion, carrot, spinach, bread = (
        days_kept(table, food_id) for food_id in ("onion", "carrot", "spinach", "bread-white")
    )
    assert carrot == days_kept(table, "potato")
    said = f"onions {onion} days, carrots and potatoes {carrot}, spinach {spinach}, bread {bread}"
    assert said in " ".join(FOLDER_PAGE.split())


def own(table: FoodTable, *keeping: Keeping, aisle: str = "produce") -> FoodTable:
    """Lay a food 'x' of the kitchen's own over the table."""
    food = Food("x", "thing", (), aisle, Measure.MASS, own=True)
    return table.with_own([OwnFood(food, keeping=keeping)])


def knows(table: FoodTable, food_id: str) -> bool:
    """Tell whether anybody knows how long a food keeps once bought."""
    try:
        days_kept(table, food_id)
    except MissingFact:
        return False
    return True
