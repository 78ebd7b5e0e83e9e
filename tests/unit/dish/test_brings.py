"""What a part or a swap brings to the plate, from the page to the record, and which versions bring it."""

from __future__ import annotations

import pytest

from ladleworth.dish.dish import BRINGS, Dish, Part, Role, Swap
from ladleworth.dish.mapping import to_mapping
from ladleworth.dish.resolve import resolve
from ladleworth.dish.scale import scale
from ladleworth.dish.tree import Path, show_path
from ladleworth.dish.written import read_dish
from ladleworth.errors import BadField, Place, Weight
from ladleworth.facts import food_table

CURRY: dict[str, object] = {
    "dish": "Curry",
    "portions": "4",
    "parts": [
        {"part": "pot", "lines": ["400 g lentils", "400 g carrots"], "brings": ["colour"]},
        {
            "part": "top",
            "swaps": [
                {"swap": "salad", "lines": ["2 cucumbers"], "brings": ["fresh", "crunch"]},
                {"swap": "nuts", "lines": ["80 g peanuts"], "brings": ["crunch"]},
                {"swap": "without", "lines": []},
            ],
        },
    ],
}


def place(path: Path) -> Place:
    return Place("dishes.yaml", None, show_path(path))


def said(data: dict[str, object]) -> list[str]:
    return [str(finding) for finding in read_dish(data, place)[1]]


def made(data: dict[str, object]) -> Dish:
    written, findings = read_dish(data, place)
    assert findings == ()
    assert written is not None
    dish, _ = resolve(written, food_table())
    assert dish is not None
    return dish


def test_a_version_brings_what_its_parts_and_its_chosen_swaps_bring() -> None:
    ways = {way.name: way.brings for way in made(CURRY).variants()}
    assert ways == {
        "salad": ("colour", "crunch", "fresh"),
        "nuts": ("colour", "crunch"),
        "without": ("colour",),
    }


def test_what_a_part_with_swaps_brings_itself_every_version_brings() -> None:
    lines = {"part": "slaw", "lines": ["400 g cabbage"], "brings": "crunch"}
    lines["swaps"] = [{"swap": "herbs", "lines": ["20 g parsley"], "brings": "fresh"}, {"swap": "plain"}]
    data = {"dish": "Slaw", "portions": "4", "parts": [lines]}
    assert [way.brings for way in made(data).variants()] == [("crunch", "fresh"), ("crunch",)]


def test_a_dish_that_is_all_one_part_says_it_at_the_top_and_one_that_says_nothing_brings_nothing() -> None:
    salad = {"dish": "Salad", "per_portion": {"tomato": "1"}, "brings": ["fresh", "colour"]}
    (way,) = made(salad).variants()
    assert way.brings == ("colour", "fresh")
    (plain,) = made({"dish": "Rice", "per_portion": {"rice": "80 g"}}).variants()
    assert plain.brings == ()


def test_a_scaled_dish_brings_the_same() -> None:
    dish = made(CURRY)
    assert [way.brings for way in scale(dish, 2).variants()] == [way.brings for way in dish.variants()]


@pytest.mark.parametrize(
    "data",
    [CURRY, {"dish": "Salad", "per_portion": {"tomato": "1"}, "brings": ["fresh"]}],
    ids=["in parts", "all one part"],
)
def test_a_dish_with_it_written_back_is_what_was_read(data: dict[str, object]) -> None:
    written, _ = read_dish(data, place)
    assert written is not None
    assert to_mapping(written) == data


def test_every_fault_of_it_is_told_at_once_with_what_to_write_instead() -> None:
    swaps = [{"swap": "nuts", "lines": ["80 g peanuts"], "brings": ["crunchy", "crunch", "crunch"]}]
    data = {
        "dish": "Curry",
        "portions": "4",
        "parts": [
            {"part": "pot", "lines": ["400 g lentils"], "brings": ["color", "joy"]},
            {"part": "top", "swaps": swaps, "brings": {"fresh": "yes"}},
        ],
        "brings": "fresh",
    }
    assert said(data) == [
        "dishes.yaml: brings: a dish has both parts and brings; move brings into one of the parts",
        "dishes.yaml: parts[1].brings[1]: brings names 'color'; did you mean 'colour'?",
        "dishes.yaml: parts[1].brings[2]: brings names 'joy'; write colour, crunch or fresh",
        "dishes.yaml: parts[2].swaps[1].brings[1]: brings names 'crunchy'; did you mean 'crunch'?",
        "dishes.yaml: parts[2].swaps[1].brings[3]: brings names 'crunch' twice; write it once",
        "dishes.yaml: parts[2].brings: brings is a set of keys and values; write a list, each entry on a line after '- '",
    ]


@pytest.mark.parametrize("flat", [False, True], ids=["in parts", "all one part"])
def test_a_part_that_brings_something_with_a_swap_that_adds_nothing_is_doubted(*, flat: bool) -> None:
    part: dict[str, object] = {
        "swaps": [{"swap": "parsley", "lines": ["20 g parsley"]}, {"swap": "without", "lines": []}],
        "brings": ["fresh"],
    }
    rest = {"part": "pot", "lines": ["400 g lentils"]}
    data = {"dish": "Soup", "portions": "4"}
    data |= part if flat else {"parts": [rest, {"part": "top", **part}]}  # type: ignore[dict-item]
    written, (doubt,) = read_dish(data, place)
    assert written is not None
    assert doubt.weight is Weight.DOUBT
    assert str(doubt) == (
        f"dishes.yaml: {'' if flat else 'parts[2].'}brings: the part brings fresh whatever the swap, and 'without' "
        "adds nothing; write brings at the swaps that do"
    )


def test_a_record_that_brings_something_else_is_refused() -> None:
    assert BRINGS == ("colour", "crunch", "fresh")
    with pytest.raises(BadField, match="top brings 'joy'; what it may bring is colour, crunch, fresh"):
        Part("top", Role.GARNISH, brings=("joy",))
    with pytest.raises(BadField, match="nuts brings 'crisp'"):
        Swap("nuts", (), brings=("crunch", "crisp"))
