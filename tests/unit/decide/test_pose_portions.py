"""How the portions on hand become the question: their days, who may have them, what they hold."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.store.papers import write

from ladleworth.decide import PortionLot, pose
from ladleworth.household import Kitchen
from ladleworth.ledger import Ledger, Lot, LotUnit, Portions, Spot, Take, cook, eat, move, reverse, take_stock
from ladleworth.store import read_folder

SUNDAY = date(2026, 12, 6)
FRIDAY, SATURDAY = date(2026, 12, 4), date(2026, 12, 5)
KITCHEN = """\
ladleworth: 1
currency: USD
start: 2026-12-06
days: 5
eaters:
  - name: Ada
  - name: Ben
    never: [egg]
  - name: Cem
    never: [milk]
slots: [{meals: [lunch, dinner]}]
sessions: [{day: 1, minutes: 90}]
"""
DISHES = """\
- dish: Fried rice
  portions: 4
  freezer_days: 60
  meals: [dinner]
  lines: [400 g rice]
  swaps:
    - {swap: egg, lines: [4 eggs]}
    - {swap: milk, lines: [200 g milk]}
    - {swap: plain, lines: ['salt, to taste']}
"""
STOCK = """\
food,amount,cost,use_by,got
rice,2 kg,4.00,none,2026-12-01
egg,10,3.00,none,2026-12-01
milk,1 kg,1.00,none,2026-12-01
onion,1 kg,1.00,none,2026-12-01
"""
BATCH = "fried-rice 2026-12-05"


def kitchen(tmp_path: Path, more: str = "", text: str = KITCHEN) -> Kitchen:
    papers = {"kitchen.yaml": text + more, "dishes.yaml": DISHES, "stock.csv": STOCK}
    held = read_folder(write(tmp_path, papers)).without_faults()
    opening = take_stock(
        Ledger(), FRIDAY, [replace(lot, id=lot.item.partition("-")[0]) for lot in held.ledger.lots]
    )
    return replace(held, ledger=opening.ledger)


def cooked(held: Kitchen, *foods: str, spot: Spot = Spot.FRIDGE, last: date | None = None) -> Kitchen:
    """Cook three portions on the eve of the plan, with something of each food."""
    takes = [Take(food, 2 if food == "egg" else 100_000) for food in foods]
    made = [Portions("box", 3, spot, last)]
    return replace(held, ledger=cook(held.ledger, SATURDAY, BATCH, made, takes=takes).ledger)


def test_chilled_portions_are_for_the_first_day_on_and_frozen_ones_for_the_second(tmp_path: Path) -> None:
    held = kitchen(tmp_path)
    chilled = pose(cooked(held, "rice", "egg", last=date(2026, 12, 8))).portions
    # 100 g of rice for 20 cents and two eggs for 60.
    assert chilled == (
        PortionLot("box", "fried-rice", 3, 80, 1, 3, barred=frozenset({"Ben"}), meals=frozenset({"dinner"})),
    )
    (frozen,) = pose(cooked(held, "rice", "egg", spot=Spot.FREEZER)).portions
    assert (frozen.frozen, frozen.first_day, frozen.last_day) == (True, 2, None)


def test_a_portion_that_is_thawing_in_the_fridge_is_for_the_first_day(tmp_path: Path) -> None:
    held = cooked(kitchen(tmp_path), "rice", spot=Spot.FREEZER)
    moved = move(held.ledger, SATURDAY, "box", Spot.FRIDGE, use_by=SUNDAY, quantity=1, new_lot_id="thawing")
    thawing, rest = sorted(pose(replace(held, ledger=moved.ledger)).portions, key=lambda lot: lot.frozen)
    assert (thawing.portions, thawing.frozen, thawing.first_day, thawing.last_day) == (1, False, 1, 1)
    assert (rest.portions, rest.frozen, rest.first_day) == (2, True, 2)


def test_what_spoilt_before_the_first_day_and_what_is_eaten_is_left_out(tmp_path: Path) -> None:
    held = kitchen(tmp_path)
    assert pose(cooked(held, "rice", last=SATURDAY)).portions == ()
    assert [lot.portions for lot in pose(cooked(held, "rice", last=SUNDAY)).portions] == [3]
    some = cooked(held, "rice")
    left = eat(some.ledger, SUNDAY, "box", 2).ledger
    (lot,) = pose(replace(some, ledger=left)).portions
    assert (lot.portions, lot.cents) == (
        1,
        some.ledger.holding("box").cents - 2 * some.ledger.holding("box").cents // 3,
    )


@pytest.mark.parametrize(
    ("foods", "barred"),
    [
        (("rice", "egg"), {"Ben"}),
        (("rice", "milk"), {"Cem"}),
        (("rice",), set()),
        (("rice", "egg", "milk"), {"Ben", "Cem"}),  # fits no version
        (("rice", "onion"), {"Ben", "Cem"}),  # nor does this one: any version bars
    ],
)
def test_the_foods_drawn_tell_which_version_it_is_and_who_may_not_have_it(
    tmp_path: Path, foods: tuple[str, ...], barred: set[str]
) -> None:
    (lot,) = pose(cooked(kitchen(tmp_path), *foods)).portions
    assert lot.barred == barred


def test_portions_that_nothing_was_drawn_for_are_barred_as_any_version_is(tmp_path: Path) -> None:
    held = kitchen(tmp_path)
    found = Lot("found", BATCH, LotUnit.PORTION, Spot.FRIDGE, SATURDAY, 2, 0)
    (lot,) = pose(replace(held, ledger=take_stock(held.ledger, SATURDAY, [found]).ledger)).portions
    assert lot.barred == {"Ben", "Cem"}
    assert lot.dish == "fried-rice"


def test_draws_that_were_taken_back_count_for_nothing(tmp_path: Path) -> None:
    held = cooked(kitchen(tmp_path), "rice", "egg")
    undone = reverse(held.ledger, SATURDAY, held.ledger.movements[-1].id).ledger
    again = cook(
        undone, SATURDAY, BATCH, [Portions("box 2", 3, Spot.FRIDGE, None)], takes=[Take("rice", 100_000)]
    )
    (lot,) = pose(replace(held, ledger=again.ledger)).portions
    assert (lot.name, lot.barred) == ("box 2", frozenset())


def test_a_batch_into_which_other_portions_went_is_barred_to_whoever_has_an_exclusion(tmp_path: Path) -> None:
    held = kitchen(tmp_path)
    old = Lot("old", "stew 2026-12-01", LotUnit.PORTION, Spot.FRIDGE, FRIDAY, 1, 50)
    held = replace(held, ledger=take_stock(held.ledger, FRIDAY, [old]).ledger)
    made = [Portions("box", 3, Spot.FRIDGE, None)]
    takes = [Take("rice", 100_000), Take("old", 1)]
    (lot,) = pose(replace(held, ledger=cook(held.ledger, SATURDAY, BATCH, made, takes=takes).ledger)).portions
    assert lot.barred == {"Ben", "Cem"}


def test_portions_of_a_dish_that_is_gone_are_barred_to_whoever_has_an_exclusion(tmp_path: Path) -> None:
    held = kitchen(tmp_path, "rules: {fridge_room: 9 l}\n")
    old = Lot("old", "stew 2026-12-01", LotUnit.PORTION, Spot.FREEZER, SATURDAY, 2, 50)
    question = pose(replace(held, ledger=take_stock(held.ledger, SATURDAY, [old]).ledger))
    (lot,) = question.portions
    assert (lot.dish, lot.barred, lot.meals, dict(lot.nutrients)) == ("stew", {"Ben", "Cem"}, None, {})
    largest = max(version.volume_ml for version in question.dish("fried-rice").versions)
    assert lot.volume_ml == largest > 0


def test_nutrients_and_volume_are_those_of_the_version_or_of_what_all_agree_on(tmp_path: Path) -> None:
    text = KITCHEN.replace(
        "name: Ada", "{name: Ada, bounds: {energy: {most: 900 kcal}, sodium: {most: 2 g}}}"
    )
    held = kitchen(tmp_path, "rules: {freezer_room: 9 l}\n", text)
    question = pose(cooked(held, "rice", "egg"))
    egg = question.version("fried-rice", "egg")
    assert (question.portions[0].nutrients, question.portions[0].volume_ml) == (egg.nutrients, egg.volume_ml)
    (plain,) = pose(cooked(held, "rice")).portions
    assert dict(plain.nutrients) == {"energy_kcal": Fraction(365)}
    (unsure,) = pose(cooked(held, "rice", "onion")).portions
    assert dict(unsure.nutrients) == {}
    assert unsure.volume_ml == max(version.volume_ml for version in question.dish("fried-rice").versions)


def test_a_container_filled_for_an_appetite_has_that_part_of_nutrients_and_room(tmp_path: Path) -> None:
    text = KITCHEN.replace("name: Ada", "{name: Ada, bounds: {energy: {most: 900 kcal}}}")
    held = kitchen(tmp_path, "rules: {fridge_room: 9 l}\n", text)
    made = [
        Portions(f"{BATCH} chilled", 1, Spot.FRIDGE, None),
        Portions(f"{BATCH} chilled 2/3", 2, Spot.FRIDGE, None),
    ]
    entered = cook(held.ledger, SATURDAY, BATCH, made, takes=[Take("rice", 100_000)])
    standard, smaller = sorted(pose(replace(held, ledger=entered.ledger)).portions, key=lambda lot: lot.name)
    assert (standard.portions, smaller.portions) == (1, 2)
    assert dict(standard.nutrients) == {"energy_kcal": Fraction(365)}
    assert dict(smaller.nutrients) == {"energy_kcal": Fraction(730, 3)}
    assert 0 < smaller.volume_ml == -(-standard.volume_ml * 2 // 3)


def test_a_part_of_a_sized_lot_moved_elsewhere_is_of_that_size_still(tmp_path: Path) -> None:
    held = kitchen(tmp_path, "rules: {freezer_room: 9 l}\n")
    made = [Portions(f"{BATCH} frozen 3/2", 2, Spot.FREEZER, None)]
    entered = cook(held.ledger, SATURDAY, BATCH, made, takes=[Take("rice", 100_000)])
    moved = move(
        entered.ledger,
        SATURDAY,
        f"{BATCH} frozen 3/2",
        Spot.FRIDGE,
        use_by=SUNDAY,
        quantity=1,
        new_lot_id=f"{BATCH} frozen 3/2-2",
    )
    one, other = pose(replace(held, ledger=moved.ledger)).portions
    assert one.volume_ml == other.volume_ml
    question = pose(held)
    assert one.volume_ml == -(-question.version("fried-rice", "plain").volume_ml * 3 // 2)
