"""The price book: what a package of a food costs at a shop, when that was seen, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from statistics import median

from ladleworth.errors import BadField, MissingFact
from ladleworth.ledger.lot import LotUnit, in_words
from ladleworth.units import Currency, half_up

MG_PER_100_G = 100_000
MG_PER_LB = Fraction(45_359_237, 100)
"""One avoirdupois pound is 0.45359237 kg exactly.

Source: international yard and pound agreement of 1959, as in NIST Special Publication 811 (from memory).
"""


@dataclass(frozen=True, slots=True)
class Offer:
    """A package size at a price at a shop, with the date on which it was seen.

    Parameters
    ----------
    food
        The food's id.
    shop
        The shop.
    quantity
        What one package holds, in `unit`; above zero.
    unit
        Milligrams or pieces.
    price_cents
        The price of one package.
    seen
        The day on which the price was seen.
    name
        What the package is called on the shelf.
    id
        The offer's own id, empty when it has none.
    """

    food: str
    shop: str
    quantity: int
    unit: LotUnit
    price_cents: int
    seen: date
    name: str = ""
    id: str = ""

    def __post_init__(self) -> None:
        if not self.food or not self.shop:
            raise BadField(f"an offer names food {self.food!r} and shop {self.shop!r}; name both")
        if self.unit is LotUnit.PORTION:
            raise BadField(
                f"{self} is by the portion; write what the package weighs or how many pieces it holds"
            )
        if self.quantity <= 0:
            raise BadField(f"{self} holds {self.quantity} {self.unit.value}; write a content above zero")
        if self.price_cents < 0:
            raise BadField(f"{self} costs {self.price_cents} cents; write zero or more")

    @property
    def unit_price(self) -> Fraction:
        """Cents per milligram or per piece, exact."""
        return Fraction(self.price_cents, self.quantity)

    def __str__(self) -> str:
        return f"offer {self.id or self.name or self.food!r} at {self.shop!r}"


@dataclass(frozen=True, slots=True)
class PriceHistory:
    """What one package of a food has cost over time.

    `low_cents`, `usual_cents` (the median, rounded half up) and `last_cents` are for one package; `seen` counts
    the days on record; `days_between_lows` is the average gap between runs at the lowest price, None before
    the second such run.
    """

    low_cents: int
    usual_cents: int
    last_cents: int
    last_seen: date
    seen: int
    days_between_lows: Fraction | None


@dataclass(frozen=True, slots=True)
class PriceBook:
    """Every offer ever seen, old prices included.

    `offers` are in any order; two of the same package at the same shop must not bear the same day.
    """

    offers: tuple[Offer, ...] = ()

    def __post_init__(self) -> None:
        seen: set[tuple[object, ...]] = set()
        for offer in self.offers:
            key = (*_package(offer), offer.seen)
            if key in seen:
                raise BadField(f"{offer} was seen twice on {offer.seen}; keep one of the two prices")
            seen.add(key)

    def latest(self, food: str, *, shop: str | None = None, on: date | None = None) -> tuple[Offer, ...]:
        """Give the newest price of each package of a food.

        Parameters
        ----------
        food
            The food's id.
        shop
            One shop, None for all of them.
        on
            Prices seen after this day are left out; None for no limit.

        Returns
        -------
        tuple of Offer
            By shop, then by content, then by name; empty when nobody has an offer.
        """
        newest: dict[tuple[object, ...], Offer] = {}
        for offer in self.offers:
            if offer.food != food or (shop is not None and offer.shop != shop):
                continue
            if on is not None and offer.seen > on:
                continue
            known = newest.get(_package(offer))
            if known is None or offer.seen > known.seen:
                newest[_package(offer)] = offer
        return tuple(sorted(newest.values(), key=lambda o: (o.shop, o.unit.value, o.quantity, o.name, o.id)))

    def cheapest_unit(self, food: str, unit: LotUnit, *, on: date | None = None) -> Offer:
        """Find the offer with the lowest unit price, the newest price of each package counting.

        Raises
        ------
        MissingFact
            When nobody has an offer of the food in that unit.
        """
        offers = [offer for offer in self.latest(food, on=on) if offer.unit is unit]
        if not offers:
            sold = "by weight" if unit is LotUnit.MG else f"by the {unit.value}"
            raise MissingFact(f"the price book has no price of {food!r} sold {sold}; add one to prices.csv")
        return min(offers, key=lambda offer: (offer.unit_price, offer.quantity, offer.shop, offer.name))

    def history(self, offer: Offer) -> PriceHistory:
        """Tell the lowest, the usual and the last price of one package at one shop.

        Parameters
        ----------
        offer
            Any price of that package.

        Returns
        -------
        PriceHistory
            Over every day on which it was seen.

        Raises
        ------
        MissingFact
            When the price book has no price of it.
        """
        prices = sorted((o.seen, o.price_cents) for o in self.offers if _package(o) == _package(offer))
        if not prices:
            raise MissingFact(f"the price book has no price of {offer}; add one")
        low = min(cents for _, cents in prices)
        starts = [
            day
            for place, (day, cents) in enumerate(prices)
            if cents == low and (place == 0 or prices[place - 1][1] != low)
        ]
        gap = Fraction((starts[-1] - starts[0]).days, len(starts) - 1) if len(starts) > 1 else None
        usual = Fraction(median(Fraction(cents) for _, cents in prices))
        last_seen, last = prices[-1]
        return PriceHistory(low, half_up(usual), last, last_seen, len(prices), gap)


def surcharges(offers: Iterable[Offer]) -> tuple[tuple[Offer, Offer], ...]:
    """Find bigger packages that cost more by the unit than a smaller one of the same food and shop.

    Parameters
    ----------
    offers
        Offers to compare, one price per package.

    Returns
    -------
    tuple of (Offer, Offer)
        The dearer big package with the best small one, once per big package.
    """
    every, found = tuple(offers), []
    for big in every:
        smaller = [
            small
            for small in every
            if (small.food, small.shop, small.unit) == (big.food, big.shop, big.unit)
            and small.quantity < big.quantity
            and small.unit_price < big.unit_price
        ]
        if smaller:
            found.append(
                (big, min(smaller, key=lambda small: (small.unit_price, small.quantity, small.name)))
            )
    return tuple(found)


def break_even_share(small: Offer, large: Offer) -> Fraction:
    """Tell what share of the large package must be used for it to pay against buying small by need.

    Parameters
    ----------
    small, large
        Two packages of one food.

    Returns
    -------
    Fraction
        Unit price of the large over unit price of the small: the large pays only when the share that gets
        used is above this. At one or more it never pays.

    Raises
    ------
    BadField
        When the two cannot be compared, or the small package is free.
    """
    if (small.food, small.unit) != (large.food, large.unit):
        raise BadField(f"{small} and {large} are not one food in one unit; compare two packages of one food")
    if small.unit_price == 0:
        raise BadField(
            f"{small} is free, so no share of {large} pays against it; compare with a paid package"
        )
    return large.unit_price / small.unit_price


def shelf_price(offer: Offer, cur: Currency, *, per_lb: bool = False) -> str:
    """Show a unit price in the kitchen's money on one basis per food, rounded for the eye only.

    Parameters
    ----------
    offer
        The offer; kept exact, never replaced by what is shown.
    cur
        The currency its price is in.
    per_lb
        True for foods by mass to be shown per pound in place of per 100 g.

    Returns
    -------
    str
        From one unit of the money up to its smallest unit, below that to the tenth of that, half up:
        '0.439 USD per 100 g', '2.18 USD per lb', '0.250 GBP per piece', '38 JPY per 100 g'.

    Source
    ------
    Bases per 100 g, per pound and per piece: NIST Handbook 130 (2014), Uniform Unit Pricing Regulation,
    section 2. The rounding rule of section 4 (from a dollar up to the cent, below to the tenth of a cent) is from
    memory.
    """
    if offer.unit is LotUnit.MG:
        basis, name = (MG_PER_LB, "lb") if per_lb else (Fraction(MG_PER_100_G), "100 g")
    else:
        basis, name = Fraction(1), "piece"
    money = offer.unit_price * basis / cur.minor_units
    decimals = cur.minor_digits + (money < 1)
    figure = half_up(money * 10**decimals)
    whole, rest = divmod(figure, 10**decimals)
    return f"{whole}{f'.{rest:0{decimals}}' if decimals else ''} {cur.code} per {name}"


def describe(offer: Offer) -> str:
    """Name an offer with its content and price, for a list or a message."""
    return f"{offer.name or offer.food}, {in_words(offer.quantity, offer.unit)} for {offer.price_cents} cents"


def _package(offer: Offer) -> tuple[object, ...]:
    """Tell what makes two offers the same package, whatever their price and day."""
    return (offer.food, offer.shop, offer.unit, offer.quantity, offer.name)
