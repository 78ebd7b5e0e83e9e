"""The neutral question: its page and schema say what the reader does, and every fault is told with its place."""

from __future__ import annotations

import copy
import json
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from ladleworth.errors import FaultyKitchen
from ladleworth.keep.bodies import Shape
from ladleworth.keep.cool_json import ALL_KEYS, read_cool_question
from ladleworth.keep.cool_question import CELLS, SERIES, solve

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "cool-question.md").read_text(encoding="utf-8")
SCHEMA = json.loads(
    (ROOT / "src/ladleworth/keep/schemas/cool-question.schema.json").read_text(encoding="utf-8")
)
VALID = Draft202012Validator(SCHEMA)


def example() -> dict[str, Any]:
    found = re.search(r"^```json\n(.*?)^```$", PAGE, re.S | re.M)
    assert found
    read: dict[str, Any] = json.loads(found[1])
    return read


def slab(**changes: Any) -> dict[str, Any]:
    asked = example()
    asked.update(changes)
    return asked


def faults(document: object) -> list[str]:
    text = document if isinstance(document, str) else json.dumps(document)
    with pytest.raises(FaultyKitchen) as caught:
        read_cool_question(text, "q.json")
    return [str(finding) for finding in caught.value.findings]


def test_the_example_of_the_page_comes_out_as_it_says() -> None:
    VALID.validate(example())
    answer = solve(read_cool_question(json.dumps(example()), "page"))
    told = {one.minute: round(one.hottest_c, 2) for one in answer.middle.readings}
    assert [f"{told[minute]:.2f} °C" for minute in (30, 120, 360)] == ["53.35 °C", "35.59 °C", "13.40 °C"]
    said = " ".join(PAGE.split())
    assert all(f"{told[minute]:.2f}" in said for minute in (30, 120, 360))
    first, last = (one.minutes for one in answer.middle.limits)
    assert first is not None
    assert last is not None
    assert f"21.11 °C after {first:.1f} minutes and 5 °C after {last:.1f}." in said
    assert answer.slow.limits[0].minutes is not None
    assert answer.slow.limits[0].minutes > first
    assert answer.by == SERIES


def test_the_page_and_the_schema_name_every_key_of_the_reader() -> None:
    words = set(re.findall(r"[a-z0-9_]+", PAGE))
    for name, keys in ALL_KEYS.items():
        assert set(keys) - words == set(), name
    defs = SCHEMA["$defs"]
    assert set(SCHEMA["properties"]) == set(ALL_KEYS["question"])
    for name in ("layer", "stage", "still_air", "limit", "frozen", "makeup"):
        assert set(defs[name]["properties"]) == set(ALL_KEYS[name]), name
    for name in ("body", "face", "material"):
        told = {key for form in defs[name]["oneOf"] for key in form["properties"]}
        assert told == set(ALL_KEYS[name]), name
    for shape in Shape:
        assert f"`{shape.value}`" in PAGE
        assert set(shape.faces) <= set(defs["stage"]["properties"]["faces"]["properties"])


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize(
    ("changes", "place", "remedy"),
    [
        ({"ladleworth_cooling": 2}, "ladleworth_cooling", "write 1, the only format"),
        ({"start_c": "hot"}, "start_c", "write a number from -60 to 150"),
        ({"start_c": 1e999}, "start_c", ""),
        ({"start_c": True}, "start_c", "write a number"),
        ({"titel": "x"}, "titel", "did you mean 'title'?"),
        ({"materials": {}}, "body.layers[1].material", "the materials are: none"),
        ({"body": {"shape": "cube"}}, "body.shape", "write one of: slab, brick"),
        ({"body": {"shape": "sphere", "material": "stew"}}, "body.diameter_mm", '"diameter_mm"'),
        ({"stages": []}, "stages", "write 1 to 100"),
        ({"report_min": [0, 30, 30]}, "report_min", "write them rising"),
        ({"report_min": [-1]}, "report_min[1]", "write a number from 0"),
        (
            {"limits": [{"point": "middle", "c": 5}]},
            "limits[1].point",
            "write one of: hottest, coldest, mean",
        ),
        ({"limits": [{}]}, "limits[1].c", 'write "c"'),
    ],
)
def test_a_fault_has_its_place_and_what_to_write(changes: dict[str, Any], place: str, remedy: str) -> None:
    asked = slab(**changes)
    if place != "start_c" or changes["start_c"] != float("inf"):
        assert any(f"q.json: {place}: " in line and remedy in line for line in faults(asked)), faults(asked)
    else:
        assert "Infinity is no number of JSON" in faults(json.dumps(asked))[0]


@pytest.mark.parametrize(
    ("path", "value", "place"),
    [
        (("stages", 0, "minutes"), 0, "stages[1].minutes"),
        (("stages", 0, "faces", "top", "exchange_w_m2k"), -3, "stages[1].faces.top.exchange_w_m2k"),
        (("stages", 0, "faces", "top", "surroundings_c"), None, "stages[1].faces.top.surroundings_c"),
        (("stages", 0, "faces", "side"), {}, "stages[1].faces.side"),
        (("stages", 1, "stir_every_min"), 5, "stages[2].stir_every_min"),
        (("stages", 0, "stir_every_min"), 0.1, "stages[1].stir_every_min"),
        (("materials", "stew", "density_kg_m3"), {"middle": 1}, "materials.stew.density_kg_m3"),
        (("materials", "stew", "at_c"), 20, "materials.stew.at_c"),
        (("materials", "stew", "frozen"), {"freezing_point_c": 1}, "materials.stew.frozen.freezing_point_c"),
        (("body", "layers", 0, "thickness_mm"), 0, "body.layers[1].thickness_mm"),
        (("body", "height_mm"), 5, "body.height_mm"),
        (("body", "layers", 0, "material"), "stw", "body.layers[1].material"),
    ],
)
def test_a_fault_deep_in_the_file_has_its_place(
    path: tuple[str | int, ...], value: object, place: str
) -> None:
    asked: Any = slab()
    at = asked
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = value
    if place.endswith("stir_every_min") and value == 0.1:
        asked["stages"][0]["minutes"] = 600
    assert any(f"q.json: {place}: " in line for line in faults(asked)), faults(asked)


def test_all_faults_come_at_once_and_each_once() -> None:
    asked = slab(start_c="x", report_min="y", limits=[{"c": "z"}])
    asked["stages"][0]["faces"]["top"]["exchange_w_m2k"] = -1
    told = faults(asked)
    assert len(told) == len(set(told)) == 4
    del asked["stages"][0]["faces"]["bottom"]
    assert any("the face 'bottom' is missing" in line for line in faults(asked))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "this is no JSON"),
        ("{", "q.json:1"),
        ('{"a": NaN}', "NaN is no number of JSON"),
        ('{"title": "x", "title": "y"}', "stands twice"),
        ("[" * 100_000, "no"),
        ("[]", "the question is"),
        ("3", "the question is"),
        ('{"start_c": ' + "9" * 5000 + "}", ""),
    ],
)
def test_what_is_no_question_ends_in_a_message(text: str, said: str) -> None:
    assert said in "\n".join(faults(text))


def test_a_freezing_slab_is_one_layer_and_not_stirred() -> None:
    asked = slab(start_c=5)
    asked["materials"]["stew"]["frozen"] = {
        "conductivity_w_mk": 1.5,
        "heat_capacity_j_kgk": 2000,
        "freezing_point_c": -1,
        "freezable_share": 0.71,
    }
    VALID.validate(asked)
    assert solve(read_cool_question(json.dumps(asked), "q.json")).by == CELLS
    stirred = copy.deepcopy(asked)
    stirred["stages"][0]["stir_every_min"] = 5
    assert "leave stir_every_min out" in "\n".join(faults(stirred))
    layers = copy.deepcopy(asked)
    layers["body"]["layers"] *= 2
    assert "a slab with one layer" in "\n".join(faults(layers))


def test_a_makeup_stands_for_properties() -> None:
    asked = slab()
    asked["materials"]["stew"] = {"makeup": {"water": 0.75, "protein": 0.1, "fat": 0.15}, "at_c": 30}
    VALID.validate(asked)
    answer = solve(read_cool_question(json.dumps(asked), "q.json"))
    assert answer.middle.readings[2].hottest_c < 57.2222
    asked["materials"]["stew"]["makeup"]["water"] = 0.2
    assert "the shares come to 0.45" in "\n".join(faults(asked))
    asked["materials"]["stew"]["density_kg_m3"] = 1000
    assert "stands beside a makeup" in "\n".join(faults(asked))
    assert not VALID.is_valid(asked)


def test_layers_begin_at_their_own_temperatures() -> None:
    asked = slab()
    asked["materials"]["tin"] = {"conductivity_w_mk": 60, "density_kg_m3": 7300, "heat_capacity_j_kgk": 230}
    asked["body"]["layers"] = [
        {"material": "stew", "thickness_mm": 20, "start_c": 80},
        {"material": "tin", "thickness_mm": 1, "start_c": 20},
        {"material": "stew", "thickness_mm": 10, "start_c": 30},
    ]
    VALID.validate(asked)
    answer = solve(read_cool_question(json.dumps(asked), "q.json"))
    first = answer.middle.readings[0]
    assert first.hottest_c == pytest.approx(80)
    assert first.coldest_c == pytest.approx(20)
    stew, tin = 1040 * 3700, 7300 * 230
    by_heat = (20 * stew * 80 + 1 * tin * 20 + 10 * stew * 30) / (30 * stew + tin)
    assert first.mean_c == pytest.approx(by_heat, abs=1e-6)


JSON = st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(sorted({k for keys in ALL_KEYS.values() for k in keys})), inner, max_size=4
        )
    ),
    max_leaves=12,
)


@given(JSON)
def test_rubbish_never_ends_in_a_trace(document: object) -> None:
    assert faults(document)


@given(st.sampled_from(sorted(ALL_KEYS["question"])), JSON)
def test_rubbish_under_a_key_never_ends_in_a_trace(key: str, value: object) -> None:
    try:
        answer = solve(read_cool_question(json.dumps(slab(**{key: value})), "q.json"))
    except FaultyKitchen as faulty:
        told: tuple[object, ...] = faulty.findings
    else:
        told = (answer.by,)
    assert told
