"""What stands above the chart of a cooking day: title, notes and legend."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ladleworth.publish.day_lanes import DayLanes
from ladleworth.publish.day_style import legend, sample, write
from ladleworth.publish.svg import fitted, width_of

MARGIN = 12.0
LINE = 16.0


def heading(day: DayLanes, title: str, notes: Sequence[str], width: float) -> tuple[float, str]:
    """Write title, notes and legend; give the height that they take, and the drawing."""
    room = width - 2 * MARGIN
    shown, y = [], 24.0
    for line in folded(title, room, 16):
        shown.append(write(line, MARGIN, y, "big"))
        y += 21
    for note in notes:
        for line in folded(note, room, 11):
            shown.append(write(line, MARGIN, y))
            y += LINE - 2
    y += 4
    x = MARGIN
    for fill, edge, words in legend(day):
        said = fitted(words, room - 24, 11)
        wide = 24 + width_of(said, 11) + 12
        if x > MARGIN and x + wide > width - MARGIN:
            x, y = MARGIN, y + LINE
        shown += [sample(fill, edge, x, y - 9), write(said, x + 22, y + 1)]
        x += wide
    return y + 14, "".join(shown)


def folded(words: str, room: float, size: float) -> Iterator[str]:
    """Fold a text into lines of a width."""
    line = ""
    for word in words.split():
        longer = f"{line} {word}".strip()
        if line and width_of(longer, size) > room:
            yield line
            longer = word
        line = longer
    if line:
        yield fitted(line, room, size) or line
