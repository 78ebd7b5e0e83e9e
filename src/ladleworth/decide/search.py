"""A local search over batches: quick good weeks for the exact programme to start from and to prove.

A state says which dish is cooked in which session, in which version and how many portions, and which shops
are visited. Its price is worked out food by food (`basket.py`), and portions are seated by a simple host who
serves what presses most. Portions that the host cannot seat, containers that are not there and money that
is not there have a steep price, so that the search may pass through such states. What it returns are batches
for the exact programme to seat; it promises nothing.
"""

from __future__ import annotations

import bisect
import itertools
import math
import random
import time
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from ladleworth.decide.answer import Batch
from ladleworth.decide.basket import Larder, larders
from ladleworth.decide.host import Dinner, Host
from ladleworth.decide.moves import State, What, Where, move
from ladleworth.decide.question import PortionLot, Question
from ladleworth.decide.rules import MustCook, MustNotCook, MustUse
from ladleworth.decide.verdict import hands_on_min, need

NO_MEAL_OUT_CENTS = 3000.0
"""What an empty slot costs a state of the search where nobody eats out."""

STEEP = 1.5
"""What a portion without a seat or a container costs, in meals out: dear, yet worth passing through."""


MINUTES_A_MEAL = 15.0
"""So many minutes beyond a session's cost a state as much as a portion without a seat."""


@dataclass(slots=True)
class Search:
    """The question, prepared for many quick looks: names are numbers here, sets of slots and days are bits."""

    question: Question
    guide: Mapping[tuple[str, str], float] = field(default_factory=dict)
    """(dish, version) -> cents a portion that lead the search where nutrients are within their bounds"""
    against: Mapping[str, float] = field(default_factory=dict)
    """dish -> cents that speak against it: such dishes are tried less often"""
    chances: list[float] = field(init=False)
    """By dish: sums of the chances up to it"""
    days: tuple[int, ...] = field(init=False)
    price_out: float = field(init=False)
    steep: float = field(init=False)
    limits: list[int] = field(init=False)
    """Minutes by session"""
    stations: list[tuple[int, dict[str, int]]] = field(init=False)
    """(number of the session, minutes by station), of sessions whose stations are limited"""
    nothing: tuple[int, ...] = field(init=False)
    larders: list[Larder] = field(init=False)
    needs: dict[tuple[int, int, int], list[tuple[int, int]]] = field(init=False)
    """(dish, version, portions) -> (number of the food, mg or pieces)"""
    minutes: dict[tuple[int, int, int], float] = field(init=False)
    priced: dict[tuple[int, int, int], float] = field(init=False)
    """(dish, version, portions) -> cents of liking and of minutes"""
    loads: dict[tuple[int, int, int], list[tuple[str, float]]] = field(init=False)
    """(dish, version, portions) -> station and minutes"""
    host: Host = field(init=False)
    tables: dict[tuple[int, int, int], tuple[int, int, int, int, list[tuple[float, ...]]]] = field(init=False)
    """(dish, version, session) -> what the host needs to know of such a batch"""
    on_hand: list[tuple[int, int, PortionLot]] = field(init=False)
    """(slots, number of the dish, lot) of portions on hand"""

    def __post_init__(self) -> None:
        question = self.question
        spread = sorted(self.against.values())[len(self.against) // 3] if self.against else 0.0
        weights = [
            0.05 + math.exp(-self.against.get(dish.name, 0.0) / (spread or 1.0)) for dish in question.dishes
        ]
        self.chances = list(itertools.accumulate(weights))
        self.days = tuple(sorted(s.day for s in question.sessions))
        by_day = {s.day: s.minutes for s in question.sessions}
        self.limits = [by_day[day] for day in self.days]
        self.stations = [(self.days.index(s.day), dict(s.stations)) for s in question.sessions if s.stations]
        self.nothing = (0,) * len(self.days)
        out = question.rules.meal_out_cents
        self.price_out = NO_MEAL_OUT_CENTS if out is None else float(out)
        self.steep = STEEP * max(self.price_out, 300.0)
        numbers = {f.name: n for n, f in enumerate(question.foods)}
        self.larders = list(larders(question).values())
        dishes = {dish.name: n for n, dish in enumerate(question.dishes)}
        for portions_lot in question.portions:
            dishes.setdefault(portions_lot.dish, len(dishes))
        self.host = Host(question, dishes)
        self.tables = {}
        self.on_hand = []
        for one in question.portions:
            last = question.days if one.last_day is None else one.last_day
            days = set(range(one.first_day, last + 1))
            number = dishes[one.dish]
            mask = self.host.mask_of(number, one.barred, one.meals, days, set(one.nutrients))
            self.on_hand.append((mask, number, one))
        self.needs, self.minutes, self.priced, self.loads = {}, {}, {}, {}
        for d, dish in enumerate(question.dishes):
            for v, version in enumerate(dish.versions):
                for portions in range(dish.least, dish.greatest + 1):
                    key = (d, v, portions)
                    self.needs[key] = [(numbers[f], need(version, f, portions)) for f in version.needs]
                    self.minutes[key] = float(hands_on_min(version, portions) + dish.shared_min)
                    self.loads[key] = [(s, float(at.minutes(portions))) for s, at in version.loads.items()]
                    self.priced[key] = (
                        float(version.liking_cents) + self.guide.get((dish.name, version.name), 0.0)
                    ) * portions + float(question.additions.minute_cents) * self.minutes[key]

    def any_dish(self, rng: random.Random) -> int:
        """Draw a dish, the sooner the less speaks against it."""
        return bisect.bisect(self.chances, rng.random() * self.chances[-1], hi=len(self.chances) - 1)

    def state_of(self, batches: Sequence[Batch]) -> dict[Where, What]:
        """Write batches with numbers for names."""
        dishes = {dish.name: (d, dish) for d, dish in enumerate(self.question.dishes)}
        found: dict[Where, What] = {}
        for batch in batches:
            d, dish = dishes[batch.dish]
            v = next(v for v, version in enumerate(dish.versions) if version.name == batch.version)
            found[d, self.days.index(batch.day)] = (v, batch.portions)
        return found

    def weigh(self, state: State, parent: State | None = None, limit: float = math.inf) -> None:
        """Work out what a state costs, from the parent's food prices where there is one.

        Where food, trips and empty slots alone cost more than the limit nobody is seated: the cost is then infinite.
        """
        self._price_foods(state, parent)
        plain = self.plain(state)
        slots = len(self.question.slots)
        empty = slots - sum(portions for _, portions in state.batches.values())
        if empty >= 0 and not self.on_hand and plain + self.price_out * empty > limit:
            state.cost = math.inf
            return
        uncut = State(dict(state.batches), state.visits, demands=state.demands, prices=state.prices)
        seated, repeats, lost = self._host(state)
        if state.batches != uncut.batches:
            self._price_foods(state, uncut)
            plain = self.plain(state)
        cost = plain + self.price_out * (slots - seated) + self.steep * lost
        cost += self.question.additions.repeat_cents * repeats
        late, unkept = self.over_time(state), self.unkept(state)
        state.cost = cost + late * self.steep / MINUTES_A_MEAL + unkept * self.steep
        state.sound = not lost and not late and not unkept

    def plain(self, state: State) -> float:
        """What food, trips, minutes and sessions of a state cost, whoever eats."""
        question = self.question
        cost = sum(self.priced[d, v, portions] for (d, _), (v, portions) in state.batches.items())
        tills = 0
        for paid, till in state.prices.values():
            cost += paid
            tills += till
        shops = len(question.shops)
        for bit in range(len(self.days) * shops):
            if state.visits >> bit & 1:
                cost += question.shops[bit % shops].trip_cents
        budget = question.rules.budget_cents
        if budget is not None and tills > budget:
            cost += (tills - budget) * 10
        return cost + sum(
            session.cents
            for session in question.sessions
            if session.cents and any(self.days[at] == session.day for _, at in state.batches)
        )

    def unkept(self, state: State) -> float:
        """How far wishes about dishes and lots are from being kept, in portions."""
        if not self.question.wishes:
            return 0.0
        lacking = 0.0
        dishes = self.question.dishes
        for wish in self.question.wishes:
            if isinstance(wish, MustCook | MustNotCook):
                cooked = sum(
                    portions
                    for (d, at), (v, portions) in state.batches.items()
                    if dishes[d].name == wish.dish
                    and wish.day in (None, self.days[at])
                    and wish.version in (None, dishes[d].versions[v].name)
                )
                lacking += max(0, wish.portions - cooked) if isinstance(wish, MustCook) else cooked
            elif isinstance(wish, MustUse):
                lot = next((lot for lot in self.question.lots if lot.name == wish.lot), None)
                if lot is not None:
                    food = next(n for n, f in enumerate(self.question.foods) if f.name == lot.food)
                    used = sum(state.demands.get(food, self.nothing))
                    lacking += max(0.0, 1 - used / wish.quantity) if wish.quantity else 0.0
        return lacking

    def _price_foods(self, state: State, parent: State | None) -> None:
        """Price the foods whose demand differs from the parent's; all of them where the visits do."""
        before = {} if parent is None else parent.batches
        state.demands = {} if parent is None else dict(parent.demands)
        changed: set[int] = set()
        for where in before.keys() | state.batches.keys():
            old, new = before.get(where), state.batches.get(where)
            if old == new:
                continue
            d, s = where
            for batch, sign in ((old, -1), (new, 1)):
                for food, quantity in self.needs[d, *batch] if batch is not None else ():
                    wanted = list(state.demands.get(food, self.nothing))
                    wanted[s] += sign * quantity
                    state.demands[food] = tuple(wanted)
                    changed.add(food)
        again = parent is None or parent.visits != state.visits
        state.prices = {} if again or parent is None else dict(parent.prices)
        for food in state.demands if again else changed:
            if any(state.demands[food]):
                state.prices[food] = self.larders[food].price(state.demands[food], state.visits)
            else:
                state.prices.pop(food, None)

    def over_time(self, state: State) -> float:
        """Hands-on minutes beyond what the sessions have."""
        used = [0.0] * len(self.days)
        for (d, s), (v, portions) in state.batches.items():
            used[s] += self.minutes[d, v, portions]
        late = sum(max(0.0, spent - limit) for spent, limit in zip(used, self.limits, strict=True))
        for at, session in self.stations:
            for station, limit in session.items():
                taken = sum(
                    minutes
                    for (d, s), (v, portions) in state.batches.items()
                    if s == at
                    for name, minutes in self.loads[d, v, portions]
                    if name == station
                )
                late += max(0.0, taken - limit)
        return late

    def _host(self, state: State) -> tuple[int, int, float]:
        """Let the host seat the portions of a state.

        A batch larger than its seats is cut down to them in the state, as far as its least size allows.

        Returns
        -------
        (seated, repeats, lost)
            Portions seated; helpings beyond an eater's first of a dish; and what does not work out, in portions.
        """
        dishes, parts = self.question.dishes, self.host.parts
        wheres = list(state.batches.items())
        dinners = []
        for (d, at), (v, portions) in wheres:
            key = (d, v, at)
            if key not in self.tables:
                self.tables[key] = self._table_of(*key)
            mask, cooked, last, fridge_end, offs = self.tables[key]
            dinners.append(
                Dinner(mask, d, portions * parts, cooked, last, fridge_end, is_lot=False, offs=offs)
            )
        for mask, number, lot in self.on_hand:
            last = self.question.days if lot.last_day is None else min(self.question.days, lot.last_day)
            dinners.append(
                Dinner(
                    mask,
                    number,
                    lot.portions,
                    0,
                    last,
                    last,
                    is_lot=True,
                    offs=self.host.offs_of(lot.nutrients, whole=True),
                )
            )
        seating = self.host.seat(dinners)
        reserve = self.question.additions.reserve_portions
        lost, kept = seating.amiss, 0
        for ((d, at), (v, portions)), parts_left, dinner in zip(wheres, seating.left, dinners, strict=False):
            left = parts_left // parts
            if left and not reserve:
                cut = min(left, portions - dishes[d].least)
                state.batches[d, at] = (v, portions - cut)
                left -= cut
            freezer_days = dishes[d].freezer_days
            if freezer_days is not None and dinner.cooked + freezer_days - 1 > self.question.days:
                kept += left
            lost += left
        return seating.seated, seating.repeats, lost - min(kept, reserve)

    def _table_of(self, d: int, v: int, at: int) -> tuple[int, int, int, int, list[tuple[float, ...]]]:
        """What the host needs to know of a batch: slots, cooking day, last day, last chilled day, nutrients."""
        dish, cooked = self.question.dishes[d], self.days[at]
        version = dish.versions[v]
        fridge_end = cooked + dish.keep_days - 1
        freezer_end = 0 if dish.freezer_days is None else cooked + dish.freezer_days - 1
        days = {
            day
            for day in range(1, self.question.days + 1)
            if cooked <= day <= fridge_end or cooked + 2 <= day <= freezer_end
        }
        mask = self.host.mask_of(d, version.barred, dish.meals, days, set(version.nutrients))
        offs = self.host.offs_of(version.nutrients, whole=False)
        return mask, cooked, max(fridge_end, freezer_end), fridge_end, offs


def search(
    question: Question,
    seconds: float | None,
    looks: int | None = 100_000,
    seed: int = 0,
    start: Sequence[Batch] = (),
    guide: Mapping[tuple[str, str], float] | None = None,
    visits: Collection[tuple[str, int]] | None = None,
    against: Mapping[str, float] | None = None,
) -> tuple[tuple[Batch, ...], ...]:
    """Anneal.

    Parameters
    ----------
    question, seed
        The question; the seed of the random moves.
    seconds, looks
        Limits on the clock and on the number of states looked at, whichever comes first; one of them may be None.

    start
        Batches to begin from, at little heat: to better a plan that is good already. None: begin with nothing.

    Returns
    -------
    tuple of tuple of Batch
        The batches of the best states found, cheapest first, at most five different ones.
    """
    bench = Search(question, guide or {}, against or {})
    if not question.sessions or not question.dishes:
        return ()
    rng = random.Random(seed)  # noqa: S311  # chance for a search, not for a secret
    began = time.monotonic()
    mask = (1 << len(bench.days) * len(question.shops)) - 1
    if visits is not None:
        shops = [shop.name for shop in question.shops]
        mask = sum(1 << bench.days.index(day) * len(shops) + shops.index(shop) for shop, day in visits)
    here = State(bench.state_of(start), mask)
    bench.weigh(here)
    best: dict[frozenset[tuple[Where, What]], float] = {}
    hot, cold = max(50.0, (0.06 if start else 0.4) * bench.price_out), 3.0
    for look in itertools.count():
        gone = 0.0 if seconds is None else (time.monotonic() - began) / seconds
        gone = gone if looks is None else max(gone, look / looks)
        if gone >= 1:
            break
        there = move(bench, here, rng)
        if there is None:
            continue
        heat = hot * (cold / hot) ** gone
        # what a state may cost to be gone on from, at this heat and by this throw of the dice
        limit = here.cost - heat * math.log(1 - rng.random())
        bench.weigh(there, here, limit)
        if there.cost <= limit:
            here = there
            if here.sound:
                key = frozenset(here.batches.items())
                if here.cost < best.get(key, math.inf):
                    best[key] = here.cost
    ranked = sorted(best, key=lambda key: (best[key], sorted(key)))[:5]
    return tuple(
        tuple(
            sorted(
                Batch(bench.days[s], question.dishes[d].name, question.dishes[d].versions[v].name, portions)
                for (d, s), (v, portions) in key
            )
        )
        for key in ranked
    )
