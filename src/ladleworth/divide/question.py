"""What is asked when a batch is divided, and the answer, as frozen records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from ladleworth.dish.dish import Dish, Variant
from ladleworth.divide.containers import Fit
from ladleworth.divide.density import Density
from ladleworth.divide.heaps import Heap
from ladleworth.divide.labels import Label
from ladleworth.divide.layers import Layer
from ladleworth.divide.making import PartMade
from ladleworth.divide.measures import Measure
from ladleworth.divide.phases import Phases
from ladleworth.divide.readings import Reading
from ladleworth.divide.rooms import Filling
from ladleworth.errors import BadField
from ladleworth.facts import FoodTable
from ladleworth.household.rules import HEADSPACE_SHARE, Container


@dataclass(frozen=True, slots=True)
class Portion:
    """A portion to be dealt out.

    Parameters
    ----------
    size
        What it is of a standard portion, above 0.
    frozen, kept
        Whether it is frozen, and whether it needs a container: what is eaten at once needs none.
    who, day
        Whose it is, for which meal, and the day of it; '' and None for nobody's.
    """

    size: Fraction = Fraction(1)
    frozen: bool = False
    kept: bool = True
    who: str = ""
    day: date | None = None

    def __post_init__(self) -> None:
        if self.size <= 0:
            raise BadField(f"a portion is {self.size} of a standard one; write a size above 0")
        if self.frozen and not self.kept:
            raise BadField("a portion that is frozen needs a container; it is kept")


@dataclass(frozen=True, slots=True)
class DivideQuestion:
    """A batch to be divided.

    Parameters
    ----------
    dish, variant
        The dish, scaled to the batch, and the swaps chosen.
    foods
        The food table.
    portions
        Into what it goes.
    cooked_on, batch
        The day it is cooked, and which batch of that day it is (0 is the first): what its codes say.
    readings
        What the scale has said of this batch, the earliest first.
    methods
        By food id, how it is cooked, for what is reckoned.
    scoops
        Numbers of the scoops that there are; empty: any that is made.
    containers
        The clean containers by size; None where the household states none by size.
    filling
        How full they may be filled.
    """

    dish: Dish
    variant: Variant
    foods: FoodTable = field(compare=False)
    portions: tuple[Portion, ...]
    cooked_on: date
    batch: int = 0
    readings: tuple[Reading, ...] = ()
    methods: Mapping[str, str] = field(default_factory=dict)
    scoops: tuple[int, ...] = ()
    containers: tuple[Container, ...] | None = None
    filling: Filling = field(default_factory=lambda: Filling(HEADSPACE_SHARE))

    def __post_init__(self) -> None:
        if not self.portions:
            raise BadField(f"{self.dish.name} is divided into no portions; give 1 or more")

    @property
    def weights(self) -> tuple[Fraction, ...]:
        """How much each portion counts."""
        return tuple(portion.size for portion in self.portions)


@dataclass(frozen=True, slots=True)
class SizeShare:
    """What a portion of one size gets of a heap: `exact_mg` before rounding, what it fills, and how to measure it out.

    `volume_ml`, `scoop` and `spoon` are None where nobody knows the weight, or it is dealt out to the piece.
    """

    size: Fraction
    count: int
    exact_mg: Fraction | None
    pieces: tuple[Fraction, ...]
    volume_ml: Fraction | None
    scoop: Measure | None
    spoon: Measure | None


@dataclass(frozen=True, slots=True)
class Dealt:
    """A heap as it is dealt out.

    Parameters
    ----------
    heap
        What there is.
    shares_mg
        What each portion gets, in mg; empty where nobody knows.
    pieces
        The same in pieces; empty where it is dealt out by weight.
    density
        What a millilitre of it weighs.
    sizes
        The shares by size of portion, the largest first.
    """

    heap: Heap
    shares_mg: tuple[int, ...]
    pieces: tuple[Fraction, ...]
    density: Density
    sizes: tuple[SizeShare, ...]


@dataclass(frozen=True, slots=True)
class Divided:
    """A batch divided.

    Parameters
    ----------
    dish, name, version, swaps
        The dish's id and name, the version's name, and the swap chosen for each part that has some.
    portions
        Into what it goes; every share stands in their order.
    parts
        The parts as reckoned.
    dealt
        Every heap with its shares; solids stand before sauces.
    phases
        Solids first, then the liquid; None where there is no such pair.
    volumes_ml
        What each portion fills in its container; empty where a weight is not known.
    fit
        Which container each kept portion goes into; None where sizes or volumes are not known, and `why_no_fit` says it.
    chilled, frozen
        The order of filling for the containers that are kept so; empty where there are none.
    labels
        What stands on each container.
    """

    dish: str
    name: str
    version: str
    swaps: tuple[tuple[str, str], ...]
    portions: tuple[Portion, ...]
    parts: tuple[PartMade, ...]
    dealt: tuple[Dealt, ...]
    phases: Phases | None
    volumes_ml: tuple[int, ...]
    fit: Fit | None
    why_no_fit: str
    chilled: tuple[Layer, ...]
    frozen: tuple[Layer, ...]
    labels: tuple[Label, ...]
