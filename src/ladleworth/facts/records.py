"""What the food table says of a food: each figure with the source it was read in.

A figure that nobody has is not held at all; nothing here stands for it, least of all zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from types import MappingProxyType

from ladleworth.errors import BadField, MissingFact

NUTRIENTS: Mapping[str, str] = MappingProxyType(
    {
        "energy_kcal": "kcal",
        "protein_g": "g",
        "fat_g": "g",
        "saturated_fat_g": "g",
        "carbohydrate_g": "g",
        "fibre_g": "g",
        "sugars_g": "g",
        "sodium_mg": "mg",
        "potassium_mg": "mg",
        "calcium_mg": "mg",
        "iron_mg": "mg",
        "vitamin_a_rae_ug": "µg",
        "vitamin_c_mg": "mg",
        "vitamin_d_ug": "µg",
        "vitamin_b12_ug": "µg",
        "folate_dfe_ug": "µg",
    }
)
"""Every nutrient the table can hold, by name, with the unit of its amount in 100 g of edible food."""

ALLERGENS = (
    "milk",
    "egg",
    "fish",
    "crustacean shellfish",
    "tree nuts",
    "peanut",
    "wheat",
    "soybean",
    "sesame",
)
"""The nine major allergens of United States law (source us-allergen-law)."""

PLACES = ("cupboard", "fridge", "freezer")
STATES = ("raw", "cut", "cooked", "unopened", "opened", "any")
BASES = ("read", "worked", "memory", "common practice", "chosen", "own", "label")


def _check(value: str, allowed: tuple[str, ...], what: str) -> None:
    if value not in allowed:
        raise BadField(f"{what} {value!r} is not known; write one of: {', '.join(allowed)}")


class Measure(Enum):
    """How a food is counted on the shelf: weighed, or as whole pieces."""

    MASS = "mass"
    PIECES = "pieces"


class WeightIs(Enum):
    """What the weight of a piece stands for: the part that is eaten, or the whole as bought."""

    EDIBLE = "edible"
    AS_BOUGHT = "as bought"


class FreezesHow(Enum):
    """How a food comes out of the freezer."""

    WELL = "well"
    POORLY = "poorly"
    AVOID = "avoid"


@dataclass(frozen=True, slots=True)
class Source:
    """A work that figures were read in. `edition` may be empty where the source shows none."""

    id: str
    title: str
    edition: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """One number with its unit, the id of its source, and how it was come by (`basis`, see BASES)."""

    value: Fraction
    unit: str
    source: str
    basis: str
    note: str = ""

    def __post_init__(self) -> None:
        _check(self.basis, BASES, "basis")
        if not self.source:
            raise BadField(f"a figure of {self.value} {self.unit} names no source; give the source's id")


@dataclass(frozen=True, slots=True)
class Food:
    """An entry of the food table.

    `id` is lower-case words joined by hyphens; `aisle` is a word of our own for where it is shelved;
    `own` marks the kitchen's own entries.
    """

    id: str
    name: str
    aliases: tuple[str, ...]
    aisle: str
    measured_in: Measure
    own: bool = False

    def __post_init__(self) -> None:
        if not self.id or self.id != self.id.lower() or " " in self.id:
            raise BadField(f"food id {self.id!r} will not do; write lower-case words joined by hyphens")
        if not self.name.strip():
            raise BadField(f"food {self.id!r} has no name; write one")


@dataclass(frozen=True, slots=True)
class Composition:
    """What 100 g of the edible part of a food holds.

    `amounts` has one pair (nutrient, amount in 100 g) per known nutrient, in the order and units of
    NUTRIENTS; an unknown nutrient is left out. `source_key` is the entry's number in its source.
    """

    food: str
    amounts: tuple[tuple[str, Fraction], ...]
    source: str
    basis: str
    source_key: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        _check(self.basis, BASES, "basis")
        for nutrient, amount in self.amounts:
            _check(nutrient, tuple(NUTRIENTS), "nutrient")
            if amount < 0:
                raise BadField(f"{nutrient} of {self.food!r} is {amount}; it cannot be below zero")

    @property
    def known(self) -> tuple[str, ...]:
        """Names of the nutrients that are known."""
        return tuple(nutrient for nutrient, _ in self.amounts)

    def get(self, nutrient: str) -> Figure:
        """Look up one nutrient's amount in 100 g of the edible part.

        Parameters
        ----------
        nutrient
            A name in NUTRIENTS.

        Returns
        -------
        Figure
            The amount; unit 'kcal/100 g', 'g/100 g', 'mg/100 g' or 'µg/100 g'.

        Raises
        ------
        MissingFact
            If the source gives no figure for it.
        BadField
            If there is no such nutrient.
        """
        _check(nutrient, tuple(NUTRIENTS), "nutrient")
        for name, amount in self.amounts:
            if name == nutrient:
                unit = f"{NUTRIENTS[nutrient]}/100 g"
                return Figure(amount, unit, self.source, self.basis, self.note)
        raise MissingFact(f"nobody has a figure for {nutrient} of {self.food!r}")


@dataclass(frozen=True, slots=True)
class PieceWeight:
    """What one piece of a food weighs (`weight`, in g), by size, and what that weight stands for."""

    size: str
    weight: Figure
    weight_is: WeightIs

    def __post_init__(self) -> None:
        if self.weight.value <= 0:
            raise BadField(f"a {self.size!r} piece weighs {self.weight.value} g; write more than zero")


@dataclass(frozen=True, slots=True)
class Density:
    """What 1 ml of a food weighs (`weight`, in g/ml) in a form such as chopped, packed or cooked."""

    form: str
    weight: Figure

    def __post_init__(self) -> None:
        if self.weight.value <= 0:
            raise BadField(f"density {self.form!r} is {self.weight.value} g/ml; write more than zero")


@dataclass(frozen=True, slots=True)
class Keeping:
    """How many days a food keeps in a place and state.

    `least_days` is None where the source gives a greatest time only. Freezer times are about quality.
    """

    place: str
    state: str
    least_days: int | None
    most_days: int
    source: str
    basis: str
    note: str = ""

    def __post_init__(self) -> None:
        _check(self.place, PLACES, "place")
        _check(self.state, STATES, "state")
        _check(self.basis, BASES, "basis")
        if self.most_days < 0 or (self.least_days is not None and not 0 <= self.least_days <= self.most_days):
            raise BadField(f"keeping time {self.least_days} to {self.most_days} days is not a range")


@dataclass(frozen=True, slots=True)
class Freezing:
    """How a food takes freezing, `frozen_as` what (raw, cooked alone), and what to do about it."""

    freezes: FreezesHow
    frozen_as: str
    goes_wrong: str
    remedy: str
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class AllergenFlag:
    """A major allergen that a food holds by nature, or by the usual recipe of the product."""

    allergen: str
    why: str
    source: str
    basis: str

    def __post_init__(self) -> None:
        _check(self.allergen, ALLERGENS, "allergen")


@dataclass(frozen=True, slots=True)
class CookingYield:
    """Cooked weight as a share of the weight before cooking, by method.

    `yield_pct` is per cent of the weight `before`; `moisture_change_pct` and `fat_change_pct` are in
    per cent of the weight before cooking, None where nobody has them; `least_pct` and `most_pct` span
    the source's own samples, `samples` counts them.
    """

    method: str
    before: str
    yield_pct: Fraction
    source: str
    basis: str
    moisture_change_pct: Fraction | None = None
    fat_change_pct: Fraction | None = None
    least_pct: Fraction | None = None
    most_pct: Fraction | None = None
    samples: int | None = None
    note: str = ""
