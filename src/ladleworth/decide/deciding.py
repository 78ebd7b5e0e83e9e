"""Ask the search and the programmes, settle seats and drawings exactly, and let the judge pass on the plan."""

from __future__ import annotations

import math
import time
from collections import Counter
from collections.abc import Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from ladleworth.decide.answer import Answer, Batch, Costs, Plan, Status
from ladleworth.decide.draw import draw
from ladleworth.decide.judge import judge
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustBuy
from ladleworth.errors import JudgeRefused, SolverFailed

if TYPE_CHECKING:
    from ladleworth.decide.columns import WeekModel
    from ladleworth.decide.model import Run

PROOF_CENTS = 1e-4
"""A plan within this of the bound counts as proven: the solver works in floating point, the judge exactly."""

SEARCH_SECONDS = 1.5
"""How long each local search goes on."""

LAST_SECONDS = 0.6
"""What is kept back to put the finds together."""

SMALL_SIZES = 150
"""With no more batch sizes than this to choose from the programmes are quicker than any search before them."""


def decide(question: Question, seconds: float = 20.0, seed: int = 0) -> Answer:
    """Find the cheapest week.

    Small questions go to the programmes alone. For others a local search proposes batches, which the exact
    programme, with those fixed, seats and shops for; then the exact programme works on plan and bound in a thread
    while more is proposed beside it.

    Parameters
    ----------
    question
        The question of the week.
    seconds
        The clock limit for the search; the best plan found by then is given with its bound.
    seed
        The seed of every random choice. The same small question, seed and solver give the same plan once it is
        proven; the searches of a larger one go by the clock, so that of several plans of equal value another
        may come out, and what is not proven depends on the machine's speed.

    Returns
    -------
    Answer
        With a plan that the judge let stand, or none and the reason as a status.

    Raises
    ------
    JudgeRefused
        If a plan found breaks a rule: a defect of the model, never shown as a plan.
    """
    return _Deciding(question, seconds, seed).answer()


@dataclass(slots=True)
class _Deciding:
    """One decision under way: the best judged plan so far, and the best bound."""

    question: Question
    seconds: float
    seed: int
    began: float = field(default_factory=time.monotonic)
    plan: Plan | None = None
    total: Fraction | None = None
    bound: float = -math.inf
    infeasible: bool = False
    solver: str = "none needed"
    promising: tuple[tuple[Batch, ...], ...] = ()

    def left(self) -> float:
        """Seconds left on the clock."""
        return self.seconds - (time.monotonic() - self.began)

    def done(self) -> bool:
        """Say whether nothing better is left to find."""
        return self.infeasible or (self.total is not None and float(self.total) - self.bound <= PROOF_CENTS)

    def answer(self) -> Answer:
        """Go on until the plan is proven or the time is over."""
        if self.is_small():
            pass
        else:
            self.propose(min(SEARCH_SECONDS, self.seconds * 0.3), self.seed)
            self.search_beside_the_bound()
        if not self.done() and self.left() > 0:
            self.settle()
        costs = None if self.plan is None else judged(self.question, self.plan)
        if self.infeasible:
            status = Status.INFEASIBLE
        elif costs is None:
            status = Status.OUT_OF_TIME
        else:
            status = Status.PROVEN if self.done() else Status.GOOD
        bound = self.bound if math.isfinite(self.bound) else None
        return Answer(status, self.plan, costs, bound, time.monotonic() - self.began, self.solver, self.seed)

    def is_small(self) -> bool:
        """Say whether the programmes alone are quicker than any search before them."""
        sizes = len(self.question.sessions) * sum(
            len(dish.versions) * (dish.greatest - dish.least + 1) for dish in self.question.dishes
        )
        return sizes <= SMALL_SIZES

    def propose(self, seconds: float, seed: int, start: Sequence[Batch] = ()) -> None:
        """Search for good batches, and seat the first of the best that can be seated."""
        from ladleworth.decide.search import search

        found = search(self.question, max(0.1, min(seconds, self.left())), seed=seed, start=start)
        self.promising = (*self.promising, *found)
        for batches in found:
            if self.left() <= 0 or self.seat(batches):
                break

    def search_beside_the_bound(self) -> None:
        """Let the exact programme work on plan and bound in a thread, and go on searching beside it.

        The solver lets go of Python's lock while it works, so that two cores are used. What both find is put
        together at the end.
        """
        with ThreadPoolExecutor(max_workers=1) as beside:
            bounding = beside.submit(self.exact, self.left() - LAST_SECONDS, better=False)
            turn = 0
            while not bounding.done() and self.left() > 2 * LAST_SECONDS:
                turn += 1
                seconds = min(SEARCH_SECONDS, self.left() - LAST_SECONDS)
                if turn % 4 == 0:
                    self.mix(seconds)
                elif turn % 2 and self.plan is not None:
                    self.propose(seconds, self.seed + turn, self.plan.batches)
                else:
                    self.propose(seconds, self.seed + turn)
            model, ended = bounding.result()
        if ended.values is not None:
            self.take(model, ended.values)
        self.learn(ended)

    def mix(self, seconds: float) -> None:
        """Let the aggregated programme choose among the dishes of the last search's states and the plan's."""
        dishes = {batch.dish for batches in self.promising[-5:] for batch in batches}
        if self.plan is not None:
            dishes |= {batch.dish for batch in self.plan.batches}
        model, ended = self.aggregated(seconds, dishes)
        self.seat_found(model, ended)

    def aggregated(self, seconds: float, dishes: Iterable[str] | None = None) -> tuple[WeekModel, Run]:
        """Run the aggregated programme for batches better than the plan's, all dishes or some."""
        from ladleworth.decide.model import build, restrict_dishes

        model = build(self.question)
        if dishes is not None:
            restrict_dishes(model, set(dishes))
        return model, self.run(model, seconds)

    def seat_found(self, model: WeekModel, ended: Run) -> None:
        """Seat the batches that a run of the aggregated programme found, if any."""
        from ladleworth.decide.model import read_batches

        if ended.values is not None:
            self.seat(read_batches(model, ended.values))

    def learn(self, ended: Run) -> None:
        """Take the bound, or the proof that nothing better exists, from a run over all dishes."""
        if ended.proven and ended.values is None:
            if ended.below is None and self.plan is not None:
                raise SolverFailed(f"{ended.solver} calls a question impossible that has a judged plan")
            if ended.below is None:
                self.infeasible = True
            else:
                self.bound = max(self.bound, ended.below)
        elif ended.bound is not None:
            self.bound = max(
                self.bound, ended.bound if ended.below is None else min(ended.bound, ended.below)
            )

    def settle(self) -> None:
        """Give what is still open to the exact programme, for all the time that is left."""
        model, ended = self.exact(self.left())
        if ended.values is not None:
            self.take(model, ended.values)
        self.learn(ended)

    def exact(self, seconds: float, *, better: bool = True) -> tuple[WeekModel, Run]:
        """Run the exact programme for a plan, or for one better than that in hand.

        Left to itself HiGHS was measured to do better without the row that asks for better plans only.
        """
        from ladleworth.decide.model import build

        model = build(self.question)
        return model, self.run(model, seconds, better=better)

    def run(self, model: WeekModel, seconds: float, *, better: bool = True) -> Run:
        """Look for a solution; for one cheaper than the plan so far if `better`."""
        from ladleworth.decide.model import beat, run

        below = None if self.total is None or not better else float(self.total) - PROOF_CENTS / 2
        if below is not None:
            beat(model, below)
        ended = run(model.sheet, max(0.1, min(seconds, self.left())), seed=self.seed)
        self.solver = ended.solver
        return replace(ended, below=below)

    def seat(self, batches: tuple[Batch, ...]) -> bool:
        """Let the exact programme seat these batches and shop for them; say whether it can."""
        from ladleworth.decide.model import build, fix_batches, run

        cooked = {(batch.dish, batch.version) for batch in batches}
        alone = tuple(
            replace(dish, versions=tuple(v for v in dish.versions if (dish.name, v.name) in cooked))
            for dish in self.question.dishes
            if any(name == dish.name for name, _ in cooked)
        )
        model = build(replace(self.question, dishes=alone))
        fix_batches(model, batches)
        ended = run(model.sheet, max(0.5, self.left() / 2), seed=self.seed)
        self.solver = ended.solver
        if ended.values is None:
            return False
        self.take(model, ended.values)
        return True

    def take(self, model: WeekModel, values: Sequence[float]) -> None:
        """Turn column values into a plan, judge it, and keep it if it is the best so far."""
        from ladleworth.decide.model import read
        from ladleworth.decide.seat import seat

        counts = read(model, values)
        helpings = seat(self.question, counts.eaten, counts.served, counts.taken)
        drawings = draw(self.question, counts.batches, counts.purchases)
        if helpings is None or drawings is None:
            raise JudgeRefused(["the programme's counts cannot be put into slots or drawn from the lots"])
        plan = trim(self.question, Plan(counts.batches, helpings, counts.purchases, drawings))
        total = judged(self.question, plan).total
        if self.total is None or total < self.total:
            self.plan, self.total = plan, total


def judged(question: Question, plan: Plan) -> Costs:
    """Return the plan's costs if the judge lets it stand.

    Raises
    ------
    JudgeRefused
        With every breach, if it does not.
    """
    verdict = judge(question, plan)
    if not verdict.stands:
        raise JudgeRefused(map(str, verdict.breaches))
    return verdict.costs


def trim(question: Question, plan: Plan) -> Plan:
    """Leave out packages that the plan does as well without.

    A durable package that nobody draws from changes nothing in the objective, since it is carried at what it
    cost; but it takes money on the day. Packages are tried in a fixed order, so that the result is one and
    the same for one plan.
    """
    best = judge(question, plan).costs.total
    holds = {offer.name: offer.quantity for offer in question.offers}
    wished = Counter({(w.day, w.offer): w.packages for w in question.wishes if isinstance(w, MustBuy)})
    for purchase in plan.purchases:
        kept = purchase
        while kept.packages > wished[kept.day, kept.offer]:
            drawn = sum(
                d.quantity for d in plan.drawings if (d.bought_day, d.source) == (kept.day, kept.offer)
            )
            begun = math.ceil(Fraction(drawn, holds[kept.offer]))
            fewest = max(begun, wished[kept.day, kept.offer])
            fewer = replace(kept, packages=min(fewest, kept.packages - 1))
            purchases = tuple(
                fewer if p == kept else p for p in plan.purchases if p != kept or fewer.packages
            )
            drawings = draw(question, plan.batches, purchases)
            if drawings is None:
                break
            smaller = replace(plan, purchases=purchases, drawings=drawings)
            total = judge(question, smaller).costs.total
            if total > best:
                break
            plan, best, kept = smaller, total, fewer
    return plan
