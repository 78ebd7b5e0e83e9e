"""Acts on a kitchen: load, dump, shop, cook, eat, and changes to what is on hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from ladleworth.decide import Plan
from ladleworth.errors import StoreError
from ladleworth.household import Kitchen
from ladleworth.ledger import Entered, Ledger, Offer, surcharges
from ladleworth.store import FolderReading, Store, is_kitchen_file, read_folder, write_folder
from ladleworth.store.plan_json import Deed, Mark
from ladleworth.week.carry_out import Done, buy_planned, cook_planned, eat_planned

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


def open_kitchen(place: str | Path) -> Kitchen:
    """Read a kitchen from a folder or a file.

    Raises
    ------
    FaultyKitchen
        If the folder holds faults; all of them are listed.
    StoreError
        If nothing is there, or the file cannot be opened.
    """
    if not Path(place).exists():
        raise StoreError(
            f"there is no folder and no file {place}; name a kitchen folder, or the file of a kitchen"
        )
    if is_kitchen_file(place):
        with Store.open(place) as store:
            return store.load_kitchen()
    return read_folder(place).without_faults()


def load_folder(folder: str | Path, file: str | Path) -> FolderReading:
    """Load a kitchen folder into a new file; nothing is written if the folder holds faults."""
    reading = read_folder(folder)
    reading.without_faults()
    with Store.open(file, create=True) as store, store.transaction():
        store.load(reading)
    return reading


def dump_file(file: str | Path, folder: str | Path) -> Kitchen:
    """Write a kitchen's file out as a folder, with its history and plans."""
    with Store.open(file) as store:
        kitchen, papers, plans = store.load_kitchen(), store.papers(), store.plans()
    write_folder(kitchen, papers, folder, plans)
    return kitchen


def change_stock(file: str | Path, act: Callable[[Ledger], Entered]) -> Entered:
    """Enter one act on the ledger: a count, a move, an opening, a throwing out, a taking back.

    Parameters
    ----------
    file
        The kitchen's file.
    act
        A ledger act with everything but the ledger given, e.g. `lambda ledger: count(ledger, day, ...)`.
    """
    with Store.open(file) as store, store.transaction():
        entered = act(store.ledger())
        store.enter(entered)
        return entered


def buy_day(
    file: str | Path, day: int, paid_cents: Mapping[str, int] | None = None, week: PlannedWeek | None = None
) -> Done:
    """Enter the accepted plan's shopping of a day (see `buy_planned`); `week` is that plan if it was found already."""

    def shop(kitchen: Kitchen, plan: Plan, when: int) -> Done:
        return buy_planned(kitchen, plan, when, paid_cents)

    return _carry_out(file, week, [(day, shop, Deed.BOUGHT)])[0]


def cook_day(file: str | Path, day: int, week: PlannedWeek | None = None) -> Done:
    """Enter the accepted plan's batches of a day (see `cook_planned`)."""
    return _carry_out(file, week, [(day, cook_planned, Deed.COOKED)])[0]


def eat_day(file: str | Path, day: int, week: PlannedWeek | None = None) -> Done:
    """Enter the accepted plan's helpings of a day (see `eat_planned`)."""
    return _carry_out(file, week, [(day, eat_planned, None)])[0]


def live_week(file: str | Path) -> tuple[tuple[Done, Done, Done], ...]:
    """Enter the whole accepted plan, day by day: bought, cooked, eaten; all of it or nothing."""
    from ladleworth.week.planning import accepted_week

    week = accepted_week(file)
    acts: list[tuple[int, Act, Deed | None]] = []
    for day in range(1, week.kitchen.household.days + 1):
        acts += [(day, buy_planned, Deed.BOUGHT), (day, cook_planned, Deed.COOKED), (day, eat_planned, None)]
    done = _carry_out(file, week, acts)
    return tuple((done[at], done[at + 1], done[at + 2]) for at in range(0, len(done), 3))


Act = Callable[[Kitchen, Plan, int], Done]
"""Something of a day of a plan, worked out on the kitchen as it then stands."""


def _carry_out(
    file: str | Path, week: PlannedWeek | None, acts: Iterable[tuple[int, Act, Deed | None]]
) -> list[Done]:
    """Enter acts one after another in one transaction, each with its mark on the plan."""
    from ladleworth.week.planning import accepted_week

    week = week or accepted_week(file)
    kitchen, carried = week.kitchen, []
    with Store.open(file) as store, store.transaction():
        for day, act, deed in acts:
            done = act(kitchen, week.plan, day)
            kitchen = replace(kitchen, ledger=done.ledger)
            for what, entered in done.entered:
                store.enter(entered)
                if deed is not None and week.number is not None:
                    store.mark(week.number, Mark(deed, day, what))
            for opened in done.opened:
                store.enter(opened)
            carried.append(done)
    return carried


def see_prices(kitchen: Kitchen, food: str) -> tuple[tuple[Offer, ...], tuple[tuple[Offer, Offer], ...]]:
    """List a food's newest offers, the cheapest by the unit first, and the bigger packs dearer by the unit."""
    offers = kitchen.prices.latest(food)
    return tuple(sorted(offers, key=lambda o: (o.unit_price, o.shop, o.id))), surcharges(offers)
