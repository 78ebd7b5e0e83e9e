"""Rows that only tighten: what one batch alone must cause to be bought, visited and paid.

They cut off fractions of batches that pay fractions of packages. Every whole plan keeps them.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from ladleworth.decide.columns import WeekModel, unit, versions_of
from ladleworth.decide.judge import need
from ladleworth.decide.question import PackageOffer

_SHY = 1 - 1e-9
"""Floating point must not make a tightening row cut off a true plan."""


@dataclass(frozen=True, slots=True)
class _Missing:
    """What the batches of one dish in one session need of a food beyond all stock, and who could sell it."""

    food: str
    session: int
    amounts: tuple[tuple[int, int], ...]
    """(column of the batch, mg or pieces missing)"""
    bought: tuple[tuple[PackageOffer, int, int, bool], ...]
    """(offer, day bought, column of the purchase, whether what is left of it is carried)"""


def packages_cover_each_batch(model: WeekModel) -> None:
    """Whole packages, their money and a trip for what a batch needs beyond all stock."""
    sheet = model.sheet
    for missing in _missing(model):
        if not missing.bought:
            for column, _ in missing.amounts:
                sheet.upper[column] = 0
            continue
        largest = max(offer.quantity for offer, *_ in missing.bought)
        packages = [(column, -math.ceil(amount / largest)) for column, amount in missing.amounts]
        sheet.row([*((c, 1.0) for _, _, c, _ in missing.bought), *packages], low=0)
        shop = {offer.name: offer.shop for offer, *_ in missing.bought}
        trips = {model.trip[shop[offer.name], day] for offer, day, _, _ in missing.bought}
        sheet.row([*((c, 1.0) for c in trips), *((column, -1.0) for column, _ in missing.amounts)], low=0)
        _money(model, missing)


def _money(model: WeekModel, missing: _Missing) -> None:
    kinds = tuple(sorted({(offer.quantity, offer.cents, carried) for offer, _, _, carried in missing.bought}))
    size = unit(model.question, missing.food)
    worth = float(model.question.additions.carried_share)
    paid: list[tuple[int, float]] = []
    for offer, day, column, carried in missing.bought:
        used = model.use.get((offer.name, day, missing.session))
        if not carried:
            paid.append((column, offer.cents))
        elif used is not None:
            paid.append((used, offer.cents * worth / offer.quantity * size))
            paid.append((column, offer.cents * (1 - worth)))
    prices = [(column, -cheapest(kinds, amount, worth) * _SHY) for column, amount in missing.amounts]
    model.sheet.row([*paid, *prices], low=0)


def _missing(model: WeekModel) -> Iterator[_Missing]:
    question = model.question
    versions = {(dish.name, version.name): version for dish, version in versions_of(question)}
    days = [s.day for s in question.sessions]
    offers: dict[str, list[PackageOffer]] = defaultdict(list)
    for offer in question.offers:
        offers[offer.food].append(offer)
    stock: dict[tuple[str, int], int] = defaultdict(int)
    for lot in question.lots:
        for day in days:
            if lot.last_day is None or day <= lot.last_day:
                stock[lot.food, day] += lot.quantity
    amounts: dict[tuple[str, int, str], list[tuple[int, int]]] = defaultdict(list)
    for (dish, name, day, portions), column in model.size.items():
        for food in versions[dish, name].needs:
            beyond = need(versions[dish, name], food, portions) - stock[food, day]
            if beyond > 0:
                amounts[dish, day, food].append((column, beyond))
    for (_, session, food), beyond_stock in amounts.items():
        keep = question.food(food).keep_days
        bought = tuple(
            (offer, day, model.buy[offer.name, day], keep is None or day + keep - 1 > question.days)
            for offer in offers[food]
            for day in days
            if day <= session
            and (keep is None or session <= day + keep - 1)
            and (offer.name, day) in model.buy
        )
        yield _Missing(food, session, tuple(beyond_stock), bought)


@lru_cache(maxsize=100_000)
def cheapest(kinds: Sequence[tuple[int, int, bool]], amount: int, worth: float = 1.0) -> float:
    """Least cents for an amount: whole packages, less what is left of those that are carried.

    Parameters
    ----------
    kinds
        (quantity, cents, carried) of each package on offer.
    amount
        Milligrams or pieces.
    worth
        The share of its cost at which what is carried counts.
    """
    share = min((cents / quantity for quantity, cents, carried in kinds if carried), default=math.inf)
    lost = 0.0 if worth == 1 else 1 - worth
    # for given packages it is cheapest to use up first what costs nothing to use, then the cheapest by the unit
    order = sorted(kinds, key=lambda kind: (kind[2], kind[1] / kind[0]))
    # what a unit costs at the least from here on in the order, since no package gives it for less
    floors = [math.inf if lost else share]
    for quantity, cents, _ in reversed(order):
        floors.insert(0, min(floors[0], cents / quantity))

    @cache
    def least(number: int, left: int) -> float:
        if left <= 0:
            return 0.0
        best = left * share if not lost else math.inf
        if number < len(order):
            quantity, cents, carried = order[number]
            if carried and not lost:
                return min(best, least(number + 1, left))
            for packages in range(math.ceil(left / quantity), -1, -1):
                taken = min(left, packages * quantity)
                rest = left - taken
                paid = packages * cents * (lost if carried else 1) + (
                    taken * cents * worth / quantity if carried else 0
                )
                if paid < best and (not rest or paid + rest * floors[number + 1] < best):
                    best = min(best, paid + least(number + 1, rest))
        return best

    return least(0, amount)
