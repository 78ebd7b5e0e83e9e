"""Each rule of a cooking day alone, asked of the search: kept without effort, kept only just, and impossible to keep.

Every optimum is argued on the line above it; every figure is invented for the check.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from tests.model.paper_days import SLOW_OVEN, alone, answered, asked, baked, cannot_be, finish, measured, work

from ladleworth.cookday import (
    Bench,
    Lag,
    Measure,
)

# --- 1. times ------------------------------------------------------------------------------------------------


def test_a_day_with_nothing_to_do_is_over_at_once() -> None:
    assert measured(asked()) == (0, 0, 0)


def test_hands_on_work_takes_longer_at_the_slow_pace_and_nothing_else_does() -> None:
    # 7 × 6/5 = 8.4, in whole minutes 9; the 10 minutes in the pot stay 10.
    question = asked(
        work("chop", 7),
        alone("boil", 10, burners=1),
        lags=(Lag("chop", "boil"),),
        bench=Bench(burners=1),
        slower=Fraction(6, 5),
    )
    answer = answered(question)
    assert answer.measure == Measure(19, 9, 0)
    assert answer.nominal is not None
    assert [(time.start, time.end) for time in answer.nominal.times] == [(0, 7), (7, 17)]


@pytest.mark.parametrize(("most", "possible"), [(40, True), (25, True), (24, False)])
def test_waiting_lasts_as_long_as_it_must_and_no_longer_than_it_may(most: int, possible: bool) -> None:
    # The lid goes on when it has cooled and the 30 minutes of chopping are over; cooling began at minute 5 at the latest,
    # since it comes straight after dividing, and dividing straight before all chopping. 30 + 5 - 10 = 25 minutes.
    question = asked(
        work("divide", 5),
        alone("cool", 20, most, warm=True),
        work("chop", 20),
        work("peel", 5),
        work("lid", 1),
        lags=(
            Lag("divide", "cool", 0, 0),
            Lag("cool", "lid", 0, 0),
            Lag("divide", "chop", 0, 0),
            Lag("chop", "peel", 0, 0),
            Lag("peel", "lid"),
        ),
    )
    if possible:
        # 5 + 20 + 5 + 1, and it stands warm from 5 to 30
        assert measured(question) == (31, 31, 25)
    else:
        assert cannot_be(question)


# --- 2. lags -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("least", "end"), [(0, 15), (7, 22), (-3, 15)])
def test_a_least_lag_makes_wait(least: int, end: int) -> None:
    # 10 + 5 by one cook; with 7 minutes between 22; a head start is of no use to one pair of hands
    assert finish(asked(work("chop", 10), work("fry", 5), lags=(Lag("chop", "fry", least),))) == end


@pytest.mark.parametrize(
    ("ends", "end"), [((True, False), 14), ((False, False), 10), ((False, True), 10), ((True, True), 10)]
)
def test_a_lag_is_counted_from_the_moments_it_names(ends: tuple[bool, bool], end: int) -> None:
    # Two pots of 10 and 4 on two burners, no minutes between: end to start 10 + 4; the others are done within the 10.
    question = asked(
        alone("long", 10, burners=1),
        alone("short", 4, burners=1),
        lags=(Lag("long", "short", 0, first_end=ends[0], second_end=ends[1]),),
        bench=Bench(burners=2),
    )
    assert finish(question) == end


@pytest.mark.parametrize(("most", "end"), [(None, 40), (20, 40), (0, 40)])
def test_a_greatest_lag_holds_back_what_comes_first(most: int | None, end: int) -> None:
    # The sauce of 5 minutes is ready at most so long before the meat that takes 40: it is put off, at no cost.
    question = asked(
        alone("roast", 40, burners=1),
        work("sauce", 5),
        lags=(Lag("sauce", "roast", 35 - (most or 0), None, first_end=True, second_end=True),)
        if most is None
        else (Lag("sauce", "roast", 0, most, first_end=True, second_end=True),),
        bench=Bench(burners=1),
    )
    answer = answered(question)
    assert answer.measure is not None
    assert answer.measure.finish == end
    assert answer.slow is not None
    if most is not None:
        assert answer.slow.timed("sauce").end >= 40 - most


def test_greatest_lags_that_one_cook_cannot_keep_two_can() -> None:
    # Both sauces are begun within 3 minutes of the end of the pot and take 10: one cook is late for the second.
    question = asked(
        alone("pot", 12),
        work("one", 10),
        work("two", 10),
        lags=(Lag("pot", "one", 0, 3), Lag("pot", "two", 0, 3)),
    )
    assert cannot_be(question)
    assert finish(replace(question, bench=Bench(cooks=2))) == 22


# --- 3. hands ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("cooks", "end"), [(1, 18), (2, 10), (3, 8)])
def test_no_more_people_are_at_work_than_there_are(cooks: int, end: int) -> None:
    # 8 + 6 + 4 = 18 for one; two at best 10 and 8; three are done with the longest
    assert finish(asked(work("a", 8), work("b", 6), work("c", 4), bench=Bench(cooks=cooks))) == end


@pytest.mark.parametrize(("cooks", "end"), [(2, 9), (3, 6)])
def test_work_for_two_waits_for_both(cooks: int, end: int) -> None:
    # 6 for two, and 3 for one: one after the other for two people, at once for three
    assert finish(asked(work("lift", 6, 2), work("chop", 3), bench=Bench(cooks=cooks))) == end


def test_work_for_more_people_than_there_are_cannot_be() -> None:
    assert cannot_be(asked(work("lift", 6, 2)))


def test_who_does_what_is_told_and_nobody_does_two_things() -> None:
    question = asked(*(work(f"work {n}", 3 + n) for n in range(5)), bench=Bench(cooks=2))
    answer = answered(question)
    # 3 + 4 + 5 + 6 + 7 = 25: 13 and 12 at best
    assert answer.measure is not None
    assert answer.measure.finish == 13
    assert answer.slow is not None
    for cook in (0, 1):
        own = sorted((time.start, time.end) for time in answer.slow.times if cook in time.cooks)
        assert all(end <= start for (_, end), (start, _) in pairwise(own))


# --- 4. burners, microwaves, the counter -----------------------------------------------------------------------


@pytest.mark.parametrize("what", ["burners", "microwaves", "counter"])
@pytest.mark.parametrize(("room", "end"), [(3, 10), (2, 14), (1, 20), (0, None)])
def test_no_more_room_is_taken_than_there_is(what: str, room: int, end: int | None) -> None:
    # 10, 6 and 4 minutes, one place each: three places 10; two 10 and 6 + 4... which is 10 as well, so the 4 takes two:
    # then 4 stands alone, 4 + 10. One place: the 4 does not fit at all.
    takes = {"a": 1, "b": 1, "c": 2 if room > 1 else 1}
    minutes = {"a": 10, "b": 6, "c": 4}
    question = asked(
        *(alone(name, minutes[name], **{what: takes[name]}) for name in minutes), bench=Bench(**{what: room})
    )
    if end is None:
        assert cannot_be(question)
    elif room == 3:
        # 10 beside 6 and then, or before, 4 with two places: a from 0 to 10, c from 0 to 4, b from 4 to 10
        assert finish(question) == 10
    else:
        assert finish(question) == end


def test_a_counter_without_a_limit_has_room_for_all() -> None:
    assert finish(asked(*(alone(f"cool {n}", 20, counter=9) for n in range(4)))) == 20


# --- 5. the oven -----------------------------------------------------------------------------------------------


def test_the_oven_is_hot_before_the_first_load_goes_in() -> None:
    # From 100 to 180 degrees at a minute for 10: 8, and 30 in the oven
    assert finish(asked(baked("bake", 30, 180), bench=Bench(oven=SLOW_OVEN))) == 38


@pytest.mark.parametrize(("tolerance", "end"), [(10, 37), (9, 60)])
def test_two_loads_are_in_together_within_what_both_may_have(tolerance: int, end: int) -> None:
    # 160 and 180 within 10 both go at 170: 7 to heat up, 30. Within 9 they do not meet: at 151 at the least and 6 minutes
    # rounded up, 20, up to 171 which takes 2 ... 160 - 9 = 151 heats in 5.1, so 6; 6 + 20 = 26; 171 - 151 = 20 degrees are
    # 2 minutes, 28; and 30: 58. From 169, the warmest, to 171 is 1 minute: 7 + 20 + 1 + 30 = 58 too. 151 to 180 is worse.
    question = asked(
        baked("mild", 20, 160, tolerance), baked("hot", 30, 180, tolerance), bench=Bench(oven=SLOW_OVEN)
    )
    assert finish(question) == (end if tolerance == 10 else 58)


def test_a_chain_of_loads_each_near_the_next_is_not_in_together() -> None:
    # 150, 170 and 190 within 10: the first and the last meet nowhere, so no heat is right for all three on four shelves.
    # At 160 the first two, at 180 the last (or the first at 160 and two at 180): 6 + 20 + 2 + 20.
    oven = replace(SLOW_OVEN, shelves=4)
    loads = [baked(f"bake {want}", 20, want, 10) for want in (150, 170, 190)]
    answer = answered(asked(*loads, bench=Bench(oven=oven)))
    assert answer.measure is not None
    assert answer.measure.finish == 48
    assert answer.slow is not None
    heats = {heated.activity: heated.heat_c for heated in answer.slow.oven}
    assert heats["bake 150"] <= 160 < 180 <= heats["bake 190"]


def test_cooling_takes_its_own_pace_and_the_order_is_chosen_by_it() -> None:
    # 120 first: 2 + 20 + 8 up to 200 + 20 = 50. The other way round 10 + 20 + 16 down + 20 = 66.
    assert finish(asked(baked("hot", 20, 200), baked("mild", 20, 120), bench=Bench(oven=SLOW_OVEN))) == 50


def test_shelves_suffice_or_loads_wait() -> None:
    # Two shelves: loads of 2 and of 1 at one heat, 5 minutes up to 150, then one after the other
    question = asked(baked("large", 20, 150, shelves=2), baked("small", 10, 150), bench=Bench(oven=SLOW_OVEN))
    assert finish(question) == 35
    assert finish(replace(question, bench=Bench(oven=replace(SLOW_OVEN, shelves=3)))) == 25
    assert cannot_be(replace(question, bench=Bench(oven=replace(SLOW_OVEN, shelves=1))))
    assert cannot_be(replace(question, bench=Bench()))


def test_of_heats_as_good_those_are_chosen_that_are_wanted() -> None:
    question = asked(
        baked("one", 20, 180, 20), baked("two", 20, 180, 20), work("chop", 60), bench=Bench(oven=SLOW_OVEN)
    )
    answer = answered(question)
    assert answer.slow is not None
    assert [heated.heat_c for heated in answer.slow.oven] == [180, 180]
