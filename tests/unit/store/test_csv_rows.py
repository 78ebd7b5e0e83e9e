from __future__ import annotations

import pytest

from ladleworth.errors import Finding
from ladleworth.store.csv_rows import Columns, Row, read_rows, write_rows
from ladleworth.store.papers import Paper

COLUMNS = Columns(("food", "amount"), ("note",))


def rows(text: str, *, strip: bool = True) -> tuple[list[Row], list[str]]:
    found: list[Finding] = []
    read = read_rows(Paper("stock.csv", text), COLUMNS, "home", found, strip=strip)
    return read, [str(finding) for finding in found]


def test_columns_stand_in_any_order_and_may_be_left_out() -> None:
    read, found = rows("amount,food\n 500 g , rice\n")
    assert found == []
    assert (read[0]["food"], read[0]["amount"], read[0]["note"]) == ("rice", "500 g", "")


def test_a_byte_order_mark_and_windows_line_ends_are_tolerated() -> None:
    read, found = rows("\ufefffood,amount\r\nrice,500 g\r\n\r\negg,2\r\n")
    assert found == []
    assert [(row.line, row["food"]) for row in read] == [(2, "rice"), (4, "egg")]


def test_quoted_fields_hold_commas_quotes_and_line_ends() -> None:
    read, found = rows('food,amount,note\n"rice, long",1 kg,"said ""two\nlines"""\negg,2,\n')
    assert found == []
    assert read[0]["food"] == "rice, long"
    assert read[0]["note"] == 'said "two\nlines"'
    assert [row.line for row in read] == [2, 4]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", ["home/stock.csv:1: the file is empty; begin it with the line food,amount"]),
        (" \n\n", ["home/stock.csv:1: the file is empty; begin it with the line food,amount"]),
        (
            "rice,500 g\n",
            ["home/stock.csv:1: the first line names no column; begin it with the line food,amount"],
        ),
        (
            "food,amount\nrice,1,2\negg\n",
            [
                ("home/stock.csv:2: the line has 3 fields and the header has 2; "
                "give it as many; a field that holds a comma stands between double quotes"),
                ("home/stock.csv:3: the line has 1 fields and the header has 2; "
                "give it as many; a field that holds a comma stands between double quotes"),
            ],
        ),
        ('"food,amount\n', [
            ("home/stock.csv:1: this is no CSV: unexpected end of data; "
            "write double quotes around a whole field, and two of them for one within")
        ]),
        ("food,amont\n", [
            "home/stock.csv:1: there is no column 'amont'; did you mean 'amount'?",
        ]),
        ("food,amount,food\n", ["home/stock.csv:1: the column 'food' stands there twice; keep one of the two"]),
        (
            'food,amount\n"rice,1\n',
            [
                ("home/stock.csv:2: this is no CSV: unexpected end of data; "
                "write double quotes around a whole field, and two of them for one within")
            ],
        ),
    ],
)  # fmt: skip
def test_a_broken_table_is_named_with_its_line(text: str, said: list[str]) -> None:
    assert rows(text)[1] == said


@pytest.mark.parametrize("value", ["", " x ", 'a"b', "a,b", "a\nb", "a\r\nb", "a\rb", "ü", "'", "\t"])
def test_what_is_written_reads_back_the_same(value: str) -> None:
    text = write_rows(COLUMNS.all, [("rice", value, "last")])
    read, found = rows(text, strip=False)
    assert found == []
    assert read[0]["amount"] == value
