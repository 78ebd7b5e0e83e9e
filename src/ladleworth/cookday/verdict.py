"""What the judge of a cooking day says, and how a timetable is read: pieces of work and what each takes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ladleworth.cookday.answer import Timed, Timetable, Washed
from ladleworth.cookday.question import Activity, DayQuestion, Merging


@dataclass(frozen=True, slots=True)
class Breach:
    """A rule that a timetable does not keep: the rule's name, and what is wrong in words."""

    rule: str
    what: str

    def __str__(self) -> str:
        return f"[{self.rule}] {self.what}"


@dataclass(frozen=True, slots=True)
class Piece:
    """Work done in one go: an activity, the activities of a merging that is done, or the washing of a tool.

    `members` are its activities (none: a wash). It takes the most that any of them takes. `begun` says that it
    has begun, so that its start is a fact.
    """

    name: str
    members: tuple[str, ...]
    start: int
    end: int
    cooks: tuple[int, ...]
    hands: int
    burners: int = 0
    counter: int = 0
    microwaves: int = 0
    shelves: int = 0
    begun: bool = False

    def during(self, other: Piece) -> bool:
        """Tell whether both run at some moment; what takes 0 minutes never does."""
        return max(self.start, other.start) < min(self.end, other.end)

    def at(self, minute: int) -> bool:
        """Tell whether it runs in the minute that starts then."""
        return self.start <= minute < self.end


def pieces_of(question: DayQuestion, timetable: Timetable) -> tuple[Piece, ...]:
    """Read the activities of a timetable as pieces of work, those of a merging that is done as one.

    Members that do not have the same times (which is a breach) are read as the first of them has it.
    """
    known = {a.name: a for a in question.activities}
    times = {t.activity: t for t in timetable.times}
    begun = {b.activity for b in question.begun}
    pieces: list[Piece] = []
    for name, group in groups_of(question, timetable.merged):
        members = [known[each] for each in group]
        pieces.append(_piece(name, members, times[group[0]], begun=not begun.isdisjoint(group)))
    return tuple(pieces)


def _piece(name: str, members: list[Activity], time: Timed, *, begun: bool) -> Piece:
    return Piece(
        name,
        tuple(a.name for a in members),
        time.start,
        time.end,
        time.cooks,
        hands=max(a.hands for a in members),
        burners=max(a.burners for a in members),
        counter=max(a.counter for a in members),
        microwaves=max(a.microwaves for a in members),
        shelves=max(a.oven.shelves if a.oven else 0 for a in members),
        begun=begun,
    )


def groups_of(question: DayQuestion, merged: Iterable[str]) -> list[tuple[str, tuple[str, ...]]]:
    """List what is done in one go, by name, in the natural order of the first activity of each."""
    done = set(merged)
    of = {name: m for m in question.mergings if m.name in done for name in m.activities}
    order = {a.name: n for n, a in enumerate(question.activities)}
    groups: list[tuple[str, tuple[str, ...]]] = []
    for activity in question.activities:
        merging = of.get(activity.name)
        if merging is None:
            groups.append((activity.name, (activity.name,)))
        elif activity.name == min(merging.activities, key=order.__getitem__):
            groups.append((merging.name, tuple(sorted(merging.activities, key=order.__getitem__))))
    return groups


def wash_piece(wash: Washed) -> Piece:
    """Read a wash as a piece of work: one person's hands."""
    return Piece(
        tool_words(wash.kind, wash.which, "washing"), (), wash.start, wash.end, (wash.cook,), hands=1
    )


def tool_words(kind: str, which: int, doing: str = "") -> str:
    """Name a tool: the first of its kind is number 1."""
    return f"{doing} {kind} {which + 1}".strip()


# --- how long things take ------------------------------------------------------------------------------


def paced(question: DayQuestion, minutes: int, *, slow: bool) -> int:
    """Whole minutes of hands-on work, rounded up: as stated, or `slower` times that."""
    return -(-minutes * question.slower // 1) if slow else minutes


def shortest(question: DayQuestion, activity: Activity, *, slow: bool) -> int:
    """Whole minutes that an activity takes at the least."""
    return paced(question, activity.least_min, slow=slow and activity.hands > 0)


def longest(question: DayQuestion, activity: Activity, *, slow: bool) -> int:
    """Whole minutes that an activity takes at the most; more than the least only for waiting."""
    return paced(question, activity.most_min, slow=slow and activity.hands > 0)


def merging_min(question: DayQuestion, merging: Merging, *, slow: bool) -> int:
    """Whole minutes of a merging that is done: hands-on work if any of its activities is."""
    hands = any(question.activity(name).hands for name in merging.activities)
    return paced(question, merging.minutes, slow=slow and hands)
