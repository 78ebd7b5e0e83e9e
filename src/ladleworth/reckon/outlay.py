"""Three honest costs of a batch: what an empty kitchen would pay, the whole cart, and the share used."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil

from ladleworth.errors import MissingFact
from ladleworth.ledger import Kind, Ledger, Lot, LotUnit, Offer, PriceBook, cheapest_cover
from ladleworth.reckon.batch import drawn_by_lot, purchase_of, reckon_batch
from ladleworth.reckon.table import Reckoning, Row, check_equal, rounded
from ladleworth.units import share


@dataclass(frozen=True, slots=True)
class HonestCosts:
    """Three costs of one batch, each right for another question.

    Parameters
    ----------
    batch, portions
        The batch and how many portions came out.
    empty_kitchen
        Whole packages of everything the batch used, one row per item.
    cart_cents
        Everything bought on the days and at the shops where its purchases were made.
    used_cents
        The share of each lot actually drawn.
    uncounted
        Items that an empty kitchen would have to buy and for which nobody has a price; they are in no sum.
    """

    batch: str
    portions: int
    empty_kitchen: Reckoning
    cart_cents: int
    used_cents: int
    uncounted: tuple[str, ...] = ()

    def per_portion(self) -> tuple[Fraction, Fraction, Fraction]:
        """Give the three by portion, exact: empty kitchen, cart, used."""
        costs = (self.empty_kitchen.total_cents, self.cart_cents, self.used_cents)
        empty, cart, used = (Fraction(cents, self.portions) for cents in costs)
        return empty, cart, used


def purchases_used(ledger: Ledger, batch: str) -> dict[str, Fraction]:
    """Tell how much of each purchase is in a batch, through the portions of other batches as well.

    Parameters
    ----------
    ledger
        The ledger.
    batch
        The batch's id.

    Returns
    -------
    dict
        Id of the lot as it came into the house to the quantity used, in that lot's unit. Of another batch's
        portions it takes the same share as the portions' share of that batch's cents, or of its portions when
        that batch cost nothing. Portions that were counted in stand for themselves.
    """
    cooked = {entry.lot for entry in ledger.movements if entry.kind is Kind.COOKED}
    used: dict[str, Fraction] = {}
    for lot_id, (quantity, _) in drawn_by_lot(ledger, batch).items():
        purchase = purchase_of(ledger, lot_id)
        if purchase.id not in cooked:
            used[purchase.id] = used.get(purchase.id, Fraction(0)) + quantity
            continue
        part = Fraction(quantity, purchase.quantity) * _part_of_batch(ledger, purchase)
        for inner, inner_quantity in purchases_used(ledger, purchase.item).items():
            used[inner] = used.get(inner, Fraction(0)) + inner_quantity * part
    return used


def honest_costs(ledger: Ledger, batch: str) -> HonestCosts:
    """Work out the three costs at the prices paid.

    For a gift the price on the shelf stands in for the price paid in the empty kitchen, where it is known.

    Parameters
    ----------
    ledger
        The ledger.
    batch
        The batch's id.

    Returns
    -------
    HonestCosts
        The empty kitchen buys, per item, the cheapest whole packages out of those that this kitchen bought for
        the batch.

    Raises
    ------
    LedgerError
        When the batch is not in portions.
    """
    cost = reckon_batch(ledger, batch)
    used = purchases_used(ledger, batch)
    purchases = {lot_id: ledger.holding(lot_id).lot for lot_id in used}
    needs = _by_item(used, purchases)
    offers: dict[tuple[str, LotUnit], list[Offer]] = {}
    for lot in purchases.values():
        offer = _as_offer(lot)
        if offer is not None:
            offers.setdefault((lot.item, lot.unit), []).append(offer)
    empty, uncounted = _covered(f"{batch} from an empty kitchen, at prices paid", needs, offers)
    return HonestCosts(
        batch, cost.portions, empty, _cart_cents(ledger, purchases), cost.used_cents, uncounted
    )


def empty_kitchen_at(
    ledger: Ledger, batch: str, book: PriceBook, *, on: date | None = None
) -> tuple[Reckoning, tuple[str, ...]]:
    """Work out what an empty kitchen would pay for the batch in whole packages at offers.

    Parameters
    ----------
    ledger
        The ledger.
    batch
        The batch's id.
    book
        The price book; the newest price of each package counts.
    on
        Prices seen after this day are left out.

    Returns
    -------
    tuple of (Reckoning, tuple of str)
        One row per item, and the items without an offer, which are in no sum.
    """
    used = purchases_used(ledger, batch)
    needs = _by_item(used, {lot_id: ledger.holding(lot_id).lot for lot_id in used})
    offers = {
        (item, unit): [offer for offer in book.latest(item, on=on) if offer.unit is unit]
        for item, unit in needs
    }
    return _covered(f"{batch} from an empty kitchen, at offers", needs, offers)


def cook_again(
    ledger: Ledger, batch: str, book: PriceBook, *, on: date | None = None
) -> tuple[Reckoning, tuple[str, ...]]:
    """Work out what the shares used would cost at the best unit prices on offer.

    Parameters
    ----------
    ledger, batch, book, on
        As for `empty_kitchen_at`.

    Returns
    -------
    tuple of (Reckoning, tuple of str)
        One row per item, and the items without an offer, which are in no sum.
    """
    used = purchases_used(ledger, batch)
    needs = _by_item(used, {lot_id: ledger.holding(lot_id).lot for lot_id in used})
    exact: dict[str, Fraction] = {}
    uncounted = []
    for (item, unit), quantity in needs.items():
        try:
            best = book.cheapest_unit(item, unit, on=on)
        except MissingFact:
            uncounted.append(item)
            continue
        exact[item] = exact.get(item, Fraction(0)) + quantity * best.unit_price
    return rounded(f"{batch} at today's best offers", exact), tuple(uncounted)


def at_shelf_prices(ledger: Ledger, batch: str) -> tuple[Reckoning, tuple[str, ...]]:
    """Work out what the shares used would cost at the prices on the shelf, before discounts and for gifts.

    Parameters
    ----------
    ledger
        The ledger.
    batch
        The batch's id.

    Returns
    -------
    tuple of (Reckoning, tuple of str)
        One row per item, and the items with a lot whose shelf price nobody knows: of these the lots with a known
        price are in the sum, the others are not.
    """
    exact: dict[str, Fraction] = {}
    unknown: dict[str, None] = {}
    for lot_id, quantity in purchases_used(ledger, batch).items():
        lot = ledger.holding(lot_id).lot
        if lot.shelf_cents is None:
            unknown[lot.item] = None
            continue
        exact[lot.item] = exact.get(lot.item, Fraction(0)) + quantity * Fraction(
            lot.shelf_cents, lot.quantity
        )
    return rounded(f"{batch} at shelf prices", exact), tuple(unknown)


def cart_fate(ledger: Ledger, day: date, shop: str) -> Reckoning:
    """Follow one cart: what was paid is what was used, what is left, what was lost and what was given away.

    Parameters
    ----------
    ledger
        The ledger, cut off at the day wanted (`Ledger.as_of`).
    day, shop
        The visit.

    Returns
    -------
    Reckoning
        Rows drawn for batches, eaten as it was, left, lost, given away; the total is what was paid.

    Raises
    ------
    JudgeRefused
        When the two do not agree, which would be a fault of the program.
    """
    bought = _bought(ledger, {(day, shop)})
    family = {lot.id for lot in ledger.lots if purchase_of(ledger, lot.id).id in bought}
    sums = dict.fromkeys(("drawn for batches", "eaten as it was", "left", "lost", "given away"), 0)
    labels = {
        Kind.DRAWN: "drawn for batches",
        Kind.EATEN: "eaten as it was",
        Kind.THROWN_OUT: "lost",
        Kind.COUNTED: "lost",
        Kind.GIVEN_AWAY: "given away",
    }
    for entry in ledger.movements:
        if entry.lot in family and entry.kind in labels:
            sums[labels[entry.kind]] -= entry.cents
    sums["left"] = sum(ledger.balance(lot_id).cents for lot_id in family)
    paid = Reckoning(
        f"paid at {shop} on {day}", tuple(Row(*pair) for pair in bought.items()), sum(bought.values())
    )
    fate = Reckoning(
        f"what became of the cart of {shop} on {day}",
        tuple(Row(label, cents) for label, cents in sums.items()),
        sum(sums.values()),
    )
    check_equal(paid, fate)
    return fate


def _bought(ledger: Ledger, visits: set[tuple[date, str]]) -> dict[str, int]:
    """Cents paid by lot on some visits, for purchases that stand."""
    paid: dict[str, int] = {}
    for entry in ledger.movements:
        if entry.kind is not Kind.BOUGHT or entry.reverses is not None:
            continue
        visit = (entry.day, ledger.holding(entry.lot).lot.shop)
        if visit in visits and ledger.reversal_of(entry.id) is None:
            paid[entry.lot] = entry.cents
    return paid


def _cart_cents(ledger: Ledger, purchases: dict[str, Lot]) -> int:
    """Everything paid on the visits on which some purchases were made."""
    visits = {
        (entry.day, purchases[entry.lot].shop)
        for entry in ledger.movements
        if entry.kind is Kind.BOUGHT and entry.lot in purchases and not purchases[entry.lot].gift
    }
    return sum(_bought(ledger, visits).values())


def _part_of_batch(ledger: Ledger, made: Lot) -> Fraction:
    """Share of a whole batch that one lot of its portions is."""
    account = ledger.batch(made.item)
    if account.cooked_cents:
        return Fraction(made.cents, account.cooked_cents)
    cooked = (m for m in ledger.movements if m.kind is Kind.COOKED and m.batch == made.item)
    count = sum(entry.quantity for entry in cooked)
    return Fraction(made.quantity, count)


def _by_item(used: dict[str, Fraction], purchases: dict[str, Lot]) -> dict[tuple[str, LotUnit], Fraction]:
    """Sum what is used by item and unit."""
    needs: dict[tuple[str, LotUnit], Fraction] = {}
    for lot_id, quantity in used.items():
        key = (purchases[lot_id].item, purchases[lot_id].unit)
        needs[key] = needs.get(key, Fraction(0)) + quantity
    return needs


def _as_offer(lot: Lot) -> Offer | None:
    """One package of a lot at the price paid, or on the shelf for a gift; None when nobody knows, or for portions."""
    price = lot.shelf_cents if lot.gift else lot.cents
    if price is None or lot.unit is LotUnit.PORTION:
        return None
    content, one = ceil(Fraction(lot.quantity, lot.packages)), share(price, 1, lot.packages)
    return Offer(lot.item, lot.shop or "not told", content, lot.unit, one, lot.got_on, lot.id, lot.offer)


def _covered(
    title: str, needs: dict[tuple[str, LotUnit], Fraction], offers: dict[tuple[str, LotUnit], list[Offer]]
) -> tuple[Reckoning, tuple[str, ...]]:
    """Cover needs in whole packages; what has no offer is named instead."""
    rows, uncounted = [], []
    for key, quantity in needs.items():
        if offers.get(key):
            rows.append(Row(key[0], cheapest_cover(offers[key], ceil(quantity)).cost_cents))
        else:
            uncounted.append(key[0])
    return Reckoning(title, tuple(rows), sum(row.cents for row in rows)), tuple(uncounted)
