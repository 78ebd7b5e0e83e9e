"""A small cooking day written by hand, with its timetable at the stated pace, for the tests of what is shown."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.cookday.answer import Heated, Held, Timed, Timetable, Washed
from ladleworth.cookday.pose_amounts import Measured
from ladleworth.cookday.pose_texts import Instruction
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

STEW, BAKE = "Stew & <beans>", "Bake"


def work(name: str, batch: str, minutes: int, **needs: object) -> Activity:
    """An activity of a stated length, whose words are its name."""
    return Activity(name, batch, f"Do {name}.", minutes, minutes, **needs)  # type: ignore[arg-type]


ONION, CHOP = f"{STEW}: 1 onion", f"{BAKE}: 1 onion"
FRY, SIMMER = f"{STEW}: 2", f"{STEW}: 2, by itself"
FILL, OVEN = f"{BAKE}: 2", f"{BAKE}: 3"
STEW_END = tuple(f"{STEW}: {what}" for what in ("divide", "cool", "lid"))
BAKE_END = tuple(f"{BAKE}: {what}" for what in ("divide", "cool", "lid"))


def keeping(batch: str, places: int) -> tuple[Activity, ...]:
    """What is done with a batch once it is cooked."""
    return (
        work(f"{batch}: divide", batch, 3, hands=1),
        Activity(f"{batch}: cool", batch, "Let it cool.", 20, 120, counter=places, warm=True),
        work(f"{batch}: lid", batch, 1, hands=1),
    )


QUESTION = DayQuestion(
    activities=(
        work(ONION, STEW, 4, hands=1),
        work(FRY, STEW, 5, hands=1, burners=1),
        work(SIMMER, STEW, 30, burners=1),
        *keeping(STEW, 3),
        work(CHOP, BAKE, 4, hands=1),
        work(FILL, BAKE, 6, hands=1),
        work(OVEN, BAKE, 25, oven=OvenHeat(200, 10)),
        *keeping(BAKE, 2),
        work("washing up", "", 10, hands=1),
    ),
    lags=(
        Lag(ONION, FRY),
        Lag(FRY, SIMMER, 0, 0, why="it goes on by itself at once"),
        Lag(SIMMER, STEW_END[0]),
        Lag(STEW_END[0], STEW_END[1], 0, 0),
        Lag(STEW_END[1], STEW_END[2], 0, 0),
        Lag(SIMMER, STEW_END[2], 0, 120, second_end=True, limit=True, why="two hours out at the most"),
        Lag(CHOP, FILL, 0, 8, why="cut onion dries"),
        Lag(FILL, OVEN),
        Lag(OVEN, BAKE_END[0]),
        Lag(BAKE_END[0], BAKE_END[1], 0, 0),
        Lag(BAKE_END[1], BAKE_END[2], 0, 0),
        Lag(OVEN, BAKE_END[2], 0, 120, second_end=True, limit=True, why="two hours out at the most"),
        Lag(STEW_END[0], "washing up"),
        Lag(BAKE_END[0], "washing up"),
    ),
    uses=(
        ToolUse("stew pot", "pot", (FRY, SIMMER, STEW_END[0])),
        ToolUse("fill bowl", "bowl", (FILL,)),
        ToolUse("onion bowl", "bowl", (ONION,)),
        ToolUse("bake onion bowl", "bowl", (CHOP,)),
    ),
    mergings=(Merging("chopped onion", (ONION, CHOP), 7, "chop the onions for both"),),
    bench=Bench(
        cooks=2,
        burners=2,
        oven=OvenCard(2, Fraction(1), Fraction(2), 20),
        counter=6,
        tools=(ToolKind("pot", 2, 2), ToolKind("bowl", 1, 2)),
    ),
)
TIMETABLE = Timetable(
    times=(
        Timed(ONION, 0, 7, (0,)),
        Timed(FRY, 7, 12, (0,)),
        Timed(SIMMER, 12, 42),
        Timed(STEW_END[0], 46, 49, (0,)),
        Timed(STEW_END[1], 49, 69),
        Timed(STEW_END[2], 69, 70, (0,)),
        Timed(CHOP, 0, 7, (0,)),
        Timed(FILL, 9, 15, (1,)),
        Timed(OVEN, 17, 42),
        Timed(BAKE_END[0], 42, 45, (0,)),
        Timed(BAKE_END[1], 45, 65),
        Timed(BAKE_END[2], 65, 66, (0,)),
        Timed("washing up", 49, 59, (1,)),
    ),
    tools=(Held("stew pot", 0), Held("fill bowl", 0), Held("onion bowl", 0), Held("bake onion bowl", 0)),
    washes=(Washed("bowl", 0, 7, 9, 1),),
    oven=(Heated(OVEN, 190),),
    merged=("chopped onion",),
)
INSTRUCTIONS = (
    Instruction(ONION, (Measured("onion", "onions", Fraction(150_000), False),)),
    Instruction(CHOP, (Measured("onion", "onions", Fraction(100_000), False),)),
    Instruction(FRY, (Measured("beans", "beans", Fraction(240_000), False),)),
)
