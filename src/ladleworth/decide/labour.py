"""The pieces of work that a decision is made of; each can be done here or in a process of its own."""

from __future__ import annotations

import math
import random
import time
from collections import defaultdict
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field, replace

from ladleworth.decide.answer import Batch, LowerBound, Plan
from ladleworth.decide.model import Relaxation
from ladleworth.decide.programme import Counts, build, fix_batches
from ladleworth.decide.question import Question
from ladleworth.decide.search import search
from ladleworth.decide.settling import settle
from ladleworth.decide.sift import Corner, Limit, Sifting, Visit, settle_visits, with_dishes
from ladleworth.errors import JudgeRefused, SolverFailed

LOOKS_A_SECOND = 3000
"""So many looks of the local search stand for a second where work is counted, not timed."""

Tell = Callable[[Plan | LowerBound], None]
"""Told of every plan found, judged or not, and of every bound that is learnt before a piece of work ends."""


@dataclass(frozen=True, slots=True)
class SearchTask:
    """Look about for good batches from a start (none: from nothing), and let the solver polish the best of them.

    The linear relaxation leads the search where `led`; with `visits` it is that of those visits, and the search
    begins with them.
    """

    seed: int
    seconds: float
    patience: float
    start: tuple[Batch, ...] = ()
    visits: frozenset[Visit] | None = None
    led: bool = False


@dataclass(frozen=True, slots=True)
class VisitsTask:
    """Settle the visits of a corner, in so many steps and (after the first) seconds at the most."""

    corner: Corner
    steps: int
    patience: float = math.inf


@dataclass(frozen=True, slots=True)
class SiftTask:
    """Work on a corner whose visits are settled."""

    corner: Corner


@dataclass(frozen=True, slots=True)
class PolishTask:
    """Choose anew among batches that good plans had and some others that the relaxation likes, drawn by chance.

    Which of them, how many portions, with what packages: that is left to the solver.
    """

    batches: tuple[tuple[Batch, ...], ...]
    patience: float
    seed: int
    others: int
    visits: frozenset[Visit] | None = None
    """The visits that the relaxation is asked with"""


@dataclass(frozen=True, slots=True)
class WholeTask:
    """Give the whole question to the solver."""

    patience: float


Task = SearchTask | VisitsTask | SiftTask | PolishTask | WholeTask


@dataclass(frozen=True, slots=True)
class Known:
    """What is known when a piece of work begins: the best plan's cost in cents."""

    best: float


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a piece of work came to.

    `corners` are what is left of a corner. `bound` is in cents, below every plan of the question (None: nothing
    learnt); `settled` says that no plan is better than the best one known.
    """

    corners: tuple[Corner, ...] = ()
    bound: float | None = None
    settled: bool = False
    batches: tuple[tuple[Batch, ...], ...] = ()
    """Batches of promising states"""
    unsettled: tuple[str, ...] = ()
    """Why solutions of the programme could not be made plans; what they were found in is not settled then"""


def perform(
    question: Question,
    task: Task,
    known: Known,
    limit: Limit,
    tell: Tell,
    notebook: Notebook | None = None,
) -> Outcome:
    """Do a piece of work.

    Parameters
    ----------
    question, task, known
        What to do, and what is known.
    limit
        How long it may take.
    tell
        Told of every plan found on the way, and of bounds.
    notebook
        What earlier pieces of work found out about this question; None: nothing.

    Returns
    -------
    Outcome
        See there. Where the solver fails nothing is learnt, and a corner comes back whole.

    Raises
    ------
    SolverFailed
        If it fails on the whole question.
    """
    notes = Notebook(question) if notebook is None else notebook
    try:
        return _perform(notes, task, known, limit, tell)
    except SolverFailed:
        if isinstance(task, WholeTask):
            raise
        # nothing is learnt: what is left of a corner is all of it
        corners = (task.corner,) if isinstance(task, VisitsTask | SiftTask) else ()
        return Outcome(tuple(replace(corner, patience=2 * corner.patience) for corner in corners))


def _perform(notes: Notebook, task: Task, known: Known, limit: Limit, tell: Tell) -> Outcome:
    unsettled: list[str] = []

    def found(counts: Counts) -> bool:
        try:
            plan = settle(notes.question, counts)
        except JudgeRefused as refused:
            unsettled.append(str(refused))
            return False
        tell(plan)
        return True

    def learnt(cents: float) -> None:
        if math.isfinite(cents):
            tell(LowerBound(cents))

    return replace(_work_on(notes, task, known, limit, found, learnt), unsettled=tuple(unsettled))


def _work_on(
    notes: Notebook,
    task: Task,
    known: Known,
    limit: Limit,
    found: Callable[[Counts], bool],
    learnt: Callable[[float], None],
) -> Outcome:
    question = notes.question
    match task:
        case SearchTask():
            return _search(notes, task, known, limit, found)
        case VisitsTask(corner, steps, patience):
            until = limit if limit.counted else replace(limit, until=min(limit.until, now() + patience))
            whole = corner == Corner()
            left = settle_visits(
                question,
                corner,
                known.best,
                until,
                steps,
                learnt if whole else lambda cents: None,  # noqa: ARG005
            )
            return Outcome(tuple(left))
        case SiftTask(corner):
            sifting = Sifting(question, known.best, limit, tell=found)
            return Outcome(tuple(sifting.sift(corner)))
        case PolishTask(batches, patience):
            sifting = Sifting(question, known.best, limit, tell=found)
            _polish(question, batches, patience, sifting, _others(notes, task))
            return Outcome()
        case WholeTask(patience):
            sifting = Sifting(question, known.best, limit, tell=found)
            bound, settled = sifting.solve(build(question), patience)
            return Outcome(bound=bound, settled=settled)


@dataclass(frozen=True, slots=True)
class Liking:
    """What the linear relaxation says of dishes, with certain visits made."""

    against: dict[str, float]
    """dish -> cents that it has against the dish: 0 for those that it takes"""
    guide: dict[tuple[str, str], float]
    """(dish, version) -> cents a portion that the bounds on nutrients make it worth less (below 0: more)"""


@dataclass(slots=True)
class Notebook:
    """What was found out about one question on the way, so that it need not be found out again."""

    question: Question
    likings: dict[frozenset[Visit] | None, Liking] = field(default_factory=dict)

    def liking(self, visits: frozenset[Visit] | None) -> Liking:
        """Ask the relaxation once what it has for and against each dish with these visits."""
        if visits not in self.likings:
            self.likings[visits] = liking(self.question, visits)
        return self.likings[visits]


def liking(question: Question, visits: frozenset[Visit] | None) -> Liking:
    """Ask the relaxation what it has for and against each dish."""
    model = build(question, visits)
    relaxed = Relaxation(model.sheet)
    relaxed.solve()
    against, guide = dict.fromkeys(model.ever, 0.0), {}
    if relaxed.values:
        for dish, c in model.ever.items():
            against[dish] = max(0.0, relaxed.reduced[c]) * (1 - relaxed.values[c])
        priced: dict[int, float] = defaultdict(float)
        for row in model.nutrient_rows:
            for column, amount in model.sheet.rows[row][2]:
                priced[column] -= relaxed.prices.get(row, 0.0) * amount
        helpings: dict[tuple[str, str], list[float]] = defaultdict(list)
        for (dish, version, _, _), c in model.served.items():
            helpings[dish, version].append(priced[c])
        guide = {key: sum(some) / len(some) for key, some in helpings.items()}
    return Liking(against, guide)


def _search(
    notes: Notebook, task: SearchTask, known: Known, limit: Limit, found: Callable[[Counts], bool]
) -> Outcome:
    question = notes.question
    likes = notes.liking(task.visits) if task.led else Liking({}, {})
    looks = int(LOOKS_A_SECOND * task.seconds) if limit.counted else None
    seconds = None if limit.counted else max(0.05, min(task.seconds, limit.left()))
    states = search(question, seconds, looks, task.seed, task.start, likes.guide, task.visits, likes.against)
    sifting = Sifting(question, known.best, limit, tell=found)
    if states:
        model = build(with_dishes(question, {batch.dish for batch in states[0]}))
        fix_batches(model, states[0])
        sifting.solve(model, task.patience / 2)
        for number in (1, len(states)):
            if limit.left() > 0:
                _polish(question, states[:number], task.patience, sifting)
    return Outcome(batches=states)


_Key = tuple[str, str, int]
"""(dish, version, session day)"""


def _others(notes: Notebook, task: PolishTask) -> set[_Key]:
    """Draw batches that no state has, the sooner the less the relaxation has against the dish."""
    dice = random.Random(task.seed)  # noqa: S311  # chance for a search, not for a secret
    against = notes.liking(task.visits).against if task.others else {}
    spread = (sorted(against.values())[len(against) // 3] if against else 0.0) or 1.0
    drawn = sorted(against, key=lambda dish: (against[dish] + spread * dice.expovariate(1.0), dish))
    keys: set[_Key] = set()
    for dish in drawn[: task.others]:
        version = dice.choice(notes.question.dish(dish).versions)
        keys |= {(dish, version.name, session.day) for session in notes.question.sessions}
    return keys


def _polish(
    question: Question,
    states: Sequence[Sequence[Batch]],
    patience: float,
    sifting: Sifting,
    others: Collection[_Key] = (),
) -> None:
    """Let the solver choose among the batches of some states, in any size, and some others."""
    keys = {(batch.dish, batch.version, batch.day) for batches in states for batch in batches} | set(others)
    model = build(with_dishes(question, {dish for dish, _, _ in keys}))
    for key, column in model.size.items():
        if key[:3] not in keys:
            model.sheet.upper[column] = 0.0
    sifting.solve(model, patience)


def now() -> float:
    """The clock that limits go by."""
    return time.monotonic()
