"""The week written down as it reads: one 0-1 column for each slot and each portion it might get.

This is what a competent user of a solver would write: no column counts several slots together, no row is there
only to tighten. It shares no code with `ladleworth.decide` but the records and the judge. It is kept in exact
integers and fractions, so that each solver gets the same programme in the numbers it takes (`plain_solvers.py`).
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from ladleworth.decide import DishChoice, MealSlot, PackageOffer, Question, StockLot, Version

Exact = int | Fraction
Terms = list[tuple[int, Exact]]


class NotWrittenDown(ValueError):
    """The question has a rule that the plain programme does not have."""


@dataclass(slots=True)
class Column:
    """A whole or continuous unknown from 0 to `most`; `step`: how many of it make one for a solver with floats."""

    name: str
    most: int
    whole: bool
    cost: Exact = 0
    step: int = 1


class Row(NamedTuple):
    """low <= sum of the terms <= high, None where there is no limit; `scale`: divide by it for floats."""

    low: Exact | None
    high: Exact | None
    terms: Terms
    scale: int


class Pot(NamedTuple):
    """A batch that might be cooked: dish, version, day of the session."""

    dish: str
    version: str
    day: int


class Source(NamedTuple):
    """A lot on hand (`bought` None), or what is bought of an offer on a day."""

    name: str
    bought: int | None


@dataclass(slots=True)
class PlainWeek:
    """The programme of a question, and where its columns stand."""

    question: Question
    columns: list[Column] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    constant: Exact = 0
    cooked: dict[Pot, int] = field(default_factory=dict)
    """1 if the batch is cooked"""
    portions: dict[Pot, int] = field(default_factory=dict)
    helping: dict[tuple[Pot, MealSlot, bool], int] = field(default_factory=dict)
    """1 if the slot gets a portion of this batch, frozen or not"""
    out: dict[MealSlot, int] = field(default_factory=dict)
    left: dict[Pot, int] = field(default_factory=dict)
    """Frozen portions left when the days end"""
    buy: dict[tuple[str, int], int] = field(default_factory=dict)
    use: dict[tuple[Source, int], int] = field(default_factory=dict)
    """What a session draws from a source, in units of the food"""

    def column(self, name: str, most: int, cost: Exact = 0, *, whole: bool = True, step: int = 1) -> int:
        """Add an unknown and return where it stands."""
        self.columns.append(Column(name, most, whole, cost, step))
        return len(self.columns) - 1

    def row(self, low: Exact | None, high: Exact | None, terms: Terms, scale: int = 1) -> None:
        """Add a row, unless it has no terms and holds anyway."""
        if terms or (low or 0) > 0 or (high is not None and high < 0):
            self.rows.append(Row(low, high, terms, scale))


def write_down(question: Question) -> PlainWeek:
    """Write the whole question down.

    Parameters
    ----------
    question
        The question of the week.

    Returns
    -------
    PlainWeek
        Whose optimum, `constant` added, is the least cost in cents.

    Raises
    ------
    NotWrittenDown
        If the question has rules that this programme leaves out.
    """
    missing = [words for words, there in _left_out(question) if there]
    if missing:
        raise NotWrittenDown(f"the plain programme does not know {', '.join(missing)}")
    week = PlainWeek(question)
    _batches(week)
    _slots(week)
    _sameness(week)
    _nutrients(week)
    _nights(week)
    _food(week)
    return week


def _left_out(question: Question) -> Iterator[tuple[str, bool]]:
    rules = question.rules
    yield "portions on hand", bool(question.portions)
    yield "appetites", any(factor != 1 for factor in question.appetites.values())
    yield "wishes", bool(question.wishes)
    yield "batches split between versions", any(d.most_versions > 1 for d in question.dishes)
    yield "containers by size", bool(rules.container_sizes)
    yield "room by volume", rules.fridge_ml is not None or rules.freezer_ml is not None


def _pots(question: Question) -> Iterator[tuple[Pot, DishChoice, Version]]:
    for dish in question.dishes:
        for version in dish.versions:
            for session in question.sessions:
                yield Pot(dish.name, version.name, session.day), dish, version


def _batches(week: PlainWeek) -> None:
    """What is cooked: one version of a dish a session, in least..greatest portions, within the minutes."""
    question, extra = week.question, week.question.additions
    minutes: dict[int, Terms] = defaultdict(list)
    loads: dict[tuple[int, str], Terms] = defaultdict(list)
    alternatives: dict[tuple[str, int], Terms] = defaultdict(list)
    for pot, dish, version in _pots(question):
        fixed = dish.shared_min + version.fixed_min
        each = extra.minute_cents * version.per_portion_min + version.liking_cents
        cooked = week.column(f"cooked {pot}", 1, extra.minute_cents * fixed)
        portions = week.column(f"portions {pot}", dish.greatest, each)
        week.cooked[pot], week.portions[pot] = cooked, portions
        week.row(0, None, [(portions, 1), (cooked, -dish.least)])
        week.row(None, 0, [(portions, 1), (cooked, -dish.greatest)])
        alternatives[dish.name, pot.day].append((cooked, 1))
        minutes[pot.day] += [(cooked, fixed), (portions, version.per_portion_min)]
        for station, load in version.loads.items():
            loads[pot.day, station] += [(cooked, load.fixed_min), (portions, load.per_portion_min)]
    for terms in alternatives.values():
        week.row(None, 1, terms)
    for session in question.sessions:
        week.row(None, session.minutes, minutes[session.day])
        for station, there in session.stations.items():
            week.row(None, there, loads[session.day, station])
        if session.cents:
            held = week.column(f"held {session.day}", 1, session.cents)
            for pot, cooked in week.cooked.items():
                if pot.day == session.day:
                    week.row(None, 0, [(cooked, 1), (held, -1)])


def _slots(week: PlainWeek) -> None:
    """Each slot gets one portion or a meal out; each portion cooked is eaten in time, or left in the freezer."""
    question, extra = week.question, week.question.additions
    fills: dict[MealSlot, Terms] = defaultdict(list)
    spare: Terms = []
    for pot, dish, version in _pots(question):
        eaten: Terms = []
        for slot in question.slots:
            if slot.eater in version.barred or not dish.suits(slot.meal):
                continue
            age = slot.day - pot.day + 1
            ways = [False] if 1 <= age <= dish.keep_days else []
            ways += [True] if dish.freezer_days is not None and 3 <= age <= dish.freezer_days else []
            for frozen in ways:
                at = week.column(f"helping {pot} {slot} {frozen}", 1)
                week.helping[pot, slot, frozen] = at
                eaten.append((at, 1))
                fills[slot].append((at, 1))
        keeps_on = dish.freezer_days is not None and pot.day + dish.freezer_days - 1 > question.days
        if extra.reserve_portions and keeps_on:
            week.left[pot] = week.column(f"left {pot}", extra.reserve_portions, -extra.reserve_cents)
            eaten.append((week.left[pot], 1))
            spare.append((week.left[pot], 1))
        week.row(0, 0, [*eaten, (week.portions[pot], -1)])
    week.row(None, extra.reserve_portions, spare)
    price = question.rules.meal_out_cents
    for slot in question.slots:
        if price is not None:
            week.out[slot] = week.column(f"out {slot}", 1, price)
            fills[slot].append((week.out[slot], 1))
        week.row(1, 1, fills[slot])


def _sameness(week: PlainWeek) -> None:
    """An eater's helpings of a dish: so many a span, so many days in a row, and a price for each repeat."""
    question, rules, price = week.question, week.question.rules, week.question.additions.repeat_cents
    had: dict[tuple[str, str], dict[int, Terms]] = defaultdict(lambda: defaultdict(list))
    for (pot, slot, _), at in week.helping.items():
        had[slot.eater, pot.dish][slot.day].append((at, 1))
    for (eater, dish), by_day in had.items():
        for span in question.spans():
            times = [term for day in span for term in by_day.get(day, ())]
            if rules.most_times is not None:
                week.row(None, rules.most_times, times)
            if price and times:
                repeats = week.column(f"repeats {eater} {dish} {span}", len(times), price)
                week.row(None, 1, [*times, (repeats, -1)])
        if rules.in_a_row is None:
            continue
        on: dict[int, int] = {}
        for day, terms in by_day.items():
            on[day] = week.column(f"on {eater} {dish} {day}", 1)
            for at, _ in terms:
                week.row(None, 0, [(at, 1), (on[day], -1)])
        for first in sorted(on):
            run = range(first, first + rules.in_a_row + 1)
            if all(day in on for day in run):
                week.row(None, rules.in_a_row, [(on[day], 1) for day in run])


def _nutrients(week: PlainWeek) -> None:
    """The average of an eater's helpings of a span, times their number: every term less the bound."""
    question = week.question
    for bound in question.rules.nutrient_bounds:
        for span in question.spans():
            above: Terms = []
            below: Terms = []
            for (pot, slot, _), at in week.helping.items():
                if slot.eater != bound.eater or slot.day not in span:
                    continue
                figure = question.version(pot.dish, pot.version).nutrients.get(bound.nutrient)
                if figure is None:
                    week.row(None, 0, [(at, 1)])
                    continue
                if bound.least is not None:
                    above.append((at, figure - bound.least))
                if bound.most is not None:
                    below.append((at, figure - bound.most))
            week.row(0, None, above, 1000)
            week.row(None, 0, below, 1000)


def _nights(week: PlainWeek) -> None:
    """Containers and freezer places after each day's meals, and how much is frozen on one day."""
    question, rules = week.question, week.question.rules
    for night in range(1, question.days + 1):
        held: Terms = []
        frozen: Terms = []
        for (pot, slot, is_frozen), at in week.helping.items():
            if pot.day <= night < slot.day:
                held.append((at, 1))
                if is_frozen and slot.day > night + 1:
                    frozen.append((at, 1))
        kept = [(at, 1) for pot, at in week.left.items() if pot.day <= night]
        if rules.containers is not None:
            week.row(None, rules.containers, [*held, *kept])
        if rules.freezer_places is not None:
            week.row(None, rules.freezer_places, [*frozen, *kept])
    if rules.freezing_load is not None:
        for session in question.sessions:
            freezing: Terms = [
                (at, 1) for (pot, _, f), at in week.helping.items() if f and pot.day == session.day
            ]
            freezing += [(at, 1) for pot, at in week.left.items() if pot.day == session.day]
            week.row(None, rules.freezing_load, freezing)


def _food(week: PlainWeek) -> None:
    """Whole packages, trips and money; what each session draws from which lot or package."""
    question = week.question
    trips = {
        (shop.name, session.day): week.column(f"trip {shop.name} {session.day}", 1, shop.trip_cents)
        for shop in question.shops
        for session in question.sessions
    }
    paid: Terms = []
    offers: dict[str, list[PackageOffer]] = defaultdict(list)
    lots: dict[str, list[StockLot]] = defaultdict(list)
    for offer in question.offers:
        offers[offer.food].append(offer)
    for lot in question.lots:
        lots[lot.food].append(lot)
    needs: dict[str, list[tuple[Pot, Fraction]]] = defaultdict(list)
    for pot, _, version in _pots(question):
        for name, amount in version.needs.items():
            needs[name].append((pot, amount))
    for food in question.foods:
        one_food = _Food(
            week, food.name, food.keep_days, offers[food.name], lots[food.name], needs[food.name]
        )
        paid += one_food.write(trips)
    if question.rules.budget_cents is not None:
        week.row(None, question.rules.budget_cents, paid)


@dataclass(slots=True)
class _Food:
    """One food's part of the programme; `unit` is the largest that measures all its amounts in whole ones."""

    week: PlainWeek
    name: str
    keep_days: int | None
    offers: list[PackageOffer]
    lots: list[StockLot]
    needs: list[tuple[Pot, Fraction]]
    unit: int = 1
    step: int = 1
    drawn: dict[int, Terms] = field(default_factory=lambda: defaultdict(list))

    def write(self, trips: dict[tuple[str, int], int]) -> Terms:
        """Write the food down and return what is paid for it at the tills."""
        amounts = [o.quantity for o in self.offers] + [lot.quantity for lot in self.lots]
        whole = all(amount.denominator == 1 for _, amount in self.needs)
        self.unit = math.gcd(*amounts, *(int(a) for _, a in self.needs)) if whole and amounts else 1
        self.step = max(1, max(amounts, default=1) // self.unit // 100)
        for lot in self.lots:
            self._lot(lot)
        paid = [term for offer in self.offers for term in self._offer(offer, trips)]
        for session in self.week.question.sessions:
            asked = [self._asked(pot, amount) for pot, amount in self.needs if pot.day == session.day]
            self.week.row(0, 0, [*self.drawn[session.day], *asked], self.step)
        return paid

    def _asked(self, pot: Pot, amount: Fraction) -> tuple[int, Exact]:
        """What a batch takes, as a term: rounded up to a whole unit by an unknown of its own where it need be."""
        portions = self.week.portions[pot]
        if amount.denominator == 1:
            return portions, -int(amount) // self.unit
        greatest = self.week.columns[portions].most
        taken = self.week.column(f"taken {self.name} {pot}", math.ceil(amount * greatest))
        parts = amount.denominator
        self.week.row(0, parts - 1, [(taken, parts), (portions, -amount.numerator)])
        return taken, -1

    def _use(self, source: Source, last_day: int | None, most: int, cents_each: Fraction) -> Terms:
        """Add what each session within a source's life draws from it, each unit at so many cents."""
        terms: Terms = []
        for session in self.week.question.sessions:
            if session.day < (source.bought or 1) or (last_day is not None and session.day > last_day):
                continue
            if any(pot.day == session.day for pot, _ in self.needs):
                at = self.week.column(
                    f"use {source} {session.day}", most, cents_each, whole=False, step=self.step
                )
                self.week.use[source, session.day] = at
                self.drawn[session.day].append((at, 1))
                terms.append((at, 1))
        return terms

    def _worth(self, last_day: int | None, *, bought: bool) -> Fraction:
        """What a cent's worth left over is in the cost: carried counts against it, spoilt stock in it."""
        if last_day is None or last_day > self.week.question.days:
            return -self.week.question.additions.carried_share
        return Fraction(0 if bought else 1)

    def _lot(self, lot: StockLot) -> None:
        worth = self._worth(lot.last_day, bought=False) * lot.cents
        self.week.constant += worth
        there = lot.quantity // self.unit
        used = self._use(Source(lot.name, None), lot.last_day, there, -worth / there)
        self.week.row(None, there, used, self.step)

    def _offer(self, offer: PackageOffer, trips: dict[tuple[str, int], int]) -> Terms:
        size = offer.quantity // self.unit
        paid: Terms = []
        largest = max((math.ceil(amount) for _, amount in self.needs), default=0)
        slots = len(self.week.question.slots) + self.week.question.additions.reserve_portions
        most = math.ceil(Fraction(largest * slots, offer.quantity))
        most = most if offer.most is None else min(most, offer.most)
        for session in self.week.question.sessions if most else ():
            last = None if self.keep_days is None else session.day + self.keep_days - 1
            worth = self._worth(last, bought=True) * offer.cents
            at = self.week.column(f"buy {offer.name} {session.day}", most, offer.cents + worth)
            self.week.buy[offer.name, session.day] = at
            self.week.row(None, 0, [(at, 1), (trips[offer.shop, session.day], -most)])
            used = self._use(Source(offer.name, session.day), last, size * most, -worth / size)
            self.week.row(None, 0, [*used, (at, -size)], self.step)
            paid.append((at, offer.cents))
        return paid
