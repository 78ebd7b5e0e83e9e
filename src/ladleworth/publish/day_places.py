"""Which burner, shelf or place: things numbered so that what stays in one pot stays on one burner."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import Piece, pieces_of

Places = Mapping[str, tuple[int, ...]]
"""By activity, the numbers (0, 1, ...) of what it takes."""


def burners_of(question: DayQuestion, timetable: Timetable) -> Places:
    """Number the burners that each activity takes."""
    return _numbered(question, timetable, lambda piece: piece.burners)


def microwaves_of(question: DayQuestion, timetable: Timetable) -> Places:
    """Number the microwaves that each activity takes."""
    return _numbered(question, timetable, lambda piece: piece.microwaves)


def _numbered(question: DayQuestion, timetable: Timetable, takes: Callable[[Piece], int]) -> Places:
    """Hand units out in the order of the starts: first to what goes on in the pot that stands there."""
    pieces = [piece for piece in pieces_of(question, timetable) if takes(piece)]
    pots = _pots(question)
    free_from: list[int] = []
    stood: dict[str, tuple[int, ...]] = {}
    given: dict[str, tuple[int, ...]] = {}

    def still_there(piece: Piece) -> tuple[int, ...]:
        where = [unit for name in piece.members for pot in pots[name] for unit in stood.get(pot, ())]
        return tuple(dict.fromkeys(unit for unit in where if free_from[unit] <= piece.start))

    waiting = sorted(pieces, key=lambda piece: (piece.start, piece.end))
    while waiting:
        now = [piece for piece in waiting if piece.start == waiting[0].start]
        piece = next(filter(still_there, now), now[0])
        waiting.remove(piece)
        free = (unit for unit, minute in enumerate(free_from) if minute <= piece.start)
        units = list(dict.fromkeys((*still_there(piece), *free)))[: takes(piece)]
        while len(units) < takes(piece):
            units.append(len(free_from))
            free_from.append(0)
        for unit in units:
            free_from[unit] = piece.end
        for name in piece.members:
            given[name] = tuple(sorted(units))
            stood.update(dict.fromkeys(pots[name], given[name]))
    return given


def _pots(question: DayQuestion) -> Mapping[str, Sequence[str]]:
    """List the uses of tools that each activity belongs to."""
    pots: dict[str, list[str]] = {activity.name: [] for activity in question.activities}
    for use in question.uses:
        for name in use.activities:
            pots[name].append(use.name)
    return pots


def rows_for(spans: Sequence[tuple[int, int]]) -> tuple[int, ...]:
    """Put spans of time (start, end) into as few rows as possible so that none lie on top of each other."""
    rows = [0] * len(spans)
    free_from: list[int] = []
    for at in sorted(range(len(spans)), key=lambda at: spans[at]):
        start, end = spans[at]
        row = next((row for row, minute in enumerate(free_from) if minute <= start), len(free_from))
        if row == len(free_from):
            free_from.append(0)
        free_from[row] = max(end, start + 1)
        rows[at] = row
    return tuple(rows)
