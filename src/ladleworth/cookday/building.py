"""The day's model put together, and a solution read back into a timetable, the people left open.

Nothing here is trusted: the judge passes on the timetable.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ladleworth.cookday.answer import Heated, Held, Timed, Timetable, Washed
from ladleworth.cookday.columns import DayModel, Kept, Kind, columns_for_times, lags_are_kept
from ladleworth.cookday.question import DayQuestion, ToolUse
from ladleworth.cookday.rows_bounds import columns_for_measure, room_takes_its_time, work_takes_its_time
from ladleworth.cookday.rows_oven import columns_for_heats, heats_are_right
from ladleworth.cookday.rows_room import hands_suffice, room_suffices, shelves_suffice
from ladleworth.cookday.rows_tools import alike, columns_for_tools, tools_are_clean
from ladleworth.cookday.sheet import holds

RULES = (
    columns_for_times,
    columns_for_heats,
    columns_for_tools,
    columns_for_measure,
    lags_are_kept,
    hands_suffice,
    room_suffices,
    shelves_suffice,
    heats_are_right,
    tools_are_clean,
    work_takes_its_time,
    room_takes_its_time,
)


def build(question: DayQuestion, *, slow: bool, kept: Kept | None = None) -> DayModel:
    """Write a question down: columns, a function for each rule, and rows that only tighten.

    Parameters
    ----------
    question
        The question.
    slow
        Whether hands-on work takes `slower` times as long as stated.
    kept
        What an earlier timetable has settled for what has begun.
    """
    model = DayModel(question, slow=slow, kept=kept)
    if model.possible:
        for rule in RULES:
            rule(model)
    else:
        model.sheet.never()
    return model


def read(model: DayModel, values: Sequence[int]) -> Timetable:
    """Read a solution; nobody has been given the work yet."""
    question = model.question
    times = tuple(
        Timed(a.name, model.starts[a.name].value(values), model.ends[a.name].value(values))
        for a in question.activities
    )
    which: dict[str, int] = {}
    washes: list[Washed] = []
    for kind in model.kinds:
        _read_tools(model, kind, values, which, washes)
    return Timetable(
        times,
        tuple(Held(use.name, which[use.name]) for use in question.uses),
        tuple(sorted(washes, key=lambda wash: (wash.start, wash.kind, wash.which))),
        tuple(Heated(a.name, model.heats[a.name].value(values)) for a in question.activities if a.oven),
        tuple(m.name for m in question.mergings if holds(model.merged[m.name], values)),
    )


def _read_tools(
    model: DayModel, kind: Kind, values: Sequence[int], which: dict[str, int], washes: list[Washed]
) -> None:
    """Number the tools of a kind, give them to the uses, and list the washes of each."""
    if not kind.arcs:
        which.update((node.uses[0].name, n) for n, node in enumerate(kind.nodes))
        return
    lines = _lines(kind, values)
    numbers = _numbers(model, kind, lines)
    held: list[tuple[int, tuple[ToolUse, ...]]] = []
    for number, line in zip(numbers, lines, strict=True):
        for n in line:
            held.append((number, kind.nodes[n].uses))
            wash = kind.nodes[n].wash
            if wash is not None and wash.when is not None and holds(wash.when, values):
                washes.append(Washed(kind.name, number, wash.start.value(values), wash.end.value(values), 0))
    _give(model, [use for use in model.question.uses if use.kind == kind.name], held, which)


def _give(
    model: DayModel, uses: list[ToolUse], held: list[tuple[int, tuple[ToolUse, ...]]], which: dict[str, int]
) -> None:
    """Give each use its tool; alike ones of a merging that share tools fill each of these before they double up."""
    given: Counter[object] = Counter()
    apart: dict[object, int] = {}
    for use in uses:
        likeness = alike(model, use)
        numbers = tuple(number for number, there in held if use in there)
        if numbers:
            which[use.name] = numbers[min(given[likeness, numbers], len(numbers) - 1)]
            given[likeness, numbers] += 1
            apart.setdefault((likeness, _merging(model, use)), which[use.name])
        else:
            which[use.name] = apart[likeness, _merging(model, use)]


def _merging(model: DayModel, use: ToolUse) -> str:
    """Name the merging to which all activities of a use belong."""
    members = set(use.activities)
    return next((m.name for m in model.question.mergings if members <= set(m.activities)), "")


def _lines(kind: Kind, values: Sequence[int]) -> list[list[int]]:
    """Follow the arcs: for each tool the nodes in order, by place in the kind; tools by their first use."""
    follows = {n: k for (n, k), literal in kind.arcs.items() if n and holds(literal, values)}
    firsts = [k for (n, k), literal in kind.arcs.items() if not n and holds(literal, values)]
    lines = []
    for node in sorted(firsts, key=lambda k: (kind.nodes[k - 1].start.value(values), k)):
        line = [node]
        while follows[line[-1]]:
            line.append(follows[line[-1]])
        lines.append([n - 1 for n in line])
    return lines


def _numbers(model: DayModel, kind: Kind, lines: list[list[int]]) -> list[int]:
    """Number the tools in the order of their first use; what has begun keeps the number that it had."""
    kept: dict[int, int] = {}
    for at, line in enumerate(lines):
        for n in line:
            if kind.nodes[n].begun and kind.nodes[n].uses[0].name in model.kept.tools:
                kept.setdefault(at, model.kept.tools[kind.nodes[n].uses[0].name])
    free = (number for number in range(len(lines) + len(kept)) if number not in kept.values())
    return [kept[at] if at in kept else next(free) for at in range(len(lines))]
