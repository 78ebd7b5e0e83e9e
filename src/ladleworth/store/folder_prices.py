"""prices.csv: the price book, and how many packages of an offer can be had in one visit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import timedelta
from fractions import Fraction
from statistics import median

from ladleworth.dish.tree import shorten
from ladleworth.facts import Food
from ladleworth.household import Shop
from ladleworth.ledger import LotUnit, Offer, PriceBook
from ladleworth.store.amounts import unit_of
from ladleworth.store.csv_rows import Columns, Row, write_rows
from ladleworth.store.fields import suggestion
from ladleworth.store.folder_stock import (
    FoodFinder,
    Shelf,
    free_id,
    read_amount_field,
    read_date_field,
    read_money_field,
)
from ladleworth.units import Currency, show_money

PRICE_COLUMNS = Columns(("shop", "food", "package", "price"), ("seen", "name", "most", "id"))
FAR_OFF = 10
"""An offer this many times dearer or cheaper by the unit than the others of its food is doubted. House rule."""


@dataclass(frozen=True, slots=True)
class PricesPaper:
    """The price book as read, and the most packages a visit by offer id."""

    prices: PriceBook = field(default_factory=PriceBook)
    most: dict[str, int] = field(default_factory=dict)


def read_prices(rows: Iterable[Row], shelf: Shelf, shops: tuple[Shop, ...]) -> PricesPaper:
    """Read prices.csv.

    Parameters
    ----------
    rows
        The paper's rows; each takes its own findings.
    shelf
        What the kitchen says beside it.
    shops
        The shops of kitchen.yaml; when it lists any, an offer of another one is doubted.

    Returns
    -------
    PricesPaper
        The offers without a fault. An offer without an id of its own is called after its food and numbered
        from the second on: the same paper always gives the same ids.
    """
    finder = FoodFinder(shelf.foods)
    read = [
        (row, offer) for row in rows if (offer := _offer(row, finder.find(row), shelf, shops)) is not None
    ]
    ids = _ids(read)
    most: dict[str, int] = {}
    offers: list[Offer] = []
    lines: list[tuple[Row, Offer]] = []
    packages: dict[tuple[object, ...], int] = {}
    lacking: set[str] = set()
    for (row, offer), name in zip(read, ids, strict=True):
        key = (offer.food, offer.shop, offer.unit, offer.quantity, offer.name, offer.seen)
        if key in packages:
            what = f"the same package at {offer.shop} on the same day stands on line {packages[key]}"
            row.fault("package", what, "keep one of the two, or give them names that differ")
            continue
        packages[key] = row.line
        _check_keeping(row, offer, shelf, lacking)
        limit = _most(row)
        if limit is not None:
            most[name] = limit
        offers.append(
            Offer(
                offer.food,
                offer.shop,
                offer.quantity,
                offer.unit,
                offer.price_cents,
                offer.seen,
                offer.name,
                name,
            )
        )
        lines.append((row, offers[-1]))
    _check_prices(lines)
    return PricesPaper(PriceBook(tuple(offers)), most)


def _offer(row: Row, food: Food | None, shelf: Shelf, shops: tuple[Shop, ...]) -> Offer | None:
    """Read one row; None after a fault."""
    shop = row["shop"]
    names = tuple(known.name for known in shops)
    hint = suggestion(shop, names, "shops")
    if not shop:
        row.fault("shop", "the shop is missing", "write where the price was seen")
    elif names and shop not in names:
        what = f"kitchen.yaml lists no shop {shorten(shop)}"
        row.doubt("shop", what, f"it is taken as one without a trip cost; {hint}")
    price = read_money_field(row, "price", shelf.currency, empty=None)
    seen = read_date_field(row, "seen") or shelf.start
    quantity = read_amount_field(row, "package", food, shelf.foods) if food is not None else None
    if quantity == 0:
        row.fault("package", "the package holds nothing", "write its content, such as 500 g or 12")
    if food is None or not quantity or price is None or seen is None or row.is_faulty():
        return None
    if (
        shelf.start is not None
        and shelf.days is not None
        and seen >= shelf.start + timedelta(days=shelf.days)
    ):
        what = f"the price was seen on {seen}, after the days of the plan"
        row.doubt("seen", what, "correct the date", seen)
    return Offer(food.id, shop, quantity, unit_of(food), price, seen, row["name"])


def _ids(read: list[tuple[Row, Offer]]) -> list[str]:
    """Give every offer its id, those that are written first; a written one that is taken is a fault."""
    numbers: dict[str, int] = {}
    taken: set[str] = set()
    for row, _ in read:
        if row["id"] in taken:
            row.fault(
                "id", f"the id {shorten(row['id'])} stands there twice", "give each offer an id of its own"
            )
        if row["id"]:
            taken.add(row["id"])
    return [row["id"] or free_id(offer.food, numbers, taken) for row, offer in read]


def _most(row: Row) -> int | None:
    text = row["most"]
    if not text:
        return None
    if text.isascii() and text.isdigit() and int(text[:10]) < 1_000_000:
        return int(text)
    row.fault("most", f"most is {shorten(text)}", "write a whole number of packages, or leave it empty")
    return None


def _check_keeping(row: Row, offer: Offer, shelf: Shelf, lacking: set[str]) -> None:
    """Fault an offer of which a dish needs the food and nobody knows how long it keeps, once per food."""
    if offer.food in shelf.keep_days or offer.food not in shelf.needed or offer.food in lacking:
        return
    lacking.add(offer.food)
    name = shelf.foods.get(offer.food).name
    row.fault(
        "food",
        f"nobody has the keeping time of {name} once bought, and a dish needs it",
        f"write {{food: {name}, keep_days: N}} in foods.yaml, the day of buying as day 1, or keep_days: durable",
    )


def _check_prices(lines: list[tuple[Row, Offer]]) -> None:
    """Doubt prices that lie far from the others of their food: a slip of the point, or of the unit."""
    by_food: dict[tuple[str, LotUnit], list[tuple[Row, Offer]]] = {}
    for row, offer in lines:
        by_food.setdefault((offer.food, offer.unit), []).append((row, offer))
    for group in by_food.values():
        for at, (row, offer) in enumerate(group):
            others = [other.unit_price for place, (_, other) in enumerate(group) if place != at]
            if not others or (len(group) == 2 and at == 0):  # of two, the later one is doubted
                continue
            usual = Fraction(median(others))
            if usual == 0 or usual / FAR_OFF < offer.unit_price < usual * FAR_OFF:
                continue
            times = float(offer.unit_price / usual)
            told = (
                f"{times:.3g} times" if times > 1 else f"1/{1 / times:.3g} of" if times else "nothing against"
            )
            row.doubt(
                "price", f"by the unit this is {told} the usual price of the food", "check price and package"
            )


def write_prices(prices: PriceBook, most: dict[str, int], cur: Currency) -> str:
    """Write the price book as prices.csv, ids and exact amounts included.

    Parameters
    ----------
    prices
        The price book.
    most
        The most packages a visit by offer id.
    cur
        The kitchen's currency.

    Returns
    -------
    str
        The text of the paper, which `read_prices` reads back as the same offers.
    """
    rows = [
        (
            offer.shop, offer.food, _exact(offer), show_money(offer.price_cents, cur), offer.seen.isoformat(),
            offer.name, str(most.get(offer.id, "")), offer.id,
        )
        for offer in prices.offers
    ]  # fmt: skip
    return write_rows(PRICE_COLUMNS.all, rows)


def _exact(offer: Offer) -> str:
    if offer.unit is LotUnit.PIECE:
        return str(offer.quantity)
    grams, rest = divmod(offer.quantity, 1000)
    return f"{offer.quantity} mg" if rest else f"{grams} g"


def shops_of(listed: tuple[Shop, ...], offers: Iterable[Offer]) -> tuple[Shop, ...]:
    """Give the kitchen's shops: those it lists, then those of the price book, at no trip cost."""
    names = {shop.name for shop in listed}
    return listed + tuple(dict.fromkeys(Shop(offer.shop) for offer in offers if offer.shop not in names))
