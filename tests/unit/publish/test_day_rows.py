"""A cooking day as a list by the clock."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.unit.publish.days import (
    BAKE,
    BAKE_END,
    CHOP,
    FRY,
    INSTRUCTIONS,
    ONION,
    QUESTION,
    SIMMER,
    STEW,
    STEW_END,
    TIMETABLE,
)

from ladleworth.cookday.pose_cores import CoreNote
from ladleworth.publish.day_rows import DayRow, RowKind, limits_of, rows_of

ROWS = rows_of(QUESTION, TIMETABLE, INSTRUCTIONS)


def row(kind: RowKind, start: int) -> DayRow:
    (found,) = [each for each in ROWS if (each.kind, each.start) == (kind, start)]
    return found


def test_every_activity_stands_in_the_list_or_in_the_line_before_it() -> None:
    listed = {name for each in ROWS for name in each.activities if each.kind is not RowKind.DONE}
    assert {a.name for a in QUESTION.activities} - listed == {SIMMER, STEW_END[1], BAKE_END[1]}
    assert row(RowKind.HANDS, 7).then_until == 42
    assert row(RowKind.HANDS, 46).then_until == 69
    assert [each.start for each in ROWS] == sorted(each.start for each in ROWS)


def test_shared_work_is_one_line_with_the_amounts_of_each_dish() -> None:
    shared = row(RowKind.HANDS, 0)
    assert (shared.activities, shared.code, shared.words) == (
        (ONION, CHOP),
        "A1+B1",
        "chop the onions for both",
    )
    assert shared.amounts == ("A: 150 g onions", "B: 100 g onions")
    assert (shared.cooks, shared.where) == ((0,), ("bowl",))


def test_a_line_says_where_it_is_done() -> None:
    assert row(RowKind.HANDS, 7).where == ("burner 1", "pot 1")
    assert row(RowKind.ALONE, 17).where == ("oven at 190 °C",)
    assert row(RowKind.HANDS, 7).amounts == ("240 g beans",)
    assert row(RowKind.WASH, 7).words == "Wash the bowl."


def test_the_oven_is_set_in_time_for_its_load() -> None:
    # from 20 to 190 degrees in 17 minutes, and the load goes in at minute 17
    assert row(RowKind.OVEN, 0).words == "Set the oven to 190 °C."
    assert row(RowKind.OVEN, 0).end == 17


def test_what_comes_off_the_heat_while_nobody_is_there_is_said() -> None:
    done = row(RowKind.DONE, 42)
    assert done.activities == (SIMMER,)  # the bake is taken out by who divides it in that minute
    assert done.words == "A2 is done: take it off the heat."


def test_free_hands_are_told_for_each_cook() -> None:
    free = [(each.cooks, each.start, each.end) for each in ROWS if each.kind is RowKind.FREE]
    assert free == [((0,), 12, 42), ((1,), 15, 49), ((0,), 45, 46), ((0,), 49, 65), ((0,), 66, 69)]


def test_limits_stand_by_the_clock_the_first_to_run_out_first() -> None:
    found = limits_of(QUESTION, TIMETABLE)
    assert [(one.batch, one.since, one.at, one.latest, one.is_kept) for one in found] == [
        (STEW, 42, 70, 162, True),
        (BAKE, 42, 66, 162, True),
    ]
    late = replace(
        TIMETABLE,
        times=tuple(
            replace(time, start=170, end=171) if time.activity == BAKE_END[2] else time
            for time in TIMETABLE.times
        ),
    )
    assert [one.is_kept for one in limits_of(QUESTION, late)] == [True, False]


def test_what_has_to_be_measured_stands_where_the_step_begins() -> None:
    notes = (CoreNote(SIMMER, Fraction(74), Fraction(74), "It has to reach 74 °C."),)
    told = {r.activities: r.measures for r in rows_of(QUESTION, TIMETABLE, cores=notes) if r.measures}
    assert told == {(FRY,): ("It has to reach 74 °C.",)}
