"""A cooking day as a list by the clock: what to start, on whose hands, where, with how much of what, until when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.happened import lag_minutes
from ladleworth.cookday.pose_cores import CoreNote
from ladleworth.cookday.pose_texts import Instruction
from ladleworth.cookday.question import DayQuestion, Lag
from ladleworth.cookday.verdict import Piece, pieces_of
from ladleworth.publish.day_lanes import heat_of
from ladleworth.publish.day_names import names_of, tool_name
from ladleworth.publish.day_places import burners_of, microwaves_of


class RowKind(Enum):
    """What a line of the list is about."""

    HANDS = "hands-on"
    ALONE = "by itself"
    WASH = "wash"
    OVEN = "set the oven"
    DONE = "done"
    FREE = "hands free"


@dataclass(frozen=True, slots=True)
class DayRow:
    """A line of the list.

    Parameters
    ----------
    kind
        What it is about.
    start, end
        Minutes from the start of the day.
    words
        What to do.
    code
        The short name of the work; '' for what is none.
    activities
        The activities that it stands for.
    cooks
        Whose hands, from 0.
    where
        Burners, oven, counter and tools, in words.
    amounts
        What goes in, with the amounts for the batch.
    then_until
        Until when it goes on by itself right after; None: it does not.
    measures
        What the middle has to reach at its end, in words.
    """

    kind: RowKind
    start: int
    end: int
    words: str
    code: str = ""
    activities: tuple[str, ...] = ()
    cooks: tuple[int, ...] = ()
    where: tuple[str, ...] = ()
    amounts: tuple[str, ...] = ()
    then_until: int | None = None
    measures: tuple[str, ...] = ()


def rows_of(
    question: DayQuestion,
    timetable: Timetable,
    instructions: Sequence[Instruction] = (),
    cores: Sequence[CoreNote] = (),
) -> tuple[DayRow, ...]:
    """List a day by the clock.

    Parameters
    ----------
    question, timetable
        The question, and a timetable of it.
    instructions
        What goes into each activity, with amounts.
    cores
        What has to be measured in the middle when an activity ends.

    Returns
    -------
    tuple of DayRow
        By start; at the same minute what is done comes first, then what is begun in its natural order, free hands last.
    """
    day = _Day(question, timetable, instructions, cores)
    rows = [*day.done(), *day.oven(), *day.work(), *day.washes(), *day.free()]
    rank = {RowKind.DONE: 0, RowKind.OVEN: 1, RowKind.FREE: 3}
    return tuple(sorted(rows, key=lambda row: (row.start, rank.get(row.kind, 2))))


class _Day:
    """A question with its timetable, read as pieces of work."""

    def __init__(
        self,
        question: DayQuestion,
        timetable: Timetable,
        told: Sequence[Instruction],
        cores: Sequence[CoreNote],
    ) -> None:
        self.question, self.timetable = question, timetable
        self.pieces = pieces_of(question, timetable)
        self.of = {name: piece for piece in self.pieces for name in piece.members}
        self.known = {activity.name: activity for activity in question.activities}
        self.mergings = {m.name: m for m in question.mergings if m.name in timetable.merged}
        self.names = names_of(question)
        self.burners, self.microwaves = burners_of(question, timetable), microwaves_of(question, timetable)
        self.heats = {heated.activity: heated.heat_c for heated in timetable.oven}
        self.amounts = {one.activity: tuple(each.words for each in one.ingredients) for one in told}
        self.cores = {core.activity: core.words for core in cores}
        self.next_alone = self._going_on()

    def _going_on(self) -> Mapping[str, str]:
        """What goes on by itself the minute that hands let go of it, by the activity before."""
        return {
            lag.first: lag.second
            for lag in self.question.lags
            if (lag.least, lag.most, lag.first_end, lag.second_end) == (0, 0, True, False)
            and self.known[lag.first].hands
            and not self.known[lag.second].hands
        }

    def work(self) -> Iterator[DayRow]:
        """List the work; what goes on by itself right after hands-on work stands in its line."""
        told = set(self.next_alone.values())
        for piece in self.pieces:
            if piece.hands or piece.members[0] not in told:
                yield self._row(piece)

    def _row(self, piece: Piece) -> DayRow:
        merging = self.mergings.get(piece.name) if len(piece.members) > 1 else None
        words = self.known[piece.members[0]].words
        later = [self.next_alone[name] for name in piece.members if name in self.next_alone]
        return DayRow(
            RowKind.HANDS if piece.hands else RowKind.ALONE,
            piece.start,
            piece.end,
            words if merging is None else merging.words or merging.name,
            "+".join(dict.fromkeys(self.names.codes[name] for name in piece.members)),
            piece.members,
            piece.cooks,
            tuple(self._where(piece)),
            tuple(self._amounts(piece)),
            max((self.timetable.timed(name).end for name in later), default=None),
            tuple(self.cores[name] for name in (*piece.members, *later) if name in self.cores),
        )

    def _where(self, piece: Piece) -> Iterator[str]:
        first = piece.members[0]
        for what, places in (("burner", self.burners), ("microwave", self.microwaves)):
            numbers = places.get(first, ())
            if numbers:
                yield f"{what}{'s' if len(numbers) > 1 else ''} {' and '.join(str(n + 1) for n in numbers)}"
        heat = next((self.heats[name] for name in piece.members if name in self.heats), None)
        if heat is not None:
            shelves = f", {piece.shelves} shelves" if piece.shelves > 1 else ""
            yield f"oven at {heat} °C{shelves}"
        if piece.counter:
            yield f"counter, {piece.counter} place{'s' if piece.counter > 1 else ''}"
        which = {held.use: held.which for held in self.timetable.tools}
        held = (use for use in self.question.uses if not set(piece.members).isdisjoint(use.activities))
        yield from dict.fromkeys(tool_name(self.question, use.kind, which[use.name]) for use in held)

    def _amounts(self, piece: Piece) -> Iterator[str]:
        """List what goes in; of work for several batches, one line for each with its letter."""
        for name in piece.members:
            told = self.amounts.get(name, ())
            if len(piece.members) == 1:
                yield from told
            elif told:
                yield f"{self.names.letters.get(self.known[name].batch, name)}: {'; '.join(told)}"

    def washes(self) -> Iterator[DayRow]:
        """List the washing of tools between two uses."""
        for wash in self.timetable.washes:
            words = f"Wash the {tool_name(self.question, wash.kind, wash.which)}."
            yield DayRow(RowKind.WASH, wash.start, wash.end, words, cooks=(wash.cook,))

    def oven(self) -> Iterator[DayRow]:
        """Say when the oven is to be set to which heat."""
        heat = heat_of(self.question, self.timetable)
        for before, after in pairwise(heat):
            if before.heat_c != after.heat_c:
                words = f"Set the oven to {after.heat_c} °C."
                yield DayRow(RowKind.OVEN, before.minute, after.minute, words)

    def done(self) -> Iterator[DayRow]:
        """Say when something comes off the heat by the clock, where nobody's hands are planned for it right then."""
        for piece in self.pieces:
            heated = piece.burners or piece.shelves or piece.microwaves
            if piece.hands or not heated or self._taken_up(piece):
                continue
            off = "out of the oven" if piece.shelves else "off the heat"
            code = "+".join(dict.fromkeys(self.names.codes[name] for name in piece.members))
            yield DayRow(
                RowKind.DONE, piece.end, piece.end, f"{code} is done: take it {off}.", code, piece.members
            )

    def _taken_up(self, piece: Piece) -> bool:
        """Tell whether the next thing with it begins in the minute in which it ends."""
        return any(
            lag.first in piece.members
            and lag.first_end
            and not lag.second_end
            and self.timetable.timed(lag.second).start == piece.end
            for lag in self.question.lags
        )

    def free(self) -> Iterator[DayRow]:
        """Say when somebody's hands are free, between the first and the last work of the day."""
        for cook in range(self.question.bench.cooks):
            busy = sorted(
                (work.start, work.end)
                for work in (*(p for p in self.pieces if cook in p.cooks), *self._washes_of(cook))
            )
            until = busy[0][1] if busy else 0
            for start, end in busy:
                if start > until:
                    yield DayRow(RowKind.FREE, until, start, "Hands free.", cooks=(cook,))
                until = max(until, end)

    def _washes_of(self, cook: int) -> Iterator[Piece]:
        for wash in self.timetable.washes:
            if wash.cook == cook:
                yield Piece("", (), wash.start, wash.end, (cook,), hands=1)


# --- limits by the clock --------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class LimitByClock:
    """A limit that is there for safety: `at` is when its second moment is, `latest` the last minute at which it may be."""

    lag: Lag
    batch: str
    since: int
    at: int
    latest: int

    @property
    def is_kept(self) -> bool:
        """Whether it is kept."""
        return self.at <= self.latest


def limits_of(question: DayQuestion, timetable: Timetable) -> tuple[LimitByClock, ...]:
    """List the limits of a day by the clock, of several for the same two moments the one that comes first.

    Returns
    -------
    tuple of LimitByClock
        By the last minute at which each can be kept.
    """
    batches = {activity.name: activity.batch for activity in question.activities}
    found: dict[tuple[str, bool, str], LimitByClock] = {}
    for lag in question.lags:
        if not lag.limit or lag.most is None:
            continue
        first = timetable.timed(lag.first)
        since = first.end if lag.first_end else first.start
        one = LimitByClock(
            lag, batches[lag.second], since, since + lag_minutes(timetable, lag), since + lag.most
        )
        key = (lag.second, lag.second_end, batches[lag.first])
        if key not in found or one.latest < found[key].latest:
            found[key] = one
    return tuple(sorted(found.values(), key=lambda one: one.latest))
