"""From the pot to the fridge: dividing, cooling open, the lid, and how long food may stand out.

The limits are published advice for perishable food at home (`facts.limits`); a local code, a label or licensed practice
goes before them. Nothing here says that food is safe.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from ladleworth.cookday.question import Activity, Lag
from ladleworth.cookday.to_cook import BatchAtWork, Work
from ladleworth.facts.limits import COOLING_OPEN, cited, limit, out_of_fridge
from ladleworth.household import Equipment

DIVIDE_MIN, DIVIDE_PER_TWO_MIN = 1, 1
"""Hands-on minutes to divide a batch: one, and half a minute a container, rounded up. House rule, no source."""

LID_MIN = 1
"""Hands-on minutes for the lids, and the way to the fridge or freezer. House rule, no source."""

DIVIDE, COOL, LID = "divide", "cool", "lid"


def divide_minutes(containers: int) -> int:
    """Give the hands-on minutes that dividing into so many containers takes."""
    return DIVIDE_MIN + ceil(containers * DIVIDE_PER_TWO_MIN / 2)


def keeping_of(batch: BatchAtWork, equipment: Equipment) -> tuple[Activity, ...]:
    """List what is done with a batch once it is cooked: divided, cooled open if any of it was hot, lid on."""
    containers = batch.batch.containers
    minutes = divide_minutes(containers)
    divide = Activity(
        batch.called(DIVIDE), batch.name, f"Divide into {_containers(containers)}.", minutes, minutes, hands=1
    )
    lid = Activity(batch.called(LID), batch.name, _lid_words(batch), LID_MIN, LID_MIN, hands=1)
    if not any(work.heats for work in batch.works):
        return divide, lid
    least = int(limit(COOLING_OPEN).value)
    cool = Activity(
        batch.called(COOL),
        batch.name,
        "Let it cool, open, on the counter.",
        least,
        max(least, int(out_of_fridge(equipment.room_c).value)),
        counter=containers,
        warm=True,
    )
    return divide, cool, lid


def _containers(count: int) -> str:
    return "1 container" if count == 1 else f"{count} containers"


def _lid_words(batch: BatchAtWork) -> str:
    ways = [(batch.batch.chilled, "fridge"), (batch.batch.frozen, "freezer")]
    told = [f"{count} into the {place}" for count, place in ways if count]
    if len(told) == 1:
        return f"Lid on, and {'all' if batch.batch.containers > 1 else 'it goes'} into the {told[0].split()[-1]}."
    return f"Lid on; {', '.join(told)}." if told else "Lid on."


def keeping_lags(batch: BatchAtWork, equipment: Equipment) -> Iterator[Lag]:
    """List the lags from the last steps to the lid, and the limits on standing out."""
    divide, cool, lid = (batch.called(what) for what in (DIVIDE, COOL, LID))
    for work in batch.ends:
        yield Lag(work.last, divide, why="it is divided when all of it is done")
    if any(work.heats for work in batch.works):
        yield Lag(divide, cool, 0, 0, why="it cools from the minute that it is divided")
        yield Lag(cool, lid, 0, 0, why="the lid goes on when it has cooled")
    else:
        yield Lag(divide, lid, 0, 0, why="the lid goes on at once")
    yield from _limits(batch, equipment, lid)


def _limits(batch: BatchAtWork, equipment: Equipment, lid: str) -> Iterator[Lag]:
    """Limit how long hot food stands out before it is heated again or kept, and raw food before it is heated."""
    figure = out_of_fridge(equipment.room_c)
    most = int(figure.value)
    out = f"perishable food stands out {most} min at the most {cited(figure)}"
    for at, work in enumerate(batch.works):
        later = next_heats(batch, at)
        if work.heats and later:
            yield from (
                Lag(work.last, then.first, 0, most, limit=True, why=f"{out}, before it is heated again")
                for then in later
            )
        elif work.heats:
            yield Lag(
                work.last,
                lid,
                0,
                most,
                second_end=True,
                limit=True,
                why=f"{out}, from the heat to the fridge",
            )
        elif any(work.needs.boards):
            yield from (
                Lag(work.last, then.first, 0, most, limit=True, why=f"{out}: raw, until it is heated")
                for then in later
            )
    if not any(work.heats for work in batch.works):
        for work in batch.ends:
            yield Lag(
                work.last, lid, 0, most, second_end=True, limit=True, why=f"{out}, until it is in the fridge"
            )


def next_heats(batch: BatchAtWork, at: int) -> tuple[Work, ...]:
    """Find the next steps after one of them that heat the food."""
    hot = [then for then, work in enumerate(batch.works) if work.heats and at in batch.far[then]]
    return tuple(batch.works[then] for then in hot if not any(other in batch.far[then] for other in hot))
