"""Cooking days built around a timetable that is possible in them: one as good is found, and the same one every time."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from bench.made_days import made_day
from hypothesis import given, settings
from hypothesis import strategies as st

from ladleworth.cookday import (
    Activity,
    Begun,
    Bench,
    DayAnswer,
    DayQuestion,
    Lag,
    OvenCard,
    OvenHeat,
    Status,
    Timed,
    Timetable,
    ToolKind,
    ToolUse,
    Washed,
    judge,
    replan,
    timetable,
)
from ladleworth.cookday.answer import Heated, Held

Pick = st.DrawFn
SLOWER = Fraction(3, 2)
WASH_MIN = 2
OVEN = OvenCard(shelves=2, heating_min_per_10c=Fraction(1), cooling_min_per_10c=Fraction(3, 2), start_c=20)


class Kitchen:
    """A timetable in the making: who and what is free from which minute on, at the slow pace."""

    def __init__(self, cooks: int, burners: int) -> None:
        self.cooks = [0] * cooks
        self.burners = [0] * burners
        self.pot, self.pot_used = 0, False
        self.oven, self.heat = OVEN.change_min(OVEN.start_c, 180), 180
        self.times: list[Timed] = []
        self.activities: list[Activity] = []
        self.washes: list[Washed] = []
        self.uses: list[ToolUse] = []
        self.heats: list[Heated] = []


def slow(minutes: int) -> int:
    return -int(-minutes * SLOWER // 1)


@st.composite
def planted(pick: Pick) -> tuple[DayQuestion, Timetable]:
    """A timetable, and a day with no more of anything than it takes: windows, people, burners and deadline are tight."""
    kitchen = Kitchen(pick(st.integers(1, 2)), pick(st.integers(1, 2)))
    for n in range(pick(st.integers(1, 7))):
        SORTS[pick(st.integers(0, len(SORTS) - 1))](pick, kitchen, f"work {n}")
    bench = Bench(len(kitchen.cooks), len(kitchen.burners), OVEN, tools=(ToolKind("pot", 1, WASH_MIN),))
    day = DayQuestion(
        tuple(kitchen.activities),
        lags=tuple(windows(pick, kitchen)),
        uses=tuple(kitchen.uses),
        bench=bench,
        slower=SLOWER,
        deadline=max(t.end for t in (*kitchen.times, *kitchen.washes)),
    )
    held = tuple(Held(use.name, 0) for use in day.uses)
    return day, Timetable(tuple(kitchen.times), held, tuple(kitchen.washes), tuple(kitchen.heats))


def first_free(free: list[int]) -> int:
    return min(range(len(free)), key=free.__getitem__)


def by_hand(pick: Pick, kitchen: Kitchen, name: str) -> None:
    """Work for one person, on a burner or not."""
    minutes, cook = pick(st.integers(1, 9)), first_free(kitchen.cooks)
    burner = first_free(kitchen.burners) if pick(st.booleans()) else None
    start = kitchen.cooks[cook] + pick(st.sampled_from((0, 0, 0, 3)))
    if burner is not None:
        start = max(start, kitchen.burners[burner])
        kitchen.burners[burner] = start + slow(minutes)
    kitchen.cooks[cook] = start + slow(minutes)
    kitchen.activities.append(Activity(name, "", name, minutes, minutes, 1, int(burner is not None)))
    kitchen.times.append(Timed(name, start, start + slow(minutes), (cook,)))


def in_the_pot(pick: Pick, kitchen: Kitchen, name: str) -> None:
    """Something on a burner by itself in the only pot, which is washed before it unless it is clean."""
    minutes, burner = pick(st.integers(1, 15)), first_free(kitchen.burners)
    start = max(kitchen.pot, kitchen.burners[burner])
    if kitchen.pot_used:
        cook = first_free(kitchen.cooks)
        wash = max(kitchen.pot, kitchen.cooks[cook])
        kitchen.washes.append(Washed("pot", 0, wash, wash + slow(WASH_MIN), cook))
        kitchen.cooks[cook] = wash + slow(WASH_MIN)
        start = max(start, kitchen.cooks[cook])
    kitchen.pot, kitchen.pot_used = start + minutes, True
    kitchen.burners[burner] = start + minutes
    kitchen.activities.append(Activity(name, "", name, minutes, minutes, burners=1))
    kitchen.uses.append(ToolUse(f"{name}, pot", "pot", (name,)))
    kitchen.times.append(Timed(name, start, start + minutes))


def in_the_oven(pick: Pick, kitchen: Kitchen, name: str) -> None:
    """A load after all loads before it, at a heat that the oven has time for; it wants up to 10 degrees more or less."""
    minutes, heat = pick(st.integers(5, 20)), 10 * pick(st.integers(16, 20))
    start = kitchen.oven + OVEN.change_min(kitchen.heat, heat)
    off = pick(st.integers(-10, 10))
    kitchen.oven, kitchen.heat = start + minutes, heat
    oven = OvenHeat(heat + off, abs(off), pick(st.integers(1, 2)))
    kitchen.activities.append(Activity(name, "", name, minutes, minutes, oven=oven))
    kitchen.times.append(Timed(name, start, start + minutes))
    kitchen.heats.append(Heated(name, heat))


def cooling(pick: Pick, kitchen: Kitchen, name: str) -> None:
    """Waiting of an open length, at any time."""
    start, least, longer = pick(st.integers(0, 20)), pick(st.integers(0, 20)), pick(st.integers(0, 20))
    minutes = pick(st.integers(least, least + longer))
    kitchen.activities.append(Activity(name, "", name, least, least + longer, warm=True))
    kitchen.times.append(Timed(name, start, start + minutes))


SORTS = (by_hand, by_hand, in_the_pot, in_the_oven, cooling)


def windows(pick: Pick, kitchen: Kitchen) -> list[Lag]:
    """Lags that the timetable keeps, and keeps too where hands-on work starts as it does and ends sooner."""
    lags = []
    for n, first in enumerate(kitchen.times):
        for second in kitchen.times[n + 1 :]:
            if second.start < first.end or not pick(st.booleans()):
                continue
            stated = kitchen.activities[n]
            sooner = first.end - first.start - stated.least_min if stated.hands else 0
            gap = second.start - first.end
            most = gap + sooner + pick(st.sampled_from((0, 2))) if pick(st.booleans()) else None
            lags.append(
                Lag(first.activity, second.activity, pick(st.integers(0, gap)), most, limit=most is not None)
            )
    return lags


def stands(question: DayQuestion, answer: DayAnswer) -> bool:
    assert answer.slow is not None
    assert answer.nominal is not None
    return not judge(question, answer.slow, slow=True) and not judge(question, answer.nominal, slow=False)


@settings(max_examples=80)
@given(planted())
def test_a_day_that_is_possible_is_found_to_be_and_done_no_later(day: tuple[DayQuestion, Timetable]) -> None:
    question, known = day
    assert judge(question, known, slow=True) == ()
    answer = timetable(question, seconds=20.0)
    assert answer.status is Status.PROVEN, answer.why_not
    assert answer.measure is not None
    assert answer.bound == answer.measure.finish <= max(t.end for t in (*known.times, *known.washes))
    assert stands(question, answer)


@settings(max_examples=20)
@given(planted(), st.integers(0, 3))
def test_the_same_question_has_the_same_timetable(day: tuple[DayQuestion, Timetable], seed: int) -> None:
    question, _ = day
    one = timetable(question, seconds=20.0, seed=seed, workers=1)
    two = timetable(question, seconds=20.0, seed=seed, workers=2)
    assert (one.status, one.slow, one.nominal, one.bound) == (two.status, two.slow, two.nominal, two.bound)


@pytest.mark.parametrize(("seed", "dishes", "cooks"), [(1, 3, 1), (2, 3, 2), (2, 5, 1)])
def test_the_same_made_day_has_the_same_timetable(seed: int, dishes: int, cooks: int) -> None:
    question = made_day(seed, dishes, cooks)
    one, two = (timetable(question, seconds=60.0, workers=workers) for workers in (1, 2))
    assert one.status is two.status is Status.PROVEN
    assert (one.slow, one.nominal) == (two.slow, two.nominal)


@settings(max_examples=40)
@given(planted(), st.data())
def test_a_day_that_goes_as_planned_is_done_as_planned(
    day: tuple[DayQuestion, Timetable], data: st.DataObject
) -> None:
    question, _ = day
    earlier = timetable(question, seconds=20.0)
    assert earlier.slow is not None
    assert earlier.measure is not None
    now = data.draw(st.integers(0, earlier.measure.finish))
    begun = tuple(
        Begun(time.activity, time.start, time.end if time.end <= now else None)
        for time in earlier.slow.times
        if time.start < now
    )
    # nothing has been washed by now that must be washed again
    washed = [wash for wash in earlier.slow.washes if wash.start < now]
    later = replace(question, now=now, begun=begun, deadline=None)
    answer = replan(later, earlier, seconds=10.0)
    assert answer.status in (Status.PROVEN, Status.GOOD), answer.why_not
    assert answer.measure is not None
    assert stands(later, answer)
    assert answer.slow is not None
    for fact in begun:
        assert answer.slow.timed(fact.activity).start == fact.start
    if not washed:
        assert answer.measure.finish <= earlier.measure.finish
