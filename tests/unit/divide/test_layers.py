"""In which order a container is filled."""

from __future__ import annotations

from tests.unit.divide.batches import STEW, TABLE, dish, food, only, part

from ladleworth.dish.dish import Dish, Role
from ladleworth.divide import Layer, PartMade, parts_made
from ladleworth.divide.layers import is_in_sauce, layers_of
from ladleworth.facts.layers import Goes

BREADED = dish(
    part("sauce", Role.SAUCE, food("tomatoes-crushed", 400), kinds=["tomato sauce"]),
    part("chicken", Role.PROTEIN, food("chicken-breast", 500), kinds=["breaded or fried"]),
    part("pasta", Role.STARCH, food("macaroni", 300), kinds=["pasta in sauce"]),
)


def parts(of: Dish) -> tuple[PartMade, ...]:
    return parts_made(of, only(of), TABLE)


def order(of: Dish, *, frozen: bool = False) -> list[tuple[str, str]]:
    return [(layer.part, layer.goes.value) for layer in layers_of(parts(of), frozen=frozen)]


def one(of: Dish, name: str, *, frozen: bool = False) -> Layer:
    return next(layer for layer in layers_of(parts(of), frozen=frozen) if layer.part == name)


def test_what_is_crisp_lies_on_top_and_what_is_kept_apart_to_the_side() -> None:
    assert order(STEW) == [
        ("rice", "in the container"),
        ("beef", "in the sauce"),
        ("sauce", "over it"),
        ("cheese", "on top"),
        ("bread", "to the side"),
    ]


def test_what_goes_soggy_in_the_freezer_goes_to_the_side_with_its_source() -> None:
    cheese = one(STEW, "cheese", frozen=True)
    assert (cheese.goes, cheese.source, cheese.basis) == (Goes.SIDE, "nchfp-freezing", "read")
    assert "freeze it apart" in cheese.why
    assert one(STEW, "bread").source == "own"


def test_sauce_goes_to_the_side_where_the_table_says_so_of_another_part() -> None:
    assert order(BREADED) == [
        ("pasta", "in the container"),
        ("chicken", "on top"),
        ("sauce", "to the side"),
    ]
    sauce = one(BREADED, "sauce")
    assert (sauce.source, sauce.basis) == ("frozen-meals-notes", "read")
    assert "keep the sauce apart" in sauce.why
    assert one(BREADED, "sauce", frozen=True).source == "osu-sp50-766"


def test_a_part_without_a_kind_goes_by_its_role_and_says_that_nobody_published_that() -> None:
    of = dish(
        part("top", Role.GARNISH, food("cheddar", 50)),
        part("meat", Role.PROTEIN, food("beef-ground-80", 500)),
        part("gravy", Role.SAUCE, food("tomatoes-crushed", 100)),
        part("greens", Role.VEGETABLE, food("spinach", 100)),
        part("mash", Role.STARCH, food("potato", 500)),
    )
    assert [name for name, _ in order(of)] == ["mash", "greens", "meat", "gravy", "top"]
    assert {layer.basis for layer in layers_of(parts(of), frozen=False)} == {"common practice"}


def test_beans_in_their_own_liquid_lie_in_no_sauce_that_is_not_there() -> None:
    of = dish(part("beans", Role.PROTEIN, food("black-beans-canned", 500), kinds=["cooked beans"]))
    beans = one(of, "beans", frozen=True)
    assert (beans.goes, beans.source) == (Goes.BASE, "lancaster-farming")


def test_solids_in_sauce_are_told_by_their_kind() -> None:
    assert [made.part for made in parts(STEW) if is_in_sauce(made)] == ["beef"]
