"""Rules of shopping and stock as rows, in the order of `judge_food.py`, and the value of what is left."""

from __future__ import annotations

from collections import defaultdict

from ladleworth.decide.columns import WeekModel, unit
from ladleworth.decide.rules import MustBuy, MustUse
from ladleworth.decide.verdict import need


def needs_are_met(model: WeekModel) -> None:
    """Each session gets what its batches need, from lots and packages that hold it."""
    question, sheet = model.question, model.sheet
    units = {f.name: unit(question, f.name) for f in question.foods}
    balance: dict[tuple[str, int], list[tuple[int, float]]] = defaultdict(list)
    for (dish, name, day, portions), column in model.size.items():
        version = question.version(dish, name)
        for food in version.needs:
            balance[food, day].append((column, -need(version, food, portions) / units[food]))
    food_of = {o.name: o.food for o in question.offers}
    lot_food = {lot.name: lot.food for lot in question.lots}
    drawn: dict[tuple[str, int | None], list[tuple[int, float]]] = defaultdict(list)
    for (source, bought, day), column in model.use.items():
        food = lot_food[source] if bought is None else food_of[source]
        balance[food, day].append((column, 1.0))
        drawn[source, bought].append((column, 1.0))
    for terms in balance.values():
        sheet.row(terms, 0, 0)
    for lot in question.lots:
        wished = [w.quantity for w in question.wishes if isinstance(w, MustUse) and w.lot == lot.name]
        size = units[lot.food]
        sheet.row(drawn[lot.name, None], max(wished, default=0) / size, lot.quantity / size)
    for offer in question.offers:
        for session in question.sessions:
            if (offer.name, session.day) in model.buy:
                packages = (model.buy[offer.name, session.day], -offer.quantity / units[offer.food])
                sheet.row([*drawn[offer.name, session.day], packages], high=0)


def trips_are_paid(model: WeekModel) -> None:
    """Whatever is bought in a shop on a day makes that visit."""
    shop = {o.name: o.shop for o in model.question.offers}
    for (offer, day), column in model.buy.items():
        model.sheet.row([(column, 1.0), (model.trip[shop[offer], day], -model.sheet.upper[column])], high=0)


def till_terms(model: WeekModel) -> list[tuple[int, float]]:
    """Money at the tills over all days, as terms."""
    cents = {o.name: float(o.cents) for o in model.question.offers}
    return [(column, cents[offer]) for (offer, _), column in model.buy.items()]


def budget_suffices(model: WeekModel) -> None:
    """Money at the tills over all days stays within the budget."""
    budget = model.question.rules.budget_cents
    if budget is not None:
        model.sheet.row(till_terms(model), high=budget)


def stock_is_valued(model: WeekModel) -> None:
    """Objective: what is left of lots at its cost share, as spoilt or as carried over."""
    question, sheet = model.question, model.sheet
    worth = float(question.additions.carried_share)
    for lot in question.lots:
        spoils = lot.last_day is not None and lot.last_day <= question.days
        value = lot.cents if spoils else lot.cents * worth
        sheet.constant += value if spoils else -value
        share = value / lot.quantity * unit(question, lot.food)
        for session in question.sessions:
            column = model.use.get((lot.name, None, session.day))
            if column is not None:
                sheet.cost[column] += -share if spoils else share
    for offer in question.offers:
        keep = question.food(offer.food).keep_days
        share = offer.cents * worth / offer.quantity * unit(question, offer.food)
        for bought in (s.day for s in question.sessions):
            if (offer.name, bought) not in model.buy or (
                keep is not None and bought + keep - 1 <= question.days
            ):
                continue
            sheet.cost[model.buy[offer.name, bought]] -= offer.cents * worth
            for day in (s.day for s in question.sessions):
                column = model.use.get((offer.name, bought, day))
                if column is not None:
                    sheet.cost[column] += share
    for portions in question.portions:
        spoils = portions.last_day is not None and portions.last_day <= question.days
        value = portions.cents if spoils else -portions.cents * worth
        sheet.constant += value
        for (name, _, _), column in model.taken.items():
            if name == portions.name:
                sheet.cost[column] -= value / portions.portions


def portions_on_hand_are_used(model: WeekModel) -> None:
    """As many portions on hand are eaten as the household wishes."""
    for lot in model.question.portions:
        wished = [w.quantity for w in model.question.wishes if isinstance(w, MustUse) and w.lot == lot.name]
        taken = [(c, 1.0) for (name, _, _), c in model.taken.items() if name == lot.name]
        model.sheet.row(taken, low=max(wished, default=0))


def wished_packages_are_bought(model: WeekModel) -> None:
    """A wish for packages that cannot be bought on that day is a contradiction, and stays one."""
    for wish in model.question.wishes:
        if isinstance(wish, MustBuy):
            column = model.buy.get((wish.offer, wish.day))
            model.sheet.row([] if column is None else [(column, 1.0)], low=wish.packages)
