"""Rules of the shop and the stock, and the additions, each alone through the whole decision, as in `test_model_rules.py`."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.decided import cost, ignored_costs_more, no_plan, refused
from tests.unit.decide.weeks import BEANS, CORNER, PORTION, RICE, pack, rules, sessions, slots, stew, week

from ladleworth.decide import Additions, Foodstuff, HouseRules, PackageOffer, Question, ShopVisit, StockLot

# -- rule 6: shopping ---------------------------------------------------------------------------------


def test_packages_are_bought_whole() -> None:
    # Rice that spoils within the days, in packages of 500 g at 50: one portion costs 50, not 10, and so do five.
    # Six take two packages. With packages of 600 g at 50 one would do: ignored, more is drawn than was bought.
    def packs(portions: int, grams: int = 500) -> Question:
        return week(
            days=6,
            slots=slots(*range(1, portions + 1)),
            dishes=(stew(keep_days=6),),
            foods=(Foodstuff("rice", keep_days=6),),
            offers=(pack(50, quantity=grams * 1000),),
        )

    assert [cost(packs(n)) for n in (1, 5, 6)] == [50, 50, 100]
    assert refused(packs(6), ignoring=packs(6, 600)) == "stock"


def test_the_rest_of_a_package_is_worth_its_share_only_if_it_outlives_the_days() -> None:
    # 500 g at 50 for one portion: 50 if it keeps for three days of three, 10 if it keeps for four or for good.
    for keep_days, cents in ((3, 50), (4, 10), (None, 10)):
        foods = (Foodstuff("rice", keep_days=keep_days),)
        assert cost(week(foods=foods, offers=(pack(50, quantity=5 * PORTION),))) == cents


def test_a_shop_sells_no_more_packages_a_visit_than_it_has() -> None:
    # Three portions want three packages; the shop has two a visit: 20 + 300. Ignored: 30.
    def has(most: int | None, *days: int) -> Question:
        return week(slots=slots(1, 2, 3), sessions=sessions(*days), offers=(pack(10, most=most),))

    assert cost(has(None, 1)) == 30
    assert cost(has(2, 1)) == 320
    assert refused(has(2, 1), ignoring=has(None, 1)) == "shopping"
    assert cost(has(3, 1)) == 30
    # A second visit sells two more, and a package of day 2 cannot have been cooked on day 1.
    assert cost(has(2, 1, 2)) == 30
    assert cost(has(1, 1, 2)) == 320


def test_every_visit_has_its_trip_cost_once_a_day() -> None:
    # The market is 20 cheaper a portion and its trip costs 30: it pays from two portions on.
    def portions(number: int, trip_cents: int) -> Question:
        market = PackageOffer("at the market", "rice", "market", PORTION, 40)
        return week(
            slots=slots(*range(1, number + 1)),
            offers=(pack(60), market),
            shops=(CORNER, ShopVisit("market", trip_cents)),
        )

    assert [cost(portions(n, 30)) for n in (1, 2, 3)] == [60, 110, 150]
    assert ignored_costs_more(portions(1, 30), ignoring=portions(1, 0))
    # At 20 the trip for one portion costs as much as staying at the corner.
    assert cost(portions(1, 20)) == 60
    assert not ignored_costs_more(portions(1, 20), ignoring=portions(1, 0))


def test_one_visit_can_shop_for_a_later_session() -> None:
    # Two sessions, keeping time one day, trip 50. Durable rice: one visit, 20 + 50. Rice that keeps two days,
    # of no use on day 3: two visits, 20 + 100; three days reach it: 20 + 50 (a package is used up, none is left).
    for keep_days, cents in ((None, 70), (2, 120), (3, 70)):
        question = week(
            slots=slots(1, 3),
            sessions=sessions(1, 3),
            dishes=(stew(keep_days=1),),
            foods=(Foodstuff("rice", keep_days=keep_days),),
            shops=(ShopVisit("corner", 50),),
        )
        assert cost(question) == cents


def test_the_tills_stay_within_the_budget() -> None:
    # Two portions are 20 at the till. The trip (100) and a meal out are not money at the till.
    def budget(cents: int | None) -> Question:
        return week(slots=slots(1, 2), shops=(ShopVisit("corner", 100),), rules=rules(budget_cents=cents))

    assert cost(budget(None)) == 120
    assert cost(budget(19)) == 10 + 100 + 300
    assert refused(budget(19), ignoring=budget(None)) == "budget"
    assert cost(budget(20)) == 120
    assert cost(budget(9)) == 600
    assert no_plan(replace(budget(19), rules=HouseRules(budget_cents=19)))


def test_the_budget_is_spent_on_the_small_package_though_the_large_one_is_cheaper_by_weight() -> None:
    # 100 g at 60, or 500 g at 200, of which 160 are carried: 40. With 199 to spend: 60.
    small, large = pack(60), pack(200, quantity=5 * PORTION, name="large")
    assert cost(week(offers=(small, large), rules=rules(budget_cents=200))) == 40
    assert cost(week(offers=(small, large), rules=rules(budget_cents=199))) == 60


# -- rule 7: needs, stock -----------------------------------------------------------------------------


def eggs(portions: int, each: Fraction, *days: int) -> Question:
    return week(
        slots=slots(*range(1, portions + 1)),
        sessions=sessions(*(days or (1,))),
        dishes=(stew({"egg": each}, keep_days=1 if days else 3),),
        foods=(Foodstuff("egg", pieces=True),),
        offers=(pack(30, "egg", 1),),
    )


def test_pieces_are_rounded_up_to_whole_ones_a_batch() -> None:
    # Two portions of half an egg take one, three take two; a third of an egg each would be one for three.
    assert [cost(eggs(n, Fraction(1, 2))) for n in (1, 2, 3)] == [30, 30, 60]
    assert refused(eggs(3, Fraction(1, 2)), ignoring=eggs(3, Fraction(1, 3))) == "needs"
    # Two batches of half an egg take an egg each.
    assert cost(eggs(2, Fraction(1, 2), 1, 2)) == 60


def test_milligrams_are_rounded_up_a_batch_too() -> None:
    # 1/3 mg a portion: three portions take 1 mg at 30, four would take 2.
    assert cost(eggs(3, Fraction(1, 3))) == 30
    assert cost(eggs(3, Fraction(1, 3) + Fraction(1, 10**9))) == 60


def test_stock_is_used_no_later_than_on_its_last_day() -> None:
    # A dish for day 2 alone, from stock that cost nothing. On its last day it is used; afterwards rice is bought.
    def stock(last_day: int | None) -> Question:
        lots = (StockLot("old rice", "rice", PORTION, 0, last_day),)
        return week(slots=slots(2), sessions=sessions(2), lots=lots)

    assert cost(stock(None)) == 0
    assert cost(stock(1)) == 10
    assert refused(stock(1), ignoring=stock(None)) == "stock"
    assert cost(stock(2)) == 0


def test_no_more_is_drawn_than_there_is() -> None:
    # Five milligrams a portion. With one less than two portions in stock the tenth is bought for 200, or, at 10_000,
    # one of the two slots goes out.
    def stock(quantity: int, cents: int) -> Question:
        return week(
            slots=slots(1, 2),
            dishes=(stew({"rice": 5}),),
            lots=(StockLot("old rice", "rice", quantity, 0),),
            offers=(pack(cents, quantity=1),),
        )

    assert cost(stock(10, 10_000)) == 0
    assert cost(stock(9, 10_000)) == 300
    assert refused(stock(9, 10_000), ignoring=stock(10, 10_000)) == "stock"
    assert cost(stock(9, 200)) == 200


def test_what_is_bought_keeps_from_its_day_of_buying_on() -> None:
    # As above with stock: cooked on days 1 and 3, bought in one visit only if it keeps three days.
    def keeping(days: int) -> Question:
        return week(
            slots=slots(1, 3),
            sessions=sessions(1, 3),
            dishes=(stew(keep_days=1),),
            foods=(Foodstuff("rice", keep_days=days),),
            shops=(ShopVisit("corner", 50),),
        )

    assert refused(keeping(2), ignoring=keeping(3)) == "stock"


# -- rule 8: what is left -----------------------------------------------------------------------------


def test_stock_that_spoils_costs_its_share_and_is_used_first() -> None:
    # 200 g at 90 that end within the days: one portion from it leaves 45 to spoil. Bought instead, 10 + 90.
    # If it keeps beyond them it is carried instead: buying leaves 10 - 90, drawing leaves -45.
    def stock(last_day: int) -> Question:
        return week(lots=(StockLot("old rice", "rice", 2 * PORTION, 90, last_day),))

    assert cost(stock(3)) == 45
    assert cost(stock(4)) == 10 - 90
    assert ignored_costs_more(stock(3), ignoring=stock(4))
    # What spoilt before the first day cannot be helped: 10 + 90.
    assert cost(stock(0)) == 100


def test_two_batches_share_what_spoils() -> None:
    # 150 g that spoil, 50 cents; two portions of 100 g on different days of cooking: 50 g are bought, at 5.
    question = week(
        slots=slots(1, 2),
        sessions=sessions(1, 2),
        dishes=(stew(keep_days=1),),
        lots=(StockLot("old rice", "rice", 150_000, 50, 2),),
    )
    assert cost(question) == 5


# -- additions ----------------------------------------------------------------------------------------


def two_dishes(**fields: object) -> Question:
    """Stew at 10 and bake at 25, four slots."""
    usual: dict[str, object] = {
        "slots": (*slots(1, 2), *slots(1, 2, meal="lunch")),
        "dishes": (stew(), stew({"beans": PORTION}, name="bake")),
        "foods": (RICE, BEANS),
        "offers": (pack(10), pack(25, "beans")),
    }
    return week(**(usual | fields))


@pytest.mark.parametrize(("repeat_cents", "cents"), [(0, 40), (14, 40 + 3 * 14), (15, 85), (20, 95)])
def test_repeats_are_priced_from_the_second_helping_on(repeat_cents: int, cents: int) -> None:
    # Four stews: 40 and three repeats. Three and a bake: 55 and two. Worth it from 15 on; a second bake never.
    assert cost(two_dishes(additions=Additions(repeat_cents=repeat_cents))) == cents


def test_a_price_of_repeats_changes_the_plan() -> None:
    priced = two_dishes(additions=Additions(repeat_cents=20))
    assert ignored_costs_more(priced, ignoring=two_dishes())


def test_minutes_are_priced_with_their_fractions() -> None:
    # Stew takes 4/3 minutes a portion and bake none: at 12 cents a minute stew is 26, at 11 it is 24 2/3.
    quick = stew({"beans": PORTION}, name="bake")
    dishes = (stew(per_portion_min=Fraction(4, 3)), quick)

    def priced(minute_cents: int | Fraction) -> Question:
        return two_dishes(
            slots=slots(1), dishes=dishes, additions=Additions(minute_cents=Fraction(minute_cents))
        )

    assert cost(priced(0)) == 10
    assert cost(priced(12)) == 25
    assert ignored_costs_more(priced(12), ignoring=priced(0))
    assert cost(priced(11)) == Fraction(74, 3)
    assert cost(priced(Fraction(45, 4))) == 25


def test_a_favourite_is_cooked_though_it_is_dearer() -> None:
    # Bake is 15 dearer a portion. A liking of 16 makes it 9, one of 15 as good as stew.
    def liked(cents: int) -> Question:
        bake = stew({"beans": PORTION}, name="bake", liking_cents=Fraction(-cents))
        return two_dishes(slots=slots(1), dishes=(stew(), bake))

    assert cost(liked(0)) == 10
    assert cost(liked(16)) == 9
    assert ignored_costs_more(liked(16), ignoring=liked(0))
    assert cost(liked(15)) == 10
    assert cost(liked(-5)) == 10


@pytest.mark.parametrize(("worth", "cents"), [(0, 10), (10, 10), (11, 8), (40, -50)])
def test_a_reserve_is_cooked_where_it_is_worth_more_than_it_costs(worth: int, cents: int) -> None:
    # Up to two portions more at 10 each.
    question = week(
        dishes=(stew(freezer_days=30),),
        additions=Additions(reserve_portions=2, reserve_cents=worth),
    )
    assert cost(question) == cents


@pytest.mark.parametrize(
    ("limits", "cents"),
    [
        ({"containers": 1}, 10 - 30),
        ({"freezer_places": 1}, 10 - 30),
        ({"budget_cents": 20}, 10 - 30),
        ({"containers": 0}, 10),
    ],
)
def test_a_reserve_takes_containers_freezer_places_and_money(limits: dict[str, int], cents: int) -> None:
    question = week(
        dishes=(stew(freezer_days=30),),
        rules=rules(**limits),
        additions=Additions(reserve_portions=2, reserve_cents=40),
    )
    assert cost(question) == cents
