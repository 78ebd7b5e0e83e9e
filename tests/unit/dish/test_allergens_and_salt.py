from __future__ import annotations

from fractions import Fraction

from ladleworth.dish.allergens import NOT_VOUCHED, allergens_of
from ladleworth.dish.dish import Dish, Ingredient, Part, Role, Swap
from ladleworth.dish.salt import salt
from ladleworth.facts import AllergenFlag, Food, Measure, OwnFood, food_table


def own(food: str, allergens: tuple[AllergenFlag, ...] | None) -> OwnFood:
    return OwnFood(Food(food, food, (), "bakery", Measure.MASS, own=True), allergens=allergens)


FOODS = food_table().with_own(
    [
        own("mystery-mix", None),
        own("plain-mix", ()),
        own("seed-bread", (AllergenFlag("sesame", "on its label", "own", "own"),)),
    ]
)


def take(*foods: str, mg: int = 100_000) -> tuple[Ingredient, ...]:
    return tuple(Ingredient(food, Fraction(mg), Fraction(mg)) for food in foods)


def test_every_ingredient_that_brings_an_allergen_is_named_with_its_flag() -> None:
    found = allergens_of(
        (
            *take("spaghetti", "butter", "seed-bread", "carrot"),
            Ingredient("egg", Fraction(2)),
            Ingredient("milk-whole", Fraction(0), unmeasured=True),
        ),
        FOODS,
    )
    assert found.names == ("milk", "egg", "wheat", "sesame")
    by_allergen = {allergen: tuple(b.food for b in bringers) for allergen, bringers in found.present}
    assert by_allergen["milk"] == ("butter", "milk-whole")
    assert by_allergen["sesame"] == ("seed-bread",)
    assert all(b.flag.source for _, bringers in found.present for b in bringers)


def test_absence_is_never_vouched_for() -> None:
    found = allergens_of(take("carrot"), FOODS)
    assert found.present == ()
    assert found.notice == NOT_VOUCHED
    assert "not vouched for" in NOT_VOUCHED
    assert "Read the labels" in NOT_VOUCHED


def test_an_own_food_without_a_word_on_allergens_is_unknown_and_one_with_none_named_is_not() -> None:
    found = allergens_of(take("mystery-mix", "plain-mix"), FOODS)
    assert found.unknown == ("mystery-mix",)
    assert found.read_labels == ()


def test_foods_that_commonly_hide_allergens_ask_for_the_label() -> None:
    assert FOODS.read_label("bouillon-cube-beef")
    assert allergens_of(take("bouillon-cube-beef", "carrot"), FOODS).read_labels == ("bouillon-cube-beef",)


def dish(*ingredients: Ingredient, yield_mg: int | None = None) -> Dish:
    return Dish("d", "D", 4, (Part("all", Role.WHOLE, ingredients),), yield_mg=yield_mg)


def test_salt_is_summed_from_composition_per_portion_and_per_100_g() -> None:
    made = dish(*take("salt", mg=10_000), *take("carrot", mg=990_000))
    found = salt(made, made.variants()[0], FOODS)
    in_salt, in_carrot = (FOODS.nutrient(food, "sodium_mg").value for food in ("salt", "carrot"))
    assert found.sodium_mg == in_salt / 10 + in_carrot * Fraction(99, 10)
    assert found.sodium_mg_per_portion == found.sodium_mg / 4
    assert found.sodium_mg_per_100_g == found.sodium_mg / 10
    assert found.salt_g_per_portion == found.sodium_mg / 4 * Fraction(5, 2) / 1000
    assert found.missing == ()
    assert found.sources == ("usda-sr26",)
    assert not found.measured


def test_the_measured_weight_makes_a_boiled_down_dish_saltier_per_100_g() -> None:
    made = dish(*take("salt", mg=10_000), *take("carrot", mg=990_000), yield_mg=800_000)
    found = salt(made, made.variants()[0], FOODS)
    assert found.measured
    assert found.sodium_mg_per_100_g == found.sodium_mg / 8
    # by hand: 10 g salt hold 3875.8 mg sodium, 990 g carrots 683.1 mg; x 2.5 / 8 = 1424.7 mg of salt
    assert found.salt_g_per_100_g == Fraction(45589, 32000)


def test_what_has_no_figure_is_listed_with_the_mass_that_it_covers() -> None:
    made = dish(
        *take("mystery-mix", mg=50_000), Ingredient("salt", Fraction(0), unmeasured=True), *take("butter")
    )
    found = salt(made, made.variants()[0], FOODS)
    assert [(one.food, one.edible_mg) for one in found.missing] == [("mystery-mix", 50_000), ("salt", None)]
    assert found.missing_mg == 50_000
    assert found.sodium_mg == FOODS.nutrient("butter", "sodium_mg").value
    assert found.prepared_mg is None
    assert found.sodium_mg_per_100_g is None
    assert found.salt_g_per_100_g is None


def test_salt_follows_the_swap_chosen() -> None:
    part = Part("all", Role.WHOLE, take("carrot"), (Swap("bacon", take("bacon")), Swap("without", ())))
    made = Dish("d", "D", 4, (part,))
    with_bacon, without = (salt(made, variant, FOODS).sodium_mg for variant in made.variants())
    assert with_bacon - without == FOODS.nutrient("bacon", "sodium_mg").value


def test_a_total_of_salt_is_none_where_any_part_of_it_is_unknown() -> None:
    made = dish(*take("butter"), *take("mystery-mix", mg=50_000), yield_mg=500_000)
    found = salt(made, made.variants()[0], FOODS)
    assert not found.complete
    assert found.total_sodium_mg is None
    assert found.total_salt_g_per_portion is None
    assert found.sodium_mg_per_100_g is None
    assert found.salt_g_per_100_g is None
    assert [one.food for one in found.missing] == ["mystery-mix"]


def test_a_total_of_salt_with_every_figure_is_the_sum() -> None:
    made = dish(*take("salt", mg=10_000), *take("carrot", mg=990_000))
    found = salt(made, made.variants()[0], FOODS)
    assert found.complete
    assert found.total_sodium_mg == found.sodium_mg
    assert found.total_salt_g_per_portion == found.salt_g_per_portion


def test_a_dish_of_which_no_salt_is_known_has_no_total_rather_than_none_at_all() -> None:
    made = dish(*take("mystery-mix", mg=50_000))
    found = salt(made, made.variants()[0], FOODS)
    assert found.total_salt_g_per_portion is None
    assert found.total_sodium_mg is None
