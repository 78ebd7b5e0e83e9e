"""What is said of a cooking day: never surer than the solver, and never that food is safe."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.publish.days import FILL, FRY, ONION, QUESTION, SIMMER, TIMETABLE

from ladleworth.cli import show_day
from ladleworth.cli.show_why_day import saved, saving_words, stretches
from ladleworth.cookday.answer import DayAnswer, Measure, Status
from ladleworth.cookday.question import Lag
from ladleworth.cookday.reasons import Link, Saving
from ladleworth.cookday.slack import HowSlow, Window
from ladleworth.publish.day_clock import DayClock

FOUR = DayClock(16 * 60)
ANSWER = DayAnswer(Status.PROVEN, TIMETABLE, TIMETABLE, Measure(80, 70, 41), 80, 1.5, 7, "CP-SAT 9")


@pytest.mark.parametrize(
    ("answer", "said"),
    [
        (ANSWER, "Proven shortest: with hands-on work 20 % slower than stated, no timetable that keeps all the rules is done before 17:20"),
        (replace(ANSWER, status=Status.GOOD, bound=73), "none is done before 17:13, and this one is at 17:20: at most 7 min off"),
        (replace(ANSWER, status=Status.GOOD, bound=None), "How far off the shortest it is, is not known"),
    ],
)  # fmt: skip
def test_how_good_it_is_is_said_as_surely_as_it_is_known(
    answer: DayAnswer, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    show_day.status(answer, QUESTION, FOUR)
    text = " ".join(capsys.readouterr().out.split())
    assert said in text
    assert ("Proven" in text) is (answer.status is Status.PROVEN)
    assert (
        "Done and washed up at 17:10 at the stated pace; at 17:20 where all hands-on work takes 20 % longer"
        in text
    )


@pytest.mark.parametrize(
    ("saving", "said"),
    [
        (Saving("a second cook", 20, 27), "A second cook would end the day up to 27 minutes sooner; at least 20."),
        (Saving("a second cook", 27, 27), "A second cook would end the day 27 minutes sooner."),
        (Saving("one more pot", 1, 1), "One more pot would end the day 1 minute sooner."),
        (Saving("one more pot", 0, 5), "One more pot might end the day up to 5 minutes sooner; nothing sooner was found."),
    ],
)  # fmt: skip
def test_a_saving_is_said_between_what_was_found_and_what_is_proven(saving: Saving, said: str) -> None:
    assert saving_words(saving) == said


def test_savings_of_a_day_that_is_not_proven_may_be_had_without() -> None:
    good = replace(ANSWER, status=Status.GOOD, bound=73)
    assert "some of this may be had without" in list(saved([Saving("one more pot", 1, 1)], good))[-1]
    assert list(saved([], ANSWER)) == [
        "One more of any one thing (a cook, a burner, a shelf, a tool, a place) would not end the day sooner."
    ]


def test_the_chain_is_told_by_the_clock_stretch_by_stretch() -> None:
    chain = (
        Link((FILL,), "", 17, 20, "heating the oven"),
        Link((ONION,), "", 20, 24, "the same hands"),
        Link((FRY,), "", 24, 29, "the same hands"),
        Link((SIMMER,), "", 29, 59, "from the end of Stew: 2 to the start of it at least 0 minutes"),
        Link((), "bowl 1", 59, 61, "the same hands"),
        Link((FRY,), "", 61, 66, "pot 2"),
    )
    assert list(stretches(QUESTION, chain, FOUR)) == [
        "Until 16:17: the oven has to heat up.",
        "16:17 to 16:29: the hands are the bottleneck (B2, A1, A2).",
        "16:24 to 16:59: the dishes' own order and times decide (A2).",
        "16:29 to 17:01: the hands are the bottleneck (A2, wash the bowl).",
        "16:59 to 17:06: pot 2 is the bottleneck (wash the bowl, A2).",
    ]
    assert list(stretches(QUESTION, (), FOUR)) == ["Nothing is done."]


@pytest.mark.parametrize(
    ("slow", "said"),
    [
        (HowSlow(131, ("a to b, at most 9 minutes",), 150), "holds while hands-on work is up to 31 % slower than stated"),
        (HowSlow(131, ("a to b, at most 9 minutes",), 150), "it holds up to 50 % slower"),
        (HowSlow(131, ("a to b, at most 9 minutes",), 131), "this breaks first: a to b, at most 9 minutes."),
        (HowSlow(100, ("a to b",), 120), "a wait breaks as soon as hands-on work takes longer"),
        (HowSlow(200, (), 200), "takes 200 % of the stated minutes (no more was tried)"),
    ],
)  # fmt: skip
def test_how_slow_the_day_stands_is_said_in_words(slow: HowSlow, said: str) -> None:
    assert said in " ".join(show_day.slow_words(slow))


def test_a_window_says_what_it_has_to_spare() -> None:
    window = Window(Lag(ONION, FILL, 0, 8, why="cut onion dries"), 2, 6)
    assert show_day.window_words(window, QUESTION) == (
        "end of A1 to start of B2: 2 of at most 8 min, 6 to spare (cut onion dries)"
    )
