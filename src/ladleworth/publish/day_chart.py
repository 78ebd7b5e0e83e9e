"""The picture of a cooking day: an SVG that a phone, a screen or a sheet of paper shows, drawn by ourselves.

Lanes for every pair of hands, burner, oven (with how hot it is and when to switch it on), microwave, the counter and
every tool in use, by the clock. The same question and timetable give the same bytes.
"""

from __future__ import annotations

from collections.abc import Sequence

from ladleworth.cookday.answer import Timetable
from ladleworth.cookday.question import DayQuestion
from ladleworth.publish import day_across, day_down
from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_lanes import DayLanes, lanes_of
from ladleworth.publish.day_style import patterns, style
from ladleworth.publish.svg import number, tag, text


def day_chart(
    question: DayQuestion,
    timetable: Timetable,
    *,
    title: str,
    notes: Sequence[str] = (),
    start_min: int | None = None,
    portrait: bool = False,
) -> str:
    """Draw a timetable.

    Parameters
    ----------
    question, timetable
        The question of the day, and a timetable of it that the judge lets stand.
    title, notes
        What stands above it; notes are sentences of their own.
    start_min
        When minute 0 is by the clock, in minutes from midnight; None: times count from the beginning.
    portrait
        For a phone held upright, time runs downward; else it runs to the right.

    Returns
    -------
    str
        An SVG document. It refers to nothing outside itself; light or dark is left to whoever shows it.
    """
    day, clock = lanes_of(question, timetable), DayClock(start_min)
    now = question.now if question.begun else None
    layout = day_down if portrait else day_across
    width, height, drawn = layout.draw(day, clock, title, notes, now)
    head = (
        tag("title", text(title), id="day-title")
        + tag("desc", text(described(day, clock, notes)), id="day-desc")
        + style()
        + patterns(len(day.names.letters))
        + tag("rect", x=0, y=0, width=width, height=height, class_="paper")
    )
    return (
        tag(
            "svg",
            f"{head}{drawn}",
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {number(width)} {number(height)}",
            width=width,
            height=height,
            role="img",
            aria_labelledby="day-title day-desc",
            style="max-width:100%;height:auto",
        )
        + "\n"
    )


def described(day: DayLanes, clock: DayClock, notes: Sequence[str] = ()) -> str:
    """Say in words what the chart shows, for whoever does not see it: each lane with its bars in order."""
    told = [*notes, f"From {clock.at(0)} to {clock.at(day.last)}."]
    for lane in day.lanes:
        bars = "; ".join(
            f"{clock.at(bar.start)} to {clock.at(bar.end)} {' and '.join(bar.activities) or bar.words}"
            for bar in lane.bars
        )
        told.append(f"{lane.title}: {bars or 'nothing'}.")
    if day.heat:
        heats = "; ".join(f"{point.heat_c} °C at {clock.at(point.minute)}" for point in day.heat)
        told.append(f"heat of the oven: {heats}.")
    return " ".join(told)
