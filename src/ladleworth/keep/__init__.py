"""Keep: how cooked food cools, freezes, thaws and is warmed again.

Only records and plain arithmetic are imported here; what needs arrays is imported where it is used.
"""

from __future__ import annotations

from ladleworth.keep.bodies import Body, Face, Layer, Matter, Shape, Stage
from ladleworth.keep.containers import FilledContainer, Step
from ladleworth.keep.cooling import CoolingForecast, CoolingQuestion, Outcome, forecast, plan_of
from ladleworth.keep.cooling_search import Way, WayOut, ways_out
from ladleworth.keep.materials import Makeup, makeup_of
from ladleworth.keep.readings import Calibration, Probe, ReadingVerdict, calibrate, verdict_of
from ladleworth.keep.surroundings import Case, Lid, Spot, Surroundings, Wall

__all__ = [
    "Body",
    "Calibration",
    "Case",
    "CoolingForecast",
    "CoolingQuestion",
    "Face",
    "FilledContainer",
    "Layer",
    "Lid",
    "Makeup",
    "Matter",
    "Outcome",
    "Probe",
    "ReadingVerdict",
    "Shape",
    "Spot",
    "Stage",
    "Step",
    "Surroundings",
    "Wall",
    "Way",
    "WayOut",
    "calibrate",
    "forecast",
    "makeup_of",
    "plan_of",
    "verdict_of",
    "ways_out",
]
