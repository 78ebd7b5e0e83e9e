"""One breach after another planted in the day in good order, at least one for each thing that the judge can find."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.model.planted_day import (
    DAY,
    LIVE,
    LIVE_SLOW,
    NOMINAL,
    SLOW,
    PlantedBreach,
    benched,
    moved,
    timed,
    washed,
)

from ladleworth.cookday.answer import Heated, Held, Timed, Timetable, Washed
from ladleworth.cookday.question import OvenCard


def held(use: str, which: int, timetable: Timetable = SLOW) -> Timetable:
    tools = (replace(h, which=which) if h.use == use else h for h in timetable.tools)
    return replace(timetable, tools=tuple(tools))


def heated(name: str, heat_c: int) -> Timetable:
    oven = (replace(h, heat_c=heat_c) if h.activity == name else h for h in SLOW.oven)
    return replace(SLOW, oven=tuple(oven))


NAMES = (
    PlantedBreach(
        "an activity left out",
        {"names"},
        "'cool cake' has a time 0 times, not once",
        replace(SLOW, times=SLOW.times[:-1]),
    ),
    PlantedBreach(
        "an activity done twice",
        {"names"},
        "'cool cake' has a time 2 times, not once",
        replace(SLOW, times=(*SLOW.times, SLOW.times[-1])),
    ),
    PlantedBreach(
        "an activity that nobody asked for",
        {"names"},
        "'dance' has a time, and nothing that has one is called so",
        replace(SLOW, times=(*SLOW.times, Timed("dance", 0, 1))),
    ),
    PlantedBreach(
        "a use without a tool",
        {"names"},
        "'board for stew' has a tool 0 times, not once",
        replace(SLOW, tools=SLOW.tools[1:]),
    ),
    PlantedBreach(
        "a tool for a use that is not there",
        {"names"},
        "'pot for tea' has a tool, and nothing that has one is called so",
        replace(SLOW, tools=(*SLOW.tools, Held("pot for tea", 0))),
    ),
    PlantedBreach(
        "a load without a heat",
        {"names"},
        "'bake cake' has a heat of the oven 0 times, not once",
        replace(SLOW, oven=SLOW.oven[:1]),
    ),
    PlantedBreach(
        "a heat for what is in no oven",
        {"names"},
        "'boil soup' has a heat of the oven, and nothing that has one is called so",
        replace(SLOW, oven=(*SLOW.oven, Heated("boil soup", 100))),
    ),
    PlantedBreach(
        "a merging that is not there",
        {"names"},
        "no merging is called 'all carrots'",
        replace(SLOW, merged=("all onions", "all carrots")),
    ),
    PlantedBreach(
        "a merging done twice",
        {"names"},
        "the merging 'all onions' stands there 2 times",
        replace(SLOW, merged=("all onions", "all onions")),
    ),
    PlantedBreach(
        "washing what the kitchen does not have",
        {"names"},
        "the kitchen has no 'kettle' to wash",
        replace(SLOW, washes=(*SLOW.washes, Washed("kettle", 0, 0, 1, 0))),
    ),
)

TIMES = (
    PlantedBreach(
        "half a minute",
        {"times"},
        "cool cake runs from 32 to 33.5: no whole minutes",
        timed("cool cake", end=33.5),
    ),
    PlantedBreach(
        "starting before the start",
        {"times"},
        "melt butter starts at minute -1, before minute 0",
        moved(SLOW, -21, "melt butter"),
    ),
    PlantedBreach(
        "hurrying hands-on work", {"times"}, "pack stew takes 2 minutes, not 3", timed("pack stew", end=29)
    ),
    PlantedBreach(
        "slow work at the stated pace",
        {"times"},
        "chop herbs takes 3 minutes, not 2",
        timed("chop herbs", NOMINAL, end=18),
        slow=False,
    ),
    PlantedBreach("a longer boil", {"times"}, "boil soup takes 5 minutes, not 4", timed("boil soup", end=31)),
    PlantedBreach(
        "cooling too short",
        {"times"},
        "cool cake takes 1 minutes, not 2 to 8",
        timed("cool cake", end=33),
    ),
    PlantedBreach(
        "cooling too long",
        {"times", "deadline"},
        "cool cake takes 9 minutes, not 2 to 8",
        timed("cool cake", end=41),
    ),
    PlantedBreach(
        "a merging shorter than its minutes",
        {"times"},
        "onions for soup takes 5 minutes, not 6",
        timed("onions for stew", timed("onions for soup", end=5), end=5),
    ),
    PlantedBreach(
        "a merging at two times",
        {"times"},
        "onions for soup and onions for stew are done as one, at different times",
        moved(SLOW, 1, "onions for soup"),
    ),
    PlantedBreach(
        "half a minute of washing",
        {"times"},
        "pot 1 is washed from 23 to 25.5: no whole minutes",
        washed(1, end=25.5),
    ),
    PlantedBreach("a short wash", {"times"}, "board 1 is washed for 2 minutes, not 3", washed(0, end=14)),
    PlantedBreach(
        "washing before now",
        {"times", "hands", "tools"},
        "pot 1 is washed at minute 9, before minute 10",
        washed(0, LIVE_SLOW, start=9, end=12),
        LIVE,
    ),
    PlantedBreach(
        "another start than it had",
        {"times"},
        "peel starts at minute 2; it began at minute 1",
        timed("peel", LIVE_SLOW, start=2),
        LIVE,
    ),
    PlantedBreach(
        "another end than it had",
        {"times"},
        "peel ends at minute 7; it ended at minute 8",
        timed("peel", LIVE_SLOW, end=7),
        LIVE,
    ),
    PlantedBreach(
        "running work that ends too soon",
        {"times"},
        "chop is running and ends at minute 10, not 11",
        timed("chop", LIVE_SLOW, end=10),
        LIVE,
    ),
    PlantedBreach(
        "waiting that goes on too long",
        {"times", "tools"},
        "soak beans is running and ends at minute 12, not 10 to 11",
        timed("soak beans", LIVE_SLOW, end=12),
        LIVE,
    ),
    PlantedBreach(
        "starting before now",
        {"times", "lags", "tools"},
        "boil soup starts at minute 9, before minute 10",
        moved(LIVE_SLOW, -5, "boil soup", "pack soup"),
        LIVE,
    ),
)

LAGS = (
    PlantedBreach(
        "a least lag a minute short",
        {"lags"},
        "from the start of melt butter to the start of bake cake: 5 minutes, and 6 are the least",
        moved(moved(SLOW, 4, "thaw berries"), 1, "melt butter"),
    ),
    PlantedBreach(
        "a least lag between two ends",
        {"lags"},
        "from the end of chop herbs to the end of simmer stew (the herbs cook along): 4 minutes, and 5 are",
        moved(SLOW, 1, "chop herbs"),
    ),
    PlantedBreach(
        "a minute too late into the fridge",
        {"lags"},
        "from the end of simmer stew to the end of pack stew (into the fridge): 8 minutes, and 7 are the most",
        moved(timed("cool stew", end=28), 1, "pack stew"),
    ),
    PlantedBreach(
        "too late for what has been cut",
        {"lags"},
        "from the end of chop to the start of boil soup (before it browns): 5 minutes, and 4 are the most",
        moved(LIVE_SLOW, 2, "boil soup", "pack soup"),
        LIVE,
    ),
)

HANDS = (
    PlantedBreach(
        "too few people",
        {"hands"},
        "knead dough has cooks (0,) and takes 2",
        timed("knead dough", cooks=(0,)),
    ),
    PlantedBreach(
        "one who counts for two",
        {"hands"},
        "knead dough has cooks (0, 0) and takes 2",
        timed("knead dough", cooks=(0, 0)),
    ),
    PlantedBreach(
        "somebody to watch what nobody need watch",
        {"hands"},
        "boil soup has cooks (1,) and takes 0",
        timed("boil soup", cooks=(1,)),
    ),
    PlantedBreach(
        "different people at one piece of work",
        {"hands"},
        "all onions is done as one by different cooks",
        timed("onions for soup", cooks=(1,)),
    ),
    PlantedBreach(
        "a third cook of two",
        {"hands"},
        "chop herbs has cooks (2,) of 2, from 0 on",
        timed("chop herbs", cooks=(2,)),
    ),
    PlantedBreach(
        "a third cook at the sink",
        {"hands"},
        "washing pot 1 has cooks (2,) of 2, from 0 on",
        washed(1, cook=2),
    ),
    PlantedBreach(
        "more work than hands",
        {"hands"},
        "minute 23: knead dough, washing pot 1 take 3, and 2 are there",
        moved(SLOW, 17, "knead dough"),
        replace(DAY, lags=()),
    ),
    PlantedBreach(
        "at two things at once",
        {"hands"},
        "minute 23: cook 0 is at chop herbs and at washing pot 1",
        washed(1, moved(SLOW, 7, "chop herbs"), cook=0),
        replace(DAY, lags=()),
    ),
)

ROOM = (
    PlantedBreach(
        "two pots on one burner",
        {"burners", "tools"},
        "minute 22: simmer stew, boil soup take 2, and 1 are there",
        moved(SLOW, -4, "boil soup"),
    ),
    PlantedBreach(
        "no burner at all",
        {"burners"},
        "minute 12: sear chicken take 1, and 0 are there",
        question=benched(burners=0),
    ),
    PlantedBreach(
        "two things in one microwave",
        {"microwaves"},
        "minute 21: melt butter, thaw berries take 2, and 1 are there",
        moved(SLOW, -1, "thaw berries"),
    ),
    PlantedBreach(
        "no room on the counter",
        {"counter", "lags"},
        "minute 26: cool stew, cool cake take 2, and 1 are there",
        moved(SLOW, -6, "cool cake"),
    ),
    PlantedBreach(
        "two loads on one shelf",
        {"oven"},
        "minute 26: bake bread, bake cake take 2, and 1 are there",
        moved(SLOW, 5, "bake bread"),
    ),
)

OVEN = (
    PlantedBreach(
        "no oven",
        {"oven"},
        "bake bread, bake cake go into the oven, and the kitchen has none",
        question=benched(oven=None),
    ),
    PlantedBreach(
        "a degree too hot",
        {"oven"},
        "bake cake is at 186 °C and wants 180 °C within 5",
        heated("bake cake", 186),
    ),
    PlantedBreach(
        "a cold oven",
        {"oven"},
        "bake bread is in at minute 17; the oven is hot at minute 18",
        moved(SLOW, -1, "bake bread"),
    ),
    PlantedBreach(
        "an oven still too hot",
        {"oven"},
        "3 minutes between bake bread at 200 °C and bake cake at 184 °C: the change takes 4",
        heated("bake cake", 184),
    ),
    PlantedBreach(
        "two heats at once",
        {"oven"},
        "bake bread at 200 °C and bake cake at 185 °C are in together in minute 26",
        moved(SLOW, 4, "bake bread"),
        benched(oven=OvenCard(2, Fraction(1), Fraction(2), 20)),
    ),
)

TOOLS = (
    PlantedBreach("a second pot of one", {"tools"}, "pot for soup has pot 2 of 1", held("pot for soup", 1)),
    PlantedBreach(
        "one board for two",
        {"tools"},
        "board 1 is held by board for stew and board for soup until minute 6 and by board for chicken from minute 5",
        moved(moved(timed("cut chicken", cooks=(1,)), -4, "cut chicken"), 3, "knead dough"),
    ),
    PlantedBreach(
        "herbs on a raw board",
        {"tools"},
        "board 1 is washed 0 times and must be 1 times",
        replace(SLOW, washes=SLOW.washes[1:]),
    ),
    PlantedBreach(
        "washing for nothing",
        {"tools"},
        "board 1 is washed 2 times and must be 1 times",
        replace(SLOW, washes=(*SLOW.washes, Washed("board", 0, 18, 21, 0))),
    ),
    PlantedBreach(
        "washing the fat away",
        {"tools"},
        "pot 1 is washed 2 times and must be 1 times",
        replace(SLOW, washes=(*SLOW.washes, Washed("pot", 0, 30, 33, 0))),
    ),
    PlantedBreach(
        "washing too late",
        {"tools"},
        "pot 1 is washed from 24 to 27, not between pot for stew (to 23) and pot for soup (from 26)",
        washed(1, start=24, end=27),
    ),
    PlantedBreach(
        "washing too soon",
        {"tools"},
        "board 1 is washed from 11 to 14, not between board for chicken (to 12) and board for herbs (from 15)",
        washed(0, start=11, end=14),
    ),
)

DEADLINE = (
    PlantedBreach(
        "a minute too late",
        {"deadline"},
        "all is done by minute 34; minute 33 is the deadline",
        question=replace(DAY, deadline=33),
    ),
)

PLANTED_BREACHES = (*NAMES, *TIMES, *LAGS, *HANDS, *ROOM, *OVEN, *TOOLS, *DEADLINE)
