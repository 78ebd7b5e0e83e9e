"""Weeks built around a plan that is possible in them: it is found that they are, and nothing dearer is answered."""

from __future__ import annotations

import math
import pickle
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from unittest.mock import patch

from hypothesis import given, settings
from hypothesis import strategies as st

from ladleworth.decide import (
    Additions,
    Answer,
    Batch,
    CookSession,
    DishChoice,
    Drawing,
    Foodstuff,
    Helping,
    HouseRules,
    MealSlot,
    PackageOffer,
    Plan,
    Purchase,
    Question,
    ShopVisit,
    Status,
    StockLot,
    Version,
    decide,
    deciding,
    judge,
    work,
)
from ladleworth.decide.draw import draw
from ladleworth.decide.judge import hands_on_min, need, portions_held
from ladleworth.store import record_json

MEALS = ("lunch", "supper")
FOODS = ("rice", "greens", "eggs")
Pick = st.DrawFn


def minutes(pick: Pick) -> Fraction:
    return Fraction(pick(st.integers(0, 12)), pick(st.sampled_from((1, 1, 2, 3))))


def versions(pick: Pick, dish: str) -> tuple[Version, ...]:
    """One version or two, of one food or two."""
    return tuple(
        Version(
            f"{dish} {swap}",
            {
                food: Fraction(pick(st.integers(1, 4)), pick(st.integers(1, 3)))
                if food == "eggs"
                else Fraction(pick(st.integers(10, 150)) * 1000, pick(st.sampled_from((1, 3))))
                for food in pick(st.lists(st.sampled_from(FOODS), min_size=1, max_size=2, unique=True))
            },
            minutes(pick),
            minutes(pick),
            liking_cents=Fraction(pick(st.integers(-9, 9)), pick(st.sampled_from((1, 2)))),
        )
        for swap in ("plain", "rich")[: pick(st.integers(1, 2))]
    )


@st.composite
def planted(pick: Pick) -> tuple[Question, Plan]:
    """A plan, and a week whose every limit is what the plan needs and not a bit more (or none at all)."""
    days = pick(st.integers(1, 6))
    cook_days = sorted(pick(st.sets(st.integers(1, days), min_size=1, max_size=2)))
    eaters = ("Ada", "Ben")[: pick(st.integers(1, 2))]
    free = [(day, e, m) for day in range(1, days + 1) for e in eaters for m in MEALS]
    kinds = {name: versions(pick, name) for name in ("stew", "bake", "curry")[: pick(st.integers(1, 3))]}
    batches: list[Batch] = []
    helpings: list[Helping] = []
    keeping: dict[str, list[int]] = {name: [1] for name in kinds}
    freezing: dict[str, list[int]] = {name: [] for name in kinds}
    for day in cook_days:
        for dish, choices in kinds.items():
            portions = pick(st.integers(0, 3))
            within = [slot for slot in free if slot[0] >= day][: 3 * portions]
            taken = pick(st.permutations(within))[:portions] if within else []
            if not taken:
                continue
            version = pick(st.sampled_from(choices))
            batches.append(Batch(day, dish, version.name, len(taken)))
            for slot in taken:
                free.remove(slot)
                age = slot[0] - day + 1
                frozen = age >= 3 and pick(st.booleans())
                (freezing if frozen else keeping)[dish].append(age)
                helpings.append(Helping(*slot, dish, day, frozen))
    eats_out = pick(st.booleans())
    helpings += [Helping(*slot) for slot in (free[:: pick(st.integers(1, 3))] if eats_out else [])]
    question = furnish(pick, days, cook_days, kinds, batches, helpings, keeping, freezing)
    purchases, drawings = shop_for(question, batches)
    plan = Plan(tuple(sorted(batches)), tuple(sorted(helpings, key=repr)), purchases, drawings)
    return limited(pick, question, plan, eats_out=eats_out), plan


def furnish(
    pick: Pick,
    days: int,
    cook_days: list[int],
    kinds: dict[str, tuple[Version, ...]],
    batches: list[Batch],
    helpings: list[Helping],
    keeping: dict[str, list[int]],
    freezing: dict[str, list[int]],
) -> Question:
    """Give the week its dishes (with sizes, keeping days, meals and exclusions as the plan needs), foods and shops."""
    had = {(b.dish, b.version): {h.eater for h in helpings if h.dish == b.dish} for b in batches}
    dishes = []
    for name, choices in kinds.items():
        sizes = [b.portions for b in batches if b.dish == name] or [2]
        meals = {h.meal for h in helpings if h.dish == name}
        dishes.append(
            DishChoice(
                name,
                tuple(
                    replace(
                        v,
                        barred=frozenset({"Ada", "Ben"} - had.get((name, v.name), set()))
                        if pick(st.booleans())
                        else frozenset(),
                    )
                    for v in choices
                ),
                min(sizes),
                max(sizes) + pick(st.integers(0, 1)),
                max(keeping[name]),
                max(freezing[name]) if freezing[name] else pick(st.sampled_from((None, 30))),
                frozenset(meals) if meals and pick(st.booleans()) else None,
            )
        )
    foods = (
        Foodstuff("rice"),
        Foodstuff("greens", keep_days=pick(st.integers(1, 4))),
        Foodstuff("eggs", pieces=True, keep_days=pick(st.sampled_from((None, 2, 9)))),
    )
    sizes = {"rice": 200_000, "greens": 120_000, "eggs": 4}
    return Question(
        days,
        tuple(MealSlot(h.day, h.eater, h.meal) for h in helpings),
        tuple(CookSession(day, 10_000) for day in cook_days),
        tuple(dishes),
        foods,
        tuple(
            StockLot(
                f"old {food}",
                food,
                pick(st.integers(1, 4)) if food == "eggs" else pick(st.integers(1, 200)) * 1000,
                pick(st.integers(0, 90)),
                pick(st.sampled_from((None, 0, 1, 3, days, days + 1))),
            )
            for food in FOODS
            if pick(st.booleans())
        ),
        tuple(
            PackageOffer(
                f"{food} pack",
                food,
                pick(st.sampled_from(("corner", "market"))),
                size,
                pick(st.integers(0, 200)),
            )
            for food, size in sizes.items()
        ),
        (
            ShopVisit("corner", pick(st.sampled_from((0, 20)))),
            ShopVisit("market", pick(st.sampled_from((0, 70)))),
        ),
    )


def shop_for(question: Question, batches: list[Batch]) -> tuple[tuple[Purchase, ...], tuple[Drawing, ...]]:
    """Buy everything anew on its day, and draw what is there as cheaply as can be."""
    by_version = {v.name: v for dish in question.dishes for v in dish.versions}
    wanted: Counter[tuple[int, str]] = Counter()
    for batch in batches:
        for food in by_version[batch.version].needs:
            wanted[batch.day, food] += need(by_version[batch.version], food, batch.portions)
    size = {offer.food: offer.quantity for offer in question.offers}
    purchases = tuple(
        Purchase(day, f"{food} pack", math.ceil(Fraction(quantity, size[food])))
        for (day, food), quantity in sorted(wanted.items())
    )
    drawings = draw(question, batches, purchases)
    assert drawings is not None
    return purchases, drawings


def limited(pick: Pick, question: Question, plan: Plan, *, eats_out: bool) -> Question:
    """Set every limit to just what the plan needs, or leave it out."""

    def limit(value: int) -> int | None:
        return value if pick(st.booleans()) else None

    by_version = {v.name: v for dish in question.dishes for v in dish.versions}
    held = [portions_held(question, plan, day) for day in range(1, question.days + 1)]
    cents = {offer.name: offer.cents for offer in question.offers}
    times = Counter((h.eater, h.dish) for h in plan.helpings if h.dish is not None)
    had = {(h.eater, h.dish, h.day) for h in plan.helpings if h.dish is not None}
    longest = max(
        (
            next(n for n in range(question.days + 2) if (eater, dish, day + n) not in had)
            for eater, dish, day in had
        ),
        default=1,
    )
    spent = {
        s.day: sum(
            (hands_on_min(by_version[b.version], b.portions) for b in plan.batches if b.day == s.day),
            Fraction(0),
        )
        for s in question.sessions
    }
    most = {
        o.name: max((p.packages for p in plan.purchases if p.offer == o.name), default=1)
        for o in question.offers
    }
    return replace(
        question,
        sessions=tuple(replace(s, minutes=math.ceil(spent[s.day])) for s in question.sessions),
        offers=tuple(replace(o, most=limit(most[o.name])) for o in question.offers),
        rules=HouseRules(
            containers=limit(max(boxes for boxes, _ in held)),
            freezer_places=limit(max(frozen for _, frozen in held)),
            budget_cents=limit(sum(cents[p.offer] * p.packages for p in plan.purchases)),
            meal_out_cents=pick(st.integers(0, 500)) if eats_out else None,
            in_a_row=limit(longest),
            most_times=limit(max(times.values(), default=1)),
        ),
        additions=Additions(
            repeat_cents=pick(st.sampled_from((0, 30))),
            minute_cents=Fraction(pick(st.sampled_from((0, 1))), 3),
            reserve_portions=pick(st.integers(0, 1)),
            reserve_cents=pick(st.sampled_from((0, 120))),
            carried_share=pick(st.sampled_from((Fraction(1), Fraction(3, 5), Fraction(0)))),
        ),
    )


@settings(max_examples=80)
@given(planted())
def test_a_week_in_which_a_plan_is_possible_gets_one_that_stands_and_is_no_dearer(
    case: tuple[Question, Plan],
) -> None:
    question, plan = case
    planted_verdict = judge(question, plan)
    assert planted_verdict.breaches == ()
    answer = decide(question, seconds=60)
    assert answer.status is Status.PROVEN
    assert answer.plan is not None
    assert answer.costs is not None
    verdict = judge(question, answer.plan)
    assert verdict.breaches == ()
    assert verdict.costs == answer.costs
    assert answer.costs.total <= planted_verdict.costs.total
    assert answer.bound is not None
    assert answer.bound <= float(planted_verdict.costs.total) + 1e-6


@settings(max_examples=30)
@given(planted())
def test_a_week_in_which_a_plan_is_possible_gets_one_that_stands_also_in_pieces(
    case: tuple[Question, Plan],
) -> None:
    question, plan = case
    with (
        patch.object(deciding, "SMALL_SIZES", -1),
        patch.object(work, "SEARCH_SECONDS", 0.05),
    ):
        answer = decide(question, work=200)
    assert answer.plan is not None
    assert answer.costs is not None
    assert judge(question, answer.plan).breaches == ()
    assert answer.costs.total == decide(question, seconds=60).costs.total  # type: ignore[union-attr]
    assert answer.costs.total <= judge(question, plan).costs.total


def plain(answer: Answer) -> Answer:
    return replace(answer, seconds=0.0)


@settings(max_examples=25)
@given(planted())
def test_the_same_week_gets_the_same_answer_twice_also_as_it_comes_back_from_a_file(
    case: tuple[Question, Plan],
) -> None:
    question, plan = case
    first = plain(decide(question, seconds=60))
    assert plain(decide(question, seconds=60)) == first
    read_again = record_json.from_json(record_json.to_json(question), Question)
    unpickled = pickle.loads(pickle.dumps(question))
    assert read_again == unpickled == question
    assert record_json.from_json(record_json.to_json(plan), Plan) == plan
    assert record_json.from_json(record_json.to_json(first), Answer) == first
    assert plain(decide(read_again, seconds=60)) == first


@settings(max_examples=25)
@given(planted(), st.sampled_from(("containers", "freezer_places", "budget_cents", "most_times", "in_a_row")))
def test_a_week_with_a_limit_less_is_no_dearer(case: tuple[Question, Plan], limit: str) -> None:
    question, _ = case
    looser = replace(question, rules=replace(question.rules, **{limit: None}))
    strict, free = decide(question, seconds=60), decide(looser, seconds=60)
    assert strict.costs is not None
    assert free.costs is not None
    assert free.costs.total <= strict.costs.total


@settings(max_examples=25)
@given(planted(), st.integers(1, 5))
def test_prices_so_many_times_as_high_make_the_week_so_many_times_as_dear(
    case: tuple[Question, Plan], times: int
) -> None:
    question, _ = case
    rules, extra = question.rules, question.additions

    def dearer(cents: int | None) -> int | None:
        return None if cents is None else cents * times

    scaled = replace(
        question,
        lots=tuple(replace(lot, cents=lot.cents * times) for lot in question.lots),
        offers=tuple(replace(o, cents=o.cents * times) for o in question.offers),
        shops=tuple(replace(s, trip_cents=s.trip_cents * times) for s in question.shops),
        dishes=tuple(
            replace(d, versions=tuple(replace(v, liking_cents=v.liking_cents * times) for v in d.versions))
            for d in question.dishes
        ),
        rules=replace(
            rules, budget_cents=dearer(rules.budget_cents), meal_out_cents=dearer(rules.meal_out_cents)
        ),
        additions=replace(
            extra,
            repeat_cents=extra.repeat_cents * times,
            minute_cents=extra.minute_cents * times,
            reserve_cents=extra.reserve_cents * times,
        ),
    )
    once, often = decide(question, seconds=60), decide(scaled, seconds=60)
    assert once.costs is not None
    assert often.costs is not None
    assert often.costs.total == once.costs.total * times
