"""YAML as plain text in a tree, with the line on which everything stands; nothing is guessed.

Every value is a piece of text exactly as written: `no` stays 'no', `1.10` stays '1.10'. Only an empty value,
`~` and `null` mean nothing (None). Anchors, aliases, merge keys, tags and a second document are refused: what
a kitchen's file says should stand in it in plain sight.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    DocumentStartEvent,
    Event,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
    SequenceStartEvent,
)

from ladleworth.errors import Finding, Place

Tree: TypeAlias = "str | list[Tree] | dict[str, Tree] | None"
Path: TypeAlias = tuple["str | int", ...]

MOST_BYTES = 2_000_000
"""The greatest YAML file that is read. A large kitchen has some 100 kB; reading takes about a second for each 100 kB."""
MOST_DEPTH = 50
"""How deep lists and mappings may stand within one another."""

_NOTHING = frozenset({"", "~", "null", "Null", "NULL"})


@dataclass(frozen=True, slots=True)
class Marked:
    """A YAML file's tree of texts, and the line (from 1) on which each key or item of it stands."""

    tree: Tree
    lines: dict[Path, int]


def load_marked(text: str, file: str) -> tuple[Marked | None, tuple[Finding, ...]]:
    """Read a YAML text into a tree of texts with line numbers.

    Parameters
    ----------
    text
        The file's text; a byte order mark at its head is passed over.
    file
        The file's name for the findings.

    Returns
    -------
    tuple of Marked or None, and of Finding
        The tree (None when the text is no YAML at all), and every fault found.
    """
    if len(text) > MOST_BYTES:
        remedy = f"split it into files of less than {MOST_BYTES // 1_000_000} MB"
        return None, (Finding(Place(file), f"the file has {len(text) / 1_000_000:.1f} MB", remedy),)
    builder = _Builder(file)
    try:
        builder.read(iter(YAML(typ="safe", pure=True).parse(text.removeprefix("\ufeff"))))
    except _TooDeep as halt:
        remedy = "write it flatter"
        what = f"lists and mappings stand more than {MOST_DEPTH} deep in one another"
        return None, (*builder.findings, Finding(Place(file, halt.line), what, remedy))
    except MarkedYAMLError as error:
        return None, (*builder.findings, _syntax(error, text, file))
    except YAMLError as error:
        first = str(error).splitlines()[0]
        remedy = "take the odd character out"
        return None, (*builder.findings, Finding(Place(file), f"this is no YAML: {first}", remedy))
    return Marked(builder.tree, builder.lines), tuple(builder.findings)


def _syntax(error: MarkedYAMLError, text: str, file: str) -> Finding:
    """Say in kitchen words what YAML finds wrong."""
    mark = error.problem_mark or error.context_mark
    line = None if mark is None else mark.line + 1
    row = text.splitlines()[mark.line] if mark is not None and mark.line < len(text.splitlines()) else ""
    if "\t" in row[: len(row) - len(row.lstrip())]:
        return Finding(Place(file, line), "the line is indented with a tab", "indent with spaces")
    problem = (error.problem or error.context or "it cannot be parsed").strip()
    remedy = "check quotes, brackets and indentation here"
    if "mapping values are not allowed" in problem:
        remedy = 'put a text that holds ": " between quotes, and indent the line like its neighbours'
    elif "another document" in problem:
        remedy = "keep one document in a file, without a second '---'"
    elif "cannot start any token" in problem:
        remedy = "put a text that begins with such a character between quotes"
    elif row[:1] == "" and line is not None:
        remedy = "close the quote or bracket that was opened above"
    return Finding(Place(file, line), f"this is no YAML: {problem}", remedy)


class _TooDeep(Exception):
    def __init__(self, line: int) -> None:
        self.line = line
        super().__init__(line)


class _Builder:
    """Builds the tree from the parser's events, so that depth is counted before anything is nested."""

    def __init__(self, file: str) -> None:
        self._file = file
        self._depth = 0
        self.tree: Tree = None
        self.lines: dict[Path, int] = {}
        self.findings: list[Finding] = []

    def read(self, events: Iterator[Event]) -> None:
        documents = 0
        for event in events:
            if isinstance(event, DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self._fault(_line(event), "a second document begins", "keep one document in a file")
            elif isinstance(event, NodeEvent):
                self.lines.setdefault((), _line(event))
                node = self._node(event, events, ())
                if documents == 1:
                    self.tree = node

    def _fault(self, line: int, what: str, remedy: str) -> None:
        self.findings.append(Finding(Place(self._file, line), what, remedy))

    def _node(self, event: Event, events: Iterator[Event], path: Path) -> Tree:
        line = _line(event)
        if isinstance(event, AliasEvent):
            self._fault(line, f"the alias *{getattr(event, 'anchor', '')} is not read", "write the value out")
            return None
        if anchor := getattr(event, "anchor", None):
            self._fault(line, f"the anchor &{anchor} is not read", "take it out and write the value out")
        tag = getattr(event, "tag", None)
        if tag is not None and not (isinstance(event, ScalarEvent) and str(tag) == "!"):
            self._fault(line, f"the tag {tag} is not read", "take it out; every value is read as text")
        if isinstance(event, ScalarEvent):
            return None if event.implicit[0] and event.value in _NOTHING else event.value
        self._depth += 1
        if self._depth > MOST_DEPTH:
            raise _TooDeep(line)
        node: Tree
        if isinstance(event, MappingStartEvent):
            node = self._mapping(events, path)
        else:
            assert isinstance(event, SequenceStartEvent)
            node = self._sequence(events, path)
        self._depth -= 1
        return node

    def _sequence(self, events: Iterator[Event], path: Path) -> list[Tree]:
        items: list[Tree] = []
        for event in events:
            if isinstance(event, CollectionEndEvent):
                break
            here = (*path, len(items))
            self.lines[here] = _line(event)
            items.append(self._node(event, events, here))
        return items

    def _mapping(self, events: Iterator[Event], path: Path) -> dict[str, Tree]:
        fields: dict[str, Tree] = {}
        for event in events:
            if isinstance(event, CollectionEndEvent):
                break
            line = _line(event)
            key = self._key(event, events, line)
            here: Path = (*path, key) if key is not None else (*path, "no key", line)
            if key in fields:
                self._fault(
                    line, f"the key {key!r} stands here and on line {self.lines[here]}", "keep one of the two"
                )
                here = (*path, "no key", line)
                key = None
            self.lines[here] = line
            value = self._node(next(events), events, here)
            if key is not None:
                fields[key] = value
        return fields

    def _key(self, event: Event, events: Iterator[Event], line: int) -> str | None:
        """Read a key; None after a fault, for what cannot be one."""
        if not isinstance(event, ScalarEvent):
            self._fault(
                line, "a list or mapping stands where a key is wanted", "write a plain word as the key"
            )
            self._node(event, events, ("no key", line))
            return None
        if event.value == "<<" and event.implicit[0]:
            self._fault(line, "the merge key << is not read", "write the values out")
            return None
        return str(event.value)


def _line(event: Event) -> int:
    return int(event.start_mark.line) + 1
