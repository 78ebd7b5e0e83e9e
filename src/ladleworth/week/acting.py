"""Acts on a kitchen: load, dump, shop, cook, eat, and changes to what is on hand."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from ladleworth.decide import Helping, Plan
from ladleworth.errors import BadField, LedgerError, StoreError
from ladleworth.household import Kitchen
from ladleworth.ledger import Entered, Ledger, LotUnit, Offer, StockUp, eat, stock_up, surcharges, use_of
from ladleworth.store import FolderReading, Store, is_kitchen_file, read_folder, write_folder
from ladleworth.store.plan_json import Deed, Mark
from ladleworth.week.carry_out import Done, buy_planned, cook_planned, eat_planned, helpings_of
from ladleworth.week.finding import find_lot

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
    return read_kitchen(place).without_faults()


def read_kitchen(place: str | Path) -> FolderReading:
    """Read a kitchen from a folder or a file, with every finding.

    Raises
    ------
    StoreError
        If nothing is there, or the file cannot be opened.
    """
    if not Path(place).exists():
        raise StoreError(
            f"there is no folder and no file {place}; name a kitchen folder, or the file of a kitchen"
        )
    if is_kitchen_file(place):
        with Store.open(place) as store:
            store.check_loaded()
            return store.read()
    return read_folder(place)


def load_folder(folder: str | Path, file: str | Path, *, papers_only: bool = False) -> FolderReading:
    """Load a kitchen folder into a file; nothing is written if the folder holds faults.

    Parameters
    ----------
    folder
        The kitchen folder.
    file
        A new file; with `papers_only` one that holds a kitchen already.
    papers_only
        Take household, dishes and foods from the folder, and let the file keep its ledger, prices and plans.

    Returns
    -------
    FolderReading
        What the folder holds; with `papers_only`, what the file then holds.
    """
    reading = read_folder(folder)
    reading.without_faults()
    if papers_only:
        with Store.open(file) as store, store.transaction():
            store.check_loaded()
            store.replace_papers(reading.papers)
            return store.read()
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

    def shop(kitchen: Kitchen, plan: Plan, when: int, before: Collection[str]) -> Done:
        return buy_planned(kitchen, plan, when, before, paid_cents)

    return _carry_out(file, week, [(day, shop, Deed.BOUGHT)])[0]


def cook_day(file: str | Path, day: int, week: PlannedWeek | None = None) -> Done:
    """Enter the accepted plan's batches of a day (see `cook_planned`)."""
    return _carry_out(file, week, [(day, cook_planned, Deed.COOKED)])[0]


def eat_day(
    file: str | Path,
    day: int,
    week: PlannedWeek | None = None,
    *,
    skip: Iterable[str] = (),
    instead: Mapping[str, str] | None = None,
) -> Done:
    """Enter the accepted plan's helpings of a day, in the order of the day's meals.

    Parameters
    ----------
    file
        The kitchen's file.
    day
        The day of the plan (1 is the first).
    week
        The accepted plan if it was found already.
    skip
        Helpings that were not eaten, each as 'EATER MEAL'.
    instead
        By 'EATER MEAL', the lot of which a portion was eaten in place of the planned one.

    Raises
    ------
    BadField
        If the day is none of the plan's, or a helping that is named is none of that day.
    LedgerError
        If helpings cannot be entered: all of them are named, and how to leave them out. Nothing is entered.
    """
    left_out, others = tuple(skip), dict(instead or {})

    def dine(kitchen: Kitchen, plan: Plan, when: int, before: Collection[str]) -> Done:
        return _eat(kitchen, plan, when, before, left_out, others)

    return _carry_out(file, week, [(day, dine, None)])[0]


def _eat(
    kitchen: Kitchen,
    plan: Plan,
    day: int,
    before: Collection[str] = (),
    skip: tuple[str, ...] = (),
    instead: Mapping[str, str] | None = None,
) -> Done:
    """Enter a day's helpings one by one in the order of the meals, and name all that cannot be entered."""
    others = instead or {}
    mine = helpings_in_order(kitchen, plan, day)
    planned = {f"{helping.eater} {helping.meal}" for helping in mine}
    for name in (*skip, *others):
        if planned and name not in planned:
            raise BadField(
                f"the plan has no helping {name!r} on day {day}; name one of {', '.join(sorted(planned))}"
            )
    done = eat_planned(kitchen, replace(plan, helpings=()), day, before)
    ledger, entered, refused = done.ledger, list(done.entered), []
    for helping in mine:
        name = f"{helping.eater} {helping.meal}"
        if name in skip:
            continue
        try:
            if name in others:
                when = kitchen.household.date_of(day)
                found = ledger.holding(find_lot(kitchen, others[name]))
                if found.lot.unit is not LotUnit.PORTION:
                    raise LedgerError(f"{found} holds no portions; name a lot of portions")
                act = eat(ledger, when, found.lot.id, 1, who=helping.eater, note=helping.meal)
                one = Done(act.ledger, ((name, act),))
            else:
                one = eat_planned(
                    replace(kitchen, ledger=ledger), replace(plan, helpings=(helping,)), day, before
                )
        except LedgerError as error:
            refused.append((name, str(error)))
            continue
        ledger = one.ledger
        entered += one.entered
    if refused and all("already" in why for _, why in refused) and not entered:
        names = ", ".join(name for name, _ in refused)
        raise LedgerError(f"day {day} has been eaten already ({names}); undo those entries first")
    if refused:
        told = "; ".join(f"{name}: {why}" for name, why in refused)
        ways = " ".join(f"--skip '{name}'" for name, _ in refused)
        raise LedgerError(f"nothing was entered, for these cannot be: {told}; leave them out with {ways}")
    return Done(ledger, tuple(entered))


def helpings_in_order(kitchen: Kitchen, plan: Plan, day: int) -> tuple[Helping, ...]:
    """Who has what on a day, in the order of the day's meals, then as the household lists its eaters."""
    slots = kitchen.household.slots()
    meals = {meal: at for at, meal in reversed(list(enumerate(slot.meal for slot in slots)))}
    eaters = {eater.name: at for at, eater in enumerate(kitchen.household.eaters)}

    def place(helping: Helping) -> tuple[int, int]:
        return meals.get(helping.meal, len(meals)), eaters.get(helping.eater, len(eaters))

    return tuple(sorted(helpings_of(plan, day), key=place))


def live_week(file: str | Path) -> tuple[tuple[Done, Done, Done], ...]:
    """Enter the whole accepted plan, day by day: bought, cooked, eaten; all of it or nothing."""
    from ladleworth.week.planning import accepted_week

    week = accepted_week(file)
    acts: list[tuple[int, Act, Deed | None]] = []
    for day in range(1, week.kitchen.household.days + 1):
        acts += [(day, buy_planned, Deed.BOUGHT), (day, cook_planned, Deed.COOKED), (day, _eat, None)]
    done = _carry_out(file, week, acts)
    return tuple((done[at], done[at + 1], done[at + 2]) for at in range(0, len(done), 3))


Act = Callable[[Kitchen, Plan, int, Collection[str]], Done]
"""Something of a day of a plan, worked out on the kitchen as it then stands and the lots on hand at planning."""


def _carry_out(
    file: str | Path, week: PlannedWeek | None, acts: Iterable[tuple[int, Act, Deed | None]]
) -> list[Done]:
    """Enter acts one after another in one transaction, each with its mark on the plan."""
    from ladleworth.week.planning import accepted_week

    week = week or accepted_week(file)
    kitchen, carried = week.kitchen, []
    before = frozenset(lot.name for lot in week.question.lots)
    with Store.open(file) as store, store.transaction():
        for day, act, deed in acts:
            done = act(kitchen, week.plan, day, before)
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


def see_stocking(kitchen: Kitchen, offers: Iterable[Offer], today: date) -> tuple[StockUp, ...]:
    """Say of each package that is as cheap as ever how many to stock, by what was used lately; nothing of others."""
    advice = []
    for offer in offers:
        use = use_of(kitchen.ledger, offer.food, offer.unit, today)
        if use is None:
            continue
        there = sum(
            held.quantity for held in kitchen.ledger.holdings(offer.food) if held.lot.unit is offer.unit
        )
        found = stock_up(offer, kitchen.prices.history(offer), use, there, kitchen.keep_days.get(offer.food))
        advice += [] if found is None else [found]
    return tuple(advice)
