"""Tools, mergings, deadlines and habits of the kitchen, each with its best timetable argued beside it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.paper_days import SLOW_OVEN, alone, answered, asked, baked, cannot_be, finish, measured, work

from ladleworth.cookday import (
    Begun,
    Bench,
    DayQuestion,
    Lag,
    Merging,
    OvenCard,
    OvenHeat,
    Status,
    ToolKind,
    ToolUse,
    replan,
)
from ladleworth.cookday.question import NOTHING

# --- 6. tools --------------------------------------------------------------------------------------------------


def used(
    name: str, *activities: str, kind: str = "pan", leaves: str = "dirt", takes: tuple[str, ...] = ()
) -> ToolUse:
    return ToolUse(name, kind, activities, leaves, takes)


def pans(count: int, wash: int = 3) -> Bench:
    return Bench(burners=9, tools=(ToolKind("pan", count, wash),))


@pytest.mark.parametrize(("count", "end"), [(2, 10), (1, 13), (0, None)])
def test_a_pan_is_washed_between_two_uses_and_two_pans_need_no_wash(count: int, end: int | None) -> None:
    # 5 + 5 by hand, and 3 to wash the only pan
    question = asked(
        work("fry fish", 5),
        work("fry onions", 5),
        uses=(used("fish", "fry fish"), used("onions", "fry onions")),
        bench=pans(count),
    )
    if end is None:
        assert cannot_be(question)
    else:
        assert finish(question) == end


def test_a_pan_is_held_from_the_first_to_the_last_of_its_activities() -> None:
    # The stew has the pot from minute 0 to 25 (5 + 20), then 3 to wash and 10 for the soup; the other way round 10 + 3 + 25.
    question = asked(
        work("brown", 5),
        alone("simmer", 20),
        alone("soup", 10),
        lags=(Lag("brown", "simmer", 0, 0),),
        uses=(used("stew", "brown", "simmer"), used("soup", "soup")),
        bench=pans(1),
    )
    assert finish(question) == 38


def test_a_wash_takes_hands_that_others_want() -> None:
    # The pot wants washing between two boils of 10; meanwhile the cook chops 30 minutes in two goes of 15 that are not
    # broken off: 10, wash 3, 10 fit beside them only with the wash between: 15 + 3 + 15.
    question = asked(
        alone("boil one", 10),
        alone("boil two", 10),
        work("chop one", 15),
        work("chop two", 15),
        uses=(used("one", "boil one"), used("two", "boil two")),
        bench=pans(1),
    )
    assert finish(question) == 33


def test_of_three_uses_on_two_pans_the_long_one_has_one_to_itself() -> None:
    # 20 on one pan; 8, a wash of 3 and 8 on the other
    question = asked(
        alone("long", 20),
        alone("short", 8),
        alone("brief", 8),
        uses=(used("long", "long"), used("short", "short"), used("brief", "brief")),
        bench=pans(2),
    )
    answer = answered(question)
    assert answer.measure is not None
    assert answer.measure.finish == 20
    assert answer.slow is not None
    assert len(answer.slow.washes) == 1


def test_what_leaves_nothing_needs_no_wash_after_it() -> None:
    question = asked(
        work("rinse", 5),
        work("fry", 5),
        uses=(used("rinse", "rinse", leaves=NOTHING), used("fry", "fry")),
        bench=pans(1),
    )
    assert finish(question) == 10


@pytest.mark.parametrize(("minutes", "end", "merged"), [(8, 8, True), (11, 11, True), (13, 12, False)])
def test_a_merging_is_done_where_it_is_shorter(minutes: int, end: int, merged: bool) -> None:
    # 6 + 6 apart
    question = asked(
        work("onions one", 6),
        work("onions two", 6),
        mergings=(Merging("onions", ("onions one", "onions two"), minutes),),
    )
    answer = answered(question)
    assert answer.measure is not None
    assert answer.measure.finish == end
    assert answer.slow is not None
    assert bool(answer.slow.merged) == merged


def test_a_merging_that_would_break_a_window_is_not_done() -> None:
    # The second onions wait for 20 minutes of soaking, the first go into the pan within 5: 20 + 6 apart is what remains,
    # with the fish after it: soak 20 beside onions one 6 and fry 4, then onions two 6.
    question = asked(
        work("onions one", 6),
        work("fry", 4),
        alone("soak", 20),
        work("onions two", 6),
        lags=(Lag("onions one", "fry", 0, 5), Lag("soak", "onions two"), Lag("fry", "onions two")),
        mergings=(Merging("onions", ("onions one", "onions two"), 7),),
    )
    answer = answered(question)
    assert answer.measure is not None
    assert answer.measure.finish == 26
    assert answer.slow is not None
    assert answer.slow.merged == ()


def test_a_merging_shares_a_board_and_saves_its_wash() -> None:
    # Apart: 6 + 2 + 6 with one board that is washed between. At once: 10.
    question = asked(
        work("onions one", 6),
        work("onions two", 6),
        mergings=(Merging("onions", ("onions one", "onions two"), 10),),
        uses=(used("one", "onions one", kind="board"), used("two", "onions two", kind="board")),
        bench=Bench(tools=(ToolKind("board", 1, 2),)),
    )
    assert finish(question) == 10


# --- 7. the deadline, and 8. the measure -----------------------------------------------------------------------


@pytest.mark.parametrize(("deadline", "possible"), [(None, True), (15, True), (14, False)])
def test_all_is_done_by_the_deadline(deadline: int | None, possible: bool) -> None:
    question = asked(work("chop", 10), work("fry", 5), deadline=deadline)
    if possible:
        assert finish(question) == 15
    else:
        assert cannot_be(question)


def test_hands_begin_as_late_as_the_finish_lets_them() -> None:
    # The pot of 30 is put on by nobody; then 5 at the end. The 10 minutes of chopping come as late as they can: 20 to 35.
    question = asked(
        alone("boil", 30),
        work("chop", 10),
        work("serve", 5),
        lags=(Lag("boil", "serve"), Lag("chop", "serve")),
    )
    assert measured(question) == (35, 15, 0)


def test_food_stands_warm_no_longer_than_it_has_to() -> None:
    # 40 minutes of chopping are the finish; dividing 5 may come at any time, cooling 20 at the least follows: 45 + 1.
    question = asked(
        work("chop", 40),
        work("divide", 5),
        alone("cool", 20, 100, warm=True),
        work("lid", 1),
        lags=(Lag("divide", "cool", 0, 0), Lag("cool", "lid", 0, 0)),
    )
    # Dividing first and the lid last: the chopping is one piece, so it cools while all of it is done.
    assert measured(question) == (46, 46, 40)


def test_everything_starts_as_early_as_it_may_and_the_same_every_time() -> None:
    question = asked(work("a", 5), work("b", 5), alone("soak", 3))
    first, second = answered(question), answered(question)
    assert first.slow == second.slow
    assert first.slow is not None
    assert min(time.start for time in first.slow.times) == 0
    assert first.slow.timed("soak").start == 0


# --- a day on its way ------------------------------------------------------------------------------------------


def test_what_is_running_is_not_moved_and_the_rest_comes_after_now() -> None:
    question = asked(
        work("chop", 10), work("fry", 5), work("lid", 2), lags=(Lag("chop", "fry"), Lag("fry", "lid"))
    )
    earlier = answered(question)
    # Chopping began 4 minutes late and runs: 4 to 14, then 5 and 2.
    late = replace(question, now=6, begun=(Begun("chop", 4),))
    answer = replan(late, earlier)
    assert answer.status is Status.PROVEN
    assert answer.slow is not None
    assert [(time.start, time.end) for time in answer.slow.times] == [(4, 14), (14, 19), (19, 21)]


def test_a_load_that_is_in_the_oven_keeps_the_heat_it_was_put_in_at() -> None:
    question = asked(baked("one", 20, 160, 10), baked("two", 20, 180, 10), bench=Bench(oven=SLOW_OVEN))
    earlier = answered(question)
    assert earlier.slow is not None
    assert {heated.heat_c for heated in earlier.slow.oven} == {170}
    answer = replan(replace(question, now=10, begun=(Begun("one", 7),)), earlier)
    # it is at 170 until minute 27; the other may go in beside it from now on: 10 + 20
    assert answer.measure is not None
    assert answer.measure.finish == 30
    assert answer.slow is not None
    assert [heated.heat_c for heated in answer.slow.oven] == [170, 170]


# --- the kitchen's habits --------------------------------------------------------------------------------------

HOME = Bench(
    burners=2,
    oven=OvenCard(shelves=1, heating_min_per_10c=Fraction(1, 2), cooling_min_per_10c=Fraction(1), start_c=20),
    counter=6,
    tools=(ToolKind("pan", 1, 3),),
)


def test_a_tray_in_the_oven_leaves_time_to_dice_and_whisk_the_rest() -> None:
    # A tray baked 20 minutes at 200 °C leaves time for the rest: common practice, no source. What the hands have to do
    # takes 45 minutes with the oven or without it, since the tray is in while they are at work.
    rest = (
        work("spread on the tray", 5),
        work("dice vegetables", 15),
        work("whisk eggs", 10),
        work("fry", 15, burners=1),
    )
    before = asked(*rest, bench=HOME)
    tray = (*rest, alone("bake the tray", 20, oven=OvenHeat(200)))
    after = asked(*tray, lags=(Lag("spread on the tray", "bake the tray", 0, 10),), bench=HOME)
    assert finish(before) == finish(after) == 45


def test_a_sauce_thickened_with_starch_is_stirred_by_hand_all_through() -> None:
    # It is never left: common practice, no source. So the cook does nothing else meanwhile, and the sum is the finish.
    question = asked(
        work("stir the sauce", 12, burners=1),
        work("chop", 10),
        work("grate", 8),
        alone("boil potatoes", 25, burners=1),
        bench=HOME,
    )
    answer = answered(question)
    assert answer.measure is not None
    assert answer.measure.finish == 30
    assert answer.slow is not None
    sauce = answer.slow.timed("stir the sauce")
    others = [answer.slow.timed(name) for name in ("chop", "grate")]
    assert all(other.end <= sauce.start or sauce.end <= other.start for other in others)


def test_fat_rendered_first_serves_the_vegetables_and_then_the_eggs() -> None:
    # In one pan, one after another and without a wash: common practice, no source.
    fat = "bacon fat"
    question = asked(
        work("fry eggs", 4, burners=1),
        work("fry vegetables", 8, burners=1),
        work("render bacon", 6, burners=1),
        uses=(
            used("eggs", "fry eggs", takes=(fat,)),
            used("vegetables", "fry vegetables", leaves=fat, takes=(fat,)),
            used("bacon", "render bacon", leaves=fat),
        ),
        bench=HOME,
    )
    answer = answered(question)
    assert answer.measure is not None
    assert answer.measure.finish == 18  # 6 + 8 + 4 and no wash
    assert answer.slow is not None
    assert answer.slow.washes == ()
    names = [time.activity for time in sorted(answer.slow.times, key=lambda time: time.start)]
    assert names == ["render bacon", "fry vegetables", "fry eggs"]


def test_what_is_divided_cools_twenty_to_thirty_minutes_before_the_lid() -> None:
    # Common practice, no source. The other work of 28 minutes is fitted in between; of 32 it is not.
    def day(other: int) -> DayQuestion:
        return asked(
            work("divide", 4),
            alone("cool", 20, 30, counter=4, warm=True),
            work("lid", 1),
            work("chop", other),
            lags=(Lag("divide", "cool", 0, 0), Lag("cool", "lid", 0, 0)),
            bench=HOME,
        )

    assert measured(day(28)) == (33, 33, 28)
    # 32 minutes of chopping do not fit into 30: before or after, 4 + 20 + 1 + 32
    assert measured(day(32)) == (57, 57, 20)
