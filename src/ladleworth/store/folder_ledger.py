"""ledger/lots.csv and ledger/movements.csv: the whole history, exact, as a program wrote it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import TypeVar

from ladleworth.errors import BadField, Finding, LedgerError, Place
from ladleworth.ledger import Cause, Kind, Ledger, Lot, LotUnit, Movement, Spot, Standing
from ladleworth.store.csv_rows import Columns, Row, write_rows

LOT_COLUMNS = Columns(
    (
        "id", "item", "unit", "spot", "got_on", "quantity", "cents", "use_by", "opened_on", "packages", "shop",
        "offer", "gift", "shelf_cents", "split_from",
    )
)  # fmt: skip
MOVEMENT_COLUMNS = Columns(
    (
        "id", "day", "kind", "lot", "quantity", "cents", "batch", "who", "note", "cause", "after_spot",
        "after_use_by", "after_opened_on", "bound", "reverses",
    )
)  # fmt: skip

Record = TypeVar("Record")


def lot_fields(lot: Lot) -> tuple[str, ...]:
    """Write a lot as texts, in the order of `LOT_COLUMNS`; what it has not is an empty text."""
    return (
        lot.id, lot.item, lot.unit.value, lot.spot.value, lot.got_on.isoformat(), str(lot.quantity), str(lot.cents),
        _day(lot.use_by), _day(lot.opened_on), str(lot.packages), lot.shop, lot.offer, "yes" if lot.gift else "",
        _number(lot.shelf_cents), lot.split_from,
    )  # fmt: skip


def lot_of(fields: dict[str, str]) -> Lot:
    """Read a lot from its texts by column.

    Raises
    ------
    ValueError
        If a text is none that `lot_fields` writes (`BadField` if the figures will not do together).
    """
    return Lot(
        fields["id"],
        fields["item"],
        LotUnit(fields["unit"]),
        Spot(fields["spot"]),
        date.fromisoformat(fields["got_on"]),
        int(fields["quantity"]),
        int(fields["cents"]),
        _date(fields["use_by"]),
        _date(fields["opened_on"]),
        int(fields["packages"]),
        fields["shop"],
        fields["offer"],
        {"yes": True, "": False}[fields["gift"]],
        _int(fields["shelf_cents"]),
        fields["split_from"],
    )


def movement_fields(entry: Movement) -> tuple[str, ...]:
    """Write a movement as texts, in the order of `MOVEMENT_COLUMNS`; what it has not is an empty text."""
    after = entry.after
    return (
        str(entry.id), entry.day.isoformat(), entry.kind.value, entry.lot, str(entry.quantity), str(entry.cents),
        entry.batch or "", entry.who, entry.note, entry.cause.value if entry.cause else "",
        after.spot.value if after else "", _day(after.use_by) if after else "",
        _day(after.opened_on) if after else "", _number(entry.bound), _number(entry.reverses),
    )  # fmt: skip


def movement_of(fields: dict[str, str]) -> Movement:
    """Read a movement from its texts by column.

    Raises
    ------
    ValueError
        If a text is none that `movement_fields` writes (`BadField` if the figures will not do together).
    """
    kind = Kind(fields["kind"])
    spot = fields["after_spot"]
    after = (
        Standing(Spot(spot), _date(fields["after_use_by"]), _date(fields["after_opened_on"]))
        if spot
        else None
    )
    return Movement(
        int(fields["id"]),
        date.fromisoformat(fields["day"]),
        kind,
        fields["lot"],
        int(fields["quantity"]),
        int(fields["cents"]),
        fields["batch"] if kind in (Kind.DRAWN, Kind.COOKED) else fields["batch"] or None,
        fields["who"],
        fields["note"],
        Cause(fields["cause"]) if fields["cause"] else None,
        after,
        _int(fields["bound"]),
        _int(fields["reverses"]),
    )


def read_ledger(lots: Iterable[Row], movements: Iterable[Row], found: list[Finding], file: str) -> Ledger:
    """Read the history back.

    Parameters
    ----------
    lots, movements
        The rows of the two papers, unstripped.
    found
        Where a breach of the ledger's own rules goes.
    file
        The name of the movements' paper, for such a breach.

    Returns
    -------
    Ledger
        The ledger; empty after a fault.
    """
    read_lots = [lot for row in lots if (lot := _read(row, lot_of, "lot")) is not None]
    entries = [entry for row in movements if (entry := _read(row, movement_of, "movement")) is not None]
    if found:
        return Ledger()
    try:
        return Ledger(tuple(read_lots), tuple(entries))
    except LedgerError as error:
        found.append(
            Finding(Place(file), str(error), "bring back the file as it was written, or the one before it")
        )
        return Ledger()


def _read(row: Row, read: Callable[[dict[str, str]], Record], what: str) -> Record | None:
    try:
        return read(row.fields)
    except BadField as bad:
        reason, _, remedy = str(bad).partition("; ")
        row.fault("", reason, remedy or f"write the {what} as it was")
    except (ValueError, KeyError) as error:
        row.fault("", f"this is no {what}: {error}", "bring back the line as it was written")
    return None


def write_lots(ledger: Ledger) -> str:
    """Write every lot as the text of ledger/lots.csv."""
    return write_rows(LOT_COLUMNS.all, map(lot_fields, ledger.lots))


def write_movements(ledger: Ledger) -> str:
    """Write every movement as the text of ledger/movements.csv."""
    return write_rows(MOVEMENT_COLUMNS.all, map(movement_fields, ledger.movements))


def _day(day: date | None) -> str:
    return "" if day is None else day.isoformat()


def _date(text: str) -> date | None:
    return date.fromisoformat(text) if text else None


def _number(number: int | None) -> str:
    return "" if number is None else str(number)


def _int(text: str) -> int | None:
    return int(text) if text else None
