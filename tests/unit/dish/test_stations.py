"""Minutes of the oven and of burners, splits, portion volume and kinds: from the page to the record."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.dish import BURNER, OVEN, Dish, StationTime
from ladleworth.dish.mapping import to_mapping
from ladleworth.dish.resolve import resolve
from ladleworth.dish.scale import scale
from ladleworth.dish.tree import Path, show_path
from ladleworth.dish.written import read_dish
from ladleworth.errors import BadField, Place
from ladleworth.facts import food_table

BAKE: dict[str, object] = {
    "dish": "Bake",
    "portions": "4",
    "parts": [
        {
            "part": "base",
            "lines": ["400 g rice"],
            "swaps": [
                {"swap": "egg", "lines": ["4 eggs"], "oven": "10 min", "kind": ["hard-cooked egg"]},
                {"swap": "without", "lines": []},
            ],
            "burners": {"fixed": "20", "per_portion": "1/2"},
        },
        {"part": "top", "lines": ["40 g parmesan"], "kind": ["crumb or cheese topping"], "apart": "yes"},
    ],
    "portion_volume": "350 ml",
    "oven": "45 min",
    "splits": "2",
}
STEPS: dict[str, object] = {
    "dish": "Soup",
    "portions": "4",
    "lines": ["400 g rice"],
    "steps": [
        {"do": "Chop.", "hands_on": "5 min", "needs": ["hands", "board"]},
        {"do": "Fry.", "hands_on": "6 min", "unattended": "4 min", "needs": ["hands", "2 burners"]},
        {"do": "Bake.", "unattended": "30 min", "needs": ["oven at 200 °C"]},
        {"do": "Stand.", "unattended": "9 min", "needs": ["oven cloth"]},
        {"do": "Simmer.", "unattended": "15 min", "needs": ["burner", "large pot"]},
    ],
}


def place(path: Path) -> Place:
    return Place("dishes.yaml", None, show_path(path))


def faults(**changes: object) -> list[str]:
    dish, findings = read_dish({**STEPS, **changes}, place)
    assert dish is None
    return [f"{finding.place.item}: {finding.what}; {finding.remedy}" for finding in findings]


def made(data: dict[str, object]) -> Dish:
    written, findings = read_dish(data, place)
    assert findings == ()
    assert written is not None
    dish, _ = resolve(written, food_table())
    assert dish is not None
    return dish


def test_station_minutes_of_dish_part_and_swap_add_up_by_version() -> None:
    egg, without = made(BAKE).variants()
    burner = StationTime(BURNER, Fraction(20), Fraction(1, 2))
    assert egg.stations == (StationTime(OVEN, Fraction(55)), burner)
    assert without.stations == (StationTime(OVEN, Fraction(45)), burner)


def test_a_station_stated_nowhere_takes_the_minutes_of_the_steps_that_need_it() -> None:
    (soup,) = made(STEPS).variants()
    # Two burners for ten minutes and one for fifteen; an oven cloth is no oven.
    assert soup.stations == (StationTime(OVEN, Fraction(30)), StationTime(BURNER, Fraction(35)))


def test_a_station_stated_as_nothing_overrules_the_steps() -> None:
    (soup,) = made({**STEPS, "oven": "0", "burners": "12"}).variants()
    assert soup.stations == (StationTime(BURNER, Fraction(12)),)


def test_a_dish_without_stations_takes_none() -> None:
    (plain,) = made({"dish": "Plain", "per_portion": {"rice": "80 g"}}).variants()
    assert plain.stations == ()


def test_splits_volume_kinds_and_apart_come_into_the_record() -> None:
    bake = made(BAKE)
    assert (bake.splits, bake.portion_volume_ml) == (2, 350)
    base, top = bake.parts
    assert (base.kinds, base.apart, top.kinds, top.apart) == ((), False, ("crumb or cheese topping",), True)
    assert [swap.kinds for swap in base.swaps] == [("hard-cooked egg",), ()]


@pytest.mark.parametrize(
    "data", [BAKE, STEPS, {"dish": "Curry", "per_portion": {"rice": "1 g"}, "kind": ["curry or chili"]}]
)
def test_a_dish_with_them_written_back_is_what_was_read(data: dict[str, object]) -> None:
    written, _ = read_dish(data, place)
    assert written is not None
    assert to_mapping(written) == data


def test_every_fault_of_them_is_told_at_once_with_what_to_write_instead() -> None:
    found = faults(
        splits="0",
        oven={"fix": "30", "per_portion": "x"},
        burners="half an hour",
        portion_volume="400 g",
        kind=["pasta in sause", "lentils", "lentils"],
    )
    assert [fault.partition(": ")[0] for fault in found] == [
        "kind[1]",
        "kind[3]",
        "oven.fix",
        "oven.per_portion",
        "burners",
        "splits",
        "portion_volume",
    ]
    assert found[:3] == [
        "kind[1]: no kind is called 'pasta in sause'; did you mean 'pasta in sauce'?",
        "kind[3]: kind names 'lentils' twice; write it once",
        "oven.fix: oven has no key 'fix'; did you mean 'fixed'?",
    ]
    assert found[4].endswith("write something like 45 min, or {fixed: 30, per_portion: 2}")
    assert found[6].endswith("'400 g' is no volume above 0; write something like 400 ml")


def test_apart_is_yes_or_no_and_a_kind_beside_parts_has_no_part() -> None:
    bad = [{"part": "a", "lines": ["400 g rice"], "apart": "perhaps"}]
    data = {"dish": "Soup", "portions": "4", "parts": bad, "kind": "lentils"}
    dish, findings = read_dish(data, place)
    assert dish is None
    assert [str(finding) for finding in findings] == [
        "dishes.yaml: kind: a dish has both parts and kind; move kind into one of the parts",
        "dishes.yaml: parts[1].apart: apart is 'perhaps'; write yes if the part is not frozen with the others, else no",
    ]


def test_a_station_that_is_none_and_minutes_below_nothing_are_refused() -> None:
    with pytest.raises(BadField, match="no station is called 'grill'; the stations are oven, burner"):
        StationTime("grill")
    with pytest.raises(BadField, match="minutes of the oven must not be below 0"):
        StationTime(OVEN, Fraction(-1))
    dish = made(STEPS)
    with pytest.raises(BadField, match="splits must be 1 or more"):
        Dish(dish.id, dish.name, 1, dish.parts, splits=0)
    with pytest.raises(BadField, match="the volume of a portion must be above 0"):
        Dish(dish.id, dish.name, 1, dish.parts, portion_volume_ml=0)


def test_a_portion_of_another_size_fills_more_or_less_in_proportion() -> None:
    bake = made(BAKE)
    assert scale(bake, 2).portion_volume_ml == 350
    assert scale(bake, 2, portions=5).portion_volume_ml == 560
