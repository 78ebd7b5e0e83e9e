"""A day on its way: what has happened is not judged, and what can no longer be kept is not asked."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.planted_day import LIVE, LIVE_SLOW, hands_on, plain, rules, timed, unattended

from ladleworth.cookday.answer import Timed, Washed
from ladleworth.cookday.happened import missed
from ladleworth.cookday.question import Begun, Bench, DayQuestion, Lag
from ladleworth.errors import BadField


def test_what_has_begun_may_be_too_much_by_itself_but_nothing_may_join_it() -> None:
    question = DayQuestion(
        tuple(hands_on(name, "", 4, burners=1) for name in ("a", "b", "c")),
        bench=Bench(cooks=1, burners=1),
        slower=Fraction(1),
        now=1,
        begun=(Begun("a", 0), Begun("b", 1)),
    )
    after = plain(Timed("a", 0, 4, (0,)), Timed("b", 1, 5, (0,)), Timed("c", 5, 9, (0,)))
    assert rules(question, after) == set()
    assert rules(question, timed("c", after, start=4, end=8)) == {"hands", "burners"}


def test_what_should_be_over_ends_now_and_waiting_between_now_and_its_most() -> None:
    assert rules(LIVE, LIVE_SLOW) == set()
    # At minute 13 chopping should have been over at 11, and the beans have soaked for longer than they may.
    late = replace(LIVE, now=13)
    assert rules(late, LIVE_SLOW) >= {"times"}
    times = (
        Timed("peel", 1, 8, (0,)),
        Timed("chop", 8, 13, (0,)),
        Timed("soak beans", 2, 13),
        Timed("boil soup", 16, 22),
        Timed("pack soup", 22, 25, (0,)),
    )
    timetable = replace(LIVE_SLOW, times=times, washes=(Washed("pot", 0, 13, 16, 0),))
    assert rules(late, timetable) == set()
    assert missed(late, timetable) == ("soak beans took 11 minutes, and 9 are the most",)


def test_tools_that_were_not_washed_are_not_washed_afterwards() -> None:
    question = replace(LIVE, begun=(*LIVE.begun[:2], Begun("soak beans", 2, 9), Begun("boil soup", 9)))
    times = (
        *LIVE_SLOW.times[:2],
        Timed("soak beans", 2, 9),
        Timed("boil soup", 9, 15),
        Timed("pack soup", 15, 18, (0,)),
    )
    assert rules(question, replace(LIVE_SLOW, times=times, washes=())) == set()
    wash = (Washed("pot", 0, 18, 21, 0),)
    assert rules(question, replace(LIVE_SLOW, times=times, washes=wash)) == {"tools"}


def lagging(lag: Lag, *begun: Begun, now: int = 10) -> DayQuestion:
    work = (unattended("boil", "", 4), unattended("cool", "", 2, 6), hands_on("pack", "", 2))
    return DayQuestion(work, (lag,), slower=Fraction(1), now=now, begun=begun)


def test_a_lag_whose_second_moment_has_happened_is_not_asked() -> None:
    # Packing began at 8, before boiling had ended: that cannot be mended.
    lag = Lag("boil", "pack", 0, 3)
    question = lagging(lag, Begun("boil", 5), Begun("pack", 8))
    timetable = plain(Timed("boil", 5, 10), Timed("cool", 10, 12), Timed("pack", 8, 10, (0,)))
    assert rules(question, timetable) == set()
    assert missed(question, timetable) == ()
    late = lagging(lag, Begun("boil", 0, 4), Begun("pack", 9))
    timetable = plain(Timed("boil", 0, 4), Timed("cool", 10, 12), Timed("pack", 9, 11, (0,)))
    assert rules(late, timetable) == set()
    assert missed(late, timetable) == (
        "from the end of boil to the start of pack: 5 minutes, and 3 are the most",
    )


def test_a_greatest_lag_that_can_no_longer_be_kept_is_not_asked_and_is_told() -> None:
    question = lagging(Lag("boil", "pack", 2, 5), Begun("boil", 0, 4))
    timetable = plain(Timed("boil", 0, 4), Timed("cool", 10, 12), Timed("pack", 12, 14, (0,)))
    assert rules(question, timetable) == set()
    assert missed(question, timetable) == (
        "from the end of boil to the start of pack: 8 minutes, and 5 are the most",
    )
    # A minute earlier it still can be: packing must start at once.
    in_time = replace(question, now=9)
    assert rules(in_time, timetable) == {"lags"}
    at_once = timed("pack", timetable, start=9, end=11)
    assert rules(in_time, at_once) == set()
    assert missed(in_time, at_once) == ()


def test_whether_it_can_be_kept_is_asked_of_both_paces() -> None:
    # Packing takes 2 minutes as stated and 4 at the slow pace: within 7 minutes of 4 it is done by 11 at the most.
    lag = Lag("boil", "pack", 0, 7, second_end=True)
    question = replace(lagging(lag, Begun("boil", 0, 4), now=8), slower=Fraction(2))
    nominal = plain(Timed("boil", 0, 4), Timed("cool", 8, 10), Timed("pack", 12, 14, (0,)))
    assert rules(question, nominal, slow=False) == set()
    assert rules(replace(question, now=7), nominal, slow=False) == {"lags"}


def test_the_least_of_a_lag_is_asked_though_its_greatest_is_not() -> None:
    question = lagging(Lag("boil", "pack", 8, 9, first_end=False), Begun("boil", 3, 7), now=13)
    timetable = plain(Timed("boil", 3, 7), Timed("cool", 13, 15), Timed("pack", 13, 15, (0,)))
    assert rules(question, timetable) == set()
    early = replace(question, lags=(Lag("boil", "pack", 12, 12, first_end=False),))
    assert rules(early, timetable) == {"lags"}


def test_a_least_lag_to_the_end_of_what_is_running_is_not_asked_once_it_cannot_be_kept() -> None:
    # The herbs should be in two minutes before the pot is done at 12. At 10 there is no time left for them.
    work = (unattended("boil", "", 6), hands_on("herbs", "", 1))
    question = DayQuestion(
        work,
        (Lag("herbs", "boil", 2, second_end=True),),
        slower=Fraction(1),
        now=9,
        begun=(Begun("boil", 6),),
    )
    in_time = plain(Timed("boil", 6, 12), Timed("herbs", 9, 10, (0,)))
    late = plain(Timed("boil", 6, 12), Timed("herbs", 10, 11, (0,)))
    assert rules(question, in_time) == set()
    assert rules(question, late) == {"lags"}
    assert rules(replace(question, now=10), late) == set()


def test_what_runs_until_later_decides_as_late_as_it_ends() -> None:
    # At 10, boiling runs from 8 to 12 and packing, begun at 9 and slowed to 6 minutes, from 9 to 15. That packing ends
    # within 2 of boiling, or 4 after it, is decided: 3 minutes lie between.
    begun = Begun("boil", 8), Begun("pack", 9)
    timetable = plain(Timed("boil", 8, 12), Timed("cool", 10, 12), Timed("pack", 9, 15, (0,)))
    for least, most in ((0, 2), (4, None)):
        question = replace(
            lagging(Lag("boil", "pack", least, most, second_end=True), *begun), slower=Fraction(3)
        )
        assert rules(question, timetable) == set(), (least, most)
    # Boiled at 4, to be packed within 6: packing runs since 9 and ends at 11 at the soonest, which is too late.
    question = lagging(Lag("boil", "pack", 0, 6, second_end=True), Begun("boil", 0, 4), Begun("pack", 9))
    late = plain(Timed("boil", 0, 4), Timed("cool", 10, 12), Timed("pack", 9, 11, (0,)))
    assert rules(question, late) == set()
    assert len(missed(question, late)) == 1


def test_what_was_just_in_time_was_not_missed() -> None:
    question = lagging(Lag("boil", "pack", 0, 3), Begun("boil", 0, 4), Begun("cool", 1, 7), Begun("pack", 7))
    timetable = plain(Timed("boil", 0, 4), Timed("cool", 1, 7), Timed("pack", 7, 10, (0,)))
    assert rules(question, timetable) == set()
    assert missed(question, timetable) == ()


@pytest.mark.parametrize("begun", [Begun("boil", 11), Begun("boil", 3, 11)])
def test_what_has_begun_did_not_begin_or_end_after_now(begun: Begun) -> None:
    with pytest.raises(BadField, match=r"boil is said to have been at minute 11; now is 10"):
        lagging(Lag("boil", "pack"), begun)
