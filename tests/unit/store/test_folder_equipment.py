"""The equipment card: every key in its unit, all faults at once."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.store.papers import KITCHEN, faults, read, told

from ladleworth.errors import BadField
from ladleworth.household import Equipment, OvenPace, Vessel

CARD = """\
equipment:
  burners: 4
  oven_shelves: 2
  oven: {heating: 0.6 min, cooling: 2, tolerance: 20 °F}
  cooks: 2
  boards: 3
  counter: 8
  room: 70 °F
  wash: 3 min
  slower: 30%
  vessels: {Large pot: 6 l, sheet pan: {size: 1.5 l, count: 2}}
"""


def card(text: str) -> Equipment:
    return read({"kitchen.yaml": KITCHEN + text}).without_faults().household.equipment


def test_the_card_is_read_in_its_units() -> None:
    assert card(CARD) == Equipment(
        burners=4,
        oven_shelves=2,
        vessels=(Vessel("Large pot", 6000), Vessel("sheet pan", 1500, 2)),
        cooks=2,
        boards=3,
        counter=8,
        oven=OvenPace(Fraction(3, 5), Fraction(2), 11),
        room_c=(Fraction(70) - 32) * Fraction(5, 9),
        wash_min=3,
        slower=Fraction(3, 10),
    )


def test_what_is_left_out_is_one_cook_one_board_and_not_stated() -> None:
    bare = card("")
    assert (bare.cooks, bare.boards, bare.counter, bare.wash_min, bare.slower) == (1, 1, None, None, None)
    assert bare == Equipment()
    assert card("equipment:\n") == Equipment()


def test_a_vessel_is_found_whatever_its_capitals() -> None:
    assert card(CARD).vessel("large POT") == Vessel("Large pot", 6000)
    assert card(CARD).vessel("small pot") is None


def test_all_faults_of_the_card_are_told_at_once() -> None:
    reading = read(
        {
            "kitchen.yaml": KITCHEN
            + "equipment:\n  cooks: 0\n  boards: -1\n  counter: many\n  room: 21\n  wash: 2.5\n  slower: 130%\n"
            + "  oven: {heating: quick, tolerance: 10, heat: 1}\n"
            + "  vessels: {pot: {count: 2}, Pan: 2 l, pan: {size: 2 l, count: 0}, tin: {size: 2 l, count: 0}}\n"
        }
    )
    assert len(faults(reading)) == 12
    assert [fault.partition(": ")[2] for fault in told(reading)[:6]] == [
        "equipment.cooks: cooks is '0'; write a whole number from 1 to 9",
        "equipment.boards: boards is '-1'; write a whole number from 0 to 1000000",
        "equipment.counter: counter is 'many'; write a whole number from 0 to 1000000",
        "equipment.room: the temperature '21' cannot be read; write a number and C or F, like '180 C' or '350 F'",
        "equipment.wash: '2.5' is no whole number of minutes; write one such as 150",
        "equipment.slower: '130%' is no share from 0% to 100%; write 70%, say",
    ]
    rest = " ".join(told(reading)[6:])
    assert "oven has no key 'heat'; did you mean 'heating'?" in rest
    assert "'10' is no number of degrees; write one such as 10 °C" in rest
    assert (
        "equipment.vessels.pot: nobody knows what pot holds; write its brim volume: {size: 1.5 l, count: 2}"
        in rest
    )
    assert "two vessels are called 'pan'; write one, with {size: 1.5 l, count: 2}" in rest
    assert "the number of tin is '0'; write a whole number from 1" in rest


def test_a_card_without_cooks_is_refused() -> None:
    with pytest.raises(BadField, match="write 1 or more cooks"):
        Equipment(cooks=0)
