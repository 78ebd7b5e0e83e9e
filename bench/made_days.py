"""Made-up cooking days, the same for the same seed, dishes and cooks: every figure in them is invented for the bench.

Four sorts of dishes in turn, some nine activities each: a stew, a bake, a fry-up in kept fat, a bowl with rice. One
oven, three burners, one board, two of each pot, pan, bowl and tray. Onions may be chopped for several dishes at once,
raw meat soils the board, what is divided cools 20 to 115 minutes on the counter, and from the heat to the fridge
120 minutes are the limit.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from ladleworth.cookday.question import (
    Activity,
    Bench,
    DayQuestion,
    Lag,
    Merging,
    OvenCard,
    OvenHeat,
    ToolKind,
    ToolUse,
)

SIZES = (3, 5, 8, 12)
SEEDS = (1, 2, 3)
COOKS = (1, 2)
CLEAN, RAW, FAT = "clean things", "raw", "bacon fat"
OUT_MIN, OPEN_MIN = 120, 115
"""The most minutes from the heat to the fridge, and of cooling with the lid off."""


@dataclass
class Made:
    """A day in the making."""

    dice: random.Random
    activities: list[Activity] = field(default_factory=list)
    lags: list[Lag] = field(default_factory=list)
    uses: list[ToolUse] = field(default_factory=list)
    onions: list[Activity] = field(default_factory=list)


@dataclass
class Dish:
    """A dish in the making: adds activities under its own name and returns theirs."""

    day: Made
    name: str

    def hands(self, what: str, low: int, high: int, after: tuple[str, ...] = (), burners: int = 0) -> str:
        """Add hands-on work after some other."""
        minutes = self.day.dice.randint(low, high)
        return self._add(
            Activity(f"{self.name}: {what}", self.name, what, minutes, minutes, 1, burners), after
        )

    def alone(
        self, what: str, low: int, high: int, before: str, burners: int = 0, oven: OvenHeat | None = None
    ) -> str:
        """Add what goes on by itself from the minute that some work ends."""
        minutes = self.day.dice.randint(low, high)
        activity = Activity(f"{self.name}: {what}", self.name, what, minutes, minutes, 0, burners, oven=oven)
        self.day.lags.append(Lag(before, activity.name, 0, 0, why="it goes on by itself"))
        return self._add(activity, ())

    def _add(self, activity: Activity, after: tuple[str, ...]) -> str:
        self.day.activities.append(activity)
        self.day.lags += [Lag(before, activity.name, why="it follows") for before in after]
        return activity.name

    def use(self, kind: str, *activities: str, leaves: str = "dirt", takes: tuple[str, ...] = ()) -> None:
        """Hold a tool."""
        self.day.uses.append(ToolUse(f"{activities[0]}, {kind}", kind, activities, leaves, takes))

    def board(self, activity: str, leaves: str = CLEAN) -> None:
        """Cut on a board: clean things before raw ones need no wash."""
        self.use("board", activity, leaves=leaves, takes=(CLEAN,) if leaves == CLEAN else (CLEAN, RAW))

    def onions(self) -> str:
        """Chop onions, as other dishes may too."""
        name = self.hands("chop onions", 3, 6)
        self.day.onions.append(self.day.activities[-1])
        self.board(name)
        return name

    def keep(self, *heated: str, after: str) -> tuple[str, ...]:
        """Divide, cool and put the lids on; what is in a pot stays there until it is divided."""
        divide = self.hands("divide", 3, 6, (after,))
        cool = Activity(f"{self.name}: cool", self.name, "cool", 20, OPEN_MIN, counter=4, warm=True)
        self.day.lags.append(Lag(divide, cool.name, 0, 0, why="it cools at once"))
        self._add(cool, ())
        lid = self.hands("lid", 1, 2)
        self.day.lags.append(Lag(cool.name, lid, 0, 0, why="the lid goes on when it has cooled"))
        for name in heated:
            self.day.lags.append(
                Lag(name, lid, 0, OUT_MIN, second_end=True, limit=True, why="from the heat to the fridge")
            )
        return (divide,)


def made_day(seed: int, dishes: int, cooks: int) -> DayQuestion:
    """Make the day of this seed, with so many dishes and cooks."""
    day = Made(random.Random(1000 * seed + dishes))
    divided = [name for n in range(dishes) for name in SORTS[(n + seed) % len(SORTS)](day, n + 1)]
    minutes = 4 + dishes
    day.activities.append(Activity("washing up", "", "wash up", minutes, minutes, 1))
    day.lags += [Lag(name, "washing up", why="when all is divided") for name in divided]
    return DayQuestion(
        tuple(day.activities), tuple(day.lags), tuple(day.uses), tuple(_mergings(day)), _bench(cooks)
    )


def _mergings(day: Made) -> Iterator[Merging]:
    if len(day.onions) > 1:
        each = [a.least_min for a in day.onions]
        minutes = -(-(max(each) + 3 * sum(each)) // 4)
        yield Merging("onions for all", tuple(a.name for a in day.onions), minutes, "chop all onions")


def _bench(cooks: int) -> Bench:
    tools = (
        ToolKind("board", 1, 1),
        ToolKind("pot", 2, 3),
        ToolKind("pan", 2, 2),
        ToolKind("bowl", 2, 1),
        ToolKind("tray", 2, 3),
    )
    return Bench(cooks, 3, OvenCard(2, Fraction(6, 10), Fraction(8, 10)), counter=24, tools=tools)


def _stew(day: Made, number: int) -> tuple[str, ...]:
    dish = Dish(day, f"stew {number}")
    onions, meat = dish.onions(), dish.hands("cut meat", 4, 8)
    dish.board(meat, RAW)
    brown = dish.hands("brown meat", 5, 9, (onions, meat), burners=1)
    simmer = dish.alone("simmer", 35, 80, brown, burners=1)
    herbs = dish.hands("chop herbs", 2, 4)
    dish.board(herbs)
    season = dish.hands("season", 2, 3, (herbs,), burners=1)
    day.lags.append(Lag(simmer, season, 0, 10, why="it is seasoned while hot"))
    divided = dish.keep(season, after=season)
    dish.use("pot", brown, simmer, season, *divided)
    return divided


def _bake(day: Made, number: int) -> tuple[str, ...]:
    dish = Dish(day, f"bake {number}")
    cut = dish.hands("slice vegetables", 5, 9)
    dish.board(cut)
    whisk = dish.hands("whisk batter", 4, 8)
    fill = dish.hands("fill the tray", 3, 5, (cut, whisk))
    oven = OvenHeat(10 * day.dice.randint(16, 21), day.dice.choice((0, 10, 10)))
    bake = dish.alone("bake", 25, 50, fill, oven=oven)
    dish.use("bowl", whisk, fill)
    divided = dish.keep(bake, after=bake)
    dish.use("tray", fill, bake, *divided)
    return divided


def _fry_up(day: Made, number: int) -> tuple[str, ...]:
    dish = Dish(day, f"fry-up {number}")
    bacon = dish.hands("dice bacon", 3, 5)
    dish.board(bacon, RAW)
    onions = dish.onions()
    render = dish.hands("render bacon", 6, 9, (bacon,), burners=1)
    greens = dish.hands("fry vegetables", 6, 10, (onions, render), burners=1)
    whisk = dish.hands("whisk eggs", 2, 4)
    eggs = dish.hands("fry eggs", 4, 6, (whisk, greens), burners=1)
    dish.use("bowl", whisk, eggs)
    dish.use("pan", render, leaves=FAT)
    dish.use("pan", greens, leaves=FAT, takes=(FAT,))
    dish.use("pan", eggs, takes=(FAT,))
    return dish.keep(render, greens, eggs, after=eggs)


def _bowl(day: Made, number: int) -> tuple[str, ...]:
    dish = Dish(day, f"bowl {number}")
    rinse = dish.hands("rinse rice", 1, 3, burners=1)
    boil = dish.alone("boil rice", 12, 18, rinse, burners=1)
    rest = dish.alone("rest rice", 8, 12, boil)
    cut = dish.hands("cut chicken", 4, 7)
    dish.board(cut, RAW)
    fry = dish.hands("fry chicken", 7, 10, (cut,), burners=1)
    stir = dish.hands("stir the sauce", 6, 9, (fry,), burners=1)
    dish.use("pan", fry, stir)
    day.lags.append(Lag(rest, stir, 0, None, first_end=True, second_end=True, why="both are ready"))
    divided = dish.keep(rest, stir, after=stir)
    dish.use("pot", rinse, boil, rest, *divided)
    return divided


SORTS = (_stew, _bake, _fry_up, _bowl)
