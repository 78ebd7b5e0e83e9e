"""Pose a cooking day: from the household's dishes and equipment to the question whose answer is a timetable.

docs/cookday.md says what each rule here comes from. Nothing here knows a week, a solver or a clock.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ladleworth.cookday.pose_amounts import listed
from ladleworth.cookday.pose_bench import bench_of, slower_of, wash_min
from ladleworth.cookday.pose_cores import CoreNote, cores_of
from ladleworth.cookday.pose_keeping import DIVIDE, keeping_lags, keeping_of
from ladleworth.cookday.pose_minutes import shared_minutes
from ladleworth.cookday.pose_pans import doubts_of
from ladleworth.cookday.pose_steps import activities_of, lags_of
from ladleworth.cookday.pose_texts import (
    DayBefore,
    Instruction,
    Note,
    PrepLine,
    day_before_of,
    instructions_of,
    prep_list_of,
)
from ladleworth.cookday.pose_tools import Gathered, gather, kept_off, tools_used, uses_of
from ladleworth.cookday.question import Activity, DayQuestion, Lag, Merging
from ladleworth.cookday.to_cook import BatchAtWork, BatchToCook, Work, at_work
from ladleworth.errors import Finding
from ladleworth.facts import FoodTable
from ladleworth.household import Equipment

WASHING_UP = "washing up"
"""The day's last activity: every tool that was used, once more."""


@dataclass(frozen=True, slots=True)
class PosedDay:
    """A day's question, and what a cook should know beside the timetable.

    `question` is None where `faults` say why there is none: each names a dish, and what to write in it. `assumptions` are
    what the equipment card does not say and was taken for granted, `doubts` what may go wrong.
    """

    question: DayQuestion | None
    faults: tuple[Finding, ...] = ()
    assumptions: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    day_before: tuple[DayBefore, ...] = ()
    instructions: tuple[Instruction, ...] = ()
    prep_list: tuple[PrepLine, ...] = ()
    gathered: tuple[Gathered, ...] = ()
    cores: tuple[CoreNote, ...] = ()


def pose_day(
    batches: Sequence[BatchToCook], equipment: Equipment, foods: FoodTable, *, clean_by: int | None = None
) -> PosedDay:
    """Pose the question of a day.

    Parameters
    ----------
    batches
        What is cooked, in the order in which ties are broken.
    equipment
        The household's equipment card.
    foods
        The food table with the kitchen's own foods.
    clean_by
        The minute, counted from the start of the session, by which all is done and washed up; None: no such wish.

    Returns
    -------
    PosedDay
        The question; or, where a dish's steps do not say enough, no question and what to write, for all dishes at once.

    Raises
    ------
    BadField
        If nothing is to be cooked, or a dish stands there twice in one version.
    """
    works, faults = at_work(batches)
    if faults or not works:
        return PosedDay(None, faults)
    bench, assumed = bench_of(works, equipment)
    uses = tuple(use for batch in works for use in uses_of(batch, equipment, works))
    washing = sum(tools_used(bench, uses).values()) * wash_min(equipment)
    question = DayQuestion(
        activities=(*_activities(works, equipment), _washing_up(washing)),
        lags=tuple(_lags(works, equipment)),
        uses=uses,
        mergings=tuple(mergings_of(works)),
        bench=bench,
        slower=slower_of(equipment),
        deadline=clean_by,
    )
    return PosedDay(
        question=question,
        assumptions=assumed,
        doubts=(*doubts_of(works, equipment, foods), *_kept_off(works)),
        notes=tuple(Note(batch.name, words) for batch in works for words in batch.notes),
        day_before=day_before_of(works, foods),
        instructions=instructions_of(works, foods),
        prep_list=prep_list_of(works, foods),
        gathered=gather(question, equipment),
        cores=cores_of(works),
    )


def _activities(works: Sequence[BatchAtWork], equipment: Equipment) -> Iterator[Activity]:
    for batch in works:
        yield from activities_of(batch, equipment)
        yield from keeping_of(batch, equipment)


def _washing_up(minutes: int) -> Activity:
    return Activity(WASHING_UP, "", "Wash up and put away.", minutes, minutes, hands=1)


def _lags(works: Sequence[BatchAtWork], equipment: Equipment) -> Iterator[Lag]:
    """List all lags; a limit that a tie between the same activities keeps anyway is left out."""
    for batch in works:
        own = tuple(lags_of(batch))
        ties = {(lag.first, lag.second): lag.most for lag in own if lag.most is not None}
        yield from own
        for lag in keeping_lags(batch, equipment):
            tie = None if lag.second_end else ties.get((lag.first, lag.second))
            if not lag.limit or tie is None or lag.most is None or tie > lag.most:
                yield lag
    for batch in works:
        yield Lag(batch.called(DIVIDE), WASHING_UP, why="the last wash is when every pot is empty")


def mergings_of(works: Sequence[BatchAtWork]) -> Iterator[Merging]:
    """List preparations that several batches share by their words; of one batch only the first of each counts."""
    groups: defaultdict[str, dict[str, tuple[BatchAtWork, Work]]] = defaultdict(dict)
    for batch in works:
        for work in batch.works:
            if work.step.prep:
                groups[work.step.prep.casefold()].setdefault(batch.name, (batch, work))
    for shared in groups.values():
        if len(shared) > 1:
            members = [work for _, work in shared.values()]
            yield Merging(
                members[0].step.prep,
                tuple(work.hands for work in members),
                shared_minutes([work.hands_min for work in members]),
                f"{members[0].step.prep}, for {listed(tuple(shared))}",
            )


def _kept_off(works: Sequence[BatchAtWork]) -> Iterator[str]:
    """Tell where a pan is washed though a step would take what is in it, for somebody's sake."""
    for batch in works:
        for what in dict.fromkeys(what for work in batch.works for what in work.step.takes):
            for other in kept_off(batch, what, works):
                yield (
                    f"{what} of {other} does not go into {batch.name}: somebody who has the one never has the other; "
                    "the pan is washed"
                )
