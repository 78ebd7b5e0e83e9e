"""What can go wrong, and a fault in a user's data as a value.

Broken code raises. A bad field raises a leaf of `LadleworthError`. Faulty user data yields *all* its
`Finding`s at once, each with its place, the reason and the remedy. A question that has no answer is a
status, not an error.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum


class LadleworthError(Exception):
    """The root of everything this package raises on purpose.

    `exit_code` is what the command line ends with when nothing catches it (docs/cli.md lists them).
    """

    exit_code = 1


class BadUnit(LadleworthError, ValueError):
    """An amount, a unit, a price or a currency that cannot be read, or two that cannot be combined."""

    exit_code = 3


class BadField(LadleworthError, ValueError):
    """A record's field is out of its range."""

    exit_code = 3


class MissingFact(LadleworthError, LookupError):
    """A published figure that nobody has: it is never taken as zero and never guessed."""

    exit_code = 4


class UnknownFood(LadleworthError, LookupError):
    """A food that neither the food table nor the kitchen knows; `nearest` holds close names."""

    exit_code = 4

    def __init__(self, name: str, nearest: Iterable[str] = ()) -> None:
        self.name = name
        self.nearest = tuple(nearest)
        hint = f"; did you mean {', '.join(map(repr, self.nearest))}?" if self.nearest else ""
        super().__init__(f"no food is called {name!r}{hint}")


class LedgerError(LadleworthError):
    """A movement that the ledger cannot take: more than is there, or a lot that does not exist."""

    exit_code = 5


class JudgeRefused(LadleworthError):
    """An answer broke a rule when judged; it is never shown. `breaches` lists every broken rule."""

    exit_code = 6

    def __init__(self, breaches: Iterable[str]) -> None:
        self.breaches = tuple(breaches)
        super().__init__("the judge refused the answer: " + "; ".join(self.breaches))


class SolverFailed(LadleworthError):
    """A solver ended in a state that is no answer (it crashed, or its numbers cannot be read)."""

    exit_code = 6


class StoreError(LadleworthError):
    """The kitchen's file cannot be opened, migrated or written."""

    exit_code = 7


class NotYet(LadleworthError):
    """An action asked for before the one it needs (to buy before there is an accepted plan, say)."""

    exit_code = 8


class Weight(Enum):
    """How heavy a finding is: a fault stops the load, a doubt is shown and the load goes on."""

    FAULT = "fault"
    DOUBT = "doubt"


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a user's data something stands.

    `file` is the path as the user gave it; `line` is 1-based, None where a file has no lines of its own
    (a missing file, say); `item` names the entry (`eaters[2].name`, `offer 'rice'`).
    """

    file: str
    line: int | None = None
    item: str = ""

    def __str__(self) -> str:
        where = self.file if self.line is None else f"{self.file}:{self.line}"
        return f"{where}: {self.item}" if self.item else where


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault in a user's data: where it is, what is wrong, and what to write instead."""

    place: Place
    what: str
    remedy: str
    weight: Weight = Weight.FAULT

    def __str__(self) -> str:
        return f"{self.place}: {self.what}; {self.remedy}"


class FaultyKitchen(LadleworthError):
    """A user's files hold faults; `findings` lists all of them, in file and line order."""

    exit_code = 3

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(map(str, self.findings)))
