"""Question files of plain projects: the page, the schema and the reader say the same, and every fault is told at once."""

from __future__ import annotations

import contextlib
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from ladleworth.cookday import json_tree, project_json
from ladleworth.cookday.project import Anchor, Demand, ProjectActivity, ProjectLag, Resource
from ladleworth.cookday.project_json import AskedProject, read_project
from ladleworth.cookday.project_model import schedule
from ladleworth.errors import FaultyKitchen

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "cookday-question.md").read_text(encoding="utf-8")
SCHEMA = json.loads((ROOT / "src/ladleworth/cookday/schemas/project.schema.json").read_text(encoding="utf-8"))
EXAMPLE, ANSWER = re.findall(r"^```json\n(.*?)^```$", PAGE, re.S | re.M)


def example() -> Any:
    return json.loads(EXAMPLE)


def faults(tree: object) -> list[str]:
    """What is told of a file: place, what is wrong, what to write."""
    text = tree if isinstance(tree, bytes) else json.dumps(tree).encode()
    with pytest.raises(FaultyKitchen) as told:
        read_project(text, "q.json")
    assert all(finding.what and finding.remedy for finding in told.value.findings)
    return [str(finding) for finding in told.value.findings]


def test_the_example_of_the_page_is_read_as_it_says() -> None:
    asked = read_project(EXAMPLE.encode(), "q.json")
    assert asked.title == "Bread and a roast"
    project = asked.project
    assert project.resources == (Resource("hands", 1), Resource("oven", 2))
    assert project.activities[1:3] == (
        ProjectActivity("prove", 60),
        ProjectActivity("bake", 35, (Demand("oven", 1),)),
    )
    assert project.lags[2:] == (
        ProjectLag("season", "roast", 30, None),
        ProjectLag("roast", "carve", 15, 30),
        ProjectLag("bake", "carve", None, 120, Anchor.START, Anchor.START),
    )
    assert project.deadline == 240


def test_the_answer_of_the_page_is_the_answer() -> None:
    answer = schedule(read_project(EXAMPLE.encode(), "bread.json").project, seconds=60)
    told = json.loads(ANSWER)
    assert told["status"] == answer.status.value
    assert (told["makespan"], told["bound"]) == (answer.makespan, answer.bound)
    assert answer.times is not None
    assert told["times"] == [{"activity": t.activity, "start": t.start, "end": t.end} for t in answer.times]


def test_the_page_and_the_schema_name_every_key_and_limit() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert list(Draft202012Validator(SCHEMA).iter_errors(example())) == []
    objects = {
        "the question": SCHEMA,
        **{
            f"{'an' if name == 'activity' else 'a'} {name}": SCHEMA["$defs"][name]
            for name in ("activity", "resource", "lag")
        },
    }
    for name, keys in project_json.KEYS.items():
        assert set(objects[name]["properties"]) == set(keys), name
        assert set(objects[name]["required"]) == set(project_json.NEEDED[name]), name
        assert all(f"`{key}`" in PAGE for key in keys), name
    assert set(SCHEMA["$defs"]["lag"]["properties"]["anchors"]["enum"]) == set(project_json.ANCHORS)
    assert all(f"`{anchors}`" in PAGE for anchors in project_json.ANCHORS)
    for key, most in project_json.MOST.items():
        assert SCHEMA["properties"][key]["maxItems"] == most
        assert f"at most {most}" in PAGE
    assert (
        SCHEMA["$defs"]["number"]["maximum"]
        == SCHEMA["$defs"]["lag_value"]["maximum"]
        == json_tree.MOST_NUMBER
    )
    assert SCHEMA["$defs"]["lag_value"]["minimum"] == -json_tree.MOST_NUMBER
    assert f"from 0 to {json_tree.MOST_NUMBER}; `least` and `greatest` from -{json_tree.MOST_NUMBER}" in PAGE
    assert SCHEMA["$defs"]["name"]["maxLength"] == json_tree.LONGEST_NAME
    assert f"up to {json_tree.LONGEST_NAME} characters" in PAGE
    assert f"{json_tree.MOST_BYTES // 1_000_000} MB" in PAGE


Change = Callable[[Any], object]
ALONE: dict[str, tuple[Change, str]] = {
    "a list in place of the question": (lambda q: [q], "q.json: the question is a list; write an object with activities"),
    "no activities": (lambda q: q.pop("activities") and {"title": "x"}, "q.json: the question lacks activities; write all of activities"),
    "a key that is none": (lambda q: q.update(activites=[]), "q.json: the question has no key 'activites'; did you mean 'activities'?"),
    "a key like no other": (lambda q: q["lags"][0].update(zz=1), "q.json: lags[1]: a lag has no key 'zz'; the keys of a lag are from, to, least, greatest, anchors"),
    "lags that are no list": (lambda q: q.update(lags={}), "q.json: lags: lags is an object; write a list in square brackets"),
    "an activity that is a text": (lambda q: q["resources"].append("pan"), "q.json: resources[3]: a resource is the text 'pan'; write an object with name, capacity"),
    "a name twice": (lambda q: q["resources"].append({"name": "oven", "capacity": 1}), "q.json: resources[3].name: 'oven' is the name here and in resources[2]; give each a name of its own"),
    "an empty name": (lambda q: q["resources"].append({"name": " ", "capacity": 1}), "q.json: resources[3].name: the name is an empty text; write a text between quotes"),
    "a name that is a number": (lambda q: q["resources"].append({"name": 7, "capacity": 1}), "q.json: resources[3].name: the name is a number; write a text between quotes"),
    "a name that cannot be shown": (lambda q: q["resources"].append({"name": "\ud800", "capacity": 1}), r"q.json: resources[3].name: the name '\ud800' holds characters that cannot be shown; take them out"),
    "a name that is too long": (lambda q: q.update(title="x" * 201), "q.json: title: the title is 201 characters long; write at most 200"),
    "a negative duration": (lambda q: q["activities"][0].update(duration=-5), "q.json: activities[1].duration: the duration is -5; write a whole number from 0 to 1000000"),
    "a broken duration": (lambda q: q["activities"][0].update(duration=1.5), "q.json: activities[1].duration: the duration is 1.5, which is no whole number; write a whole number from 0 to 1000000"),
    "a duration that is a text": (lambda q: q["activities"][0].update(duration="10"), "q.json: activities[1].duration: the duration is the text '10'; write a whole number from 0 to 1000000"),
    "a duration that is true": (lambda q: q["activities"][0].update(duration=True), "q.json: activities[1].duration: the duration is true; write a whole number from 0 to 1000000"),
    "a duration that is too long": (lambda q: q["activities"][0].update(duration=10**4200), "q.json: activities[1].duration: the duration is above 1000000; write a whole number from 0 to 1000000"),
    "no duration": (lambda q: q["activities"][0].pop("duration"), "q.json: activities[1]: an activity lacks duration; write all of name, duration"),
    "demands that are a list": (lambda q: q["activities"][0].update(demands=["oven"]), 'q.json: activities[1].demands: the demands are a list; write resources and amounts such as {"oven": 1}'),
    "a resource nobody knows": (lambda q: q["activities"][0].update(demands={"ovn": 1}), "q.json: activities[1].demands: no resource is called 'ovn'; did you mean 'oven'?"),
    "a resource like no other": (lambda q: q["activities"][0].update(demands={"x": 1}), "q.json: activities[1].demands: no resource is called 'x'; the resources are 'hands', 'oven'"),
    "a negative demand": (lambda q: q["activities"][0].update(demands={"oven": -1}), "q.json: activities[1].demands: the demand of 'oven' is -1; write a whole number from 0 to 1000000"),
    "a lag from nowhere": (lambda q: q["lags"][0].update({"from": "kned"}), "q.json: lags[1].from: no activity is called 'kned'; did you mean 'knead'?"),
    "a lag without an end": (lambda q: q["lags"][0].pop("to"), "q.json: lags[1]: a lag lacks to; write all of from, to"),
    "a lag that says nothing": (lambda q: q["lags"].append({"from": "bake", "to": "carve"}), 'q.json: lags[6]: the lag has no least and no greatest value; write "least": 0 for one after the other'),
    "a greatest below the least": (lambda q: q["lags"][0].update(least=4, greatest=3), "q.json: lags[1]: the greatest lag 3 is below the least 4; write one that is no less"),
    "a lag far below 0": (lambda q: q["lags"][0].update(least=-(10**30)), "q.json: lags[1].least: the least lag is below -1000000; write a whole number from -1000000 to 1000000"),
    "anchors that are none": (lambda q: q["lags"][0].update(anchors="finish-start"), "q.json: lags[1].anchors: the anchors are the text 'finish-start'; write one of 'start-start', 'start-end', 'end-start', 'end-end'"),
    "a negative deadline": (lambda q: q.update(deadline=-1), "q.json: deadline: the deadline is -1; write a whole number from 0 to 1000000"),
    "no deadline": (lambda q: q.update(deadline=None), "q.json: deadline: the deadline is null; write a whole number from 0 to 1000000"),
    "more activities than are read": (lambda q: q.update(activities=[{}] * 1001, lags=[]), "q.json: activities: there are 1001 activities; write at most 1000"),
}  # fmt: skip


@pytest.mark.parametrize("name", ALONE)
def test_a_fault_alone_is_told_with_place_and_remedy(name: str) -> None:
    change, words = ALONE[name]
    tree = example()
    changed = change(tree)
    assert faults(changed if name in ("a list in place of the question", "no activities") else tree) == [
        words
    ]
    # What the schema cannot see: names that are used twice, unknown, or cannot be shown; and two numbers compared.
    unseen = {"a name twice", "a greatest below the least", "a name that cannot be shown", "a lag from nowhere",
              "a resource nobody knows", "a resource like no other"}  # fmt: skip
    shown = changed if name in ("a list in place of the question", "no activities") else tree
    assert Draft202012Validator(SCHEMA).is_valid(shown) == (name in unseen)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "q.json:1: this is no JSON: expecting value (column 1); check quotes, commas and brackets here"),
        (b'{\n "activities": [}', "q.json:2: this is no JSON: expecting value (column 17); check quotes, commas and brackets here"),
        (b"activities: []", "q.json:1: this is no JSON: expecting value (column 1); check quotes, commas and brackets here"),
        (b'{"title": "\xe9"}', "q.json:1: byte 0xe9 is no UTF-8; save the file as UTF-8"),
        (b"[" * 100_000, "q.json: lists and objects stand too deep in one another; write the file flatter"),
        (b" " * 5_000_001, "q.json: the file has more than 5 MB; write a file of less than 5 MB"),
        (b'{"activities": [], "activities": []}', "q.json: the key 'activities' stands there more than once; keep one of them"),
        (b'{"activities": [{"name": "a", "duration": 1e999}]}', "q.json: activities[1].duration: the duration is inf, which is no whole number; write a whole number from 0 to 1000000"),
        (b'{"activities": [{"name": "a", "duration": NaN}]}', "q.json: activities[1].duration: the duration is nan, which is no whole number; write a whole number from 0 to 1000000"),
        (b"null", "q.json: the question is null; write an object with activities"),
    ],
)  # fmt: skip
def test_what_is_no_question_at_all(data: bytes, words: str) -> None:
    assert faults(data) == [words]


def test_every_fault_of_a_file_is_told_at_once_and_none_twice() -> None:
    tree = example()
    tree["activities"][0]["duration"] = -5
    tree["activities"][1]["name"] = "knead"
    tree["activities"].append({"duration": "long"})
    tree["lags"][4]["to"] = "crave"
    tree["deadline"] = []
    assert [told.split(": ")[1] for told in faults(tree)] == [
        "activities[2].name",
        "activities[1].duration",
        "activities[7]",
        "activities[7].duration",
        "lags[1].to",
        "lags[2].from",
        "lags[5].to",
        "deadline",
    ]


def test_names_of_any_script_and_a_byte_order_mark_are_taken() -> None:
    text = '\ufeff{"activities": [{"name": "тесто ставить", "duration": 3}]}'
    asked = read_project(text.encode(), "q.json")
    assert asked.project.activities == (ProjectActivity("тесто ставить", 3),)
    assert asked.title == ""


def test_many_faults_are_told_in_a_moment() -> None:
    lags = [{"from": f"x{n}", "to": f"y{n}", "least": 0} for n in range(20_000)]
    activities = [{"name": f"activity {n}", "duration": 1} for n in range(1_000)]
    assert len(faults({"activities": activities, "lags": lags})) == 40_000


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(
            st.sampled_from([*sum(project_json.KEYS.values(), ()), "oven", "x"]), inner, max_size=5
        )
    ),
    max_leaves=25,
)


@given(JSON | st.fixed_dictionaries({"activities": JSON, "resources": JSON, "lags": JSON}))
def test_whatever_is_written_is_read_or_told(tree: object) -> None:
    data = json.dumps(tree).encode()
    with contextlib.suppress(FaultyKitchen):
        assert isinstance(read_project(data, "q.json"), AskedProject)
