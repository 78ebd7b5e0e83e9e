from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ladleworth.dish.dish import Role
from ladleworth.dish.mapping import to_mapping
from ladleworth.dish.tree import Path, show_path
from ladleworth.dish.written import (
    HandsOn,
    WrittenDish,
    WrittenPart,
    WrittenStep,
    WrittenSwap,
    dish_id,
    read_dish,
    read_step_minutes,
)
from ladleworth.errors import BadUnit, Finding, Place

CHILI: dict[str, object] = {
    "dish": "Bean chili",
    "portions": "6",
    "least": "4",
    "greatest": "10",
    "hands_on": {"fixed": "20", "per_portion": "1"},
    "freezer_days": "60",
    "keep_days": "3",
    "meals": ["lunch", "dinner"],
    "never": ["Ben"],
    "parts": [
        {
            "part": "stew",
            "role": "protein",
            "lines": ["1 lb dried kidney beans", "1 large onion, chopped"],
            "swaps": [
                {
                    "swap": "sausage",
                    "lines": ["12 oz smoked sausage, sliced"],
                    "hands_on": {"fixed": "5 min"},
                },
                {"swap": "without", "lines": []},
            ],
        },
        {"part": "rice", "role": "starch", "per_portion": {"rice": "75 g"}},
    ],
    "steps": [
        {"do": "Soak the beans.", "unattended": "8 h"},
        {"do": "Chop the onion.", "part": "stew", "hands_on": "5 min", "needs": ["hands", "board"]},
    ],
    "yield": "2.4 kg",
}
STEW: dict[str, object] = {
    "dish": "Lentil stew",
    "hands_on": {"fixed": "15", "per_portion": "2"},
    "per_portion": {"lentils": "80 g", "egg": "1"},
}


def place(path: Path) -> Place:
    return Place("dishes.yaml", 10 + len(path), show_path(path))


def read(data: object) -> WrittenDish:
    dish, findings = read_dish(data, place)
    assert findings == ()
    assert dish is not None
    return dish


def faults(data: object) -> list[str]:
    dish, findings = read_dish(data, place)
    assert dish is None
    return [f"{finding.place.item}: {finding.what}; {finding.remedy}" for finding in findings]


def test_the_full_form_is_read_with_lines_and_amounts_still_text() -> None:
    dish = read(CHILI)
    assert dish.id == "bean-chili"
    assert (dish.portions, dish.least, dish.greatest, dish.freezer_days, dish.keep_days) == (6, 4, 10, 60, 3)
    stew, rice = dish.parts
    assert stew.role is Role.PROTEIN
    assert stew.lines == ("1 lb dried kidney beans", "1 large onion, chopped")
    assert stew.swaps[0].hands_on == HandsOn(fixed="5 min")
    assert stew.swaps[1].lines == ()
    assert rice.per_portion == (("rice", "75 g"),)
    assert dish.steps[1].needs == ("hands", "board")
    assert dish.measured_yield == "2.4 kg"


def test_amounts_per_portion_at_the_top_make_one_part_without_a_name() -> None:
    (part,) = read(STEW).parts
    assert part.name == ""
    assert part.role is None
    assert part.per_portion == (("lentils", "80 g"), ("egg", "1"))


@pytest.mark.parametrize(
    "data",
    [
        CHILI,
        STEW,
        {"dish": "Toast", "portions": "2", "lines": ["4 slices bread"]},
        {
            "dish": "Pasta",
            "per_portion": {"pasta": "80 g"},
            "swaps": [{"swap": "bacon", "per_portion": {"bacon": "30 g"}}],
        },
        {"dish": "Борщ", "parts": [{"part": "суп", "per_portion": {"свекла": "100 g"}}]},
    ],
)
def test_a_dish_written_back_is_what_was_read(data: dict[str, object]) -> None:
    assert to_mapping(read(data)) == data


def test_what_is_written_back_reads_as_the_same_dish() -> None:
    dish = read({**STEW, "meals": "lunch", "freezer_days": "none", "hands_on": {}, "steps": None})
    assert dish.meals == ("lunch",)
    assert dish.freezer_days is None
    assert dish.hands_on is None
    assert read(to_mapping(dish)) == dish


def test_an_unknown_key_names_the_nearest_known_one_and_its_place() -> None:
    dish, findings = read_dish({**STEW, "porions": "4"}, place)
    assert dish is None
    assert findings == (
        Finding(
            Place("dishes.yaml", 11, "porions"), "a dish has no key 'porions'", "did you mean 'portions'?"
        ),
    )


def test_a_key_like_no_other_lists_what_may_stand_there() -> None:
    (fault,) = faults({**STEW, "parts": [{"part": "a", "per_portion": {"egg": "1"}, "zzz": ""}]})[1:]
    assert "the keys of a part are part, role, lines, per_portion, swaps" in fault


def test_all_faults_of_a_dish_are_listed_at_once() -> None:
    found = faults(
        {
            "dish": "  ",
            "portions": "six",
            "least": "0",
            "hands_on": {"fixed": "-5", "per_portion": "2 lb"},
            "meals": {"lunch": None},
            "parts": [
                {"part": "stew", "role": "protien", "lines": [None, ["1 egg"]]},
                {"part": "Stew", "swaps": [{"swap": "a", "lines": []}, {"swap": "A", "lines": ["1 egg"]}]},
                {"role": "sauce"},
                "rice",
            ],
            "steps": [{"hands_on": "5-7 min"}, {"do": "Stir", "part": "stwe", "unattended": "soon"}],
            "yield": "6 cups",
        }
    )
    starts = [
        "dish: the dish's name is empty",
        "portions: portions is 'six'; write a whole number of 1 or more",
        "least: least is '0'",
        "hands_on.fixed: fixed cannot be read: a negative number",
        "hands_on.per_portion: ",
        "meals: meals is a set of keys and values",
        "parts[1].role: no role is called 'protien'; did you mean 'protein'?",
        "parts[1].lines[1]: an ingredient line is empty",
        "parts[1].lines[2]: an ingredient line is a list",
        "parts[2].part: two parts are called 'Stew'",
        "parts[2].swaps[2].swap: two swaps of a part are called 'A'",
        "parts[3]: a part has no name",
        "parts[3]: a part has no ingredients",
        "parts[4]: a part is the text 'rice'",
        "steps[1]: a step does not say what to do",
        "steps[1].hands_on: ",
        "steps[2].unattended: ",
        "yield: yield cannot be read: ",
        "steps[2].part: the dish has no part 'stwe'; did you mean 'stew'?",
    ]
    for start in starts:
        assert any(fault.startswith(start) for fault in found), (start, found)
    assert len(found) == len(starts)


def test_lines_need_to_say_for_how_many_portions() -> None:
    (fault,) = faults({"dish": "Toast", "lines": ["4 slices bread"]})
    assert fault == ": lines are written but not for how many portions; write portions: N beside them"


@pytest.mark.parametrize("empty", [{}, {"per_portion": None}, {"swaps": [{"swap": "none", "lines": []}]}])
def test_a_dish_without_any_ingredient_is_a_fault(empty: dict[str, object]) -> None:
    assert faults({"dish": "Air", **empty}) == [
        ": a dish has no ingredients; write per_portion, lines or parts"
    ]


def test_parts_and_amounts_beside_them_are_a_fault() -> None:
    assert faults({**CHILI, "per_portion": {"egg": "1"}}) == [
        "per_portion: a dish has both parts and per_portion; move per_portion into one of the parts"
    ]


def test_least_above_the_greatest_that_is_taken_when_left_out_is_a_fault() -> None:
    (fault,) = faults({**STEW, "least": "12"})
    assert "least is 12 and greatest is 8, as it is when left out" in fault


@pytest.mark.parametrize("data", [None, "stew", ["stew"], {}])
def test_what_is_no_dish_is_one_fault(data: object) -> None:
    assert len(faults(data)) == 1


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Bean chili!", "bean-chili"),
        ("Crème brûlée", "crème-brûlée"),
        ("Crème", "crème"),
        ("Борщ № 2", "борщ-2"),
        ("हरी दाल", "हरी-दाल"),
        ("—", ""),
    ],
)
def test_a_dish_id_keeps_letters_of_any_script(name: str, expected: str) -> None:
    assert dish_id(name) == expected


@pytest.mark.parametrize(
    ("text", "minutes"), [("15", 15), ("2.5", Fraction(5, 2)), ("1 h 20 min", 80), ("1:30", 90), ("0", 0)]
)
def test_minutes_are_a_bare_number_or_a_length_of_time(text: str, minutes: Fraction) -> None:
    assert read_step_minutes(text) == minutes


@pytest.mark.parametrize("text", ["-5", "−5 min", "5-7 min", "soon", "", "2 lb"])
def test_minutes_that_cannot_be_read_are_refused(text: str) -> None:
    with pytest.raises(BadUnit):
        read_step_minutes(text)


WORDS = st.text(st.characters(codec="utf-8", categories=["L", "Nd", "P", "S"]), min_size=1, max_size=20)
NAMES = WORDS.map(lambda word: f"a{word}")
LINES = st.lists(WORDS, max_size=3).map(tuple)
AMOUNTS = st.dictionaries(WORDS, WORDS, max_size=3).map(lambda pairs: tuple(pairs.items()))
MINUTES = st.sampled_from(["", "5", "2.5", "1 h 20 min"])
HANDS_ON = st.none() | st.builds(HandsOn, MINUTES, MINUTES).filter(lambda told: told != HandsOn())
COUNT = st.none() | st.integers(1, 999)


def by_name(items: list[WrittenSwap]) -> bool:
    return len({item.name.casefold() for item in items}) == len(items)


SWAPS = (
    st.lists(st.builds(WrittenSwap, NAMES, LINES, AMOUNTS, HANDS_ON), max_size=3).filter(by_name).map(tuple)
)
PARTS = st.lists(
    st.builds(
        WrittenPart,
        NAMES,
        st.none() | st.sampled_from(Role),
        LINES.map(lambda lines: (*lines, "1 egg")),
        AMOUNTS,
        SWAPS,
    ),
    min_size=1,
    max_size=3,
    unique_by=lambda part: part.name.casefold(),
)
FLAT = st.builds(
    WrittenPart, lines=LINES.map(lambda lines: (*lines, "1 egg")), per_portion=AMOUNTS, swaps=SWAPS
)
NEEDS = (
    "hands", "2 cooks", "burner", "2 burners", "microwave", "board", "board for raw meat", "large pot", "Blender",
    "oven at 190 °C ± 10 °C, 2 shelves",
)  # fmt: skip
RESIDUES = ("bacon fat", "nothing", "cooking water")


@st.composite
def steps(draw: st.DrawFn) -> tuple[WrittenStep, ...]:
    """Steps with any of their keys, which follow earlier ones only."""
    made: list[WrittenStep] = []
    for at in range(draw(st.integers(0, 4))):
        named = [step.name for step in made if step.name and not step.day_before]
        timed = draw(st.booleans())
        waits = timed and bool(named) and draw(st.booleans())
        made.append(
            WrittenStep(
                draw(WORDS),
                hands_on="5" if timed else draw(MINUTES),
                unattended="" if timed else draw(MINUTES),
                needs=(
                    *draw(st.lists(st.sampled_from(NEEDS), unique=True, max_size=3)),
                    *(["pan"] if timed else []),
                ),
                name=draw(st.sampled_from(["", f"step {at}"])),
                after=tuple(draw(st.lists(st.sampled_from(named), min_size=1, unique=True)))
                if waits
                else None,
                at_once=waits and draw(st.booleans()),
                prep=draw(WORDS | st.just("")) if timed else "",
                leaves=draw(st.sampled_from(("", *RESIDUES))) if timed else "",
                takes=tuple(draw(st.lists(st.sampled_from(RESIDUES), unique=True))) if timed else (),
                core=draw(st.sampled_from(["", "165 °F", "63 °C, small roast"])),
            )
        )
        if waits and not made[-1].at_once:
            made[-1] = replace(made[-1], wait=draw(st.sampled_from(["", "at least 5 min", "5 min to 9 min"])))
        elif timed and not waits:
            extra = (
                {"day_before": True} if draw(st.booleans()) else {"after": ()} if draw(st.booleans()) else {}
            )
            made[-1] = replace(made[-1], **extra)
        if "2 cooks" in made[-1].needs and not timed:
            made[-1] = replace(made[-1], hands_on="1")
    return tuple(made)


@given(
    st.builds(
        WrittenDish,
        name=NAMES,
        parts=st.one_of(FLAT.map(lambda part: (part,)), PARTS.map(tuple)),
        portions=st.integers(1, 999),
        greatest=st.integers(20, 99),
        least=st.none() | st.integers(1, 20),
        hands_on=HANDS_ON,
        freezer_days=COUNT,
        keep_days=COUNT,
        meals=st.lists(WORDS, unique=True, max_size=3).map(tuple),
        never=st.lists(WORDS, unique=True, max_size=3).map(tuple),
        steps=steps(),
        measured_yield=st.sampled_from(["", "2.4 kg", "3 lb 4 oz"]),
    )
)
def test_any_dish_written_out_reads_as_itself(dish: WrittenDish) -> None:
    assert read(to_mapping(dish)) == dish
