"""Why a project has no timetable, where the lags alone do not say: capacities and wishes that clash, as few as may be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ladleworth.cookday.project import Project
from ladleworth.cookday.project_model import can_be

ONE_S = 2.0
"""How long it is tried, at the most, to find a timetable without one of the limits."""


@dataclass(frozen=True, slots=True)
class Clash:
    """Limits that no timetable keeps all of, given the durations, the least lags and the other demands.

    `fewest` says that without any one of them there is a timetable; otherwise the time was too short to make sure.
    """

    limits: tuple[str, ...]
    fewest: bool


@dataclass(frozen=True, slots=True)
class _Limit:
    words: str
    kind: str
    place: int = 0


def clash(project: Project, *, seconds: float = 10.0, seed: int = 0) -> Clash:
    """Find limits that clash, by leaving one after another out for as long as there is no timetable.

    Parameters
    ----------
    project
        One that has no timetable.
    seconds
        The clock limit for all of the solver's runs together.
    seed
        The solver's random seed.

    Returns
    -------
    Clash
        Capacities, greatest lags and the deadline, in words; none where the rest alone has no timetable.
    """
    kept = list(_limits(project))
    left, fewest = seconds, True
    for limit in tuple(kept):
        if left <= 0:
            return Clash(tuple(one.words for one in kept), fewest=False)
        others = [one for one in kept if one is not limit]
        possible, took = can_be(_only(project, others), min(left, ONE_S), seed)
        left -= took
        if possible is False:
            kept = others
        elif possible is None:
            fewest = False
    return Clash(tuple(one.words for one in kept), fewest)


def _limits(project: Project) -> Iterator[_Limit]:
    """List every limit that may be let go of: those that are named last stay in the clash rather than others."""
    if project.deadline is not None:
        yield _Limit(f"the deadline {project.deadline}", "deadline")
    for place, lag in enumerate(project.lags):
        if lag.greatest is not None:
            yield _Limit(
                f"{lag.first!r} ({lag.first_anchor.value}) to {lag.second!r} ({lag.second_anchor.value}): "
                f"greatest {lag.greatest}",
                "lag",
                place,
            )
    for place, resource in enumerate(project.resources):
        yield _Limit(f"the capacity {resource.capacity} of {resource.name!r}", "resource", place)


def _only(project: Project, kept: list[_Limit]) -> Project:
    """Let go of all limits but these."""
    lags = {one.place for one in kept if one.kind == "lag"}
    rooms = {one.place for one in kept if one.kind == "resource"}
    enough = sum(demand.amount for _, demand in project.demands())
    return Project(
        project.activities,
        tuple(r if n in rooms else replace(r, capacity=enough) for n, r in enumerate(project.resources)),
        tuple(
            lag if n in lags or lag.greatest is None else replace(lag, greatest=None)
            for n, lag in enumerate(project.lags)
            if n in lags or lag.greatest is None or lag.least is not None
        ),
        project.deadline if any(one.kind == "deadline" for one in kept) else None,
    )
