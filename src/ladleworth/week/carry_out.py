"""Carry a plan out in the ledger: what is bought, cooked and eaten on a day becomes entries. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from ladleworth.decide import Helping, Plan
from ladleworth.errors import BadField, LedgerError, MissingFact
from ladleworth.facts import FoodTable
from ladleworth.household import Kitchen
from ladleworth.ledger import (
    Entered,
    Kind,
    Ledger,
    Lot,
    Offer,
    Portions,
    Spot,
    Take,
    buy,
    cook,
    eat,
    fresh_lot_id,
    open_package,
)
from ladleworth.store.keeping_rule import bought_keeping

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


def offers_by_id(kitchen: Kitchen) -> Mapping[str, Offer]:
    """All offers of the price book by their ids."""
    return {offer.id: offer for offer in kitchen.prices.offers}


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


def bought_lot(ledger: Ledger, offer: str, when: date, before: Collection[str] = ()) -> str | None:
    """Find the lot of an offer bought on a day, as long as the purchase stands; None if there is none.

    Lots in `before` were on hand already when the plan was made, though bought on the same day.
    """
    for entry in ledger.movements:
        if entry.kind is not Kind.BOUGHT or entry.reverses is not None or entry.day != when:
            continue
        if entry.lot in before:
            continue
        if ledger.holding(entry.lot).lot.offer == offer and ledger.reversal_of(entry.id) is None:
            return entry.lot
    return None


def batch_id(dish: str, when: date) -> str:
    """The name of a batch in the ledger: the dish and its cooking day."""
    return f"{dish} {when}"


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
        takes = []
        for drawing in plan.drawings:
            if (drawing.day, drawing.dish) != (day, batch.dish):
                continue
            lot: str | None = drawing.source
            if drawing.bought_day is not None:
                lot = bought_lot(ledger, drawing.source, household.date_of(drawing.bought_day), before)
                if lot is None:
                    raise LedgerError(
                        f"{drawing.source} has not been bought; enter day {drawing.bought_day}'s shopping first"
                    )
            takes.append(Take(str(lot), drawing.quantity))
        mine = [h for h in plan.helpings if (h.dish, h.cooked_day) == (batch.dish, day)]
        frozen = sum(h.frozen for h in mine) + batch.portions - len(mine)
        dish = dishes[batch.dish]
        name = batch_id(batch.dish, when)
        portions = []
        if batch.portions > frozen:
            end = household.date_of(day + dish.keep_days - 1)
            portions.append(Portions(f"{name} chilled", batch.portions - frozen, Spot.FRIDGE, end))
        if frozen and dish.freezer_days is not None:
            end = household.date_of(day + dish.freezer_days - 1)
            portions.append(Portions(f"{name} frozen", frozen, Spot.FREEZER, end))
        act = cook(ledger, when, name, portions, takes=takes)
        ledger = act.ledger
        entered.append((batch.dish, act))
    opened = []
    for lot_id in _opened_lots(kitchen, plan, day, Done(ledger, tuple(entered)), before):
        act = _open(kitchen, ledger, day, lot_id)
        ledger = act.ledger
        opened.append(act)
    return Done(ledger, tuple(entered), tuple(opened))


def _opened_lots(
    kitchen: Kitchen, plan: Plan, day: int, cooked: Done, before: Collection[str]
) -> tuple[str, ...]:
    """Lots of which a closed package was begun today and of which the plan draws no more on a later day.

    What the plan draws from later stays as it is: `opened_too_long` says where that is too long.
    """
    household, ledger = kitchen.household, cooked.ledger
    later = set()
    for drawing in plan.drawings:
        if drawing.day > day:
            source: str | None = drawing.source
            if drawing.bought_day is not None:
                source = bought_lot(ledger, drawing.source, household.date_of(drawing.bought_day), before)
            later.add(source)
    drawn = dict.fromkeys(m.lot for _, act in cooked.entered for m in act.movements if m.kind is Kind.DRAWN)
    return tuple(
        lot_id
        for lot_id in drawn
        if lot_id not in later
        and (held := ledger.holding(lot_id)).quantity
        and held.standing.opened_on is None
        and held.quantity % (held.lot.quantity // held.lot.packages)
        and _opened_days(kitchen.foods, held.lot.item) is not None
    )


def _opened_days(foods: FoodTable, food: str) -> int | None:
    """How many days a food keeps in the fridge once opened, the day of opening as day 1; None: not known."""
    try:
        return foods.keeping(food, "fridge", "opened").most_days
    except MissingFact:
        return None


def _open(kitchen: Kitchen, ledger: Ledger, day: int, lot_id: str) -> Entered:
    """Enter the package that was begun as opened, split off from the closed ones beside it."""
    when, held = kitchen.household.date_of(day), ledger.holding(lot_id)
    days = _opened_days(kitchen.foods, held.lot.item)
    use_by = None if days is None else kitchen.household.date_of(day + days - 1)
    begun = held.quantity % (held.lot.quantity // held.lot.packages)
    if begun == held.quantity:
        return open_package(ledger, when, lot_id, use_by=use_by)
    new = fresh_lot_id(ledger, f"{lot_id} opened")
    return open_package(ledger, when, lot_id, use_by=use_by, quantity=begun, new_lot_id=new)


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
    household, when = kitchen.household, kitchen.household.date_of(day)
    ledger, entered = kitchen.ledger, []
    for helping in plan.helpings:
        if helping.day != day or helping.dish is None or helping.cooked_day is None:
            continue
        name = batch_id(helping.dish, household.date_of(helping.cooked_day))
        if name not in ledger.batches:
            raise LedgerError(f"{name} has not been cooked; enter day {helping.cooked_day}'s cooking first")
        lot = f"{name} {'frozen' if helping.frozen else 'chilled'}"
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


@dataclass(frozen=True, slots=True)
class OpenedTooLong:
    """A tin, jar or packet that the plan draws from again later than its published life once opened."""

    food: str
    opened_day: int
    drawn_day: int
    keeps_days: int
    source: str


def opened_too_long(kitchen: Kitchen, plan: Plan) -> tuple[OpenedTooLong, ...]:
    """List what the plan opens in one session and uses again after its published opened life.

    The plain question counts days from buying, not from opening; this says where that is too kind.
    """
    offers = offers_by_id(kitchen)
    items = {lot.id: lot.item for lot in kitchen.ledger.lots} | {o.id: o.food for o in offers.values()}
    sizes = {o.id: o.quantity for o in offers.values()}
    days: dict[tuple[str, int | None], Counter[int]] = {}
    for drawing in plan.drawings:
        days.setdefault((drawing.source, drawing.bought_day), Counter())[drawing.day] += drawing.quantity
    found = []
    for (source, bought), by_day in days.items():
        try:
            keeping = kitchen.foods.keeping(items[source], "fridge", "opened")
        except MissingFact:
            continue
        found += [
            OpenedTooLong(items[source], opened, day, keeping.most_days, keeping.source)
            for opened, day in _begun_before(by_day, sizes.get(source) if bought is not None else None)
            if keeping.most_days is not None and day - opened + 1 > keeping.most_days
        ]
    return tuple(found)


def _begun_before(by_day: Mapping[int, int], package: int | None) -> Iterator[tuple[int, int]]:
    """Yield (day of opening, day of drawing) where a package opened on an earlier day is drawn from.

    Parameters
    ----------
    by_day
        What is drawn on which day, from packages that are used up one after the other.
    package
        What one package holds; None: all of it is one package.
    """
    size = package or sum(by_day.values()) + 1
    opened = rest = 0
    for day, quantity in sorted(by_day.items()):
        if rest:
            yield opened, day
        opened = day if quantity > rest else opened
        rest = (rest - quantity) % size


def helpings_of(plan: Plan, day: int) -> tuple[Helping, ...]:
    """Who has what on a day, in the plan's order."""
    return tuple(h for h in plan.helpings if h.day == day)
