"""The frozen question of the week: records only, no rule is applied here.

Days are counted 1..days. Amounts of food are integers in the food's own unit: milligrams, or whole pieces
for what is bought and used by the piece. Money is in integer minor units ('cents'). What the records mean,
and every rule that a plan must keep, stands in `judge.py`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from ladleworth.errors import BadField

MOST_VERSIONS = 64
"""How many combinations of swaps one dish may have."""


def _require(condition: bool, message: str) -> None:  # noqa: FBT001  # reads as a sentence at the call
    if not condition:
        raise BadField(message)


@dataclass(frozen=True, slots=True)
class Foodstuff:
    """A food as the decision sees it: `pieces` if used whole, `keep_days` once bought (None: durable)."""

    name: str
    pieces: bool = False
    keep_days: int | None = None

    def __post_init__(self) -> None:
        _require(
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
        _require(self.quantity > 0, f"lot {self.name}: the quantity must be above 0")
        _require(self.cents >= 0, f"lot {self.name}: the cents must not be negative")


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
        _require(self.quantity > 0, f"offer {self.name}: the quantity must be above 0")
        _require(self.cents >= 0, f"offer {self.name}: the price must not be negative")
        _require(self.most is None or self.most >= 0, f"offer {self.name}: most must not be negative")


@dataclass(frozen=True, slots=True)
class ShopVisit:
    """A shop, and what one visit costs in cents (fare, minutes) beside what is bought."""

    name: str
    trip_cents: int = 0

    def __post_init__(self) -> None:
        _require(self.trip_cents >= 0, f"shop {self.name}: the trip cost must not be negative")


@dataclass(frozen=True, slots=True)
class CookSession:
    """A day on which the cook cooks, with at most `minutes` of hands-on work."""

    day: int
    minutes: int

    def __post_init__(self) -> None:
        _require(self.minutes >= 0, f"session on day {self.day}: minutes must not be negative")


@dataclass(frozen=True, slots=True, order=True)
class MealSlot:
    """One eater's meal on one day: it takes one portion, or a meal out."""

    day: int
    eater: str
    meal: str = "meal"


@dataclass(frozen=True, slots=True)
class Version:
    """A dish with one swap chosen per part.

    `needs` maps a food to its amount per portion as bought (mg or pieces, exact). `barred` are the eaters
    who may not have it. Hands-on minutes are `fixed_min + per_portion_min * portions`. `liking_cents` is
    the price of the household's liking per portion (0 unless that addition is on; negative for a favourite).
    """

    name: str
    needs: Mapping[str, Fraction]
    fixed_min: Fraction = Fraction(0)
    per_portion_min: Fraction = Fraction(0)
    barred: frozenset[str] = frozenset()
    liking_cents: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        _require(
            self.fixed_min >= 0 and self.per_portion_min >= 0, f"{self.name}: minutes must not be negative"
        )
        for food, amount in self.needs.items():
            _require(amount > 0, f"{self.name}: the amount of {food} must be above 0")
        object.__setattr__(self, "needs", MappingProxyType(dict(self.needs)))

    def __reduce__(self) -> tuple[object, ...]:
        """Let a version travel to a solver's own process (a mapping proxy cannot be pickled)."""
        return (
            Version,
            (
                self.name,
                dict(self.needs),
                self.fixed_min,
                self.per_portion_min,
                self.barred,
                self.liking_cents,
            ),
        )


@dataclass(frozen=True, slots=True)
class DishChoice:
    """A dish that may be batched: `least`..`greatest` portions a batch, in one of its versions.

    `keep_days` is the keeping time chilled and `freezer_days` frozen, both with the cooking day as day 1;
    `freezer_days` is None for what does not freeze well. `meals` limits the meals it suits (None: any).
    """

    name: str
    versions: tuple[Version, ...]
    least: int = 1
    greatest: int = 8
    keep_days: int = 4
    freezer_days: int | None = None
    meals: frozenset[str] | None = None

    def __post_init__(self) -> None:
        _require(bool(self.versions), f"dish {self.name}: at least one version is needed")
        _require(
            len(self.versions) <= MOST_VERSIONS,
            f"dish {self.name}: {len(self.versions)} combinations of swaps are more than {MOST_VERSIONS}",
        )
        _require(1 <= self.least <= self.greatest, f"dish {self.name}: 1 <= least <= greatest does not hold")
        _require(self.keep_days >= 1, f"dish {self.name}: keep_days must be 1 or more")
        _require(
            self.freezer_days is None or self.freezer_days >= 1,
            f"dish {self.name}: freezer_days must be 1 or more",
        )
        _unique((v.name for v in self.versions), f"version of dish {self.name}")

    def suits(self, meal: str) -> bool:
        """Say whether the dish may be had at this meal."""
        return self.meals is None or meal in self.meals


@dataclass(frozen=True, slots=True)
class HouseRules:
    """The household's limits. None means: no limit (or, for `meal_out_cents`, no meals out).

    `in_a_row` is the most days in a row that one eater has the same dish; `most_times` the most helpings
    of one dish for one eater over the days.
    """

    containers: int | None = None
    freezer_places: int | None = None
    budget_cents: int | None = None
    meal_out_cents: int | None = None
    in_a_row: int | None = 2
    most_times: int | None = None

    def __post_init__(self) -> None:
        for name in ("containers", "freezer_places", "budget_cents", "meal_out_cents"):
            value = getattr(self, name)
            _require(value is None or value >= 0, f"{name} must not be negative")
        for name in ("in_a_row", "most_times"):
            value = getattr(self, name)
            _require(value is None or value >= 1, f"{name} must be 1 or more, or left out")


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
        _require(0 <= self.carried_share <= 1, "carried_share must be from 0 to 1")
        for name in ("repeat_cents", "minute_cents", "reserve_portions", "reserve_cents"):
            _require(getattr(self, name) >= 0, f"{name} must not be negative")


def _unique(names: Iterable[str], what: str) -> None:
    twice = [name for name, times in Counter(names).items() if times > 1]
    _require(not twice, f"{what} {', '.join(map(repr, twice))} stands there more than once")


@dataclass(frozen=True, slots=True)
class Question:
    """Everything the decision of the week depends on; cross-references are checked once, here."""

    days: int
    slots: tuple[MealSlot, ...]
    sessions: tuple[CookSession, ...]
    dishes: tuple[DishChoice, ...]
    foods: tuple[Foodstuff, ...]
    lots: tuple[StockLot, ...] = ()
    offers: tuple[PackageOffer, ...] = ()
    shops: tuple[ShopVisit, ...] = ()
    rules: HouseRules = HouseRules()
    additions: Additions = Additions()
    _foods: Mapping[str, Foodstuff] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        _require(self.days >= 1, "there must be at least one day")
        _unique((f.name for f in self.foods), "food")
        _unique((d.name for d in self.dishes), "dish")
        _unique((lot.name for lot in self.lots), "lot")
        _unique((o.name for o in self.offers), "offer")
        _unique((s.name for s in self.shops), "shop")
        _unique((str(s.day) for s in self.sessions), "session on day")
        _unique((f"{s.eater} {s.meal} day {s.day}" for s in self.slots), "slot")
        for session in self.sessions:
            _require(1 <= session.day <= self.days, f"session day {session.day} is outside 1..{self.days}")
        for slot in self.slots:
            _require(1 <= slot.day <= self.days, f"slot day {slot.day} is outside 1..{self.days}")
        foods = {f.name: f for f in self.foods}
        shops = {s.name for s in self.shops}
        for lot in self.lots:
            _require(lot.food in foods, f"lot {lot.name}: no food is called {lot.food!r}")
        for offer in self.offers:
            _require(offer.food in foods, f"offer {offer.name}: no food is called {offer.food!r}")
            _require(offer.shop in shops, f"offer {offer.name}: no shop is called {offer.shop!r}")
        for dish in self.dishes:
            for version in dish.versions:
                for food in version.needs:
                    _require(food in foods, f"dish {dish.name}: no food is called {food!r}")
        object.__setattr__(self, "_foods", MappingProxyType(foods))

    def __reduce__(self) -> tuple[object, ...]:
        """Let a question travel to a solver's own process (a mapping proxy cannot be pickled)."""
        return (
            Question,
            (
                self.days,
                self.slots,
                self.sessions,
                self.dishes,
                self.foods,
                self.lots,
                self.offers,
                self.shops,
                self.rules,
                self.additions,
            ),
        )

    def food(self, name: str) -> Foodstuff:
        """Return the food of this name."""
        return self._foods[name]

    def dish(self, name: str) -> DishChoice:
        """Return the dish of this name."""
        return next(d for d in self.dishes if d.name == name)

    @property
    def eaters(self) -> tuple[str, ...]:
        """Everyone who has a slot, in order of first appearance."""
        return tuple(dict.fromkeys(slot.eater for slot in self.slots))
