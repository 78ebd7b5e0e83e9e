"""What the household wants: its limits, its wishes for this week, and what it sets a price on."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ladleworth.decide.checks import require, unique


@dataclass(frozen=True, slots=True)
class ContainerSize:
    """`count` containers that each hold `capacity_ml` of food, room at the top taken off already."""

    capacity_ml: int
    count: int

    def __post_init__(self) -> None:
        require(self.capacity_ml > 0, "a container must hold more than 0 ml")
        require(self.count >= 0, f"containers of {self.capacity_ml} ml: the count must not be negative")


@dataclass(frozen=True, slots=True)
class NutrientBound:
    """What an eater's helpings of a span must average: at `least` and at `most`, None where there is no bound.

    It counts the helpings that the plan serves, not meals out, of which nothing is known. With `share` it is no
    nutrient but what a helping brings ('fresh') or not: its figure is 1 or 0 however large the helping is, so that
    the mean is the share of helpings that bring it.
    """

    eater: str
    nutrient: str
    least: Fraction | None = None
    most: Fraction | None = None
    share: bool = False

    def __post_init__(self) -> None:
        require(
            self.least is None or self.most is None or self.least <= self.most,
            f"{self.eater}: {self.nutrient} has a least above its most",
        )
        require(
            not self.share or all(0 <= end <= 1 for end in (self.least, self.most) if end is not None),
            f"{self.eater}: a share of helpings ({self.nutrient}) must be from 0 to 1",
        )

    def figure(self, value: Fraction) -> str:
        """Write a figure of it: '24.5', and of a share '50 %'."""
        return f"{float(value * 100):.4g} %" if self.share else f"{float(value):g}"

    def __str__(self) -> str:
        """Say it in words: 'fresh in at least 50 % of Wanda's helpings'."""
        ends = (("at least", self.least), ("at most", self.most))
        told = " and ".join(f"{words} {self.figure(end)}" for words, end in ends if end is not None) or "any"
        if self.share:
            return f"{self.nutrient} in {told} of {self.eater}'s helpings"
        return f"{self.nutrient} {told} on average over {self.eater}'s helpings"


@dataclass(frozen=True, slots=True)
class HouseRules:
    """The household's limits. None means: no limit (or, for `meal_out_cents`, no meals out).

    `in_a_row` is the most days in a row that one eater has the same dish; `most_times` the most helpings
    of one dish for one eater in a span of `span_days` days (None: over all days). `freezing_load` is the most
    portions put into the freezer on one day; `freezer_places` the most that lie there. `container_sizes` (empty:
    all alike, counted by `containers`), `fridge_ml` and `freezer_ml` go by the volume of portions.
    """

    containers: int | None = None
    freezer_places: int | None = None
    budget_cents: int | None = None
    meal_out_cents: int | None = None
    in_a_row: int | None = 2
    most_times: int | None = None
    span_days: int | None = None
    freezing_load: int | None = None
    container_sizes: tuple[ContainerSize, ...] = ()
    fridge_ml: int | None = None
    freezer_ml: int | None = None
    nutrient_bounds: tuple[NutrientBound, ...] = ()

    def __post_init__(self) -> None:
        for name in (
            "containers",
            "freezer_places",
            "budget_cents",
            "meal_out_cents",
            "freezing_load",
            "fridge_ml",
            "freezer_ml",
        ):
            value = getattr(self, name)
            require(value is None or value >= 0, f"{name} must not be negative")
        for name in ("in_a_row", "most_times", "span_days"):
            value = getattr(self, name)
            require(value is None or value >= 1, f"{name} must be 1 or more, or left out")
        unique((str(c.capacity_ml) for c in self.container_sizes), "containers of")
        unique((f"{b.eater} {b.nutrient}" for b in self.nutrient_bounds), "nutrient bound")


@dataclass(frozen=True, slots=True)
class MustCook:
    """A wish: at least `portions` of the dish are cooked (on that day, in that version, where named)."""

    dish: str
    day: int | None = None
    version: str | None = None
    portions: int = 1

    def __post_init__(self) -> None:
        require(self.portions > 0, f"a wish to cook {self.dish}: the portions must be above 0")


@dataclass(frozen=True, slots=True)
class MustNotCook:
    """A wish: the dish is not cooked (on that day, in that version, where named)."""

    dish: str
    day: int | None = None
    version: str | None = None


@dataclass(frozen=True, slots=True)
class MustUse:
    """A wish: at least `quantity` of a lot on hand is used: mg or pieces of a food, or portions."""

    lot: str
    quantity: int

    def __post_init__(self) -> None:
        require(self.quantity > 0, f"a wish to use {self.lot}: the quantity must be above 0")


@dataclass(frozen=True, slots=True)
class MustServe:
    """A wish: this slot has this dish; `dish` None: the eater eats out."""

    day: int
    eater: str
    meal: str
    dish: str | None


@dataclass(frozen=True, slots=True)
class MustBuy:
    """A wish: at least `packages` of an offer are bought on that day, as those in the basket already."""

    day: int
    offer: str
    packages: int

    def __post_init__(self) -> None:
        require(self.packages > 0, f"a wish to buy {self.offer}: the packages must be above 0")


Wish = MustCook | MustNotCook | MustUse | MustServe | MustBuy
"""What the household has settled beforehand; a plan keeps every one."""


@dataclass(frozen=True, slots=True)
class Additions:
    """Named, priced additions to the plain question. All are off (zero) unless the household sets them.

    `repeat_cents`: for each helping of a dish by one eater beyond the first. `minute_cents`: for each
    hands-on minute. `reserve_portions`: the most frozen portions that may be left when the days end, each
    counted as worth `reserve_cents`. `carried_share`: what is carried over counts at this share of its cost
    (1: in full), since some of what is left over in a kitchen is never eaten.
    """

    repeat_cents: int = 0
    minute_cents: Fraction = Fraction(0)
    reserve_portions: int = 0
    reserve_cents: int = 0
    carried_share: Fraction = Fraction(1)

    def __post_init__(self) -> None:
        require(0 <= self.carried_share <= 1, "carried_share must be from 0 to 1")
        for name in ("repeat_cents", "minute_cents", "reserve_portions", "reserve_cents"):
            require(getattr(self, name) >= 0, f"{name} must not be negative")
