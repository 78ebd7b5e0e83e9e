"""What the batch version of a dish has different, part by part."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.dish.batch_version import differences, not_to_freeze
from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap

SOME = (Ingredient("onion", Fraction(1)),)
DISH = Dish(
    "bake",
    "Bake",
    1,
    (
        Part("pasta", Role.STARCH, SOME, kinds=("pasta in sauce", "tomato sauce")),
        Part(
            "heart",
            Role.PROTEIN,
            swaps=(Swap("egg", SOME, kinds=("hard-cooked egg",)), Swap("lentils", SOME, kinds=("lentils",))),
        ),
        Part("top", Role.GARNISH, SOME, kinds=("crumb or cheese topping",), apart=True),
    ),
)
EGG, LENTILS = DISH.variants()


def said(found: tuple[object, ...]) -> list[str]:
    return [str(difference) for difference in found]


def test_a_chilled_batch_says_what_is_made_differently_and_leaves_out_what_holds() -> None:
    assert said(differences(DISH, LENTILS, frozen=False)) == [
        (
            "pasta: pasta in sauce chilled comes out: it goes on taking up water from the sauce and softens; "
            "cook it 1 to 2 minutes less (frozen-meals-notes, read)"
        ),
        (
            "heart (lentils): lentils chilled comes out: they thicken; thin them when reheating "
            "(common-practice, common practice)"
        ),
        "top: crumb or cheese topping chilled comes out: it softens; crisp it in the oven (lancaster-farming, read)",
    ]


def test_a_frozen_batch_speaks_of_the_swaps_chosen_and_keeps_what_is_apart_out_of_the_freezer() -> None:
    found = differences(DISH, EGG, frozen=True)
    assert [(d.part, d.swap, d.texture.kind, d.texture.route.value) for d in found] == [
        ("pasta", "", "pasta in sauce", "frozen"),
        ("heart", "egg", "hard-cooked egg", "frozen"),
        ("top", "", "crumb or cheese topping", "chilled"),
    ]
    assert "comes out badly: the white turns spongy and rubbery; add it fresh" in str(found[1])


def test_reheating_in_a_microwave_adds_its_own() -> None:
    frozen, both = (
        differences(DISH, EGG, frozen=True),
        differences(DISH, EGG, frozen=True, microwaved=True),
    )
    more = [d for d in both if d not in frozen]
    assert [(d.texture.kind, d.texture.route.value) for d in more] == [
        ("tomato sauce", "microwaved"),
        ("hard-cooked egg", "microwaved"),
        ("crumb or cheese topping", "microwaved"),
    ]


def test_what_comes_out_badly_from_the_freezer_is_named_with_its_swap_unless_it_is_kept_apart() -> None:
    assert [(d.part, d.swap, d.texture.kind) for d in not_to_freeze(DISH)] == [
        ("heart", "egg", "hard-cooked egg")
    ]


def test_a_dish_that_says_no_kinds_has_nothing_to_tell() -> None:
    plain = Dish("plain", "Plain", 1, (Part("all", Role.WHOLE, SOME),))
    assert differences(plain, plain.variants()[0], frozen=True, microwaved=True) == ()
    assert not_to_freeze(plain) == ()
