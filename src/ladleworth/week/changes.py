"""What a new plan changes against the rest of the accepted one. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from ladleworth.decide import Batch, Plan, Purchase


@dataclass(frozen=True, slots=True)
class MealChange:
    """A meal that has another dish than before; '' for a meal out."""

    day: int
    eater: str
    meal: str
    before: str
    now: str


@dataclass(frozen=True, slots=True)
class Changes:
    """What is added, dropped, and changed in number: batches as (before, now), purchases likewise; and meals.

    A batch is the same as long as day, dish and version are; a purchase as long as day and offer are.
    """

    batches_added: tuple[Batch, ...] = ()
    batches_dropped: tuple[Batch, ...] = ()
    batches_changed: tuple[tuple[Batch, Batch], ...] = ()
    purchases_added: tuple[Purchase, ...] = ()
    purchases_dropped: tuple[Purchase, ...] = ()
    purchases_changed: tuple[tuple[Purchase, Purchase], ...] = ()
    meals: tuple[MealChange, ...] = ()

    @property
    def none(self) -> bool:
        """Say whether nothing at all is changed."""
        return self == Changes()


def changes(before: Plan, now: Plan) -> Changes:
    """Compare two plans for the same days.

    Parameters
    ----------
    before, now
        The rest of the accepted plan, and the new one, in the same day numbers.

    Returns
    -------
    Changes
        Meals only where both plans have the slot.
    """
    old = {(b.day, b.dish, b.version): b for b in before.batches}
    new = {(b.day, b.dish, b.version): b for b in now.batches}
    had = {(p.day, p.offer): p for p in before.purchases}
    have = {(p.day, p.offer): p for p in now.purchases}
    served = {(h.day, h.eater, h.meal): h.dish or "" for h in before.helpings}
    return Changes(
        tuple(batch for key, batch in new.items() if key not in old),
        tuple(batch for key, batch in old.items() if key not in new),
        tuple((old[key], batch) for key, batch in new.items() if key in old and old[key] != batch),
        tuple(purchase for key, purchase in have.items() if key not in had),
        tuple(purchase for key, purchase in had.items() if key not in have),
        tuple((had[key], one) for key, one in have.items() if key in had and had[key] != one),
        tuple(
            MealChange(h.day, h.eater, h.meal, served[h.day, h.eater, h.meal], h.dish or "")
            for h in now.helpings
            if served.get((h.day, h.eater, h.meal), h.dish or "") != (h.dish or "")
        ),
    )
