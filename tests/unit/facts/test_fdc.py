from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from ladleworth.errors import FaultyKitchen, MissingFact, UnknownFood
from ladleworth.facts import food_table
from ladleworth.facts.fdc import FdcMatch, import_foods, search_foods

FILES = {
    "food": (
        "fdc_id,data_type,description,food_category_id,publication_date\n"
        '"11","foundation_food","Squash, made-up, raw","11","2020-01-01"\n'
        '"12","foundation_food","Squash, made-up, baked","11","2020-01-01"\n'
        '"13","foundation_food","Nothing, measured","11","2020-01-01"\n'
    ),
    "nutrient": (
        "id,name,unit_name,nutrient_nbr,rank\n"
        "1008,Energy,KCAL,208,300\n1062,Energy,kJ,268,400\n2047,Energy (general factors),KCAL,957,280\n"
        "2048,Energy (specific factors),KCAL,958,290\n1003,Protein,G,203,600\n1093,Sodium,MG,307.0,5800\n"
        "1114,Vitamin D,UG,328,8700\n9999,Energy in odd units,IU,208,1\n"
    ),
    "food_nutrient": (
        "id,fdc_id,nutrient_id,amount\n"
        "1,11,1008,40\n2,11,1062,167\n3,11,2047,44\n4,11,1003,1.25\n5,11,1093,0\n6,12,2047,51\n"
        "7,12,2048,50\n8,99,1003,7\n9,11,1114,\n10,11,9999,77\n"
    ),
    "food_portion": (
        "id,fdc_id,seq_num,amount,measure_unit_id,portion_description,modifier,gram_weight\n"
        "1,11,1,2,1000,,chopped,300\n2,11,2,1,9999,,medium,196\n3,11,3,,9999,,,50\n4,12,1,1,1000,,,\n"
    ),
    "measure_unit": "id,name,abbreviation\n1000,cup,\n9999,undetermined,\n",
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
    return tmp_path


def test_foods_are_found_by_the_words_of_their_description(folder: Path) -> None:
    assert search_foods(folder, "SQUASH raw") == (FdcMatch("11", "Squash, made-up, raw"),)
    assert [match.fdc_id for match in search_foods(folder, "squash")] == ["11", "12"]
    assert len(search_foods(folder, "squash", limit=1)) == 1
    assert search_foods(folder, "turnip") == ()


def test_a_food_comes_with_its_nutrients_and_piece_weights(folder: Path) -> None:
    (made,) = import_foods(folder, ["11"])
    table = food_table().with_own([made])
    food = table.find("squash, made-up, raw")
    assert food.id == "squash-made-up-raw-11"
    assert table.nutrient(food.id, "energy_kcal").value == 40
    assert table.nutrient(food.id, "protein_g").value == Fraction("1.25")
    assert table.nutrient(food.id, "sodium_mg").value == 0  # the source itself says zero
    assert table.composition(food.id).source_key == "11"
    assert table.piece_weight(food.id, "cup, chopped").value == 150
    assert table.piece_weight(food.id, "medium").value == 196
    assert table.source(table.piece_weight(food.id).source).title.startswith("USDA FoodData Central")


def test_a_nutrient_without_an_amount_or_in_other_units_is_absent(folder: Path) -> None:
    (made,) = import_foods(folder, ["11"])
    assert made.composition is not None
    assert made.composition.known == ("energy_kcal", "protein_g", "sodium_mg")
    with pytest.raises(MissingFact):
        made.composition.get("vitamin_d_ug")


def test_energy_by_specific_factors_stands_in_where_there_is_no_other(folder: Path) -> None:
    (made,) = import_foods(folder, ["12"])
    assert made.composition is not None
    assert made.composition.get("energy_kcal").value == 50
    assert made.pieces == ()


def test_a_food_with_no_figures_has_no_composition(folder: Path) -> None:
    (made,) = import_foods(folder, ["13"])
    assert made.composition is None


def test_foods_come_in_the_order_asked_for_and_once(folder: Path) -> None:
    made = import_foods(folder, ["12", "11", "12"])
    assert [record.food.name for record in made] == ["Squash, made-up, baked", "Squash, made-up, raw"]


def test_a_number_the_download_does_not_have_is_an_unknown_food(folder: Path) -> None:
    with pytest.raises(UnknownFood, match="FoodData Central 77"):
        import_foods(folder, ["11", "77"])


def test_missing_files_and_columns_are_told_all_at_once(folder: Path) -> None:
    (folder / "measure_unit.csv").unlink()
    (folder / "food_portion.csv").unlink()
    (folder / "nutrient.csv").write_text("id,name\n1,x\n", encoding="utf-8")
    with pytest.raises(FaultyKitchen) as caught:
        import_foods(folder, ["11"])
    told = str(caught.value)
    assert told.count("the file is missing") == 2
    assert "no column 'nutrient_nbr'" in told
    assert "no column 'unit_name'" in told


def test_figures_that_are_no_numbers_are_told_with_their_lines(folder: Path) -> None:
    text = FILES["food_nutrient"].replace("11,1003,1.25", "11,1003,lots").replace("11,1008,40", "11,1008,?")
    (folder / "food_nutrient.csv").write_text(text, encoding="utf-8")
    with pytest.raises(FaultyKitchen) as caught:
        import_foods(folder, ["11"])
    assert [finding.place.line for finding in caught.value.findings] == [2, 5]
    assert "'lots' is no number" in str(caught.value)
