"""The sums of the movements, kept up to date one entry at a time; every rule of the ledger is here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import NoReturn

from ladleworth.errors import LedgerError
from ladleworth.ledger.lot import Lot, LotUnit, Standing, in_words
from ladleworth.ledger.movement import Kind, Movement


@dataclass(frozen=True, slots=True)
class Holding:
    """What is left of one lot, and how it stands.

    `quantity` is in the lot's unit; `cents` is the share of its cost that is left with it; `moves` are the
    numbers of the whole-lot moves that stand, the latest last, each with its standing afterwards.
    """

    lot: Lot
    quantity: int
    cents: int
    last_day: date
    moves: tuple[tuple[int, Standing], ...] = ()

    @property
    def standing(self) -> Standing:
        """Where it is now, and its dates."""
        return self.moves[-1][1] if self.moves else self.lot.standing

    @property
    def use_by(self) -> date | None:
        """The last day on which it may be used, None for no date."""
        return self.standing.use_by

    def is_past(self, day: date) -> bool:
        """Tell whether its last day is before the given day."""
        return self.use_by is not None and self.use_by < day

    def __str__(self) -> str:
        of = "" if self.lot.item == self.lot.id else f" of {self.lot.item!r}"
        return f"lot {self.lot.id!r}{of}"


@dataclass(frozen=True, slots=True)
class BatchAccount:
    """What went into one batch and what came out: draws and portion lots that stand, with their cents."""

    draws: int = 0
    drawn_cents: int = 0
    lots: int = 0
    cooked_cents: int = 0
    last_day: date = date.min

    @property
    def is_cooked(self) -> bool:
        """Tell whether the batch has been divided into portions."""
        return self.lots > 0

    @property
    def in_pot_cents(self) -> int:
        """Cents drawn for the batch that are not yet in portions."""
        return self.drawn_cents - self.cooked_cents


class Index:
    """Holdings, batches and reversals after a run of movements.

    Each entry costs the same however long the ledger is. A finished ledger never lets its index change:
    acts work on a copy.
    """

    __slots__ = ("batches", "by_item", "holdings", "last_day", "last_id", "taken_back")

    def __init__(self) -> None:
        self.holdings: dict[str, Holding] = {}
        self.by_item: dict[str, tuple[str, ...]] = {}
        self.batches: dict[str, BatchAccount] = {}
        self.taken_back: dict[int, int] = {}
        self.last_id = 0
        self.last_day = date.min

    def copy(self) -> Index:
        """Give an index that can go on without touching this one."""
        twin = Index()
        twin.holdings = self.holdings.copy()
        twin.by_item = self.by_item.copy()
        twin.batches = self.batches.copy()
        twin.taken_back = self.taken_back.copy()
        twin.last_id = self.last_id
        twin.last_day = self.last_day
        return twin

    def enter(self, movement: Movement, lot: Lot, original: Movement | None = None) -> None:
        """Take one movement in, or refuse it.

        Parameters
        ----------
        movement
            The entry, with a number above every earlier one.
        lot
            The lot that it names.
        original
            The movement that it reverses, when it reverses one.

        Raises
        ------
        LedgerError
            When the entry breaks a rule; the index is then no longer to be used.
        """
        if movement.id <= self.last_id:
            _refuse(movement, f"comes after number {self.last_id}; number entries upwards")
        before = self.holdings.get(lot.id)
        if before is None:
            _check_first(movement, lot)
            self.by_item[lot.item] = (*self.by_item.get(lot.item, ()), lot.id)
            before = Holding(lot, 0, 0, movement.day)
        elif movement.reverses is None and movement.kind in (Kind.BOUGHT, Kind.COOKED):
            _refuse(movement, f"lets in {before} a second time; give the new goods a lot id of their own")
        if movement.day < before.last_day:
            _refuse(
                movement,
                f"is dated {movement.day}, before the last entry of {before} on {before.last_day}; "
                "date it on or after that day, or reverse the later entry first",
            )
        moves = self._moves_after(before, movement, original)
        quantity, cents = before.quantity + movement.quantity, before.cents + movement.cents
        if quantity < 0:
            _refuse(
                movement,
                f"takes {in_words(-movement.quantity, lot.unit)} from {before}, which has "
                f"{in_words(before.quantity, lot.unit)}; take no more than is there, or count it first",
            )
        if cents < 0 or (quantity == 0 and cents != 0):
            _refuse(movement, f"would leave {before} with {in_words(quantity, lot.unit)} worth {cents} cents")
        if movement.batch is not None:
            self._enter_batch(movement, movement.batch)
        self.holdings[lot.id] = replace(
            before, quantity=quantity, cents=cents, last_day=movement.day, moves=moves
        )
        self.last_id = movement.id
        self.last_day = max(self.last_day, movement.day)

    def _moves_after(
        self, before: Holding, movement: Movement, original: Movement | None
    ) -> tuple[tuple[int, Standing], ...]:
        if movement.reverses is None:
            return before.moves if movement.after is None else (*before.moves, (movement.id, movement.after))
        if original is None:
            _refuse(movement, f"reverses number {movement.reverses}, which is not in the ledger")
        if original.reverses is not None:
            _refuse(movement, "reverses a reversal; enter the act anew instead")
        if original.id in self.taken_back:
            _refuse(
                movement,
                f"reverses number {original.id}, which number {self.taken_back[original.id]} has already reversed",
            )
        mirrored = (
            original.kind,
            original.lot,
            -original.quantity,
            -original.cents,
            original.batch,
            original.after,
        )
        if mirrored != (
            movement.kind,
            movement.lot,
            movement.quantity,
            movement.cents,
            movement.batch,
            movement.after,
        ):
            _refuse(movement, f"is not the exact opposite of number {original.id}, which it reverses")
        self.taken_back[original.id] = movement.id
        if original.after is None:
            return before.moves
        if not before.moves or before.moves[-1][0] != original.id:
            _refuse(movement, f"takes back an earlier move of {before}; take back its later moves first")
        return before.moves[:-1]

    def _enter_batch(self, movement: Movement, batch: str) -> None:
        account = self.batches.get(batch, BatchAccount())
        if movement.day < account.last_day:
            _refuse(movement, f"is dated {movement.day}, before the last entry of batch {batch!r}")
        step = 1 if movement.reverses is None else -1
        if movement.kind is Kind.DRAWN:
            if account.is_cooked:
                _refuse(
                    movement,
                    f"changes what went into batch {batch!r}, which is already in portions; "
                    "reverse its cooking first",
                )
            account = replace(
                account,
                draws=account.draws + step,
                drawn_cents=account.drawn_cents - movement.cents,
                last_day=movement.day,
            )
        else:
            account = replace(
                account,
                lots=account.lots + step,
                cooked_cents=account.cooked_cents + movement.cents,
                last_day=movement.day,
            )
        self.batches[batch] = account

    def close_act(self, batches: Iterable[str]) -> None:
        """Check what must hold between acts, though not within one: no cents made or lost on the way.

        Raises
        ------
        LedgerError
            When a batch's portions do not carry exactly the cents that were drawn for it.
        """
        for name in batches:
            account = self.batches[name]
            if account.is_cooked and account.in_pot_cents:
                raise LedgerError(
                    f"batch {name!r} drew {account.drawn_cents} cents and its portions carry "
                    f"{account.cooked_cents}; the two must be equal"
                )
            if not account.is_cooked and account.cooked_cents:
                raise LedgerError(f"batch {name!r} carries {account.cooked_cents} cents in no portions")


def _check_first(movement: Movement, lot: Lot) -> None:
    """Refuse a lot's first entry unless it lets in all of the lot."""
    if movement.reverses is not None or movement.quantity <= 0:
        _refuse(
            movement,
            f"is the first of lot {lot.id!r} and lets nothing in; there is no such lot yet: buy it or count it in",
        )
    if (movement.quantity, movement.cents) != (lot.quantity, lot.cents):
        _refuse(
            movement,
            f"lets in {in_words(movement.quantity, lot.unit)} for {movement.cents} cents, but lot {lot.id!r} is "
            f"{in_words(lot.quantity, lot.unit)} for {lot.cents} cents; let in the whole lot",
        )
    if movement.day < lot.got_on:
        _refuse(movement, f"is dated {movement.day}, before lot {lot.id!r} came on {lot.got_on}")
    if lot.opened_on is not None and lot.opened_on > movement.day:
        _refuse(movement, f"is dated {movement.day}, but lot {lot.id!r} was opened on {lot.opened_on}")
    if movement.kind is Kind.COOKED and (lot.unit is not LotUnit.PORTION or lot.item != movement.batch):
        _refuse(movement, f"cooks lot {lot.id!r}, which must hold portions of batch {movement.batch!r}")
    if movement.kind is Kind.BOUGHT and lot.unit is LotUnit.PORTION:
        _refuse(movement, f"buys lot {lot.id!r} in portions; portions are cooked, or counted in")


def _refuse(movement: Movement, why: str) -> NoReturn:
    raise LedgerError(f"entry {movement.id} ({movement.kind.value}) {why}")
