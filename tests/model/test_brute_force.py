"""The brute force reaches optima that were argued and worked out by hand.

Each case is a week small enough to settle on paper; the argument stands beside it. A meal out costs 300 and
rice 10 cents for the 100 g of one portion, unless the case says otherwise.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.model.brute_force import best
from tests.model.paper_weeks import CORNER, PORTION, RICE, RICE_OFFER, days_of, rules, stew, week

from ladleworth.decide.question import CookSession, Foodstuff, PackageOffer, Question, ShopVisit, StockLot

# -- money --------------------------------------------------------------------------------------------


def test_without_dishes_every_slot_is_a_meal_out_and_the_stock_is_spoilt_or_carried() -> None:
    # 2 out = 600. The lot that ends on day 3 of 3 spoils (+40); the one that ends on day 4 (-25) and the
    # durable one (-100) are carried; the one that ended on day 0 has spoilt already (+7).
    lots = (
        StockLot("a", "rice", 500, 40, last_day=3),
        StockLot("b", "rice", 500, 25, last_day=4),
        StockLot("c", "rice", 500, 100),
        StockLot("d", "rice", 500, 7, last_day=0),
    )
    assert best(week(slots=days_of(1, 2), dishes=(), lots=lots)) == 600 + 40 - 25 - 100 + 7


@pytest.mark.parametrize(("portions", "cents"), [(1, 60), (2, 110), (3, 150)])
def test_a_trip_to_the_cheaper_market_pays_from_the_second_portion_on(portions: int, cents: int) -> None:
    # Corner 60 a portion, no trip. Market 40 a portion, trip 30. One portion: 60 against 70. Two: 120
    # against 110. Three: 180 against 150.
    question = week(
        slots=days_of(1, 2, 3)[:portions],
        offers=(
            PackageOffer("rice at corner", "rice", "corner", PORTION, 60),
            PackageOffer("rice at market", "rice", "market", PORTION, 40),
        ),
        shops=(CORNER, ShopVisit("market", 30)),
        rules=rules(in_a_row=None),
    )
    assert best(question) == cents


def test_a_trip_made_for_one_food_makes_the_other_cheaper_there_too() -> None:
    # Greens only at the market (20, trip 30). Once there, rice costs 40 instead of 60: 20 + 40 + 30 = 90.
    # Rice at the corner beside it would be 20 + 30 + 60 = 110; rice alone would have stayed at the corner.
    question = week(
        dishes=(stew({"rice": PORTION, "greens": PORTION}),),
        foods=(RICE, Foodstuff("greens", keep_days=2)),
        offers=(
            PackageOffer("rice at corner", "rice", "corner", PORTION, 60),
            PackageOffer("rice at market", "rice", "market", PORTION, 40),
            PackageOffer("greens at market", "greens", "market", PORTION, 20),
        ),
        shops=(CORNER, ShopVisit("market", 30)),
    )
    assert best(question) == 90


@pytest.mark.parametrize(("sessions", "cents"), [((1,), 70), ((1, 3), 70)])
def test_one_visit_serves_two_sessions_if_the_food_keeps(sessions: tuple[int, ...], cents: int) -> None:
    # Day 1 and day 3, keeping time 1: the second portion must be cooked on day 3 (or eaten out at 300).
    # Durable rice for both is bought on day 1 in one visit: 2 x 10 + 50 = 70, not 120. With one session the
    # second portion is frozen for day 3: also 70.
    question = week(
        slots=days_of(1, 3),
        sessions=tuple(CookSession(day, 60) for day in sessions),
        dishes=(stew(keep_days=1, freezer_days=30),),
        shops=(ShopVisit("corner", 50),),
    )
    assert best(question) == cents


@pytest.mark.parametrize(("keep_days", "cents"), [(None, 40), (4, 40), (3, 60), (1, 60)])
def test_a_big_package_is_better_only_if_the_rest_outlives_the_days(
    keep_days: int | None, cents: int
) -> None:
    # 100 g at 60, or 500 g at 200. The big one leaves 400 g worth 160 if it is durable or keeps to day 4:
    # 200 - 160 = 40. Bought on day 1 with 3 keeping days its last day is day 3 of 3: worth nothing, so 60.
    question = week(
        foods=(Foodstuff("rice", keep_days=keep_days),),
        offers=(
            PackageOffer("small", "rice", "corner", PORTION, 60),
            PackageOffer("big", "rice", "corner", 5 * PORTION, 200),
        ),
    )
    assert best(question) == cents


@pytest.mark.parametrize(("budget", "cents"), [(200, 40), (199, 60), (60, 60), (59, 300)])
def test_the_budget_counts_what_is_paid_at_the_till_not_what_is_carried(budget: int, cents: int) -> None:
    # As above, durable. The big package costs 200 at the till although 160 of it are carried; below that
    # the small one (60); below that a meal out, which is not money at the till.
    question = week(
        offers=(
            PackageOffer("small", "rice", "corner", PORTION, 60),
            PackageOffer("big", "rice", "corner", 5 * PORTION, 200),
        ),
        rules=rules(budget_cents=budget),
    )
    assert best(question) == cents


def test_the_budget_does_not_count_trips() -> None:
    # 10 at the till, 200 for the trip, a budget of 10: allowed, and cheaper than 300.
    assert best(week(shops=(ShopVisit("corner", 200),), rules=rules(budget_cents=10))) == 210


def test_the_budget_forces_a_meal_out_for_the_dearer_dish_only() -> None:
    # Two slots on day 1 and 3 of one dish each (most_times 1): stew 10, roast 90. Both: 100 at the till.
    # With a budget of 99 one slot goes out; keeping the stew leaves 10 + 300.
    roast = stew({"meat": PORTION}, name="roast")
    fields: dict[str, object] = {
        "slots": days_of(1, 3),
        "dishes": (stew(), roast),
        "foods": (RICE, Foodstuff("meat", keep_days=2)),
        "offers": (RICE_OFFER, PackageOffer("meat at corner", "meat", "corner", PORTION, 90)),
    }
    assert best(week(rules=rules(most_times=1, budget_cents=100), **fields)) == 100
    assert best(week(rules=rules(most_times=1, budget_cents=99), **fields)) == 310


# -- stock --------------------------------------------------------------------------------------------


def test_a_spoiling_lot_is_used_up_although_a_cheaper_package_exists() -> None:
    # The lot cost 90 and spoils within the days: used, nothing is paid: 0. Bought anew: 10 + 90 spoilt.
    assert best(week(lots=(StockLot("old", "rice", PORTION, 90, last_day=3),))) == 0


def test_a_durable_dear_lot_is_kept_and_the_cheaper_package_bought() -> None:
    # Used: nothing paid, nothing carried: 0. Kept: 10 paid, 90 carried: -80.
    assert best(week(lots=(StockLot("old", "rice", PORTION, 90),))) == -80


def test_the_lot_that_spoils_goes_first_and_the_durable_one_is_carried() -> None:
    # Draw from the spoiling lot (10): carried 100, total -100. The other way round: +10 spoilt.
    lots = (StockLot("keeps", "rice", PORTION, 100), StockLot("spoils", "rice", PORTION, 10, last_day=1))
    assert best(week(offers=(), lots=lots)) == -100


def test_a_lot_that_ends_before_the_session_is_lost_and_the_durable_one_is_drawn() -> None:
    # As before, but cooking is on day 2 and the spoiling lot ends on day 1: +10 spoilt, carried 0.
    lots = (StockLot("keeps", "rice", PORTION, 100), StockLot("spoils", "rice", PORTION, 10, last_day=1))
    question = week(slots=days_of(2), sessions=(CookSession(2, 60),), offers=(), lots=lots)
    assert best(question) == 10


@pytest.mark.parametrize(("last_day", "cents"), [(1, 350), (2, 0), (4, 0)])
def test_a_lot_may_be_used_on_its_last_day_and_not_after(last_day: int, cents: int) -> None:
    # Cooking on day 2. Ends on day 1: out 300 + spoilt 50. Ends on day 2: used, 0. Ends on day 4 of 3:
    # used 0, or carried and eaten out 300 - 50 = 250; so used.
    lots = (StockLot("lot", "rice", PORTION, 50, last_day=last_day),)
    question = week(slots=days_of(2), sessions=(CookSession(2, 60),), offers=(), lots=lots)
    assert best(question) == cents


@pytest.mark.parametrize(("keep_days", "cents"), [(1, 30 + 300), (2, 60)])
def test_food_bought_with_k_keeping_days_serves_the_day_of_buying_and_k_less_one_more(
    keep_days: int, cents: int
) -> None:
    # One package a visit, visits on day 1 and 2, cooking on day 2 only is useful (slots on day 2, chilled
    # for 1 day). With 2 keeping days the package of day 1 serves as well: 2 x 30. With 1 it does not.
    question = week(
        days=4,
        slots=(*days_of(2), *days_of(2, eater="Ben")),
        sessions=(CookSession(1, 0), CookSession(2, 60)),
        dishes=(stew(keep_days=1, fixed_min=Fraction(1)),),
        foods=(Foodstuff("rice", keep_days=keep_days),),
        offers=(PackageOffer("rice at corner", "rice", "corner", PORTION, 30, most=1),),
    )
    assert best(question) == cents


def test_the_share_of_a_lot_is_kept_as_an_exact_fraction() -> None:
    # A lot of 300 g that cost 100: 100 g are used, two thirds are carried: -200/3. Eating out would be worse.
    question = week(offers=(), lots=(StockLot("lot", "rice", 3 * PORTION, 100),))
    assert best(question) == Fraction(-200, 3)


# -- pieces -------------------------------------------------------------------------------------------


def eggs(**fields: object) -> Question:
    usual: dict[str, object] = {
        "foods": (Foodstuff("eggs", pieces=True, keep_days=2),),
        "offers": (PackageOffer("an egg", "eggs", "corner", 1, 30),),
        "dishes": (stew({"eggs": Fraction(1, 2)}),),
    }
    return week(**(usual | fields))


def test_half_eggs_are_rounded_up_for_the_batch_as_a_whole() -> None:
    # Three portions of half an egg: 1.5, so two eggs: 60; not three for three portions.
    assert best(eggs(slots=days_of(1, 2, 3), rules=rules(in_a_row=None))) == 60


def test_two_batches_of_half_an_egg_take_an_egg_each() -> None:
    # Keeping time 1 and no freezing: each slot has its own batch, 1 egg each: 60, not 30 for one egg.
    question = eggs(
        slots=days_of(1, 3),
        sessions=(CookSession(1, 60), CookSession(3, 60)),
        dishes=(stew({"eggs": Fraction(1, 2)}, keep_days=1),),
        foods=(Foodstuff("eggs", pieces=True),),
    )
    assert best(question) == 60


def test_milligrams_are_rounded_up_for_the_batch_as_well() -> None:
    # A third of a milligram a portion: three portions take 1 mg (7), four take 2 mg (14).
    offers = (PackageOffer("saffron", "rice", "corner", 1, 7),)
    dish = stew({"rice": Fraction(1, 3)})
    assert best(week(slots=days_of(1, 2, 3), dishes=(dish,), offers=offers, rules=rules(in_a_row=None))) == 7
    four = (*days_of(1, 2, 3), *days_of(1, eater="Ben"))
    assert best(week(slots=four, dishes=(dish,), offers=offers, rules=rules(in_a_row=None))) == 14


# -- keeping, freezing, containers --------------------------------------------------------------------


@pytest.mark.parametrize(("day", "cents"), [(4, 10), (5, 300)])
def test_a_chilled_portion_is_eaten_up_to_the_third_day_after_cooking(day: int, cents: int) -> None:
    # Keeping time 4 with the cooking day as day 1: cooked on day 1, eaten on day 4 but not on day 5.
    assert best(week(days=5, slots=days_of(day))) == cents


@pytest.mark.parametrize(
    ("day", "freezer_days", "cents"), [(2, 30, 300), (3, 30, 10), (3, 3, 10), (3, 2, 300), (4, 3, 300)]
)
def test_a_frozen_portion_needs_a_day_to_thaw_and_counts_its_freezer_days_from_the_cooking_day(
    day: int, freezer_days: int, cents: int
) -> None:
    # Chilled for 1 day only. Day 2: still in the freezer or thawing. Day 3 is its third day: fine with 3
    # freezer days, too late with 2; day 4 is too late with 3.
    dish = stew(keep_days=1, freezer_days=freezer_days)
    assert best(week(days=4, slots=days_of(day), dishes=(dish,))) == cents


@pytest.mark.parametrize(("containers", "cents"), [(0, 10 + 600), (1, 20 + 300), (2, 30), (None, 30)])
def test_a_portion_fills_a_container_on_every_night_before_it_is_eaten(
    containers: int | None, cents: int
) -> None:
    # Cooked on day 1 for days 1, 2, 3. The portion of day 1 needs none; on the first night those of days 2
    # and 3 are both boxed.
    question = week(slots=days_of(1, 2, 3), rules=rules(containers=containers, in_a_row=None))
    assert best(question) == cents


def test_a_container_is_free_again_on_the_day_its_portion_is_eaten() -> None:
    # One container. Day 1's batch: one for day 1, one boxed for day 2. On day 2 it is eaten, so the batch
    # of day 2 can box one for day 3: all three eaten in, 3 x 10.
    question = week(
        slots=days_of(1, 2, 3),
        sessions=(CookSession(1, 60), CookSession(2, 60)),
        rules=rules(containers=1, in_a_row=None),
    )
    assert best(question) == 30


def test_frozen_portions_fill_containers_too() -> None:
    # Chilled for 1 day: the portions for days 3 and 4 are frozen, two containers on the first night. With
    # one container one of them goes: 10 + 300.
    fields: dict[str, object] = {
        "days": 4,
        "slots": days_of(3, 4),
        "dishes": (stew(keep_days=1, freezer_days=30),),
    }
    assert best(week(rules=rules(containers=1), **fields)) == 310
    assert best(week(rules=rules(containers=2), **fields)) == 20


@pytest.mark.parametrize(("places", "cents"), [(0, 600), (1, 310), (2, 20)])
def test_frozen_portions_take_a_freezer_place_from_the_first_night(places: int, cents: int) -> None:
    # Cooked on day 1 for days 3 and 4. On the first night both are frozen.
    question = week(
        days=4,
        slots=days_of(3, 4),
        dishes=(stew(keep_days=1, freezer_days=30),),
        rules=rules(freezer_places=places),
    )
    assert best(question) == cents


def test_the_portion_taken_out_to_thaw_makes_room_in_the_freezer_the_night_before() -> None:
    # One place. Cooked on day 1 for day 3: in the freezer on night 1, taken out on day 2. Cooked on day 2
    # for day 4: in the freezer on night 2. They follow each other: 2 x 10. (Minutes allow one portion each.)
    question = week(
        days=4,
        slots=days_of(3, 4),
        sessions=(CookSession(1, 1), CookSession(2, 1)),
        dishes=(stew(keep_days=1, freezer_days=30, per_portion_min=Fraction(1)),),
        rules=rules(freezer_places=1),
    )
    assert best(question) == 20
