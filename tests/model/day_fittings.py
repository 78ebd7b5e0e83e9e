"""Heats, tools, washes and people for given times of a tiny day, found by trying every choice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise, product
from math import ceil

from tests.model.day_rules import heat_change, needs_wash, shared_uses

from ladleworth.cookday.answer import Heated, Held, Timed, Timetable, Washed
from ladleworth.cookday.question import DayQuestion

Times = dict[str, tuple[int, int]]
Wash = tuple[str, int, int, int]
"""Kind, number of the tool, start, end."""


@dataclass(frozen=True)
class Fitted:
    """Heats by activity, tools by use, washes, and how long the hands-on work then spans."""

    heats: dict[str, int]
    which: dict[str, int]
    washes: tuple[Wash, ...]
    hands_span: int


def fit(question: DayQuestion, merged: tuple[str, ...], times: Times, busy: list[int]) -> Fitted | None:
    """Return the choice with the shortest span of hands-on work; None if there is none.

    `busy` are the hands that the activities take, minute by minute.
    """
    heats = heats_for(question, times)
    if heats is None:
        return None
    hands = [times[a.name] for a in question.activities if a.hands]
    found: Fitted | None = None
    for which in _tools(question):
        gaps = _gaps(question, merged, times, which)
        if gaps is None:
            continue
        for washes in _washes(question, gaps, busy):
            spans = [*hands, *((start, end) for _, _, start, end in washes)]
            span = max((e for _, e in spans), default=0) - min((s for s, _ in spans), default=0)
            if found is None or span < found.hands_span:
                found = Fitted(heats, which, washes, span)
    return found


def heats_for(question: DayQuestion, times: Times) -> dict[str, int] | None:
    """Return heats for the loads that have a time; None if there are none."""
    return next(_heats(question, times, {}), None)


def _heats(question: DayQuestion, times: Times, chosen: dict[str, int]) -> Iterator[dict[str, int]]:
    """Yield every heat for every load that leaves the oven the time to change."""
    oven = question.bench.oven
    loads = (a for a in question.activities if a.oven and a.name in times and a.name not in chosen)
    load = next(loads, None)
    if load is None or load.oven is None or oven is None:
        if load is None:
            yield chosen
        return
    begun = {b.activity for b in question.begun}
    start, end = times[load.name]
    for heat in range(load.oven.want_c - load.oven.tolerance_c, load.oven.want_c + load.oven.tolerance_c + 1):
        if load.name not in begun and start < heat_change(oven, oven.start_c, heat):
            continue
        fits = all(
            heat == other
            or (name in begun and load.name in begun)
            or times[name][1] + heat_change(oven, other, heat) <= start
            or end + heat_change(oven, heat, other) <= times[name][0]
            for name, other in chosen.items()
        )
        if fits:
            yield from _heats(question, times, chosen | {load.name: heat})


def tools_suffice(question: DayQuestion, merged: tuple[str, ...], times: Times) -> bool:
    """Say whether there are tools for the uses all of whose activities have a time."""
    ready = replace(question, uses=tuple(use for use in question.uses if times.keys() >= set(use.activities)))
    return any(_gaps(ready, merged, times, which) is not None for which in _tools(ready))


def _tools(question: DayQuestion) -> Iterator[dict[str, int]]:
    """Yield every way to hand out the tools. Tools of a kind are alike: one is first taken after those before it."""
    counts = {tool.name: tool.count for tool in question.bench.tools}
    for numbers in product(*(range(counts[use.kind]) for use in question.uses)):
        fresh = dict.fromkeys(counts, 0)
        for use, number in zip(question.uses, numbers, strict=True):
            if number > fresh[use.kind]:
                break
            fresh[use.kind] = max(fresh[use.kind], number + 1)
        else:
            yield {use.name: number for use, number in zip(question.uses, numbers, strict=True)}


def _gaps(
    question: DayQuestion, merged: tuple[str, ...], times: Times, which: dict[str, int]
) -> list[Wash] | None:
    """List between which minutes each tool must be washed; None if a tool would be held twice at once."""
    begun = {b.activity for b in question.begun}
    lines: dict[tuple[str, int], list[tuple[int, int, int, bool]]] = {}
    groups = shared_uses(question, merged, which)
    for n, group in enumerate(groups):
        names = [name for use in group for name in use.activities]
        span = max(times[name][1] for name in names), min(times[name][0] for name in names)
        line = lines.setdefault((group[0].kind, which[group[0].name]), [])
        line.append((*span, n, any(name in begun for name in names)))
    gaps = []
    for (kind, number), line in lines.items():
        line.sort()
        for (free, _, before, was_begun), (_, start, after, has_begun) in pairwise(line):
            if start < free and not (was_begun and has_begun):
                return None
            if not has_begun and needs_wash(groups[before], groups[after]):
                gaps.append((kind, number, free, start))
    return gaps


def _wash_min(question: DayQuestion, kind: str) -> int:
    return ceil(next(tool.wash_min for tool in question.bench.tools if tool.name == kind) * question.slower)


def _washes(question: DayQuestion, gaps: list[Wash], busy: list[int]) -> Iterator[tuple[Wash, ...]]:
    """Yield every set of washes, one in each gap, for which there are hands."""
    if not gaps:
        yield ()
        return
    kind, number, free, taken = gaps[0]
    minutes = _wash_min(question, kind)
    for start in range(max(free, question.now, 0), taken - minutes + 1):
        if all(busy[minute] < question.bench.cooks for minute in range(start, start + minutes)):
            more = busy[:]
            for minute in range(start, start + minutes):
                more[minute] += 1
            for others in _washes(question, gaps[1:], more):
                yield ((kind, number, start, start + minutes), *others)


# -- writing it down ----------------------------------------------------------------------------------


def timetable_of(question: DayQuestion, merged: tuple[str, ...], times: Times, fitted: Fitted) -> Timetable:
    """Write down times and fittings, with people for all of it."""
    of = {name: m for m in question.mergings if m.name in merged for name in m.activities}
    work: dict[object, tuple[int, int, bool, int]] = {}
    begun = {b.activity for b in question.begun}
    for activity in question.activities:
        merging = of.get(activity.name)
        names = merging.activities if merging else (activity.name,)
        hands = max(a.hands for a in question.activities if a.name in names)
        work[names] = (*times[activity.name], begun.isdisjoint(names), hands)
    for wash in fitted.washes:
        work[wash] = (*wash[2:], True, 1)
    cooks = _cooks(question.bench.cooks, work)
    return Timetable(
        times=tuple(
            Timed(a.name, *times[a.name], cooks[of[a.name].activities if a.name in of else (a.name,)])
            for a in question.activities
        ),
        tools=tuple(Held(use.name, fitted.which[use.name]) for use in question.uses),
        washes=tuple(
            Washed(kind, which, start, end, cooks[kind, which, start, end][0])
            for kind, which, start, end in sorted(fitted.washes, key=lambda wash: (wash[2], wash[:2]))
        ),
        oven=tuple(Heated(a.name, fitted.heats[a.name]) for a in question.activities if a.oven),
        merged=tuple(m.name for m in question.mergings if m.name in merged),
    )


def _cooks(people: int, work: dict[object, tuple[int, int, bool, int]]) -> dict[object, tuple[int, ...]]:
    """Hand out the work by start to whoever is free; there is always somebody, for the hands suffice each minute.

    What has begun (not new) starts before all else. If it takes too many people, some are at two things, and whoever
    is at one of them counts as busy until the last is over.
    """
    free_from = [0] * people
    cooks: dict[object, tuple[int, ...]] = {}
    for key, (start, end, new, hands) in sorted(work.items(), key=lambda pair: (pair[1][2], pair[1][0])):
        picked = sorted(range(people), key=lambda cook: (free_from[cook] > start, cook))[:hands]
        cooks[key] = tuple(sorted(picked))
        for cook in picked if end > start else ():
            assert free_from[cook] <= start or not new
            free_from[cook] = max(free_from[cook], end)
    return cooks
