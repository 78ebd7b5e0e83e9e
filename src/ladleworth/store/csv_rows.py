"""CSV papers as rows with their lines; the header says which column is which."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date

from ladleworth.dish.tree import nearest, shorten
from ladleworth.errors import Finding, Place, Weight
from ladleworth.store.fields import place_name
from ladleworth.store.papers import Paper


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of a CSV paper: those that must be there, and those that may be left out."""

    needed: tuple[str, ...]
    optional: tuple[str, ...] = ()

    @property
    def all(self) -> tuple[str, ...]:
        """Every column, the needed ones first."""
        return self.needed + self.optional


@dataclass(slots=True)
class Row:
    """A line of a CSV paper: its fields by column, stripped; a column left out is an empty text.

    `absent` are needed columns that the header lacks: that is said there, and not again in every row. `dated`
    are the doubts of the row that rest on a date.
    """

    file: str
    line: int
    fields: dict[str, str]
    found: list[Finding] = field(repr=False)
    absent: frozenset[str] = frozenset()
    faults: int = 0
    dated: list[tuple[Finding, date]] = field(default_factory=list, repr=False)

    def __getitem__(self, column: str) -> str:
        return self.fields.get(column, "")

    def fault(self, column: str, what: str, remedy: str) -> None:
        """Note a fault in a field."""
        self.faults += 1
        if column not in self.absent:
            self.found.append(Finding(Place(self.file, self.line, column), what, remedy))

    def is_faulty(self) -> bool:
        """Tell whether a fault was noted in this row."""
        return self.faults > 0

    def doubt(self, column: str, what: str, remedy: str, day: date | None = None) -> None:
        """Note a doubt about a field; `day` is the date that it rests on."""
        finding = Finding(Place(self.file, self.line, column), what, remedy, Weight.DOUBT)
        self.found.append(finding)
        if day is not None:
            self.dated.append((finding, day))


def read_rows(
    paper: Paper, columns: Columns, root: str, found: list[Finding], *, strip: bool = True
) -> list[Row]:
    """Read a CSV paper's rows; blank lines are passed over.

    Parameters
    ----------
    paper
        The paper; a byte order mark at its head is passed over.
    columns
        The columns that it may have.
    root
        What to put before its path when naming it.
    found
        Where findings go; every row's later findings go there too.
    strip
        Whether blanks around a field are passed over; False for what a program wrote.

    Returns
    -------
    list of Row
        The rows that have the right number of fields, in order.
    """
    file = place_name(root, paper.path)
    lines = _numbered(paper.text.removeprefix("\ufeff"), file, found)
    before = len(found)
    first = next(lines, None)
    if first is None or not {value.strip() for value in first[1]} & set(columns.all):
        if len(found) == before:
            what = "the file is empty" if first is None else "the first line names no column"
            place = Place(file, 1 if first is None else first[0])
            found.append(Finding(place, what, f"begin it with the line {','.join(columns.needed)}"))
        return []
    names = _header(first[1], first[0], columns, file, found)
    absent = frozenset(columns.needed) - set(names)
    rows: list[Row] = []
    for line, values in lines:
        if len(values) == len(names):
            pairs = zip(names, values, strict=True)
            fields = {name: value.strip() if strip else value for name, value in pairs if name}
            rows.append(Row(file, line, fields, found, absent))
            continue
        what = f"the line has {len(values)} fields and the header has {len(names)}"
        remedy = "give it as many; a field that holds a comma stands between double quotes"
        found.append(Finding(Place(file, line), what, remedy))
    return rows


def _numbered(text: str, file: str, found: list[Finding]) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    line = 1
    while True:
        try:
            values = next(reader, None)
        except csv.Error as error:
            remedy = "write double quotes around a whole field, and two of them for one within"
            found.append(Finding(Place(file, line), f"this is no CSV: {error}", remedy))
            return
        if values is None:
            return
        if any(value.strip() for value in values):
            yield line, values
        line = reader.line_num + 1


def _header(values: list[str], line: int, columns: Columns, file: str, found: list[Finding]) -> list[str]:
    """Read the header; an unknown or repeated column becomes '' so that its fields are passed over."""
    place = Place(file, line)
    names: list[str] = []
    told: set[str] = set()
    for value in values:
        name = value.strip()
        if name in names:
            found.append(
                Finding(place, f"the column {shorten(name)} stands there twice", "keep one of the two")
            )
            name = ""
        elif name not in columns.all:
            near = nearest(name, columns.all)
            told |= {near} if near else set()
            hint = f"did you mean {near!r}?" if near else f"the columns are {', '.join(columns.all)}"
            found.append(Finding(place, f"there is no column {shorten(name)}", hint))
            name = ""
        names.append(name)
    for name in columns.needed:
        if name not in names and name not in told:
            header = ",".join(columns.needed)
            what = f"the header lacks the column {name!r}"
            found.append(Finding(place, what, f"write the columns' names in the first line: {header}"))
    return names


def write_rows(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Write a header and rows as CSV text, lines ended by a line feed.

    Parameters
    ----------
    columns
        The header.
    rows
        One text per column each.

    Returns
    -------
    str
        The file's text.
    """
    return "".join(",".join(map(_quoted, row)) + "\n" for row in (columns, *rows))


def _quoted(value: str) -> str:
    """Put a field between quotes where it needs them (a carriage return, too, which `csv` may leave bare)."""
    if value and value == value.strip() and not any(c in value for c in ',"\r\n'):
        return value
    return '"' + value.replace('"', '""') + '"' if value else ""
