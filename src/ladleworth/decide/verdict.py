"""What the judge says, and how a plan is read: which pot a helping comes from, what a batch takes."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.decide.answer import Batch, Costs, Drawing, Helping, Plan
from ladleworth.decide.question import Question, Version

Pot = tuple[int, str, str]
"""(cooking day, dish, version): the batch that a portion comes from."""


@dataclass(frozen=True, slots=True)
class Breach:
    """A rule that a plan does not keep: the rule's name, and what is wrong in words."""

    rule: str
    what: str

    def __str__(self) -> str:
        return f"[{self.rule}] {self.what}"


@dataclass(frozen=True, slots=True)
class Verdict:
    """Every breach found (none: the plan stands), and what the plan costs in exact cents."""

    breaches: tuple[Breach, ...]
    costs: Costs

    @property
    def stands(self) -> bool:
        """Say whether the plan keeps every rule."""
        return not self.breaches


def need(version: Version, food: str, portions: int) -> int:
    """How much of a food a batch takes, as bought.

    Parameters
    ----------
    version, food, portions
        The version cooked, the food, the number of standard portions.

    Returns
    -------
    int
        Milligrams or pieces; a fraction of either is rounded up to a whole one per batch.
    """
    return math.ceil(version.needs[food] * portions)


def hands_on_min(version: Version, portions: int) -> Fraction:
    """Hands-on minutes of a batch: a fixed part and a part per portion."""
    return version.fixed_min + version.per_portion_min * portions


def session_min(question: Question, plan: Plan, day: int) -> Fraction:
    """Hands-on minutes of a session: its batches, and once for each dish what its versions share."""
    here = [b for b in plan.batches if b.day == day]
    shared = sum((question.dish(name).shared_min for name in {b.dish for b in here}), Fraction(0))
    return shared + sum(
        (hands_on_min(question.version(b.dish, b.version), b.portions) for b in here), Fraction(0)
    )


def pot_of(plan: Plan, day: int | None, dish: str | None, version: str | None) -> Pot | None:
    """Find the batch that a helping or a drawing speaks of; None if it is none, or which one stays open."""
    pots = _pots(plan, day, dish, version)
    return pots[0] if len(pots) == 1 else None


def _pots(plan: Plan, day: int | None, dish: str | None, version: str | None) -> list[Pot]:
    return [
        (b.day, b.dish, b.version)
        for b in plan.batches
        if b.day == day and b.dish == dish and version in (None, b.version)
    ]


def which_pot(plan: Plan, day: int | None, dish: str | None, version: str | None) -> str:
    """Say why `pot_of` finds no batch, in words that go on after the dish's name."""
    versions = list(dict.fromkeys(pot[2] for pot in _pots(plan, day, dish, version)))
    if not versions:
        return "that nobody cooks"
    if len(versions) == 1:
        return f"of day {day}, which stands there more than once"
    return f"of day {day} and does not say which: {' or '.join(versions)}"


def helpings_by_pot(plan: Plan) -> dict[Pot, list[Helping]]:
    """The helpings that come from each batch."""
    taken: dict[Pot, list[Helping]] = defaultdict(list)
    for helping in plan.helpings:
        pot = pot_of(plan, helping.cooked_day, helping.dish, helping.version)
        if pot is not None:
            taken[pot].append(helping)
    return taken


def reserve(question: Question, plan: Plan) -> dict[Pot, int]:
    """Whole standard portions of each batch that nobody eats within the days; below 0: eaten, but never cooked.

    What is over of less than a portion, where appetites are no whole numbers, is shared out among the containers.
    """
    taken = helpings_by_pot(plan)
    left = {}
    for batch in plan.batches:
        pot = (batch.day, batch.dish, batch.version)
        eaten = sum((question.appetite(h.eater) for h in taken.get(pot, ())), Fraction(0))
        left[pot] = math.floor(batch.portions - eaten)
    return left


@dataclass(frozen=True, slots=True)
class Held:
    """A container with food in it on some night: how much it holds, and whether it lies in the freezer."""

    volume_ml: int
    frozen: bool


def held_on(question: Question, plan: Plan, night: int) -> list[Held]:
    """List the containers in use after the slots of a day.

    Tomorrow's frozen portions have been taken out to thaw: they are in a container but not in the freezer. What
    is not eaten of portions on hand is thrown out on the evening of its last day.
    """
    held = []
    for pot, helpings in helpings_by_pot(plan).items():
        if pot[0] > night:
            continue
        volume = question.version(*pot[1:]).volume_ml
        for helping in helpings:
            if helping.day > night:
                size = math.ceil(volume * question.appetite(helping.eater))
                held.append(Held(size, helping.frozen and helping.day > night + 1))
    for (cooked, dish, version), portions in reserve(question, plan).items():
        if cooked <= night:
            held += [Held(question.version(dish, version).volume_ml, frozen=True)] * max(0, portions)
    for lot in question.portions:
        days = [h.day for h in plan.helpings if h.lot == lot.name]
        held += [Held(lot.volume_ml, lot.frozen and day > night + 1) for day in days if day > night]
        if lot.last_day is None or lot.last_day > night:
            held += [Held(lot.volume_ml, lot.frozen)] * max(0, lot.portions - len(days))
    return held


def portions_held(question: Question, plan: Plan, day: int) -> tuple[int, int]:
    """Portions in containers, and those of them in the freezer, after the slots of a day."""
    held = held_on(question, plan, day)
    return len(held), sum(one.frozen for one in held)


def drawn_by_batch(question: Question, plan: Plan) -> Counter[tuple[Pot, str]]:
    """What is drawn for each batch of each food, mg or pieces; a drawing of no known batch is left out."""
    offers = {o.name: o.food for o in question.offers}
    lots = {lot.name: lot.food for lot in question.lots}
    drawn: Counter[tuple[Pot, str]] = Counter()
    for drawing in plan.drawings:
        pot = pot_of(plan, drawing.day, drawing.dish, drawing.version)
        if pot is not None:
            food = lots[drawing.source] if drawing.bought_day is None else offers[drawing.source]
            drawn[pot, food] += drawing.quantity
    return drawn


def slot_words(helping: Helping) -> str:
    """Name a helping's slot."""
    return f"{helping.eater} {helping.meal} day {helping.day}"


def batch_words(batch: Batch | Drawing) -> str:
    """Name a batch, or the batch of a drawing."""
    version = f" ({batch.version})" if batch.version else ""
    return f"{batch.dish}{version} day {batch.day}"
