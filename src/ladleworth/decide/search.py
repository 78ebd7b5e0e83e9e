"""A local search over batches: quick good weeks for the exact programme to start from and to prove.

A state says which dish is cooked in which session, in which version and how many portions, and which shops
are visited. Its price is worked out food by food (`basket.py`), and portions are seated by a simple host who
serves what presses most. Portions that the host cannot seat, containers that are not there and money that
is not there have a steep price, so that the search may pass through such states. What it returns are batches
for the exact programme to seat; it promises nothing.
"""

from __future__ import annotations

import itertools
import math
import random
import time
from collections.abc import Sequence
from dataclasses import dataclass, field

from ladleworth.decide.answer import Batch
from ladleworth.decide.basket import Larder, larders
from ladleworth.decide.columns import has_figures
from ladleworth.decide.question import DishChoice, PortionLot, Question
from ladleworth.decide.rules import MustCook, MustNotCook, MustServe, MustUse
from ladleworth.decide.verdict import hands_on_min, need

Where = tuple[int, int]
"""(number of the dish, number of the session)"""

What = tuple[int, int]
"""(number of the version, portions)"""

NO_MEAL_OUT_CENTS = 3000.0
"""What an empty slot costs a state of the search where nobody eats out."""

STEEP = 1.5
"""What a portion without a seat or a container costs, in meals out: dear, yet worth passing through."""


MINUTES_A_MEAL = 15.0
"""So many minutes beyond a session's cost a state as much as a portion without a seat."""


@dataclass(slots=True)
class State:
    """Batches, visits (bit `session * shops + shop`) and what they cost."""

    batches: dict[Where, What]
    visits: int
    cost: float = math.inf
    sound: bool = False
    demands: dict[int, tuple[int, ...]] = field(default_factory=dict)
    """Number of the food -> mg or pieces by session"""
    prices: dict[int, tuple[float, int]] = field(default_factory=dict)
    """Number of the food -> what it costs, and money at the tills"""


@dataclass(slots=True)
class Search:
    """The question, prepared for many quick looks: names are numbers here, sets of slots and days are bits."""

    question: Question
    days: tuple[int, ...] = field(init=False)
    price_out: float = field(init=False)
    steep: float = field(init=False)
    limits: list[int] = field(init=False)
    """Minutes by session"""
    stations: list[tuple[int, dict[str, int]]] = field(init=False)
    """(number of the session, minutes by station), of sessions whose stations are limited"""
    nothing: tuple[int, ...] = field(init=False)
    larders: list[Larder] = field(init=False)
    slots: list[list[tuple[int, int]]] = field(init=False)
    """By day: (bit of the kind of slot, number of the eater)"""
    taken_by: list[list[int]] = field(init=False)
    """By dish and version: bits of the kinds of slot that may have it"""
    needs: dict[tuple[int, int, int], list[tuple[int, int]]] = field(init=False)
    """(dish, version, portions) -> (number of the food, mg or pieces)"""
    minutes: dict[tuple[int, int, int], float] = field(init=False)
    priced: dict[tuple[int, int, int], float] = field(init=False)
    """(dish, version, portions) -> cents of liking and of minutes"""
    loads: dict[tuple[int, int, int], list[tuple[str, float]]] = field(init=False)
    """(dish, version, portions) -> station and minutes"""
    parts: int = field(init=False)
    """Portions are counted in so many parts, so that every appetite is a whole number of them"""
    appetites: list[int] = field(init=False)
    """By eater: parts of a portion"""
    places: float = field(init=False)
    """Containers"""
    span_of: list[int] = field(init=False)
    """By day: number of the span"""
    bounds: list[list[tuple[str, float, float]]] = field(init=False)
    """By eater: (nutrient, least, most) of an average helping"""
    figures: list[list[dict[str, float]]] = field(init=False)
    """By dish and version: nutrients of a standard portion"""
    on_hand: list[tuple[PortionLot, int, int]] = field(init=False)
    """(lot of portions, number of its dish, kinds of slot that may have it)"""
    promised: dict[tuple[int, int], int] = field(init=False)
    """(day, kind of slot) -> number of the dish that it is promised to, -1 a meal out"""

    def __post_init__(self) -> None:
        question = self.question
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
        eaters = {name: n for n, name in enumerate(question.eaters)}
        kinds = {kind: n for n, kind in enumerate(dict.fromkeys((s.eater, s.meal) for s in question.slots))}
        self.slots = [[] for _ in range(question.days + 1)]
        for slot in question.slots:
            self.slots[slot.day].append((1 << kinds[slot.eater, slot.meal], eaters[slot.eater]))
        self.taken_by = [
            [
                sum(
                    1 << n
                    for (eater, meal), n in kinds.items()
                    if eater not in v.barred
                    and dish.suits(meal)
                    and has_figures(question, eater, v.nutrients)
                )
                for v in dish.versions
            ]
            for dish in question.dishes
        ]
        self._prepare_table(eaters, kinds)
        self.needs, self.minutes, self.priced, self.loads = {}, {}, {}, {}
        for d, dish in enumerate(question.dishes):
            for v, version in enumerate(dish.versions):
                for portions in range(dish.least, dish.greatest + 1):
                    key = (d, v, portions)
                    self.needs[key] = [(numbers[f], need(version, f, portions)) for f in version.needs]
                    self.minutes[key] = float(hands_on_min(version, portions) + dish.shared_min)
                    self.loads[key] = [(s, float(at.minutes(portions))) for s, at in version.loads.items()]
                    self.priced[key] = (
                        float(version.liking_cents) * portions
                        + float(question.additions.minute_cents) * self.minutes[key]
                    )

    def _prepare_table(self, eaters: dict[str, int], kinds: dict[tuple[str, str], int]) -> None:
        """Number what the host needs to know of eaters, spans, nutrients and portions on hand."""
        question, rules = self.question, self.question.rules
        self.parts = math.lcm(*(question.appetite(e).denominator for e in eaters))
        self.appetites = [int(question.appetite(e) * self.parts) for e in eaters]
        sizes = sum(c.count for c in rules.container_sizes) if rules.container_sizes else math.inf
        self.places = min(math.inf if rules.containers is None else rules.containers, sizes)
        self.span_of = [0] * (question.days + 1)
        for number, span in enumerate(question.spans()):
            for day in span:
                self.span_of[day] = number
        self.bounds = [
            [
                (b.nutrient, float(b.least or 0), math.inf if b.most is None else float(b.most))
                for b in rules.nutrient_bounds
                if b.eater == eater
            ]
            for eater in eaters
        ]
        self.figures = [
            [{n: float(x) for n, x in v.nutrients.items()} for v in dish.versions] for dish in question.dishes
        ]
        dishes = {dish.name: n for n, dish in enumerate(question.dishes)}
        for lot in question.portions:
            dishes.setdefault(lot.dish, len(dishes))
        self.on_hand = [
            (
                lot,
                dishes[lot.dish],
                sum(
                    1 << n
                    for (eater, meal), n in kinds.items()
                    if eater not in lot.barred
                    and lot.suits(meal)
                    and has_figures(question, eater, lot.nutrients)
                ),
            )
            for lot in question.portions
        ]
        self.promised = {
            (w.day, 1 << kinds[w.eater, w.meal]): -1 if w.dish is None else dishes[w.dish]
            for w in question.wishes
            if isinstance(w, MustServe)
        }

    def state_of(self, batches: Sequence[Batch]) -> dict[Where, What]:
        """Write batches with numbers for names."""
        dishes = {dish.name: (d, dish) for d, dish in enumerate(self.question.dishes)}
        found: dict[Where, What] = {}
        for batch in batches:
            d, dish = dishes[batch.dish]
            v = next(v for v, version in enumerate(dish.versions) if version.name == batch.version)
            found[d, self.days.index(batch.day)] = (v, batch.portions)
        return found

    def weigh(self, state: State, parent: State | None = None) -> None:
        """Work out what a state costs, from the parent's food prices where there is one."""
        question = self.question
        seated, repeats, lost = self._host(state)
        cost = self.price_out * (len(question.slots) - seated) + self.steep * lost
        cost += question.additions.repeat_cents * repeats
        for (d, _), (v, portions) in state.batches.items():
            cost += self.priced[d, v, portions]
        self._price_foods(state, parent)
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
        cost += sum(
            session.cents
            for session in question.sessions
            if session.cents and any(self.days[at] == session.day for _, at in state.batches)
        )
        late = self.over_time(state)
        unkept = self.unkept(state)
        state.cost = cost + late * self.steep / MINUTES_A_MEAL + unkept * self.steep
        state.sound = not lost and not late and not unkept

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
        """Seat portions day by day, first what has most portions left for each day that it still keeps.

        A batch larger than its seats is cut down to them in the state, as far as its least size allows.

        Returns
        -------
        (seated, repeats, lost)
            Portions seated; helpings beyond an eater's first of a dish; and what does not work out: portions
            without a seat, a container or a place in the freezer, and portions' worth of nutrients out of bounds.
        """
        question, rules = self.question, self.question.rules
        parts, promised = self.parts, self.promised
        pots = [
            _Pot((d, s), question.dishes[d], self.taken_by[d][v], self.days[s], portions * parts)
            for (d, s), (v, portions) in state.batches.items()
        ]
        pots += [
            _Pot.of_lot(n, number, lot, kinds, question.days)
            for n, (lot, number, kinds) in enumerate(self.on_hand)
        ]
        run = rules.in_a_row
        run_bits = 0 if run is None else (1 << run) - 1
        had: dict[tuple[int, int], int] = {}
        times: dict[tuple[int, int, int], int] = {}
        frozen_on: list[tuple[int, int]] = []
        waiting: list[list[tuple[_Pot, int]]] = []
        ate: list[tuple[int, int, _Pot]] = []
        seated = repeats = kept_promises = 0
        for day in range(1, question.days + 1):
            ready = [pot for pot in pots if pot.serves(day)]
            ready.sort(key=lambda pot: -pot.pressure(day, question.days))
            span = self.span_of[day]
            for kind, eater in self.slots[day]:
                wanted = promised.get((day, kind)) if promised else None
                for pot in ready:
                    bite = 1 if pot.is_lot else self.appetites[eater]
                    if pot.left < bite or not pot.taken_by & kind or wanted not in (None, pot.number):
                        continue
                    pair = (eater, pot.number)
                    before = had.get(pair, 0)
                    if run is not None and day > run and before >> (day - run) & run_bits == run_bits:
                        continue
                    number = times.get((*pair, span), 0)
                    if number and rules.most_times is not None and number >= rules.most_times:
                        continue
                    repeats += number > 0
                    times[*pair, span] = number + 1
                    had[pair] = before | 1 << day
                    pot.left -= bite
                    pot.helpings += 1
                    seated += 1
                    kept_promises += wanted is not None
                    ate.append((eater, span, pot))
                    if day > pot.fridge_end and not pot.is_lot:
                        frozen_on.append((pot.cooked, day))
                    break
            if day in self.days and self.places < math.inf:
                waiting.append([(pot, pot.waits(day, parts)) for pot in pots if pot.cooked <= day])
        lost: float = 0
        kept = sum(pot.left // parts for pot in pots if not pot.is_lot and pot.freezer_end > question.days)
        spare = min(kept, question.additions.reserve_portions)
        for pot in pots:
            if pot.is_lot:
                continue
            left = pot.left // parts
            if left and not question.additions.reserve_portions:
                v, portions = state.batches[pot.where]
                pot.cut = min(left, portions - question.dishes[pot.number].least)
                state.batches[pot.where] = (v, portions - pot.cut)
            lost += left - pot.cut
        lost -= spare
        for night in waiting:
            lost += max(0, sum(left - pot.cut for pot, left in night) - self.places)
        for evening in self.days:
            frozen = [(cooked, day) for cooked, day in frozen_on if cooked <= evening]
            if rules.freezer_places is not None:
                lost += max(0, sum(day > evening + 1 for _, day in frozen) - rules.freezer_places)
            if rules.freezing_load is not None:
                lost += max(0, sum(cooked == evening for cooked, _ in frozen) - rules.freezing_load)
        if promised:
            lost += sum(dish >= 0 for dish in promised.values()) - kept_promises
        return seated, repeats, lost + self._out_of_bounds(state, ate)

    def _out_of_bounds(self, state: State, ate: Sequence[tuple[int, int, _Pot]]) -> float:
        """How far the nutrients of helpings are from their bounds, in average portions."""
        if not self.question.rules.nutrient_bounds:
            return 0.0
        sums: dict[tuple[int, int, str], float] = {}
        for eater, span, pot in ate:
            if pot.is_lot:
                lot = self.on_hand[pot.where[1]][0]
                figures, appetite = {n: float(x) for n, x in lot.nutrients.items()}, 1.0
            else:
                figures = self.figures[pot.number][state.batches[pot.where][0]]
                appetite = self.appetites[eater] / self.parts
            for nutrient, least, most in self.bounds[eater]:
                amount = figures[nutrient] * appetite
                for key, off in ((nutrient + "<", least - amount), (nutrient + ">", amount - most)):
                    sums[eater, span, key] = sums.get((eater, span, key), 0.0) + off / (least or most)
        return sum(max(0.0, off) for off in sums.values() if off > 1e-9)


class _Pot:
    """A batch at the host's table, or a lot of portions on hand."""

    __slots__ = (
        "cooked",
        "cut",
        "freezer_end",
        "fridge_end",
        "helpings",
        "is_lot",
        "left",
        "number",
        "start",
        "taken_by",
        "where",
    )

    def __init__(self, where: Where, dish: DishChoice, taken_by: int, cooked: int, left: int) -> None:
        self.where = where
        self.number = where[0]
        self.taken_by = taken_by
        self.cooked = self.start = cooked
        self.left = left
        self.cut = 0
        self.helpings = 0
        self.is_lot = False
        self.fridge_end = cooked + dish.keep_days - 1
        self.freezer_end = 0 if dish.freezer_days is None else cooked + dish.freezer_days - 1

    @classmethod
    def of_lot(cls, at: int, number: int, lot: PortionLot, taken_by: int, days: int) -> _Pot:
        """Put portions on hand on the table."""
        pot = cls.__new__(cls)
        pot.where, pot.number, pot.taken_by, pot.cooked, pot.start = (
            (number, at),
            number,
            taken_by,
            0,
            lot.first_day,
        )
        pot.left, pot.cut, pot.helpings, pot.is_lot = lot.portions, 0, 0, True
        pot.fridge_end = days if lot.last_day is None else min(days, lot.last_day)
        pot.freezer_end = 0
        return pot

    def pressure(self, day: int, last: int) -> float:
        """Portions left for each day on which they can still be eaten."""
        return self.left / (min(last, max(self.fridge_end, self.freezer_end)) - day + 1)

    def serves(self, day: int) -> bool:
        """Say whether it can be eaten on a day."""
        return self.left > 0 and (
            self.start <= day <= self.fridge_end or self.cooked + 2 <= day <= self.freezer_end
        )

    def waits(self, day: int, parts: int) -> int:
        """Containers in use after the slots of a day, roughly."""
        if self.is_lot:
            return self.left if day < self.fridge_end else 0
        return self.left // parts


def search(
    question: Question,
    seconds: float | None,
    looks: int | None = 100_000,
    seed: int = 0,
    start: Sequence[Batch] = (),
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
    bench = Search(question)
    if not question.sessions or not question.dishes:
        return ()
    rng = random.Random(seed)  # noqa: S311  # chance for a search, not for a secret
    began = time.monotonic()
    visits = (1 << len(bench.days) * len(question.shops)) - 1
    here = State(bench.state_of(start), visits)
    bench.weigh(here)
    best: dict[frozenset[tuple[Where, What]], float] = {}
    hot, cold = max(50.0, (0.06 if start else 0.4) * bench.price_out), 3.0
    for look in itertools.count():
        gone = 0.0 if seconds is None else (time.monotonic() - began) / seconds
        gone = gone if looks is None else max(gone, look / looks)
        if gone >= 1:
            break
        there = _move(bench, here, rng)
        if there is None:
            continue
        bench.weigh(there, here)
        heat = hot * (cold / hot) ** gone
        if there.cost <= here.cost or rng.random() < math.exp((here.cost - there.cost) / heat):
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


def _move(bench: Search, state: State, rng: random.Random) -> State | None:
    """Change one thing, or two that belong together; None where the drawn change does not apply."""
    dishes = bench.question.dishes
    batches = dict(state.batches)
    visits = state.visits
    kind = rng.random()
    if kind < 0.08 and bench.question.shops:
        return State(batches, visits ^ (1 << rng.randrange(len(bench.days) * len(bench.question.shops))))
    if kind < 0.3 or not batches:
        d = rng.randrange(len(dishes))
        where = (d, rng.randrange(len(bench.days)))
        if where in batches:
            return None
        batches[where] = (
            rng.randrange(len(dishes[d].versions)),
            dishes[d].greatest if rng.random() < 0.5 else rng.randint(dishes[d].least, dishes[d].greatest),
        )
        return State(batches, visits)
    where = rng.choice(sorted(batches))
    d, s = where
    v, portions = batches[where]
    if kind < 0.4:
        del batches[where]
    elif kind < 0.62:
        changed = portions + rng.choice((-2, -1, 1, 2))
        if not dishes[d].least <= changed <= dishes[d].greatest:
            return None
        batches[where] = (v, changed)
    elif kind < 0.7:
        other = rng.choice(sorted(batches))
        v2, portions2 = batches[other]
        if other == where or portions >= dishes[d].greatest or portions2 <= dishes[other[0]].least:
            return None
        batches[where] = (v, portions + 1)
        batches[other] = (v2, portions2 - 1)
    elif kind < 0.78:
        batches[where] = (rng.randrange(len(dishes[d].versions)), portions)
    elif kind < 0.84:
        elsewhere = (d, rng.randrange(len(bench.days)))
        if elsewhere in batches:
            return None
        del batches[where]
        batches[elsewhere] = (v, portions)
    else:
        other_dish = rng.randrange(len(dishes))
        dish = dishes[other_dish]
        if (other_dish, s) in batches:
            return None
        del batches[where]
        batches[other_dish, s] = (
            rng.randrange(len(dish.versions)),
            min(max(portions, dish.least), dish.greatest),
        )
    return State(batches, visits)
