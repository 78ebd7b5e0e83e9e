"""A cooking day in good order that uses every rule, several of them to the limit; every figure is invented.

Two people, one burner, one shelf in the oven, one microwave, one place on the counter, one pot and one board. Hands-on
work takes half as long again as stated. In the slow timetable the onions of both dishes are cut as one, the stew
goes into the pot with the fat of the chicken, and all is done in the minute of the deadline.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from ladleworth.cookday.answer import Heated, Held, Timed, Timetable, Washed
from ladleworth.cookday.judge import judge
from ladleworth.cookday.question import (
    NOTHING,
    Activity,
    Begun,
    Bench,
    DayQuestion,
    Lag,
    Merging,
    OvenCard,
    OvenHeat,
    ToolKind,
    ToolUse,
)

CLEAN = "clean things"


def hands_on(name: str, batch: str, minutes: int, hands: int = 1, **takes: Any) -> Activity:
    return Activity(name, batch, name, minutes, minutes, hands, **takes)


def unattended(name: str, batch: str, least: int, most: int | None = None, **takes: Any) -> Activity:
    return Activity(name, batch, name, least, least if most is None else most, **takes)


DAY = DayQuestion(
    activities=(
        hands_on("onions for stew", "stew", 2),
        hands_on("onions for soup", "soup", 2),
        hands_on("cut chicken", "stew", 2),
        hands_on("sear chicken", "stew", 2, burners=1),
        unattended("simmer stew", "stew", 8, burners=1),
        hands_on("chop herbs", "stew", 2),
        unattended("cool stew", "stew", 3, 6, counter=1, warm=True),
        hands_on("pack stew", "stew", 2),
        unattended("boil soup", "soup", 4, burners=1),
        hands_on("knead dough", "bread", 2, hands=2),
        unattended("bake bread", "bread", 5, oven=OvenHeat(200)),
        unattended("melt butter", "cake", 2, microwaves=1),
        unattended("thaw berries", "cake", 3, microwaves=1),
        unattended("bake cake", "cake", 6, oven=OvenHeat(180, 5)),
        unattended("cool cake", "cake", 2, 8, counter=1),
    ),
    lags=(
        Lag("onions for stew", "sear chicken"),
        Lag("cut chicken", "sear chicken", 0, 5, limit=True, why="raw meat is not left out"),
        Lag("sear chicken", "simmer stew", 0, 0),
        Lag("chop herbs", "simmer stew", 5, first_end=True, second_end=True, why="the herbs cook along"),
        Lag("simmer stew", "cool stew", 0, 0),
        Lag("cool stew", "pack stew", 0, 0),
        Lag("simmer stew", "pack stew", 0, 7, second_end=True, limit=True, why="into the fridge"),
        Lag("onions for soup", "boil soup"),
        Lag("knead dough", "bake bread", 5),
        Lag("melt butter", "bake cake", 6, first_end=False),
        Lag("bake cake", "cool cake", 0, 0),
    ),
    uses=(
        ToolUse("board for stew", "board", ("onions for stew",), CLEAN, (CLEAN,)),
        ToolUse("board for soup", "board", ("onions for soup",), CLEAN, (CLEAN,)),
        ToolUse("board for chicken", "board", ("cut chicken",), "raw", ("raw", CLEAN)),
        ToolUse("board for herbs", "board", ("chop herbs",), CLEAN, (CLEAN,)),
        ToolUse("pot for chicken", "pot", ("sear chicken",), "fat"),
        ToolUse("pot for stew", "pot", ("simmer stew",), "dirt", ("fat",)),
        ToolUse("pot for soup", "pot", ("boil soup",), NOTHING),
    ),
    mergings=(Merging("all onions", ("onions for stew", "onions for soup"), 4),),
    bench=Bench(
        cooks=2,
        burners=1,
        oven=OvenCard(1, Fraction(1), Fraction(2), 20),
        microwaves=1,
        counter=1,
        tools=(ToolKind("pot", 1, 2), ToolKind("board", 1, 2)),
    ),
    slower=Fraction(3, 2),
    deadline=34,
)

SLOW = Timetable(
    times=(
        Timed("onions for stew", 0, 6, (0,)),
        Timed("onions for soup", 0, 6, (0,)),
        Timed("cut chicken", 9, 12, (0,)),
        Timed("sear chicken", 12, 15, (0,)),
        Timed("simmer stew", 15, 23),
        Timed("chop herbs", 15, 18, (0,)),
        Timed("cool stew", 23, 27),
        Timed("pack stew", 27, 30, (0,)),
        Timed("boil soup", 26, 30),
        Timed("knead dough", 6, 9, (0, 1)),
        Timed("bake bread", 18, 23),  # 180 degrees take 18 minutes
        Timed("melt butter", 20, 22),
        Timed("thaw berries", 22, 25),
        Timed("bake cake", 26, 32),  # down to 185 degrees takes 3 minutes
        Timed("cool cake", 32, 34),
    ),
    tools=tuple(Held(use.name, 0) for use in DAY.uses),
    washes=(Washed("board", 0, 12, 15, 1), Washed("pot", 0, 23, 26, 1)),
    oven=(Heated("bake bread", 200), Heated("bake cake", 185)),
    merged=("all onions",),
)

_AS_STATED = {"onions for stew": (0, 4), "onions for soup": (0, 4), "sear chicken": (13, 15)}

NOMINAL = replace(
    SLOW,
    times=tuple(
        Timed(time.activity, *_AS_STATED.get(time.activity, (time.start, time.start + 2)), time.cooks)
        if time.cooks
        else time
        for time in SLOW.times
    ),
    washes=tuple(replace(wash, end=wash.start + 2) for wash in SLOW.washes),
)
"""The same at the stated pace, from the same starts; the chicken is put on a minute later, for the stew to follow."""

LIVE = DayQuestion(
    activities=(
        hands_on("peel", "soup", 4),
        hands_on("chop", "soup", 2),
        unattended("soak beans", "soup", 5, 9, counter=1),
        unattended("boil soup", "soup", 6, burners=1),
        hands_on("pack soup", "soup", 2),
    ),
    lags=(
        Lag("peel", "chop"),
        Lag("chop", "boil soup", 0, 4, why="before it browns"),
        Lag("soak beans", "boil soup"),
        Lag("boil soup", "pack soup", 0, 3),
    ),
    uses=(
        ToolUse("pot for beans", "pot", ("soak beans",)),
        ToolUse("pot for soup", "pot", ("boil soup", "pack soup")),
    ),
    bench=Bench(cooks=1, burners=1, counter=1, tools=(ToolKind("pot", 1, 2),)),
    slower=Fraction(3, 2),
    now=10,
    begun=(Begun("peel", 1, 8), Begun("chop", 8), Begun("soak beans", 2)),
)
"""A day on its way: `chop` runs until 11, `soak beans` may end from now until 11; the pot must be washed."""

LIVE_SLOW = Timetable(
    times=(
        Timed("peel", 1, 8, (0,)),
        Timed("chop", 8, 11, (0,)),
        Timed("soak beans", 2, 10),
        Timed("boil soup", 14, 20),
        Timed("pack soup", 20, 23, (0,)),
    ),
    tools=(Held("pot for beans", 0), Held("pot for soup", 0)),
    washes=(Washed("pot", 0, 11, 14, 0),),
)


@dataclass(frozen=True)
class PlantedBreach:
    """A breach planted in a day: the rules that the judge must find broken, and words of one of the breaches."""

    what: str
    rules: set[str]
    phrase: str
    timetable: Timetable = SLOW
    question: DayQuestion = DAY
    slow: bool = True


def timed(name: str, timetable: Timetable = SLOW, **fields: Any) -> Timetable:
    """Change the time of one activity."""
    return replace(
        timetable, times=tuple(replace(t, **fields) if t.activity == name else t for t in timetable.times)
    )


def moved(timetable: Timetable, by: int, *names: str) -> Timetable:
    """Move some activities by so many minutes."""
    times = (
        replace(t, start=t.start + by, end=t.end + by) if t.activity in names else t for t in timetable.times
    )
    return replace(timetable, times=tuple(times))


def washed(n: int, timetable: Timetable = SLOW, **fields: Any) -> Timetable:
    """Change one wash."""
    washes = list(timetable.washes)
    washes[n] = replace(washes[n], **fields)
    return replace(timetable, washes=tuple(washes))


def benched(question: DayQuestion = DAY, **fields: Any) -> DayQuestion:
    return replace(question, bench=replace(question.bench, **fields))


def plain(*times: Timed, **fields: Any) -> Timetable:
    """Return a timetable of some times, and whatever else is named."""
    return Timetable(times, **fields)


def rules(question: DayQuestion, timetable: Timetable, slow: bool = True) -> set[str]:
    """Name the rules that the judge finds broken."""
    return {breach.rule for breach in judge(question, timetable, slow=slow)}
