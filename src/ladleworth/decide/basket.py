"""The cheapest way to feed a food's demands, by table: what the local search asks thousands of times.

One food at a time, since foods meet only in trips, budget and minutes. For given demands by session and given
open shops: which packages to buy when, and which stock to use, so that tills + spoilt - carried is least.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from ladleworth.decide.question import PackageOffer, Question

SHORT_CENTS = 100_000.0
"""Price of a demand that cannot be met at all: far above any meal, so that the search leaves it."""


MOST_MIXES = 40
"""The search promises nothing, so it may leave some ways to buy untried where there are very many."""


@dataclass(frozen=True, slots=True)
class _Source:
    first: int
    last: int
    quantity: int
    unit_cost: float


@dataclass(slots=True)
class Larder:
    """All that is known of one food: its lots, its offers, and answers already worked out."""

    days: tuple[int, ...]
    end: int
    worth: float
    """The share of its cost at which what is carried counts"""
    keep_days: int | None
    lots: tuple[_Source, ...]
    offers: tuple[tuple[PackageOffer, int], ...]
    """(offer, number of its shop)"""
    shops: int
    relevant: int
    """The bits of visits to shops that sell it"""
    known: dict[tuple[tuple[int, ...], int], tuple[float, int]] = field(default_factory=dict)

    def price(self, demands: tuple[int, ...], visits: int) -> tuple[float, int]:
        """Least cost of meeting demands.

        Parameters
        ----------
        demands
            Milligrams or pieces by session.
        visits
            Bit `session * shops + shop` is set for each visit that is made.

        Returns
        -------
        (cost, tills)
            Cents of the objective that depend on this food, and cents at the tills: for what is carried over
            the fewest with which the amount can be had, since dearer packages by the unit may take less money.
        """
        key = (demands, visits & self.relevant)
        found = self.known.get(key)
        if found is None:
            found = self.known[key] = self._work_out(demands, visits)
        return found

    def _work_out(self, demands: tuple[int, ...], visits: int) -> tuple[float, int]:
        best: tuple[float, int] = (math.inf, 0)
        for mix in self._mixes(0, demands, visits):
            cost, tills, sources = 0.0, 0, list(self.lots)
            for source, paid, till in mix:
                cost += paid
                tills += till
                sources.append(source)
            drawn, short, extra = self._draw(sources, demands, visits)
            cost += drawn + (SHORT_CENTS * (1 + short / max(1, sum(demands))) if short else 0.0)
            best = min(best, (cost, tills + extra))
        return best

    def _mixes(
        self, session: int, demands: tuple[int, ...], visits: int
    ) -> list[list[tuple[_Source, float, int]]]:
        """Every choice of whole packages by session, no larger than what it can serve.

        What is carried at its full cost is left to `_draw`: there whole packages make no difference. Over many
        sessions only the first `MOST_MIXES` ways to buy later are tried with each way to buy now.
        """
        if session == len(self.days):
            return [[]]
        day = self.days[session]
        last = self.end if self.keep_days is None else day + self.keep_days - 1
        later = self._mixes(session + 1, demands, visits)[:MOST_MIXES]
        carried = self.keep_days is None or last > self.end
        worth = self.worth if carried else 0.0
        wanted = sum(q for q, d in zip(demands, self.days, strict=True) if day <= d <= last)
        here = [o for o, shop in self.offers if visits >> (session * self.shops + shop) & 1]
        if worth == 1.0 or not wanted or not here:
            return later
        return [
            [
                (
                    _Source(day, min(last, self.end), mix.quantity, worth * mix.cents / mix.quantity),
                    (1 - worth) * mix.cents,
                    mix.cents,
                ),
                *rest,
            ]
            if mix.quantity
            else rest
            for mix in pareto(here, wanted, worth)
            for rest in later
        ]

    def _draw(self, sources: list[_Source], demands: tuple[int, ...], visits: int) -> tuple[float, int, int]:
        """Serve the demands from these sources and from carried purchases, the cheapest unit first."""
        carried: list[tuple[_Source, PackageOffer]] = []
        for offer, shop in self.offers:
            for session, day in enumerate(self.days):
                last = None if self.keep_days is None else day + self.keep_days - 1
                if self.worth < 1:
                    continue
                if visits >> (session * self.shops + shop) & 1 and (last is None or last > self.end):
                    there = sum(demands)
                    if offer.most is not None:
                        there = min(there, offer.most * offer.quantity)
                    carried.append((_Source(day, self.end, there, offer.cents / offer.quantity), offer))
        order: list[tuple[_Source, PackageOffer | None]] = [(s, None) for s in sources] + list(carried)
        order.sort(key=lambda entry: (entry[0].unit_cost, entry[0].last))
        left = dict(zip(self.days, demands, strict=True))
        total, cost, tills = sum(demands), 0.0, 0
        taken: list[tuple[_Source, int]] = []
        served = 0
        for source, bought in order:
            if served == total:
                break
            more = _serve([*taken, (source, min(source.quantity, total - served))], left) - served
            if more:
                taken.append((source, more))
                served += more
                cost += more * source.unit_cost
                if bought is not None:
                    tills += min(
                        math.ceil(more / other.quantity) * other.cents
                        for stand, other in carried
                        if stand.first == source.first
                    )
        return cost, total - served, tills


def _serve(taken: Sequence[tuple[_Source, int]], demands: dict[int, int]) -> int:
    days = [day for day, quantity in demands.items() if quantity]
    if all(source.first <= days[0] and days[-1] <= source.last for source, _ in taken):
        return min(sum(amount for _, amount in taken), sum(demands.values()))
    if len(taken) == 1:
        source, amount = taken[0]
        return min(amount, sum(q for day, q in demands.items() if source.first <= day <= source.last))
    left = sorted(([s.last, s.first, amount] for s, amount in taken))
    served = 0
    for day, wanted in demands.items():
        for entry in left:
            if wanted and entry[1] <= day <= entry[0]:
                part = min(wanted, entry[2])
                entry[2] -= part
                wanted -= part
                served += part
    return served


class Mix(NamedTuple):
    """Packages bought together: what they hold in all, and what they cost."""

    quantity: int
    cents: int


def pareto(offers: Sequence[PackageOffer], wanted: int, worth: float = 0.0) -> list[Mix]:
    """Package mixes worth a thought for an amount or a part of it: none gives less for more.

    Cost is counted less `worth` of the cost of what is left beyond `wanted`. The empty mix comes first.
    """

    def net(mix: Mix) -> float:
        left = max(0, mix.quantity - wanted)
        return mix.cents - worth * mix.cents * left / mix.quantity if left else float(mix.cents)

    reach = {0: Mix(0, 0)}
    for offer in offers:
        most = math.ceil(wanted / offer.quantity)
        most = most if offer.most is None else min(most, offer.most)
        for quantity, cents in list(reach.values()):
            for packages in range(1, most + 1):
                mix = Mix(quantity + packages * offer.quantity, cents + packages * offer.cents)
                got = min(wanted, mix.quantity)
                if got not in reach or net(mix) < net(reach[got]):
                    reach[got] = mix
                if got == wanted:
                    break
    mixes: list[Mix] = []
    for _, mix in sorted(reach.items(), reverse=True):
        if not mixes or net(mix) < net(mixes[-1]):
            mixes.append(mix)
    return mixes[::-1]


def larders(question: Question) -> dict[str, Larder]:
    """Open one larder a food of the question."""
    days = tuple(sorted(s.day for s in question.sessions))
    worth = float(question.additions.carried_share)
    shops = {s.name: number for number, s in enumerate(question.shops)}
    lots: dict[str, list[_Source]] = {f.name: [] for f in question.foods}
    for lot in question.lots:
        spoils = lot.last_day is not None and lot.last_day <= question.days
        share = lot.cents / lot.quantity * (1.0 if spoils else worth)
        last = question.days if lot.last_day is None else min(lot.last_day, question.days)
        lots[lot.food].append(_Source(1, last, lot.quantity, -share if spoils else share))
    offers: dict[str, list[tuple[PackageOffer, int]]] = {f.name: [] for f in question.foods}
    for offer in question.offers:
        offers[offer.food].append((offer, shops[offer.shop]))
    return {
        food.name: Larder(
            days,
            question.days,
            worth,
            food.keep_days,
            tuple(lots[food.name]),
            tuple(offers[food.name]),
            len(shops),
            sum(
                1 << at * len(shops) + shop
                for at in range(len(days))
                for shop in {s for _, s in offers[food.name]}
            ),
        )
        for food in question.foods
    }
