"""The judge lets a week in good order stand and refuses it with every single breach planted in it."""

from __future__ import annotations

import ast
import importlib
import inspect
import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from tests.model.planted_further import FULL_PLAN, FULL_WEEK, FURTHER_PLANTED
from tests.model.planted_week import PLAN, WEEK, Planted

from ladleworth.decide.answer import Batch, Drawing, Helping, Plan, Purchase
from ladleworth.decide.judge import Breach, judge, portions_held
from ladleworth.decide.question import CookSession, DishChoice, HouseRules, MealSlot, Question, Version
from ladleworth.errors import BadField


def test_the_week_in_good_order_stands() -> None:
    assert judge(WEEK, PLAN).breaches == ()
    assert judge(WEEK, PLAN).stands


def test_the_week_with_all_that_a_household_may_add_stands() -> None:
    assert judge(FULL_WEEK, FULL_PLAN).breaches == ()


def test_the_costs_of_that_week_are_those_worked_out_by_hand() -> None:
    costs = judge(FULL_WEEK, FULL_PLAN).costs
    # beans 40 and meat 300, on one visit
    assert costs.tills == 340
    assert costs.trips == 20
    # The old beans and the curry are used up; the meat's last day is day 2, so its rest is worth nothing.
    assert costs.spoilt == 0
    assert costs.meals_out == 350
    # Half of: one of two soups (100), and 60 g of 100 g of beans (40).
    assert costs.carried == Fraction(50 + 24, 2)
    # Ada has the stew twice in days 1 to 2 and once in days 3 to 4.
    assert costs.repeats == 10
    # 6 for the dish, and 5 + 2 x 4 for each version, at 2
    assert costs.minutes == 2 * (6 + 13 + 13)
    assert costs.liking == costs.reserve == 0
    assert costs.sessions == 30
    assert costs.total == 340 + 20 + 350 - 37 + 10 + 64 + 30


@pytest.mark.parametrize(("night", "held", "frozen"), [(1, 5, 3), (2, 3, 2), (3, 2, 1), (4, 1, 1)])
def test_portions_on_hand_fill_containers_until_they_are_eaten(night: int, held: int, frozen: int) -> None:
    # Night 1: two stews, one of them frozen, two frozen soups and the curry for day 2. Night 2: the soup of day
    # 3 thaws. Night 3: the stew of day 4 thaws. Night 4: the other soup stays.
    assert portions_held(FULL_WEEK, FULL_PLAN, night) == (held, frozen)


def test_portions_on_hand_that_nobody_eats_are_thrown_out_on_their_last_evening_and_count_as_spoilt() -> None:
    out = tuple(Helping(2, "Ben", "supper") if h.lot == "old curry" else h for h in FULL_PLAN.helpings)
    question, plan = replace(FULL_WEEK, wishes=()), replace(FULL_PLAN, helpings=out)
    verdict = judge(question, plan)
    assert verdict.costs.spoilt == 50
    assert verdict.costs.meals_out == 700
    # On night 1 the curry is there still; on night 2 it is gone.
    assert portions_held(question, plan, 1) == (5, 3)
    assert portions_held(question, plan, 2) == (3, 2)


def test_a_half_portion_fills_half_a_container_rounded_up_and_a_remnant_of_a_batch_nothing() -> None:
    # Ben's half portion of 401 ml takes 201 ml on night 1; the other half of that portion is shared out.
    stew, *others = FULL_WEEK.dishes
    beans, meat = stew.versions
    odd = replace(stew, versions=(replace(beans, volume_ml=401), meat))
    question = replace(
        FULL_WEEK,
        dishes=(odd, *others),
        portions=(),
        wishes=(),
        slots=(MealSlot(1, "Ada", "supper"), MealSlot(2, "Ben", "supper")),
        rules=HouseRules(fridge_ml=201),
    )
    plan = Plan(
        (Batch(1, "stew", "with beans", 2),),
        (Helping(1, "Ada", "supper", "stew", 1), Helping(2, "Ben", "supper", "stew", 1)),
        (Purchase(1, "beans tin", 1),),
        (Drawing(1, "stew", "old beans", None, 120_000), Drawing(1, "stew", "beans tin", 1, 40_000)),
    )
    assert portions_held(question, plan, 1) == (1, 0)
    assert judge(question, plan).breaches == ()
    tight = replace(question, rules=HouseRules(fridge_ml=200))
    assert [str(b) for b in judge(tight, plan).breaches] == [
        "[room] night 1: 201 ml of portions for 200 ml of fridge"
    ]


def test_the_costs_are_those_worked_out_by_hand() -> None:
    costs = judge(WEEK, PLAN).costs
    # beans 80, rice 150, eggs 180 twice, greens 100
    assert costs.tills == 690
    # corner 25 and market 60, on both days
    assert costs.trips == 170
    # 60 g of the 260 g of old greens (65), and all of the wilted (20)
    assert costs.spoilt == 15 + 20
    assert costs.meals_out == 350
    # 450 g of the 500 g of rice (150), and 4 of the 6 eggs of day 4 (180), which keep to day 8. The greens
    # of day 4 keep to day 6, the last of the days: what is left of them is worth nothing.
    assert costs.carried == 135 + 120
    # Ada has bake and stew three times each, Ben the bake twice: 2 + 2 + 1 repeats at 10
    assert costs.repeats == 50
    # 10 + 3 x 5, 15 + 4 x 3 and 15 + 4 x 2 minutes at 2
    assert costs.minutes == 2 * (25 + 27 + 23)
    # five portions of the stew at -2.5
    assert costs.liking == Fraction(-25, 2)
    # one portion of stew
    assert costs.reserve == 90
    assert costs.total == Fraction("1087.5")


@pytest.mark.parametrize(
    ("night", "held", "frozen"), [(1, 6, 2), (2, 4, 2), (3, 2, 2), (4, 3, 1), (5, 1, 1), (6, 1, 1)]
)
def test_containers_and_freezer_places_are_counted_night_by_night(night: int, held: int, frozen: int) -> None:
    # Night 1: one bake (for lunch on day 2) and five stews. Night 4: the stew of day 5 has been taken out of
    # the freezer, the reserve stays; one bake waits for Ben.
    assert portions_held(WEEK, PLAN, night) == (held, frozen)


# -- planted breaches ---------------------------------------------------------------------------------


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

PLANTED = (
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
        "Ada supper day 5 eats stew that nobody cooked",
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
    # shopping and money
    Planted(
        "an offer listed twice on a day",
        {"shopping"},
        "rice bag stands 2 times on the list of day 1",
        added("purchases", RICE_BAG),
        AMPLE,
    ),
    Planted(
        "shopping on a day without a session",
        {"shopping"},
        "beans tin is bought on day 2, which has no session",
        added("purchases", Purchase(2, "beans tin", 1)),
        AMPLE,
    ),
    Planted(
        "buying no package",
        {"shopping"},
        "rice bag day 4: 0 packages",
        added("purchases", Purchase(4, "rice bag", 0)),
    ),
    Planted(
        "bringing a package back",
        {"shopping"},
        "rice bag day 4: -1 packages",
        added("purchases", Purchase(4, "rice bag", -1)),
    ),
    Planted(
        "more packages than the shop lets go",
        {"shopping"},
        "greens bunch day 4: 3 of at most 2",
        changed("purchases", (GREENS_4, replace(GREENS_4, packages=3))),
        AMPLE,
    ),
    Planted(
        "a package more than the money on hand",
        {"budget"},
        "770 cents at the tills are more than 690",
        added("purchases", Purchase(4, "beans tin", 1)),
    ),
    Planted(
        "a cent too little",
        {"budget"},
        "690 cents at the tills are more than 689",
        question=with_rules(budget_cents=689),
    ),
    # needs
    Planted(
        "drawing nothing",
        {"needs"},
        "old rice: 0 is no amount to draw",
        added("drawings", replace(D_OLD_RICE, quantity=0)),
    ),
    Planted(
        "putting something back",
        {"needs"},
        "rice bag: -1 is no amount to draw",
        changed(
            "drawings",
            (D_RICE_BAG, replace(D_RICE_BAG, quantity=50_001), replace(D_RICE_BAG, quantity=-1)),
        ),
    ),
    Planted(
        "a milligram too little",
        {"needs"},
        "bake (plain) day 4 needs 133334 of greens and draws 133333",
        changed("drawings", (D_LATE_GREENS, replace(D_LATE_GREENS, quantity=133_333))),
    ),
    Planted(
        "a milligram too much",
        {"needs"},
        "stew (with beans) day 1 needs 350000 of rice and draws 350001",
        changed("drawings", (D_RICE_BAG, replace(D_RICE_BAG, quantity=50_001))),
    ),
    Planted(
        "nothing of a food that is needed",
        {"needs"},
        "stew (with beans) day 1 needs 400000 of beans and draws 0",
        changed("drawings", (D_BEANS,)),
    ),
    Planted(
        "a food that the dish does not need",
        {"needs"},
        "bake (plain) day 1 draws 10 of rice that it does not need",
        added("drawings", Drawing(1, "bake", "rice bag", 1, 10)),
    ),
    # stock
    Planted(
        "drawing before buying",
        {"stock"},
        "half dozen is drawn on day 1, before it is bought",
        changed(
            "drawings",
            (D_EGGS, replace(D_EGGS, quantity=4), replace(D_EGGS, bought_day=4, quantity=1)),
            (D_LATE_EGG, replace(D_LATE_EGG, quantity=2)),
            (D_LATE_EGGS, replace(D_LATE_EGGS, quantity=1)),
        ),
    ),
    Planted(
        "a lot used after its last day",
        {"stock"},
        "old greens is drawn on day 4; its last day is 3",
        changed(
            "drawings",
            (
                D_LATE_GREENS,
                replace(D_LATE_GREENS, quantity=133_333),
                Drawing(4, "bake", "old greens", None, 1),
            ),
        ),
    ),
    Planted(
        "a lot that had spoilt before the days began",
        {"stock"},
        "wilted greens is drawn on day 1; its last day is 0",
        changed(
            "drawings",
            (
                D_OLD_GREENS,
                replace(D_OLD_GREENS, quantity=199_999),
                Drawing(1, "bake", "wilted greens", None, 1),
            ),
        ),
    ),
    Planted(
        "a purchase used after its keeping days",
        {"stock"},
        "greens bunch is drawn on day 4; its last day is 3",
        EARLY_GREENS,
    ),
    Planted(
        "a milligram more than the lot holds",
        {"stock"},
        "300001 of old rice are drawn and 300000 are there",
        changed(
            "drawings",
            (D_OLD_RICE, replace(D_OLD_RICE, quantity=300_001)),
            (D_RICE_BAG, replace(D_RICE_BAG, quantity=49_999)),
        ),
    ),
    Planted(
        "an egg more than was bought",
        {"stock"},
        "7 of half dozen are drawn and 6 are there",
        changed(
            "drawings",
            (D_LATE_EGG, replace(D_LATE_EGG, quantity=2)),
            (D_LATE_EGGS, replace(D_LATE_EGGS, quantity=1)),
        ),
    ),
    Planted(
        "drawing from what was not bought that day",
        {"stock"},
        "50000 of rice bag are drawn and 0 are there",
        changed("purchases", (RICE_BAG,)),
    ),
)


@pytest.mark.parametrize("case", [*PLANTED, *FURTHER_PLANTED], ids=lambda case: case.what)
def test_a_planted_breach_is_refused_in_the_name_of_its_rule(case: Planted) -> None:
    verdict = judge(case.question, case.plan)
    assert not verdict.stands
    assert {breach.rule for breach in verdict.breaches} == case.rules
    assert any(case.phrase in str(breach) for breach in verdict.breaches), verdict.breaches


JUDGES = ("judge", "judge_food", "judge_kitchen", "judge_meals")
"""The modules of the judge that find breaches."""


def test_every_place_where_the_judge_finds_a_breach_is_reached_by_a_planted_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    reached: set[tuple[str, int]] = set()
    places: set[tuple[str, int]] = set()

    def noting(rule: str, what: str) -> Breach:
        caller = sys._getframe(1)
        reached.add((str(caller.f_globals["__name__"]), caller.f_lineno))
        return Breach(rule, what)

    for name in JUDGES:
        module = importlib.import_module(f"ladleworth.decide.{name}")
        places |= {
            (module.__name__, node.lineno)
            for node in ast.walk(ast.parse(inspect.getsource(module)))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Breach"
        }
        monkeypatch.setattr(module, "Breach", noting)
    for case in (*PLANTED, *FURTHER_PLANTED):
        judge(case.question, case.plan)
    assert len(places) >= 45
    assert reached == places


def test_no_other_module_finds_breaches() -> None:
    folder = Path(inspect.getfile(importlib.import_module("ladleworth.decide"))).parent
    finding = {path.stem for path in folder.glob("*.py") if " Breach(" in path.read_text(encoding="utf-8")}
    assert finding == set(JUDGES)


@pytest.mark.parametrize(("most_times", "broken"), [(2, set()), (1, {"sameness"})])
def test_two_meals_of_one_day_are_two_helpings_of_a_dish(most_times: int, broken: set[str]) -> None:
    question = Question(
        days=1,
        slots=(MealSlot(1, "Ada", "lunch"), MealSlot(1, "Ada", "supper")),
        sessions=(CookSession(1, 0),),
        dishes=(DishChoice("toast", (Version("plain", {}),)),),
        foods=(),
        rules=HouseRules(most_times=most_times, in_a_row=1),
    )
    toast = tuple(Helping(1, "Ada", meal, "toast", 1) for meal in ("lunch", "supper"))
    verdict = judge(question, Plan((Batch(1, "toast", "plain", 2),), toast, (), ()))
    assert {breach.rule for breach in verdict.breaches} == broken


def test_a_meal_out_cannot_pass_for_a_portion_that_empties_a_container() -> None:
    # Six portions wait on night 1. A meal out on day 1 that names a cooking day must not make them five.
    question = replace(with_rules(containers=5), slots=(*WEEK.slots, MealSlot(1, "Ben", "lunch")))
    honest = added("helpings", Helping(1, "Ben", "lunch"))
    assert {breach.rule for breach in judge(question, honest).breaches} == {"containers"}
    with pytest.raises(BadField):
        Helping(1, "Ben", "lunch", dish=None, cooked_day=1)
    with pytest.raises(BadField):
        Helping(1, "Ben", "lunch", dish="stew", cooked_day=None)
