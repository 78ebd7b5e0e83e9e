"""A week in good order that uses nearly every rule, several of them to the limit; every figure is invented.

Six days, two eaters, two sessions, two dishes. On night 1 all six containers and both freezer places are
taken; the budget is spent to the cent; three helpings of a dish are the most and Ada has both dishes three
times; on days 1 and 2 she has the bake twice in a row.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.decide.answer import Batch, Drawing, Helping, Plan, Purchase
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

WEEK = Question(
    days=6,
    slots=(
        *(MealSlot(day, "Ada", "supper") for day in range(1, 7)),
        *(MealSlot(day, "Ben", "supper") for day in (1, 3, 5)),
        MealSlot(2, "Ada", "lunch"),
    ),
    sessions=(CookSession(1, 52), CookSession(4, 25)),
    dishes=(
        DishChoice(
            "stew",
            (
                Version(
                    "with beans",
                    {"beans": Fraction(80_000), "rice": Fraction(70_000)},
                    fixed_min=Fraction(10),
                    per_portion_min=Fraction(3),
                    liking_cents=Fraction(-5, 2),
                ),
                Version(
                    "with meat",
                    {"meat": Fraction(80_000), "rice": Fraction(70_000)},
                    fixed_min=Fraction(10),
                    per_portion_min=Fraction(3),
                    barred=frozenset({"Ben"}),
                ),
            ),
            least=2,
            greatest=6,
            keep_days=3,
            freezer_days=7,
            meals=frozenset({"supper"}),
        ),
        DishChoice(
            "bake",
            (
                Version(
                    "plain",
                    {"eggs": Fraction(3, 2), "greens": Fraction(200_000, 3)},
                    fixed_min=Fraction(15),
                    per_portion_min=Fraction(4),
                ),
            ),
            least=2,
            greatest=3,
            keep_days=2,
        ),
    ),
    foods=(
        Foodstuff("rice"),
        Foodstuff("beans"),
        Foodstuff("meat", keep_days=2),
        Foodstuff("greens", keep_days=3),
        Foodstuff("eggs", pieces=True, keep_days=5),
    ),
    lots=(
        StockLot("old rice", "rice", 300_000, 90),
        StockLot("old greens", "greens", 260_000, 65, last_day=3),
        StockLot("wilted greens", "greens", 100_000, 20, last_day=0),
    ),
    offers=(
        PackageOffer("rice bag", "rice", "corner", 500_000, 150),
        PackageOffer("beans tin", "beans", "market", 400_000, 80),
        PackageOffer("meat pack", "meat", "market", 400_000, 300),
        PackageOffer("greens bunch", "greens", "market", 250_000, 100, most=2),
        PackageOffer("half dozen", "eggs", "corner", 6, 180),
    ),
    shops=(ShopVisit("corner", 25), ShopVisit("market", 60)),
    rules=HouseRules(
        containers=6, freezer_places=2, budget_cents=690, meal_out_cents=350, in_a_row=2, most_times=3
    ),
    additions=Additions(repeat_cents=10, minute_cents=Fraction(2), reserve_portions=1, reserve_cents=90),
)

PLAN = Plan(
    batches=(
        Batch(1, "stew", "with beans", 5),
        Batch(1, "bake", "plain", 3),
        Batch(4, "bake", "plain", 2),
    ),
    helpings=(
        Helping(1, "Ada", "supper", "bake", 1),
        Helping(1, "Ben", "supper", "bake", 1),
        Helping(2, "Ada", "lunch", "bake", 1),
        Helping(2, "Ada", "supper", "stew", 1),
        Helping(3, "Ada", "supper", "stew", 1),
        Helping(3, "Ben", "supper", "stew", 1),
        Helping(4, "Ada", "supper", "bake", 4),
        Helping(5, "Ada", "supper", "stew", 1, frozen=True),
        Helping(5, "Ben", "supper", "bake", 4),
        Helping(6, "Ada", "supper"),
    ),
    purchases=(
        Purchase(1, "beans tin", 1),
        Purchase(1, "rice bag", 1),
        Purchase(1, "half dozen", 1),
        Purchase(4, "half dozen", 1),
        Purchase(4, "greens bunch", 1),
    ),
    drawings=(
        Drawing(1, "stew", "beans tin", 1, 400_000),
        Drawing(1, "stew", "old rice", None, 300_000),
        Drawing(1, "stew", "rice bag", 1, 50_000),
        Drawing(1, "bake", "half dozen", 1, 5),
        Drawing(1, "bake", "old greens", None, 200_000),
        Drawing(4, "bake", "half dozen", 1, 1),
        Drawing(4, "bake", "half dozen", 4, 2),
        Drawing(4, "bake", "greens bunch", 4, 133_334),
    ),
)


@dataclass(frozen=True)
class Planted:
    """A plan with a breach in it, the names of all the rules it breaks, and a phrase that says how."""

    what: str
    rules: set[str]
    phrase: str
    plan: Plan = PLAN
    question: Question = WEEK
