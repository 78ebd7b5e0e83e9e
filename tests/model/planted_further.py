"""A week in good order with all that a household may add, most of it to the limit, and the breaches of it.

Four days. The stew is split between beans and meat; Ben eats half portions and no meat; two lots of portions are
on hand. On night 1 five containers lie there, two of them in the fridge and three in the freezer. Every figure is
invented.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.model.planted_week import Planted

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
                    nutrients={"protein": Fraction(20)},
                    volume_ml=400,
                ),
                Version(
                    "with meat",
                    {"meat": Fraction(100_000)},
                    fixed_min=Fraction(5),
                    per_portion_min=Fraction(4),
                    barred=frozenset({"Ben"}),
                    loads={"oven": OVEN},
                    nutrients={"protein": Fraction(30)},
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
            nutrients={"protein": Fraction(10)},
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
            nutrients={"protein": Fraction(12)},
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

FURTHER_PLANTED = (
    # names
    Planted(
        "eating of a lot that is not there",
        {"names"},
        "Ben supper day 2 eats of 'old stew', which is no such lot",
        eaten(2, "Ben", "stew", lot="old stew"),
        FULL_WEEK,
    ),
    Planted(
        "eating another dish out of a lot",
        {"names"},
        "Ben supper day 2 eats of 'old curry', which is no such lot",
        eaten(2, "Ben", "soup", lot="old curry"),
        FULL_WEEK,
    ),
    Planted(
        "thawing what lies in the fridge",
        {"names"},
        "Ben supper day 2 eats of 'old curry', which is no such lot",
        eaten(2, "Ben", "curry", frozen=True, lot="old curry"),
        FULL_WEEK,
    ),
    Planted(
        "eating of a split batch without saying which version",
        {"names"},
        "Ada supper day 2 eats stew that nobody cooked",
        eaten(2, "Ada", "stew", 1),
        FULL_WEEK,
    ),
    Planted(
        "drawing for a split batch without saying which version",
        {"names"},
        "beans tin is drawn for stew that nobody cooks",
        replace(
            FULL_PLAN,
            drawings=tuple(
                replace(d, version=None) if d.source == "beans tin" else d for d in FULL_PLAN.drawings
            ),
        ),
        FULL_WEEK,
    ),
    Planted(
        "the same version twice in a session",
        {"batches", "names"},
        "stew is cooked 2 times in the session of day 1",
        replace(FULL_PLAN, batches=(*FULL_PLAN.batches, Batch(1, "stew", "with meat", 2))),
        FULL_WEEK,
    ),
    # batches, minutes, stations
    Planted(
        "a batch split too many ways",
        {"batches"},
        "stew day 1 is split 2 ways; 1 is the most",
        FULL_PLAN,
        with_stew(most_versions=1),
    ),
    Planted(
        "both halves of a split together too many",
        {"batches"},
        "stew day 1: 4 is outside 2..3",
        FULL_PLAN,
        with_stew(greatest=3),
    ),
    Planted(
        "half a minute too much that the versions share",
        {"minutes"},
        "day 1 takes 32.5 minutes of 32",
        FULL_PLAN,
        with_stew(shared_min=Fraction(13, 2)),
    ),
    Planted(
        "a minute of the oven too few",
        {"stations"},
        "day 1 takes 40 oven minutes of 39",
        FULL_PLAN,
        replace(FULL_WEEK, sessions=(CookSession(1, 32, {"oven": 39}, 30),)),
    ),
    # portions
    Planted(
        "half a portion more eaten than cooked",
        {"portions"},
        "1 more portions of stew (day 1) are eaten than cooked",
        replace(
            eaten(3, "Ben", "stew", 1, version="with beans"),
            helpings=(
                *(h for h in FULL_PLAN.helpings if h.eater == "Ada"),
                *(Helping(day, "Ben", "supper", "stew", 1, version="with beans") for day in (1, 2, 3)),
            ),
        ),
        replace(limited(FREE_WEEK, in_a_row=3), wishes=()),
    ),
    Planted(
        "a whole portion over because appetites are small",
        {"portions"},
        "1 portions of stew (day 1) are neither eaten nor keep on",
        FULL_PLAN,
        replace(
            with_stew(FREE_WEEK, freezer_days=4), appetites={"Ben": Fraction(1, 2), "Ada": Fraction(1, 2)}
        ),
    ),
    Planted(
        "one container more than there are",
        {"portions"},
        "2 of old curry are eaten and 1 are there",
        eaten(1, "Ben", "curry", lot="old curry"),
        FREE_WEEK,
    ),
    # keeping, meals, exclusions of portions on hand
    Planted(
        "portions on hand after their last day",
        {"keeping"},
        "Ben supper day 3: old curry is for days 1 to day 2",
        replace(
            eaten(3, "Ben", "curry", lot="old curry"),
            helpings=tuple(
                Helping(2, "Ben", "supper") if (h.day, h.eater) == (2, "Ben") else h
                for h in eaten(3, "Ben", "curry", lot="old curry").helpings
            ),
        ),
        FREE_WEEK,
    ),
    Planted(
        "portions on hand that have not thawed",
        {"keeping"},
        "Ben supper day 1: soup in the freezer is for days 2 to the end",
        eaten(1, "Ben", "soup", frozen=True, lot="soup in the freezer"),
        replace(FREE_WEEK, additions=replace(FULL_WEEK.additions, reserve_portions=1)),
    ),
    Planted(
        "portions on hand that are for lunch",
        {"meals"},
        "soup is no dish for supper (Ben supper day 3)",
        FULL_PLAN,
        replace(FULL_WEEK, portions=(replace(SOUP, meals=frozenset({"lunch"})), CURRY)),
    ),
    Planted(
        "portions on hand that an eater may not have",
        {"exclusions"},
        "Ada may not have curry (old curry)",
        replace(
            eaten(2, "Ada", "curry", lot="old curry"),
            helpings=tuple(
                Helping(2, "Ben", "supper") if (h.day, h.eater) == (2, "Ben") else h
                for h in eaten(2, "Ada", "curry", lot="old curry").helpings
            ),
        ),
        replace(FREE_WEEK, additions=replace(FULL_WEEK.additions, reserve_portions=1)),
    ),
    Planted(
        "the half of a split batch that is barred",
        {"exclusions", "portions"},
        "Ben may not have stew (with meat)",
        eaten(1, "Ben", "stew", 1, version="with meat"),
        FREE_WEEK,
    ),
    # containers, room, freezing
    Planted(
        "a small container too few",
        {"sizes"},
        "night 1: 5 portions above 0 ml for 4 containers",
        FULL_PLAN,
        limited(container_sizes=(ContainerSize(300, 1), ContainerSize(400, 3))),
    ),
    Planted(
        "a large container too few, with small ones to spare",
        {"sizes"},
        "night 1: 3 portions above 300 ml for 2 containers",
        FULL_PLAN,
        limited(container_sizes=(ContainerSize(300, 9), ContainerSize(400, 2))),
    ),
    Planted(
        "containers a millilitre too small",
        {"sizes"},
        "night 1: 2 portions above 399 ml for 0 containers",
        FULL_PLAN,
        limited(container_sizes=(ContainerSize(300, 9), ContainerSize(399, 9))),
    ),
    Planted(
        "a millilitre of fridge too few",
        {"room"},
        "night 1: 750 ml of portions for 749 ml of fridge",
        FULL_PLAN,
        limited(fridge_ml=749),
    ),
    Planted(
        "a millilitre of freezer too few",
        {"room"},
        "night 1: 1000 ml of portions for 999 ml of freezer",
        FULL_PLAN,
        limited(freezer_ml=999),
    ),
    Planted(
        "a freezer place too few for what is on hand and what is frozen",
        {"freezer"},
        "night 1: 3 frozen portions for 2 places",
        FULL_PLAN,
        limited(freezer_places=2),
    ),
    Planted(
        "a portion too many frozen in a day",
        {"freezing load"},
        "day 1: 1 portions freeze; 0 can",
        FULL_PLAN,
        limited(freezing_load=0),
    ),
    Planted(
        "a portion too many frozen in a day, as one is kept in reserve",
        {"freezing load"},
        "day 1: 2 portions freeze; 1 can",
        eaten(2, "Ada"),
        replace(
            limited(FREE_WEEK, freezing_load=1),
            additions=replace(FULL_WEEK.additions, reserve_portions=1),
        ),
    ),
    # sameness by spans
    Planted(
        "a dish too often over all days, though not in a week",
        {"sameness"},
        "Ada has stew 3 times; 2 is the most",
        FULL_PLAN,
        limited(FREE_WEEK, span_days=None),
    ),
    Planted(
        "a dish too often in a span",
        {"sameness"},
        "Ada has stew 2 times; 1 is the most",
        FULL_PLAN,
        limited(FREE_WEEK, most_times=1),
    ),
    # nutrients
    Planted(
        "too little protein on average",
        {"nutrients"},
        "Ada, days 1 to 2: protein averages 25, below 25.1",
        FULL_PLAN,
        limited(nutrient_bounds=(NutrientBound("Ada", "protein", least=Fraction("25.1")),)),
    ),
    Planted(
        "too much protein on average",
        {"nutrients"},
        "Ben, days 1 to 2: protein averages 11, above 10.9",
        FULL_PLAN,
        limited(nutrient_bounds=(NutrientBound("Ben", "protein", most=Fraction("10.9")),)),
    ),
    Planted(
        "a dish without the figure",
        {"nutrients"},
        "Ada, days 3 to 4: protein has no figure for 1 helpings",
        FULL_PLAN,
        with_stew(versions=(BEANS, WITHOUT_FIGURE)),
    ),
    Planted(
        "portions on hand without the figure",
        {"nutrients"},
        "Ben, days 1 to 2: protein has no figure for 1 helpings",
        FULL_PLAN,
        replace(FULL_WEEK, portions=(SOUP, replace(CURRY, nutrients={}))),
    ),
    # needs and stock of a split batch
    Planted(
        "food drawn for the wrong half of a split batch",
        {"needs"},
        "stew (with meat) day 1 draws 40000 of beans that it does not need",
        replace(
            FULL_PLAN,
            drawings=tuple(
                replace(d, version="with meat") if d.source == "beans tin" else d for d in FULL_PLAN.drawings
            ),
        ),
        FULL_WEEK,
    ),
    # wishes
    *(
        Planted(what, {"wishes"}, phrase, FULL_PLAN, wishing(wish))
        for what, phrase, wish in (
            (
                "too little of a wished version",
                "at least 3 portions of stew (with meat) are cooked",
                MustCook("stew", None, "with meat", 3),
            ),
            (
                "too little of a wished dish",
                "at least 5 portions of stew on day 1 are cooked",
                MustCook("stew", 1, None, 5),
            ),
            (
                "a wished dish on another day",
                "at least 1 portions of stew on day 2 are cooked",
                MustCook("stew", 2),
            ),
            ("a dish that was not to be cooked", "no stew is cooked", MustNotCook("stew")),
            (
                "a version not to be cooked",
                "no stew (with meat) on day 1",
                MustNotCook("stew", 1, "with meat"),
            ),
            (
                "a milligram too little of a lot",
                "at least 120001 of old beans are used",
                MustUse("old beans", 120_001),
            ),
            (
                "a container too few of a lot",
                "at least 2 of soup in the freezer are used",
                MustUse("soup in the freezer", 2),
            ),
            (
                "another dish in a settled slot",
                "Ben supper day 1 has soup",
                MustServe(1, "Ben", "supper", "soup"),
            ),
            (
                "a dish where a meal out was settled",
                "Ben supper day 1 has a meal out",
                MustServe(1, "Ben", "supper", None),
            ),
            (
                "a meal out where a dish was settled",
                "Ada supper day 3 has stew",
                MustServe(3, "Ada", "supper", "stew"),
            ),
            (
                "a package too few",
                "at least 2 of meat pack are bought on day 1",
                MustBuy(1, "meat pack", 2),
            ),
            (
                "a package bought on another day",
                "at least 1 of meat pack are bought on day 2",
                MustBuy(2, "meat pack", 1),
            ),
        )
    ),
)
"""Every breach of a further rule, by itself."""
