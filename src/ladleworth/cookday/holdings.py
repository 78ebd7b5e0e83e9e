"""Who holds which tool, from when to when, and where it must be washed."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.question import DayQuestion, ToolUse


@dataclass(frozen=True, slots=True)
class Holding:
    """A tool held from `start` to `end` by a use, or by the uses of a merging that is done, as one."""

    uses: tuple[ToolUse, ...]
    start: int
    end: int
    begun: bool

    @property
    def name(self) -> str:
        """Name the uses."""
        return " and ".join(use.name for use in self.uses)

    def may_follow(self, earlier: Holding) -> bool:
        """Tell whether every use may come next on what every earlier one has left, without a wash."""
        return all(use.may_follow(before) for use in self.uses for before in earlier.uses)


def holdings_of(question: DayQuestion, timetable: Timetable) -> dict[tuple[str, int], list[Holding]]:
    """List who holds each tool (kind, number), by the end, then the start, then the natural order of uses.

    Uses of one kind are one use where all their activities belong to the same merging that is done and they hold
    the same tool.
    """
    which = {held.use: held.which for held in timetable.tools}
    done = [set(m.activities) for m in question.mergings if m.name in timetable.merged]
    shared: dict[tuple[str, int, int], list[ToolUse]] = {}
    for n, use in enumerate(question.uses):
        merging = next((k for k, members in enumerate(done) if members.issuperset(use.activities)), -1 - n)
        shared.setdefault((use.kind, which[use.name], merging), []).append(use)
    holdings: dict[tuple[str, int], list[Holding]] = {}
    for (kind, number, _), uses in shared.items():
        holdings.setdefault((kind, number), []).append(_holding(question, timetable, uses))
    for each in holdings.values():
        each.sort(key=lambda holding: (holding.end, holding.start))
    return holdings


def _holding(question: DayQuestion, timetable: Timetable, uses: list[ToolUse]) -> Holding:
    times = [timetable.timed(name) for use in uses for name in use.activities]
    begun = any(fact_at(question, time.activity, end=False) is not None for time in times)
    return Holding(tuple(uses), min(t.start for t in times), max(t.end for t in times), begun)


def gaps_to_wash(holdings: list[Holding]) -> list[tuple[Holding, Holding]]:
    """Pick the neighbours on a tool between which it must be washed; what has begun needs no wash any more."""
    return [
        (earlier, later)
        for earlier, later in pairwise(holdings)
        if not later.begun and not later.may_follow(earlier)
    ]
