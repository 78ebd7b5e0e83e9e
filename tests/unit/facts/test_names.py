from __future__ import annotations

import pytest

from ladleworth.facts.names import fold_name, fold_spelling, plain_words


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Jalapeños", "jalapeno"),
        ("bay leaves", "bay leaf"),
        ("tomatoes", "Tomato"),
        ("  strawberries ", "strawberry"),
        ("cookies", "cookie"),
        ("radishes", "radish"),
        ("cheeses", "cheese"),
        ("all-purpose flour", "all purpose  flour"),
        ("confectioners’ sugar", "confectioners' sugar"),
        ("loaves", "loaf"),
    ],
)
def test_spellings_of_one_name_fold_together(one: str, other: str) -> None:
    assert fold_name(one) == fold_name(other)


@pytest.mark.parametrize(("one", "other"), [("egg", "egg white"), ("pea", "peach"), ("2% milk", "1% milk")])
def test_different_foods_stay_apart(one: str, other: str) -> None:
    assert fold_name(one) != fold_name(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("рис", "米"),
        ("рис", "лук"),
        ("米", "面"),
        ("दाल", "दील"),
        ("かき", "かぎ"),
        ("ข้าว", "ขาว"),
        ("쌀", "콩"),
        ("أرز", "بصل"),
        ("ρύζι", "φακές"),
        ("smør", "smr"),
        ("🍚", "🍞"),
    ],
)
def test_names_of_any_script_stay_apart(one: str, other: str) -> None:
    assert fold_name(one) != fold_name(other)
    assert fold_name(one)
    assert fold_name(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Рис", "рис"),
        ("Свёкла", "свекла"),
        ("ΡΎΖΙ", "ρυζι"),
        ("Ｒｉｃｅ", "rice"),
        ("ガ", "ガ"),
        ("رُزّ", "رز"),
        ("red–lentils", "red lentil"),
        ("brown_rice", "brown rice"),
        ("rice (white)", "rice white"),
        ("ri\u00adce", "rice"),
    ],
)
def test_case_accents_and_marks_that_may_be_left_out_fold_away_in_any_script(one: str, other: str) -> None:
    assert fold_name(one) == fold_name(other)


@pytest.mark.parametrize(("one", "other"), [("cá", "cà"), ("bơ", "bò"), ("Maß", "Mais"), ("чай", "чаи")])
def test_a_spelling_keeps_the_accents_that_tell_words_apart(one: str, other: str) -> None:
    assert fold_spelling(one) != fold_spelling(other)


@pytest.mark.parametrize(
    ("one", "other"), [("CÁ", "cá"), ("Jalapeños", "jalapeño"), ("bay leaves", "Bay-leaf")]
)
def test_a_spelling_folds_all_else_away(one: str, other: str) -> None:
    assert fold_spelling(one) == fold_spelling(other)


def test_a_blank_name_folds_to_nothing() -> None:
    assert fold_name(" \t") == fold_spelling("") == ""


def test_a_name_is_parted_into_plain_words() -> None:
    assert plain_words("Jalapeños, raw (2%)") == ("jalapenos", "raw", "2%")
