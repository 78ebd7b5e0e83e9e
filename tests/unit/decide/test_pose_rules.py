"""How the wider rules of a household become the question: appetites, sizes, room, weeks, stations, splits, bounds."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.store.papers import write

from ladleworth.decide import (
    Batch,
    ContainerSize,
    CookSession,
    HouseRules,
    Load,
    NutrientBound,
    Plan,
    Question,
    pose,
)
from ladleworth.decide.pose import without_figures
from ladleworth.decide.verdict import session_min
from ladleworth.errors import MissingFact
from ladleworth.household import Kitchen, Rules
from ladleworth.store import read_folder

KITCHEN = """\
ladleworth: 1
currency: USD
start: 2026-12-06
days: 5
eaters:
  - name: Ada
  - name: Ben
slots: [{meals: [dinner]}]
sessions: [{day: 1, minutes: 90}, {day: 3, minutes: 60}]
"""
# Two swaps; the second one takes salt 'to taste', of which nobody knows the sodium.
DISHES = """\
- dish: Bake
  portions: 4
  hands_on: {fixed: 15, per_portion: 2}
  oven: 30 min
  parts:
    - part: base
      lines: [400 g rice]
      burners: {fixed: 12, per_portion: 1/2}
    - part: top
      swaps:
        - {swap: egg, lines: [4 eggs], hands_on: {fixed: 5, per_portion: 1}, oven: {per_portion: 3}}
        - {swap: plain, lines: ['salt, to taste']}
- dish: Pan
  per_portion: {rice: 80 g}
"""


def kitchen(tmp_path: Path, more: str = "", dishes: str = DISHES, text: str = KITCHEN) -> Kitchen:
    folder = write(tmp_path / "kitchen", {"kitchen.yaml": text + more, "dishes.yaml": dishes})
    return read_folder(folder).without_faults()


def asked(tmp_path: Path, more: str = "", dishes: str = DISHES, text: str = KITCHEN) -> Question:
    return pose(kitchen(tmp_path, more, dishes, text))


def test_a_household_that_sets_none_of_them_asks_as_before(tmp_path: Path) -> None:
    question = asked(tmp_path)
    assert question.rules == HouseRules()
    assert (question.portions, dict(question.appetites), question.wishes) == ((), {}, ())
    assert question.sessions == (CookSession(1, 90), CookSession(3, 60))
    for dish in question.dishes:
        assert (dish.most_versions, dish.shared_min) == (1, 0)
        for version in dish.versions:
            assert (dict(version.loads), dict(version.nutrients), version.volume_ml) == ({}, {}, 0)


def test_an_appetite_other_than_a_standard_portion_is_handed_on(tmp_path: Path) -> None:
    text = KITCHEN.replace("name: Ben", "{name: Ben, appetite: 75%}")
    assert dict(asked(tmp_path, text=text).appetites) == {"Ben": Fraction(3, 4)}


def test_containers_of_one_capacity_count_together_and_all_of_them_are_the_containers(tmp_path: Path) -> None:
    more = "rules: {headspace: 20%, containers: [{size: 1 l, count: 2}, {size: 500 ml, count: 4}, {size: 1 l, count: 3}]}\n"
    rules = asked(tmp_path, more).rules
    assert rules.containers == 9
    assert rules.container_sizes == (ContainerSize(400, 4), ContainerSize(800, 5))


def test_room_is_in_millilitres_and_portions_then_have_a_volume(tmp_path: Path) -> None:
    question = asked(tmp_path, "rules: {fridge_room: 12.5 l, freezer_room: 30 l, freezing_load: 6}\n")
    assert (question.rules.fridge_ml, question.rules.freezer_ml, question.rules.freezing_load) == (
        12_500,
        30_000,
        6,
    )
    # 80 g of rice x 280 % at 0.66783 g/ml: 335.4 ml.
    assert [version.volume_ml for version in question.dish("pan").versions] == [336]
    stated = DISHES + "  portion_volume: 300 ml\n"
    (pan,) = asked(tmp_path / "b", "rules: {fridge_room: 9 l}\n", stated).dish("pan").versions
    assert pan.volume_ml == 300


@pytest.mark.parametrize(
    ("days", "rule", "span"),
    [(7, "", None), (14, "", 7), (28, "", 7), (5, "3", 3), (14, "none", None), (14, "14", None), (8, "7", 7)],
)
def test_a_plan_of_more_than_a_week_is_counted_by_weeks(
    tmp_path: Path, days: int, rule: str, span: int | None
) -> None:
    more = f"rules: {{week_days: {rule}}}\n" if rule else ""
    question = asked(tmp_path, more, text=KITCHEN.replace("days: 5", f"days: {days}"))
    assert question.rules.span_days == span
    assert sum(len(one) for one in question.spans()) == days


def test_four_weeks_have_their_slots_and_sessions_by_weekday(tmp_path: Path) -> None:
    text = (
        KITCHEN.replace("days: 5", "days: 28")
        .replace("{meals: [dinner]}", "{meals: [dinner], days: sunday}")
        .replace("day: 3,", "day: wednesday,")
    )
    question = asked(tmp_path, text=text)
    assert {slot.day for slot in question.slots} == {1, 8, 15, 22}
    assert [session.day for session in question.sessions] == [1, 4, 11, 18, 25]


def test_stations_have_the_minutes_of_a_session_that_says_its_length(tmp_path: Path) -> None:
    text = KITCHEN.replace("minutes: 60", "minutes: 60, length: 2 h, price: 1.50")
    question = asked(tmp_path, "equipment: {burners: 3, oven_shelves: 2}\n", text=text)
    assert question.sessions == (CookSession(1, 90), CookSession(3, 60, {"oven": 120, "burner": 360}, 150))
    egg, plain = question.dish("bake").versions
    burner = Load(Fraction(12), Fraction(1, 2))
    assert dict(egg.loads) == {"oven": Load(Fraction(30), Fraction(3)), "burner": burner}
    assert dict(plain.loads) == {"oven": Load(Fraction(30)), "burner": burner}
    without = asked(tmp_path / "b", "equipment: {burners: 3}\n", text=text)
    assert set(without.dish("bake").versions[0].loads) == {"burner"}


def test_a_batch_in_one_version_takes_the_same_minutes_whether_it_may_be_split_or_not(tmp_path: Path) -> None:
    whole, split = asked(tmp_path), asked(tmp_path / "b", "rules: {splits: 2}\n")
    assert (split.dish("bake").most_versions, split.dish("bake").shared_min) == (2, 15)
    assert (split.dish("pan").most_versions, split.dish("pan").shared_min) == (1, 0)  # it has one version
    for version, minutes in (("egg", 15 + 5 + 4 * 3), ("plain", 15 + 4 * 2)):
        plan = Plan((Batch(1, "bake", version, 4),), (), (), ())
        assert session_min(whole, plan, 1) == session_min(split, plan, 1) == minutes
    both = Plan((Batch(1, "bake", "egg", 2), Batch(1, "bake", "plain", 2)), (), (), ())
    assert session_min(split, both, 1) == 15 + 5 + 2 * 3 + 2 * 2


def test_the_dishs_own_word_on_splitting_comes_before_the_house_rule(tmp_path: Path) -> None:
    dishes = DISHES.replace("  oven: 30 min", "  splits: 1")
    assert asked(tmp_path, "rules: {splits: 2}\n", dishes).dish("bake").most_versions == 1
    assert (
        asked(tmp_path / "b", dishes=DISHES.replace("  oven: 30 min", "  splits: 9"))
        .dish("bake")
        .most_versions
        == 2
    )


BOUNDED = KITCHEN.replace(
    "name: Ada", "{name: Ada, bounds: {energy: {least: 200 kcal}, sodium: {most: 0.5 g}}}"
)


def test_bounds_bring_their_nutrients_and_a_version_without_the_figure_has_none(tmp_path: Path) -> None:
    question = asked(tmp_path, text=BOUNDED)
    assert question.rules.nutrient_bounds == (
        NutrientBound("Ada", "energy_kcal", Fraction(200), None),
        NutrientBound("Ada", "sodium_mg", None, Fraction(500)),
    )
    egg, plain = question.dish("bake").versions
    assert set(egg.nutrients) == {"energy_kcal", "sodium_mg"}
    assert dict(plain.nutrients) == {"energy_kcal": Fraction(365)}  # 100 g of rice, SR26; salt has no energy
    assert egg.nutrients["energy_kcal"] > 365


def test_what_an_eater_with_bounds_cannot_be_served_is_said_in_words(tmp_path: Path) -> None:
    assert without_figures(kitchen(tmp_path, text=BOUNDED)) == (
        "Ada cannot have Bake (plain): its sodium is not known (the amount of salt is not measured)",
    )
    never = BOUNDED.replace("name: Ada,", "name: Ada, never: ['dish: Bake'],")
    assert without_figures(kitchen(tmp_path / "b", text=never)) == ()
    assert without_figures(kitchen(tmp_path / "c")) == ()


def test_a_portion_of_which_nobody_knows_the_volume_is_named(tmp_path: Path) -> None:
    papers = {
        "kitchen.yaml": KITCHEN,
        "dishes.yaml": "dish: Tea\nper_portion: {crumpet: 2}\n",
        "foods.yaml": "[{food: crumpet, measured_in: pieces, keep_days: 3}]\n",
    }
    held = read_folder(write(tmp_path, papers)).without_faults()
    assert pose(held).dish("tea").versions[0].volume_ml == 0
    room = replace(held, household=replace(held.household, rules=Rules(fridge_room_ml=9_000)))
    with pytest.raises(
        MissingFact, match=r"nobody knows what a portion of Tea fills: .*; write portion_volume"
    ):
        pose(room)
