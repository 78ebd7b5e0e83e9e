from __future__ import annotations

import time

import pytest

from ladleworth.store.marked_yaml import MOST_BYTES, load_marked


def only(text: str) -> str:
    _, findings = load_marked(text, "k.yaml")
    assert len(findings) == 1, findings
    return str(findings[0])


def test_every_scalar_is_the_text_as_written() -> None:
    text = "a: no\nb: 1.10\nc: 2026-12-06\nd: 0x1F\ne: [yes, 1_000, 12:30, .inf]\n'f': '~'\n"
    marked, findings = load_marked(text, "k.yaml")
    assert findings == ()
    assert marked is not None
    assert marked.tree == {
        "a": "no",
        "b": "1.10",
        "c": "2026-12-06",
        "d": "0x1F",
        "e": ["yes", "1_000", "12:30", ".inf"],
        "f": "~",
    }


@pytest.mark.parametrize("nothing", ["", "~", "null", "Null", "NULL"])
def test_an_empty_value_is_nothing(nothing: str) -> None:
    marked, findings = load_marked(f"a: {nothing}\n", "k.yaml")
    assert findings == ()
    assert marked is not None
    assert marked.tree == {"a": None}


@pytest.mark.parametrize("text", ["", "# only a remark\n", "---\n", "\ufeff"])
def test_an_empty_file_is_nothing(text: str) -> None:
    marked, findings = load_marked(text, "k.yaml")
    assert findings == ()
    assert marked is not None
    assert marked.tree is None


def test_every_key_and_item_knows_its_line() -> None:
    marked, _ = load_marked("\ufeffa: 1\nb:\n  - x\n  - y: 2\n    z: {w: 3}\n", "k.yaml")
    assert marked is not None
    assert marked.lines == {
        (): 1,
        ("a",): 1,
        ("b",): 2,
        ("b", 0): 3,
        ("b", 1): 4,
        ("b", 1, "y"): 4,
        ("b", 1, "z"): 5,
        ("b", 1, "z", "w"): 5,
    }


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: 1\nb: 2\na: 3\n", "k.yaml:3: the key 'a' stands here and on line 1; keep one of the two"),
        ("a: &x 1\n", "k.yaml:1: the anchor &x is not read; take it out and write the value out"),
        ("a: 1\n<<: {b: 2}\n", "k.yaml:2: the merge key << is not read; write the values out"),
        (
            "a: !!int 3\n",
            "k.yaml:1: the tag tag:yaml.org,2002:int is not read; take it out; every value is read as text",
        ),
        ("a: !spice 3\n", "k.yaml:1: the tag !spice is not read; take it out; every value is read as text"),
        ("a:\n\t- b\n", "k.yaml:2: the line is indented with a tab; indent with spaces"),
        ("a: 1\n---\nb: 2\n", "k.yaml:2: a second document begins; keep one document in a file"),
        (
            "? [a]\n: 1\n",
            "k.yaml:1: a list or mapping stands where a key is wanted; write a plain word as the key",
        ),
        (
            "a: b: c\n",
            (
                "k.yaml:1: this is no YAML: mapping values are not allowed here; "
                'put a text that holds ": " between quotes, and indent the line like its neighbours'
            ),
        ),
        (
            "a: @home\n",
            (
                "k.yaml:1: this is no YAML: found character '@' that cannot start any token; "
                "put a text that begins with such a character between quotes"
            ),
        ),
        (
            "a: [1, 2\n",
            (
                "k.yaml:2: this is no YAML: expected ',' or ']', but got '<stream end>'; "
                "close the quote or bracket that was opened above"
            ),
        ),
        (
            "a: b\x00\n",
            (
                "k.yaml: this is no YAML: unacceptable character #x0000: special characters are not allowed; "
                "take the odd character out"
            ),
        ),
    ],
)
def test_what_is_not_plain_yaml_is_named_with_its_line(text: str, said: str) -> None:
    assert only(text) == said


def test_an_alias_is_refused_beside_its_anchor() -> None:
    _, findings = load_marked("a: &x 1\nb: *x\n", "k.yaml")
    assert [finding.place.line for finding in findings] == [1, 2]
    assert findings[1].what == "the alias *x is not read"


def test_a_duplicate_key_keeps_the_first_value_and_goes_on() -> None:
    marked, findings = load_marked("a: 1\na: {b: 2}\nc: 3\nc: 4\n", "k.yaml")
    assert marked is not None
    assert marked.tree == {"a": "1", "c": "3"}
    assert len(findings) == 2


@pytest.mark.parametrize("text", ["[" * 100_000, "{a: " * 60, "- " * 51 + "x\n"])
def test_deep_nesting_is_refused_at_once(text: str) -> None:
    began = time.process_time()
    assert "lists and mappings stand more than 50 deep in one another; write it flatter" in only(text)
    assert time.process_time() - began < 2


def test_fifty_levels_are_read() -> None:
    marked, findings = load_marked("[" * 50 + "]" * 50, "k.yaml")
    assert findings == ()
    assert marked is not None


def test_a_huge_file_is_refused_unread() -> None:
    assert (
        only("a" * (MOST_BYTES + 1)) == "k.yaml: the file has 2.0 MB; split it into files of less than 2 MB"
    )
