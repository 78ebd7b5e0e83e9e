"""A dish of which nothing is measured would be food for nothing; it is refused where it is written."""

from __future__ import annotations

import pytest

from ladleworth.dish.resolve import resolve
from ladleworth.dish.written import read_dish
from ladleworth.errors import Place
from ladleworth.facts import food_table


def found(data: dict[str, object]) -> list[str]:
    written, slips = read_dish(data, lambda path: Place("dishes.yaml", 1))
    assert written is not None
    assert slips == ()
    return [str(finding) for finding in resolve(written, food_table())[1]]


@pytest.mark.parametrize(
    "data",
    [
        {"dish": "Broth", "portions": "4", "lines": ["salt to taste"]},
        {
            "dish": "Pot",
            "portions": "4",
            "parts": [
                {
                    "part": "heart",
                    "swaps": [{"swap": "rice", "lines": ["300 g rice"]}, {"swap": "without", "lines": []}],
                }
            ],
        },
    ],
)
def test_a_dish_that_may_take_nothing_measured_is_a_fault(data: dict[str, object]) -> None:
    (said,) = found(data)
    assert "nothing that is measured" in said


def test_a_dish_with_a_measured_part_beside_an_empty_swap_is_none() -> None:
    data = {
        "dish": "Pot",
        "portions": "4",
        "parts": [
            {"part": "base", "lines": ["400 g lentils"]},
            {
                "part": "top",
                "swaps": [{"swap": "cheese", "lines": ["100 g feta"]}, {"swap": "without", "lines": []}],
            },
        ],
    }
    assert not [said for said in found(data) if "measured" in said]
