from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.store.papers import doubts, faults, read, told

from ladleworth.facts import Measure, WeightIs, food_table
from ladleworth.store.folder import FolderReading


def foods(text: str) -> FolderReading:
    return read({"foods.yaml": text})


def test_a_food_of_its_own_has_the_figures_that_are_written() -> None:
    reading = foods(
        "- food: Sea bun\n  measured_in: pieces\n  keep_days: 5\n  piece: 60 g\n  edible: 0.9\n  density: 0.55\n"
        "  also: [wave roll]\n  aisle: bakery\n  allergens: [wheat, soya]\n  per_100_g: {protein_g: 9, energy_kcal: 270}\n"
    )
    assert told(reading) == []
    kitchen = reading.without_faults()
    table = kitchen.foods
    bun = table.find("wave rolls")
    assert (bun.id, bun.name, bun.aisle, bun.measured_in) == ("sea-bun", "Sea bun", "bakery", Measure.PIECES)
    assert table.piece_weight("sea-bun", weight_is=WeightIs.AS_BOUGHT).value == 60
    assert table.piece_weight("sea-bun", weight_is=WeightIs.EDIBLE).value == 54
    assert table.density("sea-bun").value == Fraction(55, 100)
    assert [flag.allergen for flag in table.allergens("sea-bun")] == ["wheat", "soybean"]
    assert table.nutrient("sea-bun", "energy_kcal").value == 270
    assert table.nutrient("sea-bun", "energy_kcal").basis == "own"
    assert kitchen.keep_days["sea-bun"] == 5


def test_a_food_of_the_table_keeps_what_is_left_out() -> None:
    kitchen = foods("food: egg\npiece: 70 g\nkeep_days: 30\n").without_faults()
    assert kitchen.foods.piece_weight("egg", weight_is=WeightIs.AS_BOUGHT).value == 70
    assert kitchen.foods.nutrient("egg", "energy_kcal") == food_table().nutrient("egg", "energy_kcal")
    assert [flag.allergen for flag in kitchen.foods.allergens("egg")] == ["egg"]
    assert kitchen.keep_days["egg"] == 30


def test_own_foods_of_any_script_and_accent_are_told_apart() -> None:
    names = ("рис", "米", "दाल", "cá", "cà")
    kitchen = foods("".join(f"- {{food: {name}, measured_in: grams}}\n" for name in names)).without_faults()
    assert [kitchen.foods.find(name).name for name in names] == list(names)
    (fault,) = faults(
        foods("[{food: Рис, measured_in: grams}, {food: хлеб, measured_in: grams, also: [рис]}]\n")
    )
    assert fault.what == "two foods of foods.yaml are called 'рис'"


def test_only_a_keeping_time_changes_nothing_else_about_a_food() -> None:
    kitchen = foods("food: onion\nkeep_days: durable\n").without_faults()
    assert kitchen.own_foods == ()
    assert kitchen.keep_days["onion"] is None
    assert kitchen.foods is food_table()


def test_a_label_gives_the_composition_by_100_g() -> None:
    text = (
        "food: shop beans\nmeasured_in: grams\nkeep_days: durable\n"
        "label: {serving: 130 g, energy: 460 kJ, protein: 7, fat: 0.5 g, carbohydrate: 18, salt: 0.65}\n"
    )
    reading = foods(text)
    assert told(reading) == []
    table = reading.without_faults().foods
    assert table.nutrient("shop-beans", "protein_g").value == Fraction(700, 130)
    assert table.nutrient("shop-beans", "energy_kcal").value == Fraction(460) / Fraction("4.184") / Fraction(
        "1.3"
    )
    assert table.nutrient("shop-beans", "sodium_mg").value == 200
    assert table.nutrient("shop-beans", "sodium_mg").basis == "label"
    kcal = foods(
        text.replace("460 kJ", "110 Calories").replace("salt: 0.65", "sodium: 260 mg")
    ).without_faults()
    assert kcal.foods.nutrient("shop-beans", "sodium_mg").value == 200
    assert kcal.foods.nutrient("shop-beans", "energy_kcal").value == Fraction(11000, 130)


def test_a_label_whose_energy_does_not_add_up_is_doubted() -> None:
    text = "food: x1\nmeasured_in: grams\nlabel: {serving: 100 g, energy: 900 kcal, protein: 7, fat: 1, carbohydrate: 18}\n"
    assert len(doubts(foods(text))) == 1
    assert faults(foods(text)) == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{food: zonk}", ("'zonk' is not in the food table and has no measured_in; "
         "write measured_in: grams or measured_in: pieces for a food of your own")),
        ("{measured_in: grams}", "a food has no name; write it as food: NAME"),
        ("{food: zonk, measured_in: litres}", "a food is not measured in 'litres'; write grams or pieces"),
        ("{food: '!!', measured_in: grams}", "the food's name is '!!'; write one with letters or digits"),
        ("{food: rice, keep_days: 0}", "keep_days is '0'; write a whole number from 1 to 1000000"),
        ("{food: rice, piece: 3 ml}", "piece: '3 ml' is no weight above 0; write one such as 60 g"),
        ("{food: rice, edible: 1.2}", "edible: '1.2' is no share; write a number above 0 and at most 1, such as 0.9"),
        ("{food: rice, density: 0}", "density: it is 0; write grams per millilitre above 0, such as 0.55"),
        ("{food: rice, allergens: [wheet]}", "no major allergen is called 'wheet'; did you mean 'wheat'?"),
        ("{food: rice, per_100_g: {protein: 1}}", "per_100_g has no key 'protein'; did you mean 'protein_g'?"),
        ("{food: rice, label: {energy: 3 kJ}}", ("a label has no serving; "
         "write the grams that the figures are for, such as serving: 100 g")),
        ("{food: rice, label: {serving: 100 g, energy: 3}}", ("energy: '3' does not say kJ or kcal; "
         "write 460 kJ or 110 kcal")),
        ("{food: rice, label: {serving: 100 g, salt: 1, sodium: 1 g}}", ("a label has both salt and sodium; "
         "keep the one that the packet shows")),
        ("{food: rice, label: {serving: 10 g, protein: 20}}", ("protein, fat and carbohydrate come to 200 g in 100 g; "
         "check the serving's grams against the packet")),
        ("{food: rice, label: {serving: 10 g}, per_100_g: {protein_g: 1}}", ("white long-grain rice has both per_100_g "
         "and label; keep one of the two")),
        ("[{food: rice, keep_days: 3}, {food: white rice, keep_days: 4}]", ("two foods of foods.yaml are called "
         "'white long-grain rice'; keep one, or name one otherwise")),
        ("[{food: zonk, measured_in: grams}, {food: zank, measured_in: grams, also: [zonks]}]", ("two foods of "
         "foods.yaml are called 'zonks'; keep one, or name one otherwise")),
    ],
)  # fmt: skip
def test_each_slip_in_foods_is_named(text: str, said: str) -> None:
    (fault,) = faults(foods(f"{text}\n"))
    assert said in str(fault)
