"""Reading a step of a plain text: what to do, and the notes in brackets at its end.

Chop the onion. (hands-on 5 min; needs hands, board; prep chopped onion)
Bake. (unattended 40 min; needs oven at 190 °C, 2 shelves; after roll; at once)
"""

from __future__ import annotations

import re

from ladleworth.dish.unread import Unread
from ladleworth.dish.written import WrittenStep, read_step_minutes
from ladleworth.errors import BadUnit

_NOTES = re.compile(r"\s*\((?P<notes>[^()]*)\)\s*$")
_NOTE = re.compile(r"(?P<key>hands[- ]on|unattended|needs)\s*:?\s+(?P<value>.+)", re.IGNORECASE)
_TIMED_NOTE = re.compile(
    r"(?P<key>step|part|after|wait|prep|leaves|takes|core)\s*:?\s+(?P<value>.+)|(?P<flag>at once|(?:the )?day before)",
    re.IGNORECASE,
)
_OF_THE_OVEN = re.compile(r"(?:±|\+/-).*|\d shel(?:f|ves)", re.IGNORECASE)
_TIMES = ("hands-on", "unattended")


def read_step(at: int, text: str, unread: list[Unread]) -> WrittenStep:
    """Take the notes in brackets off the end of a step, if every one of them can be read.

    Parameters
    ----------
    at
        Which step it is, from 1.
    text
        The step.
    unread
        What could not be read so far; a time that cannot be is added.

    Returns
    -------
    WrittenStep
        The step. Of the notes `step`, `part`, `after`, `at once`, `wait`, `prep`, `leaves`, `takes`, `core` and `day before` only
        those that stand beside `hands-on` or `unattended` are notes; else '(at once)' belongs to the text.
    """
    found = _NOTES.search(text)
    read = _notes(found["notes"]) if found else None
    if found is None or read is None:
        return WrittenStep(text)
    for key in _TIMES:
        try:
            read_step_minutes(read.get(key, "0"))
        except BadUnit as fault:
            unread.append(Unread(f"step {at}", read.pop(key), str(fault)))
    return WrittenStep(
        text=text[: found.start()],
        part=read.get("part", ""),
        hands_on=read.get("hands-on", ""),
        unattended=read.get("unattended", ""),
        needs=_needs(read.get("needs", "")),
        name=read.get("step", ""),
        after=_listed(read["after"]) if "after" in read else None,
        at_once="at once" in read,
        wait=read.get("wait", ""),
        prep=read.get("prep", ""),
        leaves=read.get("leaves", ""),
        takes=_listed(read.get("takes", "")),
        day_before="day before" in read,
        core=read.get("core", ""),
    )


def _notes(text: str) -> dict[str, str] | None:
    """Read the notes between the brackets, None if any of them is none."""
    read: dict[str, str] = {}
    timed = False
    for note in text.split(";"):
        said = note.strip()
        found = _NOTE.fullmatch(said)
        if found is None:
            timed, found = True, _TIMED_NOTE.fullmatch(said)
        if found is None:
            return None
        flag = found.groupdict().get("flag")
        if flag:
            read[flag.casefold().removeprefix("the ")] = "yes"
        else:
            read[found["key"].casefold().replace(" ", "-")] = found["value"].strip()
    return None if timed and not read.keys() & set(_TIMES) else read


def _listed(text: str) -> tuple[str, ...]:
    return tuple(filter(None, (name.strip() for name in text.split(","))))


def _needs(text: str) -> tuple[str, ...]:
    """Part needs at their commas; shelves and a tolerance stay with the oven before them."""
    needs: list[str] = []
    for need in _listed(text):
        if needs and _OF_THE_OVEN.fullmatch(need):
            needs[-1] += f", {need}"
        else:
            needs.append(need)
    return tuple(needs)
