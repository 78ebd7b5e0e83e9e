"""Walking through what a user's file holds, collecting every fault with its place instead of stopping at one.

A tree is plain mappings, lists and texts, as a file loader gives it without guessing types: every scalar is
a text, and None stands for a value left empty.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from ladleworth.errors import BadUnit, Finding, Place, Weight

Path = tuple[str | int, ...]
"""The keys and list positions that lead to a value: ('parts', 0, 'lines', 2)."""

Placer = Callable[[Path], Place]
"""Tells where in the user's data the value at a path stands."""

_LONGEST = 500


def show_path(path: Path) -> str:
    """Write a path the way a reader counts: `parts[1].lines[3]`, positions from 1."""
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if text else step
    return text


def nearest(word: str, known: Iterable[str]) -> str:
    """Give the known word whose spelling comes nearest, '' if none comes near."""
    folded: dict[str, str] = {}
    for name in known:
        folded.setdefault(name.casefold(), name)
    close = difflib.get_close_matches(word.casefold()[:60], folded, n=1, cutoff=0.6)
    return folded[close[0]] if close else ""


def shorten(text: str) -> str:
    """Quote a text for a message, cut to sixty characters."""
    return repr(text if len(text) <= 60 else text[:60] + "…")


@dataclass(slots=True)
class Findings:
    """The faults met so far, in the order met, and how a path is turned into a place."""

    place: Placer
    found: list[Finding] = field(default_factory=list)

    def fault(self, path: Path, what: str, remedy: str) -> None:
        """Note a fault that stops the load."""
        self.found.append(Finding(self.place(path), what, remedy))

    def doubt(self, path: Path, what: str, remedy: str) -> None:
        """Note a doubt: it is shown and the load goes on."""
        self.found.append(Finding(self.place(path), what, remedy, Weight.DOUBT))

    @property
    def faulty(self) -> bool:
        """Whether any finding is a fault."""
        return any(finding.weight is Weight.FAULT for finding in self.found)


@dataclass(frozen=True, slots=True)
class Node:
    """A value in the tree, with the path to it and where its faults go."""

    data: object
    path: Path
    findings: Findings

    def fault(self, what: str, remedy: str) -> None:
        """Note a fault at this value."""
        self.findings.fault(self.path, what, remedy)

    @property
    def is_mapping(self) -> bool:
        """Whether keys and values stand here."""
        return isinstance(self.data, Mapping)

    def keys(self, known: Mapping[str, str], what: str) -> dict[str, Node]:
        """Open a mapping.

        Parameters
        ----------
        known
            The keys that may stand here, each with an example of what to write.
        what
            What the mapping is, in words ('a dish').

        Returns
        -------
        dict
            The known keys that are there, each with its value; unknown keys become faults.
        """
        example = ", ".join(f"{key}: {value}" for key, value in list(known.items())[:2])
        if not isinstance(self.data, Mapping):
            self.fault(f"{what} is {_kind(self.data)}", f"write keys and values such as {{{example}}}")
            return {}
        opened = {}
        for key, value in self.data.items():
            if isinstance(key, str) and key in known:
                opened[key] = Node(value, (*self.path, key), self.findings)
                continue
            name = key if isinstance(key, str) else ""
            near = nearest(name, known)
            remedy = f"did you mean {near!r}?" if near else f"the keys of {what} are {', '.join(known)}"
            self.findings.fault((*self.path, name), f"{what} has no key {shorten(name)}", remedy)
        return opened

    def entries(self, what: str) -> tuple[tuple[str, Node], ...]:
        """Open a mapping whose keys are names that the user chose; an empty value has none."""
        if self.data is None:
            return ()
        if not isinstance(self.data, Mapping):
            self.fault(f"{what} is {_kind(self.data)}", "write names and amounts such as {lentils: 80 g}")
            return ()
        named = []
        for key, value in self.data.items():
            if not isinstance(key, str) or not key.strip():
                self.fault(f"{what} has an amount without a name", "write the name before the colon")
            else:
                named.append((key, Node(value, (*self.path, key), self.findings)))
        return tuple(named)

    def items(self, what: str, *, or_one: bool = False) -> tuple[Node, ...]:
        """Open a list; an empty value has no items; with `or_one`, a text stands for a list of one."""
        if self.data is None:
            return ()
        if or_one and isinstance(self.data, str):
            return (self,)
        if not isinstance(self.data, list | tuple):
            self.fault(f"{what} is {_kind(self.data)}", "write a list, each entry on a line after '- '")
            return ()
        return tuple(Node(item, (*self.path, at), self.findings) for at, item in enumerate(self.data))

    def text(self, what: str, example: str) -> str:
        """Read a text that may not be empty; '' after a fault."""
        if isinstance(self.data, str) and self.data.strip():
            if len(self.data) <= _LONGEST:
                return self.data.strip()
            self.fault(f"{what} is {len(self.data)} characters long", f"write at most {_LONGEST}")
            return ""
        if self.data is None or isinstance(self.data, str):
            self.fault(f"{what} is empty", f"write something like {example}, or leave the key out")
        else:
            self.fault(f"{what} is {_kind(self.data)}", f"write a text like {example}")
        return ""

    def texts(self, what: str, example: str) -> tuple[str, ...]:
        """Read a list of different texts, or one text for a list of one."""
        read: list[str] = []
        for item in self.items(what, or_one=True):
            text = item.text(f"an entry of {what}", example)
            if text and text in read:
                item.fault(f"{what} names {shorten(text)} twice", "write it once")
            elif text:
                read.append(text)
        return tuple(read)

    def whole(self, what: str, *, none: bool = False) -> int | None:
        """Read a whole number of 1 or more; None after a fault, and for 'none' where that may be said."""
        text = self.text(what, "4")
        if not text or (none and text.casefold() == "none"):
            return None
        if text.isascii() and text.isdigit() and 1 <= int(text) < 1_000_000:
            return int(text)
        self.fault(f"{what} is {shorten(text)}", "write a whole number of 1 or more, such as 4")
        return None

    def check(self, what: str, example: str, read: Callable[[str], object]) -> str:
        """Keep a text as written after making sure that it can be read; '' after a fault."""
        text = self.text(what, example)
        if not text:
            return ""
        try:
            read(text)
        except BadUnit as fault:
            self.fault(f"{what} cannot be read: {fault}", f"write something like {example}")
            return ""
        return text


def _kind(data: object) -> str:
    if data is None:
        return "empty"
    if isinstance(data, Mapping):
        return "a set of keys and values"
    if isinstance(data, list | tuple):
        return "a list"
    return f"the text {shorten(data)}" if isinstance(data, str) else f"{shorten(str(data))}, which is no text"
