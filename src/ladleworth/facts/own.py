"""The kitchen's own foods, laid over the table."""

from __future__ import annotations

from dataclasses import dataclass

from ladleworth.errors import BadField
from ladleworth.facts.records import (
    AllergenFlag,
    Composition,
    CookingYield,
    Density,
    Figure,
    Food,
    Freezing,
    Keeping,
    PieceWeight,
)


@dataclass(frozen=True, slots=True)
class OwnFood:
    """A food the kitchen adds, or knows better than the table does.

    Whatever is left out stays as the table has it, or absent for a new food. The first piece weight and
    the first density are the ones taken when no size or form is asked for. `allergens` left at None says
    nothing (the label has to be read); a tuple replaces the table's flags.
    """

    food: Food
    composition: Composition | None = None
    edible_fraction: Figure | None = None
    pieces: tuple[PieceWeight, ...] = ()
    densities: tuple[Density, ...] = ()
    keeping: tuple[Keeping, ...] = ()
    freezing: Freezing | None = None
    allergens: tuple[AllergenFlag, ...] | None = None
    yields: tuple[CookingYield, ...] = ()
    read_label: bool | None = None

    def __post_init__(self) -> None:
        if not self.food.own:
            raise BadField(f"{self.food.id!r} is given as the kitchen's own but not marked own=True")
        if self.composition is not None and self.composition.food != self.food.id:
            raise BadField(f"{self.food.id!r} carries the composition of {self.composition.food!r}")
        if self.edible_fraction is not None and not 0 < self.edible_fraction.value <= 1:
            raise BadField(
                f"edible fraction of {self.food.id!r} is {self.edible_fraction.value}; "
                "write a number above 0 and at most 1"
            )
