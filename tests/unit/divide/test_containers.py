"""Containers: what they take, which are chosen, and why there are none; small cases against every choice there is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import product
from random import Random

import pytest
from tests.unit.divide.batches import TENTH

from ladleworth.divide import Filling, Fit, ToFill, choose
from ladleworth.errors import BadField
from ladleworth.household.rules import Container


def portions(*volumes: int, frozen: Sequence[int] = ()) -> list[ToFill]:
    return [ToFill(at, volume, at in frozen) for at, volume in enumerate(volumes)]


def sizes(fit: Fit) -> list[int]:
    return [one.container.size_ml for one in fit.filled]


# --- what a container takes ---------------------------------------------------------------------------------------


def test_a_chilled_container_is_filled_to_the_households_share() -> None:
    assert TENTH.room_ml(Container(600, 1), frozen=False) == 540
    assert TENTH.room_ml(Container(600, 1, 60), frozen=False) == 540


def test_a_frozen_one_leaves_the_published_headspace_or_the_share_if_that_is_more() -> None:
    # NCHFP: half an inch (12.7 mm) up to a pint, an inch (25.4 mm) to a quart; liquid pack, wide opening.
    assert TENTH.room_ml(Container(400, 1, 50), frozen=True) == 298  # 400 x 37.3 / 50
    assert TENTH.room_ml(Container(900, 1, 100), frozen=True) == 671  # 900 x 74.6 / 100
    assert Filling(Fraction(1, 2)).room_ml(Container(400, 1, 50), frozen=True) == 200
    assert TENTH.gap_mm(Container(400, 1), frozen=True) == Fraction("12.7")
    assert TENTH.gap_mm(Container(400, 1), frozen=False) is None


def test_no_deeper_than_the_limit_of_cooling() -> None:
    shallow = Filling(Fraction(1, 10), 30)
    assert shallow.room_ml(Container(600, 1, 60), frozen=False) == 300
    assert shallow.room_ml(Container(600, 1, 30), frozen=False) == 540  # it cannot be that deep
    assert shallow.room_ml(Container(600, 1), frozen=False) == 540  # nobody knows how deep it is


@pytest.mark.parametrize("wrong", [(Fraction(1), None), (Fraction(-1, 10), None), (Fraction(0), 0)])
def test_a_filling_that_cannot_be_is_refused(wrong: tuple[Fraction, int | None]) -> None:
    with pytest.raises(BadField):
        Filling(*wrong)


# --- which are chosen ---------------------------------------------------------------------------------------------


def test_the_smallest_that_hold_the_portions_are_taken() -> None:
    fit = choose(portions(400, 400), [Container(1000, 6), Container(500, 6), Container(750, 6)], TENTH)
    assert sizes(fit) == [500, 500]
    assert (fit.emptied, fit.unfilled, fit.reasons) == ((), (), ())
    assert [(one.size_ml, one.count) for one in fit.left] == [(500, 4), (750, 6), (1000, 6)]


def test_a_scarce_size_is_left_where_others_will_do() -> None:
    # four of 500 ml would hold them, and then none would be left: one is kept back
    fit = choose(portions(400, 400, 400, 400), [Container(500, 4), Container(750, 6)], TENTH)
    assert sorted(sizes(fit)) == [500, 500, 500, 750]
    assert fit.emptied == ()
    # without a way round it, the size is used up
    fit = choose(portions(400, 400, 400, 400), [Container(500, 4), Container(750, 1)], TENTH)
    assert sizes(fit) == [500] * 4
    assert fit.emptied == (500,)


def test_larger_portions_lie_in_larger_containers() -> None:
    fit = choose(portions(300, 600, 450), [Container(500, 2), Container(750, 4)], TENTH)
    assert sizes(fit) == [500, 750, 750]
    fit = choose(portions(300, 600, 450), [Container(500, 3), Container(750, 4)], TENTH)
    assert sizes(fit) == [500, 750, 500]


def test_a_frozen_portion_needs_the_larger_one_where_headspace_takes_its_room() -> None:
    boxes = [Container(450, 4, 50), Container(600, 4, 60)]
    assert sizes(choose(portions(340, 340, frozen=[1]), boxes, TENTH)) == [
        450,
        600,
    ]  # 450 takes 335 ml, frozen


def test_how_deep_the_food_stands_is_told_where_that_is_known() -> None:
    fit = choose(portions(300), [Container(600, 2, 60)], TENTH)
    assert (fit.filled[0].depth_mm, fit.filled[0].room_ml) == (30, 540)
    assert choose(portions(300), [Container(600, 2)], TENTH).filled[0].depth_mm is None


def test_nothing_to_fill_takes_nothing() -> None:
    fit = choose([], [Container(600, 2)], TENTH)
    assert (fit.filled, fit.unfilled, fit.reasons) == ((), (), ())


# --- why not --------------------------------------------------------------------------------------------------------


def test_too_large_a_portion_is_told_with_the_size_that_would_do() -> None:
    fit = choose(portions(620, 400), [Container(600, 3)], TENTH)
    assert (sizes(fit), fit.unfilled) == ([600], (0,))
    (reason,) = fit.reasons
    assert reason == (
        "the largest clean container holds 540 ml (600 ml to the brim, 10 % left empty); a portion needs a container for "
        "620 ml (chilled): 1 more of 689 ml or larger would do (10 % of it left empty), or share it into two"
    )


def test_too_few_are_told_with_how_many_more_of_what_size() -> None:
    fit = choose(portions(*[400] * 6), [Container(600, 4), Container(300, 9)], TENTH)
    assert len(fit.filled) == 4
    (reason,) = fit.reasons
    assert reason == (
        "2 portions need a container for 400 ml each (chilled), and all 4 that hold so much are taken: "
        "2 more of 445 ml or larger would do (10 % of it left empty)"
    )


def test_the_smallest_portions_are_the_ones_left_over() -> None:
    fit = choose(portions(300, 500, 400), [Container(600, 2)], TENTH)
    assert fit.unfilled == (0,)
    assert "1 more of 334 ml or larger" in fit.reasons[0]


def test_without_any_clean_one_the_reason_says_so() -> None:
    (reason,) = choose(portions(300, frozen=[0]), [Container(600, 0)], TENTH).reasons
    assert reason == (
        "a portion needs a container for 300 ml (frozen), and no container is clean: "
        "1 more that holds 300 ml with 13 mm free at the top (nchfp-headspace, read) would do"
    )


def test_with_a_limit_of_depth_it_is_the_floor_that_counts() -> None:
    (reason,) = choose(portions(400), [Container(600, 1, 60)], Filling(Fraction(1, 10), 20)).reasons
    assert "holds 200 ml (600 ml to the brim, filled 20 mm deep at the most)" in reason
    assert "1 more with a floor of 200 cm² or more would do, filled 20 mm deep" in reason  # 400 cm³ / 2 cm


# --- against every choice ---------------------------------------------------------------------------------------


def by_trying_all(
    wanted: Sequence[ToFill], boxes: Sequence[Container], filling: Filling
) -> tuple[int, int] | None:
    """The fewest sizes used up, then the least ml in all, over every way to place the portions; None: no way."""
    best = None
    for choice in product(range(len(boxes)), repeat=len(wanted)):
        used = Counter(choice)
        if any(used[at] > box.count for at, box in enumerate(boxes)):
            continue
        if any(
            filling.room_ml(boxes[at], frozen=one.frozen) < one.volume_ml
            for at, one in zip(choice, wanted, strict=True)
        ):
            continue
        emptied = sum(used[at] == box.count > 0 for at, box in enumerate(boxes))
        cost = emptied, sum(boxes[at].size_ml for at in choice)
        best = cost if best is None else min(best, cost)
    return best


def most_placed(wanted: Sequence[ToFill], boxes: Sequence[Container], filling: Filling) -> int:
    """How many portions can be placed at the most, over every choice of some of them."""
    for number in range(len(wanted), 0, -1):
        for kept in product((True, False), repeat=len(wanted)):
            some = [one for one, stays in zip(wanted, kept, strict=True) if stays]
            if len(some) == number and by_trying_all(some, boxes, filling) is not None:
                return number
    return 0


@pytest.mark.parametrize("seed", range(60))
def test_the_choice_is_the_best_of_all(seed: int) -> None:
    chance = Random(seed)
    boxes = [
        Container(size, chance.randint(1, 3), chance.choice([None, 40, 60, 90]))
        for size in chance.sample([250, 400, 500, 650, 900], 3)
    ]
    filling = Filling(Fraction(1, 10), chance.choice([None, 25, 45]))
    wanted = [
        ToFill(at, chance.randint(80, 700), chance.random() < 0.4) for at in range(chance.randint(1, 5))
    ]
    fit, best = choose(wanted, boxes, filling), by_trying_all(wanted, boxes, filling)
    if best is None:
        assert fit.reasons
        assert len(fit.filled) == most_placed(wanted, boxes, filling)
        return
    assert fit.reasons == ()
    assert (len(fit.emptied), sum(sizes(fit))) == best
    for one in fit.filled:
        frozen = wanted[one.portion].frozen
        assert one.volume_ml <= filling.room_ml(one.container, frozen=frozen)


def test_the_order_of_portions_and_of_sizes_does_not_matter() -> None:
    boxes = [Container(500, 4, 60), Container(750, 3), Container(500, 2, 40)]
    wanted = portions(420, 300, 610, 300, frozen=[1])
    first = choose(wanted, boxes, TENTH)
    assert choose(wanted[::-1], boxes[::-1], TENTH) == first
    halves = [Container(750, 1), *boxes[:1], Container(750, 2), *boxes[2:]]
    assert choose(wanted, halves, TENTH) == first
