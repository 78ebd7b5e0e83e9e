from __future__ import annotations

import pytest

from ladleworth.facts.names import fold_name


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
