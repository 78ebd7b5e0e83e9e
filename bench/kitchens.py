"""Seeded questions for the benches: invented kitchens, every figure in them made up, the same for the same seed.

They are frozen: what is measured on them is compared over time, so a change here makes earlier figures void.
`kitchen_like` gives small plain questions for checks; `random_week` and `staple_week` are what the bench measures.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.decide import (
    Additions,
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    MealSlot,
    NutrientBound,
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


# --- weeks with every rule of the house that the bench measures by --------------------------------------


def random_week(seed: int, dishes: int = 30, days: int = 7, eaters: int = 2) -> Question:
    """Invent a week of scattered foods: 150 of them, so that dishes share little and remnants are left over.

    Parameters
    ----------
    seed, dishes, days, eaters
        The same four give the same question on any machine; each eater has lunch and dinner every day.

    Returns
    -------
    Question
        Two shops of which each food is in one or both (1-3 offers a food), stock with dates, sessions on days
        1 and 4 of each week, containers, freezer places, nutrient bounds, and prices for repeats and meals out.
    """
    dice = random.Random(f"random week {seed} {dishes} {days} {eaters}")
    foods = _foods(dice, 150)
    offers = []
    for food in foods:
        for number in range(dice.choice([1, 2, 2, 3])):
            shop = "near" if dice.random() < 0.55 else "far"
            offers.append(_offer(dice, food, shop, f"{shop} {food.name} pack {number + 1}", food.pack))
    return _week(dice, dishes, days, eaters, foods, offers, lots=24)


def staple_week(seed: int, dishes: int = 60, days: int = 7, eaters: int = 2) -> Question:
    """Invent a week of a kitchen whose dishes share 60 staples, which two shops stock for the most part.

    Parameters
    ----------
    seed, dishes, days, eaters
        As in `random_week`, and with the same rules of the house.

    Returns
    -------
    Question
        The near shop has every staple, the far one most, half of them in a small and a large package.
    """
    dice = random.Random(f"staple week {seed} {dishes} {days} {eaters}")
    foods = _foods(dice, 60)
    offers = []
    for food in foods:
        for shop in ("near", "far"):
            if shop == "near" or dice.random() < 0.85:
                offers.append(_offer(dice, food, shop, f"{shop} {food.name} small", food.pack))
                if dice.random() < 0.5:
                    offers.append(_offer(dice, food, shop, f"{shop} {food.name} large", 2 * food.pack))
    return _week(dice, dishes, days, eaters, foods, offers, lots=30)


@dataclass(frozen=True, slots=True)
class _Food:
    """An invented food: a usual package in g or pieces, its price and its nutrients, each per g or piece."""

    name: str
    pieces: bool
    keep_days: int | None
    pack: int
    cents: float
    energy_kcal: Fraction
    protein_mg: Fraction
    sodium_mg: Fraction

    @property
    def scale(self) -> int:
        """How many of the question's units are in a g or a piece."""
        return 1 if self.pieces else 1000


def _foods(dice: random.Random, number: int) -> list[_Food]:
    foods = []
    for n in range(number):
        pieces = n % 10 == 0
        grams = 60 if pieces else 1
        foods.append(
            _Food(
                f"food {n}",
                pieces,
                None if dice.random() < 0.45 else dice.choice([3, 4, 5, 7, 10, 14, 21]),
                dice.choice([6, 10, 12]) if pieces else dice.choice([250, 300, 400, 500, 750, 1000]),
                dice.uniform(15, 40) if pieces else dice.uniform(0.15, 0.7),
                Fraction(grams * dice.choice([20, 35, 60, 90, 130, 180, 250, 350]), 100),
                Fraction(grams * dice.randint(10, 220)),
                Fraction(grams * dice.choice([2, 5, 20, 60, 100, 300, 600]), 100),
            )
        )
    return foods


def _offer(dice: random.Random, food: _Food, shop: str, name: str, usual: int) -> PackageOffer:
    """Price a package; of those of the usual size some are half or twice as large, and twice is cheaper a g."""
    size = usual if usual > food.pack or usual % 2 else dice.choice([usual // 2, usual, usual, usual * 2])
    rebate = 1.1 if size < food.pack else 0.85 if size > food.pack else 1.0
    cents = round(size * food.cents * rebate * dice.uniform(0.9, 1.1))
    return PackageOffer(name, food.name, shop, size * food.scale, cents)


def _week(
    dice: random.Random,
    dishes: int,
    days: int,
    eaters: int,
    foods: list[_Food],
    offers: list[PackageOffer],
    lots: int,
) -> Question:
    people = [f"eater {e + 1}" for e in range(eaters)]
    choices = tuple(_dish(dice, f"dish {number}", foods, people) for number in range(dishes))
    return Question(
        days,
        tuple(MealSlot(d, e, m) for d in range(1, days + 1) for e in people for m in ("lunch", "dinner")),
        tuple(CookSession(d, 35 + 20 * eaters) for d in range(1, days + 1) if d % 7 in (1, 4)),
        choices,
        tuple(Foodstuff(f.name, f.pieces, f.keep_days) for f in foods),
        _lots(dice, foods, lots, days),
        tuple(offers),
        (ShopVisit("near", dice.randint(60, 120)), ShopVisit("far", dice.randint(120, 250))),
        HouseRules(
            containers=dice.choice([6, 7]) * eaters,
            freezer_places=3 * eaters,
            budget_cents=300 * eaters * days * 2,
            meal_out_cents=dice.randrange(700, 901, 50),
            in_a_row=2,
            most_times=dice.choice([3, 4]),
            span_days=7,
            nutrient_bounds=_bounds(dice, choices, people),
        ),
        Additions(repeat_cents=dice.randrange(30, 61, 5)),
    )


def _dish(dice: random.Random, name: str, foods: list[_Food], people: list[str]) -> DishChoice:
    """Invent a dish of 3-8 foods; a second version has one of them swapped for another."""
    chosen = dice.sample(foods, dice.randint(3, 8))
    amounts = [dice.choice([1, 1, 2]) if f.pieces else 5 * dice.randint(4, 24) for f in chosen]
    fixed, each = Fraction(dice.randint(4, 18)), Fraction(dice.choice([0, 1, 1, 2]), 2)
    versions = [_version(dice, "plain", dict(zip(chosen, amounts, strict=True)), fixed, each, people)]
    if dice.random() < 0.4:
        other = dice.choice([f for f in foods if f not in chosen])
        swapped = dict(zip(chosen[1:], amounts[1:], strict=True))
        swapped[other] = dice.choice([1, 1, 2]) if other.pieces else 5 * dice.randint(4, 24)
        versions.append(_version(dice, f"with {other.name}", swapped, fixed, each, people))
    fate = dice.random()
    meals = frozenset({"lunch"}) if fate < 0.15 else frozenset({"dinner"}) if fate < 0.4 else None
    return DishChoice(
        name,
        tuple(versions),
        least=dice.choice([2, 2, 3, 4]),
        greatest=dice.choice([4, 6, 8, 8]),
        keep_days=dice.choice([3, 4, 4, 4, 5]),
        freezer_days=None if dice.random() < 0.4 else dice.choice([30, 60, 90]),
        meals=meals,
    )


def _version(
    dice: random.Random,
    name: str,
    amounts: dict[_Food, int],
    fixed: Fraction,
    each: Fraction,
    people: list[str],
) -> Version:
    barred = frozenset({dice.choice(people)}) if dice.random() < 0.1 else frozenset[str]()
    return Version(
        name,
        {f.name: Fraction(amount * f.scale) for f, amount in amounts.items()},
        fixed,
        each,
        barred,
        nutrients={
            "energy kcal": Fraction(round(sum(f.energy_kcal * amount for f, amount in amounts.items()))),
            "protein mg": Fraction(round(sum(f.protein_mg * amount for f, amount in amounts.items()))),
            "sodium mg": Fraction(round(sum(f.sodium_mg * amount for f, amount in amounts.items()))),
        },
    )


def _lots(dice: random.Random, foods: list[_Food], number: int, days: int) -> tuple[StockLot, ...]:
    """Put so many foods on the shelf, what does not keep with a last day that may lie within the days."""
    lots = []
    for food in dice.sample(foods, number):
        amount = dice.randint(1, 6) if food.pieces else 10 * dice.randint(10, 60)
        last = None if food.keep_days is None else dice.randint(1, days + 5)
        lots.append(
            StockLot(f"lot of {food.name}", food.name, amount * food.scale, round(amount * food.cents), last)
        )
    return tuple(lots)


def _bounds(
    dice: random.Random, choices: tuple[DishChoice, ...], people: list[str]
) -> tuple[NutrientBound, ...]:
    """Bound the week's averages by those of all dishes: most plans keep the bounds, the cheapest may not."""
    versions = [v for dish in choices for v in dish.versions]

    def share(nutrient: str, percent: int) -> Fraction:
        total = sum((v.nutrients[nutrient] for v in versions), Fraction(0))
        return Fraction(round(total * percent / (100 * len(versions))))

    bounds = []
    for eater in people:
        bounds += [
            NutrientBound(
                eater,
                "energy kcal",
                share("energy kcal", dice.randint(80, 90)),
                share("energy kcal", dice.randint(115, 130)),
            ),
            NutrientBound(eater, "protein mg", least=share("protein mg", dice.randint(80, 90))),
            NutrientBound(eater, "sodium mg", most=share("sodium mg", dice.randint(105, 120))),
        ]
    return tuple(bounds)
