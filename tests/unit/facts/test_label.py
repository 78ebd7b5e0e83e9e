from __future__ import annotations

from fractions import Fraction

from ladleworth.errors import Place, Weight
from ladleworth.facts import food_table
from ladleworth.facts.label import Label, check_label, food_from_label

HERE = Place("foods.yaml", 7, "oat biscuit")


def test_a_serving_is_brought_to_one_hundred_grams() -> None:
    label = Label(
        Fraction(25),
        energy_kcal=Fraction(120),
        protein_g=Fraction(2),
        fat_g=Fraction(5),
        carbohydrate_g=Fraction(17),
    )
    made, findings = food_from_label("oat-biscuit", "oat biscuit", label, HERE)
    assert findings == ()
    assert made is not None
    table = food_table().with_own([made])
    energy = table.nutrient("oat-biscuit", "energy_kcal")
    assert (energy.value, energy.source, energy.basis) == (480, "label", "label")
    assert table.nutrient("oat-biscuit", "protein_g").value == 8
    assert table.source("label").title == "The packet's label"
    assert table.read_label("oat-biscuit")


def test_kilojoules_and_salt_are_turned_into_kilocalories_and_sodium() -> None:
    label = Label(Fraction(100), energy_kj=Fraction(1046), salt_g=Fraction("1.25"))
    made, _ = food_from_label("soup", "soup", label, HERE)
    assert made is not None
    assert made.composition is not None
    assert made.composition.get("energy_kcal").value == 250  # 1046 / 4.184
    sodium = made.composition.get("sodium_mg")
    assert sodium.value == 500  # 1.25 g / 2.5
    assert "from memory" in sodium.note


def test_what_the_label_does_not_say_stays_absent() -> None:
    made, _ = food_from_label("soup", "soup", Label(Fraction(100), energy_kcal=Fraction(40)), HERE)
    assert made is not None
    assert made.composition is not None
    assert made.composition.known == ("energy_kcal",)


def test_further_nutrients_are_taken_in_the_tables_order() -> None:
    label = Label(
        Fraction(50), fat_g=Fraction(1), others=(("iron_mg", Fraction(2)), ("calcium_mg", Fraction(60)))
    )
    made, _ = food_from_label("soup", "soup", label, HERE)
    assert made is not None
    assert made.composition is not None
    assert made.composition.amounts == (("fat_g", 2), ("calcium_mg", 120), ("iron_mg", 4))


def test_all_faults_are_found_at_once_and_no_food_is_made() -> None:
    label = Label(
        Fraction(30),
        protein_g=Fraction(-1),
        fat_g=Fraction(20),
        saturated_fat_g=Fraction(25),
        carbohydrate_g=Fraction(40),
        others=(("caffeine_mg", Fraction(1)),),
    )
    made, findings = food_from_label("x", "x", label, HERE)
    assert made is None
    told = [finding.what for finding in findings]
    assert len(told) == 4
    assert any("protein_g is -1" in what for what in told)
    assert any("'caffeine_mg' is no nutrient" in what for what in told)
    assert any("196.7 g in 100 g" in what for what in told)
    assert any("saturated_fat_g is more than fat_g" in what for what in told)
    assert all(finding.place == HERE for finding in findings)


def test_no_grams_is_a_fault() -> None:
    findings = check_label(Label(Fraction(0), energy_kcal=Fraction(1)), HERE)
    assert [finding.what for finding in findings] == ["the figures are for 0 g"]


def test_energy_the_macronutrients_do_not_make_is_a_doubt() -> None:
    label = Label(
        Fraction(100),
        energy_kcal=Fraction(1674),  # kJ written as kcal
        protein_g=Fraction(10),
        fat_g=Fraction(20),
        carbohydrate_g=Fraction(45),
    )
    made, findings = food_from_label("x", "x", label, HERE)
    assert made is not None
    assert [finding.weight for finding in findings] == [Weight.DOUBT]
    assert "make 400" in findings[0].what


def test_kilojoules_that_do_not_match_kilocalories_are_a_doubt_and_kilocalories_are_taken() -> None:
    label = Label(Fraction(100), energy_kcal=Fraction(100), energy_kj=Fraction(500))
    made, findings = food_from_label("x", "x", label, HERE)
    assert made is not None
    assert made.composition is not None
    assert made.composition.get("energy_kcal").value == 100
    assert [finding.weight for finding in findings] == [Weight.DOUBT]
    assert "119.5 kcal" in findings[0].what
