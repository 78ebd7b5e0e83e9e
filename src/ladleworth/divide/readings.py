"""What the scale says of a batch: a part or the whole pot, less the pot; or how many pieces came out of the oven."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ladleworth.errors import BadField


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading of the scale, or a count.

    Parameters
    ----------
    parts
        The parts that were weighed together, in the order of the dish: one, or all that are in the pot.
    gross
        Milligrams on the scale, pot and all; or pieces.
    tare
        What the empty pot weighs, in mg.
    in_pieces
        Whether pieces were counted; then of one part only, and without a tare.
    """

    parts: tuple[str, ...]
    gross: int
    tare: int = 0
    in_pieces: bool = False

    def __post_init__(self) -> None:
        what = " and ".join(self.parts)
        if not self.parts or len(set(self.parts)) < len(self.parts):
            raise BadField(f"a reading is of {what or 'nothing'}; name each part once")
        if self.gross <= 0 or self.tare < 0:
            raise BadField(
                f"{what}: the scale reads {self.gross}, the pot {self.tare}; write amounts above 0"
            )
        if self.tare >= self.gross:
            raise BadField(
                f"{what}: the empty pot weighs {self.tare / 1e6:g} kg, no less than the {self.gross / 1e6:g} kg that it "
                "weighs filled; write the filled weight first, and the empty pot's as the tare"
            )
        if self.in_pieces and (self.tare or len(self.parts) > 1):
            raise BadField(f"{what}: pieces are counted for one part, without a pot; leave the tare out")

    @property
    def net(self) -> int:
        """What the food weighs, in mg; or how many pieces there are."""
        return self.gross - self.tare


def standing(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """Leave out the readings of which a part was weighed anew.

    Parameters
    ----------
    readings
        A batch's readings, the earliest first.

    Returns
    -------
    tuple of Reading
        Those that still count, in the same order. One of several parts falls as a whole when one of them is weighed
        again: nobody knows what the others weigh by themselves.
    """
    kept: list[Reading] = []
    weighed: set[str] = set()
    for reading in reversed(tuple(readings)):
        if not weighed & set(reading.parts):
            kept.append(reading)
        weighed |= set(reading.parts)
    return tuple(reversed(kept))
