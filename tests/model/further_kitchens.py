"""Small made-up weeks for what a household may add to the plain question; every figure is invented.

Each week starts plain (`plain_week`) and is given one rule after another: the one whose turn it is, and now and then
others beside it. Tight figures are the rule, so that the rule decides something.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from tests.model.further_plain import EATERS, GRAM, any_version, plain_week

from ladleworth.decide.question import CookSession, Load, MealSlot, PortionLot, Question, StockLot, Version
from ladleworth.decide.rules import (
    ContainerSize,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
)

Change = Callable[[random.Random, Question], Question]


def further_kitchen(turn: int) -> Question:
    """Return the week of this turn."""
    dice = random.Random(5000 + turn)
    question = plain_week(dice)
    leading = turn % len(CHANGES)
    for number, change in enumerate(CHANGES):
        if number == leading or dice.random() < 0.09:
            question = change(dice, question)
    if turn % 6 == 1 or question.appetites:
        question = _share(random.Random(9000 + turn), question)
    return question


# -- one rule more ------------------------------------------------------------------------------------


def _with_rules(question: Question, **limits: object) -> Question:
    return replace(question, rules=replace(question.rules, **limits))  # type: ignore[arg-type]


def _each_version(question: Question, change: Callable[[Version], Version]) -> Question:
    dishes = tuple(replace(d, versions=tuple(change(v) for v in d.versions)) for d in question.dishes)
    return replace(question, dishes=dishes)


def _freezing(dice: random.Random, question: Question) -> Question:
    """Let the week live from the freezer: cooked once, and kept a day or two chilled."""
    dishes = tuple(replace(d, keep_days=dice.randint(1, 2), freezer_days=30) for d in question.dishes)
    return replace(question, dishes=dishes, sessions=question.sessions[:1])


def _appetites(dice: random.Random, question: Question) -> Question:
    factors = {eater: Fraction(*dice.choice(((1, 2), (3, 4), (3, 2), (2, 1), (1, 1)))) for eater in EATERS}
    if set(factors.values()) == {Fraction(1)}:
        factors["Ben"] = Fraction(1, 2)
    return replace(question, appetites={e: f for e, f in factors.items() if f != 1 and e in question.eaters})


def _split(dice: random.Random, question: Question) -> Question:
    beans = any_version(dice, "with beans")
    meat = replace(
        any_version(dice, "with meat"),
        barred=frozenset({"Ben"}),
        liking_cents=Fraction(dice.choice((-60, -25))),
    )
    first = replace(question.dishes[0], versions=(beans, meat), most_versions=2, greatest=6)
    if dice.random() < 0.7:
        question = replace(question, sessions=(CookSession(1, 120),), dishes=question.dishes[:1])
        question = _with_rules(question, in_a_row=None, containers=None)
    return replace(question, dishes=(first, *question.dishes[1:]))


def _shared_minutes(dice: random.Random, question: Question) -> Question:
    dishes = tuple(replace(d, shared_min=Fraction(dice.choice((6, 15, 25)), 2)) for d in question.dishes)
    sessions = tuple(replace(s, minutes=dice.randint(15, 35)) for s in question.sessions)
    return replace(question, dishes=dishes, sessions=sessions)


def _stations(dice: random.Random, question: Question) -> Question:
    def loaded(version: Version) -> Version:
        loads = {"oven": Load(Fraction(dice.choice((0, 20, 30))), Fraction(dice.choice((0, 5, 10)), 3))}
        if dice.random() < 0.5:
            loads["burner"] = Load(Fraction(0), Fraction(dice.choice((3, 6))))
        return replace(version, loads=loads)

    sessions = tuple(
        replace(s, stations={"oven": dice.randint(5, 35)} | ({"burner": 12} if dice.random() < 0.5 else {}))
        for s in question.sessions
    )
    return replace(_each_version(question, loaded), sessions=sessions)


def _session_price(dice: random.Random, question: Question) -> Question:
    days = sorted({1, dice.randint(2, question.days)} | {s.day for s in question.sessions})[:2]
    sessions = tuple(CookSession(day, 60, cents=dice.choice((0, 15, 40, 90))) for day in days)
    return replace(question, sessions=sessions)


def _portions_on_hand(dice: random.Random, question: Question) -> Question:
    last = dice.choice((1, 2, question.days, question.days + 1, question.days + 2))
    lot = PortionLot(
        "box in the fridge",
        dice.choice(("stew", "soup")),
        dice.randint(1, 3),
        dice.randint(0, 200),
        last_day=last,
        barred=frozenset({"Ada"} if dice.random() < 0.6 else ()),
        meals=frozenset({dice.choice(("meal", "lunch"))}) if dice.random() < 0.5 else None,
    )
    return replace(question, portions=(*question.portions, lot))


def _portions_frozen(dice: random.Random, question: Question) -> Question:
    lot = PortionLot(
        "box in the freezer",
        dice.choice(("stew", "curry")),
        dice.randint(2, 3),
        dice.choice((0, 0, 60, 200)),
        first_day=dice.choice((1, 2, 2, 3, 3)),
        last_day=dice.choice((None, None, 3, question.days)),
        frozen=True,
        barred=frozenset({dice.choice(EATERS)} if dice.random() < 0.4 else ()),
        meals=frozenset({"lunch"}) if dice.random() < 0.15 else None,
    )
    tight = {"freezer_places": dice.randint(2, 3)} if dice.random() < 0.6 else {}
    return _with_rules(replace(question, portions=(*question.portions, lot)), **tight)


def _freezing_load(dice: random.Random, question: Question) -> Question:
    return _with_rules(
        _freezing(dice, question), freezing_load=dice.choice((0, 1, 1, 2)), freezer_places=None
    )


def _in_volumes(dice: random.Random, question: Question) -> Question:
    """Let every portion fill so many ml."""
    sized = _each_version(question, lambda v: replace(v, volume_ml=dice.choice((250, 400, 550))))
    lots = tuple(replace(lot, volume_ml=dice.choice((300, 500))) for lot in sized.portions)
    return replace(sized, portions=lots)


def _container_sizes(dice: random.Random, question: Question) -> Question:
    sizes = (ContainerSize(300, dice.randint(0, 2)), ContainerSize(600, dice.randint(1, 2)))
    return _with_rules(_in_volumes(dice, question), container_sizes=sizes[:: dice.choice((1, -1))])


def _fridge_room(dice: random.Random, question: Question) -> Question:
    sized = _in_volumes(dice, question)
    if dice.random() < 0.7:
        sized = replace(sized, dishes=tuple(replace(d, freezer_days=30) for d in sized.dishes))
    return _with_rules(sized, fridge_ml=dice.choice((200, 300, 450, 600)))


def _freezer_room(dice: random.Random, question: Question) -> Question:
    sized = _in_volumes(dice, _freezing(dice, question))
    return _with_rules(sized, freezer_ml=dice.choice((200, 450, 600, 850)), freezer_places=None)


def _with_figures(dice: random.Random, question: Question) -> Question:
    """Let every portion bring so much protein and salt, each in its own unit."""

    def figured(version: Version) -> Version:
        protein = Fraction(dice.choice((5, 12, 20, 31)), dice.choice((1, 1, 3)))
        return replace(version, nutrients={"protein": protein, "salt": Fraction(dice.randint(1, 6))})

    lots = tuple(
        replace(lot, nutrients={"protein": Fraction(14), "salt": Fraction(3)}) for lot in question.portions
    )
    return replace(_each_version(question, figured), portions=lots)


def _bounded(question: Question, bound: NutrientBound) -> Question:
    others = tuple(
        b for b in question.rules.nutrient_bounds if (b.eater, b.nutrient) != (bound.eater, bound.nutrient)
    )
    mine = (bound,) if bound.eater in question.eaters else ()
    return _with_rules(question, nutrient_bounds=(*others, *mine))


def _nutrient_least(dice: random.Random, question: Question) -> Question:
    bound = NutrientBound(dice.choice(EATERS), "protein", least=Fraction(dice.choice((9, 16, 25)), 2) * 2)
    return _bounded(_with_figures(dice, question), bound)


def _nutrient_most(dice: random.Random, question: Question) -> Question:
    bound = NutrientBound(dice.choice(EATERS), "salt", most=Fraction(dice.choice((5, 7, 9)), 2))
    return _bounded(_with_figures(dice, question), bound)


def _figure_missing(dice: random.Random, question: Question) -> Question:
    """Leave one version, or what is on hand, without a figure that a bound asks for."""
    figured = _with_figures(dice, question)
    bound = NutrientBound(dice.choice(EATERS), "protein", least=Fraction(1), most=Fraction(60))
    at = dice.randrange(len(figured.dishes))
    dish = figured.dishes[at]
    bare = tuple(replace(v, nutrients={"salt": Fraction(2)}) for v in dish.versions[:1])
    dishes = list(figured.dishes)
    dishes[at] = replace(dish, versions=(*bare, *dish.versions[1:]))
    return _bounded(replace(figured, dishes=tuple(dishes)), bound)


def _share(dice: random.Random, question: Question) -> Question:
    """Let a portion be fresh or not, and an eater, with an appetite if any has one, want so many that are."""

    def brought(one: Version) -> Version:
        return replace(one, nutrients={**one.nutrients, "fresh": Fraction(dice.choice((0, 1, 1)))})

    fresh = _each_version(question, brought)
    lots = tuple(
        replace(lot, nutrients={**lot.nutrients, "fresh": Fraction(dice.choice((0, 1)))})
        if dice.random() < 0.8
        else lot
        for lot in fresh.portions
    )
    eater = dice.choice(tuple(question.appetites) or question.eaters)
    least = dice.choice((None, Fraction(1, 3), Fraction(1, 2), Fraction(2, 3), Fraction(1)))
    most = dice.choice((Fraction(0), Fraction(1, 3), Fraction(1, 2))) if least is None else None
    return _bounded(replace(fresh, portions=lots), NutrientBound(eater, "fresh", least, most, share=True))


def _longer(dice: random.Random, question: Question) -> Question:
    """Let Ada have a slot on four or five days in a row."""
    days = max(question.days, 4)
    ada = [MealSlot(day, "Ada") for day in range(1, days + 1)]
    ben = [slot for slot in question.slots if slot.eater == "Ben"][:1]
    return replace(question, days=days, slots=(*ada, *ben))


def _spans_of_sameness(dice: random.Random, question: Question) -> Question:
    longer = _longer(dice, question)
    return _with_rules(
        longer,
        span_days=dice.choice((2, 3)),
        most_times=dice.choice((1, 1, 2)),
        in_a_row=dice.choice((None, 3)),
    )


def _spans_of_repeats(dice: random.Random, question: Question) -> Question:
    longer = _longer(dice, question)
    priced = replace(longer, additions=replace(longer.additions, repeat_cents=dice.choice((30, 80))))
    return _with_rules(priced, span_days=dice.choice((2, 3)), in_a_row=None)


# -- wishes, last: they name what is there ------------------------------------------------------------


def _wishing(question: Question, *wishes: object) -> Question:
    return replace(question, wishes=(*question.wishes, *wishes))  # type: ignore[arg-type]


def _must_cook(dice: random.Random, question: Question) -> Question:
    dish = question.dishes[-1]
    version = dice.choice((None, dish.versions[-1].name))
    day = dice.choice((None, question.sessions[-1].day))
    return _wishing(question, MustCook(dish.name, day, version, dice.choice((1, 1, 2))))


def _must_not_cook(dice: random.Random, question: Question) -> Question:
    dish = question.dishes[0]
    version = dice.choice((None, dish.versions[0].name))
    day = dice.choice((None, question.sessions[0].day))
    return _wishing(question, MustNotCook(dish.name, day, version))


def _must_use_food(dice: random.Random, question: Question) -> Question:
    if not question.lots:
        lot = StockLot("old rice", "rice", 150 * GRAM, 90, dice.choice((None, question.days)))
        question = replace(question, lots=(lot,))
    lot = dice.choice(question.lots)
    least = lot.quantity // dice.choice((2, 3, 4)) if dice.random() < 0.95 else lot.quantity + 1
    return _wishing(question, MustUse(lot.name, least))


def _must_use_portions(dice: random.Random, question: Question) -> Question:
    if not question.portions:
        question = _portions_on_hand(dice, question)
    lot = dice.choice(question.portions)
    dear = replace(lot, cents=dice.choice((0, 300)), last_day=None, barred=frozenset(), meals=None)
    question = replace(question, portions=tuple(dear if p is lot else p for p in question.portions))
    return _wishing(question, MustUse(lot.name, dice.randint(1, lot.portions)))


def _must_serve(dice: random.Random, question: Question) -> Question:
    slot = dice.choice(question.slots)
    names = [*(d.name for d in question.dishes), *(lot.dish for lot in question.portions)]
    return _wishing(question, MustServe(slot.day, slot.eater, slot.meal, dice.choice(names)))


def _must_eat_out(dice: random.Random, question: Question) -> Question:
    slot = dice.choice(question.slots)
    asked = {(w.day, w.eater, w.meal) for w in question.wishes if isinstance(w, MustServe)}
    if (slot.day, slot.eater, slot.meal) in asked:
        return question
    return _wishing(question, MustServe(slot.day, slot.eater, slot.meal, None))


def _must_buy(dice: random.Random, question: Question) -> Question:
    day = dice.choice((question.sessions[0].day, question.sessions[-1].day))
    if dice.random() < 0.1:
        day = question.days
    return _wishing(question, MustBuy(day, dice.choice(question.offers).name, dice.randint(1, 2)))


CHANGES: tuple[Change, ...] = (
    _appetites,
    _split,
    _shared_minutes,
    _session_price,
    _stations,
    _spans_of_sameness,
    _spans_of_repeats,
    _portions_on_hand,
    _portions_frozen,
    _freezing_load,
    _container_sizes,
    _fridge_room,
    _freezer_room,
    _nutrient_least,
    _nutrient_most,
    _figure_missing,
    _must_cook,
    _must_not_cook,
    _must_use_food,
    _must_use_portions,
    _must_serve,
    _must_eat_out,
    _must_buy,
)
"""What a week may be given beside the plain rules, in the order in which it is given."""
