"""The entries of a cooking day: what one brings with it, what is refused, and how a step is found by its name."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from tests.unit.publish.days import (
    BAKE,
    CHOP,
    FILL,
    FRY,
    ONION,
    OVEN,
    QUESTION,
    SIMMER,
    STEW,
    STEW_END,
    TIMETABLE,
)

from ladleworth.errors import BadField
from ladleworth.store.kept_day import DayEntry, Happened
from ladleworth.week.day_entries import DayBook, began, ended, find_step, forgotten

FOUR = datetime(2026, 12, 6, 16, 0)  # noqa: DTZ001  # the kitchen's clock
BOOK = DayBook(1, QUESTION, TIMETABLE.merged)


def at(minute: int) -> datetime:
    return FOUR + timedelta(minutes=minute)


def after(book: DayBook, *acts: tuple[str, str, int]) -> DayBook:
    """Enter acts one after the other: (what, step, minute)."""
    for what, step, minute in acts:
        number = len(book.entries) + 1
        if what == "forget":
            new = forgotten(book, step, at(minute), number)
        else:
            new = {"began": began, "ended": ended}[what](book, step, at(minute), at(minute), number)
        book = replace(book, entries=(*book.entries, *new))
    return book


def told(entries: tuple[DayEntry, ...]) -> list[tuple[str, str, int]]:
    return [(e.activity, e.what.value, int((e.at - FOUR).total_seconds()) // 60) for e in entries]


def test_work_done_in_one_go_is_entered_for_every_dish() -> None:
    book = after(BOOK, ("began", "chopped onion", 0), ("ended", "a1", 8))
    assert told(book.standing()) == [
        (ONION, "began", 0),
        (CHOP, "began", 0),
        (ONION, "ended", 8),
        (CHOP, "ended", 8),
    ]


def test_what_goes_on_by_itself_begins_when_hands_let_go() -> None:
    book = after(BOOK, ("began", "A2", 7), ("ended", "A2", 12))
    assert told(book.standing()) == [(FRY, "began", 7), (FRY, "ended", 12), (SIMMER, "began", 12)]
    assert book.running() == (SIMMER,)
    assert told(after(book, ("ended", "A2", 41)).standing())[-1] == (SIMMER, "ended", 41)


def test_what_had_to_end_before_has_ended_when_the_next_begins() -> None:
    book = after(BOOK, ("began", "A2", 7), ("ended", "A2", 12), ("began", "A divide", 44))
    assert told(book.standing())[-2:] == [(STEW_END[0], "began", 44), (SIMMER, "ended", 44)]


def test_with_one_cook_the_hands_have_left_what_they_were_at() -> None:
    alone = replace(BOOK, question=replace(QUESTION, bench=replace(QUESTION.bench, cooks=1)))
    acts = (("began", "A2", 7), ("began", "B2", 9))
    assert told(after(alone, *acts).standing())[-3:] == [
        (FILL, "began", 9),
        (FRY, "ended", 9),
        (SIMMER, "began", 9),
    ]
    assert told(after(BOOK, *acts).standing())[-1:] == [(FILL, "began", 9)]  # two cooks: nobody knows


def test_an_entry_is_taken_back_with_all_that_came_with_it() -> None:
    book = after(BOOK, ("began", "A2", 7), ("ended", "A2", 12), ("forget", "A2", 13))
    assert told(book.standing()) == [(FRY, "began", 7)]
    assert len(book.entries) == 5  # nothing is removed
    assert told(after(book, ("ended", "A2", 14)).standing())[-2:] == [
        (FRY, "ended", 14),
        (SIMMER, "began", 14),
    ]
    assert after(book, ("forget", "A2", 15)).standing() == ()


def test_what_later_entries_rest_on_is_not_taken_back_first() -> None:
    book = after(BOOK, ("began", "A2", 7), ("ended", "A2", 12), ("ended", SIMMER, 41))
    with pytest.raises(BadField, match=f"{SIMMER} has ended since, at 16:41; --forget that first"):
        forgotten(book, FRY, at(42), 9)
    assert told(after(book, ("forget", SIMMER, 42), ("forget", FRY, 42)).standing()) == [(FRY, "began", 7)]


@pytest.mark.parametrize(
    ("acts", "last", "said"),
    [
        ((), ("ended", "B3", 5), "has not begun; enter --began"),
        ((("began", "B3", 5),), ("began", "B3", 6), "was begun at 16:05 already; if that was wrong, --forget"),
        ((("began", "B3", 5),), ("ended", "B3", 4), "cannot end at 16:04: it began at 16:05"),
        ((("began", "B3", 5), ("ended", "B3", 9)), ("ended", "B3", 9), "ended at 16:09 already"),
        ((), ("forget", "B3", 9), "nothing is entered of Bake: 3"),
        ((), ("began", "gruel", 0), "no step is called 'gruel'; ladleworth cookday lists the steps"),
        ((), ("began", "", 0), "no step is called ''"),
        ((), ("began", "B33", 0), r"did you mean .*B3 \(Bake: 3\)"),
        ((), ("began", "lid", 0), r"did you mean A lid \(.*\) or B lid"),
        ((), ("began", "Bake:", 0), "several steps begin with 'Bake:'"),
    ],
)  # fmt: skip
def test_a_mistake_gets_one_clear_message(
    acts: tuple[tuple[str, str, int], ...], last: tuple[str, str, int], said: str
) -> None:
    with pytest.raises(BadField, match=said) as refused:
        after(BOOK, *acts, last)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("called", "members"),
    [
        ("B3", (OVEN,)),
        ("b3", (OVEN,)),
        ("bake: 3", (OVEN,)),
        (f"  {STEW}:  2 ", (FRY,)),
        ("A1+B1", (ONION, CHOP)),
        ("washing", ("washing up",)),
        ("A lid", (f"{STEW}: lid",)),
        (f"{BAKE}: l", (f"{BAKE}: lid",)),
    ],
)
def test_a_step_is_found_by_its_short_name_its_full_name_and_a_beginning(
    called: str, members: tuple[str, ...]
) -> None:
    assert find_step(BOOK, called, Happened.BEGAN) == members


def test_a_preparation_that_the_plan_does_not_share_may_be_done_in_one_go_all_the_same() -> None:
    apart = replace(BOOK, in_one_go=())
    assert find_step(apart, "A1", Happened.BEGAN) == (ONION,)
    assert find_step(apart, "A1+B1", Happened.BEGAN) == find_step(apart, "chopped onion", Happened.BEGAN)
    assert find_step(apart, "chopped onion", Happened.BEGAN) == (ONION, CHOP)
    assert after(apart, ("began", "A1+B1", 0)).merged == ("chopped onion",)
    assert after(apart, ("began", "A1", 0), ("began", "B1", 6)).merged == ()
    assert after(BOOK, ("began", "A1", 0)).merged == ("chopped onion",)
