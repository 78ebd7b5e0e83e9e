"""A week in good order with all that a household may add, most of it to the limit.

Four days. The stew is split between beans and meat; Ben eats half portions and no meat; two lots of portions are
on hand. On night 1 five containers lie there, two of them in the fridge and three in the freezer. Every figure is
invented.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ladleworth.decide.answer import Batch, Drawing, Helping, Plan, Purchase
from ladleworth.decide.question import (
    Additions,
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    Load,
    MealSlot,
    PackageOffer,
    PortionLot,
    Question,
    ShopVisit,
    StockLot,
    Version,
)
from ladleworth.decide.rules import (
    ContainerSize,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
    Wish,
)

OVEN = Load(Fraction(10), Fraction(5))

WISHES: tuple[Wish, ...] = (
    MustCook("stew", 1, "with meat", 2),
    MustCook("stew", portions=4),
    MustNotCook("bake"),
    MustNotCook("stew", day=3),
    MustUse("old beans", 120_000),
    MustUse("soup in the freezer", 1),
    MustServe(2, "Ben", "supper", "curry"),
    MustServe(3, "Ada", "supper", None),
    MustBuy(1, "meat pack", 1),
)

FULL_WEEK = Question(
    days=4,
    slots=(
        *(MealSlot(day, "Ada", "supper") for day in (1, 2, 3, 4)),
        *(MealSlot(day, "Ben", "supper") for day in (1, 2, 3)),
    ),
    sessions=(CookSession(1, 32, {"oven": 40}, 30),),
    dishes=(
        DishChoice(
            "stew",
            (
                Version(
                    "with beans",
                    {"beans": Fraction(80_000)},
                    fixed_min=Fraction(5),
                    per_portion_min=Fraction(4),
                    loads={"oven": OVEN},
                    nutrients={"protein": Fraction(20), "fresh": Fraction(1)},
                    volume_ml=400,
                ),
                Version(
                    "with meat",
                    {"meat": Fraction(100_000)},
                    fixed_min=Fraction(5),
                    per_portion_min=Fraction(4),
                    barred=frozenset({"Ben"}),
                    loads={"oven": OVEN},
                    nutrients={"protein": Fraction(30), "fresh": Fraction(0)},
                    volume_ml=400,
                ),
            ),
            least=2,
            greatest=4,
            keep_days=3,
            freezer_days=7,
            most_versions=2,
            shared_min=Fraction(6),
        ),
        DishChoice("bake", (Version("plain", {"beans": Fraction(50_000)}),)),
    ),
    foods=(Foodstuff("beans"), Foodstuff("meat", keep_days=2)),
    lots=(StockLot("old beans", "beans", 120_000, 60),),
    offers=(
        PackageOffer("beans tin", "beans", "corner", 100_000, 40),
        PackageOffer("meat pack", "meat", "corner", 250_000, 300),
    ),
    shops=(ShopVisit("corner", 20),),
    rules=HouseRules(
        freezer_places=3,
        meal_out_cents=350,
        most_times=2,
        span_days=2,
        freezing_load=1,
        container_sizes=(ContainerSize(400, 3), ContainerSize(300, 2)),
        fridge_ml=750,
        freezer_ml=1000,
        nutrient_bounds=(
            NutrientBound("Ada", "protein", Fraction(25), Fraction(30)),
            NutrientBound("Ben", "protein", Fraction(10), Fraction(11)),
            NutrientBound("Ben", "fresh", Fraction(1), share=True),
        ),
    ),
    additions=Additions(repeat_cents=10, minute_cents=Fraction(2), carried_share=Fraction(1, 2)),
    portions=(
        PortionLot(
            "soup in the freezer",
            "soup",
            2,
            100,
            first_day=2,
            frozen=True,
            nutrients={"protein": Fraction(10), "fresh": Fraction(1)},
            volume_ml=300,
        ),
        PortionLot(
            "old curry",
            "curry",
            1,
            50,
            last_day=2,
            barred=frozenset({"Ada"}),
            meals=frozenset({"supper"}),
            nutrients={"protein": Fraction(12), "fresh": Fraction(1)},
            volume_ml=350,
        ),
    ),
    appetites={"Ben": Fraction(1, 2)},
    wishes=WISHES,
)

FULL_PLAN = Plan(
    batches=(Batch(1, "stew", "with beans", 2), Batch(1, "stew", "with meat", 2)),
    helpings=(
        Helping(1, "Ada", "supper", "stew", 1, version="with beans"),
        Helping(1, "Ben", "supper", "stew", 1, version="with beans"),
        Helping(2, "Ada", "supper", "stew", 1, version="with meat"),
        Helping(2, "Ben", "supper", "curry", lot="old curry"),
        Helping(3, "Ada", "supper"),
        Helping(3, "Ben", "supper", "soup", frozen=True, lot="soup in the freezer"),
        Helping(4, "Ada", "supper", "stew", 1, frozen=True, version="with meat"),
    ),
    purchases=(Purchase(1, "beans tin", 1), Purchase(1, "meat pack", 1)),
    drawings=(
        Drawing(1, "stew", "old beans", None, 120_000, "with beans"),
        Drawing(1, "stew", "beans tin", 1, 40_000, "with beans"),
        Drawing(1, "stew", "meat pack", 1, 200_000, "with meat"),
    ),
)

FREE_WEEK = replace(
    FULL_WEEK,
    wishes=(),
    rules=HouseRules(meal_out_cents=350, most_times=2, span_days=2),
)
"""The same without wishes and without the limits that one more portion would break."""


def limited(week: Question = FULL_WEEK, **limits: object) -> Question:
    """Return the week with other rules of the house."""
    return replace(week, rules=replace(week.rules, **limits))  # type: ignore[arg-type]


def had(day: int, eater: str, plan: Plan = FULL_PLAN) -> Helping:
    return next(h for h in plan.helpings if (h.day, h.eater) == (day, eater))


def eaten(day: int, eater: str, dish: str | None = None, cooked: int | None = None, **fields: object) -> Plan:
    """Return the plan with another helping in one slot."""
    old = had(day, eater)
    new = Helping(day, eater, "supper", dish, cooked, **fields)  # type: ignore[arg-type]
    return replace(FULL_PLAN, helpings=tuple(new if h is old else h for h in FULL_PLAN.helpings))


def with_stew(week: Question = FULL_WEEK, **fields: object) -> Question:
    """Return the week with another stew."""
    stew, *others = week.dishes
    return replace(week, dishes=(replace(stew, **fields), *others))  # type: ignore[arg-type]


def wishing(*wishes: Wish) -> Question:
    return replace(FULL_WEEK, wishes=wishes)


BEANS, MEAT = FULL_WEEK.dishes[0].versions
SOUP, CURRY = FULL_WEEK.portions
WITHOUT_FIGURE = replace(MEAT, nutrients={})
