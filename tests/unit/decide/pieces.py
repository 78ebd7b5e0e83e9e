"""A week large enough for pieces of work and small enough to settle on paper, and how its pieces are judged."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from tests.unit.decide.weeks import PORTION, pack, rules, slots, stew, week

from ladleworth.decide import CookSession, Foodstuff, Plan, Question, judge
from ladleworth.decide.answer import LowerBound

BEST = 6 * 10 + 6 * 11
"""One day in a row at most: every eater has the two cheapest dishes in turn, three helpings of each."""


def in_turn() -> Question:
    """Five dishes of one food each in up to twenty portions, six days, two eaters, two sessions."""
    foods = tuple(f"food {n}" for n in range(5))
    return week(
        days=6,
        slots=(*slots(*range(1, 7)), *slots(*range(1, 7), eater="Ben")),
        sessions=(CookSession(1, 60), CookSession(4, 60)),
        dishes=tuple(
            stew({food: PORTION}, name=f"dish {food}", greatest=20, fixed_min=Fraction(10)) for food in foods
        ),
        foods=tuple(map(Foodstuff, foods)),
        offers=tuple(pack(10 + n, food) for n, food in enumerate(foods)),
        rules=rules(in_a_row=1),
    )


@dataclass
class Judged:
    """Plans that are told of, each of which has to stand."""

    question: Question
    totals: list[Fraction] = field(default_factory=list)
    plans: list[Plan] = field(default_factory=list)
    bounds: list[float] = field(default_factory=list)

    def tell(self, found: Plan | LowerBound) -> None:
        """Judge a plan and take down what it costs; take down a bound."""
        if isinstance(found, LowerBound):
            self.bounds.append(found.cents)
        else:
            self.judge(found)

    def judge(self, plan: Plan) -> None:
        """Judge a plan and take down what it costs."""
        verdict = judge(self.question, plan)
        assert verdict.breaches == ()
        self.totals.append(verdict.costs.total)
        self.plans.append(plan)
