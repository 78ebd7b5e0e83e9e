"""Whether a question has a plan at all: the first one found is enough."""

from __future__ import annotations

from collections.abc import Callable

from ladleworth.decide.answer import Plan, Progress, Status
from ladleworth.decide.deciding import decide
from ladleworth.decide.mending import mended
from ladleworth.decide.question import Question


def has_plan(
    question: Question,
    seconds: float,
    seed: int = 0,
    *,
    work: int | None = None,
    stop: Callable[[], bool] | None = None,
) -> bool | None:
    """Say whether a question has a plan; that everybody eats out is tried first.

    Parameters
    ----------
    question, seconds, seed, work, stop
        As for `decide`.

    Returns
    -------
    bool or None
        None: a plan was neither found nor ruled out in time.
    """
    if mended(question, Plan((), (), (), ())) is not None:
        return True
    found: list[float] = []

    def heard(progress: Progress) -> None:
        found.extend(() if progress.value is None else (progress.value,))

    def is_enough() -> bool:
        return bool(found) or (stop is not None and stop())

    status = decide(question, seconds, seed, work=work, report=heard, stop=is_enough).status
    return None if status is Status.OUT_OF_TIME else status is not Status.INFEASIBLE
