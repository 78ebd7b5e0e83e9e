from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from ladleworth.decide import (
    Additions,
    CookSession,
    Foodstuff,
    HouseRules,
    MealSlot,
    PackageOffer,
    Question,
    ShopVisit,
    StockLot,
    decide,
    judge,
    pose,
)
from ladleworth.errors import MissingFact
from ladleworth.household import Kitchen
from ladleworth.store import read_folder

PAPERS = {
    # 2026-12-06 is a Sunday
    "kitchen.yaml": """\
ladleworth: 1
name: Test house
currency: USD
start: 2026-12-06
days: 5
eaters:
  - name: Ada
  - name: Ben
    never: [milk]
  - name: Cem
    never: ["food: egg", "dish: Broth"]
slots:
  - meals: [lunch]
    eaters: [Ben]
    days: [2-3]
  - meals: [dinner]
    days: [1, 2]
sessions:
  - day: wednesday
    minutes: 1 h 15 min
  - day: sunday
    minutes: 90
shops:
  - name: Corner Shop
    trip: 0.50
  - name: Far Shop
    trip: 2
rules: {containers: 7, freezer_places: 3, budget: 40.05, meal_out: 7.50, in_a_row: none, most_times: 4, keep_days: 3}
additions: {repeat: 0.25, hour: 5, reserve: {portions: 2, worth: 1.50}, liking: {Bowl: 0.20, Broth: -0.10}}
""",
    "dishes.yaml": """\
- dish: Bowl
  portions: 4
  least: 2
  greatest: 6
  hands_on: {fixed: 15, per_portion: 2.5}
  freezer_days: 30
  meals: [dinner]
  parts:
    - part: base
      role: starch
      lines:
        - 1 kg barley groats
        - 2 l water
        - salt, to taste
        - 30 g barley groats
    - part: top
      role: protein
      swaps:
        - swap: egg
          lines: [6 eggs]
          hands_on: {fixed: 5}
        - swap: yogurt
          lines: [250 g house yogurt]
        - swap: without
          lines: []
- dish: Broth
  never: [Ada]
  keep_days: 2
  portions: 3
  lines: [100 g barley groats]
""",
    "foods.yaml": """\
- {food: barley groats, measured_in: grams, keep_days: durable, allergens: [], aisle: dry-goods}
- {food: house yogurt, measured_in: grams, keep_days: 6, allergens: [milk], aisle: dairy-and-eggs}
- {food: odd thing, measured_in: grams, keep_days: 3, allergens: []}
- {food: egg, keep_days: 21}
""",
    "stock.csv": """\
food,amount,cost,place,use_by,got
barley groats,300 g,0.45,cupboard,none,2026-11-20
egg,5,1.10,fridge,2026-12-08,2026-12-01
house yogurt,100 g,0.20,fridge,2026-12-05,2026-11-20
house yogurt,150 g,0.30,fridge,,2026-12-04
odd thing,50 g,0.10,fridge,2026-12-06,2026-12-05
""",
    "prices.csv": """\
shop,food,package,price,seen,most
Corner Shop,barley groats,500 g,0.99,2026-11-20,
Corner Shop,barley groats,500 g,1.09,2026-12-01,
Far Shop,barley groats,1 kg,1.79,2026-12-01,2
Market,egg,10,2.89,2026-12-01,
Corner Shop,house yogurt,500 g,1.50,2026-12-03,
Corner Shop,odd thing,500 g,1.50,2026-12-03,
""",
}


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    for name, text in PAPERS.items():
        (tmp_path / name).write_text(text, "utf-8")
    return read_folder(tmp_path).without_faults()


@pytest.fixture
def question(kitchen: Kitchen) -> Question:
    return pose(kitchen)


def test_days_are_numbered_from_the_start_and_slots_and_sessions_stand_in_their_order(
    question: Question,
) -> None:
    assert question.days == 5
    dinners = [MealSlot(day, eater, "dinner") for day in (1, 2) for eater in ("Ada", "Ben", "Cem")]
    lunches = [MealSlot(day, "Ben", "lunch") for day in (2, 3)]
    assert sorted(question.slots) == sorted([*dinners, *lunches])
    assert [slot.day for slot in question.slots] == [1, 1, 1, 2, 2, 2, 2, 3]
    # Sunday the 6th is day 1, Wednesday the 9th day 4; 1 h 15 min are 75 minutes.
    assert question.sessions == (CookSession(1, 90), CookSession(4, 75))


def test_house_rules_and_additions_come_over_in_cents_and_minutes(question: Question) -> None:
    assert question.rules == HouseRules(
        containers=7, freezer_places=3, budget_cents=4005, meal_out_cents=750, in_a_row=None, most_times=4
    )
    # 5.00 an hour are 25/3 cents a minute.
    assert question.additions == Additions(
        repeat_cents=25, minute_cents=Fraction(25, 3), reserve_portions=2, reserve_cents=150
    )


def test_what_is_carried_counts_at_the_share_that_the_household_writes(tmp_path: Path) -> None:
    changed = PAPERS["kitchen.yaml"].replace("{repeat: 0.25,", "{repeat: 0.25, carried: 70 %,")
    for name, text in {**PAPERS, "kitchen.yaml": changed}.items():
        (tmp_path / name).write_text(text, "utf-8")
    posed = pose(read_folder(tmp_path).without_faults())
    assert posed.additions.carried_share == Fraction(7, 10)


def test_a_dish_brings_its_sizes_keeping_days_freezing_and_meals(question: Question) -> None:
    bowl, broth = question.dishes
    assert (bowl.name, bowl.least, bowl.greatest, bowl.keep_days, bowl.freezer_days) == ("bowl", 2, 6, 3, 30)
    assert bowl.meals == {"dinner"}
    # What the dish leaves out: 1 to 8 portions, no freezing, any meal; its own keeping days come first.
    assert (broth.name, broth.least, broth.greatest, broth.keep_days, broth.freezer_days) == (
        "broth",
        1,
        8,
        2,
        None,
    )
    assert broth.meals is None


def test_each_choice_of_swaps_is_a_version_with_its_needs_a_portion_and_its_minutes(
    question: Question,
) -> None:
    bowl = question.dish("bowl")
    versions = {v.name: v for v in bowl.versions}
    assert list(versions) == ["egg", "yogurt", "without"]
    # (1000 + 30) g and 6 eggs for four; water from the tap and salt to taste are not bought.
    groats = Fraction(257_500)
    assert dict(versions["egg"].needs) == {"barley-groats": groats, "egg": Fraction(3, 2)}
    assert dict(versions["yogurt"].needs) == {"barley-groats": groats, "house-yogurt": Fraction(62_500)}
    assert dict(versions["without"].needs) == {"barley-groats": groats}
    assert [(v.fixed_min, v.per_portion_min) for v in bowl.versions] == [
        (20, Fraction(5, 2)),
        (15, Fraction(5, 2)),
        (15, Fraction(5, 2)),
    ]


def test_a_mass_a_portion_is_cut_to_whole_milligrams_so_that_all_portions_take_no_more_than_is_written(
    question: Question,
) -> None:
    (broth,) = question.dish("broth").versions
    assert dict(broth.needs) == {"barley-groats": Fraction(33_333)}


def test_exclusions_bar_the_versions_they_speak_of_and_no_other(question: Question) -> None:
    barred = {(d.name, v.name): set(v.barred) for d in question.dishes for v in d.versions}
    # Cem never has egg or broth, Ben no milk; the broth is not for Ada.
    assert barred == {
        ("bowl", "egg"): {"Cem"},
        ("bowl", "yogurt"): {"Ben"},
        ("bowl", "without"): set(),
        ("broth", "as written"): {"Ada", "Cem"},
    }


def test_a_liking_lowers_the_cost_of_each_portion_and_a_dislike_raises_it(question: Question) -> None:
    liking = {d.name: {v.liking_cents for v in d.versions} for d in question.dishes}
    assert liking == {"bowl": {-20}, "broth": {10}}


def test_stock_has_its_last_day_by_number_and_what_spoilt_before_the_first_day_is_left_out(
    question: Question,
) -> None:
    # The yogurt got on the 4th keeps six days, the day got as the first: to the 9th, day 4. Eggs are pieces.
    assert question.lots == (
        StockLot("barley-groats", "barley-groats", 300_000, 45),
        StockLot("egg", "egg", 5, 110, 3),
        StockLot("house-yogurt-2", "house-yogurt", 150_000, 30, 4),
        StockLot("odd-thing", "odd-thing", 50_000, 10, 1),
    )


def test_foods_that_no_dish_takes_are_kept_in_stock_but_not_bought(question: Question) -> None:
    assert question.foods == (
        Foodstuff("barley-groats"),
        Foodstuff("egg", pieces=True, keep_days=21),
        Foodstuff("house-yogurt", keep_days=6),
        Foodstuff("odd-thing", keep_days=3),
    )
    assert {offer.food for offer in question.offers} == {"barley-groats", "egg", "house-yogurt"}


def test_of_each_package_the_latest_price_counts(question: Question) -> None:
    offers = {(o.shop, o.food): o for o in question.offers}
    assert [(o.shop, o.food, o.quantity, o.cents, o.most) for o in offers.values()] == [
        ("Corner Shop", "barley-groats", 500_000, 109, None),
        ("Far Shop", "barley-groats", 1_000_000, 179, 2),
        ("Market", "egg", 10, 289, None),
        ("Corner Shop", "house-yogurt", 500_000, 150, None),
    ]


def test_prices_seen_after_the_day_asked_for_do_not_count(kitchen: Kitchen) -> None:
    early = pose(kitchen, on=date(2026, 11, 30))
    assert [(o.food, o.cents) for o in early.offers] == [("barley-groats", 99)]
    # A food that is not on offer any more need not be known to keep.
    assert early.foods == pose(kitchen).foods


def test_a_shop_of_the_prices_that_is_not_listed_costs_no_trip(question: Question) -> None:
    assert question.shops == (
        ShopVisit("Corner Shop", 50),
        ShopVisit("Far Shop", 200),
        ShopVisit("Market", 0),
    )
    assert all(isinstance(offer, PackageOffer) for offer in question.offers)


def test_a_food_on_offer_of_which_nobody_knows_how_long_it_keeps_is_named(kitchen: Kitchen) -> None:
    unknown = {food: days for food, days in kitchen.keep_days.items() if food != "egg"}
    with pytest.raises(MissingFact, match=r"nobody knows how long egg.* keeps once bought; write keep_days"):
        pose(replace(kitchen, keep_days=unknown))


def test_a_food_in_stock_alone_may_keep_nobody_knows_how_long(kitchen: Kitchen) -> None:
    unknown = {food: days for food, days in kitchen.keep_days.items() if food != "odd-thing"}
    assert Foodstuff("odd-thing") in pose(replace(kitchen, keep_days=unknown)).foods


def test_the_same_kitchen_poses_the_same_question(kitchen: Kitchen, question: Question) -> None:
    assert pose(kitchen) == question


def test_the_question_posed_can_be_decided(question: Question) -> None:
    answer = decide(question)
    assert answer.plan is not None
    assert judge(question, answer.plan).stands
