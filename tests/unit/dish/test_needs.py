"""What a step needs: read from a few words, or refused with what to write instead."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ladleworth.dish.needs import (
    Needs,
    OvenNeed,
    read_degrees_off,
    read_need,
    read_needs,
    slip_of,
    stations_in,
)
from ladleworth.errors import BadField


@pytest.mark.parametrize(
    ("text", "needs"),
    [
        ("hands", Needs(cooks=1)),
        ("1 cook", Needs(cooks=1)),
        ("2 cooks", Needs(cooks=2)),
        ("2 people", Needs(cooks=2)),
        ("burner", Needs(burners=1)),
        ("2 burners", Needs(burners=2)),
        ("burner at low heat", Needs(burners=1)),
        ("microwave", Needs(microwaves=1)),
        ("microwave oven", Needs(microwaves=1)),
        ("board", Needs(boards=("",))),
        ("Cutting board", Needs(boards=("",))),
        ("board for bread", Needs(boards=("",))),
        ("board for raw meat", Needs(boards=("raw meat",))),
        ("board for raw egg", Needs(boards=("raw egg",))),
        ("2 boards", Needs(boards=("", ""))),
        ("Large  pot", Needs(tools=("large pot",))),
        ("2 sheet pans", Needs(tools=("sheet pan", "sheet pan"))),
        ("2 baking dishes", Needs(tools=("baking dish", "baking dish"))),
        ("20 cm pan", Needs(tools=("20 cm pan",))),
        ("5 l pot", Needs(tools=("5 l pot",))),
        ("oven cloth", Needs(tools=("oven cloth",))),
        ("blender", Needs(tools=("blender",))),
    ],
)
def test_a_need_is_people_a_station_a_board_or_a_tool(text: str, needs: Needs) -> None:
    assert read_need(text) == needs


@pytest.mark.parametrize(
    ("text", "oven"),
    [
        ("oven", OvenNeed()),
        ("hot oven", OvenNeed()),
        ("oven at 190 °C", OvenNeed(190)),
        ("oven 200 C", OvenNeed(200)),
        # 375 °F is 190.6 °C: (375 - 32) x 5/9, the definition of the scales.
        ("oven at 375 °F", OvenNeed(191)),
        ("oven at 190 °C ± 10 °C", OvenNeed(190, 10)),
        ("oven at 375 °F ± 20 °F", OvenNeed(191, 11)),
        ("oven at 375 F +/- 20", OvenNeed(191, 11)),
        ("oven at 190 °C, 2 shelves", OvenNeed(190, None, 2)),
        ("oven at 190 °C ± 5 °C, 2 shelves", OvenNeed(190, 5, 2)),
        ("oven at 190 °C with 2 shelves", OvenNeed(190, None, 2)),
        ("oven, 2 shelves", OvenNeed(None, None, 2)),
        ("oven shelf", OvenNeed()),
    ],
)
def test_the_oven_has_a_heat_a_tolerance_and_shelves(text: str, oven: OvenNeed) -> None:
    assert read_need(text).oven == oven
    assert stations_in(text, "oven") == 1


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("three cooks", "counts in words; write a figure, such as '2 cooks'"),
        ("two burners", "write a figure, such as '2 burners'"),
        ("2 hands", "does not say how many people; write 'hands' for one, or '2 cooks'"),
        ("cooks", "does not say how many people"),
        ("12 cooks", "counts 12; write a number from 1 to 9"),
        ("0 boards", "counts 0"),
        ("2 shelves", "stands alone; write it with the oven, in quotes: 'oven at 190 °C ± 10 °C, 2 shelves'"),
        ("± 10 °C", "stands alone"),
        ("oven at 190", "the heat in 'oven at 190' cannot be read; write it like 'oven at 190 °C'"),
        ("oven at hot", "cannot be read; write it like"),
        ("oven ± 10 °C", "names no heat"),
        ("oven at 190 °C ± some", "the tolerance in 'oven at 190 °C ± some' cannot be read"),
        ("oven at 1900 °C", "is 1900 °C; write a heat from 30 to 550 °C"),
    ],
)
def test_a_need_that_cannot_be_read_says_what_to_write(text: str, told: str) -> None:
    with pytest.raises(BadField) as refused:
        read_need(text)
    assert told in str(refused.value)


def test_needs_of_a_step_add_up_and_name_the_oven_once() -> None:
    told = read_needs(["hands", "burner", "burner at low heat", "large pot", "board"])
    assert told == Needs(cooks=1, burners=2, boards=("",), tools=("large pot",))
    with pytest.raises(BadField, match="the oven is named twice; write one of the two"):
        read_needs(["oven at 190 °C", "oven"])


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("burnr", "burner"),
        ("hnads", "hands"),
        ("ovven", "oven"),
        ("micowave", "microwave"),
        ("bord for raw meat", "board for raw meat"),
        ("ovn at 190 °C", "oven at 190 °C"),
        ("blender", ""),
        ("bowl", ""),
        ("burner", ""),
    ],
)
def test_a_name_one_letter_off_looks_like_a_slip(text: str, meant: str) -> None:
    assert slip_of(text) == meant


def test_a_slip_of_a_vessel_is_seen_by_its_whole_name() -> None:
    assert slip_of("large pt", ["Large pot", "small pot"]) == "Large pot"
    assert slip_of("large pan", ["Large pot"]) == ""


def test_degrees_off_need_a_scale() -> None:
    assert (read_degrees_off("± 10 °C"), read_degrees_off("20 °F"), read_degrees_off("9", "f")) == (10, 11, 5)
    with pytest.raises(BadField, match="is no number of degrees; write one such as 10 °C"):
        read_degrees_off("10")


@given(st.text(max_size=30))
def test_any_text_is_a_need_or_refused(text: str) -> None:
    try:
        told = read_need(text)
    except BadField as refused:
        assert "; " in str(refused)  # noqa: PT017  # what is wrong, and what to write
    else:
        assert told != Needs()
