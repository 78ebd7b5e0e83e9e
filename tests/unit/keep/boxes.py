"""A container of stew, and short ways to ask about it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ladleworth.keep import CoolingQuestion, FilledContainer, Makeup, Surroundings, plan_of

STEW = Makeup(0.75, 0.10, 0.05, 0.08, 0.01, 0.01)
KITCHEN = Surroundings(room_c=21, fridge_c=2, freezer_c=-18)


def stew(depth_mm: float = 25, *, counter: int = 20, ice: int = 0, **changes: Any) -> CoolingQuestion:
    """Ask about stew in a box of 18 x 13 cm; further changes are fields of the question."""
    filled = FilledContainer(depth_mm, 180, 130)
    return replace(CoolingQuestion(filled, STEW, plan_of(counter, ice), KITCHEN, start_c=80.0), **changes)
