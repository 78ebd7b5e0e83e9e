"""What the middle of a food has to reach, and when a roast that rises while it rests is taken out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.cookday.to_cook import BatchAtWork
from ladleworth.dish.core import Core
from ladleworth.facts.limits import cited, limit
from ladleworth.units import show_temperature

RISES = {
    "small roast": "carry-over of a small roast",
    "roast": "carry-over of a roast",
    "very large roast": "carry-over of a very large roast",
}
"""The name of the figure (`facts.limits`) for each kind of roast."""


@dataclass(frozen=True, slots=True)
class CoreNote:
    """What has to be measured when an activity ends; `pull_c` is when to take it out, which for a roast is before."""

    activity: str
    core_c: Fraction
    pull_c: Fraction
    words: str


def cores_of(works: Sequence[BatchAtWork]) -> tuple[CoreNote, ...]:
    """List what is measured in the middle on a day."""
    return tuple(
        _note(work.last, work.step.core) for batch in works for work in batch.works if work.step.core
    )


def pull_at(core: Core) -> Fraction:
    """Give the temperature of the middle at which to take something out: a roast's is lower by what it rises.

    Source
    ------
    `carry-over-notes` (read): 3 °C small, 6 to 8 usual, 14 very large. Of 6 to 8 the lower, so that it is not out early.
    """
    return core.heat_c - (limit(RISES[core.roast]).value if core.roast else 0)


def _note(activity: str, core: Core) -> CoreNote:
    reach = f"{show_temperature(core.heat_c)} ({show_temperature(core.heat_c, 'F')}) in the middle"
    pull = pull_at(core)
    if not core.roast:
        return CoreNote(activity, core.heat_c, pull, f"It has to reach {reach}: measure.")
    rise = limit(RISES[core.roast])
    words = (
        f"Take it out at {show_temperature(pull)} ({show_temperature(pull, 'F')}): a {core.roast} rises by about "
        f"{rise.value} °C while it rests {cited(rise)}. It has to reach {reach}: measure before it is cut, and put it "
        "back if it does not."
    )
    return CoreNote(activity, core.heat_c, pull, words)
