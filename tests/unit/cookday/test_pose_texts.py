"""What a cook reads: amounts, the list of what to cut, the day before's work."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.cookday.small_dishes import CHOP, SIMMER, batch, dish, posed

from ladleworth.cookday.pose_amounts import counted_words, imperative, listed

PARTS = [
    {
        "part": "pot",
        "lines": [
            "3 cloves garlic, chopped",
            "2 onions, chopped",
            "1 (15 oz) can black beans",
            "250 g dried kidney beans",
        ],
        "swaps": [{"swap": "bacon", "lines": ["100 g bacon, diced"]}, {"swap": "without", "lines": []}],
    },
    {"part": "rice", "per_portion": {"rice": "60 g", "egg": "1"}},
    {"part": "bread", "lines": ["salt to taste", "1/4 cup water"]},
]
STEPS = [
    {"do": "Soak the beans overnight.", "part": "pot", "unattended": "8 h", "day_before": "yes"},
    {**CHOP, "part": "pot"},
    {"do": "Fry the bacon.", "part": "pot", "swap": "bacon", "hands_on": "3", "needs": "burner"},
    {**SIMMER, "part": "rice"},
    {"do": "Mix.", "hands_on": "1"},
]


def said(steps: list[dict[str, object]], portions: int = 4) -> dict[str, list[str]]:
    day = posed(batch(dish("Stew", steps, parts=PARTS), portions))
    return {one.activity: [each.words for each in one.ingredients] for one in day.instructions}


def test_ingredients_stand_at_the_first_step_of_their_part_scaled() -> None:
    assert said(STEPS, portions=2) == {
        "Stew: 2": [
            "4.5 g garlic, chopped (1 1/2 cloves)",
            "110 g onions, chopped (1)",
            "215 g black beans (1/2 can)",
            "125 g dried kidney beans",
        ],
        "Stew: 3": ["50 g bacon, diced"],
        "Stew: 4": ["120 g rice", "2 eggs"],
        "Stew: 5": ["salt to taste", "30 g water"],
    }


def test_a_part_without_steps_stands_at_the_first_step_where_every_step_has_a_part() -> None:
    assert list(said(STEPS[:-1])) == ["Stew: 2", "Stew: 3", "Stew: 4"]
    assert said(STEPS[:-1])["Stew: 2"][-2:] == ["salt to taste", "59 g water"]


def test_amounts_are_kept_exact_and_rounded_only_in_words() -> None:
    day = posed(batch(dish("Stew", STEPS, parts=PARTS), portions=3))
    onions = day.instructions[0].ingredients[1]
    # Two medium onions of 110 g edible part (usda-sr26, read), three quarters of them.
    assert (onions.food, onions.edible_mg, onions.count) == ("onion", Fraction(165_000), Fraction(3, 2))
    assert onions.bought == onions.edible_mg / Fraction("0.9")
    assert onions.words == "165 g onions, chopped (1 1/2)"


def test_the_same_cut_of_a_food_is_one_line_for_all_dishes() -> None:
    stew = batch(dish("Stew", STEPS, parts=PARTS))
    curry = batch(
        dish("Curry", [SIMMER], lines=["1 large onion, chopped", "2 lb potatoes, cut into wedges"]),
        portions=8,
    )
    day = posed(
        stew, curry, batch(dish("Soup", [SIMMER], lines=["300 g onions, chopped", "1 carrot, sliced"]))
    )
    assert [line.words for line in day.prep_list] == [
        "chop 3 cloves of garlic: 9 g, for Stew",
        # 2 x 110 g + 2 x 150 g (usda-sr26, read) + 300 g as bought x 0.9 edible
        "chop onions: 790 g, for Stew, Curry and Soup",
        "dice bacon: 100 g, for Stew",
        "cut potatoes into wedges: 1.45 kg, for Curry",  # 1814 g x 0.81 (afrs-a6, worked)
        "slice 1 carrot: 61 g, for Soup",
    ]
    onions = day.prep_list[1]
    assert (onions.edible_mg, onions.count, onions.batches) == (790_000, None, ("Stew", "Curry", "Soup"))


def test_counts_add_up_where_every_recipe_counts() -> None:
    stew = batch(dish("Stew", STEPS, parts=PARTS))
    curry = batch(dish("Curry", [SIMMER], lines=["1 large onion, chopped"]))
    onions = posed(stew, curry).prep_list[1]
    assert (onions.count, onions.words) == (3, "chop 3 onions: 370 g, for Stew and Curry")


@pytest.mark.parametrize(
    ("done", "said"),
    [
        (("chopped",), "chop it"),
        (("chopped fine",), "chop it fine"),
        (("finely chopped",), "finely chop it"),
        (("drained and rinsed",), "drain and rinse it"),
        (("cut into wedges",), "cut it into wedges"),
        (("halved", "sliced thin"), "halve and slice it thin"),
        (("hard-boiled",), "it, hard-boiled"),
        ((), "it"),
    ],
)
def test_what_is_done_is_said_as_what_to_do(done: tuple[str, ...], said: str) -> None:
    assert imperative(done, "it") == said


def test_counts_and_lists_in_words() -> None:
    assert [
        counted_words(Fraction(n), piece) for n, piece in ((3, ""), (1, "clove"), (2, "bunch"), (2, "can"))
    ] == [
        "3",
        "1 clove",
        "2 bunches",
        "2 cans",
    ]
    assert [listed(names) for names in (("a",), ("a", "b"), ("a", "b", "c"))] == [
        "a",
        "a and b",
        "a, b and c",
    ]


def test_the_day_before_says_when_to_begin_and_with_how_much() -> None:
    thaw = {"do": "Thaw the spinach in the fridge.", "unattended": "24 h", "day_before": "yes"}
    bake = dish("Bake", [thaw, SIMMER], lines=["10 oz frozen spinach", "400 g rice"])
    soak, *others = posed(batch(bake), batch(dish("Stew", STEPS, parts=PARTS), portions=2)).day_before[::-1]
    # The canned beans need no soaking: they are left out though the words would fit.
    assert [one.words for one in soak.ingredients] == ["125 g dried kidney beans"]
    assert (soak.batch, soak.lead_min, soak.when) == ("Stew", 480, "begin at least 8 h before the cooking")
    assert [(one.batch, one.lead_min, [each.words for each in one.ingredients]) for one in others] == [
        ("Bake", 1440, ["280 g frozen spinach"])
    ]
