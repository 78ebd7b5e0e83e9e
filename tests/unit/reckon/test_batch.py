from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.ledger.kitchen import MONDAY, by_mass, by_piece, day, stocked

from ladleworth.errors import LedgerError
from ladleworth.ledger import (
    Cause,
    Ledger,
    LotUnit,
    Offer,
    Portions,
    PriceBook,
    Spot,
    Take,
    buy,
    cook,
    count,
    draw,
    eat,
    move,
    reverse,
    take_stock,
    throw_out,
)
from ladleworth.reckon import (
    at_shelf_prices,
    cart_fate,
    charge_losses,
    cook_again,
    empty_kitchen_at,
    honest_costs,
    purchases_used,
    reckon_batch,
)


def cooked(ledger: Ledger, batch: str, portions: int, *takes: Take, number: int = 0) -> Ledger:
    out = [Portions(f"{batch}-tubs", portions, Spot.FRIDGE, day(number + 3))]
    return cook(ledger, day(number), batch, out, takes=takes).ledger


def test_twelve_eggs_over_six_portions_are_two_each() -> None:
    # common practice, no source
    ledger = cooked(stocked(by_piece("eggs", "egg", 12, 360)), "frittata", 6, Take("eggs", 12))
    assert reckon_batch(ledger, "frittata").per_portion_quantity("egg") == 2


def test_seven_pieces_over_six_portions_are_one_and_a_sixth_each() -> None:
    # common practice, no source
    ledger = cooked(stocked(by_piece("links", "sausage", 8, 400)), "bake", 6, Take("links", 7))
    cost = reckon_batch(ledger, "bake")
    assert cost.per_portion_quantity("sausage") == 1 + Fraction(1, 6)
    assert cost.per_portion_quantity("leek") == 0


def test_a_cart_of_fifteen_with_ten_drawn_over_six_is_1_67_used_and_5_carried() -> None:
    # common practice, no source: the share used is reckoned apart from what stays on the shelf
    ledger = stocked(
        by_mass("meat", "beef", 1000, 900, shop="corner"), by_mass("rice", "rice", 600, 600, shop="corner")
    )
    ledger = cooked(ledger, "stew", 6, Take("meat", 1000), Take("rice", 100))
    costs = honest_costs(ledger, "stew")
    assert (costs.cart_cents, costs.used_cents, costs.portions) == (1500, 1000, 6)
    assert costs.per_portion()[2] == Fraction(1000, 6)
    cost = reckon_batch(ledger, "stew")
    assert cost.portion_cents == (167, 167, 167, 167, 166, 166)
    fate = cart_fate(ledger, MONDAY, "corner")
    assert (fate.cents("drawn for batches"), fate.cents("left"), fate.total_cents) == (1000, 500, 1500)


def test_a_batch_that_is_not_in_portions_is_not_reckoned() -> None:
    ledger = draw(stocked(by_mass("rice", "rice", 10, 5)), MONDAY, "bowl", [Take("rice", 1)]).ledger
    with pytest.raises(LedgerError, match="not in portions yet"):
        reckon_batch(ledger, "bowl")


def test_lines_gather_lots_of_one_item_and_leave_out_what_was_reversed() -> None:
    ledger = stocked(
        by_mass("a", "rice", 100, 10), by_mass("b", "rice", 100, 30), by_mass("c", "oats", 100, 9)
    )
    ledger = draw(ledger, MONDAY, "bowl", [Take("a", 100), Take("b", 50), Take("c", 100)]).ledger
    ledger = reverse(ledger, MONDAY, ledger.movements[-1].id).ledger
    cost = reckon_batch(cooked(ledger, "bowl", 2), "bowl")
    (line,) = cost.lines
    assert (line.item, line.quantity, line.cents, line.lots) == ("rice", 150, 25, ("a", "b"))
    assert cost.portion_cents == (13, 12)


def test_what_rots_of_a_purchase_is_charged_to_the_batches_that_drew_from_it() -> None:
    ledger = stocked(by_mass("kale", "kale", 1000, 500), by_mass("leek", "leek", 10, 70))
    ledger = move(ledger, MONDAY, "kale", Spot.FRIDGE, use_by=day(3), quantity=400, new_lot_id="half").ledger
    ledger = cooked(ledger, "soup", 4, Take("kale", 200))
    ledger = cooked(ledger, "curry", 5, Take("half", 300))
    ledger = throw_out(ledger, day(5), "half", Cause.SPOILED).ledger  # 100 for 50 cents
    ledger = throw_out(ledger, day(5), "leek", Cause.SPOILED).ledger  # nobody drew from it
    ledger = count(ledger, day(5), "kale", 300, "wilted away").ledger  # 100 for 50 cents
    losses = charge_losses(ledger)
    assert dict(losses.by_batch) == {"soup": 40, "curry": 60}
    assert losses.uncharged_cents == 70
    cost = reckon_batch(ledger, "curry", losses)
    assert (cost.used_cents, cost.charged_cents) == (150, 60)
    assert (cost.per_portion, cost.per_portion_with_loss) == (30, 42)
    assert cost.with_loss().total_cents == 210
    assert reckon_batch(ledger.as_of(day(1)), "curry").charged_cents == 0


def test_portions_that_were_thrown_out_are_shown_by_their_batch_and_charged_to_nobody() -> None:
    ledger = cooked(stocked(by_mass("rice", "rice", 100, 600)), "bowl", 6, Take("rice", 100))
    ledger = throw_out(ledger, day(4), "bowl-tubs", Cause.PAST_DATE, quantity=2).ledger
    cost = reckon_batch(ledger, "bowl")
    assert (cost.lost_portions, cost.lost_portion_cents, cost.charged_cents) == (2, 200, 0)
    assert charge_losses(ledger).by_batch == ()


def test_an_empty_kitchen_pays_for_whole_packages() -> None:
    ledger = stocked(
        by_mass("cans", "beans", 1200, 300, packages=3, shop="corner"),
        by_mass("oil", "oil", 1000, 800, shop="corner"),
        by_mass("soap-like", "cumin", 10, 99, shop="corner"),
    )
    ledger = cooked(ledger, "chili", 4, Take("cans", 500), Take("oil", 50))
    costs = honest_costs(ledger, "chili")
    assert [(row.label, row.cents) for row in costs.empty_kitchen.rows] == [("beans", 200), ("oil", 800)]
    assert (costs.cart_cents, costs.used_cents) == (1199, 125 + 40)


def test_the_end_of_an_old_package_and_the_start_of_a_new_one_are_one_package_in_an_empty_kitchen() -> None:
    ledger = stocked(by_mass("old", "rice", 1000, 200), by_mass("new", "rice", 1000, 180))
    ledger = eat(ledger, MONDAY, "old", 900).ledger
    ledger = cooked(ledger, "bowl", 2, Take("old", 100), Take("new", 400))
    assert honest_costs(ledger, "bowl").empty_kitchen.total_cents == 180


def test_a_gift_costs_an_empty_kitchen_its_shelf_price_or_is_named_as_uncounted() -> None:
    ledger = stocked(
        by_mass("plums", "plum", 1000, 0, gift=True, shelf_cents=250),
        by_mass("herbs", "mint", 10, 0, gift=True),
    )
    costs = honest_costs(cooked(ledger, "jam", 5, Take("plums", 500), Take("herbs", 10)), "jam")
    assert (costs.empty_kitchen.total_cents, costs.used_cents, costs.uncounted) == (250, 0, ("mint",))


def test_the_cart_is_everything_bought_on_the_visits_that_the_batch_drew_from() -> None:
    ledger = stocked(by_mass("a", "rice", 10, 100, shop="corner"), by_mass("b", "tea", 10, 70, shop="corner"))
    ledger = buy(ledger, MONDAY, [by_mass("c", "jam", 10, 30, shop="market")]).ledger
    ledger = buy(ledger, day(1), [by_mass("d", "oats", 10, 20, shop="corner")]).ledger
    ledger = take_stock(ledger, day(1), [by_mass("e", "flour", 10, 5)]).ledger
    ledger = cooked(ledger, "bowl", 1, Take("a", 1), Take("e", 1), number=1)
    assert honest_costs(ledger, "bowl").cart_cents == 170


def test_a_pie_from_two_of_six_tubs_of_stew_uses_a_third_of_its_beef() -> None:
    ledger = stocked(by_mass("beef", "beef", 900, 600), by_mass("flour", "flour", 500, 100))
    ledger = cooked(ledger, "stew", 6, Take("beef", 900))
    ledger = cooked(ledger, "pie", 2, Take("stew-tubs", 2), Take("flour", 250), number=1)
    assert purchases_used(ledger, "pie") == {"beef": 300, "flour": 250}
    costs = honest_costs(ledger, "pie")
    assert (costs.empty_kitchen.total_cents, costs.used_cents) == (700, 250)


def test_a_batch_of_gifts_passes_its_quantities_on_by_portions() -> None:
    ledger = stocked(by_mass("plums", "plum", 900, 0, gift=True))
    ledger = cooked(ledger, "jam", 3, Take("plums", 900))
    ledger = cooked(ledger, "tart", 1, Take("jam-tubs", 1), number=1)
    assert purchases_used(ledger, "tart") == {"plums": 300}


def test_portions_counted_in_stand_for_themselves() -> None:
    tubs = by_mass("tubs", "old stew", 4, 400, unit=LotUnit.PORTION)
    ledger = take_stock(Ledger(), MONDAY, [tubs]).ledger
    ledger = cooked(ledger, "pie", 2, Take("tubs", 1))
    assert purchases_used(ledger, "pie") == {"tubs": 1}
    assert honest_costs(ledger, "pie").uncounted == ("old stew",)


BOOK = PriceBook(
    (
        Offer("beans", "corner", 400, LotUnit.MG, 110, MONDAY),
        Offer("oil", "corner", 1000, LotUnit.MG, 700, MONDAY),
        Offer("oil", "market", 3000, LotUnit.MG, 1800, day(9)),
    )
)


def test_to_cook_it_again_costs_the_best_unit_prices_on_offer() -> None:
    ledger = stocked(
        by_mass("cans", "beans", 1200, 300), by_mass("oil", "oil", 1000, 800), by_mass("salt", "salt", 10, 1)
    )
    ledger = cooked(ledger, "chili", 4, Take("cans", 500), Take("oil", 51), Take("salt", 1))
    again, uncounted = cook_again(ledger, "chili", BOOK)
    # 500 at 110/400 = 137.5, 51 at 1800/3000 = 30.6: 168.1 in all
    assert [(row.label, row.cents) for row in again.rows] == [("beans", 137), ("oil", 31)]
    assert (again.total_cents, uncounted) == (168, ("salt",))
    whole, uncounted = empty_kitchen_at(ledger, "chili", BOOK, on=day(1))
    assert (whole.total_cents, uncounted) == (220 + 700, ("salt",))


def test_shelf_prices_show_what_discounts_and_gifts_hide() -> None:
    ledger = stocked(
        by_mass("beef", "beef", 1000, 500, shelf_cents=900),
        by_mass("plums", "plum", 1000, 0, gift=True, shelf_cents=250),
        by_mass("rice", "rice", 1000, 100),
    )
    ledger = cooked(ledger, "roast", 4, Take("beef", 500), Take("plums", 500), Take("rice", 500))
    table, unknown = at_shelf_prices(ledger, "roast")
    assert [(row.label, row.cents) for row in table.rows] == [("beef", 450), ("plum", 125)]
    assert unknown == ("rice",)
    assert reckon_batch(ledger, "roast").used_cents == 300
