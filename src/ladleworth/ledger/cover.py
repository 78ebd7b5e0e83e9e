"""Whole packages that cover a need at the least money, exactly."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from heapq import heappop, heappush

from ladleworth.errors import BadField, MissingFact
from ladleworth.ledger.price_book import Offer

MOST_AMOUNTS = 150_000
"""Above this many amounts to look at, the question is refused: it would keep the cook waiting."""


@dataclass(frozen=True, slots=True)
class Cover:
    """Whole packages that together hold at least a need.

    `counts` pairs each offer bought with how many of it; `quantity` is their content in the offers' unit, `left`
    what is beyond the need, `cost_cents` what they cost.
    """

    counts: tuple[tuple[Offer, int], ...]
    quantity: int
    left: int
    cost_cents: int

    @property
    def packages(self) -> int:
        """How many packages in all."""
        return sum(count for _, count in self.counts)


def cheapest_cover(offers: Iterable[Offer], need: int) -> Cover:
    """Choose whole packages of one food that cover a need.

    Parameters
    ----------
    offers
        Packages of one food in one unit, any number of each to be had.
    need
        How much is needed, in the offers' unit, zero or more.

    Returns
    -------
    Cover
        The cheapest; of equal ones the one with least left over, then with the fewest packages.

    Raises
    ------
    MissingFact
        When there is a need and no offer.
    BadField
        When the offers are of several foods or units, the need is below zero, or there are too many ways to
        look at all of them.
    """
    every = tuple(offers)
    if need < 0:
        raise BadField(f"a need of {need} cannot be covered; write zero or more")
    if need == 0:
        return Cover((), 0, 0, 0)
    if not every:
        raise MissingFact(f"nobody offers what is needed ({need}); add an offer to the price book")
    if len({(offer.food, offer.unit) for offer in every}) > 1:
        raise BadField(
            "packages of several foods or units cannot cover one need; choose for one food at a time"
        )
    worth = _worth_looking_at(every)
    before = _best_ways(worth, need)
    ends = [(way[0], amount, way[1]) for amount, way in before.items() if amount >= need]
    amount = min(ends)[1]
    counts = dict.fromkeys(range(len(worth)), 0)
    while amount:
        place = before[amount][2]
        counts[place] += 1
        amount -= worth[place].quantity
    bought = tuple((worth[place], count) for place, count in counts.items() if count)
    quantity = sum(offer.quantity * count for offer, count in bought)
    return Cover(bought, quantity, quantity - need, sum(offer.price_cents * count for offer, count in bought))


def _worth_looking_at(offers: tuple[Offer, ...]) -> tuple[Offer, ...]:
    """Leave out packages for which another holds as much for less, in an order that does not depend on theirs."""
    kept = (
        offer
        for offer in offers
        if not any(o.quantity >= offer.quantity and o.price_cents < offer.price_cents for o in offers)
    )
    return tuple(sorted(kept, key=lambda o: (o.price_cents, -o.quantity, o.shop, o.name, o.id)))


def _best_ways(offers: tuple[Offer, ...], need: int) -> dict[int, tuple[int, int, int]]:
    """Find for every amount worth reaching the least cents, then packages, and the package bought last.

    Amounts are visited from small to large, so each is final when visited. One is dropped when even the best unit
    price for the rest would cost more than as many of one package as cover the need.
    """
    enough = min(offer.price_cents * -(-need // offer.quantity) for offer in offers)
    best_unit = min(offer.unit_price for offer in offers)
    ways: dict[int, tuple[int, int, int]] = {0: (0, 0, -1)}
    waiting, looked_at = [0], 0
    while waiting:
        amount = heappop(waiting)
        cents, packages, _ = ways[amount]
        looked_at += 1
        if looked_at > MOST_AMOUNTS:
            raise BadField(
                f"too many ways to buy {need} of {offers[0].food!r}; name fewer packages to choose from"
            )
        for place, offer in enumerate(offers):
            reached = amount + offer.quantity
            way = (cents + offer.price_cents, packages + 1, place)
            rest = max(need - reached, 0)
            if way[0] * best_unit.denominator + rest * best_unit.numerator > enough * best_unit.denominator:
                continue
            known = ways.get(reached)
            if known is None and reached < need:
                heappush(waiting, reached)
            if known is None or way < known:
                ways[reached] = way
    return ways
