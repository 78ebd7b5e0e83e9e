"""Questions that take several decisions: what a change is worth, other budgets, another shop, near-equal plans.

What two decisions differ by is exact only where both are proven. Otherwise it lies between two known figures: a plan found is
dearer than the best or equal, and a bound is cheaper or equal.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ladleworth.decide.answer import Answer, Plan, Progress, Status
from ladleworth.decide.deciding import PROOF_CENTS, decide
from ladleworth.decide.existing import has_plan
from ladleworth.decide.judge import judge
from ladleworth.decide.mending import mended
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustNotCook, Wish
from ladleworth.errors import BadField


@dataclass(frozen=True, slots=True)
class Asking:
    """How long each decision may take, and who is told and asked meanwhile; as for `decide`."""

    seconds: float = 20.0
    seed: int = 0
    work: int | None = None
    report: Callable[[Progress], None] | None = None
    stop: Callable[[], bool] | None = None

    def decide(self, question: Question, start: Plan | None = None, parts: int = 1) -> Answer:
        """Decide with these limits, or with one of so many parts of the time."""
        return decide(
            question,
            self.seconds / parts,
            self.seed,
            work=self._work(parts),
            start=start,
            report=self.report,
            stop=self.stop,
        )

    def finds_plan(self, question: Question, parts: int = 1) -> bool:
        """Say whether a plan is found with one of so many parts of the time."""
        work = self._work(parts)
        return has_plan(question, self.seconds / parts, self.seed, work=work, stop=self.stop) is True

    def _work(self, parts: int) -> int | None:
        return None if self.work is None else max(1, self.work // parts)


@dataclass(frozen=True, slots=True)
class Between:
    """Cents known to lie from `least` to `most`; None: not known on that side. `proven` where both are one figure."""

    least: float | None
    most: float | None

    @property
    def proven(self) -> bool:
        """Say whether it is known exactly."""
        return self.least is not None and self.most is not None and self.most - self.least <= 2 * PROOF_CENTS


def difference(dearer: Answer, cheaper: Answer) -> Between:
    """How much more the best plan of one question costs than that of another.

    Parameters
    ----------
    dearer, cheaper
        Two answers; which one costs more need not be known.

    Returns
    -------
    Between
        From the one's bound less the other's plan to the one's plan less the other's bound; below 0 where it is the
        other way round. A side is None where its plan or bound is not known.
    """
    low, high = _bound(dearer), _value(dearer)
    other_low, other_high = _bound(cheaper), _value(cheaper)
    return Between(
        None if low is None or other_high is None else low - other_high,
        None if high is None or other_low is None else high - other_low,
    )


def _value(answer: Answer) -> float | None:
    return None if answer.costs is None else float(answer.costs.total)


def _bound(answer: Answer) -> float | None:
    """What no plan costs less than: the value itself where that is proven."""
    return _value(answer) if answer.status is Status.PROVEN else answer.bound


@dataclass(frozen=True, slots=True)
class Rung:
    """A budget in cents, and the answer with it."""

    budget_cents: int
    answer: Answer


def ladder(question: Question, budgets_cents: Sequence[int], asking: Asking) -> tuple[Rung, ...]:
    """Decide the same week at several budgets.

    Parameters
    ----------
    question
        The question; its own budget does not count.
    budgets_cents
        The budgets.
    asking
        The limits for all of them together.

    Returns
    -------
    tuple of Rung
        By budget, the smallest first. More money never makes a week dearer: a plan within a smaller budget is one within
        a larger one, and a larger budget's bound is one of a smaller.
    """
    budgets = sorted(set(budgets_cents))
    rungs: list[Rung] = []
    for budget in budgets:
        asked = replace(question, rules=replace(question.rules, budget_cents=budget))
        start = rungs[-1].answer.plan if rungs else None
        found = asking.decide(asked, start, len(budgets))
        if rungs and _is_better(rungs[-1].answer, found):
            found = _with_plan_of(found, rungs[-1].answer)
        rungs.append(Rung(budget, found))
    for at in range(len(rungs) - 2, -1, -1):
        bound, larger = rungs[at].answer.bound, _bound(rungs[at + 1].answer)
        if rungs[at + 1].answer.status is Status.INFEASIBLE:
            rungs[at] = replace(rungs[at], answer=_impossible(rungs[at].answer))
        elif larger is not None and (bound is None or bound < larger):
            rungs[at] = replace(rungs[at], answer=raised_to(rungs[at].answer, larger))
    return tuple(rungs)


def _is_better(one: Answer, other: Answer) -> bool:
    mine, its = _value(one), _value(other)
    return mine is not None and (its is None or mine < its - PROOF_CENTS)


def _with_plan_of(answer: Answer, better: Answer) -> Answer:
    """Take a better plan into an answer; its bound stays."""
    return raised_to(replace(answer, plan=better.plan, costs=better.costs, status=Status.GOOD), answer.bound)


def raised_to(answer: Answer, bound: float | None) -> Answer:
    """Give an answer a bound that is known otherwise, if it is better, and call its plan proven if it reaches it."""
    value = _value(answer)
    if (
        answer.status is Status.INFEASIBLE
        or bound is None
        or (answer.bound is not None and answer.bound > bound)
    ):
        return answer
    if value is None:
        return replace(answer, bound=bound)
    proven = value - bound <= PROOF_CENTS
    return replace(answer, bound=min(bound, value), status=Status.PROVEN if proven else answer.status)


def _impossible(answer: Answer) -> Answer:
    """With less money than a budget that is proven too small, there is no plan either."""
    return replace(answer, status=Status.INFEASIBLE) if answer.plan is None else answer


@dataclass(frozen=True, slots=True)
class ShopWorth:
    """What a shop is worth this week: `saved` is what the week costs more without it, its trips counted.

    `with_shop` and `without_shop` are the two answers.
    """

    shop: str
    with_shop: Answer
    without_shop: Answer
    saved: Between


def without_shop(question: Question, shop: str) -> Question:
    """Leave a shop and its offers out of a question; wishes to buy there go with it."""
    if all(one.name != shop for one in question.shops):
        names = ", ".join(one.name for one in question.shops) or "none"
        raise BadField(f"no shop is called {shop!r}; name one of {names}")
    there = {offer.name for offer in question.offers if offer.shop == shop}
    return replace(
        question,
        shops=tuple(one for one in question.shops if one.name != shop),
        offers=tuple(offer for offer in question.offers if offer.shop != shop),
        wishes=tuple(wish for wish in question.wishes if getattr(wish, "offer", None) not in there),
    )


def second_shop(question: Question, shop: str, answer: Answer, asking: Asking) -> ShopWorth:
    """Say whether a shop is worth its trips: the week decided without it against the week as it is.

    Parameters
    ----------
    question, answer
        The question with the shop, and its answer.
    shop
        The shop's name.
    asking
        The limits of the decision without it. A plan that does not go there is taken for one without it.
    """
    rest = without_shop(question, shop)
    there = {offer.name for offer in question.offers if offer.shop == shop}
    goes = answer.plan is None or any(purchase.offer in there for purchase in answer.plan.purchases)
    found = asking.decide(rest, None if goes else answer.plan)
    better = answer
    if _is_better(found, answer):
        better = _with_plan_of(answer, found)  # what can be had without the shop can be had with it
    with_it = _bound(better)
    if with_it is not None and found.status is not Status.INFEASIBLE:
        low = _bound(found)
        found = raised_to(found, with_it if low is None else max(low, with_it))
    saved = difference(found, better)
    return ShopWorth(
        shop, better, found, replace(saved, least=None if saved.least is None else max(0.0, saved.least))
    )


@dataclass(frozen=True, slots=True)
class NearPlan:
    """A plan that leaves out a dish of every plan before it, and what it costs more than the best found.

    `next_best` says that no plan that differs so from those before it costs less.
    """

    answer: Answer
    dearer_cents: float
    next_best: bool


def near_equal(question: Question, answer: Answer, number: int, asking: Asking) -> tuple[NearPlan, ...]:
    """Find further plans that differ in dishes, the cheapest first.

    Each leaves out at least one dish of every plan before it. They are found by barring dishes: the plans without one
    dish of the best; and where such a plan is a superset of one shown already, the plans without one more dish. Each
    search begins from the cheapest plan that another one left, mended.

    Parameters
    ----------
    question, answer
        A question and its answer.
    number
        How many plans beside that one.
    asking
        The limits of all decisions together.

    Returns
    -------
    tuple of NearPlan
        At most `number`; fewer where no more were found.
    """
    if answer.plan is None or answer.costs is None:
        return ()
    best, seen = float(answer.costs.total), [_dishes(answer.plan)]
    parts = max(1, number * len(seen[0]))
    branches: list[_Branch] = []
    found: list[NearPlan] = []
    tried: set[frozenset[str]] = set()
    known = [answer]

    def branch(barred: frozenset[str], dishes: Iterable[str]) -> None:
        for dish in sorted(dishes):
            more = barred | {dish}
            if more not in tried:
                tried.add(more)
                wishes = tuple(MustNotCook(name) for name in sorted(more))
                asked = replace(question, wishes=(*question.wishes, *wishes))
                starts = (mended(asked, one.plan) for one in known if one.plan is not None)
                start = min((p for p in starts if p is not None), key=lambda p: _cost(asked, p), default=None)
                answered = asking.decide(asked, start, parts)
                known.append(answered)
                branches.append(_Branch(more, answered))

    branch(frozenset(), seen[0])
    while len(found) < number:
        cheapest = min(
            (one for one in branches if one.answer.costs is not None),
            key=lambda one: (_value(one.answer), sorted(one.barred)),
            default=None,
        )
        if cheapest is None or cheapest.answer.plan is None or cheapest.answer.costs is None:
            break
        branches.remove(cheapest)
        mine = _dishes(cheapest.answer.plan)
        same = next((dishes for dishes in seen if dishes <= mine), None)
        if same is not None:
            branch(cheapest.barred, same)
            continue
        value = float(cheapest.answer.costs.total)
        others = min((_or_nothing(_bound(one.answer)) for one in branches if one.is_open), default=math.inf)
        proven = cheapest.answer.status is Status.PROVEN and value - others <= PROOF_CENTS
        found.append(NearPlan(cheapest.answer, value - best, proven))
        seen.append(mine)
        if len(found) < number:
            branch(cheapest.barred, mine)
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Branch:
    """The answer with some dishes barred."""

    barred: frozenset[str]
    answer: Answer

    @property
    def is_open(self) -> bool:
        """Say whether there may be a plan here."""
        return self.answer.status is not Status.INFEASIBLE


def _or_nothing(bound: float | None) -> float:
    return -math.inf if bound is None else bound


def _cost(question: Question, plan: Plan) -> Fraction:
    return judge(question, plan).costs.total


def _dishes(plan: Plan) -> frozenset[str]:
    return frozenset(batch.dish for batch in plan.batches)


def wishes_in_the_way(question: Question, asking: Asking) -> tuple[Wish, ...] | None:
    """Name the wishes of a question without a plan of which one dropped leaves a plan.

    Returns
    -------
    tuple of Wish or None
        Each alone does; empty if only several together do, or none was found in time. None if the wishes are not in
        the way: without them all, there is no plan either.
    """
    parts = len(question.wishes) + 1
    if not question.wishes or not asking.finds_plan(replace(question, wishes=()), parts):
        return None
    return tuple(
        wish
        for wish in question.wishes
        if asking.finds_plan(
            replace(question, wishes=tuple(other for other in question.wishes if other != wish)), parts
        )
    )
