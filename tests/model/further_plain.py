"""The plain week that the made-up weeks with further rules begin from; every figure is invented."""

from __future__ import annotations

import random
from fractions import Fraction

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

GRAM = 1000
EATERS = ("Ada", "Ben")


def plain_week(dice: random.Random) -> Question:
    days = dice.randint(3, 5)
    sessions_count = dice.choice((1, 1, 2))
    foods = (Foodstuff("rice"), Foodstuff("beans"), Foodstuff("meat", keep_days=dice.randint(2, 4)))
    everyone = [MealSlot(day, eater) for day in range(1, days + 1) for eater in EATERS]
    slots = sorted(dice.sample(everyone, dice.randint(3, 6)))
    cook_days = sorted({1, *dice.sample(range(2, days + 1), sessions_count - 1)})
    return Question(
        days,
        tuple(slots),
        tuple(CookSession(day, dice.choice((40, 60, 120))) for day in cook_days),
        tuple(_dish(dice, name) for name in ("stew", "bake")[: dice.choice((1, 2, 2))]),
        foods,
        _lots(dice, days),
        tuple(
            PackageOffer(
                f"{name} pack",
                name,
                "corner",
                size * GRAM,
                dice.randint(size // 3, size),
                dice.choice((None, 1, 2)),
            )
            for name, size in (
                ("rice", dice.choice((150, 300))),
                ("beans", dice.choice((120, 240))),
                ("meat", 200),
            )
        ),
        (ShopVisit("corner", dice.choice((0, 20, 60))),),
        HouseRules(
            containers=dice.choice((None, None, None, 2, 3)),
            freezer_places=dice.choice((None, None, 1, 2)),
            budget_cents=dice.choice((None, None, None, 300, 600)),
            meal_out_cents=None if dice.random() < 0.04 else dice.choice((150, 250, 400)),
            in_a_row=dice.choice((None, 2, 2, 3)),
        ),
        Additions(
            repeat_cents=dice.choice((0, 0, 0, 20)),
            minute_cents=Fraction(dice.choice((0, 0, 1, 3)), 2),
            reserve_portions=dice.choice((0, 0, 1)),
            reserve_cents=dice.choice((0, 100)),
            carried_share=dice.choice((Fraction(1), Fraction(9, 10), Fraction(1, 2))),
        ),
    )


def _dish(dice: random.Random, name: str) -> DishChoice:
    return DishChoice(
        name,
        tuple(any_version(dice, swap) for swap in ("with beans", "with meat")[: dice.choice((1, 2))]),
        least=dice.choice((1, 1, 2)),
        greatest=dice.choice((3, 4, 6)),
        keep_days=dice.choice((1, 2, 3, 4)),
        freezer_days=dice.choice((None, 4, 30)),
    )


def any_version(dice: random.Random, swap: str) -> Version:
    return Version(
        swap,
        {
            "rice": Fraction(dice.choice((50, 75, 100)) * GRAM),
            swap.removeprefix("with "): Fraction(dice.choice((60, 90, 120)) * GRAM, dice.choice((1, 1, 7))),
        },
        fixed_min=Fraction(dice.choice((0, 5, 10))),
        per_portion_min=Fraction(dice.choice((2, 5, 8)), dice.choice((1, 3))),
        barred=frozenset({"Ben"} if swap == "with meat" and dice.random() < 0.5 else ()),
    )


def _lots(dice: random.Random, days: int) -> tuple[StockLot, ...]:
    last_days = (None, 1, days, days + 2)
    return tuple(
        StockLot(
            f"old {food}",
            food,
            dice.choice((80, 150, 260)) * GRAM,
            dice.randint(20, 120),
            dice.choice(last_days),
        )
        for food in ("rice", "beans", "meat")
        if dice.random() < 0.4
    )
