"""Split batches and unequal appetites in the ledger: names, containers, cents, marks, and what is eaten of which."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.week.split_week import kitchen_of, split_plan

from ladleworth.decide import Answer, Helping, Plan, Status, judge, judged, pose
from ladleworth.errors import LedgerError
from ladleworth.household import Kitchen
from ladleworth.ledger import Kind, LotUnit, Spot
from ladleworth.store import Store, record_json
from ladleworth.week import (
    PlannedWeek,
    buy_day,
    carry_out,
    cook_day,
    cooking_of,
    eat_day,
    load_folder,
    nights_of,
    preview_money,
)
from ladleworth.week.carry_out import buy_planned, cook_planned, eat_planned
from ladleworth.week.packing import Packed, batch_id, dish_of, packed, size_of

TWO_THIRDS = Fraction(2, 3)


@pytest.fixture
def kitchen(tmp_path: Path) -> Kitchen:
    return kitchen_of(tmp_path / "k")


def week_of(kitchen: Kitchen) -> PlannedWeek:
    question = pose(kitchen)
    plan = split_plan(question)
    costs = judged(question, plan)
    return PlannedWeek(kitchen, question, Answer(Status.GOOD, plan, costs, 0.0, 0.0, "planted"))


def lived(kitchen: Kitchen, plan: Plan, days: int) -> Kitchen:
    before = [lot.id for lot in kitchen.ledger.lots]
    for day in range(1, days + 1):
        for act in (buy_planned, cook_planned, eat_planned):
            kitchen = replace(kitchen, ledger=act(kitchen, plan, day, before).ledger)
    return kitchen


def test_the_planted_plan_keeps_every_rule(kitchen: Kitchen) -> None:
    question = pose(kitchen)
    assert judge(question, split_plan(question)).breaches == ()


def test_each_version_of_a_split_batch_is_a_batch_of_its_own_named_after_the_dish_first(
    kitchen: Kitchen,
) -> None:
    after = lived(kitchen, week_of(kitchen).plan, 1)
    assert after.ledger.batches == ("chili 2026-12-06 carrot", "chili 2026-12-06 onion")
    assert {dish_of(name) for name in after.ledger.batches} == {"chili"}


def test_a_batch_in_one_version_is_named_after_the_dish_and_the_day_alone() -> None:
    assert batch_id("chili", date(2026, 12, 6)) == "chili 2026-12-06"


def test_each_version_draws_its_own_foods(kitchen: Kitchen) -> None:
    after = lived(kitchen, week_of(kitchen).plan, 1)
    drawn = {
        (entry.batch, after.ledger.holding(entry.lot).lot.item): -entry.quantity
        for entry in after.ledger.movements
        if entry.kind is Kind.DRAWN
    }
    foods = {(batch, food) for batch, food in drawn}
    assert foods == {
        ("chili 2026-12-06 carrot", "lentils"),
        ("chili 2026-12-06 carrot", "carrot"),
        ("chili 2026-12-06 onion", "lentils"),
        ("chili 2026-12-06 onion", "onion"),
    }
    assert drawn["chili 2026-12-06 carrot", "lentils"] == 300_000
    assert drawn["chili 2026-12-06 onion", "lentils"] == 400_000


def test_as_many_containers_are_filled_as_there_are_helpings(kitchen: Kitchen) -> None:
    plan = week_of(kitchen).plan
    carrot, onion = plan.batches
    # three standard portions feed the child four times two thirds; the third that is over is shared out
    assert packed(kitchen, plan, carrot) == (
        Packed(frozen=False, size=TWO_THIRDS, count=3, weight=6),
        Packed(frozen=True, size=TWO_THIRDS, count=1, weight=2),
    )
    assert packed(kitchen, plan, onion) == (
        Packed(frozen=False, size=Fraction(1), count=3, weight=3),
        Packed(frozen=True, size=Fraction(1), count=1, weight=1),
    )


def test_whole_portions_that_nobody_eats_are_frozen_as_standard_ones(kitchen: Kitchen) -> None:
    plan = week_of(kitchen).plan
    larger = replace(plan.batches[0], portions=5)
    more = replace(plan, batches=(larger, plan.batches[1]))
    # 5 less 4 times 2/3 is 2 1/3: two standard portions, and the third is shared out
    assert packed(kitchen, more, larger) == (
        Packed(frozen=False, size=TWO_THIRDS, count=3, weight=6),
        Packed(frozen=True, size=Fraction(1), count=2, weight=6),
        Packed(frozen=True, size=TWO_THIRDS, count=1, weight=2),
    )


def test_a_container_carries_cents_by_what_is_in_it_and_cents_in_are_cents_out(kitchen: Kitchen) -> None:
    plan = week_of(kitchen).plan
    kid_too = tuple(replace(h, version="onion") if h.eater == "Kid" else h for h in plan.helpings)
    mixed = replace(plan, helpings=kid_too, batches=(replace(plan.batches[1], portions=7),))
    counts = packed(kitchen, mixed, mixed.batches[0])
    weights = {(kind.frozen, kind.size): Fraction(kind.weight, kind.count) for kind in counts}
    assert weights[False, TWO_THIRDS] / weights[False, Fraction(1)] == TWO_THIRDS
    after = lived(kitchen, plan, 1)
    lots = [lot for lot in after.ledger.lots if lot.unit is LotUnit.PORTION]
    drawn = -sum(entry.cents for entry in after.ledger.movements if entry.kind is Kind.DRAWN)
    assert sum(lot.cents for lot in lots) == drawn > 0


def test_everyone_eats_of_the_batch_and_the_container_that_is_theirs(kitchen: Kitchen) -> None:
    after = lived(kitchen, week_of(kitchen).plan, 4)
    eaten = {(e.day.day, e.who): e.lot for e in after.ledger.movements if e.kind is Kind.EATEN}
    assert eaten[6, "Ada"] == "chili 2026-12-06 onion chilled"
    assert eaten[6, "Kid"] == "chili 2026-12-06 carrot chilled 2/3"
    assert eaten[9, "Kid"] == "chili 2026-12-06 carrot frozen 2/3"
    assert len(eaten) == 8
    assert not [h for h in after.ledger.holdings() if h.lot.unit is LotUnit.PORTION]


def test_frozen_containers_lie_in_the_freezer_until_the_dish_says(kitchen: Kitchen) -> None:
    after = lived(kitchen, week_of(kitchen).plan, 1)
    held = after.ledger.holding("chili 2026-12-06 onion frozen")
    assert (held.standing.spot, held.use_by) == (Spot.FREEZER, date(2027, 2, 3))


def test_a_container_says_by_its_lot_what_it_holds() -> None:
    assert size_of("chili 2026-12-06 carrot frozen 2/3") == TWO_THIRDS
    assert size_of("chili 2026-12-06 carrot frozen 2/3-2") == TWO_THIRDS
    assert size_of("chili 2026-12-06 chilled") == 1
    assert size_of("egg-2") == 1


def test_a_plan_from_before_batches_were_split_still_finds_its_batch(kitchen: Kitchen) -> None:
    plan = week_of(kitchen).plan
    old = replace(
        plan,
        batches=(replace(plan.batches[1], portions=7),),
        helpings=tuple(replace(h, version=None) for h in plan.helpings),
        drawings=tuple(replace(d, version=None) for d in plan.drawings if d.version == "onion"),
    )
    after = lived(kitchen, old, 4)
    assert after.ledger.batches == ("chili 2026-12-06",)
    assert sum(e.kind is Kind.EATEN for e in after.ledger.movements) == 8


def test_portions_on_hand_are_eaten_from_their_own_lot(kitchen: Kitchen) -> None:
    first = week_of(kitchen).plan
    kept = replace(first, helpings=tuple(h for h in first.helpings if h.day < 4))
    rest = lived(kitchen, kept, 3)
    later = replace(rest, household=replace(rest.household, start=date(2026, 12, 10), days=2))
    portions = {lot.name: lot for lot in pose(later).portions}
    assert set(portions) == {"chili 2026-12-06 onion frozen", "chili 2026-12-06 carrot frozen"}
    lot = "chili 2026-12-06 onion frozen"
    plan = Plan((), (Helping(2, "Ada", "dinner", "chili", frozen=True, lot=lot),), (), ())
    done = eat_planned(later, plan, 2)
    assert done.ledger.holding(lot).quantity == portions[lot].portions - 1
    thawing = replace(plan, helpings=(replace(plan.helpings[0], lot=f"{lot} (thawing)", frozen=False),))
    assert eat_planned(later, thawing, 2).ledger.holding(lot).quantity == portions[lot].portions - 1
    with pytest.raises(LedgerError, match="already"):
        eat_planned(replace(later, ledger=done.ledger), plan, 2)


def test_a_dish_that_is_no_longer_for_freezing_is_not_frozen_unawares(kitchen: Kitchen) -> None:
    plan = week_of(kitchen).plan
    dish = replace(kitchen.dishes[0], freezer_days=None)
    kitchen = replace(kitchen, ledger=buy_planned(kitchen, plan, 1).ledger, dishes=(dish,))
    with pytest.raises(LedgerError, match="not for freezing any more"):
        cook_planned(kitchen, plan, 1)


def test_the_money_of_a_split_week_adds_up(kitchen: Kitchen) -> None:
    week = week_of(kitchen)
    money = preview_money(week)
    assert [(batch.version, batch.cost.portions) for batch in money.batches] == [("carrot", 4), ("onion", 4)]
    assert money.used_cents == sum(batch.cost.used_cents for batch in money.batches)
    assert money.till.cents("used") + money.stock.cents("used") == money.used_cents
    assert carry_out(kitchen, week.plan).ledger.batches == (
        "chili 2026-12-06 carrot",
        "chili 2026-12-06 onion",
    )


def test_what_was_cooked_is_marked_by_version(kitchen: Kitchen, tmp_path: Path) -> None:
    load_folder(tmp_path / "k", tmp_path / "k.db")
    week = week_of(kitchen)
    with Store.open(tmp_path / "k.db") as store, store.transaction():
        text = record_json.to_json(week.question)
        store.save_plan(date(2026, 12, 6), date(2026, 12, 6), week.answer, question=text, accepted=True)
    buy_day(tmp_path / "k.db", 1)
    cook_day(tmp_path / "k.db", 1)
    eat_day(tmp_path / "k.db", 1)
    with Store.open(tmp_path / "k.db") as store:
        (saved,) = store.plans()
    assert [mark.what for mark in saved.marks if mark.deed.value == "cooked"] == [
        "chili (carrot)",
        "chili (onion)",
    ]


def test_the_cooking_day_tells_containers_stations_and_what_is_made_differently(kitchen: Kitchen) -> None:
    (day,) = cooking_of(week_of(kitchen))
    assert [(batch.version, batch.portions, batch.chilled, batch.frozen) for batch in day.batches] == [
        ("carrot", 3, 3, 1),
        ("onion", 4, 3, 1),
    ]
    # two versions of a burner's 30 minutes and 2 a portion
    assert [(use.station, use.used_min, use.most_min) for use in day.stations] == [
        ("oven", 0, 120),
        ("burner", 2 * 30 + 2 * 7, 240),
    ]
    told = {str(one) for batch in day.batches for one in batch.differences}
    assert any("lentils chilled" in one for one in told)
    assert any("microwaved" in one or "lentils frozen" in one for one in told)


def test_containers_are_counted_by_size_and_state_and_room_by_the_night(kitchen: Kitchen) -> None:
    week = week_of(kitchen)
    first, *_, last = nights_of(week.question, week.plan)
    # four standard portions of 400 ml and three of two thirds: all fit the 500 ml boxes but one
    assert (first.chilled, first.frozen) == (4, 2)
    assert first.fridge_ml == 2 * 400 + 2 * 267
    assert first.freezer_ml == 400 + 267
    assert [(size.capacity_ml, size.chilled + size.frozen, size.clean) for size in first.sizes] == [
        (450, 6, 0),
        (900, 0, 4),
    ]
    assert (last.chilled, last.frozen, last.fridge_ml) == (0, 0, 0)


def test_portions_too_large_for_the_small_containers_take_the_large_ones_first(tmp_path: Path) -> None:
    from tests.unit.week.split_week import PAPERS

    fuller = PAPERS["dishes.yaml"].replace("400 ml", "600 ml")
    week = week_of(kitchen_of(tmp_path / "full", dishes_yaml=fuller))
    first = nights_of(week.question, week.plan)[0]
    # the child's 400 ml go into the small boxes, Ada's 600 ml into the large ones
    assert [(size.capacity_ml, size.chilled, size.frozen, size.clean) for size in first.sizes] == [
        (450, 2, 1, 3),
        (900, 2, 1, 1),
    ]
