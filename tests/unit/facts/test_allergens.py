from __future__ import annotations

import pytest

from ladleworth.facts import ALLERGENS, find_allergen, near_allergens


@pytest.mark.parametrize(
    ("written", "allergen"),
    [
        ("Milk", "milk"),
        ("cow's milk", "milk"),
        ("eggs", "egg"),
        ("fin fish", "fish"),
        ("fishes", "fish"),
        ("crustaceans", "crustacean shellfish"),
        ("Crustacean-Shellfish", "crustacean shellfish"),
        ("tree nut", "tree nuts"),
        ("tree nuts", "tree nuts"),
        ("treenuts", "tree nuts"),
        ("peanut", "peanut"),
        ("peanuts", "peanut"),
        ("groundnuts", "peanut"),
        ("wheat", "wheat"),
        ("soy", "soybean"),
        ("soya", "soybean"),
        ("soybeans", "soybean"),
        ("soya beans", "soybean"),
        ("sesame seeds", "sesame"),
    ],
)
def test_an_allergen_is_found_by_its_usual_spellings(written: str, allergen: str) -> None:
    assert find_allergen(written) == allergen


def test_every_allergen_of_the_law_is_found_by_its_own_name() -> None:
    assert [find_allergen(name) for name in ALLERGENS] == list(ALLERGENS)


@pytest.mark.parametrize(
    "written",
    [
        "nuts",
        "shellfish",
        "gluten",
        "dairy",
        "lactose",
        "soy sauce",
        "peanut butter",
        "coconut",
        "mlk",
        "",
        " ",
    ],
)
def test_a_word_that_means_more_or_less_than_one_allergen_is_none(written: str) -> None:
    assert find_allergen(written) is None


@pytest.mark.parametrize(
    ("written", "near"),
    [
        ("nuts", ("tree nuts", "peanut")),
        ("Shellfish", ("crustacean shellfish",)),
        ("gluten", ("wheat",)),
        ("dairy", ("milk",)),
        ("wheet", ("wheat",)),
        ("soybeens", ("soybean",)),
        ("penut", ("peanut",)),
        ("tree nutz", ("tree nuts",)),
        ("rice", ()),
        ("carrot", ()),
        ("", ()),
    ],
)
def test_a_word_that_is_none_comes_with_those_it_may_mean(written: str, near: tuple[str, ...]) -> None:
    assert near_allergens(written) == near
