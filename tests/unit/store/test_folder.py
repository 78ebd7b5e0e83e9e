from __future__ import annotations

from fractions import Fraction

import pytest
from tests.unit.store.papers import DISHES, KITCHEN, doubts, faults, read, told

from ladleworth.household import Avoid, Days, Exclusion, Slot


def test_the_small_kitchen_reads_without_a_finding() -> None:
    reading = read()
    assert told(reading) == []
    kitchen = reading.without_faults()
    assert kitchen.household.name == "Test house"
    assert [eater.name for eater in kitchen.household.eaters] == ["Ada", "Ben"]
    assert [dish.id for dish in kitchen.dishes] == ["rice-bowl"]
    assert kitchen.ledger.lots == ()
    assert kitchen.prices.offers == ()


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("currency", "USX", ("kitchen.yaml:3: currency: no currency in use has the code 'USX'; "
         "write USD or USN or UGX")),
        ("start", "6.12.2026", ("kitchen.yaml:4: start: '6.12.2026' is no date; "
         "write year, month and day like 2026-12-06")),
        ("start", "2026-02-30", ("kitchen.yaml:4: start: the calendar has no 2026-02-30; "
         "write a day that it has, like 2026-12-06")),
        (
            "start",
            "9999-12-31",
            "kitchen.yaml:4: start: 9999-12-31 lies outside the years 1900 to 2200; write a day within them",
        ),
        ("days", "0", "kitchen.yaml:5: days: days is '0'; write a whole number from 1 to 366"),
        ("days", "367", "kitchen.yaml:5: days: days is '367'; write a whole number from 1 to 366"),
        ("days", "seven", "kitchen.yaml:5: days: days is 'seven'; write a whole number from 1 to 366"),
        ("eaters", "[]", "kitchen.yaml:6: eaters: eaters lists nothing; write at least one entry under eaters:"),
        ("eaters", "[{name: Ada}, {name: Ada}]", ("kitchen.yaml:6: eaters[2].name: an eater is called 'Ada' "
         "a second time; give each a name of its own")),
        ("eaters", "[{never: [milk]}]", "kitchen.yaml:6: eaters[1]: an eater has no name; write it as name: NAME"),
        ("eaters", "[Ada]", ("kitchen.yaml:6: eaters[1]: an eater is the text 'Ada'; "
         "write keys and values such as {name: Ada, never: [milk]}")),
        ("slots", "[{eaters: [Bem]}]", ("kitchen.yaml:9: slots[1].eaters[1]: nobody here is called 'Bem'; "
         "did you mean 'Ben'?")),
        ("slots", "[{days: [7-1]}]", ("kitchen.yaml:9: slots[1].days[1]: the days 7-1 run from 7 to 1; "
         "write a range such as 1-7")),
        ("slots", "[{days: mondy}]", "kitchen.yaml:9: slots[1].days: 'mondy' names no days; did you mean 'monday'?"),
        ("sessions", "[]", ("kitchen.yaml:11: sessions: sessions lists nothing; "
         "write at least one entry under sessions:")),
        ("sessions", "[{day: 8, minutes: 60}]", ("kitchen.yaml:11: sessions: no session falls within the 7 days "
         "from 2026-12-06; name a day of the plan")),
        ("sessions", "[{minutes: 60}]", ("kitchen.yaml:11: sessions[1]: a session needs either day or days; "
         "write day: sunday, or days: [1, 4]")),
        ("sessions", "[{day: 1}]", ("kitchen.yaml:11: sessions[1]: a session has no minutes; "
         "write minutes: 150, hands-on at the most")),
        ("sessions", "[{day: 1, minutes: -5}]", ("kitchen.yaml:11: sessions[1].minutes: a negative number "
         "at character 1 of '-5'; write a number of 0 or more")),
        ("sessions", "[{day: 1, minutes: 60}, {day: sunday, minutes: 30}]", ("kitchen.yaml:11: sessions[2]: "
         "day 1 has a session already, 60 minutes; keep one session a day")),
    ],
)  # fmt: skip
def test_each_slip_in_the_kitchen_is_one_fault_with_its_line(key: str, value: str, said: str) -> None:
    reading = read(**{key: value})
    assert [str(fault) for fault in faults(reading)] == [said]
    assert reading.kitchen is None


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ("nme: x\n", "kitchen.yaml:14: nme: a kitchen has no key 'nme'; did you mean 'name'?"),
        ("rules: {budget: -1}\n", ("kitchen.yaml:14: rules.budget: the price '-1' is below zero; "
         "write it like '12.40', in USD")),
        ("rules: {budget: 1.999}\n", ("kitchen.yaml:14: rules.budget: the price '1.999' has 3 decimals where "
         "USD has 2; write it like '12.40', in USD")),
        ("rules: {in_a_row: 0}\n", ("kitchen.yaml:14: rules.in_a_row: in_a_row is '0'; "
         "write a whole number from 1 to 1000000, or none for no limit")),
        ("rules: {contaners: 1}\n", ("kitchen.yaml:14: rules.contaners: rules has no key 'contaners'; "
         "did you mean 'containers'?")),
        ("additions: {reserve: {portions: 4}}\n", ("kitchen.yaml:14: additions.reserve: "
         "a reserve needs portions and worth; write {portions: 4, worth: 1.50}")),
        ("additions: {liking: {Rice bowls: 1}}\n", ("kitchen.yaml:14: additions.liking.Rice bowls: no dish is called "
         "'Rice bowls'; did you mean 'Rice bowl'?")),
        ("equipment: {fridge: 4}\n", ("kitchen.yaml:14: equipment.fridge: the temperature '4' cannot be read; "
         "write a number and C or F, like '180 C' or '350 F'")),
        ("equipment: {vessels: {pot: 2 kg}}\n", ("kitchen.yaml:14: equipment.vessels.pot: the volume of pot: "
         "'2 kg' is no volume above 0; write one such as 6 l")),
        ("shops: [{name: A}, {name: A}]\n", ("kitchen.yaml:14: shops[2].name: a shop is called 'A' a second time; "
         "give each a name of its own")),
    ],
)  # fmt: skip
def test_each_slip_in_an_optional_key_is_one_fault(more: str, said: str) -> None:
    reading = read({"kitchen.yaml": KITCHEN + more})
    assert [str(fault) for fault in faults(reading)] == [said]


@pytest.mark.parametrize("key", ["ladleworth", "currency", "start", "days", "eaters", "slots", "sessions"])
def test_a_needed_key_that_is_missing_is_named_with_an_example(key: str) -> None:
    lines = KITCHEN.splitlines(keepends=True)
    at = next(n for n, line in enumerate(lines) if line.startswith(f"{key}:"))
    end = at + 1
    while end < len(lines) and lines[end].startswith(" "):
        end += 1
    reading = read({"kitchen.yaml": "".join(lines[:at] + lines[end:])})
    said = [fault.what for fault in faults(reading)]
    assert f"the key {key!r} is missing" in said


def test_rules_read_none_as_no_limit_and_zero_as_zero() -> None:
    text = KITCHEN + (
        "rules: {containers: 0, freezer_places: none, budget: 0, meal_out: none, in_a_row: none, most_times: 3}\n"
    )
    rules = read({"kitchen.yaml": text}).without_faults().household.rules
    assert rules.containers == 0
    assert rules.freezer_places is None
    assert rules.budget_cents == 0
    assert rules.meal_out_cents is None
    assert rules.in_a_row is None
    assert rules.most_times == 3


def test_what_is_left_out_of_rules_has_no_limit_but_two_days_in_a_row() -> None:
    rules = read().without_faults().household.rules
    assert (rules.containers, rules.budget_cents, rules.meal_out_cents) == (None, None, None)
    assert rules.in_a_row == 2


def test_additions_and_equipment_are_read_in_their_units() -> None:
    text = KITCHEN + (
        "additions: {repeat: 0.25, hour: 5, reserve: {portions: 4, worth: 1.50}, liking: {Rice bowl: -0.20}}\n"
        "equipment: {burners: 4, fridge: 39.2 F, freezer: -18 °C, microwave: 800, vessels: {pot: 6 l, pan: 2 qt}}\n"
    )
    household = read({"kitchen.yaml": text}).without_faults().household
    assert household.wishes.repeat_cents == 25
    assert household.wishes.hour_cents == 500
    assert household.wishes.minute_cents == Fraction(25, 3)
    assert household.wishes.reserve_cents == 150
    assert household.wishes.liking_cents == (("rice-bowl", -20),)
    assert household.equipment.fridge_c == 4
    assert household.equipment.freezer_c == -18
    assert [(v.name, v.volume_ml) for v in household.equipment.vessels] == [("pot", 6000), ("pan", 1893)]


def test_the_house_rule_for_keeping_reaches_the_dishes() -> None:
    assert read().without_faults().dishes[0].keep_days == 4
    shorter = read({"kitchen.yaml": KITCHEN + "rules: {keep_days: 3}\n"}).without_faults()
    assert shorter.dishes[0].keep_days == 3


def test_days_are_numbers_ranges_weekdays_and_dates() -> None:
    reading = read(slots="[{days: [2, 4-5, Saturday, 2026-12-06]}]")
    assert told(reading) == []
    household = reading.without_faults().household
    assert household.meals[0].days == Days((2, 4, 5), (5,), (household.start,))
    assert [slot.day for slot in household.slots() if slot.eater == "Ada"] == [1, 2, 4, 5, 7]


def test_a_slot_without_meals_is_one_meal_for_everyone_every_day() -> None:
    household = read(slots="[{}]".replace("{}", "{eaters: [Ada]}")).without_faults().household
    assert household.slots() == tuple(Slot(day, "Ada", "meal") for day in range(1, 8))


def test_a_slot_listed_twice_is_doubted_and_counts_once() -> None:
    reading = read(slots="[{meals: dinner}, {meals: [dinner], eaters: Ada, days: 3}]")
    assert [str(doubt) for doubt in doubts(reading)] == [
        (
            "kitchen.yaml:9: slots[2]: Ada's dinner on day 3 is listed above already; "
            "it counts once; take one of the two out"
        )
    ]
    assert len(reading.without_faults().household.slots()) == 14


@pytest.mark.parametrize(
    ("days", "what"),
    [
        ("[1, 9]", "9 lies outside the 7 days from 2026-12-06"),
        ("[1, 2026-12-13]", "2026-12-13 lies outside the 7 days from 2026-12-06"),
        ("[8-9]", "days names no day between 2026-12-06 and day 7"),
    ],
)
def test_a_day_outside_the_plan_is_doubted(days: str, what: str) -> None:
    reading = read(slots=f"[{{meals: dinner}}, {{meals: lunch, days: {days}}}]")
    assert [doubt.what for doubt in doubts(reading)] == [what]
    assert reading.kitchen is not None


@pytest.mark.parametrize(
    ("never", "exclusion"),
    [
        ("milk", Exclusion(Avoid.ALLERGEN, "milk")),
        ("peanuts", Exclusion(Avoid.ALLERGEN, "peanut")),
        ("Tree Nuts", Exclusion(Avoid.ALLERGEN, "tree nuts")),
        ("peanut butter", Exclusion(Avoid.FOOD, "peanut-butter")),
        ("'food: egg'", Exclusion(Avoid.FOOD, "egg")),
        ("egg", Exclusion(Avoid.ALLERGEN, "egg")),
        ("'allergen: soybeans'", Exclusion(Avoid.ALLERGEN, "soybean")),
        ("soy", Exclusion(Avoid.ALLERGEN, "soybean")),
        ("tree nut", Exclusion(Avoid.ALLERGEN, "tree nuts")),
        ("crustaceans", Exclusion(Avoid.ALLERGEN, "crustacean shellfish")),
        ("'aisle: meat'", Exclusion(Avoid.AISLE, "meat")),
        ("{aisle: Dry goods}", Exclusion(Avoid.AISLE, "dry-goods")),
        ("aisle: meat", Exclusion(Avoid.AISLE, "meat")),
        ("'dish: rice BOWL'", Exclusion(Avoid.DISH, "rice-bowl")),
    ],
)
def test_an_exclusion_is_a_food_an_allergen_an_aisle_or_a_dish(never: str, exclusion: Exclusion) -> None:
    reading = read(eaters=f"[{{name: Ada, never: [{never}]}}, {{name: Ben}}]")
    assert faults(reading) == []
    assert reading.without_faults().household.eaters[0].never == (exclusion,)


@pytest.mark.parametrize(
    ("never", "said"),
    [
        ("mlk", "no food, allergen or other thing to avoid is called 'mlk'; did you mean 'milk' or"),
        ("meat", "no food, allergen or other thing to avoid is called 'meat'; did you mean"),
        (
            "Rice bowl",
            "no food, allergen or other thing to avoid is called 'Rice bowl'; did you mean 'dish: Rice bowl'",
        ),
        ("'aisle: meets'", "no aisle is called 'meets'; did you mean 'meat'?"),
        ("'allergen: nuts'", "no major allergen is called 'nuts'; did you mean 'tree nuts' or 'peanut'?"),
        ("nuts", "to avoid is called 'nuts'; did you mean 'tree nuts' or 'peanut' or"),
        ("shellfish", "to avoid is called 'shellfish'; did you mean 'crustacean shellfish'?"),
        ("'dish: Soup'", "no dish is called 'Soup'; the dishes are Rice bowl"),
        (
            "'smell: garlic'",
            "an exclusion has no kind 'smell'; write food, allergen, aisle, dish before the colon",
        ),
        ("'food:'", "nothing follows 'food:'; write something like milk"),
        ("''", "an exclusion is empty; write something like milk"),
    ],
)
def test_an_exclusion_that_names_nothing_is_a_fault(never: str, said: str) -> None:
    found = faults(read(eaters=f"[{{name: Ada, never: [{never}]}}, {{name: Ben}}]"))
    assert len(found) == 1
    assert said in str(found[0])


def test_a_dish_that_names_nobody_under_never_is_a_fault() -> None:
    reading = read({"dishes.yaml": DISHES.replace("  least", "  never: [Bem]\n  least")})
    assert told(reading) == ["dishes.yaml:2: [1].never[1]: nobody here is called 'Bem'; did you mean 'Ben'?"]


def test_a_dish_that_nobody_may_eat_is_doubted_with_everyones_reason() -> None:
    reading = read(
        {"dishes.yaml": DISHES.replace("  least", "  never: [Ben]\n  least")},
        eaters="[{name: Ada, never: [egg]}, {name: Ben}]",
    )
    (doubt,) = doubts(reading)
    assert doubt.what.startswith("nobody may have Rice bowl: Ada never has allergen egg: egg has it")
    assert doubt.what.endswith("Rice bowl is not for Ben")
    assert reading.kitchen is not None


def test_a_dish_with_a_swap_that_suits_is_not_doubted() -> None:
    dish = "dish: Bowl\nper_portion: {rice: 80 g}\nswaps: [{swap: egg, per_portion: {egg: 1}}, {swap: without, lines: []}]\n"
    reading = read({"dishes.yaml": dish}, eaters="[{name: Ada, never: [egg]}]")
    assert told(reading) == []


def test_a_dish_for_a_meal_that_no_slot_has_is_doubted() -> None:
    (doubt,) = doubts(read({"dishes.yaml": DISHES + "  meals: [brunch]\n"}))
    assert str(doubt) == (
        "dishes.yaml:4: [1].meals: Rice bowl is for brunch, and no slot is; "
        "it is never planned; the slots' meals are dinner"
    )


def test_dishes_of_one_name_are_a_fault_across_files() -> None:
    reading = read({"dishes/more.yaml": "dish: rice bowl!\nper_portion: {rice: 80 g}\n"})
    assert told(reading) == [
        (
            "dishes/more.yaml:1: dish: a dish called 'rice bowl!' stands at dishes.yaml:1: [1].dish already; "
            "give each dish a name of its own"
        )
    ]


def test_a_dish_with_too_many_combinations_of_swaps_is_a_fault() -> None:
    parts = "".join(
        f"  - part: p{n}\n    swaps: [{', '.join(f'{{swap: s{m}, per_portion: {{rice: {m} g}}}}' for m in range(1, 6))}]\n"
        for n in range(3)
    )
    reading = read({"dishes.yaml": f"dish: Bowl\nportions: 2\nparts:\n{parts}"})
    assert [fault.what for fault in faults(reading)] == ["the swaps of Bowl can be combined in 125 ways"]


def test_an_unknown_food_in_a_dish_names_near_foods_and_its_line() -> None:
    (fault,) = faults(read({"dishes.yaml": "- dish: Bowl\n  per_portion:\n    rice: 80 g\n    eggg: 1\n"}))
    assert (fault.place.file, fault.place.line) == ("dishes.yaml", 4)
    assert "'egg'" in fault.remedy


def test_a_kitchen_without_a_dish_is_a_fault() -> None:
    assert told(read({"dishes.yaml": None})) == [
        "dishes.yaml: the kitchen has no dish; write one in dishes.yaml or dishes/NAME.yaml"
    ]


def test_a_folder_without_kitchen_yaml_is_a_fault() -> None:
    assert told(read({"kitchen.yaml": None})) == [
        "kitchen.yaml: the file is missing; write one; it says who eats when"
    ]
