"""Planning on in mid-week: the accepted plan from today on, with what is cooked, bought and eaten as it lies. Pure."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING

from ladleworth.decide import (
    Batch,
    Helping,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    Plan,
    PortionLot,
    Question,
    Wish,
)
from ladleworth.decide.judge import hands_on_min
from ladleworth.decide.judge_kitchen import station_min
from ladleworth.decide.mending import mended
from ladleworth.decide.verdict import pot_of, session_min
from ladleworth.errors import LedgerError, NotYet
from ladleworth.household import Household, Kitchen
from ladleworth.ledger import Kind, Ledger, Movement, Spot
from ladleworth.units import share
from ladleworth.week.packing import THAWING, dish_of, lot_eaten, planned_id, size_of
from ladleworth.week.shelf import days_left_when_frozen
from ladleworth.week.sources import bought_lot, offers_by_id

if TYPE_CHECKING:
    from ladleworth.week.planning import PlannedWeek


@dataclass(frozen=True, slots=True)
class Rest:
    """What is left of an accepted plan from a day on, in that day's numbers (it is day 1).

    `plan` names the portions cooked by their lots; `eaten` are the slots of day 1 that were eaten already, as
    (eater, meal); `thawing` counts the containers of a lot that lie out of the freezer since yesterday evening;
    `cooked` are the batches of day 1 that are cooked; `paid_cents` were paid at the tills since it was made.
    """

    week: PlannedWeek
    today: date
    plan: Plan
    eaten: frozenset[tuple[str, str]]
    thawing: tuple[tuple[str, int], ...]
    cooked: tuple[Batch, ...]
    paid_cents: int


def rest_of(week: PlannedWeek, today: date) -> Rest:
    """Take what is left of an accepted plan.

    Parameters
    ----------
    week
        The accepted plan over the kitchen as it stands now.
    today
        The first day that is still to be lived; days before it are gone.

    Raises
    ------
    NotYet
        If the plan is over.
    LedgerError
        If something was cooked or eaten on a later day than today.
    """
    household, ledger, plan = week.kitchen.household, week.kitchen.ledger, week.plan
    last = household.date_of(household.days)
    if today > last:
        raise NotYet(f"the accepted plan ended on {last}; decide a new one without --again")
    today = max(today, household.start)
    later = [m.day for m in _standing(ledger) if m.kind in (Kind.DRAWN, Kind.EATEN) and m.day > today]
    if later:
        raise LedgerError(
            f"meals or cooking up to {max(later)} are entered already; plan on from there, "
            f"with --today {max(later)} or a later date"
        )
    gone = (today - household.start).days
    before = {lot.name for lot in week.question.lots}
    eaten = frozenset((m.who, m.note) for m in _standing(ledger) if m.kind is Kind.EATEN and m.day == today)
    cooked = [b for b in plan.batches if ledger.batch(_id(week, b)).is_cooked]
    batches = tuple(replace(b, day=b.day - gone) for b in plan.batches if b.day > gone and b not in cooked)
    helpings, thawing = [], Counter[str]()
    for helping in plan.helpings:
        day = helping.day - gone
        if day < 1 or (day == 1 and (helping.eater, helping.meal) in eaten):
            continue
        moved = _moved(week, helping, day, gone, cooked)
        helpings.append(moved)
        if moved.lot is not None and moved.lot.endswith(THAWING):
            thawing[moved.lot.removesuffix(THAWING)] += 1
    purchases = tuple(
        replace(p, day=p.day - gone, offer=_newest(week.kitchen, p.offer))
        for p in plan.purchases
        if p.day > gone and bought_lot(ledger, p.offer, household.date_of(p.day), before) is None
    )
    paid = sum(
        m.cents
        for m in ledger.movements
        if m.kind is Kind.BOUGHT and m.day >= household.start and m.lot not in before
    )
    return Rest(
        week,
        today,
        Plan(batches, tuple(helpings), purchases, ()),
        eaten,
        tuple(sorted(thawing.items())),
        tuple(replace(b, day=1) for b in cooked if b.day == gone + 1),
        paid,
    )


def _standing(ledger: Ledger) -> list[Movement]:
    return [m for m in ledger.movements if m.reverses is None and ledger.reversal_of(m.id) is None]


def _id(week: PlannedWeek, batch: Batch) -> str:
    return planned_id(week.kitchen, week.plan, (batch.day, batch.dish, batch.version))


def _moved(week: PlannedWeek, helping: Helping, day: int, gone: int, cooked: list[Batch]) -> Helping:
    """Put a helping on its new day; what is cooked is taken from its lot, and what thaws since yesterday as thawing."""
    if helping.dish is None:
        return replace(helping, day=day)
    pot = pot_of(week.plan, helping.cooked_day, helping.dish, helping.version)
    if helping.lot is None and not any(pot == (b.day, b.dish, b.version) for b in cooked):
        assert helping.cooked_day is not None
        return replace(helping, day=day, cooked_day=helping.cooked_day - gone)
    ledger = week.kitchen.ledger
    lot = lot_eaten(week.kitchen, week.plan, ledger, helping)
    frozen = ledger.has_lot(lot) and ledger.holding(lot).standing.spot is Spot.FREEZER
    lies_out = helping.lot is not None and helping.lot.endswith(THAWING)
    if frozen and (lies_out or (day == 1 and gone and helping.frozen)):
        return Helping(day, helping.eater, helping.meal, helping.dish, lot=lot + THAWING)
    return Helping(day, helping.eater, helping.meal, helping.dish, frozen=frozen, lot=lot)


def _newest(kitchen: Kitchen, offer_id: str) -> str:
    """The newest price of the same package."""
    offer = offers_by_id(kitchen).get(offer_id)
    if offer is None:
        return offer_id
    same = (o for o in kitchen.prices.latest(offer.food, shop=offer.shop) if o.quantity == offer.quantity)
    return next((o.id for o in same if (o.unit, o.name) == (offer.unit, offer.name)), offer_id)


def household_left(rest: Rest, days: int | None = None) -> Household:
    """The household for the days that are left, with what is left of its budget."""
    household = rest.week.kitchen.household
    left = days or household.days - (rest.today - household.start).days
    budget = rest.week.question.rules.budget_cents
    rules = household.rules
    if budget is not None and rules.budget_cents is not None:
        rules = replace(rules, budget_cents=max(0, budget - rest.paid_cents))
    return replace(household, start=rest.today, days=left, rules=rules)


def asked_on(rest: Rest, question: Question) -> Question:
    """Change the plain question of the days that are left by what day 1 has seen already.

    Meals eaten need no slot. Minutes that its cooking took are gone, the day's price is paid, and what was cooked is not
    cooked again. Portions that lie out to thaw may be eaten on day 1, and keep as long as they had left when frozen.
    """
    slots = tuple(s for s in question.slots if s.day > 1 or (s.eater, s.meal) not in rest.eaten)
    taken = _taken_today(rest, question)
    sessions = tuple(
        replace(
            s,
            minutes=max(0, s.minutes - ceil(taken[HANDS])),
            cents=0,
            stations={station: max(0, most - ceil(taken[station])) for station, most in s.stations.items()},
        )
        if s.day == 1 and _cooked_today(rest)
        else s
        for s in question.sessions
    )
    portions = tuple(one for lot in question.portions for one in _thawed(rest, lot))
    return replace(question.only(slots), sessions=sessions, portions=portions)


HANDS = "hands"
"""Stands for the cook's own minutes among those of the stations."""


def _taken_today(rest: Rest, question: Question) -> Counter[str]:
    """Add up the minutes that were cooked today, by station; the cook's own under HANDS.

    Batches of the accepted plan took what its question says; for any other that was cooked today, as by a plan before
    it, the minutes of the version that takes the most are counted.
    """
    old, done = rest.week.question, Plan(rest.cooked, (), (), ())
    taken: Counter[str] = Counter()
    taken[HANDS] += ceil(session_min(old, done, 1))
    stations = {station for session in question.sessions for station in session.stations}
    for station in stations:
        taken[station] += ceil(station_min(old, done, 1, station))
    ledger = rest.week.kitchen.ledger
    mine = {_id(rest.week, batch) for batch in rest.week.plan.batches}
    portions: dict[str, Fraction] = {}
    for entry in _standing(ledger):
        if entry.kind is Kind.COOKED and entry.day == rest.today and entry.batch and entry.batch not in mine:
            made = size_of(entry.lot) * entry.quantity
            portions[entry.batch] = portions.get(entry.batch, Fraction(0)) + made
    for batch, made in portions.items():
        dish = next((d for d in question.dishes if d.name == dish_of(batch)), None)
        if dish is not None:
            number = ceil(made)
            taken[HANDS] += ceil(dish.shared_min + max(hands_on_min(v, number) for v in dish.versions))
            for station in stations:
                loads = [v.loads[station].minutes(number) for v in dish.versions if station in v.loads]
                taken[station] += ceil(max(loads, default=Fraction(0)))
    return taken


def _thawed(rest: Rest, lot: PortionLot) -> list[PortionLot]:
    """Part a lot of frozen portions into those that lie out to thaw and the others."""
    out = min(dict(rest.thawing).get(lot.name, 0), lot.portions) if lot.frozen else 0
    if not out:
        return [lot]
    kitchen = rest.week.kitchen
    dish = next((d for d in kitchen.dishes if d.id == lot.dish), None)
    left = days_left_when_frozen(kitchen.ledger, lot.name) or (dish.keep_days if dish else 1)
    cents = share(lot.cents, out, lot.portions)
    thawing = replace(
        lot,
        name=lot.name + THAWING,
        portions=out,
        cents=cents,
        first_day=1,
        last_day=max(1, left - 1),
        frozen=False,
    )
    if out == lot.portions:
        return [thawing]
    return [thawing, replace(lot, portions=lot.portions - out, cents=lot.cents - cents)]


def start_of(rest: Rest, question: Question) -> Plan | None:
    """Make what is left of the accepted plan a plan of the new question; None if it does not stand there any more.

    What cannot be cooked or eaten any more is dropped, and eaten out in its place, where the household does so.
    """
    return mended(question, rest.plan)


def wishes_left(rest: Rest, question: Question, *, keep: bool = True) -> tuple[Wish, ...]:
    """Carry over the accepted plan's wishes that are still open, in the new day numbers.

    What was done is taken off: portions cooked, amounts used, meals eaten, packages bought. A wish for a dish, a lot
    or an offer that is not there any more is dropped with it. A dish that was cooked on day 1 is not cooked on it again.
    """
    old, gone = rest.week.question, (rest.today - rest.week.kitchen.household.start).days
    found: list[Wish] = [MustNotCook(dish, 1) for dish in _cooked_today(rest)]
    for wish in old.wishes if keep else ():
        one = _left(rest, question, wish, gone)
        if one is not None and _fits(question, one):
            found.append(one)
    cooks = {dish.name for dish in question.dishes}
    return tuple(
        dict.fromkeys(wish for wish in found if not isinstance(wish, MustNotCook) or wish.dish in cooks)
    )


def _cooked_today(rest: Rest) -> tuple[str, ...]:
    ledger = rest.week.kitchen.ledger
    batches = (m.batch for m in _standing(ledger) if m.kind is Kind.COOKED and m.day == rest.today)
    return tuple(dict.fromkeys(dish_of(batch) for batch in batches if batch))


def _left(rest: Rest, question: Question, wish: Wish, gone: int) -> Wish | None:
    """What is still open of a wish, in the new day numbers; None if nothing is."""
    ledger = rest.week.kitchen.ledger
    match wish:
        case MustCook(dish, day, version, portions):
            done = sum(
                b.portions
                for b in rest.week.plan.batches
                if b.dish == dish
                and version in (None, b.version)
                and ledger.batch(_id(rest.week, b)).is_cooked
            )
            open_day = None if day is None else day - gone
            return replace(wish, day=open_day, portions=portions - done) if portions > done else None
        case MustNotCook(_, day, _):
            return wish if day is None else replace(wish, day=day - gone)
        case MustServe(day, _, _, _):
            return replace(wish, day=day - gone)
        case MustBuy(day, offer, _):
            before = {lot.name for lot in rest.week.question.lots}
            when = rest.week.kitchen.household.date_of(day)
            if bought_lot(ledger, offer, when, before) is not None:
                return None
            return replace(wish, day=day - gone, offer=_newest(rest.week.kitchen, offer))
        case MustUse(lot, quantity):
            there = {one.name: one.quantity for one in rest.week.question.lots}
            there |= {one.name: one.portions for one in rest.week.question.portions}
            now = {one.name: one.quantity for one in question.lots}
            now |= {one.name: one.portions for one in question.portions}
            left = min(quantity - (there[lot] - now.get(lot, 0)), now.get(lot, 0))
            return replace(wish, quantity=left) if left > 0 else None


def _fits(question: Question, wish: Wish) -> bool:
    """Say whether a wish still speaks of days, slots and things that are there, and of purchases not yet made."""
    sessions = {session.day for session in question.sessions}
    match wish:
        case MustCook(dish, day, version, _) | MustNotCook(dish, day, version):
            known = {(d.name, v.name) for d in question.dishes for v in d.versions}
            return (day is None or day in sessions) and any(
                name == dish and version in (None, made) for name, made in known
            )
        case MustUse(lot, _):
            return lot in {*(one.name for one in question.lots), *(one.name for one in question.portions)}
        case MustServe(day, eater, meal, dish):
            slots = {(s.day, s.eater, s.meal) for s in question.slots}
            names = {d.name for d in question.dishes} | {lot.dish for lot in question.portions}
            return (day, eater, meal) in slots and (dish is None or dish in names)
        case MustBuy(day, offer, _):
            return day in sessions and any(o.name == offer for o in question.offers)
