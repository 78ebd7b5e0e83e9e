"""The exact optimum of a tiny week, found by trying everything; written from the rules in words alone.

It shares no code with the judge or the solver: it counts days, nights in a container, thaws, packages and
draws by itself, in `Fraction`s. It is only meant for questions small enough to try everything:

1. every set of batches that fits the sessions' minutes (`_batch_sets`);
2. for each, every way to hand its portions to the slots (`_serve`);
3. for each, every useful number of packages in every set of shop visits, with the best draws (`buy`).

Whatever is left out of the search is left out with the reason beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, product

from tests.model.brute_food import FoodBuy, buy, food_floor
from tests.model.plan_cost import NOTHING, version_of

from ladleworth.decide.answer import Batch, Helping, Plan
from ladleworth.decide.question import CookSession, DishChoice, MealSlot, Question, Version


def best(question: Question) -> Fraction | None:
    """Return the least cost in cents over all plans that keep the rules; None if no plan keeps them."""
    found = best_plan(question)
    return None if found is None else found[0]


def best_plan(question: Question) -> tuple[Fraction, Plan] | None:
    """Return the least cost and one plan that reaches it; None if no plan keeps the rules."""
    return next(iter(_search(question, keep=1)), None)


def all_plans(question: Question) -> list[tuple[Fraction, Plan]]:
    """Return the cheapest plan of every set of batches that has one, cheapest first."""
    return _search(question, keep=None)


def _search(question: Question, keep: int | None) -> list[tuple[Fraction, Plan]]:
    served: dict[object, _Served | None] = {}
    bought: dict[object, list[FoodBuy]] = {}
    most_left = question.additions.reserve_portions
    found: list[tuple[Fraction, Plan]] = []
    for batches in _batch_sets(question):
        own = _own_cost(question, batches)
        if keep == 1 and found:
            # No plan with these batches can cost less than this: every slot beyond the portions is a meal
            # out, no repeat is priced, every portion that may be left is left, and food costs no less than
            # its unbudgeted best.
            portions = sum(b.portions for b in batches)
            out = max(0, len(question.slots) - portions) * (question.rules.meal_out_cents or 0)
            floor = own + out - question.additions.reserve_cents * min(portions, most_left)
            food = food_floor(question, batches, bought)
            if food is None or floor + food >= found[0][0]:
                continue
        key = tuple((b.dish, b.day, b.portions, version_of(question, b).barred) for b in batches)
        if key not in served:
            served[key] = _serve(question, batches)
        handed = served[key]
        if handed is None:
            continue
        shopping = buy(question, batches, bought)
        if shopping is None:
            continue
        total = own + handed.cost + shopping.cost
        if keep == 1 and found and total >= found[0][0]:
            continue
        plan = Plan(batches, handed.helpings, shopping.purchases, shopping.drawings)
        if keep == 1:
            found = [(total, plan)]
        else:
            found.append((total, plan))
    return sorted(found, key=lambda pair: pair[0])


def _own_cost(question: Question, batches: tuple[Batch, ...]) -> Fraction:
    """What a set of batches costs by itself: minutes, and the liking per portion cooked."""
    cost = NOTHING
    for batch in batches:
        version = version_of(question, batch)
        minutes = version.fixed_min + version.per_portion_min * batch.portions
        cost += question.additions.minute_cents * minutes + version.liking_cents * batch.portions
    return cost


# -- batches ------------------------------------------------------------------------------------------


def _batch_sets(question: Question) -> Iterator[tuple[Batch, ...]]:
    """Yield every set of batches: each session cooks each dish at most once, in one version.

    Left out: sets with more portions than there are slots and reserve places, and batches with more portions
    than there are slots that could ever take one. Every portion is eaten or left in reserve, so these have
    no plan.
    """
    room = len(question.slots) + question.additions.reserve_portions
    each_session = [list(_session_sets(question, session, room)) for session in question.sessions]
    for choice in product(*each_session):
        batches = tuple(chain.from_iterable(choice))
        if sum(b.portions for b in batches) <= room:
            yield batches


def _session_sets(question: Question, session: CookSession, room: int) -> Iterator[tuple[Batch, ...]]:
    each_dish: list[list[Batch | None]] = []
    for dish in question.dishes:
        options: list[Batch | None] = [None]
        for version in dish.versions:
            takers = sum(
                1 for slot in question.slots if _way(dish, version, session.day, slot) is not None
            ) + (question.additions.reserve_portions if dish.freezer_days is not None else 0)
            options.extend(
                Batch(session.day, dish.name, version.name, n)
                for n in range(dish.least, min(dish.greatest, room, takers) + 1)
            )
        each_dish.append(options)
    for picked in product(*each_dish):
        batches = tuple(b for b in picked if b is not None)
        versions = [version_of(question, b) for b in batches]
        minutes = sum(
            (v.fixed_min + v.per_portion_min * b.portions for b, v in zip(batches, versions, strict=True)),
            NOTHING,
        )
        if minutes <= session.minutes:
            yield batches


# -- portions into slots ------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Served:
    cost: Fraction
    helpings: tuple[Helping, ...]


def _way(dish: DishChoice, version: Version, cooked: int, slot: MealSlot) -> str | None:
    """Say how a slot can have a portion: 'chilled', 'frozen', or None if it cannot.

    The day of cooking is day 1 of its age. Where both would do, chilled is taken: a chilled portion fills
    the same container on the same nights and no freezer place, so freezing can only be worse.
    """
    if slot.eater in version.barred or (dish.meals is not None and slot.meal not in dish.meals):
        return None
    age = slot.day - cooked + 1
    if 1 <= age <= dish.keep_days:
        return "chilled"
    # Frozen on day 1 of its age, taken out on day 2 at the earliest, eaten on day 3 at the earliest.
    if dish.freezer_days is not None and 3 <= age <= dish.freezer_days:
        return "frozen"
    return None


def _may_be_left(question: Question, dish: DishChoice, cooked: int) -> bool:
    """Say whether a portion may lie frozen when the days end: it must still be good on the day after them."""
    return dish.freezer_days is not None and question.days + 1 - cooked + 1 <= dish.freezer_days


def _serve(question: Question, batches: tuple[Batch, ...]) -> _Served | None:
    """Return the cheapest way to hand out every portion, by trying every batch and 'out' for every slot."""
    rules, additions, days = question.rules, question.additions, question.days
    slots = sorted(question.slots)
    dishes = [next(d for d in question.dishes if d.name == b.dish) for b in batches]
    versions = [version_of(question, b) for b in batches]
    left = [b.portions for b in batches]
    nights = [0] * (days + 2)  # containers filled after the slots of a day
    frozen = [0] * (days + 2)  # freezer places taken after the slots of a day
    had: dict[tuple[str, str], list[int]] = {}  # the days on which an eater had a dish
    chosen: list[Helping] = []
    best_found: _Served | None = None
    most_worth = additions.reserve_cents * min(sum(left), additions.reserve_portions)

    def hold(counts: list[int], days_held: range, limit: int | None) -> bool:
        for day in days_held:
            counts[day] += 1
        return limit is None or all(counts[day] <= limit for day in days_held)

    def release(counts: list[int], days_held: range) -> None:
        for day in days_held:
            counts[day] -= 1

    def leave_the_rest() -> Fraction | None:
        """Freeze what no slot took, if the household allows it; return what it is worth."""
        total = sum(left)
        if total > additions.reserve_portions:
            return None
        stays = []
        fits = True
        for i, batch in enumerate(batches):
            fits = fits and (left[i] == 0 or _may_be_left(question, dishes[i], batch.day))
            stays += [range(batch.day, days + 1)] * left[i]
        for stay in stays:
            box = hold(nights, stay, rules.containers)
            place = hold(frozen, stay, rules.freezer_places)
            fits = fits and box and place
        for stay in stays:
            release(nights, stay)
            release(frozen, stay)
        return Fraction(additions.reserve_cents * total) if fits else None

    def place(at: int, cost: Fraction) -> None:
        nonlocal best_found
        if sum(left) > len(slots) - at + additions.reserve_portions:
            return
        # From here on the cost only grows, but for what is left in reserve at the end.
        if best_found is not None and cost - most_worth >= best_found.cost:
            return
        if at == len(slots):
            worth = leave_the_rest()
            if worth is not None and (best_found is None or cost - worth < best_found.cost):
                best_found = _Served(cost - worth, tuple(chosen))
            return
        slot = slots[at]
        for i, batch in enumerate(batches):
            way = _way(dishes[i], versions[i], batch.day, slot) if left[i] else None
            if way is None:
                continue
            # In a container every night from the cooking day to the day before it is eaten; in the freezer
            # until it is taken out on the day before it is eaten (that night it thaws).
            boxed = range(batch.day, slot.day)
            iced = range(batch.day, slot.day - 1) if way == "frozen" else range(0)
            eaten = had.setdefault((slot.eater, batch.dish), [])
            fits_box = hold(nights, boxed, rules.containers)
            fits_ice = hold(frozen, iced, rules.freezer_places)
            eaten.append(slot.day)
            left[i] -= 1
            if (
                fits_box
                and fits_ice
                and (rules.most_times is None or len(eaten) <= rules.most_times)
                and (rules.in_a_row is None or _run_ending(eaten, slot.day) <= rules.in_a_row)
            ):
                chosen.append(
                    Helping(slot.day, slot.eater, slot.meal, batch.dish, batch.day, way == "frozen")
                )
                place(at + 1, cost + (additions.repeat_cents if len(eaten) > 1 else 0))
                chosen.pop()
            left[i] += 1
            eaten.pop()
            release(nights, boxed)
            release(frozen, iced)
        if rules.meal_out_cents is not None:
            chosen.append(Helping(slot.day, slot.eater, slot.meal))
            place(at + 1, cost + rules.meal_out_cents)
            chosen.pop()

    place(0, NOTHING)
    return best_found


def _run_ending(days_had: list[int], day: int) -> int:
    """Count the days in a row up to `day` on which something was had."""
    length = 0
    while day - length in days_had:
        length += 1
    return length
