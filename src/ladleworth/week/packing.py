"""How a batch is named in the ledger, and into which containers its portions go. Pure."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import floor, lcm

from ladleworth.decide import Batch, Helping, Plan
from ladleworth.decide.verdict import Pot, helpings_by_pot, pot_of
from ladleworth.errors import LedgerError
from ladleworth.household import Kitchen
from ladleworth.ledger import Ledger, size_of, size_words

__all__ = [
    "THAWING",
    "Packed",
    "batch_id",
    "dish_of",
    "is_split",
    "lot_eaten",
    "packed",
    "planned_id",
    "size_of",
    "size_words",
]

THAWING = " (thawing)"
"""Ends the name of portions that the question has apart from their lot, since they lie out to thaw already."""


@dataclass(frozen=True, slots=True)
class Packed:
    """`count` containers of a batch, chilled or frozen, each with `size` standard portions in it.

    `weights` are whole numbers that are to one another as what the batch's entries hold; its cents are shared by
    them, so that what is over of less than a portion is shared out as well.
    """

    frozen: bool
    size: Fraction
    count: int
    weight: int

    @property
    def words(self) -> str:
        """How its lot is told from the batch's others: 'chilled', 'frozen 1/2'."""
        return ("frozen" if self.frozen else "chilled") + size_words(self.size)


def batch_id(dish: str, when: date, version: str | None = None) -> str:
    """The name of a batch in the ledger: the dish and its cooking day, and the version where a batch is split."""
    return f"{dish} {when}" + (f" {version}" if version else "")


def dish_of(item: str) -> str:
    """The dish of a batch named so."""
    return item.split(" ")[0]


def is_split(plan: Plan, day: int, dish: str) -> bool:
    """Say whether a plan cooks a dish in several versions on a day."""
    return sum((batch.day, batch.dish) == (day, dish) for batch in plan.batches) > 1


def planned_id(kitchen: Kitchen, plan: Plan, pot: Pot) -> str:
    """The ledger's name of a batch of the plan."""
    day, dish, version = pot
    when = kitchen.household.date_of(day)
    return batch_id(dish, when, version if is_split(plan, day, dish) else None)


def packed(kitchen: Kitchen, plan: Plan, batch: Batch) -> tuple[Packed, ...]:
    """Say into which containers a batch goes.

    Parameters
    ----------
    kitchen, plan, batch
        The kitchen, whose eaters have appetites; a plan; one of its batches.

    Returns
    -------
    tuple of Packed
        Chilled ones first, standard portions first. Each helping is one container, of its eater's appetite; whole
        standard portions that nobody eats within the days are frozen.
    """
    appetites = {eater.name: eater.appetite for eater in kitchen.household.eaters}
    counts: Counter[tuple[bool, Fraction]] = Counter()
    eaten = Fraction(0)
    for helping in helpings_by_pot(plan).get((batch.day, batch.dish, batch.version), ()):
        size = appetites.get(helping.eater, Fraction(1))
        counts[helping.frozen, size] += 1
        eaten += size
    counts[True, Fraction(1)] += max(0, floor(batch.portions - eaten))
    kinds = sorted(
        (kind for kind in counts if counts[kind]), key=lambda kind: (kind[0], kind[1] != 1, kind[1])
    )
    whole = lcm(*(size.denominator for _, size in kinds))
    return tuple(
        Packed(frozen, size, counts[frozen, size], int(counts[frozen, size] * size * whole))
        for frozen, size in kinds
    )


def lot_eaten(kitchen: Kitchen, plan: Plan, ledger: Ledger, helping: Helping) -> str:
    """Find the lot of which a planned helping takes a container.

    Raises
    ------
    LedgerError
        If its batch has not been cooked.
    """
    if helping.lot is not None:
        return helping.lot.removesuffix(THAWING)
    pot = pot_of(plan, helping.cooked_day, helping.dish, helping.version)
    name = "" if pot is None else planned_id(kitchen, plan, pot)
    if name not in ledger.batches:
        raise LedgerError(f"{name} has not been cooked; enter day {helping.cooked_day}'s cooking first")
    eater = next((eater for eater in kitchen.household.eaters if eater.name == helping.eater), None)
    size = Fraction(1) if eater is None else eater.appetite
    kept = f"{name} {'frozen' if helping.frozen else 'chilled'}"
    sized = kept + size_words(size)
    return sized if ledger.has_lot(sized) else kept
