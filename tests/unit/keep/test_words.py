"""What is said of cooling: every outcome in words, and no word that vouches for food."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from tests.unit.keep.boxes import KITCHEN, STEW, stew

from ladleworth.keep import FilledContainer, Lid, Outcome, Probe, Surroundings, forecast, verdict_of, ways_out
from ladleworth.keep import cooling_words as words
from ladleworth.keep.freezing import freezer_load
from ladleworth.keep.reheating import range_explained, reheating_times, steps_of

ROOT = Path(__file__).parents[3]
OURS = [
    *sorted((ROOT / "src/ladleworth/keep").glob("*.py")),
    *sorted((ROOT / "src/ladleworth/cli").glob("*cool*.py")),
    ROOT / "docs/keep.md",
    ROOT / "docs/cool-question.md",
]
VOUCHING = re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b", re.IGNORECASE)


@pytest.mark.parametrize("path", OURS, ids=lambda path: path.name)
def test_no_text_of_ours_vouches_for_food(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text) > 100
    assert VOUCHING.findall(text) == []


def test_the_word_would_be_seen() -> None:
    assert VOUCHING.findall("it is Sa" + "fe to eat, sa" + "fely kept, unsa" + "fe") != []


@pytest.mark.parametrize(
    ("depth_mm", "around", "outcome", "said"),
    [
        (12, Surroundings(fridge_c=0.5, fan_fridge=True), Outcome.MEETS, "Even in the slow corner it meets"),
        (15, replace(KITCHEN, fridge_c=1), Outcome.MEASURE, "in the slow corner it does not. Measure"),
        (60, KITCHEN, Outcome.MISSES, "does not meet the retail limits of cooling. Change the plan"),
    ],
)
def test_the_headline_tells_the_outcome_and_what_to_do(
    depth_mm: float, around: Surroundings, outcome: Outcome, said: str
) -> None:
    told = forecast(stew(depth_mm, counter=1, around=around, start_c=57.2222))
    assert told.outcome is outcome
    assert said in words.headline(told)


def test_limits_name_their_source_and_both_times() -> None:
    told = forecast(stew(30))
    first = words.limit_text(told.limits[0])
    assert "(food-code-cooling, read)" in first
    assert re.search(r"in the middle case, .* in the slow corner; ", first)
    assert "(cooling-abstracts, read)" in words.limit_text(told.limits[2])


def test_advice_for_homes_stands_beside_with_its_own_sources() -> None:
    late, deep = words.advice_text(forecast(stew(60, counter=130)).advice)
    assert "within 2 h (thawing-fact-sheet, read); here after 2 h 10 min: too late" in late
    assert "60 mm: deeper than advised" in deep


def test_never_is_written_where_the_air_is_too_warm_and_why() -> None:
    told = forecast(stew(30, around=replace(KITCHEN, fridge_c=3)))
    assert words.minutes_text(told.slow.last_min) == "never"
    assert any("less than 3 °C (37 °F)" in line for line in words.reasons(told))


def test_ways_out_say_how_far_they_go() -> None:
    question = stew(40, filled=FilledContainer(40, 180, 130, lid=Lid.ON), around=replace(KITCHEN, fridge_c=1))
    told = forecast(question)
    lines = words.ways_text(ways_out(question), told)
    assert any(line.startswith("no deeper than") for line in lines)
    assert all(
        line.endswith(("even in the slow corner).", "in the middle case only: measure).")) for line in lines
    )
    assert words.ways_text((), told)[0].startswith("Nothing works alone")


def test_minutes_are_rounded_up() -> None:
    assert words.minutes_text(59.2) == "1 h"
    assert words.minutes_text(61) == "1 h 5 min"
    assert words.minutes_text(30.0) == "30 min"


def test_readings_say_what_to_do() -> None:
    missed = words.reading_text(verdict_of([Probe(120, 30)]))
    assert any("reheat to 165 °F (74 °C) at once" in line for line in missed)
    slow = words.reading_text(verdict_of([Probe(30, 56), Probe(90, 54)]))
    assert any("slower than the rate" in line for line in slow)


def test_reheating_starts_and_checks_and_the_trades_range_is_explained() -> None:
    steps = steps_of(reheating_times(STEW, 400, 800, -18))
    assert "half power" in " ".join(steps)
    assert "165 °F (74 °C) everywhere" in steps[-1]
    assert "at 800 W; a bigger portion takes as much longer" in range_explained(STEW, 800)
    assert "takes up less" in " ".join(steps_of(reheating_times(STEW, 150, 800, 4)))
    assert freezer_load(100_000).least_g == 3203
