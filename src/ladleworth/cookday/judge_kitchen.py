"""Rules of the kitchen: burners, room on the counter, microwaves, the oven's shelves and its heat."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from ladleworth.cookday.answer import Timed, Timetable
from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.judge_people import crowds
from ladleworth.cookday.question import DayQuestion, OvenCard
from ladleworth.cookday.verdict import Breach, pieces_of

# --- rule 4: no more is taken than there is ------------------------------------------------------------------


def room_suffices(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    """Burners, microwaves and the counter suffice in every minute."""
    pieces, bench = pieces_of(question, timetable), question.bench
    yield from crowds("burners", pieces, {p: p.burners for p in pieces}, bench.burners)
    yield from crowds("microwaves", pieces, {p: p.microwaves for p in pieces}, bench.microwaves)
    if bench.counter is not None:
        yield from crowds("counter", pieces, {p: p.counter for p in pieces}, bench.counter)


# --- rule 5: the oven ----------------------------------------------------------------------------------------


def shelves_suffice(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    """There is an oven for what goes into it, and its shelves suffice in every minute."""
    oven, pieces = question.bench.oven, pieces_of(question, timetable)
    if oven is not None:
        yield from crowds("oven", pieces, {p: p.shelves for p in pieces}, oven.shelves)
    elif any(piece.shelves for piece in pieces):
        names = ", ".join(piece.name for piece in pieces if piece.shelves)
        yield Breach("oven", f"{names} go into the oven, and the kitchen has none")


def heats_are_right(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    """Each load has its heat: alike for those in together, and with time to change it between the others."""
    oven = question.bench.oven
    heats = {heated.activity: heated.heat_c for heated in timetable.oven}
    for activity in question.activities:
        if activity.oven and abs(heats[activity.name] - activity.oven.want_c) > activity.oven.tolerance_c:
            wants = f"{activity.oven.want_c} °C within {activity.oven.tolerance_c}"
            yield Breach("oven", f"{activity.name} is at {heats[activity.name]} °C and wants {wants}")
    if oven is None:
        return
    loads = [time for time in timetable.times if time.activity in heats]
    new = {t.activity for t in loads if fact_at(question, t.activity, end=False) is None}
    for load in loads:
        warm_up = oven.change_min(oven.start_c, heats[load.activity])
        if load.activity in new and load.start < warm_up:
            yield Breach(
                "oven", f"{load.activity} is in at minute {load.start}; the oven is hot at minute {warm_up}"
            )
    for one, other in combinations(loads, 2):
        if not new.isdisjoint((one.activity, other.activity)):
            yield from _two_loads(oven, one, other, heats)


def _two_loads(oven: OvenCard, one: Timed, other: Timed, heats: dict[str, int]) -> Iterator[Breach]:
    before, after = sorted((one, other), key=lambda load: (load.end, load.start))
    was, becomes = heats[before.activity], heats[after.activity]
    pair = f"{before.activity} at {was} °C and {after.activity} at {becomes} °C"
    if before.end > after.start:
        if was != becomes:
            yield Breach("oven", f"{pair} are in together in minute {after.start}")
    elif after.start - before.end < oven.change_min(was, becomes):
        gap, change = after.start - before.end, oven.change_min(was, becomes)
        yield Breach("oven", f"{gap} minutes between {pair}: the change takes {change}")
