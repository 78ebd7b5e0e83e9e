"""The chart of a cooking day with time running to the right, for a screen or a sheet of paper."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_heading import heading
from ladleworth.publish.day_lanes import Bar, DayLanes, HeatPoint, Kind, Lane
from ladleworth.publish.day_style import block, label, write
from ladleworth.publish.svg import fitted, number, spread, tag, width_of

LEFT, RIGHT, GAP = 104.0, 92.0, 6.0
WIDTH = 1200.0
HANDS_ROW, ROW, THIN_ROW, HEAT = 22.0, 20.0, 16.0, 46.0
LABEL, LEAN, LABEL_GAP = 168.0, 60, 13.5
"""Labels of hands-on work: how long at the most, how steep in degrees, and how far apart."""

RISE = 0.866
"""The sine of LEAN."""


class _Axis:
    """Minutes as places on the sheet."""

    def __init__(self, day: DayLanes, clock: DayClock, busiest: int) -> None:
        self.clock = clock
        self.last = max(day.last, 15)
        width = max(WIDTH - LEFT - RIGHT, busiest * LABEL_GAP)
        self.scale = min(12.0, width / self.last)
        self.width = LEFT + self.last * self.scale + RIGHT

    def x(self, minute: int) -> float:
        return LEFT + minute * self.scale

    def ticks(self) -> Sequence[tuple[int, bool]]:
        """Quarter hours, and whether each is written."""
        written = 15 if 15 * self.scale >= 44 else 30 if 30 * self.scale >= 44 else 60
        full = set(self.clock.ticks(0, self.last, written))
        return [(minute, minute in full) for minute in self.clock.ticks(0, self.last, 15)]


def draw(
    day: DayLanes, clock: DayClock, title: str, notes: Sequence[str], now: int | None
) -> tuple[float, float, str]:
    """Lay the chart out; give its width, its height and what is drawn."""
    busiest = max((len(lane.bars) for lane in day.lanes if lane.kind is Kind.HANDS), default=0)
    axis = _Axis(day, clock, busiest)
    top, head = heading(day, title, notes, axis.width)
    y = top + 20
    drawn = []
    for lane in day.lanes:
        height, shown = _lane(day, axis, lane, y)
        drawn.append(shown)
        y += height + GAP
    grid = "".join(
        tag("line", x1=axis.x(m), x2=axis.x(m), y1=top + 14, y2=y, class_="tick" if full else "minor")
        + (write(clock.at(m), axis.x(m), top + 10, text_anchor="middle") if full else "")
        + (write(clock.at(m), axis.x(m), y + 13, text_anchor="middle") if full else "")
        for m, full in axis.ticks()
    )
    line = "" if now is None else _now(axis, now, top + 14, y)
    return axis.width, y + 22, head + grid + "".join(drawn) + line


def _now(axis: _Axis, now: int, top: float, bottom: float) -> str:
    x = axis.x(now)
    return tag("line", x1=x, x2=x, y1=top, y2=bottom, class_="ink now") + write(
        f"now {axis.clock.at(now)}", x + 4, top + 8, "strong halo"
    )


def _lane(day: DayLanes, axis: _Axis, lane: Lane, y: float) -> tuple[float, str]:
    """Draw a lane; give its height and the drawing."""
    row = {Kind.HANDS: HANDS_ROW, Kind.COUNTER: THIN_ROW, Kind.TOOL: THIN_ROW}.get(lane.kind, ROW)
    above = {Kind.HANDS: LABEL * RISE + 6, Kind.OVEN: HEAT}.get(lane.kind, 0.0)
    height = above + lane.rows * row
    shown = [
        tag("rect", x=LEFT, y=y, width=axis.last * axis.scale, height=height, class_="lane"),
        write(
            fitted(lane.title, LEFT - 12, 11), LEFT - 8, y + above + row / 2 + 4, "strong", text_anchor="end"
        ),
    ]
    if lane.kind is Kind.OVEN:
        shown.append(_heat(axis, day.heat, y, above))
    for bar in lane.bars:
        x, width = axis.x(bar.start), (bar.end - bar.start) * axis.scale
        at = y + above + bar.row * row
        shown.append(block(day, bar, axis.clock, x, at + 1, width, row - 2))
        if lane.kind is not Kind.HANDS:
            shown.append(_inside(day, bar, x, at + row / 2 + 4, width))
    if lane.kind is Kind.HANDS:
        shown.append(_leaning(day, axis, lane, y + above))
    return height, "".join(shown)


def _inside(day: DayLanes, bar: Bar, x: float, y: float, width: float) -> str:
    """Write into a bar as much as fits: code and words, the code alone, or nothing."""
    full = fitted(label(day, bar), width - 6, 11)
    words = full if len(full) > len(bar.code) else bar.code if width_of(bar.code, 11) <= width - 2 else ""
    if not words:
        return ""
    if words == bar.code:
        return write(words, x + width / 2, y, "halo", text_anchor="middle")
    return write(words, x + 3, y, "halo")


def _leaning(day: DayLanes, axis: _Axis, lane: Lane, bottom: float) -> str:
    """Write what the hands do above their bars, leaning, moved apart where it is crowded."""
    wanted = [axis.x(bar.start) + (bar.end - bar.start) * axis.scale / 2 for bar in lane.bars]
    places = spread(wanted, LABEL_GAP, LEFT + 6, axis.width - RIGHT)
    shown = []
    for bar, x, place in zip(lane.bars, wanted, places, strict=True):
        words = fitted(label(day, bar), LABEL - 10, 11)
        shown += [
            tag(
                "path", d=f"M{number(x)} {number(bottom)}L{number(place)} {number(bottom - 9)}", class_="lead"
            ),
            write(
                words,
                place + 3,
                bottom - 10,
                "halo",
                transform=f"rotate(-{LEAN} {number(place + 3)} {number(bottom - 10)})",
            ),
        ]
    return "".join(shown)


def _heat(axis: _Axis, heat: Sequence[HeatPoint], y: float, height: float) -> str:
    """Draw how hot the oven is, with each heat written where it is reached, and when to switch it on."""
    hottest = max(point.heat_c for point in heat)
    base = y + height - 3

    def place(point: HeatPoint) -> str:
        up = (height - 20) * point.heat_c / hottest
        return f"{number(axis.x(point.minute))} {number(base - up)}"

    path = "L".join(place(point) for point in heat)
    first, last = axis.x(heat[0].minute), axis.x(heat[-1].minute)
    area = f"M{number(first)} {number(base)}L{path}L{number(last)} {number(base)}Z"
    shown = [tag("path", d=area, class_="warmth"), tag("path", d=f"M{path}", class_="heat")]
    shown += [
        write(words, axis.x(minute), y + 11, "small halo", text_anchor=anchor)
        for minute, words, anchor in heat_words(heat, axis.clock)
    ]
    return "".join(shown)


def heat_words(heat: Sequence[HeatPoint], clock: DayClock) -> list[tuple[int, str, str]]:
    """Write at which minute the oven is to be set to what, and how each stands to its place."""
    told = []
    for before, after in pairwise(heat):
        if after.heat_c != before.heat_c:
            told.append((before.minute, f"{clock.at(before.minute)} set {after.heat_c} °C", "start"))
    return told
