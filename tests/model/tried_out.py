"""The optimum of every small week, found once for all checks of a run."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from tests.model.brute_force import best_plan
from tests.model.small_kitchens import small_kitchen

from ladleworth.decide.answer import Plan


@cache
def tried_out(seed: int) -> tuple[Fraction, Plan] | None:
    """Return the least cost of a small week and a plan that reaches it; None if no plan keeps the rules."""
    return best_plan(small_kitchen(seed))
