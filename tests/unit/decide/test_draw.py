from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import product

import pytest
from tests.unit.decide.weeks import CORNER, PORTION, sessions, slots, stew, week

from ladleworth.decide import (
    Additions,
    Batch,
    CookSession,
    Foodstuff,
    PackageOffer,
    Plan,
    Purchase,
    Question,
    StockLot,
    judge,
)
from ladleworth.decide.draw import draw
from ladleworth.decide.judge import Source, need, supplies
from ladleworth.decide.model import run
from ladleworth.decide.sheet import Sheet


def drawn(
    question: Question, *batches: Batch, bought: tuple[Purchase, ...] = ()
) -> list[tuple[str, int]] | None:
    """What is drawn from where, in the order of the drawings; None if it cannot be."""
    drawings = draw(question, batches, bought)
    return None if drawings is None else [(d.source, d.quantity) for d in drawings]


STEW = Batch(1, "stew", "plain", 1)


# -- by hand ------------------------------------------------------------------------------------------


def test_what_spoils_goes_before_what_is_carried() -> None:
    lots = (StockLot("keeps", "rice", PORTION, 0), StockLot("spoils", "rice", PORTION, 1, 3))
    assert drawn(week(lots=lots), STEW) == [("spoils", PORTION)]


def test_of_what_spoils_the_dearest_goes_first_and_of_what_is_carried_the_cheapest() -> None:
    spoil = tuple(StockLot(f"at {c}", "rice", PORTION, c, 3) for c in (5, 9, 7))
    assert drawn(week(lots=spoil), STEW) == [("at 9", PORTION)]
    keep = tuple(StockLot(f"at {c}", "rice", PORTION, c) for c in (5, 4, 7))
    assert drawn(week(lots=keep), STEW) == [("at 4", PORTION)]


def test_a_bought_package_that_does_not_outlive_the_days_goes_before_what_is_carried_free_as_it_is() -> None:
    question = week(foods=(Foodstuff("rice", keep_days=3),), lots=(StockLot("keeps", "rice", PORTION, 1, 9),))
    assert drawn(question, STEW, bought=(Purchase(1, "rice pack", 1),)) == [("rice pack", PORTION)]


def test_a_lot_past_its_last_day_is_not_drawn_from() -> None:
    question = week(sessions=sessions(2), lots=(StockLot("old", "rice", PORTION, 50, 1),))
    assert drawn(question, Batch(2, "stew", "plain", 1)) is None
    assert drawn(week(lots=(StockLot("gone", "rice", PORTION, 50, 0),)), STEW) is None


def test_the_lot_that_ends_first_is_kept_for_the_batch_that_nothing_else_can_serve() -> None:
    # The dearest that spoils lasts to day 3, the other to day 1: both are used up, each on a day it is good for.
    question = week(
        sessions=sessions(1, 3),
        lots=(StockLot("long", "rice", PORTION, 90, 3), StockLot("short", "rice", PORTION, 1, 1)),
    )
    late = Batch(3, "stew", "plain", 1)
    assert drawn(question, STEW, late) == [("short", PORTION), ("long", PORTION)]
    assert drawn(question, late) == [("long", PORTION)]
    assert drawn(question, STEW) == [("long", PORTION)]


def test_a_package_serves_only_from_the_day_it_is_bought_on() -> None:
    question = week(sessions=sessions(1, 3))
    late = (Purchase(3, "rice pack", 2),)
    assert drawn(question, STEW, bought=late) is None
    assert drawn(question, Batch(3, "stew", "plain", 2), bought=late) == [("rice pack", 2 * PORTION)]


def test_one_milligram_too_few_cannot_be_drawn() -> None:
    assert drawn(week(lots=(StockLot("old", "rice", PORTION - 1, 0),)), STEW) is None


def test_a_batch_that_needs_nothing_draws_nothing() -> None:
    assert drawn(week()) == []


def test_drawings_come_in_a_fixed_order_whatever_the_order_of_what_was_asked() -> None:
    question = week(
        dishes=(stew(), stew(name="broth")),
        lots=tuple(StockLot(name, "rice", 60_000, 6, 3) for name in ("b", "a", "c", "d")),
    )
    batches = (STEW, Batch(1, "broth", "plain", 1))
    assert draw(question, batches, ()) == draw(question, batches[::-1], ())
    assert drawn(question, *batches) == [
        ("a", 60_000),
        ("b", 40_000),
        ("b", 20_000),
        ("c", 60_000),
        ("d", 20_000),
    ]


# -- against trying every split, and against a linear programme ---------------------------------------


def any_case(dice: random.Random, largest: int) -> tuple[Question, tuple[Batch, ...], tuple[Purchase, ...]]:
    """Invent batches of one food on up to three days, lots and purchases of it, most of them short-lived."""
    days = dice.randint(2, 6)
    cook_days = sorted(dice.sample(range(1, days + 1), dice.randint(1, min(3, days))))
    batches = [(day, f"dish {n}") for day in cook_days for n in range(dice.randint(1, 2))]
    keep_days = dice.choice((None, 1, 2, 3, 6))
    pieces = dice.random() < 0.5
    offers = tuple(
        PackageOffer(f"pack {n}", "food", "corner", dice.randint(1, largest), dice.randint(0, 90))
        for n in range(dice.randint(0, 2))
    )
    question = Question(
        days,
        slots(days),
        tuple(CookSession(day, 60) for day in cook_days),
        tuple(
            stew({"food": Fraction(dice.randint(1, 2 * largest), 2)}, name=name)
            for name in sorted({name for _, name in batches})
        ),
        (Foodstuff("food", pieces=pieces, keep_days=keep_days),),
        tuple(
            StockLot(
                f"lot {n}",
                "food",
                dice.randint(1, largest),
                dice.randint(0, 90),
                dice.choice((None, 0, 1, 2, days - 1, days, days + 1)),
            )
            for n in range(dice.randint(0, 3))
        ),
        offers,
        (CORNER,),
        additions=Additions(
            carried_share=dice.choice((Fraction(1), Fraction(1), Fraction(2, 3), Fraction(0)))
        ),
    )
    bought = tuple(
        Purchase(day, offer.name, dice.randint(1, 2))
        for offer in offers
        for day in cook_days
        if dice.random() < 0.6
    )
    return question, tuple(Batch(day, name, "plain", 1) for day, name in batches), bought


def needs_by_day(question: Question, batches: tuple[Batch, ...]) -> dict[int, int]:
    wanted: Counter[int] = Counter()
    for batch in batches:
        wanted[batch.day] += need(question.dish(batch.dish).versions[0], "food", batch.portions)
    return dict(sorted(wanted.items()))


def open_sources(
    question: Question, bought: tuple[Purchase, ...], days: list[int]
) -> Iterator[tuple[Source, int, Fraction, list[bool]]]:
    """Yield every source: what it holds, what a unit drawn does to the cost, and on which days it may be drawn."""
    kept = question.additions.carried_share
    for source, supply in supplies(question, Plan((), (), bought, ())).items():
        each = Fraction(supply.cents, supply.quantity)
        outlives = supply.last_day is None or supply.last_day > question.days
        cost = each * kept if outlives else -each if source[1] is None else Fraction(0)
        good = [
            (source[1] or 1) <= day and (supply.last_day is None or day <= supply.last_day) for day in days
        ]
        yield source, supply.quantity, cost, good


def change(question: Question, batches: tuple[Batch, ...], bought: tuple[Purchase, ...]) -> Fraction | None:
    """What drawing changes in the judge's total; None if it cannot be drawn. The drawings keep the rules."""
    drawings = draw(question, batches, bought)
    if drawings is None:
        return None
    verdict = judge(question, Plan(batches, (), bought, drawings))
    assert not {b.rule for b in verdict.breaches} & {"needs", "stock", "names"}
    return verdict.costs.total - judge(question, Plan(batches, (), bought, ())).costs.total


@pytest.mark.parametrize("block", range(4))
def test_no_split_over_sources_and_days_is_cheaper(block: int) -> None:
    dice = random.Random(block)
    served = refused = 0
    for _ in range(120):
        question, batches, bought = any_case(dice, largest=3)
        wanted = needs_by_day(question, batches)
        best: dict[tuple[int, ...], Fraction] = {(0,) * len(wanted): Fraction(0)}
        for _, quantity, cost, good in open_sources(question, bought, list(wanted)):
            after: dict[tuple[int, ...], Fraction] = {}
            most = [min(quantity, w) if g else 0 for g, w in zip(good, wanted.values(), strict=True)]
            for split in product(*(range(m + 1) for m in most)):
                if sum(split) > quantity:
                    continue
                for before, paid in best.items():
                    got = tuple(b + s for b, s in zip(before, split, strict=True))
                    total = paid + cost * sum(split)
                    if got not in after or total < after[got]:
                        after[got] = total
            best = after
        expected = best.get(tuple(wanted.values()))
        assert change(question, batches, bought) == expected
        served += expected is not None
        refused += expected is None
    assert served >= 30
    assert refused >= 15


@pytest.mark.parametrize("block", range(4))
def test_no_linear_programme_draws_cheaper(block: int) -> None:
    dice = random.Random(1000 + block)
    served = refused = 0
    for _ in range(100):
        question, batches, bought = any_case(dice, largest=dice.choice((10, 5_000, 700_000)))
        wanted = needs_by_day(question, batches)
        sheet = Sheet()
        rows: dict[int, list[tuple[int, float]]] = {day: [] for day in wanted}
        for source, quantity, cost, good in open_sources(question, bought, list(wanted)):
            columns = [
                sheet.column(f"{source} {day}", quantity if may else 0, float(cost), whole=False)
                for day, may in zip(wanted, good, strict=True)
            ]
            for column, day in zip(columns, wanted, strict=True):
                rows[day].append((column, 1.0))
            sheet.row([(c, 1.0) for c in columns], high=quantity)
        for day, quantity in wanted.items():
            sheet.row(rows[day], quantity, quantity)
        ended = run(sheet, 10)
        changed = change(question, batches, bought)
        if ended.values is None:
            assert changed is None
            refused += 1
            continue
        served += 1
        assert changed is not None
        value = sum(c * v for c, v in zip(sheet.cost, ended.values, strict=True))
        assert float(changed) == pytest.approx(value, abs=1e-6)
    assert served >= 30
    assert refused >= 15
