"""Rules that a household could bend: which are in force, and the question without some of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from enum import Enum
from fractions import Fraction

from ladleworth.decide.question import DishChoice, HouseRules, Question
from ladleworth.decide.rules import ContainerSize


class Rule(Enum):
    """A rule that a household could bend. Exclusions and keeping times are not among them."""

    BUDGET = "the budget"
    MINUTES = "the sessions' hands-on minutes"
    CONTAINERS = "the containers"
    FREEZER = "the freezer places"
    IN_A_ROW = "not the same dish on too many days in a row"
    MOST_TIMES = "not the same dish too often"
    NO_MEAL_OUT = "nobody eats out"
    STATIONS = "minutes of oven and burners"
    SIZES = "containers that are large enough"
    FRIDGE_ROOM = "room in the fridge (ml)"
    FREEZER_ROOM = "room in the freezer (ml)"
    FREEZING_LOAD = "portions put into the freezer on one day"
    NUTRIENTS = "the bounds on nutrients"
    BRINGS = "what helpings bring"


WITHOUT_AMOUNT = frozenset(
    {
        Rule.STATIONS,
        Rule.SIZES,
        Rule.FRIDGE_ROOM,
        Rule.FREEZER_ROOM,
        Rule.FREEZING_LOAD,
        Rule.NUTRIENTS,
        Rule.BRINGS,
    }
)
"""Rules of which it is only said whether dropping one leaves a plan, not by how much it has to give way."""


def in_force(question: Question) -> tuple[Rule, ...]:
    """Name the bendable rules that this question has."""
    rules = question.rules
    there = {
        Rule.BUDGET: rules.budget_cents is not None,
        Rule.MINUTES: bool(question.sessions),
        Rule.CONTAINERS: places(rules) is not None,
        Rule.FREEZER: rules.freezer_places is not None,
        Rule.IN_A_ROW: rules.in_a_row is not None,
        Rule.MOST_TIMES: rules.most_times is not None,
        Rule.NO_MEAL_OUT: rules.meal_out_cents is None,
        Rule.STATIONS: any(session.stations for session in question.sessions),
        Rule.SIZES: bool(rules.container_sizes),
        Rule.FRIDGE_ROOM: rules.fridge_ml is not None,
        Rule.FREEZER_ROOM: rules.freezer_ml is not None,
        Rule.FREEZING_LOAD: rules.freezing_load is not None,
        Rule.NUTRIENTS: any(not bound.share for bound in rules.nutrient_bounds),
        Rule.BRINGS: any(bound.share for bound in rules.nutrient_bounds),
    }
    return tuple(rule for rule, is_there in there.items() if is_there)


def places(rules: HouseRules) -> int | None:
    """How many containers there are, whatever their size; None: no limit."""
    counts = [] if rules.containers is None else [rules.containers]
    if rules.container_sizes:
        counts.append(sum(size.count for size in rules.container_sizes))
    return min(counts, default=None)


def without(question: Question, rules: Iterable[Rule]) -> Question:
    """Return the question without some rules (meals out then cost nothing).

    Containers and their sizes are two rules: without the first there are enough of the smallest, without the second
    there are as many as before, and each is large enough.
    """
    dropped = set(rules)
    old = question.rules
    bent = replace(
        old,
        containers=None if Rule.CONTAINERS in dropped else old.containers,
        freezer_places=None if Rule.FREEZER in dropped else old.freezer_places,
        budget_cents=None if Rule.BUDGET in dropped else old.budget_cents,
        meal_out_cents=0 if Rule.NO_MEAL_OUT in dropped else old.meal_out_cents,
        in_a_row=None if Rule.IN_A_ROW in dropped else old.in_a_row,
        most_times=None if Rule.MOST_TIMES in dropped else old.most_times,
        freezing_load=None if Rule.FREEZING_LOAD in dropped else old.freezing_load,
        fridge_ml=None if Rule.FRIDGE_ROOM in dropped else old.fridge_ml,
        freezer_ml=None if Rule.FREEZER_ROOM in dropped else old.freezer_ml,
        nutrient_bounds=tuple(
            bound
            for bound in old.nutrient_bounds
            if (Rule.BRINGS if bound.share else Rule.NUTRIENTS) not in dropped
        ),
    )
    if old.container_sizes and Rule.SIZES in dropped:
        there = None if Rule.CONTAINERS in dropped else places(old)
        bent = replace(bent, container_sizes=(), containers=there)
    elif old.container_sizes and Rule.CONTAINERS in dropped:
        bent = replace(bent, container_sizes=_more_small_ones(question))
    sessions = question.sessions
    if Rule.MINUTES in dropped:
        enough = 1 + int(sum(map(_most_min, question.dishes)))
        sessions = tuple(replace(s, minutes=max(s.minutes, enough)) for s in sessions)
    if Rule.STATIONS in dropped:
        sessions = tuple(replace(s, stations={}) for s in sessions)
    return replace(question, rules=bent, sessions=sessions)


def _more_small_ones(question: Question) -> tuple[ContainerSize, ...]:
    """Add to the smallest containers one for every portion that could ever wait."""
    smallest, *others = sorted(question.rules.container_sizes, key=lambda size: size.capacity_ml)
    waiting = len(question.slots) + question.additions.reserve_portions
    waiting += sum(lot.portions for lot in question.portions)
    return (replace(smallest, count=smallest.count + waiting), *others)


def _most_min(dish: DishChoice) -> Fraction:
    """No batch of the dish takes more hands-on minutes, however it is split."""
    fixed = sorted((version.fixed_min for version in dish.versions), reverse=True)[: dish.most_versions]
    by_portion = max(version.per_portion_min for version in dish.versions)
    return dish.shared_min + sum(fixed, Fraction(0)) + by_portion * dish.greatest
