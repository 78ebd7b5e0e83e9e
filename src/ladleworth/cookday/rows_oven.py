"""The oven's heat as rows: each load has its heat, and the oven has time to change it."""

from __future__ import annotations

from itertools import combinations

from ladleworth.cookday.columns import DayModel
from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.question import Activity, OvenCard
from ladleworth.cookday.sheet import Sum


def columns_for_heats(model: DayModel) -> None:
    """Add the heat of each load, within what it may be; an earlier timetable's for what has begun."""
    for activity in model.question.activities:
        if activity.oven is not None:
            low, high = _range(model, activity)
            fixed = low == high
            model.heats[activity.name] = Sum(constant=low) if fixed else model.sheet.whole(low, high)


def _range(model: DayModel, activity: Activity) -> tuple[int, int]:
    assert activity.oven is not None
    want, tolerance = activity.oven.want_c, activity.oven.tolerance_c
    kept = model.kept.heats.get(activity.name)
    if kept is not None and abs(kept - want) <= tolerance:
        return kept, kept
    return want - tolerance, want + tolerance


def heats_are_right(model: DayModel) -> None:
    """Loads that are in together have the same heat; before each, and between two others, it is changed in time."""
    oven = model.question.bench.oven
    if oven is None:
        return
    loads = [activity for activity in model.question.activities if activity.oven]
    new = {a.name for a in loads if fact_at(model.question, a.name, end=False) is None}
    for activity in loads:
        if activity.name in new:
            _change(model, oven, Sum(constant=oven.start_c), activity, Sum(), ())
    for one, other in combinations(loads, 2):
        if not new.isdisjoint((one.name, other.name)):
            _two_loads(model, oven, one, other)


def _change(
    model: DayModel, oven: OvenCard, heat: Sum, after: Activity, since: Sum, when: tuple[int, ...]
) -> None:
    """From a heat at some moment on there is time to heat or cool the oven before a load goes in.

    The minutes are whole, so asking for the exact time asks for it rounded up.
    """
    start, rise = model.starts[after.name], model.heats[after.name] - heat
    model.sheet.after(start, since, when=when)
    for rate, degrees in ((oven.heating_min_per_10c, rise), (oven.cooling_min_per_10c, rise.times(-1))):
        gap = (start - since).times(10 * rate.denominator)
        model.sheet.after(gap, degrees.times(rate.numerator), when=when)


def _two_loads(model: DayModel, oven: OvenCard, one: Activity, other: Activity) -> None:
    """One load comes before the other, or both have the same heat."""
    sheet = model.sheet
    alike = _ways_alike(model, one, other)
    if alike is None:
        return
    for before, after in ((one, other), (other, one)):
        if not _can_follow(model, after, before):
            continue
        literal = sheet.either()
        heat, end = model.heats[before.name], model.ends[before.name]
        _change(model, oven, heat, after, end, (literal,))
        alike.append(literal)
    sheet.clause(*alike)


def _ways_alike(model: DayModel, one: Activity, other: Activity) -> list[int] | None:
    """List the literal of the same heat if it can be the same; None if it always is."""
    first, second = model.heats[one.name], model.heats[other.name]
    if not first.terms and not second.terms:
        return None if first.constant == second.constant else []
    (low, high), (least, most) = _range(model, one), _range(model, other)
    if max(low, least) > min(high, most):
        return []
    literal = model.sheet.either()
    model.sheet.equal(first, second, (literal,))
    return [literal]


def _can_follow(model: DayModel, after: Activity, before: Activity) -> bool:
    """Tell whether a load can start once another has ended, as far as ties and windows say."""
    last_start = model.window(after.name, end=False)[1]
    first_end = model.window(before.name, end=True)[0]
    return first_end <= last_start and not model.surely_after((before.name, True), (after.name, False), 1)
