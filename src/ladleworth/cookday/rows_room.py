"""Rules of people and of room as rows, one function per rule: hands, burners, microwaves, the counter, shelves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from ladleworth.cookday.columns import DayModel, Job
from ladleworth.cookday.sheet import Sum

Takers = list[tuple[Job, int]]


def takers_of(model: DayModel, what: str) -> Takers:
    """List the jobs that can take something, and how much; what takes 0 minutes takes nothing."""
    found = []
    for job in (*model.jobs, *(model.washes if what == "hands" else ())):
        takes = job.takes(what)
        if takes and not job.ended and not (job.fixed and not job.begun and not job.minutes):
            found.append((job, takes))
    return found


def hands_suffice(model: DayModel) -> None:
    """Work has the people that it takes, even where it takes no time; and no more are at work than there are."""
    cooks = model.question.bench.cooks
    for job in model.jobs:
        if job.takes("hands") > cooks:
            model.sheet.clause(*(~literal for literal in job.conditions()))
    _suffices(model, takers_of(model, "hands"), cooks)


def room_suffices(model: DayModel) -> None:
    """Burners, microwaves and the counter suffice."""
    bench = model.question.bench
    _suffices(model, takers_of(model, "burners"), bench.burners)
    _suffices(model, takers_of(model, "microwaves"), bench.microwaves)
    if bench.counter is not None:
        _suffices(model, takers_of(model, "counter"), bench.counter)


def shelves_suffice(model: DayModel) -> None:
    """There is an oven for what goes into it, and its shelves suffice."""
    oven = model.question.bench.oven
    if oven is not None:
        _suffices(model, takers_of(model, "shelves"), oven.shelves)
    elif any(activity.oven for activity in model.question.activities):
        model.sheet.never()


def _suffices(model: DayModel, takers: Takers, room: int) -> None:
    """No more is taken at once than there is."""
    fitting = []
    for job, takes in takers:
        if takes > room and not job.begun:
            _takes_no_time(model, job)
        else:
            fitting.append((job, takes))
    if not any(not job.begun for job, _ in fitting):
        return
    running = [(job, takes) for job, takes in fitting if job.begun]
    if sum(takes for _, takes in running) > room:
        _joins_no_crowd(model, running, [pair for pair in fitting if not pair[0].begun], room)
        return
    if sum(takes for _, takes in fitting) <= room:
        return
    spans = tuple((model.span(job), takes) for job, takes in fitting)
    if room == 1 and all(job.fixed or job.minutes for job, _ in fitting):
        model.sheet.in_turn.append(tuple(number for number, _ in spans))
    else:
        model.sheet.together.append((spans, room))


def _takes_no_time(model: DayModel, job: Job) -> None:
    """What takes more than there is can only be there for 0 minutes, or not at all."""
    if job.minutes:
        model.sheet.clause(*(~literal for literal in job.conditions()))
    else:
        model.sheet.row(job.size, None, 0, job.conditions())


def _joins_no_crowd(model: DayModel, running: Takers, new: Takers, room: int) -> None:
    """What runs takes too much: nothing joins it before enough of it has ended."""
    sheet, now = model.sheet, Sum(constant=model.question.now)
    relief = sheet.whole(model.question.now, model.horizon)
    for crowd in _crowds(running, room):
        first = sheet.whole(model.question.now, model.horizon)
        sheet.least_of.append((first, tuple(job.end for job in crowd)))
        sheet.after(relief, first, when=tuple(literal for job in crowd for literal in job.conditions()))
    spans = [(sheet.span(now, relief - now, relief), room)] if room else []
    for job, takes in running:
        if takes <= room:
            start, size = (sheet.whole(0, model.horizon) for _ in range(2))
            sheet.least_of.append((start, (relief, job.end)))
            sheet.equal(start + size, job.end)
            spans.append((sheet.span(start, size, job.end, job.when), takes))
    spans += [(model.span(job), takes) for job, takes in new]
    sheet.together.append((tuple(spans), room))


def _crowds(running: Takers, room: int) -> Iterator[Sequence[Job]]:
    """List the smallest groups that take too much."""
    found: list[set[int]] = []
    for size in range(1, len(running) + 1):
        for group in combinations(range(len(running)), size):
            too_much = sum(running[n][1] for n in group) > room
            if too_much and not any(known <= set(group) for known in found):
                found.append(set(group))
                yield [running[n][0] for n in group]
