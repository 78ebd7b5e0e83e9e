from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.ledger.kitchen import MONDAY, by_mass, by_piece, day, stocked

from ladleworth.errors import BadField, LedgerError
from ladleworth.ledger import (
    Balance,
    Cause,
    Kind,
    Ledger,
    Lot,
    LotUnit,
    Movement,
    Portions,
    Spot,
    Standing,
    Take,
    cook,
    draw,
    earliest,
    eat,
    eat_first,
    move,
    open_package,
    reverse,
)


@pytest.fixture
def week() -> Ledger:
    """A lot bought on Monday, split on Tuesday, cooked on Wednesday, eaten on Thursday."""
    ledger = stocked(by_mass("beef", "beef", 1000, 801), by_piece("eggs", "egg", 6, 180))
    ledger = move(
        ledger, day(1), "beef", Spot.FREEZER, use_by=day(90), quantity=300, new_lot_id="beef-2"
    ).ledger
    ledger = cook(
        ledger, day(2), "stew", [Portions("stew-a", 3, Spot.FRIDGE, day(5))], takes=[Take("beef", 700)]
    ).ledger
    return eat(ledger, day(3), "stew-a", 1, who="Ada").ledger


def test_a_ledger_read_back_from_its_lots_and_movements_is_the_same(week: Ledger) -> None:
    again = Ledger(week.lots, week.movements)
    assert again == week
    assert again.holdings() == week.holdings()
    assert again.batch("stew") == week.batch("stew")


def test_what_was_on_hand_on_a_past_day_is_read_from_the_entries_up_to_it(week: Ledger) -> None:
    def held(number: int) -> dict[str, int]:
        return {holding.lot.id: holding.quantity for holding in week.on_hand(day(number))}

    assert held(-1) == {}
    assert held(0) == {"beef": 1000, "eggs": 6}
    assert held(1) == {"beef": 700, "eggs": 6, "beef-2": 300}
    assert held(2) == {"eggs": 6, "beef-2": 300, "stew-a": 3}
    assert held(3) == held(9) == {"eggs": 6, "beef-2": 300, "stew-a": 2}


def test_holdings_of_one_item_are_found(week: Ledger) -> None:
    assert [held.lot.id for held in week.holdings("beef")] == ["beef-2"]
    assert week.holdings("saffron") == ()
    assert week.batches == ("stew",)


def test_an_unknown_lot_or_entry_is_named(week: Ledger) -> None:
    with pytest.raises(LedgerError, match="no lot is called 'veal'"):
        week.balance("veal")
    with pytest.raises(LedgerError, match="no entry has the number 99"):
        week.movement(99)


@pytest.mark.parametrize(
    ("place", "change", "message"),
    [
        (0, {"cents": 800}, "let in the whole lot"),
        (2, {"bound": None}, "has no other half"),
        (3, {"lot": "veal"}, "names lot 'veal', which is not in the ledger"),
        (4, {"quantity": -701, "cents": -561}, "takes 701 mg from lot 'beef'"),
        (4, {"cents": -560}, "would leave lot 'beef' with 0 g worth 1 cents"),
        (6, {"day": day(1)}, "before the last entry"),
        (6, {"id": 3}, "number entries upwards"),
    ],
)
def test_a_tampered_entry_is_refused_on_reading(
    week: Ledger, place: int, change: dict[str, object], message: str
) -> None:
    entries = list(week.movements)
    entries[place] = replace(entries[place], **change)  # type: ignore[arg-type]
    with pytest.raises(LedgerError, match=message):
        Ledger(week.lots, tuple(entries))


def test_portions_that_carry_other_cents_than_were_drawn_are_refused_on_reading(week: Ledger) -> None:
    lots = tuple(replace(lot, cents=lot.cents + 1) if lot.id == "stew-a" else lot for lot in week.lots)
    entries = tuple(
        replace(entry, cents=entry.cents + 1) if entry.kind is Kind.COOKED else entry
        for entry in week.movements
    )
    with pytest.raises(LedgerError, match="drew 561 cents and its portions carry 562"):
        Ledger(lots, entries)


def test_a_split_that_loses_a_cent_is_refused_on_reading(week: Ledger) -> None:
    lots = tuple(replace(lot, cents=lot.cents - 1) if lot.id == "beef-2" else lot for lot in week.lots)
    entries = tuple(
        replace(entry, cents=entry.cents - 1) if entry.lot == "beef-2" else entry for entry in week.movements
    )
    with pytest.raises(LedgerError, match="do not add up to what it was"):
        Ledger(lots, entries)


def test_a_reversal_of_half_a_split_is_refused_on_reading() -> None:
    ledger = stocked(by_mass("beef", "beef", 1000, 801))
    parted = move(ledger, day(1), "beef", Spot.FREEZER, use_by=None, quantity=300, new_lot_id="part").ledger
    back = reverse(parted, day(1), 2).ledger
    with pytest.raises(LedgerError, match="reversed only in part"):
        Ledger(back.lots, back.movements[:-1])


def test_a_reversal_must_be_the_exact_opposite() -> None:
    eaten = eat(stocked(by_piece("eggs", "egg", 6, 180)), MONDAY, "eggs", 2).ledger
    back = reverse(eaten, MONDAY, 2).ledger
    crooked = (*back.movements[:-1], replace(back.movements[-1], cents=59))
    with pytest.raises(LedgerError, match="not the exact opposite of number 2"):
        Ledger(back.lots, crooked)


def test_a_lot_that_never_came_in_and_two_lots_of_one_name_are_refused_on_reading() -> None:
    rice = by_mass("rice", "rice", 10, 1)
    with pytest.raises(LedgerError, match="'rice' never came in"):
        Ledger((rice,), ())
    with pytest.raises(LedgerError, match="several lots are called 'rice'"):
        Ledger((rice, rice), ())


def test_lots_go_by_last_day_then_opened_then_oldest_then_id() -> None:
    ledger = stocked(
        by_mass("undated", "milk", 10, 1),
        by_mass("late", "milk", 10, 1, use_by=day(9)),
        by_mass("b", "milk", 10, 1, use_by=day(5)),
        by_mass("a", "milk", 10, 1, use_by=day(5)),
        by_mass("old", "milk", 10, 1, use_by=day(5), got_on=day(-3)),
        by_mass("open", "milk", 10, 1, use_by=day(5)),
    )
    ledger = open_package(ledger, MONDAY, "open", use_by=day(6)).ledger
    order = [held.lot.id for held in eat_first(ledger.holdings("milk"))]
    assert order == ["open", "old", "a", "b", "late", "undated"]


def test_an_amount_is_taken_from_the_first_lots_and_the_last_one_in_part() -> None:
    ledger = stocked(
        by_mass("late", "milk", 10, 1, use_by=day(9)),
        by_mass("gone", "milk", 10, 1, use_by=day(1)),
        by_mass("soon", "milk", 10, 1, use_by=day(5)),
        by_piece("cartons", "milk", 10, 1, use_by=day(4)),
    )
    assert earliest(ledger, day(2), "milk", 13, LotUnit.MG) == (Take("soon", 10), Take("late", 3))
    told = earliest(ledger, day(2), "milk", 13, LotUnit.MG, even_past_use_by=True)
    assert told == (Take("gone", 10), Take("soon", 3))
    with pytest.raises(BadField, match="more than zero"):
        earliest(ledger, day(2), "milk", 0, LotUnit.MG)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"id": ""}, "has no id"),
        ({"item": ""}, "has no item"),
        ({"quantity": 0}, "quantity of 0 mg"),
        ({"cents": -1}, "costs -1 cents"),
        ({"gift": True}, "a gift that costs 5 cents"),
        ({"packages": 0}, "0 packages"),
        ({"shelf_cents": -1}, "shelf price of -1"),
        ({"split_from": "rice"}, "split off itself"),
    ],
)
def test_a_lot_with_a_field_out_of_range_is_refused(change: dict[str, object], message: str) -> None:
    rice = Lot("rice", "rice", LotUnit.MG, Spot.CUPBOARD, MONDAY, 10, 5)
    with pytest.raises(BadField, match=message):
        replace(rice, **change)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"id": 0}, "number from 1"),
        ({"cents": 5}, "must go the same way"),
        ({"quantity": 0, "cents": -5}, "must go the same way"),
        ({"quantity": 5, "cents": 5}, "with the other sign"),
        ({"batch": "stew"}, "nothing else has"),
        ({"cause": Cause.SPOILED}, "nothing else has"),
        ({"after": Standing(Spot.FRIDGE)}, "if and only if a whole lot is moved"),
        ({"kind": Kind.COUNTED}, "has no reason"),
        ({"kind": Kind.DRAWN}, "what is drawn or cooked has one"),
        ({"kind": Kind.THROWN_OUT}, "what is thrown out has one"),
        ({"quantity": 5, "cents": 5, "reverses": 7}, "only reverse an earlier one"),
    ],
)
def test_a_movement_with_a_field_out_of_range_is_refused(change: dict[str, object], message: str) -> None:
    eaten = Movement(7, MONDAY, Kind.EATEN, "rice", -5, -5)
    with pytest.raises(BadField, match=message):
        replace(eaten, **change)  # type: ignore[arg-type]


def test_lots_come_in_on_or_after_the_day_they_were_got_and_opened() -> None:
    with pytest.raises(LedgerError, match="before lot 'rice' came"):
        stocked(by_mass("rice", "rice", 10, 1, got_on=day(1)))
    with pytest.raises(LedgerError, match="was opened on"):
        stocked(by_mass("rice", "rice", 10, 1, opened_on=day(1)))


def test_balances_are_read_by_lot(week: Ledger) -> None:
    assert week.balance("stew-a") == Balance(2, 374)
    assert week.next_day("stew-a") == day(3)
    assert week.has_lot("beef")
    assert not week.has_lot("veal")


def test_ten_thousand_lots_and_twenty_thousand_entries_are_read_and_added_to() -> None:
    lots = [by_mass(f"lot-{n}", f"food-{n % 200}", 1000, 500, use_by=day(n % 50)) for n in range(10_000)]
    ledger = stocked(*lots)
    takes = [Take(lot.id, 300) for lot in lots]
    ledger = draw(ledger, MONDAY, "feast", takes).ledger
    again = Ledger(ledger.lots, ledger.movements)
    assert again.batch("feast").in_pot_cents == 10_000 * 150
    # every lot of food-3 ends on day 3, so the lowest id goes first: 'lot-1003' before 'lot-1203'
    assert earliest(again, MONDAY, "food-3", 701, LotUnit.MG) == (Take("lot-1003", 700), Take("lot-1203", 1))
    assert len(eat(again, MONDAY, "lot-3", 700).ledger.movements) == 20_001
