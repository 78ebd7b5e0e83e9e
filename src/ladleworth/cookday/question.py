"""The frozen question of a cooking day: records only, no rule is applied here.

Time is in whole minutes from the start of the session, temperatures are in whole degrees Celsius. What the records
mean, and every rule that a timetable must keep, stands in `judge.py`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.errors import BadField

NOTHING = "nothing"
"""What a use leaves on a tool that needs no washing before any other use."""

SLOWER = Fraction(6, 5)
"""How much longer hands-on work may take than stated without a limit being missed: our choice, no source."""


def require(condition: bool, message: str) -> None:  # noqa: FBT001  # reads as a sentence at the call
    """Raise BadField with this message unless the condition holds."""
    if not condition:
        raise BadField(message)


def _unique(names: Iterable[str], what: str) -> None:
    twice = [name for name, times in Counter(names).items() if times > 1]
    require(not twice, f"{what} {', '.join(map(repr, twice))} stands there more than once")


@dataclass(frozen=True, slots=True)
class OvenHeat:
    """An oven load: the heat it wants, how far from it the oven may be, and the shelves it takes."""

    want_c: int
    tolerance_c: int = 0
    shelves: int = 1

    def __post_init__(self) -> None:
        require(self.want_c > 0, f"an oven at {self.want_c} °C; write a heat above 0")
        require(self.tolerance_c >= 0, "an oven's tolerance must not be negative")
        require(self.shelves >= 1, "an oven load takes 1 shelf or more")


@dataclass(frozen=True, slots=True)
class Activity:
    """A piece of the work that runs without a break, and what it holds all the while.

    Parameters
    ----------
    name
        Unlike any other.
    batch
        The batch it belongs to; empty for the kitchen's own work (washing up).
    words
        What to do.
    least_min, most_min
        How long it takes. They differ only for waiting (food that cools), whose length the timetable chooses.
    hands
        How many people it keeps busy: their work may turn out slower than stated, nothing else may.
    burners, counter, microwaves
        How many of them it takes; `counter` in places for things that cool.
    oven
        What it wants of the oven, None if it is not in it.
    warm
        Food stands about warm while it runs: the timetable makes that time short.
    """

    name: str
    batch: str
    words: str
    least_min: int
    most_min: int
    hands: int = 0
    burners: int = 0
    counter: int = 0
    microwaves: int = 0
    oven: OvenHeat | None = None
    warm: bool = False

    def __post_init__(self) -> None:
        require(bool(self.name), "an activity needs a name")
        require(0 <= self.least_min <= self.most_min, f"{self.name}: minutes must be 0 or more, least first")
        for what in ("hands", "burners", "counter", "microwaves"):
            require(getattr(self, what) >= 0, f"{self.name}: {what} must not be negative")
        require(
            not self.hands or self.least_min == self.most_min,
            f"{self.name}: hands-on work takes a stated time, not one between two",
        )


@dataclass(frozen=True, slots=True)
class Lag:
    """`second` starts (or ends) so many minutes after `first` ends (or starts): `least`, and `most` if not None.

    `limit` says that `most` is there for safety; `why` gives the reason in words, with its source where it has one.
    """

    first: str
    second: str
    least: int = 0
    most: int | None = None
    first_end: bool = True
    second_end: bool = False
    limit: bool = False
    why: str = ""

    def __post_init__(self) -> None:
        require(
            self.most is None or self.least <= self.most,
            f"from {self.first} to {self.second}: the greatest lag {self.most} is below the least {self.least}",
        )


@dataclass(frozen=True, slots=True)
class ToolKind:
    """So many tools of a kind (pots, pans, boards), and the hands-on minutes to wash one."""

    name: str
    count: int = 1
    wash_min: int = 0

    def __post_init__(self) -> None:
        require(self.count >= 0, f"{self.name}: a kitchen has 0 or more of them")
        require(self.wash_min >= 0, f"{self.name}: minutes to wash must not be negative")


@dataclass(frozen=True, slots=True)
class ToolUse:
    """One tool of a kind held from the start of the first to the end of the last of these activities.

    `leaves` is what is on the tool then; a use that `takes` it may follow on the same tool without a wash, and
    so may any use after NOTHING.
    """

    name: str
    kind: str
    activities: tuple[str, ...]
    leaves: str = "dirt"
    takes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        require(bool(self.activities), f"{self.name}: a use needs an activity")

    def may_follow(self, earlier: ToolUse) -> bool:
        """Tell whether it may come next on the tool that `earlier` has left, without a wash."""
        return earlier.leaves == NOTHING or earlier.leaves in self.takes


@dataclass(frozen=True, slots=True)
class Merging:
    """The same preparation for several dishes: all of these activities may be done as one of `minutes`."""

    name: str
    activities: tuple[str, ...]
    minutes: int
    words: str = ""

    def __post_init__(self) -> None:
        require(len(self.activities) > 1, f"{self.name}: merging needs two activities or more")
        require(self.minutes >= 0, f"{self.name}: minutes must not be negative")


@dataclass(frozen=True, slots=True)
class OvenCard:
    """The oven: shelves, minutes to heat or cool it by ten degrees, and how warm it is at the start.

    The time between two heats is the difference in degrees × minutes / 10, rounded up.
    """

    shelves: int = 1
    heating_min_per_10c: Fraction = Fraction(1)
    cooling_min_per_10c: Fraction = Fraction(1)
    start_c: int = 20

    def __post_init__(self) -> None:
        require(self.shelves >= 0, "an oven has 0 shelves or more")
        require(
            self.heating_min_per_10c >= 0 and self.cooling_min_per_10c >= 0,
            "minutes to heat or cool the oven must not be negative",
        )

    def change_min(self, before_c: int, after_c: int) -> int:
        """Whole minutes, rounded up, from one heat to another."""
        rise = after_c - before_c
        exact = self.heating_min_per_10c * rise if rise >= 0 else self.cooling_min_per_10c * -rise
        return -(-exact // 10)


@dataclass(frozen=True, slots=True)
class Bench:
    """What the kitchen has: people, burners, oven, microwaves, room for things that cool (None: enough), tools."""

    cooks: int = 1
    burners: int = 0
    oven: OvenCard | None = None
    microwaves: int = 0
    counter: int | None = None
    tools: tuple[ToolKind, ...] = ()

    def __post_init__(self) -> None:
        require(self.cooks >= 1, "a kitchen needs 1 cook or more")
        require(self.burners >= 0 and self.microwaves >= 0, "burners and microwaves must not be negative")
        require(self.counter is None or self.counter >= 0, "counter room must not be negative")
        _unique((tool.name for tool in self.tools), "the tool")


@dataclass(frozen=True, slots=True)
class Begun:
    """What has happened: an activity started at `start` and ended at `end` (None: it is still running)."""

    activity: str
    start: int
    end: int | None = None

    def __post_init__(self) -> None:
        require(self.end is None or self.start <= self.end, f"{self.activity} ended before it started")


@dataclass(frozen=True, slots=True)
class DayQuestion:
    """The whole question. Activities are in their natural order, which decides between timetables as good.

    `slower` is the factor of hands-on work under which everything must still hold; `deadline` is the minute by which
    all is done (None: no such wish). `now` and `begun` are for a day on its way: nothing that has not begun starts
    before `now`.
    """

    activities: tuple[Activity, ...]
    lags: tuple[Lag, ...] = ()
    uses: tuple[ToolUse, ...] = ()
    mergings: tuple[Merging, ...] = ()
    bench: Bench = Bench()
    slower: Fraction = SLOWER
    deadline: int | None = None
    now: int = 0
    begun: tuple[Begun, ...] = ()

    def __post_init__(self) -> None:
        require(self.slower >= 1, "slower is a factor of 1 or more")
        _unique((a.name for a in self.activities), "the activity")
        _unique((u.name for u in self.uses), "the use")
        _unique((m.name for m in self.mergings), "the merging")
        _unique((name for m in self.mergings for name in m.activities), "in mergings, the activity")
        _unique((b.activity for b in self.begun), "begun, the activity")
        for b in self.begun:
            last = b.start if b.end is None else b.end
            require(
                last <= self.now, f"{b.activity} is said to have been at minute {last}; now is {self.now}"
            )
        known = {a.name for a in self.activities}
        kinds = {tool.name for tool in self.bench.tools}
        named = [
            *((lag.first, "a lag") for lag in self.lags),
            *((lag.second, "a lag") for lag in self.lags),
            *((name, f"the use {u.name}") for u in self.uses for name in u.activities),
            *((name, f"the merging {m.name}") for m in self.mergings for name in m.activities),
            *((b.activity, "what has begun") for b in self.begun),
        ]
        unknown = sorted({f"{name!r} ({where})" for name, where in named if name not in known})
        require(not unknown, f"no activity is called {', '.join(unknown)}")
        strange = sorted({u.kind for u in self.uses} - kinds)
        require(not strange, f"the kitchen has no {', '.join(strange)}")

    def activity(self, name: str) -> Activity:
        """Find an activity by its name (KeyError if there is none)."""
        for activity in self.activities:
            if activity.name == name:
                return activity
        raise KeyError(name)

    def slow_min(self, activity: Activity) -> int:
        """How long it is planned to take at the least: hands-on work by `slower`, rounded up to whole minutes."""
        return -(-activity.least_min * self.slower // 1) if activity.hands else activity.least_min
