"""What a step needs of the kitchen, read from a few words: people, burners, oven, microwave, boards and tools.

`hands`, `2 cooks`, `burner`, `2 burners`, `oven at 190 °C ± 10 °C, 2 shelves`, `microwave`, `board for raw meat`,
and any other name for a tool: `large pot`, `2 sheet pans`. docs/dishes.md says what each counts for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import half_up, read_number, read_temperature

HOTTEST_C, COOLEST_C = 550, 30
"""Heats that an oven may be asked for. Our own bounds, no source: what lies outside is taken for a slip."""

_COOKS = re.compile(r"(?:(?P<n>\d{1,2}|an?|[a-z]+) )?(?P<word>hands?|cooks?|people|person)")
_SEVERAL = re.compile(r"(?:two|three|four|five|six|seven|eight|nine) (.+)")
_BOARD = re.compile(r"(?:(?P<n>\d) )?(?:(?:cutting|chopping) )?boards?(?: for (?P<what>.+))?")
_MICROWAVE = re.compile(r"(?:(?P<n>\d) )?microwaves?(?: oven)?(?: (?:at|\d).*)?")
_OVEN = re.compile(
    r"(?:\w+ )??ovens?(?: shel(?:f|ves))?(?: (?:at )?(?P<heat>\d(?:(?!shel)[^±,+])*?))?"
    r"(?: ?(?:±|\+/-|\+-) ?(?P<tolerance>[^,]+?))?(?:,? (?:with |on )?(?P<shelves>\d) shel(?:f|ves))?"
)
_STRAY = re.compile(r"\d shel(?:f|ves)|shel(?:f|ves)|(?:±|\+/-).*|at \d.*")
_DEGREES = re.compile(r"(?P<number>\d+(?:\.\d+)?) ?(?:°|degrees?)? ?(?P<scale>[cf])?", re.IGNORECASE)
_COUNTED = re.compile(
    r"(?P<n>\d{1,2}) (?!(?:cm|mm|in|inch|inches|ml|l|lit(?:re|er)s?|qt|quarts?|pints?|cups?|oz|x|by)\b)(?P<what>.+)"
)  # '20 cm pan' is one pan
_KNOWN = ("hands", "burner", "burners", "oven", "microwave", "board")
_LEAST_LETTERS = 4


@dataclass(frozen=True, slots=True)
class OvenNeed:
    """A place in the oven: the heat wanted and how far it may be off, in °C (None: not said), and the shelves."""

    heat_c: int | None = None
    tolerance_c: int | None = None
    shelves: int = 1


@dataclass(frozen=True, slots=True)
class Needs:
    """What a step holds while it runs.

    `cooks` is 0 where hands are not named. `boards` says of each board what is cut on it: 'raw meat' and the like, ''
    for clean things. `tools` are names in small letters, one for each tool.
    """

    cooks: int = 0
    burners: int = 0
    oven: OvenNeed | None = None
    microwaves: int = 0
    boards: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()

    def and_also(self, other: Needs) -> Needs:
        """Put two needs together; BadField if both are of the oven."""
        if self.oven is not None and other.oven is not None:
            raise BadField("the oven is named twice; write one of the two")
        return Needs(
            max(self.cooks, other.cooks),
            self.burners + other.burners,
            self.oven or other.oven,
            self.microwaves + other.microwaves,
            self.boards + other.boards,
            self.tools + other.tools,
        )


def stations_in(need: str, station: str) -> int:
    """Count the stations that a step's need names: '2 burners' are two, 'oven at 200 °C' one, 'oven cloth' none."""
    found = re.fullmatch(
        rf"(?:(\d{{1,2}}) )?(?:\w+ )?{station}s?(?:,? (?:at|shelf|shelves|±|\+|\d).*)?", need.casefold()
    )
    if found is None:
        return 0
    return int(found[1]) if found[1] else 1


def read_needs(needs: Iterable[str]) -> Needs:
    """Read all that a step needs; see `read_need` for what may be raised."""
    told = Needs()
    for need in needs:
        told = told.and_also(read_need(need))
    return told


def read_need(text: str) -> Needs:
    """Read one need of a step.

    Parameters
    ----------
    text
        'hands', '2 cooks', '2 burners', 'oven at 375 °F, 2 shelves', 'board for raw fish', 'large pot'.

    Returns
    -------
    Needs
        What it comes to; a name that is nothing else is a tool.

    Raises
    ------
    BadField
        If it speaks of people, burners, the oven or boards and cannot be read, with what to write instead.
    """
    clean = " ".join(text.casefold().split())
    if several := _SEVERAL.fullmatch(clean):
        raise BadField(f"{text!r} counts in words; write a figure, such as '2 {several[1]}'")
    if _STRAY.fullmatch(clean):
        raise BadField(
            f"{text!r} stands alone; write it with the oven, in quotes: 'oven at 190 °C ± 10 °C, 2 shelves'"
        )
    if (cooks := _COOKS.fullmatch(clean)) and (cooks["n"] is None or cooks["n"].isdigit()):
        return Needs(cooks=_cooks(text, cooks))
    if microwave := _MICROWAVE.fullmatch(clean):
        return Needs(microwaves=_count(text, microwave["n"]))
    if burners := stations_in(clean, "burner"):
        return Needs(burners=burners)
    if stations_in(clean, "oven"):
        return Needs(oven=_oven(text, clean))
    if board := _BOARD.fullmatch(clean):
        what = board["what"] if board["what"] and board["what"].startswith("raw ") else ""
        return Needs(boards=(what,) * _count(text, board["n"]))
    if counted := _COUNTED.fullmatch(clean):
        return Needs(tools=(_singular(counted["what"]),) * _count(text, counted["n"]))
    return Needs(tools=(clean,))


def _cooks(text: str, found: re.Match[str]) -> int:
    """Count the people: `hands` are one cook's, `2 cooks` two; how many `2 hands` are is not guessed."""
    if found["n"] is None and found["word"] in ("hands", "hand", "cook", "person"):
        return 1
    if found["n"] is None or found["word"] in ("hands", "hand"):
        raise BadField(f"{text!r} does not say how many people; write 'hands' for one, or '2 cooks'")
    return _count(text, found["n"])


def _count(text: str, number: str | None) -> int:
    if number is not None and not 1 <= int(number) <= 9:
        raise BadField(f"{text!r} counts {number}; write a number from 1 to 9")
    return 1 if number is None else int(number)


def _singular(name: str) -> str:
    """Take the plural off a counted tool: '2 sheet pans', '2 baking dishes'."""
    for ending in ("shes", "ches", "xes", "sses"):
        if name.endswith(ending):
            return name[:-2]
    return name[:-1] if name.endswith("s") and not name.endswith("ss") else name


def _oven(text: str, clean: str) -> OvenNeed:
    found = _OVEN.fullmatch(clean)
    remedy = "write it like 'oven at 190 °C', 'oven at 375 °F ± 20 °F' or 'oven at 190 °C, 2 shelves'"
    if found is None:
        if re.fullmatch(r"(?:\d{1,2} )?(?:\w+ )?ovens?", clean):
            return OvenNeed()  # 'hot oven' says no heat that could be kept
        raise BadField(f"{text!r} cannot be read; {remedy}")
    if found["heat"] is None:
        if found["tolerance"] is not None:
            raise BadField(f"{text!r} names no heat; {remedy}")
        return OvenNeed(shelves=_count(text, found["shelves"]))
    try:
        heat = half_up(read_temperature(found["heat"]))
    except BadUnit as bad:
        raise BadField(f"the heat in {text!r} cannot be read; {remedy}") from bad
    if not COOLEST_C <= heat <= HOTTEST_C:
        raise BadField(f"{text!r} is {heat} °C; write a heat from {COOLEST_C} to {HOTTEST_C} °C")
    return OvenNeed(heat, _tolerance(text, found), _count(text, found["shelves"]))


def _tolerance(text: str, found: re.Match[str]) -> int | None:
    if found["tolerance"] is None:
        return None
    try:
        return read_degrees_off(found["tolerance"], found["heat"].strip()[-1])
    except BadField as bad:
        raise BadField(f"the tolerance in {text!r} cannot be read; write it like '± 10 °C'") from bad


def read_degrees_off(text: str, scale: str = "") -> int:
    """Read by how many degrees something may be off, in whole °C rounded down: '10 °C', '20 °F', '± 10 °C'.

    Parameters
    ----------
    text
        The difference, without a sign.
    scale
        'c' or 'f', for a bare number; '' where the scale has to be named.

    Raises
    ------
    BadField
        If it cannot be read.
    """
    degrees = _DEGREES.fullmatch(text.strip().removeprefix("±").strip().casefold())
    told = degrees["scale"] or scale if degrees else ""
    if degrees is None or not told:
        raise BadField(f"{text!r} is no number of degrees; write one such as 10 °C")
    number = read_number(degrees["number"])
    return int(number * Fraction(5, 9) if told == "f" else number)


def slip_of(need: str, known: Iterable[str] = _KNOWN) -> str:
    """Say which known word a tool's name looks like a slip of, one letter off; '' for none.

    'burnr' is 'burner', 'bord for raw meat' is 'board for raw meat'; 'blender' is a tool of its own.
    """
    name, _, rest = need.partition(" ") if re.search(r"\w (?:at|for raw) ", need) else (need, "", "")
    name = " ".join(name.casefold().split())
    words = [word for word in known if len(word) >= _LEAST_LETTERS]
    if any(name == word.casefold() for word in words):
        return ""
    near = next((word for word in words if _one_off(name, word.casefold())), "")
    return f"{near} {rest}".strip() if near else ""


def _one_off(written: str, word: str) -> bool:
    """Say whether one letter is missing, too many, wrong, or changed with its neighbour."""
    if len(written) > len(word):
        written, word = word, written
    if len(word) - len(written) > 1:
        return False
    at = next((i for i, (a, b) in enumerate(zip(written, word, strict=False)) if a != b), len(written))
    if len(written) < len(word):
        return written[at:] == word[at + 1 :]
    swapped = written[at : at + 2] == word[at : at + 2][::-1]
    return written[at + 1 :] == word[at + 1 :] or (swapped and written[at + 2 :] == word[at + 2 :])
