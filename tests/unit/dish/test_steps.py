"""The steps of a dish: all their keys from the page to the record and back, and every fault of them at once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.dish.dish import BURNER, OVEN, Dish, StationTime, Step
from ladleworth.dish.mapping import to_mapping
from ladleworth.dish.resolve import resolve
from ladleworth.dish.tree import Path, show_path
from ladleworth.dish.waiting import Wait
from ladleworth.dish.written import read_dish
from ladleworth.errors import Place, Weight
from ladleworth.facts import food_table

STEW: dict[str, object] = {
    "dish": "Stew",
    "portions": "4",
    "hands_on": {"fixed": "20"},
    "parts": [
        {
            "part": "pot",
            "lines": ["400 g rice"],
            "swaps": [{"swap": "bacon", "lines": ["200 g bacon"]}, {"swap": "without", "lines": []}],
        },
        {"part": "top", "lines": ["2 onions, chopped"], "swaps": [{"swap": "without", "lines": []}]},
    ],
    "steps": [
        {"do": "Soak.", "part": "pot", "unattended": "10 h", "needs": ["large bowl"], "day_before": "yes"},
        {
            "do": "Fry the bacon.",
            "step": "bacon",
            "part": "pot",
            "swap": ["bacon"],
            "hands_on": "3 min",
            "needs": ["hands", "burner", "skillet"],
            "leaves": "bacon fat",
        },
        {
            "do": "Chop the onions.",
            "step": "onions",
            "part": "top",
            "hands_on": "6 min",
            "needs": ["hands", "board"],
            "after": [],
            "prep": "chopped onion",
        },
        {
            "do": "Fry them.",
            "part": "top",
            "hands_on": "4 min",
            "unattended": "5 min",
            "needs": ["hands", "burner", "skillet"],
            "after": ["bacon", "onions"],
            "takes": ["bacon fat"],
        },
        {"do": "Bake.", "unattended": "30 min", "needs": ["oven at 190 °C"], "wait": "at most 5 min"},
        {"do": "Scrape it out.", "hands_on": "2 min", "needs": ["hands"], "at_once": "yes"},
    ],
}


def place(path: Path) -> Place:
    return Place("dishes.yaml", None, show_path(path))


def made(data: dict[str, object]) -> Dish:
    written, findings = read_dish(data, place)
    assert findings == ()
    assert written is not None
    dish, _ = resolve(written, food_table())
    assert dish is not None
    return dish


def faults(*steps: dict[str, object], **changes: object) -> list[str]:
    dish, findings = read_dish({**STEW, "steps": list(steps), **changes}, place)
    assert dish is None
    assert all(finding.weight is Weight.FAULT for finding in findings)
    return [f"{finding.place.item}: {finding.what}; {finding.remedy}" for finding in findings]


def test_every_key_of_a_step_comes_into_the_record() -> None:
    soak, bacon, onions, fry, bake, scrape = made(STEW).steps
    assert (soak.day_before, soak.unattended_min) == (True, 600)
    assert bacon == Step(
        "Fry the bacon.",
        Fraction(3),
        needs=("hands", "burner", "skillet"),
        part="pot",
        name="bacon",
        swaps=(("pot", "bacon"),),
        leaves="bacon fat",
    )
    assert (onions.after, onions.prep, fry.after, fry.takes) == (
        (),
        "chopped onion",
        ("bacon", "onions"),
        ("bacon fat",),
    )
    assert (bake.wait, bake.after, scrape.at_once) == (Wait(0, 5), None, True)


def test_steps_written_back_are_what_was_read() -> None:
    written, _ = read_dish(STEW, place)
    assert written is not None
    assert to_mapping(written) == STEW


def test_a_step_of_a_swap_counts_only_for_versions_with_it() -> None:
    with_bacon, without = made(STEW).variants()
    assert with_bacon.swaps == (("pot", "bacon"), ("top", "without"))
    # Stated for the dish: 20; for the swap nothing is stated, so that its own step's three minutes count.
    assert (with_bacon.fixed_min, without.fixed_min) == (23, 20)
    # Burner: three minutes for the bacon, nine for the onions; the oven thirty.
    assert with_bacon.stations == (StationTime(OVEN, Fraction(30)), StationTime(BURNER, Fraction(12)))
    assert without.stations == (StationTime(OVEN, Fraction(30)), StationTime(BURNER, Fraction(9)))


def test_minutes_stated_for_a_swap_go_before_those_of_its_steps_and_a_dish_sums_the_others() -> None:
    parts = [
        {
            "part": "pot",
            "lines": ["400 g rice"],
            "swaps": [{"swap": "bacon", "lines": [], "hands_on": {"fixed": "7"}}],
        },
        {"part": "top", "lines": ["2 onions"]},
    ]
    data = {key: value for key, value in STEW.items() if key != "hands_on"} | {"parts": parts}
    (only,) = made(data).variants()
    assert only.fixed_min == 6 + 4 + 2 + 7


def test_a_dish_that_is_all_one_part_has_steps_for_its_swaps() -> None:
    steps = [
        {"do": "Fry.", "swap": "egg", "hands_on": "4", "needs": "hands"},
        {"do": "Mix.", "hands_on": "1"},
    ]
    flat = {
        "dish": "Bowl",
        "per_portion": {"rice": "80 g"},
        "swaps": [{"swap": "egg", "lines": []}, {"swap": "no", "lines": []}],
    }
    dish = made({**flat, "portions": "2", "steps": steps})
    assert dish.steps[0].swaps == (("all", "egg"),)
    assert [variant.fixed_min for variant in dish.variants()] == [5, 1]


def test_all_faults_of_the_steps_are_told_at_once() -> None:
    found = faults(
        {"do": "a", "step": "chop", "hands_on": "1", "needs": ["three cooks", "2 shelves"]},
        {"do": "b", "step": "Chop", "hands_on": "1", "after": ["chopp", "nobody"]},
        {"do": "c", "step": "self", "hands_on": "1", "after": "self", "wait": "9 min to 3 min"},
        {"do": "d", "hands_on": "1", "at_once": "perhaps", "day_before": "no"},
        {"do": "e", "after": []},
        {"do": "f", "hands_on": "1", "unattended": "2", "prep": "x", "leaves": "fat"},
        {"do": "g", "hands_on": "1", "swap": ["bakon", "without"]},
        {"do": "h", "hands_on": "1", "swap": "without"},
        {"do": "i", "unattended": "1", "needs": ["2 cooks"]},
        {"do": "j", "hands_on": "1", "step": "a, b", "at_once": "yes", "wait": "at most 3 min"},
    )
    assert [fault.partition(": ")[0] for fault in found] == [
        "steps[1].needs[1]",
        "steps[1].needs[2]",
        "steps[3].wait",
        "steps[4].at_once",
        "steps[5]",
        "steps[6].leaves",
        "steps[6].prep",
        "steps[7].swap",
        "steps[8].swap",
        "steps[9].needs",
        "steps[10].wait",
        "steps[2].step",
        "steps[10].step",
        "steps[2].after[1]",
        "steps[2].after[2]",
        "steps[3].after",
        "steps[3].wait",
    ]
    assert (
        found[0]
        == "steps[1].needs[1]: the need 'three cooks' counts in words; write a figure, such as '2 cooks'"
    )
    assert "the greatest wait, 3 min, is below the least, 9 min; write the smaller first" in found[2]
    assert found[4].endswith(
        "a step with after takes no time; write hands_on or unattended, or leave the key out"
    )
    assert found[7].endswith("the dish has no swap 'bakon'; did you mean 'bacon'?")
    assert "'without' cannot be told to be of one part; name the step's part" in found[8]
    assert found[11].endswith("two steps are called 'Chop'; give each its own name")
    assert found[13].endswith("no step is called 'chopp'; did you mean 'Chop'?")
    assert found[15].endswith("the step 'self' follows itself; name another step")
    assert found[16].endswith("wait stands at a step that follows none; name it in after")


def test_steps_in_a_circle_are_named() -> None:
    found = faults(
        {"do": "a", "step": "one", "hands_on": "1", "part": "pot", "after": ["three"]},
        {"do": "Stir the pot.", "hands_on": "1", "part": "pot"},
        {"do": "c", "step": "three", "hands_on": "1", "part": "pot"},
    )
    assert found == [
        (
            "steps[1].after: steps follow one another in a circle: 'Stir the pot.' follows 'one', "
            "'three' follows 'Stir the pot.', 'one' follows 'three'; leave one of them out of after"
        )
    ]


def test_the_day_before_has_no_timetable_and_does_not_follow_the_day() -> None:
    found = faults(
        {"do": "Cook.", "step": "cook", "hands_on": "1"},
        {"do": "Soak.", "hands_on": "1", "day_before": "yes", "after": ["cook"], "wait": "at least 5 min"},
        {"do": "Dry.", "hands_on": "1", "day_before": "yes"},
    )
    assert found == [
        "steps[2].wait: a step of the day before has wait; leave it out: that day has no timetable",
        "steps[2].after: a step of the day before follows 'cook' of the day itself; take that one out of after",
    ]


def test_a_need_that_looks_like_a_slip_is_doubted_and_read() -> None:
    data = {**STEW, "steps": [{"do": "a", "hands_on": "1", "needs": ["hands", "burnr", "bord for raw fish"]}]}
    dish, findings = read_dish(data, place)
    assert dish is not None
    assert [str(finding) for finding in findings] == [
        "dishes.yaml: steps[1].needs[2]: the need 'burnr' is taken for a tool of that name; did you mean 'burner'?",
        (
            "dishes.yaml: steps[1].needs[3]: the need 'bord for raw fish' is taken for a tool of that name; "
            "did you mean 'board for raw fish'?"
        ),
    ]
    assert all(finding.weight is Weight.DOUBT for finding in findings)
    record, told = resolve(dish, food_table())
    assert record is not None
    assert told == ()


@pytest.mark.parametrize("needs", [["hands", "pan"], "hands", ["oven at 200 °C", "large pot"], []])
def test_old_steps_read_as_they_did(needs: object) -> None:
    steps = [{"do": "Cook.", "part": "pot", "hands_on": "5 min", "unattended": "1 h 5 min", "needs": needs}]
    (step,) = made({**STEW, "steps": steps}).steps
    told = (needs,) if isinstance(needs, str) else tuple(needs)  # type: ignore[arg-type]
    assert step == Step("Cook.", Fraction(5), Fraction(65), told, "pot")
