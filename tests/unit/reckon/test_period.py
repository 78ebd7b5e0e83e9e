from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.ledger.kitchen import MONDAY, by_mass, by_piece, day, stocked

from ladleworth.errors import BadField, JudgeRefused, LedgerError
from ladleworth.ledger import (
    Cause,
    Ledger,
    Portions,
    Spot,
    Take,
    buy,
    cook,
    count,
    draw,
    eat,
    give_away,
    reverse,
    take_stock,
    throw_out,
)
from ladleworth.reckon import (
    PeriodMoney,
    Reckoning,
    Row,
    Stock,
    check_equal,
    reckon_all,
    reckon_period,
    rounded,
)


@pytest.fixture
def fortnight() -> Ledger:
    """Week one: buy 15.00, cook 10.00 of it. Week two: eat, give, lose, count, and buy again."""
    ledger = take_stock(Ledger(), MONDAY, [by_mass("flour", "flour", 100, 50)]).ledger
    ledger = buy(
        ledger, MONDAY, [by_mass("beef", "beef", 1000, 900), by_mass("rice", "rice", 600, 600)]
    ).ledger
    portions = [Portions("tubs", 5, Spot.FRIDGE, day(4))]
    takes = [Take("beef", 1000), Take("rice", 100)]
    ledger = cook(ledger, day(1), "stew", portions, takes=takes).ledger
    ledger = eat(ledger, day(2), "tubs", 1).ledger
    ledger = throw_out(ledger, day(7), "tubs", Cause.PAST_DATE, quantity=1).ledger
    ledger = give_away(ledger, day(7), "tubs", 1, even_past_use_by=True).ledger
    ledger = eat(ledger, day(8), "rice", 50).ledger
    ledger = count(ledger, day(8), "rice", 430, "mice").ledger
    ledger = buy(ledger, day(9), [by_piece("eggs", "egg", 12, 360)]).ledger
    ledger = draw(ledger, day(10), "cake", [Take("eggs", 3)]).ledger
    return throw_out(ledger, day(10), "rice", Cause.SPILT, quantity=30).ledger


def test_the_first_week_is_bought_drawn_eaten_and_carried(fortnight: Ledger) -> None:
    money = reckon_period(fortnight, day(0), day(6))
    assert money.opening == Stock(0, 0, 0)
    assert (money.bought_cents, money.counted_in_cents, money.drawn_cents) == (1500, 50, 1000)
    assert (money.eaten_portions_cents, money.closing) == (200, Stock(550, 800, 0))
    assert money.used_cents == 1000
    assert money.carried_cents == 550


def test_the_second_week_opens_where_the_first_closed_and_names_every_loss(fortnight: Ledger) -> None:
    money = reckon_period(fortnight, day(7), day(13))
    assert money.opening == Stock(550, 800, 0)
    assert money.bought_cents == 360
    assert money.eaten_food_cents == 50
    assert money.thrown_out == ((Cause.PAST_DATE, 200), (Cause.SPILT, 30))
    assert (money.short_cents, money.given_cents, money.lost_cents) == (20, 200, 250)
    assert money.closing == Stock(50 + 400 + 270, 400, 90)
    assert money.came_from().total_cents == money.went_to().total_cents == 1710
    assert money.went_to().cents("thrown out: past its date") == 200


def test_the_whole_ledger_is_till_and_counted_in(fortnight: Ledger) -> None:
    money = reckon_all(fortnight)
    assert (money.first, money.last) == (day(0), day(10))
    assert money.came_from().total_cents == 1500 + 50 + 360


def test_a_reversal_counts_on_its_own_day(fortnight: Ledger) -> None:
    eaten = next(entry for entry in fortnight.movements if entry.kind.value == "eaten")
    back = reverse(fortnight, day(12), eaten.id).ledger
    assert reckon_period(back, day(0), day(6)).eaten_cents == 200
    assert reckon_period(back, day(12), day(12)).eaten_cents == -200


def test_a_period_that_ends_before_it_begins_and_an_empty_ledger_are_refused() -> None:
    with pytest.raises(BadField, match="ends before it begins"):
        reckon_period(stocked(), day(2), day(1))
    with pytest.raises(LedgerError, match="no entries"):
        reckon_all(Ledger())


def test_a_period_whose_sides_differ_is_refused_by_the_judge() -> None:
    nothing = Stock(0, 0, 0)
    with pytest.raises(JudgeRefused, match="100 and 99 cents"):
        PeriodMoney(MONDAY, MONDAY, nothing, nothing, 100, 0, 99, 0, (), 0, 0, 0)


def test_a_table_that_does_not_add_up_is_refused_by_the_judge() -> None:
    with pytest.raises(JudgeRefused, match="come to 3 cents, its total is 4"):
        Reckoning("t", (Row("a", 1), Row("b", 2)), 4)
    with pytest.raises(JudgeRefused, match="must be equal"):
        check_equal(Reckoning("l", (), 0), Reckoning("r", (Row("a", 1),), 1))


def test_a_rounded_table_adds_up_and_no_row_is_off_by_a_cent() -> None:
    exact = {"a": Fraction(1, 3), "b": Fraction(4, 3), "c": Fraction(4, 3)}
    table = rounded("thirds", exact)
    assert table.total_cents == 3
    assert [row.cents for row in table.rows] == [1, 1, 1]
    halves = rounded("halves", {"a": Fraction(1, 2), "b": Fraction(1, 2), "c": Fraction(1, 4)})
    assert [row.cents for row in halves.rows] == [1, 0, 0]
    assert rounded("nothing", {}).total_cents == 0
