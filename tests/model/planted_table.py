"""Breaches planted in the week in good order: of names, slots, batches, keeping, containers and sameness."""

from __future__ import annotations

from dataclasses import replace

from tests.model.planted_week import PLAN, WEEK, Planted

from ladleworth.decide.answer import Batch, Helping, Plan, Purchase
from ladleworth.decide.question import CookSession, Question


def changed(field: str, *steps: tuple[object, ...], plan: Plan = PLAN) -> Plan:
    """Return the plan with records of one list swapped: each step is (what was there, what comes instead...)."""
    records = list(getattr(plan, field))
    for old, *new in steps:
        at = len(records) if old is None else records.index(old)
        records[at : at + 1] = new
    return replace(plan, **{field: tuple(records)})


def added(field: str, *new: object, plan: Plan = PLAN) -> Plan:
    return changed(field, (None, *new), plan=plan)


def with_rules(**limits: int | None) -> Question:
    return replace(WEEK, rules=replace(WEEK.rules, **limits))  # type: ignore[arg-type]


def with_dish(name: str, **fields: object) -> Question:
    return replace(
        WEEK,
        dishes=tuple(replace(d, **fields) if d.name == name else d for d in WEEK.dishes),  # type: ignore[arg-type]
    )


def had(day: int, eater: str, meal: str = "supper") -> Helping:
    return next(h for h in PLAN.helpings if (h.day, h.eater, h.meal) == (day, eater, meal))


def instead(
    day: int, eater: str, dish: str | None = None, cooked: int | None = None, **fields: object
) -> tuple[object, ...]:
    """Return the step that puts another helping into a slot."""
    meal = str(fields.pop("meal", "supper"))
    old = had(day, eater, meal)
    return old, replace(old, dish=dish, cooked_day=cooked, **({"frozen": False} | fields))  # type: ignore[arg-type]


STEW, BAKE, LATE_BAKE = PLAN.batches
BEANS, RICE_BAG, EGGS_1, EGGS_4, GREENS_4 = PLAN.purchases
D_BEANS, D_OLD_RICE, D_RICE_BAG, D_EGGS, D_OLD_GREENS, D_LATE_EGG, D_LATE_EGGS, D_LATE_GREENS = PLAN.drawings
AMPLE = with_rules(budget_cents=None)


ONE_LATE_PORTION = replace(
    changed("batches", (LATE_BAKE, replace(LATE_BAKE, portions=1))),
    helpings=changed("helpings", instead(5, "Ben", "stew", 1, frozen=True)).helpings,
    drawings=changed(
        "drawings",
        (D_LATE_EGGS, replace(D_LATE_EGGS, quantity=1)),
        (D_LATE_GREENS, replace(D_LATE_GREENS, quantity=66_667)),
    ).drawings,
)
MEAT_STEW = replace(
    changed("batches", (STEW, replace(STEW, version="with meat"))),
    purchases=changed("purchases", (BEANS, replace(BEANS, offer="meat pack"))).purchases,
    drawings=changed("drawings", (D_BEANS, replace(D_BEANS, source="meat pack"))).drawings,
)
EARLY_GREENS = replace(
    changed("purchases", (GREENS_4, replace(GREENS_4, day=1))),
    drawings=changed("drawings", (D_LATE_GREENS, replace(D_LATE_GREENS, bought_day=1))).drawings,
)

PLANTED_TABLE = (
    # names
    Planted(
        "a version nobody has",
        {"names"},
        "no dish 'stew' has a version 'with fish'",
        changed("batches", (STEW, replace(STEW, version="with fish"))),
    ),
    Planted(
        "a dish nobody has",
        {"names"},
        "no dish 'roast' has a version 'plain'",
        added("batches", Batch(4, "roast", "plain", 2)),
    ),
    Planted(
        "cooking on a day without a session",
        {"names"},
        "stew is cooked on day 2, which has no session",
        added("batches", Batch(2, "stew", "with beans", 2)),
    ),
    Planted(
        "the same version twice in a session",
        {"batches", "names"},
        "stew is cooked 2 times in the session of day 1",
        added("batches", Batch(1, "stew", "with beans", 2)),
    ),
    Planted(
        "eating of a batch that was not cooked",
        {"names"},
        "Ada supper day 5 eats stew that nobody cooks",
        changed("helpings", instead(5, "Ada", "stew", 4)),
    ),
    Planted(
        "buying what nobody offers",
        {"names"},
        "no offer is called 'flour'",
        added("purchases", Purchase(1, "flour", 1)),
    ),
    Planted(
        "drawing from a lot that is not there",
        {"names"},
        "nothing is called 'rice bag' to draw from",
        changed("drawings", (D_RICE_BAG, replace(D_RICE_BAG, bought_day=None))),
    ),
    Planted(
        "drawing from a lot as if it were bought",
        {"names"},
        "nothing is called 'old rice' to draw from",
        changed("drawings", (D_OLD_RICE, replace(D_OLD_RICE, bought_day=1))),
    ),
    Planted(
        "drawing for a batch nobody cooks",
        {"names"},
        "rice bag is drawn for stew that nobody cooks",
        changed("drawings", (D_RICE_BAG, replace(D_RICE_BAG, day=4))),
    ),
    # slots and meals
    Planted(
        "a slot left empty",
        {"slots"},
        "Ada supper day 6 has 0 helpings, not 1",
        changed("helpings", (had(6, "Ada"),)),
    ),
    Planted(
        "a slot filled twice",
        {"slots"},
        "Ada supper day 6 has 2 helpings, not 1",
        added("helpings", Helping(6, "Ada", "supper")),
    ),
    Planted(
        "a meal nobody asked for",
        {"slots"},
        "Ben supper day 6 is no listed slot",
        added("helpings", Helping(6, "Ben", "supper")),
    ),
    Planted(
        "a meal out in a household that has none",
        {"slots"},
        "Ada supper day 6 eats out",
        question=with_rules(meal_out_cents=None),
    ),
    Planted(
        "a supper dish for lunch",
        {"meals"},
        "stew is no dish for lunch (Ada lunch day 2)",
        changed("helpings", instead(2, "Ada", "stew", 1, meal="lunch"), instead(2, "Ada", "bake", 1)),
    ),
    # portions
    Planted(
        "more eaten than cooked",
        {"portions"},
        "1 more portions of stew (day 1) are eaten than cooked",
        changed("helpings", instead(1, "Ben", "stew", 1), instead(5, "Ben", "stew", 1, frozen=True)),
        with_rules(freezer_places=None, containers=None),
    ),
    Planted(
        "a portion left that does not freeze",
        {"portions"},
        "1 portions of bake (day 4) are neither eaten nor keep on",
        changed("helpings", instead(5, "Ben", "stew", 1, frozen=True)),
    ),
    Planted(
        "a portion left whose freezer time ends with the days",
        {"portions"},
        "1 portions of stew (day 1) are neither eaten nor keep on",
        question=with_dish("stew", freezer_days=6),
    ),
    Planted(
        "more left than the household allows",
        {"portions"},
        "2 portions are left over; the household allows 1",
        changed("helpings", instead(5, "Ada")),
    ),
    # batches and minutes
    Planted("a batch below the least", {"batches"}, "bake day 4: 1 is outside 2..3", ONE_LATE_PORTION),
    Planted(
        "a batch above the greatest",
        {"batches"},
        "stew day 1: 5 is outside 2..4",
        question=with_dish("stew", greatest=4),
    ),
    Planted(
        "a batch of nothing",
        {"batches", "portions", "needs"},
        "bake day 4: 0 is outside 2..3",
        changed("batches", (LATE_BAKE, replace(LATE_BAKE, portions=0))),
    ),
    Planted(
        "a minute too few",
        {"minutes"},
        "day 1 takes 52 minutes of 51",
        question=replace(WEEK, sessions=(CookSession(1, 51), CookSession(4, 25))),
    ),
    # keeping and freezing
    Planted(
        "eating before cooking",
        {"keeping"},
        "Ben supper day 3 eats bake before it is cooked",
        changed("helpings", instead(3, "Ben", "bake", 4), instead(5, "Ben", "stew", 1, frozen=True)),
        with_rules(freezer_places=3),
    ),
    Planted(
        "a chilled portion kept too long",
        {"keeping"},
        "Ada supper day 5: chilled stew is in day 5 of 3",
        changed("helpings", instead(5, "Ada", "stew", 1)),
    ),
    Planted(
        "a chilled portion kept a day too long",
        {"keeping"},
        "Ada supper day 3: chilled stew is in day 3 of 2",
        question=with_dish("stew", keep_days=2),
    ),
    Planted(
        "freezing what does not freeze well",
        {"freezing"},
        "Ben supper day 5: bake does not freeze well",
        changed("helpings", instead(5, "Ben", "bake", 4, frozen=True)),
    ),
    Planted(
        "eating a frozen portion the day after cooking",
        {"freezing"},
        "Ada supper day 2: frozen stew cannot be thawed before day 3 of its age",
        changed("helpings", instead(2, "Ada", "stew", 1, frozen=True)),
    ),
    Planted(
        "a frozen portion kept a day too long",
        {"freezing", "portions"},
        "Ada supper day 5: frozen stew is in day 5 of 4",
        question=with_dish("stew", freezer_days=4),
    ),
    # containers and freezer
    Planted(
        "a container too few",
        {"containers"},
        "night 1: 6 portions wait for 5 containers",
        question=with_rules(containers=5),
    ),
    Planted(
        "a freezer place too few",
        {"freezer"},
        "night 1: 3 frozen portions for 2 places",
        changed("helpings", instead(3, "Ben", "stew", 1, frozen=True)),
    ),
    # sameness and exclusions
    Planted(
        "one dish too many times",
        {"sameness"},
        "Ada has stew 4 times; 3 is the most",
        changed("helpings", instead(6, "Ada", "stew", 1, frozen=True)),
    ),
    Planted(
        "one dish on three days in a row",
        {"sameness"},
        "Ada has stew on each of days 2 to 4",
        changed("helpings", instead(4, "Ada", "stew", 1, frozen=True), instead(5, "Ada", "bake", 4)),
    ),
    Planted(
        "meat for one who may not have it",
        {"exclusions"},
        "Ben may not have stew (with meat)",
        MEAT_STEW,
        AMPLE,
    ),
)
