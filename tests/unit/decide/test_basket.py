"""The larder's prices are those of the cheapest packages and drawings, tried out one by one."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import product

import pytest

from ladleworth.decide import (
    Additions,
    Batch,
    CookSession,
    DishChoice,
    Foodstuff,
    PackageOffer,
    Plan,
    Purchase,
    Question,
    ShopVisit,
    StockLot,
    Version,
    judge,
)
from ladleworth.decide.basket import SHORT_CENTS, larders, pareto
from ladleworth.decide.draw import draw

BLOCK = 25


def a_food(seed: int) -> tuple[Question, tuple[Batch, ...], tuple[int, ...]]:
    dice = random.Random(seed)
    days, sessions = 6, (1, 4)
    worth = dice.choice((Fraction(1), Fraction(1), Fraction(7, 10), Fraction(0)))
    keep = dice.choice((None, 2, 4, 9))
    lots = tuple(
        StockLot(f"lot {n}", "rice", dice.randint(1, 9), dice.randint(0, 40), dice.choice((None, 2, 5, 9)))
        for n in range(dice.randint(0, 2))
    )
    offers = tuple(
        PackageOffer(f"pack {n}", "rice", "shop", dice.randint(2, 7), dice.randint(1, 50))
        for n in range(2 if worth == 1 else 1)
    )
    dish = DishChoice("pot", (Version("plain", {"rice": Fraction(1)}),), greatest=20)
    question = Question(
        days,
        (),
        tuple(CookSession(day, 0) for day in sessions),
        (dish,),
        (Foodstuff("rice", keep_days=keep),),
        lots,
        offers,
        (ShopVisit("shop"),),
        additions=Additions(carried_share=worth),
    )
    wanted = (dice.randint(0, 12), dice.randint(1, 12))
    batches = tuple(Batch(day, "pot", "plain", n) for day, n in zip(sessions, wanted, strict=True) if n)
    return question, batches, wanted


def tried_out(question: Question, batches: tuple[Batch, ...]) -> Fraction | None:
    """The least objective over every number of packages up to what both sessions need."""
    needed = sum(batch.portions for batch in batches)
    ways = [(offer, session.day) for offer in question.offers for session in question.sessions]
    best: Fraction | None = None
    for counts in product(*(range(-(-needed // offer.quantity) + 1) for offer, _ in ways)):
        purchases = tuple(
            Purchase(day, offer.name, n) for (offer, day), n in zip(ways, counts, strict=True) if n
        )
        drawings = draw(question, batches, purchases)
        if drawings is not None:
            total = judge(question, Plan(batches, (), purchases, drawings)).costs.total
            best = total if best is None else min(best, total)
    return best


@pytest.mark.parametrize("block", range(0, 200, BLOCK))
def test_the_price_of_demands_is_that_of_the_best_packages_and_drawings(block: int) -> None:
    for seed in range(block, block + BLOCK):
        question, batches, wanted = a_food(seed)
        worth = question.additions.carried_share
        untouched = sum(
            lot.cents if lot.last_day is not None and lot.last_day <= question.days else -lot.cents * worth
            for lot in question.lots
        )
        expected = tried_out(question, batches)
        price, _ = larders(question)["rice"].price(wanted, 0b11)
        if expected is None:
            assert price >= SHORT_CENTS, seed
        else:
            assert price + float(untouched) == pytest.approx(float(expected), abs=1e-6), seed


def test_a_shop_that_is_not_visited_sells_nothing() -> None:
    question, _, wanted = next(a_food(seed) for seed in range(50) if not a_food(seed)[0].lots)
    assert larders(question)["rice"].price(wanted, 0)[0] >= SHORT_CENTS


def test_mixes_worth_a_thought_give_more_for_more() -> None:
    offers = [PackageOffer("s", "rice", "shop", 2, 10), PackageOffer("l", "rice", "shop", 5, 20)]
    assert [tuple(mix) for mix in pareto(offers, 6)] == [(0, 0), (2, 10), (5, 20), (6, 30)]
