"""Pose the question: from the kitchen on record to the plain records that the decision works on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date
from fractions import Fraction
from math import floor

from ladleworth.decide.question import (
    Additions,
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    MealSlot,
    PackageOffer,
    Question,
    ShopVisit,
    StockLot,
    Version,
)
from ladleworth.dish.dish import Dish, Variant
from ladleworth.errors import MissingFact
from ladleworth.facts import FoodTable, Measure
from ladleworth.household import Kitchen, barred
from ladleworth.ledger import LotUnit


def pose(kitchen: Kitchen, on: date | None = None) -> Question:
    """Pose the question of a kitchen's week.

    Parameters
    ----------
    kitchen
        The kitchen on record. Its `household.start` is day 1.
    on
        Prices seen by then count; None: all, the latest of each package.

    Returns
    -------
    Question
        Dishes, lots and offers under their ids. Foods that no dish takes are left out of the offers but not
        of the stock, since they can spoil; what spoilt before day 1 is. Portions on hand are not planned with.

    Raises
    ------
    MissingFact
        If nobody knows how long a food keeps that the shops offer and a dish takes.
    """
    household = kitchen.household
    dishes = tuple(_choice(kitchen, dish) for dish in kitchen.dishes)
    needed = {food for dish in dishes for version in dish.versions for food in version.needs}
    lots = tuple(_lots(kitchen))
    offers = tuple(_offers(kitchen, needed, on))
    foods = sorted(needed | {lot.food for lot in lots})
    offered = {offer.food for offer in offers}
    listed = {shop.name: shop.trip_cents for shop in household.shops}
    shops = dict.fromkeys([*listed, *(offer.shop for offer in offers)])
    rules, wishes = household.rules, household.wishes
    return Question(
        days=household.days,
        slots=tuple(MealSlot(s.day, s.eater, s.meal) for s in household.slots()),
        sessions=tuple(CookSession(day, minutes) for day, minutes in household.session_minutes()),
        dishes=dishes,
        foods=tuple(_foodstuff(kitchen, food, offered=food in offered) for food in foods),
        lots=lots,
        offers=offers,
        shops=tuple(ShopVisit(name, listed.get(name, 0)) for name in shops),
        rules=HouseRules(
            rules.containers,
            rules.freezer_places,
            rules.budget_cents,
            rules.meal_out_cents,
            rules.in_a_row,
            rules.most_times,
        ),
        additions=Additions(
            wishes.repeat_cents,
            wishes.minute_cents,
            wishes.reserve_portions,
            wishes.reserve_cents,
            wishes.carried_share,
        ),
    )


def _choice(kitchen: Kitchen, dish: Dish) -> DishChoice:
    liking = dict(kitchen.household.wishes.liking_cents).get(dish.id, 0)
    return DishChoice(
        name=dish.id,
        versions=tuple(_version(kitchen, dish, variant, liking) for variant in dish.variants()),
        least=dish.least,
        greatest=dish.greatest,
        keep_days=dish.keep_days,
        freezer_days=dish.freezer_days,
        meals=frozenset(dish.meals) if dish.meals else None,
    )


def _version(kitchen: Kitchen, dish: Dish, variant: Variant, liking_cents: int) -> Version:
    return Version(
        name=variant.name,
        needs=per_portion(dish, variant, kitchen.foods),
        fixed_min=variant.fixed_min,
        per_portion_min=variant.per_portion_min,
        barred=frozenset(
            eater.name
            for eater in kitchen.household.eaters
            if barred(eater, dish, variant, kitchen.foods) is not None
        ),
        liking_cents=Fraction(-liking_cents),
    )


def per_portion(dish: Dish, variant: Variant, foods: FoodTable) -> Mapping[str, Fraction]:
    """Add up what one portion takes of each food, as bought; nothing unmeasured.

    Returns
    -------
    Mapping
        Pieces exact, mass in whole milligrams, rounded down (a mass below one milligram stays exact): a recipe
        that takes all of a package must not need a milligram more than the package, rounded, holds.
    """
    needs: dict[str, Fraction] = defaultdict(Fraction)
    for ingredient in variant.ingredients:
        if not ingredient.unmeasured:
            needs[ingredient.food] += ingredient.bought / dish.portions
    return {
        food: amount
        if foods.get(food).measured_in is Measure.PIECES or amount < 1
        else Fraction(floor(amount))
        for food, amount in needs.items()
    }


def _foodstuff(kitchen: Kitchen, food: str, *, offered: bool) -> Foodstuff:
    if offered and food not in kitchen.keep_days:
        raise MissingFact(
            f"nobody knows how long {kitchen.foods.get(food).name} keeps once bought;"
            f" write keep_days for it in foods.yaml"
        )
    pieces = kitchen.foods.get(food).measured_in is Measure.PIECES
    return Foodstuff(food, pieces, kitchen.keep_days.get(food))


def _lots(kitchen: Kitchen) -> Iterable[StockLot]:
    household = kitchen.household
    for holding in kitchen.ledger.on_hand(household.start):
        if holding.lot.unit is LotUnit.PORTION:
            continue
        last = None if holding.use_by is None else household.day_of(holding.use_by)
        if last is not None and last < 1:
            continue  # it spoilt before these days: nothing that is decided now changes that
        yield StockLot(holding.lot.id, holding.lot.item, holding.quantity, holding.cents, last)


def _offers(kitchen: Kitchen, needed: Iterable[str], on: date | None) -> Iterable[PackageOffer]:
    for food in sorted(needed):
        for offer in kitchen.prices.latest(food, on=on):
            most = kitchen.most_packages.get(offer.id)
            yield PackageOffer(offer.id, food, offer.shop, offer.quantity, offer.price_cents, most)
