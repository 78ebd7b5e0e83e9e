"""The chart of a cooking day with time running downward, for a phone held upright.

What does not fit side by side goes into a further panel below, with a time axis of its own: first the hands with the
hob, the oven and the counter, then the tools.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from ladleworth.publish.day_across import heat_words
from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_heading import MARGIN, heading
from ladleworth.publish.day_lanes import Bar, DayLanes, HeatPoint, Kind, Lane
from ladleworth.publish.day_style import block, label, write
from ladleworth.publish.svg import fitted, number, spread, tag, width_of

WIDTH, AXIS, GAP = 400.0, 40.0, 4.0
HANDS, COLUMN, THIN, HEAT = 156.0, 26.0, 20.0, 40.0
HANDS_BAR, LABEL_GAP = 20.0, 12.5
BUSY_SCALE, CALM_SCALE = 6.5, 3.2
"""Heights of a minute: beside the hands, whose work is short, and elsewhere."""


@dataclass(frozen=True, slots=True)
class _Panel:
    """Lanes side by side, each with its width, and how high a minute is."""

    lanes: tuple[tuple[Lane, float], ...]
    scale: float


def draw(
    day: DayLanes, clock: DayClock, title: str, notes: Sequence[str], now: int | None
) -> tuple[float, float, str]:
    """Lay the chart out; give its width, its height and what is drawn."""
    y, head = heading(day, title, notes, WIDTH)
    drawn = [head]
    for panel in _panels(day):
        height, shown = _panel(day, clock, panel, y, now)
        drawn.append(shown)
        y += height
    return WIDTH, y + 8, "".join(drawn)


def _panels(day: DayLanes) -> Iterator[_Panel]:
    """Fill panels with lanes in their order; lanes of a kind stay together where a panel holds them all."""
    room = WIDTH - AXIS - MARGIN
    line: list[tuple[Lane, float]] = []
    for _, same in groupby(day.lanes, key=lambda lane: lane.kind):
        group = [(lane, min(_width(lane), room)) for lane in same]
        if line and _wide(line) + GAP + _wide(group) > room >= _wide(group):
            yield _stretched(line, room, day)
            line = []
        for lane, width in group:
            if line and _wide(line) + GAP + width > room:
                yield _stretched(line, room, day)
                line = []
            line.append((lane, width))
    if line:
        yield _stretched(line, room, day)


def _wide(line: Sequence[tuple[Lane, float]]) -> float:
    return sum(width + GAP for _, width in line) - GAP


def _stretched(line: Sequence[tuple[Lane, float]], room: float, day: DayLanes) -> _Panel:
    hands = [lane for lane, _ in line if lane.kind is Kind.HANDS]
    left = room - _wide(line)
    more = left / len(hands) if hands else 0.0
    lanes = tuple((lane, width + more if lane.kind is Kind.HANDS else width) for lane, width in line)
    busiest = max((len(lane.bars) for lane in hands), default=0)
    scale = max(BUSY_SCALE, busiest * LABEL_GAP / max(day.last, 15)) if hands else CALM_SCALE
    return _Panel(lanes, scale)


def _width(lane: Lane) -> float:
    match lane.kind:
        case Kind.HANDS:
            return HANDS
        case Kind.OVEN:
            return HEAT + COLUMN * lane.rows
        case Kind.COUNTER:
            return THIN * lane.rows + 10
        case _:
            return COLUMN * lane.rows


def _panel(day: DayLanes, clock: DayClock, panel: _Panel, y: float, now: int | None) -> tuple[float, str]:
    """Draw a panel; give its height and the drawing."""
    last = max(day.last, 15)
    names = max(_name_height(lane, width) for lane, width in panel.lanes)
    top, height = y + 10 + names, last * panel.scale
    right = AXIS + _wide(panel.lanes)
    every = 15 if 15 * panel.scale >= 26 else 30
    full = set(clock.ticks(0, last, every))
    shown = []
    x = AXIS
    for lane, width in panel.lanes:
        shown += [_name(lane, x, width, top), _lane(day, clock, lane, (x, top, width, panel.scale), last)]
        x += width + GAP
    grid = "".join(
        tag(
            "line",
            x1=AXIS - 3,
            x2=right,
            y1=top + m * panel.scale,
            y2=top + m * panel.scale,
            class_="tick" if m in full else "minor",
        )
        + (write(clock.at(m), AXIS - 5, top + m * panel.scale + 4, text_anchor="end") if m in full else "")
        for m in clock.ticks(0, last, 15)
    )
    lanes = "".join(shown)
    line = "" if now is None else _now(clock, now, top + now * panel.scale, right)
    return names + height + 26, _grounds(panel, top, height) + grid + lanes + line


def _grounds(panel: _Panel, top: float, height: float) -> str:
    x, drawn = AXIS, []
    for _, width in panel.lanes:
        drawn.append(tag("rect", x=x, y=top, width=width, height=height, class_="lane"))
        x += width + GAP
    return "".join(drawn)


def _now(clock: DayClock, now: int, y: float, right: float) -> str:
    return tag("line", x1=AXIS - 3, x2=right, y1=y, y2=y, class_="ink now") + write(
        f"now {clock.at(now)}", right, y - 4, "strong halo", text_anchor="end"
    )


# --- lanes ---------------------------------------------------------------------------------------------------


def _name_height(lane: Lane, width: float) -> float:
    """How high a lane's name stands: upright if it is too long for its width."""
    return 14.0 if width_of(lane.title, 11) <= width else min(92.0, width_of(lane.title, 11) + 4)


def _name(lane: Lane, x: float, width: float, top: float) -> str:
    middle = x + width / 2
    if width_of(lane.title, 11) <= width:
        return write(lane.title, middle, top - 5, "strong", text_anchor="middle")
    words = fitted(lane.title, 90, 11)
    place = f"rotate(-90 {number(middle + 4)} {number(top - 5)})"
    return write(words, middle + 4, top - 5, "strong", transform=place)


def _lane(
    day: DayLanes, clock: DayClock, lane: Lane, frame: tuple[float, float, float, float], last: int
) -> str:
    x, top, width, scale = frame
    heat = HEAT if lane.kind is Kind.OVEN else 0.0
    bar_width = HANDS_BAR if lane.kind is Kind.HANDS else (width - heat) / lane.rows
    shown = [_heat(day.heat, clock, x, top, scale)] if heat else []
    for bar in lane.bars:
        left, y = x + heat + bar.row * bar_width, top + bar.start * scale
        height = (bar.end - bar.start) * scale
        shown.append(block(day, bar, clock, left + 1, y, bar_width - 2, height))
        if lane.kind is not Kind.HANDS:
            shown.append(_inside(day, bar, left, y, bar_width, height))
    if lane.kind is Kind.HANDS:
        shown.append(_beside(day, clock, lane, x, (top, top + last * scale), width, scale))
    return "".join(shown)


def _inside(day: DayLanes, bar: Bar, x: float, y: float, width: float, height: float) -> str:
    """Write into a bar as much as fits: upright in a long one, the code across in a short one, or nothing."""
    middle = x + width / 2
    upright = fitted(label(day, bar), height - 6, 11)
    if len(upright) > len(bar.code) + 3 and width >= 14:
        place = f"rotate(-90 {number(middle + 4)} {number(y + height - 4)})"
        return write(upright, middle + 4, y + height - 4, "halo", transform=place)
    if width_of(bar.code, 10) <= width and height >= 10:
        return write(bar.code, middle, y + height / 2 + 4, "small halo", text_anchor="middle")
    return ""


def _beside(
    day: DayLanes,
    clock: DayClock,
    lane: Lane,
    x: float,
    ends: tuple[float, float],
    width: float,
    scale: float,
) -> str:
    """Write what the hands do beside their bars, with the time, moved apart where it is crowded."""
    wanted = [ends[0] + (bar.start + bar.end) / 2 * scale for bar in lane.bars]
    places = spread(wanted, LABEL_GAP, ends[0] + 6, ends[1] - 6)
    left, shown = x + HANDS_BAR, []
    for bar, y, place in zip(lane.bars, wanted, places, strict=True):
        words = fitted(f"{clock.at(bar.start)} {label(day, bar)}", width - HANDS_BAR - 14, 11)
        path = f"M{number(left)} {number(y)}L{number(left + 10)} {number(place)}"
        shown += [tag("path", d=path, class_="lead"), write(words, left + 12, place + 4, "halo")]
    return "".join(shown)


def _heat(heat: Sequence[HeatPoint], clock: DayClock, x: float, top: float, scale: float) -> str:
    """Draw how hot the oven is, the hotter the farther to the right, and when to switch it on."""
    hottest = max(point.heat_c for point in heat)

    def place(point: HeatPoint) -> str:
        return f"{number(x + (HEAT - 8) * point.heat_c / hottest)} {number(top + point.minute * scale)}"

    path = "L".join(place(point) for point in heat)
    first, last = (number(top + point.minute * scale) for point in (heat[0], heat[-1]))
    area = f"M{number(x)} {first}L{path}L{number(x)} {last}Z"
    shown = [tag("path", d=area, class_="warmth"), tag("path", d=f"M{path}", class_="heat")]
    for minute, words, _ in heat_words(heat, clock):
        y = top + minute * scale - 4
        when, _, what = words.partition(" set ")
        shown += [write(when, x + 1, y - 11, "small halo"), write(what, x + 1, y, "small halo")]
    return "".join(shown)
