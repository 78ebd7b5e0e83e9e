"""A cooking day on its way: what was entered, what is running, what to begin now and next, and which limits press."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ladleworth.cli import say
from ladleworth.cli.show_day import LEAVE_IT, into_the_fridge, lines, list_rows, percent
from ladleworth.cookday.answer import Status
from ladleworth.cookday.happened import lag_words
from ladleworth.cookday.judge import measure
from ladleworth.cookday.verdict import groups_of
from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_names import names_of
from ladleworth.publish.day_rows import DayRow, RowKind, limits_of, rows_of
from ladleworth.store.kept_day import Happened
from ladleworth.units import show_minutes
from ladleworth.week.day_live import LiveDay, minute_of, minutes_taken
from ladleworth.week.day_missed import broken_waits, minutes_left, wait_words

if TYPE_CHECKING:
    from ladleworth.cookday.question import Lag
    from ladleworth.store.kept_day import DayEntry

MOST_NEXT = 8
"""So many lines of what comes next are shown."""

STRAIGHT_IN = (
    "What can be done: leave the cooling on the counter out. Hot food may go straight into the fridge in small shallow "
    "containers (University of Maryland, read), spaced apart, lids loose until it is cold (Food Code 3-501.15 as adopted in "
    "Washington State, read)."
)
OUT_TOO_LONG = (
    "Published advice for perishable food that has stood out longer than that: throw it out (USDA FSIS refreezing advice, "
    "in a text copy, read: left out over 2 h, 1 h above 90 °F). Heating it again does not undo it, for some toxins "
    "survive heat (University of Missouri Extension, read)."
)
NOT_A_LIMIT = "That wait is the recipe's or the kitchen's, not a published limit: look at what became of it."


def clock_of(live: LiveDay) -> DayClock:
    """Give the clock of a day on its way."""
    return DayClock(live.start.hour * 60 + live.start.minute)


def whole(live: LiveDay) -> None:
    """Show a day as it stands."""
    clock, session = clock_of(live), live.kept.planned.session
    say.heading(f"{clock.at(live.question.now)}, cooking on {say.long_day(session.when)} (day {session.day})")
    for line in entered(live):
        say.sentence(line)
    lines("Running", running(live))
    missed(live)
    if live.answer.nominal is None:
        say.heading("The rest cannot be planned")
        for reason in live.answer.why_not or (live.answer.status.value,):
            say.sentence(reason, indent=2)
        return
    now, later = coming(live)
    cooks = live.question.bench.cooks
    say.heading("Now")
    if now:
        list_rows(now, clock, cooks)
    else:
        say.sentence(
            "Nothing is to be begun."
            if later
            else "Nothing is left to be begun; wait for what is running."
            if live.kept.book.running()
            else "All is done.",
            indent=2,
        )
    if later:
        say.heading("Next")
        list_rows(later[:MOST_NEXT], clock, cooks)
        if len(later) > MOST_NEXT:
            say.sentence(
                f"and {say.plural(len(later) - MOST_NEXT, 'more line')}; --json has them all", indent=2
            )
    into_the_fridge(live.question, live.answer.nominal, clock)
    finish(live)


def entered(live: LiveDay) -> Iterator[str]:
    """Say what has just been entered, first what was asked, then what that says of other steps."""
    codes = names_of(live.kept.book.question).codes
    told = []
    for entry in live.new:
        what = "taken back: " if entry.takes_back is not None else ""
        name = f"{codes[entry.activity]} ({entry.activity})"
        told.append(f"{what}{name} {entry.what.value} at {entry.at:%H:%M}")
    if told:
        yield f"Entered: {told[0]}."
    if len(told) > 1:
        yield f"With it: {'; '.join(told[1:])}."


def running(live: LiveDay) -> list[str]:
    """Say what is running, since when and until when, and what is over its time."""
    book, clock, told = live.kept.book, clock_of(live), []
    codes = names_of(book.question).codes
    mergings = {m.name: m for m in book.question.mergings}
    for name, members in groups_of(book.question, book.merged):
        began, activity = book.times(members[0]).began, book.question.activity(members[0])
        if began is None or not book.times(members[0]).is_running:
            continue
        together = mergings[name] if len(members) > 1 else None
        most = activity.most_min if together is None else together.minutes
        words = activity.words if together is None else f"{together.words or together.name}."
        since = minute_of(live.start, began.at)
        over = live.question.now - since - most
        until = f"until {clock.at(since + most)}" if over <= 0 else f"{over} min over its time"
        if activity.least_min < activity.most_min and over <= 0:
            until = f"may go on until {clock.at(since + most)}"
        code = "+".join(dict.fromkeys(codes[each] for each in members))
        told.append(f"{code} {words} Since {clock.at(since)}, {until}.")
    return told


def coming(live: LiveDay) -> tuple[list[DayRow], list[DayRow]]:
    """List what is to be begun now, and what comes next, without what has begun."""
    assert live.answer.nominal is not None
    begun = {entry.activity for entry in live.kept.book.standing() if entry.what is Happened.BEGAN}
    posed = live.kept.planned.session.posed
    rows = rows_of(live.question, live.answer.nominal, posed.instructions, posed.cores)
    left = [row for row in rows if row.start >= live.question.now and not begun.intersection(row.activities)]
    left += [row for row in rows if row.kind is RowKind.OVEN and row.start < live.question.now <= row.end]
    left.sort(key=lambda row: row.start)
    now = [row for row in left if row.start <= live.question.now]
    return now, [row for row in left if row.start > live.question.now]


def missed_words(live: LiveDay) -> list[str]:
    """Say which waits are broken, and which cannot be kept as the steps stand."""
    told, nominal = list(live.answer.missed), live.answer.nominal
    for lag in live.given_up:
        left = minutes_left(live.question, lag)
        words = lag_words(lag) if nominal is None else wait_words(nominal, lag)
        if nominal is not None and lag not in broken_waits(live.question, nominal):
            words += ", and it is kept only if nothing takes longer than stated"
        told.append(words if left is None or left < 0 else f"{words}; {left} minutes of it are left")
    return list(dict.fromkeys(told))


def missed_lags(live: LiveDay) -> tuple[Lag, ...]:
    """List the waits that are broken, or out of reach at the slow pace."""
    if live.answer.nominal is None:
        return live.given_up
    return tuple(dict.fromkeys((*broken_waits(live.question, live.answer.nominal), *live.given_up)))


def missed(live: LiveDay) -> None:
    """Say which limits are missed, and what published advice says to do."""
    told = missed_words(live)
    if not told:
        return
    say.heading("Missed, or out of reach")
    for words in told:
        say.sentence(words, indent=2)
    lags = missed_lags(live)
    if any(lag.limit and lag.second_end and _is_open(live, lag) for lag in lags):
        say.sentence(STRAIGHT_IN, indent=2)
    if any(lag.limit for lag in lags):
        say.sentence(OUT_TOO_LONG, indent=2)
    if not all(lag.limit for lag in lags):
        say.sentence(NOT_A_LIMIT, indent=2)
    say.sentence(LEAVE_IT, indent=2)


def _is_open(live: LiveDay, lag: Lag) -> bool:
    """Tell whether something can still be done about a wait: it runs, and is not over its minutes yet."""
    left = minutes_left(live.question, lag)
    return lag in live.given_up and (left is None or left >= 0)


def finish(live: LiveDay) -> None:
    """Say when all is done now, how sure that is, and whether the wished time is lost."""
    answer, clock = live.answer, clock_of(live)
    assert answer.measure is not None
    assert answer.nominal is not None
    if live.late:
        wished = live.kept.planned.question.deadline
        when = (
            ""
            if wished is None or live.kept.planned.start_min is None
            else f" by {DayClock(live.kept.planned.start_min).at(wished)}"
        )
        say.sentence(f"The kitchen cannot be clean{when} any more where hands-on work is slower than stated.")
    say.sentence(_pace(live, clock))
    say.sentence(
        f"The day began at {clock.at(0)}, {show_minutes(live.question.now)} ago. A wrong entry is taken back with --forget STEP."
    )


def _pace(live: LiveDay, clock: DayClock) -> str:
    """Say when all is done, at the stated pace and where it is planned for the slow one, and how sure that is."""
    answer = live.answer
    assert answer.nominal is not None
    assert answer.measure is not None
    stated, slow = clock.at(measure(live.question, answer.nominal).finish), clock.at(answer.measure.finish)
    if answer.status is Status.PROVEN:
        sure = "no rest is shorter"
    elif answer.bound is None:
        sure = "a shorter rest may exist"
    else:
        sure = f"none is done before {clock.at(answer.bound)}"
    took = f"planned anew in {answer.seconds:.1f} s"
    if not live.easing.at_slow_pace:
        return (
            f"All is done at {stated} at the stated pace; {sure} ({took}). It could not be planned for slower hands: where "
            "work takes longer than stated, a wait may break."
        )
    return (
        f"All is done at {stated} at the stated pace, at {slow} where what is left of the hands-on work takes "
        f"{percent(live.question)} % longer; at that pace, {sure} ({took})."
    )


def document(live: LiveDay) -> dict[str, object]:
    """Gather what --json prints of a day on its way."""
    book, planned = live.kept.book, live.kept.planned
    now, later = coming(live) if live.answer.nominal is not None else ([], [])
    return {
        "kitchen": planned.kitchen,
        "plan_number": planned.plan_number,
        "day": planned.session.day,
        "when": planned.session.when,
        "start": live.start.isoformat(timespec="minutes"),
        "now_min": live.question.now,
        "status": live.answer.status,
        "bound": live.answer.bound,
        "measure": live.answer.measure,
        "seconds": live.answer.seconds,
        "seed": live.answer.seed,
        "solver": live.answer.solver,
        "late": live.late,
        "at_slow_pace": live.easing.at_slow_pace,
        "why_not": live.answer.why_not,
        "missed": missed_words(live),
        "missed_lags": missed_lags(live),
        "entered": [record(entry) for entry in live.new],
        "entries": [record(entry) for entry in book.standing()],
        "running": book.running(),
        "now": now,
        "next": later,
        "limits": () if live.answer.nominal is None else limits_of(live.question, live.answer.nominal),
        "timetable": live.answer.nominal,
        "slow": live.answer.slow,
        "minutes": minutes_taken(book),
    }


def record(entry: DayEntry) -> dict[str, object]:
    """An entry with its times as text."""
    return {
        "number": entry.number,
        "activity": entry.activity,
        "what": entry.what,
        "at": entry.at.isoformat(timespec="minutes"),
        "entered": entry.entered.isoformat(timespec="seconds"),
        "takes_back": entry.takes_back,
    }
