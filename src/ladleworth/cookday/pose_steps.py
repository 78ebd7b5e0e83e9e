"""From the steps of a batch to activities and the lags between them."""

from __future__ import annotations

from collections.abc import Iterator

from ladleworth.cookday.question import Activity, Lag, OvenHeat
from ladleworth.cookday.to_cook import BatchAtWork, Work
from ladleworth.household import Equipment


def activities_of(batch: BatchAtWork, equipment: Equipment) -> Iterator[Activity]:
    """List the activities of a batch's steps: the hands-on work first, then what goes on by itself.

    Both hold the burners, the oven and the microwave that the step needs; only the first holds hands.
    """
    for work in batch.works:
        for name in work.activities:
            minutes = work.hands_min if name == work.hands else work.alone_min
            yield Activity(
                name=name,
                batch=batch.name,
                words=work.step.text,
                least_min=minutes,
                most_min=minutes,
                hands=max(1, work.needs.cooks) if name == work.hands else 0,
                burners=work.needs.burners,
                microwaves=work.needs.microwaves,
                oven=_oven(work, equipment),
            )


def _oven(work: Work, equipment: Equipment) -> OvenHeat | None:
    """Give what a step wants of the oven; how far it may be off is the step's own word, then the card's, else 0."""
    need = work.needs.oven
    if need is None or need.heat_c is None:
        return None
    tolerance = need.tolerance_c if need.tolerance_c is not None else equipment.oven.tolerance_c
    return OvenHeat(need.heat_c, tolerance or 0, need.shelves)


def lags_of(batch: BatchAtWork) -> Iterator[Lag]:
    """List the lags between the steps of a batch, and within a step that goes on by itself."""
    for work in batch.works:
        if work.hands and work.alone:
            yield Lag(work.hands, work.alone, 0, 0, why="it goes on by itself at once")
        last = max(work.follows, default=None)
        for at in sorted(work.follows):
            before = batch.works[at]
            least, most, why = _between(work, nearest=at == last)
            yield Lag(before.last, work.first, least, most, why=why)


def _between(work: Work, *, nearest: bool) -> tuple[int, int | None, str]:
    """Give the least and greatest wait after a step that a step follows, and the reason."""
    step = work.step
    if step.at_once and nearest:
        return 0, 0, "it begins the minute that the step before ends"
    if step.wait is None:
        return 0, None, "it follows that step"
    least, most = step.wait.least, step.wait.most
    if most is None:
        return least, None, f"it waits at least {least} min"
    return least, most, f"it waits {least} to {most} min" if least else f"it waits at most {most} min"
