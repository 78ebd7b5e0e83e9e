"""Readings of the scale in the kitchen's file: kept, never changed, and carried over by a dump and a load."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from tests.store.kitchens import ANSWER, EVENING, PLAN, PLAN_WEIGHED, START, reading
from tests.store.test_migrations import SCHEMAS, build

from ladleworth.divide import Reading
from ladleworth.errors import BadField, StoreError
from ladleworth.store.database import Store
from ladleworth.store.dump import papers_of, write_folder
from ladleworth.store.folder import read_folder
from ladleworth.store.kept_reading import KeptReading
from ladleworth.store.plan_json import read_plan

POT = Reading(("sauce", "heart"), 4_100_000, 1_200_000)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store.open(tmp_path / "k", create=True) as opened:
        opened.load(replace(reading(), plans=(PLAN,)))
        yield opened


def kept(number: int, said: Reading = POT) -> KeptReading:
    return KeptReading(number, 1, "Rice bowl", "egg", 2, said, EVENING)


def test_readings_are_there_after_a_restart_in_their_order(store: Store) -> None:
    assert store.next_reading() == 1
    store.keep_readings(1, [kept(1), kept(2, Reading(("rice, cooked",), 7, in_pieces=True))])
    store.close()
    with Store.open(store.path) as again:
        (plan,) = again.plans()
        assert plan == replace(
            PLAN, yield_readings=(kept(1), kept(2, Reading(("rice, cooked",), 7, in_pieces=True)))
        )
        assert again.next_reading() == 3


def test_readings_belong_to_their_plan(store: Store) -> None:
    second = store.save_plan(START, START, ANSWER, accepted=True)
    store.keep_readings(second.id, [kept(1)])
    first, other = store.plans()
    assert (first.yield_readings, other.yield_readings) == ((), (kept(1),))
    with pytest.raises(StoreError, match="holds no plan number 9"):
        store.keep_readings(9, [kept(2)])


@pytest.mark.parametrize("act", ["UPDATE yield_readings SET gross = 1", "DELETE FROM yield_readings"])
def test_the_file_itself_refuses_to_change_a_reading(store: Store, act: str) -> None:
    store.keep_readings(1, [kept(1)])
    with pytest.raises(sqlite3.IntegrityError, match="a reading of the scale is never"):
        store._connection.execute(act)


def test_a_number_that_is_taken_is_refused_and_nothing_is_kept(store: Store) -> None:
    store.keep_readings(1, [kept(1)])
    with pytest.raises(StoreError, match="changed meanwhile"):
        store.keep_readings(1, [kept(2), kept(1)])
    assert store.plans()[0].yield_readings == (kept(1),)


def test_readings_come_through_a_dump_and_a_load(tmp_path: Path) -> None:
    with Store.open(tmp_path / "k", create=True) as store:
        store.load(replace(reading(), plans=(PLAN_WEIGHED,)))
        write_folder(store.load_kitchen(), store.papers(), tmp_path / "out", store.plans())
    again = read_folder(tmp_path / "out")
    assert (again.findings, again.plans) == ((), (PLAN_WEIGHED,))
    with Store.open(tmp_path / "k2", create=True) as store:
        store.load(again)
        assert store.plans() == (PLAN_WEIGHED,)


def test_a_plan_dumped_before_there_were_readings_is_read() -> None:
    given = reading()
    papers = papers_of(given.without_faults(), given.papers, [PLAN])
    data = json.loads(next(paper.text for paper in papers if paper.path == "plans/0001.json"))
    del data["yield_readings"]
    assert read_plan(json.dumps(data)) == PLAN


@pytest.mark.parametrize("script", ["v1", "v2"])
def test_an_old_file_takes_readings_once_it_is_opened(script: str, tmp_path: Path) -> None:
    build(tmp_path / "old", SCHEMAS / f"{script}.sql")
    with Store.open(tmp_path / "old") as store:
        store.keep_readings(1, [kept(1)])
    with Store.open(tmp_path / "old") as store:
        assert store.plans()[0].yield_readings == (kept(1),)


@pytest.mark.parametrize("wrong", [{"number": 0}, {"day": 0}, {"portions": 0}])
def test_a_reading_that_counts_from_nothing_is_refused(wrong: dict[str, int]) -> None:
    with pytest.raises(BadField, match="count from 1"):
        replace(kept(1), **wrong)
    with pytest.raises(BadField, match="names no dish or no version"):
        replace(kept(1), version="")


def test_readings_stand_in_a_plan_once_and_by_number() -> None:
    with pytest.raises(BadField, match="reading of the scale twice or out of order"):
        replace(PLAN, yield_readings=(kept(2), kept(1)))
