"""The brute force reaches optima that were argued and worked out by hand.

Each case is a week small enough to settle on paper; the argument stands beside it. A meal out costs 300 and
rice 10 cents for the 100 g of one portion, unless the case says otherwise.
"""

from __future__ import annotations

import itertools
import random
from fractions import Fraction

import pytest
from tests.model.brute_food import Source, cheapest_draws
from tests.model.brute_force import best
from tests.model.plan_cost import cost_of, total_of
from tests.model.small_kitchens import KITCHENS, small_kitchen
from tests.model.tried_out import tried_out

from ladleworth.decide.question import (
    Additions,
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    MealSlot,
    PackageOffer,
    Question,
    ShopVisit,
    StockLot,
    Version,
)

PORTION = 100_000
RICE = Foodstuff("rice")
CORNER = ShopVisit("corner")
RICE_OFFER = PackageOffer("rice at corner", "rice", "corner", PORTION, 10)
OUT = HouseRules(meal_out_cents=300)


def stew(needs: dict[str, int | Fraction] | None = None, **fields: object) -> DishChoice:
    """A dish in one version; `fixed_min`, `per_portion_min`, `barred` and `liking_cents` go to the version."""
    of_version = {
        key: fields.pop(key)
        for key in ("fixed_min", "per_portion_min", "barred", "liking_cents")
        if key in fields
    }
    name = str(fields.pop("name", "stew"))
    amounts = {food: Fraction(amount) for food, amount in (needs or {"rice": PORTION}).items()}
    return DishChoice(name, (Version("plain", amounts, **of_version),), **fields)  # type: ignore[arg-type]


def days_of(*days: int, eater: str = "Ada", meal: str = "supper") -> tuple[MealSlot, ...]:
    return tuple(MealSlot(day, eater, meal) for day in days)


def week(**fields: object) -> Question:
    usual: dict[str, object] = {
        "days": 3,
        "slots": days_of(1),
        "sessions": (CookSession(1, 60),),
        "dishes": (stew(),),
        "foods": (RICE,),
        "offers": (RICE_OFFER,),
        "shops": (CORNER,),
        "rules": OUT,
    }
    return Question(**(usual | fields))  # type: ignore[arg-type]


def rules(**fields: object) -> HouseRules:
    return HouseRules(**({"meal_out_cents": 300} | fields))  # type: ignore[arg-type]


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


# -- sameness, exclusions, minutes, batch sizes -------------------------------------------------------


@pytest.mark.parametrize(("in_a_row", "cents"), [(1, 20 + 600), (2, 30 + 300), (3, 30 + 300), (None, 40)])
def test_the_same_dish_stops_after_so_many_days_in_a_row(in_a_row: int | None, cents: int) -> None:
    # Days 1 to 4. At most 1 in a row: days 1 and 3, say. At most 2: days 1, 2 and 4. At most 3: one day
    # must still go out.
    question = week(days=4, slots=days_of(1, 2, 3, 4), rules=rules(in_a_row=in_a_row))
    assert best(question) == cents


def test_two_meals_on_one_day_are_one_day_in_a_row() -> None:
    # At most 1 day in a row; lunch and supper on day 1, supper on day 2. Both meals of day 1 may be stew;
    # then day 2 goes out: 20 + 300. Stew on day 2 would send two meals out.
    question = week(slots=(*days_of(1, meal="lunch"), *days_of(1, 2)), rules=rules(in_a_row=1))
    assert best(question) == 320


def test_days_in_a_row_are_counted_for_each_eater_alone_and_across_batches() -> None:
    # At most 2. Ada has days 1, 2, 3 and Ben day 2: Ada goes out once, Ben never. A second session does not
    # make it a different dish.
    question = week(
        slots=(*days_of(1, 2, 3), *days_of(2, eater="Ben")),
        sessions=(CookSession(1, 60), CookSession(3, 60)),
        rules=rules(in_a_row=2),
    )
    assert best(question) == 30 + 300


def test_most_times_counts_helpings_not_days() -> None:
    # Lunch and supper on day 1, at most once: one helping, one meal out.
    question = week(slots=(*days_of(1, meal="lunch"), *days_of(1)), rules=rules(most_times=1))
    assert best(question) == 310


def two_versions(meal_out_cents: int) -> Question:
    dish = DishChoice(
        "stew",
        (
            Version("with meat", {"meat": Fraction(PORTION)}, barred=frozenset({"Ben"})),
            Version("with beans", {"beans": Fraction(PORTION)}),
        ),
    )
    return week(
        slots=(*days_of(1), *days_of(1, eater="Ben")),
        dishes=(dish,),
        foods=(Foodstuff("meat", keep_days=2), Foodstuff("beans")),
        offers=(
            PackageOffer("meat at corner", "meat", "corner", PORTION, 10),
            PackageOffer("beans at corner", "beans", "corner", PORTION, 50),
        ),
        rules=rules(meal_out_cents=meal_out_cents),
    )


def test_a_session_cooks_a_dish_once_in_one_version() -> None:
    # Ben may not have the meat. Beans for both: 100. Meat for Ada and a meal out for Ben: 10 + 300, or
    # 10 + 60 where a meal out costs 60. Meat for Ada beside beans for Ben (60) would be two batches of
    # one dish in one session.
    assert best(two_versions(meal_out_cents=300)) == 100
    assert best(two_versions(meal_out_cents=60)) == 70


def test_a_dish_is_had_only_at_the_meals_it_suits() -> None:
    dish = stew(meals=frozenset({"lunch"}))
    assert best(week(dishes=(dish,))) == 300
    assert best(week(slots=days_of(1, meal="lunch"), dishes=(dish,))) == 10


@pytest.mark.parametrize(("minutes", "cents"), [(25, 30), (24, 20 + 300), (14, 900)])
def test_hands_on_minutes_bound_the_batch(minutes: int, cents: int) -> None:
    # 10 minutes and 5 a portion: three portions take 25, two take 20, one takes 15.
    question = week(
        slots=days_of(1, 2, 3),
        sessions=(CookSession(1, minutes),),
        dishes=(stew(fixed_min=Fraction(10), per_portion_min=Fraction(5)),),
        rules=rules(in_a_row=None),
    )
    assert best(question) == cents


def test_minutes_add_up_over_the_dishes_of_a_session() -> None:
    # Each dish takes 10 minutes and may be had once. 19 minutes: only one is cooked.
    dishes = (stew(fixed_min=Fraction(10)), stew(name="bake", fixed_min=Fraction(10)))
    fields: dict[str, object] = {"slots": days_of(1, 2), "dishes": dishes, "rules": rules(most_times=1)}
    assert best(week(sessions=(CookSession(1, 19),), **fields)) == 310
    assert best(week(sessions=(CookSession(1, 20),), **fields)) == 20


def test_a_batch_below_the_least_is_not_cooked_and_none_exceeds_the_greatest() -> None:
    # Least 3 with two slots: out twice. Greatest 2 with three slots: out once.
    assert best(week(slots=days_of(1, 2), dishes=(stew(least=3),))) == 600
    three = days_of(1, 2, 3)
    assert best(week(slots=three, dishes=(stew(greatest=2),), rules=rules(in_a_row=None))) == 320


@pytest.mark.parametrize(
    "fields",
    [
        {"sessions": (CookSession(1, 1),), "dishes": (stew(fixed_min=Fraction(2)),)},
        {"rules": HouseRules(budget_cents=9)},
        {"slots": days_of(2), "rules": HouseRules(containers=0)},
        {"dishes": (stew(barred=frozenset({"Ada"})),)},
        {"slots": days_of(1, 2, 3)},
        {"slots": days_of(1), "sessions": (CookSession(2, 60),)},
        {"offers": ()},
        {"dishes": (stew(least=2),)},
    ],
    ids=["minutes", "money", "containers", "barred", "in a row", "too late", "no food", "least"],
)
def test_without_meals_out_a_slot_that_cannot_be_filled_makes_the_week_impossible(
    fields: dict[str, object],
) -> None:
    assert best(week(**({"rules": HouseRules()} | fields))) is None


# -- named additions ----------------------------------------------------------------------------------


def test_repeats_are_priced_from_the_second_helping_of_an_eater_on() -> None:
    # Stew 10, bake 25 a portion; 4 slots of Ada; a repeat costs 20. Four stews: 40 + 3 x 20 = 100. Three and
    # one bake: 55 + 2 x 20 = 95. Two and two: 70 + 2 x 20 = 110.
    question = week(
        slots=(*days_of(1, 2), *days_of(1, 2, meal="lunch")),
        dishes=(stew(), stew({"beans": PORTION}, name="bake")),
        foods=(RICE, Foodstuff("beans")),
        offers=(RICE_OFFER, PackageOffer("beans at corner", "beans", "corner", PORTION, 25)),
        additions=Additions(repeat_cents=20),
    )
    assert best(question) == 95


def test_minutes_are_priced_with_their_fractions() -> None:
    # 4/3 minutes a portion at 3 cents: 10 + 4.
    question = week(
        dishes=(stew(per_portion_min=Fraction(4, 3)),), additions=Additions(minute_cents=Fraction(3))
    )
    assert best(question) == 14


def test_a_favourite_is_cooked_although_the_other_dish_is_cheaper() -> None:
    # Stew 10; bake 25 with a liking of -20: 5.
    question = week(
        dishes=(stew(), stew({"beans": PORTION}, name="bake", liking_cents=Fraction(-20))),
        foods=(RICE, Foodstuff("beans")),
        offers=(RICE_OFFER, PackageOffer("beans at corner", "beans", "corner", PORTION, 25)),
    )
    assert best(question) == 5


@pytest.mark.parametrize(
    ("freezer_days", "containers", "cents"),
    [
        (30, None, 20 - 2 * 40 + 10),
        (None, None, 10),
        (30, 1, 20 - 40),
        (30, 0, 10),
        (4, None, -50),
        (3, None, 10),
    ],
)
def test_a_reserve_is_frozen_and_boxed_to_the_end_of_the_days(
    freezer_days: int | None, containers: int | None, cents: int
) -> None:
    # One slot on day 1 (10). Up to two portions more may lie frozen when day 3 ends, each 10 to cook and
    # worth 40: -30 each. They take containers; they must freeze well, and still be good
    # on day 4, the day after the days and their fourth.
    question = week(
        dishes=(stew(freezer_days=freezer_days),),
        rules=rules(containers=containers),
        additions=Additions(reserve_portions=2, reserve_cents=40),
    )
    assert best(question) == cents


def test_a_portion_may_not_be_left_over_without_a_reserve() -> None:
    # Least 2, one slot: the second portion has no place, so the meal is out; with a reserve worth nothing
    # it can be frozen: 20.
    dish = stew(least=2, freezer_days=30)
    assert best(week(dishes=(dish,))) == 300
    assert best(week(dishes=(dish,), additions=Additions(reserve_portions=1))) == 20


# -- the search itself --------------------------------------------------------------------------------


def test_the_cheapest_draws_are_the_cheapest_of_all_draws() -> None:
    # Every way to draw whole units from up to four lots for up to two days, tried one by one; some lots must be used.
    dice = random.Random(7)
    met = 0
    for _ in range(450):
        days = (2, 4)[: dice.randint(1, 2)]
        needs = tuple((day, dice.randint(1, 4)) for day in days)
        sources = [
            Source(
                f"lot {i}",
                None,
                dice.choice((1, 2, 3, 4)),
                dice.choice((None, 1, 2, 3, 4)),
                dice.randint(1, 4),
                Fraction(dice.randint(-6, 6), dice.randint(1, 3)),
            )
            for i in range(dice.randint(1, 4))
        ]
        wished = {s.name: dice.randint(1, 3) for s in sources if dice.random() < 0.25}
        costs = []
        each = [
            [
                split
                for split in itertools.product(*(range(s.quantity + 1 if s.open_on(d) else 1) for d in days))
                if sum(split) <= s.quantity
            ]
            for s in sources
        ]
        for splits in itertools.product(*each):
            if any(sum(split) < wished.get(s.name, 0) for s, split in zip(sources, splits, strict=True)):
                continue
            if all(sum(split[k] for split in splits) == needs[k][1] for k in range(len(days))):
                costs.append(sum(s.draw_cents * sum(split) for s, split in zip(sources, splits, strict=True)))
        drawn = cheapest_draws(sources, needs, wished)
        if not costs:
            assert drawn is None
            continue
        met += 1
        assert drawn is not None
        assert sum(s.draw_cents * amount for s, amount in drawn) == min(costs)
        assert all({s.name: n for s, n in drawn}.get(name, 0) >= n for name, n in wished.items())
    assert 90 <= met <= 400


@pytest.mark.parametrize("block", range(0, KITCHENS, 40))
def test_the_plan_that_is_found_costs_what_the_search_says(block: int) -> None:
    for seed in range(block, block + 40):
        found = tried_out(seed)
        if found is not None:
            assert total_of(cost_of(small_kitchen(seed), found[1])) == found[0], seed
