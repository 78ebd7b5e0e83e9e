"""The judge of a cooking day and the second writing of its rules agree, on timetables in order and on spoilt ones."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace
from math import ceil

from tests.model.brute_day import measure_key
from tests.model.day_rules import EVERY_RULE, broken_rules, measure_of
from tests.model.small_days import DAYS, small_day
from tests.model.tried_day import tried_day

from ladleworth.cookday.answer import Heated, Held, Timed, Timetable, Washed
from ladleworth.cookday.judge import judge, measure
from ladleworth.cookday.question import DayQuestion

STIRRED = 16
"""How many spoilt timetables are made of each day."""


def agreed(question: DayQuestion, timetable: Timetable, where: object, slow: bool = True) -> set[str]:
    """Hold the judge against the second writing of the rules; return the rules that are broken."""
    breaches = judge(question, timetable, slow=slow)
    broken = {breach.rule for breach in breaches}
    assert broken == broken_rules(question, timetable, slow), (where, timetable, breaches)
    assert measure(question, timetable) == measure_of(question, timetable), (where, timetable)
    return broken


def test_every_best_timetable_stands_at_its_measure() -> None:
    stood = 0
    for seed in range(DAYS):
        found = tried_day(seed)
        if found is not None:
            assert agreed(small_day(seed), found[1], seed) == set()
            assert measure(small_day(seed), found[1]) == found[0], seed
            stood += 1
    assert stood >= DAYS * 0.7


# -- spoilt timetables --------------------------------------------------------------------------------


def anyhow(question: DayQuestion, dice: random.Random) -> Timetable:
    """Return a timetable that names everything once and has the lengths of the slow pace, at any times."""
    floor = max(0, question.now)
    begun = {b.activity: b for b in question.begun}
    times = []
    for activity in question.activities:
        start = begun[activity.name].start if activity.name in begun else floor + dice.randint(0, 9)
        end = start + dice.randint(
            question.slow_min(activity), max(activity.most_min, question.slow_min(activity))
        )
        if activity.name in begun:
            end = begun[activity.name].end or max(end, question.now)
        cooks = tuple(range(min(activity.hands, question.bench.cooks)))
        times.append(Timed(activity.name, start, end, cooks))
    return Timetable(
        tuple(times),
        tuple(Held(use.name, 0) for use in question.uses),
        (),
        tuple(Heated(a.name, a.oven.want_c) for a in question.activities if a.oven),
    )


def stirred(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    """Return the timetable with one to three random changes; it still names everything once."""
    for _ in range(dice.choice((1, 1, 2, 3))):
        timetable = dice.choice((_later, _later, _longer, _passed_on, _swapped, *_FITTINGS))(
            question, timetable, dice
        )
    return timetable


def _with(timetable: Timetable, n: int, time: Timed) -> Timetable:
    return replace(timetable, times=(*timetable.times[:n], time, *timetable.times[n + 1 :]))


def _together(question: DayQuestion, timetable: Timetable, name: str) -> list[int]:
    """The places of all that is done in one go with an activity."""
    for merging in question.mergings:
        if merging.name in timetable.merged and name in merging.activities:
            return [n for n, t in enumerate(timetable.times) if t.activity in merging.activities]
    return [n for n, t in enumerate(timetable.times) if t.activity == name]


def _later(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    """Move one piece of work, or everything from some minute on."""
    minutes, time = dice.choice((-3, -2, -1, -1, 1, 1, 2, 3)), dice.choice(timetable.times)
    places = _together(question, timetable, time.activity)
    if dice.random() < 0.3:
        places = [n for n, t in enumerate(timetable.times) if t.start >= time.start]
        washes = (
            replace(w, start=w.start + minutes, end=w.end + minutes) if w.start >= time.start else w
            for w in timetable.washes
        )
        timetable = replace(timetable, washes=tuple(washes))
    for n in places if dice.random() < 0.95 else places[:1]:
        one = timetable.times[n]
        timetable = _with(timetable, n, replace(one, start=one.start + minutes, end=one.end + minutes))
    return timetable


def _longer(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    n = dice.randrange(len(timetable.times))
    time = timetable.times[n]
    return _with(timetable, n, replace(time, end=max(time.start, time.end + dice.choice((-1, 1, 2)))))


def _passed_on(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    """Give one piece of work to other people, mostly as many as before."""
    time = dice.choice(timetable.times)
    staff = range(question.bench.cooks + (dice.random() < 0.1))
    count = len(time.cooks) + (dice.choice((-1, 1)) if dice.random() < 0.2 else 0)
    cooks = tuple(dice.sample(staff, max(0, min(count, len(staff)))))
    places = _together(question, timetable, time.activity)
    for n in places if dice.random() < 0.9 else places[:1]:
        timetable = _with(timetable, n, replace(timetable.times[n], cooks=cooks))
    return timetable


def _swapped(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    """Let two things change places."""
    if len(timetable.times) < 2:
        return timetable
    one, other = dice.sample(range(len(timetable.times)), 2)
    a, b = timetable.times[one], timetable.times[other]
    first = replace(a, start=b.start, end=b.start + a.end - a.start)
    second = replace(b, start=a.start, end=a.start + b.end - b.start)
    return _with(_with(timetable, one, first), other, second)


def _washed(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    """Leave a wash out, move it, give it to somebody else, or wash once more."""
    washes = list(timetable.washes)
    way = dice.choice(("out", "move", "cook", "more"))
    if washes and way != "more":
        n = dice.randrange(len(washes))
        wash, by = washes[n], dice.choice((-1, 1))
        if way == "out":
            del washes[n]
        elif way == "move":
            washes[n] = replace(wash, start=wash.start + by, end=wash.end + by)
        else:
            washes[n] = replace(wash, cook=dice.randrange(question.bench.cooks))
    elif question.uses and way == "more":
        tool = dice.choice(question.bench.tools)
        start = question.now + dice.randint(0, 8)
        minutes = ceil(tool.wash_min * question.slower)
        washes.append(Washed(tool.name, 0, start, start + minutes, dice.randrange(question.bench.cooks)))
    return replace(timetable, washes=tuple(washes))


def _retooled(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    if not timetable.tools:
        return timetable
    n = dice.randrange(len(timetable.tools))
    held = replace(timetable.tools[n], which=dice.choice((0, 0, 1, 1, 2)))
    return replace(timetable, tools=(*timetable.tools[:n], held, *timetable.tools[n + 1 :]))


def _heated(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    if not timetable.oven:
        return timetable
    n = dice.randrange(len(timetable.oven))
    heated = replace(timetable.oven[n], heat_c=timetable.oven[n].heat_c + dice.choice((-2, -1, 1, 2)))
    return replace(timetable, oven=(*timetable.oven[:n], heated, *timetable.oven[n + 1 :]))


def _remerged(question: DayQuestion, timetable: Timetable, dice: random.Random) -> Timetable:
    """Do as one what was not, at one time and mostly of the right length; or the other way round."""
    if not question.mergings or timetable.merged:
        return replace(timetable, merged=())
    merging = dice.choice(question.mergings)
    first = timetable.timed(merging.activities[0])
    hands = max(question.activity(name).hands for name in merging.activities)
    minutes = ceil(merging.minutes * question.slower) if hands else merging.minutes
    for n, time in enumerate(timetable.times):
        if time.activity in merging.activities:
            cooks = tuple(range(min(hands, question.bench.cooks)))
            timetable = _with(
                timetable, n, replace(time, start=first.start, end=first.start + minutes, cooks=cooks)
            )
    return replace(timetable, merged=(merging.name,))


_FITTINGS = (_washed, _washed, _retooled, _heated, _remerged)


def as_stated(question: DayQuestion, timetable: Timetable) -> Timetable:
    """Return the timetable with hands-on work as short as stated, from the same starts."""
    merged = {n: m for m in question.mergings if m.name in timetable.merged for n in m.activities}
    times = []
    for time in timetable.times:
        activity = question.activity(time.activity)
        minutes = merged[time.activity].minutes if time.activity in merged else activity.least_min
        ran = any(b.activity == time.activity for b in question.begun)
        hands = time.cooks and not ran
        times.append(replace(time, end=time.start + minutes) if hands else time)
    stated = {tool.name: tool.wash_min for tool in question.bench.tools}
    washes = tuple(replace(w, end=w.start + stated[w.kind]) for w in timetable.washes)
    return replace(timetable, times=tuple(times), washes=washes)


def test_random_timetables_break_the_same_rules_by_both_writings_and_none_beats_the_best() -> None:
    dice = random.Random(5)
    stood = 0
    fell: Counter[str] = Counter()
    for seed in range(DAYS):
        question, found = small_day(seed), tried_day(seed)
        for n in range(STIRRED):
            whole = found[1] if found is not None and n % 8 else anyhow(question, dice)
            timetable = stirred(question, whole, dice)
            slow = n % 4 != 3
            if not slow:
                timetable = as_stated(question, timetable)
            broken = agreed(question, timetable, (seed, n), slow)
            fell.update(broken)
            if not broken and slow:
                stood += 1
                assert found is not None, (seed, timetable)
                assert measure_key(measure(question, timetable)) >= measure_key(found[0]), (seed, timetable)
    assert stood >= 300
    assert {name for name in EVERY_RULE if fell[name] < 25} == set(), fell
    assert set(fell) == EVERY_RULE
