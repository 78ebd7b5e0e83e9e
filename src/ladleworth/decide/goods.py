"""What the kitchen and the shops have: foods, lots, portions on hand, packages, visits.

Amounts of food are integers in the food's own unit: milligrams, or whole pieces for what is bought and used by
the piece. Money is in integer minor units ('cents'). Days are counted from 1.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from ladleworth.decide.checks import require, values_of


@dataclass(frozen=True, slots=True)
class Foodstuff:
    """A food as the decision sees it: `pieces` if used whole, `keep_days` once bought (None: durable)."""

    name: str
    pieces: bool = False
    keep_days: int | None = None

    def __post_init__(self) -> None:
        require(
            self.keep_days is None or self.keep_days >= 1,
            f"{self.name}: keep_days must be 1 or more, or None",
        )


@dataclass(frozen=True, slots=True)
class StockLot:
    """A lot on hand when the days begin: total `quantity` (mg or pieces) that cost `cents` in total.

    `last_day` is the last day on which it may be used; None for a durable one. A lot whose last day lies
    before day 1 has spoilt already and counts as spoilt.
    """

    name: str
    food: str
    quantity: int
    cents: int
    last_day: int | None = None

    def __post_init__(self) -> None:
        require(self.quantity > 0, f"lot {self.name}: the quantity must be above 0")
        require(self.cents >= 0, f"lot {self.name}: the cents must not be negative")


@dataclass(frozen=True, slots=True)
class PortionLot:
    """Containers of one dish on hand when the days begin: `portions` of them, which cost `cents` in total.

    Each may be eaten on `first_day`..`last_day` (`last_day` None: it outlives the days). A frozen one stays in the
    freezer until the evening before, so its first day is 2 at the earliest unless it is thawing already. One
    container is one helping, whoever has it. `dish` is the name that sameness counts by. `barred`, `meals`,
    `nutrients` and `volume_ml` are those of one container.
    """

    name: str
    dish: str
    portions: int
    cents: int
    first_day: int = 1
    last_day: int | None = None
    frozen: bool = False
    barred: frozenset[str] = frozenset()
    meals: frozenset[str] | None = None
    nutrients: Mapping[str, Fraction] = field(default_factory=dict)
    volume_ml: int = 0

    def __post_init__(self) -> None:
        require(self.portions > 0, f"portions {self.name}: there must be at least 1")
        require(self.cents >= 0, f"portions {self.name}: the cents must not be negative")
        require(self.first_day >= 1, f"portions {self.name}: first_day must be 1 or more")
        require(self.volume_ml >= 0, f"portions {self.name}: volume_ml must not be negative")
        object.__setattr__(self, "nutrients", MappingProxyType(dict(self.nutrients)))

    def __reduce__(self) -> tuple[object, ...]:
        """Let a lot travel to a solver's own process (a mapping proxy cannot be pickled)."""
        return (PortionLot, values_of(self))

    def suits(self, meal: str) -> bool:
        """Say whether it may be had at this meal."""
        return self.meals is None or meal in self.meals


@dataclass(frozen=True, slots=True)
class PackageOffer:
    """A package of `quantity` (mg or pieces) at `cents` in a shop; `most` packages a visit (None: any)."""

    name: str
    food: str
    shop: str
    quantity: int
    cents: int
    most: int | None = None

    def __post_init__(self) -> None:
        require(self.quantity > 0, f"offer {self.name}: the quantity must be above 0")
        require(self.cents >= 0, f"offer {self.name}: the price must not be negative")
        require(self.most is None or self.most >= 0, f"offer {self.name}: most must not be negative")


@dataclass(frozen=True, slots=True)
class ShopVisit:
    """A shop, and what one visit costs in cents (fare, minutes) beside what is bought."""

    name: str
    trip_cents: int = 0

    def __post_init__(self) -> None:
        require(self.trip_cents >= 0, f"shop {self.name}: the trip cost must not be negative")
