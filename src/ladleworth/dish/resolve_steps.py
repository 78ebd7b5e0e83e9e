"""From the steps as written to steps that can be planned with."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.dish.core import read_core
from ladleworth.dish.dish import Step
from ladleworth.dish.records import WrittenDish, WrittenPart, WrittenStep
from ladleworth.dish.waiting import read_wait
from ladleworth.dish.written_steps import part_of_swaps, read_step_minutes

WHOLE = "all"
"""The part of a dish that is all one part."""


def resolve_steps(written: WrittenDish) -> tuple[Step, ...]:
    """Turn the steps of a dish without a fault into records."""
    return tuple(_step(written, step) for step in written.steps)


def _step(written: WrittenDish, step: WrittenStep) -> Step:
    part = _part_of(written, step)
    return Step(
        text=step.text,
        hands_on_min=_minutes(step.hands_on),
        unattended_min=_minutes(step.unattended),
        needs=step.needs,
        part=step.part,
        name=step.name,
        swaps=tuple((part or WHOLE, swap) for swap in step.swaps),
        after=step.after,
        at_once=step.at_once,
        wait=read_wait(step.wait) if step.wait else None,
        prep=step.prep,
        leaves=step.leaves,
        takes=step.takes,
        day_before=step.day_before,
        core=read_core(step.core) if step.core else None,
    )


def stepped_min(written: WrittenDish, part: WrittenPart, swap: str) -> Fraction:
    """Add up the hands-on minutes of the steps that are for a swap: what it takes where it says nothing itself."""
    its_own = (step for step in written.steps if swap in step.swaps and _part_of(written, step) == part.name)
    return sum((_minutes(step.hands_on) for step in its_own), Fraction(0))


def _part_of(written: WrittenDish, step: WrittenStep) -> str | None:
    return part_of_swaps(step.swaps, step.part, written.parts) if step.swaps else None


def _minutes(text: str) -> Fraction:
    return read_step_minutes(text) if text else Fraction(0)
