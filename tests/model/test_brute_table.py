"""The brute force reaches optima worked out by hand for sameness, exclusions, minutes, sizes and additions.

As in `test_brute_force.py`; and the search itself: the cheapest draws, and what its plans cost.
"""

from __future__ import annotations

import itertools
import random
from fractions import Fraction

import pytest
from tests.model.brute_food import Source, cheapest_draws
from tests.model.brute_force import best
from tests.model.paper_weeks import PORTION, RICE, RICE_OFFER, days_of, rules, stew, week
from tests.model.plan_cost import cost_of, total_of
from tests.model.small_kitchens import KITCHENS, small_kitchen
from tests.model.tried_out import tried_out

from ladleworth.decide.question import (
    Additions,
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    PackageOffer,
    Question,
    Version,
)

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
