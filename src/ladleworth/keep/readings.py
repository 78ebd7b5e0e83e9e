"""What a thermometer says overrides every forecast: verdicts from readings, and one's own fridge learned from a curve."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise

from ladleworth.errors import BadField
from ladleworth.facts.heat import heat_limit, limit_c
from ladleworth.keep.bodies import Stage
from ladleworth.keep.containers import cooling_matter, stages_of
from ladleworth.keep.cooling import CoolingQuestion
from ladleworth.keep.materials import freezing_point_c
from ladleworth.keep.surroundings import Case

LEAST_FACTOR, GREATEST_FACTOR = 0.1, 10.0
"""A probe that asks for more than this is not believed: depth, food or place must have been told wrongly."""


@dataclass(frozen=True, slots=True)
class Probe:
    """A reading in the thickest middle: minutes since the food passed 135 °F (or since the plan began), and °C."""

    minute: float
    degrees_c: float

    def __post_init__(self) -> None:
        if not (0 <= self.minute <= 2880 and -30 <= self.degrees_c <= 110):
            raise BadField(
                f"a reading of {self.degrees_c:g} °C after {self.minute:g} min; write 0 to 2880 min, -30 to 110 °C"
            )


class Seen(Enum):
    """What readings show of a limit. Only a reading shows it, never a line drawn between two."""

    MET = "met"
    MISSED = "missed"
    OPEN = "not shown by these readings"


class Action(Enum):
    """What to do about it: fixed beforehand, as food codes ask. General practice of food codes, from memory."""

    NOTHING = "go on cooling, and read again before the next limit"
    DONE = "nothing more: date it and keep it cold"
    HURRY = "it cools too slowly: ice bath with stirring, or shallower, now"
    REHEAT = "reheat to 165 °F (74 °C) at once and cool again another way, or throw it out"
    UNSHOWN = "no reading shows that it was in time: treat it as missed"
    DISCARD = "throw it out"


@dataclass(frozen=True, slots=True)
class ReadingVerdict:
    """What readings come to: each limit, the action, and the rate between the last two (log10 an hour; None: too few).

    `rate_will_do` compares the rate with 0.24 an hour; it is a screen and no proof: in a study 2 of 12 foods that
    passed it failed (`cooling-rate-study`).
    """

    first: Seen
    last: Seen
    action: Action
    rate: float | None
    rate_will_do: bool | None


def verdict_of(probes: Sequence[Probe]) -> ReadingVerdict:
    """Judge a cooling by its readings.

    Parameters
    ----------
    probes
        Readings in any order, minutes counted from 135 °F.

    Returns
    -------
    ReadingVerdict
        For 70 °F within 2 hours and 41 °F within 6 hours in all.

    Raises
    ------
    BadField
        If there is no reading, or two of the same minute differ.
    """
    told = sorted(set(probes), key=lambda probe: probe.minute)
    if not told:
        raise BadField("there is no reading; write at least one")
    for one, other in pairwise(told):
        if one.minute == other.minute:
            raise BadField(
                f"two readings after {one.minute:g} min differ; write the one in the thickest middle"
            )
    first = _seen(told, "cooling, first limit", "cooling, first limit within")
    last = _seen(told, "cooling, last limit", "cooling, all within")
    rate = _rate(told)
    will_do = None if rate is None else rate >= float(heat_limit("stirring when in doubt").value)
    return ReadingVerdict(first, last, _action(told, first, last, will_do=will_do), rate, will_do)


def _seen(told: Sequence[Probe], level: str, within: str) -> Seen:
    """A limit is met by a reading at or below it in time, missed by one above it when the time is up."""
    level_c, minutes = limit_c(level) + 1e-9, float(heat_limit(within).value)
    if any(probe.minute <= minutes and probe.degrees_c <= level_c for probe in told):
        return Seen.MET
    if any(probe.minute >= minutes and probe.degrees_c > level_c for probe in told):
        return Seen.MISSED
    return Seen.OPEN


def _action(told: Sequence[Probe], first: Seen, last: Seen, *, will_do: bool | None) -> Action:
    latest, in_time = told[-1].minute, float(heat_limit("cooling, first limit within").value)
    if first is Seen.MISSED:
        missed = next(
            p for p in told if p.minute >= in_time and p.degrees_c > limit_c("cooling, first limit")
        )
        return Action.REHEAT if missed.minute == latest == in_time else Action.DISCARD
    if last is Seen.MISSED:
        return Action.DISCARD
    if first is Seen.OPEN and latest > in_time:
        return Action.UNSHOWN
    if last is Seen.MET:
        return Action.DONE
    return Action.HURRY if will_do is False else Action.NOTHING


def _rate(told: Sequence[Probe]) -> float | None:
    """Give how fast log10 of the degrees Fahrenheit above 37 °F falls, an hour, between the last two readings."""
    if len(told) < 2:
        return None
    one, other = told[-2:]
    above = [(probe.degrees_c * 9 / 5 + 32) - 37 for probe in (one, other)]
    if min(above) <= 0:
        return None
    return (math.log10(above[0]) - math.log10(above[1])) / ((other.minute - one.minute) / 60)


@dataclass(frozen=True, slots=True)
class Calibration:
    """What one curve taught: the share of the table's middle exchange, and how far the curve is off it at most, K."""

    factor: float
    greatest_miss_k: float


def calibrate(question: CoolingQuestion, probes: Sequence[Probe]) -> Calibration:
    """Fit one factor on the exchange of all faces to a probe's curve.

    Parameters
    ----------
    question
        What was cooled, as it was; its own factor is left out. The middle case is fitted.
    probes
        Readings in the thickest middle, minutes from the beginning of the plan.

    Returns
    -------
    Calibration
        For the same container in the same spot. Put `factor` into `Surroundings`: the slow corner then takes 20 %
        off it in place of the table's range.

    Raises
    ------
    BadField
        If there is no reading after the start, or no factor from a tenth to tenfold comes near the readings.
    """
    from scipy.optimize import minimize_scalar

    told = [probe for probe in probes if probe.minute > 0]
    if not told:
        raise BadField("there is no reading after the start; write at least one")

    def misses(log_factor: float) -> list[float]:
        return _misses(question, told, math.exp(log_factor))

    bounds = math.log(LEAST_FACTOR), math.log(GREATEST_FACTOR)
    fitted = minimize_scalar(
        lambda log: sum(miss**2 for miss in misses(log)),
        bounds=bounds,
        method="bounded",
        options={"xatol": 1e-4},
    )
    log = float(fitted.x)
    if min(log - bounds[0], bounds[1] - log) < 0.01:
        raise BadField(
            "no exchange from a tenth to tenfold of the table's comes near these readings; "
            "see to depth, start, plan and the place of the probe"
        )
    return Calibration(math.exp(log), max(abs(miss) for miss in misses(log)))


def _misses(question: CoolingQuestion, told: Sequence[Probe], factor: float) -> list[float]:
    """Give by how much the hottest point differs from each reading, K."""
    from ladleworth.keep.skin import follow_with_skin

    around = replace(question.around, factor=factor)
    case = Case.MIDDLE
    matter = cooling_matter(question.makeup, case)
    stages: tuple[Stage, ...] = stages_of(question.filled, question.steps, around, case, question.all_hot_kg)
    body = question.filled.body(matter, case)
    course, _ = follow_with_skin(body, stages, question.start_c, freezing_point_c(question.makeup))
    hottest = course.at([probe.minute * 60.0 for probe in told]).hottest
    return [float(value) - probe.degrees_c for value, probe in zip(hottest, told, strict=True)]
