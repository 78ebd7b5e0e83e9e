"""From the ledger and the price book to the foods, lots, portions and packages of the question."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from fractions import Fraction
from math import ceil

from ladleworth.decide.pose_dishes import figures, volume_ml
from ladleworth.decide.question import Foodstuff, PackageOffer, PortionLot, StockLot
from ladleworth.dish.dish import BRINGS, Dish, Ingredient, Variant
from ladleworth.errors import MissingFact
from ladleworth.facts import Measure
from ladleworth.household import Kitchen, barred
from ladleworth.ledger import Holding, Kind, LotUnit, Spot, size_of

_NO_MINUTES = (Fraction(0), Fraction(0))


def pose_food(kitchen: Kitchen, food: str, *, offered: bool) -> Foodstuff:
    """Pose a food; raise MissingFact if it is on offer and nobody knows how long it keeps once bought."""
    if offered and food not in kitchen.keep_days:
        raise MissingFact(
            f"nobody knows how long {kitchen.foods.get(food).name} keeps once bought;"
            f" write keep_days for it in foods.yaml"
        )
    pieces = kitchen.foods.get(food).measured_in is Measure.PIECES
    return Foodstuff(food, pieces, kitchen.keep_days.get(food))


def pose_lots(kitchen: Kitchen) -> Iterable[StockLot]:
    """Pose the lots of food on hand; what spoilt before day 1 is left out."""
    household = kitchen.household
    for holding in kitchen.ledger.on_hand(household.start):
        if holding.lot.unit is LotUnit.PORTION:
            continue
        last = None if holding.use_by is None else household.day_of(holding.use_by)
        if last is not None and last < 1:
            continue  # it spoilt before these days: nothing that is decided now changes that
        yield StockLot(holding.lot.id, holding.lot.item, holding.quantity, holding.cents, last)


def pose_offers(kitchen: Kitchen, needed: Iterable[str], on: date | None) -> Iterable[PackageOffer]:
    """Pose what the shops ask for the foods that dishes need, the latest price of each package seen by `on`."""
    for food in sorted(needed):
        for offer in kitchen.prices.latest(food, on=on):
            most = kitchen.most_packages.get(offer.id)
            yield PackageOffer(offer.id, food, offer.shop, offer.quantity, offer.price_cents, most)


def pose_portions(kitchen: Kitchen) -> Iterable[PortionLot]:
    """Pose the portions on hand when the days begin; what spoilt before them is left out.

    A frozen portion has to thaw overnight, so that it is for day 2 on. Which swaps a batch was cooked with is told by
    the foods drawn for it; where these fit no version, whatever is barred in any version is barred. A batch of a dish that is
    not on record any more, or into which other portions went, is barred to whoever has an exclusion. A container that
    was filled for an appetite has that part of a standard portion's nutrients and volume; what it brings does not go by
    its size. A figure on which the versions that it may be do not agree is not known, and never taken for zero.
    """
    household = kitchen.household
    dishes = {dish.id: dish for dish in kitchen.dishes}
    for holding in kitchen.ledger.on_hand(household.start):
        if holding.lot.unit is not LotUnit.PORTION:
            continue
        last = None if holding.use_by is None else household.day_of(holding.use_by)
        if last is not None and last < 1:
            continue
        name = holding.lot.item.split(" ")[0]
        dish = dishes.get(name)
        frozen = holding.standing.spot is Spot.FREEZER
        yield _portions(kitchen, holding, name, dish, last=last, frozen=frozen)


def _portions(
    kitchen: Kitchen, holding: Holding, name: str, dish: Dish | None, *, last: int | None, frozen: bool
) -> PortionLot:
    eaters = kitchen.household.eaters
    nutrients: Mapping[str, Fraction] = {}
    wary = frozenset(e.name for e in eaters if e.never)
    if dish is None:
        shut, volume = wary, _greatest_ml(kitchen)
    else:
        everything = _drawn(kitchen, holding.lot.item)
        drawn = frozenset(item for item in everything if item in kitchen.foods)
        cooked = _cooked_as(dish, drawn)
        found = Variant((), tuple(Ingredient(food, Fraction(1)) for food in sorted(drawn)), *_NO_MINUTES)
        ways = (*cooked, found) if drawn else cooked
        shut = frozenset(
            e.name for e in eaters if any(barred(e, dish, way, kitchen.foods) is not None for way in ways)
        )
        if everything != drawn:
            shut |= wary
        else:
            nutrients = _agreed(kitchen, dish, cooked)
        volume = max(volume_ml(kitchen, dish, variant) for variant in cooked)
    size = size_of(holding.lot.id)
    return PortionLot(
        name=holding.lot.id,
        dish=name,
        portions=holding.quantity,
        cents=holding.cents,
        first_day=2 if frozen else 1,
        last_day=last,
        frozen=frozen,
        barred=shut,
        meals=frozenset(dish.meals) if dish is not None and dish.meals else None,
        nutrients={name: amount if name in BRINGS else amount * size for name, amount in nutrients.items()},
        volume_ml=ceil(volume * size),
    )


def _drawn(kitchen: Kitchen, batch: str) -> frozenset[str]:
    """Gather the foods, and the batches of other portions, drawn for a batch, as far as the draws stand."""
    ledger = kitchen.ledger
    return frozenset(
        ledger.holding(entry.lot).lot.item
        for entry in ledger.movements
        if entry.kind is Kind.DRAWN
        and entry.batch == batch
        and entry.reverses is None
        and ledger.reversal_of(entry.id) is None
    )


def _cooked_as(dish: Dish, drawn: frozenset[str]) -> tuple[Variant, ...]:
    """Give the versions whose bought foods are exactly those drawn; all of them where none is."""
    variants = dish.variants()
    fitting = tuple(
        variant for variant in variants if {i.food for i in variant.ingredients if not i.unmeasured} == drawn
    )
    return fitting or variants


def _agreed(kitchen: Kitchen, dish: Dish, variants: tuple[Variant, ...]) -> Mapping[str, Fraction]:
    """Give the figures of a portion on which all versions that it may be agree."""
    first, *others = (figures(kitchen.household, dish, variant, kitchen.foods) for variant in variants)
    return {
        name: amount
        for name, amount in first.items()
        if all(amounts.get(name) == amount for amounts in others)
    }


def _greatest_ml(kitchen: Kitchen) -> int:
    """Take a portion of which nobody knows what it fills for the largest of all dishes; 0 where it does not matter."""
    return max((volume_ml(kitchen, dish, v) for dish in kitchen.dishes for v in dish.variants()), default=0)
