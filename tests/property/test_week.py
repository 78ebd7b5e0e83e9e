"""Carrying out any batch for any appetites: containers for helpings, no cent more or less, no portion unaccounted for."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil
from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, given, settings
from tests.unit.week.split_week import kitchen_of

from ladleworth.decide import Batch, Drawing, Helping, Plan
from ladleworth.household import Kitchen
from ladleworth.ledger import Kind, LotUnit
from ladleworth.week.carry_out import cook_planned, eat_planned
from ladleworth.week.packing import packed, size_of

APPETITES = st.fractions(min_value=Fraction(1, 4), max_value=Fraction(2), max_denominator=6)


@pytest.fixture(scope="module")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Kitchen:
    folder: Path = tmp_path_factory.mktemp("split") / "k"
    return kitchen_of(folder)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    appetites=st.tuples(APPETITES, APPETITES),
    days=st.integers(1, 4),
    frozen=st.booleans(),
    more=st.integers(0, 3),
    take=st.integers(1, 1_000_000),
)
def test_a_batch_fills_a_container_a_helping_and_keeps_every_cent(
    kitchen: Kitchen, appetites: tuple[Fraction, Fraction], days: int, frozen: bool, more: int, take: int
) -> None:
    eaters = tuple(
        replace(eater, appetite=size) for eater, size in zip(kitchen.household.eaters, appetites, strict=True)
    )
    mine = replace(kitchen, household=replace(kitchen.household, eaters=eaters))
    helpings = tuple(
        Helping(day, eater.name, "dinner", "chili", 1, frozen and day > 2, "onion")
        for day in range(1, days + 1)
        for eater in eaters
    )
    eaten = sum((e.appetite for e in eaters), Fraction(0)) * days
    batch = Batch(1, "chili", "onion", ceil(eaten) + more)
    plan = Plan((batch,), helpings, (), (Drawing(1, "chili", "lentils", None, take, "onion"),))

    kinds = packed(mine, plan, batch)
    extra = sum(kind.count for kind in kinds) - len(helpings)
    assert extra == more  # whole standard portions that nobody eats; what is over of one is shared out
    cooked = cook_planned(mine, plan, 1).ledger
    lots = [lot for lot in cooked.lots if lot.unit is LotUnit.PORTION]
    drawn = -sum(entry.cents for entry in cooked.movements if entry.kind is Kind.DRAWN)
    assert sum(lot.cents for lot in lots) == drawn
    whole = sum(size_of(lot.id) * lot.quantity for lot in lots)
    assert batch.portions - 1 < whole <= batch.portions
    for lot in lots:
        share = Fraction(drawn) * size_of(lot.id) * lot.quantity / whole
        assert abs(lot.cents - share) < 1
    for day in range(1, days + 1):
        mine = replace(mine, ledger=cooked)
        cooked = eat_planned(mine, plan, day).ledger
    left = [held for held in cooked.holdings() if held.lot.unit is LotUnit.PORTION]
    assert sum(held.quantity for held in left) == more
