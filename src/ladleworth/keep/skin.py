"""Hot food in a freezer whose skin freezes before its middle is cold.

The series know no ice: left alone they would let the skin get ever colder, and the middle cool too fast. So from the
moment when a face reaches the freezing point it is held there. In truth a front of ice, as cold as that, starts at the
face and moves inwards: the middle is then at least as cold as told here, never warmer.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ladleworth.keep.bodies import Body, Face, Stage
from ladleworth.keep.course import Course, follow

HELD_W_M2K = 1e5
"""The exchange that holds a face at a temperature: a thousandfold that of an ice bath."""

WITHIN_K = 0.01
"""A face that comes no colder than this below the freezing point is left alone."""


def follow_with_skin(
    body: Body, stages: Sequence[Stage], start_c: float, freezing_c: float
) -> tuple[Course, bool]:
    """Let a body go through its stages, and hold each face that begins to freeze at the freezing point.

    Parameters
    ----------
    body, stages, start_c
        As for `course.follow`.
    freezing_c
        Where the food begins to freeze, °C.

    Returns
    -------
    Course, bool
        The course, and whether any face was held.
    """
    planned = list(stages)
    held = False
    while True:
        course = follow(body, planned, start_c)
        found = _freezing(body, planned, course, freezing_c)
        if found is None:
            return course, held
        at, face, since_s = found
        planned[at : at + 1] = _split(planned[at], face, since_s, freezing_c)
        held = True


def _freezing(
    body: Body, stages: Sequence[Stage], course: Course, freezing_c: float
) -> tuple[int, int, float] | None:
    """Find the first face that begins to freeze: stage, face, and seconds since the stage began."""
    started = 0.0
    for at, stage in enumerate(stages):
        passed = [
            (when, number)
            for number, face in enumerate(stage.faces)
            if face.surroundings_c < freezing_c - WITHIN_K
            and course.when(body.shape.faces[number], freezing_c - WITHIN_K, started) is not None
            and (when := course.when(body.shape.faces[number], freezing_c, started)) is not None
            and when < started + stage.seconds
        ]
        if passed:
            when, number = min(passed)
            return at, number, when - started
        started += stage.seconds
    return None


def _split(stage: Stage, face: int, since_s: float, freezing_c: float) -> list[Stage]:
    """Part a stage where a face begins to freeze, and hold the face from there on."""
    faces = list(stage.faces)
    faces[face] = Face(HELD_W_M2K, freezing_c)
    rest = stage.seconds if math.isinf(stage.seconds) else stage.seconds - since_s
    after = [replace(stage, seconds=rest, faces=tuple(faces))] if rest > 1e-3 else []
    if since_s <= 1e-3:
        return after
    return [replace(stage, seconds=since_s), *after]
