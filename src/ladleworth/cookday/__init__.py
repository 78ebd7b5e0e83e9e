"""The cooking day: when each step runs, on whose hands, which burner, at what heat of the oven."""

from ladleworth.cookday.answer import DayAnswer, Heated, Held, Measure, Status, Timed, Timetable, Washed
from ladleworth.cookday.deciding import replan, timetable
from ladleworth.cookday.judge import judge, measure
from ladleworth.cookday.question import (
    Activity,
    Begun,
    Bench,
    DayQuestion,
    Lag,
    Merging,
    OvenCard,
    OvenHeat,
    ToolKind,
    ToolUse,
)

__all__ = [
    "Activity",
    "Begun",
    "Bench",
    "DayAnswer",
    "DayQuestion",
    "Heated",
    "Held",
    "Lag",
    "Measure",
    "Merging",
    "OvenCard",
    "OvenHeat",
    "Status",
    "Timed",
    "Timetable",
    "ToolKind",
    "ToolUse",
    "Washed",
    "judge",
    "measure",
    "replan",
    "timetable",
]
