"""Why a day takes as long as it does, on days that can be worked out on paper; what clashes where there is none."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from ladleworth.cookday import (
    Activity,
    Bench,
    DayAnswer,
    DayQuestion,
    Lag,
    OvenCard,
    OvenHeat,
    Status,
    ToolKind,
    ToolUse,
    timetable,
)
from ladleworth.cookday.reasons import Saving, critical_chain, savings


def work(name: str, minutes: int, hands: int = 1, **needs: object) -> Activity:
    return Activity(name, "stew", name, minutes, minutes, hands, **needs)  # type: ignore[arg-type]


def asked(*activities: Activity, **rest: object) -> DayQuestion:
    return DayQuestion(activities, slower=Fraction(1), **rest)  # type: ignore[arg-type]


def answered(question: DayQuestion) -> DayAnswer:
    answer = timetable(question, seconds=20.0)
    assert answer.status is Status.PROVEN, answer.why_not
    return answer


SHELF = OvenCard(shelves=1, heating_min_per_10c=Fraction(0), cooling_min_per_10c=Fraction(0), start_c=200)


def baked(name: str, minutes: int) -> Activity:
    return work(name, minutes, 0, oven=OvenHeat(200))


# Whisk 5, bake 20 and 30 on one shelf: 5 + 50 is the least, and the oven is why.
BAKES = asked(
    work("whisk", 5),
    baked("bake one", 20),
    baked("bake two", 30),
    lags=(Lag("whisk", "bake one"), Lag("whisk", "bake two")),
    bench=Bench(oven=SHELF),
)


def test_the_chain_goes_through_what_is_shared() -> None:
    answer = answered(BAKES)
    assert answer.measure is not None
    assert answer.measure.finish == 55
    assert answer.nominal is not None
    chain = critical_chain(BAKES, answer.nominal, slow=False)
    assert [link.activities for link in chain[:1]] == [("whisk",)]
    assert {link.activities for link in chain[1:]} == {("bake one",), ("bake two",)}
    assert [(link.start, link.end) for link in chain[:1]] == [(0, 5)]
    assert (chain[0].waited_for, chain[2].waited_for) == ("", "shelves")
    assert chain[-1].end == 55


def test_each_link_begins_when_the_one_before_it_ends_and_its_gap_is_over() -> None:
    question = asked(
        work("chop", 10), work("fry", 5), lags=(Lag("chop", "fry", least=7, why="it drains"),), bench=Bench()
    )
    answer = answered(question)
    assert answer.nominal is not None
    first, second = critical_chain(question, answer.nominal, slow=False)
    assert (first.end, second.gap, second.start) == (10, 7, 17)
    assert "it drains" in second.waited_for


def test_food_that_stands_longer_than_it_has_to_holds_nothing_up() -> None:
    # The stew may cool for 20 to 100 minutes; the lid goes on when the hands have done 40 minutes of chopping.
    question = asked(
        work("divide", 5),
        Activity("cool", "stew", "cool", 20, 100, warm=True),
        work("chop", 40),
        work("lid", 1),
        lags=(Lag("divide", "cool", 0, 0), Lag("cool", "lid", 0, 0), Lag("chop", "lid")),
        bench=Bench(),
    )
    answer = answered(question)
    assert answer.measure is not None
    assert answer.measure.finish == 46
    assert answer.nominal is not None
    chain = critical_chain(question, answer.nominal, slow=False)
    assert ("cool",) not in [link.activities for link in chain]
    assert ("chop",) in [link.activities for link in chain]


def test_a_second_shelf_saves_the_shorter_bake() -> None:
    # With two shelves both bakes run at once: 5 + 30, which is 20 minutes sooner; a second cook changes nothing.
    assert savings(BAKES, answered(BAKES), 5.0) == (Saving("one more oven shelf", 20, 20),)


def test_a_second_pair_of_hands_halves_work_that_nothing_else_holds_up() -> None:
    question = asked(work("chop", 10), work("peel", 10), bench=Bench())
    assert savings(question, answered(question), 5.0) == (Saving("a second cook", 10, 10),)


def test_one_more_pan_saves_the_wash() -> None:
    # One cook: fry 5, wash 3, fry 5; with two pans nothing is washed between.
    question = asked(
        work("fry onions", 5),
        work("fry fish", 5),
        uses=(ToolUse("for onions", "pan", ("fry onions",)), ToolUse("for fish", "pan", ("fry fish",))),
        bench=Bench(tools=(ToolKind("pan", 1, 3),)),
    )
    saved = {
        saving.words: (saving.least, saving.most) for saving in savings(question, answered(question), 5.0)
    }
    assert saved == {"one more pan": (3, 3)}


def test_nothing_is_saved_where_nothing_is_scarce() -> None:
    question = asked(work("chop", 10), bench=Bench())
    assert savings(question, answered(question), 5.0) == ()


# --- where there is no timetable -------------------------------------------------------------------------


def why_not(question: DayQuestion) -> tuple[str, ...]:
    answer = timetable(question, seconds=20.0)
    assert answer.status is Status.IMPOSSIBLE
    assert (answer.slow, answer.nominal, answer.measure, answer.bound) == (None, None, None, None)
    return answer.why_not


@pytest.mark.parametrize(
    ("activity", "said"),
    [
        (work("lift", 3, 3), "lift takes 3 cooks, and there is 1"),
        (work("boil", 3, 0, burners=2), "boil takes 2 burners, and there are 0"),
        (work("melt", 3, 0, microwaves=1), "melt takes 1 microwave, and there are 0"),
        (work("set", 3, 0, counter=4), "set takes 4 places on the counter, and there are 2"),
        (work("bake", 3, 0, oven=OvenHeat(200, shelves=2)), "bake takes 2 oven shelves, and there is 1"),
    ],
)
def test_more_than_there_is_is_named_with_its_activity(activity: Activity, said: str) -> None:
    assert why_not(asked(activity, bench=Bench(counter=2, oven=SHELF))) == (said,)


def test_a_tool_that_is_not_there_is_named() -> None:
    question = asked(
        work("fry", 3),
        uses=(ToolUse("the frying", "pan", ("fry",)),),
        bench=Bench(tools=(ToolKind("pan", 0),)),
    )
    assert why_not(question) == ("the frying takes a pan, and there are 0",)


def test_lags_that_no_timetable_keeps_are_named_in_a_circle() -> None:
    question = asked(
        work("boil", 10),
        work("drain", 2),
        lags=(Lag("boil", "drain", 5, 8), Lag("drain", "boil")),
        bench=Bench(),
    )
    told = why_not(question)
    assert "17 minutes more" in told[0]
    assert any("from the end of boil to the start of drain at least 5 minutes" in words for words in told)
    assert any("from the end of drain to the start of boil" in words for words in told)


def test_what_would_have_to_give_is_told_where_things_clash() -> None:
    # Two sauces of 10 minutes, each served within 3 minutes of minute 12 of its own pot: one cook cannot.
    question = asked(
        work("pot", 12, 0),
        work("sauce one", 10),
        work("sauce two", 10),
        lags=(Lag("pot", "sauce one", 0, 3), Lag("pot", "sauce two", 0, 3)),
        bench=Bench(),
    )
    told = why_not(question)
    assert any("one more cook" in words for words in told)
    assert any("waits as long as need be" in words for words in told)
    assert timetable(replace(question, bench=Bench(cooks=2)), seconds=20.0).status is Status.PROVEN


def test_a_deadline_too_early_is_proven_and_named() -> None:
    told = why_not(asked(work("chop", 10), work("peel", 10), deadline=19, bench=Bench()))
    assert any("without the time by which all is to be done" in words for words in told)


def test_work_that_is_too_quick_for_a_wait_is_impossible_and_said_so() -> None:
    # At twice the minutes stirring ends 20 minutes after it begins, as the pot wants; at the stated pace after 10.
    stir = replace(work("stir", 10), words="stir")
    question = DayQuestion(
        (stir, work("pot", 20, 0)),
        lags=(
            Lag("stir", "pot", 0, 0, first_end=False),
            Lag("stir", "pot", 0, 0, second_end=True),
        ),
        bench=Bench(),
        slower=Fraction(2),
    )
    told = why_not(question)
    assert "stated pace" in told[0] or "minutes more" in told[0]
