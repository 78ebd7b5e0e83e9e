from __future__ import annotations

import pytest

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import read_minutes, show_minutes


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("90 min", 90),
        ("90min", 90),
        ("90 minutes", 90),
        ("1 h 20", 80),
        ("1h20", 80),
        ("1 h 20 min", 80),
        ("1 hour and 20 minutes", 80),
        ("2 hrs, 5 mins.", 125),
        ("1 1/2 hours", 90),
        ("1½ h", 90),
        ("1.5 h", 90),
        ("2-hour", 120),
        ("1:30", 90),
        ("0:05", 5),
        ("PT1H30M", 90),
        ("PT90M", 90),
        ("PT0M", 0),
        ("pt1h", 60),
        ("P1DT2H", 1560),
        ("PT0.5H", 30),
        ("PT1H30M0S", 90),
        ("PT120S", 2),
    ],
)
def test_a_length_of_time_is_read_in_minutes(text: str, minutes: int) -> None:
    assert read_minutes(text) == minutes


@pytest.mark.parametrize(
    "text",
    [
        "",
        "45",
        "soon",
        "1-2 h",
        "-5 min",
        "1:75",
        "PT",
        "P",
        "PT90S",
        "0.3 min",
        "1/7 h",
        "1 h 20 30",
        "a" * 500,
        "1 h h",
    ],
)
def test_what_is_no_length_of_time_is_refused_with_what_to_write(text: str) -> None:
    with pytest.raises(BadUnit, match="write it like '90 min'"):
        read_minutes(text)


def test_minutes_are_shown_in_hours_and_minutes() -> None:
    assert [show_minutes(m) for m in (0, 45, 60, 80, 1560)] == [
        "0 min",
        "45 min",
        "1 h",
        "1 h 20 min",
        "26 h",
    ]
    assert [show_minutes(m, "iso") for m in (0, 45, 60, 80)] == ["PT0M", "PT45M", "PT1H", "PT1H20M"]


def test_minutes_below_zero_are_refused() -> None:
    with pytest.raises(BadField, match="give 0 or more"):
        show_minutes(-1)
