from __future__ import annotations

from dataclasses import FrozenInstanceError, replace
from fractions import Fraction

import pytest
from tests.model.planted_week import PLAN
from tests.unit.decide.weeks import PORTION, RICE, pack, sessions, slots, stew, week

from ladleworth.decide import (
    Additions,
    Answer,
    Costs,
    DishChoice,
    Foodstuff,
    Helping,
    HouseRules,
    PackageOffer,
    ShopVisit,
    Status,
    StockLot,
    Version,
)
from ladleworth.decide.goods import PortionLot
from ladleworth.decide.question import MOST_VERSIONS, CookSession, Load
from ladleworth.decide.rules import (
    ContainerSize,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
)
from ladleworth.errors import BadField

NO_SOURCE = "a helping has a dish and either its cooking day or its lot, or none of them"
BOX = PortionLot("box", "soup", 2, 50)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Foodstuff("rice", keep_days=0), "rice: keep_days must be 1 or more"),
        (lambda: StockLot("old", "rice", 0, 5), "lot old: the quantity must be above 0"),
        (lambda: StockLot("old", "rice", 5, -1), "lot old: the cents must not be negative"),
        (lambda: pack(5, quantity=0), "offer rice pack: the quantity must be above 0"),
        (lambda: pack(-1), "offer rice pack: the price must not be negative"),
        (lambda: pack(1, most=-1), "offer rice pack: most must not be negative"),
        (lambda: ShopVisit("corner", -1), "shop corner: the trip cost must not be negative"),
        (lambda: sessions(1, minutes=-1), "session on day 1: minutes must not be negative"),
        (lambda: stew(fixed_min=Fraction(-1)), "plain: minutes must not be negative"),
        (lambda: stew(per_portion_min=Fraction(-1, 2)), "plain: minutes must not be negative"),
        (lambda: stew({"rice": 0}), "plain: the amount of rice must be above 0"),
        (lambda: DishChoice("stew", ()), "dish stew: at least one version is needed"),
        (lambda: stew(least=0), "dish stew: 1 <= least <= greatest does not hold"),
        (lambda: stew(least=9), "dish stew: 1 <= least <= greatest does not hold"),
        (lambda: stew(keep_days=0), "dish stew: keep_days must be 1 or more"),
        (lambda: stew(freezer_days=0), "dish stew: freezer_days must be 1 or more"),
        (
            lambda: DishChoice("stew", (Version("a", {}),) * 2),
            "version of dish stew 'a' stands there more than",
        ),
        (
            lambda: DishChoice("stew", tuple(Version(str(n), {}) for n in range(MOST_VERSIONS + 1))),
            "dish stew: 65 combinations of swaps are more than 64",
        ),
        (lambda: HouseRules(containers=-1), "containers must not be negative"),
        (lambda: HouseRules(freezer_places=-1), "freezer_places must not be negative"),
        (lambda: HouseRules(budget_cents=-1), "budget_cents must not be negative"),
        (lambda: HouseRules(meal_out_cents=-1), "meal_out_cents must not be negative"),
        (lambda: HouseRules(in_a_row=0), "in_a_row must be 1 or more"),
        (lambda: HouseRules(most_times=0), "most_times must be 1 or more"),
        (lambda: Additions(repeat_cents=-1), "repeat_cents must not be negative"),
        (lambda: Additions(minute_cents=Fraction(-1)), "minute_cents must not be negative"),
        (lambda: Additions(reserve_portions=-1), "reserve_portions must not be negative"),
        (lambda: Additions(reserve_cents=-1), "reserve_cents must not be negative"),
        (lambda: Additions(carried_share=Fraction(11, 10)), "carried_share must be from 0 to 1"),
        (lambda: Additions(carried_share=Fraction(-1, 10)), "carried_share must be from 0 to 1"),
        (lambda: Helping(1, "Ada", "supper", "stew"), NO_SOURCE),
        (lambda: Helping(1, "Ada", "supper", frozen=True), NO_SOURCE),
        (lambda: Helping(1, "Ada", "supper", cooked_day=1), NO_SOURCE),
        (lambda: Helping(1, "Ada", "supper", lot="box"), NO_SOURCE),
        (lambda: Helping(1, "Ada", "supper", "stew", 1, lot="box"), NO_SOURCE),
        (lambda: CookSession(1, 60, cents=-1), "session on day 1: the price must not be negative"),
        (lambda: CookSession(1, 60, {"oven": -1}), "session on day 1: oven minutes must not be negative"),
        (lambda: Load(Fraction(-1)), "station minutes must not be negative"),
        (lambda: Load(per_portion_min=Fraction(-1, 9)), "station minutes must not be negative"),
        (lambda: Version("plain", {}, volume_ml=-1), "plain: volume_ml must not be negative"),
        (lambda: stew(most_versions=0), "dish stew: most_versions must be 1 or more"),
        (lambda: stew(shared_min=Fraction(-1, 2)), "dish stew: shared_min must not be negative"),
        (lambda: PortionLot("box", "stew", 0, 5), "portions box: there must be at least 1"),
        (lambda: PortionLot("box", "stew", 1, -1), "portions box: the cents must not be negative"),
        (lambda: PortionLot("box", "stew", 1, 5, first_day=0), "portions box: first_day must be 1 or more"),
        (
            lambda: PortionLot("box", "stew", 1, 5, volume_ml=-1),
            "portions box: volume_ml must not be negative",
        ),
        (lambda: ContainerSize(0, 3), "a container must hold more than 0 ml"),
        (lambda: ContainerSize(500, -1), "containers of 500 ml: the count must not be negative"),
        (
            lambda: NutrientBound("Ada", "fibre", Fraction(3), Fraction(2)),
            "Ada: fibre has a least above its most",
        ),
        (lambda: HouseRules(span_days=0), "span_days must be 1 or more"),
        (lambda: HouseRules(freezing_load=-1), "freezing_load must not be negative"),
        (lambda: HouseRules(fridge_ml=-1), "fridge_ml must not be negative"),
        (lambda: HouseRules(freezer_ml=-1), "freezer_ml must not be negative"),
        (
            lambda: HouseRules(container_sizes=(ContainerSize(500, 1), ContainerSize(500, 2))),
            "containers of '500' stands there more than once",
        ),
        (
            lambda: HouseRules(nutrient_bounds=(NutrientBound("Ada", "fibre"),) * 2),
            "nutrient bound 'Ada fibre' stands there more than once",
        ),
        (
            lambda: NutrientBound("Ada", "fresh", Fraction(3, 2), share=True),
            "Ada: a share of helpings (fresh) must be from 0 to 1",
        ),
        (
            lambda: NutrientBound("Ada", "fresh", most=Fraction(-1, 2), share=True),
            "Ada: a share of helpings (fresh) must be from 0 to 1",
        ),
        (lambda: MustCook("stew", portions=0), "a wish to cook stew: the portions must be above 0"),
        (lambda: MustCook("stew", 1, None, -2), "a wish to cook stew: the portions must be above 0"),
        (lambda: MustUse("old rice", 0), "a wish to use old rice: the quantity must be above 0"),
        (lambda: MustUse("old rice", -5), "a wish to use old rice: the quantity must be above 0"),
        (lambda: MustBuy(1, "rice pack", 0), "a wish to buy rice pack: the packages must be above 0"),
        (lambda: MustBuy(1, "rice pack", -1), "a wish to buy rice pack: the packages must be above 0"),
    ],
)
def test_a_record_is_checked_when_it_is_made(make: object, said: str) -> None:
    with pytest.raises(BadField) as raised:
        make()  # type: ignore[operator]
    assert said in str(raised.value)


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"days": 0, "slots": (), "sessions": ()}, "there must be at least one day"),
        ({"slots": slots(1, 1)}, "slot 'Ada supper day 1' stands there more than once"),
        ({"slots": slots(4)}, "slot day 4 is outside 1..3"),
        ({"slots": slots(0)}, "slot day 0 is outside 1..3"),
        ({"sessions": sessions(4)}, "session day 4 is outside 1..3"),
        ({"sessions": sessions(0)}, "session day 0 is outside 1..3"),
        ({"sessions": sessions(2, 2)}, "session on day '2' stands there more than once"),
        ({"dishes": (stew(), stew())}, "dish 'stew' stands there more than once"),
        ({"foods": (RICE, RICE)}, "food 'rice' stands there more than once"),
        ({"lots": (StockLot("a", "rice", 1, 1),) * 2}, "lot 'a' stands there more than once"),
        ({"offers": (pack(10), pack(10))}, "offer 'rice pack' stands there more than once"),
        ({"shops": (ShopVisit("corner"),) * 2}, "shop 'corner' stands there more than once"),
        ({"lots": (StockLot("a", "beans", 1, 1),)}, "lot a: no food is called 'beans'"),
        ({"offers": (pack(10, "beans"),)}, "offer beans pack: no food is called 'beans'"),
        ({"shops": ()}, "offer rice pack: no shop is called 'corner'"),
        ({"dishes": (stew({"beans": 1}),)}, "dish stew: no food is called 'beans'"),
        ({"portions": (BOX, BOX)}, "lot 'box' stands there more than once"),
        (
            {"portions": (BOX,), "lots": (StockLot("box", "rice", 1, 1),)},
            "lot 'box' stands there more than once",
        ),
        ({"appetites": {"Ada": Fraction(0)}}, "Ada: the appetite must be above 0"),
        ({"appetites": {"Ada": Fraction(-1, 2)}}, "Ada: the appetite must be above 0"),
        ({"appetites": {"Ben": Fraction(1)}}, "an appetite is given for 'Ben', who has no slot"),
        ({"slots": (), "appetites": {"Ada": Fraction(2)}}, "an appetite is given for 'Ada', who has no slot"),
        (
            {"rules": HouseRules(nutrient_bounds=(NutrientBound("Ben", "fibre", Fraction(1)),))},
            "fibre: 'Ben' has a bound, and no slot",
        ),
        ({"wishes": (MustCook("bake"),)}, "a wish names 'bake', which is no dish"),
        ({"wishes": (MustNotCook("bake", 1),)}, "a wish names 'bake', which is no dish"),
        ({"wishes": (MustCook("stew", 1, "rich"),)}, "stew has no version 'rich'"),
        ({"wishes": (MustNotCook("stew", version="rich"),)}, "stew has no version 'rich'"),
        ({"wishes": (MustCook("soup"),), "portions": (BOX,)}, "a wish names 'soup', which is no dish"),
        ({"wishes": (MustUse("rice", 1),)}, "a wish names 'rice', which is no lot on hand"),
        ({"wishes": (MustServe(2, "Ada", "supper", None),)}, "Ada has no supper on day 2"),
        ({"wishes": (MustServe(1, "Ada", "lunch", "stew"),)}, "Ada has no lunch on day 1"),
        ({"wishes": (MustServe(1, "Ben", "supper", "stew"),)}, "Ben has no supper on day 1"),
        ({"wishes": (MustServe(1, "Ada", "supper", "soup"),)}, "a wish names 'soup', which is no dish"),
        ({"wishes": (MustBuy(1, "beans pack", 1),)}, "no offer is called 'beans pack'"),
    ],
)
def test_what_records_say_of_each_other_is_checked_in_the_question(
    fields: dict[str, object], said: str
) -> None:
    with pytest.raises(BadField) as raised:
        week(**fields)
    assert said in str(raised.value)


def test_limits_of_nothing_and_a_share_of_nothing_are_limits_all_the_same() -> None:
    none = HouseRules(containers=0, freezer_places=0, budget_cents=0, meal_out_cents=0)
    assert none != HouseRules()
    assert Additions(carried_share=Fraction(0)) != Additions()
    assert PackageOffer("a", "rice", "corner", 1, 0, 0).most == 0


def test_records_and_the_needs_in_them_cannot_be_changed() -> None:
    needs = {"rice": Fraction(PORTION)}
    version = Version("plain", needs)
    needs["rice"] = Fraction(1)
    assert version.needs["rice"] == PORTION
    with pytest.raises(TypeError):
        version.needs["rice"] = Fraction(1)  # type: ignore[index]
    with pytest.raises(FrozenInstanceError):
        version.name = "rich"  # type: ignore[misc]


def test_foods_and_dishes_are_found_by_name_and_eaters_in_the_order_they_appear() -> None:
    question = week(slots=(*slots(2, eater="Ben"), *slots(1, 2), *slots(1, eater="Ben")))
    assert question.food("rice") is RICE
    assert question.dish("stew").name == "stew"
    assert question.eaters == ("Ben", "Ada")
    assert week(slots=()).eaters == ()


def test_wishes_for_what_there_is_are_taken() -> None:
    wishes = (
        MustCook("stew", 2, "plain", 3),
        MustNotCook("stew", 1),
        MustUse("box", 1),
        MustUse("old rice", 5),
        MustServe(1, "Ada", "supper", "soup"),
        MustServe(1, "Ada", "supper", "stew"),
        MustServe(1, "Ada", "supper", None),
        MustBuy(3, "rice pack", 2),
    )
    lots = (StockLot("old rice", "rice", 10, 10),)
    assert week(portions=(BOX,), lots=lots, wishes=wishes).wishes == wishes


def test_who_has_no_slot_left_has_no_appetite_and_no_bounds_left() -> None:
    bounds = (
        NutrientBound("Ada", "fibre", Fraction(1)),
        NutrientBound("Ben", "fresh", Fraction(1), share=True),
    )
    both = week(
        slots=(*slots(1), *slots(2, eater="Ben")),
        appetites={"Ada": Fraction(1, 2), "Ben": Fraction(2)},
        rules=HouseRules(nutrient_bounds=bounds, containers=3),
    )
    left = both.only(slots(2, eater="Ben"))
    assert (left.eaters, dict(left.appetites)) == (("Ben",), {"Ben": 2})
    assert left.rules == HouseRules(nutrient_bounds=bounds[1:], containers=3)
    assert both.only(both.slots) == both
    assert both.only(()).rules.nutrient_bounds == ()


@pytest.mark.parametrize(
    ("bound", "said"),
    [
        (NutrientBound("Wanda", "fresh", Fraction(1, 2), share=True), "fresh in at least 50 % of Wanda's helpings"),
        (NutrientBound("Wanda", "crunch", most=Fraction(1, 3), share=True), "crunch in at most 33.33 % of Wanda's helpings"),
        (
            NutrientBound("Wanda", "colour", Fraction(1, 4), Fraction(1), share=True),
            "colour in at least 25 % and at most 100 % of Wanda's helpings",
        ),
        (NutrientBound("Ada", "protein", Fraction(49, 2)), "protein at least 24.5 on average over Ada's helpings"),
    ],
)  # fmt: skip
def test_a_bound_says_itself_in_words(bound: NutrientBound, said: str) -> None:
    assert str(bound) == said


def test_what_a_figure_is_multiplied_by_is_the_appetite_but_for_a_share() -> None:
    question = week(appetites={"Ada": Fraction(3, 4)})
    assert question.counted(NutrientBound("Ada", "protein")) == Fraction(3, 4)
    assert question.counted(NutrientBound("Ada", "fresh", share=True)) == 1


def test_an_appetite_is_one_unless_it_is_named() -> None:
    question = week(slots=(*slots(1), *slots(1, eater="Ben")), appetites={"Ben": Fraction(3, 4)})
    assert question.appetite("Ada") == 1
    assert question.appetite("Ben") == Fraction(3, 4)


@pytest.mark.parametrize(
    ("days", "length", "spans"),
    [
        (3, None, (range(1, 4),)),
        (3, 3, (range(1, 4),)),
        (3, 7, (range(1, 4),)),
        (5, 2, (range(1, 3), range(3, 5), range(5, 6))),
        (2, 1, (range(1, 2), range(2, 3))),
    ],
)
def test_days_fall_into_spans_from_the_first_on_and_the_last_may_be_shorter(
    days: int, length: int | None, spans: tuple[range, ...]
) -> None:
    question = week(days=days, rules=HouseRules(span_days=length))
    assert question.spans() == spans


def test_a_load_grows_by_the_portion() -> None:
    assert Load(Fraction(10), Fraction(5, 2)).minutes(3) == Fraction(35, 2)
    assert Load().minutes(8) == 0


def test_portions_on_hand_suit_the_meals_they_name_or_all() -> None:
    assert BOX.suits("tea")
    assert not replace(BOX, meals=frozenset({"lunch"})).suits("tea")


def test_a_dish_suits_the_meals_it_names_or_all() -> None:
    assert stew().suits("tea")
    lunch = stew(meals=frozenset({"lunch"}))
    assert (lunch.suits("lunch"), lunch.suits("tea")) == (True, False)
    assert not stew(meals=frozenset()).suits("tea")


def test_what_is_carried_and_in_reserve_counts_against_the_cost() -> None:
    ones = Costs(*map(Fraction, (1, 2, 4, 8, 16, 32, 64, 128, 256, 512)))
    assert ones.total == 1 + 2 + 4 + 8 - 16 + 32 + 64 + 128 - 256 + 512


def test_the_gap_is_what_the_plan_may_cost_too_much_and_never_below_nothing() -> None:
    answer = Answer(Status.GOOD, PLAN, Costs(tills=Fraction(90)), 60.0, 1.0, "none needed")
    assert answer.gap_cents == 30
    assert replace(answer, bound=90.5).gap_cents == 0
    assert replace(answer, bound=None).gap_cents is None
    assert replace(answer, costs=None).gap_cents is None
