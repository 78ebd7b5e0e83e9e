"""What the scale said of a dish's batches, plan after plan, beside what they should weigh."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from pathlib import Path

from ladleworth.dish.dish import Dish
from ladleworth.divide.history import WeighedBatch, YieldHistory, history_of
from ladleworth.household import Kitchen
from ladleworth.store import SavedPlan, Store, is_kitchen_file
from ladleworth.store.kept_reading import KeptReading
from ladleworth.week.acting import read_kitchen


def plans_of(place: str | Path) -> tuple[SavedPlan, ...]:
    """Give every plan that a kitchen keeps, a file or a folder that one was dumped into."""
    if not is_kitchen_file(place):
        return read_kitchen(place).plans
    with Store.open(place) as store:
        return store.plans()


def weighed_batches(plans: Iterable[SavedPlan], dish: str) -> tuple[WeighedBatch, ...]:
    """Gather what was ever weighed of a dish's batches, by day and version."""
    found: dict[tuple[date, str], list[KeptReading]] = {}
    for plan in plans:
        for kept in plan.yield_readings:
            if kept.dish == dish:
                when = plan.start + timedelta(days=kept.day - 1)
                found.setdefault((when, kept.version), []).append(kept)
    return tuple(
        WeighedBatch(
            when,
            version,
            kept[-1].portions,
            tuple(one.reading for one in sorted(kept, key=lambda one: one.number)),
        )
        for (when, version), kept in sorted(found.items(), key=lambda item: item[0])
    )


def yield_history(place: str | Path, kitchen: Kitchen, dish: Dish) -> YieldHistory:
    """Show what the scale said of a dish's batches, beside what it should weigh.

    Parameters
    ----------
    place
        The kitchen's folder or file.
    kitchen, dish
        The kitchen as read from it, and the dish as written.
    """
    batches = weighed_batches(plans_of(place), dish.id)
    return history_of(dish, kitchen.foods, batches) if batches else YieldHistory()
