from __future__ import annotations

import math
import random
from fractions import Fraction
from itertools import product

import pytest
from tests.unit.decide.weeks import CORNER, PORTION, pack, sessions, slots, stew, week

from ladleworth.decide import Additions, Foodstuff, Question, ShopVisit, StockLot
from ladleworth.decide.columns import WeekModel
from ladleworth.decide.covers import cheapest
from ladleworth.decide.model import run
from ladleworth.decide.programme import build

Kind = tuple[int, int, bool]


def least_of_all(kinds: tuple[Kind, ...], amount: int, worth: Fraction) -> Fraction | None:
    """Try every number of packages, and use the cheapest by the unit first of what is carried."""
    best: Fraction | None = None
    for counts in product(*(range(math.ceil(Fraction(amount, kind[0])) + 1) for kind in kinds)):
        if sum(n * kind[0] for n, kind in zip(counts, kinds, strict=True)) < amount:
            continue
        left, cost = amount, Fraction(0)
        order = sorted(zip(counts, kinds, strict=True), key=lambda e: (e[1][2], Fraction(e[1][1], e[1][0])))
        for packages, (quantity, cents, carried) in order:
            used = min(left, packages * quantity)
            left -= used
            rest = packages * quantity - used
            cost += packages * cents - (worth * Fraction(rest * cents, quantity) if carried else 0)
        best = cost if best is None else min(best, cost)
    return best


@pytest.mark.parametrize("worth", [Fraction(1), Fraction(7, 10), Fraction(1, 4), Fraction(0)])
def test_the_least_cost_of_an_amount_is_that_of_the_best_packages(worth: Fraction) -> None:
    dice = random.Random(int(worth * 100))
    for _ in range(150):
        kinds = tuple(
            sorted(
                {
                    (dice.randint(1, 9), dice.randint(0, 60), dice.random() < 0.5)
                    for _ in range(dice.randint(1, 3))
                }
            )
        )
        amount = dice.randint(1, 18)
        expected = least_of_all(kinds, amount, worth)
        assert expected is not None
        assert cheapest(kinds, amount, float(worth)) == pytest.approx(float(expected), abs=1e-9)


def test_an_amount_that_nobody_sells_is_beyond_any_price() -> None:
    assert cheapest((), 1) == math.inf
    assert cheapest((), 1, 0.5) == math.inf
    assert cheapest((), 0) == 0


def rows_of(question: Question, *names: str) -> list[tuple[float, float, dict[str, float]]]:
    """The rows over exactly these columns."""
    sheet = build(question).sheet
    written = [(low, high, {sheet.names[c]: a for c, a in terms}) for low, high, terms in sheet.rows]
    return [row for row in written if set(row[2]) == set(names)]


def batch(portions: int, day: int = 1) -> str:
    return f"batch ('stew', 'plain', {day}) {portions}"


def test_a_batch_of_what_nobody_has_or_sells_cannot_be_chosen() -> None:
    def largest(question: Question) -> dict[int, float]:
        model: WeekModel = build(question)
        return {portions: model.sheet.upper[c] for (*_, portions), c in model.size.items()}

    three = slots(1, 2, 3)
    assert largest(week(slots=three, offers=())) == {1: 0, 2: 0, 3: 0}
    stocked = week(slots=three, offers=(), lots=(StockLot("old", "rice", 2 * PORTION, 1),))
    assert largest(stocked) == {1: 1, 2: 1, 3: 0}
    assert largest(week(slots=three)) == {1: 1, 2: 1, 3: 1}


def test_a_batch_wants_whole_packages_and_a_visit_for_what_the_stock_does_not_hold() -> None:
    # 50 g in stock, beside a lot that is past its last day by then; packages of 150 g. One portion is 50 g short, two
    # are 150 g short, three 250 g.
    question = week(
        slots=(*slots(2, 3), *slots(3, eater="Ben")),
        sessions=sessions(2),
        lots=(StockLot("old", "rice", 50_000, 1), StockLot("gone", "rice", 90_000, 1, 1)),
        offers=(pack(15, quantity=150_000),),
        shops=(CORNER, ShopVisit("market")),
    )
    batches = {batch(1, 2): -1.0, batch(2, 2): -1.0, batch(3, 2): -2.0}
    assert rows_of(question, "buy rice pack 2", *batches) == [
        (0, math.inf, {"buy rice pack 2": 1.0, **batches})
    ]
    visit = dict.fromkeys(batches, -1.0)
    assert rows_of(question, "trip corner 2", *batches) == [(0, math.inf, {"trip corner 2": 1.0, **visit})]


def test_a_batch_pays_for_whole_packages_of_what_spoils() -> None:
    question = week(
        slots=slots(1, 2),
        foods=(Foodstuff("rice", keep_days=3),),
        offers=(pack(40, quantity=150_000), pack(70, name="large", quantity=4 * PORTION)),
    )
    # One portion: the small one, 40. Two: the large one at 70, not two small ones at 80.
    columns = ("buy rice pack 1", "buy large 1", batch(1), batch(2))
    (paid,) = [row for row in rows_of(question, *columns) if row[2]["buy rice pack 1"] == 40]
    assert paid[2] == pytest.approx({"buy rice pack 1": 40, "buy large 1": 70, batch(1): -40, batch(2): -70})


def test_a_batch_pays_for_what_it_takes_of_what_is_carried_in_full() -> None:
    question = week(offers=(pack(40, quantity=4 * PORTION),))
    (paid,) = [
        row for row in rows_of(question, "use ('rice pack', 1, 1)", batch(1)) if row[:2] == (0, math.inf)
    ]
    assert paid[2] == pytest.approx({"use ('rice pack', 1, 1)": 40, batch(1): -10})


def test_a_batch_pays_the_lost_part_of_a_package_that_is_carried_in_part() -> None:
    # A quarter of 40 is lost with the package, and a quarter of the other 30 is used: 10 + 7.50.
    question = week(
        offers=(pack(40, quantity=4 * PORTION),), additions=Additions(carried_share=Fraction(3, 4))
    )
    columns = ("use ('rice pack', 1, 1)", "buy rice pack 1", batch(1))
    (paid,) = [row for row in rows_of(question, *columns) if row[:2] == (0, math.inf)]
    assert paid[2] == pytest.approx(dict(zip(columns, (30, 10, -17.5), strict=True)))


def test_a_package_that_has_gone_off_by_the_session_covers_no_batch_of_it() -> None:
    # Bought on day 1 it keeps two days, so for the batch of day 3 only a package of day 3 counts.
    question = week(
        slots=slots(1, 3),
        sessions=sessions(1, 3),
        dishes=(stew(keep_days=1),),
        foods=(Foodstuff("rice", keep_days=2),),
    )
    late = rows_of(question, "buy rice pack 3", batch(1, 3))
    assert (0, math.inf, {"buy rice pack 3": 1.0, batch(1, 3): -1.0}) in late
    assert rows_of(question, "buy rice pack 1", "buy rice pack 3", batch(1, 3)) == []
    ended = run(build(question).sheet, 10)
    assert ended.bound == pytest.approx(20)
