"""A cooking day on its way: keep its timetable, enter what happens, and plan the rest anew from now."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from ladleworth.cookday.answer import DayAnswer, Status
from ladleworth.cookday.deciding import replan
from ladleworth.cookday.question import Begun, DayQuestion, Lag
from ladleworth.cookday.verdict import groups_of
from ladleworth.errors import NotYet
from ladleworth.store import Store, record_json
from ladleworth.store.kept_day import DayEntry, KeptDay
from ladleworth.week.day_easing import Easing, easings
from ladleworth.week.day_entries import DayBook, began, ended, forgotten
from ladleworth.week.day_missed import broken_waits, out_of_reach
from ladleworth.week.day_planning import PlannedDay
from ladleworth.week.day_posing import PosedSession

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


LONGER_SECONDS = 4.0
"""How long the rest is sought where it was not found at once: a cook at the stove would rather wait than have none."""


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """The timetable that the cook goes by on a day, with what has been entered of the day since.

    `in_force` is the answer as it was last planned anew. `number` is that of the kept timetable; None: it is not in the
    file yet, and is kept with the first entry made under it.
    """

    planned: PlannedDay
    book: DayBook
    in_force: DayAnswer
    number: int | None = None


@dataclass(frozen=True, slots=True)
class LiveDay:
    """A cooking day as it stands now.

    Parameters
    ----------
    kept
        The timetable that was kept, and the entries.
    start
        When minute 0 is: as was said, or when the first step began if that was earlier or nobody had said.
    question, answer
        The question as of now with what has begun, and its answer: the rest, planned anew.
    easing
        What had to be given up to plan the rest at all.
    given_up
        Greatest waits that the rest does not keep, or keeps only if nothing takes longer than stated.
    new
        What has just been entered.
    """

    kept: KeptPlan
    start: datetime
    question: DayQuestion
    answer: DayAnswer
    easing: Easing
    given_up: tuple[Lag, ...] = ()
    new: tuple[DayEntry, ...] = ()

    @property
    def late(self) -> bool:
        """Whether the kitchen cannot be clean by the wished time any more."""
        return self.question.deadline is not None and not self.easing.on_time


@dataclass(frozen=True, slots=True)
class StepMinutes:
    """How long a step was to take and did take; `least_min` and `most_min` differ only for waiting.

    `activities` are several where preparations were done in one go, `step` is then what they are called together.
    """

    step: str
    activities: tuple[str, ...]
    least_min: int
    most_min: int
    taken_min: int
    hands: int


def keep_day(file: str | Path, planned: PlannedDay, *, clock: datetime) -> KeptPlan:
    """Keep a day's timetable in the kitchen's file, as the one that the cook goes by.

    Entries that were made of the day stay.

    Raises
    ------
    NotYet
        If its plan is not kept in the file, or there is no timetable to go by.
    """
    with Store.open(file) as store, store.transaction():
        return _keep(store, planned, clock)


def _keep(store: Store, planned: PlannedDay, clock: datetime) -> KeptPlan:
    number = _to_go_by(planned)
    store.keep_cooking_day(
        number,
        planned.session.day,
        planned.start,
        clock,
        record_json.to_json(planned.session),
        record_json.to_json(planned.answer),
    )
    return _kept(store, planned.kitchen, number, planned.session.day)


def _to_go_by(planned: PlannedDay) -> int:
    """Give the number of the plan, where there is a timetable and a kept plan to go by."""
    if planned.plan_number is None:
        raise NotYet("the plan is not kept in a file; load the kitchen into one and decide with --accept")
    if planned.answer.nominal is None:
        raise NotYet(
            f"there is no timetable to go by: {planned.answer.status.value}; ladleworth cookday says why"
        )
    return planned.plan_number


def not_yet_kept(file: str | Path, planned: PlannedDay) -> KeptPlan:
    """Take a timetable that is not in the file, with what has been entered of its day already.

    Raises
    ------
    NotYet
        As for `keep_day`.
    """
    number, day = _to_go_by(planned), planned.session.day
    with Store.open(file) as store:
        plan = next(plan for plan in store.plans() if plan.id == number)
    entries = tuple(entry for entry in plan.day_entries if entry.day == day)
    return KeptPlan(planned, _book(planned, planned.answer, entries), planned.answer)


def kept_days(file: str | Path, week: PlannedWeek) -> tuple[KeptDay, ...]:
    """List the timetables that are kept of a plan's days, the last one of each day, by when they were kept."""
    with Store.open(file) as store:
        days = next((plan.cooking_days for plan in store.plans() if plan.id == week.number), ())
    last = {one.day: one for one in days}
    return tuple(sorted(last.values(), key=lambda one: one.number))


def day_on_its_way(file: str | Path, week: PlannedWeek, today: date) -> int | None:
    """Find the plan's day whose timetable was kept today or begins today; None if there is none."""
    mine = [
        one
        for one in kept_days(file, week)
        if today in (one.kept.date(), None if one.start is None else one.start.date())
    ]
    return mine[-1].day if mine else None


def read_kept(file: str | Path, week: PlannedWeek, day: int) -> KeptPlan | None:
    """Read the timetable that is kept of a plan's day, with its entries; None if none is kept."""
    if week.number is None:
        return None
    with Store.open(file) as store:
        if not any(
            one.day == day for plan in store.plans() if plan.id == week.number for one in plan.cooking_days
        ):
            return None
        return _kept(store, week.kitchen.household.name, week.number, day)


def _kept(store: Store, kitchen: str, number: int, day: int) -> KeptPlan:
    plan = next(plan for plan in store.plans() if plan.id == number)
    one = [each for each in plan.cooking_days if each.day == day][-1]
    session = record_json.from_json(one.session, PosedSession)
    answer = record_json.from_json(one.answer, DayAnswer)
    in_force = record_json.from_json(one.in_force, DayAnswer) if one.in_force else answer
    planned = PlannedDay(kitchen, number, session, answer, one.start)
    entries = tuple(entry for entry in plan.day_entries if entry.day == day)
    return KeptPlan(planned, _book(planned, in_force, entries), in_force, one.number)


def _book(planned: PlannedDay, in_force: DayAnswer, entries: tuple[DayEntry, ...]) -> DayBook:
    merged = in_force.nominal.merged if in_force.nominal else ()
    return DayBook(planned.session.day, planned.question, merged, entries)


# --- acts ------------------------------------------------------------------------------------------------------


def begin_step(file: str | Path, kept: KeptPlan, step: str, *, at: datetime, clock: datetime) -> LiveDay:
    """Enter that a step began, and plan the rest anew (see `day_entries.began`)."""
    return _enter(file, kept, lambda book, number: began(book, step, at, clock, number), at, clock)


def end_step(file: str | Path, kept: KeptPlan, step: str, *, at: datetime, clock: datetime) -> LiveDay:
    """Enter that a step ended, and plan the rest anew (see `day_entries.ended`)."""
    return _enter(file, kept, lambda book, number: ended(book, step, at, clock, number), at, clock)


def forget_step(file: str | Path, kept: KeptPlan, step: str, *, at: datetime, clock: datetime) -> LiveDay:
    """Take the last entry of a step back, and plan the rest anew (see `day_entries.forgotten`)."""
    return _enter(file, kept, lambda book, number: forgotten(book, step, clock, number), at, clock)


def _enter(
    file: str | Path,
    kept: KeptPlan,
    act: Callable[[DayBook, int], tuple[DayEntry, ...]],
    at: datetime,
    clock: datetime,
) -> LiveDay:
    """Enter an act on the day as it stands in the file; the rest is planned anew before anything is kept."""
    number = _to_go_by(kept.planned)
    with Store.open(file) as store, store.transaction():
        if kept.number is None:
            now = _keep(store, kept.planned, clock)
        else:
            now = _kept(store, kept.planned.kitchen, number, kept.book.day)
        new = act(now.book, store.next_day_entry())
        entered = replace(now, book=replace(now.book, entries=(*now.book.entries, *new)))
        live = look(entered, at=at)
        store.enter_on_day(number, new)
        if live.answer.nominal is not None and now.number is not None:
            store.put_in_force(now.number, record_json.to_json(live.answer))
    return replace(live, new=new)


def look(kept: KeptPlan, *, at: datetime) -> LiveDay:
    """Plan the rest of a day anew as of a time; what is running is not moved.

    Parameters
    ----------
    kept
        The timetable with its entries.
    at
        The time that it is; entries that are later count as of then.

    Returns
    -------
    LiveDay
        Where there is no timetable with all rules, something is given up (`day_easing`), and that is said.
    """
    book = kept.book
    start = start_of(kept, at)
    minute = max((minute_of(start, entry.at) for entry in book.standing()), default=0)
    now = max(minute, minute_of(start, at), 0)
    question = replace(
        book.question, now=now, begun=_begun(book, start), deadline=_deadline(kept.planned, start)
    )
    for easing in easings(question):
        answer = _replan(easing.eased(question), kept)
        if answer.nominal is not None:
            break
    broken = dict.fromkeys(
        lag
        for timetable in (answer.nominal, answer.slow)
        if timetable is not None
        for lag in broken_waits(question, timetable)
        if lag in easing.waits
    )
    reach = out_of_reach(question)
    given_up = tuple(lag for lag in question.lags if lag in broken or lag in reach)
    return LiveDay(kept, start, question, answer, easing, given_up)


def _replan(question: DayQuestion, kept: KeptPlan) -> DayAnswer:
    """Plan the rest anew; where the usual moment is too short, take longer."""
    answer = replan(question, kept.in_force)
    if answer.status is Status.OUT_OF_TIME:
        answer = replan(question, kept.in_force, seconds=LONGER_SECONDS)
    return answer


def start_of(kept: KeptPlan, at: datetime) -> datetime:
    """Say when minute 0 is: the time that was said, on the day on which the first step really began."""
    times = [entry.at for entry in kept.book.standing()]
    first = min(times, default=at)
    said = kept.planned.start
    if said is None:
        return first
    said += timedelta(days=round((first - said) / timedelta(days=1)))
    return min(said, first) if times else said


def _deadline(planned: PlannedDay, start: datetime) -> int | None:
    """Count the wished end from the minute 0 that there really was."""
    wished = planned.question.deadline
    if wished is None or planned.start is None:
        return wished
    days = round((start - planned.start) / timedelta(days=1))
    return wished + minute_of(start, planned.start + timedelta(days=days))


def minute_of(start: datetime, at: datetime) -> int:
    """Give the minute of the day at a time."""
    return (at - start) // timedelta(minutes=1)


def _begun(book: DayBook, start: datetime) -> tuple[Begun, ...]:
    facts = []
    for activity in book.question.activities:
        times = book.times(activity.name)
        if times.began is not None:
            end = None if times.ended is None else minute_of(start, times.ended.at)
            facts.append(Begun(activity.name, minute_of(start, times.began.at), end))
    return tuple(facts)


def minutes_taken(book: DayBook) -> tuple[StepMinutes, ...]:
    """List how long steps took that have begun and ended, beside what was stated."""
    together = {m.name: m.minutes for m in book.question.mergings if m.name in book.merged}
    taken = []
    for name, members in groups_of(book.question, book.merged):
        first, times = book.question.activity(members[0]), book.times(members[0])
        if times.began is None or times.ended is None:
            continue
        least, most = first.least_min, first.most_min
        if len(members) > 1:
            least = most = together[name]
        minutes = minute_of(times.began.at, times.ended.at)
        taken.append(StepMinutes(name, members, least, most, minutes, first.hands))
    return tuple(taken)
