"""The best timetables of the small days, each found once in a run of the checks."""

from __future__ import annotations

from functools import cache

from tests.model.brute_day import best_timetable
from tests.model.small_days import small_day

from ladleworth.cookday.answer import Measure, Timetable


@cache
def tried_day(seed: int) -> tuple[Measure, Timetable] | None:
    """Return the best measure of the small day of this seed, and a timetable that has it; None if there is none."""
    return best_timetable(small_day(seed))
