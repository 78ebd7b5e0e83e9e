"""What would meet the limits of cooling: less depth, an ice bath, no lid, fewer containers at once, a colder fridge."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum
from math import floor

from ladleworth.facts.heat import heat_limit, limit_c
from ladleworth.facts.limits import OUT_OF_FRIDGE, limit
from ladleworth.keep.containers import Step
from ladleworth.keep.cooling import CoolingQuestion, Times, times_from
from ladleworth.keep.surroundings import Case, Lid, Spot

LEAST_DEPTH_MM, GREATEST_DEPTH_MM = 5, 200
STIR_MIN = 5
"""How often an ice bath that is proposed is stirred, minutes: chosen."""

FREEZER_MIN = 60
"""How long a first stay in the freezer that is proposed lasts, minutes: chosen."""

COLDEST_FRIDGE_C = 1
"""No colder fridge is proposed: below, what stands at the back freezes. Common practice, no source."""


class Way(Enum):
    """The ways out, in the order in which they are proposed."""

    NO_LID = "leave the lid off until it is cold"
    FEWER = "fewer containers at once"
    DEPTH = "less depth"
    COLDER = "a colder fridge"
    ICE_BATH = "an ice bath with stirring"
    FREEZER = "a first hour in the freezer"


@dataclass(frozen=True, slots=True)
class WayOut:
    """A way out that works alone: its number (mm, minutes, containers, °C; 0 where there is none), and the case.

    Found for the slow corner, or else for the middle case only: then a thermometer still decides.
    """

    way: Way
    number: float
    case: Case


def meets(question: CoolingQuestion, case: Case) -> bool:
    """Tell whether every limit, the stricter reading among them, is met in a case."""
    hot_c = limit_c("cooling starts")
    starts = (question.start_c,) if question.start_c <= hot_c else (hot_c, question.start_c)
    return all(_is_in_time(times_from(question, case, start_c)) for start_c in starts)


def _is_in_time(times: Times) -> bool:
    pairs = (
        (times.first_min, "cooling, first limit within"),
        (times.last_min, "cooling, all within"),
        (times.second_min, "cooling, second stage within"),
    )
    return all(minutes is not None and minutes <= heat_limit(name).value for minutes, name in pairs)


def greatest_depth_mm(question: CoolingQuestion, case: Case) -> int | None:
    """Find how deep the food may stand, all else as it is.

    Parameters
    ----------
    question
        What is to cool; its own depth does not matter, and the hot food together stays what it is.
    case
        At which end of the estimates.

    Returns
    -------
    int or None
        Whole mm from 5 to 200; None where even 5 mm is too much.
    """
    fixed = replace(question, hot_kg=question.all_hot_kg)

    def is_met(depth_mm: int) -> bool:
        return meets(replace(fixed, filled=replace(fixed.filled, depth_mm=depth_mm)), case)

    return _greatest(LEAST_DEPTH_MM, GREATEST_DEPTH_MM, is_met)


def least_ice_bath_min(question: CoolingQuestion, case: Case) -> int | None:
    """Find how long an ice bath, stirred every five minutes, has to be put before the fridge.

    Parameters
    ----------
    question
        What is to cool; an ice bath that its plan has is replaced.
    case
        At which end of the estimates.

    Returns
    -------
    int or None
        Whole multiples of five minutes; None where even one as long as food may stand out at all is too short.
    """
    steps = [step for step in question.steps if step.spot is not Spot.ICE_BATH]
    at = next(number for number, step in enumerate(steps) if step.spot is not Spot.COUNTER)
    spent = sum(step.minutes or 0 for step in steps[:at])
    most = (int(limit(OUT_OF_FRIDGE).value) - spent) // STIR_MIN

    def is_short(baths: int) -> bool:
        bath = (Step(Spot.ICE_BATH, baths * STIR_MIN, STIR_MIN),) if baths else ()
        return not meets(replace(question, steps=(*steps[:at], *bath, *steps[at:])), case)

    if most < 0 or is_short(most):
        return None
    longest = _greatest(0, most, is_short)
    return 0 if longest is None else (longest + 1) * STIR_MIN


def most_at_once(question: CoolingQuestion, case: Case) -> int | None:
    """Find how many such containers may go into the fridge at once.

    Returns
    -------
    int or None
        So many that their hot food is no more than the fridge takes lightly (2 kg: chosen), if the limits are then met
        and are not for the food that is meant to go in; None if that changes nothing, or the mass is not known.
    """
    mass, hot = question.filled.mass_kg(question.makeup), question.all_hot_kg
    light = case.of("much food")
    if mass is None or hot is None or hot <= light or mass > light:
        return None
    number = floor(light / mass)
    return number if meets(replace(question, hot_kg=number * mass), case) else None


def ways_out(question: CoolingQuestion) -> tuple[WayOut, ...]:
    """List what would meet the limits, each change alone.

    Parameters
    ----------
    question
        What is to cool.

    Returns
    -------
    tuple of WayOut
        For the slow corner where it can be had so, else for the middle case; empty where nothing works alone, or
        where all is well in the slow corner already.
    """
    if meets(question, Case.SLOW):
        return ()
    cases = [Case.SLOW] if meets(question, Case.MIDDLE) else [Case.SLOW, Case.MIDDLE]
    finders: tuple[tuple[Way, Callable[[CoolingQuestion, Case], float | None]], ...] = (
        (Way.NO_LID, _without_lid),
        (Way.FEWER, most_at_once),
        (Way.DEPTH, greatest_depth_mm),
        (Way.COLDER, _warmest_fridge_c),
        (Way.ICE_BATH, least_ice_bath_min),
        (Way.FREEZER, _with_freezer),
    )
    found = []
    for way, find in finders:
        for case in cases:
            number = find(question, case)
            if number is not None:
                found.append(WayOut(way, number, case))
                break
    return tuple(found)


def _without_lid(question: CoolingQuestion, case: Case) -> float | None:
    if question.filled.lid is Lid.OFF:
        return None
    return 0 if meets(replace(question, filled=replace(question.filled, lid=Lid.OFF)), case) else None


def _warmest_fridge_c(question: CoolingQuestion, case: Case) -> float | None:
    """Find the warmest reading of the fridge's thermometer, in half degrees, that meets the limits."""
    if all(step.spot is not Spot.FRIDGE for step in question.steps):
        return None
    now = question.around.fridge_c
    high = limit_c("cooling, last limit") if now is None else now - 0.5
    halves = floor(high * 2)

    def is_met(degrees: int) -> bool:
        return meets(replace(question, around=replace(question.around, fridge_c=degrees / 2)), case)

    warmest = _greatest(2 * COLDEST_FRIDGE_C, halves, is_met)
    return None if warmest is None else warmest / 2


def _with_freezer(question: CoolingQuestion, case: Case) -> float | None:
    """Try an hour in the freezer before the fridge."""
    if any(step.spot is Spot.FREEZER for step in question.steps):
        return None
    steps = (*question.steps[:-1], Step(Spot.FREEZER, FREEZER_MIN), question.steps[-1])
    return FREEZER_MIN if meets(replace(question, steps=steps), case) else None


def _greatest(low: int, high: int, holds: Callable[[int], bool]) -> int | None:
    """Find the greatest whole number for which something holds that holds up to some point and not beyond."""
    if high < low or not holds(low):
        return None
    above = high + 1
    while above - low > 1:
        middle = (low + above) // 2
        low, above = (middle, above) if holds(middle) else (low, middle)
    return low
