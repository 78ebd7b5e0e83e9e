"""Small made-up cooking days, the same for the same seed: every figure in them is invented for the check.

Oven heats lie a few degrees apart and the oven takes a minute or so for each, so that every heat can be tried.
"""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

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

DAYS = 360
"""How many seeds the checks sweep over: 0..DAYS - 1."""

PLAIN_DAYS = 276
"""The days of the seeds below this have not begun; those from it on are on their way."""


def small_day(seed: int) -> DayQuestion:
    """Return the small day of this seed."""
    dice = random.Random(seed)
    kind = (_jumble, _dishes, _cooling, _baking, _pots, _dishes)[seed % 6]
    question = kind(dice)
    if dice.random() < 0.95:
        question = _roomy(question)
    question = replace(question, lags=(*question.lags, *_windows(dice, question)))
    if dice.random() < 0.2:
        question = replace(question, deadline=dice.randint(6, 16))
    return question if seed < PLAIN_DAYS else _under_way(dice, question)


def _bench(dice: random.Random) -> Bench:
    heats = dice.randint(100, 104)
    return Bench(
        cooks=dice.choice((1, 1, 1, 2, 2, 3)),
        burners=dice.choice((1, 1, 2)),
        oven=OvenCard(
            shelves=dice.choice((1, 1, 2)),
            heating_min_per_10c=Fraction(dice.choice((5, 10, 10, 20)), dice.choice((1, 1, 3))),
            cooling_min_per_10c=Fraction(dice.choice((0, 5, 10, 20)), dice.choice((1, 1, 3))),
            start_c=heats,
        ),
        microwaves=1,
        counter=dice.choice((None, 1, 1, 2)),
        tools=(
            ToolKind("pot", dice.choice((1, 1, 2)), dice.choice((0, 1, 1, 2))),
            ToolKind("board", 1, dice.choice((0, 1, 1))),
        ),
    )


def _roomy(question: DayQuestion) -> DayQuestion:
    """Give the kitchen enough of everything for any one activity by itself."""
    bench, each = question.bench, question.activities
    oven = bench.oven
    if oven is not None:
        oven = replace(oven, shelves=max(oven.shelves, *(a.oven.shelves if a.oven else 0 for a in each)))
    counter = bench.counter if bench.counter is None else max(bench.counter, *(a.counter for a in each))
    bench = replace(
        bench,
        cooks=max(bench.cooks, *(a.hands for a in each)),
        burners=max(bench.burners, *(a.burners for a in each)),
        oven=oven,
        counter=counter,
    )
    return replace(question, bench=bench)


# -- days of one or two dishes: prepare, cook, let cool, pack -------------------------------------------------


def _dishes(dice: random.Random) -> DayQuestion:
    activities: list[Activity] = []
    lags: list[Lag] = []
    uses: list[ToolUse] = []
    for dish, count in dice.choice(((("stew", 4),), (("stew", 2), ("bake", 2)), (("stew", 3), ("bake", 2)))):
        steps = _steps(dice, dish, count)
        activities += steps
        lags += [Lag(a.name, b.name) for a, b in pairwise(steps)]
        uses += _uses(dice, dish, steps)
    mergings: list[Merging] = []
    alike = [a for a in activities if a.words == "prepare" and not a.burners]
    if len(alike) == 2 and dice.random() < 0.7:
        most = sum(a.least_min for a in alike)
        mergings = [Merging("prepare all", tuple(a.name for a in alike), dice.randint(most - 1, most))]
    return DayQuestion(
        tuple(activities), tuple(lags), tuple(uses), tuple(mergings), _bench(dice), dice.choice(_PACES)
    )


_PACES = (Fraction(1), Fraction(6, 5), Fraction(3, 2), Fraction(2))


def _steps(dice: random.Random, dish: str, count: int) -> list[Activity]:
    prepare = Activity(f"prepare {dish}", dish, "prepare", *_fixed(dice, 1, 2), hands=dice.choice((1, 1, 2)))
    minutes = _fixed(dice, 1, 4)
    ways = (
        Activity(f"boil {dish}", dish, "cook", *minutes, burners=dice.choice((1, 1, 2))),
        Activity(f"fry {dish}", dish, "cook", *minutes, burners=1),
        Activity(f"stir {dish}", dish, "cook", *minutes, hands=1, burners=1),
        *(Activity(f"bake {dish}", dish, "cook", *minutes, oven=_heat(dice)) for _ in range(2)),
        Activity(f"warm {dish}", dish, "cook", *minutes, microwaves=1),
    )
    cool = Activity(
        f"cool {dish}", dish, "cool", 1, dice.choice((1, 3, 5)), counter=1, warm=dice.random() < 0.7
    )
    pack = Activity(f"pack {dish}", dish, "pack", *_fixed(dice, 0, 2), hands=1)
    every = [prepare, dice.choice(ways), cool, pack]
    return (
        every[:count]
        if dice.random() < 0.4
        else every[4 - count :]
        if dice.random() < 0.4
        else every[1 : count + 1]
    )


def _fixed(dice: random.Random, low: int, high: int) -> tuple[int, int]:
    minutes = dice.randint(low, high)
    return minutes, minutes


def _heat(dice: random.Random) -> OvenHeat:
    return OvenHeat(dice.randint(102, 106), dice.choice((0, 0, 1, 2)), dice.choice((1, 1, 2)))


def _uses(dice: random.Random, dish: str, steps: list[Activity]) -> list[ToolUse]:
    uses = []
    boards = tuple(a.name for a in steps if a.words == "prepare")
    if boards and dice.random() < 0.6:
        leaves = dice.choice(("raw", "clean things", "crumbs"))
        takes = {"raw": ("raw", "clean things"), "clean things": ("clean things",), "crumbs": ()}[leaves]
        uses.append(ToolUse(f"board for {dish}", "board", boards, leaves, takes))
    pots = [a.name for a in steps if a.words in ("cook", "cool", "pack")]
    if pots and dice.random() < 0.6:
        held = tuple(pots[: dice.randint(1, len(pots))])
        leaves = dice.choice(("dirt", "fat", NOTHING))
        uses.append(ToolUse(f"pot for {dish}", "pot", held, leaves, dice.choice(((), ("fat",), ("fat",)))))
    return uses


# -- days about one thing ---------------------------------------------------------------------------------------


def _cooling(dice: random.Random) -> DayQuestion:
    """Return a day on which food waits to be packed while the cook is busy, and takes up the counter."""
    first = (
        Activity("stir stew", "stew", "cook", *_fixed(dice, 1, 2), hands=1, burners=1),
        Activity("cool stew", "stew", "cool", 1, dice.randint(1, 6), counter=1, warm=True),
        Activity("pack stew", "stew", "pack", *_fixed(dice, 1, 2), hands=1),
    )
    second = (
        Activity("mix dough", "bread", "prepare", *_fixed(dice, 1, 3), hands=1),
        Activity("rest dough", "bread", "rest", 1, dice.randint(1, 4), counter=1, warm=dice.random() < 0.3),
    )
    lags = [
        Lag("stir stew", "cool stew", 0, dice.choice((0, 0, 1))),
        Lag("cool stew", "pack stew", 0, 0, limit=True),
        Lag("mix dough", "rest dough", 0, dice.choice((None, 0))),
    ]
    if dice.random() < 0.6:
        lags.append(Lag("stir stew", "mix dough", 0, dice.randint(0, 2), dice.random() < 0.5, False))
    if dice.random() < 0.3:
        lags.append(Lag("rest dough", "pack stew", dice.randint(0, 2), None, first_end=dice.random() < 0.5))
    return DayQuestion((*first, *second), tuple(lags), (), (), _bench(dice), dice.choice(_PACES))


def _baking(dice: random.Random) -> DayQuestion:
    """Return a day of two or three loads in the oven, some of which may be in together."""
    names = ("bake bread", "bake cake", "roast roots")[: dice.choice((2, 2, 3))]
    loads = tuple(
        Activity(
            name,
            name,
            "bake",
            *_fixed(dice, 1, 3),
            oven=OvenHeat(dice.randint(101, 109), dice.choice((0, 0, 1, 2)), 1),
            warm=dice.random() < 0.3,
        )
        for name in names
    )
    shape = Activity("shape", "bread", "prepare", *_fixed(dice, 1, 2), hands=1)
    lags = [Lag("shape", names[0])] if dice.random() < 0.7 else []
    for before, after in pairwise(dice.sample(names, 2)):
        if dice.random() < 0.5:
            lags.append(Lag(before, after, dice.choice((0, 0, 2)), None, first_end=dice.random() < 0.5))
    return DayQuestion((shape, *loads), tuple(lags), (), (), _bench(dice), dice.choice(_PACES))


def _pots(dice: random.Random) -> DayQuestion:
    """Return a day of a few things that all want the one pot, or the one board, beside other work."""
    count = dice.choice((2, 3, 3))
    work = tuple(_pot_work(dice, f"dish {n}") for n in range(count))
    chop = Activity("chop", "", "prepare", *_fixed(dice, 1, 3), hands=1)
    uses = tuple(
        ToolUse(
            f"use {a.name}",
            dice.choice(("pot", "pot", "board")),
            (a.name,),
            dice.choice(("dirt", "dirt", "fat", NOTHING)),
            dice.choice(((), ("fat",))),
        )
        for a in work
    )
    lags = [Lag(a.name, b.name) for a, b in pairwise(work) if dice.random() < 0.3]
    bench = _bench(dice)
    tools = (ToolKind("pot", dice.choice((1, 1, 2)), dice.choice((1, 1, 2))), ToolKind("board", 1, 1))
    return DayQuestion((*work, chop), tuple(lags), uses, (), replace(bench, tools=tools), dice.choice(_PACES))


def _pot_work(dice: random.Random, name: str) -> Activity:
    if dice.random() < 0.5:
        burners = int(dice.random() < 0.6)
        return Activity(name, "", "cook", *_fixed(dice, 1, 3), burners=burners, microwaves=1 - burners)
    return Activity(name, "", "cook", *_fixed(dice, 1, 2), hands=1, warm=dice.random() < 0.3)


# -- days of anything and everything ----------------------------------------------------------------------------


def _jumble(dice: random.Random) -> DayQuestion:
    names = [f"job {n}" for n in range(dice.choice((2, 3, 3, 4)))]
    activities = tuple(_job(dice, name) for name in names)
    lags = []
    for n, first in enumerate(names):
        for second in names[n + 1 :]:
            if dice.random() < 0.4:
                ends = dice.choice(
                    ((True, False), (True, False), (False, False), (False, True), (True, True))
                )
                lags.append(Lag(first, second, dice.choice((-1, 0, 0, 1, 2)), None, *ends))
    uses = [
        ToolUse(
            f"use {n}",
            dice.choice(("pot", "board")),
            tuple(sorted(dice.sample(names, dice.choice((1, 1, 2))))),
            dice.choice(("dirt", "fat", NOTHING)),
            dice.choice(((), (), ("fat",), ("dirt",))),
        )
        for n in range(dice.choice((0, 1, 2, 2)))
    ]
    mergings = ()
    if len(names) > 2 and dice.random() < 0.4:
        together = tuple(sorted(dice.sample(names, 2)))
        mergings = (Merging("together", together, dice.randint(1, 4)),)
    return DayQuestion(activities, tuple(lags), tuple(uses), mergings, _bench(dice), dice.choice(_PACES))


def _job(dice: random.Random, name: str) -> Activity:
    hands = dice.choice((0, 1, 1, 2))
    least, most = _fixed(dice, 0 if dice.random() < 0.2 else 1, 4)
    if not hands and dice.random() < 0.4:
        most += dice.randint(1, 3)
    takes = dice.choice(("burners", "microwaves", "counter", "oven", "nothing"))
    return Activity(
        name,
        "",
        "",
        least,
        most,
        hands,
        burners=dice.choice((1, 2)) * (takes == "burners"),
        counter=dice.choice((1, 2)) * (takes == "counter"),
        microwaves=int(takes == "microwaves"),
        oven=_heat(dice) if takes == "oven" and least else None,
        warm=dice.random() < 0.3,
    )


# -- windows, and days on their way -----------------------------------------------------------------------------


def _windows(dice: random.Random, question: DayQuestion) -> list[Lag]:
    """Give some of what follows something a greatest lag; between any two things now and then."""
    open_ended = {a.name for a in question.activities if a.least_min < a.most_min}
    windows = [
        replace(lag, most=lag.least + dice.choice((0, 0, 1, 2)), limit=dice.random() < 0.5)
        for lag in question.lags
        if dice.random() < (0.8 if lag.first in open_ended else 0.25)
    ]
    names = [a.name for a in question.activities]
    if dice.random() < 0.2:
        first, second = dice.sample(names, 2)
        ends = dice.choice(((True, False), (False, False), (False, True), (True, True)))
        windows.append(Lag(first, second, dice.randint(-4, 0), dice.randint(0, 4), *ends))
    return windows


def _under_way(dice: random.Random, question: DayQuestion) -> DayQuestion:
    """Let the first one or two things have begun, in good time or not."""
    begun, start = [], dice.randint(0, 2)
    for activity in question.activities[: dice.choice((1, 1, 2))]:
        ran = max(0, activity.least_min + dice.choice((-1, 0, 0, 1)))
        begun.append(Begun(activity.name, start, start + ran))
        start = dice.choice((start, start + ran))
    last = begun[-1]
    if dice.random() < 0.6:
        begun[-1] = replace(last, end=None)
    since = max(b.start if b.end is None else b.end for b in begun)
    now = since + dice.choice((0, 1, 1, 2, 4, 5))
    late = None if question.deadline is None else question.deadline + now
    return replace(question, now=now, begun=tuple(begun), deadline=late)
