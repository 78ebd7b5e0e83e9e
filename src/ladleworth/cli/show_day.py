"""A cooking day for the eye: how sure it is, what to do beforehand, the list by the clock, limits, and how slow it stands."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from ladleworth.cli import say, show_why_day
from ladleworth.cookday.answer import DayAnswer, Status
from ladleworth.cookday.judge import measure
from ladleworth.cookday.slack import HowSlow, Simulated, Window
from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_names import names_of
from ladleworth.publish.day_rows import DayRow, LimitByClock, RowKind, limits_of, rows_of
from ladleworth.units import show_minutes, show_volume

if TYPE_CHECKING:
    from pathlib import Path

    from ladleworth.cli.day_document import Found
    from ladleworth.cli.day_options import DayOptions
    from ladleworth.cookday.answer import Timetable
    from ladleworth.cookday.pose_tools import Gathered
    from ladleworth.cookday.question import DayQuestion
    from ladleworth.week.day_planning import PlannedDay

STATED_PERCENT = 100
TIGHT = 15
"""Windows with at most so many minutes to spare are listed; the tightest one always is."""

LEAVE_IT = (
    "Published limits are met or not met; none of this says that food is safe. Labels and local advice go first. In "
    "doubt, throw it out: look, smell and taste do not show it (extension advice, read)."
)


def title(planned: PlannedDay) -> None:
    """Name the kitchen and the day."""
    session = planned.session
    say.heading(f"{planned.kitchen}: cooking on {say.long_day(session.when)} (day {session.day})")


def whole(planned: PlannedDay, found: Found) -> None:
    """Show a day in full; where there is no timetable, why."""
    clock, question, answer = DayClock(planned.start_min), planned.question, planned.answer
    title(planned)
    if answer.nominal is None:
        no_timetable(planned, clock)
        return
    status(answer, question, clock)
    missed(answer)
    beforehand(planned, found.gathered)
    by_the_clock(planned, clock, answer.nominal)
    into_the_fridge(question, answer.nominal, clock)
    how_it_stands(found.windows, found.slow, question)
    if found.simulated is not None:
        simulated(found.simulated)
    if found.chain is not None and found.savings is not None:
        show_why_day.why(question, answer, found.chain, found.savings, clock)


def what_next(kitchen: Path, wanted: DayOptions, number: int | None) -> None:
    """Say what can be done with the timetable."""
    if wanted.keep:
        say.sentence(f"Kept. While you cook: ladleworth cookday {kitchen} --began STEP, --ended STEP, --now.")
    elif number is None:
        say.sentence("Not kept: a folder keeps nothing.")
    else:
        say.sentence(
            "--keep goes by this timetable; --began STEP begins the day. A STEP is written as in the list, such as A1."
        )


def chart_notes(answer: DayAnswer, question: DayQuestion, start_min: int | None) -> tuple[str, ...]:
    """Say above a chart when all is done, at the stated and at the promised pace."""
    if answer.nominal is None or answer.measure is None:
        return ()
    clock = DayClock(start_min)
    stated, slow = measure(question, answer.nominal).finish, answer.measure.finish
    pace = f"{percent(question)} % slower"
    return (
        f"Done and washed up at {clock.at(stated)} at the stated pace, at {clock.at(slow)} with hands-on work {pace}.",
    )


def missed(answer: DayAnswer) -> None:
    """Name limits that what has happened has broken."""
    lines("Missed", answer.missed)


def status(answer: DayAnswer, question: DayQuestion, clock: DayClock) -> None:
    """Say how good the timetable is known to be, in words never more certain than the solver, and what is promised."""
    took = f"{answer.seconds:.1f} s, {answer.solver}, seed {answer.seed}"
    assert answer.measure is not None
    assert answer.nominal is not None
    finish, slower = answer.measure.finish, percent(question)
    if answer.status is Status.PROVEN:
        say.sentence(
            f"Proven shortest: with hands-on work {slower} % slower than stated, no timetable that keeps all the rules "
            f"is done before {clock.at(finish)} ({took})."
        )
    elif answer.bound is None:
        say.sentence(
            f"Good: the best timetable found ({took}). How far off the shortest it is, is not known."
        )
    else:
        say.sentence(
            f"Good, with a gap: the best timetable found ({took}). With hands-on work {slower} % slower than stated, "
            f"none is done before {clock.at(answer.bound)}, and this one is at {clock.at(finish)}: at most "
            f"{show_minutes(finish - answer.bound)} off. More --seconds may close the gap."
        )
    stated = measure(question, answer.nominal).finish
    say.sentence(
        f"Done and washed up at {clock.at(stated)} at the stated pace; at {clock.at(finish)} where all hands-on work "
        f"takes {slower} % longer, and the limits hold then too. What stands below is the stated pace."
    )
    if not clock.is_known:
        say.sentence("Times count from the beginning; --start 16:00 shows them by the clock.")


def percent(question: DayQuestion) -> str:
    """Write how much slower the promised pace is."""
    return f"{float((question.slower - 1) * 100):g}"


def no_timetable(planned: PlannedDay, clock: DayClock) -> None:
    """Say why there is none, and where a wished time is in the way, what is the soonest."""
    answer = planned.answer
    if answer.status is Status.OUT_OF_TIME:
        say.sentence(
            f"Out of time: no timetable was found in {answer.seconds:.1f} s, and none was ruled out. Give it more --seconds."
        )
        return
    say.sentence("No timetable keeps all the rules:")
    for reason in answer.why_not:
        say.sentence(reason, indent=2)
    soonest = planned.soonest
    if soonest is not None and soonest.measure is not None:
        sure = "no sooner" if soonest.status is Status.PROVEN else "the soonest found"
        say.sentence(
            f"Without --by, all is done at {clock.at(soonest.measure.finish)} with hands-on work "
            f"{percent(planned.question)} % slower ({sure}): start earlier, cook less, or ask for a later time."
        )


# --- beforehand ------------------------------------------------------------------------------------------------


def beforehand(planned: PlannedDay, gathered: Sequence[Gathered]) -> None:
    """Show what is assumed and doubted, the day before's work, what to get out, and what to cut."""
    posed = planned.session.posed
    lines("Bear in mind", (*posed.doubts, *(f"{note.batch}: {note.words}" for note in posed.notes)))
    lines("Assumed", posed.assumptions)
    day_before(planned)
    lines(
        "Get out",
        (
            f"{one.count} × {one.tool}" + (f", {show_volume(one.volume_ml)}" if one.volume_ml else "")
            for one in gathered
        ),
    )
    lines("Cut", (line.words for line in posed.prep_list))


def day_before(planned: PlannedDay) -> None:
    """Show the work of the day before, by the clock where a start is known."""
    session = planned.session
    told = [_by(thaw.words, thaw.lead_min, planned.start) for thaw in session.to_thaw]
    for one in session.posed.day_before:
        amounts = "; ".join(each.words for each in one.ingredients)
        hands = f", {show_minutes(one.hands_min)} hands-on" if one.hands_min else ""
        words = f"{one.batch}: {one.words} ({amounts})" if amounts else f"{one.batch}: {one.words}"
        told.append(f"{_by(words, one.lead_min, planned.start)}{hands}")
    lines("Beforehand", told)


def _by(words: str, lead_min: int, start: datetime | None) -> str:
    """Say by when something has to be begun."""
    words = words.rstrip(".")
    if start is None:
        return f"{words}: begin at least {show_minutes(lead_min)} before the cooking"
    when = start - timedelta(minutes=lead_min)
    return f"{words}: begin by {say.short_day(when.date())}, {when:%H:%M}"


def lines(heading: str, told: Iterable[str]) -> None:
    """Write a heading with lines beneath it; nothing where there are none."""
    found = list(told)
    if found:
        say.heading(heading)
        for one in found:
            say.sentence(one, indent=2)


# --- by the clock ----------------------------------------------------------------------------------------------


def by_the_clock(planned: PlannedDay, clock: DayClock, timetable: Timetable) -> None:
    """Show the day as a list by the clock, with the dishes' letters before it."""
    question = planned.question
    say.heading("By the clock")
    say.sentence("; ".join(f"{letter} {batch}" for batch, letter in names_of(question).letters.items()))
    posed = planned.session.posed
    rows = rows_of(question, timetable, posed.instructions, posed.cores)
    list_rows(rows, clock, question.bench.cooks)


def list_rows(rows: Sequence[DayRow], clock: DayClock, cooks: int) -> None:
    """Write lines by the clock: when, how many minutes, what, and beneath it what goes in and where."""
    cells = [(clock.at(row.start), _minutes(row), row_text(row, clock, cooks)) for row in rows]
    say.table(("from", "min", "what"), cells, right=(0, 1))


def _minutes(row: DayRow) -> str:
    return "" if row.kind in (RowKind.DONE, RowKind.OVEN) else str(row.end - row.start)


def row_text(row: DayRow, clock: DayClock, cooks: int) -> str:
    """Say in words what a line is about."""
    who = f"[{' and '.join(f'cook {cook + 1}' for cook in row.cooks)}] " if cooks > 1 and row.cooks else ""
    if row.kind is RowKind.FREE:
        return f"{who}Hands free until {clock.at(row.end)}."
    words = row.words if row.words.endswith(".") else f"{row.words}."
    if row.kind is RowKind.OVEN:
        return f"{words} It is there at {clock.at(row.end)}."
    code = f"{row.code} " if row.kind in (RowKind.HANDS, RowKind.ALONE) and row.code else ""
    more = [f"{who}{code}{words}"]
    if row.kind is RowKind.ALONE:
        more[0] += f" By itself until {clock.at(row.end)}."
    if row.then_until is not None:
        more[0] += f" Then by itself until {clock.at(row.then_until)}."
    shared = len(row.activities) > 1
    more += [f"  {words}" for words in (row.amounts if shared else ("; ".join(row.amounts),)) if words]
    more += [f"  {words}" for words in row.measures]
    more += [f"  [{', '.join(row.where)}]"] if row.where else []
    return "\n".join(more)


def into_the_fridge(question: DayQuestion, timetable: Timetable, clock: DayClock) -> None:
    """Show by when each dish must be in the fridge, with the limit's reason."""
    found = [one for one in limits_of(question, timetable) if one.lag.second_end]
    if not found:
        return
    earliest: dict[str, LimitByClock] = {}
    for one in found:
        earliest.setdefault(one.batch, one)
    say.heading("Into the fridge or freezer")
    rows = [
        (
            one.batch,
            clock.at(one.at),
            clock.at(one.latest),
            "" if one.is_kept else "not kept",
        )
        for one in sorted(earliest.values(), key=lambda each: each.latest)
    ]
    say.table(("what", "planned", "at the latest", ""), rows, right=(1, 2))
    for why in dict.fromkeys(one.lag.why for one in found):
        say.sentence(f"Limit: {why}. A local code, a label or licensed practice goes before it.")


# --- how it stands ---------------------------------------------------------------------------------------------


def how_it_stands(windows: Sequence[Window], slow: HowSlow | None, question: DayQuestion) -> None:
    """Show how slow the cook may be, and the tightest windows."""
    say.heading("How it stands")
    for line in () if slow is None else slow_words(slow):
        say.sentence(line, indent=2)
    tight = [one for one in windows if one.lag.most]
    for window in [one for n, one in enumerate(tight) if n == 0 or one.spare <= TIGHT]:
        say.sentence(window_words(window, question), indent=2)


def slow_words(slow: HowSlow) -> Iterable[str]:
    """Say how slow the day stands."""
    from ladleworth.cookday.slack import SLOWEST_PERCENT

    if slow.percent >= SLOWEST_PERCENT:
        yield f"Every limit and every wait holds even where hands-on work takes {SLOWEST_PERCENT} % of the stated minutes (no more was tried)."
        return
    if slow.percent <= STATED_PERCENT:
        yield "Going by these times and holding nothing back, a wait breaks as soon as hands-on work takes longer than stated."
    else:
        yield (
            f"Going by these times, every limit and every wait holds while hands-on work is up to "
            f"{slow.percent - STATED_PERCENT} % slower than stated."
        )
    if slow.breaks:
        yield f"At 1 % more, this breaks first: {'; '.join(slow.breaks)}."
    if slow.retimed_percent > slow.percent:
        more = f"{slow.retimed_percent - STATED_PERCENT} %"
        limit = " (no more was tried)" if slow.retimed_percent >= SLOWEST_PERCENT else ""
        yield f"Timed anew in the same order for a slower pace, it holds up to {more} slower{limit}."


def window_words(window: Window, question: DayQuestion) -> str:
    """Say how much a greatest wait has to spare."""
    lag, codes = window.lag, names_of(question).codes
    first = f"{'end' if lag.first_end else 'start'} of {codes[lag.first]}"
    second = f"{'end' if lag.second_end else 'start'} of {codes[lag.second]}"
    why = f" ({lag.why})" if lag.why else ""
    return f"{first} to {second}: {window.minutes} of at most {lag.most} min, {window.spare} to spare{why}"


def simulated(told: Simulated) -> None:
    """Show what days of chance did to it."""
    say.heading("Days of chance")
    say.sentence(
        f"{told.limits_held} of {told.runs} kept every limit that is there for safety, {told.all_held} every wait too; each "
        "piece of hands-on work took by chance 0.9 to 1.3 times its stated minutes (our choice, no source).",
        indent=2,
    )
    for lag, times in told.broken:
        say.sentence(f"broke in {times}: {lag.first} to {lag.second}, at most {lag.most} min", indent=2)
