"""Opening a kitchen's file: what is not one is refused with one clear sentence."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from ladleworth.errors import StoreError
from ladleworth.store.migrations import APPLICATION_ID, MIGRATIONS, migrate

WAIT_S = 5.0
"""How long to wait for another program that is writing, in seconds."""

_MAGIC = b"SQLite format 3\x00"


def connect(path: str | Path, *, create: bool = False, wait_s: float = WAIT_S) -> sqlite3.Connection:
    """Open a kitchen's file and bring it to the present format.

    Parameters
    ----------
    path
        The file.
    create
        Whether to make it if it is not there.
    wait_s
        How long to wait for another program that is writing, in seconds.

    Returns
    -------
    sqlite3.Connection
        A connection that begins no transactions of its own; a transaction that is committed is on the disk.

    Raises
    ------
    StoreError
        If the file is none of ours, of a newer format, a folder, missing or cannot be read.
    """
    file = Path(path)
    is_new = _look(file, create=create)
    try:
        connection = sqlite3.connect(
            f"{file.resolve().as_uri()}?mode={'rwc' if is_new else 'rw'}",
            uri=True,
            isolation_level=None,
            timeout=wait_s,
        )
    except sqlite3.Error as error:
        raise StoreError(
            f"{path} cannot be opened: {error}; see to the rights of the file and its folder"
        ) from error
    try:
        _set_up(connection, path, is_new=is_new)
    except sqlite3.Error as error:
        connection.close()
        raise explain(error, path) from error
    except BaseException:
        connection.close()
        raise
    return connection


def _look(file: Path, *, create: bool) -> bool:
    """Look at a file before anything touches it; tell whether it is to be made."""
    if file.is_dir():
        raise StoreError(f"{file} is a folder; name the kitchen's file, or load the folder first")
    if not file.exists():
        if not create:
            raise StoreError(f"there is no file {file}; load a kitchen folder into it first")
        if not file.parent.is_dir():
            raise StoreError(f"there is no folder {file.parent}; make it first, or name another file")
        return True
    try:
        with file.open("rb") as handle:
            head = handle.read(len(_MAGIC))
    except OSError as error:
        raise StoreError(f"{file} cannot be read: {error.strerror}; see to its rights") from error
    if not head and create:
        return True
    if head != _MAGIC:
        raise StoreError(f"{file} is not a Ladleworth kitchen; name the file that a kitchen was loaded into")
    return False


def _set_up(connection: sqlite3.Connection, path: str | Path, *, is_new: bool) -> None:
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    mark = connection.execute("PRAGMA application_id").fetchone()[0]
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    empty = connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0] == 0
    if mark != APPLICATION_ID and not (is_new and empty):
        raise StoreError(f"{path} is not a Ladleworth kitchen; name the file that a kitchen was loaded into")
    if version != len(MIGRATIONS):
        try:
            migrate(connection)
        except StoreError as error:
            raise StoreError(f"{path}: {error}") from error
    # only once the file bears our mark: what is not ours is left as it was
    connection.execute("PRAGMA journal_mode = WAL")


def explain(error: sqlite3.Error, path: str | Path) -> StoreError:
    """Put an error of the database into words."""
    if isinstance(error, sqlite3.OperationalError) and ("locked" in str(error) or "busy" in str(error)):
        return StoreError(f"another program is writing to {path}; try again when it is done")
    if isinstance(error, sqlite3.IntegrityError):
        return StoreError(
            f"{path} does not take this: {error}; it may have been changed meanwhile, so load it anew and repeat"
        )
    if isinstance(error, sqlite3.DatabaseError) and "not a database" in str(error):
        return StoreError(f"{path} is not a Ladleworth kitchen; name the file that a kitchen was loaded into")
    if "malformed" in str(error):
        return StoreError(f"{path} is damaged: {error}; go back to a copy, or to the last dump")
    return StoreError(
        f"{path} cannot be used: {error}; see to the rights of the file and the room on the disk"
    )
