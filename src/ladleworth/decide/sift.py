"""One corner of the week at a time: some visits settled, some dishes in, some out; a bound, a plan, or two corners.

What makes the week hard to prove is what the linear relaxation may cut into parts: visits first, then batches. So
visits are settled one after another (`settle_visits`), and with them settled the programme is written down anew for
the packages that are within reach. Dishes that cannot be in a plan better than the best one known are sifted out:
each is forced in, and goes if the relaxation is then worth too much. What is left is given to the solver for a
while, and split on a dish if that does not settle it (`sift`).
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace

from ladleworth.decide.columns import WeekModel
from ladleworth.decide.model import Ending, Relaxation, run
from ladleworth.decide.programme import Counts, beat, build, read
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustCook, MustNotCook, MustServe

MARGIN_CENTS = 0.05
"""A relaxation must be worth this much more than the best plan before anything is given up on its word."""

BETTER_CENTS = 5e-5
"""What is looked for is better than the best plan by this much at the least."""

PROMISING = 0.5
"""A dish is forced in once more where that was worth this part of the way to the limit before."""

MOST_DOUBTFUL = 10
"""So many dishes are tried as the one to split on."""

SOLVED_DISHES = 12
"""With no more open dishes than this a corner goes to the solver; with more it is split."""

LAST_PART = 0.2
"""A relaxation that is written down and solved for the first time is left as it is where less time than this part
of that is left: rows that only tighten are then missing, and it is a bound all the same."""

Visit = tuple[str, int]
"""(shop, session day)"""


@dataclass(frozen=True, slots=True)
class Corner:
    """A part of all plans: these visits made, those not; these dishes cooked, those not, nor these batches.

    `bound` is in cents: no plan of this corner costs less. `patience` is how long the solver is given, in seconds
    or in hundreds of nodes.
    """

    made: frozenset[Visit] = frozenset()
    unmade: frozenset[Visit] = frozenset()
    cooked: frozenset[str] = frozenset()
    left_out: frozenset[str] = frozenset()
    gone: frozenset[tuple[str, str, int, int]] = frozenset()
    bound: float = -math.inf
    patience: float = 4.0
    scores: tuple[tuple[str, float], ...] = ()
    """What the relaxation was worth with a dish forced in, where that was tried: less than that it cannot be"""


@dataclass(frozen=True, slots=True)
class Limit:
    """How long work may go on: until a time on the clock, or (`counted`) by counts that are the same everywhere.

    Either way it is over once `stop`, where there is one, says so.
    """

    until: float = math.inf
    counted: bool = False
    stop: Callable[[], bool] | None = None

    def left(self) -> float:
        """Seconds left on the clock; none for who is asked to stop."""
        if self.stop is not None and self.stop():
            return 0.0
        return math.inf if self.counted else self.until - time.monotonic()

    def solve(self, model: WeekModel, patience: float) -> tuple[tuple[float, ...] | None, float | None, bool]:
        """Give a programme to the solver for so long; return its values, bound and whether it is settled."""
        if self.counted:
            ended = run(model.sheet, math.inf, nodes=int(100 * patience), stop=self.stop)
        else:
            ended = run(model.sheet, max(0.05, min(patience, self.left())), stop=self.stop)
        return ended.values, ended.bound, ended.proven


@dataclass(slots=True)
class Sifting:
    """Work on a corner: what is known of the question, the best plan's cost, and what was found."""

    question: Question
    best: float
    limit: Limit
    tell: Callable[[Counts], bool] = lambda counts: True  # noqa: ARG005
    """Told of every better solution; says whether it could be made a plan."""
    scores: dict[str, float] = field(default_factory=dict)
    """dish -> what the relaxation is worth with it forced in, and with it left out"""
    spared: dict[str, float] = field(default_factory=dict)

    def sift(self, corner: Corner) -> list[Corner]:
        """Work on a corner whose visits are settled; return what is left of it, nothing if it is settled."""
        self.scores = dict(corner.scores)
        model = self.model_of(corner)
        relaxed = Relaxation(model.sheet)
        if relaxed.solve(self.best + MARGIN_CENTS) is Ending.ABOVE:
            return []
        bound = max(corner.bound, relaxed.value)
        corner = replace(corner, bound=bound)
        corner = self.thin(corner, model, relaxed)
        if corner.bound >= self.best + MARGIN_CENTS:
            return []
        undecided = {dish for dish, *_ in model.size} - corner.left_out - corner.cooked
        if self.limit.left() <= 0:
            return [corner]
        if len(undecided) > SOLVED_DISHES:
            parts = self.split(corner)
            if len(parts) > 1:
                return parts
        known, settled = self.solve(self.model_of(corner), corner.patience)
        if settled:
            return []
        return self.split(replace(corner, bound=max(corner.bound, min(known, self.best))))

    def model_of(self, corner: Corner) -> WeekModel:
        """Write a corner down."""
        names = {dish.name for dish in self.question.dishes} - corner.left_out
        model = build(with_dishes(self.question, names), visits_of(self.question, corner))
        sheet = model.sheet
        for visit in corner.made:
            sheet.lower[model.trip[visit]] = 1.0
        for key, column in model.size.items():
            if key in corner.gone:
                sheet.upper[column] = 0.0
        for dish in corner.left_out & set(model.ever):
            sheet.upper[model.ever[dish]] = 0.0
        for dish in corner.cooked:
            if dish in model.ever:
                sheet.lower[model.ever[dish]] = 1.0
            else:
                sheet.row([], low=1.0)
        return model

    def solve(self, model: WeekModel, patience: float) -> tuple[float, bool]:
        """Look for something better than the best plan; return the bound and whether nothing is left to find."""
        if math.isfinite(self.best):
            beat(model, self.best - BETTER_CENTS)
        values, bound, settled = self.limit.solve(model, patience)
        if values is not None:
            value = sum(c * v for c, v in zip(model.sheet.cost, values, strict=True)) + model.sheet.constant
            if not self.tell(read(model, values)):
                return (-math.inf if bound is None else min(bound, value)), False
            self.best = min(self.best, value)
        return (-math.inf if bound is None else bound), settled

    def thin(self, corner: Corner, model: WeekModel, relaxed: Relaxation) -> Corner:
        """Sift out batches and dishes, and settle dishes that must be in, as long as something gives way."""
        gone, cooked, left_out = set(corner.gone), set(corner.cooked), set(corner.left_out)
        bound = corner.bound
        above = self.best + MARGIN_CENTS
        for _ in range(3):
            ending = relaxed.solve(above)
            if ending is Ending.ABOVE:
                bound = max(bound, relaxed.value)
                break
            if ending is Ending.UNKNOWN or self.limit.left() <= 0:
                break
            bound = max(bound, relaxed.value)
            for key, column in model.size.items():
                if (
                    key not in gone
                    and relaxed.value + relaxed.reduced[column] >= above
                    and (relaxed.values[column] < 1e-9)
                ):
                    gone.add(key)
                    relaxed.bind(column, 0.0, 0.0)
            changed = self._probe(model, relaxed, above, cooked, left_out)
            if not changed:
                break
        return replace(
            corner, gone=frozenset(gone), cooked=frozenset(cooked), left_out=frozenset(left_out), bound=bound
        )

    def _probe(
        self, model: WeekModel, relaxed: Relaxation, above: float, cooked: set[str], left_out: set[str]
    ) -> bool:
        """Force each open dish in, and each that the relaxation likes out; say whether any was settled."""
        changed = False
        values = list(relaxed.values)
        near = relaxed.value + PROMISING * (above - relaxed.value) if math.isfinite(above) else math.inf
        doubtful = sorted(
            (d for d, c in model.ever.items() if 0.05 < values[c] < 0.95 and d not in cooked),
            key=lambda d: (abs(values[model.ever[d]] - 0.6), d),
        )[:MOST_DOUBTFUL]
        for dish, column in model.ever.items():
            if dish in left_out or dish in cooked:
                continue
            if self.limit.left() <= 0:
                break
            least = max(self.scores.get(dish, -math.inf), relaxed.value + max(0.0, relaxed.reduced[column]))
            if values[column] < 1 - 1e-6:
                if least >= near or dish in doubtful or dish not in self.scores:
                    least = relaxed.value_with(column, 1.0, 1.0, above)
                self.scores[dish] = least
                if least >= above:
                    left_out.add(dish)
                    relaxed.bind(column, 0.0, 0.0)
                    changed = True
                    continue
            else:
                self.scores[dish] = relaxed.value
            if dish in doubtful or values[column] > 0.95:
                self.spared[dish] = relaxed.value_with(column, 0.0, 0.0, above)
                if self.spared[dish] >= above:
                    cooked.add(dish)
                    relaxed.bind(column, 1.0, 1.0)
                    changed = True
        return changed

    def split(self, corner: Corner) -> list[Corner]:
        """Split a corner on the dish whose two sides are both worth most; ask longer if there is none."""
        open_dishes = [
            dish
            for dish in self.scores
            if dish not in corner.cooked and dish not in corner.left_out and dish in self.spared
        ]
        if not open_dishes:
            return [replace(corner, patience=2 * corner.patience)]

        def worth(dish: str) -> tuple[float, float, str]:
            sides = (self.scores[dish], self.spared[dish])
            return min(sides), sum(sides), dish

        dish = max(open_dishes, key=worth)
        corner = replace(corner, scores=tuple(sorted(self.scores.items())))
        return [
            replace(
                corner,
                cooked=corner.cooked | {dish},
                bound=max(corner.bound, min(self.scores[dish], self.best)),
                patience=1.25 * corner.patience,
            ),
            replace(
                corner,
                left_out=corner.left_out | {dish},
                bound=max(corner.bound, min(self.spared[dish], self.best)),
                patience=1.25 * corner.patience,
            ),
        ]


def promised_dishes(question: Question) -> set[str]:
    """Dishes that a wish asks for: leaving one out would be a contradiction, which the programme has to say."""
    cooked = {w.dish for w in question.wishes if isinstance(w, MustCook)}
    return cooked | {w.dish for w in question.wishes if isinstance(w, MustServe) and w.dish is not None}


def with_dishes(question: Question, names: Iterable[str]) -> Question:
    """Return the question with only some of its dishes, and those that a wish asks for."""
    kept = {*names, *promised_dishes(question)}
    wishes = tuple(w for w in question.wishes if not isinstance(w, MustNotCook) or w.dish in kept)
    dishes = tuple(dish for dish in question.dishes if dish.name in kept)
    return replace(question, dishes=dishes, wishes=wishes)


def visits_of(question: Question, corner: Corner) -> frozenset[Visit]:
    """The visits that may be made in a corner."""
    return frozenset(all_visits(question)) - corner.unmade


def all_visits(question: Question) -> list[Visit]:
    """Every visit that the week could have."""
    return [(shop.name, session.day) for shop in question.shops for session in question.sessions]


def settle_visits(
    question: Question,
    corner: Corner,
    best: float,
    limit: Limit,
    steps: int,
    learnt: Callable[[float], None] = lambda cents: None,  # noqa: ARG005
) -> list[Corner]:
    """Split a corner by its visits, the most doubtful first, for so many steps or until all are settled.

    Parameters
    ----------
    question, corner, best
        The question, the corner, and what the best plan known costs.
    limit, steps
        The clock, and the most relaxations that are solved.
    learnt
        Told on the way what no plan of this corner costs less than.

    Returns
    -------
    list of Corner
        What is left, each with its bound.
    """
    began = limit.left()
    model = build(question, visits_of(question, corner))
    relaxed = Relaxation(model.sheet)
    visits = all_visits(question)

    def goes_on(value: float) -> bool:
        """Whether there is time for taking rows in, which takes no longer than a part of what went before."""
        if len(open_corners) + len(settled) == 0:
            learnt(max(corner.bound, min(value, best)))
        return limit.counted or limit.left() > LAST_PART * (began - limit.left())

    open_corners: list[Corner] = [corner]
    settled: list[Corner] = []
    above = best + MARGIN_CENTS
    first = True
    while open_corners and steps and (first or limit.left() > 0):
        first = False
        open_corners.sort(key=lambda one: (-one.bound, sorted(one.made)))
        here = open_corners.pop()
        steps -= 1
        for visit in visits:
            sides = (float(visit in here.made), float(visit not in here.unmade))
            relaxed.bind(model.trip[visit], *sides)
        ending = relaxed.solve(above, goes_on=goes_on)
        if ending is Ending.ABOVE:
            continue
        doubtful = [v for v in visits if v not in here.made and v not in here.unmade]
        here = replace(here, bound=max(here.bound, relaxed.value))
        learnt(min(best, here.bound, *(one.bound for one in (*open_corners, *settled))))
        if not doubtful:
            settled.append(here)
            continue
        # where the relaxation says nothing every visit is as doubtful as any other
        known = ending is Ending.SOLVED
        at = {v: relaxed.values[model.trip[v]] if known else 0.5 for v in doubtful}
        visit = min(doubtful, key=lambda v: (abs(at[v] - 0.5), v))
        for made in (True, False):
            child = (
                replace(here, made=here.made | {visit})
                if made
                else replace(here, unmade=here.unmade | {visit})
            )
            if len(doubtful) == 1:
                sides = (float(made), float(made))
                value = relaxed.value_with(model.trip[visit], *sides, above)
                if value < above:
                    settled.append(replace(child, bound=max(child.bound, value)))
            else:
                open_corners.append(child)
    return settled + open_corners
