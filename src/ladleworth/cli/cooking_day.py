"""The cooking day of a kitchen: its timetable for the eye or as JSON, and the day on its way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from ladleworth.cli import options
from ladleworth.cli.day_options import DayOptions, moment
from ladleworth.cli.decide import NO_PLAN, OUT_OF_TIME

if TYPE_CHECKING:
    from ladleworth.cookday.answer import DayAnswer
    from ladleworth.week import PlannedWeek
    from ladleworth.week.day_live import KeptPlan, LiveDay
    from ladleworth.week.day_planning import DayAsking, DayWish, PlannedDay


@dataclass(frozen=True, slots=True)
class Asked:
    """What a command was asked about a kitchen."""

    kitchen: Path
    wanted: DayOptions
    asking: DayAsking
    today: date
    as_json: bool


def run(kitchen: Path, wanted: DayOptions, seconds: float, seed: int, today: date, *, as_json: bool) -> int:
    """Show a kitchen's cooking day, or enter what happened on it; give the exit code."""
    from ladleworth.cli.stopping import stops_at_once
    from ladleworth.week.day_planning import DayAsking

    wanted.check()
    asked = Asked(kitchen, wanted, DayAsking(seconds, seed), today, as_json)
    with stops_at_once(as_json=as_json):
        week = _week(asked)
        if week.answer.plan is None:
            return _no_plan(asked, week)
        return _live(asked, week) if wanted.is_live else _whole(asked, week)


def _week(asked: Asked) -> PlannedWeek:
    """Find the accepted plan of a file; a folder's is decided first."""
    from ladleworth.errors import NotYet
    from ladleworth.store import is_kitchen_file
    from ladleworth.week import accepted_week, decide_week

    if is_kitchen_file(asked.kitchen):
        return accepted_week(asked.kitchen)
    if asked.wanted.is_live or asked.wanted.keep:
        raise NotYet(f"{asked.kitchen} is a folder and keeps nothing; load it into a file and decide there")
    return decide_week(asked.kitchen, today=asked.today, seconds=asked.asking.seconds, seed=asked.asking.seed)


def _no_plan(asked: Asked, week: PlannedWeek) -> int:
    """Say that nothing is cooked, for there is no plan; `decide` says why."""
    from ladleworth.cli import say
    from ladleworth.cli.json_out import write_json

    if asked.as_json:
        write_json({"kitchen": asked.kitchen, "status": week.answer.status, "timetable": None})
    else:
        say.sentence(
            f"There is nothing to cook: {week.answer.status.value}. `ladleworth decide {asked.kitchen}` says why."
        )
    return NO_PLAN if week.clash is not None else OUT_OF_TIME


# --- a whole day -----------------------------------------------------------------------------------------------


def _whole(asked: Asked, week: PlannedWeek) -> int:
    """Show the timetable of a session: the one that is kept, unless another is asked for."""
    from ladleworth.cli import show_day
    from ladleworth.cli.day_document import document, found_out

    planned = _planned(asked, week)
    equipment = week.kitchen.household.equipment
    found = found_out(planned, asked.wanted, asked.asking, equipment)
    draw(asked, planned, planned.answer)
    if asked.as_json:
        from ladleworth.cli.json_out import write_json

        write_json(document(planned, found))
    else:
        show_day.whole(planned, found)
        show_day.what_next(asked.kitchen, asked.wanted, week.number)
    return code_of(planned.answer)


def _planned(asked: Asked, week: PlannedWeek) -> PlannedDay:
    from ladleworth.week.day_live import keep_day, read_kept
    from ladleworth.week.day_planning import next_session, plan_cooking

    day = asked.wanted.day or next_session(week, asked.today)
    kept = None if week.number is None else read_kept(asked.kitchen, week, day)
    if kept is not None and not asked.wanted.plans_anew:
        return kept.planned
    planned = plan_cooking(week, day, _wish(asked), asked.asking)
    if asked.wanted.keep and planned.answer.nominal is not None:
        keep_day(asked.kitchen, planned, clock=options.clock_now())
    return planned


def _wish(asked: Asked) -> DayWish:
    from ladleworth.week.day_planning import DayWish

    return DayWish(asked.wanted.start, asked.wanted.by, asked.wanted.cooks)


def code_of(answer: DayAnswer) -> int:
    """Give the exit code of an answer."""
    from ladleworth.cookday.answer import Status

    return {Status.IMPOSSIBLE: NO_PLAN, Status.OUT_OF_TIME: OUT_OF_TIME}.get(answer.status, 0)


def draw(asked: Asked, planned: PlannedDay, answer: DayAnswer, live: LiveDay | None = None) -> None:
    """Write the chart, if one was asked for and there is a timetable."""
    from ladleworth.cli import say
    from ladleworth.cli.show_day import chart_notes
    from ladleworth.publish.day_chart import day_chart

    if asked.wanted.chart is None or answer.nominal is None:
        return
    question = planned.question if live is None else live.question
    start = planned.start_min if live is None else live.start.hour * 60 + live.start.minute
    drawn = day_chart(
        question,
        answer.nominal,
        title=f"{planned.kitchen}: cooking on {say.long_day(planned.session.when)}",
        notes=chart_notes(answer, question, start),
        start_min=start,
        portrait=asked.wanted.portrait,
    )
    asked.wanted.chart.write_text(drawn, encoding="utf-8")


# --- a day on its way ------------------------------------------------------------------------------------------


def _live(asked: Asked, week: PlannedWeek) -> int:
    """Enter what happened, and say what to do now and next."""
    from ladleworth.cli import show_live
    from ladleworth.week.day_live import begin_step, end_step, forget_step, look

    at, clock = moment(asked.wanted, asked.today), options.clock_now()
    kept = _kept(asked, week)
    if asked.wanted.began is not None:
        live = begin_step(asked.kitchen, kept, asked.wanted.began, at=at, clock=clock)
    elif asked.wanted.ended is not None:
        live = end_step(asked.kitchen, kept, asked.wanted.ended, at=at, clock=clock)
    elif asked.wanted.forget is not None:
        live = forget_step(asked.kitchen, kept, asked.wanted.forget, at=at, clock=clock)
    else:
        live = look(kept, at=at)
    draw(asked, kept.planned, live.answer, live)
    if asked.as_json:
        from ladleworth.cli.json_out import write_json

        write_json(show_live.document(live))
    else:
        show_live.whole(live)
    return code_of(live.answer)


def _kept(asked: Asked, week: PlannedWeek) -> KeptPlan:
    """Find the timetable that the cook goes by; without one, the day is planned, and kept with the first entry."""
    from ladleworth.week.day_live import day_on_its_way, keep_day, not_yet_kept, read_kept
    from ladleworth.week.day_planning import next_session, plan_cooking

    day = asked.wanted.day or day_on_its_way(asked.kitchen, week, asked.today)
    day = day or next_session(week, asked.today)
    kept = read_kept(asked.kitchen, week, day)
    if kept is not None and not asked.wanted.plans_anew:
        return kept
    planned = plan_cooking(week, day, _wish(asked), asked.asking)
    if asked.wanted.keep:
        return keep_day(asked.kitchen, planned, clock=options.clock_now())
    return not_yet_kept(asked.kitchen, planned)
