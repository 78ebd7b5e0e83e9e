"""Pose the question: from the kitchen on record to the plain records that the decision works on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from datetime import date

from ladleworth.decide.pose_dishes import per_portion, pose_dish
from ladleworth.decide.pose_nutrients import never_served, pose_bounds, without_figures
from ladleworth.decide.pose_stock import pose_food, pose_lots, pose_offers, pose_portions
from ladleworth.decide.question import Additions, CookSession, HouseRules, MealSlot, Question, ShopVisit
from ladleworth.decide.rules import ContainerSize
from ladleworth.household import Household, Kitchen, Rules, Wishes

__all__ = ["never_served", "per_portion", "pose", "without_figures"]


def pose(kitchen: Kitchen, on: date | None = None) -> Question:
    """Pose the question of a kitchen's week, or of several.

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
        of the stock, since they can spoil; what spoilt before day 1 is, food and portions alike. Volumes, station
        minutes, nutrients and what is brought are there only where a rule of the house goes by them. Whoever has no
        slot has no appetite and no bounds.

    Raises
    ------
    MissingFact
        If nobody knows how long a food keeps that the shops offer and a dish takes, or what a portion fills where
        containers by size or room go by it.
    """
    household = kitchen.household
    dishes = tuple(pose_dish(kitchen, dish) for dish in kitchen.dishes)
    needed = {food for dish in dishes for version in dish.versions for food in version.needs}
    lots = tuple(pose_lots(kitchen))
    offers = tuple(pose_offers(kitchen, needed, on))
    foods = sorted(needed | {lot.food for lot in lots})
    offered = {offer.food for offer in offers}
    listed = {shop.name: shop.trip_cents for shop in household.shops}
    shops = dict.fromkeys([*listed, *(offer.shop for offer in offers)])
    slots = tuple(MealSlot(s.day, s.eater, s.meal) for s in household.slots())
    eaters = {slot.eater for slot in slots}
    return Question(
        days=household.days,
        slots=slots,
        sessions=tuple(
            CookSession(day, session.minutes, household.station_minutes(session), session.cents)
            for day, session in household.cook_days()
        ),
        dishes=dishes,
        foods=tuple(pose_food(kitchen, food, offered=food in offered) for food in foods),
        lots=lots,
        offers=offers,
        shops=tuple(ShopVisit(name, listed.get(name, 0)) for name in shops),
        rules=_rules(household, eaters),
        additions=_additions(household.wishes),
        portions=tuple(pose_portions(kitchen)),
        appetites={
            eater.name: eater.appetite
            for eater in household.eaters
            if eater.appetite != 1 and eater.name in eaters
        },
    )


def _rules(household: Household, eaters: Collection[str]) -> HouseRules:
    rules = household.rules
    span = rules.week_days
    return HouseRules(
        containers=rules.containers,
        freezer_places=rules.freezer_places,
        budget_cents=rules.budget_cents,
        meal_out_cents=rules.meal_out_cents,
        in_a_row=rules.in_a_row,
        most_times=rules.most_times,
        span_days=None if span is None or span >= household.days else span,
        freezing_load=rules.freezing_load,
        container_sizes=_sizes(rules),
        fridge_ml=rules.fridge_room_ml,
        freezer_ml=rules.freezer_room_ml,
        nutrient_bounds=pose_bounds(household, eaters),
    )


def _sizes(rules: Rules) -> tuple[ContainerSize, ...]:
    """Count the containers by what they hold with room at the top, the smallest first."""
    counts: Counter[int] = Counter()
    for container in rules.container_sizes:
        counts[container.capacity_ml(rules.headspace)] += container.count
    return tuple(ContainerSize(capacity, count) for capacity, count in sorted(counts.items()))


def _additions(wishes: Wishes) -> Additions:
    return Additions(
        wishes.repeat_cents,
        wishes.minute_cents,
        wishes.reserve_portions,
        wishes.reserve_cents,
        wishes.carried_share,
    )
