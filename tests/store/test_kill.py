"""A kill at any moment loses nothing that was acknowledged and leaves nothing half-written."""

from __future__ import annotations

import os
import random
import select
import signal
import time
from pathlib import Path

import pytest
from tests.store.kitchens import START, reading, rice, totals

from ladleworth.ledger import Ledger, Spot, buy, move
from ladleworth.store.database import Store

KILLS = 50
LOT_MG, LOT_CENTS = 1_000, 30
ENTRIES_AN_ACT = 4  # two lots bought, and half of one moved: out of the old lot and into the new


def write_until_killed(file: Path, out: int) -> None:
    """Enter one act after another, each acknowledged once it is committed."""
    with Store.open(file) as store:
        ledger = store.ledger()
        os.write(out, b"ready\n")
        while True:
            with store.transaction():
                ledger = _act(store, ledger)
            os.write(out, f"{ledger.movements[-1].id}\n".encode())


def _act(store: Store, ledger: Ledger) -> Ledger:
    stem = f"lot-{len(ledger.movements)}"
    bought = buy(ledger, START, [rice(stem, LOT_MG, LOT_CENTS), rice(f"{stem}-b", LOT_MG, LOT_CENTS)])
    store.enter(bought)
    moved = move(
        bought.ledger, START, stem, Spot.FREEZER, use_by=None, quantity=LOT_MG // 3, new_lot_id=f"{stem}-c"
    )
    store.enter(moved)
    return moved.ledger


def acknowledged(out: int, until: float, *, at_least: int) -> list[bytes]:
    """Read what the writer acknowledges until a moment, and beyond it until it has said enough."""
    heard = b""
    while heard.count(b"\n") < at_least or time.monotonic() < until:
        left = max(0.0, until - time.monotonic())
        if select.select([out], [], [], left if heard.count(b"\n") >= at_least else 20)[0]:
            more = os.read(out, 65536)
            assert more, "the writer ended by itself"
            heard += more
    return heard.splitlines()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process that can be killed at once")
def test_fifty_kills_lose_nothing_acknowledged_and_leave_nothing_half_written(tmp_path: Path) -> None:
    file = tmp_path / "home.kitchen"
    with Store.open(file, create=True) as store:
        store.load(reading(stock_csv="food,amount\n"))
    moments = random.Random(20261206)
    last, acts = 0, 0
    for _ in range(KILLS):
        out, into = os.pipe()
        child = os.fork()
        if child == 0:  # the writer: it never returns to the test
            try:
                os.close(out)
                write_until_killed(file, into)
            finally:
                os._exit(1)
        os.close(into)
        try:
            heard = acknowledged(
                out, time.monotonic() + moments.uniform(0, 0.03), at_least=moments.randint(1, 4)
            )
            os.kill(child, signal.SIGKILL)
            _, status = os.waitpid(child, 0)
            assert os.WTERMSIG(status) == signal.SIGKILL
            while more := os.read(out, 65536):  # said before the kill, heard after it
                heard += more.splitlines()
        finally:
            os.close(out)
        acts += len(heard) - 1
        said = max((int(line) for line in heard if line != b"ready"), default=last)
        with Store.open(file) as store:
            ledger = store.ledger()  # the ledger's own rules: sums, order, halves that match
            assert store._connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
            assert store._connection.execute("PRAGMA foreign_key_check").fetchall() == []
        kept = ledger.movements[-1].id if ledger.movements else 0
        assert kept >= said >= last
        assert [movement.id for movement in ledger.movements] == list(range(1, kept + 1))
        assert kept % ENTRIES_AN_ACT == 0
        whole = kept // ENTRIES_AN_ACT
        assert totals(ledger) == (2 * LOT_MG * whole, 2 * LOT_CENTS * whole)
        last = kept
    assert acts > KILLS  # the writers did get to write
