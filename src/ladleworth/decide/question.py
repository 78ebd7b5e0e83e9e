"""The frozen question of the week: records only, no rule is applied here.

Days are counted 1..days. Amounts of food are integers in the food's own unit: milligrams, or whole pieces
for what is bought and used by the piece. Money is in integer minor units ('cents'). What the records mean,
and every rule that a plan must keep, stands in `judge.py`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from types import MappingProxyType

from ladleworth.decide.checks import require, unique, values_of
from ladleworth.decide.goods import Foodstuff, PackageOffer, PortionLot, ShopVisit, StockLot
from ladleworth.decide.rules import (
    Additions,
    HouseRules,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
    Wish,
)

__all__ = [
    "MOST_VERSIONS",
    "Additions",
    "CookSession",
    "DishChoice",
    "Foodstuff",
    "HouseRules",
    "Load",
    "MealSlot",
    "PackageOffer",
    "PortionLot",
    "Question",
    "ShopVisit",
    "StockLot",
    "Version",
    "Wish",
]

MOST_VERSIONS = 64
"""How many combinations of swaps one dish may have."""


@dataclass(frozen=True, slots=True)
class CookSession:
    """A day on which the cook may cook, with at most `minutes` of hands-on work.

    `stations` are the minutes that a station (oven, burner) has in this session; a station not named is not
    limited. `cents` is the price of cooking on that day at all.
    """

    day: int
    minutes: int
    stations: Mapping[str, int] = field(default_factory=dict)
    cents: int = 0

    def __post_init__(self) -> None:
        require(self.minutes >= 0, f"session on day {self.day}: minutes must not be negative")
        require(self.cents >= 0, f"session on day {self.day}: the price must not be negative")
        for station, minutes in self.stations.items():
            require(minutes >= 0, f"session on day {self.day}: {station} minutes must not be negative")
        object.__setattr__(self, "stations", MappingProxyType(dict(self.stations)))

    def __reduce__(self) -> tuple[object, ...]:
        """Let a session travel to a solver's own process (a mapping proxy cannot be pickled)."""
        return (CookSession, values_of(self))


@dataclass(frozen=True, slots=True, order=True)
class MealSlot:
    """One eater's meal on one day: it takes one portion, or a meal out."""

    day: int
    eater: str
    meal: str = "meal"


@dataclass(frozen=True, slots=True)
class Load:
    """Minutes of a station that a batch takes: `fixed_min + per_portion_min * portions`."""

    fixed_min: Fraction = Fraction(0)
    per_portion_min: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        require(self.fixed_min >= 0 and self.per_portion_min >= 0, "station minutes must not be negative")

    def minutes(self, portions: int) -> Fraction:
        """Minutes for a batch of this many portions."""
        return self.fixed_min + self.per_portion_min * portions


@dataclass(frozen=True, slots=True)
class Version:
    """A dish with one swap chosen per part.

    `needs` maps a food to its amount per standard portion as bought (mg or pieces, exact). `barred` are the
    eaters who may not have it. Hands-on minutes are `fixed_min + per_portion_min * portions`. `liking_cents` is
    the price of the household's liking per portion (0 unless that addition is on; negative for a favourite).
    `loads` are the station minutes of a batch, by station. `nutrients` are those of one standard portion, in the
    unit that the household's bounds use; a nutrient not named has no figure, which is not zero. What a helping brings
    ('fresh') stands among them as 1 or 0. `volume_ml` is what a standard portion fills.
    """

    name: str
    needs: Mapping[str, Fraction]
    fixed_min: Fraction = Fraction(0)
    per_portion_min: Fraction = Fraction(0)
    barred: frozenset[str] = frozenset()
    liking_cents: Fraction = Fraction(0)
    loads: Mapping[str, Load] = field(default_factory=dict)
    nutrients: Mapping[str, Fraction] = field(default_factory=dict)
    volume_ml: int = 0

    def __post_init__(self) -> None:
        require(
            self.fixed_min >= 0 and self.per_portion_min >= 0, f"{self.name}: minutes must not be negative"
        )
        require(self.volume_ml >= 0, f"{self.name}: volume_ml must not be negative")
        for food, amount in self.needs.items():
            require(amount > 0, f"{self.name}: the amount of {food} must be above 0")
        for name in ("needs", "loads", "nutrients"):
            object.__setattr__(self, name, MappingProxyType(dict(getattr(self, name))))

    def __reduce__(self) -> tuple[object, ...]:
        """Let a version travel to a solver's own process (a mapping proxy cannot be pickled)."""
        return (Version, values_of(self))


@dataclass(frozen=True, slots=True)
class DishChoice:
    """A dish that may be batched: `least`..`greatest` portions a batch, in one of its versions.

    `keep_days` is the keeping time chilled and `freezer_days` frozen, both with the cooking day as day 1;
    `freezer_days` is None for what does not freeze well. `meals` limits the meals it suits (None: any).

    A batch may be split between at most `most_versions` versions; together they are least..greatest portions.
    `shared_min` are hands-on minutes that a session spends once on the dish, whatever the versions.
    """

    name: str
    versions: tuple[Version, ...]
    least: int = 1
    greatest: int = 8
    keep_days: int = 4
    freezer_days: int | None = None
    meals: frozenset[str] | None = None
    most_versions: int = 1
    shared_min: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        require(self.most_versions >= 1, f"dish {self.name}: most_versions must be 1 or more")
        require(self.shared_min >= 0, f"dish {self.name}: shared_min must not be negative")
        require(bool(self.versions), f"dish {self.name}: at least one version is needed")
        require(
            len(self.versions) <= MOST_VERSIONS,
            f"dish {self.name}: {len(self.versions)} combinations of swaps are more than {MOST_VERSIONS}",
        )
        require(1 <= self.least <= self.greatest, f"dish {self.name}: 1 <= least <= greatest does not hold")
        require(self.keep_days >= 1, f"dish {self.name}: keep_days must be 1 or more")
        require(
            self.freezer_days is None or self.freezer_days >= 1,
            f"dish {self.name}: freezer_days must be 1 or more",
        )
        unique((v.name for v in self.versions), f"version of dish {self.name}")

    def suits(self, meal: str) -> bool:
        """Say whether the dish may be had at this meal."""
        return self.meals is None or meal in self.meals


@dataclass(frozen=True, slots=True)
class Question:
    """Everything the decision of the week depends on; cross-references are checked once, here.

    `appetites` are what an eater's portion is of a standard one (not named: 1).
    """

    days: int
    slots: tuple[MealSlot, ...]
    sessions: tuple[CookSession, ...]
    dishes: tuple[DishChoice, ...]
    foods: tuple[Foodstuff, ...]
    lots: tuple[StockLot, ...] = ()
    offers: tuple[PackageOffer, ...] = ()
    shops: tuple[ShopVisit, ...] = ()
    rules: HouseRules = field(default_factory=HouseRules)
    additions: Additions = field(default_factory=Additions)
    portions: tuple[PortionLot, ...] = ()
    appetites: Mapping[str, Fraction] = field(default_factory=dict)
    wishes: tuple[Wish, ...] = ()
    _foods: Mapping[str, Foodstuff] = field(init=False, repr=False, compare=False)
    _dishes: Mapping[str, DishChoice] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        require(self.days >= 1, "there must be at least one day")
        unique((f.name for f in self.foods), "food")
        unique((d.name for d in self.dishes), "dish")
        unique([*(lot.name for lot in self.lots), *(lot.name for lot in self.portions)], "lot")
        unique((o.name for o in self.offers), "offer")
        unique((s.name for s in self.shops), "shop")
        unique((str(s.day) for s in self.sessions), "session on day")
        unique((f"{s.eater} {s.meal} day {s.day}" for s in self.slots), "slot")
        for eater, factor in self.appetites.items():
            require(factor > 0, f"{eater}: the appetite must be above 0")
        object.__setattr__(self, "appetites", MappingProxyType(dict(self.appetites)))
        object.__setattr__(self, "_foods", MappingProxyType({f.name: f for f in self.foods}))
        object.__setattr__(self, "_dishes", MappingProxyType({d.name: d for d in self.dishes}))
        self._check_references()

    def _check_references(self) -> None:
        for session in self.sessions:
            require(1 <= session.day <= self.days, f"session day {session.day} is outside 1..{self.days}")
        for slot in self.slots:
            require(1 <= slot.day <= self.days, f"slot day {slot.day} is outside 1..{self.days}")
        for eater in self.appetites:
            require(eater in self.eaters, f"an appetite is given for {eater!r}, who has no slot")
        for bound in self.rules.nutrient_bounds:
            require(bound.eater in self.eaters, f"{bound.nutrient}: {bound.eater!r} has a bound, and no slot")
        shops = {s.name for s in self.shops}
        for lot in self.lots:
            require(lot.food in self._foods, f"lot {lot.name}: no food is called {lot.food!r}")
        for offer in self.offers:
            require(offer.food in self._foods, f"offer {offer.name}: no food is called {offer.food!r}")
            require(offer.shop in shops, f"offer {offer.name}: no shop is called {offer.shop!r}")
        for dish in self.dishes:
            for version in dish.versions:
                for food in version.needs:
                    require(food in self._foods, f"dish {dish.name}: no food is called {food!r}")
        for wish in self.wishes:
            self._check_wish(wish)

    def _check_wish(self, wish: Wish) -> None:
        match wish:
            case MustCook(dish, _, version) | MustNotCook(dish, _, version):
                require(dish in self._dishes, f"a wish names {dish!r}, which is no dish")
                names = [v.name for v in self._dishes[dish].versions]
                require(version is None or version in names, f"{dish} has no version {version!r}")
            case MustUse(lot):
                there = {*(one.name for one in self.lots), *(one.name for one in self.portions)}
                require(lot in there, f"a wish names {lot!r}, which is no lot on hand")
            case MustServe(day, eater, meal, serve):
                require(MealSlot(day, eater, meal) in self.slots, f"{eater} has no {meal} on day {day}")
                named = {*self._dishes, *(lot.dish for lot in self.portions)}
                require(serve is None or serve in named, f"a wish names {serve!r}, which is no dish")
            case MustBuy(_, offer):
                require(any(o.name == offer for o in self.offers), f"no offer is called {offer!r}")

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
                self.portions,
                dict(self.appetites),
                self.wishes,
            ),
        )

    def only(self, slots: tuple[MealSlot, ...]) -> Question:
        """Leave only these slots; appetites and bounds of whoever has none go with the others."""
        there = {slot.eater for slot in slots}
        bounds = tuple(bound for bound in self.rules.nutrient_bounds if bound.eater in there)
        return replace(
            self,
            slots=slots,
            rules=replace(self.rules, nutrient_bounds=bounds),
            appetites={eater: factor for eater, factor in self.appetites.items() if eater in there},
        )

    def food(self, name: str) -> Foodstuff:
        """Return the food of this name."""
        return self._foods[name]

    def dish(self, name: str) -> DishChoice:
        """Return the dish of this name."""
        return self._dishes[name]

    def version(self, dish: str, name: str) -> Version:
        """Return a version of a dish."""
        return next(v for v in self._dishes[dish].versions if v.name == name)

    def appetite(self, eater: str) -> Fraction:
        """What this eater's portion is of a standard one."""
        return self.appetites.get(eater, Fraction(1))

    def counted(self, bound: NutrientBound) -> Fraction:
        """What a version's figure is multiplied by for a helping of the bound's eater: the appetite; of a share 1."""
        return Fraction(1) if bound.share else self.appetite(bound.eater)

    def spans(self) -> tuple[range, ...]:
        """The spans of days over which sameness and nutrients are counted: weeks, or all days as one."""
        length = self.rules.span_days or self.days
        return tuple(
            range(first, min(first + length - 1, self.days) + 1) for first in range(1, self.days + 1, length)
        )

    @property
    def eaters(self) -> tuple[str, ...]:
        """Everyone who has a slot, in order of first appearance."""
        return tuple(dict.fromkeys(slot.eater for slot in self.slots))
