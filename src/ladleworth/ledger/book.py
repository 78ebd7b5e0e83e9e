"""The ledger: the lots as they came in and every movement since; what is there is their sum."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from ladleworth.errors import LedgerError
from ladleworth.ledger.index import BatchAccount, Holding, Index
from ladleworth.ledger.lot import Lot, Standing
from ladleworth.ledger.movement import Cause, Kind, Movement


@dataclass(frozen=True, slots=True)
class Balance:
    """What is left of a lot: `quantity` in its unit, and `cents`."""

    quantity: int
    cents: int


@dataclass(frozen=True, slots=True)
class Ledger:
    """Lots and movements, never edited: every act gives a new ledger.

    Building one replays every movement and checks every rule, in time linear in their number.

    Parameters
    ----------
    lots
        Every lot that ever came in, in the order of coming.
    movements
        Every entry, by rising number.

    Raises
    ------
    LedgerError
        When an entry breaks a rule, naming the entry and the rule.
    """

    lots: tuple[Lot, ...] = ()
    movements: tuple[Movement, ...] = ()
    _index: Index = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        known = {lot.id: lot for lot in self.lots}
        if len(known) != len(self.lots):
            twice = sorted(name for name, times in Counter(lot.id for lot in self.lots).items() if times > 1)
            raise LedgerError(
                f"several lots are called {', '.join(map(repr, twice))}; give each an id of its own"
            )
        index, numbered = Index(), {movement.id: movement for movement in self.movements}
        for movement in self.movements:
            if movement.lot not in known:
                raise LedgerError(
                    f"entry {movement.id} names lot {movement.lot!r}, which is not in the ledger"
                )
            original = None if movement.reverses is None else numbered.get(movement.reverses)
            index.enter(movement, known[movement.lot], original)
        for lot in self.lots:
            if lot.id not in index.holdings:
                raise LedgerError(f"lot {lot.id!r} never came in; it needs an entry that lets it in")
        index.close_act(index.batches)
        _check_bound(self.movements, known, index)
        object.__setattr__(self, "_index", index)

    def holding(self, lot_id: str) -> Holding:
        """Look up a lot with what is left of it and how it stands.

        Raises
        ------
        LedgerError
            When no lot has this id.
        """
        try:
            return self._index.holdings[lot_id]
        except KeyError:
            raise LedgerError(f"no lot is called {lot_id!r}; name one that is in the ledger") from None

    def balance(self, lot_id: str) -> Balance:
        """Tell what is left of a lot: quantity in its unit, and cents."""
        holding = self.holding(lot_id)
        return Balance(holding.quantity, holding.cents)

    def movement(self, number: int) -> Movement:
        """Look up an entry by its number."""
        place = bisect_left(self.movements, number, key=lambda movement: movement.id)
        if place == len(self.movements) or self.movements[place].id != number:
            raise LedgerError(f"no entry has the number {number}")
        return self.movements[place]

    def bound_with(self, movement: Movement) -> tuple[Movement, ...]:
        """Give the entries that only make sense together with this one, itself included, in order."""
        if movement.bound is None:
            return (movement,)
        start = bisect_left(self.movements, movement.bound, key=lambda entry: entry.id)
        end = start
        while end < len(self.movements) and self.movements[end].bound == movement.bound:
            end += 1
        return self.movements[start:end]

    def reversal_of(self, number: int) -> int | None:
        """Tell the number of the entry that took this one back, None while it stands."""
        return self._index.taken_back.get(number)

    def holdings(self, item: str | None = None) -> tuple[Holding, ...]:
        """Give every lot of which something is left now, in order of coming; of one item when named."""
        held = self._index.holdings
        wanted = (
            held.values() if item is None else (held[lot_id] for lot_id in self._index.by_item.get(item, ()))
        )
        return tuple(holding for holding in wanted if holding.quantity > 0)

    def on_hand(self, day: date) -> tuple[Holding, ...]:
        """Give every lot of which something was left at the end of a day, in order of coming."""
        return self.as_of(day).holdings()

    def as_of(self, day: date) -> Ledger:
        """Give the ledger as it stood at the end of a day: the entries dated up to it."""
        if day >= self._index.last_day:
            return self
        movements = tuple(movement for movement in self.movements if movement.day <= day)
        came = {movement.lot for movement in movements}
        return Ledger(tuple(lot for lot in self.lots if lot.id in came), movements)

    def batch(self, name: str) -> BatchAccount:
        """Look up what was drawn for a batch and what its portions carry."""
        return self._index.batches.get(name, BatchAccount())

    @property
    def batches(self) -> tuple[str, ...]:
        """Every batch that anything was drawn for, in order of first draw."""
        return tuple(self._index.batches)

    def has_lot(self, lot_id: str) -> bool:
        """Tell whether a lot has this id, used up or not."""
        return lot_id in self._index.holdings

    def next_day(self, lot_id: str) -> date:
        """Tell the earliest day on which this lot's next entry may be dated."""
        return self.holding(lot_id).last_day


@dataclass(frozen=True, slots=True)
class Entered:
    """What an act did: the new ledger, and the lots and movements that it added."""

    ledger: Ledger
    movements: tuple[Movement, ...]
    lots: tuple[Lot, ...] = ()


class Draft:
    """One act in the making: entries are added one by one, then closed into a new ledger or dropped."""

    def __init__(self, ledger: Ledger, day: date) -> None:
        self._ledger = ledger
        self._day = day
        self._index = ledger._index.copy()  # the same package: a draft is the ledger's own pen
        self._lots: list[Lot] = []
        self._movements: list[Movement] = []

    @property
    def next_id(self) -> int:
        """The number that the next entry will bear."""
        return self._index.last_id + 1

    def holding(self, lot_id: str) -> Holding:
        """Look up a lot as it stands within this act."""
        holding = self._index.holdings.get(lot_id)
        if holding is None:
            raise LedgerError(f"no lot is called {lot_id!r}; name one that is in the ledger")
        return holding

    def batch(self, name: str) -> BatchAccount:
        """Look up a batch as it stands within this act."""
        return self._index.batches.get(name, BatchAccount())

    def let_in(
        self, kind: Kind, lot: Lot, *, batch: str | None = None, note: str = "", bound: int | None = None
    ) -> None:
        """Enter a lot that is new to the ledger, whole."""
        if lot.id in self._index.holdings:
            raise LedgerError(f"a lot is already called {lot.id!r}; give the new one an id of its own")
        movement = Movement(
            self.next_id,
            self._day,
            kind,
            lot.id,
            lot.quantity,
            lot.cents,
            batch=batch,
            note=note,
            bound=bound,
        )
        self._index.enter(movement, lot)
        self._lots.append(lot)
        self._movements.append(movement)

    def change(
        self,
        kind: Kind,
        lot_id: str,
        quantity: int,
        cents: int,
        *,
        batch: str | None = None,
        who: str = "",
        note: str = "",
        cause: Cause | None = None,
        after: Standing | None = None,
        bound: int | None = None,
    ) -> None:
        """Enter a signed change to a lot that is there."""
        lot = self.holding(lot_id).lot
        movement = Movement(
            self.next_id,
            self._day,
            kind,
            lot_id,
            quantity,
            cents,
            batch=batch,
            who=who,
            note=note,
            cause=cause,
            after=after,
            bound=bound,
        )
        self._index.enter(movement, lot)
        self._movements.append(movement)

    def write(self, movement: Movement, original: Movement) -> None:
        """Enter a reversal."""
        self._index.enter(movement, self.holding(movement.lot).lot, original)
        self._movements.append(movement)

    def close(self) -> Entered:
        """Check the act as a whole and give the new ledger."""
        self._index.close_act({m.batch for m in self._movements if m.batch is not None})
        ledger = object.__new__(Ledger)
        object.__setattr__(ledger, "lots", (*self._ledger.lots, *self._lots))
        object.__setattr__(ledger, "movements", (*self._ledger.movements, *self._movements))
        object.__setattr__(ledger, "_index", self._index)
        return Entered(ledger, tuple(self._movements), tuple(self._lots))


def _check_bound(movements: Iterable[Movement], known: dict[str, Lot], index: Index) -> None:
    """Refuse a split whose halves do not match, and a reversal of a part of what belongs together."""
    groups: dict[int, list[Movement]] = {}
    for movement in movements:
        if movement.bound is not None and movement.reverses is None:
            groups.setdefault(movement.bound, []).append(movement)
        elif movement.kind is Kind.MOVED and movement.quantity and movement.reverses is None:
            raise LedgerError(f"entry {movement.id} splits lot {movement.lot!r} but has no other half")
    for first, group in groups.items():
        if len({m.id in index.taken_back for m in group}) > 1:
            raise LedgerError(
                f"entry {first} and those bound to it are reversed only in part; reverse all of them"
            )
        if len({m.day for m in group}) > 1:
            raise LedgerError(f"entry {first} and those bound to it bear different days; give them one day")
        halves = [m for m in group if m.kind is Kind.MOVED and m.quantity]
        kinds = {(known[m.lot].item, known[m.lot].unit) for m in halves}
        if sum(m.quantity for m in halves) or sum(m.cents for m in halves) or len(kinds) > 1:
            raise LedgerError(f"entry {first} splits a lot into parts that do not add up to what it was")
