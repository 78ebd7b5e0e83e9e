"""A cooling forecast in the cook's words. It names limits and outcomes; it never vouches for food."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from ladleworth.facts.limits import cited
from ladleworth.keep.cooling import ConsumerAdvice, CoolingForecast, LimitVerdict, Outcome
from ladleworth.keep.cooling_search import FREEZER_MIN, STIR_MIN, Way, WayOut
from ladleworth.keep.readings import Action, ReadingVerdict
from ladleworth.keep.surroundings import Case
from ladleworth.units import show_minutes

CAUTIONS = (
    "This is a forecast, not a measurement: a thermometer in the thickest middle decides.",
    "It knows no door left open, no power cut, no pockets of air or layers in the food.",
    "Looking, smelling and tasting do not show whether food has stood warm too long. In doubt, throw it out.",
    "Local food codes, labels and the advice of licensed practice go before it.",
)
"""Said with every forecast. That senses do not show it is what agencies say (FDA, NDSU Extension FN579: read)."""

COUNSEL = {
    Outcome.MEETS: "Put it there as planned, and measure the first time all the same.",
    Outcome.MEASURE: "Measure: in the thickest middle at 2 hours and at 6 hours from 135 °F (57 °C).",
    Outcome.MISSES: "Change the plan.",
}


def minutes_text(minutes: float | None) -> str:
    """Write minutes, rounded up to five once over an hour; 'never' for None."""
    if minutes is None:
        return "never"
    return show_minutes(ceil(minutes - 1e-6) if minutes <= 60 else 5 * ceil(minutes / 5 - 1e-6))


def limit_text(verdict: LimitVerdict) -> str:
    """Say what became of one limit: '70 °F within 2 hours: 1 h 20 min in the middle case, 2 h 45 min at the slowest; ...'."""
    middle, slow = minutes_text(verdict.middle_min), minutes_text(verdict.slow_min)
    return (
        f"{verdict.name} {cited(verdict.allowed)}: {middle} in the middle case, {slow} in the slow corner; "
        f"{verdict.outcome.value}."
    )


def headline(told: CoolingForecast) -> str:
    """Say the outcome and what to do, in two sentences."""
    whole = {
        Outcome.MEETS: "Even in the slow corner it meets the retail limits of cooling.",
        Outcome.MEASURE: "In the middle case it meets the retail limits of cooling, in the slow corner it does not.",
        Outcome.MISSES: "It does not meet the retail limits of cooling.",
    }[told.outcome]
    if told.outcome is not told.as_written:
        whole += f" By the code's own words (2 hours, and 6 hours in all) it {told.as_written.value}."
    return f"{whole} {COUNSEL[told.outcome]}"


def advice_text(advice: ConsumerAdvice) -> tuple[str, ...]:
    """Hold the plan against advice for homes, which times getting it into the fridge, not the food itself."""
    allowed = show_minutes(int(advice.allowed.value))
    when = "in time" if advice.in_time else "too late"
    out = show_minutes(advice.out_min)
    depth = "as shallow as advised" if advice.is_shallow else "deeper than advised"
    return (
        f"Advice for homes: into the fridge within {allowed} {cited(advice.allowed)}; here after {out}: {when}.",
        (
            f"Advice for homes: in containers no deeper than 2 in (51 mm) {cited(advice.shallow)}; here "
            f"{advice.depth_mm:g} mm: {depth}. Sources differ; no depth by itself keeps the retail limits."
        ),
    )


def reasons(told: CoolingForecast) -> tuple[str, ...]:
    """Say what stands in the way that no change of the container can mend."""
    lines = []
    if told.last_air_c >= 5:
        lines.append(
            f"In the slow corner the air around it is {told.last_air_c:.1f} °C, and food gets no colder than its air: "
            "the last limit, 41 °F (5 °C), can be met there only by a fridge whose thermometer shows less than "
            "3 °C (37 °F)."
        )
    if told.slow.freezes or told.middle.freezes:
        lines.append("Its skin freezes on the way; it is reckoned as if it stayed at the freezing point.")
    if told.heat_kj is not None:
        lines.append(f"Each container gives off {told.heat_kj:.0f} kJ on its way from 135 to 41 °F.")
    return tuple(lines)


def way_text(way: WayOut) -> str:
    """Say one way out: 'no deeper than 21 mm (meets the limits even in the slow corner)'."""
    number = f"{way.number:g}"
    text = {
        Way.NO_LID: "leave the lid off until it is cold, covered against drips and dust",
        Way.FEWER: f"put no more than {number} in at once; cool the others in an ice bath meanwhile",
        Way.DEPTH: f"no deeper than {number} mm ({way.number / 25.4:.1f} in)",
        Way.COLDER: f"a fridge whose thermometer shows {number} °C ({way.number * 1.8 + 32:.0f} °F)",
        Way.ICE_BATH: f"an ice bath of {number} minutes before the fridge, stirred every {STIR_MIN} minutes, lid off",
        Way.FREEZER: f"the first {FREEZER_MIN} minutes in the freezer, away from what is frozen there",
    }[way.way]
    held = "even in the slow corner" if way.case is Case.SLOW else "in the middle case only: measure"
    return f"{text} (meets the limits {held})"


def ways_text(ways: Sequence[WayOut], told: CoolingForecast) -> tuple[str, ...]:
    """List the ways out, or say that there is none that works alone."""
    if told.outcome is Outcome.MEETS:
        return ()
    if not ways:
        return (
            "Nothing works alone; shallower and an ice bath together, or freezing at once in thin packs.",
        )
    return tuple(f"{way_text(way)}." for way in ways)


def reading_text(verdict: ReadingVerdict) -> tuple[str, ...]:
    """Say what readings come to."""
    lines = [
        f"70 °F (21 °C) within 2 hours: {verdict.first.value}.",
        f"41 °F (5 °C) within 6 hours in all: {verdict.last.value}.",
        f"What to do: {verdict.action.value}.",
    ]
    if verdict.rate_will_do is not None:
        told = "no slower than" if verdict.rate_will_do else "slower than"
        lines.append(
            f"Between the last two readings it cools {told} the rate of 0.24 an hour that the limits need. "
            "The rate is a screen and no proof: in a study 2 of 12 foods that passed it failed."
        )
    if verdict.action is Action.DISCARD:
        lines.append("Some codes let food that is seen in time be reheated and cooled again: ask your own.")
    return tuple(lines)
