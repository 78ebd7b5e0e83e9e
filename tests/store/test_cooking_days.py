"""Cooking days in the kitchen's file: kept, entered, never changed, and carried over by a dump and a load."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from tests.store.kitchens import ANSWER, EVENING, PLAN, PLAN_LIVED, START, reading
from tests.store.test_migrations import SCHEMAS, build

from ladleworth.errors import BadField, StoreError
from ladleworth.store.database import Store
from ladleworth.store.dump import papers_of, write_folder
from ladleworth.store.folder import read_folder
from ladleworth.store.kept_day import DayEntry, Happened, KeptDay
from ladleworth.store.plan_json import read_plan, write_plan


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store.open(tmp_path / "k", create=True) as opened:
        opened.load(replace(reading(), plans=(PLAN,)))
        yield opened


def entry(number: int, activity: str = "Rice bowl: 1", **more: object) -> DayEntry:
    return DayEntry(number, 1, activity, Happened.BEGAN, EVENING, EVENING, number, **more)  # type: ignore[arg-type]


def test_a_day_and_its_entries_are_there_after_a_restart(store: Store) -> None:
    kept = store.keep_cooking_day(1, 1, EVENING, EVENING, "{}", "[]")
    assert kept == KeptDay(1, 1, EVENING, EVENING, "{}", "[]")
    assert store.next_day_entry() == 1
    store.enter_on_day(1, [entry(1), entry(2, "Rice bowl: 2")])
    store.close()
    with Store.open(store.path) as again:
        (plan,) = again.plans()
        assert plan == replace(PLAN, cooking_days=(kept,), day_entries=(entry(1), entry(2, "Rice bowl: 2")))
        assert again.next_day_entry() == 3


def test_a_day_kept_anew_stands_beside_the_old_one(store: Store) -> None:
    store.keep_cooking_day(1, 1, None, EVENING, "{}", "old")
    store.keep_cooking_day(1, 1, EVENING, EVENING, "{}", "new")
    (plan,) = store.plans()
    assert [(one.number, one.start, one.answer) for one in plan.cooking_days] == [
        (1, None, "old"),
        (2, EVENING, "new"),
    ]


def test_what_was_planned_anew_stands_beside_what_was_kept(store: Store) -> None:
    store.keep_cooking_day(1, 1, EVENING, EVENING, "{}", "kept")
    store.put_in_force(1, "anew")
    ((one,),) = (plan.cooking_days for plan in store.plans())
    assert (one.answer, one.in_force) == ("kept", "anew")


def test_days_belong_to_their_plan(store: Store) -> None:
    second = store.save_plan(START, START, ANSWER, accepted=True)
    store.keep_cooking_day(second.id, 1, None, EVENING, "{}", "[]")
    store.enter_on_day(second.id, [entry(1)])
    first, other = store.plans()
    assert (first.cooking_days, first.day_entries) == ((), ())
    assert other.day_entries == (entry(1),)
    with pytest.raises(StoreError, match="holds no plan number 9"):
        store.keep_cooking_day(9, 1, None, EVENING, "{}", "[]")
    with pytest.raises(StoreError, match="holds no plan number 9"):
        store.enter_on_day(9, [entry(2)])


@pytest.mark.parametrize("act", ["UPDATE day_entries SET at = 'x'", "DELETE FROM day_entries"])
def test_the_file_itself_refuses_to_change_an_entry(store: Store, act: str) -> None:
    store.enter_on_day(1, [entry(1)])
    with pytest.raises(sqlite3.IntegrityError, match="is never"):
        store._connection.execute(act)


def test_a_number_that_is_taken_is_refused_and_nothing_of_the_act_is_kept(store: Store) -> None:
    store.enter_on_day(1, [entry(1)])
    with pytest.raises(StoreError, match="changed meanwhile"):
        store.enter_on_day(1, [entry(2), entry(1)])
    assert store.plans()[0].day_entries == (entry(1),)


def test_an_entry_is_taken_back_once(store: Store) -> None:
    store.enter_on_day(1, [entry(1), entry(2, takes_back=1)])
    with pytest.raises(StoreError, match="changed meanwhile"):
        store.enter_on_day(1, [entry(3, takes_back=1)])


def test_days_and_entries_come_through_a_dump_and_a_load(tmp_path: Path) -> None:
    with Store.open(tmp_path / "k", create=True) as store:
        store.load(replace(reading(), plans=(PLAN_LIVED,)))
        write_folder(store.load_kitchen(), store.papers(), tmp_path / "out", store.plans())
    again = read_folder(tmp_path / "out")
    assert again.findings == ()
    assert again.plans == (PLAN_LIVED,)
    with Store.open(tmp_path / "k2", create=True) as store:
        store.load(again)
        assert store.plans() == (PLAN_LIVED,)


def test_a_plan_dumped_before_there_were_cooking_days_is_read() -> None:
    given = reading()
    (paper,) = [
        p for p in papers_of(given.without_faults(), given.papers, [PLAN]) if p.path == "plans/0001.json"
    ]
    data = json.loads(paper.text)
    del data["cooking_days"], data["day_entries"]
    assert read_plan(json.dumps(data)) == PLAN


def test_an_old_file_takes_entries_once_it_is_opened(tmp_path: Path) -> None:
    build(tmp_path / "old", SCHEMAS / "v1.sql")
    with Store.open(tmp_path / "old") as store:
        store.keep_cooking_day(1, 1, None, EVENING, "{}", "[]")
        store.enter_on_day(1, [entry(1)])
    with Store.open(tmp_path / "old") as store:
        assert store.plans()[0].day_entries == (entry(1),)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"number": 0}, "count from 1"),
        ({"day": 0}, "count from 1"),
        ({"activity": ""}, "names no step"),
        ({"act": 9}, "one that comes after it"),
        ({"takes_back": 5}, "one that comes after it"),
    ],
)
def test_an_entry_that_cannot_be_is_refused(wrong: dict[str, object], said: str) -> None:
    with pytest.raises(BadField, match=said):
        replace(entry(5), **wrong)


def test_entries_stand_in_a_plan_once_and_by_number() -> None:
    with pytest.raises(BadField, match="out of order"):
        replace(PLAN, day_entries=(entry(2), entry(1)))
    late = replace(PLAN_LIVED, day_entries=(replace(entry(1), at=EVENING + timedelta(hours=1)),))
    assert read_plan(write_plan(late)) == late
    text = write_plan(late).replace("2026-12-06T18:30", "half past six")
    with pytest.raises(BadField, match=r"day_entries\[1\]\.at"):
        read_plan(text)
