"""The entries of a cooking day: what has begun and ended, what an entry brings with it, and taking one back. Pure."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import groups_of
from ladleworth.errors import BadField
from ladleworth.publish.day_names import names_of
from ladleworth.store.kept_day import DayEntry, Happened

MOST_NAMED = 4
"""So many steps are named in a message."""


@dataclass(frozen=True, slots=True)
class StepTimes:
    """When a step began and ended by the clock; None: it has not."""

    began: DayEntry | None = None
    ended: DayEntry | None = None

    @property
    def is_running(self) -> bool:
        """Whether it has begun and not ended."""
        return self.began is not None and self.ended is None


@dataclass(frozen=True, slots=True)
class DayBook:
    """A cooking day's steps with what has happened; `in_one_go` names the preparations that are planned as one."""

    day: int
    question: DayQuestion
    in_one_go: tuple[str, ...]
    entries: tuple[DayEntry, ...] = ()

    @property
    def merged(self) -> tuple[str, ...]:
        """Name the preparations done as one: those begun by one entry, and of those not begun the planned ones."""
        acts = {e.activity: e.act for e in self.standing() if e.what is Happened.BEGAN}
        found = []
        for merging in self.question.mergings:
            begun = {acts.get(name) for name in merging.activities}
            together = merging.name in self.in_one_go if begun == {None} else len(begun) == 1
            found += [merging.name] if together else []
        return tuple(found)

    def standing(self) -> tuple[DayEntry, ...]:
        """Give the entries that take nothing back and are not taken back."""
        gone = {entry.takes_back for entry in self.entries}
        return tuple(e for e in self.entries if e.takes_back is None and e.number not in gone)

    def times(self, activity: str) -> StepTimes:
        """Find when a step began and ended."""
        mine = {entry.what: entry for entry in self.standing() if entry.activity == activity}
        return StepTimes(mine.get(Happened.BEGAN), mine.get(Happened.ENDED))

    def running(self) -> tuple[str, ...]:
        """Name the steps that have begun and not ended, in their natural order."""
        return tuple(a.name for a in self.question.activities if self.times(a.name).is_running)


@dataclass(frozen=True, slots=True)
class _New:
    activity: str
    what: Happened


def began(book: DayBook, step: str, at: datetime, entered: datetime, number: int) -> tuple[DayEntry, ...]:
    """Enter that a step began, and what that says of others.

    What had to end before it and was still running has ended with it; where one person cooks, so has other hands-on
    work; and what goes on by itself from then on has begun. All of that is entered too.

    Parameters
    ----------
    book, step
        The day, and what the cook calls the step.
    at, entered
        When it began, and when that is entered.
    number
        The number of the first new entry.

    Raises
    ------
    BadField
        If there is no such step, or it has begun already.
    """
    members = find_step(book, step, Happened.BEGAN)
    earlier = book.times(members[0]).began
    if earlier is not None:
        raise BadField(
            f"{members[0]} was begun at {earlier.at:%H:%M} already; if that was wrong, --forget it first"
        )
    over = tuple(_over(book, members, at))
    new = [_New(name, Happened.BEGAN) for name in members]
    new += [_New(name, Happened.ENDED) for name in over]
    new += [_New(name, Happened.BEGAN) for name in _going_on(book, over)]
    return tuple(_entries(book, new, at, entered, number))


def _over(book: DayBook, members: Sequence[str], at: datetime) -> Iterator[str]:
    """Name what is running and over once these begin."""
    known = {activity.name: activity for activity in book.question.activities}
    before = {
        lag.first
        for lag in book.question.lags
        if lag.second in members and lag.first_end and not lag.second_end and lag.least >= 0
    }
    one_cook = book.question.bench.cooks == 1 and any(known[name].hands for name in members)
    for name in book.running():
        since = book.times(name).began
        over = name in before or (one_cook and known[name].hands)
        if over and since is not None and since.at <= at:
            yield name


def ended(book: DayBook, step: str, at: datetime, entered: datetime, number: int) -> tuple[DayEntry, ...]:
    """Enter that a step ended; what goes on by itself from that minute has begun, which is entered too.

    Raises
    ------
    BadField
        If there is no such step, it has not begun, has ended already, or ends before it began.
    """
    members = find_step(book, step, Happened.ENDED)
    name, times = members[0], book.times(members[0])
    if times.ended is not None:
        raise BadField(
            f"{name} ended at {times.ended.at:%H:%M} already; if that was wrong, --forget it first"
        )
    if times.began is None:
        raise BadField(f"{name} has not begun; enter --began '{name}' --at its time first")
    if at < times.began.at:
        raise BadField(
            f"{name} cannot end at {at:%H:%M}: it began at {times.began.at:%H:%M}; write a later --at"
        )
    new = [_New(each, Happened.ENDED) for each in members]
    new += [_New(each, Happened.BEGAN) for each in _going_on(book, members)]
    return tuple(_entries(book, new, at, entered, number))


def _going_on(book: DayBook, members: Sequence[str]) -> Iterator[str]:
    """Name what goes on by itself in the minute in which these end."""
    known = {activity.name: activity for activity in book.question.activities}
    for lag in book.question.lags:
        at_once = (lag.least, lag.most, lag.first_end, lag.second_end) == (0, 0, True, False)
        if (
            at_once
            and lag.first in members
            and not known[lag.second].hands
            and not book.times(lag.second).began
        ):
            yield lag.second


def forgotten(book: DayBook, step: str, entered: datetime, number: int) -> tuple[DayEntry, ...]:
    """Take the last entry of a step back, with all that was entered together with it.

    Raises
    ------
    BadField
        If there is no such step, nothing of it is entered, or something entered later rests on it.
    """
    members = find_step(book, step, Happened.ENDED)
    mine = [entry for entry in book.standing() if entry.activity in members]
    if not mine:
        raise BadField(f"nothing is entered of {members[0]}; --now shows what is")
    act = max(mine, key=lambda entry: entry.number).act
    together = [entry for entry in book.standing() if entry.act == act]
    for entry in together:
        last = book.times(entry.activity).ended
        if entry.what is Happened.BEGAN and last is not None and last.act != act:
            raise BadField(f"{entry.activity} has ended since, at {last.at:%H:%M}; --forget that first")
    return tuple(
        DayEntry(
            number + at,
            book.day,
            entry.activity,
            entry.what,
            entry.at,
            entered,
            number,
            takes_back=entry.number,
        )
        for at, entry in enumerate(together)
    )


def _entries(
    book: DayBook, new: Iterable[_New], at: datetime, entered: datetime, number: int
) -> Iterator[DayEntry]:
    for place, one in enumerate(dict.fromkeys(new)):
        yield DayEntry(number + place, book.day, one.activity, one.what, at, entered, number)


# --- finding a step --------------------------------------------------------------------------------------------


def find_step(book: DayBook, called: str, what: Happened) -> tuple[str, ...]:
    """Find a step by what the cook calls it: short name, full name, the beginning of one, or a preparation's name.

    Parameters
    ----------
    book, called
        The day, and the name; capitals do not matter.
    what
        What happened to it: of several that are meant, one that has not begun or is running is taken.

    Returns
    -------
    tuple of str
        The step's activities, more than one where preparations are done in one go.

    Raises
    ------
    BadField
        If none is called so, with near names, or several are.
    """
    steps = _names(book)
    wanted = " ".join(called.casefold().split())
    found = [members for names, members in steps if wanted in names]
    if not found and wanted:
        found = [members for names, members in steps if any(name.startswith(wanted) for name in names)]
        if len({book.question.activity(members[0]).words for members in found}) > 1:
            listed = ", ".join(repr(members[0]) for members in found[:MOST_NAMED])
            raise BadField(f"several steps begin with {called!r}: {listed}; write more of the name")
    if not found:
        raise BadField(f"no step is called {called!r}; {_hint(book, steps, wanted)}")
    fitting = [members for members in found if _fits(book.times(members[0]), what)]
    return (fitting or found)[0]


def _fits(times: StepTimes, what: Happened) -> bool:
    return times.began is None if what is Happened.BEGAN else times.is_running


def _names(book: DayBook) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """List every step with all that it may be called, in small letters."""
    codes = names_of(book.question).codes
    steps = []
    others = [(m.name, m.activities) for m in book.question.mergings if m.name not in book.merged]
    for name, members in (*groups_of(book.question, book.merged), *others):
        joined = "+".join(dict.fromkeys(codes[member] for member in members))
        names = (name, *members, joined, *(codes[member] for member in members))
        steps.append((tuple(dict.fromkeys(each.casefold() for each in names)), members))
    return steps


def _hint(book: DayBook, steps: Sequence[tuple[tuple[str, ...], tuple[str, ...]]], wanted: str) -> str:
    """Name the steps that may be meant: those whose name holds the word, else those that look alike."""
    holding = [members[0] for names, members in steps if wanted and any(wanted in name for name in names)]
    every = {name: members[0] for names, members in steps for name in names}
    alike = [every[name] for name in difflib.get_close_matches(wanted, every, n=MOST_NAMED, cutoff=0.5)]
    near = list(dict.fromkeys((*holding, *alike)))[:MOST_NAMED]
    if near:
        codes = names_of(book.question).codes
        return f"did you mean {' or '.join(f'{codes[name]} ({name})' for name in near)}?"
    return "ladleworth cookday lists the steps with their short names"
