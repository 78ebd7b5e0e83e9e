from __future__ import annotations

import pytest

from ladleworth.dish.dish import Role
from ladleworth.dish.plain_text import read_plain_text
from ladleworth.dish.unread import Unread
from ladleworth.dish.written import HandsOn, WrittenDish, WrittenStep

FULL = """\
# Bean chili

Serves 6
Freezes: 60 days
Keeps: 3 days
Least: 4
Greatest: 10
Hands-on: 20 min
Yield: 2.4 kg

Ingredients:
Stew (protein):
1 lb dried kidney beans

- 1 large onion, chopped
For the rice (starch):
* 3 cups rice

Method
1. Soak the beans overnight. (unattended 8 h)
2) Chop the onion
   with care. (hands-on 5 min; needs hands, board)
3. Serve (with a smile).
"""


def read(text: str) -> tuple[WrittenDish, tuple[Unread, ...]]:
    dish, unread = read_plain_text(text)
    assert dish is not None
    return dish, unread


def test_the_whole_grammar_is_read() -> None:
    dish, unread = read(FULL)
    assert unread == ()
    assert (dish.name, dish.portions, dish.least, dish.greatest) == ("Bean chili", 6, 4, 10)
    assert (dish.freezer_days, dish.keep_days, dish.measured_yield) == (60, 3, "2.4 kg")
    assert dish.hands_on == HandsOn(fixed="20 min")
    stew, rice = dish.parts
    assert (stew.name, stew.role) == ("Stew", Role.PROTEIN)
    assert stew.lines == ("1 lb dried kidney beans", "1 large onion, chopped")
    assert (rice.name, rice.role, rice.lines) == ("rice", Role.STARCH, ("3 cups rice",))
    assert dish.steps == (
        WrittenStep("Soak the beans overnight.", unattended="8 h"),
        WrittenStep("Chop the onion with care.", hands_on="5 min", needs=("hands", "board")),
        WrittenStep("Serve (with a smile)."),
    )


def test_headings_may_be_left_out_where_blank_lines_part_the_blocks() -> None:
    dish, unread = read("Toast\nServes 2\n\n4 slices bread\nbutter, to taste\n\nToast it.\nButter it.\n")
    assert unread == ()
    (part,) = dish.parts
    assert part.name == ""
    assert part.lines == ("4 slices bread", "butter, to taste")
    assert [step.text for step in dish.steps] == ["Toast it.", "Butter it."]


def test_ingredients_before_the_first_part_heading_are_the_main_part() -> None:
    dish, _ = read("Pie\nServes 2\n\nIngredients\n1 onion\nSauce:\n1 cup milk\n")
    assert [(part.name, part.lines) for part in dish.parts] == [
        ("main", ("1 onion",)),
        ("Sauce", ("1 cup milk",)),
    ]


def test_what_is_left_out_stays_absent() -> None:
    dish, _ = read("Toast\nServes 2\n\nIngredients\n4 slices bread\n")
    assert dish.hands_on is None
    assert dish.freezer_days is None
    assert dish.keep_days is None
    assert dish.steps == ()


def test_a_line_before_the_ingredients_that_is_none_of_them_is_named() -> None:
    _, unread = read("Toast\nMy gran's.\nServes 2\n\nIngredients\n4 slices bread\n")
    assert [(one.name, one.text) for one in unread] == [("line 2", "My gran's.")]


@pytest.mark.parametrize("line", ["Serves 4-6", "Makes 24 cookies", "Yields 2 quarts"])
def test_portions_that_are_not_one_number_are_named_once_and_absent(line: str) -> None:
    dish, unread = read(f"Toast\n{line}\n\nIngredients\n4 slices bread\n")
    assert dish.portions is None
    assert [(one.name, one.text) for one in unread] == [("portions", line)]


def test_a_recipe_that_does_not_say_its_portions_is_told_so() -> None:
    dish, unread = read("Toast\n\nIngredients\n4 slices bread\n")
    assert dish.portions is None
    assert [one.why for one in unread] == [
        "lines are written but not for how many portions; write portions: N beside them"
    ]


def test_what_cannot_be_read_is_named_where_it_stands() -> None:
    dish, unread = read(
        "Toast\nServes 2\nServes 3\nKeeps: long\nFreezes: no\nYield: a lot\n\nIngredients\nBread (strach):\n"
        "4 slices bread\n\nSteps\n1. Toast. (hands-on soon)\n2. Eat. (needs plate, plate)\n"
    )
    assert [(one.name, one.text) for one in unread] == [
        ("line 3", "Serves 3"),
        ("line 4", "keeps: long"),
        ("line 9", "strach"),
        ("step 1", "soon"),
        ("steps[2].needs[2]", ""),
        ("yield", ""),
    ]
    assert dish.portions == 2
    assert dish.freezer_days is None
    assert dish.steps[0] == WrittenStep("Toast.")


@pytest.mark.parametrize("text", ["", "\n\n", "Only a title", "Title\nServes 2\n\nSteps\n1. Stir."])
def test_without_a_title_or_an_ingredient_there_is_no_dish_but_a_reason(text: str) -> None:
    dish, unread = read_plain_text(text)
    assert dish is None
    assert unread != ()


def test_usual_times_before_the_ingredients_are_kept_out_of_the_dish_with_what_to_write() -> None:
    dish, unread = read(
        "Toast\nServes: 4\nPrep time: 20 min\nCook Time: 1 hour\nTotal time 1 h 20 min\n\nIngredients\n4 slices bread\n"
    )
    assert dish.portions == 4
    assert dish.hands_on is None
    assert [(one.name, one.text) for one in unread] == [("prep time", "20 min")]
    assert "does not say how much of it is hands-on; write 'Hands-on: 20 min'" in unread[0].why


def test_active_time_is_hands_on_time() -> None:
    dish, unread = read(
        "Toast\nServes 4\nActive time: 15 min\nPrep time: 20 min\n\nIngredients\n4 slices bread\n"
    )
    assert dish.hands_on == HandsOn(fixed="15 min")
    assert unread == ()


def test_a_time_that_cannot_be_read_is_named() -> None:
    _, unread = read("Toast\nServes 4\nCook time: a while\n\nIngredients\n4 slices bread\n")
    assert [(one.name, one.text) for one in unread] == [("cook time", "a while")]
    assert "write" in unread[0].why


def test_times_that_contradict_each_other_are_named() -> None:
    _, unread = read(
        "Toast\nServes 4\nHands-on: 5 min\nPrep time: 20 min\nCook time: 30 min\nTotal time: 40 min\n\n"
        "Ingredients\n4 slices bread\n"
    )
    assert [(one.name, one.text) for one in unread] == [("total time", "40 min")]
    assert "less than prep time and cook time, 50 min" in unread[0].why


@pytest.mark.parametrize(
    ("line", "portions", "weight"),
    [
        ("Serves: 4", 4, ""),
        ("Yield: 4 servings", 4, ""),
        ("Yield: 6", 6, ""),
        ("Makes: 8 portions", 8, ""),
        ("Servings: 4", 4, ""),
        ("Yield: 2.4 kg", None, "2.4 kg"),
    ],
)
def test_a_yield_is_portions_or_a_weight_as_it_says(line: str, portions: int | None, weight: str) -> None:
    dish, _ = read(f"Toast\n{line}\n\nIngredients\n4 slices bread\n")
    assert (dish.portions, dish.measured_yield) == (portions, weight)


def test_a_line_that_is_not_known_is_not_answered_with_a_heading_that_is_there() -> None:
    _, unread = read("Toast\nCuisine: plain\nServes 2\n\nIngredients\n4 slices bread\n")
    (one,) = unread
    assert one.text == "Cuisine: plain"
    assert "write 'Ingredients'" not in one.why
    assert "leave it out" in one.why
