"""Decide: hand out the work, let the judge pass on every plan, and keep the best plan and the best bound.

Small questions go to the solver as they are. For others two or more processes share what is known: some look for
good batches, some work through the corners of the question (`sift.py`) until no plan can be better than the best
one found. Where work is counted instead of timed, the same steps are done one after another in this process, so
that the same question and count give the same plan on every machine.
"""

from __future__ import annotations

import math
import os
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

from ladleworth.decide.answer import Answer, Batch, LowerBound, Plan, Progress, Status
from ladleworth.decide.judge import judge
from ladleworth.decide.model import solver
from ladleworth.decide.question import Question
from ladleworth.decide.settling import judged
from ladleworth.decide.work import Agenda
from ladleworth.errors import JudgeRefused, SolverFailed

PROOF_CENTS = 1e-4
"""A plan within this of the bound counts as proven: the solver works in floating point, the judge exactly."""

SMALL_SIZES = 150
"""With no more batch sizes than this to choose from the solver alone is quicker than any preparation."""

LISTEN_SECONDS = 0.05
"""How often the clock and the wish to stop are looked at."""

MOST_PROCESSES = 4

__all__ = ["PROOF_CENTS", "decide", "judged"]


def decide(
    question: Question,
    seconds: float = 20.0,
    seed: int = 0,
    *,
    work: int | None = None,
    start: Plan | None = None,
    report: Callable[[Progress], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Answer:
    """Find the cheapest week.

    Parameters
    ----------
    question
        The question of the week.
    seconds
        The clock limit; the best plan found by then is given with its bound.
    seed
        The seed of every random choice.
    work
        A number of steps instead of the clock: the same question, seed and number give the same plan on every
        machine with the same solver. A step is one piece of work: a search and its polishing, or a corner.
    start
        A plan to begin from, such as the one in force; it counts only if the judge lets it stand.
    report
        Told whenever the plan or the bound is better than before.
    stop
        Asked now and then; once it says yes, the best plan so far is the answer.

    Returns
    -------
    Answer
        With a plan that the judge let stand, or none and the reason as a status.

    Raises
    ------
    JudgeRefused
        If what was found breaks a rule or cannot be made a plan: a defect of the programme, never shown as a plan.
    SolverFailed
        If the solver fails before there is any plan.
    """
    deciding = _Deciding(question, seconds, seed, work, report, stop)
    if start is not None:
        deciding.take(start, trusted=False)
    return deciding.answer()


@dataclass(slots=True)
class _Deciding:
    """One decision under way: the best judged plan so far, and the best bound."""

    question: Question
    seconds: float
    seed: int
    work: int | None
    report: Callable[[Progress], None] | None
    stop: Callable[[], bool] | None
    began: float = field(default_factory=time.monotonic)
    plan: Plan | None = None
    total: Fraction | None = None
    bound: float = -math.inf
    refused: list[str] = field(default_factory=list)
    """Breaches of plans that the judge did not let stand"""
    unsettled: list[str] = field(default_factory=list)
    """Why solutions of the programme could not be made plans"""
    faults: list[str] = field(default_factory=list)
    infeasible: bool = False

    def left(self) -> float:
        """Seconds left on the clock."""
        return math.inf if self.work is not None else self.seconds - (time.monotonic() - self.began)

    def over(self) -> bool:
        """Say whether to stop now."""
        return self.left() <= 0 or (self.stop is not None and self.stop())

    def done(self) -> bool:
        """Say whether nothing better is left to find."""
        return self.infeasible or (self.total is not None and float(self.total) - self.bound <= PROOF_CENTS)

    def take(self, plan: Plan, *, trusted: bool = True) -> None:
        """Judge a plan and keep it if it is the best so far."""
        verdict = judge(self.question, plan)
        if not verdict.stands:
            if trusted:
                self.refused += map(str, verdict.breaches)
            return
        if self.total is None or verdict.costs.total < self.total:
            self.plan, self.total = plan, verdict.costs.total
            self.tell()

    def note(self, found: Plan | LowerBound) -> None:
        """Take what a piece of work tells on the way."""
        if isinstance(found, Plan):
            self.take(found)
        elif not self.refused:
            self.learn(found.cents)

    def learn(self, bound: float) -> None:
        """Take a bound, if it is better than the one in hand."""
        if bound > self.bound:
            self.bound = bound if self.total is None else min(bound, float(self.total))
            self.tell()

    def tell(self) -> None:
        """Report how far the decision is."""
        if self.report is not None:
            value = None if self.total is None else float(self.total)
            bound = self.bound if math.isfinite(self.bound) else None
            self.report(Progress(time.monotonic() - self.began, value, bound))

    def answer(self) -> Answer:
        """Go on until the plan is proven or the time is over."""
        agenda = Agenda(self.question, self.seed, small=self.is_small(), start=self.batches())
        if self.work is not None or agenda.small:
            self.alone(agenda)
        else:
            self.with_crew(agenda)
        costs = None if self.plan is None else judged(self.question, self.plan)
        if costs is None and not self.infeasible:
            if self.refused or self.unsettled:
                raise JudgeRefused([*self.refused, *self.unsettled])
            if self.faults:
                raise SolverFailed(self.faults[0])
        if self.infeasible:
            status = Status.INFEASIBLE
        elif costs is None:
            status = Status.OUT_OF_TIME
        else:
            status = Status.PROVEN if self.done() and not self.refused else Status.GOOD
        known = math.isfinite(self.bound) and not self.refused
        return Answer(
            status,
            self.plan,
            costs,
            self.bound if known else None,
            time.monotonic() - self.began,
            solver(),
            self.seed,
        )

    def is_small(self) -> bool:
        """Say whether the solver alone is quicker than any preparation."""
        sizes = len(self.question.sessions) * sum(
            len(dish.versions) * (dish.greatest - dish.least + 1) for dish in self.question.dishes
        )
        return sizes <= SMALL_SIZES

    def batches(self) -> tuple[Batch, ...]:
        """The best plan's batches."""
        return () if self.plan is None else self.plan.batches

    def hear(self, agenda: Agenda) -> None:
        """Take what the agenda knows now: a bound, or that nothing is left."""
        if agenda.settled and not self.refused:
            if self.total is None:
                self.infeasible = True
            else:
                self.learn(float(self.total))
        else:
            self.learn(agenda.bound())

    def alone(self, agenda: Agenda) -> None:
        """Do one piece of work after another in this process."""
        from ladleworth.decide.labour import Notebook, perform
        from ladleworth.decide.sift import Limit

        steps, notebook = 0, Notebook(self.question)
        counted = self.work is not None
        while not self.done() and not self.over() and (self.work is None or steps < self.work):
            task = agenda.next(0, self.total, self.plan)
            if task is None:
                break
            limit = Limit(math.inf if counted else self.began + self.seconds, counted, self.stop)
            outcome = perform(self.question, task, agenda.known(self.total), limit, self.note, notebook)
            agenda.end(0, outcome)
            self.unsettled += outcome.unsettled
            self.hear(agenda)
            steps += 1
            if agenda.small and outcome.unsettled:
                break  # the same again would come to the same

    def with_crew(self, agenda: Agenda) -> None:
        """Hand out the work to processes, one for each core."""
        from ladleworth.decide.crew import Crew

        number = max(1, min(MOST_PROCESSES, _cores()))
        crew = Crew(self.question, number)
        busy: set[int] = set()
        gone: set[int] = set()
        try:
            while not self.done() and not self.over() and len(gone) < number:
                for worker in range(number):
                    if worker not in busy and worker not in gone:
                        task = agenda.next(worker, self.total, self.plan)
                        if task is not None:
                            known = agenda.known(self.total)
                            crew.give(worker, task, known, self.left())
                            busy.add(worker)
                if not busy:
                    break
                note = crew.hear(min(LISTEN_SECONDS, self.left()))
                if note is None:
                    continue
                if note.found is not None:
                    self.note(note.found)
                    continue
                busy.discard(note.worker)
                if note.outcome is not None:
                    agenda.end(note.worker, note.outcome)
                    self.unsettled += note.outcome.unsettled
                    self.hear(agenda)
                else:
                    gone.add(note.worker)
                    agenda.lose(note.worker)
                    self.faults.append(f"a process of the decision is gone: {note.fault}")
        finally:
            crew.dismiss()


def _cores() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
