from __future__ import annotations

import math
import time
from collections.abc import Iterator
from dataclasses import replace

import pytest
from bench.kitchens import kitchen_like
from tests.unit.decide.pieces import BEST, Judged, in_turn

from ladleworth.decide import Status, decide, work
from ladleworth.decide.crew import Crew, Note
from ladleworth.decide.labour import (
    Known,
    Outcome,
    PolishTask,
    SearchTask,
    SiftTask,
    Task,
    VisitsTask,
    WholeTask,
)
from ladleworth.decide.sift import Corner, all_visits
from ladleworth.errors import SolverFailed

QUESTION = in_turn()
NOTHING_KNOWN = Known(math.inf)


@pytest.fixture(scope="module")
def crew() -> Iterator[Crew]:
    one = Crew(QUESTION, 1)
    yield one
    one.dismiss()


def last_note(crew: Crew, found: Judged) -> Note:
    """Hear the crew until a piece of work is done or a process is gone."""
    until = time.monotonic() + 60
    while time.monotonic() < until:
        note = crew.hear(0.5)
        if note is not None and note.found is None:
            return note
        if note is not None and note.found is not None:
            found.tell(note.found)
    pytest.fail("nothing comes of it")


def done(crew: Crew, task: Task) -> tuple[Outcome, Judged]:
    found = Judged(QUESTION)
    crew.give(0, task, NOTHING_KNOWN, 20.0)
    note = last_note(crew, found)
    assert note.outcome is not None, note.fault
    assert note.worker == 0
    return note.outcome, found


def test_the_whole_question_is_settled_in_a_process_of_its_own(crew: Crew) -> None:
    outcome, found = done(crew, WholeTask(20.0))
    assert outcome.settled
    assert outcome.bound == pytest.approx(BEST)
    assert found.totals == [BEST]


def test_searching_and_polishing_in_a_process_of_their_own_give_plans_that_stand(crew: Crew) -> None:
    outcome, found = done(crew, SearchTask(1, 0.3, 1.0))
    assert outcome.batches
    assert found.totals
    _, polished = done(crew, PolishTask(outcome.batches, 5.0, 1, 0))
    assert min(polished.totals) <= min(found.totals)


def test_visits_and_corners_are_worked_through_in_a_process_of_their_own(crew: Crew) -> None:
    outcome, _ = done(crew, VisitsTask(Corner(), 40))
    assert {c.made | c.unmade for c in outcome.corners} == {frozenset(all_visits(QUESTION))}
    least = min(outcome.corners, key=lambda corner: corner.bound)
    _, found = done(crew, SiftTask(least))
    assert found.totals


def test_work_that_cannot_be_done_is_told_with_its_fault_and_ends_the_process() -> None:
    crew = Crew(QUESTION, 2)
    try:
        crew.give(1, SiftTask(Corner(made=frozenset({("nowhere", 1)}))), NOTHING_KNOWN, 20.0)
        note = last_note(crew, Judged(QUESTION))
        assert (note.worker, note.outcome) == (1, None)
        assert "KeyError" in note.fault
        crew.give(1, WholeTask(1.0), NOTHING_KNOWN, 20.0)  # nobody is there to do it, and nothing breaks
        crew.give(0, WholeTask(20.0), NOTHING_KNOWN, 20.0)
        done_by_other = last_note(crew, Judged(QUESTION))
        assert done_by_other.worker == 0
        assert done_by_other.outcome is not None
    finally:
        crew.dismiss()


def test_no_note_in_time_is_none(crew: Crew) -> None:
    began = time.monotonic()
    assert crew.hear(0.05) is None
    assert crew.hear(-1.0) is None
    assert time.monotonic() - began < 2


def test_dismissed_processes_end_at_once_whatever_they_do() -> None:
    large = kitchen_like(1, dishes=30)
    crew = Crew(large, 2)
    for worker in (0, 1):
        crew.give(worker, WholeTask(1e4), NOTHING_KNOWN, 1e4)
    time.sleep(0.3)
    began = time.monotonic()
    crew.dismiss()
    assert time.monotonic() - began < 2
    assert all(process.poll() is not None for process in crew._processes)
    crew.dismiss()  # there is nobody left


class Mortal(Crew):
    """A crew some of whose processes are killed as soon as they have something to do."""

    doomed: tuple[int, ...] = (0,)

    def give(self, worker: int, task: Task, known: Known, seconds: float) -> None:
        super().give(worker, task, known, seconds)
        if worker in self.doomed:
            self._processes[worker].kill()


def mortal(monkeypatch: pytest.MonkeyPatch, *doomed: int) -> None:
    monkeypatch.setattr("ladleworth.decide.deciding._cores", lambda: 2)
    monkeypatch.setattr("ladleworth.decide.crew.Crew", Mortal)
    monkeypatch.setattr(Mortal, "doomed", doomed)
    monkeypatch.setattr(work, "SEARCH_SECONDS", 0.2)


@pytest.mark.parametrize("doomed", [0, 1])
def test_the_answer_comes_though_one_process_dies(doomed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    mortal(monkeypatch, doomed)
    answer = decide(QUESTION, seconds=30)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert answer.costs.total == BEST


def test_without_any_process_left_the_plan_in_force_stays_or_the_failure_is_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    best = decide(QUESTION, seconds=30).plan
    mortal(monkeypatch, 0, 1)
    began = time.monotonic()
    with pytest.raises(SolverFailed, match="a process of the decision is gone"):
        decide(QUESTION, seconds=30)
    answer = decide(QUESTION, seconds=30, start=best)
    assert (answer.status, answer.plan, answer.bound) == (Status.GOOD, best, None)
    assert time.monotonic() - began < 20


def test_a_question_that_a_process_cannot_solve_is_not_called_impossible(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    mortal(monkeypatch, 0, 1)
    impossible = replace(QUESTION, rules=replace(QUESTION.rules, meal_out_cents=None, budget_cents=0))
    with pytest.raises(SolverFailed):
        decide(impossible, seconds=10)
