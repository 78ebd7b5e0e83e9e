"""Walking through a JSON file, collecting every fault with its place instead of stopping at one."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import NoReturn

from ladleworth.dish.tree import Findings, Path, nearest, shorten, show_path
from ladleworth.errors import FaultyKitchen, Finding, Place

MOST_BYTES = 5_000_000
MOST_NUMBER = 1_000_000
"""The greatest number of any kind; those that may be negative go as far below 0."""
LONGEST_NAME = 200
MOST_GUESSES = 100
"""After so many faults it is no longer guessed what an unknown name may mean: guessing takes time."""


class Object(dict[str, object]):
    """A JSON object, and the keys that stand in it more than once."""

    def __init__(self, pairs: Sequence[tuple[str, object]] = ()) -> None:
        super().__init__(pairs)
        twice = len(self) < len(pairs)
        self.twice = (
            [key for key, times in Counter(key for key, _ in pairs).items() if times > 1] if twice else []
        )


def load(data: bytes, file: str) -> object:
    """Read a JSON file as lists, texts, numbers and `Object`s.

    Parameters
    ----------
    data
        What the file holds.
    file
        Its name, for the findings.

    Raises
    ------
    FaultyKitchen
        If it is too large, no UTF-8, or no JSON.
    """
    if len(data) > MOST_BYTES:
        remedy = f"write a file of less than {MOST_BYTES // 1_000_000} MB"
        _refuse(file, None, f"the file has more than {MOST_BYTES // 1_000_000} MB", remedy)
    try:
        return json.loads(data.decode("utf-8-sig"), object_pairs_hook=Object, parse_int=_whole)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        _refuse(file, line, f"byte {data[error.start]:#04x} is no UTF-8", "save the file as UTF-8")
    except json.JSONDecodeError as error:
        what = f"this is no JSON: {error.msg[:1].lower()}{error.msg[1:]} (column {error.colno})"
        _refuse(file, error.lineno, what, "check quotes, commas and brackets here")
    except RecursionError:
        _refuse(file, None, "lists and objects stand too deep in one another", "write the file flatter")


def _whole(digits: str) -> int:
    """Read a whole number; of one that is far too long, only so much that it stays far too great."""
    return int(digits[:20])


def _refuse(file: str, line: int | None, what: str, remedy: str) -> NoReturn:
    raise FaultyKitchen([Finding(Place(file, line), what, remedy)]) from None


class Walk:
    """Reads the values of a tree; whatever is faulty is noted, and left out of what is given."""

    def __init__(self, file: str) -> None:
        self.findings = Findings(lambda path: Place(file, None, show_path(path)))
        self.fault = self.findings.fault

    def fields(
        self, tree: object, path: Path, what: str, keys: Sequence[str], needed: Sequence[str]
    ) -> Object:
        """Open an object (`what`, in words): unknown, missing and repeated keys are faults."""
        if not isinstance(tree, Object):
            self.fault(path, f"{what} is {kind(tree)}", f"write an object with {', '.join(needed)}")
            return Object()
        self.no_key_twice(tree, path)
        for key in tree:
            if key not in keys:
                near = nearest(key, keys)
                remedy = f"did you mean {near!r}?" if near else f"the keys of {what} are {', '.join(keys)}"
                self.fault(path, f"{what} has no key {shorten(key)}", remedy)
        for key in needed:
            if key not in tree:
                self.fault(path, f"{what} lacks {key}", f"write all of {', '.join(needed)}")
        return tree

    def no_key_twice(self, tree: Object, path: Path) -> None:
        """Note every key that stands in an object more than once."""
        for key in tree.twice:
            self.fault(path, f"the key {shorten(key)} stands there more than once", "keep one of them")

    def entries(self, tree: object, path: Path, what: str, most: int) -> tuple[tuple[object, Path], ...]:
        """Open a list of at most so many entries."""
        if not isinstance(tree, list):
            self.fault(path, f"{what} is {kind(tree)}", "write a list in square brackets")
        elif len(tree) > most:
            self.fault(path, f"there are {len(tree)} {what}", f"write at most {most}")
        else:
            return tuple((entry, (*path, at)) for at, entry in enumerate(tree))
        return ()

    def names(self, entries: Sequence[tuple[object, Path]]) -> dict[str, Path]:
        """Find where each entry's name stands, faulty entries' too; a name that stands there before is a fault."""
        known: dict[str, Path] = {}
        for tree, path in entries:
            name = tree.get("name") if isinstance(tree, Object) else None
            if not isinstance(name, str):
                continue
            if name in known:
                what = f"{shorten(name)} is the name here and in {show_path(known[name])}"
                self.fault((*path, "name"), what, "give each a name of its own")
            known.setdefault(name, path)
        return known

    def known(self, name: str, path: Path, names: Mapping[str, Path], one: str, many: str) -> bool:
        """Tell whether a name is one of those that there are; if not, that is a fault."""
        if name in names:
            return True
        near = nearest(name, names) if len(self.findings.found) < MOST_GUESSES else ""
        listed = ", ".join(map(shorten, list(names)[:8])) + (", ..." if len(names) > 8 else "")
        there = f"the {many} are {listed}" if listed else f"list it under {many}"
        what = f"no {one} is called {shorten(name)}"
        self.fault(path, what, f"did you mean {shorten(near)}?" if near else there)
        return False

    def name(self, tree: object, path: Path, what: str) -> str:
        """Read a name or title; '' after a fault."""
        if not isinstance(tree, str) or not tree.strip():
            self.fault(path, f"{what} is {kind(tree)}", "write a text between quotes")
        elif len(tree) > LONGEST_NAME:
            self.fault(path, f"{what} is {len(tree)} characters long", f"write at most {LONGEST_NAME}")
        elif not tree.isprintable():
            self.fault(path, f"{what} {shorten(tree)} holds characters that cannot be shown", "take them out")
        else:
            return tree
        return ""

    def number(self, tree: object, path: Path, what: str, least: int = 0) -> int | None:
        """Read a whole number from `least` to the greatest there is; None after a fault."""
        remedy = f"write a whole number from {least} to {MOST_NUMBER}"
        if not isinstance(tree, int) or isinstance(tree, bool):
            self.fault(path, f"{what} is {kind(tree)}", remedy)
        elif tree > MOST_NUMBER:
            self.fault(path, f"{what} is above {MOST_NUMBER}", remedy)
        elif tree < least:
            self.fault(path, f"{what} is {tree if tree > -MOST_NUMBER else f'below {-MOST_NUMBER}'}", remedy)
        else:
            return tree
        return None


def kind(tree: object) -> str:
    """Say what stands somewhere in place of what is wanted."""
    if tree is None or isinstance(tree, bool):
        return {None: "null", True: "true", False: "false"}[tree]
    if isinstance(tree, Mapping):
        return "an object"
    if isinstance(tree, list):
        return "a list"
    if isinstance(tree, str):
        return f"the text {shorten(tree)}" if tree.strip() else "an empty text"
    return f"{tree}, which is no whole number" if isinstance(tree, float) else "a number"
