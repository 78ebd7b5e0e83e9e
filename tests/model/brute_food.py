"""The cheapest shopping for a set of batches, by trying every set of visits and every useful package count."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import chain, combinations, product
from math import ceil, lcm

from tests.model.plan_cost import NOTHING, version_of

from ladleworth.decide.answer import Batch, Drawing, Purchase
from ladleworth.decide.question import PackageOffer, Question
from ladleworth.decide.rules import MustBuy, MustUse


@dataclass(frozen=True, slots=True)
class Source:
    """A lot on hand or the packages of one offer bought on one day, as something to draw from."""

    name: str
    bought_day: int | None
    first: int
    last: int | None
    quantity: int
    draw_cents: Fraction | int  # what drawing one mg or piece does to the objective (or in shares of a cent)

    def open_on(self, day: int) -> bool:
        return self.first <= day and (self.last is None or day <= self.last)


@dataclass(frozen=True, slots=True)
class FoodBuy:
    """One way to meet the needs of one food: what is paid, what it adds to the objective, what is bought."""

    till: int
    cost: Fraction
    packages: tuple[tuple[PackageOffer, int, int], ...]
    drawn: tuple[tuple[Source, int], ...]


@dataclass(frozen=True, slots=True)
class Bought:
    cost: Fraction
    purchases: tuple[Purchase, ...]
    drawings: tuple[Drawing, ...]


Needs = tuple[tuple[int, int], ...]


def _batch_needs(question: Question, batch: Batch) -> dict[str, int]:
    """Amounts a batch needs, each rounded up to whole milligrams or pieces for the batch as a whole."""
    return {food: ceil(each * batch.portions) for food, each in version_of(question, batch).needs.items()}


def _needs(question: Question, batches: tuple[Batch, ...]) -> dict[str, Needs]:
    by_food: dict[str, dict[int, int]] = {food.name: {} for food in question.foods}
    for batch in batches:
        for food, amount in _batch_needs(question, batch).items():
            by_food[food][batch.day] = by_food[food].get(batch.day, 0) + amount
    return {food: tuple(sorted(days.items())) for food, days in by_food.items()}


def food_floor(
    question: Question, batches: tuple[Batch, ...], bought: dict[object, list[FoodBuy]]
) -> Fraction | None:
    """What the foods cost at least, every shop open for nothing and no budget; None if a need cannot be met."""
    everywhere = frozenset((s.name, d.day) for s in question.shops for d in question.sessions)
    total = NOTHING
    for food, needs in _needs(question, batches).items():
        ways = _food_ways(question, food, needs, everywhere, bought)
        if not ways:
            return None
        total += min(way.cost for way in ways)
    return total


def buy(question: Question, batches: tuple[Batch, ...], bought: dict[object, list[FoodBuy]]) -> Bought | None:
    """Return the cheapest shopping for the batches, over every set of visits; None if none will do.

    Once the visits are fixed (and paid for), the foods touch each other through the budget only.
    """
    needs = _needs(question, batches)
    visits = [(s.name, d.day) for s in question.shops for d in question.sessions]
    fares = {s.name: s.trip_cents for s in question.shops}
    budget = question.rules.budget_cents
    settled = {(offer.shop, day) for offer, day in settled_packages(question)}
    best_cost: Fraction | None = None
    best_ways: tuple[FoodBuy, ...] = ()
    for made in chain.from_iterable(combinations(visits, k) for k in range(len(visits) + 1)):
        if not settled <= set(made):
            continue
        trips = Fraction(sum(fares[shop] for shop, _ in made))
        each_food = [_food_ways(question, f, needs[f], frozenset(made), bought) for f in needs]
        if not all(each_food):
            continue
        for ways in _within_budget(each_food, budget):
            cost = trips + sum((way.cost for way in ways), NOTHING)
            if best_cost is None or cost < best_cost:
                best_cost, best_ways = cost, ways
    if best_cost is None:
        return None
    purchases = [Purchase(day, offer.name, count) for way in best_ways for offer, day, count in way.packages]
    drawings: list[Drawing] = []
    for food, way in zip(needs, best_ways, strict=True):
        drawings += _route(question, batches, food, way)
    return Bought(best_cost, tuple(purchases), tuple(drawings))


def settled_packages(question: Question) -> dict[tuple[PackageOffer, int], int]:
    """Return how many packages of an offer must be bought on a day, because the household wishes so."""
    least: dict[tuple[PackageOffer, int], int] = {}
    for wish in question.wishes:
        if isinstance(wish, MustBuy) and wish.packages > 0:
            key = (next(o for o in question.offers if o.name == wish.offer), wish.day)
            least[key] = max(wish.packages, least.get(key, 0))
    return least


def settled_draws(question: Question) -> dict[str, int]:
    """Return how much of a lot of food on hand must be drawn, because the household wishes so."""
    least: dict[str, int] = {}
    for wish in question.wishes:
        if isinstance(wish, MustUse) and any(lot.name == wish.lot for lot in question.lots):
            least[wish.lot] = max(wish.quantity, least.get(wish.lot, 0))
    return least


def _within_budget(each_food: list[list[FoodBuy]], budget: int | None) -> Iterator[tuple[FoodBuy, ...]]:
    """Yield the combinations of ways, one per food, that the money on hand pays for."""
    if budget is None:
        yield tuple(min(ways, key=lambda way: way.cost) for ways in each_food)
        return
    for ways in product(*each_food):
        if sum(way.till for way in ways) <= budget:
            yield ways


def _food_ways(
    question: Question,
    food: str,
    needs: Needs,
    visits: frozenset[tuple[str, int]],
    bought: dict[object, list[FoodBuy]],
) -> list[FoodBuy]:
    """Return the ways to meet the needs of one food that are not beaten in both till and cost."""
    settled = settled_packages(question)
    buyable = tuple(
        (offer, day)
        for offer in question.offers
        if offer.food == food
        for shop, day in sorted(visits)
        if shop == offer.shop and ((offer, day) in settled or any(day <= needed for needed, _ in needs))
    )
    key = (food, needs, tuple((offer.name, day) for offer, day in buyable))
    if key not in bought:
        bought[key] = _undominated(_ways_to_buy(question, food, needs, buyable))
    return bought[key]


def _undominated(ways: Iterator[FoodBuy]) -> list[FoodBuy]:
    kept: list[FoodBuy] = []
    for way in sorted(ways, key=lambda way: (way.till, way.cost)):
        if not kept or way.cost < kept[-1].cost:
            kept.append(way)
    return kept


def _ways_to_buy(
    question: Question, food: str, needs: Needs, buyable: tuple[tuple[PackageOffer, int], ...]
) -> Iterator[FoodBuy]:
    """Yield a way for every number of packages worth trying, with its best draws.

    A package that is not even begun is worth no more than it cost, so leaving it in the shop is no worse, and
    easier on the budget, unless the household wishes for it. So every package beyond the wished ones is begun:
    for n packages of size q at least (n-1)*q+1 is drawn, and all these amounts together are no more than the
    whole need.
    """
    settled = settled_packages(question)
    whole_need = sum(amount for _, amount in needs)

    def counts(at: int, begun: int) -> Iterator[tuple[int, ...]]:
        if at == len(buyable):
            yield ()
            return
        offer = buyable[at][0]
        n = wished = settled.get(buyable[at], 0)
        while True:
            least_drawn = (n - 1) * offer.quantity + 1 if n > wished else 0
            if begun + least_drawn > whole_need or (offer.most is not None and n > offer.most):
                return
            for rest in counts(at + 1, begun + least_drawn):
                yield (n, *rest)
            n += 1

    on_hand, standing = _on_hand(question, food)
    keep_days = next(f.keep_days for f in question.foods if f.name == food)
    kept = question.additions.carried_share
    ends = [None if keep_days is None else day + keep_days - 1 for _, day in buyable]
    outlives = [end is None or end > question.days for end in ends]
    packs = [
        (offer.cents * (1 - kept), Fraction(offer.cents, offer.quantity) * kept)
        if outlive
        else (Fraction(offer.cents), NOTHING)
        for (offer, _), outlive in zip(buyable, outlives, strict=True)
    ]
    # Money is counted in whole shares of a cent, so small that every figure here is whole: integers are faster.
    share = lcm(standing.denominator, *(f.denominator for pack in packs for f in pack))
    share = lcm(share, *(source.draw_cents.denominator for source in on_hand))
    in_shares = [replace(source, draw_cents=int(source.draw_cents * share)) for source in on_hand]
    pack_shares = [(int(own * share), int(each * share)) for own, each in packs]
    settled_lots = settled_draws(question)
    for numbers in counts(0, 0):
        sources = list(in_shares)
        till = 0
        cost = int(standing * share)
        packages = []
        for at, n in enumerate(numbers):
            if n == 0:
                continue
            offer, day = buyable[at]
            own, each = pack_shares[at]
            till += n * offer.cents
            cost += n * own
            sources.append(Source(offer.name, day, day, ends[at], n * offer.quantity, each))
            packages.append((offer, day, n))
        drawn = cheapest_draws(sources, needs, settled_lots)
        if drawn is not None:
            cost += sum(int(source.draw_cents) * amount for source, amount in drawn)
            yield FoodBuy(till, Fraction(cost, share), tuple(packages), drawn)


def _on_hand(question: Question, food: str) -> tuple[list[Source], Fraction]:
    """Return the lots on hand of a food, and their part of the objective if nothing is drawn.

    Left alone, a lot that is durable or outlives the days counts against the cost in full, and a lot whose
    last day comes within the days (or has gone by) adds its cost in full. Each mg or piece drawn takes its
    share of that back.
    """
    sources = []
    standing = NOTHING
    for lot in question.lots:
        if lot.food != food:
            continue
        carried = lot.last_day is None or lot.last_day > question.days
        kept = question.additions.carried_share
        standing += -lot.cents * kept if carried else lot.cents
        each = Fraction(lot.cents, lot.quantity) * (kept if carried else -1)
        sources.append(Source(lot.name, None, 1, lot.last_day, lot.quantity, each))
    return sources, standing


def cheapest_draws(
    sources: list[Source], needs: Needs, at_least: dict[str, int] | None = None
) -> tuple[tuple[Source, int], ...] | None:
    """Return how much to draw from each source so that every day's need is met at the least cost, or None.

    `at_least` says how much must come from a lot on hand, by its name.

    Amounts can be routed to the days without exceeding any need if and only if, for every set of days, the
    sources that are open on no other days give no more than these days need (Hall's condition). The sets of
    single mg or pieces that can be routed are the independent sets of a transversal matroid, and in a
    matroid taking the cheapest next as long as it still fits gives the cheapest of the largest sets; the
    largest meet the whole need, or nothing does. What must be drawn is taken first: what fits beside it is a
    matroid again.
    """
    wished = at_least or {}
    days = [day for day, _ in needs]
    groups = [frozenset(g) for k in range(1, len(days) + 1) for g in combinations(days, k)]
    room = {group: sum(amount for day, amount in needs if day in group) for group in groups}
    drawn = [0] * len(sources)

    def draw(at: int, most: int) -> None:
        open_days = frozenset(day for day in days if sources[at].open_on(day))
        if not open_days:
            return
        wider = [group for group in groups if open_days <= group]
        amount = min(most, *(room[group] for group in wider))
        for group in wider:
            room[group] -= amount
        drawn[at] += amount

    for at, source in enumerate(sources):
        least = wished.get(source.name, 0) if source.bought_day is None else 0
        if least > 0:
            draw(at, min(least, source.quantity))
            if drawn[at] < least:
                return None
    for at in sorted(range(len(sources)), key=lambda n: (sources[n].draw_cents, sources[n].name)):
        draw(at, sources[at].quantity - drawn[at])
    if sum(drawn) < sum(amount for _, amount in needs):
        return None
    return tuple((source, amount) for source, amount in zip(sources, drawn, strict=True) if amount)


def _route(question: Question, batches: tuple[Batch, ...], food: str, way: FoodBuy) -> Iterator[Drawing]:
    """Hand the drawn amounts to the batches, day by day, from the lot that closes first."""
    left = dict(way.drawn)
    for batch in sorted(batches):
        need = _batch_needs(question, batch).get(food, 0)
        forever = question.days + 1
        for source in sorted(left, key=lambda s: (s.last or forever, s.name, s.first)):
            amount = min(need, left[source]) if source.open_on(batch.day) else 0
            if amount:
                left[source] -= amount
                need -= amount
                split = sum((b.day, b.dish) == (batch.day, batch.dish) for b in batches) > 1
                version = batch.version if split else None
                yield Drawing(batch.day, batch.dish, source.name, source.bought_day, amount, version)
        assert need == 0, "the drawn amounts could not be routed to their days"
    assert not any(left.values()), "more was drawn than the batches need"
