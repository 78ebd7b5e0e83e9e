"""Each rule alone, through the whole decision: where it does not matter, where it does, and just at its limit.

Every optimum is argued in the comment beside it, and trying everything has to agree. Where a rule matters,
the same week without it is decided too: its plan has to be worth having and the judge has to refuse it, for
that rule and no other, in the week with the rule. A meal out costs 300 and the rice of a portion 10.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.decided import cost, refused
from tests.unit.decide.weeks import BEANS, PORTION, RICE, pack, rules, sessions, slots, stew, week

from ladleworth.decide import Additions, DishChoice, Foodstuff, HouseRules, Question, Status, Version, decide

# -- rule 1: slots, meals, portions -------------------------------------------------------------------


def test_a_slot_takes_a_portion_or_a_meal_out_where_the_household_eats_out() -> None:
    # The dish costs 301, a meal out 300. Nobody eats out: 301. Ignored: 300.
    dear = week(offers=(pack(301),))
    at_home = replace(dear, rules=HouseRules())
    assert cost(week()) == 10
    assert cost(at_home) == 301
    assert refused(at_home, ignoring=dear) == "slots"
    # At 300 both are as good; at 299 the dish is better.
    assert cost(week(offers=(pack(300),))) == 300
    assert cost(week(offers=(pack(299),))) == 299


def test_every_portion_cooked_is_eaten_unless_a_reserve_is_allowed() -> None:
    # Batches of two at least and one slot: the second portion would be left over, so the slot goes out (300).
    # With one portion of reserve, worth nothing: two portions, 20. Batches of one: 10.
    dish = stew(least=2, freezer_days=30)
    strict, with_reserve = week(dishes=(dish,)), week(dishes=(dish,), additions=Additions(reserve_portions=1))
    assert cost(week(dishes=(replace(dish, least=1),))) == 10
    assert cost(strict) == 300
    assert refused(strict, ignoring=with_reserve) == "portions"
    assert cost(with_reserve) == 20
    # Two slots take the two portions without a reserve.
    assert cost(replace(strict, slots=slots(1, 2))) == 20


@pytest.mark.parametrize(("freezer_days", "cents"), [(3, 10), (4, 10 - 30)])
def test_a_reserve_has_to_outlive_the_days(freezer_days: int, cents: int) -> None:
    # A second portion costs 10 and is worth 40 if it is left. Day 4 is the first after the three days, so the
    # portion of day 1 has to keep for four days.
    question = week(
        dishes=(stew(freezer_days=freezer_days),),
        additions=Additions(reserve_portions=1, reserve_cents=40),
    )
    assert cost(question) == cents


def test_a_dish_goes_only_to_the_meals_that_it_suits() -> None:
    # Lunch and supper on day 1; porridge (10) is for lunch only, so supper goes out: 310. Ignored: 20.
    both = (*slots(1), *slots(1, meal="lunch"))
    porridge = stew(meals=frozenset({"lunch"}))
    strict, free = week(slots=both, dishes=(porridge,)), week(slots=both)
    assert cost(week(slots=slots(1, meal="lunch"), dishes=(porridge,))) == 10
    assert cost(strict) == 310
    assert refused(strict, ignoring=free) == "meals"
    # Lunch for porridge and supper for stew at 50: 60.
    both_dishes = (porridge, stew({"beans": PORTION}, name="stew of beans"))
    full = week(
        slots=both,
        dishes=tuple(replace(d, name=f"{n}") for n, d in enumerate(both_dishes)),
        foods=(RICE, BEANS),
        offers=(pack(10), pack(50, "beans")),
    )
    assert cost(full) == 60


def test_dishes_for_some_meals_fit_together_only_if_no_set_of_them_wants_too_few_slots() -> None:
    # Breakfast, lunch and supper of one day. Two dishes for breakfast or lunch, one for lunch alone, once each:
    # the three want two slots between them, so one stays in the pot. Rice 10, beans 20, lentils 30 a portion:
    # the two cheapest are had and supper goes out, 10 + 20 + 300. If the last may also go to supper: 60.
    foods = ("rice", "beans", "lentils")

    def three(*last: str) -> Question:
        meals = (("breakfast", "lunch"), ("breakfast", "lunch"), last)
        return week(
            slots=tuple(s for m in ("breakfast", "lunch", "supper") for s in slots(1, meal=m)),
            dishes=tuple(
                stew({food: PORTION}, name=f"{food} dish", meals=frozenset(suits))
                for food, suits in zip(foods, meals, strict=True)
            ),
            foods=tuple(map(Foodstuff, foods)),
            offers=tuple(pack(10 * n, food) for n, food in enumerate(foods, 1)),
            rules=rules(most_times=1),
        )

    assert cost(three("lunch")) == 330
    assert cost(three("lunch", "supper")) == 60
    assert refused(three("lunch"), ignoring=three("lunch", "supper")) == "meals"


def test_many_different_sets_of_meals_on_one_day_find_their_slots() -> None:
    # Four meals, and a dish at 50 for each set of them but the full one and {breakfast, lunch, tea}. Four more at
    # 10: two for breakfast or lunch, two for lunch or tea. No single set is overfilled by all four of these, but
    # together they want three slots. So three of them and a dish at 50 for supper: 80.
    meals = ("breakfast", "lunch", "tea", "supper")
    every = [frozenset(m for bit, m in enumerate(meals) if n >> bit & 1) for n in range(1, 15) if n != 7]
    dear = [stew({"beans": PORTION}, name=f"for {sorted(suits)}", meals=suits) for suits in every]
    cheap = [
        stew(name=f"{suits[0]} {number}", meals=frozenset(suits))
        for suits in (("breakfast", "lunch"), ("lunch", "tea"))
        for number in (1, 2)
    ]
    question = week(
        slots=tuple(s for m in meals for s in slots(1, meal=m)),
        dishes=(*dear, *cheap),
        foods=(RICE, BEANS),
        offers=(pack(10), pack(50, "beans")),
        rules=rules(most_times=1),
    )
    answer = decide(question)
    assert answer.status is Status.PROVEN
    assert answer.costs is not None
    assert answer.costs.total == 80


# -- rule 2: batches, minutes -------------------------------------------------------------------------


def test_a_batch_has_at_most_its_greatest_number_of_portions() -> None:
    # Three slots, at most two portions: one meal out, 20 + 300. Ignored: 30.
    three = week(slots=slots(1, 2, 3))
    small = week(slots=slots(1, 2, 3), dishes=(stew(greatest=2),))
    assert cost(three) == 30
    assert cost(small) == 320
    assert refused(small, ignoring=three) == "batches"
    assert cost(week(slots=slots(1, 2, 3), dishes=(stew(greatest=3),))) == 30


def test_a_batch_has_at_least_its_least_number_of_portions() -> None:
    # Two slots, three portions at least: both go out, 600. Ignored: 20. With a third slot: 30.
    large = week(slots=slots(1, 2), dishes=(stew(least=3),))
    assert cost(week(slots=slots(1, 2), dishes=(stew(least=2),))) == 20
    assert cost(large) == 600
    assert refused(large, ignoring=week(slots=slots(1, 2))) == "batches"
    assert cost(week(slots=slots(1, 2, 3), dishes=(stew(least=3),))) == 30


def two_versions(meal_out_cents: int) -> Question:
    """Meat at 10, which Ben may not have, or beans at 50; both have supper on day 1."""
    dish = DishChoice(
        "stew",
        (
            Version("with meat", {"meat": Fraction(PORTION)}, barred=frozenset({"Ben"})),
            Version("with beans", {"beans": Fraction(PORTION)}),
        ),
    )
    return week(
        slots=(*slots(1), *slots(1, eater="Ben")),
        dishes=(dish,),
        foods=(Foodstuff("meat", keep_days=2), BEANS),
        offers=(pack(10, "meat"), pack(50, "beans")),
        rules=rules(meal_out_cents=meal_out_cents),
    )


def test_a_session_cooks_a_dish_once_in_one_version() -> None:
    # Beans for both: 100. Meat for Ada and a meal out for Ben: 10 + 300, or 10 + 60. Both versions at once would
    # be 60, but are two batches of one dish in one session; as two dishes they may be cooked together.
    assert cost(two_versions(300)) == 100
    assert cost(two_versions(60)) == 70
    (dish,) = two_versions(300).dishes
    apart = tuple(DishChoice(v.name, (v,)) for v in dish.versions)
    assert cost(replace(two_versions(300), dishes=apart)) == 60
    # At 90 for a meal out both ways cost 100.
    assert cost(two_versions(90)) == 100


def test_the_hands_on_minutes_of_a_session_suffice() -> None:
    # 10 minutes and 5 a portion; three portions take 25. With 24: two portions (20), one meal out.
    dish = stew(fixed_min=Fraction(10), per_portion_min=Fraction(5))

    def minutes(number: int) -> Question:
        return week(slots=slots(1, 2, 3), dishes=(dish,), sessions=sessions(1, minutes=number))

    assert cost(minutes(500)) == 30
    assert cost(minutes(24)) == 20 + 300
    assert refused(minutes(24), ignoring=minutes(500)) == "minutes"
    assert cost(minutes(25)) == 30
    assert cost(minutes(15)) == 10 + 600
    assert cost(minutes(14)) == 900


def test_minutes_of_thirds_add_up_to_whole_ones() -> None:
    # Three dishes of 20/3 minutes, once each, take 20 minutes exactly. With 19 only two are cooked.
    dishes = tuple(stew(name=f"dish {n}", fixed_min=Fraction(20, 3)) for n in range(3))

    def minutes(number: int) -> Question:
        return week(
            slots=slots(1, 2, 3),
            dishes=dishes,
            sessions=sessions(1, minutes=number),
            rules=rules(most_times=1),
        )

    assert cost(minutes(20)) == 30
    assert cost(minutes(19)) == 320
    assert refused(minutes(19), ignoring=minutes(20)) == "minutes"


def test_nothing_is_cooked_on_a_day_without_a_session() -> None:
    # Slots on days 1 and 2; a session on day 2 alone feeds day 2: 10 + 300. Ignored: 20.
    late, early = week(slots=slots(1, 2), sessions=sessions(2)), week(slots=slots(1, 2), sessions=sessions(1))
    assert cost(early) == 20
    assert cost(late) == 310
    assert refused(late, ignoring=early) == "names"
    # Cooking comes before the slots of its own day.
    assert cost(week(slots=slots(3), sessions=sessions(3))) == 10


# -- rule 3: keeping, freezing ------------------------------------------------------------------------


def test_a_chilled_portion_is_eaten_within_its_keeping_days() -> None:
    # Cooked on day 1 for day 3, which is day 3 of its age.
    def keeping(days: int) -> Question:
        return week(slots=slots(3), dishes=(stew(keep_days=days),))

    assert cost(keeping(10)) == 10
    assert cost(keeping(2)) == 300
    assert refused(keeping(2), ignoring=keeping(10)) == "keeping"
    assert cost(keeping(3)) == 10


def test_only_what_freezes_well_is_frozen() -> None:
    # Chilled for two days, wanted on day 3.
    dish = stew(keep_days=2)
    fresh, frozen = (week(slots=slots(3), dishes=(replace(dish, freezer_days=d),)) for d in (None, 30))
    assert cost(week(slots=slots(2), dishes=(dish,))) == 10
    assert cost(fresh) == 300
    assert refused(fresh, ignoring=frozen) == "freezing"
    assert cost(frozen) == 10


def test_a_frozen_portion_takes_a_night_to_freeze_and_a_day_to_thaw() -> None:
    # Chilled for one day, frozen for 30. Day 2: too early, so 300; day 3: 10. A session on day 2 helps: 10.
    dish = stew(keep_days=1, freezer_days=30)
    assert cost(week(slots=slots(2), dishes=(dish,))) == 300
    assert cost(week(slots=slots(3), dishes=(dish,))) == 10
    assert cost(week(slots=slots(2), dishes=(dish,), sessions=sessions(1, 2))) == 10


def test_a_frozen_portion_is_eaten_within_its_freezer_days() -> None:
    # Cooked on day 1 for day 5, which is day 5 of its age.
    def freezing(days: int) -> Question:
        dish = stew(keep_days=1, freezer_days=days)
        return week(days=5, slots=slots(5), dishes=(dish,))

    assert cost(freezing(60)) == 10
    assert cost(freezing(4)) == 300
    assert refused(freezing(4), ignoring=freezing(60)) == "freezing"
    assert cost(freezing(5)) == 10


# -- rule 4: containers, freezer places ---------------------------------------------------------------


def test_portions_wait_in_no_more_containers_than_there_are() -> None:
    # Three slots of day 1 and 2 and 3: two portions wait on the first night. One container: 20 + 300.
    def boxes(number: int | None) -> Question:
        return week(slots=slots(1, 2, 3), rules=rules(containers=number))

    assert cost(boxes(None)) == 30
    assert cost(boxes(1)) == 320
    assert refused(boxes(1), ignoring=boxes(None)) == "containers"
    assert cost(boxes(2)) == 30
    # Without any, the portion of day 1 is eaten from the pot: 10 + 600.
    assert cost(boxes(0)) == 610


def test_a_container_is_free_again_once_its_portion_is_eaten() -> None:
    # One container and sessions on days 1 and 2: day 2's portion waits on night 1, day 3's on night 2.
    question = week(slots=slots(1, 2, 3), sessions=sessions(1, 2), rules=rules(containers=1))
    assert cost(question) == 30


def test_frozen_portions_have_no_more_places_than_there_are() -> None:
    # Cooked on day 1 for days 3 and 4, chilled for one day: both are frozen on the first night.
    def places(number: int | None) -> Question:
        dish = stew(keep_days=1, freezer_days=30)
        return week(days=4, slots=slots(3, 4), dishes=(dish,), rules=rules(freezer_places=number))

    assert cost(places(None)) == 20
    assert cost(places(1)) == 310
    assert refused(places(1), ignoring=places(None)) == "freezer"
    assert cost(places(2)) == 20


def test_what_thaws_tonight_has_left_its_place_in_the_freezer() -> None:
    # One place, one minute a portion and a session: day 3's portion thaws on night 2, when day 4's goes in.
    question = week(
        days=4,
        slots=slots(3, 4),
        sessions=sessions(1, 2, minutes=1),
        dishes=(stew(keep_days=1, freezer_days=30, per_portion_min=Fraction(1)),),
        rules=rules(freezer_places=1),
    )
    assert cost(question) == 20
    # One day later each, and both are frozen on night 2: one of them goes out.
    late = replace(question, days=5, slots=slots(4, 5))
    assert cost(late) == 310


# -- rule 5: sameness, exclusions ---------------------------------------------------------------------


def test_nobody_has_a_dish_on_too_many_days_in_a_row() -> None:
    # Four days. Two in a row at most: days 1, 2 and 4: 30 + 300. One: two of the four days: 20 + 600.
    def run(days: int | None) -> Question:
        return week(days=4, slots=slots(1, 2, 3, 4), rules=rules(in_a_row=days))

    assert cost(run(None)) == 40
    assert cost(run(2)) == 330
    assert refused(run(2), ignoring=run(None)) == "sameness"
    assert cost(run(3)) == 330
    assert cost(run(4)) == 40
    assert cost(run(1)) == 620


def test_two_meals_of_a_day_are_one_day_in_a_row() -> None:
    # At most one day: lunch and supper of day 1 are stew, day 2 goes out: 320. If day 2 has both meals too: 620.
    lunch_too = (*slots(1, 2), *slots(1, meal="lunch"))
    assert cost(week(slots=lunch_too, rules=rules(in_a_row=1))) == 320
    four = (*lunch_too, *slots(2, meal="lunch"))
    assert cost(week(slots=four, rules=rules(in_a_row=1))) == 620


def test_nobody_has_a_dish_too_often() -> None:
    # Lunch and supper on two days. At most three times: one meal out.
    four = (*slots(1, 2), *slots(1, 2, meal="lunch"))

    def often(times: int | None) -> Question:
        return week(slots=four, rules=rules(most_times=times))

    assert cost(often(None)) == 40
    assert cost(often(3)) == 330
    assert refused(often(3), ignoring=often(None)) == "sameness"
    assert cost(often(4)) == 40
    # Each eater is counted alone.
    ben = tuple(replace(s, eater="Ben") if s.meal == "lunch" else s for s in four)
    assert cost(replace(often(2), slots=ben)) == 40


def test_an_exclusion_works_on_versions_and_a_swap_can_lift_it() -> None:
    # Meat (10) alone: Ben goes out, 310. Meat or beans (50): beans for both, 100. Barred to nobody: 20.
    both = two_versions(300)
    (dish,) = both.dishes
    meat = dish.versions[0]
    only_meat = replace(both, dishes=(replace(dish, versions=(meat,)),))
    for_all = replace(both, dishes=(replace(dish, versions=(replace(meat, barred=frozenset()),)),))
    assert cost(for_all) == 20
    assert cost(only_meat) == 310
    assert refused(only_meat, ignoring=for_all) == "exclusions"
    assert cost(both) == 100
