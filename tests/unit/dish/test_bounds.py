from __future__ import annotations

import pytest

from ladleworth.dish.dish import Role
from ladleworth.dish.resolve import resolve
from ladleworth.dish.tree import Path, show_path
from ladleworth.dish.written import HandsOn, WrittenDish, WrittenPart, WrittenSwap
from ladleworth.errors import Finding, Place, Weight
from ladleworth.facts import food_table

RIGHT = ("500 g lentils", "3 onions, chopped", "2 tbsp olive oil", "1 tsp cumin", "2 tsp salt", "1.5 l water")


def place(path: Path) -> Place:
    return Place("dishes.yaml", item=show_path(path))


def doubts(written: WrittenDish) -> list[Finding]:
    dish, findings = resolve(written, food_table(), place=place)
    assert dish is not None, findings
    assert all(finding.weight is Weight.DOUBT for finding in findings)
    assert all("house bounds, no source" in finding.remedy for finding in findings)
    return list(findings)


def lines(*written: str, portions: int = 6) -> WrittenDish:
    return WrittenDish("Stew", (WrittenPart(lines=written),), portions=portions)


def portion(**amounts: str) -> WrittenDish:
    return WrittenDish("Stew", (WrittenPart(per_portion=tuple(amounts.items())),))


@pytest.mark.parametrize(
    "right",
    [
        lines(*RIGHT),
        portion(lentils="80 g", onion="60 g", egg="1"),
        portion(spaghetti="120 g", egg="2", bacon="50 g", butter="10 g"),
        portion(potato="400 g", milk="200 ml"),
        lines("1.5 kg chicken", "2 kg potatoes", "salt to taste", portions=4),
    ],
)
def test_a_usual_dish_raises_no_doubt(right: WrittenDish) -> None:
    assert doubts(right) == []


@pytest.mark.parametrize(
    ("slip", "item", "what"),
    [
        # tenfold
        (lines("5 kg lentils", *RIGHT[1:]), "lines[1]", "833 g of brown lentils in a portion are more than 250 g"),
        (lines(*RIGHT[:2], "20 tbsp olive oil", "10 cups cumin"), "lines[4]", "of cumin seed"),
        (portion(lentils="800 g", onion="60 g"), "per_portion.lentils", "more than 250 g"),
        (portion(**{"beef-ground-80": "1500 g"}), "per_portion.beef-ground-80", "more than 700 g"),
        (lines(*RIGHT[:4], "2 tsp salt", "15 l water"), "lines[6]", "more than 1000 g"),
        # a unit is missing
        (portion(lentils="80 g", onion="60"), "per_portion.onion", "of onion in a portion"),
        (portion(lentils="80 g", egg="60"), "per_portion.egg", "60 pieces of egg in a portion are many"),
        # for one portion what was meant for six
        (lines("500 g spaghetti", "3 eggs", portions=1), "lines[1]", "more than 250 g"),
    ],
)  # fmt: skip
def test_a_planted_slip_in_an_amount_is_doubted_where_it_stands(
    slip: WrittenDish, item: str, what: str
) -> None:
    found = [finding for finding in doubts(slip) if finding.place.item == item]
    assert len(found) == 1
    assert what in found[0].what


@pytest.mark.parametrize(
    ("slip", "what"),
    [
        (lines(*RIGHT, portions=60), "a portion takes 40 g, less than 50 g"),
        (lines(*RIGHT[:5], "9 l water"), "more than 1500 g"),
        (lines(*RIGHT[:4], "6 tbsp salt", "1.5 l water"), "g of salt, more than 10 g"),
        (portion(lentils="8 g", onion="6 g"), "a portion takes 14 g, less than 50 g"),
        (
            portion(potato="900 g", onion="6 g", salt="1 g"),
            "potato weighs over 10 times all the rest together",
        ),
    ],
)
def test_a_planted_slip_that_shows_in_the_whole_portion_is_doubted_at_the_dish(
    slip: WrittenDish, what: str
) -> None:
    assert [finding.what for finding in doubts(slip) if finding.place.item == "" and what in finding.what]


def test_a_main_part_too_small_for_a_meal_is_doubted() -> None:
    parts = (
        WrittenPart("beans", Role.PROTEIN, per_portion=(("lentils", "8 g"),)),
        WrittenPart("mash", Role.STARCH, per_portion=(("potato", "300 g"),)),
    )
    (found,) = doubts(WrittenDish("Stew", parts))
    assert found.what == "the protein part 'beans' is 8 g a portion"


def test_a_slip_in_a_swap_is_doubted_in_the_swap() -> None:
    swaps = (WrittenSwap("bacon", per_portion=(("bacon", "5 kg"),)), WrittenSwap("without"))
    part = WrittenPart("stew", None, per_portion=(("lentils", "80 g"), ("onion", "80 g")), swaps=swaps)
    items = [finding.place.item for finding in doubts(WrittenDish("Stew", (part,)))]
    assert items[0] == "parts[1].swaps[1].per_portion.bacon"


def test_a_working_day_at_the_stove_is_doubted() -> None:
    (found,) = doubts(
        WrittenDish("Stew", (WrittenPart(per_portion=(("lentils", "80 g"),)),), hands_on=HandsOn("20 h"))
    )
    assert found.what == "1200 hands-on minutes are more than 480"


def test_a_dish_with_very_many_ways_to_choose_is_checked_without_listing_them() -> None:
    swaps = tuple(WrittenSwap(f"{n}", per_portion=(("onion", f"{n} g"),)) for n in range(1, 11))
    parts = tuple(
        WrittenPart(f"p{n}", None, per_portion=(("carrot", "20 g"),), swaps=swaps) for n in range(30)
    )
    assert doubts(WrittenDish("Stew", parts)) == []
    heavy = WrittenSwap("heavy", per_portion=(("onion", "900 g"),))
    heavier = (*parts, *(WrittenPart(f"q{n}", None, swaps=(heavy, *swaps)) for n in range(2)))
    assert [finding.what for finding in doubts(WrittenDish("Stew", heavier))] == [
        "a portion takes 2700 g, more than 1500 g"
    ]


def test_the_saltiest_swap_is_found_though_it_is_the_lightest() -> None:
    swaps = (
        WrittenSwap("salt", per_portion=(("salt", "14 g"),)),
        WrittenSwap("carrot", per_portion=(("carrot", "90 g"),)),
    )
    part = WrittenPart("stew", None, per_portion=(("lentils", "80 g"), ("onion", "80 g")), swaps=swaps)
    (found,) = doubts(WrittenDish("Stew", (part,)))
    assert "g of salt, more than 10 g" in found.what
