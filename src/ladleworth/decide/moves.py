"""A state of the local search, and the changes that lead from one to the next."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ladleworth.decide.search import Search

Where = tuple[int, int]
"""(number of the dish, number of the session)"""

What = tuple[int, int]
"""(number of the version, portions)"""


@dataclass(slots=True)
class State:
    """Batches, visits (bit `session * shops + shop`) and what they cost."""

    batches: dict[Where, What]
    visits: int
    cost: float = math.inf
    sound: bool = False
    demands: dict[int, tuple[int, ...]] = field(default_factory=dict)
    """Number of the food -> mg or pieces by session"""
    prices: dict[int, tuple[float, int]] = field(default_factory=dict)
    """Number of the food -> what it costs, and money at the tills"""


def move(bench: Search, state: State, rng: random.Random) -> State | None:
    """Change one thing, or two that belong together; None where the drawn change does not apply."""
    dishes = bench.question.dishes
    batches = dict(state.batches)
    visits = state.visits
    kind = rng.random()
    if kind < 0.08 and bench.question.shops:
        return State(batches, visits ^ (1 << rng.randrange(len(bench.days) * len(bench.question.shops))))
    if kind < 0.3 or not batches:
        d = bench.any_dish(rng)
        where = (d, rng.randrange(len(bench.days)))
        if where in batches:
            return None
        batches[where] = (
            rng.randrange(len(dishes[d].versions)),
            dishes[d].greatest if rng.random() < 0.5 else rng.randint(dishes[d].least, dishes[d].greatest),
        )
        return State(batches, visits)
    where = rng.choice(sorted(batches))
    d, s = where
    v, portions = batches[where]
    if kind < 0.4:
        del batches[where]
    elif kind < 0.62:
        changed = portions + rng.choice((-2, -1, 1, 2))
        if not dishes[d].least <= changed <= dishes[d].greatest:
            return None
        batches[where] = (v, changed)
    elif kind < 0.7:
        other = rng.choice(sorted(batches))
        v2, portions2 = batches[other]
        if other == where or portions >= dishes[d].greatest or portions2 <= dishes[other[0]].least:
            return None
        batches[where] = (v, portions + 1)
        batches[other] = (v2, portions2 - 1)
    elif kind < 0.78:
        batches[where] = (rng.randrange(len(dishes[d].versions)), portions)
    elif kind < 0.84:
        elsewhere = (d, rng.randrange(len(bench.days)))
        if elsewhere in batches:
            return None
        del batches[where]
        batches[elsewhere] = (v, portions)
    else:
        other_dish = bench.any_dish(rng)
        dish = dishes[other_dish]
        if (other_dish, s) in batches:
            return None
        del batches[where]
        batches[other_dish, s] = (
            rng.randrange(len(dish.versions)),
            min(max(portions, dish.least), dish.greatest),
        )
    return State(batches, visits)
