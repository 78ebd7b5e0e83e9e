"""What is to be done next: the agenda of a decision, the same for processes side by side and for one alone."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction

from ladleworth.decide.answer import Batch, Plan
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
from ladleworth.decide.question import Question
from ladleworth.decide.sift import MARGIN_CENTS, Corner, all_visits

SEARCH_SECONDS = 1.2
"""How long each local search goes on, with so many slots as `SEARCH_SLOTS`; longer in proportion with more."""

SEARCH_SLOTS = 28

VISIT_STEPS = 40
"""So many relaxations are solved at a time while visits are settled."""

VISIT_PATIENCE = 6.0
"""No more seconds than this are spent on them at a time, but for the first time, of which the bounds are told."""

POLISH_PATIENCE = 3.0
"""How long the solver may choose among the batches of promising states, in seconds or hundreds of nodes."""

POLISH_EVERY = 3
"""Every so many turns the scout polishes what several searches liked."""

OTHER_DISHES = 5
"""So many other dishes are offered beside the best plan's batches."""

STATES_POLISHED = 4
"""So many promising states are polished together."""

SEARCHED_CORNERS = 4
"""The search is led by so many of the corners of least bound in turn."""

PATIENT_TURNS = 9
"""After so many turns without a better plan corners are worked through."""

EAGER_TURNS = 9
"""After so many turns in all, others than the first worker leave the looking about to it."""

VISIT_TURNS = 5
"""At first one worker does nothing but settle visits, for so many pieces of work."""

SCOUT_EVERY = 5
"""From then on the first worker still looks about at one of so many turns."""


@dataclass(slots=True)
class Agenda:
    """Corners that are still open, and whose turn it is to scout."""

    question: Question
    seed: int
    small: bool = False
    start: tuple[Batch, ...] = ()
    corners: list[Corner] = field(default_factory=lambda: [Corner()])
    running: dict[int, Task] = field(default_factory=dict)
    settled: bool = False
    turns: int = 0
    """Turns of the scout"""
    idle_turns: int = 0
    """Turns of the scout since the plan last became better"""
    visit_turns: int = 0
    """Pieces of work that settled visits"""
    taken: int = 0
    """Pieces of work handed out"""
    best: float = math.inf
    made: frozenset[tuple[str, int]] = frozenset()
    """Visits of the best plan"""
    promising: list[tuple[Batch, ...]] = field(default_factory=list)
    whole_bound: float = -math.inf

    def known(self, total: Fraction | None) -> Known:
        """Return what a piece of work is told."""
        return Known(math.inf if total is None else float(total))

    def next(self, worker: int, total: Fraction | None, plan: Plan | None) -> Task | None:
        """Choose the next piece of work for a worker; None if there is none."""
        batches = () if plan is None else plan.batches
        if plan is not None:
            shop = {offer.name: offer.shop for offer in self.question.offers}
            self.made = frozenset((shop[p.offer], p.day) for p in plan.purchases)
        if total is not None and float(total) < self.best - MARGIN_CENTS:
            self.best, self.idle_turns = float(total), 0
        task = self._choose(worker, batches)
        if task is not None:
            self.taken += 1
            self.running[worker] = task
        return task

    def _choose(self, worker: int, batches: tuple[Batch, ...]) -> Task | None:
        if self.settled:
            return None
        if self.small:
            return WholeTask(1e6)
        if self._is_scouting(worker):
            return self._scout(batches)
        self._drop_hopeless()
        if not self.corners:
            return self._scout(batches) if worker in (0, 1) and self.running else None
        self.corners.sort(key=lambda corner: (corner.bound, -len(corner.cooked) - len(corner.left_out)))
        corner = self.corners.pop(0)
        if len(corner.made) + len(corner.unmade) < len(all_visits(self.question)):
            self.visit_turns += 1
            untouched = not corner.made and not corner.unmade
            return VisitsTask(corner, VISIT_STEPS, math.inf if untouched else VISIT_PATIENCE)
        return SiftTask(corner)

    def _is_scouting(self, worker: int) -> bool:
        """Say whether to look about: at first all do but one, which settles visits; later one does now and then."""
        if not self.turns and worker == 0:
            return True
        if self._are_visits_open() and self.visit_turns < VISIT_TURNS:
            # one worker settles visits, so that the search can be led by what they leave
            return any(isinstance(task, VisitsTask) for task in self.running.values())
        if worker == 0 or not self.running:
            return self.idle_turns < PATIENT_TURNS or self.taken % SCOUT_EVERY == 0
        return self.idle_turns < PATIENT_TURNS and self.turns < EAGER_TURNS

    def _are_visits_open(self) -> bool:
        every = len(all_visits(self.question))
        return any(len(c.made) + len(c.unmade) < every for c in self.corners)

    def _scout(self, batches: tuple[Batch, ...]) -> Task:
        """Look about: from nothing, led by the relaxation of one corner or another, or from the best plan."""
        self.turns += 1
        self.idle_turns += 1
        seed = self.seed + self.turns
        seconds = SEARCH_SECONDS * max(1.0, len(self.question.slots) / SEARCH_SLOTS)
        if self.turns % POLISH_EVERY == 0 and self.promising:
            if self.turns % (2 * POLISH_EVERY) == 0 or not batches:
                states = (batches, *self.promising[-STATES_POLISHED:])
                return PolishTask(states, POLISH_PATIENCE, seed, 0, self.made or None)
            return PolishTask((batches,), POLISH_PATIENCE, seed, OTHER_DISHES, self.made or None)
        if self.turns == 1 and self.start:
            return SearchTask(seed, seconds, POLISH_PATIENCE, self.start)
        settled = [c for c in self.corners if c.made and not c.cooked and not c.left_out]
        settled.sort(key=lambda corner: corner.bound)
        visits = None
        if settled:
            visits = settled[self.turns // POLISH_EVERY % min(len(settled), SEARCHED_CORNERS)].made
        if self.turns % 3 == 2 and batches:
            return SearchTask(seed, seconds, POLISH_PATIENCE, batches, self.made, led=bool(settled))
        return SearchTask(seed, seconds, POLISH_PATIENCE, (), visits, led=bool(settled))

    def _drop_hopeless(self) -> None:
        self.corners = [c for c in self.corners if c.bound < self.best + MARGIN_CENTS]
        working = any(isinstance(t, SiftTask | VisitsTask) for t in self.running.values())
        self.settled = self.settled or (not self.corners and not working)

    def end(self, worker: int, outcome: Outcome) -> None:
        """Take what a piece of work came to."""
        task = self.running.pop(worker)
        self.promising += outcome.batches
        if isinstance(task, WholeTask):
            self.settled = outcome.settled
            self.whole_bound = -math.inf if outcome.bound is None else outcome.bound
            return
        self.corners += outcome.corners
        self._drop_hopeless()

    def lose(self, worker: int) -> None:
        """Take back the corner of a worker that is gone."""
        task = self.running.pop(worker, None)
        if isinstance(task, SiftTask | VisitsTask):
            self.corners.append(task.corner)

    def bound(self) -> float:
        """The least that any plan can cost, as far as it is known."""
        if self.small:
            return self.whole_bound
        bounds = [corner.bound for corner in self.corners]
        bounds += [t.corner.bound for t in self.running.values() if isinstance(t, SiftTask | VisitsTask)]
        return min(bounds, default=self.best)
