"""Thermometer readings override: verdicts, actions, and a factor learned from one curve."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.keep.boxes import KITCHEN, stew

from ladleworth.errors import BadField
from ladleworth.keep import Case, Probe, calibrate, verdict_of
from ladleworth.keep.containers import cooling_matter, stages_of
from ladleworth.keep.cooling import CoolingQuestion
from ladleworth.keep.course import follow
from ladleworth.keep.readings import Action, Seen

# US FDA Food Code 3-501.14 as adopted in Delaware (read): 135 to 70 °F within 2 hours, to 41 °F within 6 in all. What to
# do about a miss (reheat to 165 °F and start again, or discard) is from memory.


@pytest.mark.parametrize(
    ("probes", "first", "last", "action"),
    [
        ([(60, 50), (110, 20.9), (350, 4.9)], Seen.MET, Seen.MET, Action.DONE),
        ([(120, 21.1), (360, 5.0)], Seen.MET, Seen.MET, Action.DONE),
        ([(120, 21.2)], Seen.MISSED, Seen.OPEN, Action.REHEAT),
        ([(120, 25.0), (150, 20.0)], Seen.MISSED, Seen.OPEN, Action.DISCARD),
        ([(130, 22.0)], Seen.MISSED, Seen.OPEN, Action.DISCARD),
        ([(100, 20.0), (360, 6.0)], Seen.MET, Seen.MISSED, Action.DISCARD),
        ([(100, 20.0)], Seen.MET, Seen.OPEN, Action.NOTHING),
        ([(30, 50.0), (60, 30.0)], Seen.OPEN, Seen.OPEN, Action.NOTHING),
        ([(30, 56.0), (60, 54.0)], Seen.OPEN, Seen.OPEN, Action.HURRY),
        ([(200, 10.0)], Seen.OPEN, Seen.OPEN, Action.UNSHOWN),
        ([(370, 4.0)], Seen.OPEN, Seen.OPEN, Action.UNSHOWN),
    ],
)
def test_a_verdict_rests_on_readings_alone(
    probes: list[tuple[float, float]], first: Seen, last: Seen, action: Action
) -> None:
    found = verdict_of([Probe(*probe) for probe in probes])
    assert (found.first, found.last, found.action) == (first, last, action)


def test_readings_may_come_in_any_order_but_not_contradict() -> None:
    one, other = Probe(60, 40), Probe(120, 20)
    assert verdict_of([other, one]) == verdict_of([one, other, one])
    with pytest.raises(BadField, match="two readings after 60 min differ"):
        verdict_of([one, Probe(60, 41)])
    with pytest.raises(BadField, match="there is no reading"):
        verdict_of([])
    with pytest.raises(BadField, match="write 0 to 2880 min"):
        Probe(-1, 20)


def curve(question: CoolingQuestion, factor: float, minutes: list[float]) -> list[Probe]:
    """Readings of a kitchen whose exchange is so many times the table's."""
    around = replace(question.around, factor=factor)
    body = question.filled.body(cooling_matter(question.makeup, Case.MIDDLE), Case.MIDDLE)
    stages = stages_of(question.filled, question.steps, around, Case.MIDDLE, None)
    seen = follow(body, stages, question.start_c).at([minute * 60 for minute in minutes])
    return [Probe(minute, float(value)) for minute, value in zip(minutes, seen.hottest, strict=True)]


@pytest.mark.parametrize("factor", [0.4, 0.8, 1.0, 1.7, 4.0])
def test_one_curve_gives_the_factor_back_and_foretells_a_second_depth(factor: float) -> None:
    first = stew(30)
    learned = calibrate(first, curve(first, factor, [30, 60, 90, 120]))
    assert learned.factor == pytest.approx(factor, rel=0.01)
    assert learned.greatest_miss_k < 0.05
    second = stew(45)
    for theirs, ours in zip(
        curve(second, factor, [60, 180]), curve(second, learned.factor, [60, 180]), strict=True
    ):
        assert ours.degrees_c == pytest.approx(theirs.degrees_c, abs=0.2)


def test_a_curve_that_no_exchange_explains_is_not_believed() -> None:
    with pytest.raises(BadField, match="see to depth, start, plan"):
        calibrate(stew(30), [Probe(30, 80), Probe(120, 80)])
    with pytest.raises(BadField, match="no reading after the start"):
        calibrate(stew(30), [Probe(0, 80)])
    assert KITCHEN.factor is None
