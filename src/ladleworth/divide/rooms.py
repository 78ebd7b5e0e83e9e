"""What a container takes of food: its size less the room at the top, and no deeper than the food may stand."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from ladleworth.errors import BadField
from ladleworth.facts.headspace import headspace
from ladleworth.household.rules import Container


@dataclass(frozen=True, slots=True)
class Filling:
    """How containers are filled.

    Parameters
    ----------
    headspace
        The share that stays empty: the household's rule, 0 to below 1.
    depth_limit_mm
        How deep the food may stand for cooling; None: no limit given. It binds containers of known depth.
    """

    headspace: Fraction
    depth_limit_mm: int | None = None

    def __post_init__(self) -> None:
        if not 0 <= self.headspace < 1:
            raise BadField(
                f"headspace is {self.headspace} of a container; write a share from 0% to below 100%"
            )
        if self.depth_limit_mm is not None and self.depth_limit_mm < 1:
            raise BadField(f"food may stand {self.depth_limit_mm} mm deep; write 1 mm or more")

    def gap_mm(self, container: Container, *, frozen: bool) -> Fraction | None:
        """Tell how much room is left at the top, in mm; None for a chilled one of unknown depth.

        A frozen one has the published headspace (`facts.headspace`, liquid pack, wide opening), or the household's share
        of its depth if that is more.
        """
        share = None if container.depth_mm is None else self.headspace * container.depth_mm
        if not frozen:
            return share
        published = headspace(container.size_ml).value
        return published if share is None else max(share, published)

    def room_ml(self, container: Container, *, frozen: bool) -> int:
        """Tell what a container takes, in ml, rounded down; straight sides are taken for granted."""
        depth = container.depth_mm
        if depth is None:
            return max(1, floor(container.size_ml * (1 - self.headspace)))
        gap = self.gap_mm(container, frozen=frozen)
        assert gap is not None
        usable = depth - gap
        if self.depth_limit_mm is not None:
            usable = min(usable, Fraction(self.depth_limit_mm))
        return max(1, floor(container.size_ml * usable / depth))

    def brim_ml(self, volume_ml: int) -> int:
        """Tell how large a container of unknown depth has to be for so much chilled food, in ml, rounded up."""
        return ceil(volume_ml / (1 - self.headspace))


def food_depth_mm(container: Container, volume_ml: Fraction | int) -> Fraction | None:
    """Tell how deep so much food stands in a container with straight sides; None where its depth is not known."""
    if container.depth_mm is None:
        return None
    return Fraction(volume_ml) * container.depth_mm / container.size_ml
