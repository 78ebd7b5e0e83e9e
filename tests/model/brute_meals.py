"""The cheapest way to hand portions to slots, by trying every source for every slot; from the rules alone.

A source of a slot's meal is a batch (chilled or frozen), a lot of portions on hand, or a meal out. Appetites are
counted in whole units (`_Unit`), so that a standard portion and every eater's portion are integers.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm

from tests.model.plan_cost import NOTHING, appetite_of, dish_of, span_of, version_of

from ladleworth.decide.answer import Batch, Helping
from ladleworth.decide.question import DishChoice, MealSlot, PortionLot, Question, Version
from ladleworth.decide.rules import MustServe, MustUse


@dataclass(frozen=True, slots=True)
class Given:
    """What a slot gets: a portion of batch number `batch`, a container of lot number `lot`, or a meal out."""

    slot: MealSlot
    batch: int | None = None
    lot: int | None = None
    frozen: bool = False


@dataclass(frozen=True, slots=True)
class Served:
    """The cheapest way found; the cost is of meals out, repeats, portions on hand and the reserve."""

    cost: Fraction
    given: tuple[Given, ...]

    def helpings(self, question: Question, batches: tuple[Batch, ...]) -> tuple[Helping, ...]:
        """Write the helpings down; a version is named only where its session cooks the dish in two."""
        written = []
        for one in self.given:
            slot = one.slot
            dish = cooked = version = lot = None
            if one.batch is not None:
                batch = batches[one.batch]
                dish, cooked = batch.dish, batch.day
                split = sum((b.day, b.dish) == (cooked, dish) for b in batches) > 1
                version = batch.version if split else None
            elif one.lot is not None:
                dish, lot = question.portions[one.lot].dish, question.portions[one.lot].name
            written.append(Helping(slot.day, slot.eater, slot.meal, dish, cooked, one.frozen, version, lot))
        return tuple(written)


def appetite_units(question: Question) -> int:
    """Return into how many units a standard portion is cut so that every eater's portion is whole units."""
    return lcm(*(appetite_of(question, slot.eater).denominator for slot in question.slots))


def ways_of_batch(
    question: Question, dish: DishChoice, version: Version, cooked: int, slot: MealSlot
) -> tuple[bool, ...]:
    """Say how a slot can have a portion of a batch: False chilled, True frozen.

    The day of cooking is day 1 of its age. Frozen on day 1 of its age, taken out on day 2 at the earliest, eaten
    on day 3 at the earliest. Where both would do, only chilled is tried: the container is the same on the same
    nights, so freezing can only be worse. Not so where the fridge is short of room: then both are tried.
    """
    if slot.eater in version.barred or (dish.meals is not None and slot.meal not in dish.meals):
        return ()
    age = slot.day - cooked + 1
    ways = []
    if 1 <= age <= dish.keep_days:
        ways.append(False)
    if dish.freezer_days is not None and 3 <= age <= dish.freezer_days:
        ways.append(True)
    return tuple(ways) if question.rules.fridge_ml is not None else tuple(ways[:1])


def _has_lot(lot: PortionLot, slot: MealSlot) -> bool:
    """Say whether a slot can have a container of the lot."""
    return (
        slot.eater not in lot.barred
        and (lot.meals is None or slot.meal in lot.meals)
        and lot.first_day <= slot.day
        and (lot.last_day is None or slot.day <= lot.last_day)
    )


def may_be_left(question: Question, dish: DishChoice, cooked: int) -> bool:
    """Say whether a portion may lie frozen when the days end: it must still be good on the day after them."""
    return dish.freezer_days is not None and question.days + 1 - cooked + 1 <= dish.freezer_days


def serving_key(question: Question, batches: tuple[Batch, ...]) -> object:
    """Return all that matters of batches when their portions are handed out."""
    versions = [(dish_of(question, b), version_of(question, b), b) for b in batches]
    volumes = _volumes_matter(question)
    bounded = sorted({bound.nutrient for bound in question.rules.nutrient_bounds})
    return tuple(
        (
            *(dish.name, b.day, b.portions, v.barred, v.volume_ml if volumes else 0),
            *(v.nutrients.get(n) for n in bounded),
        )
        for dish, v, b in versions
    )


def _volumes_matter(question: Question) -> bool:
    rules = question.rules
    return bool(rules.container_sizes) or rules.fridge_ml is not None or rules.freezer_ml is not None


@dataclass(frozen=True, slots=True)
class _Option:
    """A source tried for a slot, with what it takes on each night."""

    given: Given
    dish: str | None
    cents: Fraction  # but for repeats
    units: int
    volume_ml: int
    nights: range  # in a container after the slots of these days
    iced: range  # and of these in the freezer
    froze_on: int | None
    nutrients: tuple[Fraction | None, ...]


class _Nights:
    """What lies where after the slots of each day: how many containers, how large, and where."""

    def __init__(self, question: Question) -> None:
        rules = question.rules
        self.days = question.days
        sizes = sorted(rules.container_sizes, key=lambda size: size.capacity_ml)
        # Containers too small for what is above `capacity` leave the larger ones for it (Hall's condition).
        self.steps = [-1, *(size.capacity_ml for size in sizes)] if sizes else []
        self.large = [sum(size.count for size in sizes if size.capacity_ml > step) for step in self.steps]
        self.rules = rules
        self.boxes = [0] * (question.days + 1)
        self.iced = [0] * (question.days + 1)
        self.cool_ml = [0] * (question.days + 1)
        self.iced_ml = [0] * (question.days + 1)
        self.above = [[0] * (question.days + 1) for _ in self.steps]
        self.froze: dict[int, int] = {}

    def put(self, volume: int, nights: range, iced: range, froze_on: int | None, times: int = 1) -> bool:
        """Put containers of one kind away for some nights (`times` below 0: take them back); say if they fit."""
        rules = self.rules
        fits = True
        for night in nights:
            if night > self.days:
                break
            self.boxes[night] += times
            fits = fits and (rules.containers is None or self.boxes[night] <= rules.containers)
            for step, above, large in zip(self.steps, self.above, self.large, strict=True):
                if volume > step:
                    above[night] += times
                    fits = fits and above[night] <= large
            if night in iced:
                self.iced[night] += times
                self.iced_ml[night] += times * volume
            else:
                self.cool_ml[night] += times * volume
            fits = fits and (rules.freezer_places is None or self.iced[night] <= rules.freezer_places)
            fits = fits and (rules.freezer_ml is None or self.iced_ml[night] <= rules.freezer_ml)
            fits = fits and (rules.fridge_ml is None or self.cool_ml[night] <= rules.fridge_ml)
        if froze_on is not None:
            self.froze[froze_on] = self.froze.get(froze_on, 0) + times
            fits = fits and (rules.freezing_load is None or self.froze[froze_on] <= rules.freezing_load)
        return fits


def options_of(question: Question, batches: tuple[Batch, ...], slot: MealSlot) -> list[_Option]:
    """List every source that a slot may have by itself, whatever the others have."""
    unit = appetite_units(question)
    appetite = appetite_of(question, slot.eater)
    bounded = [bound for bound in question.rules.nutrient_bounds if bound.eater == slot.eater]
    options = []
    for i, batch in enumerate(batches):
        dish, version = dish_of(question, batch), version_of(question, batch)
        figures = tuple(
            None
            if b.nutrient not in version.nutrients
            else version.nutrients[b.nutrient]
            * (1 if b.share else appetite)  # fresh is fresh, large or small
            for b in bounded
        )
        for frozen in ways_of_batch(question, dish, version, batch.day, slot):
            # In a container every night from the cooking day to the day before it is eaten; in the freezer
            # until it is taken out on the day before it is eaten (that night it thaws).
            options.append(
                _Option(
                    Given(slot, batch=i, frozen=frozen),
                    batch.dish,
                    NOTHING,
                    int(appetite * unit),
                    ceil(version.volume_ml * appetite),
                    range(batch.day, slot.day),
                    range(batch.day, slot.day - 1) if frozen else range(0),
                    batch.day if frozen else None,
                    figures,
                )
            )
    for k, lot in enumerate(question.portions):
        if _has_lot(lot, slot):
            options.append(
                _Option(
                    Given(slot, lot=k, frozen=lot.frozen),
                    lot.dish,
                    -_worth_left(question, lot),
                    1,
                    lot.volume_ml,
                    range(1, slot.day),
                    range(1, slot.day - 1) if lot.frozen else range(0),
                    None,
                    tuple(lot.nutrients.get(b.nutrient) for b in bounded),
                )
            )
    if question.rules.meal_out_cents is not None:
        out = Fraction(question.rules.meal_out_cents)
        options.append(_Option(Given(slot), None, out, 0, 0, range(0), range(0), None, ()))
    wished = {
        wish.dish
        for wish in question.wishes
        if isinstance(wish, MustServe)
        and (wish.day, wish.eater, wish.meal) == (slot.day, slot.eater, slot.meal)
    }
    return [
        option
        for option in options
        if wished <= {option.dish} and (option.dish is None or None not in option.nutrients)
    ]


def _worth_left(question: Question, lot: PortionLot) -> Fraction:
    """What one container of the lot that is not eaten does to the objective."""
    each = Fraction(lot.cents, lot.portions)
    if lot.last_day is None or lot.last_day > question.days:
        return -each * question.additions.carried_share
    return each


def serve(question: Question, batches: tuple[Batch, ...]) -> Served | None:
    """Return the cheapest way to hand out the portions, or None if there is none.

    Every slot is given each of its sources in turn, in the order of the days. What the nights hold of what is
    eaten only grows on the way, so that a way that no longer fits is given up; what is left over of batches and of
    lots is put away at the end.
    """
    rules, additions = question.rules, question.additions
    unit = appetite_units(question)
    slots = sorted(question.slots)
    each_slot = [options_of(question, batches, slot) for slot in slots]
    if not all(each_slot):
        return None
    dishes = [dish_of(question, b) for b in batches]
    volumes = [version_of(question, b).volume_ml for b in batches]
    left = [b.portions * unit for b in batches]
    on_hand = [lot.portions for lot in question.portions]
    wanted = [0] * len(question.portions)
    for wish in question.wishes:
        if isinstance(wish, MustUse):
            for k, lot in enumerate(question.portions):
                wanted[k] = max(wanted[k], wish.quantity if lot.name == wish.lot else 0)
    nights = _Nights(question)
    had: dict[tuple[str, str], list[int]] = {}  # the days on which an eater had a dish
    brought: dict[tuple[str, int], list[tuple[Fraction | None, ...]]] = {}  # nutrients, by eater and span
    chosen: list[Given] = []
    best_found: Served | None = None
    most_worth = additions.reserve_cents * min(sum(b.portions for b in batches), additions.reserve_portions)
    # What the slots from one on cost and take at least and at most, each by itself.
    least_cents, most_units = [NOTHING], [0]
    for options in reversed(each_slot):
        least_cents.append(least_cents[-1] + min(option.cents for option in options))
        units = max((o.units for o in options if o.given.batch is not None), default=0)
        most_units.append(most_units[-1] + units)
    least_cents.reverse()
    most_units.reverse()

    def end() -> Fraction | None:
        """Freeze what no slot took, if the household allows it; return what all that is left does to the cost."""
        whole = [units // unit for units in left]
        if sum(whole) > additions.reserve_portions or any(
            whole[i] and not may_be_left(question, dishes[i], b.day) for i, b in enumerate(batches)
        ):
            return None
        if any(lot.portions - on_hand[k] < wanted[k] for k, lot in enumerate(question.portions)):
            return None
        if not _within_bounds(question, brought):
            return None
        stays: list[tuple[int, range, range, int | None, int]] = []
        for i, batch in enumerate(batches):
            all_nights = range(batch.day, question.days + 1)
            stays.append((volumes[i], all_nights, all_nights, batch.day, whole[i]))
        for k, lot in enumerate(question.portions):
            # What is not eaten is thrown out on the evening of its last day.
            last = question.days if lot.last_day is None else min(lot.last_day - 1, question.days)
            held = range(1, last + 1)
            stays.append((lot.volume_ml, held, held if lot.frozen else range(0), None, on_hand[k]))
        fits = True
        put = [stay for stay in stays if stay[4]]
        for volume, held, iced, froze_on, times in put:
            fits = nights.put(volume, held, iced, froze_on, times) and fits
        for volume, held, iced, froze_on, times in put:
            nights.put(volume, held, iced, froze_on, -times)
        return Fraction(-additions.reserve_cents * sum(whole)) if fits else None

    def place(at: int, cost: Fraction) -> None:
        nonlocal best_found
        # All that is left must still be eaten, but for less than a portion of each batch and for the reserve.
        if sum(max(0, units - unit + 1) for units in left) > (
            most_units[at] + additions.reserve_portions * unit
        ):
            return
        if best_found is not None and cost + least_cents[at] - most_worth >= best_found.cost:
            return
        if at == len(slots):
            rest = end()
            if rest is not None and (best_found is None or cost + rest < best_found.cost):
                best_found = Served(cost + rest, tuple(chosen))
            return
        slot = slots[at]
        for option in each_slot[at]:
            stock, k = (
                (left, option.given.batch) if option.given.batch is not None else (on_hand, option.given.lot)
            )
            if k is not None and stock[k] < option.units:
                continue
            if option.dish is None:
                chosen.append(option.given)
                place(at + 1, cost + option.cents)
                chosen.pop()
                continue
            assert k is not None
            stock[k] -= option.units
            eaten = had.setdefault((slot.eater, option.dish), [])
            eaten.append(slot.day)
            span = span_of(question, slot.day)
            in_span = sum(span_of(question, day) == span for day in eaten)
            figures = brought.setdefault((slot.eater, span), [])
            figures.append(option.nutrients)
            fits = nights.put(option.volume_ml, option.nights, option.iced, option.froze_on)
            if (
                fits
                and (rules.most_times is None or in_span <= rules.most_times)
                and (rules.in_a_row is None or _run_ending(eaten, slot.day) <= rules.in_a_row)
            ):
                chosen.append(option.given)
                place(at + 1, cost + option.cents + (additions.repeat_cents if in_span > 1 else 0))
                chosen.pop()
            nights.put(option.volume_ml, option.nights, option.iced, option.froze_on, -1)
            figures.pop()
            eaten.pop()
            stock[k] += option.units

    standing = sum((_worth_left(question, lot) * lot.portions for lot in question.portions), NOTHING)
    place(0, standing)
    return best_found


def _within_bounds(
    question: Question, brought: dict[tuple[str, int], list[tuple[Fraction | None, ...]]]
) -> bool:
    """Say whether the mean of each bounded nutrient over an eater's helpings of each span is within its bounds."""
    for (eater, _), helpings in brought.items():
        if not helpings:
            continue
        bounds = [bound for bound in question.rules.nutrient_bounds if bound.eater == eater]
        for at, bound in enumerate(bounds):
            mean = sum((figures[at] or NOTHING for figures in helpings), NOTHING) / len(helpings)
            if (bound.least is not None and mean < bound.least) or (
                bound.most is not None and mean > bound.most
            ):
                return False
    return True


def _run_ending(days_had: list[int], day: int) -> int:
    """Count the days in a row up to `day` on which something was had."""
    length = 0
    while day - length in days_had:
        length += 1
    return length
