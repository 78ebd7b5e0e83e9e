"""Rules of people: whose hands do what."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import Breach, Piece, pieces_of, wash_piece

# --- rule 3: as many people as it takes, nobody at two things ------------------------------------------------


def hands_suffice(question: DayQuestion, timetable: Timetable) -> Iterator[Breach]:
    """Work has the people that it takes, and nobody does two things at once."""
    pieces = (*pieces_of(question, timetable), *map(wash_piece, timetable.washes))
    cooks = {time.activity: time.cooks for time in timetable.times}
    for piece in pieces:
        if len(piece.cooks) != piece.hands or len(set(piece.cooks)) != piece.hands:
            yield Breach("hands", f"{piece.name} has cooks {piece.cooks} and takes {piece.hands}")
        if any(set(cooks[name]) != set(piece.cooks) for name in piece.members):
            yield Breach("hands", f"{piece.name} is done as one by different cooks")
        if not set(piece.cooks) <= set(range(question.bench.cooks)):
            yield Breach(
                "hands", f"{piece.name} has cooks {piece.cooks} of {question.bench.cooks}, from 0 on"
            )
    yield from crowds("hands", pieces, {piece: piece.hands for piece in pieces}, question.bench.cooks)
    for one, other in combinations(pieces, 2):
        if not (one.begun and other.begun) and one.during(other) and set(one.cooks) & set(other.cooks):
            cook, minute = min(set(one.cooks) & set(other.cooks)), max(one.start, other.start)
            yield Breach("hands", f"minute {minute}: cook {cook} is at {one.name} and at {other.name}")


def crowds(rule: str, pieces: Iterable[Piece], takes: dict[Piece, int], room: int) -> Iterator[Breach]:
    """Yield a breach for every minute in which something starts and more is taken than there is.

    What has begun may have taken too much; nothing else may join it then.
    """
    takers = [piece for piece in pieces if takes[piece]]
    for minute in sorted({piece.start for piece in takers}):
        here = [piece for piece in takers if piece.at(minute)]
        taken = sum(takes[piece] for piece in here)
        if taken > room and not all(piece.begun for piece in here):
            names = ", ".join(piece.name for piece in here)
            yield Breach(rule, f"minute {minute}: {names} take {taken}, and {room} are there")
