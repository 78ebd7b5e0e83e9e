"""The steps by which a kitchen's file came to its present form, each taken whole or not at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass

from ladleworth.errors import StoreError

APPLICATION_ID = 0x4C61646C
"""What marks a file as a kitchen of this program: the letters 'Ladl'."""


@dataclass(frozen=True, slots=True)
class Migration:
    """A step: its number, what it brings, and its statements. A step once released is never changed."""

    number: int
    brings: str
    statements: tuple[str, ...]


FIRST = Migration(
    1,
    "the first tables",
    (
        """
        CREATE TABLE meta (
            key TEXT NOT NULL PRIMARY KEY,
            value TEXT NOT NULL
        ) STRICT, WITHOUT ROWID
        """,
        "INSERT INTO meta (key, value) VALUES ('format', '1')",
        """
        CREATE TABLE papers (
            path TEXT NOT NULL PRIMARY KEY,
            text TEXT NOT NULL
        ) STRICT
        """,
        """
        CREATE TABLE offers (
            position INTEGER PRIMARY KEY,
            id TEXT NOT NULL UNIQUE CHECK (id <> ''),
            food TEXT NOT NULL,
            shop TEXT NOT NULL,
            quantity INTEGER NOT NULL CHECK (quantity > 0),
            unit TEXT NOT NULL CHECK (unit IN ('mg', 'piece')),
            price_cents INTEGER NOT NULL CHECK (price_cents >= 0),
            seen TEXT NOT NULL,
            name TEXT NOT NULL,
            most INTEGER CHECK (most >= 0),
            UNIQUE (food, shop, unit, quantity, name, seen)
        ) STRICT
        """,
        """
        CREATE TABLE lots (
            position INTEGER PRIMARY KEY,
            id TEXT NOT NULL UNIQUE CHECK (id <> ''),
            item TEXT NOT NULL,
            unit TEXT NOT NULL CHECK (unit IN ('mg', 'piece', 'portion')),
            spot TEXT NOT NULL CHECK (spot IN ('cupboard', 'fridge', 'freezer')),
            got_on TEXT NOT NULL,
            quantity INTEGER NOT NULL CHECK (quantity > 0),
            cents INTEGER NOT NULL CHECK (cents >= 0),
            use_by TEXT,
            opened_on TEXT,
            packages INTEGER NOT NULL CHECK (packages >= 1),
            shop TEXT NOT NULL,
            offer TEXT NOT NULL,
            gift INTEGER NOT NULL CHECK (gift IN (0, 1)),
            shelf_cents INTEGER CHECK (shelf_cents >= 0),
            split_from TEXT REFERENCES lots (id)
        ) STRICT
        """,
        "CREATE INDEX lots_split_from ON lots (split_from)",
        """
        CREATE TABLE movements (
            id INTEGER PRIMARY KEY CHECK (id >= 1),
            day TEXT NOT NULL,
            kind TEXT NOT NULL,
            lot TEXT NOT NULL REFERENCES lots (id),
            quantity INTEGER NOT NULL,
            cents INTEGER NOT NULL,
            batch TEXT,
            who TEXT NOT NULL,
            note TEXT NOT NULL,
            cause TEXT,
            after_spot TEXT CHECK (after_spot IN ('cupboard', 'fridge', 'freezer')),
            after_use_by TEXT,
            after_opened_on TEXT,
            bound INTEGER REFERENCES movements (id),
            reverses INTEGER UNIQUE REFERENCES movements (id)
        ) STRICT
        """,
        "CREATE INDEX movements_lot ON movements (lot)",
        "CREATE INDEX movements_bound ON movements (bound)",
        """
        CREATE TRIGGER movements_stay BEFORE UPDATE ON movements
        BEGIN SELECT RAISE (ABORT, 'an entry of the ledger is never changed'); END
        """,
        """
        CREATE TRIGGER movements_are_kept BEFORE DELETE ON movements
        BEGIN SELECT RAISE (ABORT, 'an entry of the ledger is never taken out'); END
        """,
        """
        CREATE TABLE plans (
            id INTEGER PRIMARY KEY CHECK (id >= 1),
            made_on TEXT NOT NULL,
            start TEXT NOT NULL,
            question TEXT NOT NULL,
            answer TEXT NOT NULL,
            accepted INTEGER NOT NULL CHECK (accepted IN (0, 1))
        ) STRICT
        """,
        """
        CREATE TABLE plan_marks (
            plan INTEGER NOT NULL REFERENCES plans (id),
            position INTEGER NOT NULL,
            deed TEXT NOT NULL CHECK (deed IN ('bought', 'cooked')),
            day INTEGER NOT NULL CHECK (day >= 1),
            what TEXT NOT NULL,
            PRIMARY KEY (plan, position),
            UNIQUE (plan, deed, day, what)
        ) STRICT, WITHOUT ROWID
        """,
    ),
)

COOKING_DAYS = Migration(
    2,
    "cooking days: the timetables kept, and what happened when",
    (
        """
        CREATE TABLE cooking_days (
            number INTEGER PRIMARY KEY CHECK (number >= 1),
            plan INTEGER NOT NULL REFERENCES plans (id),
            day INTEGER NOT NULL CHECK (day >= 1),
            start TEXT,
            kept TEXT NOT NULL,
            session TEXT NOT NULL,
            answer TEXT NOT NULL,
            in_force TEXT NOT NULL
        ) STRICT
        """,
        "CREATE INDEX cooking_days_plan ON cooking_days (plan)",
        """
        CREATE TABLE day_entries (
            number INTEGER PRIMARY KEY CHECK (number >= 1),
            plan INTEGER NOT NULL REFERENCES plans (id),
            day INTEGER NOT NULL CHECK (day >= 1),
            activity TEXT NOT NULL CHECK (activity <> ''),
            what TEXT NOT NULL CHECK (what IN ('began', 'ended')),
            at TEXT NOT NULL,
            entered TEXT NOT NULL,
            act INTEGER NOT NULL REFERENCES day_entries (number),
            takes_back INTEGER UNIQUE REFERENCES day_entries (number)
        ) STRICT
        """,
        "CREATE INDEX day_entries_plan ON day_entries (plan)",
        "CREATE INDEX day_entries_act ON day_entries (act)",
        """
        CREATE TRIGGER day_entries_stay BEFORE UPDATE ON day_entries
        BEGIN SELECT RAISE (ABORT, 'an entry of a cooking day is never changed'); END
        """,
        """
        CREATE TRIGGER day_entries_are_kept BEFORE DELETE ON day_entries
        BEGIN SELECT RAISE (ABORT, 'an entry of a cooking day is never taken out'); END
        """,
    ),
)

YIELD_READINGS = Migration(
    3,
    "readings of the scale, by batch",
    (
        """
        CREATE TABLE yield_readings (
            number INTEGER PRIMARY KEY CHECK (number >= 1),
            plan INTEGER NOT NULL REFERENCES plans (id),
            day INTEGER NOT NULL CHECK (day >= 1),
            dish TEXT NOT NULL CHECK (dish <> ''),
            version TEXT NOT NULL CHECK (version <> ''),
            portions INTEGER NOT NULL CHECK (portions >= 1),
            parts TEXT NOT NULL,
            unit TEXT NOT NULL CHECK (unit IN ('mg', 'piece')),
            gross INTEGER NOT NULL CHECK (gross > 0),
            tare INTEGER NOT NULL CHECK (tare >= 0 AND tare < gross),
            entered TEXT NOT NULL
        ) STRICT
        """,
        "CREATE INDEX yield_readings_plan ON yield_readings (plan)",
        """
        CREATE TRIGGER yield_readings_stay BEFORE UPDATE ON yield_readings
        BEGIN SELECT RAISE (ABORT, 'a reading of the scale is never changed'); END
        """,
        """
        CREATE TRIGGER yield_readings_are_kept BEFORE DELETE ON yield_readings
        BEGIN SELECT RAISE (ABORT, 'a reading of the scale is never taken out'); END
        """,
    ),
)

MIGRATIONS: tuple[Migration, ...] = (FIRST, COOKING_DAYS, YIELD_READINGS)
"""Every step, in order."""


def migrate(connection: sqlite3.Connection, steps: Sequence[Migration] = MIGRATIONS) -> int:
    """Take every step that a file has not taken yet, each together with its number in one transaction.

    Parameters
    ----------
    connection
        A connection that begins no transactions of its own (`isolation_level=None`).
    steps
        The steps, numbered 1, 2, 3 and so on.

    Returns
    -------
    int
        The number of the last step that the file has taken.

    Raises
    ------
    StoreError
        If the file has taken a step that is not known here, or a step fails; a step that fails changes
        nothing, and those before it stay taken.
    """
    latest = len(steps)
    while True:
        connection.execute("BEGIN IMMEDIATE")
        try:
            taken = int(connection.execute("PRAGMA user_version").fetchone()[0])
            if taken > latest:
                raise StoreError(
                    f"the file is in format {taken} and this program knows formats up to {latest}; "
                    "use the newer program that wrote it"
                )
            if taken == latest:
                connection.execute("ROLLBACK")
                return taken
            step = steps[taken]
            for statement in step.statements:
                connection.execute(statement)
            connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            connection.execute(f"PRAGMA user_version = {step.number}")
            connection.execute("COMMIT")
        except BaseException as error:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            if isinstance(error, sqlite3.Error):
                number = taken + 1
                raise StoreError(
                    f"the step to format {number} failed and changed nothing: {error}; "
                    "keep a copy of the file and report this"
                ) from error
            raise
