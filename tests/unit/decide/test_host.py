from __future__ import annotations

import random
from collections import Counter, defaultdict
from fractions import Fraction

import pytest
from bench.kitchens import random_week
from tests.model.small_kitchens import KITCHENS, PLAIN_KITCHENS, small_kitchen
from tests.unit.decide.weeks import rules, week

from ladleworth.decide import MealSlot, MustServe, NutrientBound, Question
from ladleworth.decide.columns import has_figures
from ladleworth.decide.host import Dinner, Host, _Table
from ladleworth.decide.search import Search

Served = tuple[str, str | None, int, int]
"""(dish, version or None for a lot, day cooked, portions)"""


def table_of(question: Question, seed: int) -> tuple[_Table, list[Served], list[MealSlot]]:
    """Draw some batches by chance, and set the table with them and with what is on hand."""
    dice = random.Random(seed)
    bench = Search(question)
    host = bench.host
    served: list[Served] = []
    dinners = []
    for d, dish in enumerate(question.dishes):
        for at, day in enumerate(bench.days):
            if dice.random() < 0.4:
                v = dice.randrange(len(dish.versions))
                portions = dice.randint(dish.least, dish.greatest)
                mask, cooked, last, fridge_end, offs = bench._table_of(d, v, at)
                dinners.append(Dinner(mask, d, portions * host.parts, cooked, last, fridge_end, False, offs))
                served.append((dish.name, dish.versions[v].name, day, portions))
    for mask, number, lot in bench.on_hand:
        last = question.days if lot.last_day is None else min(question.days, lot.last_day)
        offs = host.offs_of(lot.nutrients, whole=True)
        dinners.append(Dinner(mask, number, lot.portions, 0, last, last, True, offs))
        served.append((lot.name, None, 0, lot.portions))
    slots = sorted(question.slots, key=lambda slot: slot.day)
    return _Table(host, dinners), served, slots


def keeps_its_rules(question: Question, table: _Table, served: list[Served], slots: list[MealSlot]) -> int:
    """Check every rule that the host claims to keep, worked out from the question anew; return how many are seated."""
    rules = question.rules
    lots = {lot.name: lot for lot in question.portions}
    promised = {MealSlot(w.day, w.eater, w.meal): w.dish for w in question.wishes if isinstance(w, MustServe)}
    spans = {day: n for n, span in enumerate(question.spans()) for day in span}
    eaten: Counter[int] = Counter()
    parts: defaultdict[int, Fraction] = defaultdict(Fraction)
    times: Counter[tuple[str, str, int]] = Counter()
    days: defaultdict[tuple[str, str], set[int]] = defaultdict(set)
    for slot, at in zip(slots, table.holder, strict=True):
        if at < 0:
            continue
        name, version, cooked, _ = served[at]
        if version is None:
            lot = lots[name]
            dish_name = lot.dish
            assert lot.first_day <= slot.day <= (lot.last_day or question.days)
            assert slot.eater not in lot.barred
            assert lot.suits(slot.meal)
            assert has_figures(question, slot.eater, lot.nutrients)
        else:
            dish, dish_name = question.dish(name), name
            age = slot.day - cooked + 1
            thawed = dish.freezer_days is not None and 3 <= age <= dish.freezer_days
            assert 1 <= age <= dish.keep_days or thawed
            assert slot.eater not in question.version(name, version).barred
            assert dish.suits(slot.meal)
            assert has_figures(question, slot.eater, question.version(name, version).nutrients)
        assert promised.get(slot, dish_name) == dish_name
        eaten[at] += 1
        parts[at] += 1 if version is None else question.appetite(slot.eater)
        times[slot.eater, dish_name, spans[slot.day]] += 1
        days[slot.eater, dish_name].add(slot.day)
    for at, amount in parts.items():
        assert amount <= served[at][3]
        scale = 1 if served[at][1] is None else table.host.parts
        assert table.dinners[at].left == (served[at][3] - amount) * scale
        assert sorted(table.dinners[at].seats) == [n for n, one in enumerate(table.holder) if one == at]
    if rules.most_times is not None:
        assert max(times.values(), default=0) <= rules.most_times
    if rules.in_a_row is not None:
        for had in days.values():
            assert not any(all(day + n in had for n in range(rules.in_a_row + 1)) for day in had)
    assert table.seated == sum(eaten.values())
    assert table.repeats() == sum(n - 1 for n in times.values())
    return table.seated


@pytest.mark.parametrize("block", range(0, KITCHENS, 100))
def test_what_is_seated_in_small_weeks_keeps_every_rule_that_the_host_claims(block: int) -> None:
    for seed in range(block, block + 100):
        question = small_kitchen(seed)
        for chance in range(3):
            table, served, slots = table_of(question, 10 * seed + chance)
            table.serve()
            before = keeps_its_rules(question, table, served, slots)
            table.fill_gaps()
            after = keeps_its_rules(question, table, served, slots)
            assert after >= before
            if question.rules.nutrient_bounds:
                swapped(question, table, served, slots)


def swapped(question: Question, table: _Table, served: list[Served], slots: list[MealSlot]) -> float:
    """Swap for the sake of nutrients; return by how much they are nearer their bounds."""
    seated, amiss = table.seated, table.nutrients_amiss()
    said = table.swap(amiss)
    assert keeps_its_rules(question, table, served, slots) == seated
    assert table.nutrients_amiss() == pytest.approx(said, abs=1e-6)
    assert said <= amiss + 1e-9
    return amiss - said


def test_gaps_are_filled_and_swaps_bring_nutrients_nearer_their_bounds() -> None:
    gained, filled = [], 0
    for seed in range(40):
        question = random_week(seed, dishes=8, days=7, eaters=2)
        table, served, slots = table_of(question, seed)
        table.serve()
        before = keeps_its_rules(question, table, served, slots)
        table.fill_gaps()
        filled += keeps_its_rules(question, table, served, slots) - before
        gained.append(swapped(question, table, served, slots))
    assert sum(gain > 0.01 for gain in gained) >= 5
    assert filled >= 5


def test_no_seat_is_given_twice_and_what_is_left_is_told() -> None:
    for seed in range(PLAIN_KITCHENS, KITCHENS, 3):
        question = small_kitchen(seed)
        table, served, _ = table_of(question, seed)
        seating = Host(question, table.host.numbers).seat(table.dinners)
        assert seating.seated <= len(question.slots)
        assert len(seating.left) == len(served)
        assert min(seating.left, default=0) >= 0
        assert seating.amiss >= 0


def test_a_helping_is_as_far_from_a_share_however_large_it_is() -> None:
    # A half portion brings half the protein that it has to, and is as fresh and as crunchy as a whole one.
    bounds = (
        NutrientBound("Ada", "protein", Fraction(20)),
        NutrientBound("Ada", "fresh", Fraction(3, 4), share=True),
        NutrientBound("Ada", "crunch", most=Fraction(1, 2), share=True),
    )
    question = week(rules=rules(nutrient_bounds=bounds), appetites={"Ada": Fraction(1, 2)})
    figures = {"protein": Fraction(20), "fresh": Fraction(1), "crunch": Fraction(1)}
    host = Host(question, {"stew": 0})
    ((protein, fresh, crunch),) = host.offs_of(figures, whole=False)
    assert (protein, fresh, crunch) == pytest.approx((0.5, -1 / 3, 1.0))
    ((protein, fresh, crunch),) = host.offs_of(figures, whole=True)
    assert (protein, fresh, crunch) == pytest.approx((0.0, -1 / 3, 1.0))
