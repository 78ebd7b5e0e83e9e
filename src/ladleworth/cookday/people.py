"""Who does what: work whose times are settled is given to people, each of whom does one thing at a time."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import groups_of


@dataclass(frozen=True, slots=True)
class _Task:
    """Hands-on work to be given: its activities, or the place of a wash in the timetable."""

    start: int
    end: int
    hands: int
    batch: str
    members: tuple[str, ...] = ()
    wash: int | None = None
    begun: bool = False


def hand_out(question: DayQuestion, timetable: Timetable) -> Timetable:
    """Give the work of a timetable to people, by the order of its starts.

    Whoever did the last thing for the same batch goes on with it, else who has the lowest number of those free. What
    takes no time can be done by anyone. What runs already goes first, the longest of it before the rest, so that those
    who are still at it when something new starts are not wanted twice.
    """
    free_from = [question.now if question.begun else 0] * question.bench.cooks
    last_batch: list[str | None] = [None] * question.bench.cooks
    given: dict[_Task, tuple[int, ...]] = {}
    for task in sorted(_tasks(question, timetable), key=_turn):
        lasts = task.end > task.start
        free = [cook for cook, minute in enumerate(free_from) if minute <= task.start or not lasts]
        if task.begun:
            free = sorted(range(len(free_from)), key=lambda cook: free_from[cook] > question.now)
        free.sort(
            key=lambda cook: (task.begun and free_from[cook] > question.now, last_batch[cook] != task.batch)
        )
        chosen = given[task] = tuple(sorted(free[: task.hands]))
        for cook in chosen:
            last_batch[cook] = task.batch
            if lasts:
                free_from[cook] = max(free_from[cook], task.end)
    return _with_cooks(timetable, given)


def _turn(task: _Task) -> tuple[bool, int, int]:
    return not task.begun, -task.end if task.begun else task.start, -task.end


def _tasks(question: DayQuestion, timetable: Timetable) -> list[_Task]:
    """List the hands-on work in the natural order, washes last."""
    known = {a.name: a for a in question.activities}
    begun = {b.activity for b in question.begun}
    tasks = []
    for _, members in groups_of(question, timetable.merged):
        hands = max(known[name].hands for name in members)
        if hands:
            time = timetable.timed(members[0])
            tasks.append(
                _Task(
                    time.start,
                    time.end,
                    hands,
                    known[members[0]].batch,
                    members,
                    begun=not begun.isdisjoint(members),
                )
            )
    tasks += [_Task(w.start, w.end, 1, "", wash=n) for n, w in enumerate(timetable.washes)]
    return tasks


def _with_cooks(timetable: Timetable, given: dict[_Task, tuple[int, ...]]) -> Timetable:
    at_work = {name: cooks for task, cooks in given.items() for name in task.members}
    washing = {task.wash: cooks[0] for task, cooks in given.items() if task.wash is not None}
    return replace(
        timetable,
        times=tuple(replace(time, cooks=at_work.get(time.activity, ())) for time in timetable.times),
        washes=tuple(replace(wash, cook=washing[n]) for n, wash in enumerate(timetable.washes)),
    )
