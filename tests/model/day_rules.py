"""The rules of a cooking day a second time, from the rules in words, minute by minute.

It shares no code with the judge. Where the judge compares spans, this looks into every minute; it is only meant for
short days.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import ceil

from ladleworth.cookday.answer import Measure, Timetable
from ladleworth.cookday.question import Activity, Begun, DayQuestion, Lag, Merging, OvenCard, ToolUse

EVERY_RULE = {"times", "lags", "hands", "burners", "counter", "microwaves", "oven", "tools", "deadline"}
"""The names of all rules that a timetable may break that names everything once."""

PACES = (False, True)


@dataclass(frozen=True)
class Job:
    """What is done in one go, and the most that any activity in it takes."""

    activities: tuple[Activity, ...]
    start: int
    end: int
    cooks: tuple[int, ...]
    begun: bool

    def takes(self, what: str) -> int:
        return max(getattr(a, what) for a in self.activities)

    @property
    def shelves(self) -> int:
        return max((a.oven.shelves for a in self.activities if a.oven), default=0)


def factor(question: DayQuestion, slow: bool) -> Fraction:
    return question.slower if slow else Fraction(1)


def length(question: DayQuestion, activity: Activity, minutes: int, slow: bool) -> int:
    return ceil(minutes * factor(question, slow)) if activity.hands else minutes


def merged_length(question: DayQuestion, merging: Merging, slow: bool) -> int:
    if any(a.hands for a in question.activities if a.name in merging.activities):
        return ceil(merging.minutes * factor(question, slow))
    return merging.minutes


def known(question: DayQuestion, name: str) -> tuple[Activity, Begun | None]:
    activity = next(a for a in question.activities if a.name == name)
    return activity, next((b for b in question.begun if b.activity == name), None)


# -- what a day on its way still asks -----------------------------------------------------------------


def moment_range(question: DayQuestion, name: str, end: bool, slow: bool) -> tuple[int, int | None]:
    """First and last minute (None: open) at which an activity can start or end, from what has begun alone."""
    activity, begun = known(question, name)
    least = length(question, activity, activity.least_min, slow)
    if begun is None:
        return question.now + (least if end else 0), None
    if not end:
        return begun.start, begun.start
    if begun.end is not None:
        return begun.end, begun.end
    most = length(question, activity, activity.most_min, slow)
    return max(question.now, begun.start + least), max(question.now, begun.start + most)


def asked(question: DayQuestion, lag: Lag) -> tuple[bool, bool]:
    """Whether the least and the greatest minutes of a lag are asked."""
    _, begun = known(question, lag.second)
    if begun is not None and (not lag.second_end or begun.end is not None):
        return False, False
    least, most = True, lag.most is not None
    for slow in PACES:
        first, first_last = moment_range(question, lag.first, lag.first_end, slow)
        second, second_last = moment_range(question, lag.second, lag.second_end, slow)
        if second_last is not None and second_last - first < lag.least:
            least = False
        if lag.most is not None and first_last is not None and second - first_last > lag.most:
            most = False
    return least, most


# -- the rules ----------------------------------------------------------------------------------------


def broken_rules(question: DayQuestion, timetable: Timetable, slow: bool) -> set[str]:
    """Name the rules that a timetable breaks which names everything once."""
    jobs = _jobs(question, timetable)
    washing = [Job((), wash.start, wash.end, (wash.cook,), begun=False) for wash in timetable.washes]
    last = max((t.end for t in (*timetable.times, *timetable.washes)), default=0)
    broken = {
        rule
        for rule, wrong in (
            ("times", _times_wrong(question, timetable, slow)),
            ("lags", any(_lag_wrong(question, timetable, lag) for lag in question.lags)),
            ("hands", _staff_wrong(question, timetable, jobs)),
            ("oven", _oven_wrong(question, timetable)),
            ("tools", _tools_wrong(question, timetable)),
            ("deadline", slow and question.deadline is not None and last > question.deadline),
        )
        if wrong
    }
    first = min((t.start for t in (*timetable.times, *timetable.washes)), default=0)
    for minute in range(int(first), int(last) + 1):
        here = [job for job in jobs if job.start <= minute < job.end]
        washed = [job for job in washing if job.start <= minute < job.end]
        broken |= _minute_wrong(question, here, washed)
    return broken


def _jobs(question: DayQuestion, timetable: Timetable) -> list[Job]:
    times = {t.activity: t for t in timetable.times}
    left = list(question.activities)
    jobs = []
    while left:
        group = [left[0]]
        for merging in question.mergings:
            if merging.name in timetable.merged and left[0].name in merging.activities:
                group = [a for a in left if a.name in merging.activities]
        left = [a for a in left if a not in group]
        time = times[group[0].name]
        begun = any(b.activity == a.name for b in question.begun for a in group)
        jobs.append(Job(tuple(group), time.start, time.end, time.cooks, begun))
    return jobs


def _minute_wrong(question: DayQuestion, here: list[Job], washed: list[Job]) -> set[str]:
    """Name what is short in a minute; what began before now may be too much by itself."""
    wrong = set()
    bench = question.bench
    oven = bench.oven
    for rule, there, takes in (
        ("burners", bench.burners, {job: job.takes("burners") for job in here}),
        ("microwaves", bench.microwaves, {job: job.takes("microwaves") for job in here}),
        ("counter", bench.counter, {job: job.takes("counter") for job in here}),
        ("oven", oven.shelves if oven else 0, {job: job.shelves for job in here}),
    ):
        new = any(takes[job] and not job.begun for job in here)
        if there is not None and new and sum(takes[job] for job in here) > there:
            wrong.add(rule)
    workers = [job for job in here if job.takes("hands")]
    people = sum(job.takes("hands") for job in workers) + len(washed)
    if people > bench.cooks and (washed or not all(job.begun for job in workers)):
        wrong.add("hands")
    for cook in range(bench.cooks):
        busy = [job for job in (*workers, *washed) if cook in job.cooks]
        if len(busy) > 1 and not all(job.begun for job in busy):
            wrong.add("hands")
    return wrong


def _times_wrong(question: DayQuestion, timetable: Timetable, slow: bool) -> bool:
    floor = max(0, question.now)
    for time in timetable.times:
        activity, begun = known(question, time.activity)
        least = length(question, activity, activity.least_min, slow)
        most = length(question, activity, activity.most_min, slow)
        for merging in question.mergings:
            if merging.name in timetable.merged and activity.name in merging.activities:
                least = most = merged_length(question, merging, slow)
                together = [t for t in timetable.times if t.activity in merging.activities]
                if len({(t.start, t.end) for t in together}) > 1:
                    return True
        ends = range(time.start + least, time.start + most + 1)
        if begun is None:
            if time.start < floor or time.end not in ends:
                return True
        elif begun.end is not None:
            if (time.start, time.end) != (begun.start, begun.end):
                return True
        elif time.start != begun.start or time.end not in {max(end, question.now) for end in ends}:
            return True
    for wash in timetable.washes:
        kind = next(tool for tool in question.bench.tools if tool.name == wash.kind)
        if wash.start < floor or wash.end != wash.start + ceil(kind.wash_min * factor(question, slow)):
            return True
    return False


def _lag_wrong(question: DayQuestion, timetable: Timetable, lag: Lag) -> bool:
    times = {t.activity: (t.start, t.end) for t in timetable.times}
    minutes = times[lag.second][lag.second_end] - times[lag.first][lag.first_end]
    least, most = asked(question, lag)
    return (least and minutes < lag.least) or (most and lag.most is not None and minutes > lag.most)


def _staff_wrong(question: DayQuestion, timetable: Timetable, jobs: list[Job]) -> bool:
    """Say whether some work has not exactly as many cooks of this kitchen as it takes."""
    of = {t.activity: t.cooks for t in timetable.times}
    staff = set(range(question.bench.cooks))
    for job in jobs:
        for activity in job.activities:
            cooks = of[activity.name]
            if len(cooks) != len(set(cooks)) or not staff.issuperset(cooks):
                return True
            if len(cooks) != job.takes("hands") or set(cooks) != set(job.cooks):
                return True
    return not staff.issuperset(wash.cook for wash in timetable.washes)


def heat_change(oven: OvenCard, before: int, after: int) -> int:
    if after > before:
        return ceil(Fraction(after - before, 10) * oven.heating_min_per_10c)
    return ceil(Fraction(before - after, 10) * oven.cooling_min_per_10c)


def _oven_wrong(question: DayQuestion, timetable: Timetable) -> bool:
    times = {t.activity: (t.start, t.end) for t in timetable.times}
    heats = {h.activity: h.heat_c for h in timetable.oven}
    begun = {b.activity for b in question.begun}
    oven = question.bench.oven
    for activity in question.activities:
        if activity.oven:
            low = activity.oven.want_c - activity.oven.tolerance_c
            if oven is None or not low <= heats[activity.name] <= low + 2 * activity.oven.tolerance_c:
                return True
            ready = heat_change(oven, oven.start_c, heats[activity.name])
            if activity.name not in begun and times[activity.name][0] < ready:
                return True
    for one, other in combinations(heats, 2):
        if oven is None or (one in begun and other in begun):
            continue
        apart = (
            times[one][1] + heat_change(oven, heats[one], heats[other]) <= times[other][0],
            times[other][1] + heat_change(oven, heats[other], heats[one]) <= times[one][0],
        )
        if heats[one] != heats[other] and not any(apart):
            return True
    return False


# -- tools --------------------------------------------------------------------------------------------


def needs_wash(earlier: tuple[ToolUse, ...], later: tuple[ToolUse, ...]) -> bool:
    return any(
        use.leaves != "nothing" and use.leaves not in next_.takes for use in earlier for next_ in later
    )


def shared_uses(
    question: DayQuestion, merged: tuple[str, ...], which: dict[str, int]
) -> list[tuple[ToolUse, ...]]:
    """Group the uses that are one use: of a tool, by a merging that is done."""
    groups: dict[object, list[ToolUse]] = {}
    for use in question.uses:
        key: object = use.name, "alone"
        for merging in question.mergings:
            if merging.name in merged and set(use.activities) <= set(merging.activities):
                key = merging.name, use.kind, which[use.name]
        groups.setdefault(key, []).append(use)
    return [tuple(group) for group in groups.values()]


def _tools_wrong(question: DayQuestion, timetable: Timetable) -> bool:
    which = {held.use: held.which for held in timetable.tools}
    counts = {tool.name: tool.count for tool in question.bench.tools}
    if any(which[use.name] not in range(counts[use.kind]) for use in question.uses):
        return True
    groups = shared_uses(question, timetable.merged, which)
    tools = {(wash.kind, wash.which) for wash in timetable.washes}
    tools |= {(group[0].kind, which[group[0].name]) for group in groups}
    return any(
        _tool_wrong(
            question,
            timetable,
            [g for g in groups if (g[0].kind, which[g[0].name]) == tool],
            [(w.start, w.end) for w in timetable.washes if (w.kind, w.which) == tool],
        )
        for tool in tools
    )


def _tool_wrong(
    question: DayQuestion,
    timetable: Timetable,
    groups: list[tuple[ToolUse, ...]],
    washes: list[tuple[int, int]],
) -> bool:
    times = {t.activity: (t.start, t.end) for t in timetable.times}
    begun = {b.activity for b in question.begun}
    spans = []
    for n, group in enumerate(groups):
        held = [times[name] for use in group for name in use.activities]
        started = any(name in begun for use in group for name in use.activities)
        spans.append((max(e for _, e in held), min(s for s, _ in held), n, started))
    for one, other in combinations(spans, 2):
        if not (one[0] <= other[1] or other[0] <= one[1]) and not (one[3] and other[3]):
            return True
    places = []
    for end, start, n, started in sorted(spans):
        before = [span for span in spans if span[:3] < (end, start, n)]
        if before and not started and needs_wash(groups[max(before)[2]], groups[n]):
            places.append((max(before)[0], start))
    fits = [[start >= free and end <= taken for free, taken in places] for start, end in sorted(washes)]
    return len(washes) != len(places) or not all(fits[n][n] for n in range(len(places)))


# -- the measure --------------------------------------------------------------------------------------


def measure_of(question: DayQuestion, timetable: Timetable) -> Measure:
    """Measure a timetable by walking through its minutes."""
    hands = {a.name for a in question.activities if a.hands}
    spans = [(t.start, t.end) for t in timetable.times if t.activity in hands]
    spans += [(w.start, w.end) for w in timetable.washes]
    ends = [t.end for t in (*timetable.times, *timetable.washes)]
    warm = 0
    for time in timetable.times:
        if known(question, time.activity)[0].warm:
            warm += len(range(time.start, time.end))
    edges = sorted(minute for span in spans for minute in span)
    return Measure(max(ends, default=0), edges[-1] - edges[0] if edges else 0, warm)
