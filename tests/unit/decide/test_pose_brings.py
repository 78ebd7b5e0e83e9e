"""How what helpings bring becomes the question: bounds as shares, figures of versions and of portions on hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.store.papers import write

from ladleworth.decide import NutrientBound, pose
from ladleworth.decide.pose import without_figures
from ladleworth.household import Kitchen
from ladleworth.ledger import Ledger, Lot, LotUnit, Portions, Spot, Take, cook, take_stock
from ladleworth.store import read_folder

FRIDAY, SATURDAY = date(2026, 12, 4), date(2026, 12, 5)
KITCHEN = """\
ladleworth: 1
currency: USD
start: 2026-12-06
days: 5
eaters:
  - name: Ada
    bounds: {fresh: {least: 50%}}
  - name: Ben
    appetite: 1/2
    bounds: {energy: {most: 900 kcal}, fresh: {most: 100%}, crunch: {least: 0%}}
slots: [{meals: [dinner]}]
sessions: [{day: 1, minutes: 90}]
"""
DISHES = """\
- dish: Rice bowl
  portions: 4
  parts:
    - part: base
      lines: [400 g rice]
    - part: top
      swaps:
        - {swap: slaw, lines: [400 g carrots], brings: [fresh, crunch, colour]}
        - {swap: herbs, lines: ['parsley, to taste'], brings: [fresh]}
        - {swap: onion, lines: [200 g onion]}
        - {swap: plain, lines: []}
"""
STOCK = """\
food,amount,cost,use_by,got
rice,2 kg,4.00,none,2026-12-01
carrots,1 kg,1.00,none,2026-12-01
onion,1 kg,1.00,none,2026-12-01
"""
BATCH = "rice-bowl 2026-12-05"


def kitchen(tmp_path: Path, text: str = KITCHEN, dishes: str = DISHES) -> Kitchen:
    papers = {"kitchen.yaml": text, "dishes.yaml": dishes, "stock.csv": STOCK}
    held = read_folder(write(tmp_path, papers)).without_faults()
    lots = [replace(lot, id=lot.item.partition("-")[0]) for lot in held.ledger.lots]
    return replace(held, ledger=take_stock(Ledger(), FRIDAY, lots).ledger)


def cooked(held: Kitchen, *foods: str, lot: str = "box") -> Kitchen:
    made = [Portions(lot, 3, Spot.FRIDGE, None)]
    takes = [Take(food, 100_000) for food in foods]
    return replace(held, ledger=cook(held.ledger, SATURDAY, BATCH, made, takes=takes).ledger)


def test_shares_are_bounds_and_every_version_says_whether_it_brings_it(tmp_path: Path) -> None:
    question = pose(kitchen(tmp_path))
    assert question.rules.nutrient_bounds == (
        NutrientBound("Ada", "fresh", Fraction(1, 2), share=True),
        NutrientBound("Ben", "energy_kcal", None, Fraction(900)),
        NutrientBound("Ben", "fresh", None, Fraction(1), share=True),
        NutrientBound("Ben", "crunch", Fraction(0), share=True),
    )
    brings = {
        version.name: (version.nutrients["fresh"], version.nutrients["crunch"])
        for version in question.dish("rice-bowl").versions
    }
    assert brings == {"slaw": (1, 1), "herbs": (1, 0), "onion": (0, 0), "plain": (0, 0)}
    # nobody has a bound on colour
    assert set(question.version("rice-bowl", "slaw").nutrients) == {"energy_kcal", "fresh", "crunch"}


def test_without_a_bound_on_them_the_question_is_the_one_that_it_was(tmp_path: Path) -> None:
    plain = KITCHEN.replace("    bounds: {fresh: {least: 50%}}\n", "")
    plain = plain.replace(", fresh: {most: 100%}, crunch: {least: 0%}", "")
    says_nothing = DISHES.replace(", brings: [fresh, crunch, colour]", "").replace(", brings: [fresh]", "")
    assert says_nothing.count("brings") == 0
    asked = pose(kitchen(tmp_path / "a", plain))
    assert asked == pose(kitchen(tmp_path / "b", plain, says_nothing))
    assert set(asked.version("rice-bowl", "slaw").nutrients) == {"energy_kcal"}


def test_what_a_version_brings_is_never_without_a_figure(tmp_path: Path) -> None:
    text = KITCHEN.replace("energy: {most: 900 kcal}, ", "")
    assert without_figures(kitchen(tmp_path, text)) == ()


def test_who_has_no_slot_has_no_appetite_and_no_bounds_in_the_question(tmp_path: Path) -> None:
    question = pose(kitchen(tmp_path, KITCHEN.replace("meals: [dinner]", "meals: [dinner], eaters: [Ada]")))
    assert dict(question.appetites) == {}
    assert [bound.eater for bound in question.rules.nutrient_bounds] == ["Ada"]


@pytest.mark.parametrize(
    ("foods", "brought"),
    [
        (("rice", "carrot"), {"fresh": 1, "crunch": 1}),
        (("rice", "onion"), {"fresh": 0, "crunch": 0}),
        # of rice alone it is plain, or herbs of which nothing was measured: only crunch is out of the question
        (("rice",), {"crunch": 0}),
        # as no version is made: it may be any
        (("rice", "carrot", "onion"), {}),
    ],
    ids=["slaw", "onion", "herbs or plain", "none of them"],
)
def test_portions_on_hand_bring_what_all_versions_that_they_may_be_bring(
    tmp_path: Path, foods: tuple[str, ...], brought: dict[str, int]
) -> None:
    (lot,) = pose(cooked(kitchen(tmp_path), *foods)).portions
    known = {name: figure for name, figure in lot.nutrients.items() if name != "energy_kcal"}
    assert known == brought


def test_a_container_filled_for_a_small_appetite_is_as_fresh_as_any(tmp_path: Path) -> None:
    held = kitchen(tmp_path)
    (small,) = pose(cooked(held, "rice", "carrot", lot=f"{BATCH} chilled 1/2")).portions
    standard = pose(held).version("rice-bowl", "slaw")
    assert small.nutrients["fresh"] == small.nutrients["crunch"] == 1
    assert small.nutrients["energy_kcal"] == standard.nutrients["energy_kcal"] / 2


def test_nobody_knows_what_portions_of_a_dish_that_is_gone_bring_or_of_other_portions(tmp_path: Path) -> None:
    held = kitchen(tmp_path)
    old = Lot("old", "stew 2026-12-01", LotUnit.PORTION, Spot.FRIDGE, FRIDAY, 1, 50)
    held = replace(held, ledger=take_stock(held.ledger, FRIDAY, [old]).ledger)
    (gone,) = pose(held).portions
    assert dict(gone.nutrients) == {}
    made = [Portions("box", 3, Spot.FRIDGE, None)]
    takes = [Take("rice", 100_000), Take("carrot", 100_000), Take("old", 1)]
    ledger = cook(held.ledger, SATURDAY, BATCH, made, takes=takes).ledger
    (mixed,) = pose(replace(held, ledger=ledger)).portions
    assert dict(mixed.nutrients) == {}
