"""How much there is: the scale before the dish's own yield, and that before the reckoning."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.divide.batches import STEW, TABLE, dish, food, only, part

from ladleworth.dish.dish import Dish, Ingredient, Role
from ladleworth.divide import Heap, Known, PartMade, Reading, parts_made
from ladleworth.divide.heaps import heaps_of
from ladleworth.errors import BadField

POT = Reading(("beef", "sauce"), 2_600_000, 1_200_000)


def parts(of: Dish = STEW) -> tuple[PartMade, ...]:
    return parts_made(of, only(of), TABLE)


def heaps(*readings: Reading, of: Dish = STEW, written_mg: int | None = None) -> dict[str, Heap]:
    return {heap.name: heap for heap in heaps_of(parts(of), readings, written_mg, 6)}


def test_without_a_scale_every_part_is_reckoned() -> None:
    found = heaps()
    assert {name: (heap.known, heap.total_mg, heap.pieces) for name, heap in found.items()} == {
        "beef": (Known.RECKONED, 600_000, None),
        "sauce": (Known.RECKONED, 900_000, None),
        "rice": (Known.RECKONED, 1_140_000, None),
        "bread": (Known.RECKONED, 210_000, 7),
        "cheese": (Known.RECKONED, 60_000, None),
    }


def test_a_pot_that_was_weighed_is_one_heap_and_says_what_is_reckoned_of_each_part_in_it() -> None:
    pot = heaps(POT)["beef and sauce"]
    assert (pot.known, pot.total_mg, pot.reckoned_mg) == (Known.WEIGHED, 1_400_000, 1_500_000)
    assert pot.within == (("beef", 560_000), ("sauce", 840_000))  # 600 to 900
    assert [*heaps(POT)] == ["beef and sauce", "rice", "bread", "cheese"]


def test_the_order_in_which_parts_are_named_does_not_matter() -> None:
    assert heaps(replace(POT, parts=("sauce", "beef"))) == heaps(POT)


def test_readings_of_parts_stand_beside_one_another_in_any_order() -> None:
    rice = Reading(("rice",), 1_500_000, 400_000)
    assert heaps(POT, rice) == heaps(rice, POT)
    assert heaps(rice)["rice"].total_mg == 1_100_000
    assert heaps(rice)["sauce"].known is Known.RECKONED


def test_pieces_that_were_counted_win_and_keep_the_reckoned_weight() -> None:
    bread = heaps(Reading(("bread",), 6, in_pieces=True))["bread"]
    assert (bread.known, bread.pieces, bread.total_mg) == (Known.COUNTED, 6, 210_000)


def test_pieces_that_were_weighed_are_dealt_out_to_the_piece_all_the_same() -> None:
    bread = heaps(Reading(("bread",), 200_000))["bread"]
    assert (bread.known, bread.pieces, bread.total_mg) == (Known.WEIGHED, 7, 200_000)


def test_the_dishes_measured_yield_is_shared_as_the_parts_are_reckoned_until_something_is_weighed() -> None:
    found = heaps(written_mg=2_619_000)  # 2910 g are reckoned: 90 % of each
    assert {name: heap.total_mg for name, heap in found.items()} == {
        "beef": 540_000, "sauce": 810_000, "rice": 1_026_000, "bread": 189_000, "cheese": 54_000,
    }  # fmt: skip
    assert {heap.known for heap in found.values()} == {Known.WRITTEN}
    assert heaps(POT, written_mg=2_619_000)["rice"].known is Known.RECKONED


def test_a_part_without_a_figure_is_not_known_and_never_zero() -> None:
    lacking = Ingredient("chicken-drumstick", Fraction(500_000))
    of = dish(part("meat", Role.PROTEIN, lacking), part("sauce", Role.SAUCE, food("onion", 300)))
    meat = heaps(of=of)["meat"]
    assert (meat.known, meat.total_mg, [one.food for one in meat.missing]) == (
        Known.NOT, None, ["chicken-drumstick"],
    )  # fmt: skip
    pot = heaps(Reading(("meat", "sauce"), 900_000), of=of)["meat and sauce"]
    assert (pot.total_mg, pot.within, pot.reckoned_mg) == (900_000, (), None)
    together = heaps(of=of, written_mg=800_000)["meat and sauce"]
    assert (together.known, together.total_mg) == (Known.WRITTEN, 800_000)


def test_a_reckoning_is_rounded_to_what_is_dealt_out() -> None:
    of = dish(
        part("pot", Role.WHOLE, food("onion", "100.4567")), part("top", Role.GARNISH, food("onion", "6.04"))
    )
    assert [heap.total_mg for heap in heaps(of=of).values()] == [100_000, 6_000]


def test_a_part_that_is_none_is_refused() -> None:
    with pytest.raises(BadField, match="has no part 'gravy'; its parts are beef, sauce"):
        heaps(Reading(("gravy",), 5_000))
