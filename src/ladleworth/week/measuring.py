"""What a plan comes to in figures: nutrients of each eater by week, and containers and room night by night. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from ladleworth.decide import Plan, Question
from ladleworth.decide.judge_meals import nutrient_figures
from ladleworth.decide.verdict import Held, held_on

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


@dataclass(frozen=True, slots=True)
class NutrientMean:
    """What an eater's helpings of a span average of a nutrient, between the bounds that the household set.

    `mean` is None where no helping is served, or one of them has no figure. Meals out are not counted. With `share` it
    is no nutrient but what helpings bring ('fresh'), and mean and bounds are shares of the helpings, from 0 to 1.
    """

    eater: str
    nutrient: str
    first_day: int
    last_day: int
    helpings: int
    mean: Fraction | None
    least: Fraction | None
    most: Fraction | None
    share: bool = False


@dataclass(frozen=True, slots=True)
class SizeInUse:
    """Containers that hold up to `capacity_ml`: how many lie chilled, frozen, and are clean, on some night."""

    capacity_ml: int
    chilled: int
    frozen: int
    clean: int


@dataclass(frozen=True, slots=True)
class Night:
    """What is kept after the meals of a day: containers by state, and room used in fridge and freezer.

    `containers` and `freezer_places` are how many there are, None for no limit; `sizes` is empty where all are alike. Room is in
    ml of food, its limits None where the household states none; nothing is known of it (0) where no rule goes by it.
    """

    day: int
    chilled: int
    frozen: int
    containers: int | None
    freezer_places: int | None
    sizes: tuple[SizeInUse, ...]
    fridge_ml: int
    freezer_ml: int
    most_fridge_ml: int | None
    most_freezer_ml: int | None


def nutrients_of(week: PlannedWeek) -> tuple[NutrientMean, ...]:
    """List the means of each bounded nutrient, and the shares of what helpings bring, eater by eater, span by span."""
    question, found = week.question, []
    for bound in question.rules.nutrient_bounds:
        figures = nutrient_figures(question, week.plan, bound)
        for span in question.spans():
            here = [figure for day, figure in figures if day in span]
            known = [figure for figure in here if figure is not None]
            mean = sum(known, Fraction(0)) / len(here) if here and len(known) == len(here) else None
            found.append(
                NutrientMean(
                    bound.eater,
                    bound.nutrient,
                    span[0],
                    span[-1],
                    len(here),
                    mean,
                    bound.least,
                    bound.most,
                    bound.share,
                )
            )
    return tuple(found)


def nights_of(question: Question, plan: Plan) -> tuple[Night, ...]:
    """List what is kept night by night, as the rules of the week count it."""
    rules, nights = question.rules, []
    for day in range(1, question.days + 1):
        held = held_on(question, plan, day)
        nights.append(
            Night(
                day,
                sum(not one.frozen for one in held),
                sum(one.frozen for one in held),
                rules.containers,
                rules.freezer_places,
                _sizes(question, held),
                sum(one.volume_ml for one in held if not one.frozen),
                sum(one.volume_ml for one in held if one.frozen),
                rules.fridge_ml,
                rules.freezer_ml,
            )
        )
    return tuple(nights)


def _sizes(question: Question, held: list[Held]) -> tuple[SizeInUse, ...]:
    """Put each portion into the smallest container left that holds it, the fullest portions first.

    A portion that a larger container must take has a claim on it before smaller ones, so that all fit in this way
    if they fit in any. What fits nowhere, in a plan that does not stand, is in none of them.
    """
    sizes = sorted(question.rules.container_sizes, key=lambda size: size.capacity_ml)
    free = {size.capacity_ml: size.count for size in sizes}
    used = {(size.capacity_ml, frozen): 0 for size in sizes for frozen in (False, True)}
    for one in sorted(held, key=lambda one: -one.volume_ml):
        capacity = next((c for c, left in free.items() if left and c >= one.volume_ml), None)
        if capacity is not None:
            free[capacity] -= 1
            used[capacity, one.frozen] += 1
    return tuple(
        SizeInUse(
            size.capacity_ml,
            used[size.capacity_ml, False],
            used[size.capacity_ml, True],
            free[size.capacity_ml],
        )
        for size in sizes
    )
