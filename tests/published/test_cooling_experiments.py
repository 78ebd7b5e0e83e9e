"""Published trials of cooling, pass or fail, against what is forecast for them.

Outside figures: the abstracts of Roberts and others, Food Protection Trends 33(1):27-31, 2013 (chili and tomato sauce),
of Olds and others, Food and Nutrition Sciences 4(7):735-740, 2013 (taco meat and rice) and of Olds and Sneed, Journal of
Child Nutrition and Management 29(1), 2005 (chili). They give pass or fail only; times, temperatures of the units and the
speed of their air are not told. So every input is our reading:

- an open steel counter pan: no lid, metal wall, no heat by its sides, from an even 135 °F;
- a walk-in refrigerator: fan fridge of the table, 3 °C; a walk-in freezer: fan freezer, -20 °C;
- chili, sauce: 75 % water; taco meat: 60 % water; rice: 68 % water, a tenth air (chosen, no source);
- a pan of 2.5 or 4 inches without a stated fill: full to the brim;
- an ice bath under the pan: bottom as in the ice bath of the table, not stirred, top in the walk-in's air.

Left out, since their conditions are not given: E06 (stirring stick), E13 (blast chiller), E14 to E25 (surveys, sizes
without shapes), E26 to E28 (rules, no trials).
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from ladleworth.keep import (
    Case,
    CoolingQuestion,
    FilledContainer,
    Makeup,
    Outcome,
    Spot,
    Stage,
    Step,
    Surroundings,
    Wall,
    forecast,
)
from ladleworth.keep.bodies import FOREVER
from ladleworth.keep.containers import cooling_matter
from ladleworth.keep.course import follow
from ladleworth.keep.surroundings import Lid, lower_face, upper_face

CHILI = Makeup(0.75, 0.09, 0.05, 0.08, 0.02, 0.01)
MEAT = Makeup(0.60, 0.23, 0.15, 0.0, 0.0, 0.02)
RICE = Makeup(0.68, 0.03, 0.003, 0.28, 0.004, 0.003, air=0.1)
WALK_IN = Surroundings(fridge_c=3, freezer_c=-20, fan_fridge=True, fan_freezer=True)


@dataclass(frozen=True, slots=True)
class Trial:
    name: str
    makeup: Makeup
    depth_mm: float
    spot: Spot
    met: bool


TRIALS = (
    Trial("E01", CHILI, 51, Spot.FRIDGE, met=False),
    Trial("E02", CHILI, 76, Spot.FRIDGE, met=False),
    Trial("E03", CHILI, 51, Spot.FREEZER, met=True),
    Trial("E04", CHILI, 76, Spot.FREEZER, met=False),
    Trial("E07", MEAT, 51, Spot.FREEZER, met=True),
    Trial("E09 meat, 51 mm", MEAT, 51, Spot.FRIDGE, met=False),
    Trial("E09 rice, 51 mm", RICE, 51, Spot.FRIDGE, met=False),
    Trial("E09 meat, 76 mm", MEAT, 76, Spot.FRIDGE, met=False),
    Trial("E09 rice, 76 mm", RICE, 76, Spot.FRIDGE, met=False),
    Trial("E10", MEAT, 76, Spot.FREEZER, met=False),
    Trial("E11", CHILI, 64, Spot.FRIDGE, met=False),
    Trial("E12", CHILI, 102, Spot.FRIDGE, met=False),
)


def told(trial: Trial) -> Outcome:
    pan = FilledContainer(trial.depth_mm, wall=Wall.METAL)
    return forecast(CoolingQuestion(pan, trial.makeup, (Step(trial.spot),), WALK_IN)).outcome


@pytest.mark.parametrize("trial", TRIALS, ids=lambda trial: trial.name)
def test_what_failed_is_never_said_to_meet_and_what_passed_never_to_miss(trial: Trial) -> None:
    assert told(trial) is not (Outcome.MISSES if trial.met else Outcome.MEETS)


def test_the_middle_case_tells_all_of_them_right() -> None:
    wrong = [trial.name for trial in TRIALS if (told(trial) is Outcome.MISSES) == trial.met]
    assert wrong == []


@pytest.mark.parametrize(
    ("name", "makeup", "depth_mm", "met"),
    [
        ("E05, 51 mm", CHILI, 51, False),
        ("E05, 76 mm", CHILI, 76, False),
        ("E08", RICE, 51, True),
    ],
)
def test_an_ice_bath_under_a_pan(name: str, makeup: Makeup, depth_mm: float, *, met: bool) -> None:
    # Chili and rice of 51 mm came out differently in the two trials; by conduction alone they hardly differ, so that
    # no forecast can tell both. What failed must not meet the limit in the slow corner, what passed must in the middle.
    hours = {case: first_hours(makeup, depth_mm, case) for case in Case}
    assert hours[Case.MIDDLE] <= 2 if met else hours[Case.SLOW] > 2, (name, hours)


def first_hours(makeup: Makeup, depth_mm: float, case: Case) -> float:
    pan = FilledContainer(depth_mm, wall=Wall.METAL)
    top = upper_face(Spot.FRIDGE, Lid.OFF, WALK_IN, case)
    bottom = lower_face(Spot.ICE_BATH, Wall.METAL, WALK_IN, case)
    course = follow(pan.body(cooling_matter(makeup, case), case), [Stage(FOREVER, (top, bottom))], 57.2222)
    seconds = course.when("hottest", 21.1111)
    assert seconds is not None
    return seconds / 3600
