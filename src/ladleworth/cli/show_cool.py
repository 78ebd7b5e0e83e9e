"""Cooling for the eye: forecasts with their limits, readings, and the temperatures of a neutral question."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ladleworth.cli import say
from ladleworth.keep import cooling_words as words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ladleworth.keep import Calibration, CoolingForecast, ReadingVerdict, WayOut
    from ladleworth.keep.cool_question import CaseAnswer, CoolAnswer


def forecast(told: CoolingForecast, ways: Sequence[WayOut]) -> None:
    """Show a forecast: the outcome, minutes by limit, advice for homes, and what would meet the limits."""
    say.heading("Forecast")
    say.sentence(words.headline(told))
    rows = [
        (
            limit.name,
            words.minutes_text(limit.middle_min),
            words.minutes_text(limit.slow_min),
            limit.outcome.value,
        )
        for limit in told.limits
    ]
    say.heading("From 135 °F (57 °C), in the thickest part")
    say.table(("limit", "middle case", "slow corner", ""), rows, right=(1, 2))
    say.sentence("The first two are the code's own words, the third is its stricter reading.")
    for line in sorted({f"{limit.allowed.source}, {limit.allowed.basis}" for limit in told.limits}):
        say.sentence(f"({line})", indent=2)
    say.heading("Advice for homes")
    for line in words.advice_text(told.advice):
        say.sentence(line)
    for line in words.reasons(told):
        say.sentence(line)
    listed = words.ways_text(ways, told)
    if listed:
        say.heading("What would meet the limits, each alone")
        for line in listed:
            say.sentence(line, indent=2)


def learned(taught: Calibration) -> None:
    """Show what a curve taught."""
    say.heading("By your own probe")
    say.sentence(
        f"This spot takes heat {taught.factor:.2f} times as fast as the table's middle; the curve is off by "
        f"{taught.greatest_miss_k:.1f} K at most. The forecast below goes by it, with 20 % off in the slow corner. For the same "
        f"container in the same spot write --factor {taught.factor:.2f} another time."
    )


def readings(verdict: ReadingVerdict) -> None:
    """Show what readings come to."""
    say.heading("By the thermometer")
    for line in words.reading_text(verdict):
        say.sentence(line)


def cautions() -> None:
    """Show what goes with every forecast."""
    say.heading("Cautions")
    for line in words.CAUTIONS:
        say.sentence(line)


def answer(told: CoolAnswer) -> None:
    """Show the answer of a neutral question: middle case, and slow case where it differs."""
    if told.title:
        say.heading(told.title)
    same = told.slow == told.middle
    _case("Middle and slow case" if same else "Middle case", told.middle)
    if not same:
        _case("Slow case", told.slow)
    say.sentence(f"Worked out by: {told.by}.")


def _case(title: str, case: CaseAnswer) -> None:
    say.heading(f"{title}, °C")
    faces = [name for name, _ in case.readings[0].faces_c] if case.readings else []
    rows = [
        (
            f"{told.minute:g}",
            f"{told.hottest_c:.2f}",
            f"{told.coldest_c:.2f}",
            f"{told.mean_c:.2f}",
            *(f"{degrees:.2f}" for _, degrees in told.faces_c),
        )
        for told in case.readings
    ]
    if rows:
        columns = ("minute", "hottest", "coldest", "mean", *faces)
        say.table(columns, rows, right=range(len(columns)))
    limits = [
        (
            limit.point,
            f"{limit.degrees_c:g} °C",
            "never" if limit.minutes is None else f"{limit.minutes:.1f} min",
        )
        for limit in case.limits
    ]
    if limits:
        say.table(("point", "reaches", "after"), limits, right=(1, 2))
