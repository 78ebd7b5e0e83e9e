from __future__ import annotations

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
    Portions,
    Spot,
    Take,
    buy,
    cook,
    count,
    draw,
    draw_earliest,
    eat,
    fresh_lot_id,
    give_away,
    move,
    open_package,
    reverse,
    take_stock,
    throw_out,
)

LB_MG = 453_592


def test_buying_lets_in_the_whole_lot_and_leaves_the_old_ledger_as_it_was() -> None:
    empty = Ledger()
    done = buy(empty, MONDAY, [by_mass("rice", "rice", 1_000_000, 199)])
    assert done.ledger.balance("rice") == Balance(1_000_000, 199)
    assert [m.kind for m in done.movements] == [Kind.BOUGHT]
    assert done.lots[0].id == "rice"
    assert empty == Ledger()


def test_one_third_of_a_pound_leaves_two_thirds_of_it_with_two_thirds_of_its_cents() -> None:
    # common practice, no source: a part package carries its share of the cost
    ledger = stocked(by_mass("bacon", "bacon", 3 * LB_MG, 900))
    done = draw(ledger, MONDAY, "soup", [Take("bacon", LB_MG)])
    assert done.movements[0].cents == -300
    assert done.ledger.balance("bacon") == Balance(2 * LB_MG, 600)


def test_the_last_draw_takes_the_cents_that_rounding_left() -> None:
    ledger = stocked(by_piece("eggs", "egg", 3, 100))
    taken = []
    for number in range(3):
        done = draw(ledger, MONDAY, f"batch-{number}", [Take("eggs", 1)])
        taken.append(-done.movements[0].cents)
        ledger = done.ledger
    assert taken == [33, 34, 33]  # 33.33 of 100; half of 67 rounded up; all that is left
    assert ledger.balance("eggs") == Balance(0, 0)


def test_a_second_lot_of_the_same_id_is_refused() -> None:
    ledger = stocked(by_mass("rice", "rice", 10, 1))
    with pytest.raises(LedgerError, match="already called 'rice'"):
        buy(ledger, MONDAY, [by_mass("rice", "rice", 10, 1)])


def test_fresh_ids_count_up_from_the_stem() -> None:
    ledger = stocked(by_mass("rice", "rice", 10, 1), by_mass("rice-2", "rice", 10, 1))
    assert fresh_lot_id(ledger, "rice") == "rice-3"
    assert fresh_lot_id(ledger, "oats") == "oats"


def test_drawing_more_than_is_there_says_what_is_there() -> None:
    ledger = stocked(by_piece("eggs", "egg", 6, 180))
    with pytest.raises(LedgerError, match=r"7 pieces of lot 'eggs' of 'egg' wanted, 6 pieces there"):
        draw(ledger, MONDAY, "cake", [Take("eggs", 7)])
    with pytest.raises(LedgerError, match=r"7 pieces of 'egg' wanted, 6 pieces there"):
        draw_earliest(ledger, MONDAY, "cake", "egg", 7, LotUnit.PIECE)


def test_two_takes_of_one_lot_are_refused_together_when_their_sum_is_too_much() -> None:
    ledger = stocked(by_piece("eggs", "egg", 6, 180))
    with pytest.raises(LedgerError, match=r"3 pieces of lot 'eggs' of 'egg' wanted, 2 pieces there"):
        draw(ledger, MONDAY, "cake", [Take("eggs", 4), Take("eggs", 3)])


def test_a_lot_past_its_last_day_is_drawn_only_when_told() -> None:
    ledger = stocked(by_mass("milk", "milk", 1000, 90, use_by=day(2)))
    draw(ledger, day(2), "soup", [Take("milk", 10)])
    with pytest.raises(LedgerError, match="had its last day on 2026-03-04"):
        draw(ledger, day(3), "soup", [Take("milk", 10)])
    with pytest.raises(LedgerError, match="1 g past the last day"):
        draw_earliest(ledger, day(3), "soup", "milk", 10, LotUnit.MG)
    done = draw_earliest(ledger, day(3), "soup", "milk", 10, LotUnit.MG, even_past_use_by=True)
    assert done.ledger.balance("milk").quantity == 990


def test_eating_and_giving_away_refuse_a_lot_past_its_last_day_unless_told() -> None:
    ledger = stocked(by_piece("cake", "cake", 4, 400, use_by=day(1)))
    for act in (eat, give_away):
        with pytest.raises(LedgerError, match="had its last day"):
            act(ledger, day(2), "cake", 1)
        assert act(ledger, day(2), "cake", 1, even_past_use_by=True).ledger.balance("cake") == Balance(3, 300)


def test_a_count_that_finds_less_writes_off_its_share_of_the_cents() -> None:
    ledger = stocked(by_mass("oats", "oats", 900, 300))
    done = count(ledger, day(1), "oats", 600, "spilt some on Monday")
    assert (done.movements[0].quantity, done.movements[0].cents) == (-300, -100)
    assert done.ledger.balance("oats") == Balance(600, 200)


def test_a_count_that_finds_more_adds_quantity_at_no_cents() -> None:
    ledger = stocked(by_mass("oats", "oats", 900, 300))
    assert count(ledger, day(1), "oats", 1000, "pack was fuller").ledger.balance("oats") == Balance(1000, 300)


def test_a_count_that_agrees_is_an_entry_as_well() -> None:
    ledger = stocked(by_mass("oats", "oats", 900, 300))
    done = count(ledger, day(1), "oats", 900, "as written")
    assert [(m.kind, m.quantity, m.cents) for m in done.movements] == [(Kind.COUNTED, 0, 0)]


def test_a_count_without_a_reason_or_below_zero_is_refused() -> None:
    ledger = stocked(by_mass("oats", "oats", 900, 300))
    with pytest.raises(BadField, match="no reason"):
        count(ledger, day(1), "oats", 800, "")
    with pytest.raises(BadField, match="counted as -1"):
        count(ledger, day(1), "oats", -1, "slip")


def test_stock_from_before_the_ledger_is_counted_in_at_its_stated_worth() -> None:
    done = take_stock(Ledger(), day(3), [by_mass("flour", "flour", 500, 40)])
    assert done.movements[0].kind is Kind.COUNTED
    assert done.ledger.balance("flour") == Balance(500, 40)


def test_moving_a_whole_lot_changes_its_spot_and_date_only() -> None:
    ledger = stocked(by_mass("meat", "beef", 1000, 800, spot=Spot.FRIDGE, use_by=day(2)))
    done = move(ledger, day(1), "meat", Spot.FREEZER, use_by=day(90))
    held = done.ledger.holding("meat")
    assert (held.standing.spot, held.use_by, held.quantity, held.cents) == (Spot.FREEZER, day(90), 1000, 800)
    assert ledger.holding("meat").standing.spot is Spot.FRIDGE


def test_moving_a_part_splits_off_a_lot_with_its_share_of_the_cents() -> None:
    lot = by_mass("meat", "beef", 1000, 801, spot=Spot.FRIDGE, use_by=day(2), shelf_cents=1000, packages=2)
    done = move(stocked(lot), day(1), "meat", Spot.FREEZER, use_by=day(90), quantity=400, new_lot_id="meat-2")
    assert done.ledger.balance("meat") == Balance(600, 481)
    assert done.ledger.balance("meat-2") == Balance(400, 320)
    new = done.ledger.holding("meat-2").lot
    assert (new.split_from, new.got_on, new.spot, new.shelf_cents) == ("meat", MONDAY, Spot.FREEZER, 400)
    assert done.ledger.holding("meat").standing.spot is Spot.FRIDGE


def test_a_part_needs_an_id_and_must_be_there() -> None:
    ledger = stocked(by_mass("meat", "beef", 1000, 801))
    with pytest.raises(BadField, match="needs an id"):
        move(ledger, day(1), "meat", Spot.FREEZER, use_by=None, quantity=400)
    with pytest.raises(LedgerError, match=r"1\.001 g of lot 'meat' of 'beef' to be moved, 1 g there"):
        move(ledger, day(1), "meat", Spot.FREEZER, use_by=None, quantity=1001, new_lot_id="x")
    with pytest.raises(BadField, match="more than zero"):
        move(ledger, day(1), "meat", Spot.FREEZER, use_by=None, quantity=0, new_lot_id="x")


def test_a_used_up_lot_cannot_be_moved_or_thrown_out() -> None:
    ledger = eat(stocked(by_piece("pear", "pear", 1, 30)), MONDAY, "pear", 1).ledger
    with pytest.raises(LedgerError, match="nothing is left"):
        move(ledger, MONDAY, "pear", Spot.FRIDGE, use_by=None)
    with pytest.raises(LedgerError, match="nothing is left"):
        throw_out(ledger, MONDAY, "pear", Cause.SPOILED)


def test_opening_a_package_brings_its_last_day_forward_and_never_puts_it_off() -> None:
    ledger = stocked(by_mass("cream", "cream", 500, 150, use_by=day(10)), by_mass("oil", "oil", 500, 300))
    sooner = open_package(ledger, day(1), "cream", use_by=day(4)).ledger.holding("cream").standing
    assert (sooner.use_by, sooner.opened_on) == (day(4), day(1))
    assert open_package(ledger, day(9), "cream", use_by=day(12)).ledger.holding("cream").use_by == day(10)
    assert open_package(ledger, day(9), "cream", use_by=None).ledger.holding("cream").use_by == day(10)
    assert open_package(ledger, day(9), "oil", use_by=None).ledger.holding("oil").use_by is None


def test_a_package_is_opened_once() -> None:
    ledger = open_package(stocked(by_mass("oil", "oil", 5, 3)), MONDAY, "oil", use_by=None).ledger
    with pytest.raises(LedgerError, match="cannot be opened again"):
        open_package(ledger, day(1), "oil", use_by=None)


def test_one_can_of_three_is_opened_as_a_lot_of_its_own() -> None:
    ledger = stocked(by_mass("cans", "beans", 1200, 300, packages=3))
    done = open_package(ledger, day(1), "cans", use_by=day(4), quantity=400, new_lot_id="can")
    assert done.ledger.holding("cans").standing.opened_on is None
    assert done.ledger.holding("can").standing.opened_on == day(1)
    assert done.ledger.balance("can") == Balance(400, 100)


def test_cooking_deals_the_drawn_cents_over_the_portion_lots_to_the_cent() -> None:
    ledger = stocked(by_mass("rice", "rice", 1000, 500), by_piece("eggs", "egg", 12, 500))
    ledger = draw(ledger, day(1), "bowl", [Take("rice", 1000)]).ledger
    out = [Portions("fridge", 4, Spot.FRIDGE, day(4)), Portions("freezer", 2, Spot.FREEZER, day(90))]
    done = cook(ledger, day(1), "bowl", out, takes=[Take("eggs", 12)])
    assert [(m.kind, m.cents) for m in done.movements] == [
        (Kind.DRAWN, -500),
        (Kind.COOKED, 667),
        (Kind.COOKED, 333),
    ]
    assert done.ledger.holding("freezer").lot.item == "bowl"
    assert done.ledger.batch("bowl").in_pot_cents == 0


def test_portions_of_unlike_weight_carry_cents_by_weight() -> None:
    ledger = stocked(by_mass("rice", "rice", 1000, 500))
    out = [
        Portions("big", 1, Spot.FRIDGE, None, weight=600),
        Portions("small", 1, Spot.FRIDGE, None, weight=400),
    ]
    done = cook(ledger, day(1), "bowl", out, takes=[Take("rice", 1000)])
    assert [done.ledger.balance(name).cents for name in ("big", "small")] == [300, 200]
    mixed = [Portions("big", 1, Spot.FRIDGE, None, weight=600), Portions("small", 1, Spot.FRIDGE, None)]
    with pytest.raises(BadField, match="a weight, or none"):
        cook(ledger, day(1), "bowl", mixed, takes=[Take("rice", 1000)])


def test_a_batch_of_nothing_or_into_nothing_is_refused() -> None:
    ledger = stocked(by_mass("rice", "rice", 1000, 500))
    with pytest.raises(LedgerError, match="nothing is drawn for batch 'bowl'"):
        cook(ledger, MONDAY, "bowl", [Portions("p", 1, Spot.FRIDGE, None)])
    with pytest.raises(BadField, match="no portions"):
        cook(ledger, MONDAY, "bowl", [], takes=[Take("rice", 1)])


def test_a_cooked_batch_takes_nothing_more_and_is_not_cooked_twice() -> None:
    ledger = stocked(by_mass("rice", "rice", 1000, 500))
    ledger = cook(
        ledger, MONDAY, "bowl", [Portions("p", 1, Spot.FRIDGE, None)], takes=[Take("rice", 1)]
    ).ledger
    with pytest.raises(LedgerError, match="already in portions"):
        draw(ledger, MONDAY, "bowl", [Take("rice", 1)])
    with pytest.raises(LedgerError, match="already in portions"):
        cook(ledger, MONDAY, "bowl", [Portions("q", 1, Spot.FRIDGE, None)])


def test_portions_can_go_into_another_batch() -> None:
    ledger = stocked(by_mass("beef", "beef", 1000, 600))
    ledger = cook(
        ledger, MONDAY, "stew", [Portions("s", 6, Spot.FRIDGE, None)], takes=[Take("beef", 1000)]
    ).ledger
    ledger = cook(ledger, day(1), "pie", [Portions("p", 2, Spot.FRIDGE, None)], takes=[Take("s", 2)]).ledger
    assert ledger.balance("p") == Balance(2, 200)


def test_a_gift_costs_nothing_on_its_way_to_the_plate() -> None:
    ledger = stocked(by_mass("plums", "plum", 1000, 0, gift=True, shelf_cents=250))
    done = cook(ledger, MONDAY, "jam", [Portions("j", 5, Spot.CUPBOARD, None)], takes=[Take("plums", 1000)])
    assert done.ledger.balance("j") == Balance(5, 0)


def test_an_entry_dated_before_the_lots_last_one_is_refused() -> None:
    ledger = eat(stocked(by_piece("pear", "pear", 3, 30)), day(3), "pear", 1).ledger
    with pytest.raises(LedgerError, match="before the last entry"):
        eat(ledger, day(2), "pear", 1)


def test_throwing_out_takes_all_that_is_left_unless_told() -> None:
    ledger = stocked(by_piece("pear", "pear", 3, 30, use_by=day(1)))
    done = throw_out(ledger, day(5), "pear", Cause.SPOILED, quantity=1)
    assert (done.movements[0].cents, done.movements[0].cause) == (-10, Cause.SPOILED)
    assert throw_out(done.ledger, day(5), "pear", Cause.PAST_DATE).ledger.balance("pear") == Balance(0, 0)


def test_a_reversal_restores_the_balance_and_stands_beside_what_it_takes_back() -> None:
    ledger = stocked(by_piece("pear", "pear", 3, 31))
    eaten = eat(ledger, day(1), "pear", 1, who="Ada")
    back = reverse(eaten.ledger, day(2), eaten.movements[0].id, note="it was the other pear")
    assert back.ledger.balance("pear") == ledger.balance("pear")
    assert len(back.ledger.movements) == 3
    assert (back.movements[0].reverses, back.movements[0].who) == (eaten.movements[0].id, "Ada")
    assert back.ledger.reversal_of(eaten.movements[0].id) == back.movements[0].id


def test_nothing_is_reversed_twice_nor_is_a_reversal_reversed() -> None:
    eaten = eat(stocked(by_piece("pear", "pear", 3, 31)), day(1), "pear", 1)
    back = reverse(eaten.ledger, day(1), eaten.movements[0].id)
    with pytest.raises(LedgerError, match="entry 2 was taken back already, by entry 3"):
        reverse(back.ledger, day(1), eaten.movements[0].id)
    with pytest.raises(LedgerError, match="is itself a reversal"):
        reverse(back.ledger, day(1), back.movements[0].id)


def test_a_purchase_of_which_something_is_used_cannot_be_reversed() -> None:
    bought = buy(Ledger(), MONDAY, [by_piece("pear", "pear", 3, 31)])
    used = eat(bought.ledger, MONDAY, "pear", 1)
    with pytest.raises(LedgerError, match="a later entry rests on it: 2; undo it first"):
        reverse(used.ledger, MONDAY, bought.movements[0].id)


def test_a_reversal_that_would_leave_cents_without_food_is_refused() -> None:
    ledger = stocked(by_mass("oats", "oats", 100, 50))
    surplus = count(ledger, MONDAY, "oats", 200, "second bag")
    drawn = draw(surplus.ledger, MONDAY, "porridge", [Take("oats", 100)])
    with pytest.raises(LedgerError, match="a later entry rests on it: 3; undo it first"):
        reverse(drawn.ledger, MONDAY, surplus.movements[0].id)


def test_a_cooking_is_reversed_as_a_whole_from_any_of_its_entries() -> None:
    ledger = stocked(by_mass("rice", "rice", 1000, 500))
    out = [Portions("p", 1, Spot.FRIDGE, None), Portions("q", 2, Spot.FRIDGE, None)]
    cooked = cook(ledger, MONDAY, "bowl", out, takes=[Take("rice", 700)])
    for entry in cooked.movements:
        back = reverse(cooked.ledger, MONDAY, entry.id)
        assert back.ledger.balance("rice") == Balance(1000, 500)
        assert [back.ledger.balance(name) for name in ("p", "q")] == [Balance(0, 0)] * 2
        assert len(back.movements) == 3
    again = cook(
        back.ledger, MONDAY, "bowl", [Portions("r", 3, Spot.FRIDGE, None)], takes=[Take("rice", 1000)]
    )
    assert again.ledger.balance("r") == Balance(3, 500)


def test_a_cooking_of_which_a_portion_is_eaten_cannot_be_reversed() -> None:
    ledger = stocked(by_mass("rice", "rice", 1000, 500))
    cooked = cook(ledger, MONDAY, "bowl", [Portions("p", 2, Spot.FRIDGE, None)], takes=[Take("rice", 700)])
    eaten = eat(cooked.ledger, MONDAY, "p", 1)
    with pytest.raises(LedgerError, match="a later entry rests on it: 4; undo it first"):
        reverse(eaten.ledger, MONDAY, cooked.movements[0].id)


def test_an_earlier_draw_waits_for_the_cooking_to_be_reversed() -> None:
    drawn = draw(stocked(by_mass("rice", "rice", 1000, 500)), MONDAY, "bowl", [Take("rice", 100)])
    cooked = cook(drawn.ledger, MONDAY, "bowl", [Portions("p", 2, Spot.FRIDGE, None)])
    with pytest.raises(LedgerError, match="a later entry rests on it: 3; undo it first"):
        reverse(cooked.ledger, MONDAY, drawn.movements[0].id)
    undone = reverse(cooked.ledger, MONDAY, cooked.movements[0].id)
    assert undone.ledger.batch("bowl").in_pot_cents == 50
    assert reverse(undone.ledger, MONDAY, drawn.movements[0].id).ledger.balance("rice") == Balance(1000, 500)


def test_a_split_is_reversed_with_both_halves() -> None:
    ledger = stocked(by_mass("meat", "beef", 1000, 801))
    split = move(ledger, day(1), "meat", Spot.FREEZER, use_by=None, quantity=300, new_lot_id="part")
    back = reverse(split.ledger, day(1), split.movements[0].id)
    assert (back.ledger.balance("meat"), back.ledger.balance("part")) == (Balance(1000, 801), Balance(0, 0))


def test_moves_are_taken_back_last_first() -> None:
    ledger = stocked(by_mass("meat", "beef", 1000, 801, use_by=day(3)))
    first = move(ledger, day(1), "meat", Spot.FREEZER, use_by=day(90))
    second = move(first.ledger, day(2), "meat", Spot.FRIDGE, use_by=day(4))
    with pytest.raises(LedgerError, match="a later entry rests on it: 3; undo it first"):
        reverse(second.ledger, day(2), first.movements[0].id)
    back = reverse(second.ledger, day(2), second.movements[0].id)
    assert back.ledger.holding("meat").standing.spot is Spot.FREEZER
    back = reverse(back.ledger, day(2), first.movements[0].id)
    assert (back.ledger.holding("meat").standing.spot, back.ledger.holding("meat").use_by) == (
        Spot.CUPBOARD,
        day(3),
    )


def test_portions_are_not_bought() -> None:
    with pytest.raises(LedgerError, match="portions are cooked, or counted in"):
        buy(Ledger(), MONDAY, [Lot("p", "stew", LotUnit.PORTION, Spot.FRIDGE, MONDAY, 2, 400)])
