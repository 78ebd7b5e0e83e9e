"""Rows that only tighten: what one batch alone must cause to be bought, visited and paid.

They cut off fractions of batches that pay fractions of packages. Every whole plan keeps them.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from ladleworth.decide.columns import WeekModel, unit
from ladleworth.decide.goods import PackageOffer
from ladleworth.decide.question import Question
from ladleworth.decide.verdict import need

_SHY = 1 - 1e-9
"""Floating point must not make a tightening row cut off a true plan."""


@dataclass(frozen=True, slots=True)
class _Missing:
    """What batches, of which at most one is cooked, need of a food beyond all stock, and who could sell it."""

    food: str
    session: int
    amounts: tuple[tuple[int, int], ...]
    """(column of the batch, mg or pieces missing)"""
    bought: tuple[tuple[PackageOffer, int, int, bool], ...]
    """(offer, day bought, column of the purchase, whether what is left of it is carried)"""


@dataclass(frozen=True, slots=True)
class _Market:
    """What the rows need to know of foods: stock by session day, and purchases by food."""

    stock: dict[tuple[str, int], int]
    bought: dict[str, tuple[tuple[PackageOffer, int, int, bool], ...]]

    def within(
        self, question: Question, food: str, session: int
    ) -> tuple[tuple[PackageOffer, int, int, bool], ...]:
        """Return the purchases that can serve a session."""
        keep = question.food(food).keep_days
        return tuple(
            entry
            for entry in self.bought.get(food, ())
            if entry[1] <= session and (keep is None or session <= entry[1] + keep - 1)
        )


def _market(model: WeekModel) -> _Market:
    question = model.question
    stock: dict[tuple[str, int], int] = defaultdict(int)
    for lot in question.lots:
        for session in question.sessions:
            if lot.last_day is None or session.day <= lot.last_day:
                stock[lot.food, session.day] += lot.quantity
    bought: dict[str, list[tuple[PackageOffer, int, int, bool]]] = defaultdict(list)
    offers = {o.name: o for o in question.offers}
    for (name, day), column in model.buy.items():
        keep = question.food(offers[name].food).keep_days
        carried = keep is None or day + keep - 1 > question.days
        bought[offers[name].food].append((offers[name], day, column, carried))
    return _Market(stock, {food: tuple(entries) for food, entries in bought.items()})


def packages_cover_each_batch(model: WeekModel) -> None:
    """Whole packages, their money and a trip for what a batch needs beyond all stock."""
    sheet, market = model.sheet, _market(model)
    for missing in _missing(model, market):
        if not missing.bought:
            for column, _ in missing.amounts:
                sheet.upper[column] = 0
            continue
        largest = max(offer.quantity for offer, *_ in missing.bought)
        packages = [(column, -math.ceil(amount / largest)) for column, amount in missing.amounts]
        sheet.row([*((c, 1.0) for _, _, c, _ in missing.bought), *packages], low=0, tightens=True)
        shop = {offer.name: offer.shop for offer, *_ in missing.bought}
        trips = {model.trip[shop[offer.name], day] for offer, day, _, _ in missing.bought}
        asked = [(column, -1.0) for column, _ in missing.amounts]
        sheet.row([*((c, 1.0) for c in sorted(trips)), *asked], low=0, tightens=True)
        paid = _paid(model, missing.food, missing.bought, (missing.session,))
        prices = _prices(model, missing.bought)
        least = [(column, -prices(amount) * _SHY) for column, amount in missing.amounts]
        sheet.row([*paid, *least], low=0, tightens=True)


def _prices(
    model: WeekModel, bought: Sequence[tuple[PackageOffer, int, int, bool]]
) -> Callable[[int], float]:
    kinds = tuple(sorted({(offer.quantity, offer.cents, carried) for offer, _, _, carried in bought}))
    worth = float(model.question.additions.carried_share)
    return lambda amount: cheapest(kinds, amount, worth)


def _fewest(bought: Sequence[tuple[PackageOffer, int, int, bool]]) -> Callable[[int], float]:
    largest = max(offer.quantity for offer, *_ in bought)
    return lambda amount: math.ceil(amount / largest)


def _paid(
    model: WeekModel,
    food: str,
    bought: Sequence[tuple[PackageOffer, int, int, bool]],
    sessions: Sequence[int],
) -> list[tuple[int, float]]:
    """What is paid for a food, less what is carried over, as terms: for its use in these sessions at the least."""
    size, worth = unit(model.question, food), float(model.question.additions.carried_share)
    paid: list[tuple[int, float]] = []
    for offer, day, column, carried in bought:
        if not carried:
            paid.append((column, offer.cents))
            continue
        used = [model.use[offer.name, day, s] for s in sessions if (offer.name, day, s) in model.use]
        paid += [(use, offer.cents * worth / offer.quantity * size) for use in used]
        if used:
            paid.append((column, offer.cents * (1 - worth)))
    return paid


def _missing(model: WeekModel, market: _Market) -> Iterator[_Missing]:
    question = model.question
    amounts: dict[tuple[str, str, int, str], list[tuple[int, int]]] = defaultdict(list)
    for (dish, name, day, portions), column in model.size.items():
        version = question.version(dish, name)
        split = name if question.dish(dish).most_versions > 1 else ""
        for food in version.needs:
            beyond = need(version, food, portions) - market.stock[food, day]
            if beyond > 0:
                amounts[dish, split, day, food].append((column, beyond))
    for (_, _, session, food), beyond_stock in amounts.items():
        yield _Missing(food, session, tuple(beyond_stock), market.within(question, food, session))


def cooked_at_all(model: WeekModel) -> None:
    """A column for each dish: cooked at all; another helping counts as a repeat unless the dish is cooked.

    A part of a batch can then not feed a whole helping without a repeat, and a dish that is cooked a part in each
    of two sessions pays for the packages of both (`packages_cover_both_sessions`).
    """
    question, sheet = model.question, model.sheet
    batches: dict[str, dict[int, list[tuple[int, float]]]] = defaultdict(lambda: defaultdict(list))
    for (dish, _, session, _), column in model.size.items():
        if (dish, session) in model.cooked:
            batches[dish][session] = [(model.cooked[dish, session], 1.0)]
        else:
            batches[dish][session].append((column, 1.0))
    for dish, by_session in batches.items():
        everything = [term for terms in by_session.values() for term in terms]
        at_all = sheet.column(f"ever {dish}", 1)
        model.ever[dish] = at_all
        if len(by_session) == 1:
            sheet.row([*everything, (at_all, -1.0)], 0, 0)
            continue
        again = sheet.column(f"again {dish}", len(by_session) - 1)
        model.again[dish] = again
        for terms in by_session.values():
            sheet.row([*terms, (at_all, -1.0)], high=0)
        sheet.row([*everything, (at_all, -1.0), (again, -1.0)], 0, 0)
    on_hand = {lot.dish for lot in question.portions}
    helpings: dict[tuple[str, str, int], list[tuple[int, float]]] = defaultdict(list)
    first = {day: span[0] for span in question.spans() for day in span}
    for (dish, _, eater, day), column in model.served.items():
        helpings[dish, eater, first[day]].append((column, 1.0))
    most = question.rules.most_times
    for (dish, eater, span), terms in helpings.items():
        if dish in on_hand:
            continue
        ever = model.ever[dish]
        if (dish, eater, span) in model.has:
            sheet.row([(model.has[dish, eater, span], 1.0), (ever, -1.0)], high=0)
        if most is not None:
            sheet.row([*terms, (ever, -float(most))], high=0)


def packages_cover_both_sessions(model: WeekModel) -> None:
    """What a dish needs of a food beyond all stock over all sessions, in packages and in money.

    A dish cooked again may use what the first time left over: that is worth `spared` at the most.
    """
    question, sheet, market = model.question, model.sheet, _market(model)
    stock: dict[str, int] = defaultdict(int)
    for lot in question.lots:
        stock[lot.food] += lot.quantity
    needs: dict[tuple[str, str], list[tuple[int, int]]] = defaultdict(list)
    for (dish, name, _, portions), column in model.size.items():
        if question.dish(dish).most_versions == 1 and dish in model.again:
            version = question.version(dish, name)
            for food in version.needs:
                needs[dish, food].append((column, need(version, food, portions)))
    sessions = [s.day for s in question.sessions]
    for (dish, food), amounts in needs.items():
        bought = market.bought.get(food, ())
        there = stock[food]
        sizes = sorted({amount for _, amount in amounts})
        if not bought or sizes[-1] <= there:
            continue
        again = model.again[dish]
        times = round(sheet.upper[again])
        paid = _paid(model, food, bought, sessions)
        for terms, worth in (
            ([(c, 1.0) for _, _, c, _ in bought], _fewest(bought)),
            (paid, _prices(model, bought)),
        ):
            value = {
                amount: worth(amount - there) if amount > there else 0.0 for amount in _sums(sizes, times + 1)
            }
            spared = _spared(value, sizes, times)
            batches = [(column, -value[amount] * _SHY) for column, amount in amounts]
            sheet.row([*terms, (again, spared), *batches], low=0, tightens=True)


def _sums(sizes: Sequence[int], times: int) -> set[int]:
    """Sums of up to so many of these amounts."""
    sums = {0}
    for _ in range(times):
        sums |= {total + size for total in sums for size in sizes}
    return sums - {0}


def _spared(value: Mapping[int, float], sizes: Sequence[int], times: int) -> float:
    """The most that is saved by cooking once more, whatever was cooked before."""
    before = _sums(sizes, times)
    return max(0.0, *(value[one] + value[total] - value[one + total] for one in sizes for total in before))


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
