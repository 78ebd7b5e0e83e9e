"""The rules of a cooking day and its measure in plain Python; with its `judge_` neighbours this is the specification.

They know no solver. The judge recomputes everything from the question and the timetable alone, and it passes on every
answer before anyone sees it. A timetable is judged at one of two paces: as stated, or slow, where hands-on work takes
`slower` times as long, rounded up to whole minutes.

1. times: every activity runs once, without a break, as long as it takes at this pace; waiting as long as it may.
   Work of a merging that is done has one time and takes the minutes of the merging, which are hands-on minutes if
   any of its activities is hands-on.
2. lags: between the two moments that a lag ties there are at least its least and at most its greatest minutes.
3. hands: work has as many people as it takes, nobody does two things at once, and no more people are at work than
   there are. Washing a tool takes one person.
4. burners, counter, microwaves: no more are taken at once than there are. A merging takes once the most that any
   of its activities takes.
5. oven: shelves suffice; each load has its heat, within its tolerance; loads that are in together have the same
   heat; between two others, and before each, there is time to change the heat, from that of the start of the day on.
6. tools: a use has one tool from the start of its first activity to the end of its last, and nobody else has it then.
   Between two uses of which the later may not follow the earlier, the tool is washed once; it is never washed otherwise.
   Uses of a merging that is done, all of whose activities belong to it, may have one tool as one use; a use may follow
   them if it may follow each of them.
7. deadline: at the slow pace, everything is done by the deadline.

Two things of which one ends in the minute in which the other starts are not at once. What takes 0 minutes takes
nobody's hands and no room, whenever it is; in the oven and on a tool it has its turn all the same, uses of 0 minutes
in the same minute in their natural order.

On a day that is on its way what has begun starts, and ends if it has ended, when it did; what should be over and is not
ends now; all else, washes too, starts now or later. What has happened is not judged: rules 3 to 6 are broken only where
something takes part that has not begun (of a use: none of its activities has). A lag is asked as far as it can still
be kept (`happened.py`).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from ladleworth.cookday.answer import Measure, Timed, Timetable, Washed
from ladleworth.cookday.judge_kitchen import heats_are_right, room_suffices, shelves_suffice
from ladleworth.cookday.judge_people import hands_suffice
from ladleworth.cookday.judge_times import lags_are_kept, times_are_right
from ladleworth.cookday.judge_tools import tools_are_clean
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import Breach

__all__ = ["Breach", "judge", "measure"]


def judge(question: DayQuestion, timetable: Timetable, *, slow: bool) -> tuple[Breach, ...]:
    """Check a timetable against every rule.

    Parameters
    ----------
    question, timetable
        The question of the day, and any timetable whatever, however it was found.
    slow
        Whether hands-on work takes `slower` times as long as stated.

    Returns
    -------
    tuple of Breach
        All breaches, in the order of the rules; none: the timetable stands. One that names what the question does not
        know, or does not name everything once, has those breaches alone.
    """
    unknown = tuple(_names_are_known(question, timetable))
    if unknown:
        return unknown
    return (
        *times_are_right(question, timetable, slow=slow),
        *lags_are_kept(question, timetable),
        *hands_suffice(question, timetable),
        *room_suffices(question, timetable),
        *shelves_suffice(question, timetable),
        *heats_are_right(question, timetable),
        *tools_are_clean(question, timetable),
        *(deadline_is_kept(question, timetable) if slow else ()),
    )


# --- rule 0: the timetable speaks of things that exist, once each -----------------------------------------


def _names_are_known(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    loads = [a.name for a in question.activities if a.oven]
    yield from _once("time", (t.activity for t in timetable.times), (a.name for a in question.activities))
    yield from _once("tool", (held.use for held in timetable.tools), (use.name for use in question.uses))
    yield from _once("heat of the oven", (heated.activity for heated in timetable.oven), loads)
    mergings = {m.name for m in question.mergings}
    for name, times in Counter(timetable.merged).items():
        if name not in mergings:
            yield Breach("names", f"no merging is called {name!r}")
        elif times > 1:
            yield Breach("names", f"the merging {name!r} stands there {times} times")
    kinds = {tool.name for tool in question.bench.tools}
    for kind in sorted({wash.kind for wash in timetable.washes} - kinds):
        yield Breach("names", f"the kitchen has no {kind!r} to wash")


def _once(what: str, named: Iterable[str], wanted: Iterable[str]) -> Iterator[Breach]:
    counted = Counter(named)
    for name in wanted:
        times = counted.pop(name, 0)
        if times != 1:
            yield Breach("names", f"{name!r} has a {what} {times} times, not once")
    for name in counted:
        yield Breach("names", f"{name!r} has a {what}, and nothing that has one is called so")


# --- rule 7: the deadline, and rule 8: the measure ---------------------------------------------------------


def deadline_is_kept(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    """All is done by the deadline."""
    finish = measure(question, timetable).finish
    if question.deadline is not None and finish > question.deadline:
        yield Breach(
            "deadline", f"all is done by minute {finish}; minute {question.deadline} is the deadline"
        )


def measure(question: DayQuestion, timetable: Timetable) -> Measure:
    """Measure a timetable that names everything once.

    Returns
    -------
    Measure
        Minutes. Work of a merging counts as warm for each of its activities that is; work of 0 minutes and
        washes count for the span of hands-on work like any other.
    """
    known = {a.name: a for a in question.activities}
    everything: tuple[Timed | Washed, ...] = (*timetable.times, *timetable.washes)
    at_work = [w for w in everything if isinstance(w, Washed) or known[w.activity].hands]
    first = min((work.start for work in at_work), default=0)
    return Measure(
        finish=max((work.end for work in everything), default=0),
        hands_span=max((work.end for work in at_work), default=0) - first,
        warm=sum(time.end - time.start for time in timetable.times if known[time.activity].warm),
    )
