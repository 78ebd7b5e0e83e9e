"""What is wished for, as it is written: read into wishes and kept by the plan, all faults at once."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from tests.unit.cli.kitchens import DISHES, KITCHEN, write_kitchen
from tests.unit.week.split_week import kitchen_of

from ladleworth.decide import (
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    Question,
    Wish,
    judge,
    pose,
)
from ladleworth.errors import FaultyKitchen
from ladleworth.household import Kitchen
from ladleworth.store import record_json
from ladleworth.week import decide_week, eat_day, load_folder, open_kitchen
from ladleworth.week.acting import buy_day, cook_day
from ladleworth.week.planning import accepted_week
from ladleworth.week.wanted import Wanted, asked_with

OUT = KITCHEN.replace("rules:\n", "rules:\n  meal_out: 9.00\n")


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return open_kitchen(write_kitchen(tmp_path / "k", kitchen=OUT))


def wishes(kitchen: Kitchen, **wanted: tuple[str, ...]) -> tuple[Wish, ...]:
    _, question = asked_with(kitchen, pose(kitchen), Wanted(**wanted))
    return question.wishes


def faults(kitchen: Kitchen, **wanted: tuple[str, ...]) -> list[str]:
    with pytest.raises(FaultyKitchen) as found:
        asked_with(kitchen, pose(kitchen), Wanted(**wanted))
    return [str(finding) for finding in found.value.findings]


@pytest.mark.parametrize(
    ("written", "wish"),
    [
        ("Lentil stew", MustCook("lentil-stew")),
        ("lentil", MustCook("lentil-stew")),
        ("lentil stew@1", MustCook("lentil-stew", 1)),
        ("lentil stew@sunday*4", MustCook("lentil-stew", 1, None, 4)),
        ("lentil stew*4@sun", MustCook("lentil-stew", 1, None, 4)),
        ("lentil stew * 4 @ 2026-12-06", MustCook("lentil-stew", 1, None, 4)),
        ("egg rice=as written", MustCook("egg-rice", None, "as written")),
        ("egg rice=as written*3@1", MustCook("egg-rice", 1, "as written", 3)),
    ],
)
def test_a_dish_to_cook_is_read_with_its_day_portions_and_version(
    kitchen: Kitchen, written: str, wish: Wish
) -> None:
    assert wishes(kitchen, cook=(written,)) == (wish,)


def test_a_version_is_found_by_a_part_of_its_name(tmp_path: Path) -> None:
    mine = kitchen_of(tmp_path / "k")
    assert wishes(mine, cook=("chili=carr",), leave_out=("chili=onion",)) == (
        MustCook("chili", None, "carrot"),
        MustNotCook("chili", None, "onion"),
    )
    assert "has no version 'leek'; write onion or carrot" in faults(mine, cook=("chili=leek",))[0]
    assert "several versions" in faults(mine, cook=("chili=o",))[0]


def test_lots_are_used_whole_or_in_part(kitchen: Kitchen) -> None:
    assert wishes(kitchen, use=("rice*300 g", "egg")) == (
        MustUse("rice-white-long-grain", 300_000),
        MustUse("egg", 5),
    )


def test_meals_are_settled_for_an_eater_on_a_day(kitchen: Kitchen) -> None:
    written = ("Ada dinner 2=egg rice", "ben dinner monday=out", "Ada  dinner 2026-12-08 = lentil")
    assert wishes(kitchen, serve=written) == (
        MustServe(2, "Ada", "dinner", "egg-rice"),
        MustServe(2, "Ben", "dinner", None),
        MustServe(3, "Ada", "dinner", "lentil-stew"),
    )


def test_purchases_are_named_by_offer_or_by_a_food_of_one_package(kitchen: Kitchen) -> None:
    assert wishes(kitchen, buy=("onion*2", "egg@1"), in_basket=("lentils-2",)) == (
        MustBuy(1, "lentils-2", 1),
        MustBuy(1, "onion", 2),
        MustBuy(1, "egg", 1),
    )


def test_the_same_wish_twice_is_one(kitchen: Kitchen) -> None:
    assert wishes(kitchen, cook=("lentil", "Lentil stew")) == (MustCook("lentil-stew"),)


@pytest.mark.parametrize(
    ("option", "written", "told"),
    [
        ("cook", "lentel stew", "did you mean 'Lentil stew'?"),
        ("cook", "lentil@2", "day 2 has no session to cook and shop in; the days with one are 1"),
        ("cook", "lentil@tuesday", "day 3 has no session"),
        ("cook", "lentil@friday", "the plan has no friday; write a day from 2026-12-06 to 2026-12-08"),
        ("cook", "lentil@9", "the plan has no day 9; write one from 1 to 3"),
        ("cook", "lentil@someday", "names no day; write a number (1), a weekday (sunday) or a date"),
        ("cook", "lentil@2027-01-01", "is no day of the plan"),
        ("cook", "lentil*0", "is no number of them"),
        ("cook", "lentil*many", "is no number of them"),
        ("cook", "lentil*9", "a batch of lentil-stew is at most 8 portions"),
        ("cook", "lentil*2*3", "has '*' twice, or nothing after it"),
        ("cook", "lentil@", "has '@' twice, or nothing after it"),
        ("leave_out", "lentil*2", "leaves out a number of portions"),
        ("in_basket", "onion@2", "names more than a number"),
        ("buy", "onion=2.00", "names a price"),
        ("use", "spinach", "no dish takes spinach"),
        ("use", "rice*2 kg", "write an amount up to 1.2 kg"),
        ("use", "saffron threads of gold", "no lot is called"),
        ("serve", "Ada dinner 1", "names no dish; write 'EATER MEAL DAY=DISH'"),
        ("serve", "Eve dinner 1=out", "write one of these and the day: Ada dinner, Ben dinner"),
        ("serve", "Ada dinner=out", "is no meal with its day"),
        ("serve", "Ada dinner 1=soup", "no dish is called 'soup'"),
        ("same_as", "tuesday", "names no day to copy to"),
        ("same_as", "tuesday@tuesday", "nothing is entered as eaten on 2026-12-01"),
        ("same_as", "yesterday@1", "names no earlier day"),
        ("buy", "lentils", "several packages are of lentils; name one of 'lentils-2', 'lentils-3'"),
        ("buy", "lentils-2@2", "day 2 has no session"),
        ("buy", "gold", "no food is called 'gold'"),
        ("gone", "gold", "no food is called 'gold'"),
        ("price", "onion", "names no price; write OFFER=2.49"),
        ("price", "onion=cheap", "cheap"),
        ("without_shop", "Moon", "no shop is called 'Moon'; name one of Corner Shop"),
    ],
)
def test_what_cannot_be_read_is_told_with_what_to_write_instead(
    kitchen: Kitchen, option: str, written: str, told: str
) -> None:
    (fault,) = faults(kitchen, **{option: (written,)})
    assert f"--{option.replace('_', '-')} {written!r}" in fault
    assert told in fault


def test_all_faults_of_all_options_are_told_at_once(kitchen: Kitchen) -> None:
    found = faults(
        kitchen, cook=("nothing", "lentil@9"), serve=("Ada dinner 1=soup",), gone=("gold",), use=("spinach",)
    )
    assert [fault.split(":")[1].split()[0] for fault in found] == [
        "--gone", "--cook", "--cook", "--use", "--serve",
    ]  # fmt: skip


def test_what_contradicts_itself_is_refused(kitchen: Kitchen) -> None:
    assert "cooked and left out" in faults(kitchen, cook=("lentil@1",), leave_out=("lentil",))[0]
    settled = ("Ada dinner 1=lentil", "Ada dinner 1=egg")
    assert "settled twice" in faults(kitchen, serve=settled)[0]


def test_a_meal_out_where_nobody_eats_out_is_refused(tmp_path: Path) -> None:
    mine = open_kitchen(write_kitchen(tmp_path / "home"))
    assert "nobody eats out" in faults(mine, serve=("Ada dinner 1=out",))[0]


def test_a_dish_that_an_eater_may_not_have_or_that_is_no_dish_for_the_meal_is_refused(tmp_path: Path) -> None:
    never = KITCHEN.replace("- name: Ada", "- name: Ada\n    never: [egg]")
    mine = open_kitchen(write_kitchen(tmp_path / "a", kitchen=never))
    assert "Ada may not have egg-rice" in faults(mine, serve=("Ada dinner 1=egg",))[0]
    lunch = DISHES.replace("- dish: Egg rice\n", "- dish: Egg rice\n  meals: [lunch]\n")
    mine = open_kitchen(write_kitchen(tmp_path / "b", dishes=lunch))
    assert "egg-rice is no dish for dinner" in faults(mine, serve=("Ada dinner 1=egg",))[0]


def test_a_weekday_that_the_plan_has_twice_is_asked_for_by_number_or_date(kitchen: Kitchen) -> None:
    longer = replace(kitchen, household=replace(kitchen.household, days=9))
    fault = faults(longer, serve=("Ada dinner sunday=out",))[0]
    assert "is day 1 and day 8; write the number or the date" in fault


def test_what_is_gone_and_what_costs_more_holds_for_this_decision(kitchen: Kitchen) -> None:
    question = pose(kitchen)
    changed, asked = asked_with(kitchen, question, Wanted(gone=("onion",), price=("egg=4.44",)))
    assert [o.name for o in question.offers if o not in asked.offers] == ["egg", "onion"]
    assert next(o.cents for o in asked.offers if o.name == "egg") == 444
    # what is carried out in thought is paid at that price, and the price book on record stays
    assert next(o.price_cents for o in changed.prices.offers if o.id == "egg") == 444
    assert next(o.price_cents for o in kitchen.prices.offers if o.id == "egg") == 289


def test_something_gone_cannot_be_in_the_basket(kitchen: Kitchen) -> None:
    assert "no shop has onion" in faults(kitchen, gone=("onion",), in_basket=("onion",))[0]


def test_a_basket_makes_its_day_one_to_shop_on_without_a_minute_to_cook(kitchen: Kitchen) -> None:
    question = replace(pose(kitchen), sessions=())
    _, asked = asked_with(kitchen, question, Wanted(in_basket=("onion",)))
    assert [(s.day, s.minutes) for s in asked.sessions] == [(1, 0)]


def test_a_shop_can_be_left_out(kitchen: Kitchen) -> None:
    _, asked = asked_with(kitchen, pose(kitchen), Wanted(without_shop=("corner shop",)))
    assert (asked.offers, asked.shops) == ((), ())


def test_a_plan_keeps_every_wish_and_is_kept_with_them(tmp_path: Path) -> None:
    load_folder(write_kitchen(tmp_path / "k", kitchen=OUT), tmp_path / "k.db")
    wanted = Wanted(
        cook=("lentil*2",),
        serve=("Ada dinner 2=out", "Ben dinner 3=egg"),
        use=("rice*100 g",),
        buy=("onion*2",),
    )
    week = decide_week(tmp_path / "k.db", today=date(2026, 12, 5), seconds=5, accept=True, wanted=wanted)
    assert len(week.question.wishes) == 5
    assert judge(week.question, week.plan).stands
    assert next(p.packages for p in week.plan.purchases if p.offer == "onion") == 2
    assert accepted_week(tmp_path / "k.db").question.wishes == week.question.wishes
    text = record_json.to_json(week.question)
    assert record_json.from_json(text, Question) == week.question


def test_wishes_that_leave_no_plan_are_named(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    wanted = Wanted(serve=("Ada dinner 1=egg", "Ada dinner 2=egg", "Ada dinner 3=egg"))
    week = decide_week(folder, today=date(2026, 12, 5), seconds=8, wanted=wanted)
    assert week.answer.plan is None
    assert week.clashing is not None
    assert set(week.clashing) == set(week.question.wishes)


def lived(tmp_path: Path, dishes: str = DISHES) -> Path:
    file = tmp_path / "k.db"
    load_folder(write_kitchen(tmp_path / "k", kitchen=OUT, dishes=dishes), file)
    wanted = Wanted(serve=("Ada dinner 1=egg", "Ben dinner 1=lentil", "Ada dinner 2=lentil"))
    decide_week(file, today=date(2026, 12, 5), seconds=5, accept=True, wanted=wanted)
    buy_day(file, 1)
    cook_day(file, 1)
    for day in (1, 2, 3):
        eat_day(file, day)
    return file


def test_a_day_can_be_the_same_as_an_earlier_one_by_the_ledger(tmp_path: Path) -> None:
    file = lived(tmp_path)
    kitchen = open_kitchen(file)
    later = replace(kitchen, household=replace(kitchen.household, start=date(2026, 12, 13)))
    assert wishes(later, same_as=("2026-12-06@1",)) == (
        MustServe(1, "Ada", "dinner", "egg-rice"),
        MustServe(1, "Ben", "dinner", "lentil-stew"),
    )
    assert wishes(later, same_as=("sunday@sunday",)) == wishes(later, same_as=("2026-12-06@1",))


def test_a_day_that_cannot_be_the_same_is_told_in_one_message_that_names_all_of_it(tmp_path: Path) -> None:
    kitchen = open_kitchen(lived(tmp_path))
    later = replace(
        kitchen, household=replace(kitchen.household, start=date(2026, 12, 13)), dishes=kitchen.dishes[1:]
    )
    (fault,) = faults(later, same_as=("2026-12-06@1",))
    assert "day 1 cannot be the same as 2026-12-06: Ben's dinner (lentil-stew:" in fault
    assert "Ada" not in fault.partition("cannot be the same")[2].partition("; ")[0]
