from __future__ import annotations

from collections import Counter, defaultdict
from datetime import date, timedelta
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from ladleworth.cookday.pose import pose_day
from ladleworth.cookday.to_cook import BatchToCook
from ladleworth.dish.allergens import allergens_of
from ladleworth.dish.chain import bought_mass, edible_mass
from ladleworth.dish.dish import Dish, Role, Variant
from ladleworth.dish.needs import read_needs
from ladleworth.dish.salt import salt
from ladleworth.errors import MissingFact
from ladleworth.facts import Measure, food_table
from ladleworth.household import Eater, Kitchen, barred
from ladleworth.ledger import LotUnit
from ladleworth.store import FolderReading, read_folder

EXAMPLES = Path(__file__).parents[2] / "examples"
FOLDERS = sorted(path.parent.name for path in EXAMPLES.glob("*/kitchen.yaml"))
MEALS = ("breakfast", "lunch", "dinner")
FLESH = ("meat", "fish")
OWN_FOODS = ("flatbread", "smoked-tofu", "seed-mix", "oat-drink", "vegetable-stock-cube", "plant-sausage")
SEASONED_LIMIT_MG = 1500
"""More sodium than this in one portion would be absurd: our own bound, no source."""


@cache
def reading(folder: str) -> FolderReading:
    return read_folder(EXAMPLES / folder)


def kitchen(folder: str = "demo") -> Kitchen:
    return reading(folder).without_faults()


def every_variant(of: Kitchen) -> list[tuple[Dish, Variant]]:
    return [(dish, variant) for dish in of.dishes for variant in dish.variants()]


def bought_g(of: Kitchen, dish: Dish, variant: Variant) -> Fraction:
    masses = [bought_mass(one, of.foods)[0] for one in variant.ingredients if not one.unmeasured]
    return sum(masses, Fraction(0)) / dish.portions / 1000


def edible_g(of: Kitchen, dish: Dish, variant: Variant) -> Fraction:
    """The edible part and the water of a portion: before anything boils away or is soaked up."""
    masses = [one.edible_mg or edible_mass(one, of.foods)[0] for one in variant.ingredients]
    return sum(masses, Fraction(0)) / dish.portions / 1000


def eater(of: Kitchen, name: str) -> Eater:
    return next(one for one in of.household.eaters if one.name == name)


def test_all_the_kitchens_that_the_index_promises_are_there() -> None:
    index = (EXAMPLES / "README.md").read_text(encoding="utf-8")
    small = {"plain", "one-person", "four-people", "vegetarian", "empty-fridge", "tight-budget"}
    assert set(FOLDERS) == {"demo", *small}
    assert all(f"({name}/)" in index for name in FOLDERS)


@pytest.mark.parametrize("folder", FOLDERS)
def test_an_example_kitchen_reads_without_a_fault_or_a_doubt(folder: str) -> None:
    assert [str(finding) for finding in reading(folder).findings] == []
    assert reading(folder).kitchen is not None


@pytest.mark.parametrize("folder", FOLDERS)
def test_an_example_kitchen_says_that_it_is_invented(folder: str) -> None:
    text = " ".join((EXAMPLES / folder / "README.md").read_text(encoding="utf-8").split())
    assert "invented" in text
    assert all(word in text for word in ("shops", "prices", "dishes")) or "every price" in text


@pytest.mark.parametrize("folder", FOLDERS)
def test_everyone_in_an_example_kitchen_has_something_to_eat_at_every_meal(folder: str) -> None:
    here = kitchen(folder)
    asked = {(slot.eater, slot.meal) for slot in here.household.slots()}
    for name, meal in asked:
        open_to = {
            dish.id
            for dish, variant in every_variant(here)
            if (not dish.meals or meal in dish.meals)
            and barred(eater(here, name), dish, variant, here.foods) is None
        }
        assert len(open_to) >= 2, f"{folder}: {name} at {meal}"


@pytest.mark.parametrize("folder", FOLDERS)
def test_what_a_dish_takes_is_on_hand_or_for_sale(folder: str) -> None:
    here = kitchen(folder)
    sold = {offer.food for offer in here.prices.offers}
    held: Counter[str] = Counter()
    for lot in here.ledger.lots:
        held[lot.item] += lot.quantity
    for dish, variant in every_variant(here):
        least: defaultdict[str, Fraction] = defaultdict(Fraction)
        for one in variant.ingredients:
            least[one.food] += one.bought * dish.least / dish.portions
        lacking = [food for food, need in least.items() if food not in sold and need > held[food]]
        assert lacking == [], f"{folder}: {dish.name}, {variant.name}"


@pytest.mark.parametrize("folder", FOLDERS)
def test_hands_on_minutes_of_a_dish_are_those_of_its_steps(folder: str) -> None:
    for dish in kitchen(folder).dishes:
        told = dish.fixed_min + dish.per_portion_min * dish.portions
        always = [step.hands_on_min for step in dish.steps if not step.swaps]
        assert told == sum(always, Fraction(0)), dish.name
        assert all(("hands" in step.needs) == (step.hands_on_min > 0) for step in dish.steps), dish.name


def test_hands_on_minutes_of_a_swap_are_those_of_the_steps_that_are_for_it() -> None:
    found = 0
    for folder in FOLDERS:
        for dish in kitchen(folder).dishes:
            for part in dish.parts:
                for swap in part.swaps:
                    steps = [step for step in dish.steps if (part.name, swap.name) in step.swaps]
                    found += len(steps)
                    told = swap.fixed_min + swap.per_portion_min * dish.portions
                    taken = sum((step.hands_on_min for step in steps), Fraction(0))
                    assert not steps or told == taken, f"{dish.name}: {swap.name}"
    assert found >= 25


def test_the_steps_of_the_demo_say_all_that_a_cooking_day_asks() -> None:
    steps = [step for dish in kitchen().dishes for step in dish.steps]
    needs = [read_needs(step.needs) for step in steps]
    heats = {need.oven.heat_c for need in needs if need.oven is not None}
    assert heats == {177, 191, 204, 218}  # 350, 375, 400 and 425 °F
    assert {board for need in needs for board in need.boards} == {"", "raw meat", "raw poultry", "raw fish"}
    assert {what for step in steps for what in step.takes} == {step.leaves for step in steps if step.leaves}
    assert sum(step.day_before for step in steps) == 3
    shared = Counter(step.prep for step in steps if step.prep)
    assert shared["chopped onion and garlic"] == 5
    assert min(shared.values()) >= 2


@pytest.mark.parametrize("folder", FOLDERS)
def test_every_version_of_every_dish_can_be_put_on_a_timetable(folder: str) -> None:
    here = kitchen(folder)
    for dish, variant in every_variant(here):
        for portions in (dish.least, dish.greatest):
            batch = BatchToCook(dish, variant, portions, portions)
            posed = pose_day([batch], here.household.equipment, here.foods)
            assert [str(fault) for fault in posed.faults] == [], variant.name
            assert posed.question is not None


def test_the_demo_has_enough_dishes_for_each_meal() -> None:
    dishes = kitchen().dishes
    assert len(dishes) >= 24
    for meal, least in zip(MEALS, (6, 10, 10), strict=True):
        assert sum(meal in dish.meals for dish in dishes) >= least, meal
    assert all(dish.meals for dish in dishes)


def test_most_dishes_of_the_demo_have_a_real_swap_and_proper_parts() -> None:
    swapped = 0
    for dish in kitchen().dishes:
        assert len(dish.parts) >= 2, dish.name
        assert {Role.STARCH, Role.PROTEIN} & {part.role for part in dish.parts}, dish.name
        ways = [{frozenset(i.food for i in swap.ingredients) for swap in part.swaps} for part in dish.parts]
        swapped += any(len(foods) >= 2 for foods in ways)
    assert swapped >= 14


def test_some_dishes_of_the_demo_suit_wanda_only_when_swapped() -> None:
    here = kitchen()
    wanda = eater(here, "Wanda")
    both = 0
    for dish in here.dishes:
        may = {barred(wanda, dish, variant, here.foods) is None for variant in dish.variants()}
        both += may == {True, False}
    assert both >= 12


def test_wanda_is_never_offered_meat_or_fish() -> None:
    here = kitchen()
    wanda = eater(here, "Wanda")
    with_flesh = 0
    for dish, variant in every_variant(here):
        foods = [here.foods.get(one.food) for one in variant.ingredients]
        words = ("tuna", "fish", "chicken", "sausage", "bacon", "ham,", "beef", "pork", "turkey", "lard")
        named = [
            food.name
            for food in foods
            if food.id != "plant-sausage"
            and (food.aisle in FLESH or any(word in f"{food.name}," for word in words))
        ]
        if named:
            with_flesh += 1
            assert barred(wanda, dish, variant, here.foods) is not None, f"{dish.name}: {named}"
    assert with_flesh >= 20


def test_the_demo_has_stock_of_which_some_is_near_its_date() -> None:
    here = kitchen()
    lots = [lot for lot in here.ledger.lots if lot.unit is not LotUnit.PORTION]
    assert len(lots) >= 40
    first = here.household.start
    last = first + timedelta(days=here.household.days - 1)
    near = [lot for lot in lots if lot.use_by is not None and first <= lot.use_by <= last]
    assert len(near) >= 8
    assert {lot.spot.value for lot in lots} == {"cupboard", "fridge", "freezer"}
    assert sum(lot.opened_on is not None for lot in lots) >= 15
    taken = {one.food for _, variant in every_variant(here) for one in variant.ingredients}
    assert [lot.id for lot in near if lot.item not in taken] == []


def test_the_demo_has_two_shops_of_which_the_near_one_is_dearer() -> None:
    here = kitchen()
    offers = here.prices.offers
    assert len(offers) >= 120
    near, far = sorted(here.household.shops, key=lambda shop: shop.trip_cents)
    assert Counter(offer.shop for offer in offers).keys() == {near.name, far.name}
    assert near.trip_cents < far.trip_cents
    best: dict[tuple[str, str], Fraction] = {}
    for offer in offers:
        unit = Fraction(offer.price_cents, offer.quantity)
        best[offer.shop, offer.food] = min(unit, best.get((offer.shop, offer.food), unit))
    shared = [food for shop, food in best if shop == near.name and (far.name, food) in best]
    dearer = sum(best[near.name, food] > best[far.name, food] for food in shared)
    assert len(shared) >= 40
    assert dearer >= 0.9 * len(shared)


def test_a_few_bigger_packages_of_the_demo_are_dearer_by_the_unit_but_most_are_not() -> None:
    packages: defaultdict[tuple[str, str], list[tuple[int, int]]] = defaultdict(list)
    for offer in kitchen().prices.offers:
        packages[offer.shop, offer.food].append((offer.quantity, offer.price_cents))
    traps = bargains = 0
    for sizes in packages.values():
        sizes.sort()
        for (small, cents), (large, dear) in pairwise(sizes):
            traps += dear * small > cents * large
            bargains += dear * small < cents * large
    assert 3 <= traps < bargains


def test_the_demo_has_foods_of_its_own_one_from_a_label_and_days_of_its_own() -> None:
    here = kitchen()
    assert {food.food.id for food in here.own_foods if food.food.id not in food_table()} == set(OWN_FOODS)
    bases = {food: here.foods.nutrient(food, "protein_g").basis for food in OWN_FOODS}
    assert set(bases.values()) == {"own", "label"}
    assert bases["oat-drink"] == "label"
    assert here.keep_days["spinach"] == 4
    assert here.keep_days["oat-drink"] is None
    assert here.foods.nutrient("oat-drink", "energy_kcal").value == Fraction(50)


@pytest.mark.parametrize("folder", FOLDERS)
def test_the_allergens_of_every_variant_are_on_record(folder: str) -> None:
    here = kitchen(folder)
    for dish, variant in every_variant(here):
        known = allergens_of(variant.ingredients, here.foods)
        assert known.unknown == (), f"{dish.name}, {variant.name}"


def test_allergens_of_the_demo_are_those_that_a_cook_sees_in_it() -> None:
    here = kitchen()
    seen = {
        (dish.id, variant.name): set(allergens_of(variant.ingredients, here.foods).names)
        for dish, variant in every_variant(here)
    }
    assert seen["apple-oat-bake", "oat drink, without"] == {"egg"}
    assert seen["apple-oat-bake", "whole milk, walnuts"] == {"egg", "milk", "tree nuts"}
    assert seen["butter-beans-in-tomato-with-olives", "pollock"] == {"fish", "wheat"}
    assert seen["two-bean-tomato-pot-with-rice", "without"] == set()
    assert seen["peanut-noodles-with-cabbage", "tofu"] == {"peanut", "soybean", "wheat"}


@pytest.mark.parametrize("folder", FOLDERS)
def test_a_portion_weighs_what_a_meal_weighs(folder: str) -> None:
    here = kitchen(folder)
    for dish, variant in every_variant(here):
        where = f"{dish.name}, {variant.name}"
        least = 150 if folder == "demo" else 130
        assert least <= bought_g(here, dish, variant) <= 900, where
        edible = edible_g(here, dish, variant)
        assert 200 <= edible <= 680, where


@pytest.mark.parametrize("folder", FOLDERS)
def test_no_portion_is_absurdly_salty(folder: str) -> None:
    here = kitchen(folder)
    for dish, variant in every_variant(here):
        sodium = salt(dish, variant, here.foods).sodium_mg_per_portion
        assert 0 < sodium <= SEASONED_LIMIT_MG, f"{dish.name}, {variant.name}"


@pytest.mark.parametrize("folder", FOLDERS)
def test_a_main_meal_feeds_someone(folder: str) -> None:
    here = kitchen(folder)
    for dish, variant in every_variant(here):
        energy = sum(
            here.foods.nutrient(one.food, "energy_kcal").value * one.edible_mg / 100_000
            for one in variant.ingredients
            if one.edible_mg is not None
        )
        assert 230 <= energy / dish.portions <= 800, f"{dish.name}, {variant.name}"


def test_a_dish_with_cured_meat_is_frozen_no_longer_than_the_meat_by_the_published_chart() -> None:
    checked = 0
    for folder in FOLDERS:
        here = kitchen(folder)
        for dish, variant in every_variant(here):
            for food in ("bacon", "smoked-sausage", "ham", "ham-sliced"):
                if dish.freezer_days is None or food not in {one.food for one in variant.ingredients}:
                    continue
                days = [k.most_days for k in here.foods.keepings(food) if k.place == "freezer"]
                assert dish.freezer_days <= max(days), f"{dish.name}: {food}"
                checked += 1
    assert checked >= 4


def test_whole_eggs_roast_potatoes_and_dressed_salads_of_the_demo_are_not_frozen() -> None:
    dishes = {dish.id: dish for dish in kitchen().dishes}
    for name in (
        "savoury-oat-porridge-with-greens",
        "macaroni-and-green-bean-salad",
        "sausages-with-potatoes-and-cabbage-from-the-sheet",
        "chickpea-pepper-and-couscous-box",
        "potato-leek-and-white-bean-soup",
    ):
        assert dishes[name].freezer_days is None, name
    freezing = [dish.freezer_days for dish in dishes.values() if dish.freezer_days is not None]
    assert len(freezing) >= 12
    assert max(freezing) <= 120


def test_the_demo_week_has_slots_left_out_and_two_cooking_days() -> None:
    house = kitchen().household
    assert house.start == date(2026, 12, 6)
    assert house.days == 7
    slots = house.slots()
    assert len(house.eaters) == 2
    assert 33 <= len(slots) < 42
    assert [house.date_of(day).weekday() for day, _ in house.session_minutes()] == [6, 2]
    assert all(150 <= minutes <= 180 for _, minutes in house.session_minutes())
    rules = house.rules
    assert rules.budget_cents is not None
    assert 5500 <= rules.budget_cents <= 7000
    assert rules.meal_out_cents == 900


def test_the_empty_fridge_is_empty_and_the_tight_budget_is_tight() -> None:
    assert kitchen("empty-fridge").ledger.lots == ()
    tight = kitchen("tight-budget")
    rules = tight.household.rules
    assert rules.budget_cents is not None
    assert rules.budget_cents < 30 * len(tight.household.slots())
    assert rules.meal_out_cents is not None


def test_pieces_of_the_demo_are_bought_whole() -> None:
    here = kitchen()
    pieces = {food.id for food in here.foods if food.measured_in is Measure.PIECES}
    assert {"egg", "flatbread", "plant-sausage", "vegetable-stock-cube"} <= pieces
    for offer in here.prices.offers:
        assert (offer.unit is LotUnit.PIECE) == (offer.food in pieces), offer


def test_a_food_without_a_figure_still_raises_in_the_demo() -> None:
    with pytest.raises(MissingFact):
        kitchen().foods.piece("seed-mix")
