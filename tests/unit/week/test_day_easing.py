"""What is given up where the rest of a day cannot be planned with all its rules, and in which order."""

from __future__ import annotations

from dataclasses import replace

from tests.unit.publish.days import CHOP, FILL, FRY, ONION, OVEN, QUESTION, SIMMER, STEW_END, TIMETABLE

from ladleworth.cookday.question import Begun, DayQuestion
from ladleworth.week.day_easing import MORE_MIN, easings
from ladleworth.week.day_missed import broken_waits, hurried, minutes_left, out_of_reach, wait_words

DRIES = next(lag for lag in QUESTION.lags if (lag.first, lag.second) == (CHOP, FILL))
OUT = next(lag for lag in QUESTION.lags if lag.first == OVEN and lag.limit)
CHOPPED = (Begun(ONION, 0, 7), Begun(CHOP, 0, 7))
BAKED = (*CHOPPED, Begun(FILL, 9, 15), Begun(OVEN, 17, 42))


def at(now: int, *begun: Begun, **more: object) -> DayQuestion:
    return replace(QUESTION, now=now, begun=begun, **more)  # type: ignore[arg-type]


def test_a_wait_is_out_of_reach_once_what_comes_first_takes_too_long() -> None:
    # The bake was out at minute 42, and must have its lid on by 162. At the slow pace it takes 4 to divide, 20 to cool and
    # 2 for the lid: begun at 136 it is in time, at 137 it is not.
    assert out_of_reach(at(136, *BAKED)) == {}
    assert out_of_reach(at(137, *BAKED)) == {OUT: 121}
    assert minutes_left(at(137, *BAKED), OUT) == 25


def test_what_is_not_broken_yet_is_hurried_and_what_is_broken_is_let_go() -> None:
    assert hurried(at(137, *BAKED), {OUT: 121}) == {OUT: 121}
    assert hurried(at(162, *BAKED), {OUT: 146}) == {OUT: 146}
    assert hurried(at(163, *BAKED), {OUT: 147}) == {OUT: None}


def test_the_least_is_given_up_first() -> None:
    first, late, stated, longer, waits, every = easings(at(8, *CHOPPED, deadline=90))
    assert (dict(first.waits), first.on_time, first.at_slow_pace) == ({}, True, True)
    assert (dict(late.waits), late.on_time, late.at_slow_pace) == ({}, False, True)
    assert (dict(stated.waits), stated.on_time, stated.at_slow_pace) == ({}, False, False)
    assert longer.waits == {DRIES: 8 + MORE_MIN}
    assert waits.waits[DRIES] is None
    assert OUT not in waits.waits
    assert every.waits[OUT] is None


def test_what_is_eased_asks_no_more_than_it_says() -> None:
    question = at(8, *CHOPPED, deadline=90)
    first, late, stated, longer, *_ = easings(question)
    assert first.eased(question) == question
    assert (late.eased(question).deadline, late.eased(question).slower) == (None, QUESTION.slower)
    assert stated.eased(question).slower == 1
    assert replace(DRIES, most=18) in longer.eased(question).lags


def test_what_goes_on_by_itself_is_never_parted_from_the_hands_before_it() -> None:
    for easing in easings(at(0)):
        parted = {(lag.first, lag.second) for lag in easing.waits}
        assert (FRY, SIMMER) not in parted
        assert (STEW_END[0], STEW_END[1]) not in parted
    assert {(lag.first, lag.second) for lag in easing.waits} >= {(STEW_END[1], STEW_END[2]), (CHOP, FILL)}


def test_a_broken_wait_is_told_with_its_minutes() -> None:
    assert broken_waits(QUESTION, TIMETABLE) == ()
    late = replace(
        TIMETABLE,
        times=tuple(replace(t, start=30, end=36) if t.activity == FILL else t for t in TIMETABLE.times),
    )
    assert broken_waits(QUESTION, late) == (DRIES,)
    assert wait_words(late, DRIES) == (
        f"from the end of {CHOP} to the start of {FILL} (cut onion dries): 23 minutes, and 8 are the most"
    )
