"""A question of cooling without a kitchen: materials, layers, faces and stages in, temperatures over time out.

It is there so that the reckoning can be checked by anybody against handbooks and other programs (docs/cool-question.md).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ladleworth.errors import BadField
from ladleworth.keep.bodies import Body, Face, Shape, Stage
from ladleworth.keep.frozen import FreeFace, FreezingMatter

POINTS = ("hottest", "coldest", "mean")
"""What can be asked for beside the faces of the shape."""


@dataclass(frozen=True, slots=True)
class AskedLimit:
    """A temperature to be reached, °C, at a point: hottest, coldest, mean, or a face."""

    point: str
    degrees_c: float


@dataclass(frozen=True, slots=True)
class CellStage:
    """A stage of a slab that is followed in cells: it freezes, or a face's exchange changes with its temperature."""

    seconds: float
    faces: tuple[Face | FreeFace, ...]


@dataclass(frozen=True, slots=True)
class Posed:
    """One case of the question. `freezing` and `cell_stages` are set where it is followed in cells."""

    body: Body
    start_c: float
    stages: tuple[Stage, ...]
    freezing: FreezingMatter | None = None
    cell_stages: tuple[CellStage, ...] = ()

    @property
    def shape(self) -> Shape:
        """Its shape."""
        return self.body.shape

    @property
    def lasts_s(self) -> float:
        """How long all stages last together; without end where the last has none."""
        return math.fsum(stage.seconds for stage in (self.cell_stages or self.stages))


@dataclass(frozen=True, slots=True)
class CoolQuestion:
    """What is asked: a middle and a slow case, the limits, and the minutes at which temperatures are told."""

    title: str
    middle: Posed
    slow: Posed
    limits: tuple[AskedLimit, ...]
    report_min: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """Temperatures at one minute, °C; `faces_c` pairs each face with its own."""

    minute: float
    hottest_c: float
    coldest_c: float
    mean_c: float
    faces_c: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class ReachedLimit:
    """When a limit is reached, minutes from the start; None: never within the stages (thirty days in cells)."""

    point: str
    degrees_c: float
    minutes: float | None


@dataclass(frozen=True, slots=True)
class CaseAnswer:
    """The answer of one case."""

    readings: tuple[Told, ...]
    limits: tuple[ReachedLimit, ...]


@dataclass(frozen=True, slots=True)
class CoolAnswer:
    """The answer: both cases; `by` says how they were worked out."""

    title: str
    middle: CaseAnswer
    slow: CaseAnswer
    by: str


SERIES, CELLS = "series of conduction", "cells with heat and ice"


def solve(question: CoolQuestion) -> CoolAnswer:
    """Answer a question.

    Parameters
    ----------
    question
        The question.

    Returns
    -------
    CoolAnswer
        Of the middle and the slow case.

    Raises
    ------
    BadField
        If a time to be told lies past the last stage.
    """
    asked = (question.limits, question.report_min)
    middle = _solved(question.middle, *asked)
    slow = middle if question.slow == question.middle else _solved(question.slow, *asked)
    return CoolAnswer(question.title, middle, slow, SERIES if question.middle.freezing is None else CELLS)


def _solved(posed: Posed, limits: Sequence[AskedLimit], report_min: Sequence[float]) -> CaseAnswer:
    from ladleworth.keep.course import follow
    from ladleworth.keep.frozen import follow_freezing

    if posed.freezing is None:
        course = follow(posed.body, posed.stages, posed.start_c)
    else:
        stages = [(stage.seconds, stage.faces) for stage in posed.cell_stages]
        course = follow_freezing(posed.freezing, posed.body.depth_m, stages, posed.start_c)
    late = [minute for minute in report_min if minute * 60 > posed.lasts_s + 1e-6]
    if late:
        raise BadField(
            f"minute {late[0]:g} lies past the last stage; ask for earlier ones, or let it last longer"
        )
    seen = course.at([minute * 60 for minute in report_min])
    faces = posed.shape.faces
    told = tuple(
        Told(minute, float(hot), float(cold), float(mean), tuple(zip(faces, map(float, row), strict=True)))
        for minute, hot, cold, mean, row in zip(report_min, *seen.columns, strict=True)
    )
    reached = []
    for limit in limits:
        seconds = course.when(limit.point, limit.degrees_c)
        reached.append(ReachedLimit(limit.point, limit.degrees_c, None if seconds is None else seconds / 60))
    return CaseAnswer(told, tuple(reached))
