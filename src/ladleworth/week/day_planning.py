"""Plan a session's cooking day: which session is next, its question, and its timetable by the clock."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from typing import TYPE_CHECKING

from ladleworth.cookday.answer import DayAnswer, Status
from ladleworth.cookday.deciding import timetable
from ladleworth.cookday.question import DayQuestion
from ladleworth.errors import FaultyKitchen, NotYet
from ladleworth.week.cooking import CookingDay, cooking_of
from ladleworth.week.day_posing import PosedSession, pose_session
from ladleworth.week.packing import planned_id

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


@dataclass(frozen=True, slots=True)
class DayWish:
    """What is wished of a day: when it begins, by when all is done and washed up, and how many cook.

    Times are by the clock, None for none; `cooks` None is as many as the equipment card says.
    """

    start: time | None = None
    clean_by: time | None = None
    cooks: int | None = None


@dataclass(frozen=True, slots=True)
class DayAsking:
    """The limits of a search for a timetable: seconds by the clock, and the solver's seed."""

    seconds: float = 10.0
    seed: int = 0


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """A session's cooking day with its timetable.

    Parameters
    ----------
    kitchen
        The household's name.
    plan_number
        The number of the plan in the kitchen's file; None for one that is not kept.
    session
        The question with all that stands beside it.
    answer
        The answer, judged.
    start
        When minute 0 is by the clock; None: nobody has said.
    soonest
        Where the wished time cannot be met: the answer without that wish.
    """

    kitchen: str
    plan_number: int | None
    session: PosedSession
    answer: DayAnswer
    start: datetime | None = None
    soonest: DayAnswer | None = None

    @property
    def question(self) -> DayQuestion:
        """The day's question."""
        return question_of(self.session)

    @property
    def start_min(self) -> int | None:
        """When minute 0 is, in minutes from midnight."""
        return None if self.start is None else self.start.hour * 60 + self.start.minute


def question_of(session: PosedSession) -> DayQuestion:
    """Give a session's question.

    Raises
    ------
    FaultyKitchen
        If its dishes do not say enough for one: with what to write in each.
    """
    if session.posed.question is None:
        raise FaultyKitchen(session.posed.faults)
    return session.posed.question


def next_session(week: PlannedWeek, today: date) -> int:
    """Find the session that is cooked next.

    Parameters
    ----------
    week, today
        The accepted plan over the kitchen as it stands, and the day that it is.

    Returns
    -------
    int
        The plan's day: of the sessions that are not cooked yet the first from today on; if all of those are over, the
        latest.

    Raises
    ------
    NotYet
        If everything that the plan cooks has been cooked, or it cooks nothing.
    """
    sessions = [session for session in cooking_of(week) if session.batches]
    if not sessions:
        raise NotYet("the plan cooks nothing; there is no cooking day to show")
    left = [session for session in sessions if not _is_cooked(week, session)]
    if not left:
        days = ", ".join(str(session.day) for session in sessions)
        raise NotYet(f"everything that the plan cooks has been cooked; --day {days} shows a day all the same")
    coming = [session for session in left if session.when >= today]
    return coming[0].day if coming else left[-1].day


def _is_cooked(week: PlannedWeek, session: CookingDay) -> bool:
    ledger = week.kitchen.ledger
    ids = [
        planned_id(week.kitchen, week.plan, (session.day, batch.dish, batch.version))
        for batch in session.batches
    ]
    return all(ledger.batch(batch).is_cooked for batch in ids)


def plan_cooking(week: PlannedWeek, day: int, wish: DayWish, asking: DayAsking) -> PlannedDay:
    """Find the timetable of a session.

    Parameters
    ----------
    week, day
        A plan, and the session's day.
    wish
        With a start and a time by which the kitchen is clean, the second is a rule; with the latter alone, the day
        starts as late as the timetable found lets it, at the slow pace.
    asking
        The limits of the search. If the wished time cannot be met, a second search leaves it out.

    Raises
    ------
    BadField, NotYet
        If there is no session on that day, or nothing to cook on it.
    FaultyKitchen
        If its dishes do not say enough for a timetable.
    """
    when = week.kitchen.household.date_of(day)
    start = None if wish.start is None else datetime.combine(when, wish.start)
    week = with_cooks(week, wish.cooks)
    clean_by = None
    if start is not None and wish.clean_by is not None:
        clean_by = _minutes_between(start, wish.clean_by)
    session = pose_session(week, day, clean_by=clean_by)
    question = question_of(session)
    answer = timetable(question, seconds=asking.seconds, seed=asking.seed)
    soonest = None
    if answer.status is Status.IMPOSSIBLE and clean_by is not None:
        free = replace(question, deadline=None)
        soonest = timetable(free, seconds=asking.seconds, seed=asking.seed)
    if start is None and wish.clean_by is not None and answer.measure is not None:
        start = _latest_start(when, wish.clean_by, answer.measure.finish)
    return PlannedDay(week.kitchen.household.name, week.number, session, answer, start, soonest)


def with_cooks(week: PlannedWeek, cooks: int | None) -> PlannedWeek:
    """Let another number of people cook than the equipment card says."""
    if cooks is None:
        return week
    household = week.kitchen.household
    equipment = replace(household.equipment, cooks=cooks)
    kitchen = replace(week.kitchen, household=replace(household, equipment=equipment))
    return replace(week, kitchen=kitchen)


def _minutes_between(start: datetime, clean_by: time) -> int:
    """Minutes from the start to a time by the clock, of the next day if it is earlier in the day."""
    end = datetime.combine(start.date(), clean_by)
    if end <= start:
        end += timedelta(days=1)
    return int((end - start).total_seconds()) // 60


def _latest_start(when: date, clean_by: time, finish: int) -> datetime:
    return datetime.combine(when, clean_by) - timedelta(minutes=finish)
