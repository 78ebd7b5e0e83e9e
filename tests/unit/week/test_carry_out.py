"""Carrying a plan out: cents are kept, nothing is done twice or out of turn, and the accepted plan comes back."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from tests.unit.cli.kitchens import DISHES, KITCHEN, write_kitchen

from ladleworth.decide import Drawing, Plan, Purchase
from ladleworth.errors import BadField, LedgerError, NotYet, StoreError
from ladleworth.ledger import Cause, LotUnit, Spot, reverse
from ladleworth.store import Store
from ladleworth.week import (
    accepted_week,
    buy_day,
    carry_out,
    change_stock,
    cook_day,
    cooking_of,
    costs_table,
    decide_week,
    eat_day,
    find_dish,
    load_folder,
    move_lot,
    open_kitchen,
    opened_too_long,
    preview_money,
    shopping_of,
    throw_lot,
    use_up_of,
    week_money,
)
from ladleworth.week.carry_out import buy_planned, cook_planned, eat_planned

SATURDAY, SUNDAY = date(2026, 12, 5), date(2026, 12, 6)


def file_of(tmp_path: Path, **papers: str) -> Path:
    load_folder(write_kitchen(tmp_path / "k", **papers), tmp_path / "k.db")
    return tmp_path / "k.db"


def test_a_plan_carried_out_keeps_every_cent(tmp_path: Path) -> None:
    week = decide_week(write_kitchen(tmp_path / "k"), today=SATURDAY, seconds=5)
    money = preview_money(week)
    for table in (money.till, money.stock):
        assert sum(row.cents for row in table.rows) == table.total_cents
    assert week.answer.costs is not None
    assert money.till.total_cents == week.answer.costs.tills
    assert money.stock.total_cents == 380
    assert money.till.cents("used") + money.stock.cents("used") == money.used_cents
    assert money.stock.cents("lost") == week.answer.costs.spoilt == 90
    assert money.used_cents == sum(batch.cost.used_cents for batch in money.batches)


def test_carrying_out_leaves_the_kitchen_that_was_given_as_it_was(tmp_path: Path) -> None:
    week = decide_week(write_kitchen(tmp_path / "k"), today=SATURDAY, seconds=5)
    before = week.kitchen.ledger
    after = carry_out(week.kitchen, week.plan)
    assert week.kitchen.ledger == before
    portions = [h for h in after.ledger.holdings() if h.lot.unit is LotUnit.PORTION]
    assert portions == []  # all of them are eaten


def test_the_accepted_plan_comes_back_with_its_question(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    with pytest.raises(NotYet):
        accepted_week(file)
    week = decide_week(file, today=SATURDAY, seconds=5, days=2, accept=True)
    again = accepted_week(file)
    assert (again.plan, again.question, again.number) == (week.plan, week.question, 1)
    assert again.kitchen.household.days == 2


def test_the_plan_accepted_last_is_the_one_that_counts(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    decide_week(file, today=SATURDAY, seconds=5, accept=True)
    decide_week(file, today=SATURDAY, seconds=5, without_dishes=["Lentil stew"], days=2, accept=True)
    assert accepted_week(file).number == 2


def test_the_file_comes_to_what_the_preview_said(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    preview = preview_money(decide_week(file, today=SATURDAY, seconds=5, accept=True))
    for day in (1, 2, 3):
        for act in (buy_day, cook_day, eat_day):
            act(file, day)
    _, money = week_money(file)
    assert money == preview


def test_buying_twice_is_refused_and_changes_nothing(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    decide_week(file, today=SATURDAY, seconds=5, accept=True)
    buy_day(file, 1)
    before = open_kitchen(file).ledger
    with pytest.raises(LedgerError, match="already"):
        buy_day(file, 1)
    assert open_kitchen(file).ledger == before


def test_what_was_taken_back_can_be_bought_anew(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    decide_week(file, today=SATURDAY, seconds=5, accept=True)
    for _, entered in buy_day(file, 1).entered:
        number = entered.movements[0].id
        change_stock(file, lambda ledger, n=number: reverse(ledger, SUNDAY, n))  # type: ignore[misc]
    assert buy_day(file, 1).entered
    assert cook_day(file, 1).entered


def test_cooking_before_buying_and_eating_before_cooking_are_refused(tmp_path: Path) -> None:
    week = decide_week(write_kitchen(tmp_path / "k"), today=SATURDAY, seconds=5)
    with pytest.raises(LedgerError, match="has not been bought"):
        cook_planned(week.kitchen, week.plan, 1)
    with pytest.raises(LedgerError, match="has not been cooked"):
        eat_planned(week.kitchen, week.plan, 1)


@pytest.mark.parametrize("day", [0, 4])
def test_a_day_that_the_plan_has_not_is_refused(tmp_path: Path, day: int) -> None:
    week = decide_week(write_kitchen(tmp_path / "k"), today=SATURDAY, seconds=5)
    for act in (buy_planned, cook_planned, eat_planned):
        with pytest.raises(BadField, match="no day"):
            act(week.kitchen, week.plan, day)


def test_a_meal_is_not_entered_twice(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    decide_week(file, today=SATURDAY, seconds=5, accept=True)
    buy_day(file, 1)
    cook_day(file, 1)
    first = eat_day(file, 1)
    assert len(first.entered) == 2
    with pytest.raises(LedgerError, match="already"):
        eat_day(file, 1)
    number = first.entered[0][1].movements[0].id
    change_stock(file, lambda ledger: reverse(ledger, SUNDAY, number))
    with pytest.raises(LedgerError, match="Ben has had dinner"):
        eat_day(file, 1)


def test_accepting_keeps_nothing_without_a_plan(tmp_path: Path) -> None:
    file = file_of(tmp_path, kitchen=KITCHEN.replace("budget: 20.00", "budget: 0"))
    week = decide_week(file, today=SATURDAY, seconds=3, accept=True)
    assert week.number is None
    assert week.clash is not None
    with Store.open(file) as store:
        assert store.plans() == ()


def test_the_lists_of_a_plan_agree_with_it(tmp_path: Path) -> None:
    week = decide_week(write_kitchen(tmp_path / "k"), today=SATURDAY, seconds=5)
    assert week.answer.costs is not None
    assert sum(line.cents for line in shopping_of(week)) == week.answer.costs.tills
    (session,) = cooking_of(week)
    assert sum(batch.portions for batch in session.batches) == 6
    assert all(batch.chilled + batch.frozen == batch.portions for batch in session.batches)
    assert [(one.lot, one.drawn, one.spoils_cents) for one in use_up_of(week)] == [("spinach", 0, 90)]
    table = costs_table(week.answer.costs)
    assert table.cents("less: carried over") < 0
    assert abs(table.total_cents - week.answer.costs.total) <= 1


def test_what_is_used_long_after_opening_is_pointed_out(tmp_path: Path) -> None:
    kitchen = KITCHEN.replace("days: 3", "days: 8").replace("day: 1", "days: [1, 8]")
    dishes = "- dish: Tofu rice\n  keep_days: 7\n  per_portion: {rice: 75 g, firm tofu: 50 g}\n"
    kitchen = kitchen.replace("in_a_row: 2", "").replace("  budget: 20.00\n", "  in_a_row: none\n")
    kitchen = kitchen.replace("containers: 6", "containers: 20")
    foods = "- food: firm tofu\n  keep_days: 20\n"
    prices = "shop,food,package,price,seen\nCorner Shop,firm tofu,2 kg,4.00,2026-11-29\n"
    folder = write_kitchen(
        tmp_path / "k", kitchen=kitchen, dishes=dishes.replace("keep_days", "greatest: 14\n  keep_days"),
        foods=foods, prices=prices,
    )  # fmt: skip
    week = decide_week(folder, today=SATURDAY, seconds=5)
    (late,) = opened_too_long(week.kitchen, week.plan)
    assert (late.opened_day, late.drawn_day) == (1, 8)
    assert late.keeps_days < 8


@pytest.mark.parametrize(
    ("drawn_kg", "late"),
    [
        ({1: 2, 8: 1}, []),  # the second pack is closed until day 8
        ({1: 2, 2: 1, 8: 1}, [(2, 8)]),  # the first pack is used up at once, the second begun on day 2
        ({1: 1, 2: 2, 8: 1}, [(2, 8)]),  # on day 2 the first pack ends and the second is begun
        ({1: 3, 8: 1}, [(1, 8)]),
        ({1: 1, 8: 1}, [(1, 8)]),
    ],
)
def test_a_second_package_counts_from_the_day_on_which_it_is_begun(
    tmp_path: Path, drawn_kg: dict[int, int], late: list[tuple[int, int]]
) -> None:
    prices = "shop,food,package,price,seen\nCorner Shop,firm tofu,2 kg,4.00,2026-11-29\n"
    kitchen = open_kitchen(
        write_kitchen(tmp_path / "k", foods="- food: firm tofu\n  keep_days: 20\n", prices=prices)
    )
    (offer,) = kitchen.prices.offers
    drawings = tuple(Drawing(day, "tofu-rice", offer.id, 1, kg * 1_000_000) for day, kg in drawn_kg.items())
    plan = Plan((), (), (Purchase(1, offer.id, 2),), drawings)
    assert [(one.opened_day, one.drawn_day) for one in opened_too_long(kitchen, plan)] == late


def test_a_dish_is_found_by_name_id_or_beginning(tmp_path: Path) -> None:
    kitchen = open_kitchen(write_kitchen(tmp_path / "k", dishes=DISHES))
    for name in ("Lentil stew", "lentil-stew", "LENTIL STEW", "lentil"):
        assert find_dish(kitchen, name).name == "Lentil stew"
    with pytest.raises(BadField, match="did you mean 'Lentil stew'"):
        find_dish(kitchen, "lentel stew")
    with pytest.raises(BadField, match="the kitchen has Lentil stew, Egg rice"):
        find_dish(kitchen, "zzz")


def test_portions_frozen_later_count_from_their_cooking_day(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    week = decide_week(file, today=SATURDAY, seconds=5, without_dishes=["Egg rice"], days=2, accept=True)
    buy_day(file, 1)
    cook_day(file, 1)
    lot = next(h.lot.id for h in open_kitchen(file).ledger.holdings() if h.lot.unit is LotUnit.PORTION)
    held = move_lot(file, lot, Spot.FREEZER, today=date(2026, 12, 7)).ledger.holding(lot)
    assert held.use_by == date(2027, 2, 3)  # 60 days, the cooking day as day 1
    assert week.plan.batches[0].dish == "lentil-stew"


def test_what_is_thrown_out_is_lost_in_the_reckoning(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    decide_week(file, today=SATURDAY, seconds=5, accept=True)
    throw_lot(file, "egg", Cause.SPILT, today=SUNDAY, part="1")
    _, money = week_money(file)
    assert money.stock.cents("lost") == 22 + 90
    assert money.portions == 0
    assert money.per_portion_cents is None


def test_a_kitchen_that_is_not_there_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="no folder and no file"):
        open_kitchen(tmp_path / "nowhere")
