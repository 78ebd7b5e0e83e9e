"""The pieces of work that a decision is made of; each can be done here or in a process of its own."""

from __future__ import annotations

import random
import time
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ladleworth.decide.answer import Batch, Plan
from ladleworth.decide.model import Relaxation
from ladleworth.decide.programme import Counts, build, fix_batches, read
from ladleworth.decide.question import Question
from ladleworth.decide.search import search
from ladleworth.decide.settling import settle
from ladleworth.decide.sift import Corner, Limit, Sifting, Visit, settle_visits, with_dishes
from ladleworth.errors import JudgeRefused

LOOKS_A_SECOND = 3000
"""So many looks of the local search stand for a second where work is counted, not timed."""

Tell = Callable[[Plan], None]
"""Told of every plan found, judged or not."""


@dataclass(frozen=True, slots=True)
class SearchTask:
    """Look about for good batches from a start (none: from nothing), and seat the best of them."""

    seed: int
    seconds: float
    start: tuple[Batch, ...] = ()


@dataclass(frozen=True, slots=True)
class VisitsTask:
    """Settle the visits of a corner, in so many steps at the most."""

    corner: Corner
    steps: int


@dataclass(frozen=True, slots=True)
class SiftTask:
    """Work on a corner whose visits are settled."""

    corner: Corner


@dataclass(frozen=True, slots=True)
class MixTask:
    """Choose among a few dishes: some of the best plan, others that the relaxation likes, by chance.

    `visits` are those that the relaxation is asked with (None: any may be made); the solver may make any.
    """

    seed: int
    patience: float
    visits: frozenset[Visit] | None = None
    liked: frozenset[str] = frozenset()
    """Dishes that a search liked"""


@dataclass(frozen=True, slots=True)
class WholeTask:
    """Give the whole question to the solver."""

    patience: float


Task = SearchTask | VisitsTask | SiftTask | MixTask | WholeTask


@dataclass(frozen=True, slots=True)
class Known:
    """What is known when a piece of work begins: the best plan's cost in cents, and its dishes."""

    best: float
    favourites: frozenset[str]


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


def perform(question: Question, task: Task, known: Known, limit: Limit, tell: Tell) -> Outcome:
    """Do a piece of work.

    Parameters
    ----------
    question, task, known
        What to do, and what is known.
    limit
        How long it may take.
    tell
        Told of every plan found on the way.

    Returns
    -------
    Outcome
        See there.
    """

    def found(counts: Counts) -> bool:
        plan = _settled(question, counts)
        if plan is not None:
            tell(plan)
        return plan is not None

    match task:
        case SearchTask():
            return _search(question, task, limit, tell)
        case VisitsTask(corner, steps):
            return Outcome(tuple(settle_visits(question, corner, known.best, limit, steps)))
        case SiftTask(corner):
            sifting = Sifting(question, known.best, limit, tell=found, favourites=known.favourites)
            return Outcome(tuple(sifting.sift(corner)))
        case MixTask():
            return _mix(question, task, known, limit, found)
        case WholeTask(patience):
            sifting = Sifting(question, known.best, limit, tell=found)
            bound, settled = sifting.solve(build(question), patience)
            return Outcome(bound=bound, settled=settled)


MIXED_DISHES = 13
"""So many dishes the solver can choose among in a few seconds."""


def _mix(
    question: Question, task: MixTask, known: Known, limit: Limit, found: Callable[[Counts], bool]
) -> Outcome:
    dice = random.Random(task.seed)  # noqa: S311  # chance for a search, not for a secret
    likes = liking(question, task.visits).against
    spread = max(1.0, sorted(likes.values())[len(likes) // 2])
    # a dish is drawn the sooner the less the relaxation has against it
    drawn = {dish: likes[dish] + spread * dice.expovariate(2.0) for dish in sorted(likes)}
    for dish in sorted(known.favourites | task.liked):
        if dish in drawn and dice.random() < 0.7:
            drawn[dish] = min(drawn[dish], likes[dish] * 0.3)
    few = sorted(drawn, key=lambda dish: (drawn[dish], dish))[:MIXED_DISHES]
    sifting = Sifting(question, known.best, limit, tell=found)
    sifting.solve(build(with_dishes(question, few), task.visits), task.patience)
    return Outcome()


@dataclass(frozen=True, slots=True)
class Liking:
    """What the linear relaxation says of dishes, with certain visits made."""

    against: dict[str, float]
    """dish -> cents that it has against the dish: 0 for those that it takes"""
    guide: dict[tuple[str, str], float]
    """(dish, version) -> cents a portion that the bounds on nutrients make it worth less (below 0: more)"""


_LIKINGS: dict[tuple[int, frozenset[Visit] | None], Liking] = {}
"""What was found out in this process for the one question that it works on"""


def liking(question: Question, visits: frozenset[Visit] | None) -> Liking:
    """Ask the relaxation what it has for and against each dish."""
    key = (id(question), visits)
    if key not in _LIKINGS:
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
                    priced[column] -= relaxed.prices[row] * amount
            helpings: dict[tuple[str, str], list[float]] = defaultdict(list)
            for (dish, version, _, _), c in model.served.items():
                helpings[dish, version].append(priced[c])
            guide = {key: sum(some) / len(some) for key, some in helpings.items()}
        _LIKINGS[key] = Liking(against, guide)
    return _LIKINGS[key]


def _settled(question: Question, counts: Counts) -> Plan | None:
    """Settle counts into a plan; None where the solver's tolerance left them short of one."""
    try:
        return settle(question, counts)
    except JudgeRefused:
        return None


def _search(question: Question, task: SearchTask, limit: Limit, tell: Tell) -> Outcome:
    if limit.counted:
        found = search(question, None, int(LOOKS_A_SECOND * task.seconds), task.seed, task.start)
    else:
        seconds = max(0.05, min(task.seconds, limit.left()))
        found = search(question, seconds, None, task.seed, task.start)
    for batches in found[:2]:
        if limit.left() <= 0:
            break
        counts = seat_batches(question, batches, limit)
        plan = None if counts is None else _settled(question, counts)
        if plan is not None:
            tell(plan)
            break
    return Outcome(batches=found)


def seat_batches(question: Question, batches: Sequence[Batch], limit: Limit) -> Counts | None:
    """Let the programme seat these batches and shop for them; None if it cannot."""
    model = build(with_dishes(question, {batch.dish for batch in batches}))
    fix_batches(model, batches)
    values, _, _ = limit.solve(model, 3.0, 0)
    return None if values is None else read(model, values)


def now() -> float:
    """The clock that limits go by."""
    return time.monotonic()
