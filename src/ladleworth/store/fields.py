"""Reading single values of a kitchen's files: money, dates, days, whole numbers; each slip becomes a finding."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction
from typing import TypeVar

from ladleworth.dish.tree import Findings, Node, Path, nearest, shorten, show_path
from ladleworth.dish.written import read_step_minutes
from ladleworth.errors import BadField, BadUnit, Place
from ladleworth.household import Days
from ladleworth.store.marked_yaml import Tree, load_marked
from ladleworth.store.papers import Paper
from ladleworth.units import Currency, Dimension, half_up, read_money, read_number, read_total, show_money

Value = TypeVar("Value")

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MOST_NUMBER = 1_000_000
YEARS = range(1900, 2201)
"""The years that a date of a kitchen may lie in, so that no reckoning runs off the calendar."""

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_RANGE = re.compile(r"([0-9]{1,6}) ?[-–] ?([0-9]{1,6})")


def open_yaml(paper: Paper, root: str) -> Node:
    """Open a YAML paper as a node to walk through.

    Parameters
    ----------
    paper
        The paper.
    root
        What to put before its path when naming it to the cook ('' for nothing).

    Returns
    -------
    Node
        Its top, with the findings of YAML itself already noted; data None when it is no YAML.
    """
    file = place_name(root, paper.path)
    marked, found = load_marked(paper.text, file)
    lines: Mapping[Path, int] = {} if marked is None else marked.lines

    def place(path: Path) -> Place:
        known = path
        while known not in lines and known:
            known = known[:-1]
        return Place(file, lines.get(known), show_path(path))

    tree: Tree = None if marked is None else marked.tree
    return Node(tree, (), Findings(place, list(found)))


def place_name(root: str, path: str) -> str:
    """Name a paper as the user gave it: the folder's name before its path."""
    return f"{root.rstrip('/')}/{path}" if root else path


def read_with(node: Node, what: str, example: str, read: Callable[[str], Value]) -> Value | None:
    """Read a text by a reader of the house; None after a fault.

    Parameters
    ----------
    node
        The value.
    what, example
        What it is in words, and what to write.
    read
        Raises `BadUnit` or `BadField` with what is wrong.
    """
    text = node.text(what, example)
    if not text:
        return None
    try:
        return read(text)
    except (BadUnit, BadField) as fault:
        reason, _, remedy = str(fault).partition("; ")
        said = reason if what in node.path else f"{what}: {reason}"  # the place ends in the key already
        node.fault(said, remedy or f"write something like {example}")
        return None


def read_whole(
    node: Node, what: str, *, least: int = 0, most: int = MOST_NUMBER, none: bool = False
) -> int | None:
    """Read a whole number from `least` to `most`; None after a fault, and for 'none' where that may be said."""
    text = node.text(what, str(max(least, 4)))
    if not text or (none and text.casefold() == "none"):
        return None
    if text.isascii() and text.isdigit() and least <= int(text[:10]) <= most:
        return int(text)
    or_none = ", or none for no limit" if none else ""
    node.fault(f"{what} is {shorten(text)}", f"write a whole number from {least} to {most}{or_none}")
    return None


def read_cents(
    node: Node, what: str, cur: Currency | None, *, negative: bool = False, none: bool = False
) -> int | None:
    """Read money in the kitchen's currency, in cents; None after a fault, for 'none', and without a currency."""
    text = node.text(what, "12.40")
    if not text or cur is None or (none and text.casefold() == "none"):
        return None
    cents = read_with(node, what, "12.40", lambda t: read_money(t, cur, negative=negative))
    if cents is not None and reads_two_ways(text):
        node.findings.doubt(node.path, *two_ways(text, cents, cur))
    return cents


def reads_two_ways(text: str) -> bool:
    """Tell whether a price has one comma before three digits: thousands, or decimals with a digit too many."""
    return bool(re.search(r"(?<![\d.,])[1-9]\d{0,2},\d{3}(?![\d.,])", text))


def two_ways(text: str, cents: int, cur: Currency) -> tuple[str, str]:
    """Say how such a price was taken, and what to write instead."""
    return (
        f"{shorten(text)} may mean thousands or decimals; it is taken as {show_money(cents, cur)}",
        "write it without the comma, or with a point before the decimals",
    )


def read_minutes_whole(node: Node, what: str) -> int | None:
    """Read a whole number of minutes, bare or as a length of time; None after a fault."""

    def read(text: str) -> int:
        minutes = read_step_minutes(text)
        if minutes.denominator != 1 or minutes >= MOST_NUMBER:
            raise BadField(f"{shorten(text)} is no whole number of minutes; write one such as 150")
        return int(minutes)

    return read_with(node, what, "150 or 2 h 30 min", read)


def parse_date(text: str) -> date:
    """Read a date written as `2026-12-06`.

    Raises
    ------
    BadField
        If it is written otherwise, or the calendar has no such day.
    """
    if not _DATE.fullmatch(text.strip()):
        raise BadField(f"{shorten(text)} is no date; write year, month and day like 2026-12-06")
    try:
        day = date.fromisoformat(text.strip())
    except ValueError as error:
        raise BadField(
            f"the calendar has no {text.strip()}; write a day that it has, like 2026-12-06"
        ) from error
    if day.year not in YEARS:
        raise BadField(f"{day} lies outside the years {YEARS[0]} to {YEARS[-1]}; write a day within them")
    return day


def read_days(nodes: tuple[Node, ...], what: str) -> Days:
    """Read a choice of days: numbers, ranges, weekdays and dates; what is faulty is left out."""
    numbers: list[int] = []
    weekdays: list[int] = []
    dates: list[date] = []
    for node in nodes:
        text = node.text(f"an entry of {what}", "1, 1-7, sunday or 2026-12-06")
        if not text:
            continue
        if found := _RANGE.fullmatch(text):
            first, last = int(found[1]), int(found[2])
            if not 1 <= first <= last <= 1000:
                node.fault(f"the days {text} run from {first} to {last}", "write a range such as 1-7")
            else:
                numbers.extend(range(first, last + 1))
        elif text.isascii() and text.isdigit():
            if not 1 <= int(text[:10]) <= 1000:
                node.fault(f"{text} is no day of the plan", "count the days from 1")
            else:
                numbers.append(int(text))
        elif text.casefold() in WEEKDAYS:
            weekdays.append(WEEKDAYS.index(text.casefold()))
        elif _DATE.fullmatch(text):
            day = read_with(node, f"an entry of {what}", "2026-12-06", parse_date)
            dates.extend([] if day is None else [day])
        else:
            near = nearest(text, WEEKDAYS)
            remedy = "write a number (1), a range (1-7), a weekday (sunday) or a date (2026-12-06)"
            node.fault(f"{shorten(text)} names no days", f"did you mean {near!r}?" if near else remedy)
    return Days(_once(numbers), _once(weekdays), _once(dates))


def _once(values: list[Value]) -> tuple[Value, ...]:
    return tuple(dict.fromkeys(values))


def suggestion(name: str, known: Mapping[str, object] | tuple[str, ...], what: str) -> str:
    """Say what to write in place of an unknown name: the nearest known one, or all that there are."""
    near = nearest(name, known)
    if near:
        return f"did you mean {near!r}?"
    listed = ", ".join(list(known)[:8])
    return f"the {what} are {listed}" if listed else f"there are no {what} yet"


def read_name(node: Node, keys: dict[str, Node], what: str, taken: dict[str, int | None]) -> str:
    """Read a name that no other entry of the list may bear."""
    if "name" not in keys:
        node.fault(f"{what} has no name", "write it as name: NAME")
        return ""
    name = keys["name"].text(f"{what}'s name", "Ada")
    if name in taken:
        keys["name"].fault(f"{what} is called {shorten(name)} a second time", "give each a name of its own")
        return ""
    if name:
        taken[name] = None
    return name


def read_filled(node: Node, what: str) -> tuple[Node, ...]:
    """Open a list that may not be empty."""
    before = len(node.findings.found)
    items = node.items(what)
    if not items and len(node.findings.found) == before:
        node.fault(f"{what} lists nothing", f"write at least one entry under {what}:")
    return items


def read_share(node: Node, what: str, *, most: Fraction) -> Fraction:
    """Read a share such as 70%, up to `most`; a faulty one counts as all."""
    text = node.text(what, "70%")
    found = re.fullmatch(r"(\d{1,3}(?:\.\d+)?)\s*%", text)
    share = Fraction(found[1]) / 100 if found else None
    if share is not None and share <= most:
        return share
    if text:
        node.fault(f"{shorten(text)} is no share from 0% to {float(most):.0%}", "write 70%, say")
    return Fraction(1)


def parse_share(text: str) -> Fraction:
    """Read a number or a share: '0.75', '3/4', '150%'.

    Raises
    ------
    BadUnit
        If it is none.
    """
    clean = text.strip()
    number = read_number(clean.removesuffix("%").strip())
    return number / 100 if clean.endswith("%") else number


def parse_volume_ml(text: str) -> int:
    """Read a volume ('500 ml', '2 cups', '6 l') in whole millilitres, half up.

    Raises
    ------
    BadUnit, BadField
        If it is no volume of a millilitre or more.
    """
    total = read_total(text)
    if total.dimension is not Dimension.VOLUME or total.amount < 1:
        raise BadField(f"{shorten(text)} is no volume above 0; write one such as 6 l")
    return half_up(total.ml)
