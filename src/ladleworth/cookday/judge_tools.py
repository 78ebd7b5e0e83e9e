"""Rules of tools: one use at a time, and a wash where the next may not follow."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ladleworth.cookday.answer import Timetable, Washed
from ladleworth.cookday.holdings import Holding, gaps_to_wash, holdings_of
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import Breach, tool_words

# --- rule 6: tools and washes --------------------------------------------------------------------------------


def tools_are_clean(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    """Every use has a tool to itself, washed before it where it must be, and nothing is washed besides."""
    counts = {tool.name: tool.count for tool in question.bench.tools}
    kinds = {use.name: use.kind for use in question.uses}
    for held in timetable.tools:
        if not 0 <= held.which < counts[kinds[held.use]]:
            tool = tool_words(kinds[held.use], held.which)
            yield Breach("tools", f"{held.use} has {tool} of {counts[kinds[held.use]]}")
    holdings = holdings_of(question, timetable)
    for (kind, which), line in holdings.items():
        for earlier, later in pairwise(line):
            if later.start < earlier.end and not (earlier.begun and later.begun):
                words = f"{tool_words(kind, which)} is held by {earlier.name} until minute {earlier.end}"
                yield Breach("tools", f"{words} and by {later.name} from minute {later.start}")
    for kind, which in sorted({*holdings, *((wash.kind, wash.which) for wash in timetable.washes)}):
        washes = [wash for wash in timetable.washes if (wash.kind, wash.which) == (kind, which)]
        yield from _washes(tool_words(kind, which), holdings.get((kind, which), []), washes)


def _washes(tool: str, line: list[Holding], washes: list[Washed]) -> Iterator[Breach]:
    """The first wash of a tool comes where the first is needed, and so on; there are as many as are needed."""
    gaps = gaps_to_wash(line)
    washes = sorted(washes, key=lambda wash: (wash.start, wash.end))
    if len(washes) != len(gaps):
        yield Breach("tools", f"{tool} is washed {len(washes)} times and must be {len(gaps)} times")
        return
    for wash, (earlier, later) in zip(washes, gaps, strict=True):
        if wash.start < earlier.end or wash.end > later.start:
            between = f"between {earlier.name} (to {earlier.end}) and {later.name} (from {later.start})"
            yield Breach("tools", f"{tool} is washed from {wash.start} to {wash.end}, not {between}")
