"""Planning on in mid-week: what is cooked, bought and eaten stays, and the rest of the plan is where it begins."""

from __future__ import annotations

import time
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from tests.unit.cli.kitchens import KITCHEN, write_kitchen
from tests.unit.week.split_week import kitchen_of, split_plan

from ladleworth.decide import (
    Answer,
    Batch,
    Helping,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    Plan,
    Purchase,
    Status,
    judge,
    judged,
    pose,
)
from ladleworth.errors import FaultyKitchen, LedgerError, NotYet
from ladleworth.ledger import Cause
from ladleworth.store import Store, record_json
from ladleworth.week import (
    PlannedWeek,
    accepted_week,
    buy_day,
    cook_day,
    decide_week,
    eat_day,
    load_folder,
    open_kitchen,
    throw_lot,
)
from ladleworth.week.again import rest_of, start_of
from ladleworth.week.changes import Changes, MealChange, changes
from ladleworth.week.pinned import pinned, pinned_for
from ladleworth.week.planning import Asked, ask_week
from ladleworth.week.wanted import Wanted

SUN, MON, TUE, WED = (date(2026, 12, day) for day in (6, 7, 8, 9))
CARROT, ONION = "chili 2026-12-06 carrot", "chili 2026-12-06 onion"


@pytest.fixture
def split(tmp_path: Path) -> Path:
    """A file with the planted plan of the split week accepted."""
    kitchen = kitchen_of(tmp_path / "k")
    file = tmp_path / "k.db"
    load_folder(tmp_path / "k", file)
    accept(file, kitchen_plan(kitchen))
    return file


def kitchen_plan(kitchen: object) -> PlannedWeek:
    question = pose(kitchen)  # type: ignore[arg-type]
    plan = split_plan(question)
    answer = Answer(Status.GOOD, plan, judged(question, plan), None, 0.0, "planted")
    return PlannedWeek(kitchen, question, answer)  # type: ignore[arg-type]


def accept(file: Path, week: PlannedWeek, start: date = SUN) -> None:
    with Store.open(file) as store, store.transaction():
        text = record_json.to_json(week.question)
        store.save_plan(start, start, week.answer, question=text, accepted=True)


def live(file: Path, *days: int) -> None:
    for day in days:
        buy_day(file, day)
        cook_day(file, day)
        eat_day(file, day)


def again(file: Path, today: date, **more: object) -> Asked:
    return ask_week(file, today=today, again=True, **more)  # type: ignore[arg-type]


# --- what is left of the plan -----------------------------------------------------------------------------


def test_the_rest_of_a_plan_is_eaten_from_the_containers_that_are_there(split: Path) -> None:
    live(split, 1)
    rest = rest_of(accepted_week(split), MON)
    assert (rest.plan.batches, rest.plan.purchases) == ((), ())
    assert [(h.day, h.eater, h.lot) for h in rest.plan.helpings] == [
        (1, "Ada", f"{ONION} chilled"),
        (1, "Kid", f"{CARROT} chilled 2/3"),
        (2, "Ada", f"{ONION} chilled"),
        (2, "Kid", f"{CARROT} chilled 2/3"),
        (3, "Ada", f"{ONION} frozen"),
        (3, "Kid", f"{CARROT} frozen 2/3"),
    ]


def test_the_rest_stands_as_a_plan_of_the_new_question_and_its_search_begins_there(split: Path) -> None:
    live(split, 1)
    asked = again(split, MON)
    assert asked.start is not None
    assert judge(asked.question, asked.start).stands
    assert (asked.kitchen.household.start, asked.kitchen.household.days) == (MON, 3)


def test_a_judged_plan_is_there_at_once_however_short_the_time(split: Path) -> None:
    live(split, 1)
    began = time.monotonic()
    week = decide_week(split, today=MON, again=True, seconds=0.1)
    assert week.answer.plan is not None
    assert time.monotonic() - began < 5
    assert week.changes is not None


def test_nothing_that_was_bought_cooked_or_eaten_is_touched(split: Path) -> None:
    live(split, 1)
    before = open_kitchen(split).ledger
    decide_week(split, today=MON, again=True, seconds=1, accept=True)
    assert open_kitchen(split).ledger == before


def test_before_anything_is_done_the_whole_plan_is_left(split: Path) -> None:
    rest = rest_of(accepted_week(split), SUN)
    assert rest.plan.batches == accepted_week(split).plan.batches
    assert rest.plan.helpings == accepted_week(split).plan.helpings
    assert start_of(rest, again(split, SUN).question) is not None


def test_what_is_bought_and_not_cooked_yet_is_cooked_from_what_is_on_hand(split: Path) -> None:
    buy_day(split, 1)
    asked = again(split, SUN)
    assert asked.start is not None
    assert asked.start.purchases == ()
    assert all(drawing.bought_day is None for drawing in asked.start.drawings)
    assert {b.version for b in asked.start.batches} == {"carrot", "onion"}


def test_meals_eaten_today_need_no_slot_and_a_dish_cooked_today_is_not_cooked_again(split: Path) -> None:
    buy_day(split, 1)
    cook_day(split, 1)
    eat_day(split, 1, skip=["Kid dinner"])
    asked = again(split, SUN)
    today = [(s.eater, s.meal) for s in asked.question.slots if s.day == 1]
    assert today == [("Kid", "dinner")]
    assert asked.question.wishes == (MustNotCook("chili", 1),)
    (session,) = asked.question.sessions
    assert session.minutes == 120  # the dish takes no hands-on minutes
    assert session.stations == {"oven": 120, "burner": 240 - 74}


def test_minutes_cooked_today_stay_gone_however_often_it_is_planned_on(tmp_path: Path) -> None:
    file = tmp_path / "k.db"
    load_folder(write_kitchen(tmp_path / "k"), file)
    week = decide_week(file, today=SUN, seconds=5, accept=True)
    buy_day(file, 1)
    cook_day(file, 1)
    once = again(file, SUN).question.sessions
    used = sum(15 + b.portions if b.dish == "lentil-stew" else 10 for b in week.plan.batches)
    assert [session.minutes for session in once] == [60 - used]
    decide_week(file, today=SUN, again=True, seconds=2, accept=True)
    assert again(file, SUN).question.sessions == once


PLAIN = Path(__file__).resolve().parents[3] / "examples" / "plain"


def test_the_rest_of_a_plan_that_is_lived_to_the_letter_stands_at_every_hour(tmp_path: Path) -> None:
    file = tmp_path / "plain.db"
    load_folder(PLAIN, file)
    week = decide_week(file, today=SUN, seconds=10, accept=True)
    assert week.answer.costs is not None
    days = week.kitchen.household.days
    for day in range(1, days + 1):
        for act in (buy_day, cook_day, eat_day):
            asked = again(file, week.kitchen.household.date_of(day))
            assert asked.start is not None, (day, act)
            assert judge(asked.question, asked.start).stands
            act(file, day)


def test_what_was_paid_is_taken_off_the_budget(tmp_path: Path) -> None:
    file = tmp_path / "k.db"
    load_folder(write_kitchen(tmp_path / "k"), file)
    decide_week(file, today=SUN, seconds=5, accept=True)
    paid = sum(lot.cents for _, entered in buy_day(file, 1).entered for lot in entered.lots)
    assert paid > 0
    assert again(file, SUN).question.rules.budget_cents == 2000 - paid
    # of a plan made after that, only what is paid after it counts
    decide_week(file, today=SUN, again=True, seconds=5, accept=True)
    assert again(file, SUN).question.rules.budget_cents == 2000 - paid


# --- thawing ------------------------------------------------------------------------------------------------


def test_what_lies_out_to_thaw_may_be_eaten_today_and_keeps_as_long_as_it_had_when_frozen(
    split: Path,
) -> None:
    live(split, 1, 2, 3)
    asked = again(split, WED)
    portions = {lot.name: lot for lot in asked.question.portions}
    assert set(portions) == {f"{ONION} frozen (thawing)", f"{CARROT} frozen 2/3 (thawing)"}
    lot = portions[f"{ONION} frozen (thawing)"]
    # taken out on Tuesday, with the four days of a chilled one: to Friday, the third day from Wednesday on
    assert (lot.frozen, lot.first_day, lot.last_day, lot.portions) == (False, 1, 3, 1)
    assert asked.start is not None
    week = decide_week(split, today=WED, again=True, seconds=2, accept=True)
    assert {helping.lot for helping in week.plan.helpings} == set(portions)
    eat_day(split, 1)
    assert not [h for h in open_kitchen(split).ledger.holdings() if h.lot.item.startswith("chili")]


def test_of_a_frozen_lot_only_what_was_planned_for_today_lies_out(split: Path, tmp_path: Path) -> None:
    week = kitchen_plan(open_kitchen(tmp_path / "k"))
    larger = replace(week.plan.batches[1], portions=5)
    both = tuple(
        replace(h, version="onion", frozen=h.day > 2) if h.eater == "Ada" else h for h in week.plan.helpings
    )
    drawings = tuple(
        replace(d, quantity=d.quantity * 5 // 4) if d.version == "onion" else d for d in week.plan.drawings
    )
    plan = Plan((week.plan.batches[0], larger), both, week.plan.purchases, drawings)
    question = replace(week.question, additions=replace(week.question.additions, reserve_portions=1))
    answer = replace(week.answer, plan=plan, costs=judged(question, plan))
    accept(split, replace(week, question=question, answer=answer))
    live(split, 1, 2)
    rest = rest_of(accepted_week(split), TUE)
    assert rest.thawing == ((f"{ONION} frozen", 1),)
    lots = {lot.name: lot for lot in again(split, TUE).question.portions}
    frozen, thawing = lots[f"{ONION} frozen"], lots[f"{ONION} frozen (thawing)"]
    assert (frozen.portions, thawing.portions) == (2, 1)
    assert frozen.cents + thawing.cents == open_kitchen(split).ledger.holding(f"{ONION} frozen").cents


# --- life went on ---------------------------------------------------------------------------------------------


def test_where_portions_are_gone_the_rest_does_not_stand_and_a_new_plan_is_looked_for(split: Path) -> None:
    live(split, 1)
    throw_lot(split, f"{ONION} chilled", Cause.SPILT, today=SUN)
    asked = again(split, MON)
    assert asked.start is None
    assert asked.rest is not None
    assert len(asked.rest.plan.helpings) == 6  # still told apart from what comes in its place


def test_planning_on_is_refused_where_it_has_nothing_to_go_by(split: Path, tmp_path: Path) -> None:
    with pytest.raises(NotYet, match="ended on 2026-12-09"):
        rest_of(accepted_week(split), date(2026, 12, 10))
    with pytest.raises(NotYet, match="keeps no plans"):
        ask_week(tmp_path / "k", today=SUN, again=True)
    load_folder(tmp_path / "k", tmp_path / "other.db")
    with pytest.raises(NotYet, match="no plan has been accepted"):
        again(tmp_path / "other.db", SUN)
    live(split, 1, 2)
    with pytest.raises(LedgerError, match="up to 2026-12-07 are entered already"):
        again(split, SUN)


def test_at_the_shelf_the_basket_is_kept_and_what_is_gone_is_done_without(tmp_path: Path) -> None:
    file = tmp_path / "k.db"
    out = KITCHEN.replace("rules:\n", "rules:\n  meal_out: 9.00\n")
    load_folder(write_kitchen(tmp_path / "k", kitchen=out), file)
    first = decide_week(file, today=SUN, seconds=5, accept=True)
    assert {p.offer for p in first.plan.purchases} >= {"onion"}
    wanted = Wanted(in_basket=("egg",), gone=("onion",), price=("lentils-2=9.99",))
    week = decide_week(file, today=SUN, again=True, seconds=5, wanted=wanted)
    assert week.question.wishes == (MustBuy(1, "egg", 1),)
    assert "onion" not in {p.offer for p in week.plan.purchases}
    assert "egg" in {p.offer for p in week.plan.purchases}
    assert week.changes is not None
    assert "onion" in {p.offer for p in week.changes.purchases_dropped}
    with pytest.raises(FaultyKitchen):
        decide_week(file, today=SUN, again=True, wanted=Wanted(gone=("gold",)))


# --- wishes that hold on ----------------------------------------------------------------------------------------


def test_wishes_that_are_still_open_hold_on_less_what_is_done(split: Path, tmp_path: Path) -> None:
    week = kitchen_plan(open_kitchen(tmp_path / "k"))
    wishes = (
        MustCook("chili", portions=9),
        MustCook("chili", 1, "onion", 4),
        MustNotCook("chili", version="carrot"),
        MustUse("lentils", 1_000_000),
        MustServe(1, "Ada", "dinner", "chili"),
        MustServe(3, "Kid", "dinner", "chili"),
        MustBuy(1, "onion", 1),
    )
    accept(split, replace(week, question=replace(week.question, wishes=wishes)))
    live(split, 1)
    kept = again(split, MON, days=3)
    assert kept.question.wishes == (
        MustCook("chili", portions=2),
        MustNotCook("chili", version="carrot"),
        MustUse("lentils", 300_000),
        MustServe(2, "Kid", "dinner", "chili"),
    )
    assert again(split, MON, keep_wishes=False).question.wishes == ()


# --- days by number ---------------------------------------------------------------------------------------------


def test_days_by_number_stay_those_of_the_first_plan_however_often_it_is_planned_on(tmp_path: Path) -> None:
    numbered = KITCHEN.replace("days: 3", "days: 4").replace(
        "  - meals: [dinner]\n", "  - meals: [dinner]\n    days: [1-3]\n  - meals: [lunch]\n    days: [4]\n"
    )
    file = tmp_path / "k.db"
    load_folder(write_kitchen(tmp_path / "k", kitchen=numbered.replace("day: 1", "days: [1, 4]")), file)
    decide_week(file, today=SUN, seconds=5, accept=True)
    live(file, 1)
    for today in (MON, TUE):
        week = decide_week(file, today=today, again=True, seconds=3, accept=True)
        household = week.kitchen.household
        slots = [(household.date_of(s.day), s.meal) for s in week.question.slots if s.eater == "Ada"]
        assert slots == [
            (day, meal) for day, meal in ((MON, "dinner"), (TUE, "dinner"), (WED, "lunch")) if day >= today
        ]
        assert [household.date_of(s.day) for s in week.question.sessions] == [WED]
        live(file, 1)


def test_numbered_days_are_pinned_from_the_day_that_the_question_tells(tmp_path: Path) -> None:
    kitchen = open_kitchen(
        write_kitchen(
            tmp_path / "k", kitchen=KITCHEN.replace("- meals: [dinner]", "- meals: [dinner]\n    days: [2]")
        )
    )
    household = kitchen.household
    assert [slot.day for slot in household.slots()] == [2, 2]
    question = pose(kitchen)
    assert pinned_for(household, question, (MON, SUN)) == pinned(household, SUN)
    later = replace(pinned(household, SUN), start=MON)
    assert [slot.day for slot in later.slots()] == [1, 1]


# --- what is changed ----------------------------------------------------------------------------------------------


def test_changes_name_what_is_added_dropped_and_changed() -> None:
    before = Plan(
        (Batch(1, "soup", "plain", 4), Batch(1, "stew", "plain", 2)),
        (
            Helping(1, "Ada", "lunch", "soup", 1),
            Helping(2, "Ada", "lunch", "stew", 1),
            Helping(3, "Ada", "lunch"),
        ),
        (Purchase(1, "peas", 1), Purchase(1, "rice", 1)),
        (),
    )
    now = Plan(
        (Batch(1, "soup", "plain", 3), Batch(1, "curry", "plain", 2)),
        (Helping(1, "Ada", "lunch", "soup", 1), Helping(2, "Ada", "lunch", "curry", 1), Helping(3, "Ada", "lunch", "soup", 1)),
        (Purchase(1, "rice", 2), Purchase(2, "kale", 1)),
        (),
    )  # fmt: skip
    found = changes(before, now)
    assert found == Changes(
        batches_added=(Batch(1, "curry", "plain", 2),),
        batches_dropped=(Batch(1, "stew", "plain", 2),),
        batches_changed=((Batch(1, "soup", "plain", 4), Batch(1, "soup", "plain", 3)),),
        purchases_added=(Purchase(2, "kale", 1),),
        purchases_dropped=(Purchase(1, "peas", 1),),
        purchases_changed=((Purchase(1, "rice", 1), Purchase(1, "rice", 2)),),
        meals=(MealChange(2, "Ada", "lunch", "stew", "curry"), MealChange(3, "Ada", "lunch", "", "soup")),
    )
    assert changes(before, before).none
    assert not found.none


def test_portions_from_their_lot_are_the_same_dish_as_before_they_were_cooked() -> None:
    fresh = Plan((), (Helping(1, "Ada", "lunch", "soup", 1),), (), ())
    held = Plan((), (Helping(1, "Ada", "lunch", "soup", lot="soup 2026-12-06 chilled"),), (), ())
    assert changes(fresh, held).none
