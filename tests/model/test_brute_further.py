"""The brute force reaches optima worked out by hand for what a household may add to the plain question.

Each case is a week small enough to settle on paper; the argument stands beside it. A meal out costs 300 and
rice 10 cents for the 100 g of one standard portion, unless the case says otherwise. A plan that reaches the optimum
is put before the judge, who must let it stand at the same cost.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.paper_weeks import CORNER, PORTION, boxes, cents, days_of, rules, stew, week

from ladleworth.decide.question import (
    Additions,
    CookSession,
    DishChoice,
    Foodstuff,
    Load,
    PackageOffer,
    PortionLot,
    Question,
    Version,
)
from ladleworth.decide.rules import ContainerSize, MustBuy


def volume(dish: DishChoice, ml: int) -> DishChoice:
    return replace(dish, versions=tuple(replace(v, volume_ml=ml) for v in dish.versions))


# -- appetites ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ada", "ben", "expected"),
    [
        ((1, 1), (1, 1), 20),  # 2 portions
        ((1, 2), (1, 2), 10),  # together 1
        ((1, 2), (3, 4), 20),  # 1.25, rounded up
        ((3, 2), (3, 2), 30),  # 3
        ((3, 2), (3, 4), 30),  # 2.25, rounded up
        ((1, 3), (2, 3), 10),  # together 1
    ],
)
def test_a_batch_is_as_large_as_the_appetites_it_feeds_rounded_up(
    ada: tuple[int, int], ben: tuple[int, int], expected: int
) -> None:
    question = week(
        slots=(*days_of(1), *days_of(1, eater="Ben")),
        appetites={"Ada": Fraction(*ada), "Ben": Fraction(*ben)},
    )
    assert cents(question) == expected


def test_a_whole_portion_over_needs_a_reserve_and_part_of_one_does_not() -> None:
    # At least 2 portions and Ada eats half of one: one and a half are over, a whole one of them. 300 without a
    # reserve; 20 with one. Where she eats three quarters of one, with least 1, nothing whole is over: 10.
    dish = stew(least=2, freezer_days=30)
    small = {"Ada": Fraction(1, 2)}
    assert cents(week(dishes=(dish,), appetites=small)) == 300
    reserve = Additions(reserve_portions=1)
    assert cents(week(dishes=(dish,), appetites=small, additions=reserve)) == 20
    assert cents(week(dishes=(stew(),), appetites={"Ada": Fraction(3, 4)})) == 10


def test_a_batch_may_be_too_small_for_a_large_appetite() -> None:
    # At most one portion, and Ada eats one and a half.
    assert cents(week(dishes=(stew(greatest=1),), appetites={"Ada": Fraction(3, 2)})) == 300


# -- batches split between versions -------------------------------------------------------------------


def split_week(most_versions: int, **fields: object) -> Question:
    """Ada and Ben on day 1; Ben may not have the meat (10 a portion), and beans cost 50."""
    dish = DishChoice(
        "stew",
        (
            Version("with meat", {"meat": Fraction(PORTION)}, Fraction(4), barred=frozenset({"Ben"})),
            Version("with beans", {"beans": Fraction(PORTION)}, Fraction(4)),
        ),
        most_versions=most_versions,
        shared_min=Fraction(7),
        **{"least": 1} | fields,  # type: ignore[arg-type]
    )
    return week(
        slots=(*days_of(1), *days_of(1, eater="Ben")),
        dishes=(dish,),
        foods=(Foodstuff("meat", keep_days=2), Foodstuff("beans")),
        offers=(
            PackageOffer("meat at corner", "meat", "corner", PORTION, 10),
            PackageOffer("beans at corner", "beans", "corner", PORTION, 50),
        ),
    )


@pytest.mark.parametrize(("most_versions", "expected"), [(1, 100), (2, 60)])
def test_a_batch_may_be_split_so_that_half_of_it_suits_who_has_no_meat(
    most_versions: int, expected: int
) -> None:
    assert cents(split_week(most_versions)) == expected


def test_least_and_greatest_go_by_both_halves_of_a_split_together() -> None:
    # At least 2: one and one will do. At most 1: one of the two goes out, 10 + 300.
    assert cents(split_week(2, least=2)) == 60
    assert cents(split_week(2, greatest=1)) == 310


@pytest.mark.parametrize(("minutes", "expected"), [(15, 60), (14, 100), (11, 100), (10, 600)])
def test_what_the_versions_share_is_spent_once_and_the_rest_for_each(minutes: int, expected: int) -> None:
    # 7 for the dish and 4 for each version: 15 for two versions, 11 for one.
    question = replace(split_week(2), sessions=(CookSession(1, minutes),))
    assert cents(question) == expected


def test_shared_minutes_are_priced_once_a_session() -> None:
    # One portion, 7 shared and 4 of its own at 2 cents: 10 + 22.
    question = replace(
        split_week(2), slots=days_of(1), additions=Additions(minute_cents=Fraction(2)), shops=(CORNER,)
    )
    assert cents(question) == 32


# -- stations and the price of a session --------------------------------------------------------------


@pytest.mark.parametrize(("oven", "expected"), [(30, 20), (29, 10 + 300), (19, 600)])
def test_oven_minutes_bound_the_batch(oven: int, expected: int) -> None:
    # 10 minutes and 10 a portion: two portions take 30, one takes 20. The hob is not limited here.
    dish = stew()
    loads = {"oven": Load(Fraction(10), Fraction(10)), "hob": Load(Fraction(900))}
    loaded = replace(dish, versions=(replace(dish.versions[0], loads=loads),))
    question = week(
        slots=days_of(1, 2), dishes=(loaded,), sessions=(CookSession(1, 60, {"oven": oven, "grill": 0}),)
    )
    assert cents(question) == expected


@pytest.mark.parametrize(("price", "expected"), [(0, 20), (289, 10 + 299), (290, 310), (291, 310)])
def test_a_session_is_held_only_if_it_is_worth_its_price(price: int, expected: int) -> None:
    # Day 2's stew cannot be cooked on day 1 (it keeps a day): 10 and the price of day 2, or 300.
    question = week(
        slots=days_of(1, 2),
        sessions=(CookSession(1, 60), CookSession(2, 60, cents=price)),
        dishes=(stew(keep_days=1),),
    )
    assert cents(question) == expected


def test_shopping_alone_does_not_hold_a_session() -> None:
    # Rice is at hand on day 2 only by buying on day 1, where a session would cost 500 if one cooked.
    question = week(
        slots=days_of(2),
        sessions=(CookSession(1, 60, cents=500), CookSession(2, 60)),
        dishes=(stew(keep_days=1),),
        wishes=(MustBuy(1, "rice at corner", 1),),
    )
    assert cents(question) == 10


# -- portions on hand ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lot", "expected"),
    [
        (boxes(), 0),  # worth 5: eaten, and the stew (10) is not cooked
        (boxes(cents=25), 10 - 25),  # kept for later, and the stew cooked
        (boxes(cents=25, last_day=3), 0),  # it would spoil
        (boxes(cents=25, last_day=4), 10 - 25),  # it outlives the days
        (boxes(cents=25, last_day=1), 10 + 25),  # gone before day 2
        (boxes(first_day=3), 10 - 5),  # not thawed by day 2
        (boxes(first_day=2, frozen=True), 0),
        (boxes(barred=frozenset({"Ada"})), 10 - 5),
        (boxes(barred=frozenset({"Ben"})), 0),
        (boxes(meals=frozenset({"lunch"})), 10 - 5),
        (boxes(meals=frozenset({"supper"})), 0),
        (boxes(portions=4, cents=100, last_day=3), 75),  # three of four spoil
        (boxes(portions=4, cents=20), -15),  # three of four are carried
    ],
)
def test_portions_on_hand_are_eaten_or_carried_or_spoil(lot: PortionLot, expected: int) -> None:
    assert cents(week(slots=days_of(2), portions=(lot,))) == expected


def test_a_container_on_hand_is_one_helping_whatever_the_appetite() -> None:
    question = week(slots=days_of(1, 2), dishes=(), portions=(boxes(),), appetites={"Ada": Fraction(2)})
    assert cents(question) == 300


def test_portions_on_hand_count_for_sameness_by_their_dish() -> None:
    # Stew from a box worth nothing on one day, and stew cooked on the other; once is the most: out, 300.
    lot = boxes(dish="stew", cents=0)
    fields: dict[str, object] = {"slots": days_of(1, 2), "portions": (lot,)}
    assert cents(week(**fields)) == 10
    assert cents(week(rules=rules(most_times=1), **fields)) == 300
    assert cents(week(rules=rules(in_a_row=1), **fields)) == 300
    assert cents(week(additions=Additions(repeat_cents=7), **fields)) == 17


@pytest.mark.parametrize(("last_day", "expected"), [(None, 300), (3, 300), (2, 10 + 30), (1, 10 + 30)])
def test_a_box_on_hand_takes_a_container_until_it_is_eaten_or_thrown_out(
    last_day: int | None, expected: int
) -> None:
    # One container. The box of 30 is barred to Ada and waits; her stew, cooked on day 2 for day 3, needs the
    # container on night 2. On the evening of day 2 a box with last day 2 is thrown out.
    lot = boxes(cents=30, last_day=last_day, barred=frozenset({"Ada"}))
    question = week(
        slots=days_of(3), sessions=(CookSession(2, 60),), portions=(lot,), rules=rules(containers=1)
    )
    assert cents(question) == expected + {None: -30, 3: 30}.get(last_day, 0)


@pytest.mark.parametrize(("places", "expected"), [(1, 0), (0, None)])
def test_a_frozen_box_lies_in_the_freezer_until_the_evening_before(places: int, expected: int | None) -> None:
    # A box for day 3 lies in the freezer on night 1, and thaws on night 2. It cannot be wished away.
    question = week(
        slots=days_of(3),
        dishes=(),
        portions=(boxes(frozen=True, first_day=2),),
        rules=rules(freezer_places=places),
    )
    assert cents(question) == expected


# -- room -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("load", "expected"), [(0, 600), (1, 310), (2, 20)])
def test_only_so_many_portions_freeze_on_a_day(load: int, expected: int) -> None:
    question = week(
        days=4,
        slots=days_of(3, 4),
        dishes=(stew(keep_days=1, freezer_days=30),),
        rules=rules(freezing_load=load),
    )
    assert cents(question) == expected


@pytest.mark.parametrize(("load", "expected"), [(0, 10), (1, 20 - 40), (2, 30 - 80)])
def test_a_reserve_freezes_on_its_cooking_day_too(load: int, expected: int) -> None:
    question = week(
        dishes=(stew(freezer_days=30),),
        rules=rules(freezing_load=load),
        additions=Additions(reserve_portions=2, reserve_cents=40),
    )
    assert cents(question) == expected


@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        (((500, 2),), 30),
        (((500, 1), (400, 1)), 30),  # both hold 400 ml
        (((500, 1), (399, 9)), 20 + 300),  # only one is large enough
        (((500, 1),), 20 + 300),
        (((399, 9),), 10 + 600),
    ],
)
def test_each_portion_waits_in_a_container_that_is_large_enough(
    sizes: tuple[tuple[int, int], ...], expected: int
) -> None:
    # Days 1 to 3: two portions of 400 ml wait on night 1.
    question = week(
        slots=days_of(1, 2, 3),
        dishes=(volume(stew(), 400),),
        rules=rules(in_a_row=None, container_sizes=tuple(ContainerSize(*size) for size in sizes)),
    )
    assert cents(question) == expected


def test_a_small_appetite_fits_a_small_container() -> None:
    # Half of 401 ml is 200.5 ml, 201 ml in whole ones.
    def tried(capacity: int) -> Fraction | None:
        sizes = (ContainerSize(capacity, 1),)
        half = {"Ada": Fraction(1, 2)}
        return cents(
            week(
                slots=days_of(2),
                dishes=(volume(stew(), 401),),
                rules=rules(container_sizes=sizes),
                appetites=half,
            )
        )

    assert tried(201) == 10
    assert tried(200) == 300


@pytest.mark.parametrize(
    ("fridge_ml", "freezer_days", "expected"),
    [
        (800, None, 20),
        (799, None, 10 + 300),
        (799, 30, 20),  # the portion of day 3 is frozen, though it would keep
        (400, 30, 20),
        (399, 30, 600),  # thawing takes the fridge on night 2, and day 2's portion on night 1
    ],
)
def test_where_the_fridge_is_short_portions_are_frozen_that_would_keep(
    fridge_ml: int, freezer_days: int | None, expected: int
) -> None:
    # Cooked on day 1 for days 2 and 3, 400 ml each.
    question = week(
        slots=days_of(2, 3),
        dishes=(volume(stew(freezer_days=freezer_days), 400),),
        rules=rules(fridge_ml=fridge_ml),
    )
    assert cents(question) == expected


@pytest.mark.parametrize(("freezer_ml", "expected"), [(800, 20), (799, 10 + 300), (399, 600)])
def test_frozen_portions_take_room_in_the_freezer(freezer_ml: int, expected: int) -> None:
    question = week(
        days=4,
        slots=days_of(3, 4),
        dishes=(volume(stew(keep_days=1, freezer_days=30), 400),),
        rules=rules(freezer_ml=freezer_ml),
    )
    assert cents(question) == expected
