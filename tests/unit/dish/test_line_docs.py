"""What the page on ingredient lines promises, checked line by line."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from ladleworth.dish.line import Line, Review
from ladleworth.dish.read_line import read_line

PAGE = (Path(__file__).parents[3] / "docs" / "ingredient-lines.md").read_text(encoding="utf-8")
_REVIEWS = PAGE.partition("## What goes to review")[2].partition("## What it does not know")[0]
ROWS = [
    [cell.strip() for cell in row.split("|")[1:-1]] for row in _REVIEWS.splitlines() if row.startswith("| `")
]
QUOTED = re.compile(r"`([^`]+)`")
TO_REVIEW = [line for row in ROWS for line in QUOTED.findall(row[0])]
INSTEAD = [line for row in ROWS for line in QUOTED.findall(row[2])]


def test_the_page_names_at_least_twenty_five_lines_for_review() -> None:
    assert len(TO_REVIEW) >= 25
    assert all(row[1] and row[2] for row in ROWS)


@pytest.mark.parametrize("text", TO_REVIEW)
def test_a_line_that_the_page_sends_to_review_goes_there(text: str) -> None:
    assert isinstance(read_line(text), Review)


@pytest.mark.parametrize("text", INSTEAD)
def test_what_the_page_says_to_write_instead_is_read(text: str) -> None:
    line = read_line(text)
    assert isinstance(line, Line), str(line)
