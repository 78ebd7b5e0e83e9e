"""Writing a kitchen out as a folder: whole, or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterable, Sequence
from pathlib import Path

from ladleworth.errors import StoreError
from ladleworth.household import Kitchen
from ladleworth.store.folder import read_papers
from ladleworth.store.folder_ledger import write_lots, write_movements
from ladleworth.store.folder_prices import write_prices
from ladleworth.store.papers import BOOKS, LOTS, MOVEMENTS, PRICES, STOCK, Paper
from ladleworth.store.plan_json import SavedPlan, write_plan


def papers_of(
    kitchen: Kitchen, papers: Sequence[Paper], plans: Iterable[SavedPlan] = ()
) -> tuple[Paper, ...]:
    """Give the papers that hold a kitchen as it stands.

    Parameters
    ----------
    kitchen
        The kitchen.
    papers
        The papers that it was read from.
    plans
        The plans kept.

    Returns
    -------
    tuple of Paper
        By path. What a cook wrote is given back byte for byte: household, dishes and foods always, stock and
        prices as long as they still say what the kitchen holds. A ledger that has moved on takes the place
        of stock.csv.
    """
    written = {paper.path: paper.text for paper in papers}
    first = read_papers(papers).kitchen
    out = {path: text for path, text in written.items() if not path.startswith(BOOKS)}
    if first is not None and first.ledger == kitchen.ledger:
        out |= {path: written[path] for path in (STOCK, LOTS, MOVEMENTS) if path in written}
    else:
        out |= {LOTS: write_lots(kitchen.ledger), MOVEMENTS: write_movements(kitchen.ledger)}
    if first is not None and (first.prices, first.most_packages) == (kitchen.prices, kitchen.most_packages):
        out |= {PRICES: written[PRICES]} if PRICES in written else {}
    else:
        out[PRICES] = write_prices(kitchen.prices, kitchen.most_packages, kitchen.household.currency)
    out |= {f"plans/{plan.id:04}.json": write_plan(plan) for plan in plans}
    return tuple(Paper(path, text) for path, text in sorted(out.items()))


def write_folder(
    kitchen: Kitchen, papers: Sequence[Paper], folder: str | Path, plans: Iterable[SavedPlan] = ()
) -> tuple[Paper, ...]:
    """Write a kitchen out as a fresh folder, which is there whole or not at all.

    Parameters
    ----------
    kitchen, papers, plans
        As for `papers_of`.
    folder
        The folder to make; it must not be there yet, or be empty.

    Returns
    -------
    tuple of Paper
        What was written.

    Raises
    ------
    StoreError
        If the folder holds anything already, or cannot be written.
    """
    target = Path(folder)
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise StoreError(f"{folder} is there already and is not an empty folder; name a new one")
    out = papers_of(kitchen, papers, plans)
    try:
        draft = Path(tempfile.mkdtemp(prefix=f".{target.name}-", dir=target.parent))
    except OSError as error:
        raise StoreError(
            f"{folder} cannot be written: {error.strerror}; name a folder that can be"
        ) from error
    try:
        for paper in out:
            _write(draft / paper.path, paper.text)
        draft.chmod(0o755)
        if target.exists():
            target.rmdir()
        draft.rename(target)
        _settle(target.parent)
    except OSError as error:
        raise StoreError(
            f"{folder} cannot be written: {error.strerror}; name a folder that can be"
        ) from error
    finally:
        shutil.rmtree(draft, ignore_errors=True)  # nothing is left of it once it has its name
    return out


def _write(file: Path, text: str) -> None:
    file.parent.mkdir(exist_ok=True)
    with file.open("wb") as handle:
        handle.write(text.encode("utf-8"))
        handle.flush()
        os.fsync(handle.fileno())


def _settle(folder: Path) -> None:
    """Have the folder's own list of names written to the disk, where the system can."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
