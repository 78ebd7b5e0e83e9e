"""Colours, patterns and the small pieces of a cooking day's chart.

The eight colours are those of Okabe and Ito's set that people with any of the common kinds of colour blindness tell
apart (Color Universal Design, 2008; from memory), with a dark grey for its black. Nothing depends on colour alone: each batch has a pattern and a letter
too, and what is hands-on has another edge than what goes on by itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from ladleworth.publish.day_clock import DayClock
from ladleworth.publish.day_lanes import Bar, DayLanes, Doing
from ladleworth.publish.svg import tag, text

COLOURS = ("#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7", "#4d4d4d")
HEAT = "#d55e00"
PAPER, INK = "#ffffff", "#1b1b1b"
DARK_PAPER, DARK_INK = "#15171b", "#f1f1ee"
PATTERNS = (
    "",
    "M0 8L8 0M-1 1L1 -1M7 9L9 7",
    "M4 1.5v1.4M4 5.6v1.4M0.6 3.5v1.4M7.4 3.5v1.4",
    "M0 0L8 8M-1 7L1 9M7 -1L9 1",
    "M0 4H8",
    "M4 0V8",
    "M0 4H8M4 0V8",
    "M0 6L2 2L4 6L6 2L8 6",
)
"""What is drawn on a tile of 8 by 8: nothing, slants, dots, counter-slants, lines across, lines down, a grid, waves."""

CROSSED = "M0 0L8 8M8 0L0 8"
"""The tile of washing."""

FONT = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Liberation Sans', Arial, sans-serif"


def mixed(colour: str, ground: str, share: float) -> str:
    """Mix a colour into a ground, by a share from 0 to 1."""
    parts = ((int(colour[at : at + 2], 16), int(ground[at : at + 2], 16)) for at in (1, 3, 5))
    return "#" + "".join(f"{round(top * share + under * (1 - share)):02x}" for top, under in parts)


def _rules(paper: str, ink: str) -> str:
    def shade(share: float, colour: str = ink, ground: str = paper) -> str:
        return mixed(colour, ground, share)

    own = [
        f"text{{fill:{ink}}}.paper{{fill:{paper}}}.halo{{stroke:{paper}}}.ink{{stroke:{ink}}}",
        f".lane{{fill:{shade(0.045)}}}.minor{{stroke:{shade(0.13)}}}.tick{{stroke:{shade(0.3)}}}",
        f".lead{{stroke:{shade(0.45)}}}.t-own{{fill:{shade(0.1)}}}.s-own{{stroke:{shade(0.45)}}}",
        f".heat{{stroke:{shade(0.75, HEAT, ink)}}}.warmth{{fill:{shade(0.16, HEAT)}}}",
    ]
    own += [
        f".t{at}{{fill:{shade(0.34, colour)}}}.s{at}{{stroke:{shade(0.78, colour, ink)}}}"
        for at, colour in enumerate(COLOURS)
    ]
    return "".join(own)


def style() -> str:
    """Write the style sheet: a light one, and a dark one for whoever has asked for it."""
    plain = (
        f"text{{font-family:{FONT};font-size:11px}}.big{{font-size:16px;font-weight:600}}.small{{font-size:10px}}"
        ".halo{paint-order:stroke;stroke-width:2.6px;stroke-linejoin:round}.strong{font-weight:600}"
        ".tick,.minor,.lead{stroke-width:1;fill:none}.heat{fill:none;stroke-width:2}"
        ".mark{fill:none;stroke-linecap:round;opacity:.6}.hands{stroke-width:1.5}.alone{stroke-width:1.2;stroke-dasharray:4 2}"
        ".held{stroke-width:.8}"
        ".now{stroke-width:2;stroke-dasharray:6 3}"
    )
    return tag(
        "style",
        f"{plain}{_rules(PAPER, INK)}@media (prefers-color-scheme:dark){{{_rules(DARK_PAPER, DARK_INK)}}}",
    )


def patterns(batches: int) -> str:
    """Define a fill for each batch, one for shared work and one for washing."""
    fills = [
        _pattern(f"b{at}", f"t{at % 8}", f"s{at % 8}", PATTERNS[(at + at // 8) % 8]) for at in range(batches)
    ]
    fills += [_pattern("own", "t-own", "s-own", ""), _pattern("wash", "t-own", "s-own", CROSSED)]
    return tag("defs", "".join(fills))


def _pattern(name: str, tint: str, stroke: str, path: str) -> str:
    tile = tag("rect", width=8, height=8, class_=tint)
    drawn = tag("path", d=path, class_=f"mark {stroke}") if path else ""
    return tag("pattern", tile + drawn, id=name, width=8, height=8, patternUnits="userSpaceOnUse")


def fill_of(day: DayLanes, bar: Bar) -> str:
    """Choose a bar's fill."""
    if bar.doing is Doing.WASHING:
        return "url(#wash)"
    at = day.names.place(bar.batch)
    return "url(#own)" if at < 0 else f"url(#b{at})"


EDGES = {
    Doing.HANDS: "ink hands",
    Doing.ALONE: "ink alone",
    Doing.WASHING: "ink held",
    Doing.HOLDING: "ink held",
}


def block(day: DayLanes, bar: Bar, clock: DayClock, x: float, y: float, width: float, height: float) -> str:
    """Draw a bar with what it stands for as its tooltip."""
    return tag(
        "g",
        tag("title", text(told(bar, clock)))
        + tag(
            "rect",
            x=x,
            y=y,
            width=max(width, 1.5),
            height=max(height, 1.5),
            fill=fill_of(day, bar),
            class_=EDGES[bar.doing],
        ),
    )


def label(day: DayLanes, bar: Bar) -> str:
    """Write a bar's code and words; a code that the words say anyway is its letter alone."""
    letter = day.names.letters.get(bar.batch)
    if letter is None:
        return bar.code if bar.doing is Doing.HOLDING else bar.words or bar.code
    own = bar.code.removeprefix(letter).strip()
    return (
        f"{letter} {bar.words}"
        if own and own.casefold() in bar.words.casefold() and not own.isdigit()
        else f"{bar.code} {bar.words}"
    )


def told(bar: Bar, clock: DayClock) -> str:
    """Say in words what a bar stands for."""
    names = " and ".join(bar.activities)
    said = f"{names}: {bar.words}" if names and bar.words not in names else names or bar.words
    return f"{clock.at(bar.start)} to {clock.at(bar.end)}, {bar.doing.value}: {said}"


def write(words: str, x: float, y: float, class_: str = "", **more: object) -> str:
    """Write a line of text."""
    return tag("text", text(words), x=x, y=y, class_=class_ or None, **more)


def sample(fill: str, edge: str, x: float, y: float) -> str:
    """Draw a sample of a fill for the legend."""
    return tag("rect", x=x, y=y, width=16.0, height=12.0, fill=fill, class_=edge)


def legend(day: DayLanes) -> Iterator[tuple[str, str, str]]:
    """List what the fills and edges mean: (fill, edge, words)."""
    for at, (batch, letter) in enumerate(day.names.letters.items()):
        yield f"url(#b{at})", "ink held", f"{letter}  {batch}"
    bars = [bar for lane in day.lanes for bar in lane.bars]
    if any(not bar.batch and bar.doing is not Doing.WASHING for bar in bars):
        yield "url(#own)", "ink held", "for several dishes, or the kitchen's own"
    if any(bar.doing is Doing.WASHING for bar in bars):
        yield "url(#wash)", "ink held", "a tool is washed"
    yield "none", "ink hands", "firm edge: hands-on"
    yield "none", "ink alone", "broken edge: goes on by itself"
