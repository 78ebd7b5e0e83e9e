"""The exact optimum of a tiny week, found by trying everything; written from the rules in words alone.

It shares no code with the judge or the solver: it counts days, nights in a container, thaws, packages and
draws by itself, in `Fraction`s. It is only meant for questions small enough to try everything:

1. every set of batches that fits the sessions (`batch_sets`);
2. for each, every way to hand its portions to the slots (`serve`);
3. for each, every useful number of packages in every set of shop visits, with the best draws (`buy`).

Once the batches stand, the meals and the shopping do not touch each other. Whatever is left out of the search is
left out with the reason beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain, product
from math import ceil

from tests.model.brute_food import FoodBuy, buy, food_floor
from tests.model.brute_meals import Served, appetite_units, serve, serving_key, ways_of_batch
from tests.model.plan_cost import NOTHING, appetite_of, minutes_of, version_of

from ladleworth.decide.answer import Batch, Plan
from ladleworth.decide.question import CookSession, DishChoice, Question
from ladleworth.decide.rules import MustCook, MustNotCook


def best(question: Question) -> Fraction | None:
    """Return the least cost in cents over all plans that keep the rules; None if no plan keeps them."""
    found = best_plan(question)
    return None if found is None else found[0]


def best_plan(question: Question) -> tuple[Fraction, Plan] | None:
    """Return the least cost and one plan that reaches it; None if no plan keeps the rules."""
    search = _Search(question)
    floors = []
    for batches in batch_sets(question):
        floor = search.floor(batches)
        if floor is not None:
            floors.append((floor, batches))
    found: tuple[Fraction, Plan] | None = None
    for floor, batches in sorted(floors, key=lambda pair: pair[0]):
        if found is not None and floor >= found[0]:
            break
        one = search.plan(batches)
        if one is not None and (found is None or one[0] < found[0]):
            found = one
    return found


def all_plans(question: Question) -> list[tuple[Fraction, Plan]]:
    """Return the cheapest plan of every set of batches that has one, cheapest first."""
    search = _Search(question)
    plans = (search.plan(batches) for batches in batch_sets(question))
    return sorted((one for one in plans if one is not None), key=lambda pair: pair[0])


class _Search:
    """A search of one question: what was found out about meals and foods is kept for the next set of batches."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.served: dict[object, Served | None] = {}
        self.bought: dict[object, list[FoodBuy]] = {}

    def floor(self, batches: tuple[Batch, ...]) -> Fraction | None:
        """Return what no plan with these batches can cost less than; None if no plan has them.

        Every slot beyond the portions is a meal out, no repeat is priced, what is on hand and spoils is all
        eaten, every portion that may be left is left, and food costs no less than its unbudgeted best.
        """
        question = self.question
        unit = appetite_units(question)
        smallest = min((appetite_of(question, s.eater) for s in question.slots), default=Fraction(1))
        fed = sum(b.portions * unit // int(smallest * unit) for b in batches)
        fed += sum(lot.portions for lot in question.portions)
        out = max(0, len(question.slots) - fed)
        if out and question.rules.meal_out_cents is None:
            return None
        food = food_floor(question, batches, self.bought)
        if food is None:
            return None
        kept = min(sum(b.portions for b in batches), question.additions.reserve_portions)
        carried = sum(
            lot.cents * question.additions.carried_share
            for lot in question.portions
            if lot.last_day is None or lot.last_day > question.days
        )
        meals = out * (question.rules.meal_out_cents or 0) - question.additions.reserve_cents * kept - carried
        return own_cost(question, batches) + food + meals

    def plan(self, batches: tuple[Batch, ...]) -> tuple[Fraction, Plan] | None:
        """Return the cheapest plan with these batches, and its cost."""
        question = self.question
        key = serving_key(question, batches)
        if key not in self.served:
            self.served[key] = serve(question, batches)
        handed = self.served[key]
        if handed is None:
            return None
        shopping = buy(question, batches, self.bought)
        if shopping is None:
            return None
        helpings = handed.helpings(question, batches)
        plan = Plan(batches, helpings, shopping.purchases, shopping.drawings)
        return own_cost(question, batches) + handed.cost + shopping.cost, plan


def own_cost(question: Question, batches: tuple[Batch, ...]) -> Fraction:
    """What a set of batches costs by itself: sessions, minutes, and the liking per portion cooked."""
    days = {batch.day for batch in batches}
    cost = Fraction(sum(s.cents for s in question.sessions if s.day in days))
    cost += question.additions.minute_cents * minutes_of(question, batches)
    for batch in batches:
        cost += version_of(question, batch).liking_cents * batch.portions
    return cost


def batch_sets(question: Question) -> Iterator[tuple[Batch, ...]]:
    """Yield every set of batches: each session cooks each dish at most once, perhaps in several versions.

    Left out: sets with more portions than the slots and the reserve can take, and batches with more portions
    than there are appetites that could ever take one. Every portion is eaten or left in reserve, and of each
    batch less than a portion is over besides, so these have no plan.
    """
    unit = appetite_units(question)
    room = sum(int(appetite_of(question, s.eater) * unit) for s in question.slots)
    room += question.additions.reserve_portions * unit
    each_session = [list(_session_sets(question, session)) for session in question.sessions]
    for choice in product(*each_session):
        batches = tuple(chain.from_iterable(choice))
        if sum((b.portions - 1) * unit + 1 for b in batches) <= room and _wishes_hold(question, batches):
            yield batches


def _wishes_hold(question: Question, batches: tuple[Batch, ...]) -> bool:
    """Say whether what must be cooked is, and what must not be is not."""
    for wish in question.wishes:
        if not isinstance(wish, MustCook | MustNotCook):
            continue
        meant = [b for b in batches if b.dish == wish.dish]
        if wish.day is not None:
            meant = [b for b in meant if b.day == wish.day]
        if wish.version is not None:
            meant = [b for b in meant if b.version == wish.version]
        if isinstance(wish, MustNotCook) and meant:
            return False
        if isinstance(wish, MustCook) and sum(b.portions for b in meant) < wish.portions:
            return False
    return True


def _session_sets(question: Question, session: CookSession) -> Iterator[tuple[Batch, ...]]:
    each_dish = [list(_dish_batches(question, session, dish)) for dish in question.dishes]
    for picked in product(*each_dish):
        batches = tuple(chain.from_iterable(picked))
        if minutes_of(question, batches) > session.minutes:
            continue
        if all(_station_min(question, batches, name) <= there for name, there in session.stations.items()):
            yield batches


def _station_min(question: Question, batches: tuple[Batch, ...], station: str) -> Fraction:
    minutes = NOTHING
    for batch in batches:
        load = version_of(question, batch).loads.get(station)
        if load is not None:
            minutes += load.fixed_min + load.per_portion_min * batch.portions
    return minutes


def _dish_batches(question: Question, session: CookSession, dish: DishChoice) -> Iterator[tuple[Batch, ...]]:
    """Yield every way to cook a dish in a session, not cooking it among them."""
    reserve = question.additions.reserve_portions if dish.freezer_days is not None else 0
    each_version = []
    for version in dish.versions:
        takers = sum(
            appetite_of(question, slot.eater)
            for slot in question.slots
            if ways_of_batch(question, dish, version, session.day, slot)
        )
        each_version.append(range(min(dish.greatest, ceil(takers) + reserve) + 1))
    for portions in product(*each_version):
        cooked = sum(1 for n in portions if n)
        total = sum(portions)
        if cooked == 0 or (cooked <= dish.most_versions and dish.least <= total <= dish.greatest):
            yield tuple(
                Batch(session.day, dish.name, version.name, n)
                for version, n in zip(dish.versions, portions, strict=True)
                if n
            )
