"""Any run of acts: cents and quantities are conserved, nothing goes below zero, and every reckoning adds up."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import hypothesis.strategies as st
from hypothesis import settings
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from ladleworth.errors import LedgerError
from ladleworth.ledger import (
    Cause,
    Entered,
    Kind,
    Ledger,
    Lot,
    LotUnit,
    Portions,
    Spot,
    Take,
    buy,
    cook,
    count,
    draw,
    draw_earliest,
    earliest,
    eat,
    eat_first,
    give_away,
    move,
    open_package,
    reverse,
    take_stock,
    throw_out,
)
from ladleworth.reckon import cart_fate, charge_losses, honest_costs, reckon_all, reckon_batch, reckon_period

MONDAY = date(2026, 3, 2)
FOODS = ("rice", "beef", "egg")


def unit_of(food: str) -> LotUnit:
    return LotUnit.PIECE if food == "egg" else LotUnit.MG


class KitchenYear(RuleBasedStateMachine):
    """Acts in any order, over days that never go back."""

    def __init__(self) -> None:
        super().__init__()
        self.ledger = Ledger()
        self.day = MONDAY
        self.made = 0
        self.paid_cents = 0
        self.gone_cents = 0
        self.reckoned = 0

    def fresh(self, stem: str) -> str:
        self.made += 1
        return f"{stem}-{self.made}"

    def take(self, done: Entered) -> None:
        self.ledger = done.ledger

    def pick(self, data: st.DataObject, *, unit: LotUnit | None = None) -> str | None:
        there = [held.lot.id for held in self.ledger.holdings() if unit is None or held.lot.unit is unit]
        return data.draw(st.sampled_from(there)) if there else None

    @rule(days=st.integers(0, 3))
    def sleep(self, days: int) -> None:
        self.day += timedelta(days=days)

    @rule(
        food=st.sampled_from(FOODS),
        quantity=st.integers(1, 1000),
        cents=st.integers(0, 500),
        keeps=st.none() | st.integers(0, 10),
        how=st.sampled_from(["bought", "gift", "counted in"]),
        packages=st.integers(1, 3),
    )
    def bring_in(
        self, food: str, quantity: int, cents: int, keeps: int | None, how: str, packages: int
    ) -> None:
        use_by = None if keeps is None else self.day + timedelta(days=keeps)
        lot = Lot(
            self.fresh(food),
            food,
            unit_of(food),
            Spot.CUPBOARD,
            self.day,
            quantity,
            0 if how == "gift" else cents,
            use_by=use_by,
            packages=packages,
            shop="corner",
            gift=how == "gift",
            shelf_cents=cents,
        )
        self.take((take_stock if how == "counted in" else buy)(self.ledger, self.day, [lot]))
        self.paid_cents += lot.cents

    @rule(data=st.data(), found=st.integers(0, 1500))
    def count_a_lot(self, data: st.DataObject, found: int) -> None:
        if (lot := self.pick(data)) is None:
            return
        before = self.ledger.balance(lot)
        done = count(self.ledger, self.day, lot, found, "looked")
        assert done.ledger.balance(lot).quantity == found
        if found >= before.quantity:
            assert done.ledger.balance(lot).cents == before.cents
        self.take(done)

    @rule(data=st.data(), percent=st.integers(1, 100), opens=st.booleans())
    def move_or_open(self, data: st.DataObject, percent: int, opens: bool) -> None:
        if (lot := self.pick(data)) is None:
            return
        before = self.ledger.balance(lot)
        part = max(1, before.quantity * percent // 100)
        new, use_by = self.fresh("part"), self.day + timedelta(days=4)
        if opens and self.ledger.holding(lot).standing.opened_on is None:
            done = open_package(self.ledger, self.day, lot, use_by=use_by, quantity=part, new_lot_id=new)
        else:
            done = move(
                self.ledger, self.day, lot, Spot.FREEZER, use_by=use_by, quantity=part, new_lot_id=new
            )
        after = [done.ledger.balance(name) for name in {lot, *(added.id for added in done.lots)}]
        assert sum(balance.cents for balance in after) == before.cents
        assert sum(balance.quantity for balance in after) == before.quantity
        self.take(done)

    @rule(data=st.data(), percent=st.integers(1, 100), batch=st.integers(1, 5))
    def draw_a_lot(self, data: st.DataObject, percent: int, batch: int) -> None:
        if (lot := self.pick(data)) is None or self.ledger.batch(f"batch-{batch}").is_cooked:
            return
        quantity = max(1, self.ledger.balance(lot).quantity * percent // 100)
        self.take(draw(self.ledger, self.day, f"batch-{batch}", [Take(lot, quantity)], even_past_use_by=True))

    @rule(food=st.sampled_from(FOODS), quantity=st.integers(1, 1500), batch=st.integers(1, 5))
    def draw_first_things_first(self, food: str, quantity: int, batch: int) -> None:
        name = f"batch-{batch}"
        usable = [held for held in self.ledger.holdings(food) if not held.is_past(self.day)]
        try:
            done = draw_earliest(self.ledger, self.day, name, food, quantity, unit_of(food))
        except LedgerError:
            short = sum(held.quantity for held in usable) < quantity
            assert short or self.ledger.batch(name).is_cooked
            return
        assert -sum(entry.quantity for entry in done.movements) == quantity
        drawn = [entry.lot for entry in done.movements]
        assert drawn == [held.lot.id for held in eat_first(usable)][: len(drawn)]
        last_drawn = self.ledger.holding(drawn[-1]).use_by or date.max
        left = [held for held in usable if done.ledger.balance(held.lot.id).quantity]
        assert all((held.use_by or date.max) >= last_drawn for held in left)
        self.take(done)

    @rule(batch=st.integers(1, 5), counts=st.lists(st.integers(1, 6), min_size=1, max_size=3), data=st.data())
    def cook_a_batch(self, batch: int, counts: list[int], data: st.DataObject) -> None:
        name = f"batch-{batch}"
        account = self.ledger.batch(name)
        if account.is_cooked:
            return
        lot = self.pick(data)
        takes = [] if lot is None else [Take(lot, self.ledger.balance(lot).quantity)]
        if not takes and not account.draws:
            return
        out = [
            Portions(self.fresh("portions"), number, Spot.FRIDGE, self.day + timedelta(days=3))
            for number in counts
        ]
        done = cook(self.ledger, self.day, name, out, takes=takes, even_past_use_by=True)
        cooked = sum(entry.cents for entry in done.movements if entry.kind is Kind.COOKED)
        assert cooked == done.ledger.batch(name).drawn_cents
        self.take(done)

    @rule(data=st.data(), percent=st.integers(1, 100), way=st.sampled_from(["eat", "give", "throw"]))
    def use_up(self, data: st.DataObject, percent: int, way: str) -> None:
        if (lot := self.pick(data)) is None:
            return
        quantity = max(1, self.ledger.balance(lot).quantity * percent // 100)
        match way:
            case "eat":
                done = eat(self.ledger, self.day, lot, quantity, who="Ada", even_past_use_by=True)
            case "give":
                done = give_away(self.ledger, self.day, lot, quantity, even_past_use_by=True)
            case _:
                done = throw_out(self.ledger, self.day, lot, Cause.SPOILED, quantity=quantity)
        self.take(done)

    @precondition(lambda self: self.ledger.movements)
    @rule(data=st.data())
    def reverse_an_entry(self, data: st.DataObject) -> None:
        entry = data.draw(st.sampled_from(self.ledger.movements))
        together = self.ledger.bound_with(entry)
        before = {e.lot: self.ledger.balance(e.lot) for e in together}
        try:
            done = reverse(self.ledger, self.day, entry.id)
        except LedgerError:
            return
        for lot, balance in before.items():
            after = done.ledger.balance(lot)
            assert after.quantity == balance.quantity - sum(e.quantity for e in together if e.lot == lot)
            assert after.cents == balance.cents - sum(e.cents for e in together if e.lot == lot)
        if entry.kind in (Kind.BOUGHT, Kind.COUNTED) and entry.cents > 0:
            self.paid_cents -= entry.cents
        self.take(done)

    @precondition(lambda self: self.ledger.movements)
    @rule(data=st.data())
    def take_back_the_last_act(self, data: st.DataObject) -> None:
        """Whatever was entered last can be taken back, and then everything is as it was before it."""
        last = self.ledger.movements[-1]
        if last.reverses is not None:
            return
        together = self.ledger.bound_with(last)
        came = {entry.lot for entry in self.ledger.movements[: -len(together)]}
        earlier = Ledger(
            tuple(lot for lot in self.ledger.lots if lot.id in came), self.ledger.movements[: -len(together)]
        )
        done = reverse(self.ledger, self.day, last.id)
        there = {held.lot.id: (held.quantity, held.cents, held.standing) for held in done.ledger.holdings()}
        was = {held.lot.id: (held.quantity, held.cents, held.standing) for held in earlier.holdings()}
        assert there == was
        if last.kind in (Kind.BOUGHT, Kind.COUNTED) and last.cents > 0:
            self.paid_cents -= last.cents
        self.take(done)

    @invariant()
    def balances_are_sums_and_never_below_zero(self) -> None:
        sums: dict[str, tuple[int, int]] = {}
        for entry in self.ledger.movements:
            quantity, cents = sums.get(entry.lot, (0, 0))
            sums[entry.lot] = (quantity + entry.quantity, cents + entry.cents)
        for lot, (quantity, cents) in sums.items():
            balance = self.ledger.balance(lot)
            assert (balance.quantity, balance.cents) == (quantity, cents)
            assert quantity >= 0
            assert cents >= 0
            assert quantity or not cents

    @invariant()
    def cents_in_are_cents_out(self) -> None:
        if not self.ledger.movements:
            return
        money = reckon_all(self.ledger)
        assert money.bought_cents + money.counted_in_cents == self.paid_cents
        assert (
            self.paid_cents == money.used_cents + money.carried_cents + money.lost_cents + money.given_cents
        )

    @invariant()
    def every_portion_carries_what_was_drawn_for_it(self) -> None:
        losses = charge_losses(self.ledger)
        lost_food = -sum(
            entry.cents
            for entry in self.ledger.movements
            if self.ledger.holding(entry.lot).lot.unit is not LotUnit.PORTION
            and (entry.kind is Kind.THROWN_OUT or (entry.kind is Kind.COUNTED and entry.way < 0))
        )
        assert sum(cents for _, cents in losses.by_batch) + losses.uncharged_cents == lost_food
        for name in self.ledger.batches:
            if not self.ledger.batch(name).is_cooked:
                continue
            cost = reckon_batch(self.ledger, name, losses)
            assert cost.used_cents == self.ledger.batch(name).drawn_cents
            assert sum(cost.portion_cents) == cost.per_portion * cost.portions
            assert max(cost.portion_cents) - min(cost.portion_cents) <= 2
            assert cost.per_portion_with_loss == cost.per_portion + Fraction(
                cost.charged_cents, cost.portions
            )

    def teardown(self) -> None:
        """At the end: read back, any period, any cart and the three honest costs."""
        assert Ledger(self.ledger.lots, self.ledger.movements) == self.ledger
        half = MONDAY + (self.day - MONDAY) // 2
        early, late = (
            reckon_period(self.ledger, MONDAY, half),
            reckon_period(self.ledger, half + timedelta(1), self.day + timedelta(1)),
        )
        assert early.closing == late.opening
        for when in {entry.day for entry in self.ledger.movements if entry.kind is Kind.BOUGHT}:
            cart_fate(self.ledger, when, "corner")
        for food in FOODS:
            there = sum(h.quantity for h in self.ledger.holdings(food))
            if there:
                takes = earliest(self.ledger, self.day, food, there, unit_of(food), even_past_use_by=True)
                assert sum(take.quantity for take in takes) == there
        for name in self.ledger.batches:
            if self.ledger.batch(name).is_cooked:
                assert honest_costs(self.ledger, name).used_cents == self.ledger.batch(name).drawn_cents


TestKitchenYear = KitchenYear.TestCase
TestKitchenYear.settings = settings(max_examples=40, stateful_step_count=40, deadline=None)
