"""The kitchen of a day's question: the equipment card, and what is assumed where it says nothing."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ladleworth.cookday.pose_tools import BOARD, tool_name
from ladleworth.cookday.question import SLOWER, Bench, OvenCard, ToolKind
from ladleworth.cookday.to_cook import BatchAtWork, Work
from ladleworth.facts.limits import HOT_DAY, limit
from ladleworth.household import Equipment
from ladleworth.units import half_up, show_number, show_temperature

WASH_MIN = 2
"""Hands-on minutes to wash a tool, where the card does not say: house rule, no source."""

OVEN_MIN_PER_10_C = Fraction(1)
"""Minutes for 10 °C of the oven, where the card does not say: common practice, no source."""

ROOM_C = 20
"""How warm the oven is at the start of the day, where the card does not state the kitchen's temperature."""


def bench_of(batches: Sequence[BatchAtWork], equipment: Equipment) -> tuple[Bench, tuple[str, ...]]:
    """Give the kitchen that a day's batches are cooked in.

    Parameters
    ----------
    batches
        The batches.
    equipment
        The card.

    Returns
    -------
    Bench, and tuple of str
        The kitchen, and what was assumed, in words. What the card does not state is there as often as any one step
        needs it: a timetable that does with less holds with more.
    """
    works = [work for batch in batches for work in batch.works]
    told: list[str] = []
    burners = _stated(
        told, "burners", equipment.burners, max((work.needs.burners for work in works), default=0)
    )
    stated_waves = None if equipment.microwave_w is None else 1
    most_waves = max((work.needs.microwaves for work in works), default=0)
    microwaves = _stated(told, "microwaves", stated_waves, most_waves)
    bench = Bench(
        cooks=equipment.cooks,
        burners=burners,
        oven=_oven(works, equipment, told),
        microwaves=microwaves,
        counter=equipment.counter,
        tools=_tools(works, equipment, told),
    )
    told += _pace(works, equipment)
    return bench, tuple(told)


def slower_of(equipment: Equipment) -> Fraction:
    """Give the factor of hands-on work under which the day still has to hold."""
    return SLOWER if equipment.slower is None else 1 + equipment.slower


def wash_min(equipment: Equipment) -> int:
    """Give the minutes to wash a tool."""
    return WASH_MIN if equipment.wash_min is None else equipment.wash_min


def _stated(told: list[str], what: str, there: int | None, needed: int) -> int:
    """Give how many there are; where nobody says, how many a step needs, which is told as an assumption."""
    if there is None and needed:
        told.append(f"{what} are not stated on the equipment card: {needed} assumed")
    return needed if there is None else there


def _oven(works: Sequence[Work], equipment: Equipment, told: list[str]) -> OvenCard | None:
    shelves = max((work.needs.oven.shelves for work in works if work.needs.oven), default=0)
    there = _stated(told, "oven_shelves", equipment.oven_shelves, shelves)
    if not there:
        return None
    pace = equipment.oven
    if shelves:
        for what, minutes in (("heating", pace.heating_min), ("cooling", pace.cooling_min)):
            if minutes is None:
                told.append(
                    f"the oven's {what} is not stated: {show_number(OVEN_MIN_PER_10_C)} min for 10 °C assumed"
                )
    return OvenCard(
        there,
        OVEN_MIN_PER_10_C if pace.heating_min is None else pace.heating_min,
        OVEN_MIN_PER_10_C if pace.cooling_min is None else pace.cooling_min,
        ROOM_C if equipment.room_c is None else half_up(equipment.room_c),
    )


def _tools(works: Sequence[Work], equipment: Equipment, told: list[str]) -> tuple[ToolKind, ...]:
    """List the tools that are used; one that the card does not list is assumed to be there once."""
    minutes = wash_min(equipment)
    found: dict[str, ToolKind] = {}
    if any(work.needs.boards for work in works):
        found[BOARD] = ToolKind(BOARD, equipment.boards, minutes)
    for work in works:
        for need in work.needs.tools:
            name = tool_name(need, equipment)
            if name in found:
                continue
            vessel = equipment.vessel(need)
            count = max(other.needs.tools.count(need) for other in works) if vessel is None else vessel.count
            if vessel is None:
                times = "once" if count == 1 else f"{count} times"
                told.append(f"{name} is not on the equipment card: assumed to be there {times}")
            found[name] = ToolKind(name, count, minutes)
    return tuple(found.values())


def _pace(works: Sequence[Work], equipment: Equipment) -> list[str]:
    """Tell what was assumed of washing and of the kitchen's warmth."""
    told = []
    if equipment.wash_min is None:
        told.append(f"wash is not stated: {WASH_MIN} min to wash a tool assumed")
    if equipment.room_c is None and any(work.heats for work in works):
        hot = show_temperature(limit(HOT_DAY).value)
        told.append(f"room is not stated: assumed to be no warmer than {hot}")
    return told
