"""The further rules of the house, each alone through the whole decision, as in `test_model_rules.py`."""

from __future__ import annotations

import ast
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from tests.model.decided import cost, no_plan, refused
from tests.unit.decide.weeks import BEANS, PORTION, RICE, pack, rules, sessions, slots, stew, week

import ladleworth.decide
from ladleworth.decide import (
    Additions,
    ContainerSize,
    CookSession,
    DishChoice,
    Load,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
    PortionLot,
    Question,
    StockLot,
    Wish,
)


def with_version(dish: DishChoice, **fields: object) -> DishChoice:
    """The dish with something more said of its one version."""
    (version,) = dish.versions
    return replace(dish, versions=(replace(version, **fields),))  # type: ignore[arg-type]


def two(*wishes: Wish, **fields: object) -> Question:
    """Rice stew at 10 and bean bake at 25 a portion, three days."""
    usual: dict[str, object] = {
        "slots": slots(1, 2, 3),
        "dishes": (stew(), stew({"beans": PORTION}, name="bake")),
        "foods": (RICE, BEANS),
        "offers": (pack(10), pack(25, "beans")),
        "wishes": wishes,
    }
    return week(**(usual | fields))


def test_a_station_has_its_minutes() -> None:
    # Ten minutes of the oven and five a portion: 20 are enough for two portions, 25 for all three.
    dish = with_version(stew(), loads={"oven": Load(Fraction(10), Fraction(5))})

    def oven(minutes: int | None) -> Question:
        there = {} if minutes is None else {"oven": minutes}
        return week(slots=slots(1, 2, 3), dishes=(dish,), sessions=(CookSession(1, 60, there),))

    assert cost(oven(None)) == cost(oven(25)) == 30
    assert cost(oven(24)) == cost(oven(20)) == 2 * 10 + 300
    assert cost(oven(14)) == 3 * 300
    assert refused(oven(24), ignoring=oven(25)) == "stations"


def test_a_portion_needs_a_container_that_is_large_enough() -> None:
    # 500 ml a portion; two wait on the first night. A small box holds none of them.
    dish = with_version(stew(), volume_ml=500)

    def boxes(*sizes: tuple[int, int]) -> Question:
        there = tuple(ContainerSize(capacity, count) for capacity, count in sizes)
        return week(slots=slots(1, 2, 3), dishes=(dish,), rules=rules(container_sizes=there))

    assert cost(boxes((500, 2))) == 30
    assert cost(boxes((400, 9), (500, 1))) == 2 * 10 + 300
    assert cost(boxes((499, 9))) == 10 + 2 * 300
    assert refused(boxes((400, 9), (500, 1)), ignoring=boxes((400, 9), (500, 2))) == "sizes"


def test_portions_take_room_in_the_fridge() -> None:
    # Two portions of 500 ml wait on the first night, one on the second.
    dish = with_version(stew(), volume_ml=500)

    def fridge(volume: int | None) -> Question:
        return week(slots=slots(1, 2, 3), dishes=(dish,), rules=rules(fridge_ml=volume))

    assert cost(fridge(None)) == cost(fridge(1000)) == 30
    assert cost(fridge(999)) == cost(fridge(500)) == 2 * 10 + 300
    assert cost(fridge(499)) == 10 + 2 * 300
    assert refused(fridge(999), ignoring=fridge(1000)) == "room"


def test_what_does_not_fit_into_the_fridge_may_be_frozen() -> None:
    # Of the portions of days 2 and 3 the second can be frozen; thawing on the second night it is in the fridge alone.
    dish = with_version(stew(freezer_days=30), volume_ml=500)

    def room(fridge: int, freezer: int | None) -> Question:
        return week(slots=slots(1, 2, 3), dishes=(dish,), rules=rules(fridge_ml=fridge, freezer_ml=freezer))

    assert cost(room(500, 500)) == cost(room(500, None)) == 30
    assert cost(room(500, 499)) == 2 * 10 + 300
    assert refused(room(500, 499), ignoring=room(500, 500)) == "room"


def test_the_freezer_is_not_loaded_with_more_than_it_freezes_in_a_day() -> None:
    # Stew keeps for its own day alone: what is eaten from day 3 on is frozen.
    def load(most: int | None, *days: int) -> Question:
        return week(
            days=5,
            slots=slots(3, 4, 5),
            dishes=(stew(keep_days=1, freezer_days=30),),
            sessions=sessions(*(days or (1,))),
            rules=rules(freezing_load=most),
        )

    assert cost(load(None)) == cost(load(3)) == 30
    assert cost(load(2)) == 2 * 10 + 300
    assert cost(load(2, 1, 2)) == 30
    assert refused(load(2), ignoring=load(3)) == "freezing load"


def test_a_reserve_is_part_of_the_load_of_the_freezer() -> None:
    question = week(
        dishes=(stew(freezer_days=30),), additions=Additions(reserve_portions=2, reserve_cents=40)
    )
    assert cost(question) == 10 - 2 * 30
    assert cost(replace(question, rules=rules(freezing_load=1))) == 10 - 30


def protein(of_stew: int, of_bake: int | None) -> tuple[DishChoice, ...]:
    figures: Mapping[str, Fraction] = {} if of_bake is None else {"protein": Fraction(of_bake)}
    return (
        with_version(stew(), nutrients={"protein": Fraction(of_stew)}),
        with_version(stew({"beans": PORTION}, name="bake"), nutrients=figures),
    )


def bound(least: int | None, most: int | None = None, eater: str = "Ada") -> dict[str, object]:
    one = NutrientBound(
        eater,
        "protein",
        None if least is None else Fraction(least),
        None if most is None else Fraction(most),
    )
    return {"rules": rules(nutrient_bounds=(one,))}


def test_what_an_eater_has_averages_within_the_bounds() -> None:
    # Three helpings of 10 or of 30: 17 on average takes two bakes (23), 16 takes one (16 2/3).
    dishes = protein(10, 30)
    assert cost(two(dishes=dishes)) == cost(two(dishes=dishes, **bound(10))) == 30
    assert cost(two(dishes=dishes, **bound(16))) == 10 + 10 + 25
    assert cost(two(dishes=dishes, **bound(17))) == 10 + 25 + 25
    assert refused(two(dishes=dishes, **bound(17)), ignoring=two(dishes=dishes)) == "nutrients"
    # Turned round: rather bake at 25 than stew at 30, and no more than 20 on average.
    assert cost(two(dishes=protein(30, 10), **bound(None, 20))) == 10 + 25 + 25
    assert cost(two(dishes=dishes, **bound(31))) == 3 * 300
    # Ben wants what no dish brings, and eats out; that is nothing to Ada. With 30 he has bake, one portion of his own.
    both = (*slots(1, 2, 3), *slots(3, eater="Ben"))
    assert cost(two(dishes=dishes, slots=both, **bound(31, eater="Ben"))) == 30 + 300
    assert cost(two(dishes=dishes, slots=both, **bound(30, eater="Ben"))) == 30 + 25


def test_a_figure_that_nobody_has_is_no_zero() -> None:
    assert cost(two(dishes=protein(30, None), **bound(None, 20))) == 3 * 300
    assert cost(two(dishes=protein(30, 0), **bound(None, 20))) == 10 + 10 + 25


def test_an_appetite_counts_as_a_part_of_a_portion_and_is_bought_in_whole_ones() -> None:
    def eats(factor: Fraction) -> Question:
        return week(slots=slots(1, 2, 3), appetites={"Ada": factor})

    assert cost(eats(Fraction(1))) == 30
    assert cost(eats(Fraction(1, 2))) == 20  # one and a half portions
    assert cost(eats(Fraction(4, 3))) == 40
    assert cost(eats(Fraction(5, 3))) == 50


@pytest.mark.parametrize(
    ("wish", "cents"),
    [
        (MustCook("bake"), 25 + 2 * 10),
        (MustCook("bake", 1, "plain", 3), 3 * 25),
        (MustNotCook("stew"), 3 * 25),
        (MustNotCook("stew", 2), 3 * 10),
        (MustServe(2, "Ada", "supper", None), 2 * 10 + 300),
        (MustServe(2, "Ada", "supper", "bake"), 2 * 10 + 25),
        (MustBuy(1, "beans pack", 2), 3 * 10),
    ],
    ids=lambda given: str(given) if isinstance(given, int) else type(given).__name__,
)
def test_a_wish_is_kept_at_the_least_that_it_costs(wish: Wish, cents: int) -> None:
    # Beans that are bought and not used are carried at what they cost.
    assert cost(two(wish)) == cents


def test_a_wish_to_use_a_lot_is_kept_though_a_package_is_cheaper() -> None:
    lots = (StockLot("old", "rice", 2 * PORTION, 100),)

    def used(*wishes: Wish) -> Question:
        return two(*wishes, lots=lots)

    assert cost(used()) == 30 - 100
    assert cost(used(MustUse("old", PORTION))) == 20 - 50
    assert cost(used(MustUse("old", 2 * PORTION))) == 10
    assert refused(used(MustUse("old", PORTION)), ignoring=used()) == "wishes"


@pytest.mark.parametrize(
    "wishes",
    [
        (MustServe(2, "Ada", "supper", "stew"), MustNotCook("stew")),
        (MustCook("stew", 1, None, 9),),
        (MustBuy(2, "rice pack", 1),),
        (MustUse("old", PORTION + 1),),
    ],
    ids=["served and not cooked", "nine portions", "no session", "more than there is"],
)
def test_a_wish_that_cannot_be_kept_leaves_no_plan(wishes: tuple[Wish, ...]) -> None:
    assert no_plan(two(*wishes, lots=(StockLot("old", "rice", PORTION, 10),)))


def test_portions_on_hand_are_eaten_before_they_are_lost() -> None:
    # One of the two spoils on day 2 unless it is eaten; both are worth 80.
    def box(**fields: object) -> Question:
        lot = PortionLot("box", "curry", 2, 80, **fields)  # type: ignore[arg-type]
        return week(slots=slots(1, 2, 3), portions=(lot,))

    assert cost(box(last_day=2)) == 10  # both are eaten, one portion is cooked
    assert cost(box(last_day=1)) == 40 + 2 * 10
    assert cost(box()) == 3 * 10 - 80  # rice is cheaper, so they are carried on
    assert cost(box(first_day=3, last_day=3)) == 40 + 2 * 10
    assert cost(box(last_day=2, barred=frozenset({"Ada"}))) == 80 + 3 * 10


# -- the whole ----------------------------------------------------------------------------------------


def test_for_every_rule_of_the_judge_some_week_is_refused() -> None:
    def calls(node: object, name: str) -> bool:
        return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == name

    room = Path(ladleworth.decide.__file__).parent
    named = {
        node.args[0].value  # type: ignore[attr-defined]
        for module in room.glob("judge*.py")
        for node in ast.walk(ast.parse(module.read_text("utf-8")))
        if calls(node, "Breach")
    }
    planted = {
        compared.comparators[0].value  # type: ignore[attr-defined]
        for module in Path(__file__).parent.glob("test_*model_rules.py")
        for compared in ast.walk(ast.parse(module.read_text("utf-8")))
        if isinstance(compared, ast.Compare) and calls(compared.left, "refused")
    }
    assert len(named) >= 22
    assert planted == named
