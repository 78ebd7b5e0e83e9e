"""The brute force of a cooking day reaches optima that were argued and worked out by hand.

Each case is a day small enough to settle on paper; the argument stands beside it. Hands-on work takes as long as
stated unless the case says otherwise. Measures are finish, span of hands-on work, warm minutes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from tests.model.brute_day import _choices, _Search, best_day, measure_key
from tests.model.day_fittings import Times, fit, timetable_of
from tests.model.day_rules import broken_rules, length, measure_of, merged_length
from tests.model.planted_day import CLEAN, hands_on, unattended
from tests.model.small_days import DAYS, small_day
from tests.model.tried_day import tried_day

from ladleworth.cookday.answer import Measure
from ladleworth.cookday.question import (
    NOTHING,
    Activity,
    Begun,
    Bench,
    DayQuestion,
    Lag,
    Merging,
    OvenCard,
    OvenHeat,
    ToolKind,
    ToolUse,
)


def day(*activities: Activity, **fields: object) -> DayQuestion:
    return DayQuestion(activities, **({"slower": Fraction(1)} | fields))  # type: ignore[arg-type]


def best(question: DayQuestion) -> tuple[int, int, int] | None:
    found = best_day(question)
    return None if found is None else measure_key(found)


def test_a_day_with_nothing_to_do_is_over_at_once() -> None:
    assert best(day()) == (0, 0, 0)


def test_one_cook_does_one_thing_after_the_other_and_two_do_them_at_once() -> None:
    work = hands_on("a", "", 3), hands_on("b", "", 2)
    assert best(day(*work)) == (5, 5, 0)
    assert best(day(*work, bench=Bench(cooks=2))) == (3, 3, 0)
    # 3 minutes by 6/5 are 3.6, so 4; 2 are 2.4, so 3.
    assert best(day(*work, slower=Fraction(6, 5))) == (7, 7, 0)


def test_work_for_two_waits_for_both() -> None:
    # `lift` takes both cooks: 2 + 2 with the others side by side before or after it.
    work = hands_on("a", "", 2), hands_on("b", "", 1), hands_on("lift", "", 2, 2)
    assert best(day(*work, bench=Bench(cooks=2))) == (4, 4, 0)
    assert best(day(*work)) is None


def test_what_needs_no_hands_runs_beside_them_and_is_put_on_first() -> None:
    # The pot boils for 5 after 1 minute of filling; 3 minutes of chopping fit beside it.
    work = hands_on("fill", "", 1), unattended("boil", "", 5, burners=1), hands_on("chop", "", 3)
    question = day(*work, lags=(Lag("fill", "boil"),), bench=Bench(burners=1))
    assert best(question) == (6, 4, 0)


def test_pots_wait_for_a_burner_and_for_room_to_cool() -> None:
    boils = (
        unattended("a", "", 2, burners=1),
        unattended("b", "", 3, burners=2),
        unattended("c", "", 2, burners=1),
    )
    assert best(day(*boils, bench=Bench(burners=2))) == (5, 0, 0)
    assert best(day(*boils, bench=Bench(burners=3))) == (4, 0, 0)
    assert best(day(*boils, bench=Bench(burners=4))) == (3, 0, 0)
    cools = tuple(unattended(name, "", 2, counter=1) for name in "abc")
    assert best(day(*cools, bench=Bench(counter=1))) == (6, 0, 0)
    assert best(day(*cools, bench=Bench(counter=None))) == (2, 0, 0)


def ovened(shelves: int, tolerance: int) -> DayQuestion:
    return day(
        unattended("hot", "", 4, oven=OvenHeat(200, tolerance)),
        unattended("mild", "", 4, oven=OvenHeat(180, tolerance)),
        bench=Bench(oven=OvenCard(shelves, Fraction(1), Fraction(2), 20)),
    )


def test_the_oven_heats_up_once_if_the_mild_load_goes_first() -> None:
    # Mild first: 16 to 180 degrees, 4 in, 2 up to 200, 4 in. Hot first: 18 + 4 + 4 down + 4 = 30.
    assert best(ovened(1, 0)) == (26, 0, 0)
    assert best(ovened(2, 0)) == (26, 0, 0)
    # Within 10 degrees both take 190: 17 to heat up, and 4 in together.
    assert best(ovened(2, 10)) == (21, 0, 0)
    # One after the other at 190: 17 + 4 + 4. Mild at 170, then hot at 190: 15 + 4 + 2 + 4, the same.
    assert best(ovened(1, 10)) == (25, 0, 0)
    # Within 9 degrees there is no common heat: mild at 171, hot at 191: 16 + 4 + 2 + 4 (15.1 rounded up).
    assert best(ovened(2, 9)) == (26, 0, 0)


def test_a_pot_is_washed_between_two_uses_by_hands() -> None:
    # 3 of boiling, 1 by 2 of washing, 3 of boiling
    boils = unattended("a", "", 3), unattended("b", "", 3)
    uses = ToolUse("a", "pot", ("a",)), ToolUse("b", "pot", ("b",))
    bench = Bench(tools=(ToolKind("pot", 1, 1),))
    assert best(day(*boils, uses=uses, bench=bench, slower=Fraction(2))) == (8, 2, 0)
    two = Bench(tools=(ToolKind("pot", 2, 1),))
    assert best(day(*boils, uses=uses, bench=two)) == (3, 0, 0)
    # 4 minutes of chopping keep the only cook busy: he washes after it, or chops after washing, until 8 in both cases.
    chop = hands_on("chop", "", 4)
    assert best(day(*boils, chop, uses=uses, bench=bench)) == (8, 5, 0)


def test_what_keeps_the_fat_needs_no_wash_in_the_right_order() -> None:
    # Bacon, then onions in its fat: 2 + 2. The other way round the pan is washed: 2 + 3 + 2.
    fries = unattended("onions", "", 2), unattended("bacon", "", 2)
    uses = ToolUse("onions", "pan", ("onions",), takes=("fat",)), ToolUse("bacon", "pan", ("bacon",), "fat")
    question = day(*fries, uses=uses, bench=Bench(tools=(ToolKind("pan", 1, 3),)))
    assert best(question) == (4, 0, 0)
    assert best(replace(question, lags=(Lag("onions", "bacon"),))) == (7, 3, 0)


def test_bread_is_cut_before_raw_meat_or_the_board_is_washed() -> None:
    cuts = hands_on("meat", "", 1), hands_on("bread", "", 1)
    uses = (
        ToolUse("meat", "board", ("meat",), "raw", ("raw", CLEAN)),
        ToolUse("bread", "board", ("bread",), CLEAN, (CLEAN,)),
    )
    question = day(*cuts, uses=uses, bench=Bench(tools=(ToolKind("board", 1, 2),)))
    assert best(question) == (2, 2, 0)
    assert best(replace(question, lags=(Lag("meat", "bread"),))) == (4, 4, 0)


def test_preparing_for_two_dishes_at_once_is_done_if_it_is_shorter() -> None:
    work = hands_on("a", "", 3), hands_on("b", "", 3), unattended("boil", "", 4, burners=1)
    question = day(*work, lags=(Lag("a", "boil"),), bench=Bench(burners=1))
    # Apart: a, then b beside the pot: 3 + 4. Together in 4: 4 + 4, though fewer hands-on minutes.
    assert best(replace(question, mergings=(Merging("both", ("a", "b"), 4),))) == (7, 6, 0)
    # In 3 together it is as early, with a shorter span of hands-on work.
    assert best(replace(question, mergings=(Merging("both", ("a", "b"), 3),))) == (7, 3, 0)


def test_food_waits_to_be_packed_while_the_cook_is_busy() -> None:
    # Stirring 2, cooling 1 to 4, packing 1 at once; dough needs 2 minutes of hands right after the stirring. Packing
    # then is at 4, after 2 minutes of cooling. If it may cool for 1 minute only, it must be 2 + 1 + 1 with the dough
    # before or after; the dough may not be before, and comes 1 minute too late after.
    work = (
        hands_on("stir", "", 2),
        unattended("cool", "", 1, 4, warm=True),
        hands_on("pack", "", 1),
        hands_on("dough", "", 2),
    )
    lags = Lag("stir", "cool", 0, 0), Lag("cool", "pack", 0, 0), Lag("stir", "dough", 0, 0)
    assert best(day(*work, lags=lags)) == (5, 5, 2)
    short = replace(work[1], most_min=1)
    assert best(day(work[0], short, *work[2:], lags=lags)) is None


def test_a_least_lag_makes_wait_and_a_greatest_one_holds_back() -> None:
    work = hands_on("knead", "", 1), hands_on("shape", "", 1)
    assert best(day(*work, lags=(Lag("knead", "shape", 5),))) == (7, 7, 0)
    # The sauce must be hot when the pasta is done: 6 of sauce, 2 of pasta, at most 1 apart.
    pots = unattended("pasta", "", 2, warm=True), unattended("sauce", "", 6, warm=True)
    tied = (Lag("pasta", "sauce", -1, 1, second_end=True),)
    assert best(day(*pots, lags=tied)) == (6, 0, 8)


def test_the_fewest_minutes_warm_come_after_the_shortest_span_of_work() -> None:
    # The soup cools for 1 to 9 minutes until it is packed, in any case before the bread is done at 9; with stirring
    # tied to the start, a short span of hands-on work packs it at once.
    work = hands_on("stir", "", 1), unattended("cool", "", 1, 9, warm=True), hands_on("pack", "", 1)
    question = day(
        *work, unattended("bake", "", 9), lags=(Lag("stir", "cool", 0, 0), Lag("cool", "pack", 0, 0))
    )
    assert best(question) == (9, 3, 1)
    # The look in the oven is tied to its end: the whole must span 9, and still the soup stays warm for 1 minute.
    looked = replace(
        question,
        activities=(*question.activities, hands_on("look", "", 1)),
        lags=(
            *question.lags,
            Lag("bake", "look", 0, 0, second_end=True),
            Lag("stir", "bake", 0, 0, first_end=False),
        ),
    )
    assert best(looked) == (9, 9, 1)


@pytest.mark.parametrize(
    "question",
    [
        day(hands_on("lift", "", 1, 2)),
        day(unattended("boil", "", 1, burners=1)),
        day(unattended("bake", "", 1, oven=OvenHeat(100))),
        day(unattended("bake", "", 1, oven=OvenHeat(100, 0, 2)), bench=Bench(oven=OvenCard(1))),
        day(hands_on("a", "", 1), hands_on("b", "", 1), lags=(Lag("a", "b"), Lag("b", "a"))),
        day(hands_on("a", "", 3), hands_on("b", "", 3), deadline=5),
        day(hands_on("a", "", 3), hands_on("b", "", 3), lags=(Lag("a", "b", -2, 2, False, False),)),
        day(
            unattended("a", "", 1),
            uses=(ToolUse("x", "pot", ("a",)), ToolUse("y", "pot", ("a",))),
            bench=Bench(tools=(ToolKind("pot"),)),
        ),
    ],
    ids=[
        "hands",
        "burners",
        "no oven",
        "shelves",
        "a circle",
        "deadline",
        "never at once",
        "two pots at once",
    ],
)
def test_a_day_that_cannot_be_has_no_timetable(question: DayQuestion) -> None:
    assert best(question) is None


def test_a_day_on_its_way_goes_on_from_now() -> None:
    # Peeling began at 1 and ended at 6; chopping runs since 6 and ends at 8; boiling 3 follows it, from 8.
    work = hands_on("peel", "", 4), hands_on("chop", "", 2), unattended("boil", "", 3, burners=1)
    begun = Begun("peel", 1, 6), Begun("chop", 6)
    question = day(*work, lags=(Lag("chop", "boil", 0, 1),), bench=Bench(burners=1), now=7, begun=begun)
    assert best(question) == (11, 7, 0)
    # At 9 it should be over, and is taken to end now.
    assert best(replace(question, now=9)) == (12, 8, 0)
    # Had it ended at 8, the pot should have been on by 9; at 12 it is put on at once, or whenever.
    over = replace(question, now=12, begun=(begun[0], Begun("chop", 6, 8)))
    assert best(over) == (15, 7, 0)


# -- against trying still more naively --------------------------------------------------------------------


def every_time(question: DayQuestion, merged: tuple[str, ...], last: int) -> Iterator[Times]:
    """Yield all starts and lengths up to a minute, whatever the lags say."""
    ways = []
    for activity in question.activities:
        merging = next(
            (m for m in question.mergings if m.name in merged and activity.name in m.activities), None
        )
        least, most = (
            (length(question, activity, m, True) for m in (activity.least_min, activity.most_min))
            if merging is None
            else (merged_length(question, merging, True),) * 2
        )
        spans = [(s, e) for s in range(last + 1) for e in range(s + least, min(last, s + most) + 1)]
        ways.append(spans)
    for picked in product(*ways):
        yield dict(zip((a.name for a in question.activities), picked, strict=True))


def naive(question: DayQuestion, last: int) -> Measure | None:
    """Return the best measure of all timetables that are done by a minute."""
    found: Measure | None = None
    for count in product((False, True), repeat=len(question.mergings)):
        merged = tuple(m.name for m, done in zip(question.mergings, count, strict=True) if done)
        of = {name: m.activities for m in question.mergings if m.name in merged for name in m.activities}
        for times in every_time(question, merged, last):
            if any(times[name] != times[others[0]] for name, others in of.items()):
                continue
            busy = [0] * (last + 1)
            for activity in question.activities:
                others = of.get(activity.name, (activity.name,))
                if activity.name == others[0]:
                    hands = max(a.hands for a in question.activities if a.name in others)
                    for minute in range(*times[activity.name]):
                        busy[minute] += hands
            if max(busy) > question.bench.cooks:
                continue
            fitted = fit(question, merged, times, busy)
            if fitted is None:
                continue
            timetable = timetable_of(question, merged, times, fitted)
            measure = measure_of(question, timetable)
            if found is not None and measure_key(measure) >= measure_key(found):
                continue
            if not broken_rules(question, timetable, True):
                found = measure
    return found


def test_the_search_finds_what_trying_every_minute_finds_without_leaving_anything_out() -> None:
    tried = impossible = 0
    for seed in range(DAYS):
        question = small_day(seed)
        found = tried_day(seed)
        finish = 6 if found is None else found[0].finish
        if len(question.activities) > 3 or finish > 7 or question.begun:
            continue
        assert naive(question, finish) == (found and found[0]), seed
        tried += 1
        impossible += found is None
    assert tried >= 15
    assert impossible >= 2


def test_a_day_without_a_timetable_has_none_with_twice_the_time_either() -> None:
    looked = 0
    for seed in range(DAYS):
        question = small_day(seed)
        if tried_day(seed) is None and question.deadline is None:
            for choice in _choices(question):
                search = _Search(question, choice)
                if search.possible and search.horizon < 20:
                    assert not search.any(2 * search.horizon), seed
                    looked += 1
    assert looked >= 12


def test_nothing_on_a_tool_needs_no_wash() -> None:
    boils = unattended("a", "", 3), unattended("b", "", 3)
    uses = ToolUse("a", "pot", ("a",), NOTHING), ToolUse("b", "pot", ("b",), NOTHING)
    assert best(day(*boils, uses=uses, bench=Bench(tools=(ToolKind("pot", 1, 1),)))) == (6, 0, 0)
