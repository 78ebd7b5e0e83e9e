"""The judge agrees with rules written a second time: on the best plans, on every plan of tiny weeks, on random ones."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import ceil

import pytest
from tests.model.brute_food import Bought, FoodBuy, buy
from tests.model.brute_force import all_plans, best
from tests.model.plan_cost import appetite_of, cost_of, total_of
from tests.model.plan_rules import broken_rules
from tests.model.planted_further import FURTHER_PLANTED
from tests.model.planted_week import Planted
from tests.model.small_kitchens import KITCHENS, PLAIN_KITCHENS, small_kitchen
from tests.model.tried_out import tried_out

from ladleworth.decide.answer import Batch, Helping, Plan, Purchase
from ladleworth.decide.judge import judge
from ladleworth.decide.question import MealSlot, Question
from ladleworth.decide.rules import MustServe

BLOCK = 40

EVERY_RULE = {
    *("slots", "meals", "batches", "minutes", "stations", "portions", "keeping", "freezing", "containers"),
    *(
        "freezer",
        "sizes",
        "room",
        "freezing load",
        "sameness",
        "exclusions",
        "nutrients",
        "shopping",
        "budget",
    ),
    *("needs", "stock", "wishes"),
}
"""The names of all rules that a plan may break that names only what there is."""


def agreed(question: Question, plan: Plan, where: object) -> set[str]:
    """Hold the judge's verdict against the second writing of the rules; return the rules that are broken."""
    verdict = judge(question, plan)
    broken = {breach.rule for breach in verdict.breaches}
    assert broken == broken_rules(question, plan), (where, plan, verdict.breaches)
    parts = cost_of(question, plan)
    assert {name: getattr(verdict.costs, name) for name in parts} == parts, (where, plan)
    assert verdict.costs.total == total_of(parts), (where, plan)
    return broken


@pytest.mark.parametrize("block", range(0, KITCHENS, BLOCK))
def test_every_best_plan_stands_at_its_cost(block: int) -> None:
    plans = 0
    for seed in range(block, block + BLOCK):
        found = tried_out(seed)
        if found is not None:
            assert agreed(small_kitchen(seed), found[1], seed) == set()
            assert judge(small_kitchen(seed), found[1]).costs.total == found[0], seed
            plans += 1
    assert plans >= BLOCK // 2


@pytest.mark.parametrize("block", [*range(0, 120, 20), *range(PLAIN_KITCHENS, KITCHENS, 20)])
def test_the_best_plan_of_every_set_of_batches_stands_at_its_cost(block: int) -> None:
    plans = 0
    for seed in range(block, block + 20):
        question = small_kitchen(seed)
        for total, plan in all_plans(question)[:20]:
            assert agreed(question, plan, seed) == set()
            assert judge(question, plan).costs.total == total, seed
            plans += 1
    assert plans >= 30


@pytest.mark.parametrize(
    "case", [case for case in FURTHER_PLANTED if "names" not in case.rules], ids=lambda case: case.what
)
def test_planted_breaches_are_found_by_the_second_writing_too(case: Planted) -> None:
    assert agreed(case.question, case.plan, case.what) == case.rules


# -- every plan of a tiny week ------------------------------------------------------------------------


def few_slots(question: Question, most: int) -> Question:
    """Return the week with few slots, and without wishes for slots that are gone."""
    slots = question.slots[:most]
    kept = {(s.day, s.eater, s.meal) for s in slots}
    wishes = tuple(
        w for w in question.wishes if not isinstance(w, MustServe) or (w.day, w.eater, w.meal) in kept
    )
    return replace(question, wishes=wishes).only(slots)


def sources(question: Question) -> Iterator[tuple[str | None, int | None, bool, str | None, str | None]]:
    """Yield everything that any slot might have: dish, cooking day, frozen, version, lot."""
    yield None, None, False, None, None
    for session in question.sessions:
        for dish in question.dishes:
            for version in dish.versions:
                for frozen in (False, True):
                    yield dish.name, session.day, frozen, version.name, None
    for lot in question.portions:
        yield lot.dish, None, lot.frozen, None, lot.name


def helping_of(
    slot: MealSlot, source: tuple[str | None, int | None, bool, str | None, str | None]
) -> Helping:
    dish, cooked, frozen, version, lot = source
    return Helping(slot.day, slot.eater, slot.meal, dish, cooked, frozen, version, lot)


def servings(question: Question) -> Iterator[tuple[tuple[Batch, ...], tuple[Helping, ...]]]:
    """Yield every way to fill the slots, in order or not, with batches as large as it takes and a reserve."""
    pots = [
        (session.day, dish.name, version.name)
        for session in question.sessions
        for dish in question.dishes
        for version in dish.versions
    ]
    for picked in product(list(sources(question)), repeat=len(question.slots)):
        helpings = tuple(helping_of(s, source) for s, source in zip(question.slots, picked, strict=True))
        eaten: dict[tuple[int, str, str], Fraction] = {}
        for h in helpings:
            if h.cooked_day is not None:
                pot = (h.cooked_day, str(h.dish), str(h.version))
                eaten[pot] = eaten.get(pot, Fraction(0)) + appetite_of(question, h.eater)
        for reserve in product(range(question.additions.reserve_portions + 1), repeat=len(pots)):
            if sum(reserve) > question.additions.reserve_portions:
                continue
            sizes = [ceil(eaten.get(pot, 0)) + more for pot, more in zip(pots, reserve, strict=True)]
            batches = tuple(Batch(*pot, n) for pot, n in zip(pots, sizes, strict=True) if n)
            yield batches, helpings


TINY = (*range(PLAIN_KITCHENS, PLAIN_KITCHENS + 46), *range(0, 56, 4))
MOST_SERVINGS = 1500


@pytest.mark.parametrize("at", range(0, len(TINY), 10))
def test_the_best_of_all_plans_that_the_judge_lets_stand_is_the_optimum(at: int) -> None:
    tried = stood = 0
    for seed in TINY[at : at + 10]:
        question = few_slots(small_kitchen(seed), 3)
        number = len(list(sources(question))) ** len(question.slots)
        if number > MOST_SERVINGS:
            question = few_slots(question, 2)
        least: Fraction | None = None
        bought: dict[object, list[FoodBuy]] = {}
        shopping: dict[tuple[Batch, ...], Bought | None] = {}
        for batches, helpings in servings(question):
            if batches not in shopping:
                shopping[batches] = buy(question, batches, bought)
            goods = shopping[batches]
            if goods is None:
                continue
            verdict = judge(question, Plan(batches, helpings, goods.purchases, goods.drawings))
            tried += 1
            if verdict.stands:
                stood += 1
                least = verdict.costs.total if least is None else min(least, verdict.costs.total)
        assert best(question) == least, seed
    assert tried >= 500
    assert stood >= 20


# -- random plans -------------------------------------------------------------------------------------


def stirred(question: Question, plan: Plan, dice: random.Random) -> Plan:
    """Return the plan with a few random changes, in order or not; it still names only what there is."""
    batches, helpings = list(plan.batches), list(plan.helpings)
    purchases, drawings = list(plan.purchases), list(plan.drawings)
    for _ in range(dice.randint(1, 3)):
        move = dice.choice(
            ("out", "swap", "pot", "lot", "thaw", "size", "size", "buy", "redraw", "split", "drop")
        )
        at = dice.randrange(len(helpings)) if helpings else 0
        slot = (helpings[at].day, helpings[at].eater, helpings[at].meal) if helpings else None
        if move == "out" and slot:
            helpings[at] = Helping(*slot)
        elif move == "swap" and slot:
            other = dice.randrange(len(helpings))
            one, two = helpings[at], helpings[other]
            helpings[at] = replace(two, day=one.day, eater=one.eater, meal=one.meal)
            helpings[other] = replace(one, day=two.day, eater=two.eater, meal=two.meal)
        elif move == "pot" and slot and batches:
            pot = dice.choice(batches)
            helpings[at] = Helping(*slot, pot.dish, pot.day, dice.random() < 0.4, pot.version)
        elif move == "lot" and slot and question.portions:
            lot = dice.choice(question.portions)
            helpings[at] = Helping(*slot, lot.dish, None, lot.frozen, None, lot.name)
        elif move == "thaw" and helpings and helpings[at].cooked_day is not None:
            helpings[at] = replace(helpings[at], frozen=not helpings[at].frozen)
        elif move == "size" and batches:
            n = dice.randrange(len(batches))
            batches[n] = replace(batches[n], portions=batches[n].portions + dice.choice((-1, 1)))
        elif move == "buy" and question.offers:
            offer, session = dice.choice(question.offers), dice.choice(question.sessions)
            line = next((p for p in purchases if (p.day, p.offer) == (session.day, offer.name)), None)
            if line is None:
                purchases.append(Purchase(session.day, offer.name, dice.randint(1, 2)))
            else:
                purchases[purchases.index(line)] = replace(line, packages=line.packages + 1)
        elif move == "redraw" and drawings and purchases:
            n, bought = dice.randrange(len(drawings)), dice.choice(purchases)
            drawings[n] = replace(drawings[n], source=bought.offer, bought_day=bought.day)
        elif move == "split" and batches:
            pot = dice.choice(batches)
            dish = question.dish(pot.dish)
            there = {b.version for b in batches if (b.day, b.dish) == (pot.day, pot.dish)}
            more = [v.name for v in dish.versions if v.name not in there]
            if more:
                batches.append(Batch(pot.day, pot.dish, more[0], 1))
        elif move == "drop" and helpings:
            helpings.pop(at)
    # Which version is meant must stay clear once a batch is split.
    named = tuple(_named(h, plan.batches) for h in helpings)
    drawn = tuple(
        replace(d, version=next(b.version for b in plan.batches if (b.day, b.dish) == (d.day, d.dish)))
        if d.version is None
        else d
        for d in drawings
    )
    return Plan(tuple(batches), named, tuple(purchases), drawn)


def _named(helping: Helping, batches: tuple[Batch, ...]) -> Helping:
    if helping.cooked_day is None or helping.version is not None:
        return helping
    pot = next(b for b in batches if (b.day, b.dish) == (helping.cooked_day, helping.dish))
    return replace(helping, version=pot.version)


def restocked(question: Question, plan: Plan) -> Plan:
    """Return the plan with the shopping that its batches need, if there is any, so that other rules are tried."""
    goods = buy(question, plan.batches, {}) if all(b.portions > 0 for b in plan.batches) else None
    return plan if goods is None else replace(plan, purchases=goods.purchases, drawings=goods.drawings)


def test_random_plans_break_the_same_rules_and_cost_the_same_by_both_writings_and_none_beats_the_best() -> (
    None
):
    dice = random.Random(11)
    stood = 0
    fell: Counter[str] = Counter()
    for seed in range(KITCHENS):
        question = small_kitchen(seed)
        optimum = tried_out(seed)
        if optimum is None:
            continue
        for n in range(24):
            plan = stirred(question, optimum[1], dice)
            if n % 2:
                plan = restocked(question, plan)
            broken = agreed(question, plan, seed)
            fell.update(broken)
            if not broken:
                stood += 1
                assert judge(question, plan).costs.total >= optimum[0], (seed, plan)
    assert stood >= 300
    assert {name for name in EVERY_RULE if fell[name] < 5} == set(), fell
    assert set(fell) == EVERY_RULE
