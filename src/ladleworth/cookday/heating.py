"""The oven's heats of a timetable brought as near to what the loads want as its times allow."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import combinations

from ladleworth.cookday.answer import Heated, Timed, Timetable
from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.model import Manner, run
from ladleworth.cookday.question import Activity, DayQuestion, OvenCard
from ladleworth.cookday.sheet import Sheet, Sum

HEAT_WORK = 0.5
"""The most work for it; where that is not enough the heats stay as they were found."""


def wanted_heats(question: DayQuestion, timetable: Timetable, kept: Mapping[str, int]) -> Timetable:
    """Choose the heats of a timetable anew, its times as they are, as near as possible to those wanted.

    Parameters
    ----------
    question, timetable
        The question, and a timetable that keeps its rules.
    kept
        The heat of loads that have begun, in degrees Celsius, where it is known.
    """
    oven = question.bench.oven
    loads = [a for a in question.activities if a.oven]
    if oven is None or all(
        h.heat_c == a.oven.want_c for h, a in zip(timetable.oven, loads, strict=True) if a.oven
    ):
        return timetable
    sheet = Sheet()
    heats = {load.name: _heat(sheet, load, kept) for load in loads}
    new = {load.name for load in loads if fact_at(question, load.name, end=False) is None}
    for load in loads:
        if load.name in new:
            _change(
                sheet, oven, Sum(constant=oven.start_c), heats[load.name], timetable.timed(load.name).start
            )
    for one, other in combinations([timetable.timed(load.name) for load in loads], 2):
        if not new.isdisjoint((one.activity, other.activity)):
            _two(sheet, oven, one, other, heats)
    found = run(
        sheet, _deviation(sheet, loads, heats), HEAT_WORK, manner=Manner(relaxation=1, disjunctive=False)
    )
    if found.values is None:
        return timetable
    oven_now = tuple(Heated(load.name, heats[load.name].value(found.values)) for load in loads)
    return replace(timetable, oven=oven_now)


def _heat(sheet: Sheet, load: Activity, kept: Mapping[str, int]) -> Sum:
    assert load.oven is not None
    low, high = load.oven.want_c - load.oven.tolerance_c, load.oven.want_c + load.oven.tolerance_c
    known = kept.get(load.name)
    return sheet.whole(low, high) if known is None or not low <= known <= high else sheet.whole(known, known)


def _change(sheet: Sheet, oven: OvenCard, before: Sum, after: Sum, minutes: int) -> None:
    """The oven comes from one heat to another in so many minutes."""
    rise = after - before
    for rate, degrees in ((oven.heating_min_per_10c, rise), (oven.cooling_min_per_10c, rise.times(-1))):
        sheet.row(degrees.times(rate.numerator), None, minutes * 10 * rate.denominator)


def _two(sheet: Sheet, oven: OvenCard, one: Timed, other: Timed, heats: Mapping[str, Sum]) -> None:
    before, after = sorted((one, other), key=lambda load: (load.end, load.start))
    if before.end > after.start:
        sheet.equal(heats[before.activity], heats[after.activity])
    else:
        _change(sheet, oven, heats[before.activity], heats[after.activity], after.start - before.end)


def _deviation(sheet: Sheet, loads: list[Activity], heats: Mapping[str, Sum]) -> Sum:
    """Degrees by which the heats miss those wanted, added up."""
    total = Sum()
    for load in loads:
        assert load.oven is not None
        missed = sheet.whole(0, load.oven.tolerance_c)
        sheet.after(missed, heats[load.name] - load.oven.want_c)
        sheet.after(missed, (heats[load.name] - load.oven.want_c).times(-1))
        total = total + missed
    return total
