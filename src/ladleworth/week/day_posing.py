"""From a plan to the question of one of its cooking days: batches, containers, what has to thaw. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil
from typing import TYPE_CHECKING

from ladleworth.cookday.pose import PosedDay, pose_day
from ladleworth.cookday.to_cook import BatchKey, BatchToCook
from ladleworth.dish.dish import Dish, Variant
from ladleworth.errors import BadField, NotYet
from ladleworth.facts import Measure
from ladleworth.facts.limits import THAWING, THAWING_SMALL, cited, limit
from ladleworth.household import barred
from ladleworth.ledger import LotUnit, Spot
from ladleworth.units import show_count, show_mass, show_minutes
from ladleworth.week.cooking import CookingDay, ToCook, cooking_of, variant_of

if TYPE_CHECKING:
    from ladleworth.household import Kitchen
    from ladleworth.week.planning import PlannedWeek

FROM_FROZEN = "frozen"
"""The aisle of foods that go into the pot as they come out of the freezer, unless a step says otherwise."""

LARGE_MG, SMALL_MG = 2_268_000, 907_185
"""Five pounds, for each of which a large frozen item takes a day to thaw in the fridge (`facts.limits`, THAWING), and the
two pounds up to which a pack is small (THAWING_SMALL)."""


@dataclass(frozen=True, slots=True)
class ToThaw:
    """A food on hand in the freezer that a session cooks with; `lead_min` is how long before it has to come out.

    `quantity` is in mg, or pieces where `pieces`.
    """

    food: str
    name: str
    quantity: int
    pieces: bool
    lead_min: int

    @property
    def words(self) -> str:
        """What to do and when."""
        amount = show_count(self.quantity) if self.pieces else show_mass(self.quantity)
        source = cited(limit(THAWING_SMALL if self.pieces or self.quantity <= SMALL_MG else THAWING))
        return (
            f"Put {amount} {self.name} from the freezer into the fridge, in a dish that catches what drips, "
            f"{show_minutes(self.lead_min)} before the cooking {source}"
        )


@dataclass(frozen=True, slots=True)
class PosedSession:
    """A session's cooking day as a question, with all that a cook should know beside it."""

    day: int
    when: date
    posed: PosedDay
    to_thaw: tuple[ToThaw, ...] = ()


def pose_session(week: PlannedWeek, day: int, *, clean_by: int | None = None) -> PosedSession:
    """Pose a session's cooking day.

    Parameters
    ----------
    week
        A plan.
    day
        The session's day number.
    clean_by
        The minute, counted from the start of the session, by which all is done and washed up; None: no such wish.

    Returns
    -------
    PosedSession
        The question, its texts, and what has to come out of the freezer the day before.

    Raises
    ------
    BadField
        If there is no session on that day.
    NotYet
        If the plan cooks nothing on it, or there is no plan.
    """
    session = _session(week, day)
    kitchen = week.kitchen
    dishes = {dish.id: dish for dish in kitchen.dishes}
    made = [(dishes[batch.dish], variant_of(dishes[batch.dish], batch.version)) for batch in session.batches]
    batches = [
        BatchToCook(
            dish,
            variant,
            batch.portions,
            batch.chilled,
            batch.frozen,
            _apart_from(kitchen, dish, variant, made),
        )
        for batch, (dish, variant) in zip(session.batches, made, strict=True)
    ]
    posed = pose_day(batches, kitchen.household.equipment, kitchen.foods, clean_by=clean_by)
    return PosedSession(day, session.when, posed, tuple(_to_thaw(week, day, session.batches)))


def _session(week: PlannedWeek, day: int) -> CookingDay:
    sessions = cooking_of(week)
    found = next((session for session in sessions if session.day == day), None)
    if found is None:
        days = ", ".join(str(session.day) for session in sessions)
        raise BadField(f"there is no session on day {day}; the sessions are on day {days}")
    if not found.batches:
        raise NotYet(f"the plan cooks nothing on day {day}, {found.when}")
    return found


def _apart_from(
    kitchen: Kitchen, dish: Dish, variant: Variant, made: Sequence[tuple[Dish, Variant]]
) -> frozenset[BatchKey]:
    """Name the batches that somebody never has who may have this one: exclusions are absolute, in a pan too."""
    eaters = [
        eater for eater in kitchen.household.eaters if barred(eater, dish, variant, kitchen.foods) is None
    ]
    return frozenset(
        (other.id, version.name)
        for other, version in made
        if any(barred(eater, other, version, kitchen.foods) is not None for eater in eaters)
    )


def _to_thaw(week: PlannedWeek, day: int, batches: Sequence[ToCook]) -> Iterator[ToThaw]:
    """List what a session draws from the freezer's stock, but for what is sold frozen and cooked so."""
    kitchen = week.kitchen
    frozen = {
        holding.lot.id: holding.lot
        for holding in kitchen.ledger.on_hand(kitchen.household.date_of(day))
        if holding.standing.spot is Spot.FREEZER and holding.lot.unit is not LotUnit.PORTION
    }
    amounts: defaultdict[str, int] = defaultdict(int)
    cooked = {batch.dish for batch in batches}
    for drawing in week.plan.drawings:
        lot = frozen.get(drawing.source) if drawing.bought_day is None else None
        if lot is not None and drawing.day == day and drawing.dish in cooked:
            amounts[lot.item] += drawing.quantity
    for item, quantity in amounts.items():
        food = kitchen.foods.get(item)
        if food.aisle == FROM_FROZEN:
            continue
        pieces = food.measured_in is Measure.PIECES
        days = 1 if pieces else ceil(quantity / LARGE_MG)
        yield ToThaw(item, food.name, quantity, pieces, days * int(limit(THAWING).value) * 60)
