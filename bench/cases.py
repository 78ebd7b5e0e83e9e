"""The questions that the bench measures by, by name; a size is dishes/days/eaters, five seeds of each."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from fnmatch import fnmatchcase
from fractions import Fraction
from pathlib import Path

from bench.kitchens import random_week, staple_week

from ladleworth.decide import DishChoice, Question, Version, pose

HERE = Path(__file__).resolve().parent.parent
SEEDS = (1, 2, 3, 4, 5)
SIZES: dict[str, tuple[Callable[[int, int, int, int], Question], tuple[int, int, int]]] = {
    "tiny": (random_week, (6, 4, 1)),
    "random 30/7/2": (random_week, (30, 7, 2)),
    "random 100/7/2": (random_week, (100, 7, 2)),
    "random 300/7/2": (random_week, (300, 7, 2)),
    "random 1000/7/2": (random_week, (1000, 7, 2)),
    "random 30/7/4": (random_week, (30, 7, 4)),
    "random 30/14/2": (random_week, (30, 14, 2)),
    "random 100/14/2": (random_week, (100, 14, 2)),
    "staples 60/7/2": (staple_week, (60, 7, 2)),
}
NAMES = ("demo", *(f"{size} #{seed}" for size in SIZES for seed in SEEDS))


def question_of(name: str) -> Question:
    """Make the question of this name: `demo`, or a size and a seed as in `random 30/7/2 #1`."""
    if name == "demo":
        from ladleworth.store import read_folder

        return pose(read_folder(HERE / "examples" / "demo").without_faults())
    size, _, seed = name.rpartition(" #")
    make, numbers = SIZES[size]
    return make(int(seed), *numbers)


def names_like(wanted: list[str]) -> list[str]:
    """List the cases of these names, patterns (`*`), or sizes (all their seeds).

    Raises
    ------
    ValueError
        If one of them is no case.
    """
    found: list[str] = []
    for one in wanted:
        here = [n for n in NAMES if n == one or n.rpartition(" #")[0] == one or fnmatchcase(n, one)]
        if not here:
            raise ValueError(
                f"no case is called {one!r}; there are demo and {', '.join(SIZES)}, each #1 to #5"
            )
        found += here
    return list(dict.fromkeys(found))


def mark_of(question: Question) -> str:
    """Reduce the figures of a question to a few characters that change whenever one of them does."""
    rules, extra = question.rules, question.additions
    figures = [
        question.days,
        [(s.day, s.eater, s.meal) for s in question.slots],
        [(s.day, s.minutes, s.cents, sorted(s.stations.items())) for s in question.sessions],
        [_dish_figures(dish) for dish in question.dishes],
        [(d.name, *_version_figures(v)) for d in question.dishes for v in d.versions],
        [(f.name, f.pieces, f.keep_days) for f in question.foods],
        [(lot.name, lot.food, lot.quantity, lot.cents, lot.last_day) for lot in question.lots],
        [(o.name, o.food, o.shop, o.quantity, o.cents, o.most) for o in question.offers],
        [(s.name, s.trip_cents) for s in question.shops],
        (rules.containers, rules.freezer_places, rules.budget_cents, rules.meal_out_cents),
        (rules.in_a_row, rules.most_times, rules.span_days, rules.freezing_load),
        (rules.fridge_ml, rules.freezer_ml, [(c.capacity_ml, c.count) for c in rules.container_sizes]),
        [(b.eater, b.nutrient, str(b.least), str(b.most)) for b in rules.nutrient_bounds],
        (extra.repeat_cents, str(extra.minute_cents), extra.reserve_portions, extra.reserve_cents),
        str(extra.carried_share),
        [(p.name, p.dish, p.portions, p.cents, p.first_day, p.last_day, p.frozen) for p in question.portions],
        _written(question.appetites),
        [str(wish) for wish in question.wishes],
    ]
    return hashlib.sha256(repr(figures).encode()).hexdigest()[:12]


def _dish_figures(dish: DishChoice) -> tuple[object, ...]:
    meals = dish.meals and sorted(dish.meals)
    sizes = (dish.least, dish.greatest, dish.most_versions)
    return (dish.name, *sizes, dish.keep_days, dish.freezer_days, meals, str(dish.shared_min))


def _version_figures(version: Version) -> tuple[object, ...]:
    loads = sorted((k, str(load.fixed_min), str(load.per_portion_min)) for k, load in version.loads.items())
    minutes = (str(version.fixed_min), str(version.per_portion_min))
    amounts = (_written(version.needs), _written(version.nutrients))
    barred, liking = sorted(version.barred), str(version.liking_cents)
    return (version.name, *minutes, barred, liking, version.volume_ml, *amounts, loads)


def _written(amounts: Mapping[str, Fraction]) -> list[tuple[str, str]]:
    return sorted((name, str(amount)) for name, amount in amounts.items())


def worth_on_hand(question: Question) -> Fraction:
    """What the stock counts for, in cents, if nothing of it is touched: value plus this is what a week uses up."""
    there = [(lot.cents, lot.last_day) for lot in question.lots]
    there += [(lot.cents, lot.last_day) for lot in question.portions]
    kept = sum(cents for cents, last in there if last is None or last > question.days)
    return question.additions.carried_share * kept
