"""The week as a mixed-integer programme: assembly of columns and rows, and reading a solution back.

The slots of one eater on one day are alike but for their meal, so the programme counts: batches by size,
portions by eating day, chilled or frozen, and by eater and day. `seat.py` puts them into slots afterwards
and `draw.py` settles exact drawings. Nothing here is trusted: the judge passes on the plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ladleworth.decide.answer import Batch, Purchase
from ladleworth.decide.columns import (
    Dinner,
    WeekModel,
    columns_for_batches,
    columns_for_shopping,
    columns_for_slots,
)
from ladleworth.decide.covers import cooked_at_all, packages_cover_both_sessions, packages_cover_each_batch
from ladleworth.decide.question import Question
from ladleworth.decide.rows_food import (
    budget_suffices,
    needs_are_met,
    portions_on_hand_are_used,
    stock_is_valued,
    trips_are_paid,
    wished_packages_are_bought,
)
from ladleworth.decide.rows_kitchen import (
    batches_are_allowed,
    containers_suffice,
    minutes_suffice,
)
from ladleworth.decide.rows_meals import (
    no_dish_too_often,
    nutrients_stay_within,
    portions_are_eaten,
    slots_are_filled,
)


def build(question: Question, visits: frozenset[tuple[str, int]] | None = None) -> WeekModel:
    """Write the question down: columns, a function for each rule, the objective, and rows that only tighten.

    Parameters
    ----------
    question
        The question.
    visits
        (shop, session day) of the visits that may be made; None: all.
    """
    model = WeekModel(question, visits)
    columns_for_batches(model)
    columns_for_slots(model)
    columns_for_shopping(model)
    for rule in (
        portions_are_eaten,
        slots_are_filled,
        no_dish_too_often,
        nutrients_stay_within,
        batches_are_allowed,
        containers_suffice,
        minutes_suffice,
        needs_are_met,
        trips_are_paid,
        budget_suffices,
        portions_on_hand_are_used,
        wished_packages_are_bought,
        stock_is_valued,
        packages_cover_each_batch,
        cooked_at_all,
        packages_cover_both_sessions,
    ):
        rule(model)
    return model


def fix_batches(model: WeekModel, batches: Sequence[Batch]) -> None:
    """Leave the model no choice but these batches."""
    wanted = {(b.dish, b.version, b.day, b.portions) for b in batches}
    for key, column in model.size.items():
        model.sheet.lower[column] = model.sheet.upper[column] = float(key in wanted)


def restrict_dishes(model: WeekModel, dishes: set[str]) -> None:
    """Leave the model only these dishes."""
    for (dish, *_), column in model.size.items():
        if dish not in dishes:
            model.sheet.upper[column] = 0.0


def beat(model: WeekModel, cents: float) -> None:
    """Admit only what costs less than this.

    A row does it, not a solution to start from: HiGHS 1.16, given a start, was seen to report an objective
    (and so a bound) that its own solution did not have.
    """
    sheet = model.sheet
    sheet.row(list(enumerate(sheet.cost)), high=cents - sheet.constant)


@dataclass(frozen=True, slots=True)
class Counts:
    """What the model decides, in whole numbers: seats and drawings are settled from these."""

    batches: tuple[Batch, ...]
    purchases: tuple[Purchase, ...]
    eaten: dict[Dinner, int]
    served: dict[tuple[str, str, str, int], int]
    """(dish, version, eater, day) -> portions"""
    taken: dict[tuple[str, str, int], int]
    """(lot of portions, eater, day) -> containers"""


def read_batches(model: WeekModel, values: Sequence[float]) -> tuple[Batch, ...]:
    """Read the batches alone."""
    return tuple(
        sorted(
            Batch(day, dish, version, portions)
            for (dish, version, day, portions), column in model.size.items()
            if round(values[column])
        )
    )


def read(model: WeekModel, values: Sequence[float]) -> Counts:
    """Turn column values into whole counts."""
    whole = [round(v) for v in values]
    purchases = tuple(
        Purchase(day, offer, whole[c]) for (offer, day), c in sorted(model.buy.items()) if whole[c]
    )
    return Counts(
        read_batches(model, values),
        purchases,
        {dinner: whole[c] for dinner, c in model.eaten.items() if whole[c]},
        {key: whole[c] for key, c in model.served.items() if whole[c]},
        {key: whole[c] for key, c in model.taken.items() if whole[c]},
    )
