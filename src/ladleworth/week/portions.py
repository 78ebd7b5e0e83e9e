"""Into which portions a batch of a plan goes, and which containers are clean for them. Pure."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from math import floor
from typing import TYPE_CHECKING

from ladleworth.decide import Batch, Plan
from ladleworth.decide.verdict import held_on, helpings_by_pot
from ladleworth.divide import Portion
from ladleworth.household import Kitchen
from ladleworth.household.rules import Container

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


def portions_of(kitchen: Kitchen, plan: Plan, batch: Batch) -> tuple[Portion, ...]:
    """List into what a batch goes by the plan, in the order in which it is eaten.

    Parameters
    ----------
    kitchen, plan, batch
        The kitchen, whose eaters have appetites; a plan; one of its batches.

    Returns
    -------
    tuple of Portion
        Each helping is one, of its eater's appetite, and needs no container where it is eaten on the cooking day; then
        whole standard portions that nobody eats within the days, frozen: as many and as large as `packed` has them.
    """
    appetites = {eater.name: eater.appetite for eater in kitchen.household.eaters}
    helpings = helpings_by_pot(plan).get((batch.day, batch.dish, batch.version), [])
    found = [
        Portion(
            appetites.get(helping.eater, Fraction(1)),
            helping.frozen,
            helping.day > batch.day or helping.frozen,
            f"{helping.eater} {helping.meal}",
            kitchen.household.date_of(helping.day),
        )
        for helping in sorted(helpings, key=lambda one: (one.frozen, one.day))
    ]
    eaten = sum((portion.size for portion in found), Fraction(0))
    found += [Portion(frozen=True, who="in reserve")] * max(0, floor(batch.portions - eaten))
    return tuple(found) or (Portion(),) * batch.portions


def clean_containers(
    kitchen: Kitchen, week: PlannedWeek | None = None, batch: Batch | None = None
) -> tuple[Container, ...] | None:
    """Give the containers that are clean on the evening of the batch, by size; None where no sizes are stated.

    What else the plan keeps that night lies in the smallest ones that hold it, the fullest portions first. Without a plan
    all of them are taken as clean.
    """
    rules = kitchen.household.rules
    if not rules.container_sizes:
        return None
    sizes = sorted(rules.container_sizes, key=lambda one: one.capacity_ml(rules.headspace))
    left = Counter({at: one.count for at, one in enumerate(sizes)})
    if week is not None and batch is not None:
        held = _held_beside(week, batch)
        for volume in sorted(held, reverse=True):
            fits = [
                at for at, one in enumerate(sizes) if left[at] and one.capacity_ml(rules.headspace) >= volume
            ]
            if fits:
                left[fits[0]] -= 1
    return tuple(replace(one, count=left[at]) for at, one in enumerate(sizes))


def _held_beside(week: PlannedWeek, batch: Batch) -> list[int]:
    """List what lies in containers after the meals of a batch's day but for the batch itself, in ml each."""
    plan = week.plan
    own = set(helpings_by_pot(plan).get((batch.day, batch.dish, batch.version), ()))
    others = replace(
        plan,
        batches=tuple(one for one in plan.batches if one != batch),
        helpings=tuple(one for one in plan.helpings if one not in own),
    )
    return [one.volume_ml for one in held_on(week.question, others, batch.day)]
