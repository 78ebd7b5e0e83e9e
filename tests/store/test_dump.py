from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path

import pytest
from tests.store.kitchens import PAPERS, PLAN, START, reading, write

from ladleworth.errors import StoreError
from ladleworth.ledger import Cause, Take, draw, throw_out
from ladleworth.store.database import Store
from ladleworth.store.dump import papers_of, write_folder
from ladleworth.store.folder import read_folder


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def test_a_kitchen_that_was_only_loaded_is_dumped_byte_for_byte(tmp_path: Path) -> None:
    home = write(tmp_path / "home", PAPERS)
    given = read_folder(home)
    with Store.open(tmp_path / "k", create=True) as store:
        store.load(given)
        write_folder(store.load_kitchen(), store.papers(), tmp_path / "out", store.plans())
    assert files(tmp_path / "out") == files(home)


def test_a_ledger_that_moved_on_takes_the_place_of_the_stock(tmp_path: Path) -> None:
    given = reading()
    kitchen = given.without_faults()
    drawn = draw(kitchen.ledger, START, "bowl-1", [Take("egg", 2)], note='two, "fresh"\r\nones ')
    thrown = throw_out(drawn.ledger, START, "rice-white-long-grain", Cause.SPILT, quantity=100_000)
    moved_on = replace(kitchen, ledger=thrown.ledger)
    write_folder(moved_on, given.papers, tmp_path / "out", [PLAN])
    assert sorted(files(tmp_path / "out")) == [
        "dishes.yaml", "foods.yaml", "kitchen.yaml", "ledger/lots.csv", "ledger/movements.csv",
        "plans/0001.json", "prices.csv",
    ]  # fmt: skip
    assert files(tmp_path / "out")["prices.csv"].decode() == PAPERS["prices.csv"]
    again = read_folder(tmp_path / "out")
    assert again.findings == ()
    assert again.kitchen == moved_on
    assert again.plans == (PLAN,)
    write_folder(again.without_faults(), again.papers, tmp_path / "twice", again.plans)
    assert files(tmp_path / "twice") == files(tmp_path / "out")


def test_prices_that_changed_are_written_anew(tmp_path: Path) -> None:
    given = reading()
    kitchen = given.without_faults()
    offers = (replace(kitchen.prices.offers[0], price_cents=199), kitchen.prices.offers[1])
    dearer = replace(kitchen, prices=replace(kitchen.prices, offers=offers), most_packages={})
    write_folder(dearer, given.papers, tmp_path / "out")
    assert read_folder(tmp_path / "out").kitchen == dearer
    assert files(tmp_path / "out")["stock.csv"].decode() == PAPERS["stock.csv"]


def test_a_plan_is_plain_json(tmp_path: Path) -> None:
    given = reading()
    (paper,) = [
        p for p in papers_of(given.without_faults(), given.papers, [PLAN]) if p.path == "plans/0001.json"
    ]
    data = json.loads(paper.text)
    assert data["accepted"] is True
    assert data["answer"]["costs"]["carried"] == "2/3"


def test_a_folder_that_holds_anything_is_left_alone(tmp_path: Path) -> None:
    given = reading()
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "letter.txt").write_text("x")
    with pytest.raises(StoreError, match="is there already and is not an empty folder"):
        write_folder(given.without_faults(), given.papers, tmp_path / "out")
    assert files(tmp_path / "out") == {"letter.txt": b"x"}
    with pytest.raises(StoreError, match="is there already and is not an empty folder"):
        write_folder(given.without_faults(), given.papers, tmp_path / "out" / "letter.txt")


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    given = reading()
    (tmp_path / "out").mkdir()
    write_folder(given.without_faults(), given.papers, tmp_path / "out")
    assert read_folder(tmp_path / "out").kitchen == given.kitchen


def test_a_dump_that_fails_leaves_nothing_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    given = reading()
    written: list[int] = []

    def full(handle: int) -> None:
        written.append(handle)
        if len(written) == 3:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StoreError, match="cannot be written: No space left on device"):
        write_folder(given.without_faults(), given.papers, tmp_path / "out")
    assert list(tmp_path.iterdir()) == []


def test_a_dump_into_a_missing_folder_is_refused(tmp_path: Path) -> None:
    given = reading()
    with pytest.raises(StoreError, match="cannot be written: No such file or directory"):
        write_folder(given.without_faults(), given.papers, tmp_path / "no" / "out")


@pytest.mark.parametrize(
    ("path", "old", "new", "said"),
    [
        ("ledger/movements.csv", "drawn", "drwn", "'drwn' is not a valid Kind"),
        ("ledger/movements.csv", ",-2,", ",-9,", "takes 9 pieces from lot 'egg'"),
        ("ledger/movements.csv", "2026-12-06", "2026-12-32", "this is no movement"),
        ("ledger/lots.csv", ",piece,", ",pieces,", "'pieces' is not a valid LotUnit"),
        ("ledger/lots.csv", ",5,110,", ",0,110,", "has a quantity of 0 piece"),
        ("ledger/lots.csv", "gift", "gft", "there is no column 'gft'; did you mean 'gift'?"),
    ],
)
def test_a_dump_that_was_tampered_with_is_told_by_file_and_line(
    path: str, old: str, new: str, said: str, tmp_path: Path
) -> None:
    given = reading()
    kitchen = given.without_faults()
    drawn = draw(kitchen.ledger, START, "bowl-1", [Take("egg", 2)])
    write_folder(replace(kitchen, ledger=drawn.ledger), given.papers, tmp_path / "out")
    file = tmp_path / "out" / path
    text = file.read_text()
    assert old in text
    file.write_text(text.replace(old, new, 1))
    again = read_folder(tmp_path / "out")
    assert again.kitchen is None
    assert any(said in str(finding) and finding.place.file == str(file) for finding in again.findings)
