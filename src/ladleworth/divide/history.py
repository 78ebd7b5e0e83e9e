"""A dish's own yields: what the scale said of its batches, the middle of them, and what to write into its papers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from statistics import median

from ladleworth.dish.dish import Dish, Role, Variant
from ladleworth.dish.scale import scale
from ladleworth.divide.heaps import Known, heaps_of
from ladleworth.divide.making import PartMade, parts_made
from ladleworth.divide.readings import Reading, standing
from ladleworth.facts import FoodTable
from ladleworth.units import half_up


@dataclass(frozen=True, slots=True)
class WeighedBatch:
    """What was weighed of a batch: the day it was cooked, its version and standard portions, its readings in order."""

    when: date
    version: str
    portions: int
    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class SeenYield:
    """A reading beside its reckoning.

    Parameters
    ----------
    when, version, portions
        Of the batch.
    parts
        What was weighed together.
    net_mg
        What the scale said, less the pot.
    per_portion_mg
        The same for each standard portion, exact.
    reckoned_mg
        What a standard portion is reckoned to weigh by the dish as it stands now; None where an ingredient has no figure,
        or the dish has no such version or part any more.
    """

    when: date
    version: str
    portions: int
    parts: tuple[str, ...]
    net_mg: int
    per_portion_mg: Fraction
    reckoned_mg: Fraction | None


@dataclass(frozen=True, slots=True)
class MedianYield:
    """The middle of several batches' readings of the same parts of one version, by the standard portion in mg."""

    version: str
    parts: tuple[str, ...]
    batches: int
    per_portion_mg: Fraction
    reckoned_mg: Fraction | None


@dataclass(frozen=True, slots=True)
class OfferedYield:
    """The yield that the newest weighed batch comes to for the portions of the recipe, to be written as `yield:`."""

    when: date
    version: str
    portions: int
    mass_mg: int


@dataclass(frozen=True, slots=True)
class YieldHistory:
    """A dish's readings, the earliest first; the medians; and the yield on offer, None where there is none to offer."""

    seen: tuple[SeenYield, ...] = ()
    medians: tuple[MedianYield, ...] = ()
    offered: OfferedYield | None = None


def history_of(dish: Dish, foods: FoodTable, batches: Iterable[WeighedBatch]) -> YieldHistory:
    """Put what was weighed of a dish beside what it is reckoned to weigh.

    Parameters
    ----------
    dish, foods
        The dish as written, and the food table.
    batches
        Every batch of it that was weighed.

    Returns
    -------
    YieldHistory
        Of each batch the readings that still count. A yield is offered where the newest batch's readings, with the
        reckoned weight of what was not weighed because it is garnish, kept apart or comes in pieces, make up the whole
        dish, and it is another than the dish has.
    """
    ordered = sorted(batches, key=lambda batch: batch.when)
    made = {variant.name: parts_made(dish, variant, foods) for variant in dish.variants()}
    seen = tuple(
        _seen(dish, batch, reading, made.get(batch.version, ()))
        for batch in ordered
        for reading in standing(batch.readings)
        if not reading.in_pieces
    )
    return YieldHistory(seen, _medians(seen), _offered(dish, foods, ordered))


def _seen(dish: Dish, batch: WeighedBatch, reading: Reading, made: Sequence[PartMade]) -> SeenYield:
    masses = {one.part: one.mass_mg for one in made}
    known = [mass for part in reading.parts if (mass := masses.get(part)) is not None]
    reckoned = sum(known, Fraction(0)) / dish.portions if len(known) == len(reading.parts) else None
    per_portion = Fraction(reading.net, batch.portions)
    return SeenYield(
        batch.when, batch.version, batch.portions, reading.parts, reading.net, per_portion, reckoned
    )


def _medians(seen: Sequence[SeenYield]) -> tuple[MedianYield, ...]:
    groups: dict[tuple[str, tuple[str, ...]], list[SeenYield]] = {}
    for one in seen:
        groups.setdefault((one.version, one.parts), []).append(one)
    return tuple(
        MedianYield(
            version,
            parts,
            len(group),
            Fraction(median([one.per_portion_mg for one in group])),
            group[-1].reckoned_mg,
        )
        for (version, parts), group in groups.items()
    )


def _offered(dish: Dish, foods: FoodTable, ordered: Sequence[WeighedBatch]) -> OfferedYield | None:
    variants: dict[str, Variant] = {variant.name: variant for variant in dish.variants()}
    for batch in reversed(ordered):
        if batch.version not in variants:
            continue
        mass = _whole_mg(dish, variants[batch.version], foods, batch)
        if mass is None:
            continue
        offered = half_up(mass * dish.portions / batch.portions / 1000) * 1000
        if offered == dish.yield_mg or not offered:
            return None
        return OfferedYield(batch.when, batch.version, dish.portions, offered)
    return None


def _whole_mg(dish: Dish, variant: Variant, foods: FoodTable, batch: WeighedBatch) -> Fraction | None:
    """Add a batch up, what was weighed and what need not be; None where a part is missing."""
    scaled = scale(dish, Fraction(batch.portions, dish.portions), batch.portions)
    of_batch = next(one for one in scaled.variants() if one.swaps == variant.swaps)
    made = parts_made(scaled, of_batch, foods)
    names = {one.part for one in made}
    if not any(not reading.in_pieces for reading in standing(batch.readings)):
        return None
    if any(not set(reading.parts) <= names for reading in batch.readings):
        return None
    by_itself = {one.part for one in made if one.apart or one.counted is not None or one.role is Role.GARNISH}
    total = Fraction(0)
    for heap in heaps_of(made, batch.readings, None, batch.portions):
        needs_no_scale = heap.known is Known.COUNTED or set(heap.parts) <= by_itself
        if heap.total_mg is None or not (heap.known is Known.WEIGHED or needs_no_scale):
            return None
        total += heap.total_mg
    return total
