"""The kitchen's file: papers, ledger, prices and plans in one SQLite database."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from types import TracebackType
from typing import TypeVar

from ladleworth.decide.answer import Answer
from ladleworth.errors import StoreError
from ladleworth.household import Kitchen
from ladleworth.ledger import Entered, Ledger, Lot, Movement, Offer, PriceBook
from ladleworth.store import plan_rows, rows
from ladleworth.store.folder import Books, FolderReading, read_papers
from ladleworth.store.kept_day import DayEntry, KeptDay
from ladleworth.store.kept_reading import KeptReading
from ladleworth.store.opening import WAIT_S, connect, explain
from ladleworth.store.papers import BOOKS, Paper
from ladleworth.store.plan_json import Mark, SavedPlan

Record = TypeVar("Record")


class Store:
    """An open kitchen file. One store belongs to one thread; open another for another.

    What a method writes is on the disk when it returns, or, within `transaction`, when that ends.
    """

    def __init__(self, connection: sqlite3.Connection, path: str | Path) -> None:
        self._connection = connection
        self.path = path

    @classmethod
    def open(cls, path: str | Path, *, create: bool = False, wait_s: float = WAIT_S) -> Store:
        """Open a kitchen's file.

        Parameters
        ----------
        path
            The file.
        create
            Whether to make it if it is not there.
        wait_s
            How long to wait for another program that is writing, in seconds.

        Raises
        ------
        StoreError
            If it is none of ours, of a newer format, a folder, missing or cannot be read.
        """
        return cls(connect(path, create=create, wait_s=wait_s), path)

    def close(self) -> None:
        """Close the file."""
        self._connection.close()

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def _is_busy(self) -> bool:
        return self._connection.in_transaction

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """Do everything within, or nothing; nobody else writes meanwhile. Within another one, it is a part of that.

        Raises
        ------
        StoreError
            If another program is writing and does not end in time, or the file refuses what is written.
        """
        begin, keep, drop = "BEGIN IMMEDIATE", "COMMIT", "ROLLBACK"
        if self._is_busy():
            begin, keep, drop = "SAVEPOINT part", "RELEASE part", "ROLLBACK TO part"
        try:
            self._connection.execute(begin)
            yield
            self._connection.execute(keep)
        except BaseException as error:
            if self._is_busy():
                self._connection.execute(drop)
                if drop != "ROLLBACK":
                    self._connection.execute(keep)
            if isinstance(error, sqlite3.Error):
                raise explain(error, self.path) from error
            raise

    @contextmanager
    def _snapshot(self) -> Iterator[None]:
        """Read everything within as of one moment."""
        if self._is_busy():
            yield
            return
        try:
            self._connection.execute("BEGIN")
            yield
        except sqlite3.Error as error:
            raise explain(error, self.path) from error
        finally:
            if self._is_busy():
                self._connection.execute("ROLLBACK")

    def is_empty(self) -> bool:
        """Tell whether no kitchen has been loaded yet."""
        with self._snapshot():
            return self._connection.execute("SELECT 1 FROM papers LIMIT 1").fetchone() is None

    def load(self, reading: FolderReading) -> None:
        """Take a kitchen in from its folder: papers, ledger, prices and plans.

        Raises
        ------
        FaultyKitchen
            If the folder has any fault.
        StoreError
            If a kitchen is in this file already.
        """
        kitchen = reading.without_faults()
        with self.transaction():
            if not self.is_empty():
                raise StoreError(
                    f"{self.path} holds a kitchen already; load into a new file, or take only its papers anew with --papers"
                )
            self._write_papers(reading.papers)
            self.add_lots(kitchen.ledger.lots)
            self.append_movements(kitchen.ledger.movements)
            self.add_offers(kitchen.prices.offers, kitchen.most_packages)
            for plan in reading.plans:
                self._insert_plan(plan)

    def read(self) -> FolderReading:
        """Read the whole kitchen with its findings, as a folder is read."""
        with self._snapshot():
            papers, books, plans = self.papers(), self.books(), self.plans()
        reading = read_papers(papers, books=books)
        return replace(reading, plans=plans)

    def load_kitchen(self) -> Kitchen:
        """Give the kitchen on record.

        Raises
        ------
        StoreError
            If no kitchen has been loaded yet.
        FaultyKitchen
            If its papers have a fault.
        """
        self.check_loaded()
        return self.read().without_faults()

    def check_loaded(self) -> None:
        """Refuse a file that no kitchen has been loaded into."""
        if self.is_empty():
            raise StoreError(f"{self.path} holds no kitchen yet; load a kitchen folder into it first")

    def papers(self) -> tuple[Paper, ...]:
        """Give every paper as it was written, by path."""
        with self._snapshot():
            found = self._connection.execute("SELECT path, text FROM papers ORDER BY path").fetchall()
        return tuple(Paper(path, text) for path, text in found)

    def replace_papers(self, papers: Sequence[Paper]) -> None:
        """Put changed papers in place of the old ones: household, dishes and foods.

        Parameters
        ----------
        papers
            All papers of the folder. Stock, prices, ledger and plans among them are passed over: those that
            this file keeps go on.

        Raises
        ------
        FaultyKitchen
            If the papers, together with the ledger and prices here, have any fault; nothing is changed then.
        """
        with self.transaction():
            kept = [paper for paper in self.papers() if paper.path.startswith(BOOKS)]
            new = [paper for paper in papers if not paper.path.startswith(BOOKS)] + kept
            read_papers(new, books=self.books()).without_faults()
            self._connection.execute("DELETE FROM papers")
            self._write_papers(new)

    def _write_papers(self, papers: Iterable[Paper]) -> None:
        values = [(paper.path, paper.text) for paper in papers]
        self._connection.executemany("INSERT INTO papers (path, text) VALUES (?, ?)", values)

    def books(self) -> Books:
        """Give the ledger and the price book."""
        with self._snapshot():
            offers = _read(rows.offer_of_row, self._select("offers", rows.OFFER_FIELDS, "position"), "offers")
            ledger = self.ledger()
        most = {offer.id: limit for offer, limit in offers if limit is not None}
        return Books(ledger, PriceBook(tuple(offer for offer, _ in offers)), most)

    def ledger(self) -> Ledger:
        """Give the ledger; every rule of it is checked anew."""
        with self._snapshot():
            lots = self._select("lots", rows.LOT_FIELDS, "position")
            entries = self._select("movements", rows.MOVEMENT_FIELDS, "id")
        return Ledger(
            tuple(_read(rows.lot_of_row, lots, "lots")),
            tuple(_read(rows.movement_of_row, entries, "movements")),
        )

    def enter(self, entered: Entered) -> None:
        """Keep what an act of the ledger added: its lots, then its movements."""
        with self.transaction():
            self.add_lots(entered.lots)
            self.append_movements(entered.movements)

    def add_lots(self, lots: Iterable[Lot]) -> None:
        """Keep new lots; refuse an id that is taken."""
        self._insert("lots", rows.LOT_FIELDS, map(rows.row_of_lot, lots))

    def append_movements(self, movements: Iterable[Movement]) -> None:
        """Keep new entries of the ledger; refuse a number that is taken, as when another program wrote first."""
        self._insert("movements", rows.MOVEMENT_FIELDS, map(rows.row_of_movement, movements))

    def _select(self, table: str, fields: str, order: str) -> list[rows.Row]:
        return self._connection.execute(f"SELECT {fields} FROM {table} ORDER BY {order}").fetchall()  # noqa: S608

    def _insert(self, table: str, fields: str, values: Iterable[rows.Row]) -> None:
        marks = ", ".join("?" * (fields.count(",") + 1))
        with self.transaction():
            self._connection.executemany(f"INSERT INTO {table} ({fields}) VALUES ({marks})", values)  # noqa: S608

    def add_offers(self, offers: Iterable[Offer], most: Mapping[str, int] | None = None) -> tuple[Offer, ...]:
        """Keep prices; the same package seen on the same day takes the new price.

        Parameters
        ----------
        offers
            The offers; one without an id gets a free one, after its food.
        most
            The most packages a visit, by the offer's id.

        Returns
        -------
        tuple of Offer
            The offers as they are kept, with their ids.
        """
        limits = most or {}
        kept: list[Offer] = []
        with self.transaction():
            taken = {name for (name,) in self._connection.execute("SELECT id FROM offers")}
            for given in offers:
                offer = replace(given, shop=given.shop.strip(), name=given.name.strip())
                known = self._connection.execute(
                    "SELECT id FROM offers WHERE (food, shop, unit, quantity, name, seen) = (?, ?, ?, ?, ?, ?)",
                    (
                        offer.food,
                        offer.shop,
                        offer.unit.value,
                        offer.quantity,
                        offer.name,
                        offer.seen.isoformat(),
                    ),
                ).fetchone()
                if known is not None:
                    self._connection.execute(
                        "UPDATE offers SET price_cents = ?, most = coalesce(?, most) WHERE id = ?",
                        (offer.price_cents, limits.get(offer.id), known[0]),
                    )
                    kept.append(replace(offer, id=known[0]))
                    continue
                name = offer.id or rows.free_name(offer.food, taken)
                taken.add(name)
                kept.append(replace(offer, id=name))
                self._insert("offers", rows.OFFER_FIELDS, [rows.row_of_offer(kept[-1], limits.get(offer.id))])
        return tuple(kept)

    def save_plan(
        self, made_on: date, start: date, answer: Answer, *, question: str = "", accepted: bool = False
    ) -> SavedPlan:
        """Keep a plan under the next number.

        Parameters
        ----------
        made_on, start
            The day it was made, and the date of its day 1.
        answer
            The answer.
        question
            The question as JSON, '' to keep none.
        accepted
            Whether the cook goes by it.
        """
        with self.transaction():
            last = self._connection.execute("SELECT coalesce(max(id), 0) FROM plans").fetchone()[0]
            plan = SavedPlan(last + 1, made_on, start, question, answer, accepted)
            self._insert_plan(plan)
        return plan

    def _insert_plan(self, plan: SavedPlan) -> None:
        with self.transaction():
            plan_rows.insert_plan(self._connection, plan)

    def accept_plan(self, number: int) -> None:
        """Note that the cook goes by a plan."""
        with self.transaction():
            self._check_plan(number)
            self._connection.execute("UPDATE plans SET accepted = 1 WHERE id = ?", (number,))

    def _check_plan(self, number: int) -> None:
        if self._connection.execute("SELECT 1 FROM plans WHERE id = ?", (number,)).fetchone() is None:
            raise StoreError(f"{self.path} holds no plan number {number}; list the plans for their numbers")

    def mark(self, number: int, mark: Mark) -> None:
        """Note that a part of a plan was carried out; noting it again changes nothing."""
        with self.transaction():
            self._check_plan(number)
            plan_rows.insert_mark(self._connection, number, mark)

    def keep_cooking_day(
        self, number: int, day: int, start: datetime | None, kept: datetime, session: str, answer: str
    ) -> KeptDay:
        """Keep a timetable that the cook goes by on a day of a plan; it counts from now on.

        Parameters
        ----------
        number, day
            The plan's number, and its day.
        start, kept
            When minute 0 is by the kitchen's clock (None: nobody has said), and when it is kept.
        session, answer
            The question with all that stands beside it, and the answer, as JSON.
        """
        with self.transaction():
            self._check_plan(number)
            free = plan_rows.next_number(self._connection, "cooking_days")
            one = KeptDay(free, day, start, kept, session, answer)
            plan_rows.insert_cooking_day(self._connection, number, one)
        return one

    def put_in_force(self, number: int, answer: str) -> None:
        """Note how the rest of the cooking day of a number was planned anew, as JSON."""
        with self.transaction():
            plan_rows.put_in_force(self._connection, number, answer)

    def next_day_entry(self) -> int:
        """Give the number of the next entry of a cooking day."""
        with self._snapshot():
            return plan_rows.next_number(self._connection, "day_entries")

    def enter_on_day(self, number: int, entries: Iterable[DayEntry]) -> None:
        """Keep entries of a plan's cooking day; refuse a number that is taken."""
        with self.transaction():
            self._check_plan(number)
            plan_rows.insert_day_entries(self._connection, number, entries)

    def next_reading(self) -> int:
        """Give the number of the next reading of the scale."""
        with self._snapshot():
            return plan_rows.next_number(self._connection, "yield_readings")

    def keep_readings(self, number: int, readings: Iterable[KeptReading]) -> None:
        """Keep what the scale said of a plan's batches; refuse a number that is taken."""
        with self.transaction():
            self._check_plan(number)
            plan_rows.insert_readings(self._connection, number, readings)

    def plans(self) -> tuple[SavedPlan, ...]:
        """Give every plan, by number."""
        with self._snapshot():
            return plan_rows.read_plans(self._connection)


def _read(of_row: Callable[[rows.Row], Record], found: Iterable[rows.Row], table: str) -> list[Record]:
    """Turn rows into records; a row that is none says that the file is damaged."""
    try:
        return [of_row(row) for row in found]
    except (KeyError, TypeError, ValueError) as error:
        raise StoreError(
            f"the kitchen's file is damaged: its table {table} holds a row that cannot be read ({error!r});"
            f" bring back a copy"
        ) from error


def is_kitchen_file(place: str | Path) -> bool:
    """Say whether a place is a file (a kitchen's, it is hoped) and not a folder; False if nothing is there."""
    return Path(place).is_file()
