"""The lanes of a cooking day's chart: who and what is busy with what, and when. No drawing is done here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from ladleworth.cookday.answer import Timetable, Washed
from ladleworth.cookday.holdings import Holding, holdings_of
from ladleworth.cookday.question import DayQuestion
from ladleworth.cookday.verdict import Piece, pieces_of
from ladleworth.publish.day_names import DayNames, names_of, tool_name
from ladleworth.publish.day_places import Places, burners_of, microwaves_of, rows_for


class Doing(Enum):
    """What a bar stands for."""

    HANDS = "hands-on"
    ALONE = "goes on by itself"
    WASHING = "washed"
    HOLDING = "in use"


class Kind(Enum):
    """What a lane stands for."""

    HANDS = "hands"
    BURNER = "burner"
    OVEN = "oven"
    MICROWAVE = "microwave"
    COUNTER = "counter"
    WAITING = "waiting"
    TOOL = "tool"


@dataclass(frozen=True, slots=True)
class Bar:
    """A stretch of a lane.

    `activities` are those that it stands for (none: a wash); `code` is short, `words` say what is done. `batch` is
    '' for the kitchen's own work and for work shared by several batches. `row` counts from 0 within the lane.
    """

    start: int
    end: int
    doing: Doing
    code: str
    words: str
    batch: str
    activities: tuple[str, ...] = ()
    row: int = 0


@dataclass(frozen=True, slots=True)
class Lane:
    """A line of the chart, `rows` bars deep."""

    kind: Kind
    title: str
    bars: tuple[Bar, ...]
    rows: int = 1


@dataclass(frozen=True, slots=True)
class HeatPoint:
    """The oven is at `heat_c` at a minute; between two points it changes evenly."""

    minute: int
    heat_c: int


@dataclass(frozen=True, slots=True)
class DayLanes:
    """All lanes in their order, the oven's heat (empty: no oven is used), and the names of things."""

    lanes: tuple[Lane, ...]
    heat: tuple[HeatPoint, ...]
    names: DayNames
    last: int


def lanes_of(question: DayQuestion, timetable: Timetable) -> DayLanes:
    """Sort a timetable into lanes; every activity is in at least one."""
    drawn = _Drawn(question, timetable)
    lanes = (
        *drawn.hands(),
        *drawn.numbered(Kind.BURNER, burners_of(question, timetable)),
        *drawn.stacked(Kind.OVEN, "oven", lambda piece: piece.shelves > 0),
        *drawn.numbered(Kind.MICROWAVE, microwaves_of(question, timetable)),
        *drawn.stacked(Kind.COUNTER, "counter", lambda piece: piece.counter > 0),
        *drawn.stacked(Kind.WAITING, "by itself", _needs_nothing),
        *drawn.tools(),
    )
    last = max(
        max((time.end for time in timetable.times), default=0),
        max((wash.end for wash in timetable.washes), default=0),
    )
    return DayLanes(lanes, heat_of(question, timetable), drawn.names, last)


def _needs_nothing(piece: Piece) -> bool:
    return not (piece.hands or piece.burners or piece.shelves or piece.microwaves or piece.counter)


class _Drawn:
    """A question with its timetable, read as pieces of work."""

    def __init__(self, question: DayQuestion, timetable: Timetable) -> None:
        self.question, self.timetable = question, timetable
        self.names = names_of(question)
        self.pieces = pieces_of(question, timetable)
        self.known = {activity.name: activity for activity in question.activities}
        self.mergings = {m.name: m for m in question.mergings if m.name in timetable.merged}

    def bar(self, piece: Piece) -> Bar:
        """Give the bar of a piece of work."""
        first = self.known[piece.members[0]]
        batches = dict.fromkeys(self.known[name].batch for name in piece.members)
        merging = self.mergings.get(piece.name) if len(piece.members) > 1 else None
        return Bar(
            piece.start,
            piece.end,
            Doing.HANDS if piece.hands else Doing.ALONE,
            "+".join(dict.fromkeys(self.names.codes[name] for name in piece.members)),
            first.words if merging is None else merging.words or merging.name,
            next(iter(batches)) if len(batches) == 1 else "",
            piece.members,
        )

    def hands(self) -> Iterator[Lane]:
        """A lane for each pair of hands, with the washing."""
        for cook in range(self.question.bench.cooks):
            own = [self.bar(piece) for piece in self.pieces if cook in piece.cooks]
            own += [self.wash(wash) for wash in self.timetable.washes if wash.cook == cook]
            title = "hands" if self.question.bench.cooks == 1 else f"cook {cook + 1}"
            yield _lane(Kind.HANDS, title, own)

    def wash(self, wash: Washed) -> Bar:
        """Give the bar of a wash."""
        words = f"wash the {tool_name(self.question, wash.kind, wash.which)}"
        return Bar(wash.start, wash.end, Doing.WASHING, "wash", words, "")

    def numbered(self, kind: Kind, places: Places) -> Iterator[Lane]:
        """A lane for each burner or microwave that is used."""
        used = sorted({unit for units in places.values() for unit in units})
        for unit in used:
            own = [self.bar(p) for p in self.pieces if unit in places.get(p.members[0], ())]
            yield _lane(kind, kind.value if used == [0] else f"{kind.value} {unit + 1}", own)

    def stacked(self, kind: Kind, title: str, takes: Callable[[Piece], bool]) -> Iterator[Lane]:
        """One lane whose bars lie beside each other where they run at once."""
        own = [self._counted(self.bar(piece), piece, kind) for piece in self.pieces if takes(piece)]
        if own:
            yield _lane(kind, title, own)

    def _counted(self, bar: Bar, piece: Piece, kind: Kind) -> Bar:
        """Say how many shelves or places a bar takes where it takes several."""
        many = {Kind.OVEN: piece.shelves, Kind.COUNTER: piece.counter}.get(kind, 1)
        letter = self.names.letters.get(bar.batch, bar.code)
        code = letter if kind is Kind.COUNTER and bar.doing is Doing.ALONE else bar.code
        return replace(bar, code=f"{code} ×{many}" if many > 1 else code)

    def tools(self) -> Iterator[Lane]:
        """A lane for each tool that is used, with its washing."""
        counts = {tool.name: tool.count for tool in self.question.bench.tools}
        order = {kind: at for at, kind in enumerate(counts)}
        holdings = holdings_of(self.question, self.timetable)
        for kind, which in sorted(holdings, key=lambda key: (order[key[0]], key[1])):
            own = [self._held(holding) for holding in holdings[kind, which]]
            own += [self.wash(w) for w in self.timetable.washes if (w.kind, w.which) == (kind, which)]
            yield _lane(Kind.TOOL, tool_name(self.question, kind, which), own)

    def _held(self, holding: Holding) -> Bar:
        names = tuple(dict.fromkeys(name for use in holding.uses for name in use.activities))
        batches = dict.fromkeys(self.known[name].batch for name in names)
        letters = [self.names.letters.get(batch, batch) for batch in batches]
        words = ", ".join(batch or self.known[names[0]].words for batch in batches)
        batch = next(iter(batches)) if len(batches) == 1 else ""
        return Bar(holding.start, holding.end, Doing.HOLDING, "+".join(letters), words, batch, names)


def _lane(kind: Kind, title: str, bars: Iterable[Bar]) -> Lane:
    """Put bars into a lane in the order of their starts, each in a row of its own where they run at once."""
    line = sorted(bars, key=lambda bar: (bar.start, bar.end))
    rows = rows_for([(bar.start, bar.end) for bar in line])
    placed = tuple(replace(bar, row=row) for bar, row in zip(line, rows, strict=True))
    return Lane(kind, title, placed, max(rows, default=0) + 1)


# --- the oven's heat --------------------------------------------------------------------------------------


def heat_of(question: DayQuestion, timetable: Timetable) -> tuple[HeatPoint, ...]:
    """Say how warm the oven is: heated up as late as it can be, turned down as soon as it may be.

    Returns
    -------
    tuple of HeatPoint
        From the moment at which it is switched on to the end of the last load.
    """
    oven = question.bench.oven
    if oven is None or not timetable.oven:
        return ()
    points: list[HeatPoint] = []
    before, since = oven.start_c, 0
    for start, end, heat in _loads(timetable):
        change = oven.change_min(before, heat)
        rises = heat >= before
        begin = max(since, start - change) if rises else since
        points += [
            HeatPoint(begin, before),
            HeatPoint(min(start, begin + change), heat),
            HeatPoint(end, heat),
        ]
        before, since = heat, end
    return tuple(dict.fromkeys(points))


def _loads(timetable: Timetable) -> Sequence[tuple[int, int, int]]:
    """List what is in the oven, from, to and how hot; loads of one heat with nothing else between are one."""
    loads: list[tuple[int, int, int]] = []
    timed = [(timetable.timed(heated.activity), heated.heat_c) for heated in timetable.oven]
    for time, heat in sorted(timed, key=lambda each: (each[0].start, each[0].end)):
        if loads and loads[-1][2] == heat:
            start, end, _ = loads.pop()
            loads.append((start, max(end, time.end), heat))
        else:
            loads.append((time.start, time.end, heat))
    return loads
