"""The kitchen of a day: the card, and what is assumed where it says nothing."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.unit.cookday.small_dishes import CHOP, SIMMER, batch, dish, posed

from ladleworth.cookday.question import Bench, OvenCard, ToolKind
from ladleworth.household import Equipment, OvenPace, Vessel

BAKE = {"do": "Bake.", "unattended": "30", "needs": ["oven at 190 °C, 2 shelves", "tin", "microwave"]}
FULL = Equipment(
    burners=4,
    oven_shelves=3,
    microwave_w=700,
    vessels=(Vessel("Pot", 4000, 2), Vessel("kettle", 1500)),
    cooks=2,
    boards=3,
    counter=9,
    oven=OvenPace(Fraction(1, 2), Fraction(3)),
    room_c=Fraction("22.6"),
    wash_min=1,
    slower=Fraction(1, 10),
)
RICE = dish("Rice", [CHOP, SIMMER, BAKE])


def test_a_full_card_leaves_nothing_to_assume_but_unlisted_tools() -> None:
    day = posed(batch(RICE), equipment=FULL)
    assert day.question is not None
    assert day.question.bench == Bench(
        cooks=2,
        burners=4,
        oven=OvenCard(3, Fraction(1, 2), Fraction(3), 23),
        microwaves=1,
        counter=9,
        tools=(ToolKind("board", 3, 1), ToolKind("Pot", 2, 1), ToolKind("tin", 1, 1)),
    )
    assert day.question.slower == Fraction(11, 10)
    assert day.assumptions == ("tin is not on the equipment card: assumed to be there once",)


def test_an_empty_card_is_taken_for_as_much_as_one_step_needs_and_says_so() -> None:
    day = posed(batch(RICE), equipment=Equipment())
    assert day.question is not None
    bench = day.question.bench
    assert (bench.cooks, bench.burners, bench.microwaves, bench.counter) == (1, 1, 1, None)
    # One minute for 10 °C and 20 °C at the start: common practice, no source.
    assert bench.oven == OvenCard(2, Fraction(1), Fraction(1), 20)
    assert bench.tools == (ToolKind("board", 1, 2), ToolKind("pot", 1, 2), ToolKind("tin", 1, 2))
    assert day.question.slower == Fraction(6, 5)
    assert day.assumptions == (
        "burners are not stated on the equipment card: 1 assumed",
        "microwaves are not stated on the equipment card: 1 assumed",
        "oven_shelves are not stated on the equipment card: 2 assumed",
        "the oven's heating is not stated: 1 min for 10 °C assumed",
        "the oven's cooling is not stated: 1 min for 10 °C assumed",
        "pot is not on the equipment card: assumed to be there once",
        "tin is not on the equipment card: assumed to be there once",
        "wash is not stated: 2 min to wash a tool assumed",
        "room is not stated: assumed to be no warmer than 32 °C",
    )


def test_nothing_is_assumed_of_what_nobody_needs() -> None:
    day = posed(batch(dish("Salad", [CHOP])), equipment=Equipment(wash_min=2))
    assert day.question is not None
    assert day.assumptions == ()
    assert (day.question.bench.oven, day.question.bench.burners) == (None, 0)


def test_what_is_stated_to_be_none_stays_none() -> None:
    day = posed(batch(RICE), equipment=replace(FULL, burners=0, oven_shelves=0, boards=0))
    assert day.question is not None
    assert (day.question.bench.burners, day.question.bench.oven) == (0, None)
    assert day.question.bench.tools[0] == ToolKind("board", 0, 1)
