"""Plans as rows of the kitchen's file, with what became of them: marks, cooking days and their entries, readings."""

from __future__ import annotations

import json
import sqlite3
from collections import defaultdict
from collections.abc import Iterable
from datetime import date, datetime

from ladleworth.divide.readings import Reading
from ladleworth.store import plan_json
from ladleworth.store.kept_day import DayEntry, Happened, KeptDay
from ladleworth.store.kept_reading import KeptReading
from ladleworth.store.plan_json import Deed, Mark, SavedPlan


def insert_plan(connection: sqlite3.Connection, plan: SavedPlan) -> None:
    """Add a plan with all that became of it."""
    connection.execute(
        "INSERT INTO plans (id, made_on, start, question, answer, accepted) VALUES (?, ?, ?, ?, ?, ?)",
        (
            plan.id,
            plan.made_on.isoformat(),
            plan.start.isoformat(),
            plan.question,
            plan_json.to_json(plan.answer),
            int(plan.accepted),
        ),
    )
    for mark in plan.marks:
        insert_mark(connection, plan.id, mark)
    for day in plan.cooking_days:
        insert_cooking_day(connection, plan.id, day)
    insert_day_entries(connection, plan.id, plan.day_entries)
    insert_readings(connection, plan.id, plan.yield_readings)


def insert_mark(connection: sqlite3.Connection, plan: int, mark: Mark) -> None:
    """Add a mark; one that is there already changes nothing."""
    values = (mark.deed.value, mark.day, mark.what)
    connection.execute(
        "INSERT INTO plan_marks (plan, position, deed, day, what) "
        "SELECT ?, (SELECT count(*) FROM plan_marks WHERE plan = ?), ?, ?, ? "
        "WHERE NOT EXISTS (SELECT 1 FROM plan_marks WHERE (plan, deed, day, what) = (?, ?, ?, ?))",
        (plan, plan, *values, plan, *values),
    )


def insert_cooking_day(connection: sqlite3.Connection, plan: int, day: KeptDay) -> None:
    """Add a timetable that the cook goes by."""
    connection.execute(
        "INSERT INTO cooking_days (number, plan, day, start, kept, session, answer, in_force) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (
            day.number,
            plan,
            day.day,
            None if day.start is None else _text(day.start),
            _text(day.kept),
            day.session,
            day.answer,
            day.in_force,
        ),
    )


def put_in_force(connection: sqlite3.Connection, number: int, answer: str) -> None:
    """Note the answer of a cooking day as it was planned anew."""
    connection.execute("UPDATE cooking_days SET in_force = ? WHERE number = ?", (answer, number))


def insert_day_entries(connection: sqlite3.Connection, plan: int, entries: Iterable[DayEntry]) -> None:
    """Add entries of a cooking day."""
    connection.executemany(
        "INSERT INTO day_entries (number, plan, day, activity, what, at, entered, act, takes_back) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [
            (
                one.number,
                plan,
                one.day,
                one.activity,
                one.what.value,
                _text(one.at),
                _text(one.entered),
                one.act,
                one.takes_back,
            )
            for one in entries
        ],
    )


def insert_readings(connection: sqlite3.Connection, plan: int, readings: Iterable[KeptReading]) -> None:
    """Add readings of the scale."""
    connection.executemany(
        "INSERT INTO yield_readings (number, plan, day, dish, version, portions, parts, unit, gross, tare, entered) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [
            (
                one.number,
                plan,
                one.day,
                one.dish,
                one.version,
                one.portions,
                json.dumps(one.reading.parts, ensure_ascii=False),
                "piece" if one.reading.in_pieces else "mg",
                one.reading.gross,
                one.reading.tare,
                _text(one.entered),
            )
            for one in readings
        ],
    )


def next_number(connection: sqlite3.Connection, table: str) -> int:
    """Give the next free number of a table that has numbers."""
    found: int = connection.execute(f"SELECT coalesce(max(number), 0) + 1 FROM {table}").fetchone()[0]  # noqa: S608
    return found


def read_plans(connection: sqlite3.Connection) -> tuple[SavedPlan, ...]:
    """Give every plan with all that became of it, by number."""
    plans = connection.execute(
        "SELECT id, made_on, start, question, answer, accepted FROM plans ORDER BY id"
    ).fetchall()
    marks, days, entries = _marks(connection), _cooking_days(connection), _day_entries(connection)
    readings = _readings(connection)
    return tuple(
        SavedPlan(
            number,
            date.fromisoformat(made_on),
            date.fromisoformat(start),
            question,
            plan_json.from_json(answer),
            bool(accepted),
            tuple(marks[number]),
            tuple(days[number]),
            tuple(entries[number]),
            tuple(readings[number]),
        )
        for number, made_on, start, question, answer, accepted in plans
    )


def _marks(connection: sqlite3.Connection) -> defaultdict[int, list[Mark]]:
    marks: defaultdict[int, list[Mark]] = defaultdict(list)
    found = connection.execute("SELECT plan, deed, day, what FROM plan_marks ORDER BY plan, position")
    for plan, deed, day, what in found:
        marks[plan].append(Mark(Deed(deed), day, what))
    return marks


def _cooking_days(connection: sqlite3.Connection) -> defaultdict[int, list[KeptDay]]:
    days: defaultdict[int, list[KeptDay]] = defaultdict(list)
    found = connection.execute(
        "SELECT plan, number, day, start, kept, session, answer, in_force FROM cooking_days ORDER BY number"
    )
    for plan, number, day, start, kept, session, answer, in_force in found:
        began = None if start is None else datetime.fromisoformat(start)
        when = datetime.fromisoformat(kept)
        days[plan].append(KeptDay(number, day, began, when, session, answer, in_force))
    return days


def _day_entries(connection: sqlite3.Connection) -> defaultdict[int, list[DayEntry]]:
    entries: defaultdict[int, list[DayEntry]] = defaultdict(list)
    found = connection.execute(
        "SELECT plan, number, day, activity, what, at, entered, act, takes_back FROM day_entries ORDER BY number"
    )
    for plan, number, day, activity, what, at, entered, act, takes_back in found:
        when, noted = datetime.fromisoformat(at), datetime.fromisoformat(entered)
        entries[plan].append(DayEntry(number, day, activity, Happened(what), when, noted, act, takes_back))
    return entries


def _readings(connection: sqlite3.Connection) -> defaultdict[int, list[KeptReading]]:
    readings: defaultdict[int, list[KeptReading]] = defaultdict(list)
    found = connection.execute(
        "SELECT plan, number, day, dish, version, portions, parts, unit, gross, tare, entered FROM yield_readings "
        "ORDER BY number"
    )
    for plan, number, day, dish, version, portions, parts, unit, gross, tare, entered in found:
        reading = Reading(tuple(json.loads(parts)), gross, tare, unit == "piece")
        noted = datetime.fromisoformat(entered)
        readings[plan].append(KeptReading(number, day, dish, version, portions, reading, noted))
    return readings


def _text(when: datetime) -> str:
    return when.isoformat(timespec="seconds")
