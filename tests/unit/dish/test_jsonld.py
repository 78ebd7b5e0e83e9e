from __future__ import annotations

import json

import pytest

from ladleworth.dish.jsonld import Imported, read_jsonld
from ladleworth.dish.unread import Unread, read_portions

STEW: dict[str, object] = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Lentil &amp; carrot stew",
    "recipeYield": "4 servings",
    "recipeIngredient": ["250 g lentils", " 2 carrots,\n chopped "],
    "recipeInstructions": [
        {"@type": "HowToStep", "text": "Chop <b>the</b> carrots."},
        {"@type": "HowToStep", "text": "Simmer."},
    ],
    "prepTime": "PT15M",
    "cookTime": "PT1H",
    "totalTime": "PT1H15M",
    "image": "a.jpg",
    "author": {"@type": "Person", "name": "Ada"},
}


def one(recipe: object) -> Imported:
    recipes, unread = read_jsonld(recipe if isinstance(recipe, str) else json.dumps(recipe))
    assert unread == ()
    (imported,) = recipes
    return imported


def names(unread: tuple[Unread, ...]) -> list[str]:
    return [one.name for one in unread]


def test_a_recipe_becomes_a_dish_as_written_with_times_beside_it() -> None:
    read = one(STEW)
    assert read.dish is not None
    assert read.dish.name == "Lentil & carrot stew"
    assert read.dish.portions == 4
    assert read.dish.parts[0].lines == ("250 g lentils", "2 carrots, chopped")
    assert [step.text for step in read.dish.steps] == ["Chop the carrots.", "Simmer."]
    assert (read.prep_min, read.cook_min, read.total_min) == (15, 60, 75)


def test_hands_on_minutes_are_not_taken_from_the_preparation_time() -> None:
    read = one(STEW)
    assert read.dish is not None
    assert read.dish.hands_on is None
    assert names(read.unread) == ["hands_on"]
    assert "how much of it is hands-on" in str(read.unread[0])


def test_what_has_no_place_here_is_named() -> None:
    assert one(STEW).not_kept == ("image", "author")


def test_a_page_with_a_graph_is_searched_through_and_other_scripts_are_passed_over() -> None:
    graph = {"@context": "https://schema.org", "@graph": [{"@type": "WebPage", "mainEntity": [STEW]}]}
    page = (
        "<!DOCTYPE html><html><head><script>var a = '<b>';</script>"
        f'<SCRIPT TYPE="application/ld+json; charset=utf-8">\n{json.dumps(graph)}\n</SCRIPT></head>'
        '<body><p>3 < 4 & more</p><script type="application/ld+json">{"@type": "Person"}</script></body></html>'
    )
    assert one(page) == one(STEW)


def test_several_recipes_come_in_their_order_and_types_may_be_lists_or_full_names() -> None:
    second = {**STEW, "name": "Second", "@type": ["Thing", "http://schema.org/Recipe"]}
    recipes, unread = read_jsonld(json.dumps([STEW, {"@type": "ItemList", "itemListElement": [second]}]))
    assert unread == ()
    assert [imported.dish.name for imported in recipes if imported.dish] == [
        "Lentil & carrot stew",
        "Second",
    ]


@pytest.mark.parametrize(
    ("instructions", "steps"),
    [
        ("Chop.\nBoil.\n\n Serve. ", ["Chop.", "Boil.", "Serve."]),
        ("<ol><li>Chop.</li><li>Boil it.</li></ol>", ["Chop.", "Boil it."]),
        (["Chop.", "Boil."], ["Chop.", "Boil."]),
        ({"@type": "HowToStep", "name": "Chop."}, ["Chop."]),
        ({"@type": "ItemList", "itemListElement": [{"@type": "HowToStep", "text": "Chop."}]}, ["Chop."]),
        (
            [
                {
                    "@type": "HowToSection",
                    "name": "Sauce:",
                    "itemListElement": [
                        {"@type": "HowToStep", "text": "Chop."},
                        {"@type": "HowToStep", "text": "Boil."},
                    ],
                },
                {"@type": "HowToStep", "text": "Serve."},
            ],
            ["Sauce: Chop.", "Boil.", "Serve."],
        ),
        (
            {
                "@type": "HowToStep",
                "itemListElement": [
                    {"@type": "HowToDirection", "text": "Chop."},
                    {"@type": "HowToDirection", "text": "Boil."},
                ],
            },
            ["Chop. Boil."],
        ),
        ({"@value": "Chop.", "@type": "HowToStep", "text": {"@value": "Chop it.", "@language": "en"}}, ["Chop it."]),
        (None, []),
    ],
)  # fmt: skip
def test_instructions_are_read_in_their_many_forms(instructions: object, steps: list[str]) -> None:
    read = one({**STEW, "recipeInstructions": instructions})
    assert read.dish is not None
    assert [step.text for step in read.dish.steps] == steps


def test_a_tip_and_a_step_without_text_are_named_and_not_made_steps() -> None:
    odd = [{"@type": "HowToTip", "text": "Use fresh ones."}, {"@type": "HowToStep"}, 7, {"text": "Boil."}]
    read = one({**STEW, "recipeInstructions": odd})
    assert read.dish is not None
    assert [step.text for step in read.dish.steps] == ["Boil."]
    assert names(read.unread)[:3] == [
        "recipeInstructions[1]",
        "recipeInstructions[2]",
        "recipeInstructions[3]",
    ]


@pytest.mark.parametrize(
    ("given", "portions"),
    [
        (4, 4),
        (4.0, 4),
        ("4", 4),
        (["4", "4 servings"], 4),
        ({"@type": "QuantitativeValue", "value": 8, "unitText": "containers"}, 8),
        ({"@type": "QuantitativeValue", "value": "6"}, 6),
    ],
)
def test_portions_are_read_in_the_many_forms_of_a_yield(given: object, portions: int) -> None:
    read = one({**STEW, "recipeYield": given})
    assert read.dish is not None
    assert read.dish.portions == portions


@pytest.mark.parametrize(
    "given", ["4-6 servings", "24 cookies", "1 loaf", True, ["4", "6"], {"minValue": 4}, 4.5]
)
def test_a_yield_that_is_not_one_number_of_portions_is_left_for_the_cook(given: object) -> None:
    read = one({**STEW, "recipeYield": given})
    assert read.dish is not None
    assert read.dish.portions is None
    assert names(read.unread).count("recipeYield") == 1
    assert "the dish" not in names(read.unread)


def test_a_recipe_that_does_not_say_how_many_portions_asks_once() -> None:
    read = one({key: value for key, value in STEW.items() if key != "recipeYield"})
    assert names(read.unread).count("recipeYield") == 1


@pytest.mark.parametrize(
    ("text", "portions"),
    [
        ("Serves 4", 4),
        ("serves: 4", 4),
        ("four servings", 4),
        ("12 servings (24 cookies)", 12),
        ("Makes 6 large portions", 6),
        ("For 2 people", 2),
        ("about 5", None),
        ("1 1/2 servings", None),
        ("2.5 servings", None),
        ("0 servings", None),
        ("serves 4 to 6", None),
        ("serves 4 or five", None),
        ("6 servings or 4 meals", None),
        ("2 quarts", None),
        ("", None),
    ],
)
def test_a_text_states_portions_only_if_it_names_one_number_of_them(text: str, portions: int | None) -> None:
    assert read_portions(text) == portions


@pytest.mark.parametrize(
    ("key", "given"),
    [("prepTime", "20-30 minutes"), ("cookTime", {"@type": "Duration"}), ("totalTime", "PT40S"), ("prepTime", 20)],
)  # fmt: skip
def test_a_time_that_cannot_be_read_is_named_and_absent(key: str, given: object) -> None:
    read = one({**STEW, key: given})
    assert key in names(read.unread)
    assert getattr(read, key.replace("Time", "_min")) is None


def test_a_total_time_below_its_parts_is_named() -> None:
    assert "totalTime" in names(one({**STEW, "totalTime": "PT30M"}).unread)


def test_an_ingredient_that_is_no_text_is_named_and_older_markup_is_read() -> None:
    old = {key: value for key, value in STEW.items() if key != "recipeIngredient"}
    read = one({**old, "ingredients": ["1 onion", 3, {"amount": 2}, ""]})
    assert read.dish is not None
    assert read.dish.parts[0].lines == ("1 onion",)
    assert [name for name in names(read.unread) if name.startswith("ingredients")] == [
        "ingredients[2]",
        "ingredients[3]",
        "ingredients[4]",
    ]
    joined = one({**old, "ingredients": "1 onion\n2 carrots"})
    assert joined.dish is not None
    assert joined.dish.parts[0].lines == ("1 onion", "2 carrots")


@pytest.mark.parametrize("lacking", ["name", "recipeIngredient"])
def test_without_a_name_or_an_ingredient_there_is_no_dish_but_a_reason(lacking: str) -> None:
    read = one({key: value for key, value in STEW.items() if key != lacking})
    assert read.dish is None
    assert len(read.unread) >= 2


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("{", "no JSON"),
        ('<script type="application/ld+json">{"@type": }</script>', "no JSON"),
        ("[" * 100_000, "no JSON"),
        ("", "no schema.org Recipe"),
        ("just words", "no schema.org Recipe"),
        ('{"@type": "Person"}', "no schema.org Recipe"),
        ("<![foo[bar]]>", "no HTML"),
    ],
)
def test_a_text_without_a_recipe_says_why(text: str, why: str) -> None:
    recipes, unread = read_jsonld(text)
    assert recipes == ()
    assert [why in one.why for one in unread] == [True]


def test_a_broken_script_does_not_hide_the_recipe_in_another() -> None:
    page = f'<script type="application/ld+json">{{</script><script type="application/ld+json">{json.dumps(STEW)}</script>'
    recipes, unread = read_jsonld(page)
    assert len(recipes) == 1
    assert names(unread) == ["script 1"]


def test_recipes_nested_too_deep_do_no_harm() -> None:
    deep: object = STEW
    for _ in range(200):
        deep = [deep]
    recipes, unread = read_jsonld(json.dumps(deep))
    assert recipes == ()
    assert len(unread) == 1
