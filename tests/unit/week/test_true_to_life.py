"""The week's money after life went on: portions thrown out, a second week, packages opened, food put away."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from ladleworth.ledger import Cause, Spot, throw_out
from ladleworth.reckon import Reckoning
from ladleworth.store import Store
from ladleworth.week import buy_day, change_stock, cook_day, decide_week, eat_day, load_folder, week_money

PLAIN = Path(__file__).resolve().parents[3] / "examples" / "plain"
TODAY = date(2026, 12, 6)


@pytest.fixture
def kitchen_file(tmp_path: Path) -> Path:
    file = tmp_path / "kitchen.db"
    load_folder(PLAIN, file)
    decide_week(file, today=TODAY, seconds=20, accept=True)
    return file


def rows(table: Reckoning) -> dict[str, int]:
    return {row.label: row.cents for row in table.rows}


def live(file: Path, days: range) -> None:
    buy_day(file, 1)
    cook_day(file, 1)
    for day in days:
        eat_day(file, day)


def test_portions_thrown_out_are_lost_and_no_longer_used(kitchen_file: Path) -> None:
    live(kitchen_file, range(1, 3))
    _, before = week_money(kitchen_file)
    with Store.open(kitchen_file) as store:
        left = next(h for h in store.ledger().holdings() if h.lot.unit.value == "portion" and h.quantity)
    change_stock(kitchen_file, lambda ledger: throw_out(ledger, date(2026, 12, 7), left.lot.id, Cause.BURNT))
    _, after = week_money(kitchen_file)
    lost = sum(rows(t)["lost"] for t in (after.till, after.stock)) - sum(
        rows(t)["lost"] for t in (before.till, before.stock)
    )
    used = sum(rows(t)["used"] for t in (after.till, after.stock)) - sum(
        rows(t)["used"] for t in (before.till, before.stock)
    )
    assert lost == left.cents > 0
    assert used == -left.cents
    assert after.till.total_cents == before.till.total_cents


def test_a_second_week_is_reckoned_without_the_first(kitchen_file: Path) -> None:
    live(kitchen_file, range(1, 5))
    _, first = week_money(kitchen_file)
    assert rows(first.till)["used"] > 0
    start = date(2026, 12, 13)
    decide_week(kitchen_file, today=start, start=start, seconds=20, accept=True)
    _, second = week_money(kitchen_file)
    assert rows(second.till) == dict.fromkeys(("used", "carried over", "lost", "given away"), 0)
    assert rows(second.stock)["used"] == 0
    carried = rows(first.till)["carried over"] + rows(first.stock)["carried over"]
    assert second.stock.total_cents <= carried
    buy_day(kitchen_file, 1)
    cook_day(kitchen_file, 1)
    _, cooked = week_money(kitchen_file)
    drawn = sum(rows(t)["used"] for t in (cooked.till, cooked.stock))
    assert drawn == cooked.used_cents > 0


TIN = {
    "kitchen.yaml": """
ladleworth: 1
name: One tin
currency: USD
start: 2026-12-06
days: 2
eaters: [{name: Ada}]
slots: [{meals: [dinner]}]
sessions: [{day: 1, minutes: 60}]
shops: [{name: Corner}]
""",
    "dishes.yaml": "dish: Beans\nleast: 2\nper_portion: {canned black beans: 100 g}\n",
    "prices.csv": "shop,food,package,price,seen\nCorner,canned black beans,150 g,1.00,2026-12-01\n",
}


def test_a_tin_begun_in_the_last_session_is_open_afterwards_with_its_published_days(tmp_path: Path) -> None:
    # Two portions take 200 g of two tins of 150 g: one tin is left with 100 g, open.
    folder = tmp_path / "tin"
    folder.mkdir()
    for name, text in TIN.items():
        (folder / name).write_text(text)
    file = tmp_path / "tin.db"
    load_folder(folder, file)
    decide_week(file, today=TODAY, seconds=10, accept=True)
    live(file, range(1, 3))
    with Store.open(file) as store:
        kitchen = store.load_kitchen()
    (held,) = [h for h in kitchen.ledger.holdings() if h.quantity]
    days = kitchen.foods.keeping(held.lot.item, "fridge", "opened").most_days
    assert held.quantity == 100_000
    assert held.standing.opened_on == TODAY
    assert held.use_by is not None
    assert (held.use_by - TODAY).days + 1 == days
    _, money = week_money(file)
    assert rows(money.till) == {"used": 133, "carried over": 67, "lost": 0, "given away": 0}


def test_what_is_bought_goes_where_its_keeping_time_is_for(kitchen_file: Path) -> None:
    buy_day(kitchen_file, 1)
    with Store.open(kitchen_file) as store:
        spots = {h.lot.item: h.standing.spot for h in store.ledger().holdings() if h.lot.shop}
    assert spots
    assert {item: spot for item, spot in spots.items() if item in ("onion", "potato")} == {
        item: Spot.CUPBOARD for item in spots if item in ("onion", "potato")
    }
    assert all(spot is Spot.FRIDGE for item, spot in spots.items() if item in ("egg", "carrot"))


def test_a_week_decided_again_after_its_shopping_goes_by_the_new_plan(kitchen_file: Path) -> None:
    buy_day(kitchen_file, 1)
    again = decide_week(kitchen_file, today=TODAY, seconds=20, accept=True)
    assert not [p for p in again.plan.purchases if p.day == 1 and p.packages > 1]
    buy_day(kitchen_file, 1)
    cook_day(kitchen_file, 1)
    _, money = week_money(kitchen_file)
    assert money.portions == 8
    assert money.till.total_cents == sum(row.cents for row in money.till.rows)
