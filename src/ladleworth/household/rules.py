"""Shops, equipment, containers, sessions and the rules of the house."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import floor

from ladleworth.errors import BadField
from ladleworth.household.people import Days

HEADSPACE_SHARE = Fraction(1, 10)
"""The share of a container that stays empty where its depth is not known: common practice, no source."""

HEADSPACE_SOURCE = "nchfp-headspace"
SMALL_HEADSPACE_MM, LARGE_HEADSPACE_MM = Fraction("12.7"), Fraction("25.4")
SMALL_ML = 473
"""Headspace of a container of known depth, half an inch up to a pint (473 ml) and one inch above.

Source: NCHFP, Headspace to Allow Between Packed Food and Closure (`nchfp-headspace`, read): liquid pack, wide opening,
pint and quart. Between a pint and a quart the quart's is taken, and above a quart too, of which the table says nothing:
our reading.
"""

WEEK_DAYS = 7
"""Days of a span over which sameness and nutrients are counted."""


@dataclass(frozen=True, slots=True)
class Session:
    """When the cook cooks, and for how many hands-on minutes at the most.

    `length_min` is how long the session lasts by the clock (None: not stated, so that oven and burners are not limited);
    `cents` is the price of cooking on that day at all.
    """

    days: Days
    minutes: int
    length_min: int | None = None
    cents: int = 0


@dataclass(frozen=True, slots=True)
class Container:
    """`count` containers that hold `size_ml` to the brim and are `depth_mm` deep inside (None: not measured)."""

    size_ml: int
    count: int
    depth_mm: int | None = None

    def __post_init__(self) -> None:
        if self.size_ml < 1 or self.count < 0:
            raise BadField(
                f"{self.count} containers of {self.size_ml} ml; write a size above 0 and 0 or more"
            )
        if self.depth_mm is not None and self.depth_mm <= self._gap_mm:
            raise BadField(
                f"a container of {self.size_ml} ml is {self.depth_mm} mm deep, no more than its headspace; "
                "write the depth inside, such as 6 cm"
            )

    @property
    def _gap_mm(self) -> Fraction:
        return SMALL_HEADSPACE_MM if self.size_ml <= SMALL_ML else LARGE_HEADSPACE_MM

    def capacity_ml(self, headspace: Fraction) -> int:
        """Tell what it holds with room left at the top.

        Parameters
        ----------
        headspace
            The share to leave empty where the depth is not known, 0 to below 1. Of known depth the published
            headspace is left, with straight sides.

        Returns
        -------
        int
            Millilitres, rounded down; 1 at the least.
        """
        empty = headspace if self.depth_mm is None else self._gap_mm / self.depth_mm
        return max(1, floor(self.size_ml * (1 - empty)))


@dataclass(frozen=True, slots=True)
class Shop:
    """A shop and what one visit costs (fare, or what the cook's minutes are worth), in cents."""

    name: str
    trip_cents: int = 0


@dataclass(frozen=True, slots=True)
class Vessel:
    """A pot, pan or dish of the kitchen with its brim volume in millilitres, and how many there are of it."""

    name: str
    volume_ml: int
    count: int = 1


@dataclass(frozen=True, slots=True)
class OvenPace:
    """Minutes to heat and to cool the oven by 10 °C, and by how many °C a dish may have it off. None: not stated."""

    heating_min: Fraction | None = None
    cooling_min: Fraction | None = None
    tolerance_c: int | None = None


@dataclass(frozen=True, slots=True)
class Equipment:
    """The equipment card: measured once, used by every stage. None: not stated.

    `cooks` are the people who cook at once. `counter` is how many containers can stand open and cool (None: enough for
    all). `room_c` is how warm the kitchen is, `wash_min` the minutes to wash a tool. `slower` is how much longer than
    stated hands-on work may take without a limit being missed, as a share.
    """

    burners: int | None = None
    oven_shelves: int | None = None
    fridge_c: Fraction | None = None
    freezer_c: Fraction | None = None
    microwave_w: int | None = None
    vessels: tuple[Vessel, ...] = ()
    cooks: int = 1
    boards: int = 1
    counter: int | None = None
    oven: OvenPace = field(default_factory=OvenPace)
    room_c: Fraction | None = None
    wash_min: int | None = None
    slower: Fraction | None = None

    def __post_init__(self) -> None:
        if self.cooks < 1 or self.boards < 0:
            raise BadField(
                f"{self.cooks} cooks and {self.boards} boards; write 1 or more cooks, 0 or more boards"
            )

    def vessel(self, name: str) -> Vessel | None:
        """Find a vessel by its name, in capitals or small letters; None if the card has none."""
        return next((one for one in self.vessels if one.name.casefold() == name.casefold()), None)


@dataclass(frozen=True, slots=True)
class Rules:
    """House rules. None: no limit (or, for `meal_out_cents`, no meals out). Money in cents.

    `container_sizes` (empty: all alike) make up `containers`; `headspace` is the share that stays empty in one of
    unknown depth. `freezing_load` is the most portions put into the freezer on a day. `week_days` are the days of a
    span over which `most_times`, repeats and goals are counted (None: over all days). `splits` is among how many
    versions a batch may be split where the dish does not say.
    """

    containers: int | None = None
    freezer_places: int | None = None
    budget_cents: int | None = None
    meal_out_cents: int | None = None
    in_a_row: int | None = 2
    most_times: int | None = None
    container_sizes: tuple[Container, ...] = ()
    headspace: Fraction = HEADSPACE_SHARE
    fridge_room_ml: int | None = None
    freezer_room_ml: int | None = None
    freezing_load: int | None = None
    week_days: int | None = WEEK_DAYS
    splits: int = 1

    def __post_init__(self) -> None:
        if not 0 <= self.headspace < 1:
            raise BadField(
                f"headspace is {self.headspace} of a container; write a share from 0% to below 100%"
            )
        if self.splits < 1:
            raise BadField(f"a batch is split among {self.splits} versions; write 1 or more")

    @property
    def by_volume(self) -> bool:
        """Whether any rule goes by what a portion fills."""
        return (
            bool(self.container_sizes) or self.fridge_room_ml is not None or self.freezer_room_ml is not None
        )


@dataclass(frozen=True, slots=True)
class Wishes:
    """Named, priced additions to the plain question, all off by default (see docs/decide.md).

    `carried_share` is the share of its cost at which what is carried over counts (1: in full). `hour_cents` is for each hands-on hour; `liking_cents` pairs a dish's id with what is taken off for each
    portion of it (below zero: added).
    """

    repeat_cents: int = 0
    hour_cents: int = 0
    reserve_portions: int = 0
    reserve_cents: int = 0
    carried_share: Fraction = Fraction(1)
    liking_cents: tuple[tuple[str, int], ...] = ()

    @property
    def minute_cents(self) -> Fraction:
        """What a hands-on minute costs, exact."""
        return Fraction(self.hour_cents, 60)
