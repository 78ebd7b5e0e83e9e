from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap
from ladleworth.errors import BadField
from ladleworth.facts import Food, FoodTable, Measure, OwnFood, food_table
from ladleworth.household import (
    HEADSPACE_SHARE,
    HEADSPACE_SOURCE,
    NO_AISLE,
    Avoid,
    Container,
    Days,
    Eater,
    Equipment,
    Exclusion,
    Goal,
    Household,
    Meals,
    Rules,
    Session,
    Slot,
    Wishes,
    barred,
)
from ladleworth.units import currency

SUNDAY = date(2026, 12, 6)


def household(*meals: Meals, sessions: tuple[Session, ...] = ()) -> Household:
    eaters = (Eater("Ada"), Eater("Ben"))
    return Household("Test", currency("USD"), SUNDAY, 3, eaters, meals, sessions)


def dish(*foods: str, swaps: tuple[str, ...] = (), never: tuple[str, ...] = ()) -> Dish:
    made = tuple(Ingredient(food, Fraction(1)) for food in foods)
    ways = tuple(Swap(food, (Ingredient(food, Fraction(1)),)) for food in swaps)
    return Dish("stew", "Stew", 1, (Part("all", Role.WHOLE, made, ways),), never=never)


def own(food_id: str, aisle: str = "tins") -> FoodTable:
    return food_table().with_own([OwnFood(Food(food_id, food_id, (), aisle, Measure.MASS, own=True))])


def why(exclusion: Exclusion, made: Dish, foods: FoodTable | None = None) -> str | None:
    return barred(Eater("Ada", (exclusion,)), made, made.variants()[0], foods or food_table())


@pytest.mark.parametrize(
    ("days", "within"),
    [
        (Days(), (1, 2, 3)),
        (Days(numbers=(2, 9)), (2,)),
        (Days(weekdays=(6,)), (1,)),
        (Days(dates=(date(2026, 12, 8), date(2026, 12, 9))), (3,)),
        (Days(numbers=(1,), weekdays=(6,), dates=(SUNDAY,)), (1,)),
    ],
)
def test_days_count_from_the_first_day_of_the_plan(days: Days, within: tuple[int, ...]) -> None:
    assert days.within(SUNDAY, 3) == within


def test_slots_are_listed_once_each_by_day() -> None:
    home = household(
        Meals(("lunch", "dinner"), days=Days((2, 1))), Meals(("dinner",), ("Ben",), Days((2, 3)))
    )
    assert home.slots() == (
        Slot(1, "Ada", "lunch"),
        Slot(1, "Ben", "lunch"),
        Slot(1, "Ada", "dinner"),
        Slot(1, "Ben", "dinner"),
        Slot(2, "Ada", "lunch"),
        Slot(2, "Ben", "lunch"),
        Slot(2, "Ben", "dinner"),
        Slot(2, "Ada", "dinner"),
        Slot(3, "Ben", "dinner"),
    )


def test_sessions_are_listed_by_day_within_the_plan() -> None:
    home = household(sessions=(Session(Days((3, 7)), 60), Session(Days(weekdays=(6,)), 90)))
    assert home.session_minutes() == ((1, 90), (3, 60))


def test_a_household_has_days_and_eaters() -> None:
    with pytest.raises(BadField, match="days must be 1 or more"):
        Household("Test", currency("USD"), SUNDAY, 0, (Eater("Ada"),), (), ())
    with pytest.raises(BadField, match="at least one eater"):
        Household("Test", currency("USD"), SUNDAY, 1, (), (), ())


def test_days_and_dates_turn_into_one_another() -> None:
    home = household()
    assert home.date_of(3) == date(2026, 12, 8)
    assert home.day_of(date(2026, 12, 5)) == 0


def test_a_minute_costs_a_sixtieth_of_an_hour_exactly() -> None:
    assert Wishes(hour_cents=500).minute_cents == Fraction(25, 3)


def test_a_food_bars_the_dish_that_takes_it() -> None:
    exclusion = Exclusion(Avoid.FOOD, "onion")
    assert why(exclusion, dish("onion")) == "Ada never has food onion: onion is in it"
    assert why(exclusion, dish("egg")) is None


def test_an_allergen_bars_every_food_that_is_flagged_with_it() -> None:
    exclusion = Exclusion(Avoid.ALLERGEN, "egg")
    said = why(exclusion, dish("rice-white-long-grain", "egg"))
    assert said is not None
    assert said.startswith("Ada never has allergen egg: egg has it (")
    assert why(exclusion, dish("rice-white-long-grain")) is None
    assert why(Exclusion(Avoid.ALLERGEN, "milk"), dish("egg")) is None


def test_an_own_food_without_a_word_on_allergens_bars_whoever_avoids_one() -> None:
    foods = own("shop-beans")
    said = why(Exclusion(Avoid.ALLERGEN, "milk"), dish("shop-beans"), foods)
    assert said == "Ada never has allergen milk: the allergens of shop-beans are not on record"
    assert why(Exclusion(Avoid.FOOD, "egg"), dish("shop-beans"), foods) is None


def test_an_own_food_that_says_it_has_none_bars_nobody() -> None:
    food = Food("shop-beans", "shop-beans", (), "tins", Measure.MASS, own=True)
    foods = food_table().with_own([OwnFood(food, allergens=(), read_label=False)])
    assert why(Exclusion(Avoid.ALLERGEN, "milk"), dish("shop-beans"), foods) is None


def test_an_aisle_bars_its_foods_and_those_whose_aisle_is_not_on_record() -> None:
    exclusion = Exclusion(Avoid.AISLE, "dry-goods")
    assert why(exclusion, dish("lentils")) == "Ada never has aisle dry-goods: brown lentils is in it"
    assert why(exclusion, dish("egg")) is None
    assert why(exclusion, dish("beans-x"), own("beans-x")) is None
    said = why(exclusion, dish("beans-x"), own("beans-x", NO_AISLE))
    assert said == "Ada never has aisle dry-goods: the aisle of beans-x is not on record"


def test_a_dish_is_barred_by_name_and_by_its_own_list() -> None:
    assert why(Exclusion(Avoid.DISH, "stew"), dish("egg")) == "Ada never has dish stew: this is Stew"
    assert why(Exclusion(Avoid.DISH, "soup"), dish("egg")) is None
    made = dish("egg", never=("Ben",))
    assert barred(Eater("Ben"), made, made.variants()[0], food_table()) == "Stew is not for Ben"
    assert barred(Eater("Ada"), made, made.variants()[0], food_table()) is None


def test_only_the_swap_that_has_it_is_barred() -> None:
    made = dish("lentils", swaps=("egg", "onion"))
    eater = Eater("Ada", (Exclusion(Avoid.ALLERGEN, "egg"),))
    reasons = [barred(eater, made, variant, food_table()) for variant in made.variants()]
    assert [reason is None for reason in reasons] == [False, True]


def test_an_unmeasured_ingredient_bars_as_well() -> None:
    pinch = Ingredient("egg", Fraction(0), unmeasured=True)
    made = Dish("stew", "Stew", 1, (Part("all", Role.WHOLE, (pinch,)),))
    assert why(Exclusion(Avoid.FOOD, "egg"), made) is not None


def kitchen_with(equipment: Equipment) -> Household:
    return replace(household(), equipment=equipment)


def test_oven_and_burners_have_the_length_of_a_session_as_far_as_the_card_states_them() -> None:
    session = Session(Days(), 60, length_min=120)
    card = Equipment(burners=3, oven_shelves=2)
    assert kitchen_with(card).station_minutes(session) == {"oven": 120, "burner": 360}
    assert kitchen_with(Equipment(burners=0)).station_minutes(session) == {"burner": 0}
    assert kitchen_with(Equipment(oven_shelves=0)).station_minutes(session) == {"oven": 0}
    assert kitchen_with(card).station_minutes(Session(Days(), 60)) == {}


def test_cook_days_bring_the_session_of_each_day_in_order() -> None:
    late, early = Session(Days((3,)), 60, cents=250), Session(Days((1,)), 90)
    assert household(sessions=(late, early)).cook_days() == ((1, early), (3, late))


@pytest.mark.parametrize(
    ("container", "capacity"),
    [
        (Container(1000, 1), 900),
        (Container(999, 1), 899),
        # NCHFP headspace, liquid pack, wide opening: pint half an inch, quart one inch.
        (Container(473, 1, depth_mm=127), 425),  # a tenth of the depth
        (Container(946, 1, depth_mm=127), 756),  # a fifth of it
        (Container(474, 1, depth_mm=127), 379),  # above a pint the quart's counts
    ],
)
def test_a_container_holds_less_than_its_size_by_its_headspace(container: Container, capacity: int) -> None:
    assert container.capacity_ml(HEADSPACE_SHARE) == capacity


def test_the_source_of_the_headspace_is_on_the_list() -> None:
    assert "Headspace" in food_table().source(HEADSPACE_SOURCE).title


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(BadField, match="is 25 mm deep, no more than its headspace; write the depth inside"):
        Container(900, 1, depth_mm=25)
    with pytest.raises(BadField, match="0 containers of 0 ml"):
        Container(0, 0)
    with pytest.raises(BadField, match="write a share from 0% to below 100%"):
        Rules(headspace=Fraction(1))
    with pytest.raises(BadField, match="a batch is split among 0 versions"):
        Rules(splits=0)
    with pytest.raises(BadField, match="Ada: the appetite must be above 0"):
        Eater("Ada", appetite=Fraction(0))
    with pytest.raises(BadField, match="nutrient 'salt' is not known"):
        Goal("salt", most=Fraction(1))
    with pytest.raises(BadField, match="fat_g: the least 2 is above the most 1"):
        Goal("fat_g", Fraction(2), Fraction(1))


def test_rules_go_by_volume_only_where_sizes_or_room_are_set() -> None:
    assert not Rules(containers=3, freezing_load=2).by_volume
    assert Rules(container_sizes=(Container(500, 1),)).by_volume
    assert Rules(fridge_room_ml=0).by_volume
    assert Rules(freezer_room_ml=5).by_volume
