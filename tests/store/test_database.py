from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from tests.store.kitchens import ANSWER, PAPERS, PLAN, START, reading, rice, totals

from ladleworth.errors import FaultyKitchen, LedgerError, StoreError
from ladleworth.ledger import Ledger, LotUnit, Offer, Spot, Take, buy, draw, move, take_stock
from ladleworth.store.database import Store
from ladleworth.store.folder import FolderReading
from ladleworth.store.migrations import APPLICATION_ID
from ladleworth.store.papers import Paper
from ladleworth.store.plan_json import Deed, Mark


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store.open(tmp_path / "home.kitchen", create=True) as opened:
        opened.load(reading())
        yield opened


def raw(path: str | Path) -> sqlite3.Connection:
    return sqlite3.connect(path, isolation_level=None)


def test_what_is_loaded_comes_back_equal(tmp_path: Path) -> None:
    given = replace(reading(), plans=(PLAN,))
    with Store.open(tmp_path / "k", create=True) as store:
        assert store.is_empty()
        store.load(given)
    with Store.open(tmp_path / "k") as store:
        assert not store.is_empty()
        assert store.load_kitchen() == given.kitchen
        assert store.papers() == given.papers
        assert store.plans() == (PLAN,)
        assert store.read().findings == given.findings


def test_a_commit_is_on_the_disk_and_references_are_checked(store: Store) -> None:
    connection = store._connection
    assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    assert connection.execute("PRAGMA synchronous").fetchone() == (2,)
    assert connection.execute("PRAGMA foreign_keys").fetchone() == (1,)
    assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)


def test_a_file_takes_one_kitchen_only(store: Store) -> None:
    with pytest.raises(StoreError, match="holds a kitchen already"):
        store.load(reading())
    assert store.load_kitchen() == reading().kitchen


def test_a_faulty_folder_is_not_taken_in(tmp_path: Path) -> None:
    with Store.open(tmp_path / "k", create=True) as store:
        with pytest.raises(FaultyKitchen):
            store.load(reading(kitchen_yaml="ladleworth: 1\n"))
        assert store.is_empty()
        with pytest.raises(StoreError, match="holds no kitchen yet; load a kitchen folder into it first"):
            store.load_kitchen()


def test_an_act_of_the_ledger_is_kept(store: Store) -> None:
    before = store.ledger()
    entered = draw(before, START, "bowl-1", [Take("egg", 2)])
    store.enter(entered)
    assert store.ledger() == entered.ledger
    entered = move(entered.ledger, START, "egg", Spot.FREEZER, use_by=None, quantity=1, new_lot_id="egg-2")
    store.enter(entered)
    assert store.ledger() == entered.ledger
    assert totals(store.ledger()) == totals(entered.ledger)
    assert store.load_kitchen().ledger == entered.ledger


def _cut_short(store: Store, ledger: Ledger) -> None:
    with store.transaction():
        store.enter(buy(ledger, START, [rice("more", 500)]))
        store.save_plan(START, START, ANSWER)
        raise RuntimeError("power cut")


def test_everything_in_a_transaction_is_kept_or_nothing(store: Store) -> None:
    before = store.load_kitchen()
    with pytest.raises(RuntimeError, match="power cut"):
        _cut_short(store, before.ledger)
    assert store.load_kitchen() == before
    assert store.plans() == ()


def test_a_part_that_fails_within_a_transaction_is_undone_alone(store: Store) -> None:
    ledger = store.ledger()
    with store.transaction():
        store.save_plan(START, START, ANSWER)
        with pytest.raises(StoreError, match="does not take this"):
            store.add_lots([rice("new", 1), rice("egg", 1)])  # the second id is taken
    assert len(store.plans()) == 1
    assert store.ledger() == ledger


def test_an_entry_is_never_changed_nor_taken_out(store: Store) -> None:
    with raw(store.path) as connection:
        with pytest.raises(sqlite3.IntegrityError, match="never changed"):
            connection.execute("UPDATE movements SET cents = 0")
        with pytest.raises(sqlite3.IntegrityError, match="never taken out"):
            connection.execute("DELETE FROM movements")
    connection.close()


def test_a_damaged_ledger_is_not_read_as_if_it_were_whole(store: Store) -> None:
    connection = raw(store.path)
    connection.execute("DROP TRIGGER movements_are_kept")
    connection.execute("DELETE FROM movements WHERE lot = 'egg'")
    connection.close()
    with pytest.raises(LedgerError, match="'egg' never came in"):
        store.load_kitchen()


def test_changed_papers_take_the_place_of_the_old_ones(store: Store) -> None:
    ledger = take_stock(store.ledger(), START, [rice("found", 300)])
    store.enter(ledger)
    changed = reading(
        kitchen_yaml=PAPERS["kitchen.yaml"].replace("days: 7", "days: 5"), stock_csv="food,amount\n"
    )
    store.replace_papers(changed.papers)
    kitchen = store.load_kitchen()
    assert kitchen.household.days == 5
    assert kitchen.ledger == ledger.ledger
    kept = {paper.path: paper.text for paper in store.papers()}
    assert kept["stock.csv"] == PAPERS["stock.csv"]
    assert "days: 5" in kept["kitchen.yaml"]


@pytest.mark.parametrize(
    "papers",
    [
        [Paper("kitchen.yaml", PAPERS["kitchen.yaml"])],
        [Paper(path, text.replace("days: 7", "days: x")) for path, text in PAPERS.items()],
    ],
)
def test_faulty_papers_change_nothing(store: Store, papers: list[Paper]) -> None:
    before = store.papers()
    with pytest.raises(FaultyKitchen):
        store.replace_papers(papers)
    assert store.papers() == before


def test_a_food_on_hand_cannot_be_taken_out_of_the_papers(tmp_path: Path) -> None:
    own = PAPERS["foods.yaml"] + "- food: sea bun\n  measured_in: pieces\n"
    stock = PAPERS["stock.csv"] + "sea bun,2,1.00,none,\n"
    with Store.open(tmp_path / "k", create=True) as store:
        store.load(reading(foods_yaml=own, stock_csv=stock))
        with pytest.raises(FaultyKitchen, match="lot 'sea-bun' is of the food 'sea-bun', which is not known"):
            store.replace_papers(reading().papers)


def test_prices_are_added_with_ids_and_a_second_look_on_one_day_corrects_the_first(store: Store) -> None:
    rice_id = "rice-white-long-grain"
    new = Offer(rice_id, " Mart ", 2_000_000, LotUnit.MG, 399, date(2026, 12, 7), name=" big ")
    (kept,) = store.add_offers([new], {"": 5})
    assert (kept.id, kept.shop, kept.name) == (f"{rice_id}-2", "Mart", "big")
    (again,) = store.add_offers([replace(new, price_cents=389)])
    assert again.id == kept.id
    kitchen = store.load_kitchen()
    assert [(offer.id, offer.price_cents) for offer in kitchen.prices.offers] == [
        (rice_id, 210), ("egg", 289), (f"{rice_id}-2", 389),
    ]  # fmt: skip
    assert kitchen.most_packages == {"egg": 2, f"{rice_id}-2": 5}
    with pytest.raises(StoreError, match="does not take this"):
        store.add_offers([replace(new, quantity=1, id="egg")])


def test_plans_are_numbered_accepted_and_marked(store: Store) -> None:
    first = store.save_plan(START, START, ANSWER, question="{}")
    second = store.save_plan(START, START + timedelta(days=7), ANSWER, accepted=True)
    assert [first.id, second.id] == [1, 2]
    store.accept_plan(1)
    for _ in range(2):  # marking again changes nothing
        store.mark(1, Mark(Deed.BOUGHT, 1, "egg"))
    store.mark(1, Mark(Deed.COOKED, 1, "Rice bowl"))
    marks = (Mark(Deed.BOUGHT, 1, "egg"), Mark(Deed.COOKED, 1, "Rice bowl"))
    assert store.plans() == (replace(first, accepted=True, marks=marks), second)


def test_a_plan_that_is_not_there_is_refused(store: Store) -> None:
    with pytest.raises(StoreError, match="holds no plan number 9"):
        store.accept_plan(9)
    with pytest.raises(StoreError, match="holds no plan number 9"):
        store.mark(9, Mark(Deed.BOUGHT, 1, "egg"))


def test_two_writers_take_turns_and_a_reader_never_waits(store: Store) -> None:
    with Store.open(store.path, wait_s=0.1) as other:
        with store.transaction():
            store.save_plan(START, START, ANSWER)
            assert other.plans() == ()
            with pytest.raises(
                StoreError, match=r"another program is writing to .*; try again when it is done"
            ):
                other.save_plan(START, START, ANSWER)
        assert len(other.plans()) == 1
        assert other.save_plan(START, START, ANSWER).id == 2


def test_an_act_on_an_outdated_ledger_is_refused_whole(store: Store) -> None:
    with Store.open(store.path) as other:
        seen = other.ledger()
        store.enter(buy(store.ledger(), START, [rice("a", 100)]))
        now = store.ledger()
        with pytest.raises(StoreError, match="may have been changed meanwhile, so load it anew and repeat"):
            other.enter(buy(seen, START, [rice("b", 100)]))
        assert other.ledger() == now


def test_a_folder_a_missing_file_and_a_missing_folder_are_refused(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="is a folder; name the kitchen's file"):
        Store.open(tmp_path, create=True)
    with pytest.raises(StoreError, match=r"there is no file .*none; load a kitchen folder into it first"):
        Store.open(tmp_path / "none")
    assert not (tmp_path / "none").exists()
    with pytest.raises(StoreError, match=r"there is no folder .*no; make it first"):
        Store.open(tmp_path / "no" / "k", create=True)


@pytest.mark.parametrize("create", [True, False])
@pytest.mark.parametrize("content", [b"hello", b"SQLite format 3\x00 but not really", b"\x00" * 5000])
def test_a_file_that_is_no_database_is_refused_untouched(
    tmp_path: Path, content: bytes, create: bool
) -> None:
    file = tmp_path / "notes"
    file.write_bytes(content)
    with pytest.raises(StoreError, match="is not a Ladleworth kitchen"):
        Store.open(file, create=create)
    assert file.read_bytes() == content
    assert [path.name for path in tmp_path.iterdir()] == ["notes"]


def test_another_programs_database_is_refused_untouched(tmp_path: Path) -> None:
    file = tmp_path / "other.db"
    connection = raw(file)
    connection.execute("CREATE TABLE birds (name TEXT)")
    connection.close()
    content = file.read_bytes()
    for create in (True, False):
        with pytest.raises(StoreError, match="is not a Ladleworth kitchen"):
            Store.open(file, create=create)
    assert file.read_bytes() == content


def test_an_empty_file_is_taken_only_to_make_a_kitchen(tmp_path: Path) -> None:
    file = tmp_path / "k"
    file.touch()
    with pytest.raises(StoreError, match="is not a Ladleworth kitchen"):
        Store.open(file)
    with Store.open(file, create=True) as store:
        assert store.is_empty()


def test_a_kitchen_of_a_newer_format_is_refused_untouched(store: Store) -> None:
    store.close()
    connection = raw(store.path)
    connection.execute("PRAGMA user_version = 99")
    connection.close()
    with pytest.raises(StoreError, match="the file is in format 99 and this program knows formats up to 3"):
        Store.open(store.path)
    connection = raw(store.path)
    assert connection.execute("PRAGMA user_version").fetchone() == (99,)
    connection.close()


def test_a_damaged_file_is_named_as_such(store: Store) -> None:
    store.close()
    file = Path(store.path)
    content = bytearray(file.read_bytes())
    content[4096:] = b"\xa5" * (len(content) - 4096)
    file.write_bytes(content)
    with (
        pytest.raises(StoreError, match=r"is damaged: .*; go back to a copy, or to the last dump"),
        Store.open(file) as opened,
    ):
        opened.load_kitchen()


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read_is_refused(store: Store) -> None:
    store.close()
    Path(store.path).chmod(0)
    with pytest.raises(StoreError, match="cannot be read: Permission denied"):
        Store.open(store.path)


def test_texts_of_any_script_come_back(store: Store) -> None:
    name = "Рис 米 \U0001f35a 'quoted' \"x\" \n\t\x00 end"
    store.enter(buy(store.ledger(), START, [replace(rice("odd", 1), shop=name)], note=name))
    assert store.ledger().holding("odd").lot.shop == name
    assert store.ledger().movements[-1].note == name


def test_ten_thousand_lots_are_read_in_a_few_seconds(tmp_path: Path) -> None:
    rows = "".join(f"rice,{n} g,{n % 90}.50,2026-12-{7 + n % 20:02},\n" for n in range(1, 10_001))
    began = time.monotonic()
    given: FolderReading = reading(stock_csv=f"food,amount,cost,use_by,note\n{rows}")
    read = time.monotonic()
    with Store.open(tmp_path / "k", create=True) as store:
        store.load(given)
        stored = time.monotonic()
        kitchen = store.load_kitchen()
    loaded = time.monotonic()
    assert len(kitchen.ledger.lots) == 10_000
    assert kitchen == given.kitchen
    # generous, for a shared machine: it takes about 1.5 s, 0.5 s and 0.5 s on one of 2 cores
    assert read - began < 10
    assert stored - read < 5
    assert loaded - stored < 5
