"""What a cook reads beside the timetable: amounts step by step, what to cut for all dishes, and the day before's work."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.cookday.pose_amounts import Measured, counted_words, imperative, listed, measured, plural
from ladleworth.cookday.to_cook import BatchAtWork, Earlier
from ladleworth.dish.dish import Ingredient
from ladleworth.dish.scale import show_amount
from ladleworth.facts import Food, FoodTable
from ladleworth.units import show_minutes

IN_TINS = "tins"
"""The aisle of what needs neither soaking nor thawing."""

_LEAST_LETTERS = 4


@dataclass(frozen=True, slots=True)
class Note:
    """A step that takes no time: something to bear in mind."""

    batch: str
    words: str


@dataclass(frozen=True, slots=True)
class Instruction:
    """What goes into an activity, with the amounts for this batch."""

    activity: str
    ingredients: tuple[Measured, ...]


@dataclass(frozen=True, slots=True)
class DayBefore:
    """Work of the day before; `lead_min` is how long before the cooking begins it has to be begun at the latest."""

    batch: str
    words: str
    hands_min: int
    lead_min: int
    ingredients: tuple[Measured, ...] = ()

    @property
    def when(self) -> str:
        """When to begin, in words."""
        return f"begin at least {show_minutes(self.lead_min)} before the cooking"


@dataclass(frozen=True, slots=True)
class PrepLine:
    """One food cut one way, for all batches that take it so.

    `bought` is exact, in mg or pieces; `edible_mg` and `count` are None where they are not known of every batch.
    """

    food: str
    preparation: tuple[str, ...]
    bought: Fraction
    pieces: bool
    edible_mg: Fraction | None
    count: Fraction | None
    batches: tuple[str, ...]
    words: str


def instructions_of(works: Sequence[BatchAtWork], foods: FoodTable) -> tuple[Instruction, ...]:
    """List the ingredients of every activity that any is first used in, with the batch's amounts.

    Those of a part stand at the part's first step, those of a swap at the first step that is done for it; those of a part
    without steps at the first step that names no part, and if there is none at the batch's first step.
    """
    found: dict[str, list[Measured]] = defaultdict(list)
    for batch in works:
        for part, swap, ingredient in _ingredients(batch):
            found[_first(batch, part, swap)].append(measured(ingredient, batch.batch.factor, foods))
    order = [name for batch in works for work in batch.works for name in work.activities]
    return tuple(Instruction(name, tuple(found[name])) for name in order if name in found)


def _ingredients(batch: BatchAtWork) -> Iterator[tuple[str, str, Ingredient]]:
    """Pair every ingredient of a batch with its part and, where it comes with a swap, the swap."""
    chosen = dict(batch.batch.variant.swaps)
    for part in batch.batch.dish.parts:
        yield from ((part.name, "", ingredient) for ingredient in part.ingredients)
        for swap in part.swaps:
            if swap.name == chosen.get(part.name):
                yield from ((part.name, swap.name, ingredient) for ingredient in swap.ingredients)


def _first(batch: BatchAtWork, part: str, swap: str) -> str:
    """Find the activity at which an ingredient of a part (and swap) is listed."""
    for work in batch.works:
        if swap and (part, swap) in work.step.swaps:
            return work.first
    of_part = [work for work in batch.works if work.step.part == part and not work.step.swaps]
    of_none = [work for work in batch.works if not work.step.part and not work.step.swaps]
    return next(work.first for work in (*of_part, *of_none, *batch.works))


def prep_list_of(works: Sequence[BatchAtWork], foods: FoodTable) -> tuple[PrepLine, ...]:
    """Put together what is cut for all batches: one line for each food and cut, in the order first met."""
    groups: dict[tuple[str, tuple[str, ...]], list[tuple[str, Measured]]] = {}
    for batch in works:
        for _, _, ingredient in _ingredients(batch):
            if ingredient.preparation and not ingredient.unmeasured:
                one = measured(ingredient, batch.batch.factor, foods)
                groups.setdefault((one.food, one.preparation), []).append((batch.name, one))
    return tuple(_prep_line(group, foods) for group in groups.values())


def _prep_line(group: Sequence[tuple[str, Measured]], foods: FoodTable) -> PrepLine:
    things = [one for _, one in group]
    first = things[0]
    weights = [one.edible_mg for one in things if one.edible_mg is not None]
    counts = [one.count for one in things if one.count is not None and one.piece == first.piece]
    edible = sum(weights, Fraction(0)) if len(weights) == len(things) else None
    count = sum(counts, Fraction(0)) if len(counts) == len(things) else None
    bought = sum((one.bought for one in things), Fraction(0))
    batches = tuple(dict.fromkeys(name for name, _ in group))
    thing = _counted_thing(foods.get(first.food), first.name, count, first.piece)
    mass = edible or (Fraction(0) if first.pieces else bought)
    amount = (
        f": {show_amount(mass).text}"
        if mass
        else ""
        if count is not None
        else f": {show_amount(bought, pieces=True).text}"
    )
    words = f"{imperative(first.preparation, thing)}{amount}, for {listed(batches)}"
    return PrepLine(first.food, first.preparation, bought, first.pieces, edible, count, batches, words)


def _counted_thing(food: Food, called: str, count: Fraction | None, piece: str) -> str:
    """Name a food with how many of it: '3 onions', '4 cloves of garlic'; as the recipe calls it without a count."""
    if count is None:
        return called
    number = counted_words(count, piece)
    return f"{number} of {called}" if piece else f"{number} {plural(food, count)}"


def day_before_of(works: Sequence[BatchAtWork], foods: FoodTable) -> tuple[DayBefore, ...]:
    """List the work of the day before, what has to be begun first in front."""
    listed = [_day_before(batch, earlier, foods) for batch in works for earlier in batch.earlier]
    return tuple(sorted(listed, key=lambda one: -one.lead_min))


def _day_before(batch: BatchAtWork, earlier: Earlier, foods: FoodTable) -> DayBefore:
    """Tell of a step of the day before, with those ingredients of its part that its words name.

    Tins are left out ('soak the beans' does not mean the canned ones), and so is what has no amount or comes from the tap.
    """
    step = earlier.step
    wanted = _words(step.text)
    named = [
        measured(ingredient, batch.batch.factor, foods)
        for part, _, ingredient in _ingredients(batch)
        if step.part in ("", part)
        and not ingredient.unmeasured
        and foods.get(ingredient.food).aisle != IN_TINS
        and wanted & _words(f"{foods.get(ingredient.food).name} {ingredient.text}")
    ]
    return DayBefore(batch.name, step.text, earlier.hands_min, earlier.lead_min, tuple(named))


def _words(text: str) -> frozenset[str]:
    """Give the words of a text that say something, in small letters and without a plural's s."""
    words = re.findall(r"[^\W\d_]+", text.casefold())
    return frozenset(word.removesuffix("s") for word in words if len(word) >= _LEAST_LETTERS)
