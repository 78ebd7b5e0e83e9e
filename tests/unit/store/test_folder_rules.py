"""The wider rules of kitchen.yaml: each is read, left out without a change, and refused with one clear message."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.store.papers import DISHES, KITCHEN, doubts, faults, read, told

from ladleworth.household import Container, Eater, Goal, Rules, Session

RULES = """
rules:
  containers: [{size: 500 ml, count: 8}, {size: 2 cups, count: 4, depth: 2 1/2 in}]
  headspace: 5%
  fridge_room: 20 l
  freezer_room: none
  freezing_load: 6
  week_days: none
  splits: 2
"""


def kitchen(text: str, dishes: str = DISHES) -> dict[str, str | None]:
    return {"kitchen.yaml": text, "dishes.yaml": dishes}


def test_what_is_left_out_changes_nothing() -> None:
    household = read().without_faults().household
    assert household.rules == Rules()
    assert household.rules.week_days == 7
    assert household.eaters == (Eater("Ada"), Eater("Ben"))
    (session,) = household.sessions
    assert (session.length_min, session.cents) == (None, 0)


def test_the_wider_rules_are_read() -> None:
    rules = read(kitchen(KITCHEN + RULES)).without_faults().household.rules
    assert rules == Rules(
        containers=12,
        container_sizes=(Container(500, 8), Container(473, 4, 64)),
        headspace=Fraction(1, 20),
        fridge_room_ml=20_000,
        freezing_load=6,
        week_days=None,
        splits=2,
    )


def test_a_plain_number_of_containers_stays_one() -> None:
    rules = read(kitchen(KITCHEN + "rules: {containers: 12}\n")).without_faults().household.rules
    assert (rules.containers, rules.container_sizes) == (12, ())
    assert read(kitchen(KITCHEN + "rules: {containers: none}\n")).without_faults().household.rules == Rules()


@pytest.mark.parametrize(
    ("text", "appetite"),
    [("0.75", Fraction(3, 4)), ("3/4", Fraction(3, 4)), ("150%", Fraction(3, 2)), ("1 1/2", Fraction(3, 2))],
)
def test_an_appetite_is_a_number_or_a_share(text: str, appetite: Fraction) -> None:
    reading = read(eaters=f"\n  - {{name: Ada, appetite: {text}}}\n  - name: Ben")
    assert [eater.appetite for eater in reading.without_faults().household.eaters] == [appetite, 1]


def test_bounds_are_read_in_the_units_of_the_food_table() -> None:
    bounds = "{energy: {least: 2092 kJ, most: 900 kcal}, sodium: {most: 1.2 g}, folate: {least: 0.1 mg}}"
    reading = read(eaters=f"\n  - {{name: Ada, bounds: {bounds}}}\n  - name: Ben")
    assert reading.without_faults().household.eaters[0].goals == (
        Goal("energy_kcal", Fraction(500), Fraction(900)),
        Goal("sodium_mg", None, Fraction(1200)),
        Goal("folate_dfe_ug", Fraction(100), None),
    )


def test_a_session_has_a_length_and_a_price() -> None:
    reading = read(
        kitchen(KITCHEN + "equipment: {burners: 2}\n"),
        sessions="\n  - {day: sunday, minutes: 90, length: 2 h 30 min, price: 2.50}",
    )
    (session,) = reading.without_faults().household.sessions
    assert session == Session(session.days, 90, 150, 250)
    assert told(reading) == []


def test_a_length_that_says_nothing_or_is_too_short_is_doubted() -> None:
    reading = read(sessions="\n  - {day: sunday, minutes: 90, length: 60}")
    assert [(finding.place.item, finding.what) for finding in doubts(reading)] == [
        ("sessions", "a session has a length, and the equipment card has neither burners nor oven_shelves"),
        ("sessions[1].length", "a session lasts 60 minutes by the clock, less than its 90 hands-on minutes"),
    ]


def test_every_fault_of_them_is_told_at_once_with_what_to_write_instead() -> None:
    text = KITCHEN.replace(
        "  - name: Ada",
        "  - {name: Ada, appetite: 0, bounds: {energy: {least: 500 g}, fat: {least: 9 g, most: 8 g}, "
        "fibre: {}, iron: {most: lots}, salt: {most: 2 g}}}",
    ).replace("minutes: 90", "{minutes: 90, length: soon, price: cheap}".strip("{}").replace(", ", "\n    "))
    text += (
        "rules: {containers: [{size: 500 g, count: 8}, {count: some, deep: 3}, {size: 1 l, count: 1, depth: 1 cm}, "
        "{size: 1 l, count: 1, depth: deep}], headspace: 100%, fridge_room: big, freezing_load: -1, "
        "week_days: 0, splits: none}\n"
    )
    found = {
        finding.place.item: f"{finding.what}; {finding.remedy}" for finding in faults(read(kitchen(text)))
    }
    assert list(found) == [
        "eaters[1].appetite",
        "eaters[1].bounds.salt",
        "eaters[1].bounds.energy.least",
        "eaters[1].bounds.fat",
        "eaters[1].bounds.fibre",
        "eaters[1].bounds.iron.most",
        "sessions[1].length",
        "sessions[1].price",
        "rules.containers[1].size",
        "rules.containers[2].deep",
        "rules.containers[2]",
        "rules.containers[2].count",
        "rules.containers[3].depth",
        "rules.containers[4].depth",
        "rules.headspace",
        "rules.fridge_room",
        "rules.freezing_load",
        "rules.week_days",
        "rules.splits",
    ]
    assert found["eaters[1].appetite"] == (
        "an appetite of '0' is not above 0 and at most 10; "
        "write what the eater's portion is of a standard one, such as 0.75, 3/4 or 150%"
    )
    assert found["eaters[1].bounds.energy.least"] == (
        "'500 g' is no amount of energy; write kcal or kJ after the number"
    )
    assert (
        found["eaters[1].bounds.fat"] == "the least of fat is above the most; write the smaller one as least"
    )
    assert found["eaters[1].bounds.fibre"].startswith(
        "the bound of fibre says nothing; write least, most or both"
    )
    assert "'lots' is no amount of a nutrient; write g, mg or µg" in found["eaters[1].bounds.iron.most"]
    assert found["rules.containers[2]"] == "a size of containers has no size; write size: 750 ml"
    assert "is 10 mm deep, no more than its headspace" in found["rules.containers[3].depth"]
    assert found["rules.headspace"] == "'100%' is no share from 0% to 90%; write 70%, say"


def test_containers_that_list_nothing_are_refused() -> None:
    (fault,) = faults(read(kitchen(KITCHEN + "rules: {containers: []}\n")))
    assert str(fault).endswith(
        "rules.containers: containers lists nothing; write sizes such as [{size: 750 ml, count: 8}], or a number"
    )
    (fault,) = faults(read(kitchen(KITCHEN + "rules: {containers: {size: 1 l, count: 2}}\n")))
    assert "containers is a set of keys and values; write a list" in str(fault)


CRUMPETS = """
- {food: crumpet, measured_in: pieces, keep_days: 3, allergens: []}
"""


def test_where_room_is_set_a_dish_of_which_nobody_knows_what_it_fills_is_a_fault() -> None:
    dish = "dish: Crumpets\nportions: 2\nlines: [4 crumpet]\n"
    papers = {**kitchen(KITCHEN, dish), "foods.yaml": CRUMPETS}
    assert faults(read(papers)) == []
    papers["kitchen.yaml"] = KITCHEN + "rules: {fridge_room: 9 l}\n"
    (fault,) = faults(read(papers))
    assert (
        "nobody knows what a portion of Crumpets fills: nobody has the weight of one piece of 'crumpet'"
        in fault.what
    )
    assert fault.remedy.startswith("write portion_volume: 400 ml, say")
    papers["dishes.yaml"] = dish + "portion_volume: 300 ml\n"
    assert faults(read(papers)) == []


def test_a_portion_that_no_container_holds_is_doubted_unless_someone_eats_less() -> None:
    dish = "dish: Big\nper_portion: {rice: 100 g}\nportion_volume: 500 ml\n"
    rules = "rules: {containers: [{size: 500 ml, count: 2}]}\n"
    (doubt,) = doubts(read(kitchen(KITCHEN + rules, dish)))
    assert doubt.what == "a portion of Big fills 500 ml, and the largest container holds 450 ml"
    light = KITCHEN.replace("name: Ben", "{name: Ben, appetite: 0.5}")
    assert doubts(read(kitchen(light + rules, dish))) == []


def test_a_dish_that_freezes_with_a_part_that_does_not_is_doubted_unless_it_is_kept_apart() -> None:
    dish = (
        "dish: Pie\nportions: 4\nfreezer_days: 60\nparts:\n"
        "  - {part: filling, lines: [400 g rice], kind: ground meat in sauce}\n"
        "  - {part: sauce, lines: [200 g rice], kind: [cream sauce]APART}\n"
    )
    (doubt,) = doubts(read(kitchen(KITCHEN, dish.replace("APART", ""))))
    assert doubt.what == (
        "Pie has freezer_days, and its part 'sauce' is cream sauce, which comes out badly from the freezer: "
        "it splits (source lancaster-farming, read)"
    )
    assert doubt.remedy == (
        "add the cream when reheating; write apart: yes for that part, or leave freezer_days out"
    )
    assert doubts(read(kitchen(KITCHEN, dish.replace("APART", ", apart: yes")))) == []
    chilled = dish.replace("APART", "").replace("freezer_days: 60\n", "")
    assert doubts(read(kitchen(KITCHEN, chilled))) == []


def test_a_dish_without_the_figure_for_an_eaters_bound_is_doubted_unless_a_version_has_it() -> None:
    bounded = KITCHEN.replace("name: Ada", "{name: Ada, bounds: {sodium: {most: 1 g}}}")
    dish = "dish: Bowl\nportions: 4\nlines: [400 g rice, 'salt, to taste']\n"
    (doubt,) = doubts(read(kitchen(bounded, dish)))
    assert doubt.what == (
        "Ada has bounds and cannot be served Bowl: its sodium is not known (the amount of salt is not measured)"
    )
    swaps = (
        "dish: Bowl\nportions: 4\nlines: [400 g rice]\n"
        "swaps: [{swap: a, lines: ['salt, to taste']}, {swap: b, lines: []}]\n"
    )
    assert doubts(read(kitchen(bounded, swaps))) == []
