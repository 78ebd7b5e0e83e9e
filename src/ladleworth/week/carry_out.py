"""Carry a plan out in the ledger: what is bought, cooked and eaten on a day becomes entries. Pure."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date

from ladleworth.decide import Helping, Plan
from ladleworth.decide.verdict import pot_of
from ladleworth.errors import BadField, LedgerError, MissingFact
from ladleworth.facts import FoodTable
from ladleworth.household import Kitchen
from ladleworth.ledger import (
    Entered,
    Kind,
    Ledger,
    Lot,
    Portions,
    Spot,
    Take,
    buy,
    cook,
    eat,
    fresh_lot_id,
)
from ladleworth.store.keeping_rule import bought_keeping
from ladleworth.week.opened import open_begun, opened_lots
from ladleworth.week.packing import is_split, lot_eaten, packed, planned_id
from ladleworth.week.sources import bought_lot, offers_by_id

COLD_AISLES = frozenset({"dairy-and-eggs", "fish", "meat", "produce"})
"""Aisles whose foods go into the fridge where no keeping time says otherwise (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Done:
    """What carrying out a day's work entered, thing by thing; `ledger` is the ledger afterwards.

    `opened` are the packages that the cooking opened and left in part.
    """

    ledger: Ledger
    entered: tuple[tuple[str, Entered], ...]
    opened: tuple[Entered, ...] = ()


def spot_of(foods: FoodTable, food: str) -> Spot:
    """Where a food goes when it comes home: where its keeping time is for, or by its aisle if it has none."""
    aisle = foods.get(food).aisle
    if aisle == "frozen":
        return Spot.FREEZER
    try:
        keeping = bought_keeping(foods, food)
    except MissingFact:
        keeping = None
    if keeping is not None:
        return Spot(keeping.place)
    return Spot.FRIDGE if aisle in COLD_AISLES else Spot.CUPBOARD


def buy_planned(
    kitchen: Kitchen,
    plan: Plan,
    day: int,
    before: Collection[str] = (),
    paid_cents: Mapping[str, int] | None = None,
) -> Done:
    """Enter a day's purchases as the plan has them.

    Parameters
    ----------
    kitchen
        The kitchen; its ledger is the one to enter into.
    plan
        The plan, whose offers the price book knows.
    day
        The day of the plan (1 is the first).
    before
        Lots that were on hand when the plan was made: none of them is the plan's own purchase.
    paid_cents
        What was really paid for all packages of an offer, by offer id, where it was not the price on record.

    Returns
    -------
    Done
        One lot an offer. Its last day is the day of buying plus the food's keeping days, that day as day 1.

    Raises
    ------
    BadField
        If the day is none of the plan's, or something is paid for that the plan does not buy on it.
    LedgerError
        If something of the day has been bought already.
    """
    _check_day(kitchen, day)
    listed = [purchase.offer for purchase in plan.purchases if purchase.day == day]
    for name in paid_cents or {}:
        if name not in listed:
            raise BadField(
                f"the plan does not buy {name!r} on day {day}; name one of {', '.join(listed) or 'nothing'}"
            )
    offers, when = offers_by_id(kitchen), kitchen.household.date_of(day)
    ledger, entered = kitchen.ledger, []
    for purchase in plan.purchases:
        if purchase.day != day:
            continue
        offer = offers[purchase.offer]
        if bought_lot(ledger, purchase.offer, when, before) is not None:
            raise LedgerError(f"{offer} was bought on {when} already; count the lot if the amount is another")
        keep = kitchen.keep_days.get(offer.food)
        lot = Lot(
            id=fresh_lot_id(ledger, f"{offer.food}-{when:%m%d}"),
            item=offer.food,
            unit=offer.unit,
            spot=spot_of(kitchen.foods, offer.food),
            got_on=when,
            quantity=offer.quantity * purchase.packages,
            cents=(paid_cents or {}).get(offer.id, offer.price_cents * purchase.packages),
            use_by=None if keep is None else kitchen.household.date_of(day + keep - 1),
            packages=purchase.packages,
            shop=offer.shop,
            offer=offer.id,
        )
        act = buy(ledger, when, [lot])
        ledger = act.ledger
        entered.append((offer.id, act))
    return Done(ledger, tuple(entered))


def cook_planned(kitchen: Kitchen, plan: Plan, day: int, before: Collection[str] = ()) -> Done:
    """Enter a day's batches as the plan has them: draws from the planned lots, portions chilled and frozen.

    `before` is as for `buy_planned`.

    Raises
    ------
    BadField
        If the day is none of the plan's.
    LedgerError
        If a planned lot is not there, holds too little or is past its last day, or if a batch of that day has
        been cooked already.
    """
    _check_day(kitchen, day)
    household, when = kitchen.household, kitchen.household.date_of(day)
    dishes = {dish.id: dish for dish in kitchen.dishes}
    ledger, entered = kitchen.ledger, []
    for batch in plan.batches:
        if batch.day != day:
            continue
        pot = (batch.day, batch.dish, batch.version)
        takes = []
        for drawing in plan.drawings:
            if pot_of(plan, drawing.day, drawing.dish, drawing.version) != pot:
                continue
            lot: str | None = drawing.source
            if drawing.bought_day is not None:
                lot = bought_lot(ledger, drawing.source, household.date_of(drawing.bought_day), before)
                if lot is None:
                    raise LedgerError(
                        f"{drawing.source} has not been bought; enter day {drawing.bought_day}'s shopping first"
                    )
            takes.append(Take(str(lot), drawing.quantity))
        dish, name = dishes[batch.dish], planned_id(kitchen, plan, pot)
        portions = []
        for kind in packed(kitchen, plan, batch):
            keeps = dish.freezer_days if kind.frozen else dish.keep_days
            if keeps is None:
                raise LedgerError(
                    f"the plan freezes {dish.name}, which is not for freezing any more; decide anew"
                )
            spot, end = Spot.FREEZER if kind.frozen else Spot.FRIDGE, household.date_of(day + keeps - 1)
            portions.append(Portions(f"{name} {kind.words}", kind.count, spot, end, kind.weight))
        act = cook(ledger, when, name, portions, takes=takes)
        ledger = act.ledger
        split = is_split(plan, day, batch.dish)
        entered.append((f"{batch.dish} ({batch.version})" if split else batch.dish, act))
    opened = []
    after = replace(kitchen, ledger=ledger)
    for lot_id in opened_lots(after, plan, day, [act for _, act in entered], before):
        act = open_begun(kitchen, ledger, day, lot_id)
        ledger = act.ledger
        opened.append(act)
    return Done(ledger, tuple(entered), tuple(opened))


def eat_planned(kitchen: Kitchen, plan: Plan, day: int, before: Collection[str] = ()) -> Done:  # noqa: ARG001  # one signature for all acts
    """Enter a day's helpings as the plan has them; meals out are no food of the house and no entry.

    Raises
    ------
    BadField
        If the day is none of the plan's.
    LedgerError
        If a helping has been entered already, or its batch is not there.
    """
    _check_day(kitchen, day)
    when = kitchen.household.date_of(day)
    ledger, entered = kitchen.ledger, []
    for helping in plan.helpings:
        if helping.day != day or helping.dish is None:
            continue
        lot = lot_eaten(kitchen, plan, ledger, helping)
        if _eaten(ledger, when, helping):
            raise LedgerError(
                f"{helping.eater} has had {helping.meal} on {when} already; undo that entry first"
            )
        act = eat(ledger, when, lot, 1, who=helping.eater, note=helping.meal)
        ledger = act.ledger
        entered.append((f"{helping.eater} {helping.meal}", act))
    return Done(ledger, tuple(entered))


def _check_day(kitchen: Kitchen, day: int) -> None:
    if not 1 <= day <= kitchen.household.days:
        raise BadField(f"the plan has no day {day}; write one from 1 to {kitchen.household.days}")


def _eaten(ledger: Ledger, when: date, helping: Helping) -> bool:
    """Tell whether an eater's meal of a day stands in the ledger."""
    return any(
        (entry.kind, entry.day, entry.who, entry.note) == (Kind.EATEN, when, helping.eater, helping.meal)
        and entry.reverses is None
        and ledger.reversal_of(entry.id) is None
        for entry in ledger.movements
    )


def carry_out(kitchen: Kitchen, plan: Plan) -> Kitchen:
    """Carry out a whole plan in order: shop, cook, eat, day by day. Returns the kitchen as it then stands.

    It writes nothing: this is how a plan is reckoned before it is lived. The kitchen is the one that the plan
    was made for.
    """
    before = frozenset(lot.id for lot in kitchen.ledger.lots)
    for day in range(1, kitchen.household.days + 1):
        for act in (buy_planned, cook_planned, eat_planned):
            kitchen = replace(kitchen, ledger=act(kitchen, plan, day, before).ledger)
    return kitchen


def helpings_of(plan: Plan, day: int) -> tuple[Helping, ...]:
    """Who has what on a day, in the plan's order."""
    return tuple(h for h in plan.helpings if h.day == day)
