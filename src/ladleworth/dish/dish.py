"""The dish: parts with swaps, ingredients as bought, steps, yield and keeping rule, as frozen records.

A `Dish` is ready to be planned with: every ingredient names a food and an exact amount. What a person wrote
(`written.py`) becomes a `Dish` through the food table (`resolve.py`).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from itertools import product

from ladleworth.dish.core import Core
from ladleworth.dish.needs import stations_in
from ladleworth.dish.waiting import Wait
from ladleworth.errors import BadField

KEEP_DAYS = 4
"""Days a cooked dish keeps chilled, the cooking day as day 1.

Source: FoodSafety.gov Cold Food Storage Chart, leftovers 3-4 days (read); that the cooking day counts as
day 1 is our own, stricter reading: no page read says how to count.
"""

LEAST, GREATEST = 1, 8
"""The portions a batch may have where the dish does not say."""


BRINGS = ("colour", "crunch", "fresh")
"""What a part or a swap may bring to the plate. Menu planners look for some of it in every meal (from memory)."""

OVEN, BURNER = "oven", "burner"
STATIONS = (OVEN, BURNER)
"""What a batch takes minutes of beside the cook's hands. Two burners for ten minutes are twenty burner minutes."""


class Role(Enum):
    """What a part does in the portion: the trade's way to compose a plate."""

    STARCH = "starch"
    VEGETABLE = "vegetable"
    PROTEIN = "protein"
    SAUCE = "sauce"
    GARNISH = "garnish"
    WHOLE = "whole"


@dataclass(frozen=True, slots=True)
class Ingredient:
    """A food and how much of it the whole recipe takes, as bought.

    Parameters
    ----------
    food
        The food's id.
    bought
        Exact amount as bought for all portions of the recipe: milligrams, or pieces for a food in pieces.
    edible_mg
        Exact milligrams of its edible part, None where that cannot be worked out.
    text
        The line as it was written.
    working
        How the amount was worked out, in words, with the source ids it rests on.
    unmeasured
        True for 'to taste' and the like, and for tap water: `bought` is 0, nothing is bought and the food is
        not counted in the cost. Tap water of a known amount has its `edible_mg` all the same.
    called
        What the line calls the food, '' where there was none.
    preparation
        What the line has done to it, 'chopped' or 'cut into wedges', one entry for each phrase.
    count, piece
        How many the line counts ('2 onions', '3 cloves garlic': of a range the high end), and of what: '' is the food
        itself. None where the line weighs or measures.
    """

    food: str
    bought: Fraction
    edible_mg: Fraction | None = None
    text: str = ""
    working: str = ""
    unmeasured: bool = False
    called: str = ""
    preparation: tuple[str, ...] = ()
    count: Fraction | None = None
    piece: str = ""

    def __post_init__(self) -> None:
        if self.bought < 0 or (self.bought == 0 and not self.unmeasured):
            raise BadField(f"{self.food}: the amount must be above 0")


@dataclass(frozen=True, slots=True)
class StationTime:
    """Minutes of a station (one of STATIONS) that a batch takes, wall-clock: fixed, and for each portion."""

    station: str
    fixed_min: Fraction = Fraction(0)
    per_portion_min: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        if self.station not in STATIONS:
            raise BadField(f"no station is called {self.station!r}; the stations are {', '.join(STATIONS)}")
        if self.fixed_min < 0 or self.per_portion_min < 0:
            raise BadField(f"minutes of the {self.station} must not be below 0")


@dataclass(frozen=True, slots=True)
class Swap:
    """One way to make a part: its ingredients, and the minutes (hands-on, of stations) that it adds to the dish's.

    `kinds` are kinds of cooked food, as the table of textures names them; `brings` are some of BRINGS.
    """

    name: str
    ingredients: tuple[Ingredient, ...]
    fixed_min: Fraction = Fraction(0)
    per_portion_min: Fraction = Fraction(0)
    stations: tuple[StationTime, ...] = ()
    kinds: tuple[str, ...] = ()
    brings: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        _check_brings(self.name, self.brings)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the portion: what it always takes, and one or more swaps of which one is chosen.

    `kinds` are kinds of cooked food, as the table of textures names them; `apart` says that the part is not kept
    with the others: it is added fresh, or has a place of its own outside the freezer. `brings` are some of BRINGS, of
    every version of the part.
    """

    name: str
    role: Role
    ingredients: tuple[Ingredient, ...] = ()
    swaps: tuple[Swap, ...] = ()
    stations: tuple[StationTime, ...] = ()
    kinds: tuple[str, ...] = ()
    apart: bool = False
    brings: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        _check_brings(self.name, self.brings)


def _check_brings(name: str, brings: tuple[str, ...]) -> None:
    unknown = [one for one in brings if one not in BRINGS]
    if unknown:
        raise BadField(f"{name} brings {unknown[0]!r}; what it may bring is {', '.join(BRINGS)}")


@dataclass(frozen=True, slots=True)
class Step:
    """A step of the work: hands-on and unattended minutes for the whole recipe, and what it needs.

    Parameters
    ----------
    text
        What to do.
    hands_on_min, unattended_min
        Hands-on work first, then what goes on by itself. Neither: a note.
    needs
        As written; `needs.read_needs` reads them.
    part
        The part that it makes, '' for the whole.
    name
        By which other steps say that they follow it.
    swaps
        Part and swap: it is done only where one of these is chosen. Empty: always.
    after
        Names of the steps that it follows; None: by the order in which the steps stand (`step_order.followed`).
    at_once
        Whether it begins the minute that what it follows ends.
    wait
        Minutes after what it follows.
    prep
        The preparation that it is, in the words that it shares with other dishes.
    leaves, takes
        What stays in its pan for whoever can use it; what it can use.
    day_before
        Whether it is done the day before.
    core
        What the middle has to reach when it ends.
    """

    text: str
    hands_on_min: Fraction = Fraction(0)
    unattended_min: Fraction = Fraction(0)
    needs: tuple[str, ...] = ()
    part: str = ""
    name: str = ""
    swaps: tuple[tuple[str, str], ...] = ()
    after: tuple[str, ...] | None = None
    at_once: bool = False
    wait: Wait | None = None
    prep: str = ""
    leaves: str = ""
    takes: tuple[str, ...] = ()
    day_before: bool = False
    core: Core | None = None

    def taken(self, station: str) -> Fraction:
        """Minutes of a station that the step takes: all its minutes, if it needs one; twice that for `2 burners`."""
        times = sum(stations_in(need, station) for need in self.needs)
        return (self.hands_on_min + self.unattended_min) * times

    def is_done_with(self, chosen: tuple[tuple[str, str], ...]) -> bool:
        """Tell whether it is done where these swaps are chosen."""
        return not self.swaps or any(pair in self.swaps for pair in chosen)


@dataclass(frozen=True, slots=True)
class Variant:
    """A dish with one swap chosen per part; `swaps` pairs part and swap in the order of the parts.

    `stations` are the minutes of oven and burners that a batch takes, a station that it does not need left out.
    `brings` is what its parts and the chosen swaps bring, in the order of BRINGS.
    """

    swaps: tuple[tuple[str, str], ...]
    ingredients: tuple[Ingredient, ...]
    fixed_min: Fraction
    per_portion_min: Fraction
    stations: tuple[StationTime, ...] = ()
    brings: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The chosen swaps in words; 'as written' where there is nothing to choose."""
        return ", ".join(swap for _, swap in self.swaps) or "as written"


@dataclass(frozen=True, slots=True)
class Dish:
    """What can be batched. The ingredients' amounts make `portions`; a batch has `least`..`greatest`.

    `keep_days` and `freezer_days` count with the cooking day as day 1; `freezer_days` is None for a dish
    that does not freeze well. `meals` empty means that it suits any meal; `never` names the eaters who may
    not have it, beside what their exclusions say. `yield_mg` is the measured yield of all `portions`, None
    until the scale gives one. `portion_volume_ml` is what one portion fills as measured, None until it is.
    `stations` are minutes that every version takes, beside those of its parts and swaps. `splits` is among how
    many versions a batch may be split, None where the house rule says it.
    """

    id: str
    name: str
    portions: int
    parts: tuple[Part, ...]
    least: int = LEAST
    greatest: int = GREATEST
    meals: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    fixed_min: Fraction = Fraction(0)
    per_portion_min: Fraction = Fraction(0)
    keep_days: int = KEEP_DAYS
    freezer_days: int | None = None
    yield_mg: int | None = None
    never: tuple[str, ...] = ()
    portion_volume_ml: int | None = None
    stations: tuple[StationTime, ...] = ()
    splits: int | None = None

    def __post_init__(self) -> None:
        if self.splits is not None and self.splits < 1:
            raise BadField(f"dish {self.name}: splits must be 1 or more")
        if self.portion_volume_ml is not None and self.portion_volume_ml < 1:
            raise BadField(f"dish {self.name}: the volume of a portion must be above 0")
        if self.portions < 1:
            raise BadField(f"dish {self.name}: portions must be 1 or more")
        if not 1 <= self.least <= self.greatest:
            raise BadField(f"dish {self.name}: least must be 1 or more and not above greatest")

    def variants(self) -> tuple[Variant, ...]:
        """List every choice of one swap per part, the first-written swaps first."""
        choices = [[(part, swap) for swap in part.swaps] for part in self.parts if part.swaps]
        always = tuple(i for part in self.parts for i in part.ingredients)
        return tuple(
            Variant(
                swaps=tuple((part.name, swap.name) for part, swap in choice),
                ingredients=always + tuple(i for _, swap in choice for i in swap.ingredients),
                fixed_min=self.fixed_min + sum((s.fixed_min for _, s in choice), Fraction(0)),
                per_portion_min=self.per_portion_min
                + sum((s.per_portion_min for _, s in choice), Fraction(0)),
                stations=self._stations([(part.name, swap) for part, swap in choice]),
                brings=self._brings([swap for _, swap in choice]),
            )
            for choice in product(*choices)
        )

    def _brings(self, chosen: list[Swap]) -> tuple[str, ...]:
        pieces: list[Part | Swap] = [*self.parts, *chosen]
        return tuple(one for one in BRINGS if any(one in piece.brings for piece in pieces))

    def _stations(self, chosen: list[tuple[str, Swap]]) -> tuple[StationTime, ...]:
        """Add up the station minutes of the dish, its parts and the swaps chosen.

        A station that is stated nowhere in the dish takes the minutes of the steps that need it, as fixed.
        """
        pieces: tuple[Dish | Part, ...] = (self, *self.parts)
        every: list[Dish | Part | Swap] = [*pieces, *(swap for part in self.parts for swap in part.swaps)]
        stated = {taken.station for piece in every for taken in piece.stations}
        taking: list[Dish | Part | Swap] = [*pieces, *(swap for _, swap in chosen)]
        names = tuple((part, swap.name) for part, swap in chosen)
        all_taken = [taken for piece in taking for taken in piece.stations]
        all_taken += [
            StationTime(station, step.taken(station))
            for station in STATIONS
            if station not in stated
            for step in self.steps
            if step.is_done_with(names)
        ]
        added = (
            StationTime(
                station,
                sum((taken.fixed_min for taken in all_taken if taken.station == station), Fraction(0)),
                sum((taken.per_portion_min for taken in all_taken if taken.station == station), Fraction(0)),
            )
            for station in STATIONS
        )
        return tuple(taken for taken in added if taken.fixed_min or taken.per_portion_min)
