"""Seeded questions for the benches: invented kitchens whose dishes share a stock of staples."""

from __future__ import annotations

import random
from fractions import Fraction

from ladleworth.decide import (
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

MEALS = ("breakfast", "lunch", "dinner")


def kitchen_like(
    seed: int,
    *,
    dishes: int = 24,
    days: int = 7,
    eaters: int = 2,
    meals: tuple[str, ...] = MEALS,
    staples: int = 60,
    minutes: int = 150,
    containers: int = 16,
    freezer_places: int = 8,
    meal_out_cents: int = 700,
    budget_cents: int = 6000,
) -> Question:
    """Invent a kitchen: two shops that stock most foods, sessions on days 1 and 4 of each week."""
    rng = random.Random(seed)
    shops = (ShopVisit("near", 50), ShopVisit("far", 100))
    foods, offers = [], []
    for number in range(staples):
        name, pieces = f"food {number}", number % 10 == 0
        keep = None if rng.random() < 0.45 else rng.choice([4, 5, 7, 10, 14, 21])
        foods.append(Foodstuff(name, pieces, keep))
        base = rng.choice([6, 10, 12]) if pieces else rng.choice([300, 450, 500, 900, 1000])
        price = rng.uniform(15, 40) if pieces else rng.uniform(0.2, 0.9)
        scale = 1 if pieces else 1000
        for shop in shops:
            if rng.random() < 0.85 or shop.name == "near":
                small = int(base * price * rng.uniform(0.9, 1.1))
                offers.append(PackageOffer(f"{shop.name} {name} small", name, shop.name, base * scale, small))
                if rng.random() < 0.5:
                    large = int(2 * base * price * rng.uniform(0.7, 0.95))
                    offers.append(
                        PackageOffer(f"{shop.name} {name} large", name, shop.name, 2 * base * scale, large)
                    )
    lots = []
    for number in rng.sample(range(staples), min(staples, 40)):
        food = foods[number]
        quantity = rng.randint(1, 6) if food.pieces else rng.randint(100, 900) * 1000
        offer = next(o for o in offers if o.food == food.name)
        last = None if food.keep_days is None else rng.randint(1, 12)
        lots.append(
            StockLot(f"lot {number}", food.name, quantity, offer.cents * quantity // offer.quantity, last)
        )
    choices = []
    for number in range(dishes):
        common = rng.sample(range(staples), rng.randint(3, 6))
        versions = []
        for choice in range(rng.choice([1, 2, 2, 3, 4])):
            chosen = dict.fromkeys(common + rng.sample(range(staples), rng.randint(1, 2)))
            needs = {
                foods[n].name: Fraction(
                    rng.choice([1, 1, 2]) if foods[n].pieces else rng.randint(20, 120) * 1000
                )
                for n in chosen
            }
            barred = frozenset({"eater 1"}) if rng.random() < 0.15 else frozenset[str]()
            fixed, each = Fraction(rng.randint(5, 25)), Fraction(rng.choice([0, 1, 2]))
            versions.append(Version(f"version {choice}", needs, fixed, each, barred))
        suits = frozenset({meals[0]}) if len(meals) > 2 and number % 4 == 0 else frozenset(meals[-2:])
        freezer = 60 if rng.random() < 0.6 else None
        choices.append(
            DishChoice(
                f"dish {number}",
                tuple(versions),
                rng.choice([2, 3, 4]),
                rng.choice([6, 8, 10]),
                4,
                freezer,
                suits,
            )
        )
    return Question(
        days,
        tuple(MealSlot(d, f"eater {e}", m) for d in range(1, days + 1) for e in range(eaters) for m in meals),
        tuple(CookSession(d, minutes) for d in range(1, days + 1) if d % 7 in (1, 4)),
        tuple(choices),
        tuple(foods),
        tuple(lots),
        tuple(offers),
        shops,
        HouseRules(containers, freezer_places, budget_cents, meal_out_cents),
    )
