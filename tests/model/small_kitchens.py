"""Small made-up weeks, the same for the same seed: every figure in them is invented for the check."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

from tests.model.further_kitchens import further_kitchen

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

PLAIN_KITCHENS = 240
"""The weeks of the seeds below this have plain rules alone; those from it on have what a household may add."""

KITCHENS = 400
"""How many seeds the checks sweep over: 0..KITCHENS - 1."""

GRAM = 1000


def small_kitchen(seed: int) -> Question:
    """Return the small week of this seed.

    Of the plain ones every fifth is short of freezer places, and every fifth of money.
    """
    if seed >= PLAIN_KITCHENS:
        return further_kitchen(seed - PLAIN_KITCHENS)
    dice = random.Random(seed)
    if seed % 5 == 3:
        return _full_freezer(dice)
    question = _any_kitchen(dice)
    if seed % 5 == 4:
        tight = dice.randint(15, 60) * len(question.slots)
        rules = replace(question.rules, budget_cents=tight, meal_out_cents=dice.choice((250, 400, 700)))
        return replace(question, rules=rules)
    return question


def _full_freezer(dice: random.Random) -> Question:
    """Return a week that lives from the freezer: one or two dishes that keep a day or two chilled."""
    days = dice.randint(4, 6)
    foods = (Foodstuff("rice"), Foodstuff("greens", keep_days=dice.randint(1, 4)))
    slots = tuple(
        MealSlot(day, eater) for day in range(2, days + 1) for eater in ("Ada", "Ben") if dice.random() < 0.55
    )[:6]
    shops = (ShopVisit("corner", dice.choice((20, 60, 120))),)
    dishes = tuple(
        replace(
            _dish(dice, name, foods, ("Ada", "Ben"), 4),
            keep_days=dice.randint(1, 2),
            freezer_days=30,
            meals=None,
        )
        for name in _DISHES[: dice.randint(1, 2)]
    )
    return Question(
        days,
        slots or (MealSlot(days, "Ada"),),
        tuple(CookSession(day, dice.randint(20, 60)) for day in (1, dice.randint(2, 3))),
        dishes,
        foods,
        _lots(dice, foods, days),
        tuple(
            PackageOffer(
                f"{f.name} pack",
                f.name,
                "corner",
                size * GRAM,
                dice.randint(20, 160),
                dice.choice((None, 1, 2)),
            )
            for f in foods
            for size in (dice.choice((100, 150, 300)),)
        ),
        shops,
        HouseRules(
            containers=dice.choice((None, 3, 4)),
            freezer_places=dice.randint(1, 2),
            meal_out_cents=dice.choice((None, 300, 500)),
            in_a_row=dice.choice((None, 2)),
        ),
        replace(_additions(dice), reserve_portions=dice.choice((0, 1))),
    )


def _any_kitchen(dice: random.Random) -> Question:
    sessions_count = 1 if dice.random() < 0.4 else 2
    dish_count = dice.choice((1, 2, 2, 3, 3, 4)) if sessions_count == 1 else dice.choice((1, 2, 2, 3))
    most_slots = {1: 8, 2: 7, 3: 6, 4: 5}[dish_count] - (sessions_count - 1 if dish_count > 1 else 0)
    days = dice.randint(2, 6)
    foods = _foods(dice)
    slots = _slots(dice, days, most_slots)
    # Now and then the cook cannot be there at the start, and the early slots have to go out.
    early = min(days, 2)
    first = dice.randint(1, early)
    cook_days = {first} if sessions_count == 1 else {first, dice.randint(min(first + 1, days), days)}
    sessions = tuple(
        CookSession(day, dice.choice((dice.randint(10, 45), dice.randint(10, 45), 120)))
        for day in sorted(cook_days)
    )
    shops = tuple(
        ShopVisit(name, dice.choice((0, 0, 30, 75, 140)))
        for name in ("corner", "market")[: dice.randint(1, 2)]
    )
    eaters = tuple(dict.fromkeys(slot.eater for slot in slots))
    dishes = tuple(_dish(dice, name, foods, eaters, dish_count) for name in _DISHES[:dish_count])
    lots = _lots(dice, foods, days)
    offers = _offers(dice, foods, shops)
    return Question(
        days, slots, sessions, dishes, foods, lots, offers, shops, _rules(dice, slots), _additions(dice)
    )


_DISHES = ("stew", "bake", "curry", "soup")


def _foods(dice: random.Random) -> tuple[Foodstuff, ...]:
    return (
        Foodstuff("rice"),
        Foodstuff("greens", keep_days=dice.randint(1, 4)),
        Foodstuff("eggs", pieces=True, keep_days=dice.choice((None, 3, 5, 14))),
    )[: dice.choice((1, 2, 3, 3))]


def _slots(dice: random.Random, days: int, most: int) -> tuple[MealSlot, ...]:
    eaters = ("Ada", "Ben")[: dice.randint(1, 2)]
    meals = ("supper",) if dice.random() < 0.6 else ("lunch", "supper")
    everyone = [MealSlot(day, e, m) for day in range(1, days + 1) for e in eaters for m in meals]
    count = dice.randint(min(2, len(everyone)), min(most, len(everyone)))
    picked = sorted(dice.sample(everyone, count))
    if dice.random() < 0.5:  # the order in which a household lists its slots must not matter
        dice.shuffle(picked)
    return tuple(picked)


def _dish(
    dice: random.Random, name: str, foods: tuple[Foodstuff, ...], eaters: tuple[str, ...], dish_count: int
) -> DishChoice:
    two = dice.random() < (0.5 if dish_count < 3 else 0.25)
    fixed = Fraction(dice.choice((0, 5, 10, 15, 25)))
    each = Fraction(dice.choice((0, 2, 3, 5, 8)), dice.choice((1, 1, 2, 3)))
    versions = tuple(
        Version(
            f"{name} {swap}",
            _recipe(dice, foods),
            fixed_min=fixed,
            per_portion_min=each,
            barred=frozenset(e for e in eaters if dice.random() < 0.2),
            liking_cents=Fraction(dice.choice((-40, -15, 10, 25)), dice.choice((1, 2, 3)))
            if dice.random() < 0.25
            else Fraction(0),
        )
        for swap in (("plain", "rich") if two else ("plain",))
    )
    least = dice.choice((1, 1, 1, 2, 2, 3))
    return DishChoice(
        name,
        versions,
        least=least,
        greatest=least + dice.choice((0, 1, 2, 3, 5)),
        keep_days=dice.choice((1, 2, 2, 3, 4)),
        freezer_days=dice.choice((None, 2, 3, 4, 5, 30)),
        meals=frozenset({dice.choice(("lunch", "supper"))}) if dice.random() < 0.15 else None,
    )


def _recipe(dice: random.Random, foods: tuple[Foodstuff, ...]) -> dict[str, Fraction]:
    chosen = dice.sample(foods, dice.randint(1, min(2, len(foods))))
    return {
        food.name: Fraction(dice.choice((1, 1, 2, 3)), dice.choice((1, 2, 3)))
        if food.pieces
        else Fraction(dice.choice((50, 80, 100, 125, 200)) * GRAM, dice.choice((1, 1, 3, 7)))
        for food in sorted(chosen, key=lambda f: f.name)
    }


def _lots(dice: random.Random, foods: tuple[Foodstuff, ...], days: int) -> tuple[StockLot, ...]:
    lots = []
    for food in foods:
        for number in range(dice.choice((0, 0, 1, 1, 2))):
            quantity = dice.randint(1, 5) if food.pieces else dice.choice((60, 150, 200, 340)) * GRAM
            last = dice.choice((None, 0, 1, 2, days - 1, days, days + 1, days + 9))
            lots.append(
                StockLot(f"{food.name} {number + 1}", food.name, quantity, dice.randint(0, 180), last)
            )
    return tuple(lots)


def _offers(
    dice: random.Random, foods: tuple[Foodstuff, ...], shops: tuple[ShopVisit, ...]
) -> tuple[PackageOffer, ...]:
    offers = []
    for food in foods:
        for shop in shops:
            if dice.random() < 0.2:
                continue
            sizes = dice.sample(
                (2, 3, 6) if food.pieces else (120, 250, 400),
                1 if len(shops) > 1 and dice.random() < 0.8 else dice.choice((1, 2)),
            )
            for size in sorted(sizes):
                quantity = size if food.pieces else size * GRAM
                fair = size * (22 if food.pieces else 1)
                offers.append(
                    PackageOffer(
                        f"{food.name} {size} at {shop.name}",
                        food.name,
                        shop.name,
                        quantity,
                        max(0, int(fair * dice.uniform(0.5, 1.3))),
                        dice.choice((None, None, None, 1, 2)),
                    )
                )
    return tuple(offers)


def _rules(dice: random.Random, slots: tuple[MealSlot, ...]) -> HouseRules:
    def limit(chance: float, least: int, greatest: int) -> int | None:
        return dice.randint(least, greatest) if dice.random() < chance else None

    return HouseRules(
        containers=limit(0.45, 0, max(2, len(slots) - 1)),
        freezer_places=limit(0.5, 0, 3),
        budget_cents=limit(0.45, 80, 170 * len(slots)),
        meal_out_cents=None if dice.random() < 0.3 else dice.choice((90, 250, 400, 700)),
        in_a_row=dice.choice((None, 1, 2, 2, 2, 3)),
        most_times=limit(0.3, 1, 3),
    )


def _additions(dice: random.Random) -> Additions:
    return Additions(
        repeat_cents=dice.choice((0, 0, 0, 15, 60)),
        minute_cents=Fraction(dice.choice((0, 0, 0, 1, 4))),
        reserve_portions=dice.choice((0, 0, 0, 1, 2)),
        reserve_cents=dice.choice((0, 60, 150, 300)),
        carried_share=dice.choice((Fraction(1), Fraction(1), Fraction(1), Fraction(7, 10), Fraction(0))),
    )
