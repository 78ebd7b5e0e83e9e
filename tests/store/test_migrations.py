"""Every old format is brought to the present one, whole or not at all."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from tests.store.kitchens import PLAN, PLAN_LIVED, PLAN_WEIGHED, reading

from ladleworth.errors import StoreError
from ladleworth.store.database import Store
from ladleworth.store.migrations import APPLICATION_ID, MIGRATIONS, Migration, migrate

SCHEMAS = Path(__file__).parent / "schemas"
OLD = sorted(SCHEMAS.glob("v*.sql"), key=lambda path: int(path.stem[1:]))


def build(file: Path, script: Path) -> None:
    """Make a file as an old program left it."""
    connection = sqlite3.connect(file)
    connection.executescript(script.read_text(encoding="utf-8"))
    connection.close()


def schema(connection: sqlite3.Connection) -> list[tuple[str, ...]]:
    rows = connection.execute(
        "SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name"
    ).fetchall()
    return [(kind, name, table, " ".join((sql or "").split())) for kind, name, table, sql in rows]


def content(file: Path) -> list[str]:
    connection = sqlite3.connect(file)
    lines = list(connection.iterdump())
    lines += [
        str(connection.execute(f"PRAGMA {name}").fetchone()) for name in ("user_version", "application_id")
    ]
    connection.close()
    return lines


def test_every_format_but_the_coming_one_has_a_frozen_example() -> None:
    assert [path.stem for path in OLD] == [f"v{number}" for number in range(1, len(MIGRATIONS) + 1)]


def test_the_steps_are_numbered_from_one() -> None:
    assert [step.number for step in MIGRATIONS] == list(range(1, len(MIGRATIONS) + 1))


@pytest.mark.parametrize("script", OLD, ids=lambda path: path.stem)
def test_an_old_file_opens_with_the_present_tables_and_all_it_held(script: Path, tmp_path: Path) -> None:
    build(tmp_path / "old", script)
    with Store.open(tmp_path / "old") as old, Store.open(tmp_path / "new", create=True) as new:
        assert schema(old._connection) == schema(new._connection)
        assert old._connection.execute("PRAGMA user_version").fetchone() == (len(MIGRATIONS),)
        assert old._connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert old._connection.execute("PRAGMA foreign_key_check").fetchall() == []
        assert old.load_kitchen() == reading().kitchen
        assert old.plans() == ({"v1": PLAN, "v2": PLAN_LIVED, "v3": PLAN_WEIGHED}[script.stem],)


@pytest.mark.parametrize(
    "bad",
    [
        "INSERT INTO nowhere VALUES (1)",
        "CREATE TABLE lots (id TEXT)",
        "UPDATE movements SET cents = 1",
        "nonsense",
    ],
)
def test_a_step_that_fails_changes_nothing(bad: str, tmp_path: Path) -> None:
    file = tmp_path / "k"
    build(file, OLD[-1])
    before = content(file)
    step = Migration(
        len(MIGRATIONS) + 1, "a test", ("CREATE TABLE fresh (x TEXT) STRICT", "DELETE FROM plan_marks", bad)
    )
    connection = sqlite3.connect(file, isolation_level=None)
    with pytest.raises(StoreError, match=f"the step to format {step.number} failed and changed nothing"):
        migrate(connection, (*MIGRATIONS, step))
    assert not connection.in_transaction
    connection.close()
    assert content(file) == before


def test_a_step_and_its_number_are_taken_together(tmp_path: Path) -> None:
    file = tmp_path / "k"
    build(file, OLD[-1])
    step = Migration(len(MIGRATIONS) + 1, "a test", ("CREATE TABLE fresh (x TEXT) STRICT",))
    connection = sqlite3.connect(file, isolation_level=None)
    assert migrate(connection, (*MIGRATIONS, step)) == step.number
    assert migrate(connection, (*MIGRATIONS, step)) == step.number
    connection.close()
    assert f"({step.number},)" in content(file)
    with pytest.raises(StoreError, match=f"the file is in format {step.number}"):
        Store.open(file)


def test_the_steps_before_a_failing_one_stay_taken(tmp_path: Path) -> None:
    connection = sqlite3.connect(tmp_path / "k", isolation_level=None)
    bad = Migration(len(MIGRATIONS) + 1, "a test", ("nonsense",))
    with pytest.raises(StoreError):
        migrate(connection, (*MIGRATIONS, bad))
    assert connection.execute("PRAGMA user_version").fetchone() == (len(MIGRATIONS),)
    assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
    connection.close()


def test_every_table_is_strict_and_every_reference_is_indexed(tmp_path: Path) -> None:
    with Store.open(tmp_path / "k", create=True) as store:
        connection = store._connection
        tables = [row[1] for row in connection.execute("PRAGMA table_list") if row[0] == "main"]
        strict = {row[1]: row[5] for row in connection.execute("PRAGMA table_list")}
        ours = [table for table in tables if not table.startswith("sqlite_")]
        assert len(ours) == 10
        for table in ours:
            assert strict[table] == 1, table
            firsts = {
                connection.execute(f"PRAGMA index_info({index[1]})").fetchone()[2]
                for index in connection.execute(f"PRAGMA index_list({table})").fetchall()
            }
            for reference in connection.execute(f"PRAGMA foreign_key_list({table})").fetchall():
                assert reference[3] in firsts, (table, reference[3])
