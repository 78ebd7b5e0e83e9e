"""How much a timetable bears: windows, a slower cook, days of chance."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.model.planted_day import DAY, LIVE, LIVE_SLOW, NOMINAL, SLOW, hands_on, unattended
from tests.model.small_days import DAYS, small_day
from tests.model.tried_day import tried_day

from ladleworth.cookday.answer import Timed, Timetable
from ladleworth.cookday.judge import judge
from ladleworth.cookday.orders import minutes_at, nodes_of, retimed, run_through
from ladleworth.cookday.question import Bench, DayQuestion, Lag
from ladleworth.cookday.slack import SLOWEST_PERCENT, HowSlow, how_slow, simulate, tight_windows


def test_the_windows_of_the_day_in_good_order_are_listed_from_the_tightest_on() -> None:
    windows = tight_windows(DAY, SLOW)
    assert [(w.lag.first, w.lag.second, w.minutes, w.spare) for w in windows] == [
        # the pan and the fridge are tight; the cooling stew could wait 2 of 6 minutes more, the cake as it stands
        ("sear chicken", "simmer stew", 0, 0),
        ("simmer stew", "cool stew", 0, 0),
        ("simmer stew", "pack stew", 7, 0),
        ("bake cake", "cool cake", 0, 0),
        ("cool stew", "pack stew", 0, 2),
        ("cut chicken", "sear chicken", 0, 5),
    ]
    assert str(windows[2]) == (
        "from the end of simmer stew to the end of pack stew (into the fridge): 7 minutes of 7, 0 to spare"
    )


def test_windows_that_are_not_asked_any_more_are_not_listed() -> None:
    assert [w.spare for w in tight_windows(LIVE, LIVE_SLOW)] == [1, 3]
    late = replace(LIVE, lags=(Lag("peel", "boil soup", 0, 1), Lag("boil soup", "pack soup", 0, 3)))
    assert [w.lag.first for w in tight_windows(late, LIVE_SLOW)] == ["boil soup"]


# -- a slower cook ------------------------------------------------------------------------------------


def jam(window: int) -> tuple[DayQuestion, Timetable]:
    """Jam boils for 20 minutes beside 10 of washing jars; within a window after boiling it is filled in, by hand."""
    work = unattended("boil", "", 20, burners=1), hands_on("jars", "", 10), hands_on("fill", "", 5)
    lags = Lag("boil", "fill", 0, window, limit=True, why="it sets"), Lag("jars", "fill")
    question = DayQuestion(work, lags, bench=Bench(burners=1), slower=Fraction(1))
    return question, Timetable(
        (Timed("boil", 0, 20), Timed("jars", 0, 10, (0,)), Timed("fill", 20, 25, (0,)))
    )


def test_how_slow_a_cook_may_be_is_worked_out_by_hand() -> None:
    # Jars of 10 minutes that take 24 are done 4 after the boiling: 240 per cent. Looking ends at twice as long.
    question, timetable = jam(4)
    assert how_slow(question, timetable) == HowSlow(SLOWEST_PERCENT, (), SLOWEST_PERCENT)
    # With 18 minutes of jars: 18 x 1.33 = 23.94, so 24, is in time; 18 x 1.34 = 24.12, so 25, is not. Whoever knows
    # that puts the jam on later.
    longer = replace(
        question, activities=(question.activities[0], hands_on("jars", "", 18), question.activities[2])
    )
    table = replace(timetable, times=(timetable.times[0], Timed("jars", 0, 18, (0,)), timetable.times[2]))
    assert how_slow(longer, table) == HowSlow(
        133, ("from the end of boil to the start of fill (it sets), at most 4 minutes",), SLOWEST_PERCENT
    )


def test_what_no_foresight_mends_bounds_the_retimed_pace_too() -> None:
    # From the start of mixing to the end of shaping there may be 15 minutes: 5 + 5 of work, so half as slow again.
    work = hands_on("mix", "", 5), hands_on("shape", "", 5)
    lags = Lag("mix", "shape"), Lag("mix", "shape", 0, 15, first_end=False, second_end=True)
    question = DayQuestion(work, lags, slower=Fraction(1))
    timetable = Timetable((Timed("mix", 0, 5, (0,)), Timed("shape", 5, 10, (0,))))
    # 7.5 is rounded up to 8, and 8 + 8 is too long; at 140 per cent it is 7 + 7.
    assert how_slow(question, timetable) == HowSlow(
        140, ("from the start of mix to the end of shape, at most 15 minutes",), 140
    )


def test_a_timetable_made_for_a_slower_cook_bears_that_pace_when_it_is_retimed() -> None:
    shown = bears = 0
    for seed in range(DAYS):
        question, found = small_day(seed), tried_day(seed)
        if found is None or question.slower > 2:
            continue
        stated = minutes_at(question, found[1], slow=False)
        run = run_through(question, found[1], stated, foresight=True)
        if run is None:
            continue
        nominal = retimed(question, found[1], run)
        if judge(question, nominal, slow=False):
            continue
        told = how_slow(question, nominal)
        assert told.percent >= 100, seed
        assert bool(told.breaks) == (told.percent < SLOWEST_PERCENT), seed
        assert told.retimed_percent >= max(told.percent, question.slower * 100), seed
        shown += 1
        bears += told.percent >= question.slower * 100
    assert shown >= 200
    # By the clock alone, some do not: that is why both figures are told.
    assert 0.5 <= bears / shown < 1


# -- days of chance -----------------------------------------------------------------------------------


def test_the_same_seed_gives_the_same_days_and_another_gives_others() -> None:
    question, timetable = jam(0)
    longer = replace(
        question, activities=(question.activities[0], hands_on("jars", "", 18), question.activities[2])
    )
    table = replace(timetable, times=(timetable.times[0], Timed("jars", 0, 18, (0,)), timetable.times[2]))
    one = simulate(longer, table, 200, seed=3)
    assert one == simulate(longer, table, 200, seed=3)
    assert one != simulate(longer, table, 200, seed=5)
    # 18 minutes by 0.9 to 1.3 are at most 20 (to the nearest minute) up to a factor of 20.5 / 18: 0.597 of the days.
    assert 0.52 <= one.all_held / one.runs <= 0.68
    assert one.all_held == one.limits_held == 200 - one.broken[0][1]
    assert one.broken[0][0] == question.lags[0]


def test_without_chance_every_day_is_as_planned() -> None:
    assert simulate(DAY, NOMINAL, 5, seed=0, low=1.0, high=1.0).all_held == 5
    assert simulate(DAY, SLOW, 5, seed=0, low=1.5, high=1.5).all_held == 5


def test_limits_are_counted_apart_from_other_windows() -> None:
    question, timetable = jam(0)
    lags = (replace(question.lags[0], limit=False), question.lags[1])
    longer = replace(
        question,
        lags=lags,
        activities=(question.activities[0], hands_on("jars", "", 20), question.activities[2]),
    )
    table = replace(timetable, times=(timetable.times[0], Timed("jars", 0, 20, (0,)), timetable.times[2]))
    told = simulate(longer, table, 50, seed=1, low=1.1, high=1.2)
    assert (told.runs, told.all_held, told.limits_held) == (50, 0, 50)


def test_a_cook_who_is_early_does_not_wait_for_the_clock_where_a_window_would_close() -> None:
    # By the clock of the slow timetable the chicken is seared from 12 on and done at 14, a minute early: the stew goes
    # into the pot at once, not at 15. What has no window keeps to the clock.
    run = run_through(
        DAY,
        SLOW,
        minutes_at(DAY, SLOW, slow=False),
        {node: piece.start for node, piece in nodes_of(DAY, SLOW).items()},
    )
    assert run is not None
    assert run.broken == ()
    assert (run.ends["sear chicken"], run.starts["simmer stew"]) == (14, 14)
    assert (run.starts["chop herbs"], run.starts["boil soup"]) == (15, 26)
    assert simulate(DAY, SLOW, 5, seed=0, low=1.0, high=1.0).all_held == 5


def test_a_day_on_its_way_is_simulated_from_now_on() -> None:
    assert simulate(LIVE, LIVE_SLOW, 20, seed=2).all_held == 20
    # At 2.5 times the minutes chopping ends at 13 and the wash at 18: the greens wait for 5 minutes, and 4 are the most.
    assert simulate(LIVE, LIVE_SLOW, 20, seed=2, low=2.5, high=2.5).all_held == 0
