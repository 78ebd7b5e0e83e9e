"""When all is done, how long hands are at work, how long food stands warm; and what these can never be below."""

from __future__ import annotations

from collections.abc import Sequence

from ladleworth.cookday.columns import DayModel, Job
from ladleworth.cookday.lags import latest
from ladleworth.cookday.rows_room import Takers, takers_of
from ladleworth.cookday.sheet import Sum, one


def columns_for_measure(model: DayModel) -> None:
    """Add the finish, the first and the last hands-on minute, and the minutes that food stands warm."""
    question, sheet = model.question, model.sheet
    model.soonest = max((model.window(a.name, end=True)[0] for a in question.activities), default=0)
    model.finish = sheet.whole(model.soonest, max(model.soonest, model.horizon))
    for activity in question.activities:
        sheet.after(model.finish, model.ends[activity.name])
    hands = [a.name for a in question.activities if a.hands]
    if hands or model.washes:
        low = min((model.window(name, end=False)[0] for name in hands), default=0)
        high = max(model.horizon, *(model.window(name, end=True)[1] for name in hands), 0)
        model.first_hands, model.last_hands = sheet.whole(min(0, low), high), sheet.whole(min(0, low), high)
        sheet.after(model.last_hands, model.first_hands)
    for name in hands:
        sheet.after(model.starts[name], model.first_hands)
        sheet.after(model.last_hands, model.ends[name])
    for wash in model.washes:
        sheet.after(wash.start, model.first_hands, when=wash.conditions())
        sheet.after(model.last_hands, wash.end, when=wash.conditions())
    for activity in question.activities:
        if activity.warm:
            model.warm = model.warm + model.ends[activity.name] - model.starts[activity.name]


def work_takes_its_time(model: DayModel) -> None:
    """From the first to the last hands-on minute there is room for all hands-on work, washes too: they tighten."""
    cooks = model.question.bench.cooks
    takers = takers_of(model, "hands")
    if not takers or _crowded(takers, cooks):
        return
    since = Sum(constant=model.question.now) if model.question.begun else model.first_hands
    model.sheet.row((model.last_hands - since).times(cooks) - _work(takers), 0)


def _crowded(takers: Takers, room: int) -> bool:
    """Tell whether what runs already takes too much."""
    return sum(takes for job, takes in takers if job.begun) > room


def _work(takers: Sequence[tuple[Job, int]]) -> Sum:
    """Minutes times what is taken, at the least."""
    total = Sum()
    for job, takes in takers:
        minutes = Sum(constant=job.minutes * takes)
        total += minutes if job.when is None else one(job.when).times(job.minutes * takes)
    return total


def room_takes_its_time(model: DayModel) -> None:
    """Before the finish there is room for all that takes hands, a burner, a shelf, a place; this only tightens."""
    bench = model.question.bench
    rooms = {
        "hands": bench.cooks,
        "burners": bench.burners,
        "microwaves": bench.microwaves,
        "counter": bench.counter,
        "shelves": bench.oven.shelves if bench.oven else 0,
    }
    tails = _tails(model)
    for what, room in rooms.items():
        takers = takers_of(model, what)
        if room and takers and not _crowded(takers, room):
            _fill(model, takers, room, tails)


def _fill(model: DayModel, takers: Takers, room: int, tails: dict[int, int]) -> None:
    """For the work after which at least so much more must come, and for all that cannot start before a minute."""
    heads = {id(job): max(model.question.now, _head(model, job)) for job, _ in takers}
    groups: dict[tuple[int, int], Takers] = {}
    for tail in sorted({tails[id(job)] for job, _ in takers}):
        group = [(job, takes) for job, takes in takers if tails[id(job)] >= tail]
        groups[min(heads[id(job)] for job, _ in group), tail] = group
    least = min(tails[id(job)] for job, _ in takers)
    for head in sorted(set(heads.values())):
        groups[head, least] = [(job, takes) for job, takes in takers if heads[id(job)] >= head]
    for (head, tail), group in groups.items():
        model.sheet.row((model.finish - head - tail).times(room) - _work(group), 0)


def _head(model: DayModel, job: Job) -> int:
    return max((model.window(a.name, end=False)[0] for a in job.members), default=0)


def _tails(model: DayModel) -> dict[int, int]:
    """How many minutes after the end of each job, by its identity, are left until the finish at the least."""
    moments = model.moments
    edges = [edge for edge in moments.edges() if edge.first and edge.second]
    ends = latest(edges, [0] * moments.count())
    tails = {id(job): -min(ends[moments.at(a.name, end=True)] for a in job.members) for job in model.jobs}
    for kind in model.kinds:
        for node in kind.nodes:
            if node.wash is not None:
                names = {name for use in node.uses for name in use.activities}
                tails[id(node.wash)] = -min(ends[moments.at(name, end=False)] for name in names)
    return tails
