"""Dishes resolved with the food table itself: what its own names and weights make of a line."""

from __future__ import annotations

import pytest
from tests.unit.dish.test_resolve import dish_of, ready

from ladleworth.dish.resolve import resolve
from ladleworth.dish.written import WrittenDish
from ladleworth.errors import Finding, Weight
from ladleworth.facts import FoodTable, food_table
from ladleworth.units import OZ

TABLE = food_table()


@pytest.mark.parametrize(
    ("line", "food"),
    [
        ("5 oz sliced ham", "ham-sliced"),
        ("1 tbsp freshly grated Parmesan", "parmesan-grated"),
        ("1 tbsp toasted sesame oil", "oil-sesame"),
        ("2 cups chopped tomatoes", "tomato"),
        ("1 (14.5 oz) can diced tomatoes", "tomatoes-canned"),
        ("500 g sliced onion", "onion"),
        ("juice of 1 lemon", "lemon"),
        ("zest of 1 lemon", "lemon"),
        ("2 cups hot chicken stock", "broth-chicken"),
        ("2 cups hot vegetable stock", "broth-vegetable"),
    ],
)
def test_a_whole_written_name_is_looked_up_before_its_preparing_words_are_taken_off(
    line: str, food: str
) -> None:
    (ingredient,) = ready(dish_of(line), TABLE).parts[0].ingredients
    assert ingredient.food == food


def test_a_food_named_with_its_preparing_word_weighs_what_is_written() -> None:
    (ham,) = ready(dish_of("5 oz sliced ham"), TABLE).parts[0].ingredients
    assert ham.bought == 5 * OZ.in_base
    assert "as bought" in ham.working


def test_a_spoon_of_black_pepper_is_ground() -> None:
    (pepper,) = ready(dish_of("1/4 tsp black pepper"), TABLE).parts[0].ingredients
    assert "ground" in pepper.working
    assert "whole" not in pepper.working


def fault_of(written: WrittenDish, foods: FoodTable = TABLE) -> Finding:
    dish, findings = resolve(written, foods)
    assert dish is None
    (found,) = (f for f in findings if f.weight is Weight.FAULT)
    return found


def test_a_head_of_garlic_is_said_to_have_no_weight_on_record() -> None:
    for line in ("1 bulb garlic", "1 head of garlic"):
        found = fault_of(dish_of(line))
        assert "no weight of a head of garlic is on record" in found.what
        assert "write cloves or grams" in found.remedy


def test_a_bare_number_of_a_food_without_a_piece_weight_is_answered_with_that_number_and_a_unit() -> None:
    found = fault_of(dish_of(**{"olive oil": "8"}))
    assert "'8 g' or '8 ml'" in found.remedy
    assert "80 g" not in found.remedy


def test_a_name_like_none_of_the_table_is_answered_without_silly_names() -> None:
    found = fault_of(dish_of("1 tbsp harissa"))
    assert "no near name" in found.remedy
    assert "masa" not in found.remedy


def test_fillets_that_the_food_is_called_by_are_weighed_as_fillets() -> None:
    (pollock,) = ready(dish_of("4 pollock fillets"), TABLE).parts[0].ingredients
    assert pollock.bought == 4 * 77_000
    assert "fillet" in pollock.working


def test_a_word_for_an_allergen_is_told_to_be_no_one_food() -> None:
    remedy = fault_of(dish_of("100 g shellfish")).remedy
    assert remedy.startswith("'shellfish' may mean the allergen 'crustacean shellfish', not one food")
    assert "write the food itself" in remedy
